// Serves the page without a network after its first visit. A new version is fetched beside the old
// one, which serves until its last window is closed, so that no page runs on files of two versions.
const PREFIX = "coolpath-";
const STORE = PREFIX + VERSION;

self.addEventListener("install", (event) => {
  // What the page has fetched already is asked about, not fetched again.
  const fresh = FILES.map((name) => new Request(name, { cache: "no-cache" }));
  event.waitUntil(caches.open(STORE).then((store) => store.addAll(fresh)));
});

self.addEventListener("activate", (event) => {
  const old = (names) => names.filter((name) => name.startsWith(PREFIX) && name !== STORE);
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(old(names).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const inside = request.method === "GET" && request.url.startsWith(self.registration.scope);
  if (!inside) return;
  // Whatever address of the folder is opened, it is the page, but for a document of its own.
  const name = request.url.slice(self.registration.scope.length).split(/[?#]/)[0];
  const isPage = request.mode === "navigate" && !FILES.includes(name);
  const wanted = isPage ? "index.html" : request;
  event.respondWith(answered(wanted, request, name));
});

async function answered(wanted, request, name) {
  const store = await caches.open(STORE);
  const found = await store.match(wanted, { ignoreSearch: true });
  if (found) return found;
  const fetched = await fetch(request);
  // A language is kept once it was chosen.
  if (fetched.ok && /^texts-[\w-]+\.json$/.test(name)) await store.put(request, fetched.clone());
  return fetched;
}

function decoded(text) {
  if (Uint8Array.fromBase64) return Uint8Array.fromBase64(text);
  const signs = atob(text);
  const bytes = new Uint8Array(signs.length);
  for (let at = 0; at < signs.length; at += 1) bytes[at] = signs.charCodeAt(at);
  return bytes;
}

// As a server would answer, so that the browser compiles while it unpacks.
function unpacked(packed) {
  const plain = packed.stream().pipeThrough(new DecompressionStream("gzip"));
  return new Response(plain, { headers: { "Content-Type": "application/wasm" } });
}

function packed(id) {
  return new Blob([decoded(document.getElementById(id).textContent)]);
}

async function embeddedPart(name) {
  return unpacked(packed(name));
}

// A worker runs the bindings alone, which stand before this mark in the page's script, and gets the parts
// of the program from the page: it cannot read the page's file. From a disk only scripts that are no
// modules may be workers.
function bindings() {
  const [own] = document.querySelector("script[type=module]").textContent.split("// coolpath:page");
  return own.replace(/^export .*$/m, "").replaceAll("import.meta.url", '""');
}

function startedInWorker({ data }) {
  embeddedPart = async (name) => unpacked(data.parts[name]);
  __wbg_init({ module_or_path: data.program });
}

globalThis.coolpathWorker = (program) => {
  const script = `${bindings()}\nlet embeddedPart;\n${unpacked}\n${startedInWorker}\naddEventListener("message", startedInWorker, { once: true });`;
  const address = URL.createObjectURL(new Blob([script], { type: "text/javascript" }));
  const worker = new Worker(address);
  const names = [...document.querySelectorAll('script[id$=".wasm"]')].map((part) => part.id);
  worker.postMessage({ program, parts: Object.fromEntries(names.map((name) => [name, packed(name)])) });
  return worker;
};

// The guide is a template of this file: no other file need lie beside it, and what was typed stays
// where it is. Its links lead from place to place inside the dialog, not the page.
function guideWindow() {
  const known = document.querySelector(".guide-window");
  if (known) return known;
  const guide = document.createElement("dialog");
  guide.className = "guide-window";
  guide.setAttribute("aria-label", "The guide");
  const close = document.createElement("button");
  close.type = "button";
  close.className = "guide-close";
  close.textContent = "Close the guide";
  close.addEventListener("click", () => guide.close());
  guide.append(close, document.getElementById("guide").content.cloneNode(true));
  document.body.append(guide);
  return guide;
}

function followGuideLink(event) {
  const link = event.target.closest?.('a[href^="guide.html"], .guide-window a[href^="#"]');
  if (!link) return;
  event.preventDefault();
  const guide = guideWindow();
  if (!guide.open) guide.showModal();
  const name = link.getAttribute("href").split("#")[1] ?? "guide-top";
  const place = guide.querySelector(`#${CSS.escape(name)}`);
  place?.scrollIntoView();
  place?.focus({ preventScroll: true });
}

document.addEventListener("click", followGuideLink);
// The middle button would open a tab on a file that is not there.
document.addEventListener("auxclick", (event) => {
  if (event.button === 1) followGuideLink(event);
});

// The bindings stand above in the same script.
startPage(async () => __wbg_init, () => embeddedPart("program"));

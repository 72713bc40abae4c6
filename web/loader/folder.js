// Relative to this file, so that the folder works wherever it is put.
async function fetchedProgram() {
  const response = await fetch(new URL("coolpath_web_bg.wasm", import.meta.url));
  if (!response.ok) throw new Error(`coolpath_web_bg.wasm: ${response.status}`);
  return response;
}

globalThis.coolpathWorker = (program) => {
  const worker = new Worker(new URL("engine.js", import.meta.url), { type: "module" });
  worker.postMessage(program);
  return worker;
};

startPage(async () => (await import("./coolpath_web.js")).default, fetchedProgram);

// Without a service worker the page works all the same, only not without a network. What it fetches
// for later must not delay the first answer; whoever only looks gets it after a while.
const LATEST_MS = 10000;

function keepForLater() {
  navigator.serviceWorker?.register(new URL("worker.js", import.meta.url)).catch(() => {});
}

const waiting = setTimeout(keepForLater, LATEST_MS);
new MutationObserver((_, self) => {
  if (!document.querySelector(".page:not(.early) .verdict")) return;
  self.disconnect();
  clearTimeout(waiting);
  (window.requestIdleCallback ?? setTimeout)(keepForLater);
}).observe(document.getElementById("coolpath"), { childList: true, subtree: true });

// A file that is opened with the installed page goes the way of one that is dropped on it.
function dropOnPage(file) {
  const page = document.querySelector(".page:not(.early)");
  if (!page) return false;
  const dataTransfer = new DataTransfer();
  dataTransfer.items.add(file);
  page.dispatchEvent(new DragEvent("drop", { bubbles: true, cancelable: true, dataTransfer }));
  return true;
}

window.launchQueue?.setConsumer(async ({ files }) => {
  const file = await files[0]?.getFile();
  if (!file || dropOnPage(file)) return;
  new MutationObserver((_, self) => {
    if (dropOnPage(file)) self.disconnect();
  }).observe(document.getElementById("coolpath"), { childList: true, subtree: true });
});

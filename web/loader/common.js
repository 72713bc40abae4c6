// A failure is said on the page: nobody opens the console of a page that stays empty.
function showFailure(sentence, error) {
  const element = document.getElementById("failure");
  element.textContent = `${sentence} (${error?.message ?? error}) `;
  const text = typedText();
  if (text) element.append(saveButton(text));
  element.hidden = false;
}

// What the page stored of this window with the last letter, without the program's help.
function typedText() {
  try {
    const mark = sessionStorage.getItem("coolpath:mark");
    return (
      sessionStorage.getItem("coolpath:rescue") ??
      (mark && localStorage.getItem(`coolpath:tab:${mark}`))
    );
  } catch {
    return null;
  }
}

function saveButton(text) {
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = "Save what you typed to a file";
  button.addEventListener("click", () => {
    const anchor = document.createElement("a");
    anchor.href = URL.createObjectURL(new Blob([text], { type: "application/json" }));
    anchor.download = "typed.coolpath.json";
    anchor.click();
    URL.revokeObjectURL(anchor.href);
  });
  return button;
}

const STOPPED =
  "Coolpath has stopped because of a fault of its own. What you typed is still shown, and stored with the last letter: save it to a file or note it down, then reload the page.";

window.addEventListener("error", (event) => {
  // Browsers also report harmless layout notices here, without an exception.
  if (event.error) showFailure(STOPPED, event.error);
});
window.addEventListener("unhandledrejection", (event) => showFailure(STOPPED, event.reason));

// Whoever comes for the first time sees what this is before the program is here; whoever has a design
// waits for that.
function showFirstLook() {
  try {
    const isKept = (key) => key.startsWith("coolpath:") && key !== "coolpath:language";
    const kept = Object.keys(localStorage).some(isKept);
    if (kept || location.hash.startsWith("#coolpath")) return;
  } catch {
    // Without storage every visit is the first.
  }
  const look = document.getElementById("first-look");
  look.hidden = false;
  look.addEventListener("click", ({ target }) => {
    const what = target.closest("[data-begin]")?.dataset.begin;
    if (what) beginEarly(look, what);
  });
}

// What is pressed before the program is here is noted for it; the example's answer was worked out when
// the page was built, and is shown at once.
function beginEarly(look, what) {
  document.documentElement.dataset.begun = what;
  if (what === "example") {
    look.replaceWith(document.getElementById("early-example").content.cloneNode(true));
  } else {
    document.getElementById("early-asked").hidden = false;
  }
}

async function startPage(loadBindings, loadProgram) {
  showFirstLook();
  try {
    const start = await loadBindings();
    await start({ module_or_path: await loadProgram() });
  } catch (error) {
    document.getElementById("loading")?.remove();
    showFailure(
      "Coolpath could not start. Reload the page; if that does not help, try a current browser.",
      error,
    );
  }
}

// A failure is said on the page: nobody opens the console of a page that stays empty.
function showFailure(sentence, error) {
  const element = document.getElementById("failure");
  element.textContent = `${sentence} (${error?.message ?? error})`;
  element.hidden = false;
}

const STOPPED =
  "Coolpath has stopped because of a fault of its own. What you typed is still shown: note it down, then reload the page.";

window.addEventListener("error", (event) => {
  // Browsers also report harmless layout notices here, without an exception.
  if (event.error) showFailure(STOPPED, event.error);
});
window.addEventListener("unhandledrejection", (event) => showFailure(STOPPED, event.reason));

async function startPage(loadBindings, loadProgram) {
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

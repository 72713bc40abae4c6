// A worker of the page: the program that the page has compiled already, without a page.
import start from "./coolpath_web.js";

addEventListener("message", ({ data }) => start({ module_or_path: data }), { once: true });

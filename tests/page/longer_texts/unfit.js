// Finds texts that do not fit: cut, out of their box, over one another, or wider than the page.

const NEAR = 1;
// Room that the browser takes for the arrow of a list.
const ARROW = 18;
// What holds its text even where nothing is seen of its box.
const HOLDERS = "button, summary, label, legend, select, .button, a, th, td, dt, dd, li, h1, h2, h3, h4, p, figcaption, caption";

const named = (element) => {
  const name = (one) => one.localName + (one.id ? `#${one.id}` : "")
    + [...one.classList].map((word) => `.${word}`).join("");
  return (element.parentElement ? `${name(element.parentElement)} > ` : "") + name(element);
};
const words = (text) => `“${text.replace(/\s+/g, " ").trim().slice(0, 60)}”`;
const cuts = (way) => way === "hidden" || way === "clip";
const scrolls = (way) => way === "auto" || way === "scroll";
const isOutOfSight = (element) => element.closest(".visually-hidden") !== null || ancestors(element).some((one) =>
  one.clientWidth <= 1 && one.clientHeight <= 1 && getComputedStyle(one).clipPath !== "none");
const isFilled = (style) => style.backgroundColor !== "rgba(0, 0, 0, 0)";
// A box that is seen, by its ground or its frame.
const isPainted = (style) =>
  isFilled(style) || (parseFloat(style.borderTopWidth) > 0 && parseFloat(style.borderLeftWidth) > 0);

function ancestors(element) {
  const found = [];
  for (let one = element; one && one !== document.documentElement; one = one.parentElement) found.push(one);
  return found;
}

// What a box does with the text in it, and the part of it that shows it; looked up once for all its lines.
function boxOf(element, known) {
  if (!known.has(element)) {
    const style = getComputedStyle(element);
    const outer = element.getBoundingClientRect();
    const left = outer.left + element.clientLeft;
    const top = outer.top + element.clientTop;
    const { display, overflowX, overflowY, position } = style;
    known.set(element, {
      outer, left, top, right: left + element.clientWidth, bottom: top + element.clientHeight,
      isBox: display !== "contents" && display !== "inline",
      cutsX: cuts(overflowX), cutsY: cuts(overflowY), scrollsX: scrolls(overflowX), scrollsY: scrolls(overflowY),
      isHolder: isPainted(style) || element.matches(HOLDERS),
      floats: position === "absolute" || position === "fixed",
      covers: position === "sticky" || position === "fixed" || (position === "absolute" && isFilled(style)),
    });
  }
  return known.get(element);
}

// The body of the letters: line boxes may be lower than a face's tallest letter without harm.
function body(area) {
  const trim = (area.bottom - area.top) * 0.22;
  return { left: area.left, right: area.right, top: area.top + trim, bottom: area.bottom - trim };
}

const isWithin = (area, box) => area.left >= box.left - NEAR && area.right <= box.right + NEAR
  && area.top >= box.top - NEAR && area.bottom <= box.bottom + NEAR;

// Lines of text that are shown, with the layer that each lies in and the part of it that is in sight.
function lines(root, known, unfit) {
  const found = [];
  const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
  const range = document.createRange();
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const element = node.parentElement;
    if (!/\S/.test(node.data) || element.closest("svg, option, textarea, .menu-name, [inert]")) continue;
    if (!element.checkVisibility({ visibilityProperty: true }) || isOutOfSight(element)) continue;
    range.selectNodeContents(node);
    for (const area of range.getClientRects()) {
      if (area.width < 1 || area.height < 1) continue;
      const line = { node, element, ...body(area) };
      confine(line, known, unfit);
      if (line.right > line.left && line.bottom > line.top) found.push(line);
    }
  }
  return found;
}

// Walks outward: says where the line is cut or leaves its box, and keeps what is in sight of it.
function confine(line, known, unfit) {
  line.layer = null;
  for (const one of ancestors(line.element)) {
    const box = boxOf(one, known);
    if (!box.isBox) continue;
    if ((box.cutsX && (line.left < box.left - NEAR || line.right > box.right + NEAR))
      || (box.cutsY && (line.top < box.top - NEAR || line.bottom > box.bottom + NEAR))) {
      unfit.add(`cut: ${words(line.node.data)} by ${named(one)}`);
    }
    const isOpen = !box.scrollsX && !box.scrollsY && !box.cutsX;
    if (box.isHolder && isOpen && !isWithin(line, box.outer)) {
      unfit.add(`out of its box: ${words(line.node.data)} of ${named(one)}`);
    }
    if (box.scrollsX || box.cutsX) {
      line.left = Math.max(line.left, box.left);
      line.right = Math.min(line.right, box.right);
    }
    if (box.scrollsY || box.cutsY) {
      line.top = Math.max(line.top, box.top);
      line.bottom = Math.min(line.bottom, box.bottom);
    }
    // What floats may leave the box that it belongs to, and cover what it is put over if nothing shows through.
    if (box.covers) line.layer ??= one;
    if (box.floats) return;
  }
}

// Fields that text must not lie on; they hold texts of their own.
function fields(root, known) {
  return [...root.querySelectorAll("input, select, textarea, button, .button")]
    .filter((one) => one.checkVisibility({ visibilityProperty: true }) && !isOutOfSight(one))
    .map((element) => {
      const line = { node: { data: element.textContent || element.id }, element, isField: true,
        ...body(element.getBoundingClientRect()) };
      confine(line, known, new Set());
      return line;
    })
    .filter((line) => line.right > line.left && line.bottom > line.top);
}

// Whether one is a field and the other a text in it.
const holds = (one, other) => one.isField && one.element.contains(other.element);

function overlaps(all, unfit) {
  all.sort((one, other) => one.top - other.top);
  all.forEach((one, at) => {
    for (let next = at + 1; next < all.length && all[next].top < one.bottom - NEAR; next += 1) {
      const other = all[next];
      if (one.layer !== other.layer || holds(one, other) || holds(other, one)) continue;
      if (Math.min(one.right, other.right) - Math.max(one.left, other.left) > NEAR
        && Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top) > NEAR) {
        unfit.add(`over one another: ${words(one.node.data)} of ${named(one.element)} and `
          + `${words(other.node.data)} of ${named(other.element)}`);
      }
    }
  });
}

// The chosen option of a list and what an empty field says: the browser cuts both without a sign, but for a
// list that takes as many lines as it needs.
function heldTexts(root, unfit) {
  const pen = document.createElement("canvas").getContext("2d");
  for (const one of root.querySelectorAll("select, input[placeholder]")) {
    const isList = one.localName === "select";
    if (!one.checkVisibility({ visibilityProperty: true }) || isOutOfSight(one) || (!isList && one.value)) continue;
    const text = isList ? one.selectedOptions[0]?.text ?? "" : one.placeholder;
    const style = getComputedStyle(one);
    pen.font = style.font;
    const room = one.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight)
      - (isList ? ARROW : 0);
    const isWhole = style.appearance === "base-select"
      ? one.scrollWidth <= one.clientWidth + NEAR && one.scrollHeight <= one.clientHeight + NEAR
      : pen.measureText(text).width <= room + NEAR;
    if (!isWhole) unfit.add(`cut: ${words(text)} in ${named(one)}`);
  }
}

// What scrolls by itself, though nothing says that it is meant to.
function scrollers(root, unfit) {
  for (const one of root.querySelectorAll("*")) {
    if (one.scrollWidth <= one.clientWidth + NEAR || one.clientWidth === 0) continue;
    if (one.closest("svg") || !one.checkVisibility({ visibilityProperty: true }) || isOutOfSight(one)) continue;
    const style = getComputedStyle(one);
    if (one.matches(".menu-name, .scroll, .strip, [tabindex='0'], textarea, input, select")) continue;
    if (scrolls(style.overflowX)) unfit.add(`scrolls sideways: ${named(one)}`);
    if (cuts(style.overflowX) && one.textContent.trim()) unfit.add(`cut: ${words(one.textContent)} by ${named(one)} itself`);
  }
}

function findUnfit() {
  const unfit = new Set();
  const known = new Map();
  const page = document.documentElement;
  if (page.scrollWidth > page.clientWidth + NEAR) unfit.add(`the page is ${page.scrollWidth - page.clientWidth} px too wide`);
  const found = lines(document.body, known, unfit);
  if (found.length === 0) unfit.add("no text is shown");
  for (const line of found) {
    if (line.left < -NEAR) unfit.add(`out of the page: ${words(line.node.data)} of ${named(line.element)}`);
  }
  overlaps([...found, ...fields(document.body, known)], unfit);
  heldTexts(document.body, unfit);
  scrollers(document.body, unfit);
  return [...unfit];
}

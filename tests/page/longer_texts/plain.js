// Finds texts that nobody has put into the made-up language, whose words have no plain letters.

// Symbols of units, names of files and of this program's words for others are the same in every language.
const SAME = new Set(
  ("in ft yd mi nm kt kts mph mm cm km kg lb lbs lbf oz gal qt hp bhp kW kPa hPa mbar bar psi inHg inH rpm gph lph min "
    + "sec deg Pa mPa cSt Hz kB MB KIAS KTAS Btu slug cSt SAE csv json svg png dxf").split(" "),
);
// What a symbol of an equation has below its line is no word.
const WORDS = /(?<![\p{L}_])[A-Za-z\p{L}]{3,}(?![\p{L}_])/gu;
const isPlain = (word) => /^[A-Za-z]+$/.test(word) && !SAME.has(word) && !/^[A-Z]+s?$/.test(word);

function plainWords(text, names) {
  // A file's name as it was given; a function of an equation;
  // a commit’s or a design’s own number.
  let rest = text.replace(/\S+\.csv|cos θ|\b[0-9a-f]{12,}\b/g, " ");
  for (const name of names) rest = rest.replaceAll(name, " ");
  return (rest.match(WORDS) ?? []).filter(isPlain);
}

function place(element) {
  const one = element.closest("[id], section, figure, table, nav, header") ?? element;
  return `${one.localName}${one.id ? `#${one.id}` : ""} ${element.localName}`;
}

// Texts that are shown, heard or hinted at with plain words in them, but for names that a visitor gave.
function findPlain(names) {
  const found = new Set();
  const note = (element, text) => {
    const words = plainWords(text, names);
    if (words.length > 0) {
      found.add(`${place(element)}: ${words.join(", ")} of: ${text.replace(/\s+/g, " ").trim().slice(0, 90)}`);
    }
  };
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const element = node.parentElement;
    if (element.closest("script, style, noscript, template, textarea, code, .menu-name, #failure")) continue;
    note(element, node.data);
  }
  for (const name of ["placeholder", "label", "aria-label", "title", "alt", "data-label", "data-what"]) {
    for (const element of document.querySelectorAll(`[${name}]`)) note(element, element.getAttribute(name));
  }
  return [...found];
}

// Attributes that hold texts; all others are the same in every language.
const TEXTS = new Set(["placeholder", "label", "aria-label", "title", "alt", "data-label", "data-what", "aria-valuetext"]);

// Markup that was put into the made-up language: classes, paths, colours, values.
function findTranslatedMarkup() {
  const found = new Set();
  for (const element of document.body.querySelectorAll("*")) {
    for (const { name, value } of element.attributes) {
      if (!TEXTS.has(name) && /[åƀçđéƒğĥîĵķļɱñöþɋŕšţûṽŵẋýž]/i.test(value)) found.add(`${place(element)} ${name}: ${value.slice(0, 60)}`);
    }
  }
  return [...found];
}

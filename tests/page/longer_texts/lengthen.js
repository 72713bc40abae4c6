// Makes texts longer, as a language might: letters get accents, long texts grow by some 35 %, those below
// ten letters by 60 to 100 %, numbers have a comma, and brackets at both ends show whether a text is whole.

const ACCENTED = {
  a: "â", c: "ç", d: "ď", e: "ë", g: "ğ", i: "ï", l: "ł", n: "ñ", o: "ö", r: "ř", s: "š", t: "ť", u: "ů", y: "ý", z: "ž",
  A: "Å", C: "Č", D: "Ď", E: "Ê", G: "Ğ", I: "Î", L: "Ł", N: "Ñ", O: "Ö", R: "Ř", S: "Š", T: "Ť", U: "Û", Y: "Ý", Z: "Ž",
};
// Symbols of units are the same in every language.
const UNITS = new Set(
  ("in ft yd mi nm kt kts mph mm cm km kg lb lbs oz gal qt hp bhp kW kPa hPa mbar bar psi inHg rpm gph lph min "
    + "sec deg Pa mPa cSt Hz kB MB").split(" "),
);
const WORD = /[\p{L}\p{N}'’]+/gu;
const VOWEL = /[aeiouyAEIOUY]/;

// Words that a translator would change: no name, no unit, no abbreviation in capitals, no letter of an equation.
const isChanged = (word) =>
  word.length > 1 && word !== "Coolpath" && !/[\p{N}\p{Script=Greek}]/u.test(word) && !/^\p{Lu}+s?$/u.test(word) && !UNITS.has(word);

// A word with so many letters more, spread over its vowels.
function longerWord(word, more) {
  const letters = [...word];
  const times = letters.map(() => 1);
  const vowels = letters.flatMap((letter, at) => (VOWEL.test(letter) ? [at] : []));
  const grown = vowels.length > 0 ? vowels : [letters.length - 1];
  for (let left = more; left > 0; left -= 1) times[grown[(more - left) % grown.length]] += 1;
  return letters.map((letter, at) => {
    const accented = ACCENTED[letter] ?? letter;
    const small = letter.toLowerCase();
    return accented + (ACCENTED[small] ?? small).repeat(times[at] - 1);
  }).join("");
}

function longer(text) {
  const inner = text.trim().replace(/(\d)\.(?=\d)/g, "$1,");
  const words = (inner.match(WORD) ?? []).filter(isChanged);
  const [before, after] = [text.match(/^\s*/)[0], text.match(/\s*$/)[0]];
  if (words.length === 0) return before + inner + (inner ? after : "");
  const letters = words.join("").length;
  // The brackets are part of what it grows by.
  const wanted = Math.round(inner.length * (inner.length < 10 ? 0.8 : 0.35)) - 2;
  // Where most of a text is numbers, its few words do not more than double.
  const growth = Math.min(Math.max(0, wanted), letters);
  let [seen, given] = [0, 0];
  const grown = inner.replace(WORD, (word) => {
    if (!isChanged(word)) return word;
    seen += word.length;
    const more = Math.round((growth * seen) / letters) - given;
    given += more;
    return longerWord(word, more);
  });
  return `${before}[${grown}]${after}`;
}

// What a visitor typed stays as it is, and so do texts that are placed by their measured width.
const isLeft = (element) => element.closest("svg, script, style, noscript, textarea, .menu-name") !== null;

// Makes every text of the page longer; returns what gives the texts back.
function lengthenAll() {
  const undo = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const runs = [];
  // Neighbours are one text to a reader.
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    if (isLeft(node.parentElement)) continue;
    const last = runs.at(-1);
    if (last && last.at(-1).nextSibling === node) last.push(node);
    else runs.push([node]);
  }
  for (const run of runs) {
    const texts = run.map((node) => node.data);
    undo.push(() => run.forEach((node, at) => { node.data = texts[at]; }));
    run.forEach((node, at) => { node.data = at === 0 ? longer(texts.join("")) : ""; });
  }
  for (const name of ["placeholder", "label", "data-label", "data-what"]) {
    for (const element of document.querySelectorAll(`[${name}]`)) {
      const text = element.getAttribute(name);
      undo.push(() => element.setAttribute(name, text));
      element.setAttribute(name, longer(text));
    }
  }
  if (!document.body.textContent.includes("]")) throw new Error("no text has grown");
  return () => undo.forEach((step) => step());
}

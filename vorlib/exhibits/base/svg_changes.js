// Draws SVG text, and afterwards only those of its elements that have changed.

const nameOf = (node) => node.dataset?.grab;

function updateAttributes(shown, next) {
  for (const { name } of [...shown.attributes]) {
    if (!next.hasAttribute(name)) shown.removeAttribute(name);
  }
  for (const { name, value } of next.attributes) {
    if (shown.getAttribute(name) !== value) shown.setAttribute(name, value);
  }
}

// Makes `shown` equal to `next`, keeping the nodes that need not change: the element under the
// hand keeps its focus, and a screen reader hears a slider move rather than a new one appear.
function update(shown, next) {
  if (shown.nodeName !== next.nodeName || nameOf(shown) !== nameOf(next)) {
    shown.replaceWith(next);
    return;
  }
  if (shown.nodeType !== Node.ELEMENT_NODE) {
    if (shown.nodeValue !== next.nodeValue) shown.nodeValue = next.nodeValue;
    return;
  }
  updateAttributes(shown, next);
  updateChildren(shown, next);
}

function updateChildren(shown, next) {
  const wanted = [...next.childNodes];
  const present = [...shown.childNodes];
  present.slice(wanted.length).forEach((node) => node.remove());
  wanted.forEach((node, i) => (i < present.length ? update(present[i], node) : shown.append(node)));
}

const isText = (node) => node?.nodeType === Node.TEXT_NODE;

// Makes an element equal to one without children but for its words; returns whether that can be.
function updateOne(shown, next) {
  if (shown?.nodeName !== next.nodeName || nameOf(shown) !== nameOf(next)) return false;
  const words = next.textContent;
  if (isText(shown.firstChild)) shown.firstChild.nodeValue = words;
  else if (words && shown.firstChild) return false;
  else if (words) shown.append(words);
  updateAttributes(shown, next);
  return true;
}

// A piece of the text is what stands from one "<" to the next: the beginning of an element with the
// words in it, or its end.
const whole = (piece) => (piece.endsWith("/>") ? `<${piece}` : `<${piece}</${/^\w+/.exec(piece)[0]}>`);

class Drawing {
  constructor(holder) {
    this.holder = holder;
    this.pieces = [];
    this.number = null; // of the last change; null when all was drawn since
  }

  get length() {
    return this.pieces.reduce((sum, piece) => sum + piece.length + 1, -1);
  }

  draw(svg) {
    const next = document.createElement("div");
    next.innerHTML = svg;
    updateChildren(this.holder, next);
    this.pieces = svg.split("<");
    let count = 0;
    this.elements = this.pieces.map((piece) => (/^\w/.test(piece) ? count++ : -1));
    this.number = null;
  }

  // Changes some pieces; returns whether what was drawn before is what they change.
  change([number, pieces]) {
    const follows = this.number === null || number === this.number + 1;
    this.number = number;
    const drawn = this.holder.querySelectorAll("svg, svg *");
    const made = document.createElement("div");
    made.innerHTML = `<svg>${pieces.map(([, piece]) => whole(piece)).join("")}</svg>`;
    const next = made.firstChild.children;
    for (const [i, piece] of pieces) this.pieces[i] = piece;
    return follows && pieces.every(([i], n) => updateOne(drawn[this.elements[i]], next[n]));
  }
}

// Present a page to a class: one step at a time, in large type, with the keys of a clicker.
//
// PageDown and PageUp go forward and back; at questions to ask aloud, they first go from question
// to question. B (or the period that some clickers send) blanks the screen. R starts the exhibit
// again. C shows its controls, which are hidden to leave more room for the picture. A number and
// Enter go to that step. Escape ends.
import { beginAgain } from "./kernel.js";

const HEADING = /^H[1-3]$/;
const RESUME = /^#present-(\d+)$/; // after a reload, the step to go on with

/* Return the steps of the lesson: each section from heading to heading, and each exhibit. */
function steps() {
  const pieces = [...document.querySelectorAll("main > *")].flatMap((cell) =>
    cell.matches(".prose") ? [...cell.children] : [cell],
  );
  const found = [];
  let afterHeading = false; // a heading right under another belongs to it
  for (const piece of pieces) {
    const isHeading = HEADING.test(piece.tagName);
    const isExhibit = piece.querySelector(".vorlib-exhibit");
    if ((isHeading && !afterHeading) || isExhibit || !found.length) found.push([]);
    found.at(-1).push(piece);
    // a cell that shows nothing does not separate two headings
    afterHeading = isHeading || (afterHeading && piece.matches(".given") && !piece.offsetHeight);
  }
  return found;
}

/* Return the switches for large type and lines that are off. */
function smallType(pieces) {
  const labels = pieces.flatMap((piece) => [...piece.querySelectorAll("label")]);
  const switches = labels.filter((label) => label.textContent.trim().startsWith("Projector"));
  return switches.map((label) => label.querySelector("input")).filter((box) => box?.checked === false);
}

const isTyping = (target) =>
  target.isContentEditable || target.matches("textarea, select, input:not([type=checkbox])");

class Presentation {
  constructor() {
    this.counter = document.getElementById("step");
    this.onKey = (event) => this.key(event);
    this.onFullscreen = () => document.fullscreenElement || this.end();
  }

  begin(at = null) {
    this.steps = steps();
    const first = this.steps.findIndex((step) =>
      step.some((piece) => piece.getBoundingClientRect().bottom > 80),
    );
    this.typed = "";
    this.enlarged = [];
    document.body.classList.add("presenting");
    document.addEventListener("keydown", this.onKey, { capture: true });
    document.addEventListener("fullscreenchange", this.onFullscreen);
    document.documentElement.requestFullscreen?.().catch(() => {}); // if refused, in the window
    document.activeElement?.blur();
    this.show(at ?? Math.max(first, 0));
  }

  end() {
    document.removeEventListener("keydown", this.onKey, { capture: true });
    document.removeEventListener("fullscreenchange", this.onFullscreen);
    document.body.classList.remove("presenting", "blank", "controls");
    const [first] = this.steps[this.at];
    for (const piece of this.steps.flat()) piece.classList.remove("off");
    for (const box of this.enlarged) if (box.checked) box.click();
    if (document.fullscreenElement) document.exitFullscreen();
    first.scrollIntoView();
  }

  show(at) {
    this.at = Math.min(Math.max(at, 0), this.steps.length - 1);
    this.steps.forEach((step, index) => {
      for (const piece of step) piece.classList.toggle("off", index !== this.at);
    });
    for (const box of smallType(this.steps[this.at])) {
      box.click();
      this.enlarged.push(box);
    }
    scrollTo(0, 0);
    this.count();
  }

  /* Say which step this is, or which one is being typed. */
  count() {
    const goTo = this.typed && `Go to ${this.typed}: press Enter`;
    const hasControls = this.steps[this.at].some((piece) => piece.querySelector(".vorlib-controls"));
    const where = `${this.at + 1} of ${this.steps.length}`;
    this.counter.textContent = goTo || (hasControls ? `C shows the controls. ${where}` : where);
  }

  /* Return the button that goes forward or back within this step, if there is an enabled one. */
  own(by) {
    const wanted = `.vorlib-clicker-${by > 0 ? "on" : "back"}:not(:disabled)`;
    return this.steps[this.at].map((piece) => piece.querySelector(wanted)).find(Boolean);
  }

  /* Go to the next step, but first scroll to what is still below the edge of the screen. */
  turn(by) {
    const button = this.own(by);
    if (button) {
      button.click();
      return;
    }
    const page = document.documentElement;
    const below = page.scrollHeight - innerHeight - scrollY;
    if (by > 0 && below > 8) scrollBy(0, innerHeight * 0.8);
    else if (by < 0 && scrollY > 8) scrollBy(0, -innerHeight * 0.8);
    else this.show(this.at + by);
  }

  /* Start the exhibit again with its own button, or else reload the page at the same step. */
  again() {
    const buttons = this.steps[this.at].flatMap((piece) => [...piece.querySelectorAll("button")]);
    const own = buttons.find((button) => /^(start|begin) again$|^reset$/i.test(button.innerText.trim()));
    if (own) own.click();
    else {
      location.hash = `present-${this.at}`;
      beginAgain();
    }
  }

  key(event) {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const does = {
      PageDown: () => this.turn(1),
      PageUp: () => this.turn(-1),
      Escape: () => this.end(),
    };
    if (!isTyping(event.target)) {
      does.b = does.B = does["."] = () => document.body.classList.toggle("blank");
      does.c = does.C = () => document.body.classList.toggle("controls");
      does.r = does.R = () => this.again();
      if (/^\d$/.test(event.key)) does[event.key] = () => this.type(event.key);
      if (this.typed) does.Enter = () => this.jump();
    }
    if (!does[event.key]) return;
    event.preventDefault();
    event.stopPropagation();
    does[event.key]();
  }

  type(digit) {
    this.typed += digit;
    this.count();
  }

  jump() {
    const at = Number(this.typed) - 1;
    this.typed = "";
    this.show(at);
  }
}

/* Let a button begin the presentation; after a reload, resume it once the page is alive. */
export function present(button, alive) {
  const presentation = new Presentation();
  button.onclick = () => presentation.begin();
  const resumed = RESUME.exec(location.hash);
  if (!resumed) return;
  history.replaceState(null, "", location.pathname + location.search);
  alive.then(() => presentation.begin(Number(resumed[1])));
}

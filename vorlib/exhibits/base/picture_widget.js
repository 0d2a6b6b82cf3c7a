// Shows a picture (SVG text) with one sentence under it, and reports what a hand does to it.
// It knows nothing of what the picture means: places are in the picture's own viewBox units.
//
// An element with data-grab="name" can be dragged, and stepped with the arrow keys (Shift: ten
// at a time) or the page keys (sixty up or down); names listed in the trait `wheel` also step with
// the mouse wheel. With data-press as well a press alone is a drag to where it is. Every report
// stands for all those before it: a drag is where it began and where it is, steps are totals
// since this view was made. So only the newest report matters. One goes out per animation frame
// at most, and the widget model keeps one message in flight and the newest waiting.

const ARROWS = { ArrowRight: [1, 0], ArrowLeft: [-1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
const PAGES = { PageUp: [0, 60], PageDown: [0, -60] };
const MOVES = ["Home", "End", ...Object.keys(ARROWS), ...Object.keys(PAGES)];
const CLICK_PX = 3; // a press that moves less than this is a click, not a drag
const WHEEL_STEP_PX = 50;
const SCROLL_PAUSE_MS = 400; // a wheel already scrolling the page goes on scrolling it

// A letter typed at a control is no shortcut of the notebook, which takes a focused button for a
// cell and would cut it on "x"; nor is a key that moves something, with which the notebook goes from
// cell to cell. It looks for this attribute, and for cells, from the target upward.
function keepKeys(event) {
  if (!event.target.closest?.(".vorlib-exhibit, .vorlib-prediction")) return;
  const types = event.key.length === 1;
  const moves = MOVES.includes(event.key) && event.target.closest("[data-grab], select, .noUi-handle");
  const plain = !event.ctrlKey && !event.metaKey && !event.altKey;
  event.target.toggleAttribute("data-lm-suppress-shortcuts", plain && Boolean(types || moves));
}

// The space bar plays and pauses wherever in the exhibit the focus is, but where it types or presses
// something; and it never scrolls the exhibit away.
function playWithSpace(event) {
  if (event.key !== " " || event.ctrlKey || event.metaKey || event.altKey) return;
  const exhibit = event.target.closest?.(".vorlib-exhibit");
  const types = event.target.matches?.("input:not([type=checkbox], .vorlib-number input), textarea");
  if (!exhibit || types || event.target.matches("button, select, input[type=checkbox]")) return;
  event.preventDefault();
  event.stopPropagation();
  if (!event.repeat) exhibit.querySelector(".vorlib-play:not([disabled])")?.click();
}

// The End key goes to the end that a slider has now; by itself it goes to the one it began with.
function endAtEnd(event) {
  if (event.key !== "End" || !event.target.matches?.(".vorlib-exhibit .noUi-handle")) return;
  const slider = event.target.closest(".noUi-target:not([disabled])")?.noUiSlider;
  if (!slider) return;
  event.preventDefault();
  event.stopPropagation();
  slider.set(slider.options.range.max);
}

if (!window.vorlibKeepsKeys) {
  window.vorlibKeepsKeys = true; // the page has this script once for each picture
  window.addEventListener("keydown", keepKeys, true); // before the notebook hears of it
  window.addEventListener("keydown", playWithSpace, true);
  window.addEventListener("keydown", endAtEnd, true);
}

const grabAt = (event) => event.target.closest("[data-grab]");

// A slider reckons in floats. What it makes of a value that it is shown, such as 48.00000000000001, it
// reports as moved by a hand; while the value goes on changing, that would set it back.
// (To set its options anew would report, too.)
function roundSliders(root) {
  for (const slider of root.querySelectorAll(".widget-slider .noUi-target")) {
    const format = slider.noUiSlider?.options.format;
    if (!format || format.vorlibRounds) continue;
    const { to } = format;
    format.to = (value) => Number(to(value).toFixed(9));
    format.vorlibRounds = true;
  }
}

// Slider widgets label the slider, but leave its handle, which takes the focus, without a name.
function nameSliders(root) {
  for (const handle of root.querySelectorAll(".widget-slider .noUi-handle")) {
    const label = handle.closest(".widget-slider").firstElementChild;
    handle.setAttribute("aria-label", label.title || label.textContent);
  }
}

// ---- all of an exhibit is in the window at once

const LEAST_PX = 200; // a picture smaller than this is not worth fitting
const MARGIN_PX = 8;
const LEAST_SCALE = 0.85; // of a page: drawn smaller it is not read, and moves with the page instead
const LEAST_TYPE_PX = 20; // before a class

// The height in which an exhibit is seen: that of the window, or of what scrolls in it.
function roomOf(exhibit) {
  if (document.fullscreenElement === exhibit) return window.innerHeight;
  const scrolled = exhibit.closest(".jp-WindowedPanel-outer")?.clientHeight || Infinity;
  const counter = document.getElementById("step")?.offsetHeight ?? 0; // of a page presented, at its foot
  return Math.min(window.innerHeight - counter, scrolled);
}

// Tells the style sheet how high the picture may be so that all that belongs to it is seen too.
function fit(exhibit, picture, sentence) {
  const room = roomOf(exhibit);
  const stage = picture.closest(".vorlib-stage");
  if (!stage?.offsetWidth) return;
  if (sentence.dataset.width !== String(sentence.offsetWidth)) {
    sentence.dataset.width = sentence.offsetWidth;
    sentence.style.minHeight = "";
    keepRoom(sentence);
  }
  const height = (one) => one?.offsetHeight ?? 0;
  const gap = parseFloat(getComputedStyle(stage).rowGap) || 0;
  const rows = [...stage.children].filter((one) => !one.matches(".vorlib-side, .vorlib-view"));
  rows.push(sentence, sentence.nextSibling);
  const isWide = getComputedStyle(stage).getPropertyValue("--vorlib-wide").trim() === "1";
  let rest = rows.reduce((sum, one) => sum + height(one) + gap, 2 * MARGIN_PX);
  const side = stage.querySelector(".vorlib-side");
  if (!isWide && room - rest - height(side) >= LEAST_PX) rest += height(side) + gap;
  exhibit.style.setProperty("--vorlib-room", `${room - 2 * MARGIN_PX}px`);
  const high = Math.max(LEAST_PX, room - rest);
  exhibit.style.setProperty("--vorlib-high", `${high}px`);
  const svg = picture.querySelector("svg");
  const { width, height: tall } = svg?.viewBox.baseVal ?? {};
  const readable = svg && document.body.matches(".presenting") ? LEAST_TYPE_PX / smallestType(svg) : 0;
  exhibit.style.setProperty("--vorlib-readable", readable);
  const isSheet = (tall > width && high < LEAST_SCALE * tall) || high < readable * tall;
  picture.classList.toggle("vorlib-sheet", isSheet);
}

// The size of the smallest type of a picture, in its own units.
function smallestType(svg) {
  const scale = ({ a, b }) => Math.hypot(a, b);
  const sizes = [...svg.querySelectorAll("text")].map(
    (text) => parseFloat(getComputedStyle(text).fontSize) * scale(text.getScreenCTM()),
  );
  return Math.min(...sizes) / scale(svg.getScreenCTM());
}

// A sentence once long keeps its room, so that what stands under it does not jump.
function keepRoom(sentence) {
  const least = parseFloat(sentence.style.minHeight) || 0;
  if (sentence.scrollHeight > least) sentence.style.minHeight = `${sentence.scrollHeight}px`;
}

function keysOf(exhibit, picture) {
  const plays = exhibit.querySelector(".vorlib-play") ? ["Space: play, pause"] : [];
  const moves = picture.querySelector("[data-grab]")
    ? ["Tab: next part of the picture", "arrow keys: move or turn it (Shift: ten times)"]
    : [];
  return [...plays, ...moves].join(" \u00b7 ");
}

function render({ model, el }) {
  const picture = document.createElement("div");
  picture.className = "vorlib-picture";
  const sentence = document.createElement("div");
  sentence.className = "vorlib-sentence";
  sentence.setAttribute("role", "status");
  el.classList.add("vorlib-view");
  const foot = document.createElement("div");
  foot.className = "vorlib-foot";
  const keys = foot.appendChild(document.createElement("span"));
  const fullScreen = foot.appendChild(document.createElement("button"));
  fullScreen.type = "button";
  fullScreen.className = "vorlib-full-screen";
  fullScreen.addEventListener("click", () => {
    if (document.fullscreenElement) document.exitFullscreen();
    else el.closest(".vorlib-exhibit")?.requestFullscreen();
  });
  el.append(picture, sentence, foot);

  const drawing = new Drawing(picture);
  function show() {
    const focused = picture.contains(document.activeElement) && nameOf(document.activeElement);
    drawing.draw(model.get("svg"));
    const { width, height } = picture.querySelector("svg")?.viewBox.baseVal ?? {};
    picture.style.setProperty("--vorlib-width", width ?? 0); // the style sheet sets the scale
    picture.style.setProperty("--vorlib-aspect", width ? width / height : 1);
    if (focused && nameOf(document.activeElement) !== focused) {
      picture.querySelector(`[data-grab="${focused}"]`)?.focus({ preventScroll: true });
    }
  }
  function change() {
    if (!drawing.change(model.get("svg_changed"))) model.send({ alive: 0, shown: null }); // all of it
  }
  function say() {
    sentence.setAttribute("aria-live", model.get("live_off") ? "off" : "polite");
    sentence.textContent = model.get("sentence");
    sentence.hidden = !sentence.textContent;
    keepRoom(sentence);
  }

  // ---- reports
  const view = Math.random().toString(36).slice(2);
  const steps = {};
  let drag = null;
  let frame = 0;

  function report() {
    frame ||= requestAnimationFrame(() => {
      frame = 0;
      const totals = Object.fromEntries(Object.entries(steps).map(([k, v]) => [k, [...v]]));
      model.set("hand", { view, drag: drag && { ...drag }, steps: totals });
      model.save_changes();
    });
  }
  function step(name, right, up) {
    const [r, u] = steps[name] ?? [0, 0];
    steps[name] = [r + right, u + up];
    report();
  }

  // ---- dragging, with a mouse, a pen or a finger
  let held = null; // what the pointer holds now; becomes `drag` once it has moved
  let drags = 0;

  function place(event) {
    const toPicture = picture.querySelector("svg").getScreenCTM().inverse();
    return new DOMPoint(event.clientX, event.clientY).matrixTransform(toPicture);
  }
  picture.addEventListener("pointerdown", (event) => {
    const grab = grabAt(event);
    if (!grab || event.button !== 0 || held) return;
    const { x, y } = place(event);
    held = { pointer: event.pointerId, clientX: event.clientX, clientY: event.clientY };
    held.drag = { id: ++drags, grab: nameOf(grab), x0: x, y0: y };
    held.moved = "press" in grab.dataset;
    if (held.moved) {
      drag = { ...held.drag, x, y };
      report();
    }
    picture.classList.add("vorlib-by-hand"); // a hand sees what it holds
    grab.focus({ preventScroll: true });
    picture.setPointerCapture(event.pointerId); // on the container: its contents are redrawn
    picture.classList.add("vorlib-dragging");
  });
  picture.addEventListener("pointermove", (event) => {
    if (held?.pointer !== event.pointerId) return;
    const far = Math.hypot(event.clientX - held.clientX, event.clientY - held.clientY) >= CLICK_PX;
    held.moved ||= far;
    if (!held.moved) return;
    const { x, y } = place(event);
    drag = { ...held.drag, x, y };
    report();
  });
  function release(event) {
    if (held?.pointer !== event.pointerId) return;
    held = null;
    picture.classList.remove("vorlib-dragging");
  }
  picture.addEventListener("pointerup", release);
  picture.addEventListener("pointercancel", release);
  picture.addEventListener("lostpointercapture", release);
  // a mouse press would begin selecting text; the pointer events above do not stop that
  picture.addEventListener("mousedown", (event) => grabAt(event) && event.preventDefault());

  // a finger on a grab would scroll the page, whatever touch-action says inside an SVG
  const keepStill = (event) => grabAt(event) && event.preventDefault();
  picture.addEventListener("touchstart", keepStill, { passive: false });

  // ---- arrow and page keys; they must not also move the notebook's selected cell
  picture.addEventListener("keydown", (event) => {
    picture.classList.remove("vorlib-by-hand");
    const grab = grabAt(event);
    if (grab && ["Home", "End"].includes(event.key)) event.preventDefault(); // and scroll nothing
    const arrow = ARROWS[event.key] ?? PAGES[event.key];
    if (!grab || !arrow || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    event.stopPropagation();
    const size = event.shiftKey && event.key in ARROWS ? 10 : 1;
    step(nameOf(grab), size * arrow[0], size * arrow[1]);
  });

  // ---- the wheel
  let scrolledAt = -Infinity;
  let turned = 0;

  const turns = (event) => {
    const grab = event.target instanceof Element && picture.contains(event.target) && grabAt(event);
    return grab && model.get("wheel").includes(nameOf(grab)) ? grab : null;
  };
  const noteScrolling = (event) => {
    const going = event.timeStamp - scrolledAt < SCROLL_PAUSE_MS;
    if (going || !turns(event)) scrolledAt = event.timeStamp;
  };
  document.addEventListener("wheel", noteScrolling, { capture: true, passive: true });
  picture.addEventListener(
    "wheel",
    (event) => {
      const grab = turns(event);
      if (!grab || event.ctrlKey || event.timeStamp === scrolledAt) return;
      event.preventDefault();
      turned -= event.deltaMode === 0 ? event.deltaY / WHEEL_STEP_PX : event.deltaY;
      const whole = Math.trunc(turned);
      turned -= whole;
      if (whole) step(nameOf(grab), 0, whole);
    },
    { passive: false },
  );

  model.on("change:svg", show);
  model.on("change:svg_changed", change);
  model.on("change:sentence", say);
  model.on("change:live_off", say);
  model.on("change:asked", () => {
    model.set("answered", model.get("asked"));
    model.save_changes();
  });
  model.on("msg:custom", ({ bring, block }) => {
    const comes = () => el.closest(".vorlib-exhibit")?.querySelector(bring)?.scrollIntoView({ block });
    if (bring) requestAnimationFrame(() => requestAnimationFrame(comes)); // once it is drawn
  });
  show();
  say();
  model.set("view", view);
  model.save_changes();
  let endWatch = null;
  // the picture gets a size when it comes onto the page, and what is around it is there
  const arrange = () => {
    const exhibit = el.closest(".vorlib-exhibit") ?? el;
    coverAnswers(exhibit);
    exhibit.tabIndex = -1; // a press beside the controls gives it the focus, and so the keys
    nameSliders(exhibit);
    roundSliders(exhibit);
    keys.textContent = keysOf(exhibit, picture);
    const isFull = document.fullscreenElement === exhibit;
    fullScreen.textContent = isFull ? "Leave full screen" : "Full screen";
    if (exhibit !== el) fit(exhibit, picture, sentence);
    exhibit.querySelectorAll(".vorlib-side, .vorlib-transport").forEach((one) => seen.observe(one));
    endWatch ??= watchAnswers(model, exhibit, el, () => ({ shown: drawing.length, hand: model.get("hand") }));
  };
  const seen = new ResizeObserver(arrange);
  seen.observe(picture);
  seen.observe(sentence);
  window.addEventListener("resize", arrange);
  document.addEventListener("fullscreenchange", arrange);
  return () => {
    seen.disconnect();
    endWatch?.();
    window.removeEventListener("resize", arrange);
    document.removeEventListener("fullscreenchange", arrange);
    document.removeEventListener("wheel", noteScrolling, { capture: true });
  };
}

export default { render };

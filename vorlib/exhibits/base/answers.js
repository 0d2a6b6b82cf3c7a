// Whether the kernel still answers. A page whose kernel has gone looks as it did, takes what a hand
// does and shows nothing of it: then it says so, until it is answered again.

const ANSWER_MS = 3000;
const BUSY_MS = 15000; // a kernel that says it is busy is not gone
const PAUSE_MS = 500; // between questions while a hand is at work
const GONE = ["restarting", "autorestarting", "terminating", "dead"];
const HANDS = ["pointerdown", "keydown", "input", "change", "click", "wheel"];

// Asks whenever a hand does something in `root`; what `told()` gives is sent along. Returns how to end
// it.
function watchAnswers(model, root, el, told = () => ({})) {
  const kernel = model.widget_manager?.kernel;
  const notice = document.createElement("div");
  notice.className = "vorlib-stopped";
  notice.setAttribute("role", "alert");
  notice.hidden = true;
  el.prepend(notice);
  let number = 0; // of the question asked last
  let since = 0; // when that was, while it is not answered
  let askedAt = -Infinity;
  let timer = 0;

  function tell(words) {
    if (notice.textContent !== words) notice.textContent = words;
    notice.hidden = !words;
  }
  function stopped() {
    const inLab = document.querySelector(".jp-NotebookPanel");
    const mend = inLab ? "Choose Run, Run All Cells." : "Reload this page.";
    tell(`Stopped: nothing you do here is answered. ${mend}`);
  }
  function ask() {
    since ||= performance.now();
    askedAt = performance.now();
    number += 1;
    try {
      model.send({ alive: number, ...told() });
    } catch {
      stopped(); // its connection is closed
    }
    clearTimeout(timer);
    timer = setTimeout(late, ANSWER_MS);
  }
  function late() {
    const waited = performance.now() - since;
    if (kernel?.status !== "busy") stopped();
    else if (waited >= BUSY_MS) tell("Busy: what you do here is answered later.");
    ask(); // it may come back
  }
  function heard(content) {
    if (content?.alive !== number) return;
    clearTimeout(timer);
    timer = 0;
    since = 0;
    tell("");
  }
  function touched() {
    if (since) return;
    const pause = askedAt + PAUSE_MS - performance.now();
    if (pause <= 0) ask();
    else timer ||= setTimeout(ask, pause);
  }
  function changed() {
    if (GONE.includes(kernel.status)) stopped();
  }
  // a page of the course looks whether its kernel was ended or restarted
  const kept = ({ detail: hasStopped }) => (hasStopped ? stopped() : ask());

  model.on("msg:custom", heard);
  for (const kind of HANDS) root.addEventListener(kind, touched, { capture: true, passive: true });
  kernel?.statusChanged.connect(changed);
  window.addEventListener("vorlib-kernel", kept);
  if (kernel) ask();
  return () => {
    clearTimeout(timer);
    model.off("msg:custom", heard);
    for (const kind of HANDS) root.removeEventListener(kind, touched, { capture: true });
    kernel?.statusChanged.disconnect(changed);
    window.removeEventListener("vorlib-kernel", kept);
  };
}


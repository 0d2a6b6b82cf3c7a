// A test on one page: before it, its questions one by one, a pause, and the report. Python decides
// everything; this shows it, and beats while questions are on the page, which runs the clock.
// What stands in the box travels with every press, so that no typed answer is lost by moving on.

const BEAT_MS = 10000;

export default {
  render({ model, el }) {
    el.classList.add("vorlib-practice", "vorlib-check");
    const ids = Math.random().toString(36).slice(2);
    const part = (tag = "div", className = "") => add(el, tag, { className });
    const button = (parent, label, press) => {
      const made = addControl(parent, "button", { type: "button", textContent: label });
      made.classList.add("jupyter-button");
      made.addEventListener("click", press);
      return made;
    };
    const field = (parent, label, id, enter) => {
      add(parent, "label", { textContent: label, htmlFor: `${id}-${ids}` });
      const made = addControl(parent, "input", { type: "text", id: `${id}-${ids}` });
      made.autocomplete = "off";
      made.setAttribute("aria-describedby", `message-${ids}`);
      made.addEventListener("keydown", (event) => {
        if (event.key === "Enter" && !event.isComposing) enter();
      });
      return made;
    };
    const send = (press, more = {}) => model.send({ press, text: box.value, ...more });

    const start = part("div", "vorlib-answer");
    const begin = () => model.send({ press: "begin", name: name.value });
    const name = field(start, "Your name", "name", begin);
    button(start, "Begin, or go on", begin).classList.add("mod-primary");
    const begins = add(start, "span", {});
    begins.setAttribute("role", "status");
    const sayName = tellName(model, name, begins, "");
    button(start, "My last report", () => model.send({ press: "last", name: name.value }));

    const test = part();
    const head = add(test, "div", { className: "vorlib-head" });
    const stage = add(head, "strong", {});
    const clock = add(head, "span", { className: "vorlib-clock" });
    const prompt = add(test, "p", { className: "vorlib-prompt" });
    const picture = add(test, "div", { className: "vorlib-figure" });
    picture.setAttribute("role", "img");
    const sound = add(test, "div", {});
    const row = add(test, "div", { className: "vorlib-answer" });
    const keep = () => send("keep");
    const box = field(row, "Your answer", "answer", keep);
    button(row, "Keep and go on", keep).classList.add("mod-primary");
    const turn = (to) => send("turn", { to });
    const back = button(row, "Back", () => turn(model.get("place") - 1));
    const next = button(row, "Leave for now", () => turn(model.get("place") + 1));

    const covered = part("p", "vorlib-prompt");
    const report = part("div", "vorlib-page");
    report.tabIndex = -1; // the keyboard goes on from here when the test has gone
    const print = part("div", "vorlib-answer");
    const write = () => model.send({ press: "print", path: path.value });
    const path = field(print, "Print it to a PDF file", "path", write);
    path.value = "check_flight.pdf";
    path.classList.add("vorlib-path");
    button(print, "Write", write);
    const message = part("div", "vorlib-message");
    message.id = `message-${ids}`;
    message.setAttribute("role", "alert");
    const said = part("div", "vorlib-saved");
    said.setAttribute("role", "status");

    const numbers = part("div", "vorlib-numbers");
    numbers.setAttribute("role", "group");
    numbers.setAttribute("aria-label", "Questions; filled ones are answered");
    const end = part("div", "vorlib-answer");
    const pause = button(end, "Pause", () => send(model.get("phase") === "paused" ? "go on" : "pause"));
    const handIn = button(end, "Hand in", () => send("hand in"));
    const sure = part("div", "vorlib-answer vorlib-sure");
    const sureWords = add(sure, "span", {});
    const now = button(sure, "Hand in now", () => send("hand in now"));
    button(sure, "Not yet", () => send("not yet"));

    const tell = (line, words) => {
      if (line.textContent !== words) line.textContent = words; // unchanged is not spoken again
    };
    const ask = () => {
      prompt.textContent = model.get("prompt");
      box.value = model.get("answer");
      picture.innerHTML = model.get("picture");
      picture.hidden = !model.get("picture");
      if (sound.dataset.of !== model.get("sound")) {
        sound.innerHTML = sound.dataset.of = model.get("sound");
      }
      picture.setAttribute("aria-label", model.get("picture_words"));
      if (el.contains(document.activeElement)) box.focus();
    };
    const count = () => {
      const answered = model.get("answered");
      while (numbers.children.length < answered.length) {
        const number = numbers.children.length + 1;
        button(numbers, String(number), () => turn(number));
      }
      answered.forEach((done, index) => {
        const made = numbers.children[index];
        made.classList.toggle("vorlib-done", done);
        made.setAttribute(
          "aria-label",
          `Question ${index + 1}, ${done ? "answered" : "no answer yet"}`,
        );
        made.toggleAttribute("aria-current", index + 1 === model.get("place"));
      });
      back.disabled = model.get("place") === 1;
      next.disabled = model.get("place") === answered.length;
      next.textContent = answered[model.get("place") - 1] ? "Next" : "Leave for now";
    };
    const say = () => {
      const phase = model.get("phase");
      const running = phase === "running";
      const inside = el.contains(document.activeElement);
      start.hidden = phase !== "start";
      name.hidden = name.previousSibling.hidden = begins.hidden = !model.get("asks_name");
      sayName();
      test.hidden = !running;
      numbers.hidden = !running;
      covered.hidden = phase !== "paused";
      end.hidden = !(running || phase === "paused");
      handIn.hidden = !running || Boolean(model.get("sure"));
      pause.textContent = running ? "Pause" : "Go on";
      const asks = running && Boolean(model.get("sure"));
      const asksNow = asks && sure.hidden;
      sure.hidden = !asks;
      report.hidden = print.hidden = phase !== "done";
      tell(stage, model.get("stage"));
      tell(clock, model.get("clock"));
      covered.textContent = `Paused: the question is covered, with ${model.get("clock")}.`;
      tell(message, model.get("message"));
      tell(said, model.get("status"));
      tell(sureWords, model.get("sure"));
      box.setAttribute("aria-invalid", String(Boolean(model.get("message"))));
      if (report.innerHTML === "" || model.get("report") === "") {
        report.innerHTML = model.get("report");
      }
      const focused = document.activeElement;
      const lost = !el.contains(focused) || focused.offsetParent === null; // hidden, or about to be
      const here = sure.hidden ? box : now;
      const goal = { start: name, running: here, paused: pause, done: report }[phase];
      if (inside && (lost || asksNow)) goal.focus();
      count();
    };
    model.on("change:prompt change:answer", ask);
    model.on("change", say);
    ask();
    say();
    const beat = window.setInterval(() => {
      if (model.get("phase") === "running") model.send({ press: "beat" });
    }, BEAT_MS);
    const endWatch = watchAnswers(model, el, el);
    return () => {
      endWatch();
      window.clearInterval(beat);
      model.off("change:prompt change:answer", ask);
      model.off("change", say);
    };
  },
};

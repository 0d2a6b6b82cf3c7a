// A question, a box to answer it in, and live regions which say what came of it.
// The answer travels with the message that asks for its marking: a value synced on its own would
// still lag behind a fast typist when Enter arrives.

export default {
  render({ model, el }) {
    el.classList.add("vorlib-practice");
    const ids = Math.random().toString(36).slice(2);

    const prompt = add(el, "p", { className: "vorlib-prompt" });
    const picture = add(el, "div", { className: "vorlib-figure" });
    picture.setAttribute("role", "img");
    const row = add(el, "div", { className: "vorlib-answer" });
    const field = (parent, label, id, enter) => {
      add(parent, "label", { textContent: label, htmlFor: `${id}-${ids}` });
      const made = addControl(parent, "input", {
        type: "text",
        id: `${id}-${ids}`,
        autocomplete: "off",
      });
      made.setAttribute("aria-describedby", `message-${ids}`);
      made.addEventListener("keydown", (event) => {
        if (event.key === "Enter" && !event.isComposing && !event.repeat) enter();
      });
      return made;
    };
    const button = (parent, label, press) => {
      const made = addControl(parent, "button", { type: "button", textContent: label });
      made.classList.add("jupyter-button");
      made.addEventListener("click", press);
      return made;
    };
    let marked = ""; // what was in the box when it was marked last
    const check = () => {
      marked = box.value;
      model.send({ press: "check", text: box.value, name: name.value });
    };
    const goOn = () => model.send({ press: "next", kind: kind.value });
    const isDone = () => model.get("is_right") && box.value === marked && !next.disabled;
    const box = field(row, "Your answer", "answer", () => (isDone() ? goOn() : check()));
    button(row, "Check", check).classList.add("mod-primary");
    const hint = button(row, "Hint", () => model.send({ press: "hint" }));
    const next = button(row, "Next", goOn);
    const choice = add(row, "span", {});
    add(choice, "label", { textContent: "Next is ", htmlFor: `kind-${ids}` });
    const kind = addControl(choice, "select", { id: `kind-${ids}` });
    add(kind, "option", { value: "", textContent: "what helps most" });
    for (const [value, textContent] of model.get("kinds")) {
      add(kind, "option", { value, textContent });
    }
    choice.hidden = kind.options.length === 1;
    const message = add(el, "div", { className: "vorlib-message", id: `message-${ids}` });
    message.setAttribute("role", "alert");
    const said = ["hints", "feedback", "tally", "saved"].map((about) => {
      const line = add(el, "div", { className: `vorlib-${about}` });
      line.setAttribute("role", "status");
      return [about, line];
    });
    const again = button(el, "Save again", () => model.send({ press: "save" }));
    const asked = add(el, "div", { className: "vorlib-answer" });
    const name = field(asked, "Your name", "name", check);
    const keeps = add(asked, "span", {});
    keeps.setAttribute("role", "status");
    const sayName = tellName(
      model,
      name,
      keeps,
      "keeps your answers in your own folder and nowhere else; empty keeps none",
    );
    const [sayRecord, letRecordGo] = ownRecord(model, el, (held) => {
      box.value = "";
      if (held) box.focus();
    });
    const large = add(el, "label", {});
    const projector = addControl(large, "input", { type: "checkbox" });
    large.append(" Projector: large type and lines");

    const ask = () => {
      prompt.textContent = model.get("prompt");
      box.value = "";
      if (el.contains(document.activeElement)) box.focus();
    };
    const draw = () => {
      picture.innerHTML = model.get("picture");
      picture.hidden = !model.get("picture");
      picture.setAttribute("aria-label", model.get("picture_words"));
      projector.checked = model.get("projector");
      el.classList.toggle("vorlib-projector", projector.checked);
    };
    const tell = (line, words) => {
      if (line.textContent !== words) line.textContent = words; // unchanged is not spoken again
    };
    const say = () => {
      tell(message, model.get("message"));
      box.setAttribute("aria-invalid", String(Boolean(model.get("message"))));
      for (const [about, line] of said) tell(line, model.get(about));
      el.classList.toggle("vorlib-right", model.get("is_right"));
      hint.textContent = model.get("hint_label");
      hint.disabled = !model.get("has_hint");
      next.disabled = !model.get("has_next") && !kind.value;
      again.hidden = !model.get("has_waiting");
      if (!model.get("asks_name") && asked.contains(document.activeElement)) box.focus();
      asked.hidden = !model.get("asks_name");
      sayName();
      sayRecord();
    };
    kind.addEventListener("change", say);
    projector.addEventListener("change", () => {
      model.set("projector", projector.checked);
      model.save_changes();
    });
    model.on("change:picture change:picture_words change:projector", draw);
    model.on("change:prompt", ask);
    model.on("change", say);
    draw();
    ask();
    say();
    const endWatch = watchAnswers(model, el, el);
    return () => {
      endWatch();
      model.off("change:picture change:picture_words change:projector", draw);
      model.off("change:prompt", ask);
      model.off("change", say);
      letRecordGo();
    };
  },
};

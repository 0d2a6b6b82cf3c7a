// A question, a box to answer it in, and live regions which say what came of it.
// The answer travels with the message that asks for its marking: a value synced on its own would
// still lag behind a fast typist when Enter arrives.

function add(parent, tag, properties) {
  return parent.appendChild(Object.assign(document.createElement(tag), properties));
}

export default {
  render({ model, el }) {
    el.classList.add("vorlib-practice");
    // Keys pressed in here are for the answer, not shortcuts of the notebook.
    el.setAttribute("data-lm-suppress-shortcuts", "true");
    const ids = Math.random().toString(36).slice(2);

    const prompt = add(el, "p", { className: "vorlib-prompt" });
    const row = add(el, "div", { className: "vorlib-answer" });
    add(row, "label", { textContent: "Your answer", htmlFor: `answer-${ids}` });
    const box = add(row, "input", {
      type: "text",
      id: `answer-${ids}`,
      autocomplete: "off",
    });
    box.setAttribute("aria-describedby", `message-${ids}`);
    const button = (label, press) => {
      const made = add(row, "button", { type: "button", textContent: label });
      made.classList.add("jupyter-button");
      made.addEventListener("click", press);
      return made;
    };
    const check = () => model.send({ press: "check", text: box.value });
    button("Check", check).classList.add("mod-primary");
    const hint = button("Hint", () => model.send({ press: "hint" }));
    const next = button("Next", () => model.send({ press: "next" }));
    box.addEventListener("keydown", (event) => {
      if (event.key === "Enter" && !event.isComposing) check();
    });
    const message = add(el, "div", { className: "vorlib-message", id: `message-${ids}` });
    message.setAttribute("role", "alert");
    const said = ["hints", "feedback", "tally"].map((name) => {
      const line = add(el, "div", { className: `vorlib-${name}` });
      line.setAttribute("role", "status");
      return [name, line];
    });

    const ask = () => {
      prompt.textContent = model.get("prompt");
      box.value = "";
      if (el.contains(document.activeElement)) box.focus();
    };
    const tell = (line, words) => {
      if (line.textContent !== words) line.textContent = words; // unchanged is not spoken again
    };
    const say = () => {
      tell(message, model.get("message"));
      box.setAttribute("aria-invalid", String(Boolean(model.get("message"))));
      for (const [name, line] of said) tell(line, model.get(name));
      hint.disabled = !model.get("has_hint");
      next.disabled = !model.get("has_next");
    };
    model.on("change:prompt", ask);
    model.on("change", say);
    ask();
    say();
    return () => {
      model.off("change:prompt", ask);
      model.off("change", say);
    };
  },
};

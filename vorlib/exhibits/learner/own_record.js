// The record of the learner, folded out under a practice: take it along, delete it, or let somebody
// else sit down. It returns a function that shows what the model says, and one that lets go of it.
// When somebody's record is left, `leave` is told whether the focus was in here.

function ownRecord(model, el, leave) {
  const ids = Math.random().toString(36).slice(2);
  const fold = add(el, "details", { className: "vorlib-record" });
  addControl(fold, "summary", { textContent: "Your record" });
  const kept = add(fold, "div", {});
  kept.setAttribute("role", "status");
  const message = document.createElement("div");
  message.className = "vorlib-message";
  message.id = `record-${ids}`;
  message.setAttribute("role", "alert");
  let asked = false; // by this view: of several views of one practice only one saves the file

  const row = () => add(fold, "div", { className: "vorlib-answer" });
  const button = (parent, textContent, content) => {
    const made = addControl(parent, "button", { type: "button", textContent });
    made.classList.add("jupyter-button");
    made.addEventListener("click", () => {
      parent.after(message); // what stands in the way is said beside what was pressed
      asked = content().press === "export";
      model.send(content());
    });
    return made;
  };

  const out = row();
  button(out, "Export as JSON", () => ({ press: "export", as: "json" }));
  button(out, "Export as CSV", () => ({ press: "export", as: "csv" }));
  add(out, "span", { textContent: "a file to keep or to hand in" });

  const back = row();
  add(back, "label", { textContent: "Bring in an export", htmlFor: `back-${ids}` });
  const file = addControl(back, "input", {
    type: "file",
    id: `back-${ids}`,
    accept: ".json,.csv",
  });
  file.setAttribute("aria-describedby", message.id);
  file.addEventListener("change", async () => {
    const [chosen] = file.files;
    if (!chosen) return;
    back.after(message);
    model.send({ press: "bring in", name: chosen.name, text: await chosen.text() });
    file.value = ""; // so that the same file can be chosen again
  });

  const other = row();
  add(other, "label", { textContent: "Somebody else sits down", htmlFor: `other-${ids}` });
  const name = addControl(other, "input", {
    type: "text",
    id: `other-${ids}`,
    autocomplete: "off",
    placeholder: "a name, or none",
  });
  name.setAttribute("aria-describedby", message.id);
  const change = button(other, "Change the name", () => ({
    press: "somebody else",
    name: name.value,
  }));
  name.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && !event.isComposing) change.click();
  });

  const away = row();
  const remove = button(away, "Delete the record", () => ({ press: "delete" }));
  const sure = row();
  sure.setAttribute("role", "group");
  const question = add(sure, "span", { id: `sure-${ids}`, className: "vorlib-sure" });
  sure.setAttribute("aria-labelledby", question.id);
  const keep = button(sure, "Keep it", () => ({ press: "keep" }));
  button(sure, "Delete for good", () => ({ press: "delete for good" }));
  sure.addEventListener("keydown", (event) => {
    if (event.key === "Escape") keep.click();
  });
  fold.append(message);

  fold.addEventListener("toggle", () => {
    if (fold.open === model.get("record_open")) return;
    model.set("record_open", fold.open);
    model.save_changes();
  });

  const say = () => {
    const held = fold.contains(document.activeElement);
    for (const [line, about] of [[kept, "record"], [message, "record_message"]]) {
      if (line.textContent !== model.get(about)) line.textContent = model.get(about);
    }
    name.setAttribute("aria-invalid", String(Boolean(model.get("record_message"))));
    const wasAsking = !sure.hidden;
    question.textContent = model.get("record_sure");
    sure.hidden = !model.get("record_sure");
    if (!sure.hidden && !wasAsking && held) keep.focus();
    if (sure.hidden && wasAsking && held) remove.focus();
    fold.hidden = model.get("asks_name");
  };
  let who = model.get("learner");
  const changeOver = () => {
    const [left, held] = [who, fold.contains(document.activeElement)];
    who = model.get("learner");
    name.value = "";
    fold.open = false;
    if (left) leave(held);
  };
  const save = (content) => {
    if (!content.download || !asked) return;
    asked = false;
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([content.text]));
    link.download = content.download;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000); // the browser may yet be reading it
  };
  model.on("msg:custom", save);
  model.on("change:learner", changeOver);
  sure.hidden = true;
  return [
    say,
    () => {
      model.off("msg:custom", save);
      model.off("change:learner", changeOver);
    },
  ];
}

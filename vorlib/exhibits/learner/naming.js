// The box for a learner's name, and a line beside it that says whose record it continues. It
// returns a function that shows what the model says.

function tellName(model, name, line, otherwise) {
  name.value = model.get("typed_name");
  name.addEventListener("input", () => {
    model.set("typed_name", name.value);
    model.save_changes();
  });
  return () => {
    const words = model.get("continues") || otherwise;
    if (line.textContent !== words) line.textContent = words;
  };
}

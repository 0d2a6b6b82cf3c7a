// What the scripts of several widgets begin with.

function add(parent, tag, properties) {
  return parent.appendChild(Object.assign(document.createElement(tag), properties));
}

// Adds what takes keys. They are for the answer, not shortcuts of the notebook: it looks for this
// attribute from the focused element upward, and takes a focused button itself for a cell.
function addControl(parent, tag, properties) {
  const control = add(parent, tag, properties);
  control.setAttribute("data-lm-suppress-shortcuts", "true");
  return control;
}


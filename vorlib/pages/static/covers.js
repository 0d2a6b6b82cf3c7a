// Keep the answer to a prediction covered until the learner makes or skips the prediction.

/* Uncover what stands below the prediction of a cell once the prediction shows its answer. */
function uncoverWith(index) {
  const asks = document.querySelector(`[cell-index="${index}"]`);
  const look = () => {
    const isOpen = !asks.querySelector(".vorlib-told");
    const below = document.querySelectorAll(`[data-asked="${index}"]`);
    for (const piece of below) piece.classList.toggle("covered", isOpen);
  };
  const changes = { subtree: true, childList: true, attributes: true, attributeFilter: ["class"] };
  new MutationObserver(look).observe(asks, changes);
}

/* Watch each prediction of the page, to uncover what answers it. */
export function coverAnswers() {
  const covered = [...document.querySelectorAll(".covered")];
  for (const index of new Set(covered.map((piece) => piece.dataset.asked))) uncoverWith(index);
}

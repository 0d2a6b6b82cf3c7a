// In a notebook as on a page, what answers a prediction is covered until it is made or skipped. A
// page does it by itself: it knows what its cells give before they are run.

const COVER_MS = 200; // for so long an answer may be seen, where it comes after its question

// Mark the cells that follow an open prediction, up to the next heading.
function coverCells(cells) {
  let asks = null;
  for (const cell of cells.children) {
    if (cell.querySelector(".jp-RenderedMarkdown :is(h1, h2)")) asks = null;
    cell.classList.toggle("covered", Boolean(asks && !asks.matches(".vorlib-told")));
    asks = cell.querySelector(".vorlib-prediction") ?? asks;
  }
}

// Watch the notebook in which an exhibit stands, once.
function coverAnswers(exhibit) {
  const cells = exhibit.closest(".jp-Notebook")?.querySelector(".jp-WindowedPanel-viewport");
  if (!cells || cells.vorlibCovers) return;
  let timer = 0;
  const look = () => {
    timer = 0;
    coverCells(cells);
  };
  const changes = { subtree: true, childList: true, attributes: true, attributeFilter: ["class"] };
  cells.vorlibCovers = new MutationObserver(() => (timer ||= setTimeout(look, COVER_MS)));
  cells.vorlibCovers.observe(cells, changes);
  look();
}

// A page of the course: show its progress as it starts, remember the last page opened, present.
import { coverAnswers } from "./covers.js";
import { keepForReload, watchKernel } from "./kernel.js";
import { present } from "./present.js";

const { baseUrl, part, title } = document.body.dataset;
const status = document.getElementById("starting");
const LAST = "vorlib.last";

/* Remove the access token from the address bar, where others could read it. */
function hideToken() {
  const address = new URL(location.href);
  if (address.searchParams.has("token")) {
    address.searchParams.delete("token");
    history.replaceState(null, "", address);
  }
}

const LATE_MS = 3000; // after the last cell ran: stop waiting for outputs that did not come

/* Show how many cells have run; resolve when their outputs are drawn, a moment later. */
function showProgress() {
  return new Promise((alive) => countCells(alive));
}

const WAITS = '[class="lm-Widget"]:empty'; // a widget whose script is still loading

/* Return whether the output of a cell is drawn. */
function isDrawn(cell) {
  const isThere = !("gives" in cell.dataset) || cell.querySelector(".jp-OutputArea-output > *");
  return isThere && !cell.querySelector(WAITS);
}

function countCells(alive) {
  const cells = [...document.querySelectorAll("[cell-index]")];
  let late;
  const tell = () => {
    const done = cells.filter((cell) => cell.querySelector(".jp-Cell-outputWrapper")).length;
    if (done < cells.length) {
      status.textContent = `Starting the lesson: ${done} of ${cells.length}`;
      return;
    }
    late ??= setTimeout(finish, LATE_MS);
    if (cells.every(isDrawn)) finish();
  };
  const finish = () => {
    clearTimeout(late);
    status.textContent = "";
    document.body.dataset.alive = "";
    watch.disconnect();
    alive();
  };
  const watch = new MutationObserver(tell);
  watch.observe(document.getElementById("lesson"), { childList: true, subtree: true });
  tell();
}

/* Give pictures outside exhibits an alternative text: the title and description in their SVG. */
function sayPictures() {
  for (const image of document.querySelectorAll('#lesson img[src^="data:image/svg+xml,"]')) {
    const svg = decodeURIComponent(image.src.slice(image.src.indexOf(",") + 1));
    const drawn = new DOMParser().parseFromString(svg, "image/svg+xml");
    const words = [...drawn.querySelectorAll("svg > title, svg > desc")];
    image.alt ||= words.map((one) => one.textContent).join(". ");
  }
}

/* Remember the last page opened; on the start page, offer to go on with it. */
function rememberPlace() {
  if (!part.startsWith("00_")) {
    localStorage.setItem(LAST, JSON.stringify({ part, title }));
    return;
  }
  const standing = document.getElementById("standing");
  const last = JSON.parse(localStorage.getItem(LAST) ?? "null");
  const link = [...document.querySelectorAll(".contents a")].find(
    (link) => last && link.pathname.endsWith(`/${last.part}`),
  );
  if (link) {
    const goOn = document.getElementById("go-on");
    goOn.hidden = false;
    goOn.firstElementChild.href = link.href;
    goOn.querySelector("b").textContent = link.textContent;
  }
  standing.hidden = !link && !standing.querySelector(".learner");
}

function closeContents() {
  const contents = document.querySelector(".contents");
  document.addEventListener("click", (event) => {
    if (!contents.contains(event.target)) contents.open = false;
  });
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && contents.open) {
      contents.open = false;
      contents.querySelector("summary").focus();
    }
  });
}

// a page that the browser restores from its cache has lost its kernel
window.addEventListener("pageshow", (event) => event.persisted && location.reload());

coverAnswers();
const alive = showProgress();
alive.then(sayPictures);
watchKernel(status, baseUrl);
keepForReload(status, alive);
present(document.getElementById("present"), alive);
hideToken();
closeContents();
rememberPlace(); // last, because a browser may refuse to store anything

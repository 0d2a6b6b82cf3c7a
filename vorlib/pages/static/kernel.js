// The kernel of the page: check that it is still the one that ran the cells; keep it on a reload.
//
// A page that is reloaded asks for its kernel again with a cookie, so its exhibits are as they
// were. Text typed in boxes but not yet entered is kept in the tab. The page says if work was lost.

const LOOK_MS = 1500;
const COOKIE = "vorlib-left";
const COOKIE_S = 10;
const KEPT = `vorlib.kept:${location.pathname}`;
const BOXES = ".given :is(input:not([type]), input[type=text], input[type=number], textarea)";
const SETTLED_MS = 200; // after the last change of the page: drawing a box may empty it
const LOST = "This page had to restart. What you did on it before is gone.";

const kernelId = () => JSON.parse(document.getElementById("jupyter-config-data").textContent).kernelId;
const cookie = (value, seconds) => {
  const where = `path=${location.pathname}; samesite=strict`;
  document.cookie = `${COOKIE}=${value}; max-age=${seconds}; ${where}`;
};
const action = (textContent, onclick) =>
  Object.assign(document.createElement("button"), { className: "button", textContent, onclick });

/* Check again and again that the kernel is there; say on the page when it is not. */
export function watchKernel(status, baseUrl) {
  let hasStopped = false;
  const look = async () => {
    const answer = await fetch(`${baseUrl}voila/api/alive/${kernelId()}`).catch(() => null);
    setTimeout(look, LOOK_MS);
    if (Boolean(answer?.ok) !== hasStopped) return;
    hasStopped = !hasStopped;
    window.dispatchEvent(new CustomEvent("vorlib-kernel", { detail: hasStopped }));
    const closed = "The course does not answer. If you closed it, open it again.";
    const why = answer ? "This lesson has stopped." : closed;
    status.replaceChildren(...(hasStopped ? [why, action("Reload the page", () => location.reload())] : []));
  };
  look();
}

/* Return the boxes of the page, each with a name that stays the same after a reload. */
function boxes() {
  const count = {};
  return [...document.querySelectorAll(BOXES)].map((box) => {
    const cell = box.closest(".given").getAttribute("cell-index");
    const asked = box.closest(".vorlib-practice")?.querySelector(".vorlib-prompt")?.textContent ?? "";
    const name = `${cell}|${asked}`;
    count[name] = (count[name] ?? 0) + 1;
    return { box, asked, name: `${name}|${count[name]}` };
  });
}

/* Put typed text back: in all boxes, or only in those that ask the same question again. */
function putBack(typed, inAll) {
  let timer = 0;
  const put = () => {
    for (const { box, asked, name } of boxes()) {
      if (name in typed && (inAll || asked)) box.value = typed[name];
      delete typed[name];
    }
    if (!Object.keys(typed).length) watch.disconnect();
  };
  const later = () => {
    clearTimeout(timer);
    timer = setTimeout(put, SETTLED_MS);
  };
  const watch = new MutationObserver(later);
  watch.observe(document.getElementById("lesson"), { childList: true, subtree: true });
  later();
  addEventListener("keydown", () => watch.disconnect(), { once: true }); // the learner types again
}

/* Keep typed text and the kernel for a reload, and restore what the last page kept. */
export function keepForReload(status, alive) {
  const kept = JSON.parse(sessionStorage.getItem(KEPT) ?? "null");
  let isTouched = false;
  for (const kind of ["pointerdown", "keydown"]) {
    addEventListener(kind, ({ target }) => (isTouched ||= Boolean(target.closest?.(".given"))), true);
  }
  addEventListener("beforeunload", () => cookie(kernelId(), COOKIE_S));
  addEventListener("pagehide", () => {
    const typed = Object.fromEntries(boxes().map(({ box, name }) => [name, box.value]));
    sessionStorage.setItem(KEPT, JSON.stringify({ kernel: kernelId(), isTouched, typed }));
  });
  cookie("", 0);
  if (!kept) return;
  const isSame = kept.kernel === kernelId();
  isTouched = kept.isTouched && isSame;
  putBack(kept.typed, isSame);
  const tell = () => status.replaceChildren(LOST, action("Close", () => status.replaceChildren()));
  if (kept.isTouched && !isSame) alive.then(tell);
}

/* Reload the page with a new kernel, as if it were opened for the first time. */
export function beginAgain() {
  addEventListener("beforeunload", () => cookie("", 0));
  addEventListener("pagehide", () => sessionStorage.removeItem(KEPT));
  location.reload();
}

"""A newcomer's first hour and what follows, on a bare machine: told as it goes, and checked.

    sudo python tests/tools/newcomers_hour.py       # some three minutes, most of them installs

An ordinary user with an empty home types the README's commands word for word, opens the first
lesson, changes a lesson, comes back the second day, gets a newer version, and removes it all. Needs
`build`; with `playwright` and a Chromium a browser moves a slider of the first lesson, and without
them its page is asked for.
"""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
import tempfile
import time
import urllib.request
from importlib.util import find_spec
from pathlib import Path

sys.path.append(str(Path(__file__).parents[1]))

from lab import CHROMIUM_OPTIONS, PAGE_ALIVE_MS
from tools.bare_root import BareRoot, Served
from tools.check_wheel import ROOT, known_to_git

FIRST, CHANGED, UNTOUCHED = "01_radials.ipynb", "02_indicator.ipynb", "03_where_am_i.ipynb"
OWN, RECORDS = "vorlib-course", ".local/share/vorlib"
REMARK = "My remark: the heading plays no part."
NEWER = "9.9.9"
BEGUN = time.monotonic()
# What is left beside the learner's own: what Jupyter and IPython keep for whatever is opened in
# them, and the caches of package clients and of fonts.
OF_OTHERS = (".local/share/jupyter", ".ipython/", ".cache/")
HAS_MOVED = "([sentence, before]) => sentence.textContent !== before"


def tell(what: str) -> None:
    """Tell the next part of the story, with the seconds from its beginning."""
    print(f"{time.monotonic() - BEGUN:4.0f} s: {what}", flush=True)


def readme_commands() -> tuple[str, str]:
    """Return the README's two commands, to the letter."""
    blocks = re.findall(r"```bash\n(.*?)\n```", (ROOT / "README.md").read_text("utf-8"), re.S)
    first, second = (block for block in blocks if block.endswith("vorlib course"))
    return first, second


def download(home: BareRoot, name: str) -> None:
    """Lay the project's files in a folder of the home, as they are downloaded."""
    lay(home.home / name)
    home.owned(home.home / name)


def lay(folder: Path) -> None:
    """Write the project's files to a folder."""
    for path, content in known_to_git().items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(content)


def newer_wheel(folder: Path) -> Path:
    """Return a wheel of a newer version, in which two lessons say more."""
    lay(folder)
    for path in ("pyproject.toml", "vorlib/__init__.py"):
        text = (folder / path).read_text("utf-8")
        text = re.sub(r'^(__)?version(__)? = ".*"', rf'\1version\2 = "{NEWER}"', text, flags=re.M)
        (folder / path).write_text(text, "utf-8")
    for name in (CHANGED, UNTOUCHED):
        path = folder / "notebooks" / name
        book = json.loads(path.read_text("utf-8"))
        book["cells"][0]["source"].append("\n\nSaid in the newer version.")
        path.write_text(json.dumps(book, indent=1, ensure_ascii=False) + "\n", "utf-8")
    subprocess.run(
        [sys.executable, "-m", "build", "--wheel", "--outdir", folder / "dist", folder],
        check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
    )  # fmt: skip
    return next((folder / "dist").glob("*.whl"))


def move_a_slider(course: Served) -> str:
    """Open the first lesson in a browser and move a slider; return what the lesson then says."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        program = shutil.which("chromium") or shutil.which("chromium-browser")
        browser = playwright.chromium.launch(executable_path=program, args=CHROMIUM_OPTIONS)
        page = browser.new_page()
        page.goto(course.at(f"/voila/render/{FIRST}"))
        sentence = page.locator(".vorlib-sentence").first
        page.locator(".vorlib-prediction").first.get_by_role("button", name="Skip").click()
        sentence.wait_for(timeout=PAGE_ALIVE_MS)
        before = sentence.inner_text()
        page.locator(".widget-slider .noUi-handle:visible").first.press("ArrowRight")
        page.wait_for_function(
            HAS_MOVED, arg=[sentence.element_handle(), before], timeout=PAGE_ALIVE_MS
        )
        said = sentence.inner_text()
        browser.close()
    return str(said)


def first_lesson(course: Served) -> None:
    """Open the start and the first lesson."""
    assert "Start here" in course.page()
    if find_spec("playwright"):
        tell(f"lesson 1 lives; a slider moved, it says: {move_a_slider(course)}")
        return
    with urllib.request.urlopen(course.at(f"/voila/render/{FIRST}"), timeout=120) as answer:
        assert answer.status == 200
    tell("lesson 1 is there (no browser: its page was asked for)")


def save_a_change(course: Served) -> None:
    """Write a remark into a lesson and save it, as JupyterLab does."""
    address = course.at(f"/api/contents/{CHANGED}")
    with urllib.request.urlopen(address, timeout=120) as answer:
        model = json.load(answer)
    book = model["content"]
    book["cells"].append({"cell_type": "markdown", "id": "m", "metadata": {}, "source": REMARK})
    saved = {"type": "notebook", "format": "json", "content": book}
    request = urllib.request.Request(
        address,
        method="PUT",
        data=json.dumps(saved).encode(),
        headers={"Authorization": f"token {address.partition('token=')[2]}"},
    )
    urllib.request.urlopen(request, timeout=120).close()


def hour(bare: BareRoot, wheel: Path) -> None:
    """Tell and check the whole story."""
    by_pip, by_uv = readme_commands()
    start_again = by_pip.rpartition("&& ")[2]
    download(bare, "vorlib")
    with bare.serving(by_pip, "vorlib") as course:
        tell(f"typed: {by_pip}")
        tell(f"it said: {' / '.join(line for line in course.said[-5:-1] if line)}")
        first_lesson(course)
        save_a_change(course)
    copy, other = bare.home / OWN / CHANGED, bare.home / OWN / UNTOUCHED
    mine = copy.read_bytes()
    assert REMARK.encode() in mine
    tell(f"a remark written into {CHANGED} is saved in ~/{OWN}")
    bare.run(".venv/bin/vorlib record --student Newcomer --taught 01", "vorlib")

    with bare.serving(start_again, "vorlib") as course:
        assert "Start here" in course.page()
    assert copy.read_bytes() == mine
    tell(f"the second day, typed: {start_again}; the changed copy is as it was left")

    bare.run("python3 -m venv uv && uv/bin/pip install --quiet uv")
    download(bare, "again")
    with bare.serving(f"PATH=$HOME/uv/bin:$PATH; {by_uv}", "again") as course:
        assert "Start here" in course.page()
    assert copy.read_bytes() == mine
    tell(f"with uv, typed: {by_uv}; the same course, the same copies")

    before = other.read_bytes()
    (bare.home / wheel.name).write_bytes(wheel.read_bytes())
    bare.run(f".venv/bin/pip install --quiet --upgrade ../{wheel.name}", "vorlib")
    assert NEWER in bare.run(".venv/bin/vorlib --version", "vorlib")
    with bare.serving(start_again, "vorlib") as course:
        told = [line for line in course.said if "newer version" in line]
    assert copy.read_bytes() == mine
    assert other.read_bytes() != before
    assert len(told) == 1
    assert told[0].startswith(CHANGED)
    tell(f"a newer version: {UNTOUCHED} is brought up to date, and of hers it says: {told[0]}")

    remove(bare, wheel)


def remove(bare: BareRoot, wheel: Path) -> None:
    """Remove the course, and hold what is left against what the learner wrote."""
    bare.run(".venv/bin/pip uninstall --quiet --yes vorlib", "vorlib")
    package = list(bare.home.glob("vorlib/.venv/lib/*/site-packages/vorlib*"))
    assert not package, f"left in the environment: {package}"
    for name in ("vorlib", "again", "uv", wheel.name):  # the folders that she made
        bare.run(f"rm -rf ~/{name}")
    left = bare.files()
    tell("uninstalled, and the downloaded folder deleted. Left in the home:")
    for place in (OWN, RECORDS, *OF_OTHERS):
        print(f"        ~/{place}: {sum(path.startswith(place) for path in left)} files")
    assert REMARK.encode() in (bare.home / OWN / CHANGED).read_bytes()
    others = [path for path in left if not path.startswith((OWN, RECORDS, *OF_OTHERS))]
    assert not others, f"left behind: {others}"


def main() -> None:
    """Make the newer version and the bare machine, and run the hour."""
    with tempfile.TemporaryDirectory(prefix="newcomer-") as name:
        folder = Path(name)
        folder.chmod(0o755)
        wheel = newer_wheel(folder / "newer")
        (folder / "root").mkdir()
        hour(BareRoot(folder / "root"), wheel)
    print("The newcomer's hour went well.")


if __name__ == "__main__":
    main()

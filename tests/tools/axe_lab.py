"""What axe-core finds amiss in JupyterLab with all that the course puts into its notebooks.

    npm install --prefix /tmp/axe axe-core
    python tests/tools/axe_lab.py /tmp/axe/node_modules/axe-core/axe.min.js
    python tests/tools/axe_lab.py .../axe.min.js --dark 05_intercepting.ipynb    # in the dark theme

JupyterLab's own parts are left out. Fails where a fault is serious or critical.
"""

from __future__ import annotations

import argparse
import json
import shutil
import sys
import tempfile
from pathlib import Path

sys.path.append(str(Path(__file__).parents[1]))
from browser.conftest import NOTEBOOKS, Desk
from lab import CHROMIUM_OPTIONS, running_lab
from tools.axe_pages import SERIOUS

from vorlib.pages.course_folder import shipped

SETTINGS = {
    "notebook-extension/tracker": {"windowingMode": "none"},  # every cell is on the page
    "apputils-extension/themes": {"theme": "JupyterLab Light"},
}
DARK = {"apputils-extension/themes": {"theme": "JupyterLab Dark"}}
# The outermost elements of the course, and the faults within them.
RUN = """async () => {
    const ours = [...document.querySelectorAll(".jp-Notebook [class*='vorlib-']")];
    const outermost = ours.filter((one) => !one.parentElement.closest("[class*='vorlib-']"));
    if (!outermost.length) return [0, []];
    const { violations } = await axe.run({ include: outermost }, { resultTypes: ["violations"] });
    return [outermost.length, violations.map((one) =>
        [one.impact, one.id, one.nodes.length, one.nodes[0].html.slice(0, 160)])];
}"""


def main() -> int:
    """Print what is found, notebook by notebook; return 1 if any of it is serious."""
    from playwright.sync_api import sync_playwright

    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("axe", type=Path)
    parser.add_argument("names", nargs="*", default=list(shipped()))
    parser.add_argument("--dark", action="store_true")
    options = parser.parse_args()
    script, serious = options.axe.read_text(encoding="utf-8"), 0
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        notebooks, settings = Path(folder) / "notebooks", Path(folder) / "settings"
        notebooks.mkdir()
        for name, chosen in (SETTINGS | (DARK if options.dark else {})).items():
            path = settings / f"@jupyterlab/{name}.jupyterlab-settings"
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(json.dumps(chosen))
        chromium = shutil.which("chromium") or shutil.which("chromium-browser")
        browser = playwright.chromium.launch(executable_path=chromium, args=CHROMIUM_OPTIONS)
        with running_lab(notebooks, settings) as lab:
            desk = Desk(browser, lab)
            for name in options.names:
                page = desk.run(NOTEBOOKS / name)
                page.wait_for_timeout(1000)
                page.evaluate(script)
                parts, found = page.evaluate(RUN)
                serious += sum(impact in SERIOUS for impact, *_ in found)
                print(f"{name}: {len(found)} kinds of fault in {parts} parts", flush=True)
                for impact, rule, count, html in found:
                    print(f"  {impact}: {rule}, {count} times, such as {html}")
                desk.clear()
    return int(bool(serious))


if __name__ == "__main__":
    sys.exit(main())

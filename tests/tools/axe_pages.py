"""What axe-core finds amiss on the lesson pages for readers with a screen reader or a keyboard.

    npm install --prefix /tmp/axe axe-core
    python tests/tools/axe_pages.py /tmp/axe/node_modules/axe-core/axe.min.js
    python tests/tools/axe_pages.py .../axe.min.js 05_intercepting.ipynb    # some pages

Fails where a fault is serious or critical.
"""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.append(str(Path(__file__).parents[1]))
from seen import open_pages

from vorlib.pages.course_folder import shipped

SERIOUS = ("serious", "critical")
RUN = """async () => (await axe.run(document, {resultTypes: ["violations"]})).violations.map(
    (one) => [one.impact, one.id, one.nodes.length, one.nodes[0].html.slice(0, 160)])"""


def main(axe: str, *names: str) -> int:
    """Print what is found, page by page; return 1 if any of it is serious."""
    script, serious = Path(axe).read_text(encoding="utf-8"), 0
    with open_pages() as opened:
        for name in names or shipped():
            page = opened(name)
            page.evaluate(script)
            found = page.evaluate(RUN)
            serious += sum(impact in SERIOUS for impact, *_ in found)
            print(f"{name}: {len(found)} kinds of fault", flush=True)
            for impact, rule, count, html in found:
                print(f"  {impact}: {rule}, {count} times, such as {html}")
            page.close(run_before_unload=True)
    return int(bool(serious))


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))

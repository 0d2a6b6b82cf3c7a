"""Write the README's table of notebooks from what the notebooks say of themselves.

    python tests/tools/readme_table.py

A row has the notebook's title and what one can do afterwards: the list under its heading "What you
will be able to do" or, without one, the paragraph below the title.
"""

import re
import sys
from itertools import takewhile
from pathlib import Path

import nbformat

ROOT = Path(__file__).parents[2]
HEAD = ("| notebook | what you can do afterwards |", "|---|---|")
PROMISE = "## What you will be able to do"


def notebooks(root):
    """Return the course's notebooks: the lessons first, then those in folders."""
    found = [p for p in (root / "notebooks").rglob("*.ipynb") if "checkpoints" not in str(p.parent)]
    return sorted(found, key=lambda path: (len(path.parts), path))


def prose(path):
    """Return all text of a notebook, in Markdown."""
    cells = nbformat.read(path, as_version=4).cells
    return "\n\n".join(cell.source for cell in cells if cell.cell_type == "markdown")


def title(text):
    """Return the notebook's title, without the mark of a heading."""
    return re.match(r"# (.+)", text)[1]


def promise(text):
    """Return what one can do afterwards, on one line."""
    said = text.partition(PROMISE)[2] or text.partition("\n")[2]
    block = said.strip().partition("\n\n")[0].replace("**", "")
    items = re.split(r"^- ", block, flags=re.M)[1:]
    lines = [" ".join(item.split()).rstrip(".;") for item in items]
    return "; ".join(line[0].lower() + line[1:] for line in lines) or " ".join(block.split())


def row(path, root):
    """Return a notebook's row of the table."""
    text, link = prose(path), path.relative_to(root).as_posix()
    who = f"*{path.parent.name}:* " if path.parent.name != "notebooks" else ""
    return f"| [{title(text)}]({link}) | {who}{promise(text)} |"


def table(root=ROOT):
    """Return the table's lines."""
    return [*HEAD, *(row(path, root) for path in notebooks(root))]


def in_readme(readme):
    """Return the table's lines as a README has them."""
    lines = readme.splitlines()
    return [*takewhile(lambda line: line.startswith("|"), lines[lines.index(HEAD[0]) :])]


def main(root=ROOT):
    """Write the table into the README in place of the one that is there."""
    readme = root / "README.md"
    text = readme.read_text(encoding="utf-8")
    written = text.replace("\n".join(in_readme(text)), "\n".join(table(root)))
    readme.write_text(written, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    sys.exit(main())

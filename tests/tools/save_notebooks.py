"""Run notebooks and save them with their outputs, ready to be committed.

    python tests/tools/save_notebooks.py                               # all of notebooks/
    python tests/tools/save_notebooks.py notebooks/01_radials.ipynb    # or only these

They run in this Python. A live widget is saved as what it shows to a reader without a kernel, its
picture and its sentence: without the kernel it would only seem to be alive. A second run changes
nothing in the file: no times, no random identifiers. The digests by which the course knows its own
notebooks are written as well.

For whoever opens them in JupyterLab, each gets a button under its title that starts the exhibits.
The code is folded away, no cell can be deleted, and none changed but those that the text asks to
change: they follow a cell of text that speaks of "the next cell", "the gray cell" or "both cells".
What explains the answer to a prediction is folded away under its heading.
"""

import json
import os
import re
import sys
from pathlib import Path

import nbformat
from jupyter_client.kernelspec import NATIVE_KERNEL_NAME
from nbclient import NotebookClient
from nbclient.exceptions import CellExecutionError

from vorlib.lab.saving import keep_still
from vorlib.pages.course_folder import digest
from vorlib.pages.page import EXPLAINS, NOT_ON_PAGES

NOTEBOOKS = Path(__file__).parents[2] / "notebooks"
DIGESTS = Path(__file__).parents[2] / "vorlib" / "data" / "notebooks.json"
CHECKED = "nbval-check-output"  # the tag by which nbval compares a cell's output with a new run
KERNEL = {"display_name": "Python 3", "language": "python", "name": NATIVE_KERNEL_NAME}
ASKS_FOR_CHANGE = re.compile(r"\b(next|gray) cell\b|\bboth cells\b")
START_ID = "start-the-exhibits"
# Running all cells shows the last one; what follows goes back to the first.
COMMANDS = ("notebook:run-all-cells", "notebook:extend-marked-cells-top", "notebook:deselect-all")
START_BUTTON = (
    '<button class="jp-Dialog-button jp-mod-accept jp-mod-styled" '
    'data-commandlinker-command="apputils:run-all-enabled" '
    f"data-commandlinker-args='{json.dumps({'commands': COMMANDS})}'>Start the exhibits</button>"
)


def notebooks(folder=NOTEBOOKS):
    """Return every notebook under a folder, without the checkpoints that JupyterLab keeps."""
    return [p for p in sorted(folder.rglob("*.ipynb")) if ".ipynb_checkpoints" not in p.parts]


def shows_picture(output):
    """Tell whether an output is a picture or a page of HTML."""
    return any(kind.startswith(("image/", "text/html")) for kind in output.get("data", {}))


def shows_text(output):
    """Tell whether an output is text, which another run has to repeat exactly."""
    return output.output_type == "stream" or ("data" in output and not shows_picture(output))


def run(path):
    """Return a notebook as a fresh kernel leaves it, in the folder it lies in."""
    notebook = nbformat.read(path, as_version=4)
    notebook.metadata = {"kernelspec": KERNEL, **_for_teaching(notebook.metadata)}
    client = NotebookClient(
        notebook,
        timeout=120,
        kernel_name=NATIVE_KERNEL_NAME,
        resources={"metadata": {"path": str(path.parent)}},
        record_timing=False,
        coalesce_streams=True,
        store_widget_state=False,
    )
    client.execute()
    notebook.metadata.language_info = {"name": "python"}  # without this machine's Python version
    return notebook


def _for_teaching(metadata):
    """Return what a lesson's notebook says for the instructor alone; nothing in any other."""
    return {name: metadata[name] for name in ("vorlib",) if name in metadata}


def tag(notebook):
    """Tag the cells whose text is to be checked, and no others."""
    for cell in notebook.cells:
        tags = [tag for tag in cell.metadata.get("tags", []) if tag != CHECKED]
        if cell.cell_type == "code" and any(map(shows_text, cell.outputs)):
            tags.append(CHECKED)
        cell.metadata.pop("tags", None)
        if tags:
            cell.metadata["tags"] = tags


def add_start(notebook):
    """Put the button that starts the exhibits under the title, in place of the one there."""
    cells = [cell for cell in notebook.cells if cell.id != START_ID]
    runs = any(cell.cell_type == "code" for cell in cells)
    if runs and cells[0].source.startswith("# "):
        start = nbformat.v4.new_markdown_cell(START_BUTTON, id=START_ID)
        start.metadata["tags"] = [NOT_ON_PAGES]
        cells.insert(1, start)
    notebook.cells = cells


def protect(notebook):
    """Fold the code away, and let nothing be changed but what the text asks to change."""
    asked = False
    for cell in notebook.cells:
        if cell.cell_type == "markdown":
            asked = bool(ASKS_FOR_CHANGE.search(" ".join(cell.source.split())))
        is_open = asked and cell.cell_type == "code"
        cell.metadata["deletable"] = False
        cell.metadata.pop("editable", None)
        cell.metadata.pop("jupyter", None)
        if not is_open:
            cell.metadata["editable"] = False
        if cell.cell_type == "code" and not is_open:
            cell.metadata["jupyter"] = {"source_hidden": True}


def fold_explanations(notebook):
    """Let JupyterLab open each with its heading folded, which has to be a cell of its own."""
    cells = []
    for cell in notebook.cells:
        if cell.cell_type == "markdown" and cell.source.startswith(f"{EXPLAINS}\n"):
            cells.append(nbformat.v4.new_markdown_cell(EXPLAINS, id=f"explain-{cell.id}"[:64]))
            cell.source = cell.source.removeprefix(EXPLAINS).lstrip()
        cells.append(cell)
    for cell in cells:
        if cell.source == EXPLAINS:
            cell.metadata["jp-MarkdownHeadingCollapsed"] = True
    notebook.cells = cells


def save(path):
    """Run one notebook and write it back."""
    notebook = run(path)
    keep_still({"type": "notebook", "content": notebook})
    add_start(notebook)
    fold_explanations(notebook)
    tag(notebook)
    protect(notebook)
    path.write_text(nbformat.writes(notebook) + "\n", encoding="utf-8", newline="\n")


def digests(folder=NOTEBOOKS):
    """Return the notebooks in the course's order, new ones last, each with its digest.

    What lies in folders comes after all that does not.
    """
    there = [path.relative_to(folder).as_posix() for path in notebooks(folder)]
    known = json.loads(DIGESTS.read_text(encoding="utf-8")) if DIGESTS.is_file() else {}
    order = [name for name in known if name in there]
    order += [name for name in there if name not in order]
    return {name: digest(folder / name) for name in sorted(order, key=lambda name: "/" in name)}


def main(paths):
    """Save all the notebooks that can be; return 1 when one could not."""
    os.environ["JUPYTER_PREFER_ENV_PATH"] = "1"  # this environment's kernel before the user's own
    failed = False
    for path in paths or notebooks():
        try:
            save(path)
        except CellExecutionError as error:
            failed = True
            print(f"{path}: not saved\n{error}", file=sys.stderr)
        else:
            print(f"{path}: saved, {path.stat().st_size / 1000:.0f} kB")
    text = json.dumps(digests(), indent=2)
    DIGESTS.write_text(text + "\n", encoding="utf-8", newline="\n")
    return int(failed)


if __name__ == "__main__":
    sys.exit(main([Path(argument).resolve() for argument in sys.argv[1:]]))

"""Run notebooks and save them with their outputs, ready to be committed.

    python tests/tools/save_notebooks.py                               # all of notebooks/
    python tests/tools/save_notebooks.py notebooks/01_radials.ipynb    # or only these

They run in this Python. A live widget is saved as what it shows to a reader without a kernel, its
picture and its sentence: without the kernel it would only seem to be alive. A second run changes
nothing in the file: no times, no random identifiers. The digests by which the course knows its own
notebooks are written as well.
"""

import json
import os
import sys
from pathlib import Path

import nbformat
from jupyter_client.kernelspec import NATIVE_KERNEL_NAME
from nbclient import NotebookClient
from nbclient.exceptions import CellExecutionError

from vorlib.pages.course_folder import digest

NOTEBOOKS = Path(__file__).parents[2] / "notebooks"
DIGESTS = Path(__file__).parents[2] / "vorlib" / "data" / "notebooks.json"
CHECKED = "nbval-check-output"  # the tag by which nbval compares a cell's output with a new run
KERNEL = {"display_name": "Python 3", "language": "python", "name": NATIVE_KERNEL_NAME}
WIDGET = "application/vnd.jupyter.widget-view+json"


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
    notebook.metadata = {"kernelspec": KERNEL}
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


def still(notebook):
    """Leave of each live widget what it shows without a kernel."""
    for cell in notebook.cells:
        for output in cell.get("outputs", []):
            output.get("data", {}).pop(WIDGET, None)


def tag(notebook):
    """Tag the cells whose text is to be checked, and no others."""
    for cell in notebook.cells:
        tags = [tag for tag in cell.metadata.get("tags", []) if tag != CHECKED]
        if cell.cell_type == "code" and any(map(shows_text, cell.outputs)):
            tags.append(CHECKED)
        cell.metadata.pop("tags", None)
        if tags:
            cell.metadata["tags"] = tags


def save(path):
    """Run one notebook and write it back."""
    notebook = run(path)
    still(notebook)
    tag(notebook)
    path.write_text(nbformat.writes(notebook) + "\n", encoding="utf-8", newline="\n")


def digests(folder=NOTEBOOKS):
    """Return the notebooks in the course's order, new ones last, each with its digest."""
    there = [path.relative_to(folder).as_posix() for path in notebooks(folder)]
    known = json.loads(DIGESTS.read_text(encoding="utf-8")) if DIGESTS.is_file() else {}
    order = [name for name in known if name in there]
    return {
        name: digest(folder / name)
        for name in [*order, *(name for name in there if name not in order)]
    }


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

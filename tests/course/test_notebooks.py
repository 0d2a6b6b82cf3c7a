"""What every notebook of the course has in common.

That they run, and that they print what they printed when they were saved, is nbval's business.
"""

import ast
import builtins
import re
import xml.etree.ElementTree as ET

import nbformat
import pytest
from tools.readme_table import in_readme, table
from tools.reference_notebooks import made
from tools.save_notebooks import (
    CHECKED,
    NOTEBOOKS,
    digests,
    notebooks,
    save,
    shows_picture,
    shows_text,
)

import vorlib as v
from vorlib import exhibits as x
from vorlib.exhibits.base.registry import all_exhibits
from vorlib.io.notebooks import WIDGET_VIEW
from vorlib.pages.course_folder import shipped
from vorlib.practice.learning.predictions import lessons, prediction_text

README = NOTEBOOKS.parent / "README.md"
LARGEST_KB = 300
LONGEST_CELL = 5  # lines; a longer one belongs in the library
IMPORTS = "import vorlib as v\nfrom vorlib import exhibits as x"
PREDICTION = re.compile(r'x\.predict\("([\w-]+)"')
LONGEST_TEXT = 120  # words
CAUTION = ["on the ground", "not for navigation", "charts", "local rules", "licensed instructor"]
MACHINE_PATH = re.compile(r"(?<![\w.])/(home|Users|root|tmp|usr|opt|work|var)/|\b[A-Z]:\\\w")


def name(path):
    return path.relative_to(NOTEBOOKS).with_suffix("").as_posix()


MADE = set(made())


@pytest.fixture(params=[path for path in notebooks() if path.name not in MADE], ids=name)
def path(request):
    """Each notebook in turn that is written by hand; with none there the tests are skipped."""
    return request.param


@pytest.fixture
def cells(path):
    return nbformat.read(path, as_version=4).cells


@pytest.fixture
def code(cells):
    """The code cells that are not blank."""
    return [cell for cell in cells if cell.cell_type == "code" and cell.source.strip()]


def lines(cell):
    return [line for line in cell.source.splitlines() if line.strip()]


def is_plumbing(cell):
    """Tell whether a cell builds machinery: functions, classes, handlers, contexts."""
    machinery = ast.FunctionDef | ast.ClassDef | ast.Lambda | ast.Try | ast.With
    return any(isinstance(node, machinery) for node in ast.walk(ast.parse(cell.source)))


def strings(value):
    """Yield all text in an output, leaving out pictures in base64."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, list):
        for item in value:
            yield from strings(item)
    elif isinstance(value, dict):
        for key, item in value.items():
            if key not in {"image/png", "image/jpeg"}:
                yield from strings(item)


# --- outputs --------------------------------------------------------------------------------------


def test_it_was_saved_after_one_run_from_top_to_bottom(code):
    assert [cell.execution_count for cell in code] == list(range(1, len(code) + 1))
    assert any(cell.outputs for cell in code)


def test_nothing_went_wrong_in_it(code):
    for cell in code:
        expected = "raises-exception" in cell.metadata.get("tags", [])
        kinds = {output.output_type for output in cell.outputs}
        assert expected or "error" not in kinds, cell.source
        assert all(output.get("name") != "stderr" for output in cell.outputs), cell.source


def test_text_is_checked_and_nothing_else(code):
    for cell in code:
        checked = CHECKED in cell.metadata.get("tags", [])
        assert checked == any(map(shows_text, cell.outputs)), cell.source


def test_its_widgets_were_saved_as_what_they_show_without_a_kernel(path, cells):
    kinds = {kind for cell in cells for o in cell.get("outputs", []) for kind in o.get("data", {})}
    assert WIDGET_VIEW not in kinds, f"run python tests/tools/save_notebooks.py {path}"


def test_pictures_and_checked_text_have_cells_of_their_own(code):
    for cell in code:
        assert not (any(map(shows_text, cell.outputs)) and any(map(shows_picture, cell.outputs))), (
            cell.source
        )


def test_its_pictures_are_well_formed_as_a_reader_without_a_kernel_wants_them(code):
    for cell in code:
        for output in cell.outputs:
            picture = output.get("data", {}).get("image/svg+xml")
            if picture:
                ET.fromstring("".join(picture))


def test_no_output_differs_from_run_to_run_or_names_a_machine(cells):
    for cell in cells:
        for text in strings([cell.source, *cell.get("outputs", [])]):
            assert not MACHINE_PATH.search(text), cell.source
            assert not re.search(r" at 0x[0-9a-f]{6}", text), cell.source


# --- size and shape -------------------------------------------------------------------------------


def test_it_is_small_enough_to_read_on_the_web(path):
    assert path.stat().st_size <= LARGEST_KB * 1000


def test_its_cells_have_identifiers_that_differ(cells):
    identifiers = [cell.get("id") for cell in cells]
    assert all(identifiers)
    assert len(set(identifiers)) == len(identifiers)


def test_it_imports_the_library_and_the_exhibits_and_nothing_else(code):
    assert code[0].source == IMPORTS
    nodes = [node for cell in code[1:] for node in ast.walk(ast.parse(cell.source))]
    assert not [node for node in nodes if isinstance(node, ast.Import | ast.ImportFrom)]


def test_it_calls_only_what_they_offer(code):
    nodes = [node for cell in code[1:] for node in ast.walk(ast.parse(cell.source))]
    names = [node for node in nodes if isinstance(node, ast.Name)]
    own = {node.id for node in names if isinstance(node.ctx, ast.Store)}
    assert {node.id for node in names} <= own | {"v", "x"} | set(dir(builtins))
    assert not own & {"v", "x"}
    for node in nodes:
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
            offered = {"v": v.__all__, "x": x.__all__}.get(node.value.id, [node.attr])
            assert node.attr in offered, ast.unparse(node)


def test_its_code_cells_are_short_and_build_no_machinery(code):
    assert max(len(lines(cell)) for cell in code) <= LONGEST_CELL
    assert not [cell.source for cell in code if is_plumbing(cell)]


def test_no_exhibit_is_made_only_for_its_numbers(code):
    # Its controls are some hundred messages to the page: with many of them some are lost, and the
    # page waits for ever for a cell to end.
    assert not [cell.source for cell in code if ").state" in cell.source]


def test_its_text_cells_are_short(cells):
    for cell in cells:
        if cell.cell_type == "markdown":
            assert len(cell.source.split()) <= LONGEST_TEXT, cell.source


# --- the course -----------------------------------------------------------------------------------


def readme():
    return README.read_text(encoding="utf-8")


def says_the_caution(text):
    words = " ".join(re.findall(r"[\w-]+", text.lower()))
    return all(phrase in words for phrase in CAUTION)


def test_the_readme_and_the_start_notebook_say_that_the_course_is_for_the_ground_only():
    assert says_the_caution(readme())
    start = NOTEBOOKS / "00_start_here.ipynb"
    if start.exists():
        cells = nbformat.read(start, as_version=4).cells
        assert says_the_caution("\n".join(c.source for c in cells if c.cell_type == "markdown"))


def test_the_course_knows_its_notebooks_as_they_are():
    assert digests() == shipped(), "run python tests/tools/save_notebooks.py NOTEBOOK"


def test_the_table_in_the_readme_says_what_the_notebooks_say():
    assert in_readme(readme()) == table(), "run python tests/tools/readme_table.py"


def used_predictions(path):
    """Return the ids of the predictions that a notebook asks for, in its order."""
    return PREDICTION.findall("\n".join(cell.source for cell in code_cells(path)))


def code_cells(path):
    return [c for c in nbformat.read(path, as_version=4).cells if c.cell_type == "code"]


def lesson(path):
    """Return what a notebook is called by in its predictions and exhibits, such as "02"."""
    return path.stem[:2] if path.stem[0].isdigit() else path.stem


def test_its_predictions_are_those_of_its_lesson_in_their_order(path):
    used = used_predictions(path)
    assert used == [f"{lesson(path)}-{number}" for number in range(1, len(used) + 1)]
    for prediction in used:
        assert prediction_text(prediction).id == prediction


def test_every_prediction_is_asked_in_a_notebook():
    used = {prediction for path in notebooks() for prediction in used_predictions(path)}
    texts = NOTEBOOKS.parent / "vorlib" / "data" / "predictions"
    there = re.findall(
        r'^id = "(.*)"$', "\n".join(p.read_text(encoding="utf-8") for p in texts.iterdir()), re.M
    )
    assert sorted(there) == sorted(used)
    assert set(lessons()) == {prediction.rpartition("-")[0] for prediction in used}


@pytest.mark.parametrize("entry", all_exhibits().values(), ids=lambda entry: entry.name)
def test_every_exhibit_is_shown_in_the_notebook_that_introduces_it(entry):
    (path,) = (path for path in notebooks() if lesson(path) == entry.lesson)
    source = "\n".join(cell.source for cell in code_cells(path))
    made_for_it = {"flight": "whole_flight"}  # the flight of the route is the exhibit with tasks
    assert f"x.{made_for_it.get(entry.name, entry.name)}(" in source


@pytest.mark.parametrize("name", made())
def test_what_is_looked_up_stands_in_the_notebook_as_in_the_tables_of_the_library(name):
    cells = nbformat.read(NOTEBOOKS / name, as_version=4).cells
    assert [cell.source for cell in cells] == made()[name], (
        "run python tests/tools/reference_notebooks.py"
    )
    assert max(len(cell.source.split()) for cell in cells) <= LONGEST_TEXT


# --- saving them ----------------------------------------------------------------------------------


@pytest.fixture
def sample(tmp_path):
    """A notebook with text, a widget, a picture, silence and a tag that is out of place."""
    v4 = nbformat.v4
    sources = [
        "import ipywidgets, IPython.display",
        "print(6 * 7)",
        "ipywidgets.IntSlider(7)",
        "IPython.display.SVG('<svg xmlns=\"http://www.w3.org/2000/svg\"/>')",
        "answer = ...",
    ]
    cells = [v4.new_code_cell(source, id=f"c{n}") for n, source in enumerate(sources)]
    cells[3].metadata["tags"] = [CHECKED, "kept"]
    path = tmp_path / "sample.ipynb"
    nbformat.write(v4.new_notebook(cells=cells), path)
    return path


def test_a_saved_notebook_has_its_outputs_and_its_tags(sample):
    save(sample)
    cells = nbformat.read(sample, as_version=4).cells
    assert [cell.execution_count for cell in cells] == [1, 2, 3, 4, 5]
    assert cells[1].outputs[0].text == "42\n"
    assert cells[2].outputs[0].data == {"text/plain": "IntSlider(value=7)"}
    assert "image/svg+xml" in cells[3].outputs[0].data
    tags = [cell.metadata.get("tags") for cell in cells]
    assert tags == [None, [CHECKED], [CHECKED], ["kept"], None]


def test_saving_again_changes_nothing(sample):
    save(sample)
    first = sample.read_bytes()
    save(sample)
    assert sample.read_bytes() == first


@pytest.mark.parametrize("text", ["/home/ann/x.csv", "File /usr/lib/x.py", r"C:\Users"])
def test_a_path_of_one_machine_is_recognized(text):
    assert MACHINE_PATH.search(text)


@pytest.mark.parametrize("text", ["and/or", "https://example.org/home/", "./work/", "TO/FROM"])
def test_a_word_with_a_stroke_is_no_path(text):
    assert not MACHINE_PATH.search(text)

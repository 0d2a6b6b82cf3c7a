"""What a saved notebook keeps, what may be changed in it, and what its kernel begins with."""

import copy
import gc

import nbformat
import pytest
from IPython.core.interactiveshell import InteractiveShell
from tools.save_notebooks import START_ID, add_start, protect

from vorlib.exhibits import indicator, practice
from vorlib.io.notebooks import WIDGET_VIEW
from vorlib.lab.saving import keep_still
from vorlib.pages.page import NOT_ON_PAGES

v4 = nbformat.v4
WAKE = "Still picture: choose Run, Run All Cells to"


def saved(*outputs):
    """Return the outputs that a notebook with these keeps."""
    notebook = v4.new_notebook(cells=[v4.new_markdown_cell("Try"), v4.new_code_cell("x")])
    notebook.cells[1].outputs = list(outputs)
    model = {"type": "notebook", "content": copy.deepcopy(notebook)}
    keep_still(model, path="x.ipynb", contents_manager=None)
    nbformat.validate(model["content"])
    return model["content"].cells[1].outputs


# --- what is kept of a run ------------------------------------------------------------------------


def test_an_exhibit_is_saved_as_its_picture_and_its_sentence():
    exhibit = indicator()
    output = v4.new_output("execute_result", exhibit._repr_mimebundle_())
    (kept,) = saved(output)
    assert kept.data.keys() == {"image/svg+xml", "text/plain"}
    assert kept.data["text/plain"] == exhibit.sentence


def test_a_widget_that_shows_itself_in_no_other_way_is_kept():
    output = v4.new_output("display_data", {WIDGET_VIEW: {"model_id": "a"}})
    assert saved(output) == [output]


def test_the_traceback_of_an_interrupted_cell_is_left_out_and_no_other():
    stopped, wrong = (
        v4.new_output("error", ename=name, evalue="", traceback=[])
        for name in ("KeyboardInterrupt", "ValueError")
    )
    assert saved(stopped, wrong) == [wrong]


def test_text_and_pictures_are_kept_as_they_are():
    outputs = [
        v4.new_output("stream", text="90\n"),
        v4.new_output("display_data", {"image/svg+xml": "<svg/>", "text/plain": "A map"}),
    ]
    assert saved(*outputs) == outputs


@pytest.mark.parametrize("model", [{"type": "file", "content": "a"}, {"type": "directory"}])
def test_what_is_no_notebook_is_saved_as_it_is(model):
    before = dict(model)
    keep_still(model)
    assert model == before


@pytest.mark.parametrize(
    ("exhibit", "then"), [(indicator(), "move it"), (practice("needle_reading"), "answer")]
)
def test_only_the_saved_picture_says_that_it_is_still_and_how_to_wake_it(exhibit, then):
    assert f"{WAKE} {then}</text>" in exhibit._repr_mimebundle_()["image/svg+xml"]
    live = exhibit.widget.picture if then == "answer" else exhibit.picture.svg
    assert live
    assert "Still picture" not in live


# --- what may be changed --------------------------------------------------------------------------


@pytest.fixture
def notebook():
    """A lesson as it is saved, with a cell of each kind."""
    sources = [
        "# 2. The indicator",
        "dial",
        "dial.say()",
        "Change 4 in the next cell",
        "4",
        "## Ends",
    ]
    kinds = "mccmcm"
    new = {"m": v4.new_markdown_cell, "c": v4.new_code_cell}
    cells = [new[kind](source) for kind, source in zip(kinds, sources, strict=True)]
    notebook = v4.new_notebook(cells=cells)
    add_start(notebook)
    protect(notebook)
    nbformat.validate(notebook)
    return notebook


def cell(notebook, source):
    (found,) = (cell for cell in notebook.cells if cell.source == source)
    return found.metadata


def test_no_cell_can_be_deleted_and_only_those_that_the_text_names_can_be_changed(notebook):
    assert all(cell.metadata["deletable"] is False for cell in notebook.cells)
    assert [cell.source for cell in notebook.cells if cell.metadata.get("editable", True)] == ["4"]


def test_code_is_folded_but_for_what_is_to_be_changed(notebook):
    assert cell(notebook, "dial")["jupyter"] == {"source_hidden": True}
    assert "jupyter" not in cell(notebook, "4")


def test_the_button_stands_under_the_title_once_and_on_no_page(notebook):
    add_start(notebook)
    assert [cell.id for cell in notebook.cells].index(START_ID) == 1
    assert [cell.id for cell in notebook.cells].count(START_ID) == 1
    assert notebook.cells[1].metadata["tags"] == [NOT_ON_PAGES]


def test_a_notebook_without_a_title_has_no_button():
    notebook = v4.new_notebook(cells=[v4.new_code_cell("1")])
    add_start(notebook)
    assert len(notebook.cells) == 1


# --- what a kernel begins with --------------------------------------------------------------------


@pytest.fixture
def shell():
    """A kernel's shell that has begun as the course's kernels do, without its startup."""
    shell = InteractiveShell()
    shell.extension_manager.load_extension("vorlib.lab.kernel")
    yield shell
    gc.unfreeze()


def test_the_collector_of_garbage_does_not_look_through_what_is_imported(shell):
    assert gc.get_freeze_count() > 10 * len(gc.get_objects())


def test_the_last_cell_of_a_lesson_can_be_run_first(shell):
    assert shell.run_cell("x.indicator.case(radial_deg=40, course_deg=40).reading.flag.name").result
    assert shell.run_cell("v.wrap_360(-90)").result == 270


def test_the_sentence_under_an_exhibit_is_not_printed_again(shell, capsys):
    shell.run_cell("dial = x.indicator()")
    shell.run_cell("dial.say()")
    assert capsys.readouterr().out == ""


@pytest.mark.parametrize("cell", ["dial.say(); print('and')", "x.indicator().say()", "one.say()"])
def test_what_stands_under_no_exhibit_is_printed(shell, capsys, cell):
    class Chart:
        def say(self):
            print("In words")

    shell.push({"one": Chart()})
    shell.run_cell("dial = x.indicator()")
    shell.run_cell(cell)
    assert "In words" in capsys.readouterr().out

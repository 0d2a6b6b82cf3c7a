"""The class results in a notebook: a folder in, the table and what to do about it out."""

import re
from datetime import UTC, datetime

import pytest

from vorlib.exhibits.instructor.class_results import class_results
from vorlib.paper.classroom.ready_worksheet import ready_worksheet
from vorlib.practice.classroom.demo_class import HELD
from vorlib.practice.classroom.teaching import teach_again
from vorlib.practice.learning.attempt import Attempt
from vorlib.practice.record.exchange import Export, write_export

NOON = datetime(2026, 5, 4, 12, tzinfo=UTC)


@pytest.fixture
def folder(tmp_path):
    """A folder with two records and a file that is none."""
    where = tmp_path / "class"
    where.mkdir()
    for name in ("Ansa <b>", "Bevil"):
        attempts = tuple(
            Attempt("reciprocal", n, "wrong", "no turn at all", ("no turn at all",),
                    answered_at=NOON, key=f"{name}{n}")
            for n in range(4)
        )  # fmt: skip
        name = name.split()[0]
        write_export(Export(name, attempts), where / f"{name}.json")
    (where / "<i>.csv").write_text("a,b\n1,2\n")
    return where


@pytest.fixture
def exhibit():
    return class_results()


def shown(exhibit):
    """Return what stands under the table, without its markup."""
    return re.sub("<[^>]+>", " ", exhibit.widget.children[-1].value)


def control(exhibit, field):
    return exhibit.control(field)


def test_it_begins_with_the_demonstration_class(exhibit):
    assert exhibit.sentence.startswith("30 learners gave ")
    assert "thirty invented people" in control(exhibit, "records").note.html
    for title in ("Teach again tomorrow", "Who needs you first", "Progress", "Learner by learner"):
        assert title in shown(exhibit)
    assert "Left out" in shown(exhibit)
    assert "timetable.csv" in shown(exhibit)


def test_a_folder_that_is_typed_is_read_and_left_as_it_is(exhibit, folder):
    before = sorted(path.name for path in folder.iterdir())
    control(exhibit, "records").box.value = str(folder)
    assert exhibit.sentence.startswith("2 learners gave 8 answers. 1 misconception is held.")
    assert "no turn at all : held by 2 of the 2 asked" in shown(exhibit)
    assert "2 learners read. 1 file was left out." in control(exhibit, "records").note.html
    assert sorted(path.name for path in folder.iterdir()) == before


def test_a_folder_that_is_not_there_is_answered_beside_the_box(exhibit):
    box = control(exhibit, "records")
    box.box.value = "/no/such/folder"
    assert box.message.startswith("Class folder: there is no folder")
    assert box.box.value == ""  # the last good one
    assert exhibit.sentence.startswith("30 learners")
    with pytest.raises(ValueError, match="there is no folder"):
        class_results("/no/such/folder")


def test_files_that_came_later_are_read_when_asked_for(folder):
    exhibit = class_results(str(folder))
    write_export(Export("Corrin", ()), folder / "corrin.csv")  # without answers it is no export
    write_export(Export("Corrin", ()), folder / "corrin.json")
    again = next(c for c in exhibit.controls if getattr(c, "button", None) is not None)
    again.button.click()
    assert exhibit.sentence.startswith("3 learners gave 8 answers.")
    (folder / "corrin.json").unlink()
    for path in folder.iterdir():
        path.unlink()
    folder.rmdir()
    again.button.click()
    assert "there is no folder" in control(exhibit, "records").message


def test_the_learners_of_the_class_can_be_chosen_and_another_class_begins_with_nobody(
    exhibit, folder
):
    assert len(control(exhibit, "chosen").options) == 31
    name = exhibit.results.learners[3].name
    exhibit.set(chosen=name, by="day")
    assert control(exhibit, "chosen").list.label == name
    assert f"{name}: 2026-05-11" in shown(exhibit)
    exhibit.set(records=str(folder))
    assert list(control(exhibit, "chosen").options) == ["nobody", "Ansa", "Bevil"]
    assert control(exhibit, "chosen").list.label == "nobody"


def test_with_numbers_for_names_no_name_is_shown(exhibit):
    exhibit.set(nameless=True)
    exhibit.set(chosen="Learner 05")
    everything = exhibit.picture.svg + exhibit.widget.children[-1].value + exhibit.sentence
    assert not [name for name in HELD if name.split()[0].casefold() in everything.casefold()]
    assert "Learner 05: " in shown(exhibit)
    assert list(control(exhibit, "chosen").options)[1] == "Learner 01"
    exhibit.set(nameless=False)
    assert exhibit.state.learner is None


def test_what_a_file_is_called_is_no_markup(exhibit, folder):
    exhibit.set(records=str(folder))
    assert "&lt;i&gt;.csv" in exhibit.widget.children[-1].value
    assert "<i>.csv" not in exhibit.widget.children[-1].value


def test_a_folder_without_records_is_told_in_words(exhibit, tmp_path):
    exhibit.set(records=str(tmp_path))
    assert exhibit.sentence == "No record was found."


def test_saved_without_a_kernel_it_is_the_table_and_its_sentence(exhibit):
    bundle = exhibit._repr_mimebundle_()
    assert bundle["text/plain"] == exhibit.sentence
    assert "Sorrel Inchmoor" in bundle["image/svg+xml"]


def test_it_leaves_nothing_behind(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    class_results().set(by="day")
    assert list(tmp_path.iterdir()) == []


def test_the_class_is_looked_at_by_days_and_held_against_its_list(exhibit, tmp_path):
    everything = exhibit.results.answered
    exhibit.set(since="2026-05-25")
    assert 0 < exhibit.results.answered < everything
    assert exhibit.sentence.endswith("Answers since 2026-05-25.")
    exhibit.set(until="2026-05-01")
    assert "The last day must not be before the first" in control(exhibit, "until").message
    exhibit.set(since="", until="")
    assert exhibit.results.answered == everything
    names = tmp_path / "class.txt"
    names.write_text("name\nANSA tremorrow\nBevil Oakhampt\nNobody Yet\n")
    exhibit.set(listed=str(names))
    assert exhibit.sentence.endswith("Not handed in (1): Nobody Yet.")
    assert "Not on the list: Aldren Sloane-Mere, " in control(exhibit, "listed").note.html
    exhibit.set(nameless=True)
    assert "Nobody" not in exhibit.sentence + control(exhibit, "listed").note.html
    assert exhibit.sentence.endswith("Not handed in: 1.")
    exhibit.set(nameless=False)


def test_results_go_to_pdf_and_csv_and_each_misconception_held_has_a_worksheet_at_one_click(
    exhibit, folder, tmp_path
):
    out = tmp_path / "out"
    out.mkdir()
    sheets = control(exhibit, "folder")
    held = [one.misconception for one in teach_again(exhibit.results)]
    assert list(sheets.worksheets) == held
    assert len(held) == 7
    exhibit.set(folder=str(out))
    for button in sheets.buttons.values():
        button.click()
    assert (out / "class-results.pdf").read_bytes().startswith(b"%PDF-")
    rows = (out / "class-results.csv").read_text("utf-8-sig").splitlines()
    assert len(rows) == 31
    assert rows[0].startswith("learner,handed_in,questions,right,latest,latest_right,holds,")
    assert "Sorrel Inchmoor,yes," in "\n".join(rows)
    for again in teach_again(exhibit.results):
        sheet = ready_worksheet(again)
        assert sum(again.misconception in q.foreseen for q in sheet.questions) >= 0.5 * sheet.count
    sheets.worksheets[held[0]].click()
    sheet, key = sorted(path.stem for path in out.glob("worksheet*.pdf"))
    assert key == f"{sheet}-key"
    assert sheet.startswith("worksheet-radial-thought-to-lead-to-the-station-")
    exhibit.set(records=str(folder))
    assert list(sheets.worksheets) == ["no turn at all"]

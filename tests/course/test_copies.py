"""A learner's own copies: made, updated, and never taken from the learner."""

import json

import nbformat
import pytest

from vorlib.io.notebooks import START
from vorlib.lab.copies import LIST, make_copies
from vorlib.pages.course_folder import shipped

LESSON = "02_indicator.ipynb"
SHEETS = "instructor/worksheets.ipynb"


def write(path, *sources, output=""):
    """Write a notebook with these code cells, each with some output."""
    cells = [nbformat.v4.new_code_cell(source, id=f"c{n}") for n, source in enumerate(sources)]
    for cell in cells:
        cell.outputs = [nbformat.v4.new_output("stream", text=output)] if output else []
    path.parent.mkdir(parents=True, exist_ok=True)
    nbformat.write(nbformat.v4.new_notebook(cells=cells), path)


@pytest.fixture
def course(tmp_path):
    """The course's own notebooks: three of them."""
    folder = tmp_path / "course"
    for name in (START, LESSON, SHEETS):
        write(folder / name, f"first of {name}")
    return folder


@pytest.fixture
def own(course, tmp_path):
    """The learner's folder after the first start."""
    folder = tmp_path / "home" / "vorlib-course"
    assert make_copies(course, folder) == []
    return folder


def same(course, own, name=LESSON):
    return (course / name).read_bytes() == (own / name).read_bytes()


def test_the_first_start_copies_every_notebook_to_the_letter(course, own):
    assert all(same(course, own, name) for name in (START, LESSON, SHEETS))
    assert sorted(json.loads((own / LIST).read_text())) == sorted([START, LESSON, SHEETS])


def test_only_notebooks_of_the_course_are_copied(course, tmp_path):
    write(course / "handed_in.ipynb", "1")
    (course / "10_time_to_station.ipynb").write_text("{")
    make_copies(course, tmp_path / "own")
    assert {p.name for p in (tmp_path / "own").rglob("*.ipynb")} <= {
        name.rpartition("/")[2] for name in shipped()
    }
    assert not (tmp_path / "own" / "10_time_to_station.ipynb").exists()


def test_an_unchanged_copy_is_updated(course, own):
    write(course / LESSON, "second")
    assert make_copies(course, own) == []
    assert same(course, own)


def test_a_run_is_no_change(course, own):
    write(own / LESSON, f"first of {LESSON}", output="90")
    run = (own / LESSON).read_bytes()
    make_copies(course, own)
    assert (own / LESSON).read_bytes() == run  # and without a newer version it stays
    write(course / LESSON, "second")
    make_copies(course, own)
    assert same(course, own)


def test_what_the_learner_changed_is_kept_and_a_newer_version_named(course, own):
    write(own / LESSON, "mine")
    mine = (own / LESSON).read_bytes()
    assert make_copies(course, own) == []
    write(course / LESSON, "second")
    for _ in range(2):
        assert make_copies(course, own) == [LESSON]
        assert (own / LESSON).read_bytes() == mine


def test_a_copy_that_was_renamed_is_kept_and_made_anew(course, own):
    write(own / LESSON, "mine")
    (own / LESSON).rename(own / "mine.ipynb")
    make_copies(course, own)
    assert same(course, own)
    assert (own / "mine.ipynb").exists()


@pytest.mark.parametrize("content", [b"", b"[]", b"{", b"\xff\xfe", b'{"cells": [1]}', None])
def test_what_is_no_notebook_stops_nothing_and_is_kept(course, own, content):
    (own / LESSON).unlink()
    (own / LESSON).mkdir() if content is None else (own / LESSON).write_bytes(content)
    write(course / LESSON, "second")
    write(course / START, "second")
    assert make_copies(course, own) == [LESSON]
    assert content is None or (own / LESSON).read_bytes() == content
    assert same(course, own, START)


@pytest.mark.parametrize("content", ["", "[]", "{", '{"02_indicator.ipynb": 1}'])
def test_without_its_list_nothing_of_the_learner_is_lost(course, own, content):
    write(own / LESSON, "mine")
    mine = (own / LESSON).read_bytes()
    (own / LIST).write_text(content)
    assert make_copies(course, own) == [LESSON]
    assert (own / LESSON).read_bytes() == mine
    write(course / START, "second")
    assert make_copies(course, own) == [LESSON]
    assert same(course, own, START)


def test_the_courses_own_notebooks_are_never_written_to(course, own):
    write(own / LESSON, "mine")
    before = {path: path.read_bytes() for path in course.rglob("*.ipynb")}
    make_copies(course, own)
    assert {path: path.read_bytes() for path in course.rglob("*") if path.is_file()} == before
    with pytest.raises(ValueError, match="choose another for your copies"):
        make_copies(course, course)

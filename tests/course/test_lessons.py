"""The lessons are those whose notebooks lie in the folder."""

import json

import pytest

from vorlib.io.notebooks import START, lesson_notebooks, own_notebooks
from vorlib.practice.learning.lessons import lesson_title


@pytest.fixture
def folder(tmp_path):
    names = (START, "16_holding.ipynb", "05_intercepting.ipynb", "05_intercepting-Copy1.ipynb")
    for name in (*names, "05_intercepting_mine.ipynb", "notes.ipynb", "17_plan.txt"):
        (tmp_path / name).touch()
    return tmp_path


def test_a_lesson_is_a_numbered_notebook_and_the_start_and_a_copy_are_none(folder):
    assert lesson_notebooks(folder) == {"05": "05_intercepting", "16": "16_holding"}
    assert [*lesson_notebooks(folder)] == ["05", "16"]


def test_without_the_folder_there_are_no_lessons(tmp_path):
    assert lesson_notebooks(tmp_path / "notebooks") == {}


def test_notebooks_inside_the_package_are_taken_before_those_of_a_checkout(tmp_path, monkeypatch):
    package = tmp_path / "vorlib"
    monkeypatch.setattr("vorlib.io.notebooks.__file__", str(package / "io" / "notebooks.py"))
    assert own_notebooks() == tmp_path / "notebooks"
    (package / "notebooks").mkdir(parents=True)
    assert own_notebooks() == package / "notebooks"


def test_a_lesson_is_called_by_its_first_heading_or_without_a_notebook_by_its_number(tmp_path):
    for name, title in (("03_where", "# 3. Where am I?"), ("05_cuts", "# Intercepting\n\nTurn.")):
        cells = [{"cell_type": "markdown", "source": title.splitlines(keepends=True)}]
        (tmp_path / f"{name}.ipynb").write_text(json.dumps({"cells": cells}), encoding="utf-8")
    assert lesson_title("03", tmp_path) == "Where am I"
    assert lesson_title("05", tmp_path) == "Intercepting"
    assert lesson_title("06", tmp_path) == "Lesson 6"
    assert lesson_title("09") == "Fixing your position"

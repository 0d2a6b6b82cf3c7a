"""Printed sheets: paper, caution, tables, PDF, and files that are whole or not there."""

import errno
import os
import subprocess
import sys

import pytest

from vorlib.core.caution import CAUTION
from vorlib.io.atomic import write_whole
from vorlib.paper.page import A4, LETTER, MARGIN, PRINT, Column, Sheet, page_size
from vorlib.views.drawing.document import pdf_bytes
from vorlib.views.drawing.layout import extent
from vorlib.views.drawing.picture import Circle, Group, Line, Picture, Polyline, Segments, Text
from vorlib.views.drawing.scaling import framed, scaled

COLUMNS = (Column("ident", 1.0), Column("what it says", 2.0), Column("in the air", 3.0))


def texts(item):
    """Return all the words of a page, a group or an item, in order."""
    if isinstance(item, Text):
        return [item.text]
    parts = getattr(item, "items", ())
    return [words for part in parts for words in texts(part)]


def filled(size=A4, rows=80):
    sheet = Sheet("A sheet", size, "K7")
    sheet.heading("Stations")
    sheet.paragraph("Words that go on for so long that they must be broken into lines. " * 5)
    sheet.table(COLUMNS, [(f"S{n}", "a station", "") for n in range(rows)], least_height=20.0)
    return sheet.pages()


@pytest.mark.parametrize("size", [A4, LETTER], ids=["A4", "Letter"])
def test_every_page_has_its_title_its_reference_its_number_and_the_caution(size):
    pages = filled(size)
    assert len(pages) > 1
    for number, page in enumerate(pages, 1):
        words = texts(page)
        assert {"A sheet", "K7", f"page {number} of {len(pages)}"} <= set(words)
        assert CAUTION in " ".join(words)


def test_a_table_that_goes_on_repeats_its_titles_and_loses_no_row():
    pages = filled()
    words = [texts(page) for page in pages]
    assert all("what it says" in page for page in words)
    rows = [word for page in words for word in page if word.startswith("S") and word[1:].isdigit()]
    assert rows == [f"S{n}" for n in range(80)]


@pytest.mark.parametrize("size", [A4, LETTER], ids=["A4", "Letter"])
def test_nothing_stands_in_the_margins(size):
    for page in filled(size):
        for item in page.items:
            left, top, right, bottom = extent(item)
            assert left >= MARGIN - 1.0
            assert top >= MARGIN - 10.0
            assert right <= size.width - MARGIN + 1.0
            assert bottom <= size.height - MARGIN + 10.0


def test_paper_is_named_whatever_the_capitals_and_a_wrong_name_lists_what_there_is():
    assert page_size("a4") is A4
    assert page_size("letter") is LETTER
    with pytest.raises(ValueError, match=r"A4, Letter, got 'A5'"):
        page_size("A5")


def test_an_a4_sheet_is_210_by_297_millimeters_and_a_letter_sheet_8_5_by_11_inches():
    assert (round(A4.width / 72 * 25.4), round(A4.height / 72 * 25.4)) == (210, 297)
    assert (LETTER.width / 72, LETTER.height / 72) == (8.5, 11.0)


def test_print_is_black_and_white():
    colors = [value for name in PRINT.__slots__ if str(value := getattr(PRINT, name))[0] == "#"]
    assert colors
    assert all(c[1:3] == c[3:5] == c[5:7] for c in colors)


def test_the_same_pages_give_the_same_bytes_in_another_process_on_another_day():
    code = (
        "import hashlib; from vorlib.paper.page import *; "
        "from vorlib.views.drawing.document import pdf_bytes; "
        "s = Sheet('A sheet'); s.heading('One');"
        "s.paragraph('Two'); print(hashlib.sha256(pdf_bytes(s.pages(), 'A sheet')).hexdigest())"
    )
    digests = set()
    for seed, day in (("1", "1000000000"), ("2", "1700000000")):
        env = {**os.environ, "PYTHONHASHSEED": seed, "SOURCE_DATE_EPOCH": day}
        run = subprocess.run([sys.executable, "-c", code], env=env, capture_output=True, check=True)
        digests.add(run.stdout)
    assert len(digests) == 1


def test_a_pdf_has_no_date_and_every_page():
    pdf = pdf_bytes(filled(), "A sheet")
    assert pdf.startswith(b"%PDF-")
    assert b"CreationDate" not in pdf
    assert b"/Count %d" % len(filled()) in pdf


def test_a_picture_made_half_as_large_has_half_the_extent_and_half_as_thick_lines():
    line = Line(2.0, 4.0, 10.0, 20.0, "#000000", 2.0, (3.0, 1.0))
    assert scaled(line, 0.5) == Line(1.0, 2.0, 5.0, 10.0, "#000000", 1.0, (1.5, 0.5))
    parts = (
        line,
        Circle(5.0, 5.0, 5.0),
        Segments(((0.0, 0.0, 8.0, 8.0),), "#000000"),
        Polyline(((0.0, 0.0), (9.0, 30.0)), "#000000"),
        Text(0.0, 0.0, "N", 12.0, "#000000"),
    )
    group = Group(parts, 10.0, 20.0)
    assert extent(scaled(group, 0.5)) == pytest.approx([v / 2 for v in extent(group)])


def test_a_picture_is_framed_to_the_width_asked_for():
    picture = Picture(200.0, 100.0, (Line(0.0, 0.0, 200.0, 100.0, "#000000"),))
    assert extent(framed(picture, 50.0, 7.0, 8.0)) == pytest.approx((7.0, 8.0, 57.0, 33.0))


def test_a_file_is_written_whole_and_nothing_else_is_left(tmp_path):
    path = write_whole(tmp_path / "card.pdf", b"first")
    write_whole(path, b"second")
    assert path.read_bytes() == b"second"
    assert os.listdir(tmp_path) == ["card.pdf"]


def test_when_writing_fails_the_old_file_stays_and_no_half_is_left(tmp_path, monkeypatch):
    path = write_whole(tmp_path / "card.pdf", b"first")

    def full(_):
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match=r"card\.pdf could not be written: no space left.*Make room"):
        write_whole(path, b"second")
    assert path.read_bytes() == b"first"
    assert os.listdir(tmp_path) == ["card.pdf"]


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps no such permissions")
@pytest.mark.parametrize("mask", [0o022, 0o077])
def test_a_file_has_the_permissions_that_the_user_gives_new_files(mask, tmp_path):
    before = os.umask(mask)
    try:
        path = write_whole(tmp_path / "card.pdf", b"first")
    finally:
        os.umask(before)
    assert path.stat().st_mode & 0o777 == 0o666 & ~mask


def test_writing_never_changes_what_other_threads_give_new_files(tmp_path, monkeypatch):
    def changed(_):
        raise AssertionError("the mask is that of the whole process")

    monkeypatch.setattr(os, "umask", changed)
    assert write_whole(tmp_path / "card.pdf", b"first").read_bytes() == b"first"

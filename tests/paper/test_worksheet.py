"""Printed practice: the problem sheet, its answer key, the code on both, and the card."""

import re
import zlib
from collections import Counter
from itertools import pairwise
from random import Random

import pytest
from matplotlib.backends.backend_agg import RendererAgg
from matplotlib.transforms import Affine2D
from paper.test_page import texts

from vorlib.core.caution import CAUTION
from vorlib.io.atomic import write_all
from vorlib.paper.air_card import ANY_LESSON, TASKS, card_pages
from vorlib.paper.answer_key import key_pages, slips_of
from vorlib.paper.page import A4, LETTER, MARGIN
from vorlib.paper.problem_sheet import ROOM, problem_pages
from vorlib.paper.sheet_code import SheetCode
from vorlib.paper.worksheet import Worksheet, new_secret, read_secret
from vorlib.paper.worksheet_files import save_key, save_worksheet
from vorlib.practice import all_kinds, kinds_of_lesson
from vorlib.practice.learning.topic import Topic, lessons_with_questions
from vorlib.practice.questions.by_hand import written
from vorlib.views.drawing.document import pdf_bytes
from vorlib.views.drawing.pdf import to_figure

SHEET = Worksheet("05", 20, 7)
SECRET = "QLNTSXPW"
FINE = 8  # dots a point when letters are measured
SIZES = pytest.mark.parametrize("size", [A4, LETTER], ids=["A4", "Letter"])


def words(pages):
    """Return all that stands on pages, in order, with line breaks as blanks."""
    return " ".join(text for page in pages for text in texts(page))


def plain(text):
    return " ".join(text.split())


def streams(pdf):
    """Return the drawing commands of each page of a PDF."""
    found = re.findall(rb"stream\r?\n(.*?)\r?\nendstream", pdf, re.S)
    contents = []
    for data in found:
        try:
            contents.append(zlib.decompress(data))
        except zlib.error:
            continue
    return [content for content in contents if b" re" in content or b" m\n" in content]


# ---- which questions


def test_a_sheet_has_as_many_questions_as_asked_for_and_none_twice():
    asked = [(q.prompt, q.figure) for q in SHEET.questions]
    assert len(asked) == 20
    assert all(one not in asked[:number] for number, one in enumerate(asked))


@pytest.mark.parametrize("lesson", lessons_with_questions())
def test_the_kinds_of_a_lesson_come_about_equally_often(lesson):
    counts = Counter(q.kind for q in Worksheet(lesson, 20, 3).questions)
    assert set(counts) == set(kinds_of_lesson(lesson))
    assert max(counts.values()) - min(counts.values()) <= 1


def test_one_seed_draws_the_same_questions_and_another_seed_others():
    again, other = Worksheet("05", 20, 7), Worksheet("05", 20, 8)
    assert again.questions == SHEET.questions
    assert other.questions != SHEET.questions


def test_a_topic_is_a_lesson_several_lessons_a_kind_or_all():
    assert Topic.read("5").name == "05"
    assert Topic.read("06, 5").name == "05+06"
    assert Topic.read("05+06").kinds == kinds_of_lesson("05") + kinds_of_lesson("06")
    assert Topic.read("Intercept inbound").kinds == ("intercept_inbound",)
    assert Topic.read("ALL").kinds == tuple(all_kinds())
    assert Topic.read("05").title == "Intercepting"


@pytest.mark.parametrize("topic", ["14", "five", "05,99", "", "01,02,03,04,05"])
def test_a_topic_that_is_not_there_is_refused_with_what_is_allowed(topic):
    with pytest.raises(ValueError, match=r"the topic must be .*all"):
        Worksheet(topic, 5, 1)


@pytest.mark.parametrize(("count", "seed"), [(0, 1), (-3, 1), (101, 1), (5, -1), (5, 1_000_000)])
def test_a_number_out_of_range_is_refused_with_the_range(count, seed):
    with pytest.raises(ValueError, match=r"must be a whole number from [01] to [19]"):
        Worksheet("05", count, seed)


def test_more_questions_than_there_are_is_refused_with_how_many_there_are(monkeypatch):
    kind = all_kinds()["reciprocal"]
    only = [kind.make(Random(seed)) for seed in (1, 2, 3)]
    monkeypatch.setattr("vorlib.paper.worksheet.draw", lambda kind, seed: only[seed % 3])
    with pytest.raises(ValueError, match="the count must be at most 3, got 4"):
        _ = Worksheet("reciprocal", 4, 1).questions


# ---- the code


@pytest.mark.parametrize("topic", ["05", "05+06", "all", "intercept_inbound"])
def test_by_its_code_a_sheet_is_found_again(topic):
    sheet = Worksheet(topic, 6, 41)
    for typed in (sheet.code, sheet.code.lower(), f" {sheet.code.replace('-', ' - ')} "):
        assert Worksheet.of_code(typed).questions == sheet.questions


def test_every_wrong_figure_and_every_two_figures_swapped_are_found():
    code = str(SheetCode("05+06", 20, 1907, "XR"))
    slips = {
        code[:place] + figure + code[place + 1 :]
        for place, was in enumerate(code)
        if was.isdigit()
        for figure in "0123456789"
        if figure != was
    }
    slips |= {
        code[:place] + two + one + code[place + 2 :]
        for place, (one, two) in enumerate(pairwise(code))
        if one.isdigit() and two.isdigit() and one != two
    }
    assert len(slips) > 80
    for slip in slips:
        with pytest.raises(ValueError, match="typing error"):
            SheetCode.read(slip)


@pytest.mark.parametrize("typed", ["", "05", "05-20-7", "05-20-7-K", "05 20 7 KXR", "05-20-x-KXR"])
def test_what_is_no_code_is_refused_with_an_example(typed):
    with pytest.raises(ValueError, match="the code must be such as 05-20-7-KXR"):
        SheetCode.read(typed)


def test_a_code_whose_questions_have_changed_since_is_refused():
    changed = str(SheetCode("05", 20, 7, "ZZ"))
    with pytest.raises(ValueError, match="another version of vorlib"):
        Worksheet.of_code(changed)


def test_a_code_printed_before_there_were_secrets_still_finds_its_sheet():
    for code in ("05-20-7-YMR", "02-5-3-MFB", "RECIPROCAL-6-41-JCY"):
        assert Worksheet.of_code(code).code == code


# ---- sheets that are handed out


def test_from_a_sheet_that_is_handed_out_the_key_cannot_be_made():
    handed_out = Worksheet("05", 5, 7, secret=SECRET)
    seen = words(problem_pages(handed_out))
    assert SECRET not in seen
    assert f"secret {SECRET}" in words(key_pages(handed_out))
    assert handed_out.questions[0] not in Worksheet("05", 5, 7).questions
    with pytest.raises(ValueError, match="only with the secret"):
        Worksheet.of_code(handed_out.code)
    with pytest.raises(ValueError, match="the secret is wrong"):
        Worksheet.of_code(handed_out.code, "ZZZZZZZZ")
    typed = f"{SECRET[:4].lower()}-{SECRET[4:]}"
    assert Worksheet.of_code(handed_out.code.lower(), typed) == handed_out


def test_a_new_secret_is_another_each_time_and_a_short_word_is_none():
    secrets = {new_secret() for _ in range(50)}
    assert len(secrets) == 50
    assert all(read_secret(secret) == secret for secret in secrets)
    for word in ("quillon", "a b c", "x" * 25, "QUILLON-113.4"):
        with pytest.raises(ValueError, match="8 to 24 letters and figures"):
            read_secret(word)


def test_neighbors_have_the_same_kinds_of_question_in_the_same_order_with_other_numbers():
    sheets = Worksheet("05", 10, 7, secret=SECRET).variants(4)
    assert [sheet.variant for sheet in sheets] == ["A", "B", "C", "D"]
    assert len({tuple(q.kind for q in sheet.questions) for sheet in sheets}) == 1
    assert len({q.prompt for sheet in sheets for q in sheet.questions}) == 40
    for sheet in sheets:
        assert Worksheet.of_code(sheet.code, SECRET) == sheet
    with pytest.raises(ValueError, match="variants must be 1 to 4"):
        sheets[0].variants(5)
    with pytest.raises(ValueError, match="variant must be one of A, B, C, D"):
        Worksheet("05", 10, 7, "E")


def test_a_question_swapped_is_another_of_its_kind_and_all_others_stay():
    plain_sheet = Worksheet("05", 10, 7)
    once, twice = Worksheet("05", 10, 7, swaps=(3,)), Worksheet("05", 10, 7, swaps=(3, 9, 3))
    assert once.code.startswith("05-10-7-3-")
    assert twice.code.startswith("05-10-7-3.3.9-")
    pairs = enumerate(zip(plain_sheet.questions, once.questions, strict=True), 1)
    changed = [number for number, (before, after) in pairs if before != after]
    assert changed == [3]
    third = [sheet.questions[2] for sheet in (plain_sheet, once, twice)]
    assert len({q.prompt for q in third}) == 3
    assert len({q.kind for q in third}) == 1
    assert Worksheet.of_code(twice.code) == twice
    with pytest.raises(ValueError, match="swapped questions must be 1 to 10"):
        Worksheet("05", 10, 7, swaps=(11,))


def test_more_room_to_work_takes_more_paper():
    sheet = Worksheet("05", 10, 7)
    pages = [len(problem_pages(sheet, A4, room)) for room in ROOM]
    assert pages == sorted(pages)
    assert pages[0] < pages[-1]
    with pytest.raises(ValueError, match="little, some, plenty"):
        problem_pages(sheet, A4, "none")


# ---- the pages


@SIZES
def test_the_problem_sheet_has_every_question_and_no_solution(size):
    shown = words(problem_pages(SHEET, size))
    assert SHEET.code in shown
    for question in SHEET.questions:
        assert plain(question.prompt) in shown
        assert plain(question.worked) not in shown
        assert plain(question.tolerance_why) not in shown
        assert not any(mistake.name in shown for mistake in question.misconceptions)
    assert {"Name", "Date", "Right", "of 20"} <= set(texts(problem_pages(SHEET, size)[0]))


@SIZES
@pytest.mark.parametrize("topic", ["05", "12"])
def test_the_key_has_every_answer_worked_out_and_every_slip_by_name(topic, size):
    sheet = Worksheet(topic, 20, 7)
    shown = words(key_pages(sheet, size))
    assert sheet.code in shown
    for question in sheet.questions:
        assert written(question, question.answer) in shown
        assert plain(question.worked) in shown
        assert plain(question.tolerance_why) in shown
        for name, answers in slips_of(question):
            assert f"If the learner wrote {answers}, the likely slip is: {name}." in shown


def test_a_slip_that_many_answers_show_names_a_few_of_them():
    by_ear = Worksheet("ident_heard", 20, 7)
    for question in by_ear.questions:
        for _, answers in slips_of(question):
            assert len(answers.split()) < 9


@SIZES
def test_all_words_stand_within_the_margins_and_none_is_cut_off(size):
    sheet = Worksheet("all", len(all_kinds()), 11)  # one question of each kind
    cards = (card_pages(Topic.read(topic), size) for topic in ("all", "02", "12"))
    made = (problem_pages(sheet, size), key_pages(sheet, size), *cards)
    measure = RendererAgg(1, 1, FINE * 72.0)  # it measures letters, and paints none
    for page in (page for pages in made for page in pages):
        assert CAUTION.split()[0] in words([page])
        figure = to_figure(page, page.width / 72.0)
        figure.set_dpi(FINE * 72.0)  # coarser dots would make the letters wider
        for text in figure.axes[0].texts:
            box = text.get_window_extent(measure).transformed(Affine2D().scale(1 / FINE))
            assert box.x0 >= MARGIN - 2.0, text.get_text()
            assert box.x1 <= size.width - MARGIN + 2.0, text.get_text()
            assert box.y0 >= MARGIN - 4.0, text.get_text()
            assert box.y1 <= size.height - MARGIN + 4.0, text.get_text()


@SIZES
def test_no_question_is_broken_over_two_pages(size):
    sheet = Worksheet("all", 42, 5)
    for pages, begin in (
        (problem_pages(sheet, size), "prompt"),
        (key_pages(sheet, size), "worked"),
    ):
        for question in sheet.questions:
            on = [page for page in pages if plain(getattr(question, begin)) in words([page])]
            assert on, f"{question.kind} is not whole on any page"


# ---- the card


@SIZES
@pytest.mark.parametrize("topic", [*lessons_with_questions(), "05+06+08+09", "all", "sensing"])
def test_the_card_is_one_page_with_blanks_and_no_answers(topic, size):
    pages = card_pages(Topic.read(topic), size)
    assert len(pages) == 1
    assert plain(CAUTION) in words(pages)
    assert {"station", "ident heard", "radial", "time"} <= set(texts(pages[0]))


def test_every_table_of_the_card_is_one_of_a_lesson_that_has_questions():
    assert set(TASKS) <= set(lessons_with_questions())


def test_a_lesson_without_a_table_of_its_own_has_the_common_one(monkeypatch):
    monkeypatch.delitem(TASKS, "05")
    (page,) = card_pages(Topic.read("05"))
    assert {"Intercepting", *ANY_LESSON} <= set(texts(page))


# ---- the files


def test_the_same_seed_gives_the_same_bytes(tmp_path):
    def made(name):
        folder = tmp_path / name
        folder.mkdir()
        sheet = Worksheet("02", 1, 7)  # a page of each: others are made in the same way
        files = save_worksheet(sheet, folder / "s.pdf", folder / "k.pdf", folder / "c.pdf")
        return [path.read_bytes() for path in files]

    assert made("first") == made("again")


def test_another_seed_gives_another_sheet_and_key():
    one, other = Worksheet("02", 4, 7), Worksheet("02", 4, 8)
    for pages in (problem_pages, key_pages):
        assert words(pages(one)) == words(pages(one)) != words(pages(other))


def test_the_key_found_again_by_its_code_is_the_same_file(tmp_path):
    made = Worksheet("05", 1, 7)
    sheet, key = save_worksheet(made, tmp_path / "s.pdf", tmp_path / "k.pdf")
    again = save_key(Worksheet.of_code(made.code), tmp_path / "again.pdf")
    assert again.read_bytes() == key.read_bytes() != sheet.read_bytes()


def test_sheet_and_key_are_black_and_white_lines_and_letters_without_a_raster_image():
    sheet = Worksheet("03", 5, 2)
    assert any(question.figure for question in sheet.questions)
    for pages in (problem_pages(sheet), key_pages(sheet), card_pages(Topic.read("all"))):
        pdf = pdf_bytes(pages, "proof")
        assert b"/Subtype /Image" not in pdf
        drawn = streams(pdf)
        assert len(drawn) >= len(pages)
        for commands in drawn:
            operators = set(commands.split())
            assert not operators & {b"rg", b"RG", b"k", b"K", b"sc", b"SC", b"scn", b"SCN", b"BI"}


def test_of_files_that_belong_together_none_is_written_when_one_cannot_be(tmp_path):
    (tmp_path / "folder").mkdir()
    for bad in (tmp_path / "none" / "k.pdf", tmp_path / "folder"):
        with pytest.raises(OSError, match="folder"):
            write_all({tmp_path / "s.pdf": b"sheet", bad: b"key"})
    with pytest.raises(OSError, match=r"none for k\.pdf"):
        save_worksheet(None, tmp_path / "s.pdf", tmp_path / "none" / "k.pdf")  # nothing is drawn
    with pytest.raises(ValueError, match="different files"):
        save_worksheet(Worksheet("01", 1, 1), tmp_path / "s.pdf", tmp_path / "s.pdf")
    assert [path.name for path in tmp_path.iterdir()] == ["folder"]

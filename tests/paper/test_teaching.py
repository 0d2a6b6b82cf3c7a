"""What an instructor prints before a lesson: plans, the syllabus, masters."""

import json
import re

import pytest
from briefing.test_card import CARD, lesson
from paper.test_lesson import crowded
from paper.test_page import texts

from vorlib.briefing.card import lesson_card
from vorlib.briefing.tasks import lesson_tasks
from vorlib.core.caution import CAUTION
from vorlib.earth.geodesic import Position
from vorlib.io.notebooks import own_notebooks
from vorlib.paper.masters import MASTERS, master_pages
from vorlib.paper.page import A4, LETTER, MARGIN
from vorlib.paper.problem_sheet import problem_pages
from vorlib.paper.teaching.briefing_sheet import Crew, briefing_pages
from vorlib.paper.teaching.lesson_plan import plan_pages
from vorlib.paper.teaching.syllabus_page import syllabus_pages
from vorlib.paper.worksheet import Worksheet
from vorlib.practice.questions.by_hand import written
from vorlib.practice.questions.standards import EDITION, STANDARD
from vorlib.teaching.flights import FLIGHTS
from vorlib.teaching.lesson_notebook import lesson_notebook, lesson_numbers
from vorlib.teaching.notebook_code import NotebookCode
from vorlib.teaching.plan import HOMEWORK, lesson_plan
from vorlib.teaching.syllabus import syllabus
from vorlib.views.drawing.layout import extent

SIZES = pytest.mark.parametrize("size", [A4, LETTER], ids=["A4", "Letter"])
CODE = re.compile(r"PA\.[IVX]+\.[A-Z]\.[KRS]\d")


def words(page):
    return " ".join(texts(page))


def assert_one_page_with_the_caution(pages, size):
    (page,) = pages
    for item in page.items:
        left, top, right, bottom = extent(item)
        assert left >= MARGIN - 3.0
        assert right <= size.width - MARGIN + 3.0
        assert top >= MARGIN - 10.0
        assert bottom <= size.height - MARGIN + 10.0
    assert CAUTION in words(page)


@SIZES
@pytest.mark.parametrize("number", lesson_numbers())
def test_the_plan_of_a_lesson_is_complete_and_fits_one_page(number, size):
    plan = lesson_plan(number)
    pages = plan_pages(plan, size)
    assert_one_page_with_the_caution(pages, size)
    shown = words(pages[0])
    for aim in plan.lesson.aims:
        assert aim in shown
    assert plan.elements
    assert set(CODE.findall(shown)) == set(plan.elements)
    assert EDITION in shown
    assert len(plan.errors) >= 3
    assert all(name in shown for name in (error.say.split()[0] for error in plan.errors[:3]))
    aloud = sorted((q for q in plan.asked if q.figure is None), key=lambda q: len(q.prompt))
    for question in aloud[:1]:
        assert question.prompt in shown
        assert written(question, question.answer) in shown
    assert not plan.lesson.example or plan.lesson.example.split(":")[0] in shown
    assert f"A sheet of {HOMEWORK} questions" in shown
    assert plan.completed in shown


@pytest.mark.parametrize("number", lesson_numbers())
def test_the_minutes_of_a_plan_add_up_and_every_prediction_is_asked(number):
    plan = lesson_plan(number)
    assert sum(step.minutes for step in plan.steps) == plan.minutes
    assert min(step.minutes for step in plan.steps) >= 1
    assert sum(step.minutes for step in lesson_plan(number, minutes=40).steps) == 40
    predictions = [id for one in plan.lesson.rounds for id in one.predictions]
    assert predictions == [f"{number}-{n}" for n in range(1, len(predictions) + 1)]
    assert sum("Ask: " in step.instructor for step in plan.steps) >= len(set(predictions)) - 1


def test_the_key_of_the_homework_is_not_to_be_made_from_the_sheet_of_a_learner(tmp_path):
    plan = lesson_plan("05")
    code = Worksheet(plan.homework, HOMEWORK, plan.seed).code  # open: it finds its key by itself
    assert code not in words(plan_pages(plan)[0])
    assert code not in words(syllabus_pages(syllabus())[0])
    homework = Worksheet(plan.homework, HOMEWORK, plan.seed, secret="FORTHEPLAN")
    assert {homework.code, "FORTHEPLAN"} <= set(
        re.findall(r"[\w-]+", words(plan_pages(plan, A4, homework)[0]))
    )
    assert "FORTHEPLAN" not in words(problem_pages(homework)[0])


def test_a_plan_says_what_learners_do_and_leaves_the_keys_to_the_page():
    done = " ".join(step.learners for n in lesson_numbers() for step in lesson_plan(n).steps)
    assert not re.search(r"[Kk]eyboard|Tab\b|Mouse", done)


def test_a_plan_has_three_questions_to_ask_aloud_where_its_lesson_has_so_many_kinds():
    shown = words(plan_pages(lesson_plan("02"))[0])
    assert all(
        prompt in shown for prompt in ("What does the flag read", "on which side", "AIM 1-1-8")
    )


def test_a_lesson_says_which_lessons_it_needs_and_all_come_before_it():
    needs = {number: lesson_notebook(number).needs for number in lesson_numbers()}
    assert needs["05"] == ("04",)
    assert needs["13"] == tuple(f"{n:02d}" for n in range(1, 10))
    assert not needs["01"]
    assert all(need < number for number, needed in needs.items() for need in needed)


def test_what_a_lesson_says_for_the_instructor_alone_is_there_in_the_tables():
    for number in lesson_numbers():
        plan = lesson_plan(number)
        assert set(plan.lesson.teaching.masters) <= set(MASTERS)
        assert set(plan.lesson.teaching.risks) <= set(STANDARD)
        assert plan.lesson.teaching.flight in range(len(FLIGHTS) + 1)


def test_what_to_read_before_a_lesson_is_what_the_sources_say_of_it():
    assert lesson_plan("10").reading == (
        "Pilot's Handbook (FAA-H-8083-25C), chapter 16: time and distance check",
    )
    assert "14 CFR 91.171, (a) and (b); (c) and (d)" in lesson_plan("11").reading


def test_codes_of_the_standard_stand_in_one_table():
    package = own_notebooks().parent / "vorlib"
    given = re.compile(rf'[=(,] ?"{CODE.pattern}"')
    with_codes = [p.name for p in package.rglob("*.py") if given.search(p.read_text("utf-8"))]
    assert with_codes == ["standards.py"]


@pytest.fixture
def with_another_lesson(tmp_path):
    """The course with a lesson more, which is a copy of the fifth."""
    for path in own_notebooks().glob("*.ipynb"):
        (tmp_path / path.name).write_bytes(path.read_bytes())
    text = (tmp_path / "05_intercepting.ipynb").read_text(encoding="utf-8")
    notebook = json.loads(text.replace("# 5. Intercepting", "# 15. Holding"))
    del notebook["metadata"]["vorlib"]
    (tmp_path / "15_holding.ipynb").write_text(json.dumps(notebook), encoding="utf-8")
    return tmp_path


def test_a_lesson_that_is_added_has_a_plan_and_its_place_in_the_syllabus(with_another_lesson):
    plan = lesson_plan("15", folder=with_another_lesson)
    assert plan.lesson.title == "Holding"
    assert plan.kinds
    assert plan.minutes % 5 == 0
    assert_one_page_with_the_caution(plan_pages(plan, LETTER), LETTER)
    whole = syllabus(folder=with_another_lesson)
    assert whole.plans[-1].lesson.number == "15"
    assert_one_page_with_the_caution(syllabus_pages(whole, LETTER), LETTER)


@SIZES
def test_the_syllabus_has_every_lesson_and_flight_on_one_page(size):
    pages = syllabus_pages(syllabus(), size)
    assert_one_page_with_the_caution(pages, size)
    shown = texts(pages[0])
    assert all(lesson_notebook(number).title in shown for number in lesson_numbers())
    assert sum(text.startswith("Flight ") for text in shown) == 4


def test_a_flight_comes_once_its_lessons_are_done_in_whatever_order():
    rows = syllabus(["01", "02", "03", "08", "04", "05", "06"]).rows
    names = [getattr(row, "title", None) or row.lesson.number for row in rows]
    assert names[5:7] == ["Find yourself, and go there", "05"]
    assert names[-2:] == ["Onto a course and along it", "Over the station"]


@pytest.mark.parametrize(
    ("order", "why"),
    [
        (["01", "02", "04", "03"], r"04 \(To the station\) needs lesson 03 .* comes later"),
        (["01", "02", "04"], r"04 \(To the station\) needs lesson 03 .* is left out"),
        (["01", "1"], r"01 \(Radials\) is in the order twice"),
        (["77"], r"must be one of 01, .* got '77'"),
    ],
)
def test_an_order_in_which_a_lesson_comes_before_what_it_needs_is_refused(order, why):
    with pytest.raises(ValueError, match=why):
        syllabus(order)


@SIZES
def test_each_master_is_a_page_of_black_lines(size):
    pages = master_pages(size)
    assert [page.title.partition(",")[0] for page in pages] == [m.title for m in MASTERS.values()]
    for page in pages:
        assert_one_page_with_the_caution([page], size)


@SIZES
@pytest.mark.parametrize("card", [CARD, crowded()], ids=["islands", "crowded"])
def test_the_briefing_of_a_flight_is_a_page_that_has_what_the_card_knows(card, size):
    crew = Crew(student="Wenna Dorrick", aircraft="high-wing trainer")
    pages = briefing_pages(card, size, crew=crew)
    assert_one_page_with_the_caution(pages, size)
    shown = words(pages[0])
    for task in lesson_tasks(card):
        assert f"{task.title}. {task.brief.split()[0]}" in shown
        assert task.ground.split(".")[0].split(":")[0] in shown
    for notes in card.stations:
        assert f"{notes.listed.station.frequency_mhz:.2f}" in shown
        assert notes.signs in shown
    assert {"Wenna Dorrick", "high-wing trainer", str(card.lesson.on)} <= set(texts(pages[0]))
    for to_write in ("Instructor", "Weather", "Notices", "Minimum from the chart", "looks out"):
        assert to_write in shown
    assert "one of us says stop" in shown


def test_a_briefing_where_nothing_is_received_says_so_in_place_of_its_tasks():
    away = lesson_card(lesson(center=Position(40.0, -30.0), fields=()))
    assert "There are no tasks" in words(briefing_pages(away)[0])


def test_an_exhibit_is_told_with_the_settings_that_its_notebook_gives_it():
    cells = (
        'wind = {"wind_from_deg": 30, "wind_kt": 20}\nrace = x.homing("PLX", **wind)\nrace',
        "x.predict('04-3')",
        "race.say()",
        "x.fix(off_deg=6, seed=3, distance_nm=-2.5, altitude_ft=4500, inbound=False, late=True)",
        "x.signal(118, lead=False, method='dme')",
        "print(x.fix(seed=2))",
    )
    code = NotebookCode(cells)
    assert [shown.words for shown in code.exhibits(cells)] == [
        "homing: PLX, wind from 030, wind 20 kt",
        "fix: off 6 degrees, -2.5 NM, altitude 4,500 ft, outbound, late",
        "signal: radial 118, no lead, radial and DME",
    ]
    assert code.predictions(cells) == ("04-3",)

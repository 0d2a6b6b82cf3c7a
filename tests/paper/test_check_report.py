"""The report of a check flight, printed: whole, the same each time, and with the caution."""

import re
from datetime import UTC, datetime

import pytest

from vorlib.core.caution import CAUTION
from vorlib.paper.check_report import check_report_pages, save_check_report
from vorlib.paper.page import A4, LETTER
from vorlib.practice.check_flight.plan import check_flight_plan
from vorlib.practice.check_flight.report import CheckReport, assess
from vorlib.views.drawing.svg import to_svg

BEGUN = datetime(2026, 6, 1, 12, 0, tzinfo=UTC)
HANDED_IN = datetime(2026, 6, 1, 12, 28, tzinfo=UTC)


def a_report(seed=8):
    """A report with right, mistaken and missing answers."""
    items = []
    for number, planned in enumerate(check_flight_plan(seed), start=1):
        question = planned.question
        mistaken = number % 3 == 0 and question.misconceptions
        answer = question.misconceptions[0].would_answer if mistaken else question.answer
        given = "" if number % 7 == 0 else question.form.show(answer)
        items.append(assess(number, planned, given, late=number > 22))
    return CheckReport("Wenna Dorrick", seed, BEGUN, HANDED_IN, 31.2, 2, tuple(items))


def words_of(pages):
    """Return all words on the pages, in their order."""
    texts = [re.findall(r"<text[^>]*>([^<]*)</text>", to_svg(page)) for page in pages]
    return " ".join(word for words in texts for word in words)


@pytest.mark.parametrize("size", [A4, LETTER], ids=lambda size: size.name)
def test_every_question_stands_on_it_with_answer_and_solution(size):
    report = a_report()
    pages = check_report_pages(report, size)
    text = words_of(pages).replace("&#x27;", "'").replace("&quot;", '"').replace("&gt;", ">")
    for item in report.items:
        for words in (item.prompt, item.right_answer, item.worked, *item.shown):
            assert words in text
    for page in pages:
        assert CAUTION in words_of([page])


def test_it_says_what_was_reached_what_slipped_and_what_to_revise():
    report = a_report()
    text = words_of(check_report_pages(report))
    assert f"{report.points:g} of 24 points" in text
    assert "2 pauses" in text
    assert "came after the time" in text
    for share in report.to_revise():
        assert share.title in text
    assert "instructor" in text
    assert "fit to fly" not in text.casefold()


def test_the_same_report_gives_the_same_bytes(tmp_path):
    one = save_check_report(tmp_path / "one.pdf", a_report()).read_bytes()
    other = save_check_report(tmp_path / "other.PDF", a_report()).read_bytes()
    assert one == other
    assert words_of(check_report_pages(a_report(9))) != words_of(check_report_pages(a_report()))


def test_a_name_that_is_no_pdf_is_refused_and_nothing_written(tmp_path):
    with pytest.raises(ValueError, match=r"must end in \.pdf, got 'x'"):
        save_check_report(tmp_path / "x", a_report())
    assert list(tmp_path.iterdir()) == []


def test_a_report_without_a_slip_has_no_heading_for_slips():
    plan = check_flight_plan(8)
    items = [assess(n, p, p.question.form.show(p.question.answer)) for n, p in enumerate(plan, 1)]
    report = CheckReport("Tobin Askerel", 8, BEGUN, HANDED_IN, 20.0, 0, tuple(items))
    text = words_of(check_report_pages(report))
    assert "24 of 24 points" in text
    assert "The slips" not in text
    assert "To revise" not in text

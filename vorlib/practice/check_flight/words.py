"""The report of a check flight in words."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from textwrap import fill

from vorlib.core.words import spoken_count
from vorlib.practice.check_flight.plan import ALLOWED_MIN
from vorlib.practice.check_flight.report import CheckReport, Item, ReportedSlip, Share

GOOD, ENOUGH = 0.85, 0.7  # 0.7 passes the FAA's knowledge tests (from memory); 0.85 is common
LEAST_OF_ELEMENT = 0.5  # below it an element is not known, however many points there are in all
HABIT = 2  # shown this often, a slip may be a habit
WIDTH = 92

SCOPE = (
    "This is about what you know at a desk, and it is for you and your instructor to talk over. "
    "What you can do in the aircraft shows in the aircraft alone."
)


def number_words(points: float) -> str:
    """Return points as a pilot writes them: "17" or "17.5"."""
    return f"{points:g}"


def score(report: CheckReport) -> str:
    """Return the points, and how many answers were right, close, wrong or missing."""
    counts = [
        f"{report.count('right')} right",
        f"{report.count('close')} close (half a point each)",
        f"{report.count('wrong')} wrong",
        f"{report.count('not answered')} without an answer",
    ]
    return f"{number_words(report.points)} of {report.out_of} points: {', '.join(counts)}."


def course(report: CheckReport) -> str:
    """Return when the test was begun and handed in, and how long it took."""
    pauses = {0: "no pause", 1: "one pause"}.get(report.pauses, f"{report.pauses} pauses")
    words = (
        f"Begun {_moment(report.begun_at)}, handed in {_moment(report.handed_in_at)}. The clock "
        f"ran for {report.used_min:.0f} of {ALLOWED_MIN} minutes, with {pauses}."
    )
    late = sum(item.late for item in report.items)
    if late:
        words += (
            f" {spoken_count(late, 'answer')} came after the time, with "
            f"{number_words(report.late_points)} of the points."
        )
    return words


def verdict(report: CheckReport) -> str:
    """Return what the points say about the learner's knowledge, and what to do next."""
    answered = report.out_of - report.count("not answered")
    reached = report.points / report.out_of
    weak = [s.title for s in report.by_element() if s.points < LEAST_OF_ELEMENT * s.out_of]
    if 2 * answered < report.out_of:
        return (
            "Too few answers to say what you know. Take another check flight when you are rested."
        )
    if report.points == report.out_of:
        return "You know this. Nothing was missed: take the report to your instructor."
    begin = f"{_habit(report)}Begin with lesson {report.to_revise()[0].title}"
    if reached >= GOOD and not weak:
        return f"You know this. {begin}, then take the report to your instructor."
    if reached >= ENOUGH:
        gap = f"The gap: {'; '.join(weak)}. " if weak else ""
        return f"You know most of this. {gap}{begin}, then talk it over."
    return (
        f"There are gaps to close first. {begin}. Practice it, go on down the list, and then sit "
        "another check flight: it has other questions."
    )


def _habit(report: CheckReport) -> str:
    """Return which one habit is behind several wrong answers, if one is."""
    slips, wrong = report.slips(), report.count("wrong")
    if not slips or slips[0].times < HABIT:
        return ""
    return f"One habit may explain {slips[0].times} of {wrong} wrong answers: {slips[0].name}. "


def share_words(share: Share) -> str:
    """Return the points of an element or a lesson."""
    return f"{share.title}: {number_words(share.points)} of {share.out_of}"


def slip_words(slip: ReportedSlip) -> str:
    """Return how often a slip showed, why it is tempting and what to look at again."""
    habit = " It may be a habit." if slip.times >= HABIT else ""
    often = f"in {slip.times} of {spoken_count(slip.chances, 'answer')} that could show it"
    return f"{slip.name}: {often}.{habit} {slip.why_tempting} {slip.look_again}"


def revise_words(share: Share) -> str:
    """Return what of a lesson to revise, and the line that starts the practice for it."""
    lost = "1 point" if share.lost == 1.0 else f"{number_words(share.lost)} points"
    return f"Lesson {share.title}: {lost} lost. {practice_line(share)}"


def practice_line(share: Share) -> str:
    """Return the line that starts practice with the kinds of question that lost points."""
    return f"x.practice({', '.join(repr(kind) for kind in share.kinds)})".replace("'", '"')


def item_words(item: Item) -> tuple[str, ...]:
    """Return a question in lines: asked, answered, right, worked out, and the slip if any."""
    late = ", after the time" if item.late else ""
    own = f"{item.given} ({item.verdict}{late})" if item.given else "none"
    lines = [item.prompt, f"Your answer: {own}. Right: {item.right_answer}.", item.worked]
    if item.shown:
        lines.append(f"The likely slip: {', or '.join(item.shown)}. {item.why_tempting}")
    return tuple(lines)


def item_text(item: Item) -> str:
    """Return a question with its answers and its solution, as text for a notebook."""
    return "\n".join(fill(line, WIDTH) for line in item_words(item))


def report_words(report: CheckReport) -> str:
    """Return a report as text for a notebook: of the lessons only those that lost points."""
    return "\n".join(fill(line, WIDTH, subsequent_indent="  ") for line in _lines(report))


def _lines(report: CheckReport) -> Iterator[str]:
    yield f"Check flight of {report.learner}"
    yield from (score(report), course(report), verdict(report), SCOPE)
    yield "By element:"
    yield from (f"- {share_words(share)}" for share in report.by_element())
    if report.slips():
        yield "The slips:"
        yield from (f"- {slip_words(slip)}" for slip in report.slips())
    if report.to_revise():
        yield "To revise, most important first:"
        yield from (f"- {revise_words(share)}" for share in report.to_revise())


def _moment(moment: datetime) -> str:
    return f"{moment:%Y-%m-%d %H:%M} UTC"

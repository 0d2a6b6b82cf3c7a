"""A class's results in words: what the pictures show, and what to do about it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from vorlib.core.words import spoken_count
from vorlib.practice.classroom.progress import (
    ProgressPeriod,
    Span,
    class_progress,
    learner_progress,
)
from vorlib.practice.classroom.results import ClassResults, Learner, Score
from vorlib.practice.classroom.teaching import (
    NeedsYou,
    NobodyRight,
    TeachAgain,
    needs_you,
    nobody_right,
    teach_again,
    too_little,
)
from vorlib.practice.learning.lessons import lesson_title
from vorlib.practice.questions.question import Question
from vorlib.practice.questions.registry import kind_words
from vorlib.views.classroom.question_figure import figure_words

ENOUGH_FOR_PERCENT = 20  # answers; of fewer a percentage says more than is known


def summary_words(results: ClassResults) -> str:
    """Return in a few sentences what was read and what it shows."""
    if not results.learners:
        return f"No record was found. {left_out_count(results)}".rstrip()
    learners, answers = len(results.learners), results.answered
    said = [f"{spoken_count(learners, 'learner')} gave {spoken_count(answers, 'answer')}."]
    again = teach_again(results)
    if again:
        first = again[0]
        held, verb = spoken_count(len(again), "misconception"), "is" if len(again) == 1 else "are"
        said.append(
            f"{held} {verb} held. The most widely held is {first.misconception!r}: "
            f"{held_count(first)}."
        )
    else:
        said.append("Nobody is known to hold a misconception.")
    return " ".join(filter(None, [*said, left_out_count(results)]))


def left_out_count(results: ClassResults) -> str:
    """Return how many files were left out, or nothing when none was."""
    count = len(results.left_out)
    if not count:
        return ""
    return f"{spoken_count(count, 'file')} {'was' if count == 1 else 'were'} left out."


def left_out_words(results: ClassResults) -> str:
    """Return the files that were left out with the reasons, one a line; empty for none."""
    return "\n".join(f"{one.file}: {one.reason}." for one in results.left_out)


def held_count(again: TeachAgain) -> str:
    """Return how many hold a misconception, of how many who were asked.

    >>> held_count(TeachAgain("no turn at all", ("Ansa", "Bevil"), (), 7))
    '2 of the 7 asked'
    """
    return f"{len(again.held_by)} of the {again.asked} asked"


def score_words(score: Score) -> str:
    """Return a score with what is behind it, as a percentage too when that is enough.

    >>> score_words(Score(3, 4)), score_words(Score(30, 40))
    ('3 of 4', '30 of 40 (75 %)')
    """
    percent = f" ({score.share:.0%})".replace("%", " %")
    return f"{score}{percent if score.answered >= ENOUGH_FOR_PERCENT else ''}"


def held_words(learner: Learner) -> str:
    """Return what a learner holds, each with the questions behind it; empty for nothing."""
    held = [(name, learner.about(name)) for name in learner.holds]
    return ", ".join(f"{name} ({one.showed} of {one.asked})" for name, one in held)


def list_words(results: ClassResults) -> str:
    """Return the list of learners with what each holds, one a line, and then the others."""
    lines = [f"{one.name}: {held_words(one)}" for one in results.learners if one.holds]
    few = too_little(results)
    unclear = {name for name, _ in few}
    clean = [one.name for one in results.learners if not one.holds and one.name not in unclear]
    if clean:
        lines.append(f"No misconception found: {', '.join(clean)}.")
    unknown = [f"{name} ({tried})" for name, tried in few]
    if unknown:
        lines.append(f"Too few questions tried to tell: {', '.join(unknown)}.")
    return "\n".join(lines) or "There is nobody in the list."


def lesson_words(again: TeachAgain) -> str:
    """Return the lesson to go back to, with its title."""
    return f"lesson {int(again.lesson)}, {lesson_title(again.lesson)}"


def teach_again_words(results: ClassResults, most: int | None = None) -> str:
    """Return what to teach again, the most widely held first, all or only so many."""
    again = teach_again(results)[:most]
    blocks = (_teach(number, one) for number, one in enumerate(again, start=1))
    return "\n\n".join(blocks) or "Nothing: nobody is known to hold a misconception."


def taught_words(number: int, again: TeachAgain) -> str:
    """Return a misconception to teach again in one paragraph, numbered."""
    head, *lines = (line.strip() for line in _teach(number, again).splitlines())
    return " ".join([f"{head}.", *lines])


def days_words(since: date | None, until: date | None) -> str:
    """Return which days the answers are of.

    >>> days_words(date(2026, 6, 1), None), days_words(None, None)
    ('since 2026-06-01', 'all days')
    """
    if since and until:
        return f"{since} to {until}"
    if since:
        return f"since {since}"
    return f"until {until}" if until else "all days"


def missing_words(missing: Sequence[str]) -> str:
    """Return who of a class list has handed in nothing.

    >>> missing_words(("Ansa", "Bevil")), missing_words(())
    ('Not handed in (2): Ansa, Bevil.', 'Everybody on the class list has handed in.')
    """
    if not missing:
        return "Everybody on the class list has handed in."
    return f"Not handed in ({len(missing)}): {', '.join(missing)}."


def _teach(number: int, again: TeachAgain) -> str:
    lines = [f"{number}. {again.misconception}: held by {held_count(again)}"]
    if again.showed_by:
        lines[0] += f", and {len(again.showed_by)} more showed it"
    if again.question:
        lines.append(f"   Go back to {lesson_words(again)}.")
        lines.append(f"   On the whiteboard: {again.why_tempting} {again.look_again}")
        lines.append(f"   To begin with: {question_words(again.question)}")
    return "\n".join(lines)


def needs_you_words(results: ClassResults, most: int | None = None) -> str:
    """Return who needs the instructor first, one a line, all or only so many."""
    return "\n".join(map(need_words, needs_you(results)[:most])) or "Nobody stands out."


def need_words(one: NeedsYou) -> str:
    """Return one learner's need in a line.

    >>> need_words(NeedsYou("Ansa", ("no turn at all",), Score(9, 20)))
    'Ansa: holds 1; 9 of the latest 20 right at the first try'
    """
    held = f"holds {len(one.holds)}" if one.holds else "holds no known misconception"
    right, answered = one.lately.right, one.lately.answered
    return f"{one.learner}: {held}; {right} of the latest {answered} right at the first try"


def nobody_right_words(results: ClassResults) -> str:
    """Return the questions that nobody got right, one a paragraph."""
    return "\n\n".join(map(unsolved_words, nobody_right(results))) or "There is none."


def unsolved_words(one: NobodyRight) -> str:
    """Return a question that nobody got right, with its answer worked out."""
    put = f"{kind_words(one.kind)}, put to {spoken_count(one.asked, 'learner')}"
    return f"{put}: {question_words(one.question)} {one.question.worked}" if one.question else put


def question_words(question: Question) -> str:
    """Return what is asked, with what its picture shows."""
    return f"{question.prompt} {figure_words(question.figure) if question.figure else ''}".rstrip()


def progress_words(results: ClassResults, by: Span = "week", learner: Learner | None = None) -> str:
    """Return how the class does over time, and one learner if one is named."""
    said = [f"The class, right at the first try: {_over_time(class_progress(results, by), by)}."]
    if learner:
        said.append(f"{learner.name}: {_over_time(learner_progress(learner, by), by)}.")
    return " ".join(said)


def _over_time(periods: Sequence[ProgressPeriod], by: Span) -> str:
    if not periods:
        return "nothing answered yet"
    name = "week of " if by == "week" else ""
    shown = periods if len(periods) <= 4 else (periods[0], *periods[-2:])
    return "; ".join(f"{name}{one.begin.isoformat()} {score_words(one.score)}" for one in shown)

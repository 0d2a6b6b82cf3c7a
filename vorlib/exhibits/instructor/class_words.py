"""The results of a class in words, part by part: to be saved or printed with a notebook."""

from vorlib.exhibits.base.registry import offered
from vorlib.exhibits.instructor.class_report import tell
from vorlib.exhibits.instructor.class_results import ClassExhibit
from vorlib.practice.classroom.results import ClassResults
from vorlib.views.classroom import chart, words
from vorlib.views.drawing.chart import Chart

__all__ = [
    "class_chart",
    "tell_left_out",
    "tell_list",
    "tell_needs_you",
    "tell_nobody_right",
    "tell_teach_again",
]


@offered
def tell_teach_again(results: ClassResults, most: int | None = None) -> None:
    """Print what to teach again, the most widely held first."""
    tell(words.teach_again_words(results, most))


@offered
def tell_needs_you(results: ClassResults, most: int | None = None) -> None:
    """Print who needs the instructor first."""
    tell(words.needs_you_words(results, most))


@offered
def tell_list(results: ClassResults) -> None:
    """Print the learners with what each holds."""
    tell(words.list_words(results))


@offered
def tell_nobody_right(results: ClassResults) -> None:
    """Print the questions that nobody got right."""
    tell(words.nobody_right_words(results))


@offered
def tell_left_out(results: ClassResults) -> None:
    """Print the files that were left out, with the reasons."""
    tell(words.left_out_words(results))


@offered
def class_chart(shown: ClassExhibit) -> Chart:
    """Return the chart of progress that the exhibit shows."""
    return chart.class_chart(shown.results, shown.state.by, shown.state.learner)

"""A class's results as pictures: true to their numbers, and read without color."""

import re
from itertools import pairwise
from math import radians, sin

import pytest
from views.test_theme import contrast, linear

from vorlib.practice.classroom.demo_class import demo_class
from vorlib.practice.classroom.folder import ClassRecords
from vorlib.practice.classroom.results import ClassFinding, ClassResults, Score
from vorlib.practice.classroom.teaching import needs_you
from vorlib.practice.record.exchange import Export
from vorlib.views.classroom import table as table_module
from vorlib.views.classroom.chart import class_chart
from vorlib.views.classroom.table import MOST_LEARNERS, MOST_MISCONCEPTIONS, class_table
from vorlib.views.drawing.layout import overlap, text_box
from vorlib.views.drawing.picture import Line, Polygon, Text
from vorlib.views.drawing.svg import to_svg
from vorlib.views.drawing.theme import PROJECTOR, SCREEN

THEMES = pytest.mark.parametrize("theme", [SCREEN, PROJECTOR], ids=["screen", "projector"])


@pytest.fixture(scope="module")
def demo():
    return ClassResults(demo_class())


@pytest.fixture(scope="module")
def nobody():
    return ClassResults(ClassRecords((), ()))


def words(picture):
    return [item.text for item in picture.items if isinstance(item, Text)]


# ---- the table


def test_the_table_has_the_class_and_what_most_of_them_hold(demo):
    said = words(class_table(demo))
    assert {one.name for one in demo.learners} <= set(said)
    shown = " ".join(said)
    for name in demo.misconceptions[:5]:
        assert all(word in shown for word in name.split())
    assert len(demo.misconceptions) > MOST_MISCONCEPTIONS
    assert f"{len(demo.misconceptions) - MOST_MISCONCEPTIONS} more misconceptions" in (
        class_table(demo).description
    )


def test_each_field_of_the_table_says_what_was_found(demo):
    fields = [
        one.about(name)
        for one in demo.learners
        for name in demo.misconceptions[:MOST_MISCONCEPTIONS]
    ]
    picture = class_table(demo)
    figures = [t for t in picture.items if isinstance(t, Text) and re.match(r"\d/\d$", t.text)]
    held = [t for t in figures if t.bold]
    count = {finding: sum(f.finding is finding for f in fields) for finding in ClassFinding}
    assert len(held) == count[ClassFinding.HOLDS] + 1  # one more in the key
    assert len(figures) - len(held) == count[ClassFinding.SHOWED] + 1
    dashes = [item for item in picture.items if isinstance(item, Line)]
    assert len(dashes) == count[ClassFinding.CLEAR] + 1
    gray = [p for p in picture.items if isinstance(p, Polygon) and p.fill == SCREEN.cover]
    assert len(gray) == count[ClassFinding.NOT_ASKED] + 1
    assert sum(count.values()) == 30 * MOST_MISCONCEPTIONS


def test_who_needs_the_instructor_first_is_at_the_top(demo):
    rows = {t.text: t.y for t in class_table(demo).items if isinstance(t, Text)}
    heights = [rows[one.learner] for one in needs_you(demo)]
    assert heights == sorted(heights)


@THEMES
def test_no_name_of_the_table_covers_another_and_all_are_on_the_sheet(demo, theme):
    picture = class_table(demo, theme)
    upright = [t for t in picture.items if isinstance(t, Text) and not t.rotate_deg]
    boxes = [text_box(text) for text in upright]
    assert not any(overlap(a, b) for n, a in enumerate(boxes) for b in boxes[:n])
    for box in map(text_box, (t for t in picture.items if isinstance(t, Text))):
        assert box[0] >= 0
        assert box[1] >= 0
        assert box[2] <= picture.width
        assert box[3] <= picture.height


@THEMES
def test_the_heads_of_neighboring_columns_stand_apart(demo, theme):
    heads = [t for t in class_table(demo, theme).items if isinstance(t, Text) and t.rotate_deg]
    sine = abs(sin(radians(heads[0].rotate_deg)))
    places = sorted(head.x for head in heads)
    apart = [sine * (b - a) for a, b in pairwise(places)]
    assert min(apart) >= 0.9 * theme.text_size


def over_paper(color, share):
    """Return a color laid over white, as #rrggbb."""
    mixed = (255 - share * (255 - int(color[i : i + 2], 16)) for i in (1, 3, 5))
    return "#" + "".join(f"{round(one):02x}" for one in mixed)


def test_the_shades_are_told_apart_in_gray_and_their_figures_are_readable():
    held, showed = SCREEN.warning, over_paper(SCREEN.warning, table_module.SHADE_SHOWED)
    assert contrast(held, showed) >= 3.0
    assert contrast(showed, SCREEN.paper) >= 1.5
    assert contrast(SCREEN.paper, held) >= 4.5
    assert contrast(SCREEN.text, showed) >= 4.5
    assert linear(held).max() < linear(showed).max() < linear(SCREEN.paper).max()


def test_a_long_name_is_cut_and_a_large_class_shows_those_who_need_help_first(demo):
    name = "Wilhelmina Anastasia Featherstonehaugh"
    some = ClassRecords(tuple(Export(f"{name} {n}", e.attempts) for n in range(2)
                              for e in demo_class().learners))  # fmt: skip
    picture = class_table(ClassResults(some))
    assert f"The table has the {MOST_LEARNERS} who need you first." in picture.description
    assert any(text.endswith("\N{HORIZONTAL ELLIPSIS}") for text in words(picture))


def test_the_table_of_nobody_is_drawn_all_the_same(nobody):
    assert "No record was found." in to_svg(class_table(nobody))


# ---- the chart


def test_the_line_of_the_class_is_the_share_right_at_the_first_try(demo):
    axes = class_chart(demo, "week").figure.axes[0]
    line = next(one for one in axes.lines if one.get_label() == "the class")
    score = Score(
        sum(a.verdict == "right" for one in demo.learners for a in one.first_tries[:45]),
        sum(len(one.first_tries[:45]) for one in demo.learners),
    )
    assert line.get_ydata()[0] == pytest.approx(100 * score.share)
    assert f"{score.right:,}\nof {score.answered:,}" in [text.get_text() for text in axes.texts]


def test_class_and_learner_are_told_apart_without_color(demo):
    one = demo.learners[3]
    lines = {x.get_label(): x for x in class_chart(demo, "week", one).figure.axes[0].lines}
    look = {(lines[n].get_linestyle(), lines[n].get_marker()) for n in ("the class", one.name)}
    assert look == {("-", "s"), ("--", "o")}


@THEMES
@pytest.mark.parametrize("by", ["day", "week"])
def test_the_labels_of_the_time_axis_do_not_touch(demo, theme, by):
    figure = class_chart(demo, by, demo.learners[0], theme).figure
    figure.draw_without_rendering()
    axes = figure.axes[0]
    counts = [text.get_window_extent() for text in axes.texts]
    assert not any(a.overlaps(b) for a, b in pairwise(counts))
    assert all(figure.bbox.x0 <= t.get_window_extent().x0 for t in axes.get_xticklabels())
    legend = axes.get_legend().get_window_extent()
    assert legend.x1 <= figure.bbox.x1


def test_the_chart_of_nobody_is_drawn_and_says_so(nobody):
    chart = class_chart(nobody)
    assert chart.svg.startswith("<svg")
    assert "nothing answered yet" in chart.sentence

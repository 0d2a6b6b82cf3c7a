"""The strip of a flight: where its moments stand, what is told apart, and how it is drawn."""

import numpy as np
import pytest

from vorlib.views.drawing.layout import extent, overlap, text_box
from vorlib.views.drawing.picture import Group, Polygon, Polyline, Segments, Text
from vorlib.views.drawing.theme import PROJECTOR, SCREEN
from vorlib.views.flight.timeline import timeline
from vorlib.views.flight.timeline_lanes import LEGEND, PATTERNS, bar
from vorlib.views.flight.timeline_scene import Bar, Mark, TimelineScene, layout_of
from vorlib.vor.receiver import Flag

THEMES = pytest.mark.parametrize("theme", [SCREEN, PROJECTOR], ids=["screen", "projector"])
TIME_S = np.arange(0.0, 1801.0)
FLAG = np.where(TIME_S < 900, Flag.TO, np.where(TIME_S < 930, Flag.OFF, Flag.FROM)).astype(int)
SCENE = TimelineScene(
    TIME_S,
    3.0 * np.sin(TIME_S / 100.0),
    FLAG,
    (TIME_S > 1200).astype(int),
    (Bar("QLN 040", 0.0, 1000.0), Bar("QLN 220", 1000.0, 1800.0)),
    tuple(Bar(name, 300.0 * i, 300.0 * (i + 1)) for i, name in enumerate(PATTERNS)),
    (Mark(1, 890.0), Mark(2, 900.0), Mark(3, 910.0)),
    3.75,
)


def parts(items):
    for item in items:
        yield item
        if isinstance(item, Group):
            yield from parts(item.items)


def cursor(picture):
    return next(i for i in picture.items if isinstance(i, Group) and i.grab == "time")


@THEMES
def test_the_cursor_stands_at_its_moment_and_is_held_anywhere_on_the_strip(theme):
    layout = layout_of(SCENE.end_s, theme)
    for now_s in (0.0, 900.0, 1800.0):
        held = cursor(timeline(SCENE, now_s, "then", theme))
        middle = (extent(held)[0] + extent(held)[2]) / 2
        assert layout.time_s(middle) == pytest.approx(now_s, abs=0.01)
        assert held.hit[:1] + held.hit[2:3] == (layout.left, layout.right)


@THEMES
def test_the_strip_is_drawn_once_for_all_its_moments(theme):
    one, other = (timeline(SCENE, t, "then", theme).items[0] for t in (10.0, 1500.0))
    assert one is other


@THEMES
def test_everything_is_inside_the_frame_and_no_words_cover_others(theme):
    picture = timeline(SCENE, 0.0, "then", theme)
    boxes = [text_box(item) for item in parts(picture.items) if isinstance(item, Text)]
    for left, top, right, foot in boxes:
        assert left >= 0.0
        assert right <= picture.width
        assert top >= 0.0
        assert foot <= picture.height
    clashes = [(a, b) for i, a in enumerate(boxes) for b in boxes[:i] if overlap(a, b)]
    assert clashes == []


@THEMES
def test_the_legend_names_every_pattern(theme):
    words = [
        i.text for i in parts(timeline(SCENE, 0.0, "then", theme).items) if isinstance(i, Text)
    ]
    assert set(LEGEND) <= set(words)


def test_phases_are_told_apart_without_color():
    looks = set()
    for name in (*PATTERNS, "TO", "FROM"):
        shapes = [i for i in bar(name, 0.0, 0.0, 100.0, 18.0, SCREEN) if not isinstance(i, Text)]
        ground, lines = shapes[0], [i for i in shapes if isinstance(i, Segments)]
        slopes = {np.sign((y2 - y1) / (x2 - x1)) for s in lines for x1, y1, x2, y2 in s.segments}
        count = sum(len(s.segments) for s in lines)
        dashed = any(s.dash for s in lines)
        looks.add((ground.fill != SCREEN.paper, tuple(slopes), count, dashed))
    assert len(looks) == len(PATTERNS) + 2


def test_hatching_stays_inside_its_bar():
    for name in PATTERNS:
        for item in bar(name, 50.0, 10.0, 90.0, 30.0, SCREEN):
            left, top, right, foot = extent(item)
            assert left + 1e-9 >= 50.0
            assert right <= 90.0 + 1e-9
            assert top + 1e-9 >= 10.0
            assert foot <= 30.0 + 1e-9


def test_the_needle_is_not_drawn_while_the_flag_is_off_nor_across_a_gap():
    layout = layout_of(SCENE.end_s)
    lines = [i for i in parts(timeline(SCENE, 0.0, "then").items) if isinstance(i, Polyline)]
    spans = sorted((layout.time_s(i.points[0][0]), layout.time_s(i.points[-1][0])) for i in lines)
    assert spans == [
        pytest.approx((0.0, 899.0), abs=0.1),
        pytest.approx((930.0, 1200.0), abs=0.1),
        pytest.approx((1201.0, 1800.0), abs=0.1),
    ]


def test_a_needle_to_the_right_is_above_the_center():
    layout = layout_of(60.0)
    assert layout.y(2.0) < layout.y(0.0) < layout.y(-2.0)


def test_a_flight_of_one_moment_can_be_drawn():
    one = TimelineScene(np.zeros(1), np.zeros(1), np.ones(1, int), np.zeros(1, int))
    assert timeline(one, 0.0, "0 s").height > 0
    assert any(isinstance(i, Polygon) for i in parts(timeline(one, 0.0, "0 s").items))


def test_many_findings_keep_their_order_and_stay_on_the_strip():
    marks = tuple(Mark(n, 1790.0 + n / 10.0) for n in range(1, 61))
    scene = TimelineScene(TIME_S, TIME_S * 0.0, FLAG, FLAG * 0, marks=marks)
    numbers = [i for i in parts(timeline(scene, 0.0, "0 s").items) if isinstance(i, Text)]
    places = [i.x for i in numbers if i.bold and i.text.isdigit()]
    assert len(places) == 60
    assert places == sorted(places)
    assert places[0] > 0.0
    assert places[-1] <= layout_of(1800.0).right + 1e-9

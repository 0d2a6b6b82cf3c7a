"""Pictures as lists of primitives, and the room they take."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from vorlib.views.drawing.clipping import clip_polygon, clip_polyline
from vorlib.views.drawing.layout import Labeler, extent, overlap, text_box
from vorlib.views.drawing.picture import (
    Circle,
    Group,
    Line,
    Picture,
    Polygon,
    Segments,
    Text,
    beside,
)

INK = "#000000"
BOX = (0.0, 0.0, 100.0, 100.0)
coordinates = st.floats(-300, 300, allow_nan=False)
points = st.tuples(coordinates, coordinates)


def test_a_turned_group_turns_clockwise():
    up = Line(0, 0, 0, -10, INK)
    assert extent(Group((up,), 50, 50, rotate_deg=90)) == pytest.approx((50, 50, 60, 50))


def test_groups_within_groups_add_up():
    ticks = Segments(((1, 2, 3, 4), (5, 6, 7, 8)), INK)
    assert extent(Group((Group((ticks,), 10, 20),), 100, 200)) == (111, 222, 117, 228)


def test_two_pictures_beside_each_other_keep_their_middles_level():
    tall = Picture(100, 200, (Circle(50, 100, 5, INK),), "Tall", "A tall one.")
    low = Picture(80, 60, (Circle(40, 30, 5, INK),), "low", "A low one.")
    both = beside(tall, low, gap=10)
    assert (both.width, both.height) == (190, 200)
    assert both.title == "Tall and low"
    assert both.description == "A tall one. A low one."
    left, right = both.items
    assert (left.x, left.y, right.x, right.y) == (0, 0, 110, 70)


@given(shape=st.lists(points, min_size=3, max_size=12))
def test_a_clipped_shape_lies_in_the_box(shape):
    assert all(-1e-9 <= c <= 100 + 1e-9 for point in clip_polygon(shape, BOX) for c in point)


def test_a_shape_inside_the_box_is_left_as_it_is():
    triangle = ((10.0, 10.0), (90.0, 20.0), (40.0, 80.0))
    assert set(clip_polygon(triangle, BOX)) == set(triangle)


def test_a_shape_around_the_box_becomes_the_box():
    around = ((-50.0, -50.0), (150.0, -50.0), (150.0, 150.0), (-50.0, 150.0))
    corners = {(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)}
    assert set(clip_polygon(around, BOX)) == corners


def test_a_shape_beside_the_box_vanishes():
    assert clip_polygon(((110.0, 0.0), (120.0, 0.0), (115.0, 9.0)), BOX) == ()


@given(line=st.lists(points, min_size=2, max_size=12))
def test_pieces_of_a_clipped_line_lie_in_the_box(line):
    for piece in clip_polyline(line, BOX):
        assert all(-1e-6 <= c <= 100 + 1e-6 for point in piece for c in point)


def test_a_line_that_leaves_and_returns_is_two_pieces():
    line = ((50.0, 50.0), (150.0, 50.0), (150.0, 80.0), (50.0, 80.0))
    first, second = clip_polyline(line, BOX)
    assert first == ((50.0, 50.0), (100.0, 50.0))
    assert second == ((100.0, 80.0), (50.0, 80.0))


def test_a_label_goes_to_the_first_free_place_and_takes_it():
    labels = Labeler(BOX)
    spots = [Text(50, y, "VOR", 10, INK) for y in (20, 40)]
    assert labels.place(spots) == spots[0]
    assert labels.place(spots) == spots[1]
    assert labels.place(spots) is None


def test_a_label_keeps_off_a_blocked_line_and_out_of_the_margin():
    labels = Labeler(BOX)
    labels.block_line(0, 0, 100, 100, 3)
    assert labels.place([Text(50, 50, "VOR", 10, INK)]) is None
    assert labels.place([Text(99, 20, "VOR", 10, INK)]) is None
    assert labels.place([Text(50, 15, "VOR", 10, INK)]) is not None


@pytest.mark.parametrize(("anchor", "left"), [("start", 50), ("middle", 40), ("end", 30)])
def test_a_text_stands_where_its_anchor_says(anchor, left):
    width = text_box(Text(0, 0, "040", 10, INK))
    start = text_box(Text(50, 0, "040", 10, INK, anchor))[0]
    share = (50 - start) / (width[2] - width[0])
    assert share == pytest.approx((50 - left) / 20)


def test_boxes_that_only_touch_do_not_overlap():
    assert not overlap((0, 0, 10, 10), (10, 0, 20, 10))
    assert overlap((0, 0, 10, 10), (9, 9, 20, 20))


def test_an_empty_group_has_no_extent():
    with pytest.raises(ValueError, match="values to unpack"):
        extent(Group((Polygon((), INK),)))

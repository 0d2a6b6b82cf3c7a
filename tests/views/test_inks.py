"""One drawing, two inks: SVG for the screen and matplotlib for paper."""

import io
import re
import xml.etree.ElementTree as ET

import numpy as np
import pytest
from IPython.core.formatters import DisplayFormatter
from matplotlib.collections import LineCollection
from matplotlib.transforms import Affine2D
from views.drawn import lesson_picture

from vorlib.views.drawing.pdf import to_figure
from vorlib.views.drawing.picture import (
    Circle,
    Group,
    Line,
    Picture,
    Polygon,
    Polyline,
    Segments,
    Text,
)
from vorlib.views.drawing.scaling import resized
from vorlib.views.drawing.svg import to_svg

SVG = "{http://www.w3.org/2000/svg}"

MIXED = Picture(
    300,
    200,
    (
        Line(10, 20, 60, 45, "#000000", 2),
        Group(
            (
                Segments(((0, 0, 10, 0), (0, 8, 10, 8)), "#0000ff"),
                Polyline(((0, 0), (15, 5), (30, -5)), "#ff0000", 2, (4, 2)),
                Group((Polygon(((0, 0), (20, 0), (10, 30)), "#00ff00"),), 40, -20, -35),
            ),
            120,
            80,
            rotate_deg=50,
        ),
        Circle(220, 120, 30, "#cccccc", "#000000", 3),
    ),
    title="Shapes & lines",
    description="One of each <kind>.",
)


def svg_boxes(svg: str) -> list[list[float]]:
    """Return the box of every shape of an SVG text, in drawing order."""
    boxes: list[list[float]] = []

    def walk(node: ET.Element, place: Affine2D) -> None:
        moves = re.findall(r"(\w+)\(([^)]*)\)", node.get("transform", ""))
        for name, numbers in moves:
            values = [float(n) for n in numbers.split()]
            step = Affine2D().translate(*values) if name == "translate" else None
            place = (step or Affine2D().rotate_deg(values[0])) + place
        if node.tag == f"{SVG}path":
            numbers = [float(n) for n in re.findall(r"-?[\d.]+", node.get("d", ""))]
            corners = place.transform(np.reshape(numbers, (-1, 2)))
            boxes.append([*corners.min(axis=0), *corners.max(axis=0)])
        elif node.tag == f"{SVG}circle" and not node.get("pointer-events"):
            x, y = place.transform((float(node.get("cx", 0)), float(node.get("cy", 0))))
            r = float(node.get("r", 0))
            boxes.append([x - r, y - r, x + r, y + r])
        for child in node:
            walk(child, place)

    walk(ET.fromstring(svg), Affine2D())
    return boxes


def figure_boxes(picture: Picture) -> list[list[float]]:
    """Return the box of every shape of a figure in picture units, in drawing order."""
    axes = to_figure(picture, 4).axes[0]
    artists = [*axes.lines, *axes.patches, *axes.collections]
    boxes = []
    for artist in sorted(artists, key=lambda a: a.get_zorder()):
        paths = artist.get_paths() if isinstance(artist, LineCollection) else [artist.get_path()]
        place = artist.get_transform() - axes.transData
        corners = np.vstack(
            [place.transform_path(p).to_polygons(closed_only=False)[0] for p in paths]
        )
        boxes.append([*corners.min(axis=0), *corners.max(axis=0)])
    return boxes


def test_both_inks_draw_every_shape_in_the_same_place():
    on_screen, on_paper = np.array(svg_boxes(to_svg(MIXED))), np.array(figure_boxes(MIXED))
    assert on_screen.shape == on_paper.shape == (5, 4)
    np.testing.assert_allclose(on_screen, on_paper, atol=0.3)


def test_both_inks_draw_a_whole_lesson_picture_in_the_same_place():
    picture = lesson_picture()
    on_screen, on_paper = np.array(svg_boxes(to_svg(picture))), np.array(figure_boxes(picture))
    np.testing.assert_allclose(on_screen, on_paper, atol=0.5)


def test_the_figure_saves_as_pdf():
    pages = io.BytesIO()
    to_figure(lesson_picture(), 7).savefig(pages, format="pdf")
    assert pages.getvalue().startswith(b"%PDF")


def test_a_figure_has_the_proportions_of_its_picture():
    assert tuple(to_figure(MIXED, 6).get_size_inches()) == pytest.approx((6, 4))


@pytest.mark.parametrize("width_in", [0.0, -1.0, float("nan")])
def test_a_figure_without_width_is_refused(width_in):
    with pytest.raises(ValueError, match="width_in"):
        to_figure(MIXED, width_in)


def test_a_dollar_sign_is_text_in_both_inks():
    picture = Picture(100, 50, (Text(50, 25, "$5 & <6>$", 10, "#000000"),))
    assert "$5 &amp; &lt;6&gt;$" in to_svg(picture)
    (text,) = to_figure(picture, 2).axes[0].texts
    assert text.get_text() == "$5 & <6>$"
    assert not text.get_parse_math()


def test_the_words_of_a_picture_are_its_accessible_name():
    svg = to_svg(MIXED)
    assert "<title>Shapes &amp; lines</title><desc>One of each &lt;kind&gt;.</desc>" in svg
    assert 'role="img"' in svg
    assert 'viewBox="0 0 300 200" width="100%"' in svg


def test_the_same_picture_gives_the_same_text():
    assert to_svg(lesson_picture()) == to_svg(lesson_picture())


def test_coordinates_are_rounded_and_never_minus_zero():
    svg = to_svg(Picture(9, 9, (Line(-0.04, 1.26, 2.0, 1 / 3, "#000000"),)))
    assert 'd="M0 1.3L2 0.3"' in svg


def test_what_can_be_grabbed_is_named_reachable_by_keyboard_and_big_enough():
    small = Group((Circle(0, 0, 3, "#000000"),), 50, 50, grab="ring", label='Course "040"')
    root = ET.fromstring(to_svg(Picture(100, 100, (small,))))
    (group,) = root.iter(f"{SVG}g")
    assert root.get("role") == "group"  # the parts of an "img" are hidden from a screen reader
    assert group.get("data-grab") == "ring"
    assert group.get("tabindex") == "0"
    assert group.get("role") == "slider"
    assert group.get("aria-label") == 'Course "040"'
    hit = group[0]
    assert hit.get("pointer-events") == "all"
    assert 2 * float(hit.get("r")) >= 44


@pytest.mark.parametrize(
    ("label", "name", "value", "number"),
    [
        ("Selected course 040", "Selected course", "040", 40.0),
        ("Heading 360, wanted 090", "Heading", "360, wanted 090", 360.0),
        ("Aircraft, heading 040", "Aircraft", "heading 040", 40.0),
        ("Aircraft, -2.0 NM along the track", "Aircraft", "-2.0 NM along the track", -2.0),
        ("Crest of the AM tone, at 118 degrees", "Crest of the AM tone", "at 118 degrees", 118.0),
    ],
)
def test_a_screen_reader_hears_a_name_that_stays_and_a_value_that_changes(
    label, name, value, number
):
    handle = Group((Circle(0, 0, 9, "#000000"),), grab="handle", label=label)
    (group,) = ET.fromstring(to_svg(Picture(100, 100, (handle,)))).iter(f"{SVG}g")
    assert (group.get("aria-label"), group.get("aria-valuetext")) == (name, value)
    assert float(group.get("aria-valuenow")) == number


def test_a_big_thing_can_be_grabbed_all_over():
    big = Group((Circle(0, 0, 80, "#000000"),), 100, 100, grab="ring", label="Course")
    assert '<circle r="80" pointer-events="all"/>' in to_svg(Picture(200, 200, (big,)))


def test_jupyter_shows_a_picture_as_svg_in_its_own_width():
    assert MIXED._repr_svg_() == to_svg(MIXED, display_width=f"{MIXED.width:g}")
    assert ET.fromstring(MIXED._repr_svg_()).get("width") == f"{MIXED.width:g}"


def test_in_place_of_a_picture_a_notebook_has_its_words():
    formatted = DisplayFormatter().format(MIXED)[0]
    assert formatted["text/plain"] == f"{MIXED.title}. {MIXED.description}"
    assert formatted["image/svg+xml"] == MIXED._repr_svg_()


def test_a_group_with_a_box_to_press_is_held_anywhere_in_it():
    line = Line(50, 0, 50, 40, "#000000")
    held = Picture(200, 40, (Group((line,), grab="time", label="Time, 5 s", hit=(0, 0, 200, 40)),))
    svg = to_svg(held)
    (group,) = ET.fromstring(svg).findall(".//*[@data-grab]")  # well formed, as saved pictures are
    assert group.get("data-grab") == "time"
    assert group.get("data-press") == ""
    assert '<rect x="0" y="0" width="200" height="40" pointer-events="all"/>' in svg
    assert 'width="100" height="20" pointer-events' in to_svg(resized(held, 100))


def test_a_group_without_one_is_held_in_a_circle_about_its_origin():
    svg = to_svg(
        Picture(90, 90, (Group((Circle(0, 0, 5),), 45, 45, grab="knob", label="Knob, 5"),))
    )
    assert "data-press" not in svg
    assert '<circle r="22" pointer-events="all"/>' in svg

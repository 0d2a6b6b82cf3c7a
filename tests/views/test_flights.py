"""Tracks, winds and strip charts: what flights add to the pictures."""

import re
from dataclasses import replace
from xml.etree import ElementTree

import numpy as np
import pytest
from views.drawn import STATION, groups, scene_at, texts

from vorlib.aircraft.wind import Wind
from vorlib.earth.geodesic import Position
from vorlib.views.drawing.chart import inline_chart
from vorlib.views.drawing.layout import overlap, text_box
from vorlib.views.drawing.picture import Polyline
from vorlib.views.drawing.theme import PROJECTOR, SCREEN
from vorlib.views.flight.strip_chart import Strip, strip_chart
from vorlib.views.plan.plan import Trace, plan
from vorlib.vor.receiver import Receiver

THEMES = pytest.mark.parametrize("theme", [SCREEN, PROJECTOR], ids=["screen", "projector"])


def straight(radial_deg, first_nm, last_nm):
    places = [STATION.position_on(radial_deg, d) for d in np.linspace(first_nm, last_nm, 9)]
    return Position(
        np.array([float(p.lat_deg) for p in places]), np.array([float(p.lon_deg) for p in places])
    )


def two_traces(**changes):
    scene = scene_at(214, 12.4, 40)
    traces = (
        Trace("one", straight(214, 20, 12.4)),
        Trace("other", straight(230, 20, 12.4), dashed=True, heading_deg=50),
    )
    return replace(scene, **{"traces": traces, **changes})


def lines(picture, ink):
    return [i for i in picture.items if isinstance(i, Polyline) and i.stroke == ink]


@THEMES
def test_two_tracks_are_told_apart_by_dash_and_name(theme):
    picture = plan(two_traces(), theme)
    (one,), (other,) = lines(picture, theme.track), lines(picture, theme.cone)
    assert one.dash == ()
    assert other.dash
    names = [t for t in texts(picture.items) if t.text in ("one", "other")]
    assert len(names) == 2
    assert not overlap(*map(text_box, names))


def test_a_second_aircraft_points_along_its_own_true_heading():
    picture = plan(two_traces())
    turned = [g.rotate_deg for g in groups(picture.items) if not g.grab]
    assert 50 + STATION.declination_deg in turned


@THEMES
def test_the_wind_is_in_words_and_its_arrow_points_downwind_from_true_north(theme):
    picture = plan(two_traces(wind=Wind(300, 25)), theme)
    assert "wind 300/25" in [t.text for t in texts(picture.items)]
    # the arrow is drawn pointing down, as a wind from the north blows
    assert 300 + STATION.declination_deg in [g.rotate_deg for g in groups(picture.items)]


def test_calm_air_has_words_and_no_arrow():
    calm, none = plan(two_traces(wind=Wind(300, 0))), plan(two_traces())
    assert "no wind" in [t.text for t in texts(calm.items)]
    assert len(list(groups(calm.items))) == len(list(groups(none.items)))


def test_an_aircraft_that_is_not_by_hand_cannot_be_grabbed():
    assert not any(g.grab for g in groups(plan(two_traces(by_hand=False)).items))


# ---- the strip chart


def strip(name="one", course_deg=34.0):
    """A flight straight over the station from the southwest."""
    along = np.linspace(-10.0, 10.0, 101)
    places = [STATION.position_on(214.0 if a < 0 else 34.0, abs(a), 3000.0) for a in along]
    position = Position(
        np.array([float(p.lat_deg) for p in places]),
        np.array([float(p.lon_deg) for p in places]),
        3000.0,
    )
    reading = Receiver(course_deg).read(STATION, position)
    return Strip(name, np.arange(101) * 7.2, reading, np.full(101, 34.0))


def test_a_chart_drawn_in_a_page_reaches_nothing_else_on_it():
    html = inline_chart(strip_chart([strip("<one>"), strip("other")]), 'Strip chart of "<one>".')
    assert html.startswith('<div class="vorlib-drawn" role="img" aria-label="Strip chart of &quot;')
    assert "<style" not in html
    names = re.findall(r' id="([^"]*)"', html)
    assert names
    assert len(set(names)) == len(names)
    assert [name for name in names if f"#{name}" not in html] == []
    parsed = ElementTree.fromstring(html)
    assert len(parsed) == 1


def test_a_chart_drawn_in_a_page_keeps_nothing_that_is_not_shown():
    html = inline_chart(strip_chart([strip("one")]), "Strip chart of one.")
    assert not re.search(r"<!--|>\s+<", html)
    assert "needle, dots" in html


@THEMES
def test_the_strip_chart_marks_where_the_flag_changes_and_to_what(theme):
    needle = strip_chart([strip()], theme).axes[0]
    assert [t.get_text() for t in needle.texts] == ["OFF", "FROM"]


def test_the_needle_is_not_drawn_while_the_flag_is_off():
    one = strip()
    (line, *_) = strip_chart([one]).axes[0].lines
    drawn = np.isfinite(line.get_ydata())
    assert np.array_equal(drawn, np.asarray(one.reading.flag) != 0)


def test_distance_falls_to_the_station_and_rises_again():
    (line, *_) = strip_chart([strip()]).axes[2].lines
    distance = np.asarray(line.get_ydata())
    assert np.argmin(distance) == 50
    assert distance[0] == pytest.approx(10.0, abs=1e-6)


def test_a_heading_through_north_is_one_line_and_its_figures_are_directions():
    one = strip()
    turning = replace(one, heading_deg=(350.0 + np.arange(101) * 0.2) % 360.0)
    axes = strip_chart([turning]).axes[1]
    heading = np.asarray(axes.lines[0].get_ydata())
    assert np.abs(np.diff(heading)).max() < 1.0
    assert axes.yaxis.get_major_formatter()(360.0, 0) == "360"
    assert axes.yaxis.get_major_formatter()(370.0, 0) == "010"


def test_the_selected_course_has_a_row_where_somebody_turns_the_ring():
    kept = replace(strip(), course_deg=np.full(101, 34.0))
    turned = replace(strip(), course_deg=np.linspace(34.0, 10.0, 101))
    assert len(strip_chart([kept]).axes) == 3
    row = strip_chart([turned, kept]).axes[2]
    assert row.get_ylabel().startswith("course")
    ends = [line.get_ydata()[-1] % 360.0 for line in row.lines if len(line.get_ydata()) > 2]
    assert ends == [10.0, 34.0]


def test_two_flights_are_named_and_one_needs_no_name():
    assert strip_chart([strip()]).axes[0].get_legend() is None
    legend = strip_chart([strip("one"), strip("other")]).axes[0].get_legend()
    assert [t.get_text() for t in legend.get_texts()] == ["one", "other"]


def test_more_flights_than_can_be_told_apart_are_refused():
    with pytest.raises(ValueError, match="strips must be one or two, got 3"):
        strip_chart([strip()] * 3)

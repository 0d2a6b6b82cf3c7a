"""Pictures of fixes and of the rules' errors: to scale, told apart, and true."""

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from views.drawn import ISLANDS, OTHER, STATION, grabbed, texts

from vorlib.aircraft.flight import Aircraft
from vorlib.aircraft.wind import Wind
from vorlib.earth.geodesic import Position
from vorlib.procedures.error_area import error_quadrilateral
from vorlib.procedures.fixing import fix_from_radials
from vorlib.procedures.timed_runs import timed_run
from vorlib.views.drawing.layout import overlap, text_box
from vorlib.views.drawing.picture import Polygon, Polyline
from vorlib.views.drawing.theme import PROJECTOR, SCREEN
from vorlib.views.fix_scatter import Cloud, fix_scatter
from vorlib.views.plan.fix_plan import closeup, fix_map
from vorlib.views.plan.fix_scene import (
    CLOSE,
    DistanceRing,
    FixScene,
    PositionLine,
    closeup_projection,
    map_projection,
)
from vorlib.views.plan.projection import SIZE
from vorlib.views.timing_error import ANGLES_DEG, RuleError, timing_error

MIDDLE = Position(46.1, -29.85)


def scene(radial=150.0, radial2=215.0, **fields):
    lines = [(STATION, radial), (OTHER, radial2)]
    place = fix_from_radials(lines)
    given = {
        "area": error_quadrilateral(lines, [3.0, 3.0]),
        "islands": ISLANDS,
        "stations": (STATION, OTHER),
    }
    drawn = tuple(PositionLine(s, r, 3.0) for s, r in lines)
    return FixScene(place, place, drawn, MIDDLE, **{**given, **fields})


def test_the_fix_is_where_the_aircraft_is_drawn_when_nothing_is_off():
    shown = scene()
    aircraft = grabbed(fix_map(shown), "aircraft")
    x, y = map_projection(shown).to_xy(shown.fix)
    assert (aircraft.x, aircraft.y) == pytest.approx((float(x), float(y)))


def test_the_corners_of_the_area_lie_on_the_edges_of_both_bands():
    shown = scene()
    layout = closeup_projection(shown)
    x, y = layout.to_xy(shown.area)
    corners = np.stack([x, y], axis=-1)
    bands = [p for p in closeup(shown).items if isinstance(p, Polygon) and p.opacity == 0.16]
    assert len(bands) == 2
    for band in bands:
        for corner in corners:
            assert (
                min(
                    _distance(corner, a, b)
                    for a, b in zip(band.points, (*band.points[1:], band.points[0]), strict=True)
                )
                < 0.5
            )


def _distance(p, a, b):
    along = np.subtract(b, a)
    if not along.any():
        return math.dist(p, a)
    share = np.clip(np.dot(np.subtract(p, a), along) / np.dot(along, along), 0.0, 1.0)
    return math.dist(p, np.add(a, share * along))


def test_the_two_radials_differ_by_dash_and_not_only_by_color():
    lines = [i for i in fix_map(scene()).items if isinstance(i, Polyline)]
    assert len({line.dash for line in lines}) == len(lines) == 2


def test_area_and_ellipse_differ_by_dash_and_have_their_words():
    shown = scene(ellipse=scene().area)
    picture = closeup(shown)
    outlines = [i for i in picture.items if isinstance(i, Polygon) and not i.fill and i.width > 1]
    assert len({(o.dash, o.width) for o in outlines}) == 2
    words = {t.text for t in texts(picture.items)}
    assert {"all within the bounds", "95 % of fixes"} <= words


def test_a_ring_of_distance_is_drawn_to_scale():
    shown = scene(rings=(DistanceRing(STATION, 10.0, "DME"),))
    (ring,) = [i for i in fix_map(shown).items if isinstance(i, Polyline) and len(i.points) > 50]
    layout = map_projection(shown)
    x, y = (float(c) for c in layout.to_xy(STATION.position))
    radii = [math.dist(p, (x, y)) / layout.units_per_nm for p in ring.points]
    assert min(radii) == pytest.approx(10.0, abs=0.02)
    assert max(radii) == pytest.approx(10.0, abs=0.02)


@given(
    radial=st.floats(110.0, 160.0),
    radial2=st.floats(190.0, 222.0),
    theme=st.sampled_from([SCREEN, PROJECTOR]),
)
@settings(max_examples=40, deadline=None)
def test_no_words_collide_and_none_leaves_the_picture(radial, radial2, theme):
    shown = scene(radial, radial2)
    for picture in (fix_map(shown, theme), closeup(shown, theme)):
        boxes = [text_box(t) for t in texts(picture.items)]
        for i, box in enumerate(boxes):
            assert box[0] >= 0.0
            assert box[2] <= picture.width
            assert not any(overlap(box, other) for other in boxes[:i])


@pytest.mark.parametrize("theme", [SCREEN, PROJECTOR], ids=["screen", "projector"])
def test_the_key_stays_on_the_picture_however_many_lines_it_has(theme):
    rings = tuple(
        DistanceRing(STATION, nm, f"ring of {nm} NM", dashed=nm > 8.0) for nm in (8.0, 8.3)
    )
    shown = scene(rings=rings, ellipse=scene().area)
    key = [t for t in texts(closeup(shown, theme).items) if t.anchor == "start" and t.y > CLOSE]
    assert len(key) == 4
    assert all(text_box(text)[3] <= SIZE for text in key)
    tops = [text_box(text)[1] for text in key]
    assert all(below - above >= theme.text_size for above, below in pairwise(tops))


def test_the_enlarged_part_holds_the_whole_area():
    shown = scene()
    x, y = closeup_projection(shown).to_xy(shown.area)
    assert min(x.min(), y.min()) > 0.0
    assert max(x.max(), y.max()) < CLOSE


# ---- charts


def there(radial, distance):
    return STATION.position_on(radial, distance)


def test_nineteen_of_twenty_fixes_fall_in_the_ellipse_where_radials_cut_well():
    cloud = Cloud((STATION, OTHER), there(150.0, 12.0), sigma_deg=2.0)
    assert cloud.cut_deg > 45.0
    # 95 percent of 20 000, within three standard deviations of chance and the bend of the lines
    assert cloud.share_within == pytest.approx(0.95, abs=0.01)


def test_where_radials_cut_narrowly_the_ellipse_holds_fewer_than_it_should():
    along = float(STATION.radial_deg(OTHER.position))
    cloud = Cloud((STATION, OTHER), there(along + 6.0, 30.0), sigma_deg=2.0)
    assert cloud.cut_deg < 15.0
    assert cloud.share_within < 0.93


def test_a_scatter_is_of_one_pair_or_two():
    cloud = Cloud((STATION, OTHER), there(150.0, 12.0), count=500)
    chart = fix_scatter([cloud])
    assert "cut at" in chart.sentence
    assert chart.svg.startswith("<svg")
    with pytest.raises(ValueError, match="one or two, got 3"):
        fix_scatter([cloud] * 3)


def test_the_error_curve_is_that_of_the_flown_runs():
    error = RuleError(STATION, wind_kt=20.0)
    at = ANGLES_DEG.tolist().index(10.0)
    angle = float(ANGLES_DEG[at])
    run = timed_run(STATION, 12.0, angle, Aircraft(110.0), Wind(360.0, 20.0))
    assert error.curves["headwind on the run"][at] == pytest.approx(run.error_percent)


def test_along_the_run_a_headwind_makes_the_rule_long_and_a_tailwind_short():
    error = RuleError(STATION)
    assert min(error.curves["headwind on the run"]) > 0.0 > max(error.curves["tailwind on the run"])
    assert "headwind on the run +" in timing_error(error).sentence


def test_a_dme_ring_and_its_band_are_drawn_where_the_geodesics_end():
    ring = DistanceRing(STATION, 14.0, "DME", band_nm=(13.5, 14.5))
    shown = scene(rings=(ring,))
    layout = map_projection(shown)
    drawn = [p for p in fix_map(shown).items if isinstance(p, Polyline)][-1]
    band = [p for p in fix_map(shown).items if isinstance(p, Polygon) and p.opacity == 0.16][-1]
    for azimuth in (10.0, 100.0, 200.0, 290.0):
        for outline, distance in ((drawn, 14.0), (band, 13.5), (band, 14.5)):
            x, y = layout.to_xy(STATION.position_on(azimuth, distance))
            assert min(math.dist((x, y), p) for p in outline.points) < 0.6 * math.pi / 180 * 80

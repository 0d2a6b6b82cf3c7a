"""The fix exhibit: by radials or by radial and DME, with the area where the aircraft may be."""

from __future__ import annotations

from typing import Any

from vorlib.exhibits.base.controls import ChoiceControl, Number
from vorlib.exhibits.base.exhibit import Exhibit
from vorlib.exhibits.base.plain import put_away
from vorlib.exhibits.base.registry import exhibit
from vorlib.exhibits.position.fix_measured import DME, EDGE_NM, METHODS, MIDDLE, RADIALS
from vorlib.exhibits.position.fix_state import FixState
from vorlib.exhibits.position.fix_words import sentence
from vorlib.exhibits.scene import at_station, grips
from vorlib.stations.archipelago import ISLANDS, STATIONS
from vorlib.views.drawing.picture import Picture, beside
from vorlib.views.drawing.theme import Theme
from vorlib.views.plan.fix_plan import closeup, fix_map
from vorlib.views.plan.fix_scene import DistanceRing, FixScene, PositionLine, map_projection

__all__ = ["draw", "fix"]

Changes = dict[str, Any]


def scene(state: FixState) -> FixScene:
    """Return what the pictures show."""
    undecided = len(state.fixes) > 1 and len(state.lines) == 1
    others = [("two?" if undecided else "not here", f) for f in state.fixes if f is not state.fix]
    rings: tuple[DistanceRing, ...] = ()
    if state.method != RADIALS:
        true = DistanceRing(
            state.dme, state.ground_nm, "DME, corrected", band_nm=state.ground_band_nm
        )
        naive = DistanceRing(state.dme, state.shown_nm, "DME, not corrected", dashed=True)
        rings = (true, naive)
    if state.method == DME:
        station, radial = state.lines[0]
        others.append(("uncorrected", station.position_on(radial, state.shown_nm)))
    return FixScene(
        state.fix,
        state.there,
        tuple(PositionLine(s, radial, state.bound_deg) for s, radial in state.lines),
        MIDDLE,
        rings,
        "one?" if undecided else "fix",
        tuple(others),
        state.area,
        state.ellipse_outline,
        state.triangle,
        islands=ISLANDS,
        stations=tuple(STATIONS.values()),
    )


def draw(state: FixState, theme: Theme) -> Picture:
    """Return the map with the fix enlarged beside it."""
    shown = scene(state)
    return beside(fix_map(shown, theme), closeup(shown, theme), at_station.GAP)


def _moved(state: FixState, right: float, down: float, theme: Theme) -> Changes:
    scale = map_projection(scene(state)).units_per_nm

    def held(value_nm: float) -> float:
        return round(min(max(value_nm, -EDGE_NM), EDGE_NM), 1)

    return {
        "east_nm": held(state.east_nm + right / scale),
        "north_nm": held(state.north_nm - down / scale),
        "dme_nm": None,
    }


class _OfDme(Number):
    """A number about the DME, shown only for a fix that uses one."""

    def follow(self, state: FixState) -> None:
        """Show or hide the control."""
        put_away(self.widget, state.method == RADIALS)


@exhibit(lesson="09", state=FixState)
def fix(
    first: str = "QLN", second: str = "PLX", third: str = "", **start: Any
) -> Exhibit[FixState]:
    """Return the exhibit of the fix.

    Parameters
    ----------
    first, second, third
        Idents of the stations; the third may be left out.
    **start
        Other fields of `FixState` to start from, such as ``method="dme"`` or ``bound_deg=2``.
    """
    names = {f"{s.name} {ident}": ident for ident, s in STATIONS.items()}
    east, north = (
        Number(f"{way}_nm", f"Aircraft {way}", "NM", -EDGE_NM, EDGE_NM, 0.1, decimals=1).put_away()
        for way in ("east", "north")
    )
    return Exhibit(
        FixState(first, second, third, **start),
        draw,
        sentence,
        [
            east,
            north,
            ChoiceControl("method", "Fix by", METHODS),
            ChoiceControl("first", "First station", names),
            ChoiceControl("second", "Second station", names),
            ChoiceControl("third", "Third station", {"none": "", **names}),
            Number("bound_deg", "Radials good to", "degrees", 0.5, 10.0, 0.5, decimals=1),
            Number("off_deg", "First radial off by", "degrees", -15.0, 15.0, 1.0),
            Number("altitude_ft", "Altitude", "feet", 3000.0, 18_000.0, 100.0),
            _OfDme(
                "dme_nm",
                "DME shows",
                "NM",
                0.5,
                80.0,
                0.01,
                decimals=2,
                optional=True,
                feeds=("slant_range_nm",),
            ),
            _OfDme(
                "dme_good_to_nm", "DME good to", "NM", 0.05, 3.0, 0.05, decimals=2, optional=True
            ),
        ],
        {"aircraft": grips.moved_by_hand(_moved)},
    )

"""The sentences of the fix exhibit: where the fix is, how far off it may be, and its cut."""

from __future__ import annotations

from vorlib.core.angles import compass_point, format_direction
from vorlib.core.units import FEET_PER_NM
from vorlib.core.words import LEAST_TOLD, rounded, spoken_degrees
from vorlib.exhibits.position.fix_measured import DME, OTHER_DME, RADIALS
from vorlib.exhibits.position.fix_state import FixState
from vorlib.procedures.error_area import NINETY_FIVE_PERCENT, Ellipse
from vorlib.vor.receiver import Receiver
from vorlib.vor.station import Station

__all__ = ["sentence"]


def sentence(state: FixState) -> str:
    """Say where the fix is, how far off it may be, and at what angle its lines cut."""
    told = {RADIALS: _radials, DME: _own_dme, OTHER_DME: _other_dme}[state.method](state)
    return " ".join(filter(None, (*told, _not_received(state))))


def _names(state: FixState) -> str:
    """Return the radials in words, such as "Quillon 214 and Pelladine 305"."""
    words = [f"{s.name} {format_direction(radial)}" for s, radial in state.lines]
    return f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else words[0]


def _where(state: FixState, number: int | None = None) -> str:
    """Return the position of a fix as seen from the first station."""
    fix = state.fixes[state.chosen if number is None else number]
    station = state.stations[0]
    line = station.inverse(fix)
    if float(line.distance_nm) < LEAST_TOLD:
        return f"over {station.name}"
    point = compass_point(float(station.radial_of_azimuth_deg(line.true_azimuth_deg)))
    return f"{float(line.distance_nm):.1f} NM {point} of {station.name}"


def _radials(state: FixState) -> tuple[str, ...]:
    cut = spoken_degrees(state.cut_deg)
    at = f"cut at {cut}" if len(state.lines) == 2 else f"cut at {cut} at best"
    return (
        f"{_names(state)} {at}: the fix is {_where(state)}.",
        _wrong(state),
        _area(state),
        _best(state),
    )


def _wrong(state: FixState) -> str:
    """Say how far off a wrong radial puts the fix, and whether the pilot can tell."""
    disagreement = ""
    if len(state.lines) > 2:
        left = ", ".join(
            f"{s.name} {r:+.1f}" if abs(r) >= LEAST_TOLD else f"{s.name} 0"
            for s, r in zip(state.stations, state.residuals_deg, strict=True)
        )
        disagreement = f"{_triangle(state)}Against the fix the radials read, in degrees: {left}."
    if not state.off_deg:
        agree = "All three radials meet: nothing disagrees." if disagreement else ""
        return agree
    size = f"{spoken_degrees(state.off_deg, 1)} too {'great' if state.off_deg > 0 else 'small'}"
    off = (
        f"{state.stations[0].name} is read {size}, which puts the fix {state.error_nm:.1f} NM "
        "from the aircraft"
    )
    return f"{off}. {disagreement}" if disagreement else f"{off}; two radials cannot show it."


def _triangle(state: FixState) -> str:
    """Say whether good radials can leave a triangle of this size."""
    if state.triangle is None:
        return ""
    drawn = f"The three radials leave a triangle {state.triangle_nm:.1f} NM long: "
    good = f"readings good to {spoken_degrees(state.bound_deg, 1)}"
    if state.is_explained:
        return f"{drawn}{good} can leave one that long: it shows no mistake by itself. "
    return f"{drawn}no {good} leave one that long, so at least one is wrong. "


def _area(state: FixState) -> str:
    assert state.ellipse is not None
    bound = f"With every radial good to {spoken_degrees(state.bound_deg, 1)}"
    if not state.is_bounded:
        return f"{bound} they may be parallel: nothing bounds the fix, and no ellipse does."
    most = _most(state.ellipse)
    if len(state.lines) > 2:
        return f"{bound} {most}."
    return f"{bound} it is at most {state.worst_nm:.1f} NM out; {most}."


def _best(state: FixState) -> str:
    if state.best is None:
        return "No two stations are received here."
    pair = state.best
    if {s.ident for s in pair.stations} == {s.ident for s in state.stations}:
        return "No other pair is better here."
    one, other = (s.name for s in pair.stations)
    return f"The best pair here is {one} and {other}, which cut at {spoken_degrees(pair.cut_deg)}."


def _height(state: FixState) -> str:
    height_ft = float(state.dme.height_ft(state.there))
    return f"{height_ft:,.0f} feet or {height_ft / FEET_PER_NM:.2f} NM above it"


def _own_dme(state: FixState) -> tuple[str, ...]:
    return (
        f"On {_names(state)} the DME shows {state.shown_nm:.2f} NM, the slant range. You are "
        f"{_height(state)}, so over the ground it is {state.ground_nm:.2f} NM: the fix is "
        f"{_where(state)}.",
        _uncorrected(state.shown_nm - state.ground_nm),
        "Radial and circle cut at 90 degrees everywhere.",
        _dme_area(state),
        f"The fix is {state.error_nm:.1f} NM from the aircraft."
        if state.error_nm > LEAST_TOLD
        else "",
    )


def _uncorrected(too_far_nm: float) -> str:
    if too_far_nm < LEAST_TOLD:
        return "Taken as ground distance, it would put you hardly any farther out."
    return f"Taken as ground distance, it would put you {too_far_nm:.1f} NM too far out."


def _dme_area(state: FixState) -> str:
    bound = (
        f"With the radial good to {spoken_degrees(state.bound_deg, 1)} and the DME to "
        f"{state.dme_bound_nm:.2f} NM"
    )
    if state.worst_nm is None or state.ellipse is None:
        return f"{bound} the radial may miss the circle: nothing bounds the fix."
    return f"{bound} it is at most {state.worst_nm:.1f} NM out; {_most(state.ellipse)}."


def _most(ellipse: Ellipse) -> str:
    long, wide = (
        2.0 * NINETY_FIVE_PERCENT * half for half in (ellipse.semi_major_nm, ellipse.semi_minor_nm)
    )
    return f"95 percent of fixes lie in an ellipse of {rounded(long)} by {rounded(wide)} NM"


def _other_dme(state: FixState) -> tuple[str, ...]:
    station, radial = state.lines[0]
    begin = (
        f"The {format_direction(radial)} radial of {station.name} meets the DME circle of "
        f"{state.dme.name}, {state.ground_nm:.1f} NM over the ground,"
    )
    if len(state.fixes) == 1:
        return (f"{begin} in one place: the fix is {_where(state)}.", *_how_good(state))
    places = f"{begin} in two places: {_where(state, 0)} and {_where(state, 1)}."
    if len(state.lines) == 1:
        return (places, "Radial and circle alone do not tell which; a third measurement does.")
    third, read = state.lines[1]
    one, two = (format_direction(float(third.radial_deg(f))) for f in state.fixes)
    return (
        places,
        f"From {third.name} they would be on {one} and {two}. It reads {format_direction(read)}: "
        f"the {('first', 'second')[state.chosen]} is the fix.",
        *_how_good(state),
    )


def _how_good(state: FixState) -> tuple[str, ...]:
    cut = f"Radial and circle cut at {spoken_degrees(state.cut_deg)} there."
    return (_near(state), cut, _dme_area(state))


def _near(state: FixState) -> str:
    if state.error_nm < LEAST_TOLD:
        return ""
    return f"It is {state.error_nm:.1f} NM from the aircraft."


def _not_received(state: FixState) -> str:
    """Say which stations the aircraft cannot rely on here, and why."""
    used: list[Station] = [*state.stations]
    if state.method == OTHER_DME:
        used.append(state.dme)
    names: dict[str, list[str]] = {}
    for station in used:
        reading = Receiver(station.radial_deg(state.there)).read(station, state.there)
        names.setdefault(reading.caveat, []).append(station.name)
    return " ".join(
        f"In flight do not rely on {' and '.join(those)} here: {caveat}."
        for caveat, those in names.items()
        if caveat
    )

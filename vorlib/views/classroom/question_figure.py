"""The picture of a question, and the same in words for a reader who cannot see it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import reduce

from vorlib.core.angles import format_direction, spoken_side
from vorlib.core.words import spoken_declination, spoken_dots
from vorlib.practice.questions.figures import Dial, Map, QuestionFigure, Spot
from vorlib.stations.archipelago import ISLANDS
from vorlib.views.drawing.layout import extent, wrapped
from vorlib.views.drawing.picture import Circle, Group, Item, Picture, Polygon, Text, above, beside
from vorlib.views.drawing.theme import SCREEN, Theme
from vorlib.views.instrument.indicator import IndicatorScene, indicator
from vorlib.views.plan.aircraft import outline
from vorlib.views.plan.map import area_chart, compass_rose, rose_numerals
from vorlib.views.plan.projection import SIZE, StationProjection, rose_radius
from vorlib.vor.receiver import DOTS_FULL_SCALE
from vorlib.vor.station import Station

__all__ = ["figure_picture", "figure_words", "question_picture"]

GAP = 12.0  # between two dials
MARGIN = 4.0
LETTERS_WIDE = 55.0  # ems of a prompt above a wide picture
IN_A_ROW = 3  # so many dials or more are shown smaller, and therefore with larger type
ROW_SMALL, ROW_TEXT, ROW_BIG = 18.0, 21.0, 58.0


def figure_picture(figure: QuestionFigure, theme: Theme = SCREEN) -> Picture:
    """Return a question's picture; its description gives the answer away no more than it does."""
    pictures = [] if figure.map is None else [_map(figure.map, theme)]
    in_row = _in_row(theme) if len(figure.dials) >= IN_A_ROW else theme
    pictures += [_dial(dial, in_row) for dial in figure.dials]
    row = reduce(lambda left, right: beside(left, right, GAP), pictures)
    return replace(row, title="Picture of the question", description=figure_words(figure))


def question_picture(prompt: str, figure: QuestionFigure, theme: Theme = SCREEN) -> Picture:
    """Return a question's picture below its prompt, for where no text can stand beside it."""
    drawn = figure_picture(figure, theme)
    size = max(theme.text_size, drawn.width / LETTERS_WIDE)
    width = max(drawn.width, SIZE)
    lines = wrapped(prompt, width - 2 * MARGIN, size)
    said = tuple(
        Text(MARGIN, (1.0 + 1.4 * row) * size, line, size, theme.text, "start")
        for row, line in enumerate(lines)
    )
    words = Picture(width, (0.6 + 1.4 * len(lines)) * size, said, background=theme.paper)
    told = f"{prompt} {drawn.description}"
    both = above(words, drawn, GAP)
    return replace(both, title=drawn.title, description=told, background=theme.paper)


def figure_words(figure: QuestionFigure) -> str:
    """Return what a question's picture shows, in a sentence for its map and one for each dial."""
    words = [] if figure.map is None else [_map_words(figure.map)]
    words += [_dial_words(dial) for dial in figure.dials]
    return " ".join(words)


# ---- dials


def _in_row(theme: Theme) -> Theme:
    return replace(
        theme,
        small_size=max(theme.small_size, ROW_SMALL),
        text_size=max(theme.text_size, ROW_TEXT),
        big_size=max(theme.big_size, ROW_BIG),
    )


def _dial(dial: Dial, theme: Theme) -> Picture:
    """Return an indicator with its letter in the corner."""
    scene = IndicatorScene(dial.course_deg, dial.dots, dial.flag, by_hand=False)
    drawn = indicator(scene, theme)
    if not dial.label:
        return drawn
    radius = 0.85 * theme.text_size
    letter = Group(_letter(dial.label, radius, theme), radius + 3.0, radius + 3.0)
    return replace(drawn, items=(*drawn.items, letter))


def _letter(label: str, radius: float, theme: Theme) -> tuple[Item, ...]:
    """Return a letter in a disc about the origin."""
    return (
        Circle(0.0, 0.0, radius, theme.paper, theme.text, 1.2 * theme.line),
        Text(0.0, 0.0, label, 1.3 * radius, theme.text, bold=True),
    )


def _dial_words(dial: Dial) -> str:
    name = f"Dial {dial.label}" if dial.label else "The dial"
    side = spoken_side(dial.dots)
    if dial.dots == 0.0:
        needle = "the needle is centered"
    elif abs(dial.dots) == DOTS_FULL_SCALE:
        needle = f"the needle stands full {side}"
    else:
        needle = f"the needle stands {spoken_dots(dial.dots)} {side}"
    course = format_direction(dial.course_deg)
    return f"{name}: {course} is selected, the flag reads {dial.flag.name}, {needle}."


# ---- the map


def _map(shown: Map, theme: Theme) -> Picture:
    station, radius = shown.station, rose_radius(theme)
    middle = SIZE / 2
    layout = StationProjection(station.position, middle, middle, radius / shown.range_nm)
    marks = tuple(_spots(shown, layout, theme))
    rose = Group(compass_rose(radius, station.declination_deg, theme), middle, middle)
    numerals = rose_numerals(radius, station.declination_deg, layout, theme)
    base = area_chart(ISLANDS, (station,), layout, theme, (), tuple(map(extent, marks)))
    usual = tuple(places[0] for places in numerals)
    items: tuple[Item, ...] = (base.ground, rose, *usual, base.marks, *marks)
    return Picture(SIZE, SIZE, items, background=theme.sea)


def _spots(shown: Map, layout: StationProjection, theme: Theme) -> Iterator[Group]:
    """Yield the aircraft, or the lettered places."""
    declination_deg = shown.station.declination_deg
    for spot in shown.spots:
        x, y = layout.polar_to_xy(spot.radial_deg + declination_deg, spot.distance_nm)
        if spot.label:
            yield Group(_letter(spot.label, 0.85 * theme.text_size, theme), float(x), float(y))
        else:
            points = outline(0.9 * theme.symbol)
            shape = Polygon(points, theme.aircraft, theme.paper, theme.line)
            yield Group((shape,), float(x), float(y), spot.heading_deg + declination_deg)


def _map_words(shown: Map) -> str:
    station = shown.station
    north = "the same as"
    if station.declination_deg:
        north = f"{spoken_declination(station.declination_deg)} of"
    places = "; ".join(_spot_words(spot, station) for spot in shown.spots)
    return (
        f"A map about {station.name}, true north up; the station's own north, 360 on its rose, is "
        f"{north} true north. On it: {places}."
    )


def _spot_words(spot: Spot, station: Station) -> str:
    """Return where a place lies: by its radial, or the aircraft by its true direction.

    The radial of the aircraft may be what is asked, that of a place to choose never is.
    """
    distance = f"{spot.distance_nm:g} NM out"
    if spot.label:
        return f"{spot.label}, {distance} on the {format_direction(spot.radial_deg)} radial"
    true_deg = spot.radial_deg + station.declination_deg
    heading = format_direction(spot.heading_deg)
    return (
        f"the aircraft, {distance} in the true direction {format_direction(true_deg)}, heading "
        f"{heading} magnetic"
    )

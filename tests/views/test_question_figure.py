"""The picture of a question: what is drawn where, and the words that stand for it."""

import math

import pytest
from views.drawn import groups, texts

from vorlib.practice import all_kinds, draw
from vorlib.practice.questions.figures import Dial, Map, QuestionFigure, Spot
from vorlib.stations.archipelago import STATIONS
from vorlib.views.classroom.question_figure import figure_picture, figure_words, question_picture
from vorlib.views.drawing.layout import extent, overlap, text_box
from vorlib.views.drawing.pdf import to_figure
from vorlib.views.drawing.picture import Line, Polygon, Text
from vorlib.views.drawing.svg import to_svg
from vorlib.views.drawing.theme import PROJECTOR, SCREEN
from vorlib.views.plan.projection import SIZE, rose_radius
from vorlib.vor.receiver import Flag

STATION = STATIONS["QLN"]
FOUR = QuestionFigure(
    (
        Dial(40.0, Flag.TO, -2.0, "A"),
        Dial(40.0, Flag.TO, 2.0, "B"),
        Dial(40.0, Flag.FROM, 5.0, "C"),
        Dial(40.0, Flag.OFF, 0.0, "D"),
    )
)
PLACES = Map(
    STATION, tuple(Spot(d, 15.0, x) for x, d in zip("ABCD", (9, 99, 189, 279), strict=True))
)
THEMES = pytest.mark.parametrize("theme", [SCREEN, PROJECTOR])


def letter_places(picture):
    return {t.text: (t.x, t.y) for t in texts(picture.items) if t.text in set("ABCD")}


@THEMES
def test_four_dials_stand_in_a_row_in_the_order_of_their_letters(theme):
    picture = figure_picture(FOUR, theme)
    places = letter_places(picture)
    assert sorted(places, key=lambda letter: places[letter]) == list("ABCD")
    assert len({y for _, y in places.values()}) == 1
    assert picture.width > 2.5 * picture.height


@THEMES
def test_a_letter_lies_on_nothing_else(theme):
    for label in "ABCD":
        picture = figure_picture(
            QuestionFigure((Dial(40.0, Flag.TO, 1.0, label), *FOUR.dials[1:])), theme
        )
        words = texts(picture.items)
        (letter,) = (t for t in words if t.text == label and t.x < 340.0)
        others = [t for t in words if t is not letter]
        assert not any(overlap(text_box(letter), text_box(other)) for other in others)


def test_dials_in_a_row_have_larger_type_than_one_alone():
    def smallest(figure):
        sizes = [i.size for g in groups(figure_picture(figure).items) for i in g.items
                 if isinstance(i, Text)]  # fmt: skip
        return min(sizes)

    assert smallest(FOUR) > smallest(QuestionFigure(FOUR.dials[:1]))


def test_the_needle_of_each_dial_stands_where_its_dots_say():
    picture = figure_picture(FOUR)
    needles = [i for g in groups(picture.items) for i in g.items
               if isinstance(i, Line) and i.x1 == i.x2 and i.stroke == SCREEN.needle]  # fmt: skip
    at = [needle.x1 for needle in needles]
    assert at[0] == -at[1] < 0 == at[3] < at[1] < at[2]
    assert [bool(needle.dash) for needle in needles] == [False, False, False, True]


@THEMES
def test_places_lie_by_the_rose_which_counts_from_the_stations_own_north(theme):
    picture = figure_picture(QuestionFigure(map=PLACES), theme)
    # Declination -9: the radials 009, 099, 189 and 279 lead true north, east, south and west.
    half, away = SIZE / 2, 15.0 / 25.0 * rose_radius(theme)
    wanted = {"A": (0, -1), "B": (1, 0), "C": (0, 1), "D": (-1, 0)}
    for letter, (x, y) in letter_places(picture).items():
        assert x == pytest.approx(half + away * wanted[letter][0], abs=0.1)
        assert y == pytest.approx(half + away * wanted[letter][1], abs=0.1)
    (north,) = (t for t in texts(picture.items) if t.text == "360")
    angle = math.degrees(math.atan2(north.x - half, half - north.y))
    assert angle == pytest.approx(-9.0)


@THEMES
@pytest.mark.parametrize("radial_deg", range(0, 360, 15))
def test_the_stations_name_is_written_clear_of_the_places(radial_deg, theme):
    shown = Map(STATION, (Spot(radial_deg, 12.0, "A"), Spot(radial_deg + 180, 12.0, "B")))
    picture = figure_picture(QuestionFigure(map=shown), theme)
    (name,) = (t for t in texts(picture.items) if t.text == "Quillon QLN")
    discs = [extent(g) for g in picture.items[-2:]]
    assert not any(overlap(text_box(name), disc) for disc in discs)


def test_an_aircraft_points_along_its_magnetic_heading():
    picture = figure_picture(
        QuestionFigure(map=Map(STATION, (Spot(40.0, 15.0, heading_deg=100.0),)))
    )
    aircraft = picture.items[-1]
    assert isinstance(aircraft.items[0], Polygon)
    assert aircraft.rotate_deg == 100.0 - 9.0


def test_nothing_in_a_questions_picture_can_be_grabbed():
    for figure in (FOUR, QuestionFigure(FOUR.dials[:1], PLACES)):
        assert "data-grab" not in to_svg(figure_picture(figure))


def test_the_words_read_out_each_dial():
    assert figure_words(FOUR) == (
        "Dial A: 040 is selected, the flag reads TO, the needle stands 2 dots left. "
        "Dial B: 040 is selected, the flag reads TO, the needle stands 2 dots right. "
        "Dial C: 040 is selected, the flag reads FROM, the needle stands full right. "
        "Dial D: 040 is selected, the flag reads OFF, the needle is centered."
    )


def test_the_words_name_places_to_choose_from_by_their_radials():
    words = figure_words(QuestionFigure((Dial(40.0, Flag.TO, 1.0),), PLACES))
    assert "360 on its rose, is 9 degrees west of true north" in words
    assert "B, 15 NM out on the 099 radial" in words
    assert words.endswith("The dial: 040 is selected, the flag reads TO, the needle stands 1 dot "
                          "right.")  # fmt: skip


def test_the_words_name_the_aircraft_by_its_true_direction_not_by_the_radial_that_is_asked():
    words = figure_words(QuestionFigure(map=Map(STATION, (Spot(123.0, 15.0, heading_deg=40.0),))))
    assert "9 degrees west of true north" in words
    assert "true direction 114" in words
    assert "123" not in words


@pytest.mark.parametrize("kind", all_kinds())
def test_no_picture_tells_more_than_its_words(kind):
    for seed in range(5):
        figure = draw(kind, seed).figure
        if figure is not None:
            picture = figure_picture(figure)
            assert picture.description == figure_words(figure)
            assert to_svg(picture) == to_svg(figure_picture(figure))


@THEMES
@pytest.mark.parametrize(
    "figure", [FOUR, QuestionFigure(FOUR.dials[:1]), QuestionFigure(FOUR.dials[:1], PLACES)]
)
def test_where_no_text_can_stand_beside_it_the_prompt_is_written_above_the_picture(figure, theme):
    prompt = "You are on the 040 radial of Quillon; five dots are 10 degrees. " * 3 + "Which dial?"
    picture, alone = question_picture(prompt, figure, theme), figure_picture(figure, theme)
    upper, lower = picture.items
    lines = [item for item in upper.items if isinstance(item, Text)]
    assert " ".join(line.text for line in lines) == prompt
    for line in lines:
        left, top, right, bottom = text_box(line)
        assert 0.0 < left < right < picture.width
        assert 0.0 < top < bottom < lower.y
    assert picture.height == lower.y + alone.height
    assert picture.description == f"{prompt} {figure_words(figure)}"


def test_a_questions_picture_is_drawn_on_paper_as_well():
    figure = to_figure(figure_picture(QuestionFigure(FOUR.dials[:1], PLACES)), 6.0)
    assert figure.get_size_inches()[0] == 6.0

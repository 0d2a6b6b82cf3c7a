"""Tracking: the heading that holds a radial, how far off the needle means, and the bracket."""

from dataclasses import dataclass, replace
from typing import overload

from numpy.typing import ArrayLike

from vorlib.aircraft.wind import Wind, WindTriangle, components_kt, wind_triangle
from vorlib.core.angles import format_direction, spoken_side, wrap_360
from vorlib.core.arguments import BoolArray, FloatArray, bounded, not_negative, positive
from vorlib.core.scalars import namespace
from vorlib.core.words import spoken_degrees
from vorlib.vor.receiver import DEG_PER_DOT

# 200 ft off course for each dot and each NM from the station, and 6,000 ft to a nautical mile:
# common practice, found at third hand only.
RULE_FT_PER_DOT_NM = 200.0
RULE_FT_PER_NM = 6000.0

# When a bracket corrects, and when it takes the needle as centered: chosen so that a hand can.
ALLOWED_DOTS, CENTERED_DOTS = 0.5, 0.1
LOSING_DOTS = 0.5
LEAST_STEP_DEG, LARGEST_STEP_DEG = 5.0, 40.0


@overload
def off_course_nm(dots: float, distance_nm: float) -> float: ...
@overload
def off_course_nm(dots: ArrayLike, distance_nm: ArrayLike) -> FloatArray: ...
def off_course_nm(dots: ArrayLike, distance_nm: ArrayLike) -> float | FloatArray:
    """Return how far off the course line a needle means at a distance, in NM, signed as the needle.

    Exact: the distance from the station times the sine of the angle.

    >>> round(float(off_course_nm(1, 30)), 3)
    1.047
    """
    needle = bounded("dots", dots, "dots") * DEG_PER_DOT
    distance = not_negative("distance_nm", distance_nm, "NM")
    m = namespace(needle, distance)
    off: FloatArray = distance * m.sin(m.radians(needle))
    return off


@overload
def off_course_rule_nm(dots: float, distance_nm: float) -> float: ...
@overload
def off_course_rule_nm(dots: ArrayLike, distance_nm: ArrayLike) -> FloatArray: ...
def off_course_rule_nm(dots: ArrayLike, distance_nm: ArrayLike) -> float | FloatArray:
    """Return the same by the rule of 200 ft per dot per NM.

    >>> float(off_course_rule_nm(1, 30)), float(off_course_rule_nm(3, 30))
    (1.0, 3.0)
    """
    distance = not_negative("distance_nm", distance_nm, "NM")
    return bounded("dots", dots, "dots") * distance * (RULE_FT_PER_DOT_NM / RULE_FT_PER_NM)


@overload
def one_in_sixty_deg(off_nm: float, distance_nm: float) -> float: ...
@overload
def one_in_sixty_deg(off_nm: ArrayLike, distance_nm: ArrayLike) -> FloatArray: ...
def one_in_sixty_deg(off_nm: ArrayLike, distance_nm: ArrayLike) -> float | FloatArray:
    """Return the angle that so many NM off make at a distance, by the rule of 1 in 60.

    One NM off in 60 is taken as one degree; exact is atan(off / distance).

    Raises
    ------
    ValueError
        If the distance is not more than 0.
    """
    return bounded("off_nm", off_nm, "NM") / positive("distance_nm", distance_nm, "NM") * 60.0


@dataclass(frozen=True)
class Holding:
    """The heading that holds a course in a wind, and the reasoning."""

    triangle: WindTriangle
    steps: tuple[str, ...]


def hold_course(course_deg: float, true_airspeed_kt: float, wind: Wind) -> Holding:
    """Return the heading that holds a course, with the reasoning in words.

    Course and wind count from the same north.

    Raises
    ------
    ValueError
        If no heading holds the course in this wind.
    """
    triangle = wind_triangle(course_deg, true_airspeed_kt, wind.from_deg, wind.speed_kt)
    head, cross = (float(part) for part in components_kt(course_deg, wind))
    side = spoken_side(cross)
    along = "head" if head > 0 else "tail"
    steps = (
        f"Of the wind {format_direction(float(wind.from_deg))} at {float(wind.speed_kt):.0f} kt, "
        f"{abs(cross):.0f} kt are crosswind from the {side} and {abs(head):.0f} kt {along}wind.",
        f"Correct {spoken_degrees(float(triangle.correction_deg))} to the {side}: heading "
        f"{format_direction(float(triangle.heading_deg))} holds {format_direction(course_deg)}.",
        f"Groundspeed {float(triangle.groundspeed_kt):.0f} kt.",
    )
    return Holding(triangle, steps)


@dataclass(frozen=True)
class Bracket:
    """A search for the heading that holds the selected course, one look at the needle at a time.

    The first correction is 20 degrees toward the needle; each time the needle is back in the
    center, half of the correction is kept against the wind and the next is half as large, not less
    than 5 degrees. A correction against which the needle still moves away is doubled, up to 40.

    Source: the 20 degrees and the half are of the Instrument Flying Handbook (FAA-H-8083-15B),
    chapter 9, tracking (read in a copy), the least and the largest step are common practice.

    Attributes
    ----------
    course_deg
        Selected course, magnetic.
    held_deg
        Wind correction found so far, positive right.
    step_deg
        Correction flown toward the needle while it is off.
    toward
        Side corrected to now: 1 right, -1 left, 0 while the needle is near enough to the center.
    farthest_dots
        How far the needle was off when the present correction began.
    """

    course_deg: float
    held_deg: float = 0.0
    step_deg: float = 20.0
    toward: int = 0
    farthest_dots: float = 0.0

    @property
    def heading_deg(self) -> float:
        """Magnetic heading to fly now."""
        return float(wrap_360(self.course_deg + self.held_deg + self.toward * self.step_deg))

    def heeds(self, dots: FloatArray) -> BoolArray:
        """Whether `look` would move the search, at each of many looks."""
        if not self.toward:
            return abs(dots) > ALLOWED_DOTS
        off = dots * self.toward
        return (off > self.farthest_dots + LOSING_DOTS) | (off < CENTERED_DOTS)

    def look(self, dots: float) -> "Bracket":
        """Return the search after a look at the needle, in dots, positive right."""
        off = dots * self.toward
        if not self.toward and abs(dots) > ALLOWED_DOTS:
            return replace(self, toward=1 if dots > 0.0 else -1, farthest_dots=abs(dots))
        if self.toward and off > self.farthest_dots + LOSING_DOTS:
            step = min(2.0 * self.step_deg, LARGEST_STEP_DEG)
            return replace(self, step_deg=step, farthest_dots=off)
        if self.toward and off < CENTERED_DOTS:
            return replace(
                self,
                held_deg=self.held_deg + self.toward * self.step_deg / 2.0,
                step_deg=max(self.step_deg / 2.0, LEAST_STEP_DEG),
                toward=0,
            )
        return self

    @property
    def words(self) -> str:
        """What is flown now and why, in a sentence."""
        heading = format_direction(self.heading_deg)
        if self.toward:
            side = spoken_side(self.toward)
            return (
                f"The needle is off to the {side}: turn {spoken_degrees(self.step_deg)} toward it, "
                f"heading {heading}, until it is centered."
            )
        if not self.held_deg:
            return f"Fly heading {heading}, the course itself, and watch where the needle goes."
        side = spoken_side(self.held_deg)
        return (
            f"The needle came back: keep {spoken_degrees(self.held_deg)} to the {side} against "
            f"the wind, heading {heading}, and watch."
        )

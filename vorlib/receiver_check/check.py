"""Receiver checks: the steps of each kind, its limit, pass or fail and why, how long it holds.

For training on the ground: the rule in force, and the operator's own log, come first.
"""

from dataclasses import dataclass
from datetime import date, timedelta
from typing import overload

from numpy.typing import ArrayLike

from vorlib.core.angles import difference_deg, reciprocal_deg, wrap_360
from vorlib.core.arguments import ArgumentError, FloatArray, finite
from vorlib.core.scalars import namespace
from vorlib.core.words import spoken_count, spoken_degrees
from vorlib.receiver_check.rules import RULE_BOOKS, RULES, CheckKind, Rules
from vorlib.vor.receiver import Flag

# A test signal shows the same everywhere, centered at 360 with FROM and at 180 with TO: AIM 1-1-4 b
# (read in a copy).
TEST_SIGNAL_RADIAL_DEG = 360.0

# An error just at the limit passes, whatever the last binary digits of a subtraction.
ROUNDING_DEG = 1e-9


@dataclass(frozen=True)
class CheckOutcome:
    """Pass or fail, and the reason in words."""

    kind: CheckKind
    error_deg: float
    passed: bool
    reason: str


@overload
def indicated_radial_deg(course_deg: float, flag: float) -> float: ...
@overload
def indicated_radial_deg(course_deg: ArrayLike, flag: ArrayLike) -> FloatArray: ...
def indicated_radial_deg(course_deg: ArrayLike, flag: ArrayLike) -> float | FloatArray:
    """Return the radial that a centered needle indicates: the ring with FROM, its opposite with TO.

    Raises
    ------
    ValueError
        If the flag is OFF: then a centered needle indicates nothing.

    >>> float(indicated_radial_deg(183, Flag.TO)), float(indicated_radial_deg(3, Flag.FROM))
    (3.0, 3.0)
    """
    course, shown = finite("course_deg", course_deg), finite("flag", flag)
    m = namespace(course, shown)
    if not m.all((shown == Flag.TO) | (shown == Flag.FROM)):
        raise ArgumentError(
            "flag must be TO or FROM: with OFF a centered needle means nothing",
            argument="flag",
        )
    radial: FloatArray = m.where(shown == Flag.FROM, wrap_360(course), reciprocal_deg(course))
    return radial


@overload
def bearing_error_deg(course_deg: float, flag: float, published_radial_deg: float) -> float: ...
@overload
def bearing_error_deg(
    course_deg: ArrayLike, flag: ArrayLike, published_radial_deg: ArrayLike
) -> FloatArray: ...
def bearing_error_deg(
    course_deg: ArrayLike, flag: ArrayLike, published_radial_deg: ArrayLike
) -> float | FloatArray:
    """Return the error of a receiver whose needle is centered; positive when it reads too much.

    Parameters
    ----------
    course_deg, flag
        Selected course at which the needle is centered, and the flag.
    published_radial_deg
        The radial that is right there; `TEST_SIGNAL_RADIAL_DEG` for a test signal.

    >>> float(bearing_error_deg(183, Flag.TO, TEST_SIGNAL_RADIAL_DEG))
    3.0
    """
    published = finite("published_radial_deg", published_radial_deg)
    return difference_deg(indicated_radial_deg(course_deg, flag), published)


@overload
def receivers_apart_deg(first_deg: float, second_deg: float) -> float: ...
@overload
def receivers_apart_deg(first_deg: ArrayLike, second_deg: ArrayLike) -> FloatArray: ...
def receivers_apart_deg(first_deg: ArrayLike, second_deg: ArrayLike) -> float | FloatArray:
    """Return the difference of two indicated bearings to (or from) one station, 0 to 180 degrees.

    >>> float(receivers_apart_deg(358, 3))
    5.0
    """
    return abs(difference_deg(second_deg, first_deg))


def judge(kind: str, error_deg: float, rules: Rules = RULES) -> CheckOutcome:
    """Return whether a check passes: an error just at the limit does.

    Parameters
    ----------
    kind
        Key of the kind of check, such as "ground checkpoint".
    error_deg
        Bearing error, or the difference of two receivers, in degrees.
    rules
        The rules to go by.

    Raises
    ------
    ValueError
        If the kind is unknown or the error is not finite.
    """
    check = rules.kind(kind)
    error = float(finite("error_deg", error_deg))
    passed = abs(error) <= check.limit_deg + ROUNDING_DEG
    verdict, relation = ("Pass", "within") if passed else ("Fail", "more than")
    degrees = spoken_degrees(error, 1)
    what = "a difference of " if check.compares_receivers else "an error of "
    return CheckOutcome(
        check,
        error,
        passed,
        f"{verdict}: {what}{degrees} is {relation} the {check.limit_deg:g} degrees "
        f"that {check.paragraph} allows ({check.name}).",
    )


def read_date(text: str) -> date:
    """Return a date written as year-month-day, or raise ValueError that says what is wrong.

    >>> read_date("2028-02-29")
    datetime.date(2028, 2, 29)
    """
    try:
        return date.fromisoformat(text.strip())
    except ValueError as error:
        raise ArgumentError(
            f"date must be a day such as 2026-06-01, got {text!r}: {error}",
            argument="date",
        ) from None


def last_day(made_on: date, rules: Rules = RULES) -> date:
    """Return the last day on which a passed check holds."""
    return made_on + timedelta(days=rules.valid_days)


def days_left(made_on: date, today: date, rules: Rules = RULES) -> int:
    """Return for how many more days a passed check holds: 0 on its last day, negative after it.

    Raises
    ------
    ValueError
        If the check was made in the future.
    """
    if made_on > today:
        raise ArgumentError(
            f"made_on must not be after today, {today.isoformat()}, got {made_on.isoformat()}",
            argument="made_on",
        )
    return (last_day(made_on, rules) - today).days


@dataclass(frozen=True)
class LogEntry:
    """One check in the log, with every item that the rule requires.

    Source: 14 CFR 91.171(d), of the United States (read in a quotation).

    Attributes
    ----------
    made_on
        Date of the check.
    place
        Where it was made.
    kind
        Key of the kind of check.
    error_deg
        Bearing error, or difference of two receivers, in degrees.
    signature
        Who made it.
    written_on
        Date of the entry, not before that of the check.
    rules
        Name of the rules it was made by, one of `RULE_BOOKS`.

    Raises
    ------
    ValueError
        If an item is missing, the kind unknown, or the check dated after the entry.
    """

    made_on: date
    place: str
    kind: str
    error_deg: float
    signature: str
    written_on: date
    rules: str = RULES.name

    def __post_init__(self) -> None:
        if self.rules not in RULE_BOOKS:
            raise ArgumentError(
                f"rules must be one of {', '.join(RULE_BOOKS)}, got {self.rules!r}",
                argument="rules",
            )
        rules = RULE_BOOKS[self.rules]
        rules.kind(self.kind)
        finite("error_deg", self.error_deg)
        days_left(self.made_on, self.written_on, rules)
        for item in ("place", "signature"):
            if not getattr(self, item).strip():
                raise ArgumentError(
                    f"{item} must be given ({rules.log_paragraph}), got an empty one", argument=item
                )

    @property
    def outcome(self) -> CheckOutcome:
        """Pass or fail by the rules it was made by."""
        return judge(self.kind, self.error_deg, RULE_BOOKS[self.rules])

    def standing(self, today: date) -> str:
        """Return in words whether the check still counts on a day."""
        if not self.outcome.passed:
            return "not to be relied on under IFR"
        rules = RULE_BOOKS[self.rules]
        left = days_left(self.made_on, today, rules)
        until = last_day(self.made_on, rules).isoformat()
        if left < 0:
            return f"out of date: it held through {until}"
        days = "its last day" if left == 0 else f"{spoken_count(left, 'day')} left"
        return f"good through {until}, {days}"

"""Units of the trade: nautical miles, feet, knots, seconds; constants to reach them from SI."""

NO_BREAK = "\N{NO-BREAK SPACE}"  # between what must stay in one line, a number and its unit
METERS_PER_NM = 1852.0  # international nautical mile, exact (SI brochure table 8; from memory)
METERS_PER_FOOT = 0.3048  # international foot, exact
FEET_PER_NM = METERS_PER_NM / METERS_PER_FOOT  # 6076.115...
SECONDS_PER_HOUR = 3600.0
METERS_PER_SECOND_PER_KNOT = METERS_PER_NM / SECONDS_PER_HOUR
TOLD_IN_SECONDS_MIN = 2.0


def duration_words(minutes: float) -> str:
    """Return a time as a pilot says it: below two minutes in seconds.

    >>> duration_words(3.84), duration_words(0.4)
    ('3.8 minutes', '24 seconds')
    """
    if minutes >= TOLD_IN_SECONDS_MIN:
        return f"{minutes:.1f} minutes"
    seconds = round(60.0 * minutes)
    return f"{seconds} {'second' if seconds == 1 else 'seconds'}"

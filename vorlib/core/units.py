"""Units of the trade: nautical miles, feet, knots, seconds; constants to reach them from SI."""

NO_BREAK = "\N{NO-BREAK SPACE}"  # between what must stay in one line, a number and its unit
METERS_PER_NM = 1852.0  # international nautical mile, exact (SI brochure table 8; from memory)
METERS_PER_FOOT = 0.3048  # international foot, exact
FEET_PER_NM = METERS_PER_NM / METERS_PER_FOOT  # 6076.115...
SECONDS_PER_HOUR = 3600.0
METERS_PER_SECOND_PER_KNOT = METERS_PER_NM / SECONDS_PER_HOUR

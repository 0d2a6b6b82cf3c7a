"""Limits of a lesson's flight: values beyond them are refused wherever they are typed or read."""

LOWEST_FT, HIGHEST_FT = -1_500.0, 60_000.0  # lower than any airfield
LOWEST_PLANNED_FT = 100.0
SLOWEST_KT, FASTEST_KT = 40.0, 400.0  # true airspeed
STRONGEST_WIND_KT = 250.0
SMALLEST_NM, WIDEST_NM = 1.0, 300.0  # radius of a practice area

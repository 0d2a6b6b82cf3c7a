"""Draw what several kinds of question need: a station, a direction, an aircraft in reception."""

from random import Random

from vorlib.aircraft.wind import Wind
from vorlib.earth.geodesic import Position
from vorlib.stations.archipelago import STATIONS
from vorlib.vor.receiver import Flag, Reading
from vorlib.vor.station import Station

LOW_FT, HIGH_FT = 4500, 8500  # within every station's service volume, which begins at 1,000 ft
NEAR_NM, FAR_NM = 8, 24  # outside any cone at those altitudes, inside the smallest volume of 25 NM


def any_station(chance: Random) -> Station:
    """Return one of the stations of the archipelago."""
    return STATIONS[chance.choice(list(STATIONS))]


def any_direction(chance: Random) -> int:
    """Return a whole direction from 1 to 360."""
    return chance.randint(1, 360)


def any_altitude_ft(chance: Random) -> int:
    """Return an altitude in whole 100 ft at which every station can be received."""
    return chance.randrange(LOW_FT, HIGH_FT + 1, 100)


def any_distance_nm(chance: Random) -> int:
    """Return a whole distance at which every station can be received."""
    return chance.randint(NEAR_NM, FAR_NM)


def somewhere_on(chance: Random, station: Station, radial_deg: float) -> Position:
    """Return a place on a radial at which the station can be received."""
    return station.position_on(radial_deg, any_distance_nm(chance), any_altitude_ft(chance))


def flag_of(reading: Reading) -> Flag:
    """Return the flag of a reading at one place."""
    return Flag(int(reading.flag))


def any_wind_across(chance: Random, course_deg: float, least_deg: int, most_deg: int) -> Wind:
    """Return a wind at an angle to the course line, from ahead or behind, left or right."""
    slant_deg = chance.randint(least_deg, most_deg)
    off_deg = chance.choice((slant_deg, -slant_deg, 180 - slant_deg, slant_deg - 180))
    return Wind(course_deg + off_deg, chance.choice((24, 27, 30, 33)))


def lettered(chance: Random) -> tuple[str, ...]:
    """Return the letters A to D, shuffled: first that of the answer, then those of three others."""
    return tuple(chance.sample("ABCD", 4))

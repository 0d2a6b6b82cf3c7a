"""Tracks written as recorders write them, for the tests of what reads them."""

from datetime import UTC, datetime, timedelta

START = datetime(2026, 6, 1, 9, 0, tzinfo=UTC)
HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n'
ROOT = '<gpx version="1.1" creator="a test" xmlns="http://www.topografix.com/GPX/1/1">\n'
COLUMNS = "time,lat_deg,lon_deg,altitude_ft"


def at(seconds):
    """Return the time so many seconds after the start, as written in a file."""
    return (START + timedelta(seconds=seconds)).isoformat().replace("+00:00", "Z")


def north(count=5, step_s=1.0, begin_s=0.0):
    """Return points of a flight north at 120 kt: seconds, latitude, longitude, meters."""
    return [
        (begin_s + i * step_s, 46.0 + i * step_s * 120.0 / 3600.0 / 60.0, -30.0, 1000.0)
        for i in range(count)
    ]


def trkpt(seconds, lat, lon, meters=1000.0):
    """Return one point in GPX, on a line of its own."""
    time = f"<time>{at(seconds)}</time>" if seconds is not None else ""
    ele = f"<ele>{meters}</ele>" if meters is not None else ""
    return f'<trkpt lat="{lat!r}" lon="{lon!r}">{ele}{time}</trkpt>\n'


def trk(points):
    """Return one track in GPX."""
    return f"<trk><trkseg>\n{''.join(trkpt(*point) for point in points)}</trkseg></trk>\n"


def gpx(*tracks):
    """Return a whole GPX file of tracks, each a list of points."""
    return f"{HEAD}{ROOT}{''.join(map(trk, tracks))}</gpx>\n"


def table(*rows, header=COLUMNS):
    """Return a table of rows, each a line."""
    return "\n".join((header, *rows, ""))


def row(seconds, lat, lon, meters=1000.0):
    """Return one point as a line of a table."""
    return f"{at(seconds)},{lat!r},{lon!r},{meters / 0.3048!r}"

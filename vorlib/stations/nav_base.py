"""The table NAV_BASE.csv of the FAA's 28 Day NASR Subscription.

Columns and values as in the file effective 2026-05-14, which was read; a public domain work of the
US Government.
"""

from vorlib.core.arguments import ArgumentError
from vorlib.stations.rows import ListedStation, Row, RowLeftOut
from vorlib.vor.station import Station

NAME = "the FAA's NAV_BASE.csv"
NEEDED = (
    "EFF_DATE",
    "NAV_ID",
    "NAV_TYPE",
    "COUNTRY_CODE",
    "NAV_STATUS",
    "NAME",
    "LAT_DECIMAL",
    "LONG_DECIMAL",
    "ELEV",
    "MAG_VARN",
    "MAG_VARN_HEMIS",
    "MAG_VARN_YEAR",
    "FREQ",
    "ALT_CODE",
)
KINDS = ("VOR", "VOR/DME", "VORTAC")
SHUT_DOWN = "SHUTDOWN"


def read_row(row: Row) -> ListedStation:
    """Return the station of a row; LeftOut if it has none, ValueError if it is wrong."""
    kind = row.text("NAV_TYPE")
    if kind not in KINDS:
        raise RowLeftOut(f"{kind or 'no type'}, not a VOR")
    if not row.text("MAG_VARN"):
        raise RowLeftOut("a VOR without a station declination")
    service, elevation_ft = "L", 0.0
    assumed: tuple[str, ...] = ()
    if row.text("ALT_CODE"):
        service = row.service("ALT_CODE")
    else:
        assumed += ("no service volume given, taken as L",)
    if row.text("ELEV"):
        elevation_ft = row.number("ELEV", -1500.0, 30000.0, "ft")
    else:
        assumed += ("no elevation given, taken as 0 ft",)
    year = row.text("MAG_VARN_YEAR")
    return ListedStation(
        Station(
            ident=row.ident("NAV_ID"),
            position=row.position("LAT_DECIMAL", "LONG_DECIMAL", elevation_ft),
            declination_deg=_declination_deg(row),
            frequency_mhz=row.frequency_mhz("FREQ", 1.0),
            name=row.text("NAME").title(),
            service=service,
            on_the_air=row.text("NAV_STATUS") != SHUT_DOWN,
        ),
        kind=kind,
        line=row.line,
        country=row.text("COUNTRY_CODE"),
        status=row.text("NAV_STATUS").lower(),
        declination_year=int(year) if year.isdecimal() else None,
        effective=row.day("EFF_DATE", "%Y/%m/%d"),
        assumed=assumed,
    )


def _declination_deg(row: Row) -> float:
    """Return the declination, which the file gives without a sign, with a letter for its side."""
    size, side = row.number("MAG_VARN", 0.0, 180.0, "degrees"), row.text("MAG_VARN_HEMIS")
    if side not in ("E", "W") and size:
        raise ArgumentError(
            f"MAG_VARN_HEMIS must be E or W, got {side!r}", argument="MAG_VARN_HEMIS"
        )
    return -size if side == "W" else size

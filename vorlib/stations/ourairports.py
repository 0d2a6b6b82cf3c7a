"""The table of radio aids in the column layout of the open OurAirports data (public domain).

Columns and what they mean as in the data dictionary at ourairports.com/help, read in a copy; no
file of theirs is kept here. It carries no date.
"""

from vorlib.stations.rows import ListedStation, Row, RowLeftOut
from vorlib.vor.station import Station

NAME = "a navaids file in the OurAirports layout"
NEEDED = (
    "id",
    "filename",
    "ident",
    "name",
    "type",
    "frequency_khz",
    "latitude_deg",
    "longitude_deg",
    "elevation_ft",
    "iso_country",
    "dme_frequency_khz",
    "dme_channel",
    "dme_latitude_deg",
    "dme_longitude_deg",
    "dme_elevation_ft",
    "slaved_variation_deg",
    "magnetic_variation_deg",
    "usageType",
    "power",
    "associated_airport",
)
KINDS = {"VOR": "VOR", "VOR-DME": "VOR/DME", "VORTAC": "VORTAC"}

# The layout has a station's use, not its service volume: high airways, low airways, both or
# terminal area. Which volume stands for which use is a choice.
SERVICES = {"HI": "H", "BOTH": "H", "LO": "L", "TERM": "T"}


def read_row(row: Row) -> ListedStation:
    """Return the station of a row; LeftOut if it has none, ValueError if it is wrong."""
    kind = row.text("type")
    if kind not in KINDS:
        raise RowLeftOut(f"{kind or 'no type'}, not a VOR")
    if not row.text("slaved_variation_deg"):
        raise RowLeftOut("a VOR without a station declination")
    use = row.text("usageType")
    service = SERVICES.get(use, "L")
    assumed: tuple[str, ...] = (f"service volume {service} for the use {use or 'not given'}",)
    elevation_ft = 0.0
    if row.text("elevation_ft"):
        elevation_ft = row.number("elevation_ft", -1500.0, 30000.0, "ft")
    else:
        assumed += ("no elevation given, taken as 0 ft",)
    return ListedStation(
        Station(
            ident=row.ident("ident"),
            position=row.position("latitude_deg", "longitude_deg", elevation_ft),
            declination_deg=row.number("slaved_variation_deg", -180.0, 180.0, "degrees"),
            frequency_mhz=row.frequency_mhz("frequency_khz", 0.001),
            name=row.text("name"),
            service=service,
        ),
        kind=KINDS[kind],
        line=row.line,
        country=row.text("iso_country"),
        assumed=assumed,
    )

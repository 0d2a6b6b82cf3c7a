"""Draw the extract of published radials that the tests keep, from the full open-data tables.

    python tests/data/make_extract.py FOLDER

FOLDER holds us_stations.csv and published_radials.csv as drawn from the FAA's 28 Day NASR
subscription and Coded Instrument Flight Procedures, effective 2026-05-14 (US Government work,
public domain in the United States).
"""

import csv
import random
import sys
from pathlib import Path

SEED = 20260514
ROWS = 300


def main(folder: Path) -> None:
    """Write the two extracts beside this file."""
    here = Path(__file__).parent
    rows = read(folder / "published_radials.csv")
    chosen = sorted(random.Random(SEED).sample(range(len(rows)), ROWS))
    extract = [rows[i] for i in chosen]
    wanted = {(row["station_ident"], row["station_type"]) for row in extract}
    stations = [
        row for row in read(folder / "us_stations.csv") if (row["ident"], row["type"]) in wanted
    ]
    write(here / "faa_published_radials.csv", extract)
    write(here / "faa_stations.csv", stations)


def read(path: Path) -> list[dict[str, str]]:
    """Return the rows of a CSV file."""
    with path.open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def write(path: Path, rows: list[dict[str, str]]) -> None:
    """Write rows with the header of the first."""
    with path.open("w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, rows[0], lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)


if __name__ == "__main__":
    main(Path(sys.argv[1]))

"""Compare vorlib with published radials and distances; also a command over whole tables.

python tests/published.py STATIONS.csv RADIALS.csv
"""

import csv
import sys
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import numpy as np

import vorlib as v
from vorlib.core.arguments import FloatArray


@dataclass(frozen=True)
class Comparison:
    """Published radials against vorlib's, a value a row.

    `radial_error_deg` is vorlib's radial less the published one; `variation_error_deg` the same
    with the variation of a day in place of the station's declination.
    """

    source: np.ndarray
    suspect: np.ndarray
    radial_error_deg: FloatArray
    distance_error_nm: FloatArray
    variation_error_deg: FloatArray


def compare(stations_csv: Path, radials_csv: Path, on: date = date(2026, 5, 14)) -> Comparison:
    """Read both tables and compare every published radial and distance."""
    stations = {(row["ident"], row["type"]): _station(row) for row in _rows(stations_csv)}
    drift = {key: float(station.declination_drift_deg(on)) for key, station in stations.items()}
    radial, distance, today, source, suspect = [], [], [], [], []
    for row in _rows(radials_csv):
        key = (row["station_ident"], row["station_type"])
        fix = v.Position(float(row["fix_lat_deg"]), float(row["fix_lon_deg"]))
        published_deg = float(row["published_radial_deg"])
        error = float(v.difference_deg(stations[key].radial_deg(fix), published_deg))
        radial.append(error)
        today.append(error + drift[key])
        distance.append(float(stations[key].distance_nm(fix)) - float(row["published_distance_nm"]))
        source.append(row["source"])
        suspect.append(row["suspect"] == "yes")
    return Comparison(
        np.array(source), np.array(suspect), np.array(radial), np.array(distance), np.array(today)
    )


def report(result: Comparison) -> str:
    """Return the comparison in words, the suspect rows included."""
    lines = []
    for name in np.unique(result.source):
        rows = (result.source == name) & ~result.suspect
        radial = np.abs(result.radial_error_deg[rows])
        distance = np.abs(result.distance_error_nm[rows])
        lines.append(
            f"{name}: {rows.sum()} rows, radial median {np.median(radial):.4f} "
            f"max {radial.max():.4f} deg, distance median {np.median(distance):.4f} "
            f"max {distance.max():.4f} NM"
        )
    bad = result.suspect
    worst = np.abs(result.radial_error_deg[bad]).max(initial=0.0)
    far = np.abs(result.distance_error_nm[bad]).max(initial=0.0)
    lines.append(
        f"suspect: {bad.sum()} rows, radial max {worst:.2f} deg, distance max {far:.2f} NM"
    )
    today = np.median(np.abs(result.variation_error_deg[~bad]))
    lines.append(f"with the day's variation for declination: radial median {today:.2f} deg")
    return "\n".join(lines)


def _rows(path: Path) -> list[dict[str, str]]:
    with path.open(newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def _station(row: dict[str, str]) -> v.Station:
    return v.Station(
        ident=row["ident"],
        position=v.Position(
            float(row["lat_deg"]), float(row["lon_deg"]), float(row["elevation_ft"] or 0.0)
        ),
        declination_deg=float(row["declination_deg"]),
        frequency_mhz=float(row["frequency_mhz"]),
        name=row["name"],
        service=row["service_volume"],
    )


if __name__ == "__main__":
    print(report(compare(Path(sys.argv[1]), Path(sys.argv[2]))))

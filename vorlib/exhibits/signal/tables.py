"""The signal and the ident in numbers: the tables of their lesson."""

from vorlib.core.arguments import FloatArray
from vorlib.exhibits.base.registry import offered
from vorlib.morse import dot_seconds, encode, length_dots, read_samples, use_of_ident
from vorlib.signal import SAMPLE_RATE_HZ, radial_bound_deg
from vorlib.stations.archipelago import STATIONS

__all__ = ["ident_table", "listening_table", "read_ident"]

offered(use_of_ident)


@offered
def read_ident(samples: FloatArray) -> str:
    """Return the ident in a received signal; empty when there is none."""
    return read_samples(samples, SAMPLE_RATE_HZ)


@offered
def listening_table() -> str:
    """Return how exactly a radial can be measured, by the noise and the time of listening."""
    rows = ["above the noise   0.1 s    0.4 s    1.6 s"]
    for level_db in (0, 10, 20, 30):
        errors = [float(radial_bound_deg(level_db, seconds)) for seconds in (0.1, 0.4, 1.6)]
        rows.append(f"{level_db:12} dB " + "".join(f"{error:8.2f}°" for error in errors))
    return "\n".join(rows)


@offered
def ident_table() -> str:
    """Return the signs of every ident, and of TEST, with their length in dots and seconds."""
    rows = []
    for name in (*STATIONS, "TEST"):
        dots = length_dots(name)
        rows.append(f"{name:5} {encode(name):18} {dots} dots, {dots * dot_seconds():.1f} s")
    return "\n".join(rows)

"""Hand every reader thousands of damaged inputs, and take down what is no clear error.

    python tests/tools/fuzz_readers.py             # 20,000 inputs for each, and command lines
    python tests/tools/fuzz_readers.py 500 GPX     # so many, where a name has the word
    python tests/tools/fuzz_readers.py 500 command # command lines

An input is read, or refused with one of our own errors, each in fewer than 300 characters; what is
neither is printed with the seed that makes it again, and the script fails. No input names a file
outside of the fuzzer's own folder. Root gives up its rights before the first of them, memory is
limited, and what is written is removed.
"""

from __future__ import annotations

import io
import os
import random
import resource
import signal
import sys
import tempfile
import traceback
from collections.abc import Callable
from datetime import UTC, datetime
from importlib.resources import files
from pathlib import Path

sys.path.append(str(Path(__file__).parents[1]))
from tools.fuzz_commands import command_lines

from vorlib.briefing.elevation_file import read_elevation
from vorlib.briefing.files import day_from_words, place_from_words, wind_from_words
from vorlib.morse import decode
from vorlib.paper.page import page_size
from vorlib.paper.worksheet import Worksheet
from vorlib.practice.classroom.choosing import read_class_list
from vorlib.practice.classroom.folder import read_class
from vorlib.practice.learning.attempt import Attempt
from vorlib.practice.learning.topic import Topic
from vorlib.practice.record.exchange import Export, as_csv, as_json, parse_export
from vorlib.practice.record.record import Record
from vorlib.stations import load_stations, ourairports
from vorlib.stations.archipelago import STATIONS
from vorlib.stations.fields_csv import read_fields
from vorlib.tracks import Columns, read_track
from vorlib.tracks.selections import read_selections

ROOT = Path(__file__).parents[2]
COUNT = 20_000
LONGEST, SLOWEST_S, MOST_BYTES, NOBODY = 300, 5, 1_000_000_000, 65534
HERE = str(ROOT / "vorlib")
TOKENS = (
    *(b"", b"0", b"-1", b"1e999", b"nan", b"inf", b"99999999999999999999", b"\x00", b"\xff\xfe"),
    *(b",", b";", b'"', b"\n", b"\r", b"<", b">", b"&lt;", b"<!--", b"]]>", b"<!DOCTYPE a>", b"="),
    *(
        "\u0660\u202e\u00b2".encode(),
        b"2026-13-45T99:99:99Z",
        b"9999-12-31T23:59:59Z",
        b"{",
        b"[" * 99,
    ),
    *(b"A" * 400, b"-0.0", b"180.0000001", b"true", b"[" * 99, b"../x", b"'", b"\\", b"%s", b"/0"),
)


def mutated(data: bytes, chance: random.Random) -> bytes:
    """Return an input with one to five damages."""
    for _ in range(chance.randint(1, 5)):
        at = chance.randrange(len(data) + 1)
        end = min(len(data), at + int(chance.expovariate(0.1)))
        match chance.randrange(6):
            case 0:
                data = data[:at] + chance.choice(TOKENS) + data[end:]
            case 1:
                data = data[:at] + data[end:]
            case 2:
                data = data[:end] + data[at:]
            case 3:
                data = data[:at] + bytes([chance.randrange(256)]) + data[at + 1 :]
            case 4:
                lines = data.splitlines(keepends=True)
                chance.shuffle(lines)
                data = b"".join(lines) if chance.random() < 0.1 else data
            case _:
                data = data[:at] if chance.random() < 0.2 else data[:at] + data[at:end] + data[at:]
    return data


def words(read: Callable[[str], object]) -> Callable[[bytes], object]:
    """Return a reader of bytes from one of text, as a command line or a box gives it."""
    return lambda data: read(data.decode("utf-8", errors="replace"))


def readers(folder: Path) -> dict[str, tuple[Callable[[bytes], object], bytes]]:
    """Return every reader, with an input that it reads."""
    data = files("vorlib").joinpath("data")
    track = data.joinpath("example_flight.gpx").read_bytes()
    points = track.split(b"</trkpt>")
    short = b"</trkpt>".join(points[:12]) + b"</trkpt></trkseg></trk></gpx>"
    table = b"time,lat_deg,lon_deg,altitude_ft\n" + b"".join(
        b"2026-06-01T09:00:%02dZ,45.8%02d,-30.3,3500\n" % (second, second) for second in range(20)
    )
    selections = b"time,station,course\n0,QLN,030\n300,PLX,180\n600,off,\n"
    nav_base = b"\n".join((ROOT / "tests/data/faa_nav_base.csv").read_bytes().splitlines()[:6])
    navaids = (
        ",".join(ourairports.NEEDED).encode()
        + b"\n1,Q,QLN,Quillon,VOR-DME,113400,46.0,-30.1,640,XX,,,,,,-9,-9,BOTH,HIGH,\n"
    )
    own = data.joinpath("example_stations.csv").read_bytes()
    fields = (
        b"ident,name,lat_deg,lon_deg,elevation_ft\nA1,One,46.0,-30.0,50\nA2,Two,46.1,-30.2,70\n"
    )
    grid = b"ncols 3\nnrows 2\nxllcorner -30.0\nyllcorner 46.0\ncellsize 0.1\n1 2 3\n4 5 6\n"
    at = datetime(2026, 5, 3, tzinfo=UTC)
    answers = tuple(
        Attempt("reciprocal", seed, "right", answered_at=at, taken_s=2.0, key=f"k{seed}")
        for seed in range(3)
    )
    export = Export("Wenna", answers)
    (folder / "class").mkdir()
    whole = Record("Wenna", folder)
    whole.add(*answers)
    record = whole.path.read_bytes()

    def kept(data: bytes) -> object:
        whole.path.write_bytes(data)
        return whole.summary(), whole.attempts()

    def handed_in(data: bytes) -> object:
        (folder / "class/a.json").write_bytes(data)
        return read_class(folder / "class")

    def selected(data: bytes) -> object:
        return read_selections(io.BytesIO(data), STATIONS, at)

    return {
        "track, GPX": (read_track, short),
        "track, table": (read_track, table),
        "selections": (selected, selections),
        "stations, NAV_BASE": (lambda data: load_stations(io.BytesIO(data)), nav_base),
        "stations, navaids": (lambda data: load_stations(io.BytesIO(data)), navaids),
        "stations, own": (lambda data: load_stations(io.BytesIO(data)), own),
        "fields": (lambda data: read_fields(io.BytesIO(data)), fields),
        "ground heights": (lambda data: read_elevation(io.BytesIO(data)), grid),
        "export, JSON": (
            words(lambda text: parse_export("a.json", text)),
            as_json(export).encode(),
        ),
        "export, CSV": (words(lambda text: parse_export("a.csv", text)), as_csv(export).encode()),
        "class list": (lambda data: read_class_list(io.BytesIO(data)), b"name\nWenna\nLee\n"),
        "class folder": (handed_in, as_json(export).encode()),
        "record": (kept, record),
        "sheet code": (words(Worksheet.of_code), str(Worksheet("05", 20, 7).code).encode()),
        "Morse": (words(decode), b"--.- .-.. -. / .-"),
        "wind": (words(wind_from_words), b"250/20"),
        "center": (words(place_from_words), b"46.0,-30.0"),
        "day": (words(day_from_words), b"2026-06-01"),
        "columns": (words(Columns.from_words), b"time=UTC,lat_deg=Lat,altitude_unit=m"),
        "topic": (words(Topic.read), b"05,06"),
        "paper": (words(page_size), b"Letter"),
    }


def fault(read: Callable[[bytes], object], data: bytes) -> str:
    """Return what is wrong with how an input is taken; empty when it is read or clearly refused."""
    signal.setitimer(signal.ITIMER_PROF, SLOWEST_S)  # of its own work, however busy the machine
    try:
        read(data)
    except (ValueError, OSError) as error:
        raised_in = traceback.extract_tb(error.__traceback__)[-1].filename
        if not raised_in.startswith(HERE):
            return f"not our own: {type(error).__name__}: {error!s:.200}"
        longest = max(map(len, str(error).splitlines()), default=0)  # a line for each fault
        if not 0 < longest < LONGEST:
            return f"{longest} characters: {error!s:.200}..."
    except BaseException as error:
        if isinstance(error, KeyboardInterrupt):
            raise
        return f"{type(error).__name__}: {error!s:.200}"
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
    return ""


def too_slow(*_: object) -> None:
    """Interrupt a reader that takes too long."""
    raise RuntimeError(f"longer than {SLOWEST_S} s")


def main(count: int = COUNT, word: str = "") -> int:
    """Fuzz the readers; return 1 if one has a fault."""
    signal.signal(signal.SIGPROF, too_slow)
    faults = 0
    with tempfile.TemporaryDirectory(prefix="fuzz-") as name:
        all_readers = readers(Path(name)) | (lines := command_lines(Path(name) / "home"))
        for about, (read, data) in all_readers.items():
            found = fault(read, data)  # and all that it imports is there afterwards
            assert not found, f"{about} as it should be: {found}"
        if os.geteuid() == 0:
            for path in (Path(name), *Path(name).rglob("*")):
                os.chown(path, NOBODY, NOBODY)
            os.setgroups([])
            os.setgid(NOBODY)
            os.setuid(NOBODY)
        used = int(Path("/proc/self/statm").read_text().split()[0]) * resource.getpagesize()
        resource.setrlimit(resource.RLIMIT_AS, (used + MOST_BYTES,) * 2)
        for about, (read, data) in all_readers.items():
            if word not in about:
                continue
            seen: dict[str, int] = {}
            share = count if about not in lines else -(-count // len(lines))
            for seed in range(share):
                found = fault(read, mutated(data, random.Random(f"{about}/{seed}")))
                if found:
                    seen.setdefault(found[:60], seed)
            print(f"{about:24} {share:,} inputs, {len(seen)} kinds of fault", flush=True)
            for kind, seed in list(seen.items())[:8]:
                print(f"    seed {seed}: {kind}")
            faults += len(seen)
        if os.geteuid() == NOBODY:
            for path in Path(name).rglob("*"):
                if path.is_file():
                    path.unlink()
    return int(bool(faults))


if __name__ == "__main__":
    sys.exit(main(*(kind(one) for kind, one in zip((int, str), sys.argv[1:], strict=False))))

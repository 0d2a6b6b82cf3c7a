"""Command lines for the fuzzer: run as they are typed, and kept to one folder by construction.

A word can name nothing outside of the folder that is the current one and the user's home: it has
no tilde, no backslash and no two dots in a row, and a slash only between digits, as in 250/20.
Nothing is drawn, as drawing reads no arguments; no server is started.
"""

from __future__ import annotations

import contextlib
import io
import os
import re
import shutil
import sys
from collections.abc import Callable
from importlib.resources import files
from pathlib import Path

from vorlib.views.drawing import document

document.pdf_bytes = lambda pages, title: b"%PDF-"  # before the sheets take it by its name

from vorlib import cli  # noqa: E402
from vorlib.commands import course  # noqa: E402
from vorlib.practice.record.exchange import Export, as_json  # noqa: E402

__all__ = ["command_lines"]

OUTSIDE = re.compile(r"[~\\\x00]|\.\.+|(?<!\d)/|/(?!\d)")
LINES = {
    "course": "course|--port=8888|--no-browser",
    "plan": "plan|05|--minutes|50|--seed|3|--homework|home.pdf|--paper|Letter|--out|plan.pdf",
    "plan, syllabus": "plan|--syllabus|--order|01,02,03|--out|syllabus.pdf",
    "prepare": "prepare|--stations|stations.csv|--idents|QLN,OBL|--radius|40|--altitude|4500|"
    "--airspeed|100|--wind|250/20|--date|2026-06-01|--out|card.pdf|--handout|sheet.pdf",
    "prepare, around": "prepare|--center|46.0,-30.1|--student|Wenna|--briefing|b.pdf|--out|c.pdf",
    "worksheets": "worksheets|--topic|05,06|--count|3|--seed|7|--variants|2|--swap|1,2|--room|some"
    "|--secret|WORD|--out|sheet.pdf|--key|key.pdf|--card|card.pdf",
    "assignment": "assignment|--seed|7|--out|check.ipynb",
    "class-results": "class-results|class|--from|2026-01-01|--to|2026-12-31|--class-list|names.txt|"
    "--numbers|--out|results.pdf|--csv|results.csv",
    "debrief": "debrief|track.gpx|--stations|stations.csv|--selections|selected.csv|--out|d.pdf|"
    "--csv|seconds.csv|--airspeed|100|--variation|-9|--strike|1,2|--planned-wind|250/20",
    "debrief, table": "debrief|track.csv|--columns|time=UTC,lat_deg=Lat,lon_deg=Lon|--altitude|"
    "3500|--out|d.pdf|--flight|1|--beside|track.gpx|--beside-out|two.pdf",
    "record": "record|--student|Wenna|--bring-in|wenna.json|--taught|05|--on|2026-06-01|--remark|"
    "well done|--out|record.pdf",
    "record, deleted": "record|--student|Lee|--flight|home|--delete",
    "hub-config": "hub-config|--to|hub|--force",
    "collect": "collect|homes|class|--to|collected",
}


def command_lines(folder: Path) -> dict[str, tuple[Callable[[bytes], object], bytes]]:
    """Lay files for the commands in a folder; return what runs each, with a line that it takes.

    The folder becomes the current one and the home, and is laid anew after each run.
    """
    data = files("vorlib").joinpath("data")
    points = data.joinpath("example_flight.gpx").read_bytes().split(b"</trkpt>")
    (folder / "class").mkdir(parents=True)
    for name, content in {
        "stations.csv": data.joinpath("example_stations.csv").read_bytes(),
        "track.gpx": b"</trkpt>".join(points[:40]) + b"</trkpt></trkseg></trk></gpx>",
        "track.csv": b"UTC,Lat,Lon\n"
        + b"".join(b"2026-06-01T09:00:%02dZ,45.8%02d,-30.3\n" % (n, n) for n in range(40)),
        "selected.csv": b"time,station,course\n0,QLN,030\n",
        "names.txt": b"name\nWenna\nLee\n",
        "wenna.json": as_json(Export("Wenna", ())).encode(),
        "class/wenna.json": as_json(Export("Wenna", ())).encode(),
    }.items():
        (folder / name).write_bytes(content)
    there = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    os.chdir(folder)
    os.environ |= {"HOME": str(folder), "XDG_DATA_HOME": str(folder / "data")}
    sys.stdin = io.StringIO()

    def lay_anew() -> None:
        for path in folder.iterdir():
            if path.is_dir() and path.name != "class":
                shutil.rmtree(path)
        for path in folder.rglob("*"):
            if path.is_file() and path not in there:
                path.unlink()
        for path, content in there.items():
            path.write_bytes(content)

    def run(data: bytes) -> None:
        try:
            _run(_words(data))
        finally:
            lay_anew()

    return {f"command {name}": (run, line.encode()) for name, line in LINES.items()}


def _words(data: bytes) -> list[str]:
    """Return the words of a command line, which name nothing outside of the current folder."""
    text = data.decode("utf-8", errors="replace")
    while (inside := OUTSIDE.sub("", text)) != text:
        text = inside
    return text.split("|")


def _run(words: list[str]) -> None:
    """Do what a command line says, raising what stops it but a file that the system refuses.

    Raises
    ------
    RuntimeError
        If a refusal of the parser is no line, or one too long to read.
    """
    said = io.StringIO()
    with contextlib.redirect_stderr(said), contextlib.redirect_stdout(io.StringIO()):
        try:
            options = cli._parser().parse_args(cli._joined(words))
        except SystemExit as stopped:
            last = said.getvalue().rstrip("\n").rpartition("\n")[2]
            if stopped.code and not 0 < len(last) < 300:
                raise RuntimeError(f"{len(last)} characters: {last[-150:]}") from stopped
            return
        if getattr(options, "here", False) or options.run in (None, course.run):
            return  # what would write to the environment, or never end
        try:
            options.run(options)
        except OSError as error:
            if error.filename is None:  # or it is the system's, which the command puts into words
                raise

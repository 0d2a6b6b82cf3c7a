"""What a class on a real hub feels: learners who all move an exhibit, five times a second.

    python tests/bench/class_of.py 1 5 10 20 30            # learners; a minute for each number
    python tests/bench/class_of.py 5 --seconds 3 --lessons 02
    python tests/bench/class_of.py 30 --shared    # on one server, as vorlib course starts it

The hub is jupyterhub with its proxy and the configuration in binder/hub, on this machine only. A
learner is no browser but a program that speaks as one does: it opens the lesson page, has the cells
run, drags the aircraft of the first exhibit that has one, and waits for the picture of each
movement. A movement without a picture was overtaken by the next; one without an answer is lost.
Memory is the proportional share. Fails when something is lost or a cell failed; with --limits also
when an update takes longer than is promised.
"""

from __future__ import annotations

import argparse
import asyncio
import contextlib
import itertools
import json
import os
import re
import statistics
import sys
import tempfile
import time
import uuid
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, NamedTuple

sys.path.append(str(Path(__file__).parents[1]))
from hub import Hub, running_hub
from lab import running_course
from tornado.httpclient import AsyncHTTPClient, HTTPClientError, HTTPRequest
from tornado.websocket import WebSocketClientConnection, websocket_connect

LESSONS = {"02": "02_indicator.ipynb", "05": "05_intercepting.ipynb"}
HEAVIEST = "05"
MEDIAN_MS, LATE_MS = 20.0, 60.0  # of an update, at the median and at the 95th percentile
MOVES_PER_S, REACH = 5.0, 60.0  # in the picture's units
WAIT_S = 300.0
SERVER = re.compile(r"single-?user|import cli")  # as they stand on the command line
NOTEBOOKS = Path(__file__).parents[2] / "notebooks"


@dataclass
class Learner:
    """One learner of the class: the way to the server, and what came of each movement.

    Attributes
    ----------
    sent, drawn_ms
        When each movement was sent, by its message, and how long its picture took.
    answered
        The movements that the kernel has done with.
    failed
        Cells that gave an error.
    """

    name: str
    site: str
    token: str = ""
    kernel: str = ""
    picture: str = ""
    grab: str = ""
    channel: Any = None
    cells: int = 0
    failed: list[str] = field(default_factory=list)
    sent: dict[str, float] = field(default_factory=dict)
    drawn_ms: dict[str, float] = field(default_factory=dict)
    answered: set[str] = field(default_factory=set)

    async def log_in(self, hub: Hub) -> None:
        """Start the learner's server and wait until it answers."""
        user = f"{hub.url}/hub/api/users/{self.name}"
        await ask(f"{user}/server", hub.token, "POST")
        made = await ask(f"{user}/tokens", hub.token, "POST", {"note": "class"})
        self.token = json.loads(made)["token"]
        end = time.monotonic() + WAIT_S
        while not json.loads(await ask(user, hub.token))["servers"].get("", {}).get("ready"):
            assert time.monotonic() < end, f"the server of {self.name} did not start"
            await asyncio.sleep(0.5)

    async def open(self, lesson: str) -> None:
        """Open a lesson page and have all its cells run."""
        page = await ask(f"{self.site}/voila/render/{lesson}", self.token)
        self.kernel = re.search(r'"kernelId": "([0-9a-f-]+)"', page)[1]
        session = uuid.uuid4().hex
        self.channel = await self._connect(
            f"api/kernels/{self.kernel}/channels?session_id={session}", self._hear
        )
        running = await self._connect(f"voila/execution/{self.kernel}", None)
        await running.read_message()
        await running.write_message(
            json.dumps({"action": "execute", "payload": {"kernel_id": self.kernel}})
        )
        while True:
            said = await asyncio.wait_for(running.read_message(), WAIT_S)
            assert said is not None, f"{self.name} lost the connection"
            given = json.loads(said)["payload"]
            self.cells += 1
            outputs = given.get("output_cell", {}).get("outputs", [])
            self.failed += [one["ename"] for one in outputs if one["output_type"] == "error"]
            if given["cell_index"] + 1 == given["total_cell"]:
                return

    async def drag(self, seconds: float, begin_s: float) -> None:
        """Move the exhibit to and fro, and wait for what is still to come."""
        await self._until(lambda: bool(self.picture), "saw no exhibit that can be dragged")
        await asyncio.sleep(begin_s)
        begun, number = time.monotonic(), 0
        while time.monotonic() - begun < seconds:
            number += 1
            await self._move(number)
            await asyncio.sleep(max(0.0, begun + number / MOVES_PER_S - time.monotonic()))
        with contextlib.suppress(TimeoutError):  # then it is lost
            await self._until(lambda: len(self.answered) == len(self.sent), "waits in vain")

    async def _until(self, is_so: Callable[[], bool], trouble: str) -> None:
        end = time.monotonic() + WAIT_S / 5
        while not is_so():
            if time.monotonic() > end:
                raise TimeoutError(f"{self.name} {trouble}")
            await asyncio.sleep(0.05)

    async def _move(self, number: int) -> None:
        away = REACH * (number % 20 - 10) / 10
        at = {"x": 200.0 + away + number / 100, "y": 200.0 - away / 2}
        drag = {"id": 1, "grab": self.grab, "x0": 200.0, "y0": 200.0, **at}
        hand = {"view": self.name, "drag": drag, "steps": {}}
        message = uuid.uuid4().hex
        header = {"msg_id": message, "msg_type": "comm_msg", "username": "", "session": self.name}
        data = {"method": "update", "state": {"hand": hand}, "buffer_paths": []}
        content = {"comm_id": self.picture, "data": data}
        parts = {"header": header, "parent_header": {}, "metadata": {}, "content": content}
        self.sent[message] = time.monotonic()
        await self.channel.write_message(json.dumps({**parts, "channel": "shell", "buffers": []}))

    def _hear(self, said: str | bytes | None) -> None:
        """Take in what the kernel says: the first exhibit, pictures, and the end of each task."""
        if not isinstance(said, str):
            return
        now = time.monotonic()
        if not self.picture and '"comm_open"' in said and "data-grab" in said:
            self._see(json.loads(said)["content"])
        if not self.sent or not ('"idle"' in said or '"svg' in said):
            return
        message = json.loads(said)
        parent = message["parent_header"].get("msg_id")
        if parent not in self.sent:
            return
        if message["msg_type"] == "status":
            self.answered.add(parent)
        elif {"svg", "svg_changed"} & message["content"].get("data", {}).get("state", {}).keys():
            self.drawn_ms.setdefault(parent, 1e3 * (now - self.sent[parent]))

    def _see(self, opened: dict[str, Any]) -> None:
        svg = opened["data"].get("state", {}).get("svg") or ""
        grabs = re.findall(r'data-grab="([^"]+)"', svg)
        if "aircraft" in grabs:
            self.picture, self.grab = opened["comm_id"], "aircraft"

    async def _connect(self, path: str, heard: Any) -> WebSocketClientConnection:
        address = f"{self.site}/{path}".replace("http://", "ws://")
        request = HTTPRequest(address, headers={"Authorization": f"token {self.token}"})
        request.connect_timeout = request.request_timeout = WAIT_S
        return await websocket_connect(
            request, on_message_callback=heard, max_message_size=10**9, compression_options=None
        )


async def ask(url: str, token: str, method: str = "GET", body: Any = None) -> str:
    """Return what a server answers to whoever has a token."""
    answer = await AsyncHTTPClient().fetch(
        HTTPRequest(
            url,
            method,
            headers={"Authorization": f"token {token}"},
            body=json.dumps(body) if body else ("" if method == "POST" else None),
            connect_timeout=WAIT_S,
            request_timeout=WAIT_S,
        )
    )
    return answer.body.decode()


async def look_at_each_other(learners: list[Learner]) -> None:
    """Check that no learner is let in at another's server."""
    for one, other in itertools.pairwise(learners):
        try:
            await ask(f"{other.site}/api/contents", one.token)
        except HTTPClientError as refusal:
            if refusal.code == 403:
                continue
        raise PermissionError(f"{one.name} was let in at the server of {other.name}")


def memory_mb() -> dict[str, list[float]]:
    """Return the proportional memory of kernels and of servers, all that was started here."""
    parents, words = {}, {}
    for folder in Path("/proc").glob("[0-9]*"):
        try:
            parents[int(folder.name)] = int(
                (folder / "stat").read_text().rsplit(")")[-1].split()[1]
            )
            words[int(folder.name)] = (folder / "cmdline").read_text()
        except OSError:
            continue
    ours = {os.getpid()}
    for _ in range(4):  # the hub, its servers, their kernels
        ours |= {process for process, parent in parents.items() if parent in ours}
    found: dict[str, list[float]] = {"kernel": [], "server": []}
    for process in ours:
        part = "kernel" if "ipykernel" in words.get(process, "") else ""
        part = part or ("server" if SERVER.search(words.get(process, "")) else "")
        if part:
            rollup = Path(f"/proc/{process}/smaps_rollup").read_text()
            found[part].append(int(re.search(r"^Pss:\s+(\d+)", rollup, re.M)[1]) / 1024)
    return found


class Taught(NamedTuple):
    """What came of a lesson for a class.

    Attributes
    ----------
    lessons_s
        Seconds until all cells of all learners had run.
    median_ms, late_ms
        From a movement to its picture, at the median and at the 95th percentile.
    sent, drawn, lost, failed
        Movements, the pictures and the missing answers to them, and cells that gave an error.
    memory_mb
        Of each kernel and of each server, its proportional share.
    """

    lesson: str
    learners: int
    lessons_s: float
    median_ms: float
    late_ms: float
    sent: int
    drawn: int
    lost: int
    failed: int
    memory_mb: dict[str, list[float]]

    @property
    def is_quick(self) -> bool:
        """Whether the pictures came as soon as is promised."""
        return self.median_ms <= MEDIAN_MS and self.late_ms <= LATE_MS

    def __str__(self) -> str:
        mean = {part: statistics.fmean(mb) for part, mb in self.memory_mb.items()}
        return (
            f"{self.lesson}  {self.learners:3} learners  lessons {self.lessons_s:5.1f} s  "
            f"update {self.median_ms:6.1f} / {self.late_ms:6.1f} ms  "
            f"sent {self.sent}, drawn {self.drawn}, lost {self.lost}  "
            f"cells failed {self.failed}  "
            f"kernel {mean['kernel']:.0f} MB ({len(self.memory_mb['kernel'])}), "
            f"server {mean['server']:.0f} MB  load {os.getloadavg()[0]:.1f}"
        )


async def on_a_hub(hub: Hub, count: int, lesson: str, seconds: float) -> Taught:
    """Teach a lesson to a class on a hub, each learner on a server of their own."""
    names = [f"pilot{number:02}" for number in range(1, count + 1)]
    learners = [Learner(name, f"{hub.url}/user/{name}") for name in names]
    await asyncio.gather(*(one.log_in(hub) for one in learners))
    await look_at_each_other(learners)
    try:
        return await taught(learners, lesson, seconds)
    finally:
        users = f"{hub.url}/hub/api/users"
        stopping = (ask(f"{users}/{name}/server", hub.token, "DELETE") for name in names)
        await asyncio.gather(*stopping)


async def taught(learners: list[Learner], lesson: str, seconds: float) -> Taught:
    """Teach a lesson to learners whose servers run."""
    begun = time.monotonic()
    await asyncio.gather(*(one.open(LESSONS[lesson]) for one in learners))
    lessons_s = time.monotonic() - begun
    spread = 1 / MOVES_PER_S / len(learners)
    await asyncio.gather(*(one.drag(seconds, i * spread) for i, one in enumerate(learners)))
    drawn = sorted(ms for one in learners for ms in one.drawn_ms.values())
    sent = sum(len(one.sent) for one in learners)
    done = Taught(
        lesson, len(learners), lessons_s,
        median_ms=statistics.median(drawn),
        late_ms=drawn[int(0.95 * len(drawn))],
        sent=sent,
        drawn=len(drawn),
        lost=sent - sum(len(one.answered) for one in learners),
        failed=sum(len(one.failed) for one in learners) + sum(not one.cells for one in learners),
        memory_mb=memory_mb(),
    )  # fmt: skip
    for one in learners:
        one.channel.close()
    return done


async def class_in(
    folder: Path, count: int, lesson: str, seconds: float, *, is_shared: bool
) -> Taught:
    """Teach a class whose files are in a folder, on a hub or on one server that all share."""
    if is_shared:
        with running_course(NOTEBOOKS, folder / "home", "--to", str(folder / "copies")) as course:
            names = (f"pilot{number:02}" for number in range(1, count + 1))
            learners = [Learner(name, course.url, course.token) for name in names]
            return await taught(learners, lesson, seconds)
    with running_hub(folder) as hub:
        return await on_a_hub(hub, count, lesson, seconds)


def class_of(count: int, lesson: str, seconds: float, *, is_shared: bool = False) -> Taught:
    """Teach a lesson to a class, on a hub of its own, on which nothing of another is ending."""
    AsyncHTTPClient.configure(None, max_clients=200)
    with tempfile.TemporaryDirectory(prefix="class-") as folder:
        return asyncio.run(class_in(Path(folder), count, lesson, seconds, is_shared=is_shared))


def main() -> int:
    """Teach all lessons to all classes; return 1 if one did not go as promised."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("learners", type=int, nargs="*", default=[1, 5, 10, 20, 30])
    parser.add_argument("--seconds", type=float, default=60.0)
    parser.add_argument("--lessons", nargs="+", choices=LESSONS, default=["02", HEAVIEST])
    parser.add_argument("--shared", action="store_true", help="one server for all, and no hub")
    parser.add_argument("--limits", action="store_true", help="hold the times to what is promised")
    options = parser.parse_args()
    good = True
    for lesson in options.lessons:
        for count in options.learners:
            done = class_of(count, lesson, options.seconds, is_shared=options.shared)
            print(done, flush=True)
            good &= not (done.lost or done.failed) and (done.is_quick or not options.limits)
    return int(not good)


if __name__ == "__main__":
    sys.exit(main())

"""A bare machine for a newcomer: the system's files, Python, a network, and an empty home.

It is a root folder of its own, seen by an ordinary user. Of this machine it has `/usr`, `/etc` and
the Python that runs this, all read-only, and no compiler; no checkout, no caches and no other home.
Only root can make one, where mounts are allowed. Elsewhere, if that will do, a home of its own and
an empty environment stand in for it.
"""

from __future__ import annotations

import os
import shlex
import signal
import subprocess
import sys
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import urlsplit

__all__ = ["BareRoot", "Served"]

NOBODY = 65534
COMPILERS = ("cc", "gcc", "c++", "g++", "clang", "rustc", "cargo")
OF_THE_NETWORK = ("CERT", "PIP_", "UV_", "PROXY")  # in the names of what a package client is told
ROOT_ONLY = (
    "run this as root, where mounts are allowed: it makes a root folder for an ordinary user"
)


class Served:
    """A course that was started: what it said, and its address."""

    def __init__(self, process: subprocess.Popen[str]) -> None:
        self.process = process
        self.said: list[str] = []
        assert process.stdout is not None
        for line in process.stdout:
            self.said.append(line.rstrip("\n"))
            if line.startswith("http"):
                break
        else:
            raise RuntimeError("the course was not served:\n" + "\n".join(self.said))
        self.address = self.said[-1]

    def at(self, path: str) -> str:
        """Return the address of another place on the same server, with its token."""
        parts = urlsplit(self.address)
        return f"{parts.scheme}://{parts.netloc}{path}?{parts.query}"

    def page(self) -> str:
        """Return the page at the address, which must be there."""
        with urllib.request.urlopen(self.address, timeout=120) as answer:
            return str(answer.read().decode())


class BareRoot:
    """A root folder with an ordinary user's home in it.

    Parameters
    ----------
    folder
        Where it is made; it must be empty.
    or_home
        Whether a home alone will do where no root folder can be made.
    """

    def __init__(self, folder: Path, *, or_home: bool = False) -> None:
        self.is_bare = os.geteuid() == 0 and _can_mount()
        if not self.is_bare and not or_home:
            raise SystemExit(ROOT_ONLY)
        self.root = folder
        folder.chmod(0o755)
        self.home = folder / "home" / "newcomer"
        self.home.mkdir(parents=True)
        self.owned(self.home)
        (folder / "tmp").mkdir(mode=0o777)
        (folder / "tmp").chmod(0o777)
        for name in ("bin", "sbin", "lib", "lib64"):
            if (Path("/") / name).is_symlink():
                (folder / name).symlink_to(f"usr/{name}")
        self.python = Path(sys.base_prefix)
        there = dict.fromkeys((Path("/usr"), Path("/etc"), Path("/opt"), self.python))
        self.bound = [path for path in there if path.is_dir()]

    def owned(self, path: Path) -> None:
        """Give a file or folder in the home, with all in it, to the user."""
        for one in (path, *path.rglob("*")):
            if self.is_bare:
                os.chown(one, NOBODY, NOBODY, follow_symlinks=False)

    def start(self, command: str, where: str = "", **environment: str) -> subprocess.Popen[str]:
        """Start a command line as the user, in the home or a folder of it."""
        home = "/home/newcomer" if self.is_bare else str(self.home)
        settings = {
            **{key: value for key, value in os.environ.items() if _of_the_network(key)},
            "HOME": home,
            "PATH": f"{self.python}/bin:/usr/bin:/bin",
            "LANG": "C.UTF-8",
            "USER": "newcomer",
            "PIP_ONLY_BINARY": ":all:",
            **environment,
        }
        given = [f"{key}={value}" for key, value in settings.items()]
        line = ["/usr/bin/env", "-i", *given, "/bin/sh", "-c", f"cd {home}/{where} && {command}"]
        return subprocess.Popen(
            self._inside(line) if self.is_bare else line,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            start_new_session=True,  # which is ended as a whole
        )

    def _inside(self, line: list[str]) -> list[str]:
        """Return what runs a command as the user in the root folder."""
        inside = self.root
        mounts = [f"mkdir -p {inside}{path}" for path in (*self.bound, "/dev", "/proc")]
        for path in self.bound:
            mounts += [f"mount --bind {path} {inside}{path}"]
            mounts += [f"mount -o remount,bind,ro {inside}{path}"]
        mounts += [f"mount --rbind /dev {inside}/dev", f"mount -t proc proc {inside}/proc"]
        for name in COMPILERS:
            compiler = f"{inside}/usr/bin/{name}"
            mounts += [f"if [ -e {compiler} ]; then mount --bind /dev/null {compiler}; fi"]
        enter = f"exec chroot --userspec={NOBODY}:{NOBODY} --groups= {inside} {shlex.join(line)}"
        return ["unshare", "--mount", "sh", "-c", "set -e; " + "; ".join([*mounts, enter])]

    def run(self, command: str, where: str = "", **environment: str) -> str:
        """Run a command line as the user and return what it says; it must succeed."""
        process = self.start(command, where, **environment)
        said = process.communicate()[0]
        if process.returncode:
            raise RuntimeError(f"{command}\nended with {process.returncode}:\n{said[-2000:]}")
        return said

    @contextmanager
    def serving(self, command: str, where: str = "") -> Iterator[Served]:
        """Serve the course until the block ends, and then end it by Ctrl-C."""
        process = self.start(command, where)
        try:
            yield Served(process)
        finally:
            os.killpg(process.pid, signal.SIGINT)
            process.communicate(timeout=120)

    def files(self) -> set[str]:
        """Return the files in the home, by their paths in it."""
        found = self.home.rglob("*")
        return {path.relative_to(self.home).as_posix() for path in found if not path.is_dir()}


def _can_mount() -> bool:
    """Tell whether this user may mount, which few containers allow."""
    tried = ["unshare", "--mount", "mount", "-t", "tmpfs", "none", "/mnt"]
    try:
        return subprocess.run(tried, capture_output=True).returncode == 0
    except FileNotFoundError:
        return False


def _of_the_network(name: str) -> bool:
    return any(part in name.upper() for part in OF_THE_NETWORK)

"""How tests are dealt out to workers, and how many examples are tried."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings
from xdist.scheduler import LoadFileScheduling

# A busy machine is no failure, and in CI the same examples are tried every time.
settings.register_profile("desk", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") else "desk")

collect_ignore = ["tools/firefox.py"]  # it needs a driver of Firefox that nothing else needs

BROWSER, NOTEBOOKS = "tests/browser/", "notebooks/"
FOLLOW = "tests/browser/follow_pages.py"
PAGES = "tests/browser/test_pages"


class ByFile(LoadFileScheduling):
    """Keep each file whole, and files that need the browser on two workers: each opens one.

    Lessons are followed by hand on one, and by keyboard on the other.

    All notebooks stay on one: kernels that start at the same moment may choose the same port.
    """

    def _split_scope(self, nodeid: str) -> str:
        if nodeid.startswith(FOLLOW):
            return nodeid.partition("[")[0]
        if nodeid.startswith(PAGES):
            return PAGES
        if nodeid.startswith(BROWSER):
            return BROWSER
        if nodeid.startswith(NOTEBOOKS):
            return NOTEBOOKS
        return super()._split_scope(nodeid)


def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> ByFile | None:
    """Deal tests out by the file."""
    return ByFile(config, log) if config.getoption("dist") == "loadfile" else None


def pytest_xdist_auto_num_workers(config: pytest.Config) -> int | None:
    """Run a single file without workers, which take seconds to begin, and else one to spare.

    Workers that drive a browser wait for it half of their time.
    """
    files = {Path(argument.partition("::")[0]) for argument in config.args}
    if len(files) == 1 and files.pop().is_file():
        return 0
    return (os.cpu_count() or 1) + 1


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Begin with what stays on one worker, the longest first."""
    whole = (BROWSER, NOTEBOOKS)
    items.sort(key=lambda item: [not item.nodeid.startswith(part) for part in whole])

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

BROWSER = "tests/browser/"


class ByFile(LoadFileScheduling):
    """Keep each file whole, and all files that need the browser on one worker: it opens one."""

    def _split_scope(self, nodeid: str) -> str:
        return BROWSER if nodeid.startswith(BROWSER) else super()._split_scope(nodeid)


def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> ByFile | None:
    """Deal tests out by the file."""
    return ByFile(config, log) if config.getoption("dist") == "loadfile" else None


def pytest_xdist_auto_num_workers(config: pytest.Config) -> int | None:
    """Run a single file without workers, which take seconds to begin."""
    files = {Path(argument.partition("::")[0]) for argument in config.args}
    return 0 if len(files) == 1 and files.pop().is_file() else None


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Begin with the browser, the longest part that stays on one worker."""
    items.sort(key=lambda item: not item.nodeid.startswith(BROWSER))

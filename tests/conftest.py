"""What tests of several folders share."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import settings

# A busy machine is no failure, and in CI the same examples are tried every time.
settings.register_profile("desk", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") else "desk")

CHROMIUM_OPTIONS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Leave what needs the browser to the end: while it is open no test can run an event loop."""
    items.sort(key=lambda item: "browser" in getattr(item, "fixturenames", ()))


def unavailable(why: str) -> None:
    """Skip, but fail where the browser is expected to be there."""
    if os.environ.get("CI"):
        pytest.fail(f"the browser tests cannot run: {why}")
    pytest.skip(why)


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """Chromium, driven by playwright, of which there can be only one in a process."""
    try:
        from playwright.sync_api import sync_playwright
    except ImportError:
        unavailable("playwright is not installed: pip install 'vorlib[browser]'")
    chromium = shutil.which("chromium") or shutil.which("chromium-browser")
    if chromium is None:
        unavailable("no chromium on the PATH")
    with sync_playwright() as playwright:
        yield playwright.chromium.launch(executable_path=chromium, args=CHROMIUM_OPTIONS)

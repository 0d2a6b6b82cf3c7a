"""The hosted copy of the course: what it installs, and how its server is set."""

import os
import re
import tomllib
from pathlib import Path

import pytest
from jupyter_server.serverapp import ServerApp
from jupyter_server.services.contents.largefilemanager import AsyncLargeFileManager
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from tools.write_badge import with_badge
from traitlets.config import JSONFileConfigLoader

from vorlib.io.notebooks import START
from vorlib.lab.saving import keep_still
from vorlib.pages import address
from vorlib.server import LARGEST_MESSAGE_BYTES, NoDelayWebsocketConnection

ROOT = Path(__file__).parents[2]
BINDER = ROOT / "binder"
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
PINS = {
    canonicalize_name(name): version
    for name, version in re.findall(
        r"^([\w.-]+)==(\S+)", (BINDER / "requirements.txt").read_text(encoding="utf-8"), re.M
    )
}


@pytest.mark.parametrize("dependency", PROJECT["dependencies"])
def test_every_dependency_is_pinned_within_its_range(dependency):
    requirement = Requirement(dependency)
    assert PINS[canonicalize_name(requirement.name)] in requirement.specifier


def test_the_list_of_pins_holds_nothing_but_pins():
    for line in (BINDER / "requirements.txt").read_text(encoding="utf-8").splitlines():
        assert re.fullmatch(r"\s*#.*|[\w.-]+==[\w.]+( ; .+)?", line), line


def test_the_python_is_named_and_is_one_that_the_project_allows():
    (version,) = re.findall(r"^python-(3\.\d+)$", (BINDER / "runtime.txt").read_text(), re.M)
    assert Requirement(f"python{PROJECT['requires-python']}").specifier.contains(version)


def test_the_server_is_configured_to_answer_without_delay():
    assert server().kernel_websocket_connection_class is NoDelayWebsocketConnection


def test_the_server_shows_the_lesson_pages_and_not_those_of_voila():
    extensions = server().jpserver_extensions
    assert extensions == {"vorlib.pages": True, "voila.server_extension": False}


def test_a_badge_stands_in_the_readme_only_once_it_leads_to_the_start_page():
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    published = with_badge(readme, "someone/course", "v1.0")
    assert f"/someone/course/v1.0?urlpath={address(START).lstrip('/')})" in published
    assert published.count("badge") == 1
    assert with_badge(published, "someone/course", "v1.0") == published
    assert "badge" not in readme or f"/v{PROJECT['version']}?" in readme


def test_the_server_takes_uploads_as_large_as_the_course_does():
    largest = server().tornado_settings["websocket_max_message_size"]
    assert largest == LARGEST_MESSAGE_BYTES


def test_what_is_saved_while_exhibits_live_can_be_shown_another_day():
    assert server(AsyncLargeFileManager).pre_save_hook is keep_still


def test_any_cell_of_a_lesson_can_be_run_first():
    config = JSONFileConfigLoader("ipython_kernel_config.json", str(BINDER)).load_config()
    assert config.InteractiveShellApp.extensions == ["vorlib.lab.kernel"]
    assert "etc/ipython/ipython_kernel_config.json" in (BINDER / "postBuild").read_text()


def server(part=ServerApp):
    config = JSONFileConfigLoader("jupyter_server_config.json", str(BINDER)).load_config()
    return part(config=config)


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps no executable bit")
def test_the_last_step_of_the_build_can_be_run():
    assert os.access(BINDER / "postBuild", os.X_OK)

"""The course for a class on a hub: what is shipped, and what a learner's server is."""

import ast
import os
import re
import stat
import subprocess
import sys
from datetime import UTC, datetime
from pathlib import Path

import pytest
import zmq
from hub import REHEARSAL
from jupyter_client import KernelManager
from traitlets.config import Config

from vorlib import cli
from vorlib.commands.hub_config import hub_files
from vorlib.io.notebooks import START
from vorlib.lab.learner_server import COPIES, SIGNATURES_KEPT, settings
from vorlib.pages import address
from vorlib.pages.course_folder import shipped
from vorlib.practice.learning.attempt import Attempt
from vorlib.practice.record.exchange import parse_export
from vorlib.practice.record.record import Record

ROOT = Path(__file__).parents[2]
AT = datetime(2026, 5, 3, tzinfo=UTC)


def answer(key):
    return Attempt("reciprocal", 1, "right", answered_at=AT, taken_s=2.0, key=key)


def test_learners_land_on_the_first_page_of_the_course():
    for name in ("jupyterhub_config.py", "zero-to-jupyterhub.yaml"):
        assert address(START) in (hub_files() / name).read_text(encoding="utf-8")


def test_the_pages_name_only_commands_and_options_that_there_are(capsys):
    with pytest.raises(SystemExit):
        cli.main(["hub-config", "--help"])
    known = capsys.readouterr().out
    for page in hub_files().glob("*.md"):
        for option in re.findall(r"vorlib hub-config (--\w+)", page.read_text(encoding="utf-8")):
            assert option in known


def test_the_configuration_is_printed_and_copied_and_never_over_another(tmp_path, capsys):
    assert cli.main(["hub-config"]) == 0
    assert "c.Spawner.default_url" in capsys.readouterr().out
    assert cli.main(["hub-config", "--to", str(tmp_path / "hub")]) == 0
    copied = {path.name for path in (tmp_path / "hub").iterdir()}
    assert copied == {path.name for path in hub_files().iterdir() if path.is_file()}
    changed = tmp_path / "hub/jupyterhub_config.py"
    changed.write_text("# mine\n")
    assert cli.main(["hub-config", "--to", str(tmp_path / "hub")]) == 1
    assert changed.read_text() == "# mine\n"
    assert cli.main(["hub-config", "--to", str(tmp_path / "hub"), "--force"]) == 0


def test_a_learners_server_shows_the_course_and_keeps_the_learners_own(tmp_path, monkeypatch):
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("PYTHONSTARTUP", "")
    monkeypatch.setenv("JUPYTER_RUNTIME_DIR", "")
    monkeypatch.setenv("JUPYTER_DATA_DIR", str(tmp_path / "data"))
    set_so = settings(tmp_path)
    assert all((tmp_path / COPIES / name).is_file() for name in shipped())
    mine = tmp_path / COPIES / START
    text = mine.read_text(encoding="utf-8").replace("Start here", "My start", 1)
    mine.write_text(text, encoding="utf-8")
    settings(tmp_path)
    assert mine.read_text(encoding="utf-8") == text
    assert set_so["ServerApp"]["root_dir"] == str(tmp_path / COPIES)
    runtime = Path(os.environ["JUPYTER_RUNTIME_DIR"])
    assert stat.S_IMODE(runtime.stat().st_mode) == 0o700
    socket = f"{runtime}/kernel-{'0' * 36}-ipc-5"
    assert len(socket) < zmq.IPC_PATH_MAX_LEN
    talk = KernelManager(config=Config(set_so)).session
    for number in range(3 * SIGNATURES_KEPT):  # what is kept of a kernel's messages is bounded
        status = talk.serialize(talk.msg("status", {"execution_state": str(number)}))
        talk.deserialize(status[1:])
    assert len(talk.digest_history) <= SIGNATURES_KEPT


def test_a_server_begins_without_what_the_course_never_uses():
    begin = (
        "import sys; from vorlib.io.unused import leave_out_unused; leave_out_unused(); "
        "import jupyterlab.labapp; print(sorted({'lark', 'jsonschema'} & set(sys.modules)))"
    )
    said = subprocess.run([sys.executable, "-c", begin], capture_output=True, text=True, check=True)
    assert said.stdout.strip() == "['jsonschema']"


def test_a_record_is_for_its_learner_alone_to_read(tmp_path):
    record = Record("Wenna", tmp_path / "records")
    record.add(answer("a"))
    assert stat.S_IMODE(record.path.stat().st_mode) == 0o600
    assert stat.S_IMODE(record.path.parent.stat().st_mode) == 0o700


def test_records_are_collected_from_homes_and_links_are_left_out(tmp_path, capsys):
    for user, name in (("pilot01", "Sam"), ("pilot02", "Sam")):
        Record(name, tmp_path / user / ".local/share/vorlib/records").add(answer(user))
    theirs = tmp_path / "pilot01/.local/share/vorlib/records/learner-sam.sqlite3"
    (theirs.parent / "learner-lee.sqlite3").symlink_to(theirs)
    before = sorted(tmp_path.rglob("*")), theirs.read_bytes()
    out = tmp_path / "class"
    homes = [str(tmp_path / "pilot01"), str(tmp_path / "pilot02")]
    assert cli.main(["collect", *homes, "--to", str(out)]) == 0
    assert "learner-lee.sqlite3: it is a link" in capsys.readouterr().err
    assert before[1] == theirs.read_bytes()
    files = sorted(out.iterdir())
    assert [file.name for file in files] == ["pilot01-learner-sam.json", "pilot02-learner-sam.json"]
    keys = {parse_export(file.name, file.read_text()).attempts[0].key for file in files}
    assert keys == {"pilot01", "pilot02"}


def refuse_unless_loopback():
    """Return the rehearsal's check, without the hub that the rest of its file needs."""
    tree = ast.parse(REHEARSAL.read_text(encoding="utf-8"))
    tree.body = [
        part
        for part in tree.body
        if (isinstance(part, ast.FunctionDef) and part.name == "refuse_unless_loopback")
        or (isinstance(part, ast.Import | ast.ImportFrom) and "jupyterhub" not in ast.dump(part))
    ]
    names = {}
    exec(compile(tree, str(REHEARSAL), "exec"), names)
    return names["refuse_unless_loopback"]


@pytest.mark.parametrize("there", ["http://127.0.0.1:8000", "localhost", "http://[::1]:80/", "::1"])
def test_a_rehearsal_listens_to_this_machine(there):
    refuse_unless_loopback()(there)


@pytest.mark.parametrize(
    "there", ["http://0.0.0.0:8000", "http://:8000", "", "http://192.168.1.2/", "hub.example", "::"]
)
def test_a_rehearsal_refuses_every_other_address(there):
    with pytest.raises(ValueError, match=r"127\.0\.0\.1 and nowhere else"):
        refuse_unless_loopback()(there)

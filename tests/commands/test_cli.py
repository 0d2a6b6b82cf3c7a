"""The command line, and the server that it starts."""

import contextlib
import json
import os
import queue
import re
import shlex
import signal
import socket
import subprocess
import sys
import tempfile
import threading
import urllib.error
import urllib.request
from functools import partial
from importlib.metadata import version

import nbformat
import psutil
import pytest
import websocket

import vorlib
from vorlib import cli
from vorlib.commands.course import find_notebooks
from vorlib.io.notebooks import START
from vorlib.pages.course_folder import CourseFolder

PATIENCE_S = 300.0  # for a server on a busy machine; a wait that ends early costs nothing
CAUTION = "For training on the ground only, not for navigation."


def run(capsys, *arguments):
    """Return the exit status, the output and the error output of one command line."""
    try:
        status = cli.main(arguments)
    except SystemExit as stop:
        status = stop.code
    out, err = capsys.readouterr()
    return status, " ".join(out.split()), " ".join(err.split())


def write_start(folder):
    """Write a start notebook."""
    cells = [nbformat.v4.new_code_cell("6 * 7", id="start")]
    nbformat.write(nbformat.v4.new_notebook(cells=cells), folder / START)


@pytest.fixture
def folder(tmp_path):
    """A folder with a start notebook."""
    write_start(tmp_path)
    return tmp_path


def test_the_command_alone_prints_its_help(capsys):
    status, out, err = run(capsys)
    assert (status, err) == (0, "")
    assert out.startswith("usage: vorlib")
    assert "open the course in your browser" in out


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["debrief", "none.gpx", "--out", "d.pdf"], "none.gpx: no such file or directory"),
        (["prepare", "--out", ""], ". is a folder; name a file for --out"),
        (["worksheets", "--topic", "05", "--out", "A" * 400 + ".pdf"], "file name too long"),
        (["plan", "9" * 999], "the lesson must be one of"),
        (["A" * 999], "invalid choice"),
        (["course", "A" * 999], "unrecognized arguments"),
    ],
)
def test_whatever_is_typed_is_refused_in_a_line_that_can_be_read(
    capsys, tmp_path, monkeypatch, words, told
):
    monkeypatch.chdir(tmp_path)
    status, _, err = run(capsys, *words)
    assert status in (1, 2)
    said = err[err.rindex("vorlib") :] if status == 2 else err
    assert told in said
    assert len(said) < 300
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("arguments", [["--help"], ["course", "--help"]])
def test_every_help_says_that_the_course_is_for_the_ground_only(capsys, arguments):
    status, out, _ = run(capsys, *arguments)
    assert status == 0
    assert CAUTION in out


@pytest.mark.parametrize("command", cli.COMMANDS, ids=lambda command: command.__name__)
def test_the_examples_of_a_command_are_understood(capsys, monkeypatch, command):
    monkeypatch.setattr(command, "run", lambda options: None)
    name = command.__name__.rpartition(".")[2].replace("_", "-")
    with pytest.raises(SystemExit):
        cli.main([name, "--help"])
    examples = re.findall(r"(?m)^  vorlib (.*)", capsys.readouterr().out)
    assert examples
    for example in examples:
        assert run(capsys, *shlex.split(example))[0] == 0


def test_the_version_is_that_of_the_installed_package(capsys):
    assert run(capsys, "--version") == (0, f"vorlib {version('vorlib')}", "")
    assert vorlib.__version__ == version("vorlib")


def test_an_unknown_command_is_refused(capsys):
    status, _, err = run(capsys, "cuorse")
    assert status == 2
    assert "'cuorse'" in err


@pytest.mark.parametrize("port", ["0", "65536", "-1", "8888.5", "lab"])
def test_a_port_that_cannot_be_is_refused_with_what_is_allowed(capsys, port):
    status, _, err = run(capsys, "course", f"--port={port}")
    assert status == 2
    assert f"--port: must be a whole number from 1 to 65535, got '{port}'" in err


def test_the_named_folder_is_the_only_one_searched(folder):
    assert find_notebooks(folder) == folder.resolve()
    with pytest.raises(FileNotFoundError, match=re.escape(str(folder / "lessons"))):
        find_notebooks(folder / "lessons")


def test_the_current_directory_is_searched_when_vorlib_is_not_in_a_checkout(
    folder, tmp_path_factory, monkeypatch
):
    installed = tmp_path_factory.mktemp("site-packages")
    monkeypatch.setattr(
        "vorlib.io.notebooks.__file__", str(installed / "vorlib" / "io" / "notebooks.py")
    )
    notebooks = folder / "notebooks"
    notebooks.mkdir()
    (folder / START).rename(notebooks / START)
    monkeypatch.chdir(folder)
    assert find_notebooks() == notebooks.resolve()


@pytest.mark.parametrize(
    ("command", "words"),
    [
        ("debrief --altitude -99999", "--altitude: must be from -1,500 to 60,000 ft, got '-99999'"),
        ("debrief --altitude nan", "--altitude: must be from -1,500 to 60,000 ft, got 'nan'"),
        ("debrief --planned-altitude -5", "must be from 100 to 60,000 ft, got '-5'"),
        ("debrief --airspeed 5", "--airspeed: must be from 40 to 400 kt, got '5'"),
        ("debrief --planned-airspeed inf", "must be from 40 to 400 kt, got 'inf'"),
        ("debrief --variation 181", "must be from -180 to 180 degrees, got '181'"),
        ("debrief --flight 0", "--flight: must be a whole number from 1 to"),
        ("debrief --flight 1.5", "got '1.5'"),
        ("debrief --beside-flight -1", "--beside-flight: must be a whole number from 1 to"),
        ("prepare --altitude 1e9", "must be from 100 to 60,000 ft, got '1e9'"),
        ("prepare --airspeed fast", "must be from 40 to 400 kt, got 'fast'"),
        ("prepare --radius 0", "--radius: must be from 1 to 300 NM, got '0'"),
        ("assignment --seed -1", "--seed: must be a whole number from 0 to"),
        ("course --port 99999", "--port: must be a whole number from 1 to 65535, got '99999'"),
    ],
)
def test_a_number_out_of_all_reason_is_refused_with_what_is_allowed(capsys, command, words):
    with pytest.raises(SystemExit):
        cli.main([*command.split(), "--out", "none/never.pdf"])
    assert words in capsys.readouterr().err


def test_missing_notebooks_are_named_with_the_places_searched_and_what_to_do(
    capsys, tmp_path, monkeypatch
):
    module = tmp_path / "installed" / "vorlib" / "io" / "notebooks.py"
    monkeypatch.setattr("vorlib.io.notebooks.__file__", str(module))
    monkeypatch.chdir(tmp_path)
    status, out, err = run(capsys, "course")
    assert (status, out) == (1, "")
    assert START in err
    assert str(tmp_path / "installed" / "notebooks") in err
    assert str(tmp_path / "notebooks") in err
    assert "vorlib course --notebooks FOLDER" in err


# --- the server -----------------------------------------------------------------------------------

# The real command, in a process of its own, with a report of the socket option once a kernel
# connection is up: the option is on the server's end, where no client can see it.
COMMAND = """
import socket, sys
from vorlib import cli
from vorlib import server

class Reporting(server.NoDelayWebsocketConnection):
    def connect(self):
        connected = super().connect()
        end = self.websocket_handler.ws_connection.stream.socket
        print("nodelay", end.getsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY), flush=True)
        return connected

server.NoDelayWebsocketConnection = Reporting
sys.exit(cli.main(sys.argv[1:]))
"""


class Course:
    """A running `vorlib course`, read line by line."""

    def __init__(self, *arguments, **environment):
        self.own = tempfile.TemporaryDirectory()  # where the copies go
        self.process = subprocess.Popen(
            [
                *(sys.executable, "-c", COMMAND, "course", "--to", self.own.name),
                *map(str, arguments),
            ],
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            env=os.environ | environment,
        )
        self.seen = []
        self._lines = queue.Queue()
        self._reader = threading.Thread(target=self._read, daemon=True)
        self._reader.start()

    def _read(self):
        for line in self.process.stdout:
            self._lines.put(line.rstrip("\n"))
        self._lines.put(None)

    def line(self, pattern):
        """Return the next line that *pattern* matches as a whole."""
        while (line := self._lines.get(timeout=PATIENCE_S)) is not None:
            self.seen.append(line)
            if re.fullmatch(pattern, line):
                return line
        raise AssertionError("the server ended:\n" + "\n".join(self.seen))

    def rest(self):
        """Return the lines not yet read, once the server has ended."""
        return list(iter(partial(self._lines.get, timeout=PATIENCE_S), None))

    def stop(self):
        """Press Ctrl-C and return the exit status."""
        self.process.send_signal(signal.SIGINT)
        return self.process.wait(timeout=PATIENCE_S)

    def end(self):
        """End the server, whatever it does, and close the pipe once it has been read."""
        self.process.kill()
        self.process.wait()
        self._reader.join(timeout=PATIENCE_S)
        self.process.stdout.close()
        self.own.cleanup()


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


@contextlib.contextmanager
def serving(*arguments, **environment):
    """Run a course on a free port, and end it."""
    port = free_port()
    course = Course("--port", port, *arguments, **environment)
    course.port = port
    try:
        yield course
    finally:
        course.end()


@pytest.fixture
def course(folder, tmp_path_factory):
    """A course in the folder with a start notebook, for one test, on a machine without a browser.

    Without a display and a program on the path Python finds none.
    """
    nothing = {"PATH": str(tmp_path_factory.mktemp("path")), "DISPLAY": "", "BROWSER": ""}
    with serving("--notebooks", folder, **nothing) as course:
        yield course


OPEN_TO_ALL = """
c.ServerApp.ip = '0.0.0.0'
c.ServerApp.allow_origin = '*'
c.ServerApp.allow_remote_access = True
c.ServerApp.disable_check_xsrf = True
c.IdentityProvider.token = ''
"""


@pytest.fixture(scope="module")
def started(tmp_path_factory):
    """What a course said at its start, which several tests ask and none ends.

    Beside its start lie notebooks that cannot be read, and its user lets other servers hear all.
    """
    folder, config = tmp_path_factory.mktemp("course"), tmp_path_factory.mktemp("config")
    write_start(folder)
    (folder / "Untitled.ipynb").touch()
    (folder / "02_indicator.ipynb").mkdir()
    (config / "jupyter_server_config.py").write_text(OPEN_TO_ALL)
    (config / "voila.json").write_text('{"VoilaConfiguration": {"template": "classic"}}')
    configured = dict.fromkeys(("JUPYTER_CONFIG_DIR", "JUPYTER_CONFIG_PATH"), str(config))
    with serving(
        "--no-browser", "--notebooks", folder, JUPYTER_IP="0.0.0.0", **configured
    ) as course:
        course.line(r"http://\S+")
        yield course.seen


@pytest.fixture(scope="module")
def address(started):
    """The address of that course."""
    return started[-1]


def get(address, **request):
    with urllib.request.urlopen(
        urllib.request.Request(address, **request), timeout=PATIENCE_S
    ) as answer:
        return answer.read().decode()


@pytest.mark.skipif(sys.platform == "win32", reason="Ctrl-C cannot be sent to one process alone")
def test_the_course_is_served_with_a_token_and_a_quick_connection(course):
    course.line(r"Paste this address into a browser on this machine:")
    address = course.line(r"http://\S+")  # on a line of its own, to be copied
    site, token = address.split("/voila/render/00_start_here.ipynb?token=")
    assert site == f"http://localhost:{course.port}"
    assert len(token) >= 32

    lab = address.replace("/voila/render/", "/lab/tree/")
    disabled = re.search(r'"disabledExtensions": \[.*?\]', get(lab))
    assert "announcements" in disabled[0]  # no question about news over the first lesson
    listing = json.loads(get(f"{site}/api/contents?token={token}"))
    assert [entry["name"] for entry in listing["content"]] == [START]

    with pytest.raises(urllib.error.HTTPError, match="403"):
        get(f"{site}/api/contents")
    with pytest.raises(urllib.error.HTTPError, match="403"):
        get(f"{site}/api/contents?token={'0' * len(token)}")

    headers = {"Authorization": f"token {token}"}
    kernel = json.loads(get(f"{site}/api/kernels", method="POST", data=b"{}", headers=headers))
    channels = f"{site.replace('http', 'ws')}/api/kernels/{kernel['id']}/channels?token={token}"
    connection = websocket.create_connection(channels, timeout=PATIENCE_S)
    assert course.line(r"nodelay .*") == "nodelay 1"
    connection.close()

    assert course.stop() == 0
    # Others warn in their own name: a kernel of no encryption, nbgrader of having no settings,
    # tornado of a kernel's word that comes while the server ends.
    others = ("[IPKernelApp", "[NbGrader", "WARNING:tornado.general:Got events for closed stream")
    said = [line for line in [*course.seen, *course.rest()] if not line.startswith(others)]
    assert not [line for line in said if "WARNING" in line]


@pytest.mark.skipif(sys.platform == "win32", reason="Ctrl-C cannot be sent to one process alone")
def test_a_second_ctrl_c_does_not_wait_for_a_kernel_that_hangs(course):
    site, token = course.line(r"http://\S+").split("/voila/render/00_start_here.ipynb?token=")
    headers = {"Authorization": f"token {token}"}
    get(f"{site}/api/kernels", method="POST", data=b"{}", headers=headers)
    children = psutil.Process(course.process.pid).children(recursive=True)
    kernels = [child for child in children if "ipykernel" in " ".join(child.cmdline())]
    for kernel in kernels:
        kernel.suspend()  # to end, each is waited for some seconds
    course.process.send_signal(signal.SIGINT)
    while course.process.poll() is None:
        with contextlib.suppress(subprocess.TimeoutExpired):
            course.process.wait(timeout=1.0)
        course.process.send_signal(signal.SIGINT)
    for kernel in kernels:
        kernel.kill()
    assert kernels
    assert course.process.returncode == -signal.SIGINT


def test_a_file_of_more_than_10_mb_can_be_uploaded(address):
    site, token = address.split("/voila/render/00_start_here.ipynb?token=")
    headers = {"Authorization": f"token {token}"}
    kernel = json.loads(get(f"{site}/api/kernels", method="POST", data=b"{}", headers=headers))
    channels = f"{site.replace('http', 'ws')}/api/kernels/{kernel['id']}/channels?token={token}"
    connection = websocket.create_connection(channels, timeout=PATIENCE_S)
    header = {"msg_id": "large", "session": "", "username": "", "version": "5.3"}
    message = {
        "channel": "shell",
        "header": header | {"msg_type": "kernel_info_request"},
        "parent_header": {},
        "metadata": {"file": "0" * 12_000_000},
        "content": {},
    }
    connection.send(json.dumps(message))
    answer = {}
    while answer.get("msg_type") != "kernel_info_reply" or answer["parent_header"] == {}:
        answer = json.loads(connection.recv())  # or the connection is closed, which raises
    connection.close()


def shows_saved_pictures(address):
    """Tell whether JupyterLab would show the pictures saved in the start notebook."""
    page = json.loads(get(address.replace("/voila/render/", "/api/contents/")))
    code = [cell for cell in page["content"]["cells"] if cell["cell_type"] == "code"]
    return all(cell["metadata"]["trusted"] for cell in code)


def test_pictures_are_not_trusted_where_the_notebook_is_not_the_courses_own(address):
    assert not shows_saved_pictures(address)


@pytest.mark.parametrize("content", ["", "{}", "[]", "{", '{"nbformat": 9}', "<<<<<<< ours\n"])
def test_a_notebook_that_cannot_be_read_is_named_and_left_out(folder, content):
    (folder / "01_radials.ipynb").write_text(content)
    (folder / "handed_in.ipynb").write_text(content)
    left_out = dict(CourseFolder(folder).left_out())
    assert left_out == {
        "01_radials.ipynb": "it cannot be read as a notebook",
        "handed_in.ipynb": "it is not part of the course",
    }
    assert [part.name for part in CourseFolder(folder).parts()] == [START]


def test_a_course_whose_start_cannot_be_read_is_left_without_it(folder):
    (folder / START).write_text("{")
    course = CourseFolder(folder)
    assert (course.parts(), dict(course.left_out())) == (
        [],
        {START: "it cannot be read as a notebook"},
    )


def test_a_server_starts_beside_notebooks_that_cannot_be_read(started):
    said = "\n".join(started)
    assert re.search(r"^02_indicator\.ipynb is left out: .+", said, re.MULTILINE)
    assert "Untitled.ipynb is left out: it is not part of the course.\n" in said


def test_what_is_configured_for_other_servers_plays_no_part(address):
    assert "VOR navigation" in get(address)
    with urllib.request.urlopen(address, timeout=PATIENCE_S) as answer:
        assert answer.headers["Access-Control-Allow-Origin"] != "*"
    for url, headers in [
        (address.partition("?")[0], {}),
        (address, {"Host": "elsewhere.example"}),
    ]:
        with pytest.raises(urllib.error.HTTPError, match="403"):
            get(url.replace("/voila/render", "/api/contents"), headers=headers)
    kernels = address.replace("/voila/render/00_start_here.ipynb", "/api/kernels")
    with pytest.raises(urllib.error.HTTPError, match="403"):
        get(kernels.partition("?")[0], method="POST", data=b"{}")


def test_a_port_in_use_is_named(folder):
    with socket.socket() as holder:
        holder.bind(("127.0.0.1", 0))
        holder.listen()
        port = holder.getsockname()[1]
        course = Course("--no-browser", "--port", port, "--notebooks", folder)
        course.line(f".*port {port} is not available.*")
        assert course.process.wait(timeout=PATIENCE_S) == 1

"""No data stands in tests/data without its source."""

import re
from pathlib import Path

import pytest

DATA = Path(__file__).parents[1] / "data"
TABLE = "README.md"


def uncited(folder):
    """Return the names of the files of data that say no source, in themselves or in the table."""
    rows = (folder / TABLE).read_text(encoding="utf-8").splitlines()
    cited = {row.split("|")[1].strip() for row in rows if re.match(r"\| \S+ \|.*\w.*\|.*\w", row)}
    files = [path for path in folder.iterdir() if path.is_file() and path.suffix != ".py"]
    return {path.name for path in files if not says_source(path)} - cited - {TABLE}


def says_source(path):
    """Tell whether a file begins with its source: document, edition or date, and place in it."""
    first = path.read_bytes().partition(b"\n")[0].decode("utf-8", errors="replace")
    return re.match(r"# Source: .*\w+.*, .*\d", first) is not None


def test_every_file_of_data_says_where_it_comes_from():
    assert uncited(DATA) == set()


@pytest.mark.parametrize("first", ["a,b", "# Source: ", "# Source: somewhere"])
def test_a_file_without_a_source_is_found(tmp_path, first):
    (tmp_path / TABLE).write_text("| file | origin |\n|---|---|\n| cited.csv | what | FAA | |\n")
    (tmp_path / "cited.csv").write_text("a\n1\n")
    (tmp_path / "own.csv").write_text("# Source: AIM, 2025 edition, 1-1-3\na\n1\n")
    (tmp_path / "uncited.csv").write_text(f"{first}\n1\n")
    assert uncited(tmp_path) == {"uncited.csv"}

"""Where a fact comes from: one label for one document, and a mark that says how it was read."""

import ast
import json
import re
import tokenize
import tomllib
from functools import cache
from itertools import groupby
from pathlib import Path

import pytest
from tools.reference_notebooks import made

from vorlib.practice.questions.registry import draw

ROOT = Path(__file__).parents[2]
CODE = sorted((ROOT / "vorlib").rglob("*.py"))
TESTS = sorted(path for path in (ROOT / "tests").rglob("*.py") if path != Path(__file__))
PREDICTIONS = sorted((ROOT / "vorlib" / "data" / "predictions").glob("*.toml"))
NOTEBOOKS = sorted(
    path for path in (ROOT / "notebooks").rglob("*.ipynb") if "checkpoint" not in str(path)
)
TEACHING = [path for path in NOTEBOOKS if path.name not in {"glossary.ipynb", "sources.ipynb"}]

# The editions in force when this was written, and how each is cited: an instructor has to find it.
LABELS = re.compile(
    r"Pilot's Handbook \(FAA-H-8083-25C\)(?=, chapter \d| is of)"
    r"|Instrument Flying Handbook \(FAA-H-8083-15B\)(?=, chapter \d| of)"
    r"|Aviation Instructor's Handbook \(FAA-H-8083-9B\)"
    r"|Private Pilot ACS \(FAA-S-ACS-6C\)(?=, area VI, task B|: the)"
    r"|Instrument Rating ACS \(FAA-S-ACS-8C\)(?=, area V, task A)"
    r"|14 CFR 91\.171"
    r"|AIM 1-1-\d|AIM: the Aeronautical Information Manual"
    r"|ICAO Annex 10, volume I(?=, (attachment [A-Z] )?\d)"
    r"|ICAO Doc 8168, volume II?(?=, part I| has)"
)
DOCUMENTS = re.compile(
    r"PHAK|\bIFH\b|Handbook|FAA-[HS]-|\bACS\b|Airman Certification(?! Standards in force)"
    r"|91\.171|(?<!PANS-)\bAIM\b|Aeronautical Information Manual|Annex 10|Doc 8168|PANS-OPS"
    r"|\b[Pp]age \d+-\d|\b[Ff]igure \d+-\d"
)
MARK = re.compile(r"\bread\b|at third hand|from memory|common practice|chosen for", re.IGNORECASE)
OWN = re.compile(r"this course|of a choice|library's own|invented|worked out|computed")

# What stands for a fact of the trade, and not for a choice of this library.
FIGURES = {
    "vor/coverage.py": (
        "HORIZON_NM_PER_ROOT_FT", "CONE_HALF_ANGLE_DEG", "LOWEST_PUBLISHED_FT", "SERVICE_VOLUMES",
    ),
    "vor/receiver.py": ("FULL_SCALE_DEG", "DOTS_FULL_SCALE", "ABEAM_HALF_WIDTH_DEG"),
    "vor/station.py": ("LOWEST_MHZ", "VOR_ONLY_MHZ"),
    "vor/bearing_errors.py": ("BEND_LENGTH_NM", "SCALLOP_LENGTH_NM"),
    "aircraft/turns.py": ("STANDARD_GRAVITY_M_S2", "STANDARD_RATE_DEG_S"),
    "receiver_check/check.py": ("TEST_SIGNAL_RADIAL_DEG",),
    "receiver_check/rules.py": ("RULES",),
    "receiver_check/error_budget.py": ("ROUTE_BUDGET",),
    "procedures/intercept.py": ("SMALLEST_INTERCEPT_DEG", "LARGEST_INTERCEPT_DEG"),
    "procedures/tracking.py": ("RULE_FT_PER_DOT_NM", "RULE_FT_PER_NM"),
    "procedures/timing.py": ("RULE_MINUTES",),
    "procedures/dme_error_area.py": ("DME_BOUND_NM",),
    "signal/modulate.py": (
        "TONE_HZ", "SUBCARRIER_HZ", "FM_RATIO", "AM_DEPTH", "IDENT_DEPTH", "IDENT_EVERY_S",
    ),
    "morse/encode.py": ("WORDS_PER_MINUTE", "IDENT_TONE_HZ", "MAINTENANCE"),
    "debrief/findings.py": ("LIMIT_SHARE",),
    "debrief/indicator_history.py": ("ESTABLISHED_DOTS",),
}  # fmt: skip


def flat(text: str) -> str:
    """A text in one line, without the signs of comments and of strings that go on."""
    return re.sub(r"\s+", " ", re.sub(r'"\s*\n\s*f?"|\n\s*#|^#', " ", text))


def other_names(text: str) -> list[str]:
    """What a text calls a document by, with what stands around it, but its label."""
    rest = LABELS.sub("", text)
    return [rest[max(0, n.start() - 40) : n.end() + 40] for n in DOCUMENTS.finditer(rest)]


@cache
def comments(path: Path) -> list[str]:
    """The comments of a file, those of neighboring lines as one."""
    with path.open("rb") as file:
        found = [t for t in tokenize.tokenize(file.readline) if t.type == tokenize.COMMENT]
    apart = groupby(
        enumerate(found), lambda n: (n[1].start[0] - n[0], n[1].line.lstrip().startswith("#"))
    )
    blocks = [(own, [t.string for _, t in group]) for (_, own), group in apart]
    return [text for own, block in blocks for text in ([" ".join(block)] if own else block)]


@cache
def docstrings(path: Path) -> list[str]:
    """The docstrings of a file, by paragraph; with them the strings that stand under a name."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    texts = [
        node.value.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
    ]
    return [part for text in texts if isinstance(text, str) for part in text.split("\n\n")]


def prose(path: Path) -> list[str]:
    """The text cells of a notebook."""
    cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
    return ["".join(cell["source"]) for cell in cells if cell["cell_type"] == "markdown"]


def sources(path: Path) -> list[str]:
    """The entries under the heading *Sources* of a notebook."""
    text = "\n\n".join(prose(path))
    return re.split(r"^- ", text.partition("## Sources")[2], flags=re.M)[1:]


def test_a_document_has_one_name_and_the_edition_in_force_everywhere():
    texts = [(p, flat(p.read_text(encoding="utf-8"))) for p in (*CODE, *PREDICTIONS)]
    texts += [(p, flat(note)) for p in TESTS for note in (*comments(p), *docstrings(p))]
    texts += [(p, flat(cell)) for p in NOTEBOOKS for cell in prose(p)]
    assert not [(path.name, name) for path, text in texts for name in other_names(text)]


@pytest.mark.parametrize(
    "text",
    [
        "PHAK (from memory)",
        "IFH (FAA-H-8083-15B), chapter 9",
        "Instrument Flying Handbook (FAA-H-8083-15), chapter 7",
        "Pilot's Handbook (FAA-H-8083-25C)",
        "AIM table 1-1-1",
        "Annex 10 volume I, 3.3.2",
        "on page 7-11",
    ],
)
def test_another_name_an_older_edition_or_no_chapter_is_noticed(text):
    assert other_names(text)


def test_every_source_in_the_code_says_whether_the_document_was_read():
    notes = [(p.name, flat(note)) for p in CODE for note in (*comments(p), *docstrings(p))]
    assert not [note for note in notes if LABELS.search(note[1]) and not MARK.search(note[1])]


@pytest.mark.parametrize("path", TEACHING, ids=lambda path: path.stem)
def test_every_source_of_a_notebook_says_whether_it_was_read(path):
    assert (
        path.name in made()
        or sources(path)
        or any("](sources.ipynb)" in text for text in prose(path))
    )
    unmarked = [s for s in map(flat, sources(path)) if not (MARK.search(s) or OWN.search(s))]
    assert not [entry for entry in unmarked if "choice" not in entry]


TABLE = tomllib.loads((ROOT / "vorlib" / "data" / "sources.toml").read_text(encoding="utf-8"))
# What stands behind a document's name, up to how it was read or what it says.
PLACE = re.compile(r"(.*?)(?= \(| has | prints |: |, (?:of|from|paragraphs) | read |$)")
WORD = re.compile(r"[A-Za-z]{3,}|\d+(?:\.\d+)+|\b[a-e]\b")


def test_every_fact_in_the_table_of_sources_says_how_it_was_read():
    marks = [fact["mark"] for document in TABLE["document"] for fact in document["fact"]]
    assert [mark for mark in marks if not (MARK.search(mark) or OWN.search(mark))] == []


def test_every_place_that_the_code_cites_stands_in_the_table_of_sources():
    known: dict[str, set[str]] = {}
    for entry in TABLE["document"]:
        places = " ".join(fact["place"] for fact in entry["fact"])
        known.setdefault(entry["document"], set()).update(WORD.findall(places))
    notes = [flat(note) for path in CODE for note in (*comments(path), *docstrings(path))]
    for label in (label for note in notes for label in LABELS.finditer(note)):
        place = PLACE.match(label.string, label.end())
        cited = set(WORD.findall(place[1] if place else ""))
        assert cited <= known.get(label[0], set()), label.string[label.start() :]


@pytest.mark.parametrize("file", FIGURES)
def test_a_figure_of_the_trade_has_its_source_and_its_mark_beside_it(file):
    blocks = (ROOT / "vorlib" / file).read_text(encoding="utf-8").split("\n\n")
    for name in FIGURES[file]:
        (block,) = [b for b in blocks if re.search(rf"^({name}\b|.*, {name} =)", b, re.M)]
        assert MARK.search(block), name


def test_whose_rule_it_is_is_said_wherever_it_is_asked_or_taught():
    told = [text.partition("## Sources")[0] for path in NOTEBOOKS for text in prose(path)]
    for path in PREDICTIONS:
        for entry in tomllib.loads(path.read_text(encoding="utf-8"))["prediction"]:
            told += [entry["question"], entry["because"]]
    for kind in ("check_verdict", "check_days", "two_receivers", "log_entry", "service_volume"):
        question = draw(kind, 1)
        told.append(question.prompt)
        assert re.search(r"\bOther states\b", question.worked), kind
    assert not [t for t in told if re.search(r"91\.171|AIM 1-1-8", t) and "United States" not in t]

"""What is written for developers stays short, and names what is there."""

import re
from pathlib import Path

ROOT = Path(__file__).parents[2]
TEXT = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
PACKAGE = ROOT / "vorlib"
MOST_WORDS = 1300


def test_it_can_be_read_in_a_few_minutes():
    assert len(TEXT.split()) <= MOST_WORDS


def test_every_file_it_names_outside_its_recipes_is_there():
    prose = re.sub(r"^```recipe .*?^```", "", TEXT, flags=re.M | re.S)
    named = re.findall(r"`(?:python )?([\w/]+/[\w.]+\.py)\b", prose)
    missing = [name for name in named if not any((r / name).exists() for r in (ROOT, PACKAGE))]
    assert named
    assert not missing

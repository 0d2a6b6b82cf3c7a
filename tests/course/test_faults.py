"""The deliberate faults by which `tests/tools/mutate.py` tries the tests."""

from pathlib import Path

from tools.mutate import EXCUSED, FAULTS

import vorlib

PACKAGE = Path(vorlib.__file__).parent
LEAST = 60


def test_every_fault_finds_its_place_in_the_code_as_it_is() -> None:
    assert len({fault.name for fault in FAULTS}) == len(FAULTS) >= LEAST
    lost = [
        fault.name
        for fault in FAULTS
        if fault.old not in (PACKAGE / fault.file).read_text(encoding="utf-8")
    ]
    assert not lost


def test_only_faults_there_are_can_be_excused() -> None:
    assert {*EXCUSED} <= {fault.name for fault in FAULTS}

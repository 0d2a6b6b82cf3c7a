"""``vorlib worksheets``: printed practice from the command line."""

import re

import pytest

from vorlib import cli
from vorlib.core.caution import CAUTION


def worksheets(capsys, *arguments):
    """Return the exit status, the output and the error output."""
    status = cli.main(["worksheets", *map(str, arguments)])
    return status, *capsys.readouterr()


def test_a_sheet_and_its_key_are_written_and_named(tmp_path, capsys):
    sheet = tmp_path / "sheet.pdf"
    status, out, _ = worksheets(capsys, "--topic", "05", "--count", 1, "--seed", 7, "--out", sheet)
    assert status == 0
    assert CAUTION in out
    for path in (sheet, tmp_path / "sheet_key.pdf"):
        assert path.read_bytes().startswith(b"%PDF-")
        assert f"written: {path}" in out
    assert len(list(tmp_path.iterdir())) == 2


def test_key_and_card_are_written_where_they_are_asked_for(tmp_path, capsys):
    names = [tmp_path / name for name in ("s.pdf", "k.pdf", "c.pdf")]
    options = [
        word for pair in zip(("--out", "--key", "--card"), names, strict=True) for word in pair
    ]
    status, _, _ = worksheets(
        capsys, "--topic", "sensing", "--count", 1, "--paper", "letter", *options
    )
    assert status == 0
    assert sorted(tmp_path.iterdir()) == sorted(names)


def test_without_a_seed_a_new_one_is_taken_and_said(tmp_path, capsys, monkeypatch):
    monkeypatch.setattr("vorlib.paper.worksheet.randbelow", lambda below: below - 1)
    out = tmp_path / "s.pdf"
    _, said, _ = worksheets(capsys, "--topic", "10", "--count", 1, "--open", "--out", out)
    assert "seed 9999" in said
    taken = out.read_bytes()
    worksheets(capsys, "--topic", "10", "--count", 1, "--seed", 9999, "--open", "--out", out)
    assert out.read_bytes() == taken


def test_the_key_is_found_again_by_the_code_that_was_printed(tmp_path, capsys):
    out = tmp_path / "sheet.pdf"
    _, said, _ = worksheets(capsys, "--topic", "04,05", "--count", 2, "--out", out)
    code, secret = (re.search(rf"^{name} (\w\S+)\b", said, re.M)[1] for name in ("code", "secret"))
    again = ("--key-for", code.lower(), "--out", tmp_path / "again.pdf")
    status, _, error = worksheets(capsys, *again)
    assert status == 1
    assert "only with the secret" in error
    status, _, _ = worksheets(capsys, *again, "--secret", secret)
    assert status == 0
    key = (tmp_path / "sheet_key.pdf").read_bytes()
    assert (tmp_path / "again.pdf").read_bytes() == key


def test_sheets_for_neighbors_stand_one_after_the_other_in_the_same_two_files(tmp_path, capsys):
    out = tmp_path / "s.pdf"
    options = ("--topic", "04", "--count", 3, "--room", "little", "--open", "--seed", 5)
    worksheets(capsys, *options, "--out", out)
    alone = out.read_bytes()
    worksheets(capsys, *options, "--variants", 2, "--swap", "1,1", "--out", out)
    pages = [
        pdf.count(b"/Type /Page\n") + pdf.count(b"/Type /Page ")
        for pdf in (alone, out.read_bytes())
    ]
    assert len(list(tmp_path.iterdir())) == 2
    assert pages[1] == 2 * pages[0] > 0


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("--topic", "99"), "the topic must be a lesson (01, 02"),
        (("--topic", "05", "--count", "0"), "from 1 to 100"),
        (("--topic", "05", "--count", "101"), "from 1 to 100"),
        (("--topic", "05", "--count", "many"), "'many'"),
        (("--topic", "05", "--seed", "-1"), "the seed must be a whole number"),
        (("--topic", "05", "--paper", "A5"), "A4, Letter"),
        (("--topic", "05", "--key", "none/key.pdf"), "there is no folder none for key.pdf"),
        (("--key-for", "05-20-8-YYT"), "typing error"),
        (("--key-for", "05-20-7-YYT", "--count", "20"), "leave out --count"),
        (("--topic", "05", "--variants", "5"), "variants must be 1 to 4"),
        (("--topic", "05", "--swap", "21"), "swapped questions must be 1 to 20"),
        (("--topic", "05", "--swap", "a"), "--swap must be whole numbers"),
        (("--topic", "05", "--secret", "short"), "8 to 24 letters"),
        (("--topic", "05", "--open", "--secret", "LONGENOUGH"), "leave out --open or --secret"),
        (("--topic", "05", "--room", "huge"), "little, some, plenty"),
        ((), "give --topic"),
    ],
)
def test_a_wrong_option_is_named_and_leaves_no_file(tmp_path, capsys, arguments, words):
    status, _, error = worksheets(capsys, *arguments, "--out", tmp_path / "sheet.pdf")
    assert status == 1
    assert words in error
    assert "Traceback" not in error
    assert not list(tmp_path.iterdir())


def test_the_help_says_that_it_is_for_the_ground_only(capsys):
    with pytest.raises(SystemExit):
        cli.main(["worksheets", "--help"])
    assert CAUTION.split(".")[0] in " ".join(capsys.readouterr().out.split())

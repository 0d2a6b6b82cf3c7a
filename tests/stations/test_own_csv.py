"""A station file either gives every station in it, or says what to put right and where."""

import io
from pathlib import Path

import pytest

import vorlib
from vorlib.stations.archipelago import STATIONS
from vorlib.stations.own_csv import COLUMNS, StationFileError, read_stations

EXAMPLE = Path(vorlib.__file__).parent / "data" / "example_stations.csv"
HEADER = ",".join(COLUMNS)
QUILLON = "QLN,Quillon,46.0167,-30.1439,640,-9,113.40,L"


def messages_of(*rows, header=HEADER):
    with pytest.raises(StationFileError) as caught:
        read_stations(io.StringIO("\n".join((header, *rows))))
    assert str(caught.value) == "\n".join(caught.value.messages)
    return caught.value.messages


def test_the_example_file_holds_the_stations_of_the_lessons():
    for station, expected in zip(read_stations(EXAMPLE), STATIONS.values(), strict=True):
        assert (station.ident, station.name, station.service) == (
            expected.ident,
            expected.name,
            expected.service,
        )
        assert station.frequency_mhz == expected.frequency_mhz
        assert station.declination_deg == expected.declination_deg
        assert station.distance_nm(expected.position) == 0.0
        assert station.position.altitude_ft == expected.position.altitude_ft


def test_a_path_may_be_a_plain_string():
    assert len(read_stations(str(EXAMPLE))) == 5


@pytest.mark.parametrize("newline", ["\n", "\r\n", "\r"], ids=["unix", "windows", "old mac"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"], ids=["plain", "byte-order mark"])
def test_line_ends_and_a_byte_order_mark_do_no_harm(tmp_path, newline, mark):
    path = tmp_path / "stations.csv"
    path.write_bytes(mark + newline.join((HEADER, QUILLON, "")).encode())
    assert [station.ident for station in read_stations(path)] == ["QLN"]


def test_a_stream_may_carry_a_byte_order_mark_or_bytes():
    text = f"\ufeff{HEADER}\n{QUILLON}\n"
    assert read_stations(io.StringIO(text))[0].ident == "QLN"
    assert read_stations(io.BytesIO(text.encode()))[0].ident == "QLN"


def test_columns_may_come_in_any_order_and_blank_lines_are_passed_over():
    text = "\n".join(
        (
            ",".join(reversed(COLUMNS)),
            "",
            ",".join(reversed(QUILLON.split(","))),
            ",,,,,,,",
        )
    )
    assert read_stations(io.StringIO(text))[0].name == "Quillon"


def test_a_name_may_hold_a_comma_in_quotes_and_letters_of_any_language():
    row = QUILLON.replace("Quillon", '"Quillon, Førde"')
    assert read_stations(io.StringIO(f"{HEADER}\n{row}"))[0].name == "Quillon, Førde"


BAD_CELLS = [
    ("lat_deg", "91", "-90 to 90"),
    ("lat_deg", "forty-six", "number"),
    ("lat_deg", "nan", "finite"),
    ("lat_deg", "", "number"),
    ("lon_deg", "-361", "-360 to 360"),
    ("lon_deg", "30W", "number"),
    ("elevation_ft", "high", "number"),
    ("elevation_ft", "inf", "finite"),
    ("declination_deg", "9W", "number"),
    ("declination_deg", "181", "-180 to 180"),
    ("frequency_mhz", "107.95", "108 to 117.95"),
    ("frequency_mhz", "118", "108 to 117.95"),
    ("frequency_mhz", "113.42", "multiple of 0.05"),
    ("service", "X", "T, L, H, VL, VH"),
    ("ident", "", "capital letters"),
    ("ident", "Q1N", "capital letters"),
]


@pytest.mark.parametrize(
    ("column", "value", "allowed"), BAD_CELLS, ids=[f"{c}={v}" for c, v, _ in BAD_CELLS]
)
def test_a_bad_cell_is_named_with_row_column_value_and_what_is_allowed(column, value, allowed):
    cells = QUILLON.split(",")
    cells[COLUMNS.index(column)] = value
    (message,) = messages_of(QUILLON.replace("QLN", "OBL"), ",".join(cells))
    assert message.startswith("row 3: ")
    assert column in message
    assert value in message
    assert allowed in message


def test_every_bad_row_is_reported_at_once():
    messages = messages_of(
        QUILLON.replace("46.0167", "91"),
        QUILLON,
        QUILLON.replace(",L", ",Z"),
        QUILLON,
    )
    assert [message.split(":")[0] for message in messages] == ["row 2", "row 4", "row 5"]


def test_an_ident_given_twice_is_named_with_both_rows():
    (message,) = messages_of(QUILLON, QUILLON)
    assert message.startswith("row 3: ident")
    assert "'QLN' as in row 2" in message


def test_a_row_number_counts_lines_as_an_editor_does():
    two_line_name = QUILLON.replace("Quillon", '"Quillon\nFirst"')
    (message,) = messages_of("", two_line_name, QUILLON.replace("QLN", "obl"))
    assert message.startswith("row 5: ")


@pytest.mark.parametrize("row", [QUILLON + ",extra", QUILLON.removesuffix(",L")])
def test_a_row_with_too_many_or_too_few_cells_says_how_many_are_wanted(row):
    (message,) = messages_of(row)
    assert message == f"row 2: there must be 8 cells, one a column, got {len(row.split(','))}"


def test_a_wrong_header_names_what_is_missing_what_is_unknown_and_what_is_allowed():
    (message,) = messages_of(QUILLON, header=HEADER.replace("lat_deg", "latitude"))
    assert "missing: 'lat_deg'" in message
    assert "unknown: 'latitude'" in message
    assert message.endswith(", ".join(COLUMNS))


def test_a_column_given_twice_is_named():
    (message,) = messages_of(header=HEADER + ",ident")
    assert "given twice: 'ident'" in message


def test_a_file_with_tabs_is_told_to_use_commas():
    (message,) = messages_of(header=HEADER.replace(",", "\t"))
    assert "separated by commas" in message


def test_an_empty_file_and_a_header_alone_are_told_apart():
    (message,) = messages_of(header="\n\n")
    assert "empty" in message
    (message,) = messages_of()
    assert "no station" in message


@pytest.mark.parametrize(
    "data",
    [b"\x89PNG\r\n\x1a\n\x00\x00", HEADER.encode("utf-16"), b"ident\0name"],
    ids=["picture", "utf-16", "zero bytes"],
)
def test_a_file_that_is_not_text_is_told_how_to_be_saved(tmp_path, data):
    path = tmp_path / "stations.csv"
    path.write_bytes(data)
    with pytest.raises(StationFileError, match=r"not (UTF-8 )?text.*CSV"):
        read_stations(path)


def test_a_control_character_is_named_by_its_line():
    (message,) = messages_of(QUILLON, QUILLON.replace("QLN,Qu", "OBL,\x1b[1m"))
    assert message.startswith("the file is not text (line 3 holds the control character 0x1b): ")


def test_a_quote_that_never_closes_is_named_by_its_row():
    (message,) = messages_of('QLN,"Quillon,46,-30')
    assert message.startswith("row 2: ")


def test_a_file_that_does_not_exist_is_the_systems_error(tmp_path):
    with pytest.raises(FileNotFoundError):
        read_stations(tmp_path / "none.csv")

"""GPX is read as a recorder wrote it; what is broken or hostile is refused before it can act."""

import io
import re

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracks.written import HEAD, ROOT, START, gpx, north, trk, trkpt
from vorlib.io.text import FileError
from vorlib.tracks import read_track
from vorlib.tracks.gpx import read_gpx

CANARY = "what no reader may see"


def read(text, **options):
    return read_track(text if isinstance(text, bytes) else text.encode(), **options)


def refused(text, **options):
    with pytest.raises(FileError) as caught:
        read(text, **options)
    message = str(caught.value)
    assert CANARY not in message
    return message


def test_a_track_is_read_with_its_places_times_and_altitudes():
    recording = read(gpx(north()))
    np.testing.assert_array_equal(recording.flight.time_s, [0, 1, 2, 3, 4])
    np.testing.assert_array_equal(recording.flight.position.lat_deg, [p[1] for p in north()])
    np.testing.assert_allclose(recording.flight.position.altitude_ft, 1000.0 / 0.3048)
    np.testing.assert_allclose(recording.flight.true_track_deg, 360.0)
    assert recording.start.isoformat() == "2026-06-01T09:00:00+00:00"


@pytest.mark.parametrize("kind", [str, io.StringIO, io.BytesIO], ids=["path", "text", "bytes"])
def test_a_path_and_open_streams_are_read_alike(kind, tmp_path):
    text = gpx(north())
    source = {io.StringIO: io.StringIO(text), io.BytesIO: io.BytesIO(text.encode())}.get(kind)
    if source is None:
        path = tmp_path / "flight.gpx"
        path.write_text(text)
        source = str(path)
    assert read_track(source).flight.time_s.size == 5


@pytest.mark.parametrize(
    "text",
    [
        gpx(north()).replace(HEAD, ""),
        "\ufeff" + gpx(north()),
        gpx(north()).replace("\n", "\r\n"),
        gpx(north()).replace('xmlns="http', "xmlns='http").replace('GPX/1/1"', "GPX/1/1'"),
        gpx(north()).replace(' version="1.1"', ' version="1.0"'),
        gpx(north()).replace("UTF-8", "ISO-8859-1"),
        gpx(north()).replace("GPX/1/1", "GPX/1/1 GPX/1/1/gpx.xsd"),
        gpx(north()).replace("<trkseg>", "<name>of &amp; <![CDATA[<trkpt>]]></name><trkseg>"),
        gpx(north()).replace("<trkseg>", "<!-- <trkpt> --><trkseg><!-- <trkpt> -->"),
    ],
    ids=[
        "no head",
        "mark",
        "windows",
        "quotes",
        "1.0",
        "latin",
        "schema",
        "characters",
        "comments",
    ],
)
def test_what_recorders_vary_does_no_harm(text):
    assert read(text).flight.time_s.size == 5


@pytest.mark.parametrize("version", ["1/0", "1/1"])
@pytest.mark.parametrize("prefix", ["", "g"])
def test_gpx_may_have_any_prefix_and_elements_of_others_are_passed_over(version, prefix):
    other = "<o:ele>9</o:ele><o:time>noon</o:time><o:trkpt/><extensions><o:a/></extensions>"
    text = gpx(north()).replace("1/1", version).replace("<ele>", f"{other}<ele>")
    if prefix:
        text = re.sub(r"<(/?)(\w+)(?=[ >])(?!:)", rf"<\1{prefix}:\2", text)
        text = text.replace("xmlns=", f"xmlns:{prefix}=")
    text = text.replace(" creator", ' xmlns:o="another" creator')
    np.testing.assert_allclose(read(text).flight.position.altitude_ft, 1000.0 / 0.3048)


def test_every_point_may_declare_the_namespace_of_its_extensions():
    extensions = '<extensions><o:a xmlns:o="another"/></extensions></trkpt>'
    assert read(gpx(north(200)).replace("</trkpt>", extensions)).flight.time_s.size == 200


@pytest.mark.parametrize("unknown", ["<ele/>", "<ele> </ele>", "<ele>NaN</ele>", ""])
def test_an_elevation_that_is_not_known_is_no_fault(unknown):
    text = gpx(north()).replace("<ele>1000.0</ele>", unknown, 2)
    assert "2 altitudes missing" in read(text).notes[0]


def test_a_value_may_stand_on_a_line_of_its_own_with_comments_in_it():
    text = gpx(north()).replace("<ele>1000.0<", "<ele>\n  <!-- --> 10<!-- -->00.0\n<")
    np.testing.assert_allclose(read(text).flight.position.altitude_ft, 1000.0 / 0.3048)


def test_of_two_values_in_a_point_the_first_is_read():
    text = gpx(north()).replace("</trkpt>", "<ele>9</ele><time>noon</time></trkpt>")
    flight = read(text).flight
    np.testing.assert_allclose(flight.position.altitude_ft, 1000.0 / 0.3048)
    assert flight.time_s.size == 5


@pytest.mark.parametrize(
    "same",
    ["09:00:00.000Z", "9:0:0Z", "09:00:00", "08:30:00-00:30", "11:00:00+0200", "10:00:00+01"],
)
def test_a_time_is_read_however_it_is_written(same):
    assert read(gpx(north()).replace("09:00:00Z", same)).start.isoformat() == (
        "2026-06-01T09:00:00+00:00"
    )


@pytest.mark.parametrize(
    "bad", ["24:00:00Z", "09:00:61Z", "09:00:00+99:00", "", "09:00Z", "\u06609:00:00Z"]
)
def test_a_time_that_cannot_be_is_left_out(bad):
    assert read(gpx(north()).replace("09:00:00Z", bad)).flight.time_s.size == 4


def test_a_time_may_have_a_zone_and_without_one_is_utc():
    text = gpx(north(2)).replace("09:00:00Z", "11:00:00+02:00").replace("09:00:01Z", "09:00:01")
    recording = read(text)
    np.testing.assert_array_equal(recording.flight.time_s, [0.0, 1.0])
    assert recording.start.hour == 9


def test_segments_of_a_track_are_one_flight():
    parted = gpx(north(6)).replace(trkpt(*north(6)[3]), f"</trkseg><trkseg>{trkpt(*north(6)[3])}")
    assert read(parted).flight.time_s.size == 6


def test_points_whose_time_cannot_be_read_are_left_out_and_told_with_their_line():
    recording = read(gpx(north()).replace("09:00:02Z", "noon"))
    assert recording.flight.time_s.size == 4
    assert (
        "Left out: 1 point without a time that can be read, the first in line 6"
        in (recording.notes[0])
    )


# What could do harm.

ENTITIES = "".join(f'<!ENTITY e{i} "{f"&e{i - 1};" * 10 if i else CANARY}">' for i in range(10))
DECLARATIONS = {
    "expanding": f"<!DOCTYPE gpx [{ENTITIES}]>",
    "external": '<!DOCTYPE gpx [<!ENTITY e9 SYSTEM "{canary}">]>',
    "parameter": '<!DOCTYPE gpx [<!ENTITY % p SYSTEM "{canary}"> %p;]>',
    "external subset": '<!DOCTYPE gpx SYSTEM "{canary}">',
    "small": "<!doctype gpx>",
}


def hostile(declaration, name="&e9;"):
    return (
        gpx(north())
        .replace(ROOT, f"{declaration}\n{ROOT}")
        .replace("<trkseg>", (f"<name>{name}</name><trkseg>"))
    )


@pytest.mark.parametrize("declaration", DECLARATIONS.values(), ids=DECLARATIONS)
def test_a_document_type_is_refused_with_its_line_and_nothing_is_fetched(declaration, tmp_path):
    canary = tmp_path / "canary"
    canary.write_text(CANARY)
    message = refused(hostile(declaration.replace("{canary}", canary.as_uri())))
    assert message.startswith("line 2, column ")


@pytest.mark.parametrize("declaration", DECLARATIONS.values(), ids=DECLARATIONS)
@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("<!-- -->", "<!-- -->"),
        ("<!-- <![CDATA[ -->", "<!-- ]]> -->"),
        ("<?x y?>", "<?x y?>"),
        ("\n\n  ", "\n"),
    ],
    ids=["comments", "text", "instructions", "blanks"],
)
def test_a_document_type_is_refused_whatever_stands_round_it(before, declaration, after):
    assert refused(hostile(before + declaration + after)).startswith("line ")


@pytest.mark.parametrize(("before", "after"), [("<!-- ", " -->"), ("<?x ? ", " ?>")])
def test_an_entity_declared_in_a_comment_or_instruction_is_unknown(before, after):
    declaration = f'<!DOCTYPE gpx [<!ENTITY e9 "{CANARY}">]>'
    assert "undefined entity" in refused(hostile(before + declaration + after))


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-32", "utf-7", "cp037"])
def test_no_other_encoding_hides_a_declaration(encoding):
    text = hostile(DECLARATIONS["expanding"])
    refused(text.encode(encoding))
    refused(text.replace("UTF-8", encoding.upper()).encode(encoding))


def test_a_declared_encoding_that_hides_markup_is_refused():
    hidden = DECLARATIONS["expanding"].replace("<", "+ADw-").replace("&", "+ACY-")
    message = refused(hostile(hidden, "+ACY-e9;").replace("UTF-8", "UTF-7"))
    assert "the encoding 'UTF-7' is declared" in message


def test_deep_nesting_and_a_flood_of_namespaces_are_refused():
    deep = "<extensions>" * 100_000
    assert "inside each other" in refused(gpx(north()).replace("<trkseg>", deep))
    flood = " ".join(f'xmlns:a{i}="b"' for i in range(1000))
    assert "namespaces" in refused(gpx(north()).replace("<gpx ", f"<gpx {flood} "))


def test_a_flood_of_attributes_is_refused(monkeypatch):
    monkeypatch.setattr("vorlib.tracks.gpx.MOST_POINTS", 40)
    flood = " ".join(f'a{i}="b"' for i in range(500))
    assert "more than 480 attributes" in refused(gpx(north()).replace("<trk>", f"<trk {flood}>"))


def test_a_flood_of_names_is_refused():
    flood = "".join(f"<a{i}/>" for i in range(1000))
    assert "more than 1,000 different names" in refused(
        gpx(north()).replace("<trk>", f"{flood}<trk>")
    )


@pytest.mark.parametrize("begin", ["<!--", "<?x", "<trk a='", "<trk"])
def test_a_tag_without_an_end_is_not_read_to_the_end_of_the_file(begin):
    message = refused(gpx(north()).replace("<trk>", begin + "\n" * 2_500_000))
    assert message.startswith("line 3, column 1: a tag or comment of more than 1,000,000 char")


def test_a_value_is_not_gathered_without_end():
    message = refused(gpx(north()).replace("<ele>", "<ele>" + "\n" * 2000))
    assert message.startswith("line 4, column 31: a value of more than 1,000 characters")


def test_the_name_of_a_namespace_has_a_length_that_can_be_repeated():
    assert "is longer than 200" in refused(gpx(north()).replace("GPX/1/1", "GPX/1/1" * 100))


def test_blank_lines_without_number_are_refused():
    assert "more than 1,000,000 lines" in refused("\n" * 1_500_000)


def test_too_many_points_are_refused_with_the_limit(monkeypatch):
    monkeypatch.setattr("vorlib.tracks.gpx.MOST_POINTS", 4)
    assert refused(gpx(north())).startswith("line 8, column 1: more than 4 points")


def test_a_file_of_more_than_200_mb_is_refused_unread(tmp_path):
    path = tmp_path / "huge.gpx"
    with path.open("wb") as file:
        file.truncate(200_000_001)  # no byte of it is on the disk
    with pytest.raises(FileError, match="larger than 200 MB"):
        read_track(path)


# What is broken.


@pytest.mark.parametrize("share", [0.1, 0.3, 0.5, 0.7, 0.9, 0.99])
def test_a_truncated_file_is_refused_with_line_and_column(share):
    text = gpx(north())
    message = refused(text[: int(share * len(text))])
    assert message.startswith("line ")
    assert "the file is cut off" in message


def test_binary_and_wrongly_encoded_files_are_refused_with_the_line():
    assert "line 1: byte 1" in refused(b"\x8b\x1f\x08\x00")
    assert "zero byte" in refused(b"<gpx>\0</gpx>")
    umlaut = gpx(north()).replace("<trkseg>", "<name>Süd</name><trkseg>")
    assert "line 3" in refused(umlaut.encode("latin-1"))


def test_other_xml_is_no_gpx():
    assert "not GPX" in refused("<kml><Placemark/></kml>")


@pytest.mark.parametrize(
    ("good", "bad", "said"),
    [
        ('lon="-30.0"', "", "line 4, column 1: the point has no lon"),
        ('lat="46.0"', 'lat="46,0"', "line 4, column 1: lat must be a number"),
        ('lat="46.0"', 'lat="nan"', "line 4, column 1: lat must be finite"),
        ('lat="46.0"', 'lat="=46.0"', "line 4, column 1: lat must be a number"),
        (
            "<ele>1000.0</ele>",
            "<ele>high</ele>",
            "line 4, column 31: ele must be a number such as 46.5, got 'high'",
        ),
        ("<ele>1000.0</ele>", "<ele>inf</ele>", "line 4, column 31: ele must be finite"),
        ("<ele>1000.0</ele>", "<ele>1e6</ele>", "line 4: the altitude must be"),
        ('lat="46.0"', 'lat="-130.0"', "line 4: the latitude must be from -90 to 90"),
        ('lon="-30.0"', 'lon="361"', "line 4: the longitude must be from -360 to 360"),
        ("2026-06-01T09:00:00Z", "1970-01-01T00:00:00Z", "line 4: the time must be from 1980"),
        ("<trkseg>", "<trkseg><trkseg>", "mismatched tag"),
        (
            "<trkseg>",
            "<trkseg>&unknown;",
            "line 3, column 14: not well-formed XML (undefined entity)",
        ),
    ],
)
def test_a_fault_is_named_with_its_line(good, bad, said):
    assert said in refused(gpx(north()).replace(good, bad, 1))


@pytest.mark.parametrize("good", ['lat="46.0"', "<ele>1000.0", "UTF-8"])
def test_a_message_stays_short_however_long_the_value(good):
    assert (
        len(
            refused(
                gpx(north()).replace(
                    good, good.replace("0", "0x" * 100_000).replace("8", "8x" * 100_000), 1
                )
            )
        )
        < 300
    )


def test_swapped_coordinates_are_said():
    message = refused(gpx([(i, -130.0, 46.0 + i / 1e4, 1000.0) for i in range(3)]))
    assert "are latitude and longitude swapped? (3 such points)" in message


def test_points_outside_a_track_are_not_silently_lost():
    message = refused(gpx(north()).replace("</gpx>", f"{trkpt(*north()[0])}</gpx>"))
    assert "6 points are written, but 5 stand in segments of a track" in message


@pytest.mark.parametrize(
    ("flood", "said"),
    [
        ("<wpt lat='46' lon='-30'/>" * 41, "more than 40 places, routes and segments"),
        ("<trk/>" * 41, "more than 40 places, routes and segments"),
        (f"<extensions>{'<a/>' * 500}</extensions>", "more than 480 elements"),
    ],
    ids=["places", "tracks", "elements"],
)
def test_a_flood_beside_the_track_is_refused_before_it_fills_the_memory(monkeypatch, flood, said):
    monkeypatch.setattr("vorlib.tracks.gpx.MOST_POINTS", 40)
    message = refused(gpx(north()).replace("</gpx>", f"{flood}</gpx>"))
    assert message.startswith("line ")
    assert said in message


@pytest.mark.parametrize("body", ["", "<rte><rtept lat='46' lon='-30'/></rte>", trk([])])
def test_a_file_without_a_track_is_no_flight(body):
    assert "no point of a track" in refused(f"{HEAD}{ROOT}{body}</gpx>")


# Whatever is written.

COORDINATES = (st.floats(-90.0, 90.0), st.floats(-360.0, 360.0))
POINTS = st.lists(
    st.tuples(
        st.none() | st.integers(0, 10**9),
        *COORDINATES,
        st.none() | st.floats(-1e6, 1e6),
    ),
    max_size=5,
)


@given(st.lists(POINTS, max_size=3))
def test_what_is_written_is_read_back_the_same(tracks):
    points = read_gpx(gpx(*tracks))
    written = [point for track in tracks for point in track]
    seconds = [np.nan if p[0] is None else START.timestamp() + p[0] for p in written]
    meters = [np.nan if p[3] is None else p[3] for p in written]
    np.testing.assert_array_equal(points.time_s, seconds)
    np.testing.assert_array_equal(points.lat_deg, [p[1] for p in written])
    np.testing.assert_array_equal(points.lon_deg, [p[2] for p in written])
    np.testing.assert_array_equal(points.altitude_ft, np.array(meters) / 0.3048)
    np.testing.assert_array_equal(
        points.track, [n for n, track in enumerate(tracks, 1) for _ in track]
    )
    lines = gpx(*tracks).split("\n")
    assert all(lines[line - 1].startswith("<trkpt") for line in points.line)


MARKUP = (
    "< > & ' \" ]]> <!-- --> <? ?> <![CDATA[ <trk> </trk> <trkpt> <ele> </ele> <time> &#10; &e;"
)
PIECES = st.text(max_size=5) | st.sampled_from(
    [
        *MARKUP.split(),
        "<!DOCTYPE gpx>",
        " xmlns:a='b'",
        "9" * 400,
        "nan",
        "\ud800",
        "\0",
        "x" * 2000,
    ]
)


@given(st.lists(st.tuples(st.integers(1, 700), st.integers(0, 40), PIECES), min_size=1, max_size=4))
def test_a_text_that_was_tampered_with_is_read_or_refused_in_few_words(changes):
    text = gpx(north())
    for where, length, piece in changes:
        text = text[:where] + piece + text[where + length :]
    try:
        read_track(io.StringIO(text))
        message = "read"
    except FileError as error:
        message = str(error)
    assert 0 < len(message) < 300

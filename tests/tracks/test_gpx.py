"""GPX is read as a recorder wrote it; what is broken or hostile is refused before it can act."""

import io
import xml.etree.ElementTree

import gpxpy.parser
import numpy as np
import pytest

from tracks.written import HEAD, ROOT, gpx, north, trk, trkpt
from vorlib.io.text import FileError
from vorlib.tracks import read_track

CANARY = "what no reader may see"


@pytest.fixture(params=["xml.etree", "lxml"], autouse=True)
def _parser(request, monkeypatch):
    """Let gpxpy use either of the parsers that it may find on a machine."""
    etree = xml.etree.ElementTree
    if request.param == "lxml":
        etree = pytest.importorskip("lxml.etree")
    monkeypatch.setattr(gpxpy.parser, "mod_etree", etree)


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
        gpx(north()).replace("<trkseg>", "<name>of &amp; <![CDATA[<trkpt>]]></name><trkseg>"),
        gpx(north()).replace("<trkseg>", "<!-- <trkpt> --><trkseg><!-- <trkpt> -->"),
    ],
    ids=["no head", "mark", "windows", "quotes", "1.0", "latin", "characters", "comments"],
)
def test_what_recorders_vary_does_no_harm(text):
    assert read(text).flight.time_s.size == 5


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
        "1 point without a time that can be read left out, the first in line 6"
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
def test_no_parser_sees_a_declaration_whatever_stands_round_it(declaration, monkeypatch):
    def fail(*_args, **_options):
        raise AssertionError("parsed")

    monkeypatch.setattr(gpxpy, "parse", fail)
    for before, after in (
        ("<!-- -->", "<!-- -->"),
        ("<!-- <![CDATA[ -->", "<!-- ]]> -->"),
        ("<?x y?>", "<?x y?>"),
        ("\n\n  ", "\n"),
    ):
        refused(hostile(before + declaration + after))


ONE = f'<!DOCTYPE gpx [<!ENTITY e9 "{CANARY}">]>'
JOINED = f'<?x ? xmlns="a"> {ONE} <?y ?>'  # gpxpy takes the namespace out, and ?> closes it early


@pytest.mark.parametrize(
    "hidden",
    [
        JOINED,
        JOINED.replace('"a"', "'a'"),
        JOINED.replace('"a"', '"a"xmlns="b"'),
        f'<!-- - xmlns="a"->{ONE}<!- xmlns="a"- -->',
        f'<! xmlns="a"{ONE[2:]}',
        f'< xmlns="a"{ONE[1:]}',
    ],
)
def test_a_declaration_that_appears_once_a_namespace_is_taken_out_stays_hidden(hidden):
    assert refused(hostile(hidden)).startswith("line ")


def test_gpxpy_alone_would_be_taken_in_by_such_a_declaration():
    text = hostile(JOINED).replace(' xmlns="http://www.topografix.com/GPX/1/1"', "")
    assert gpxpy.parse(text).tracks[0].name == CANARY
    refused(text)


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-32", "utf-7", "cp037"])
def test_no_other_encoding_hides_a_declaration(encoding):
    text = hostile(DECLARATIONS["expanding"])
    refused(text.encode(encoding))
    refused(text.replace("UTF-8", encoding.upper()).encode(encoding))


def test_an_encoding_that_another_parser_might_believe_is_refused():
    hidden = DECLARATIONS["expanding"].replace("<", "+ADw-").replace("&", "+ACY-")
    message = refused(hostile(hidden, "+ACY-e9;").replace("UTF-8", "UTF-7"))
    assert "the encoding 'UTF-7' is declared" in message


def test_deep_nesting_and_a_flood_of_namespaces_are_refused():
    deep = "<extensions>" * 100_000
    assert "inside each other" in refused(gpx(north()).replace("<trkseg>", deep))
    flood = " ".join(f'xmlns:a{i}="b"' for i in range(1000))
    assert "namespaces" in refused(gpx(north()).replace("<gpx ", f"<gpx {flood} "))


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
    assert "no GPX" in refused("<kml><Placemark/></kml>")


@pytest.mark.parametrize(
    ("good", "bad", "said"),
    [
        ('lon="-30.0"', "", "line 4, column 1: the point has no lon"),
        ('lat="46.0"', 'lat="46,0"', "line 4, column 1: lat must be a number"),
        ('lat="46.0"', 'lat="nan"', "line 4, column 1: lat must be finite"),
        ('lat="46.0"', 'lat="=46.0"', "line 4, column 1: lat must be a number"),
        ("<ele>1000.0</ele>", "<ele>high</ele>", "line 4: "),
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


@pytest.mark.parametrize("good", ['lat="46.0"', "<ele>1000.0"])
def test_a_message_stays_short_however_long_the_value(good):
    assert len(refused(gpx(north()).replace(good, good.replace("0", "0x" * 100_000), 1))) < 1100


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

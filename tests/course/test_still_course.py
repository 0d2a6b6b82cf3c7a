"""The course as pages to read without a kernel: linked, whole, and asking no host for anything."""

from html.parser import HTMLParser
from urllib.parse import urldefrag

import pytest

from vorlib import cli
from vorlib.core.caution import CAUTION
from vorlib.io.notebooks import own_notebooks
from vorlib.pages.course_folder import CourseFolder, shipped
from vorlib.pages.still import SVG


class Page(HTMLParser):
    """What a page links to, what it loads, and what can be linked to in it."""

    def __init__(self, text):
        super().__init__()
        self.links, self.loaded, self.names, self.scripts = [], [], set(), 0
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        given = dict(attrs)
        self.names.add(given.get("id"))
        self.scripts += tag == "script"
        if tag == "a" and given.get("href"):
            self.links.append(given["href"])
        if tag in ("img", "link", "image", "use"):
            where = (given.get(name) for name in ("src", "href", "xlink:href"))
            self.loaded.append(next(filter(None, where), ""))


@pytest.fixture(scope="module")
def pages(tmp_path_factory):
    folder = tmp_path_factory.mktemp("still") / "course"
    assert cli.main(["course", "--html", str(folder)]) == 0
    return {path: path.read_text(encoding="utf-8") for path in sorted(folder.rglob("*.html"))}


def test_every_notebook_is_a_page_with_the_caution_and_no_code(pages):
    assert len(pages) == len(shipped())
    for path, text in pages.items():
        assert CAUTION in text, path
        assert "from vorlib import" not in text, path
        assert "x.predict(" not in text, path
        assert Page(text).scripts == 0


def test_every_link_leads_to_a_page_and_a_place_in_it(pages):
    for path, text in pages.items():
        for link in Page(text).links:
            file, place = urldefrag(link)
            if "://" in file:
                continue
            target = (path.parent / file).resolve() if file else path
            assert target in pages, f"{path.name}: {link}"
            assert not place or place in Page(pages[target]).names, f"{path.name}: {link}"


def test_no_page_asks_a_host_for_anything(pages):
    for path, text in pages.items():
        for loaded in Page(text).loaded:
            assert loaded.startswith(("data:", "#")) or (path.parent / loaded).is_file(), (
                path,
                loaded,
            )
    style = next(path for path in pages if path.name == "index.html").with_name("course.css")
    assert not [word for word in ("url(", "@import") if word in style.read_text()]


def test_every_saved_picture_is_shown_and_says_what_it_shows(pages):
    saved = sum(
        SVG in output.get("data", {})
        for name in shipped()
        for cell in CourseFolder(own_notebooks()).read(name).cells
        for output in cell.get("outputs", [])
    )
    shown = "".join(pages.values())
    assert shown.count('<figure role="img"') == saved
    assert 'role="img" aria-label=""' not in shown


def test_a_folder_with_something_else_in_it_is_left_alone(tmp_path, capsys):
    (tmp_path / "thesis.html").write_text("mine")
    assert cli.main(["course", "--html", str(tmp_path)]) == 1
    assert "something else" in capsys.readouterr().err
    assert [path.name for path in tmp_path.iterdir()] == ["thesis.html"]

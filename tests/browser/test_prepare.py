"""A lesson prepared in a real notebook: a file uploaded, a wrong entry answered, sheets written."""

import re

from lab import wait_for_value

LESSON = """
from vorlib.exhibits import prepare

lesson = prepare()
lesson
"""
STATIONS = """ident,name,lat_deg,lon_deg,elevation_ft,declination_deg,frequency_mhz,service
ZED,Zeddar,30.0,-40.0,100,-12,112.30,L
YEW,Yewan,30.4,-40.3,250,-14,115.60,H
"""
FIELDS = "ident,name,lat_deg,lon_deg,elevation_ft\nX1,Zeddar Field,30.2,-40.0,80\n"


def upload(page, kind, path, key=""):
    """Choose a file with its button, by mouse or by key."""
    button = page.get_by_role("button", name=f"Upload {kind} file")
    with page.expect_file_chooser() as chooser:
        if key:
            button.press(key)
        else:
            button.click()
    chooser.value.set_files(path)


def test_a_lesson_is_prepared_with_files_of_ones_own(run_notebook, notebook, tmp_path):
    stations, fields = tmp_path / "stations.csv", tmp_path / "fields.csv"
    stations.write_text(STATIONS)
    fields.write_text(FIELDS)
    page = run_notebook(notebook(LESSON))
    sheet = page.locator(".vorlib-picture svg")
    sheet.wait_for()
    sheet.get_by_text("Quillon QLN").wait_for()
    caution = page.locator(".vorlib-note").filter(has_text="not for navigation")
    caution.wait_for()

    # the fields first: they wait for stations
    page.get_by_role("button", name="More").click()
    upload(page, "fields", fields)
    page.get_by_text("1 field read; used as soon as there is a stations file.").wait_for()
    sheet.get_by_text("Zeddar Field").wait_for(state="hidden")
    upload(page, "stations", stations, key="Enter")
    sheet.get_by_text("Zeddar ZED").wait_for()
    sheet.get_by_text("Zeddar Field").wait_for()
    wait_for_value(page.get_by_role("textbox", name="Stations file"), "stations.csv")
    page.get_by_text("2 VOR stations from your own file.").wait_for()
    caution.wait_for()

    # a file that cannot be read is answered with line and column, and the last good one stays
    stations.write_text(STATIONS.replace("30.4", "north"))
    path = page.get_by_role("textbox", name="Stations file")
    path.fill(str(stations))
    path.press("Enter")
    alert = page.get_by_role("alert")
    alert.filter(has_text="row 3: lat_deg must be a number").wait_for()
    sheet.get_by_text("Zeddar ZED").wait_for()

    # the table of the fields follows the altitude
    page.get_by_role("button", name="Next page").click()
    sheet.get_by_text(re.compile("^page 2 of")).wait_for()
    sheet.get_by_text("Not to be relied on: none.").wait_for()
    altitude = page.get_by_role("textbox", name=re.compile("^Planned altitude"))
    altitude.fill("500")
    altitude.press("Enter")
    sheet.get_by_text("Not to be relied on: Zeddar Field: YEW ").wait_for()
    altitude.fill("4000")
    altitude.press("Enter")

    # a wrong entry is answered beside its box, and the last good one stays
    middle = page.get_by_role("textbox", name="Middle of area")
    good = middle.input_value()
    middle.fill("-140, 30")
    middle.press("Enter")
    alert.filter(has_text="are latitude and longitude swapped?").wait_for()
    page.wait_for_function(
        "([box, good]) => box.value === good", arg=[middle.element_handle(), good]
    )

    # nothing is written until a folder is named that is there
    card, handout = (
        page.get_by_role("button", name=re.compile(name))
        for name in ("^Write the lesson card", "^Write the handout")
    )
    card.click()
    alert.filter(has_text="name the folder").wait_for()
    folder = tmp_path / "sheets"
    folder.mkdir()
    box = page.get_by_role("textbox", name="Folder")
    box.fill(str(folder))
    box.press("Enter")
    written = page.get_by_role("status").filter(has_text=f"Written: {folder}")
    for button, kind in ((card, "lesson-card"), (handout, "handout")):
        button.focus()
        page.keyboard.press("Enter")
        written.filter(has_text=kind).wait_for()
    names = sorted(path.name.split("-20")[0] for path in folder.glob("*.pdf"))
    assert names == ["handout", "lesson-card"]
    assert all(path.read_bytes().startswith(b"%PDF-") for path in folder.glob("*.pdf"))

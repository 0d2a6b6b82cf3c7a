"""HTML made of words."""

from vorlib.exhibits.base.html import Markup, html_table


def test_cells_are_words_unless_they_are_markup():
    table = html_table("A & B", [("<b>", Markup("<meter></meter>"))], ("x < y", "z"))
    assert table == (
        '<table><caption>A &amp; B</caption><tr><th scope="col">x &lt; y</th>'
        '<th scope="col">z</th></tr><tr><td>&lt;b&gt;</td><td><meter></meter></td></tr></table>'
    )


def test_a_row_may_be_named_by_its_first_cell():
    table = html_table("Points", [("Radials", "3 of 4")], row_heads=True)
    assert '<tr><th scope="row">Radials</th><td>3 of 4</td></tr>' in table

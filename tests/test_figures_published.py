"""The page of published values shows every row, truly: printed, computed, difference, source."""

import html
import re
from dataclasses import replace

import nbformat
import pytest

from herbcalc import explore, places
from herbcalc.explore import published as page
from herbcalc.figures.published import LANES
from herbcalc.published import rows

ROWS = rows()


def test_every_row_is_in_the_table_once():
    table = explore.published_values().table()
    assert table.count('<th scope="row"') == len(ROWS)
    assert table.count('<th scope="col"') == 5 and "<caption" in table
    for row in ROWS:
        assert html.escape(row.source) in table
        assert page.PROVENANCE[row.provenance] in table


def test_a_row_reads_as_it_is_printed():
    """British Pharmacopoeia, Dilute Ethanols (seen): 727 mL of ethanol (96 per cent)."""
    row = next(row for row in ROWS if row.id == "bp-dilute-70")
    assert page.printed_words(row) == "727 mL"
    assert page.computed_words(row) == "726.9 mL"
    assert page.difference_words(row) == "−0.1 (0.1 of the last digit)"
    assert page.kind(row) == LANES[0]


@pytest.mark.parametrize("row", [r for r in ROWS if r.printed_to], ids=lambda row: row.id)
def test_no_printed_figure_is_rounded_on_the_page(row):
    shown = [float(n) for n in re.findall(r"-?\d+\.?\d*", page.printed_words(row).split(" at ")[0])]
    printed = row.published if isinstance(row.published, tuple) else (row.published,)
    assert shown[:len(printed)] == pytest.approx(printed, abs=1e-9)


def test_counts_add_up_and_nothing_is_hidden():
    table = explore.published_values()
    assert sum(table.counts.values()) == len(ROWS)
    assert table.counts["does not hold"] == 0
    wrong = replace(ROWS[0], computed=ROWS[0].published * 1.1)
    assert page.kind(wrong) == "does not hold"
    assert "DOES NOT HOLD" in page.PublishedValues([wrong]).table()
    assert "1 DOES NOT HOLD" in page.PublishedValues([wrong]).sentence()


def test_a_figure_that_differs_by_more_says_why_beside_it():
    more = [row for row in ROWS if page.kind(row) == LANES[1]]
    assert len(more) > 20
    table = explore.published_values().table()
    for row in more:
        assert abs(row.difference) > row.printed_to / 2 and html.escape(row.why) in table


def test_the_picture_has_one_mark_for_each_figure():
    table = explore.published_values("dilution")
    lanes = table._lanes()
    assert {lane: len(marks) for lane, marks in lanes.items()} == {
        lane: table.counts[lane] for lane in LANES}
    assert all(abs(off) <= 0.5 + 1e-9 for off in lanes[LANES[0]])
    picture, alt = table.picture()
    assert picture.startswith(b"\x89PNG") and table.sentence() in alt


def test_an_unknown_topic_names_those_there_are():
    with pytest.raises(ValueError, match="dilution"):
        explore.published_values("dilutions")


def test_the_page_in_the_course_shows_every_topic_once():
    notebook = nbformat.read(places.notebooks() / "published-values.ipynb", as_version=4)
    shown = re.findall(r'"([a-z ]+)"', " ".join(
        cell.source for cell in notebook.cells if "published_values(" in cell.source))
    assert sorted(shown) == sorted({row.topic for row in ROWS})

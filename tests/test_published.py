"""The published table is the test: every row, its source and how it was come by in the row."""

import pytest

from herbcalc import published

ROWS = published.rows()
PROVENANCE = {"seen", "seen quoted", "seen in a summary", "seen in independent transcriptions",
              "read from the package", "memory", "trade"}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.id)
def test_row_holds(row):
    assert row.holds, (
        f"{row.quantity} ({row.given}): printed {row.published} in {row.source}, "
        f"computed {row.computed}"
    )


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.id)
def test_row_says_where_it_comes_from(row):
    assert row.source and row.provenance in PROVENANCE
    assert (row.provenance == "trade") == ("no source" in row.source)


@pytest.mark.parametrize("row", [r for r in ROWS if r.allowed > r.printed_to / 2],
                         ids=lambda row: row.id)
def test_a_row_allowed_more_than_its_printed_digit_says_why(row):
    assert row.why.endswith(".") and len(row.why) > 20


def test_the_table_is_wide():
    assert len(ROWS) >= 120
    assert len({row.source for row in ROWS}) >= 15
    assert len({row.id for row in ROWS}) == len(ROWS)


@pytest.mark.parametrize("topic", ["alcohol", "dilution", "hydrometer", "ratio"])
def test_a_wrong_figure_would_be_caught(topic):
    """Each row moved by three times what it allows no longer holds: the walk can fail."""
    from dataclasses import replace

    for row in ROWS:
        if row.topic == topic and row.relation == "=":
            step = 3 * max(row.allowed, 1e-6)
            assert not replace(row, computed=row.published + step).holds
            assert not replace(row, computed=row.published - step).holds

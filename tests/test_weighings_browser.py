"""In a real browser: weigh a herb in lesson 04, and find it in the lists there and in lesson 03."""

import csv

import pytest
from browser import open_lesson, panel_state, panels, run_all

WEIGHED = {
    "Name of the herb": "lemon balm", "The cup holds": "250", "Empty cup": "0",
    "Cup levelled full of loose herb": "31", "A handful before drying": "50",
    "The same handful dried": "12",
}


def titled(page, title):
    """The panel of that title."""
    return next(p for p in panels(page) if title in p.inner_text())


def listed(panel, label):
    return panel.get_by_label(label, exact=True).locator("option").all_inner_texts()


@pytest.mark.browser
def test_what_a_student_weighs_joins_every_list(page, course):
    table = course.folder / "my-herbs.csv"
    open_lesson(page, course, "04-herb-density")
    run_all(page)
    assert not any("yours" in words for words in listed(
        titled(page, "The same fill"), "Herb in the fifth jar"))

    panel = titled(page, "My weighings")
    write = panel.get_by_role("button", name="Write it into my herb table")
    write.click()
    panel.get_by_text("name first").wait_for()
    assert not table.exists()

    for label, typed in WEIGHED.items():
        entry = panel.get_by_label(label, exact=True)
        entry.fill(typed)
        entry.press("Tab")
    panel.get_by_text("weighs 0.12").wait_for()  # 31 / 250
    assert "78" in panel_state(panel).sentence  # 1 - 12 x 0.9 / 50
    try:
        write.click()
        panel.get_by_text("my-herbs.csv").wait_for()
        with open(table, encoding="utf-8", newline="") as file:
            (row,) = csv.DictReader(file)
        assert (row["name"], row["bulk_density_g_per_ml"]) == ("lemon balm", "0.124")

        run_all(page)
        row_of_jars = titled(page, "The same fill")
        mine = "lemon balm, fresh (chopped), yours"
        assert listed(row_of_jars, "Herb in the fifth jar")[0] == mine
        row_of_jars.get_by_label("Herb in the fifth jar").select_option(mine)
        row_of_jars.get_by_text("167 g of herb").wait_for()  # turmeric's 238 g have gone

        open_lesson(page, course, "03-hidden-water")
        run_all(page)
        jar = titled(page, "A jar of fresh herb")
        jar.get_by_label("Fresh herb", exact=True).select_option("lemon balm (chopped), yours")
        jar.get_by_text("56 g of herb bring").wait_for()  # 0.9 x 500 x 0.124
    finally:
        table.unlink(missing_ok=True)

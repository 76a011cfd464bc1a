"""What the pictures of lesson 09 show and say: ranges, the deciding limit, dates, spoilage."""

import datetime
import re

import matplotlib
import nbformat
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from matplotlib.figure import Figure

import herbcalc as hc
from herbcalc import explore, places
from herbcalc.explore import keeping as panels
from herbcalc.figures import timeline as draw
from herbcalc.figures.style import STYLE
from herbcalc.keeping import SIGNS_OF_SPOILAGE, classes


def shown(backdrop, show, *numbers, lay_out=None):
    with matplotlib.rc_context(STYLE):
        figure = Figure(figsize=(9, 6))
        axes = lay_out(figure) if lay_out else figure.add_subplot()
        backdrop(axes)
        said = show(axes, *numbers)
    return axes, said


def find(ax, gid):
    return ax.findobj(lambda artist: artist.get_gid() == gid)


def one(ax, gid):
    (found,) = find(ax, gid)
    return found


# --- all the classes -----------------------------------------------------------------------------


@pytest.mark.parametrize("keeper, share, water, low, high", [
    ("spirit", 40, 0, 15 * 365, 20 * 365),  # common practice, no source
    ("glycerin", 60, 0, 3 * 365, 5 * 365),  # common practice, no source
    ("vinegar", 95, 0, 6 * 30, 12 * 30),  # common practice, no source
    ("spirit", 0, 0, 1, 3),
])
def test_the_batch_lies_where_its_range_is(keeper, share, water, low, high):
    ax, said = shown(panels._classes_backdrop, panels._show_classes, keeper, share, water)
    batch = one(ax, "batch")
    assert batch.get_x() == low and batch.get_x() + batch.get_width() == high
    assert ax.get_xscale() == "log"
    assert re.search(r"\d+ to \d+ (days|weeks|months|years)", one(ax, "words").get_text())
    assert re.search(r"\d+ to \d+ (days|weeks|months|years) (cool|in the)", said)


def test_every_class_has_its_bar_and_its_limit_with_a_unit():
    ax, _ = shown(panels._classes_backdrop, panels._show_classes, "spirit", 40, 0)
    for place, (what, rung) in enumerate(classes()):
        bar = one(ax, f"class {place}")
        assert bar.get_hatch() == ("xx" if rung.cold else "")
        words = ax.get_yticklabels()[place].get_text()
        assert words.startswith(rung.name)
        assert re.search(r"% vol|water activity|g acid in 100 mL|none of the three", words)


def test_fresh_water_never_moves_the_batch_to_the_right():
    panel = explore.how_long()
    for keeper in panels.KEEPERS:
        ends = []
        for water in range(0, 301, 50):
            with matplotlib.rc_context(STYLE):
                ax = Figure(figsize=(9, 6)).add_subplot()
                panels._classes_backdrop(ax)
                panels._show_classes(ax, keeper, 55, water)
            ends.append(one(ax, "batch").get_x())
        assert ends == sorted(ends, reverse=True)
    raw = "raw vinegar (with the mother)"
    assert "1 to 3 months" in panel.answer(keeper=raw, share=95, herb_water=10).sentence


# --- the three ladders ---------------------------------------------------------------------------


@given(st.integers(0, 30), st.integers(20, 95), st.integers(0, 30), st.integers(0, 15),
       st.integers(0, 20))
@settings(max_examples=60, deadline=None)
def test_the_framed_ladder_is_the_one_that_decides(spirit, strength, glycerin, vinegar, water):
    liquid = (hc.spirit(10 * spirit, strength) + hc.glycerin(10 * glycerin)
              + hc.vinegar(10 * vinegar) + hc.water(10 * water))
    numbers = 10 * spirit, strength, 10 * glycerin, 10 * vinegar, 10 * water
    limits = {what: [(limit, rung.name) for limit, rung in rungs]
              for what, rungs in panels._LIMITS.items()}
    if liquid.mass == 0 or liquid.volume > panels.JAR:
        with pytest.raises(ValueError, match="jar"):
            shown(lambda axes: draw.ladders_backdrop(axes, limits, panels.JAR),
                  panels._show_ladders, *numbers, lay_out=draw.ladders_axes)
        return
    axes, said = shown(lambda axes: draw.ladders_backdrop(axes, limits, panels.JAR),
                       panels._show_ladders, *numbers, lay_out=draw.ladders_axes)
    kept = hc.keeping(liquid)
    framed = find(axes[1], "deciding")
    assert len(framed) == (kept.kind != "unprotected")
    if framed:
        row = round(framed[0].get_y() + 0.56)
        what = draw.LADDER_ROWS[row]
        assert f"{kept.low:g} to {kept.high:g} {kept.unit}" == one(axes[1],
                                                                   f"range {what}").get_text()
        word = {"strength": "strength", "free water": "free water", "acid": "acid"}[what]
        assert f"Its {word} decides" in said
    assert "nan" not in said and kept.deciding in said


def test_scales_run_from_worse_to_better():
    for what, (low, high, words) in draw.SCALES.items():
        limits = [limit for limit, _ in panels._LIMITS[what]]
        places = [draw.along(what, limit) for limit in limits]
        assert places == sorted(places) and len(limits) == 3
        assert any(unit in words for unit in ("% vol", "water activity", "g in 100 mL"))


# --- dates ---------------------------------------------------------------------------------------


def test_the_use_by_date_is_the_early_end_of_the_range():
    answer = explore.use_by_dates().answer(made="2027-01-14", batch="vinegar, ends at 5 g acid")
    by_hand = datetime.date(2027, 1, 14) + datetime.timedelta(days=6 * 30)
    assert panels.day_words(by_hand) == "13 Jul 2027"
    assert "use by 13 Jul 2027 at the latest, the early end of 6 to 12 months" in answer.sentence


@pytest.mark.parametrize("batch", list(panels.BATCHES))
def test_days_to_look_stand_before_the_use_by_mark(batch):
    ax, said = shown(draw.dates_backdrop, panels._show_dates, "2027-01-14", batch)
    low, high = panels.BATCHES[batch]().days
    looks = one(ax, "looks").get_xdata()
    assert all(0 < day < low for day in looks) and list(looks) == sorted(looks)
    assert one(ax, "use by").get_xdata()[0] == low
    doubtful = one(ax, "doubtful")
    assert (doubtful.get_x(), doubtful.get_x() + doubtful.get_width()) == (low, high)
    place = one(ax, "place").get_text()
    assert ("refrigerator" in place) == panels.BATCHES[batch]().refrigerate
    assert "se by" in said


@pytest.mark.parametrize("made", ["", "soon", "14.1.2027", "2027-02-30"])
def test_a_day_that_is_none_is_told(made):
    answer = explore.use_by_dates().answer(made=made)
    assert answer.kind == "warning" and "year-month-day" in answer.sentence


# --- spoilage ------------------------------------------------------------------------------------


def test_each_sign_of_the_list_is_a_box_to_tick_and_is_drawn():
    panel = explore.signs_of_spoilage()
    labels = [control.label for control in panel.controls.values()]
    assert labels == [f"{where}: {words}" for where, words in SIGNS_OF_SPOILAGE]
    calm = panel.answer()
    assert "may still be spoiled" in calm.sentence
    pictures = {calm.picture}
    for name in panel.controls:
        answer = panel.answer(**{name: True})
        assert "throw it out" in answer.sentence and "do not taste" in answer.sentence
        pictures.add(answer.picture)
    assert len(pictures) == len(panel.controls) + 1


def test_the_verdict_is_written_under_the_jar():
    for seen, words in (((), "nothing seen today"), (("skin",), "throw it out")):
        with matplotlib.rc_context(STYLE):
            ax = Figure(figsize=(9, 4.6)).add_subplot()
            draw.spoilage_backdrop(ax)
            draw.spoilage(ax, seen)
        assert one(ax, "verdict").get_text() == words


def test_no_panel_ever_says_safe():
    for name in ("how_long", "what_decides", "use_by_dates", "signs_of_spoilage"):
        panel = getattr(explore, name)()
        words = re.findall(r"\w+", f"{panel.answer().sentence} {panel.alt} {panel.title}".lower())
        assert "safe" not in words
    assert np.all(np.diff(list(draw.TIMES.values())) > 0)


def test_the_list_for_the_wall_is_the_librarys_list():
    lesson = nbformat.read(places.notebooks() / "09-how-long-will-it-keep.ipynb", as_version=4)
    said = "\n".join(cell.source for cell in lesson.cells)
    assert re.findall(r"^- ☐ \*\*(\w+):\*\* (.+)$", said, flags=re.MULTILINE) == [
        tuple(sign) for sign in SIGNS_OF_SPOILAGE]

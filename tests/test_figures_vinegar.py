"""What the pictures and sentences of lesson 06 say, held against the library."""

import itertools
import re

import matplotlib
import numpy as np
import pytest
from matplotlib.figure import Figure

import herbcalc as hc
from herbcalc import explore
from herbcalc.figures.style import STYLE
from herbcalc.liquids import BAKING_SODA, ph_with_soda

MINE = ["acid_tied_up", "four_vinegars", "vinegar_jar"]


@pytest.fixture(autouse=True)
def own_folder(tmp_path, monkeypatch):
    """No herb table of anybody lies where these tests run."""
    monkeypatch.chdir(tmp_path)


def drawn(panel, **values):
    """The axes of a panel with `values` on them, and the sentence."""
    with matplotlib.rc_context(STYLE):
        figure = Figure(figsize=panel.size)
        axes = panel._axes(figure) if panel._axes else figure.add_subplot()
        panel._backdrop(axes)
        sentence = panel._show(axes, **(panel.start | values))
        figure.canvas.draw()
    return axes, sentence


def words(ax):
    return [text.get_text() for text in ax.texts]


def by_gid(ax, gid):
    return next(artist for artist in ax.get_children() if artist.get_gid() == gid)


def ends(control):
    if control.kind == "choice":
        return list(control.options.values())[:: max(len(control.options) - 1, 1)]
    return [control.low, control.high] if control.kind == "slider" else [False, True]


@pytest.mark.parametrize("name", MINE)
def test_every_end_of_every_control_moves_the_picture_and_says_a_clear_sentence(name):
    panel = getattr(explore, name)()
    start = panel.answer()
    assert start.kind == "answer"
    for key, control in panel.controls.items():
        for value in ends(control):
            answer = panel.answer(**{key: value})
            assert answer.kind == "answer", (key, value, answer.sentence)
            assert "nan" not in answer.sentence
            assert not re.search(r"\d\.\d{2}", answer.sentence)  # no more than the bench can tell
            if value != panel.start[key]:
                assert answer.picture != start.picture, (key, value)


@pytest.mark.parametrize("name", MINE)
def test_all_ends_together_give_an_answer_or_one_clear_sentence(name):
    panel = getattr(explore, name)()
    for corner in itertools.product(*(ends(c)[:: max(len(ends(c)) - 1, 1)]
                                      for c in panel.controls.values())):
        answer = panel.answer(**dict(zip(panel.controls, corner)))
        assert answer.kind != "fault", (corner, panel.trouble)


# --- the jar -------------------------------------------------------------------------------------


def test_both_limits_are_drawn_where_the_law_has_them():
    axes, _ = drawn(explore.vinegar_jar())
    # FDA CPG Sec. 525.825: 4 g in 100 mL; 21 CFR 114.3: pH 4.6
    assert list(axes["acid"].lines[0].get_xdata()) == [4, 4]
    assert list(axes["ph"].lines[0].get_xdata()) == [4.6, 4.6]
    assert axes["acid"].get_xlabel() == "acid [g in 100 mL]"
    assert "food law (USA): up to 4.6" in words(axes["ph"])


@pytest.mark.parametrize("acidity, fill", [(5, 90), (5, 10), (10, 100), (4, 50)])
def test_the_jar_ends_where_the_library_says(acidity, fill):
    herb = hc.herb("spearmint", "fresh")
    jar = hc.Jar(volume=500, herb=herb, fill=fill / 100, menstruum=hc.vinegar(1, acidity=acidity))
    axes, sentence = drawn(explore.vinegar_jar(), herb=herb, fill=fill, acidity=acidity, raw=True)
    assert by_gid(axes["acid"], "end words").get_text() == f"ends {jar.final.acidity:.1f} g"
    assert by_gid(axes["acid"], "end").get_xdata()[0] == pytest.approx(jar.final.acidity)
    assert by_gid(axes["ph"], "ph words").get_text() == f"at least {jar.final.ph:.1f}"
    assert by_gid(axes["jar"], "label").get_text() == "raw vinegar"
    assert f"the pH is at least {jar.final.ph:.1f}" in sentence
    assert hc.keeping(jar.final, fresh_herb=True, raw_vinegar=True).range in sentence


def test_the_words_at_the_limit_stay_on_their_own_side():
    for fill in range(10, 101, 15):
        axes, _ = drawn(explore.vinegar_jar(), fill=fill)
        said = by_gid(axes["acid"], "end words")
        box = said.get_window_extent().transformed(axes["acid"].transData.inverted())
        end = by_gid(axes["acid"], "end").get_xdata()[0]
        assert box.x1 < 4.05 if end < 4 else box.x0 > 3.95, (fill, end)


# --- acid that is tied up ------------------------------------------------------------------------


@pytest.mark.parametrize("acidity, taken", [(5, 0), (5, 2), (8, 4.5), (2, 2.5)])
def test_the_mark_stands_on_its_line(acidity, taken):
    axes, sentence = drawn(explore.acid_tied_up(), acidity=acidity, taken=taken)
    here = ph_with_soda(acidity, taken)
    mark = by_gid(axes, "here")
    assert mark.get_xdata()[0] == taken and mark.get_ydata()[0] == pytest.approx(here)
    share = taken / BAKING_SODA / (acidity / 60.052)
    assert f"{100 * share:.0f} % of the acid tied up" in by_gid(axes, "words").get_text()
    if taken:
        assert ("below the limit" if here <= 4.6 else "above the limit") in sentence


def test_where_the_common_vinegar_crosses_the_limit():
    """Henderson and Hasselbalch: at pH 4.6 the share tied up is 1 / (1 + 10^(4.756 - 4.6))."""
    share = 1 / (1 + 10 ** (4.756 - 4.6))
    soda = share * 5 / 60.052 * BAKING_SODA
    assert ph_with_soda(5, soda) == pytest.approx(4.6, abs=0.002)
    axes, _ = drawn(explore.acid_tied_up())
    x, y = axes.lines[-3].get_data()  # the jar's own line, before the post and the mark
    assert np.interp(soda, x, y) == pytest.approx(4.6, abs=0.01)


# --- four jars -----------------------------------------------------------------------------------


@pytest.mark.parametrize("acidity, water", [(5, 20), (5, 60), (8, 20), (4, 0)])
def test_the_four_bars_are_the_ranges_of_the_library(acidity, water):
    axes, _ = drawn(explore.four_vinegars(), acidity=acidity, water=water)
    cases = [(2.0, False, False), (2.0, False, True), (water, True, False), (water, True, True)]
    for row, (grams, fresh, raw) in enumerate(cases):
        final = hc.vinegar(100, acidity=acidity) + hc.Liquid(water=grams)
        keeps = hc.keeping(final, fresh_herb=fresh, raw_vinegar=raw)
        bar = by_gid(axes, f"range {row}")
        low, high = keeps.days
        assert bar.get_x() == low and bar.get_x() + bar.get_width() == pytest.approx(high)
        assert bool(bar.get_hatch()) == keeps.refrigerate  # told in grey print too
        said = by_gid(axes, f"words {row}").get_text()
        assert said.startswith(f"{keeps.low:g} to {keeps.high:g} {keeps.unit}")
        assert by_gid(axes, f"acid {row}").get_text() == f"{final.acidity:.1f} g of acid"

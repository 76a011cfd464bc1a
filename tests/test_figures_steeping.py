"""What the pictures of lesson 08 show and say, held against the library and published figures."""

import re

import matplotlib
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from matplotlib.figure import Figure

import herbcalc as hc
from herbcalc import explore
from herbcalc.explore import steeping as panels
from herbcalc.extraction import FILTERS, HELD_BACK, MESH
from herbcalc.figures import steeping as draw
from herbcalc.figures.style import STYLE


def picture(backdrop, moving, *numbers, lay_out=None, given=()):
    with matplotlib.rc_context(STYLE):
        figure = Figure(figsize=(9, 4.4))
        axes = lay_out(figure) if lay_out else figure.add_subplot()
        backdrop(axes, *given)
        moving(axes, *numbers)
    return axes


def find(ax, gid):
    return ax.findobj(lambda artist: artist.get_gid() == gid)


def one(ax, gid):
    (found,) = find(ax, gid)
    return found


# --- the steeping curve --------------------------------------------------------------------------


def test_the_curve_is_the_librarys_and_half_has_come_at_its_time():
    ax = picture(panels._curve_backdrop, panels._show_curve, 14, 4.0)
    days, percent = one(ax, "pace").get_data()
    assert percent == pytest.approx(100 * np.asarray(hc.steeped(days)))
    assert np.interp(4.0, days, percent) == pytest.approx(50, abs=0.1)
    assert one(ax, "today").get_ydata()[0] == pytest.approx(100 * hc.steeped(14))
    assert one(ax, "words").get_text() == "day 14: 91 %"


def test_the_trades_weeks_are_marked_as_having_no_source():
    """Four to six weeks: common practice, no source."""
    ax = picture(panels._curve_backdrop, panels._show_curve, 14, 4.0)
    assert any(t.get_text() == "4 to 6 weeks:\ncommon practice,\nno source" for t in ax.texts)
    band = ax.patches[0]
    assert band.get_x() == 28 and band.get_x() + band.get_width() == 42
    assert [t.get_text() for t in ax.get_xticklabels()] == [str(w) for w in range(9)]


def test_the_pace_is_always_called_an_illustration():
    panel = explore.days_of_steeping()
    for days in (0, 1, 28, 56):
        assert "illustration" in panel.answer(days=days).sentence
    assert "1 day " in panel.answer(days=1).sentence


# --- one steep or two ----------------------------------------------------------------------------


def bars(herb, liquid, first, press):
    with matplotlib.rc_context(STYLE):
        ax = Figure(figsize=(9, 4.4)).add_subplot()
        draw.steeps_backdrop(ax)
        said = panels._show_steeps(ax, herb, liquid, first, press)
    return ax, said


def test_two_steeps_by_hand():
    """100 g dry, 500 mL, 1 mL kept per g. Once: 400 of 500 come out, 80 %. Twice 250: first 150 of
    250, 60 %; then 250 join the 100 kept, 250 of 350 come out: 0.40 x 250 / 350 = 28.6 %."""
    once = hc.steep(100, [500], 1.0)
    twice = hc.steep(100, [250, 250], 1.0)
    assert once.total_won == pytest.approx(0.80)
    assert twice.won == pytest.approx((0.60, 0.4 * 250 / 350))
    assert twice.total_drawn == once.total_drawn == 400


@given(st.integers(2, 15), st.integers(6, 20), st.integers(4, 16), st.sampled_from(list(HELD_BACK)))
@settings(max_examples=40, deadline=None)
def test_every_bar_adds_up_to_the_whole_herb(herb, liquid, first, press):
    ax, _ = bars(10 * herb, 50 * liquid, 5 * first, press)
    for row in range(draw.ROWS):
        parts = [p for p in ax.patches if re.fullmatch(rf"(won|left) {row}.*", p.get_gid() or "")]
        if parts:
            assert sum(p.get_width() for p in parts) == pytest.approx(100)
            kept = HELD_BACK[press] * 10 * herb
            pours = [[50 * liquid], None, None][row]
            if pours:
                drawn = int(re.search(r"in (\d+) mL", one(ax, f"total {row}").get_text())[1])
                assert drawn == pytest.approx(50 * liquid - kept, abs=0.51)


def test_a_pour_that_only_wets_the_herb_says_so():
    ax, said = bars(150, 300, 20, "dripped only")
    assert "only wet" in said and not find(ax, "total 0")
    assert sum("only wets the herb" in t.get_text() for t in ax.texts) == 3


# --- pressing ------------------------------------------------------------------------------------


def test_what_is_won_and_what_is_kept_is_all_there_was():
    thyme = hc.herb("thyme", "dried")
    with matplotlib.rc_context(STYLE):
        axes = panels._press_axes(Figure(figsize=(9, 4.8)))
        panels._press_backdrop(axes)
        panels._show_press(axes, thyme, 90, 0.5)
    jar = hc.Jar(500, thyme, fill=0.9, menstruum=hc.spirit(1, 45))
    for row, way in enumerate([*HELD_BACK.values(), 0.5]):
        won, kept = one(axes[1], f"won {row}"), one(axes[1], f"kept {row}")
        assert won.get_width() + kept.get_width() == pytest.approx(jar.final.volume)
        assert kept.get_width() == pytest.approx(way * jar.dry_mass)
    assert axes[1].get_xlabel().endswith("mL")


def test_harder_pressing_never_wins_less():
    panel = explore.pressing()
    for fill in (20, 55, 90):
        said = panel.answer(fill=fill).sentence
        by_hand, screw = map(int, re.findall(r"(\d+) mL(?: and|,)", said))
        assert screw > by_hand
        assert "invented" in said


@pytest.mark.parametrize("own, words", [(0.4, "1:4.8"), (5, "1:0.5")])
def test_the_students_own_marc_counts(own, words):
    assert words in explore.pressing().answer(own=own).sentence


def test_dense_herb_that_drinks_everything_is_told_and_drawn():
    powder = next(h for words, h in explore.pressing().controls["herb"].options.items()
                  if words.startswith("turmeric"))
    answer = explore.pressing().answer(herb=powder, fill=90)
    assert answer.kind == "answer" and "soaks up" in answer.sentence


# --- the yield -----------------------------------------------------------------------------------


def test_the_published_yield_is_a_band_and_the_starting_press_falls_into_it():
    """Cooperation Phytopharmaceuticals, Tincture (seen): from 1:5, the ratio after pressing is
    1:4 to 1:4.5."""
    ax = picture(draw.yield_backdrop, panels._show_yield, 5.0, 0.7, given=(HELD_BACK,))
    band = ax.patches[0]
    assert (band.get_y(), band.get_y() + band.get_height()) == (4.0, 4.5)
    assert 4.0 <= one(ax, "own").get_ydata()[0] <= 4.5
    assert "inside the published" in explore.yield_of_pressing().answer(ratio=5, own=0.7).sentence
    assert "under the published" in explore.yield_of_pressing().answer(ratio=5, own=2.0).sentence
    assert "above the published" in explore.yield_of_pressing().answer(ratio=5, own=0.3).sentence
    assert "for 1:5" in explore.yield_of_pressing().answer(ratio=8, own=0.7).sentence


def test_the_line_is_a_jar_of_dried_herb_pressed():
    """The line's short sum against the whole jar: a herb with 10 % water at 1:5."""
    herb = hc.Herb("any", "dried", water=0.10, bulk_density=0.3)
    jar = hc.Jar(500, herb, herb_mass=80, headspace=0.05, menstruum=hc.spirit(1, 45))
    won, _ = hc.pressed(jar, 1.1)
    by_line = jar.ratio + 0.10 - 1.1 * 0.90
    assert won.volume / jar.herb_mass == pytest.approx(by_line, abs=0.03)


# --- straining -----------------------------------------------------------------------------------


def test_sieves_stand_from_coarse_to_fine_with_their_openings():
    openings = [opening for _, opening in panels.SIEVES]
    assert openings == sorted(openings, reverse=True)
    assert len(openings) == len(MESH) + len(FILTERS)


def test_mesh_60_holds_what_is_coarser_than_a_quarter_millimetre():
    """ASTM E11 (from memory): No. 60 has openings of 0.25 mm."""
    panel = explore.straining()
    assert "stays on" in panel.answer(grain=0.26, chosen="mesh 60").sentence
    assert "goes through" in panel.answer(grain=0.24, chosen="mesh 60").sentence
    through = [False, True] * 5
    ax = picture(draw.sieve_backdrop, draw.sieve, panels.SIEVES, 0.3, through, 2,
                 given=(panels.SIEVES,))
    said = [one(ax, f"row {row}").get_text() for row in range(10)]
    assert said == ["held", "through"] * 5
    assert "mm" in ax.get_xlabel() and one(ax, "grain").get_text() == "grain of 0.3 mm"

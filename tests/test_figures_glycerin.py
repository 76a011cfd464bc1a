"""What the pictures and sentences of lesson 05 say, held against the library."""

import itertools
import re

import matplotlib
import numpy as np
import pytest
from matplotlib.figure import Figure

import herbcalc as hc
from herbcalc import explore
from herbcalc.explore.glycerin import as_thick, line_of_activity
from herbcalc.figures import glycerin as draw
from herbcalc.figures.style import STYLE

MINE = ["glycerin_and_spirit", "glycerin_jar", "thick_and_thirsty"]


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
            assert not re.search(r"\d\.\d{3}", answer.sentence)  # no more than the bench can tell
            if value != panel.start[key]:
                assert answer.picture != start.picture, (key, value)


@pytest.mark.parametrize("name", MINE)
def test_all_ends_together_give_an_answer_or_one_clear_sentence(name):
    panel = getattr(explore, name)()
    for corner in itertools.product(*(ends(c)[:: max(len(ends(c)) - 1, 1)]
                                      for c in panel.controls.values())):
        answer = panel.answer(**dict(zip(panel.controls, corner)))
        assert answer.kind != "fault", (corner, panel.trouble)


# --- two curves ----------------------------------------------------------------------------------


def test_the_window_of_the_trade_lies_between_the_two_limits():
    axes, _ = drawn(explore.thick_and_thirsty())
    said = " ".join(words(axes["free"]) + words(axes["thick"]))
    for mark in ("39 %", "52 %", "0.85: food law (USA), 21 CFR 114.3", "0.75: cosmetics, ISO 29621",
                 "the trade's 40 to 50 % (common practice)"):
        assert mark in said
    low, high = (hc.glycerin_for_water_activity(limit) for limit in (0.85, 0.75))
    assert low < 40 < 50 < high  # by the published rule of Norrish: nothing is drawn to fit


def test_the_curves_are_those_of_the_tables():
    axes, _ = drawn(explore.thick_and_thirsty())
    x, viscosity = axes["thick"].lines[0].get_data()
    # Segur & Oberstar (1951): 6.00 mPa s at 50 % m/m, which is 44.8 % by volume; 22.5 at 70 %
    for grams, printed in ((0.5, 6.00), (0.7, 22.5)):
        share = hc.Liquid(glycerin=grams, water=1 - grams).glycerin_percent
        assert np.interp(share, x, viscosity) == pytest.approx(printed, rel=0.03)
    x, activity = axes["free"].lines[0].get_data()
    assert np.all(np.diff(activity) < 0) and activity[0] == 1
    assert axes["thick"].get_ylabel() == "viscosity\n[mPa s]"
    assert axes["free"].get_xlabel() == "glycerin [% by volume]"


@pytest.mark.parametrize("share", [10, 45, 80, 97])
def test_the_mark_stands_on_the_curves(share):
    liquid = hc.glycerin(share) + hc.water(100 - share)
    axes, sentence = drawn(explore.thick_and_thirsty(), share=share)
    said = by_gid(axes["free"], "free water").get_text()
    assert said in (f"{liquid.water_activity:.2f}", "under 0.05")
    thick = float(by_gid(axes["thick"], "thickness").get_text().split()[0])
    assert thick == pytest.approx(liquid.viscosity, rel=0.06)
    assert hc.keeping(liquid).range in sentence


def test_thickness_in_words_has_no_more_digits_than_the_formula():
    assert as_thick(hc.glycerin(100)) == "about 1300 times as thick as water"
    assert as_thick(hc.water(1)) == "1.0 times as thick as water"


# --- the jar -------------------------------------------------------------------------------------


@pytest.mark.parametrize("share, fill", [(60, 90), (100, 90), (30, 100)])
def test_the_jar_ends_where_the_library_says(share, fill):
    herb = hc.herb("spearmint", "fresh")
    jar = hc.Jar(volume=500, herb=herb, fill=fill / 100,
                 menstruum=hc.glycerin(share) + hc.water(100 - share))
    axes, sentence = drawn(explore.glycerin_jar(), herb=herb, share=share, fill=fill)
    assert by_gid(axes["scale"], "end words").get_text() == f"ends {jar.final.water_activity:.2f}"
    assert f"the jar ends at {jar.final.glycerin_percent:.0f} %" in sentence
    assert hc.keeping(jar.final, fresh_herb=True).range in sentence
    assert jar.final.water_activity > jar.poured.water_activity  # the herb thins it


def test_parts_add_up_and_hold_what_the_library_counts():
    jar = hc.glycerin(200) + hc.spirit(100, abv=95) + hc.vinegar(50) + hc.Liquid(water=80)
    parts = draw.parts_of(jar, herb_water=80)
    assert sum(parts.values()) == pytest.approx(jar.volume)
    assert parts["glycerin"] == pytest.approx(jar.glycerin / 1.261, rel=1e-3)  # handbook density
    assert parts["ethanol"] == pytest.approx(95, abs=1)
    assert parts["herb's water"] == pytest.approx(80, abs=0.3)
    assert set(draw.parts_of(hc.water(10))) == {"water"}


# --- the map -------------------------------------------------------------------------------------


@pytest.mark.parametrize("limit", [0.85, 0.75])
def test_the_lines_of_the_map_hold_one_water_activity(limit):
    glycerin, strength = line_of_activity(limit)
    assert np.all(np.diff(strength) > 0) and np.all(np.diff(glycerin) < 0)
    assert glycerin[0] == pytest.approx(hc.glycerin_for_water_activity(limit), abs=0.01)
    # and back again from what is poured: volumes of a mixture of that composition
    for share, abv in zip(glycerin[::20], strength[::20]):
        mixed = (hc.Liquid(glycerin=share * 1.261058) + hc.Liquid(ethanol=abv * 0.78924))
        some = np.linspace(0, 100, 2001)
        water = np.interp(100, (mixed + hc.Liquid(water=some)).volume, some)
        assert (mixed + hc.Liquid(water=water)).water_activity == pytest.approx(limit, abs=0.002)


def test_spirit_in_the_glycerin_keeps_it_longer():
    panel = explore.glycerin_and_spirit()
    without, with_spirit = (panel.answer(spirit=amount).sentence for amount in (0, 60))
    assert "3 to 6 months in the refrigerator" in without
    assert "3 to 5 years" in with_spirit


def test_nothing_poured_is_said():
    answer = explore.glycerin_and_spirit().answer(glycerin=0, spirit=0, water=0)
    assert answer.kind == "warning" and "Nothing is poured yet" in answer.sentence

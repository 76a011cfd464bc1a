"""What the pictures of lessons 00 and 01 show and say, held against the library and its sources."""

import re

import matplotlib
import pytest
from matplotlib.figure import Figure

import herbcalc as hc
from herbcalc import explore
from herbcalc.figures import strength as draw
from herbcalc.figures.style import STYLE


def picture(backdrop, moving, *numbers, **more):
    """The axes after both have drawn on it."""
    with matplotlib.rc_context(STYLE):
        ax = Figure(figsize=(9, 4.4)).add_subplot()
        backdrop(ax)
        limits = ax.get_xlim(), ax.get_ylim()
        ax.autoscale(False)
        moving(ax, *numbers, **more)
    assert (ax.get_xlim(), ax.get_ylim()) == limits
    return ax


def one(ax, gid):
    (found,) = ax.findobj(lambda artist: artist.get_gid() == gid)
    return found


def words(ax):
    return [text.get_text() for text in ax.texts]


def three_scales(strength, british=None):
    grams = hc.mass_fraction(strength)
    return picture(draw.scales_backdrop, draw.scales, strength, hc.proof_from_abv(strength),
                   100 * grams, hc.density(grams), british)


@pytest.mark.parametrize("strength", [0, 12, 40, 57, 96])
def test_the_line_crosses_all_rulers_at_the_strength(strength):
    ax = three_scales(strength)
    assert list(one(ax, "level").get_ydata()) == [strength, strength]
    assert one(ax, "ethanol").get_height() == strength
    assert one(ax, "water").get_height() == 100 - strength
    for name, number in {"US proof": 2 * strength, "% vol": strength,
                         "% by mass": 100 * hc.mass_fraction(strength)}.items():
        flag = one(ax, name)
        assert flag.get_text() == f"{number:.0f}"
        assert flag.get_position()[1] == strength
        assert name in words(ax)  # the head of the ruler: its unit


def test_the_mass_ruler_stands_where_the_tables_put_it():
    """41.0 to 42.0 % by mass is 48.4 to 49.5 % vol: USP 29, Diluted Alcohol (seen); at 60 degF,
    which moves the mark by less than 0.1."""
    ax = three_scales(40)
    x = draw._RULERS["% by mass"] - draw._HALF - 1.5
    marks = {text.get_text(): text.get_position()[1] for text in ax.texts
             if text.get_position()[0] == x}
    assert set(marks) == {str(v) for v in range(0, 101, 10)}
    assert 47.3 < marks["40"] < 48.4 and marks["50"] > 49.5
    heights = [marks[str(v)] for v in range(0, 101, 10)]
    assert heights == sorted(heights) and heights[0] == 0 and round(heights[-1], 6) == 100


def test_a_litre_is_weighed():
    assert one(three_scales(40), "weight").get_text() == "948 g"  # 0.94805 g/mL, OIML R 22
    assert one(three_scales(0), "weight").get_text() == "998 g"


def test_british_proof_spirit_weighs_twelve_thirteenths_of_water():
    """The legal definition (Customs and Excise Act 1952, from memory): at 51 degF proof spirit
    weighs 12/13 of an equal volume of distilled water; strength counted at 60 degF."""
    cold, sixty = (51 - 32) / 1.8, (60 - 32) / 1.8
    grams = hc.mass_fraction(draw.BRITISH_PROOF, reference=sixty)
    assert hc.density(grams, cold) / hc.density(0.0, cold) == pytest.approx(12 / 13, abs=1e-4)


def test_the_british_scale_is_drawn_only_when_asked_for():
    plain, both = three_scales(57), three_scales(57, british=57 / draw.BRITISH_PROOF * 100)
    assert "British" not in words(plain)
    assert "British" in words(both)
    assert one(both, "British").get_text() == "100"


def floating(reading, temperature):
    return picture(draw.hydrometer_backdrop, draw.hydrometer, reading, temperature,
                   hc.true_strength(reading, temperature))


@pytest.mark.parametrize("reading, temperature", [(10, 20), (42, 28), (60, 5), (95, 35)])
def test_the_hydrometer_sinks_to_its_reading(reading, temperature):
    ax = floating(reading, temperature)
    stem = ax.collections[0].get_paths()[0].vertices
    foot = stem[:, 1].min()
    assert foot + reading * draw._WHOLE == pytest.approx(draw._SURFACE)
    mercury = one(ax, "temperature")
    assert mercury.get_y() + mercury.get_height() == draw._thermometer_height(temperature)
    truth = hc.true_strength(reading, temperature)
    assert one(ax, "reading").get_text() == f"reads\n{reading} % vol"
    assert one(ax, "truth").get_text() == f"is really\n{truth:.0f} % vol"
    assert f"{temperature} °C" in words(ax)


def test_warm_reads_too_strong_and_cold_too_weak():
    for temperature, way in ((28, -1), (20, 0), (12, 1)):
        ax = floating(42, temperature)
        moved = one(ax, "truth").get_position()[1] - one(ax, "reading").get_position()[1]
        assert (moved > 0.5) == (way > 0) and (moved < -0.5) == (way < 0)


def test_two_labels_of_the_thermometer_never_lie_on_each_other():
    for temperature in range(5, 36):
        ax = floating(42, temperature)
        here = next(t for t in ax.texts if t.get_text() == f"{temperature} °C")
        mark = next(t for t in ax.texts if t.get_text().startswith("20 °C:"))
        assert abs(here.get_position()[1] - mark.get_position()[1]) >= 13


def test_the_flash_line_joins_the_rows_of_the_table():
    """Engineering ToolBox (seen): 20 % 36, 40 % 26, 70 % 21, 96 % 17 degC."""
    ax = picture(draw.flash_backdrop, draw.flash, 40, 18, 26)
    line = one(ax, "flash points")
    assert list(zip(*line.get_data())) == [(20, 36), (40, 26), (70, 21), (96, 17)]
    assert ax.get_xlabel() == "strength [% vol]" and ax.get_ylabel() == "temperature [°C]"


def test_a_flame_is_drawn_only_at_or_above_the_flash_point():
    marks = {temperature: one(picture(draw.flash_backdrop, draw.flash, 40, temperature, 26),
                              "here") for temperature in (25, 26, 40)}
    assert [mark.get_marker() is draw._FLAME for mark in marks.values()] == [False, True, True]
    assert [list(m.get_data()) for m in marks.values()] == [[[40], [t]] for t in marks]


# --- sentences -----------------------------------------------------------------------------------


def sentence(name, **values):
    answer = getattr(explore, name)().answer(**values)
    assert answer.kind == "answer"
    return answer.sentence


def test_sentences_of_the_scales():
    assert sentence("three_scales", strength=40) == (
        "40 % vol is 80 US proof and 33 % by mass; one litre of it weighs 948 g.")
    assert "100 proof" in sentence("three_scales", strength=57, british=True)
    assert "old British" not in sentence("three_scales", strength=57)


def test_sentences_of_the_hydrometer():
    warm = sentence("hydrometer", reading=42, temperature=28)
    assert "38.8 % vol" in warm and "too strong" in warm
    assert "too weak" in sentence("hydrometer", reading=42, temperature=12)
    assert "40.0 % vol: at 20 °C" in sentence("hydrometer", reading=40, temperature=20)


@pytest.mark.parametrize("strength", [20, 40, 55, 70, 95, 96])
def test_sentences_of_the_flash_point(strength):
    flash = hc.flash_point(strength)
    for temperature in (0, flash - 1, flash, 40):
        said = sentence("flash_point", strength=strength, temperature=temperature)
        assert f"about {flash:.0f} °C" in said
        assert ("one spark is enough" in said) == (temperature >= flash)
        # whatever the numbers, it ends with what to do
        assert "flame" in said


@pytest.mark.parametrize("herb", ["fresh peppermint", "dried spearmint", "dried fennel seed"])
def test_sentences_of_the_first_jar(herb):
    words = sentence("first_jar", herb=herb, fill=60, strength=40)
    state, name, *_ = herb.split()
    jar = hc.Jar(500, hc.herb(name, state), fill=0.6, menstruum=hc.spirit(1, abv=40))
    assert re.findall(r"(\d+) (?:g|mL of spirit)", words) == [
        f"{jar.herb_mass:.0f}", f"{jar.menstruum_volume:.0f}"]

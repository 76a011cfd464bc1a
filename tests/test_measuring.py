"""Measuring error: what the tools do to a jar and to a dilution."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import herbcalc as hc
from herbcalc.measuring import SCALES, VOLUMES, spread, spread_of_dilution

WORST_TO_BEST = ["cups and spoons", "kitchen jug", "measuring cylinder"]


def width(spread_, quantity):
    low, _, high = spread_.range(quantity)
    return high - low


@given(st.sampled_from(list(VOLUMES)), st.floats(20, 1000), st.floats(1, 96),
       st.floats(0, 1000))
def test_the_middle_is_what_was_meant(tool, volume, abv, water):
    got = spread_of_dilution(volume, abv, water, VOLUMES[tool], count=2000)
    meant = hc.spirit(volume, abv) + hc.water(water)
    low, middle, high = got.range("final_abv")
    assert low - 1e-4 <= meant.abv <= high + 1e-4
    assert np.all((0 <= got.final_abv) & (got.final_abv <= abv + 1e-6))


@pytest.mark.parametrize("volume", [100, 200, 500])
def test_a_better_tool_is_narrower(volume):
    water = hc.water_to_dilute(volume, 95, to=40)
    widths = [width(spread_of_dilution(volume, 95, water, VOLUMES[tool]), "final_abv")
              for tool in WORST_TO_BEST]
    assert widths == sorted(widths, reverse=True)


def test_by_hand():
    """Errors of two measures that do not know of each other add as squares: with 1 % each way on
    spirit and on water, the share of spirit moves by share x (1 - share) x sqrt(2) x 1 %.
    So 40 % vol from equal parts of 80 % vol and water (nearly) moves by about 0.28 % vol."""
    got = spread_of_dilution(500, 80, 500, VOLUMES["measuring cylinder"], count=50_000)
    half = width(got, "final_abv") / 2
    by_hand = got.range("final_abv")[1] * 0.5 * np.sqrt(2) * 0.01 * 1.96 / 2
    assert half == pytest.approx(by_hand, rel=0.06)


def test_for_little_even_spoons_beat_the_jug():
    jug, spoons = (width(spread_of_dilution(30, 95, 40, VOLUMES[tool]), "final_abv")
                   for tool in ("kitchen jug", "cups and spoons"))
    assert spoons < jug


def test_small_amounts_suffer_most_from_a_jug():
    small = width(spread_of_dilution(50, 95, 70, VOLUMES["kitchen jug"]), "final_abv")
    large = width(spread_of_dilution(500, 95, 700, VOLUMES["kitchen jug"]), "final_abv")
    assert small > 2 * large


def test_the_scale_moves_the_ratio_and_hardly_the_strength():
    thyme = hc.herb("thyme", "dried")
    cylinder = VOLUMES["measuring cylinder"]
    lab = spread(thyme, 85, 415, 45, SCALES["lab scale"], cylinder)
    eye = spread(thyme, 85, 415, 45, SCALES["by eye"], cylinder)
    assert width(eye, "ratio") > 10 * width(lab, "ratio")
    assert width(eye, "final_abv") < 1


@pytest.mark.parametrize("wrong", [(0, 95, 10), (-5, 95, 10), (10, 101, 10), (10, 95, -1),
                                   (float("nan"), 95, 10)])
def test_impossible_amounts_get_a_sentence(wrong):
    with pytest.raises(ValueError, match=r"must|cannot"):
        spread_of_dilution(*wrong, VOLUMES["kitchen jug"])


def test_the_same_seed_gives_the_same_class():
    one, other = (spread_of_dilution(100, 95, 100, VOLUMES["kitchen jug"]) for _ in range(2))
    assert np.array_equal(one.final_abv, other.final_abv)

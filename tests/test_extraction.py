"""Solubility, steeping, pressing and drops: what they must say."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import herbcalc as hc
from herbcalc import dose, extraction, measuring


@given(st.floats(-4, 6), st.floats(0, 95))
def test_pure_water_is_the_measure(log_kow, abv):
    assert hc.solubility_gain(log_kow, hc.water(1)) == pytest.approx(1)
    gain = hc.solubility_gain(log_kow, hc.spirit(1, abv))
    if abv > 1:
        assert (gain > 1) == (0.95 * log_kow + 0.30 > 0)


def test_oil_loving_stuff_wants_spirit_and_sugar_wants_water():
    strong, weak = hc.spirit(1, 90), hc.spirit(1, 25)
    for item in hc.constituents():
        if item.log_kow is None:
            continue
        better_strong = (hc.solubility_gain(item.log_kow, strong)
                         > hc.solubility_gain(item.log_kow, weak))
        assert better_strong == (item.log_kow > -0.3 / 0.95)
        if item.kind == "essential oil":
            assert better_strong
        if item.kind.startswith("sugar"):
            assert not better_strong


def test_menthol_in_spirit_by_hand():
    """Worked by hand from Li & Yalkowsky's line (from memory): log gain at 40 % vol =
    0.4 x (0.95 x 3.40 + 0.30) = 1.412."""
    assert np.log10(hc.solubility_gain(3.40, hc.spirit(1, 40))) == pytest.approx(1.412, abs=1e-9)


def test_a_mixture_of_both_adds_on_the_log_line():
    mix = hc.spirit(40, 95) + hc.glycerin(30) + hc.water(30)
    expected = (mix.abv / 100 * (0.95 * 2 + 0.30) + mix.glycerin_percent / 100 * (0.35 * 2 + 0.28))
    assert np.log10(hc.solubility_gain(2, mix)) == pytest.approx(expected)


def test_every_constituent_says_rule_and_where_it_disagrees():
    kinds = {c.kind for c in hc.constituents()}
    assert kinds >= {"essential oil", "tannin", "alkaloid", "polysaccharide", "resin", "mineral"}
    for item in hc.constituents():
        assert item.trade_rule and item.source and item.meets
        assert item.meets == "agrees" or item.meets.startswith(("differs:", "no line:"))
    assert sum(c.meets.startswith("differs") for c in hc.constituents()) >= 4


@given(st.floats(0, 60), st.floats(0.1, 30), st.floats(0.5, 20))
def test_steeping_only_ever_gains_and_never_passes_one(days, more, half_way):
    before, after = hc.steeped(days, half_way), hc.steeped(days + more, half_way)
    assert 0 <= before <= after <= 1


def test_four_weeks_is_nearly_all_at_the_illustrative_rate():
    assert hc.steeped(28) > 0.99  # 4 to 6 weeks: common practice, no source


def test_yield_of_a_published_press():
    """1:5 in, about 1:4 to 1:4.5 out (Cooperation Phytopharmaceuticals, "Tincture")."""
    once = hc.steep(100, [500], extraction.HELD_BACK["screw press"])
    assert 400 <= once.total_drawn <= 450


@given(st.floats(1, 5), st.floats(0.1, 0.9))
def test_better_presses_win_more(_, share):
    jar = hc.Jar(volume=1000, herb=hc.herb("thyme", "dried"), fill=share * 0.6,
                 menstruum=hc.spirit(1, 45))
    yields = [hc.pressed(jar, method)[0].volume for method in extraction.HELD_BACK]
    assert yields == sorted(yields)
    own = hc.held_back(jar.menstruum_volume, 0, jar.menstruum_volume - 20, jar.dry_mass)
    assert own * jar.dry_mass == pytest.approx(20)


def test_drops_follow_the_skin_of_the_liquid():
    """USP <1101>: 45 to 55 mg a drop of water. About 20 drops of water to the mL, and many more
    of spirit, as in the 1905 table (60 and 146 in a US fluid drachm)."""
    water, spirit = dose.drops_per_ml(hc.water(1)), dose.drops_per_ml(hc.spirit(1, 94))
    assert 18 < water < 22.5
    assert spirit / water == pytest.approx(146 / 60, rel=0.10)
    abv = np.linspace(0, 95, 40)
    assert np.all(np.diff(dose.drops_per_ml(hc.spirit(1, abv))) > 0)


def test_a_wider_dropper_gives_fewer_drops():
    assert dose.drops_per_ml(hc.water(1), tube=6) == pytest.approx(
        dose.drops_per_ml(hc.water(1), tube=3) / 2)


def test_a_standard_drink():
    """NIAAA: 1.5 US fl oz of 80 proof, 5 fl oz of 12 % wine, 12 fl oz of 5 % beer: 14 g each."""
    for ounces, abv in ((1.5, 40), (5, 12), (12, 5)):
        assert dose.standard_drinks(ounces * 29.57, abv) == pytest.approx(1, abs=0.02)


@pytest.mark.parametrize("scale", measuring.SCALES.values(), ids=lambda t: t.name)
@pytest.mark.parametrize("measure", measuring.VOLUMES.values(), ids=lambda t: t.name)
def test_measurings_spread_around_the_exact_jar(scale, measure):
    mint = hc.herb("peppermint", "fresh")
    out = measuring.spread(mint, 60, 300, 50, scale, measure, added_water=50)
    exact = hc.spirit(300, 50) + hc.water(50)
    low, middle, high = out.range("ratio")
    assert low < exact.volume / 60 < high and middle == pytest.approx(exact.volume / 60, rel=0.03)
    end = exact + hc.Liquid(water=60 * mint.water)
    low, middle, high = out.range("final_abv")
    assert low < end.abv < high
    again = measuring.spread(mint, 60, 300, 50, scale, measure, added_water=50)
    assert np.array_equal(out.ratio, again.ratio)


def test_the_scale_decides_the_ratio_and_the_jug_the_strength():
    mint = hc.herb("peppermint", "fresh")

    def width(scale, measure, what):
        low, _, high = measuring.spread(mint, 60, 300, 90, measuring.SCALES[scale],
                                        measuring.VOLUMES[measure], added_water=300).range(what)
        return high - low

    assert width("by eye", "measuring cylinder", "ratio") > 5 * width(
        "lab scale", "measuring cylinder", "ratio")
    assert width("lab scale", "cups and spoons", "final_abv") > 3 * width(
        "lab scale", "measuring cylinder", "final_abv")

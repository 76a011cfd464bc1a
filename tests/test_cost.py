"""What to buy: the cheapest cover against an independent solver, contraction, break-even."""

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp

import herbcalc as hc
from herbcalc import cost
from herbcalc.cost import Offer
from herbcalc.shelf import Stock, stock

START = "2027-01-10"
HEAD = "what,size,unit,price,currency\n"


def spirits(*sizes_and_prices):
    return tuple(Offer(Stock("spirit", 40), size, "mL", price) for size, price in sizes_and_prices)


# --- the cheapest cover --------------------------------------------------------------------------


@settings(max_examples=80, deadline=None)
@given(st.lists(st.tuples(st.integers(1, 40).map(lambda n: 25 * n),
                          st.integers(50, 6000).map(lambda c: c / 100)),
                min_size=1, max_size=4, unique_by=lambda pair: pair[0]),
       st.floats(1, 8000))
def test_no_other_way_of_buying_is_cheaper(sizes_and_prices, need):
    """Against SciPy's mixed-integer solver (HiGHS)."""
    sizes, costs = np.array(sizes_and_prices).T
    best = milp(costs, integrality=np.ones(len(sizes)), bounds=Bounds(0, np.inf),
                constraints=LinearConstraint(sizes, need, np.inf),
                options=dict(mip_rel_gap=0))
    basket = cost.cheapest(need, spirits(*sizes_and_prices))
    assert basket.price == pytest.approx(best.fun, abs=0.005)
    assert basket.bought >= need - 1e-6
    assert basket.left_over == pytest.approx(basket.bought - need, abs=1e-9)


def test_of_equal_price_the_fewest_packs():
    basket = cost.cheapest(1000, spirits((500, 5.0), (1000, 10.0)))
    assert [(offer.size, count) for offer, count in basket.packs] == [(1000, 1)]


def test_a_hair_over_a_pack_is_no_second_pack():
    assert cost.cheapest(700 + 1e-7, spirits((700, 16.0))).price == 16.0
    assert cost.cheapest(701, spirits((700, 16.0))).price == 32.0


def test_sizes_in_odd_ounces_are_summed_too():
    """355 and 473 mL (12 and 16 fl oz) share no larger step than 1 mL."""
    basket = cost.cheapest(1100, spirits((355, 9.0), (473, 10.0)))
    assert basket.price == 28.0 and basket.bought == 1183


@pytest.mark.parametrize("need, offers, said", [
    (0, spirits((700, 16.0)), "more than 0"), (float("inf"), spirits((700, 1.0)), "number"),
    (500, (), "Nothing is offered"), (1e12, spirits((700, 16.0)), "more than a shop sells"),
])
def test_a_cover_that_makes_no_sense(need, offers, said):
    with pytest.raises(ValueError, match=said):
        cost.cheapest(need, offers)


# --- the price list ------------------------------------------------------------------------------


def test_every_price_of_the_course_says_that_it_is_invented():
    from herbcalc import places

    lines = (places.data() / "prices.csv").read_text(encoding="utf-8").splitlines()
    assert len(lines) > 20 and all("invented" in line for line in lines[1:])
    assert {offer.currency for offer in hc.prices()} == {"EUR"}


def test_every_herb_of_the_list_is_a_herb_of_the_table():
    known = {f"{herb.state} {herb.name}" for herb in hc.known_herbs()}
    sold = {o.what for o in hc.prices() if isinstance(o.what, str) and o.what != "jar"}
    assert sold and sold <= known


def test_the_prices_of_the_scenario_are_those_of_lesson_00():
    assert [(o.size, o.price) for o in cost.offers_of("spirit 40")][0] == (700, 16)
    assert [(o.size, o.price) for o in cost.offers_of("spirit 95")][0] == (500, 29)


def test_own_prices_come_first_and_are_never_overwritten(tmp_path):
    path = hc.copy_prices(tmp_path)
    assert hc.prices(tmp_path) == hc.prices()
    path.write_text("\ufeff" + HEAD + "spirit 40,700,mL,\"12,50\",USD\n", encoding="utf-8")
    assert hc.prices(tmp_path) == (Offer(Stock("spirit", 40), 700, "mL", 12.5, "USD"),)
    assert cost.money(12.5, "USD") == "12.50 $"
    with pytest.raises(ValueError, match="already"):
        hc.copy_prices(tmp_path)
    assert "12,50" in path.read_text(encoding="utf-8")


@pytest.mark.parametrize("text, said", [
    ("what;size;unit;price;currency\n", "no column"), ("", "no column"),
    (HEAD + "spirit 40,700,mL,16,EUR\nspirit 40,big,mL,16,EUR\n", "Line 3 .*size"),
    (HEAD + "spirit,700,mL,16,EUR\n", "Line 2 .*How strong"),
    (HEAD + "spirit 40,700,mL,-1,EUR\n", "Line 2 .*price"),
    (HEAD + "spirit 40,700,mL,free,EUR\n", "Line 2 .*price"),
    (HEAD + "spirit 40,0,mL,16,EUR\n", "Line 2 .*size"),
    (HEAD + "spirit 40,700.5,mL,16,EUR\n", "Line 2 .*whole"),
    (HEAD + "spirit 40,700,fl oz,16,EUR\n", "Line 2 .*unit"),
    (HEAD + "spirit 40,700\n", "Line 2 .*missing"),
    (HEAD + ",700,mL,16,EUR\n", "Line 2 .*what it is"),
    (HEAD + "denatured spirit 95,700,mL,2,EUR\n", "Line 2 .*Never"),
    (HEAD + "spirit 40,700,mL,16,EUR\nspirit 95,500,mL,29,USD\n", "more than one currency"),
])
def test_a_price_list_that_cannot_be_read_names_its_line(tmp_path, text, said):
    path = tmp_path / "my-prices.csv"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(ValueError, match=said):
        hc.prices(tmp_path)
    assert path.read_text(encoding="utf-8") == text


def test_a_price_list_in_another_encoding(tmp_path):
    (tmp_path / "my-prices.csv").write_bytes((HEAD + "dried Süßholz,50,g,3,EUR").encode("cp1252"))
    with pytest.raises(ValueError, match="UTF-8"):
        hc.prices(tmp_path)


# --- a batch -------------------------------------------------------------------------------------


def test_twelve_jars_by_hand():
    """Dried thyme at 1:5 in plain spirit, worked out on paper: invented prices.

    A 500 mL jar takes 475 mL: m grams of thyme take up m (0.9221 / 1.5 + 0.0779 / 0.998) mL and
    5 m mL of spirit, so m = 475 / 5.6928 = 83.44 g, on the scale 83 g; spirit 417.2 mL. Twelve:
    996 g and 5006 mL, with a cylinder 5010 mL.
    """
    batch = hc.Batch("dried thyme", jar=500, ratio=5, liquid="spirit 40", jars=12, start=START)
    bought = hc.shop(batch)
    thyme, spirit, jars = bought.baskets
    assert thyme.need == pytest.approx(996)
    assert spirit.need == pytest.approx(5010)
    assert thyme.price == pytest.approx(4 * 9.80)  # 4 x 250 g
    assert spirit.price == 3 * 16 + 3 * 22  # 5100 mL; 5 x 1 L + 1 x 0.7 L would be 126
    assert jars.price == 12 * 1.80
    assert bought.total == pytest.approx(174.80)
    assert bought.per_jar == pytest.approx(174.80 / 12)
    assert bought.used_per_jar < bought.per_jar
    assert not bought.missing


def test_what_is_not_sold_is_said_and_not_fatal():
    batch = hc.Batch("fresh parsley", jar=300, fill=0.5, liquid="spirit 60", start=START)
    bought = hc.shop(batch)
    assert bought.missing == ("fresh parsley", "spirit of 60 % vol", "jar of 300 mL")
    assert "not in the price list" in str(bought)


def test_water_comes_from_the_tap_unless_it_is_sold():
    batch = hc.Batch("dried thyme", jar=500, ratio=6, liquid="spirit 95", final_abv=45, start=START)
    assert hc.shop(batch).basket(Stock("water")) is None
    sold = (*hc.prices(), Offer(Stock("water"), 1000, "mL", 0.8))
    assert hc.shop(batch, sold).basket(Stock("water")).price == 0.8


def test_the_contraction_is_counted():
    """Volumes do not add: 1 L of 40 % vol from 95 % vol takes 421 mL of spirit and 608 of water
    (OIML R 22), so that spirit and water together are more than what they make."""
    herb = hc.Herb("straw", "dried", 0.0, 0.05)
    batch = hc.Batch(herb, jar=1000, fill=0.02, liquid="spirit 40", start=START)
    way = next(way for way in hc.ways(batch) if way.spirit == stock("spirit 95"))
    spirit, water = (amount.exact for amount in way.batch.amounts[1:])
    room = batch.filled.menstruum_volume
    of_spirit, of_water = hc.make_up(room, 95, 40)
    assert (spirit, water) == pytest.approx((of_spirit, of_water), rel=1e-6)
    assert spirit + water > room * 1.02
    assert not way.ready and way.shopping.basket(way.spirit).need == pytest.approx(spirit, rel=0.01)


def test_every_way_ends_the_same():
    batch = hc.Batch("dried thyme", jar=500, ratio=5, liquid="spirit 95", final_abv=38, jars=7,
                     start=START)
    found = hc.ways(batch)
    assert [str(way.spirit) for way in found if way.ready] == []
    assert {way.spirit.strength for way in found} == {40, 50, 95}
    totals = [way.shopping.total for way in found]
    assert totals == sorted(totals)
    for way in found:
        assert way.batch.planned.final.abv == pytest.approx(38, abs=1e-6)
        assert way.batch.planned.herb_mass == pytest.approx(batch.planned.herb_mass)


def test_a_way_that_is_too_weak_is_left_out():
    batch = hc.Batch("fresh peppermint", jar=500, fill=0.75, liquid="spirit 95", final_abv=45,
                     start=START)
    assert {way.spirit.strength for way in hc.ways(batch)} == {50, 95}
    with pytest.raises(ValueError, match="No spirit of the price list is strong enough"):
        hc.ways(batch, spirits((700, 16.0)))
    with pytest.raises(ValueError, match="no spirit in this batch"):
        hc.ways(hc.Batch("dried thyme", jar=500, ratio=6, liquid="vinegar", start=START))


def test_spirit_in_a_mixture_is_bought_either_way_too():
    batch = hc.Batch("dried thyme", jar=500, ratio=6, start=START,
                     liquid={"spirit 40": 3, "glycerin": 1})
    for way in hc.ways(batch):
        assert way.batch.planned.final.abv == pytest.approx(batch.planned.final.abv, abs=1e-6)
        assert way.shopping.basket(stock("glycerin"))


def test_break_even_is_where_the_stairs_cross_for_good():
    batch = hc.Batch("dried thyme", jar=500, ratio=5, liquid="spirit 40", start=START)
    found = hc.break_even(batch, most=40)
    for jars, strong, ready in zip(found.jars, found.strong, found.ready):
        for spirit, price in ((found.strong_spirit, strong), (found.ready_spirit, ready)):
            way = next(w for w in hc.ways(batch.times(jars)) if w.spirit == spirit)
            assert way.spirit_price == price
        if jars >= found.from_jars:
            assert strong <= ready
    before = found.from_jars - 2
    assert found.strong[before] > found.ready[before]


def test_the_worth_of_a_litre_is_a_fair_price():
    """At just that price and with packs as small as you like, both ways cost the same."""
    batch = hc.Batch("dried thyme", jar=500, ratio=5, liquid="spirit 40", start=START)
    worth = hc.break_even(batch).worth_per_litre
    assert worth == pytest.approx(22.0 * 95 / 40)  # ethanol for ethanol: by the meaning of % vol
    fine = (Offer(stock("spirit 95"), 1, "mL", worth / 1000 * 100),  # hundredfold: whole cents
            Offer(stock("spirit 40"), 1, "mL", 2.2))
    both = hc.break_even(batch.times(1), offers=fine, most=3)
    assert np.allclose(both.strong, both.ready, rtol=0.01)


def test_a_break_even_that_never_comes():
    offers = (Offer(stock("spirit 95"), 500, "mL", 90.0), Offer(stock("spirit 40"), 700, "mL", 9.0))
    batch = hc.Batch("dried thyme", jar=500, ratio=5, liquid="spirit 40", start=START)
    assert hc.break_even(batch, offers=offers).from_jars is None
    with pytest.raises(ValueError, match="no spirit of 70"):
        hc.break_even(batch, strong="spirit 70")
    with pytest.raises(ValueError, match="is wanted"):
        hc.break_even(hc.Batch("fresh peppermint", jar=500, fill=0.7, liquid="spirit 95",
                               final_abv=60), ready="spirit 40")

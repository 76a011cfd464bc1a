"""Choosing a liquid: marks and lines held against the table of constituents, and by hand."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import herbcalc as hc
from herbcalc import choosing

NAMES = [kind.name for kind in choosing.kinds()]
WATER, WEAK, PLAIN, MIDDLING, STRONG, GLYCERIN, VINEGAR = choosing.liquids()

# What the table of constituents says in words (common practice, no source) and what the marks must
# then say: these liquids are the best of the trade's marks for the kind.
RULES = {
    "strong spirit": {STRONG},
    "strong spirit (80 % vol and up); water drops it": {STRONG},
    "middling spirit": {MIDDLING},
    "middling spirit; acid helps alkaloids": {MIDDLING, VINEGAR},
    "water or weak spirit": {WEAK},
    "water or weak spirit; glycerin holds tannins": {WATER, WEAK, GLYCERIN},
    "cold water; spirit makes it clump": {WATER},
    "vinegar": {VINEGAR},
}


@pytest.mark.parametrize("kind", choosing.kinds(), ids=lambda kind: kind.name)
def test_marks_say_what_the_rule_in_words_says(kind):
    rule = hc.constituent(kind.example).trade_rule
    best = {name for name, mark in zip(choosing.liquids(), kind.marks) if mark == max(kind.marks)}
    assert RULES[rule] <= best
    assert kind.basis == "common practice, no source"


@pytest.mark.parametrize("kind", choosing.kinds(), ids=lambda kind: kind.name)
def test_a_disagreement_names_its_reason(kind):
    unseen = hc.constituent(kind.example).log_kow is None
    if unseen or kind.differs.any():
        assert len(kind.why_they_differ) > 20
    else:
        assert kind.why_they_differ == ""
    assert (kind.by_line is None) == unseen


def test_the_disagreements_of_the_trade_are_found():
    at = {name: dict(zip(choosing.liquids(), kind.differs))
          for name, kind in zip(NAMES, choosing.kinds())}
    assert at["alkaloids"][VINEGAR]  # acid makes a salt that loves water: no line sees that
    assert at["tannins"][STRONG]
    assert at["flavonoids"][STRONG]
    assert not any(at["aromatic oils"].values())


def test_a_third_less_for_each_factor_of_ten_by_hand():
    oils = choosing.kinds()[NAMES.index("aromatic oils")]
    # menthol, log Kow 3.40 (SYRRES): 0.95 x 3.40 + 0.30 = 3.53 steps of ten for pure ethanol
    steps = np.array([0, 0.25, 0.40, 0.60, 0.90]) * 3.53
    by_hand = np.clip(1 - (steps.max() - steps) / 3, 0, 1)
    assert oils.by_line[:5] == pytest.approx(by_hand, abs=1e-6)
    assert oils.by_line[-1] == oils.by_line[0]  # vinegar is water to the line


def test_weights_are_a_mean():
    both = choosing.compare({"mucilage": 1, "resins": 3})
    apart = [choosing.compare({name: 1}).trade for name in ("mucilage", "resins")]
    for liquid in choosing.liquids():
        assert both.trade[liquid] == pytest.approx((apart[0][liquid] + 3 * apart[1][liquid]) / 4)
    assert both.line == {} and both.seen == 0 and both.best(both.line) == ()


@given(st.dictionaries(st.sampled_from(NAMES), st.floats(0.01, 5), min_size=1),
       st.floats(0.1, 10))
def test_only_the_shares_of_the_weights_count(weights, factor):
    one = choosing.compare(weights)
    other = choosing.compare({name: weight * factor for name, weight in weights.items()})
    for liquid in choosing.liquids():
        assert other.trade[liquid] == pytest.approx(one.trade[liquid])
        assert 0 <= one.trade[liquid] <= 1
        if one.line:
            assert other.line[liquid] == pytest.approx(one.line[liquid])
            assert 0 <= one.line[liquid] <= 1
    assert 0 <= one.seen <= 1


def test_ties_are_all_named():
    assert choosing.compare({"alkaloids": 1}).best(choosing.compare({"alkaloids": 1}).trade) == (
        PLAIN, MIDDLING, VINEGAR)


@pytest.mark.parametrize("weights, sentence", [
    ({}, "Nothing matters yet"),
    ({"resins": 0}, "Nothing matters yet"),
    ({"luck": 1}, "There is no kind called 'luck'"),
    ({"resins": -1}, "resins cannot be less than nothing"),
])
def test_what_cannot_be_is_said(weights, sentence):
    with pytest.raises(ValueError, match=sentence):
        choosing.compare(weights)

"""Keeping: a range with its unit and reasons, most cautious between the classes."""

import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

import herbcalc as hc
from herbcalc.keeping import SIGNS_OF_SPOILAGE

MADE = datetime.date(2027, 3, 1)

CLASSES = [
    # liquid                                              kind               cold
    (hc.spirit(1, 40), "spirit", False),
    (hc.spirit(1, 39.6), "spirit", False),
    (hc.spirit(1, 39.4), "weak spirit", True),
    (hc.spirit(1, 25), "very weak spirit", True),
    (hc.spirit(1, 15), "unprotected", True),
    (hc.glycerin(60) + hc.water(40), "glycerin", False),
    (hc.glycerin(50) + hc.water(50), "thinned glycerin", True),
    (hc.glycerin(40) + hc.water(60), "thin glycerin", True),
    (hc.glycerin(25) + hc.water(75), "unprotected", True),
    (hc.vinegar(1, 5), "vinegar", False),
    (hc.vinegar(1, 3.5), "watered vinegar", True),
    (hc.vinegar(1, 1), "unprotected", True),
    (hc.water(1), "unprotected", True),
]


@pytest.mark.parametrize("liquid, kind, cold", CLASSES, ids=[c[1] for c in CLASSES])
def test_each_class(liquid, kind, cold):
    kept = hc.keeping(liquid)
    assert kept.kind == kind
    assert kept.refrigerate is cold
    assert ("refrigerator" in kept.range) is cold


@pytest.mark.parametrize("liquid, low, high, unit", [
    (hc.spirit(1, 40), 15, 20, "years"),  # common practice, no source
    (hc.glycerin(1), 3, 5, "years"),  # common practice, no source
    (hc.vinegar(1), 6, 12, "months"),  # common practice, no source
])
def test_the_ranges_of_the_trade(liquid, low, high, unit):
    kept = hc.keeping(liquid)
    assert (kept.low, kept.high, kept.unit) == (low, high, unit)
    assert "common practice, no source" in kept.deciding


@given(st.floats(0, 96), st.floats(0, 1), st.floats(0, 12), st.booleans(), st.booleans())
def test_never_a_bare_number_never_a_promise(abv, glycerin, acid, fresh, raw):
    liquid = hc.spirit(100, abv) + hc.glycerin(100 * glycerin) + hc.vinegar(100, acid)
    kept = hc.keeping(liquid, fresh, raw)
    said = " ".join([kept.range, kept.deciding, *kept.reasons, *kept.safer, *kept.cautions])
    assert kept.unit in kept.range and kept.low < kept.high
    words = said.lower().replace("safer", "").split()
    assert "safe" not in [word.strip(".,:;") for word in words]
    assert "nan" not in words
    assert "If in doubt" in said or "if in doubt" in said
    if kept.refrigerate:
        assert "iscard" in said and "refrigerat" in said.lower()
    if kept.kind == "unprotected":
        assert "botulism" in said


def test_figures_say_whose_they_are():
    said = " ".join(hc.keeping(hc.glycerin(45) + hc.water(55)).reasons)
    assert "21 CFR 114.3" in said and "cosmetics" in said
    said = " ".join(hc.keeping(hc.vinegar(1)).reasons)
    assert "525.825" in said and "at least 2." in said and "only strips or a meter" in said


def test_fresh_herb_in_raw_vinegar_is_held_shorter():
    calm = hc.keeping(hc.vinegar(1))
    raw = hc.keeping(hc.vinegar(1), fresh_herb=True, raw_vinegar=True)
    assert raw.days < calm.days and raw.refrigerate
    assert any("ferment" in caution for caution in raw.cautions)


def test_what_would_make_it_safer_does():
    """Doing what it advises brings a thin glycerin into the class above."""
    thin = hc.keeping(hc.glycerin(40) + hc.water(60))
    percent = hc.glycerin_for_water_activity(0.75)
    assert f"about {percent:.0f} %" in thin.safer[0]
    better = hc.glycerin(100, purity=100) * ((percent + 0.5) / 100)
    mended = better + hc.water(100 - percent - 0.5)
    assert hc.keeping(mended).days > thin.days


@given(st.floats(0, 96))
def test_dates_rise_and_end_at_use_by(abv):
    kept = hc.keeping(hc.spirit(100, abv))
    days = kept.inspections(MADE)
    assert list(days) == sorted(set(days))
    assert days[-1] == kept.use_by(MADE)
    assert all(MADE < day for day in days)


def test_signs_of_spoilage_cover_eye_nose_and_jar():
    assert {where for where, _ in SIGNS_OF_SPOILAGE} >= {"look", "smell", "jar", "label"}


def test_fire_caution_where_spirit_is():
    assert any("flame" in c for c in hc.keeping(hc.spirit(1, 60)).cautions)
    assert not any("flame" in c for c in hc.keeping(hc.vinegar(1)).cautions)


def test_the_day_may_be_typed_as_text():
    kept = hc.keeping(hc.vinegar(1))
    assert kept.use_by(" 2027-03-01 ") == kept.use_by(MADE)
    assert kept.inspections("2027-03-01") == kept.inspections(MADE)


@pytest.mark.parametrize("typed", ["", "yesterday", "31.01.2027", "2027-02-30", "9999-12-31"])
def test_a_day_that_is_none_gets_one_sentence(typed):
    with pytest.raises(ValueError, match="day"):
        hc.keeping(hc.spirit(1, 40)).use_by(typed)


def test_each_ladder_says_what_it_alone_would_give():
    kept = hc.keeping(hc.spirit(150, 40) + hc.glycerin(150) + hc.water(50))
    alone = dict(kept.ladders)
    assert alone["strength"].name == alone["acid"].name == "unprotected"
    assert alone["free water"].name == kept.kind == "glycerin"

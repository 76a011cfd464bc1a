"""Kitchen units against their legal definitions, and rounding that never lies by more than half
a mark."""

import sys
import subprocess

import pytest
from hypothesis import given, strategies as st

from herbcalc import kitchen

# NIST Handbook 44, Appendix C, General Tables of Units of Measurement (from memory), and the
# exact definitions behind it: 1 inch = 2.54 cm, 1 US gallon = 231 cubic inches, 1 avoirdupois
# pound = 0.45359237 kg (1959).
GALLON = 231 * 2.54**3
DEFINED = {"1 cup": GALLON / 16, "1 pint": GALLON / 8, "1 quart": GALLON / 4,
           "1 fl oz": GALLON / 128, "1 tbsp": GALLON / 256, "1 tsp": GALLON / 768}


@pytest.mark.parametrize("words", DEFINED)
def test_volumes_are_those_of_the_definition(words):
    assert kitchen.volume(words) == pytest.approx(DEFINED[words], rel=1e-9)


@pytest.mark.parametrize("words, grams", [("1 oz", 453.59237 / 16), ("1 lb", 453.59237),
                                          ("1/2 kg", 500), ("2,5 g", 2.5)])
def test_weights_are_those_of_the_definition(words, grams):
    assert kitchen.weight(words) == pytest.approx(grams, rel=1e-9)


@pytest.mark.parametrize("read, words, said", [
    (kitchen.volume, "8 oz", "fl oz"), (kitchen.volume, "2 handfuls", "no unit"),
    (kitchen.volume, "some", "cannot be read"), (kitchen.volume, "1/0 cup", "cannot be read"),
    (kitchen.volume, "-2 cups", "more than 0"), (kitchen.volume, float("nan"), "number"),
    (kitchen.volume, "1,000 mL", "cannot be read"), (kitchen.weight, "2 cups", "a volume"),
    (kitchen.weight, True, "number"), (kitchen.weight, 0, "more than 0"),
])
def test_what_cannot_be_read_is_said_in_one_sentence(read, words, said):
    with pytest.raises(ValueError, match=said) as caught:
        read(words)
    assert "\n" not in str(caught.value)


@given(st.floats(1, 20_000))
def test_a_measured_volume_is_off_by_half_a_mark_at_most(amount):
    """Metric marks: 0.2, 1, 5, 10 mL; in the kitchen a quarter teaspoon to a quarter cup."""
    mark = 0.2 if amount <= 10 else 1 if amount <= 100 else 5 if amount <= 500 else 10
    assert abs(kitchen.measure_volume(amount).amount - amount) <= mark / 2 + 1e-9
    cup = GALLON / 16
    cups = amount / cup
    mark = (GALLON / 768 / 4 if cups <= 1 / 8 else GALLON / 768 / 2 if cups <= 1
            else GALLON / 256 if cups <= 4 else cup / 4)
    got = kitchen.measure_volume(amount, "kitchen")
    assert abs(got.amount - amount) <= mark / 2 + 1e-9 or got.amount == pytest.approx(mark)


@given(st.floats(0.3, 30_000))
def test_the_words_say_the_very_amount(amount):
    """Reading the words back, piece by piece, gives what was measured: nothing is lost in words."""
    for kit in kitchen.KITS:
        got = kitchen.measure_volume(amount, kit)
        back = sum(kitchen.volume(piece) for piece in got.words.split(" + "))
        assert back == pytest.approx(got.amount, rel=1e-6)


@given(st.floats(0.01, 30_000))
def test_a_weight_is_off_by_half_a_step_and_never_nothing(amount):
    step = 0.1 if amount <= 10 else 1
    got = kitchen.measure_weight(amount).amount
    assert got >= step - 1e-9 and (abs(got - amount) <= step / 2 + 1e-9 or got == step)
    ounces = kitchen.measure_weight(amount, "kitchen")
    assert kitchen.weight(ounces.words) == pytest.approx(ounces.amount, rel=1e-9)


def test_pint_is_loaded_only_when_a_unit_is_turned():
    code = ("import sys; from herbcalc import kitchen; kitchen.volume(500); "
            "kitchen.measure_volume(500); print('pint' in sys.modules); "
            "kitchen.volume('1 cup'); print('pint' in sys.modules)")
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert said.stdout.split() == ["False", "True"]

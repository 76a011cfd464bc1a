"""Acid that is tied up, held against a printed table of acetate buffers."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import herbcalc as hc
from herbcalc.liquids import ACETIC_PKA, BAKING_SODA, GRAMS_PER_MOLE, ph_with_soda

# Gomori, Methods in Enzymology 1 (1955) 138, acetate buffer (from memory): mL of 0.2 mol/L acetic
# acid and mL of 0.2 mol/L sodium acetate made up to 100 mL, and the pH printed.
GOMORI = [(46.3, 3.7, 3.6), (41.0, 9.0, 4.0), (36.8, 13.2, 4.2), (30.5, 19.5, 4.4),
          (25.5, 24.5, 4.6), (20.0, 30.0, 4.8), (14.8, 35.2, 5.0), (4.8, 45.2, 5.6)]


@pytest.mark.parametrize("acid, salt, printed", GOMORI)
def test_acetate_buffers_of_a_printed_table(acid, salt, printed):
    acidity = (acid + salt) * 0.2 / 1000 * GRAMS_PER_MOLE["acetic"]
    computed = ph_with_soda(acidity, salt * 0.2 / 1000 * BAKING_SODA)
    # Ka alone leaves out what the salt's charges do: the printed pH stands up to 0.2 lower, never
    # higher, so the computed one errs on the careful side of the limit.
    assert printed <= computed <= printed + 0.2


def test_half_of_the_acid_tied_up_is_the_pka():
    half = 6 / GRAMS_PER_MOLE["acetic"] / 2 * BAKING_SODA
    assert ph_with_soda(6, half) == pytest.approx(ACETIC_PKA, abs=0.001)


def test_nothing_tied_up_is_the_acid_alone():
    for acidity in (1, 5, 10):
        assert ph_with_soda(acidity, 0) == pytest.approx(hc.vinegar(1, acidity).ph, abs=1e-6)


@given(st.floats(0, 10), st.floats(0, 10), st.floats(0.01, 5))
def test_more_tied_up_is_never_sourer_and_more_acid_never_milder(acidity, soda, more):
    here = ph_with_soda(acidity, soda)
    assert 2 <= here <= 8.3
    assert ph_with_soda(acidity, soda + more) >= here - 1e-9
    assert ph_with_soda(acidity + more, soda) <= here + 1e-9


def test_arrays_keep_their_shape_and_all_used_up_is_soda():
    ph = ph_with_soda(np.array([[5.0], [2.0]]), np.array([0.0, 3.0, 9.0]))
    assert ph.shape == (2, 3)
    assert list(ph[:, 2]) == [8.3, 8.3]


def test_impossible_amounts_are_said():
    with pytest.raises(ValueError, match="the baking soda cannot be less than nothing"):
        ph_with_soda(5, -1)
    with pytest.raises(ValueError, match="the acidity must lie between"):
        ph_with_soda(50, 1)

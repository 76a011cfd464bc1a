"""Against general-purpose reference libraries, which share no code or coefficients with ours."""

import subprocess
import sys

import CoolProp.CoolProp as CP
import numpy as np
import pytest

import herbcalc as hc
from herbcalc import extraction

AIR_PRESSURE = 101325  # Pa
MASS_FRACTIONS = np.arange(0.1, 0.601, 0.05)


def coolprop(what, fluid, celsius=20.0):
    return CP.PropsSI(what, "T", celsius + 273.15, "P", AIR_PRESSURE, fluid)


@pytest.mark.parametrize("celsius", [5, 15, 20, 25, 35])
@pytest.mark.parametrize("p", MASS_FRACTIONS)
def test_density_of_ethanol_water(p, celsius):
    """CoolProp INCOMP::MEA: its own fit (Melinder's data), stated here within 1 kg/m3."""
    theirs = coolprop("D", f"INCOMP::MEA[{p}]", celsius)
    allowed = 0.35 if celsius == 20 else 1.0
    assert hc.density(p, celsius) == pytest.approx(theirs, abs=allowed)


@pytest.mark.parametrize("celsius", [4, 10, 20, 30, 40])
def test_density_of_pure_water(celsius):
    """CoolProp Water is IAPWS-95, the international standard equation of state."""
    assert hc.density(0, celsius) == pytest.approx(coolprop("D", "Water", celsius), abs=0.02)


@pytest.mark.parametrize("celsius", [0, 10, 20, 30, 40])
def test_density_of_pure_ethanol(celsius):
    """CoolProp Ethanol: Schroeder, Penoncello & Schroeder (2014)."""
    assert hc.density(1, celsius) == pytest.approx(coolprop("D", "Ethanol", celsius), rel=1e-3)


@pytest.mark.parametrize("p", np.arange(0.2, 0.601, 0.1))
def test_density_of_glycerin_water(p):
    """CoolProp INCOMP::MGL."""
    ours = hc.Liquid(glycerin=p, water=1 - p).density
    assert ours == pytest.approx(coolprop("D", f"INCOMP::MGL[{p}]"), abs=1.0)


@pytest.mark.parametrize("p", np.arange(0.2, 0.601, 0.1))
def test_viscosity_of_glycerin_water(p):
    ours = hc.Liquid(glycerin=p, water=1 - p).viscosity
    assert ours == pytest.approx(1e3 * coolprop("V", f"INCOMP::MGL[{p}]"), rel=0.06)


@pytest.mark.parametrize("p", MASS_FRACTIONS)
def test_viscosity_of_ethanol_water(p):
    ours = hc.Liquid(ethanol=p, water=1 - p).viscosity
    assert ours == pytest.approx(1e3 * coolprop("V", f"INCOMP::MEA[{p}]"), rel=0.03)


@pytest.mark.parametrize("p", [0.1, 0.2, 0.333, 0.5, 0.7])
def test_water_activity_of_spirit_against_unifac(p):
    """UNIFAC (Fredenslund and co-workers, 1975, as in the package thermo): groups of the molecules
    instead of van Laar's two constants; the two agree within 0.035."""
    from thermo.unifac import UNIFAC_gammas

    ethanol, water = {1: 1, 2: 1, 14: 1}, {16: 1}  # CH3, CH2, OH; H2O
    x = (p / 46.068) / (p / 46.068 + (1 - p) / 18.015)
    gammas = UNIFAC_gammas(T=298.15, xs=[x, 1 - x], chemgroups=[ethanol, water])
    ours = hc.Liquid(ethanol=p, water=1 - p).water_activity
    assert ours == pytest.approx((1 - x) * gammas[1], abs=0.035)


@pytest.mark.parametrize("p", [0.2, 0.3, 0.4])
def test_water_activity_of_glycerin_from_the_freezing_point(p):
    """Where ice stands in a liquid, its water activity is that of ice against undercooled water.

    Freezing points from CoolProp (INCOMP::MGL); ice over undercooled water from Murphy &
    Koop, Q. J. R. Meteorol. Soc. 131 (2005) 1539, eqs 7 and 10. The liquid is colder there than
    ours, which moves the activity of glycerin and water by a few hundredths at most.
    """
    t = CP.PropsSI("T_freeze", "T", 300, "P", AIR_PRESSURE, f"INCOMP::MGL[{p}]")
    ice = np.exp(9.550426 - 5723.265 / t + 3.53068 * np.log(t) - 0.00728332 * t)
    undercooled = np.exp(
        54.842763 - 6763.22 / t - 4.210 * np.log(t) + 0.000367 * t
        + np.tanh(0.0415 * (t - 218.8))
        * (53.878 - 1331.22 / t - 9.44523 * np.log(t) + 0.014025 * t))
    ours = hc.Liquid(glycerin=p, water=1 - p).water_activity
    assert ours == pytest.approx(ice / undercooled, abs=0.03)


def test_log_kow_of_every_constituent_with_a_figure():
    """chemicals.logP(CAS), source SYRRES: the table must not have drifted from it."""
    chemicals = pytest.importorskip("chemicals")
    checked = 0
    for item in extraction.constituents():
        if item.log_kow is not None:
            assert item.log_kow == pytest.approx(chemicals.logP(item.cas), abs=0.005), item.name
            checked += 1
    assert checked >= 20


def test_three_together_stay_between_the_pairs():
    """An estimate for ethanol, glycerin and water must lie between ideal mixing (volumes add)
    and the two pairs mixed one after the other with all their shrinking counted twice."""
    rng = np.random.default_rng(3)
    for parts in rng.dirichlet([1, 1, 1], 300):
        e, w, g = 100 * parts
        mix = hc.Liquid(ethanol=e, water=w, glycerin=g)
        ideal = e / 0.78924 + w / 0.9982 + g / 1.26106
        shrinking = (ideal - mix.volume) / ideal
        ew = hc.contraction(hc.Liquid(ethanol=e), hc.Liquid(water=w)) / ideal
        gw = hc.contraction(hc.Liquid(glycerin=g), hc.Liquid(water=w)) / ideal
        assert -0.001 <= shrinking <= ew + gw + 0.005


def test_importing_is_light():
    """At most 1.5 times NumPy alone, and nothing heavy comes along: medians, side by side."""
    def seconds(module):
        code = ("import time; t = time.perf_counter(); "
                f"import {module}; print(time.perf_counter() - t)")
        return float(subprocess.run([sys.executable, "-c", code], capture_output=True,
                                    text=True, check=True).stdout)

    ours, numpys = [], []
    seconds("herbcalc"), seconds("numpy")
    for _ in range(9):
        ours.append(seconds("herbcalc"))
        numpys.append(seconds("numpy"))
    ratio = np.median(ours) / np.median(numpys)
    assert ratio <= 1.5, f"importing herbcalc takes {ratio:.2f} times as long as NumPy"

    heavy = {"matplotlib", "pandas", "ipywidgets", "anywidget", "pint", "scipy", "IPython"}
    loaded = subprocess.run([sys.executable, "-c", "import herbcalc, sys; print(*sys.modules)"],
                            capture_output=True, text=True, check=True).stdout.split()
    assert not heavy & set(loaded)

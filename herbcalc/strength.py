"""Strength: proof, per cent by volume, per cent by mass, density, and what a hydrometer means.

Everything rests on one published formula, the density of ethanol-water mixtures of the
International Organization of Legal Metrology:

    OIML R 22 (1975), International Alcoholometric Tables; also EU Directive 76/766/EEC.

Its 54 coefficients stand in ``data/oiml_r22_coefficients.csv``. Valid from -20 to 40 degC and
from pure water to pure ethanol; the formula is the definition used in trade, not a fit of ours.

Words used here
    abv            strength, % by volume (mL of ethanol in 100 mL of liquid)
    mass fraction  grams of ethanol in one gram of liquid, 0 to 1
    reference      the temperature at which "% by volume" is counted: 20 degC in most of the
                   world, 60 degF (15.56 degC) in the United States
"""

import csv
from functools import lru_cache

import numpy as np

from herbcalc import places
from herbcalc._numbers import above, between, same_shape

SIXTY_FAHRENHEIT = (60 - 32) / 1.8  # degC: the reference temperature of US proof
GLASS_EXPANSION = 25e-6  # per degC, volume: soda-lime glass of hydrometers, OIML R 22 and R 44
STRONGEST_SPIRIT = 96.0  # % vol: about the strongest spirit a shop can sell (rectified spirit)
_LIMITS = (-20.0, 40.0)  # degC, range of OIML R 22


def abv_from_proof(proof):
    """Strength in % by volume of a spirit labelled in US proof.

    US proof is twice the per cent by volume (27 CFR 30.11), counted at 60 degF. Counted at
    20 degC the same liquid differs by less than 0.1 % vol, less than any label's rounding.
    British proof of old books is another scale: 100 British proof is 57.1 % vol.

    Parameters
    ----------
    proof : float or array, US proof, 0 to 200

    Returns
    -------
    float or array, % by volume

    Raises
    ------
    ValueError
        outside 0 to 200.

    Examples
    --------
    >>> abv_from_proof(80)
    40.0
    """
    return same_shape(between(proof, 0, 200, "US proof") / 2)


def proof_from_abv(abv):
    """US proof of a spirit of `abv` % by volume: twice the per cent (27 CFR 30.11).

    Parameters
    ----------
    abv : float or array, % by volume, 0 to 100

    Returns
    -------
    float or array, US proof

    Examples
    --------
    >>> proof_from_abv(40)
    80.0
    """
    return same_shape(_checked_abv(abv) * 2)


def density(mass_fraction, temperature=20.0):
    """Density of a mixture of ethanol and water.

    Parameters
    ----------
    mass_fraction : float or array, g of ethanol per g of mixture, 0 to 1
    temperature : float or array, degC, -20 to 40

    Returns
    -------
    float or array, kg/m3

    Raises
    ------
    ValueError
        outside the ranges of the formula.

    References
    ----------
    OIML R 22 (1975), the general formula.

    Examples
    --------
    >>> round(density(0.0), 5), round(density(1.0), 2)   # pure water, pure ethanol
    (998.20123, 789.24)
    >>> round(density(0.5, temperature=20), 4)
    913.7706
    """
    p = between(mass_fraction, 0, 1, "the mass fraction")
    t = _checked_temperature(temperature)
    return same_shape(_density(p, t))


def abv(mass_fraction, reference=20.0):
    """Strength in % by volume of a mixture known by mass.

    Parameters
    ----------
    mass_fraction : float or array, g of ethanol per g of mixture, 0 to 1
    reference : float, degC, the temperature at which the volumes are counted

    Returns
    -------
    float or array, % by volume

    References
    ----------
    OIML R 22 (1975): abv = 100 p density(p) / density(1), both at the reference temperature.

    Examples
    --------
    >>> round(abv(0.4), 1)      # 40 % by mass is far more than 40 % by volume
    47.4
    """
    p = between(mass_fraction, 0, 1, "the mass fraction")
    t = _checked_temperature(reference)
    return same_shape(100 * p * _density(p, t) / _density(1.0, t))


def mass_fraction(abv, reference=20.0):
    """Grams of ethanol in one gram of a spirit of `abv` % by volume: the inverse of `abv`.

    Solved to the last digits a computer keeps, so going there and back changes nothing.

    Parameters
    ----------
    abv : float or array, % by volume, 0 to 100
    reference : float, degC, the temperature at which the volumes are counted

    Returns
    -------
    float or array, 0 to 1

    Examples
    --------
    >>> round(mass_fraction(40), 4)
    0.333
    """
    q = _checked_abv(abv) / 100
    t = _checked_temperature(reference)
    grams_per_part = q * _density(1.0, t)
    return same_shape(_solve(lambda p: p * _density(p, t) - grams_per_part, q))


def true_strength(reading, temperature, reference=20.0):
    """What the reading of a glass alcohol hydrometer means when the liquid is not at 20 degC.

    A warm spirit is lighter, the hydrometer sinks deeper and reads too strong; the glass swells
    a little too, which is counted.

    Parameters
    ----------
    reading : float or array, % by volume as read from the stem, 0 to 100
    temperature : float or array, degC, of the liquid, -20 to 40
    reference : float, degC, printed on the hydrometer (20; US instruments 15.56, that is 60 degF)

    Returns
    -------
    float or array, % by volume at the reference temperature

    Raises
    ------
    ValueError
        when no mixture of ethanol and water could give this reading.

    References
    ----------
    OIML R 22 (1975) for density, R 44 (1985) for the glass: 25e-6 per degC.

    Examples
    --------
    >>> round(true_strength(42.0, 28), 1)
    38.8
    >>> round(true_strength(40.0, 20), 1)
    40.0
    """
    read = _checked_abv(reading, "the reading")
    t = _checked_temperature(temperature)
    t0 = _checked_temperature(reference)
    read, t = np.broadcast_arrays(read, t)
    seen = _density(np.asarray(mass_fraction(read, reference)), t0)
    real = seen / (1 + GLASS_EXPANSION * (t - t0))
    if np.any(real > _density(0.0, t)) or np.any(real < _density(1.0, t)):
        raise ValueError(
            "No mixture of ethanol and water reads like that at that temperature: "
            "read the hydrometer and the thermometer again."
        )
    return abv(_solve(lambda p: real - _density(p, t), read / 100), reference)


def weight_in_air(density):
    """What a scale in air shows for one cubic metre: density less the air it pushes away.

    Brass or steel weights of 8000 kg/m3, air of 1.2 kg/m3 (conventional value, OIML R 111).

    Parameters
    ----------
    density : float or array, kg/m3, above 1.2

    Returns
    -------
    float or array, kg/m3 as weighed in air

    Examples
    --------
    >>> round(weight_in_air(998.2), 2)
    997.15
    """
    rho = above(density, 1.2, "the density", "kg/m3")
    return same_shape((rho - 1.2) / (1 - 1.2 / 8000))


def flash_point(abv):
    """A cautious flash point of a spirit: from this temperature up its vapour can catch fire.

    Read off a four-row table (Engineering ToolBox). One page heads the table "by weight",
    another prints the same rows as "by volume"; read as % by volume it gives the LOWER flash
    point, so that is the reading taken here. The table starts at 20 %; below that no figure is
    given and weaker spirit is not called harmless: hot, it burns too.

    Parameters
    ----------
    abv : float or array, % by volume, 20 to 100

    Returns
    -------
    float or array, degC, closed cup, rounded down to whole degrees

    Raises
    ------
    ValueError
        below 20 % vol, where the table has no figure.

    Examples
    --------
    >>> flash_point(40), flash_point(95)
    (26.0, 17.0)
    """
    strength = _checked_abv(abv)
    if np.any(strength < 20):
        raise ValueError("The flash point table starts at 20 % vol: there is no figure below it.")
    table = [20.0, 40.0, 70.0, 96.0], [36.0, 26.0, 21.0, 17.0]
    return same_shape(np.floor(np.interp(strength, *table) + 1e-9))


def _checked_abv(value, name="the strength"):
    return between(value, 0, 100, name, "% vol")


def _checked_temperature(value):
    return between(value, *_LIMITS, "the temperature", "degC")


@lru_cache(maxsize=1)
def _coefficients():
    """The table as a matrix: rows are powers of p, columns powers of (t - 20)."""
    matrix = np.zeros((12, 7))
    with open(places.data() / "oiml_r22_coefficients.csv", encoding="utf-8") as file:
        for row in csv.DictReader(file):
            matrix[int(row["power_of_mass_fraction"]), int(row["power_of_t_minus_20"])] = float(
                row["coefficient"]
            )
    return matrix


@lru_cache(maxsize=64)
def _at(temperature):
    """The coefficients in p alone at one temperature, highest power first."""
    powers = (temperature - 20.0) ** np.arange(7)
    return tuple((_coefficients() @ powers)[::-1].tolist())


def _density(p, t):
    if np.ndim(t) == 0:
        rho = 0.0
        for coefficient in _at(float(t)):
            rho = rho * p + coefficient
        return rho
    return np.polynomial.polynomial.polyval2d(*np.broadcast_arrays(p, t - 20.0), _coefficients())


def _solve(function, start):
    """The root of a rising function of the mass fraction on 0..1: Newton held in a bracket."""
    p = np.clip(np.array(start, dtype=float), 0.0, 1.0)
    low, high = np.zeros_like(p), np.ones_like(p)
    for _ in range(100):
        value = np.asarray(function(p))
        low, high = np.where(value <= 0, p, low), np.where(value >= 0, p, high)
        step = 1e-6
        ahead = np.where(p < 0.5, p + step, p - step)
        slope = (np.asarray(function(ahead)) - value) / (ahead - p)
        newton = p - value / slope
        inside = (newton >= low) & (newton <= high)
        new = np.where(value == 0, p, np.where(inside, newton, (low + high) / 2))
        if np.all(np.abs(new - p) < 1e-15):
            return new
        p = new
    return p

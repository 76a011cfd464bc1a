"""Drops, spoons and droppers: arithmetic for a label, never advice on how much to take.

How much of a preparation a person may take, and whether at all, is for a licensed practitioner
and local law. What stands here only turns one measure into another.
"""

import csv
from functools import lru_cache

import numpy as np

from herbcalc import places
from herbcalc._numbers import above, at_least, between, same_shape
from herbcalc.liquids import _PURE_ETHANOL

STANDARD_DRINK = 14.0  # g of ethanol in a US standard drink, NIAAA (other countries: 8 to 20 g)
WATER_DROP = 50.0  # mg: USP <1101> asks 45 to 55 mg of water from a tube 3 mm across
DROPPER_TUBE = 3.0  # mm outside diameter, USP <1101>
DROPPER_ERROR = 0.15  # USP <1101>: a calibrated dropper may be off by this much in normal use
# mL. US customary spoons and cup by definition (1 tsp = 1/6 US fl oz); metric spoons by label.
SPOONS = {"teaspoon (US)": 4.93, "tablespoon (US)": 14.79, "teaspoon (metric)": 5.0,
          "tablespoon (metric)": 15.0, "fluid ounce (US)": 29.57, "cup (US)": 236.59}
_GLYCERIN_TENSION = 63.4  # mN/m at 20 degC, pure, from memory
_ACETIC = ([0, 5, 10, 20, 30, 100], [72.01, 60.1, 54.6, 47.0, 42.5, 27.6])  # from memory, handbooks


@lru_cache(maxsize=1)
def _tension_table():
    with open(places.data() / "surface_tension.csv", encoding="utf-8") as file:
        return np.array([list(row.values())[:2] for row in csv.DictReader(file)], dtype=float).T


def surface_tension(liquid):
    """Surface tension: the skin that holds a drop to the dropper.

    Each solute is read off its own table at its mass share beside water; the lowest of them is
    taken, because what lowers it most sits at the surface. For one solute that is the table; for
    several an estimate, low rather than high.

    Parameters
    ----------
    liquid : Liquid

    Returns
    -------
    float or array, mN/m at 20 to 25 degC

    References
    ----------
    Vazquez, Alvarez & Navaza, J. Chem. Eng. Data 40 (1995) 611 for ethanol (from memory).

    Examples
    --------
    >>> import herbcalc as hc
    >>> round(surface_tension(hc.water(1)), 1), round(surface_tension(hc.spirit(1, abv=40)), 1)
    (72.0, 32.0)
    """
    mass = np.asarray(liquid._not_empty().mass)
    percent, tension = _tension_table()
    ethanol = np.interp(100 * np.asarray(liquid.ethanol) / mass, percent, tension)
    glycerin = 72.01 + (_GLYCERIN_TENSION - 72.01) * np.asarray(liquid.glycerin) / mass
    acetic = np.interp(100 * np.asarray(liquid.acetic) / mass, *_ACETIC)
    return same_shape(np.minimum(np.minimum(ethanol, glycerin), acetic))


def drop_mass(liquid, tube=DROPPER_TUBE):
    """Weight of one drop: it grows with the surface tension and with the tube (Tate's law).

    Parameters
    ----------
    liquid : Liquid
    tube : float or array, mm, outside diameter of the dropper, above 0 to 10

    Returns
    -------
    float or array, mg

    References
    ----------
    USP <1101>: a drop of water from a 3 mm tube weighs 45 to 55 mg.

    Examples
    --------
    >>> import herbcalc as hc
    >>> round(drop_mass(hc.water(1)))
    50
    """
    tube = above(between(tube, 0, 10, "the dropper's tube", "mm"), 0, "the dropper's tube", "mm")
    of_water = _tension_table()[1][0]
    return same_shape(WATER_DROP * tube / DROPPER_TUBE * surface_tension(liquid) / of_water)


def drops_per_ml(liquid, tube=DROPPER_TUBE):
    """How many drops make one millilitre. "20 drops to the mL" is true of water only.

    Parameters
    ----------
    liquid : Liquid
    tube : float or array, mm, outside diameter of the dropper

    Returns
    -------
    float or array, drops per mL; a calibrated dropper may still be off by 15 % (USP <1101>), an
    uncalibrated one by far more: count your own into a cylinder

    Examples
    --------
    >>> import herbcalc as hc
    >>> round(drops_per_ml(hc.water(1))), round(drops_per_ml(hc.spirit(1, abv=40)))
    (20, 43)
    """
    return same_shape(np.asarray(liquid.density) / drop_mass(liquid, tube))


def ethanol_grams(volume, abv):
    """Grams of ethanol in a serving.

    Parameters
    ----------
    volume : float or array, mL
    abv : float or array, % by volume

    Returns
    -------
    float or array, g

    Examples
    --------
    >>> round(ethanol_grams(1.5 * 29.57, 40))      # 1.5 US fl oz of 80 proof: a standard drink
    14
    """
    volume = at_least(volume, 0, "the serving", "mL")
    return same_shape(volume * between(abv, 0, 100, "the strength", "% vol") / 100 * _PURE_ETHANOL)


def standard_drinks(volume, abv):
    """Ethanol of a serving as a share of a US standard drink (14 g, NIAAA).

    Examples
    --------
    >>> round(standard_drinks(1, 40), 3)           # 1 mL of a 40 % tincture
    0.023
    """
    return same_shape(np.asarray(ethanol_grams(volume, abv)) / STANDARD_DRINK)


def dry_herb_per_ml(jar):
    """mg of completely dry herb that each mL of the finished liquid stands for.

    Counts all the herb as if everything in it had gone over: an upper figure for a label ("1 mL
    from ... mg"), not a content.

    Parameters
    ----------
    jar : Jar

    Returns
    -------
    float or array, mg/mL

    Examples
    --------
    >>> import herbcalc as hc
    >>> jar = hc.Jar(volume=500, herb=hc.herb("thyme", "dried"), herb_mass=40,
    ...              menstruum=hc.spirit(1, abv=45))
    >>> round(dry_herb_per_ml(jar))
    82
    """
    return same_shape(1000 * np.asarray(jar.dry_mass) / jar.final.volume)

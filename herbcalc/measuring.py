"""What your measuring tools do to the result: the same recipe measured a few thousand times.

Each tool has a tolerance, the half-width within which nearly every reading lies (two standard
deviations). `spread` draws that many readings and works out the jar for each.
"""

from dataclasses import dataclass

import numpy as np

from herbcalc._numbers import above, at_least, between
from herbcalc.liquids import Liquid, spirit, water


@dataclass(frozen=True)
class Tool:
    """A measuring tool.

    Attributes
    ----------
    name : str
    absolute : float, g or mL either way
    relative : float, share of what is measured, either way
    source : str
    """

    name: str
    absolute: float
    relative: float
    source: str

    def readings(self, amount, random, count):
        """`count` amounts that may really be there when the tool says `amount`; never below 0."""
        half = self.absolute + self.relative * amount
        return np.maximum(amount + random.normal(0, half / 2, count), 1e-6)


SCALES = {
    "lab scale": Tool("lab scale", 0.01, 0.0005, "invented for the course: check yours"),
    "kitchen scale": Tool("kitchen scale", 1.0, 0.01, "invented for the course: check yours"),
    "by eye": Tool("by eye", 0.0, 0.25, "invented for the course: try it with the class"),
}
VOLUMES = {
    "measuring cylinder": Tool("measuring cylinder", 0.0, 0.01,
                               "ISO 4788 class B, 100 mL: 1 mL either way (from memory)"),
    "kitchen jug": Tool("kitchen jug", 10.0, 0.03, "invented for the course: check yours"),
    "cups and spoons": Tool("cups and spoons", 5.0, 0.10, "invented for the course: check yours"),
}


class _Measured:
    def range(self, quantity):
        """The middle 95 % of one of the attributes: (low, middle, high)."""
        low, middle, high = np.percentile(getattr(self, quantity), [2.5, 50, 97.5])
        return float(low), float(middle), float(high)


@dataclass(frozen=True)
class Spread(_Measured):
    """What comes out of a jar over many measurings.

    Attributes
    ----------
    ratio, final_abv : array, one entry for each measuring
    """

    ratio: np.ndarray
    final_abv: np.ndarray


@dataclass(frozen=True)
class DilutionSpread(_Measured):
    """What comes out of diluting over many measurings.

    Attributes
    ----------
    volume, final_abv : array, one entry for each measuring
    """

    volume: np.ndarray
    final_abv: np.ndarray


def spread(herb, herb_mass, volume, abv, scale, measure, added_water=0.0, count=4000, seed=1):
    """Measure the same recipe many times with given tools.

    Parameters
    ----------
    herb : Herb
    herb_mass : float, g, meant to be weighed in, above 0
    volume : float, mL of spirit meant to be poured, above 0
    abv : float, % by volume of the spirit
    scale, measure : Tool, for the herb and for the liquids
    added_water : float, mL of water meant to be added to the spirit
    count : int, how many measurings, 10 to 200 000
    seed : int, the same seed gives the same draw

    Returns
    -------
    Spread

    Examples
    --------
    >>> import herbcalc as hc
    >>> mint = hc.herb("peppermint", "fresh")
    >>> careful = spread(mint, 40, 200, 50, SCALES["lab scale"], VOLUMES["measuring cylinder"])
    >>> rough = spread(mint, 40, 200, 50, SCALES["by eye"], VOLUMES["cups and spoons"])
    >>> width = lambda s: s.range("ratio")[2] - s.range("ratio")[0]
    >>> width(rough) > 5 * width(careful)
    True
    """
    mass = float(above(herb_mass, 0, "the herb's weight", "g"))
    pour = float(above(volume, 0, "the spirit", "mL"))
    extra = float(at_least(added_water, 0, "the water", "mL"))
    count = int(between(count, 10, 200_000, "the number of measurings"))
    random = np.random.default_rng(seed)
    masses = scale.readings(mass, random, count)
    pours = measure.readings(pour, random, count)
    waters = measure.readings(extra, random, count) if extra else np.zeros(count)
    poured = spirit(pours, abv) + water(waters)
    final = poured + Liquid(water=masses * herb.water)
    return Spread(np.asarray(poured.volume) / masses, np.asarray(final.abv))


def spread_of_dilution(volume, abv, added_water, measure, count=4000, seed=1):
    """Dilute the same spirit many times with one measuring tool.

    Parameters
    ----------
    volume : float, mL of spirit meant to be measured, above 0
    abv : float, % by volume of the spirit
    added_water : float, mL of water meant to be added
    measure : Tool, for both liquids
    count : int, how many measurings, 10 to 200 000
    seed : int, the same seed gives the same draw

    Returns
    -------
    DilutionSpread

    Examples
    --------
    >>> fine = spread_of_dilution(100, 95, 144, VOLUMES["measuring cylinder"])
    >>> rough = spread_of_dilution(100, 95, 144, VOLUMES["cups and spoons"])
    >>> low, middle, high = fine.range("final_abv")
    >>> round(middle), high - low < 1 < rough.range("final_abv")[2] - rough.range("final_abv")[0]
    (40, True)
    """
    pour = float(above(volume, 0, "the spirit", "mL"))
    extra = float(at_least(added_water, 0, "the water", "mL"))
    count = int(between(count, 10, 200_000, "the number of measurings"))
    random = np.random.default_rng(seed)
    pours = measure.readings(pour, random, count)
    waters = measure.readings(extra, random, count) if extra else np.zeros(count)
    mixed = spirit(pours, abv) + water(waters)
    return DilutionSpread(np.asarray(mixed.volume), np.asarray(mixed.abv))

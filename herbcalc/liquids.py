"""Liquids: spirit, water, glycerin and vinegar, and what comes of pouring them together.

A `Liquid` is four masses: ethanol, water, glycerin and acetic acid, in grams. Masses add when
liquids are poured together; volumes do not, so every volume is worked out from the masses.

How sure the figures are
    ethanol and water       OIML R 22 (1975): exact to every digit shown
    glycerin and water      Volk & Kaehler, Exp. Fluids 59 (2018) 75: within 0.0005 g/mL of tables
    acetic acid and water   a handbook table (from memory), within 0.0003 g/mL
    three or more together  an ESTIMATE: each solute is taken with its share of the water, as if
                            in its own bottle of the same water content, and the bottles poured
                            together without further shrinking. Exact for each pair with water.
                            Ethanol and glycerin poured together without water shrink by about
                            1 % at most (from memory), so volumes are good to 1 %, strengths to
                            1 part in 100. Ernst, Watkins & Ruwe, J. Phys. Chem. 40 (1936) 627,
                            measured the three together; their values are not at hand.
"""

import csv
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from herbcalc import places
from herbcalc._numbers import above, at_least, between, same_shape
from herbcalc.strength import (
    _checked_abv,
    _checked_temperature,
    _density,
    mass_fraction,
)

GRAMS_PER_MOLE = {"ethanol": 46.068, "water": 18.015, "glycerin": 92.094, "acetic": 60.052}
ACETIC_PKA = 4.756  # at 25 degC, CRC Handbook of Chemistry and Physics (from memory)
BAKING_SODA = 84.007  # g of sodium hydrogen carbonate per mole: ties up one mole of acid
SODA_PH = 8.3  # of baking soda in water (from memory): where the acid is all used up
NORRISH_GLYCERIN = -1.16  # Norrish (1966), as given by Chirife and co-workers (from memory)
VAN_LAAR = (1.6798, 0.9227)  # ethanol-water, Perry's Chemical Engineers' Handbook


@dataclass(frozen=True, repr=False)
class Liquid:
    """A liquid by what is in it, in grams; numbers or arrays of one shape.

    Add liquids with ``+``, take a share or several with ``*``. Ask it for its `volume`, `abv`
    and so on: every property is at 20 degC and has the shape of the masses.

    Parameters
    ----------
    ethanol, water, glycerin, acetic : float or array, g, not below 0

    Raises
    ------
    ValueError
        when a mass is negative or not a number, or when an empty liquid is asked for a strength.

    Examples
    --------
    >>> import herbcalc as hc
    >>> mix = hc.spirit(500, abv=95) + hc.water(300)
    >>> mix
    778 mL at 61.1 % vol
    >>> round(mix.mass, 1) == round(hc.spirit(500, abv=95).mass + hc.water(300).mass, 1)
    True
    """

    ethanol: float = 0.0
    water: float = 0.0
    glycerin: float = 0.0
    acetic: float = 0.0

    def __post_init__(self):
        names = {"ethanol": "the ethanol", "water": "the water",
                 "glycerin": "the glycerin", "acetic": "the acetic acid"}
        parts = [at_least(getattr(self, key), 0, said, "g") for key, said in names.items()]
        try:
            parts = np.broadcast_arrays(*parts)
        except ValueError:
            raise ValueError("The amounts do not have the same number of entries.") from None
        for key, part in zip(names, parts):
            object.__setattr__(self, key, same_shape(part))

    def __add__(self, other):
        if isinstance(other, Liquid):
            return Liquid(self.ethanol + other.ethanol, self.water + other.water,
                          self.glycerin + other.glycerin, self.acetic + other.acetic)
        if isinstance(other, (int, float)) and other == 0:  # so that sum([...]) works
            return self
        return NotImplemented

    __radd__ = __add__

    def __mul__(self, factor):
        factor = at_least(factor, 0, "the factor")
        return Liquid(self.ethanol * factor, self.water * factor,
                      self.glycerin * factor, self.acetic * factor)

    __rmul__ = __mul__

    def poured(self, volume):
        """This liquid in another amount.

        Parameters
        ----------
        volume : float or array, mL at 20 degC

        Examples
        --------
        >>> import herbcalc as hc
        >>> hc.vinegar(500, acidity=5).poured(200)
        200 mL, 5.0 g acid per 100 mL
        """
        return self * (at_least(volume, 0, "the volume", "mL") / self._not_empty().volume)

    @property
    def mass(self):
        """g"""
        return same_shape(self.ethanol + self.water + self.glycerin + np.asarray(self.acetic))

    @property
    def volume(self):
        """mL at 20 degC (three solutes together: an estimate, good to 1 %)"""
        binary = (_ethanol_water, _glycerin_water, _acetic_water)
        return same_shape(self._shared(lambda i, x: 1 / binary[i](x), pure_water=1 / _WATER))

    def volume_at(self, temperature):
        """Volume in mL at another temperature, for ethanol and water only.

        Parameters
        ----------
        temperature : float, degC, -20 to 40

        Raises
        ------
        ValueError
            when glycerin or acid is in it: their formulas here hold at 20 degC.

        Examples
        --------
        >>> import herbcalc as hc
        >>> round(hc.spirit(1000, abv=96).volume_at(30), 1)   # warm spirit swells
        1010.9
        """
        if np.any(np.asarray(self.glycerin) > 0) or np.any(np.asarray(self.acetic) > 0):
            raise ValueError("Volumes at other temperatures are known for spirit and water only.")
        mass = np.asarray(self._not_empty().mass)
        rho = _density(self.ethanol / mass, _checked_temperature(temperature))
        return same_shape(mass / rho * 1000)

    @property
    def abv(self):
        """strength, % by volume: mL of pure ethanol (at 20 degC) in 100 mL"""
        return same_shape(100 * np.asarray(self.ethanol) / _PURE_ETHANOL / self._volume_or_fail())

    @property
    def proof(self):
        """US proof: twice the % by volume"""
        return same_shape(2 * np.asarray(self.abv))

    @property
    def glycerin_percent(self):
        """glycerin, % by volume: mL of pure glycerin in 100 mL"""
        return same_shape(100 * np.asarray(self.glycerin) / _PURE_GLYCERIN
                          / self._volume_or_fail())

    @property
    def acidity(self):
        """acetic acid, g per 100 mL (what a vinegar label calls "% acidity")"""
        return same_shape(100 * np.asarray(self.acetic) / self._volume_or_fail())

    @property
    def density(self):
        """kg/m3"""
        return same_shape(1000 * np.asarray(self.mass) / self._volume_or_fail())

    @property
    def viscosity(self):
        """mPa s: how thick it is (water about 1); an estimate when three or more are together

        Glycerin and water: Cheng, Ind. Eng. Chem. Res. 47 (2008) 3285. Ethanol and water:
        Bingham's table (from memory), within 3 % of CoolProp. Acetic acid: an estimate for
        vinegars, from memory.
        """
        self._not_empty()
        binary = (_ethanol_viscosity, _glycerin_viscosity, _acetic_viscosity)
        log = self._shared(lambda i, x: np.log(binary[i](x)),
                           pure_water=np.log(_glycerin_viscosity(np.float64(0))))
        return same_shape(np.exp(log / np.asarray(self.mass)))

    @property
    def water_activity(self):
        """0 to 1: how much of the water is free for growth (pure water 1)

        Glycerin: Norrish (1966). Ethanol: van Laar with Perry's constants. Acetic acid: as an
        ideal mixture. Together: Ross's rule, the product of the three, an estimate. Salts and
        sugars from the herb would lower it a little and are not counted.
        """
        self._not_empty()
        moles = {key: np.asarray(getattr(self, key)) / grams
                 for key, grams in GRAMS_PER_MOLE.items()}
        water = moles["water"]

        def share(key):
            total = water + moles[key]
            with np.errstate(invalid="ignore", divide="ignore"):
                return np.where(total > 0, moles[key] / total, 0.0)

        x_ethanol, x_glycerin, x_acetic = share("ethanol"), share("glycerin"), share("acetic")
        a12, a21 = VAN_LAAR
        in_spirit = a12 * x_ethanol / (a12 * x_ethanol + a21 * (1 - x_ethanol))
        ethanol = (1 - x_ethanol) * np.exp(a21 * in_spirit**2)
        glycerin = (1 - x_glycerin) * np.exp(NORRISH_GLYCERIN * x_glycerin**2)
        result = ethanol * glycerin * (1 - x_acetic)
        return same_shape(np.where(water > 0, result, 0.0))

    @property
    def ph(self):
        """a LOWER BOUND of the pH: from the acetic acid and its Ka alone, at 25 degC

        Real herbs buffer the acid, so the real pH is higher and only a meter or strips tell it.
        Without acid the figure is 7, which says nothing about the herb's own acids.
        """
        molar = np.asarray(self.acidity) * 10 / GRAMS_PER_MOLE["acetic"]
        ka = 10**-ACETIC_PKA
        from_acid = (-ka + np.sqrt(ka**2 + 4 * ka * molar)) / 2
        return same_shape(-np.log10(np.sqrt(from_acid**2 + 1e-14)))

    def __repr__(self):
        if np.ndim(self.mass):
            return f"Liquid with {np.size(self.mass)} entries"
        if self.mass == 0:
            return "0 mL, nothing poured"
        said = []
        if self.ethanol > 0:
            said.append(f"at {self.abv:.1f} % vol")
        if self.glycerin > 0:
            said.append(f"{self.glycerin_percent:.0f} % glycerin by volume")
        if self.acetic > 0:
            said.append(f"{self.acidity:.1f} g acid per 100 mL")
        if not said:
            said = ["water"]
        start = f"{self.volume:.0f} mL"
        joint = " " if said[0].startswith(("at", "water")) else ", "
        return start + joint + ", ".join(said)

    # -- inside --------------------------------------------------------------------------------
    def _not_empty(self):
        if np.any(np.asarray(self.mass) <= 0):
            raise ValueError("There is nothing in this liquid yet: pour something in first.")
        return self

    def _volume_or_fail(self):
        return np.asarray(self._not_empty().volume)

    def _shared(self, specific, pure_water):
        """Sum over the solutes of (its share of the liquid, g) x specific(solute, mass fraction).

        Each solute takes water in proportion to its mass, so that all the imagined bottles have
        the same water content; each pair with water is then exact.
        """
        solutes = [np.asarray(part, dtype=float)
                   for part in (self.ethanol, self.glycerin, self.acetic)]
        water = np.asarray(self.water, dtype=float)
        total_solute = solutes[0] + solutes[1] + solutes[2]
        total = total_solute + water
        with np.errstate(invalid="ignore", divide="ignore"):
            x = np.where(total > 0, total_solute / total, 0.0)
            share = [np.where(total_solute > 0, part / total_solute, 0.0) for part in solutes]
        result = np.where(total_solute > 0, 0.0, total * pure_water)
        for i, part in enumerate(share):
            if np.any(part > 0):
                result = result + part * total * specific(i, x)
        return result


def spirit(volume, abv, temperature=20.0, reference=20.0):
    """Spirit: ethanol and water.

    Parameters
    ----------
    volume : float or array, mL, measured at `temperature`
    abv : float or array, % by volume, 0 to 100
    temperature : float, degC, at which the volume is measured
    reference : float, degC, at which the label counts its % by volume

    Returns
    -------
    Liquid

    References
    ----------
    OIML R 22 (1975).

    Examples
    --------
    >>> spirit(750, abv=40)
    750 mL at 40.0 % vol
    """
    volume = at_least(volume, 0, "the volume of spirit", "mL")
    p = np.asarray(mass_fraction(abv, reference))
    mass = volume * _density(p, _checked_temperature(temperature)) / 1000
    return Liquid(ethanol=mass * p, water=mass * (1 - p))


def water(volume, temperature=20.0):
    """Water.

    Parameters
    ----------
    volume : float or array, mL, measured at `temperature` (degC)

    Examples
    --------
    >>> round(water(200).mass, 1)
    199.6
    """
    volume = at_least(volume, 0, "the volume of water", "mL")
    return Liquid(water=volume * _density(np.float64(0), _checked_temperature(temperature)) / 1000)


def glycerin(volume, purity=99.7):
    """Vegetable glycerin as sold: nearly pure, the rest water.

    Parameters
    ----------
    volume : float or array, mL at 20 degC
    purity : float or array, % by mass, above 0 to 100; the usual label figure 99.7 %
        is from memory

    Returns
    -------
    Liquid

    Examples
    --------
    >>> round(glycerin(100).mass, 1)      # a quarter heavier than water
    126.0
    """
    volume = at_least(volume, 0, "the volume of glycerin", "mL")
    x = above(between(purity, 0, 100, "the purity", "%"), 0, "the purity", "%") / 100
    mass = volume * _glycerin_water(x)
    return Liquid(glycerin=mass * x, water=mass * (1 - x))


def vinegar(volume, acidity=5.0):
    """Vinegar as water and acetic acid; its salts and sugars are not counted.

    Parameters
    ----------
    volume : float or array, mL at 20 degC
    acidity : float or array, g of acetic acid in 100 mL, 0 to 30

    Returns
    -------
    Liquid

    Examples
    --------
    >>> vinegar(500, acidity=5)
    500 mL, 5.0 g acid per 100 mL
    """
    volume = at_least(volume, 0, "the volume of vinegar", "mL")
    acid = between(acidity, 0, 30, "the acidity", "g per 100 mL") / 100
    x = np.array(acid, dtype=float)
    for _ in range(30):  # the density moves so little that this settles in a few rounds
        x = acid / _acetic_water(x)
    mass = volume * _acetic_water(x)
    return Liquid(acetic=mass * x, water=mass * (1 - x))


def ph_with_soda(acidity, soda):
    """pH of vinegar once something has tied up part of its acid; counted as baking soda.

    A herb's mineral salts take up acid as baking soda does, only without the fizz. How much a
    herb takes up is in no table here: the figure is for playing with, and strips or a meter tell.

    Parameters
    ----------
    acidity : float or array, g of acetic acid in 100 mL, 0 to 30
    soda : float or array, g of baking soda in 100 mL that would tie up as much, not below 0

    Returns
    -------
    float or array, pH at 25 degC from Ka alone; real mixtures with much salt stand up to 0.2
        lower. No acid left: 8.3, the pH of baking soda (from memory).

    References
    ----------
    The balance of charges; Gomori's table of acetate buffers (1955, from memory) in the tests.

    Examples
    --------
    >>> round(ph_with_soda(5, 0), 1), round(ph_with_soda(5, 1), 1), round(ph_with_soda(5, 3), 1)
    (2.4, 4.0, 4.6)
    """
    acid = between(acidity, 0, 30, "the acidity", "g per 100 mL") * 10 / GRAMS_PER_MOLE["acetic"]
    tied = at_least(soda, 0, "the baking soda", "g per 100 mL") * 10 / BAKING_SODA
    ka, kw = 10**-ACETIC_PKA, 1e-14
    low, high = np.zeros(np.broadcast(acid, tied).shape), np.full_like(acid + tied, 14.0)
    for _ in range(50):  # halve the distance: charge falls steadily as pH rises
        ph = (low + high) / 2
        h = 10**-ph
        positive = tied + h - acid * ka / (ka + h) - kw / h > 0
        low, high = np.where(positive, ph, low), np.where(positive, high, ph)
    return same_shape(np.where(tied > 0, np.minimum(ph, SODA_PH), ph))


def contraction(a, b):
    """Millilitres lost when two liquids are poured together.

    Ethanol and water fit into each other's gaps: half a litre of each makes well under a litre.
    Where one of them is weak the sign turns: 30 % spirit and as much water gain 0.25 mL in
    200, and no two spirits gain more than 0.16 % (it is in the OIML tables): too little to see
    in a measuring cylinder. A negative figure is such a gain.

    Parameters
    ----------
    a, b : Liquid

    Returns
    -------
    float or array, mL at 20 degC

    Examples
    --------
    >>> import herbcalc as hc
    >>> round(contraction(hc.spirit(500, abv=96), hc.water(500)))
    30
    """
    return same_shape(np.asarray(a.volume) + b.volume - (a + b).volume)


def water_to_dilute(volume, abv, to, temperature=20.0, reference=20.0):
    """Water to ADD to a spirit to bring it down to a lower strength; the shrinking is counted.

    Parameters
    ----------
    volume : float or array, mL of spirit you have
    abv : float or array, % by volume it has
    to : float or array, % by volume wanted, above 0 and not above `abv`
    temperature : float, degC, at which both volumes are measured
    reference : float, degC, at which % by volume is counted

    Returns
    -------
    float or array, mL of water

    Raises
    ------
    ValueError
        when the wanted strength is above what you have, or nothing.

    References
    ----------
    27 CFR 30.66 works the same way from its Table 6.

    Examples
    --------
    >>> round(water_to_dilute(500, 95, to=40))      # the simple difference says 688
    721
    """
    _check_target(abv, to)
    start = spirit(volume, abv, temperature, reference)
    p = np.asarray(mass_fraction(to, reference))
    grams = start.ethanol * (1 - p) / p - start.water
    rho = _density(np.float64(0), _checked_temperature(temperature)) / 1000
    return same_shape(np.maximum(grams, 0) / rho)


def make_up(volume, abv, to, temperature=20.0, reference=20.0):
    """Spirit and water for a FINAL volume: measure the spirit, then fill up with water.

    Parameters
    ----------
    volume : float or array, mL wanted in the end
    abv : float or array, % by volume of the spirit you have
    to : float or array, % by volume wanted, above 0 and not above `abv`
    temperature : float, degC, at which all the volumes are measured
    reference : float, degC, at which % by volume is counted

    Returns
    -------
    (spirit, water) : floats or arrays, mL. The two add up to MORE than the final volume where
        strong spirit meets water, because the mixture shrinks.

    References
    ----------
    British Pharmacopoeia, Dilute Ethanols: "ethanol (96 per cent) 727 mL, water to 1000 mL".

    Examples
    --------
    >>> spirit_ml, water_ml = make_up(1000, abv=96.3, to=70)
    >>> round(spirit_ml), round(water_ml)
    (727, 300)
    """
    _check_target(abv, to)
    goal = spirit(volume, to, temperature, reference)
    p = np.asarray(mass_fraction(abv, reference))
    t = _checked_temperature(temperature)
    strong = goal.ethanol / p
    water_ml = np.maximum(goal.mass - strong, 0) / (_density(np.float64(0), t) / 1000)
    return same_shape(strong / (_density(p, t) / 1000)), same_shape(water_ml)


def blend_to(a, b, to, volume):
    """Two strengths blended to a third, for a final volume.

    Parameters
    ----------
    a, b : float or array, % by volume of the two spirits
    to : float or array, % by volume wanted, between the two
    volume : float or array, mL wanted in the end

    Returns
    -------
    (of a, of b) : floats or arrays, mL at 20 degC

    Raises
    ------
    ValueError
        when the wanted strength does not lie between the two.

    Examples
    --------
    >>> of_strong, of_weak = blend_to(95, 40, to=60, volume=1000)
    >>> round(of_strong), round(of_weak)
    (356, 654)
    """
    a, b = _checked_abv(a, "the first strength"), _checked_abv(b, "the second strength")
    goal = _checked_abv(to, "the wanted strength")
    if np.any(goal > np.maximum(a, b) + 1e-9) or np.any(goal < np.minimum(a, b) - 1e-9):
        raise ValueError(
            f"The wanted {_first(goal):g} % vol does not lie between the two strengths: "
            "blending cannot go above the stronger or below the weaker."
        )
    pa, pb, p = (np.asarray(mass_fraction(x)) for x in (a, b, goal))
    mass = spirit(volume, goal).mass
    same = pa == pb
    share = np.clip(np.where(same, 0.5, (p - pb) / np.where(same, 1.0, pa - pb)), 0, 1)
    return (same_shape(mass * share / (_density(pa, np.float64(20)) / 1000)),
            same_shape(mass * (1 - share) / (_density(pb, np.float64(20)) / 1000)))


def _check_target(abv, to):
    have = _checked_abv(abv, "the strength you have")
    goal = _checked_abv(to, "the wanted strength")
    if np.any(goal <= 0):
        raise ValueError("Water never takes the strength to nothing: ask for more than 0 % vol.")
    if np.any(goal > have + 1e-9):
        raise ValueError(
            f"Water cannot make it stronger: you have {_first(have):g} % vol and ask for "
            f"{_first(goal):g} % vol."
        )


def _first(array):
    return float(np.ravel(array)[0])


# -- the three pairs with water, g/mL and mPa s at 20 degC, x = mass fraction of the solute ------

def _ethanol_water(x):
    return _density(x, np.float64(20)) / 1000


def _glycerin_water(x):
    """Volk & Kaehler (2018) at 20 degC, on the water of OIML R 22."""
    contraction = 1 + 0.011172 * np.sin(x**1.31 * np.pi) ** 0.81
    # mass-weighted by volume: volume fraction of glycerin in an ideal mixture
    ideal = 1 / (x / _PURE_GLYCERIN + (1 - x) / _WATER)
    return contraction * ideal


def _acetic_water(x):
    return np.polynomial.polynomial.polyval(x, _acetic_fit())


def _ethanol_viscosity(x):
    return np.exp(np.polynomial.polynomial.polyval(x, _viscosity_fit()))


def _glycerin_viscosity(x):
    """Cheng (2008) at 20 degC."""
    water_, glycerin_ = 1.790 * np.exp(-1250 * 20 / 43300), 12100 * np.exp(-1213 * 20 / 11300)
    a = 0.705 - 0.0017 * 20
    b = (4.9 + 0.036 * 20) * a**2.5
    alpha = 1 - x + a * b * x * (1 - x) / (a * x + b * (1 - x))
    return water_**alpha * glycerin_ ** (1 - alpha)


def _acetic_viscosity(x):
    return 1.005 * np.exp(1.85 * x)  # from memory: about 1.2 at 10 %, 1.45 at 20 %


@lru_cache(maxsize=2)
def _table(name):
    with open(places.data() / name, encoding="utf-8") as file:
        rows = [list(row.values())[:2] for row in csv.DictReader(file)]
    return np.array(rows, dtype=float).T


@lru_cache(maxsize=1)
def _acetic_fit():
    percent, rho = _table("acetic_acid_density.csv")
    # forced through pure water: what is fitted is (density - water) / x
    fit = np.polynomial.polynomial.polyfit(percent / 100, (rho - _WATER) / (percent / 100), 5,
                                           w=percent)
    return np.concatenate([[_WATER], fit])


@lru_cache(maxsize=1)
def _viscosity_fit():
    percent, eta = _table("ethanol_water_viscosity.csv")
    return np.polynomial.polynomial.polyfit(percent / 100, np.log(eta), 7)


_WATER = 0.99820123  # g/mL at 20 degC, OIML R 22
_PURE_ETHANOL = 0.7892391233  # g/mL at 20 degC, OIML R 22 before rounding to 789.24 kg/m3
_PURE_GLYCERIN = 1.261058  # g/mL at 20 degC, Volk & Kaehler (2018)

"""The jar: what really goes in, by eye or by weight, and where it ends.

A jar filled by eye holds herb with air between the pieces. The liquid takes the place of that
air; the plant's own solids and water keep their room. Once the jar has steeped, the water that
was inside the herb has mixed with the liquid, and the strength has come down to `Jar.final`.

Assumptions
    loose herb          fill x jar volume x bulk density (the figure of the herb table)
    the plant's room    solids at 1.5 g/mL (from memory) and its water; no trapped air
    head space          5 % of the jar left empty (common practice, no source)
    the herb's water    gives itself up wholly and takes the menstruum in: a balance, reached in
                        weeks; what the herb dissolves into the liquid is not counted
"""

from dataclasses import dataclass, field

import numpy as np

from herbcalc._numbers import above, at_least, between, same_shape
from herbcalc.herbs import Herb
from herbcalc.liquids import Liquid, spirit
from herbcalc.strength import STRONGEST_SPIRIT, _density, _solve, abv, mass_fraction

HEAD_SPACE = 0.05  # share of the jar left empty: common practice, no source


@dataclass(frozen=True)
class Jar:
    """A jar of herb and menstruum, filled by eye (`fill`) or by weight (`herb_mass`).

    Parameters
    ----------
    volume : float or array, mL the jar holds to the brim, above 0
    herb : Herb
    menstruum : Liquid, of any amount: as much of it is poured as fits
    fill : float or array, share of the jar that the loose herb fills, above 0 to 1
    herb_mass : float or array, g, instead of `fill`
    headspace : float or array, share of the jar left empty, 0 to 0.5

    Raises
    ------
    ValueError
        when the herb does not fit into the jar, or leaves no room for liquid.

    Examples
    --------
    >>> import herbcalc as hc
    >>> mint = hc.herb("peppermint", "fresh")
    >>> jar = Jar(volume=500, herb=mint, fill=0.75, menstruum=hc.spirit(1, abv=40))
    >>> round(jar.herb_mass), round(jar.menstruum_volume)
    (40, 437)
    >>> round(jar.ratio, 1), round(jar.final.abv, 1)
    (10.8, 37.3)
    """

    volume: float
    herb: Herb
    fill: float | None = None
    menstruum: Liquid = None
    herb_mass: float | None = None
    headspace: float = field(default=HEAD_SPACE)

    def __post_init__(self):
        put = object.__setattr__
        if not isinstance(self.herb, Herb):
            raise ValueError("A jar needs a herb: herb=hc.herb('peppermint', 'fresh'), say.")
        if not isinstance(self.menstruum, Liquid):
            raise ValueError("A jar needs a liquid: menstruum=hc.spirit(1, abv=40), say.")
        if (self.fill is None) == (self.herb_mass is None):
            raise ValueError("Say how full the jar is (fill=) or how much herb goes in "
                             "(herb_mass=), one of the two.")
        volume = above(self.volume, 0, "the jar's volume", "mL")
        headspace = between(self.headspace, 0, 0.5, "the share of head space")
        if self.fill is not None:
            fill = between(above(self.fill, 0, "the fill"), 0, 1, "the fill (1 is a full jar)")
            mass = fill * volume * self.herb.bulk_density
        else:
            mass = above(self.herb_mass, 0, "the herb's weight", "g")
            fill = mass / (volume * self.herb.bulk_density)
            if np.any(fill > 1 + 1e-9):
                worst = np.argmax(np.ravel(fill / np.ones_like(mass)))
                asked = float(np.ravel(mass + 0 * fill)[worst])
                room = float(np.ravel(volume + 0 * fill)[worst])
                raise ValueError(
                    f"{asked:.0f} g of {self.herb} lies loose in "
                    f"{asked / self.herb.bulk_density:.0f} mL and the jar holds {room:.0f} mL: "
                    f"take a bigger jar or at most {room * self.herb.bulk_density:.0f} g, or chop "
                    "the herb and weigh a cup of it anew."
                )
        room = volume * (1 - headspace) - self.herb.volume(mass)
        if np.any(room <= 0):
            raise ValueError("The herb leaves no room for liquid: take less herb or a bigger jar.")
        put(self, "volume", same_shape(volume))
        put(self, "headspace", same_shape(headspace))
        put(self, "fill", same_shape(fill))
        put(self, "herb_mass", same_shape(mass))
        put(self, "_poured", same_shape(room))

    @property
    def menstruum_volume(self):
        """mL of liquid poured, at 20 degC"""
        return self._poured

    @property
    def poured(self):
        """the liquid as poured, a Liquid"""
        return self.menstruum.poured(self._poured)

    @property
    def herb_volume(self):
        """mL that the herb itself takes up, without the air between its pieces"""
        return same_shape(self.herb.volume(np.asarray(self.herb_mass)))

    @property
    def herb_water(self):
        """g of water that the herb brings"""
        return same_shape(np.asarray(self.herb_mass) * self.herb.water)

    @property
    def dry_mass(self):
        """g of the herb once completely dry"""
        return same_shape(self.herb.dry_mass(np.asarray(self.herb_mass)))

    @property
    def ratio(self):
        """weight to volume as poured: mL of liquid for 1 g of herb as it went in (5 is "1:5")"""
        return same_shape(np.asarray(self._poured) / self.herb_mass)

    @property
    def dry_ratio(self):
        """the same for 1 g of completely dry herb: what lets fresh and dried be compared"""
        return same_shape(np.asarray(self._poured) / self.dry_mass)

    @property
    def final(self):
        """the Liquid once the herb has given up its water (before straining)"""
        return self.poured + Liquid(water=self.herb_water)


def spirit_for_final(herb, herb_mass, volume, final_abv):
    """The strength to pour so that a jar ends at a wanted strength.

    Parameters
    ----------
    herb : Herb
    herb_mass : float or array, g, not below 0
    volume : float or array, mL of spirit that will be poured
    final_abv : float or array, % by volume wanted once the herb has given up its water

    Returns
    -------
    float or array, % by volume of the spirit to pour

    Raises
    ------
    ValueError
        saying how far the strongest spirit sold (96 % vol) would come, when that is not enough.

    Examples
    --------
    >>> import herbcalc as hc
    >>> mint = hc.herb("peppermint", "fresh")
    >>> round(spirit_for_final(mint, 100, 300, final_abv=45), 1)
    56.5
    >>> spirit_for_final(mint, 100, 150, final_abv=70)  # doctest: +ELLIPSIS
    Traceback (most recent call last):
    ValueError: Even 96 % spirit ends at ...
    """
    if not isinstance(herb, Herb):
        raise ValueError("Say which herb: herb=hc.herb('peppermint', 'fresh'), say.")
    herb_water = at_least(herb_mass, 0, "the herb's weight", "g") * herb.water
    volume = above(volume, 0, "the volume of spirit", "mL")
    goal = between(above(final_abv, 0, "the final strength", "% vol"), 0, STRONGEST_SPIRIT,
                   "the final strength", "% vol")
    strongest = np.asarray((spirit(volume, STRONGEST_SPIRIT) + Liquid(water=herb_water)).abv)
    if np.any(strongest < goal):
        shown = float(np.ravel(strongest)[np.argmin(np.ravel(strongest - goal))])
        raise ValueError(
            f"Even 96 % spirit ends at {shown:.1f} % vol with that much water in the herb: "
            "pour more spirit on less herb, wilt or dry the herb, or accept a lower final "
            "strength."
        )
    herb_water, volume, goal = np.broadcast_arrays(herb_water, volume, goal)
    p_goal = np.asarray(mass_fraction(goal))

    def too_strong(p):  # g of ethanol poured, less what the wanted strength allows
        poured = volume * _density(p, 20.0) / 1000
        return p * poured - p_goal * (poured + herb_water)

    return abv(_solve(too_strong, np.minimum(p_goal * 1.2, 0.9)))


def ratio_words(ratio):
    """A ratio as it is spoken: mL of liquid for one gram of herb, no finer than a bench can tell.

    Examples
    --------
    >>> ratio_words(10.8), ratio_words(2.54)
    ('1:11', '1:2.5')
    """
    return f"1:{ratio:.0f}" if ratio >= 9.95 else f"1:{ratio:.1f}".removesuffix(".0")

"""The other way round: from the bottles and the herb that are there to the batches they make."""

from collections.abc import Mapping
from dataclasses import dataclass

from herbcalc import kitchen
from herbcalc.batch import MOST_JARS, Batch, checked_herb
from herbcalc.jar import spirit_for_final
from herbcalc.keeping import LOW_RISK_WATER_ACTIVITY
from herbcalc.liquids import Liquid, spirit, water
from herbcalc.shelf import Stock, made_up, stock

__all__ = ["Possible", "from_cupboard"]

_WATER = Stock("water")


@dataclass(frozen=True, repr=False)
class Possible:
    """The batches that a cupboard can make.

    Attributes
    ----------
    batches : tuple of Batch, the largest first; empty when none fits
    limits : tuple of str, what ran out first in each
    nearest : Batch or None, the nearest that can be made when none fits
    why : str, why none fits; "" when one does
    """

    batches: tuple
    limits: tuple
    nearest: Batch | None
    why: str

    @property
    def largest(self):
        """the Batch with the most liquid, or None"""
        return self.batches[0] if self.batches else None

    def __repr__(self):
        if self.batches:
            return "\n".join(f"{batch!r}: {poured(batch)}; {limit}"
                             for batch, limit in zip(self.batches, self.limits))
        return self.why + (f"\nNearest: {self.nearest!r}" if self.nearest else "")


def poured(batch):
    """The liquids of a whole batch in words: "240 mL spirit of 95 % vol + 275 mL water"."""
    return " + ".join(f"{volume * batch.jars:.0f} mL {item}" for item, volume in batch.recipe)


def from_cupboard(bottles, herb, herb_mass, *, ratio=None, fill=None, final_abv=None, jar=None,
                  **more):
    """Which batches can be made of what is there.

    Each bottle is tried alone, let down with water where a lower strength is wanted, and the
    spirits all together where that makes more; water is always at hand. Without a wanted final
    strength vinegar and glycerin are tried too, glycerin with as much water as leaves the jar at
    a water activity of 0.75.

    Parameters
    ----------
    bottles : mapping of Stock or words to mL there is: {"spirit 95": 300, "spirit 40": 700}
    herb : Herb, or words: "dried thyme"
    herb_mass : float, g of herb there is, or words: "4 oz"
    ratio or fill : as of a `Batch`
    final_abv : float, % by volume wanted in the end
    jar : float, mL, the size of the jars there are; left out, one jar of the fitting size
    more : start, tools, press: as of a `Batch`

    Returns
    -------
    Possible

    Raises
    ------
    ValueError
        when the question itself makes no sense.

    Examples
    --------
    >>> can = from_cupboard({"spirit 95": 300, "spirit 40": 500}, "dried thyme", 100, ratio=5,
    ...                     final_abv=45, start="2027-01-10")
    >>> can.largest
    THY-D-270110: 1 jar of 599 mL, 100 g of dried thyme each, ends at 45 % vol
    >>> from_cupboard({"spirit 40": 700}, "fresh spearmint", 100, ratio=3, final_abv=45,
    ...               start="2027-01-10").why  # doctest: +ELLIPSIS
    'Spirit of 40 % vol undiluted ends at 31.2 % vol, because fresh spearmint brings 86 % ...
    """
    if not isinstance(bottles, Mapping) or not bottles:
        raise ValueError("Say what is in the cupboard: {'spirit 40': 700}, say.")
    there = {}
    for words, amount in bottles.items():
        item = stock(words)
        there[item] = there.get(item, 0.0) + kitchen.volume(amount)
    shape = dict(more, herb=checked_herb(herb), ratio=ratio, fill=fill)
    # Everything grows in step with the herb, so one jar of any size tells the amounts per gram.
    size = kitchen.volume(jar) if jar is not None else 500.0
    one = Batch(jar=size, liquid="water", **shape).filled
    room = _Room(there, kitchen.weight(herb_mass), one, jar is not None, shape)

    if final_abv is None:
        blends = [((item, 1.0),) for item in there if item.kind in ("spirit", "vinegar")]
        blends += [_thinned_glycerin(item, one) for item in there if item.kind == "glycerin"]
    else:
        spirits = {item: amount for item, amount in there.items() if item.kind == "spirit"}
        if not spirits:
            raise ValueError("There is no spirit in the cupboard, so no final strength in % vol.")
        strongest = max(spirits, key=lambda item: item.strength)
        need = _strength_to_pour(one, final_abv)
        if need is None or strongest.strength < need - 1e-9:
            nearest = room.batch(((strongest, 1.0),)) or room.one_jar(((strongest, 1.0),))
            return Possible((), (), nearest, _why_not(strongest, one, final_abv, need))
        blends = [_let_down(((item, 1.0),), need) for item in spirits
                  if item.strength >= need - 1e-9]
        together = _all_together(spirits, need)
        if room.jars(together) > 1.001 * max(room.jars(parts) for parts in blends):
            blends.append(together)
    if not blends:
        raise ValueError("Water alone makes no tincture: what else is in the cupboard?")
    blends.sort(key=room.jars, reverse=True)
    fitting = [parts for parts in blends if room.batch(parts)]
    if fitting:
        return Possible(tuple(room.batch(parts) for parts in fitting),
                        tuple(room.limit(parts) for parts in fitting), None, "")
    most = room.jars(blends[0]) * size
    return Possible((), (), room.one_jar(blends[0]),
                    f"There is not enough for one jar of {size:.0f} mL: {room.limit(blends[0])} "
                    f"at a jar of {most:.0f} mL.")


@dataclass(frozen=True)
class _Room:
    """How far the cupboard reaches: one jar of a size and shape, and all there is."""

    there: Mapping  # Stock -> mL
    herb_mass: float  # g
    one: object  # the Jar
    whole: bool  # whether the jars have this size, or one jar may have any
    shape: Mapping

    def ends(self, parts):
        """What runs out after how many jars: {words: jars}."""
        ends = {f"the {self.one.herb.state} {self.one.herb.name}":
                self.herb_mass / self.one.herb_mass}
        for item, volume in made_up(parts, self.one.menstruum_volume):
            if item.kind != "water" and volume > 1e-9:
                ends[f"the {item}"] = self.there[item] / volume
        return ends

    def jars(self, parts):
        """how many jars, not rounded"""
        return min(self.ends(parts).values())

    def limit(self, parts):
        """what runs out first, in words"""
        ends = self.ends(parts)
        return f"{min(ends, key=ends.get)} is used up"

    def batch(self, parts):
        """the largest Batch of this blend, or None when it fills no jar"""
        if not self.whole:
            return self.one_jar(parts)
        count = min(int(self.jars(parts) + 1e-9), MOST_JARS)
        return Batch(jar=self.one.volume, liquid=parts, jars=count,
                     **self.shape) if count else None

    def one_jar(self, parts):
        """one jar of just the size that uses up what runs out first"""
        return Batch(jar=self.one.volume * self.jars(parts), liquid=parts, **self.shape)


def _strength_to_pour(one, goal):
    """% vol to pour so that the jar ends at `goal`; None when no spirit sold is enough."""
    try:
        return spirit_for_final(one.herb, one.herb_mass, one.menstruum_volume, goal)
    except ValueError as error:
        if str(error).startswith("Even"):
            return None
        raise


def _let_down(spirits, need):
    """Spirits by their parts, and as much water as brings them to `need` % vol."""
    blend = sum(item.liquid(share) for item, share in spirits)
    goal = spirit(1, need)
    extra = blend.ethanol * goal.water / goal.ethanol - blend.water
    if extra <= 1e-9 * blend.mass:
        return tuple(spirits)
    return (*spirits, (_WATER, Liquid(water=extra).volume))


def _all_together(spirits, need):
    """As much of `need` % vol as all the bottles make together; the parts are mL.

    What is stronger goes in whole. What is weaker goes in from its strongest down, as long as
    the surplus of ethanol lasts: so each drop of surplus takes the most with it. Water takes up
    what surplus is left.
    """
    goal = spirit(1, need)
    surplus, used = 0.0, []  # g of ethanol beyond what the water beside it can carry
    for item, amount in sorted(spirits.items(), key=lambda pair: -pair[0].strength):
        drop = item.liquid(1)
        over = drop.ethanol - drop.water * goal.ethanol / goal.water
        if over < 0:
            amount = min(amount, surplus / -over)
        surplus += over * amount
        if amount > 1e-6:
            used.append((item, amount))
    return _let_down(used, need)


def _thinned_glycerin(item, one):
    """Glycerin and as much water as leaves the jar at a water activity of 0.75."""
    low, high = 0.0, 1.0
    for _ in range(40):
        share = (low + high) / 2
        poured = (item.liquid(share) + water(1 - share)).poured(one.menstruum_volume)
        final = poured + Liquid(water=one.herb_water)
        if final.water_activity > LOW_RISK_WATER_ACTIVITY:
            low = share
        else:
            high = share
    return (item, high), (_WATER, 1 - high)


def _why_not(strongest, one, goal, need):
    herb = one.herb
    ends = (strongest.liquid(one.menstruum_volume) + Liquid(water=one.herb_water)).abv
    helps = []
    if need is not None:
        helps.append(f"spirit of at least {need:.0f} % vol")
    if strongest.strength > goal:
        # mL of this spirit for 1 g of herb that the herb's water brings down to just the goal
        drop, aim = strongest.liquid(1), spirit(1, goal)
        least = herb.water / (drop.ethanol * aim.water / aim.ethanol - drop.water)
        helps.append(f"at least {least:.1f} mL of it for each gram of herb")
    if herb.state == "fresh":
        helps.append("the herb wilted or dried")
    said = (f"{str(strongest).capitalize()} undiluted ends at {ends:.1f} % vol, because "
            f"{herb.state} {herb.name} brings {100 * herb.water:.0f} % of its weight as water; "
            f"{goal:g} % vol is wanted.")
    return f"{said} What would help: {', or '.join(helps)}." if helps else said

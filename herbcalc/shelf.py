"""What stands on the shelf: a liquid as it is bought, and several of them poured together.

A `Stock` is what it is and how strong; it has no amount. Batches, price lists and cupboards all
speak of liquids in these words.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from herbcalc import kitchen
from herbcalc._numbers import above, at_least, between
from herbcalc.liquids import glycerin, spirit, vinegar, water
from herbcalc.strength import STRONGEST_SPIRIT

__all__ = ["Stock", "liquid_parts", "made_up", "stock"]

_NEVER = ("rubbing", "denatured", "methylated", "isopropyl", "isopropanol", "wood", "surgical",
          "white spirit", "methanol", "antifreeze")
_NAMES = {
    "spirit": "spirit vodka brandy rum gin whisky whiskey korn grappa alcohol ethanol",
    "water": "water",
    "glycerin": "glycerin glycerine glycerol",
    "vinegar": "vinegar",
}
_KIND = {name: kind for kind, names in _NAMES.items() for name in names.split()}
_USUAL = {"glycerin": 99.7, "vinegar": 5.0, "water": 0.0}  # what a shop sells (from memory)


@dataclass(frozen=True)
class Stock:
    """A liquid as it is bought: what it is and how strong.

    Parameters
    ----------
    kind : "spirit", "water", "glycerin" or "vinegar"
    strength : float; spirit % vol, above 0 to 96; vinegar g of acid per 100 mL, above 0 to 30;
        glycerin % by mass, above 0 to 100; water 0
    raw : bool, a vinegar that is unpasteurised ("with the mother")

    Examples
    --------
    >>> str(Stock("spirit", 40)), str(Stock("vinegar", 5, raw=True))
    ('spirit of 40 % vol', 'raw vinegar of 5 % acidity')
    >>> Stock("spirit", 95).liquid(100)
    100 mL at 95.0 % vol
    """

    kind: str
    strength: float = 0.0
    raw: bool = False

    def __post_init__(self):
        if self.kind not in _NAMES:
            raise ValueError(f"A liquid is {', '.join(_NAMES)}, not {str(self.kind)[:30]!r}.")
        most, name, unit = {
            "spirit": (STRONGEST_SPIRIT, "the strength of the spirit", "% vol"),
            "vinegar": (30, "the acidity of the vinegar", "g per 100 mL"),
            "glycerin": (100, "the purity of the glycerin", "%"),
            "water": (0, "the strength of water", "% vol"),
        }[self.kind]
        if self.kind == "water":
            strength = 0.0
        else:
            strength = float(above(between(self.strength, 0, most, name, unit), 0, name, unit))
        object.__setattr__(self, "strength", strength)
        object.__setattr__(self, "raw", bool(self.raw) and self.kind == "vinegar")

    def liquid(self, volume):
        """`volume` mL of it, a Liquid."""
        return _one_ml(self) * at_least(volume, 0, f"the volume of {self.kind}", "mL")

    def __str__(self):
        if self.kind == "spirit":
            return f"spirit of {self.strength:g} % vol"
        if self.kind == "vinegar":
            return f"{'raw ' if self.raw else ''}vinegar of {self.strength:g} % acidity"
        if self.kind == "glycerin":
            return f"glycerin of {self.strength:g} %"
        return "water"


@lru_cache(maxsize=256)
def _one_ml(item):
    """One mL of a Stock: a recipe asks for the same few liquids again and again."""
    if item.kind == "water":
        return water(1)
    return {"spirit": spirit, "glycerin": glycerin, "vinegar": vinegar}[item.kind](1, item.strength)


def stock(words):
    """The `Stock` meant by words as on a bottle.

    Parameters
    ----------
    words : str, what it is and how strong: "spirit 40", "vodka 40 %", "brandy 80 proof",
        "vinegar 5 %" (5 when nothing is said), "raw vinegar", "glycerin", "water"; or a Stock

    Raises
    ------
    ValueError
        for what is no food-grade liquid of the course, or a spirit without its strength.

    Examples
    --------
    >>> stock("vodka 80 proof")
    Stock(kind='spirit', strength=40.0, raw=False)
    >>> stock("rubbing alcohol 70")  # doctest: +ELLIPSIS
    Traceback (most recent call last):
    ValueError: Never rubbing alcohol: only liquids sold as food or drink, ...
    """
    if isinstance(words, Stock):
        return words
    if not isinstance(words, str):
        raise ValueError(f"A liquid is said in words: 'spirit 40', say, not {words!r}.")
    said = kitchen.tidy(words).lower()
    forbidden = next((name for name in _NEVER if re.search(rf"\b{name}\b", said)), None)
    if forbidden:
        never = re.sub(r"\s*\d.*", "", said)[:40] or forbidden
        raise ValueError(f"Never {never}: only liquids sold as food or drink, never rubbing, "
                         "denatured, isopropyl or wood alcohol.")
    found = re.fullmatch(
        r"(?P<raw>raw |unpasteuri[sz]ed )?(?:[a-z]+ )*?(?P<name>[a-z]+)(?: of)?"
        r"(?:\s*(?P<number>\d+(?:[.,]\d+)?)\s*(?P<unit>%.*|abv|proof|percent|per cent)?)?", said)
    kind = found and _KIND.get(found["name"])
    if not kind:
        raise ValueError(f"What is {words[:40]!r}? Liquids are written like 'spirit 40', "
                         "'vinegar 5', 'raw vinegar', 'glycerin' or 'water'.")
    if found["raw"] and kind != "vinegar":
        raise ValueError(f"Raw (unpasteurised) is said of vinegar only, not of {kind}.")
    if found["number"] is None:
        if kind == "spirit":
            raise ValueError(f"How strong is it? Write its % vol beside it: '{said[:30]} 40', say.")
        return Stock(kind, _USUAL[kind], bool(found["raw"]))
    number = float(found["number"].replace(",", "."))
    if found["unit"] == "proof":
        if kind != "spirit":
            raise ValueError(f"Proof is said of spirit only, not of {kind}.")
        number /= 2  # US proof, 27 CFR 30.11
    return Stock(kind, number, bool(found["raw"]))


def liquid_parts(given):
    """Whatever way the liquid was said in, as a tuple of (Stock, parts by volume).

    Parameters
    ----------
    given : words ("spirit 40", "glycerin: 3, water: 2"), a Stock, a list of either, or a mapping
        of either to its parts

    Examples
    --------
    >>> [(str(item), parts) for item, parts in liquid_parts("glycerin: 3, water: 2")]
    [('glycerin of 99.7 %', 3.0), ('water', 2.0)]
    """
    if isinstance(given, Stock):
        pairs = [(given, 1.0)]
    elif isinstance(given, str):
        pairs = [_part(words) for words in re.split(r"[;+]|,(?!\d)| and ", given)]
    elif isinstance(given, Mapping):
        pairs = list(given.items())
    elif isinstance(given, (list, tuple)):
        pairs = [one if isinstance(one, tuple) else
                 (_part(one) if isinstance(one, str) else (one, 1.0)) for one in given]
    else:
        raise ValueError("Say what is poured: liquid='spirit 40', say.")
    together = {}
    for words, parts in pairs:
        item = stock(words)
        together[item] = together.get(item, 0.0) + float(
            between(parts, 0, 1e6, f"the parts of {item}"))
    kept = tuple((item, parts) for item, parts in together.items() if parts > 0)
    if not kept:
        raise ValueError("Say what is poured: liquid='spirit 40', say.")
    return kept


def _part(words):
    """"glycerin: 3" as (its Stock, 3 parts)."""
    name, _, parts = words.partition(":")
    if not parts.strip():
        return stock(name.strip()), 1.0
    try:
        return stock(name.strip()), float(parts.strip().replace(",", "."))
    except ValueError as error:
        if "could not convert" not in str(error):
            raise
        raise ValueError(f"{words.strip()[:40]!r}: after the colon stands how many parts, "
                         "'glycerin: 3, water: 2', say.") from None


def made_up(parts, volume):
    """What to measure of each for a volume in the end, the shrinking counted.

    Parameters
    ----------
    parts : sequence of (Stock, parts by volume measured before mixing)
    volume : float, mL in the end

    Returns
    -------
    tuple of (Stock, mL)

    Examples
    --------
    >>> [(str(item), round(mL)) for item, mL in made_up(liquid_parts("spirit 96, water"), 1000)]
    [('spirit of 96 % vol', 516), ('water', 516)]
    """
    together = sum(item.liquid(share) for item, share in parts).volume
    return tuple((item, share * volume / together) for item, share in parts)

"""The table of published values: what others have printed, beside what this library computes.

``data/published_values.csv`` holds one published figure a row: its source, how it was come by
(`provenance`: seen, seen quoted, seen in a summary, memory, trade), the digit it is printed to,
and the Python expression that computes the same figure here. A row holds when the two agree to
half the last digit printed; a row allowed more says why in one sentence. The tests walk every
row; the course shows the same table.
"""

import csv
import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

import herbcalc
from herbcalc import dose, extraction, liquids, places
from herbcalc.keeping import keeping as _keeping
from herbcalc.liquids import Liquid
from herbcalc.strength import SIXTY_FAHRENHEIT, abv, density

_GALLON = 231 * 0.0254**3  # m3, US gallon by definition
_POUND = 0.45359237  # kg, by definition
_DRACHM = 3.6967  # mL: US fluid drachm (60 minims), one eighth of a fluid ounce


@dataclass(frozen=True)
class Row:
    """One published value and what is computed beside it.

    Attributes
    ----------
    id, topic, quantity, given, unit, source, locator, provenance, note, why : str
    published, computed : float, or a tuple of two for a range or a pair
    relation : str, "=" equal, ">=" not less than, "<=" not more than, "pair" both equal,
        "within" inside the printed range
    allowed : float, the difference allowed: half the printed digit unless `why` says otherwise
    """

    id: str
    topic: str
    quantity: str
    given: str
    published: object
    computed: object
    unit: str
    relation: str
    allowed: float
    printed_to: float
    why: str
    source: str
    locator: str
    provenance: str
    note: str

    @property
    def difference(self):
        """computed less published (the larger of two for a pair; 0 inside a range)"""
        if self.relation == "pair":
            return max((c - p for c, p in zip(self.computed, self.published)), key=abs)
        if self.relation == "within":
            low, high = self.published
            return max(low - self.computed, self.computed - high, 0.0)
        return self.computed - self.published

    @property
    def holds(self):
        """whether the published value and ours agree as they should"""
        slack = self.allowed * (1 + 1e-9) + 1e-12
        if self.relation == ">=":
            return self.difference >= -slack
        if self.relation == "<=":
            return self.difference <= slack
        return abs(self.difference) <= slack


def rows():
    """Every row of the table, computed now.

    Examples
    --------
    >>> all(row.holds for row in rows() if row.topic == "dilution")
    True
    """
    return tuple(_computed(raw) for raw in _raw())


@lru_cache(maxsize=1)
def _raw():
    with open(places.data() / "published_values.csv", encoding="utf-8", newline="") as file:
        return tuple(csv.DictReader(file))


def _computed(raw):
    value = raw["value"].split(" and ")
    published = float(value[0]) if len(value) == 1 else tuple(float(part) for part in value)
    # Values that are ranges or whole words of the trade carry no printed digit: they must be equal.
    printed_to = float(raw["printed_to"]) if raw["printed_to"] else 0.0
    return Row(
        published=published,
        computed=eval(raw["computed"], {"__builtins__": {}}, _words()),  # our own file
        allowed=float(raw["allowed"]) if raw["allowed"] else printed_to / 2,
        printed_to=printed_to,
        **{key: raw[key] for key in ("id", "topic", "quantity", "given", "unit", "relation", "why",
                                     "source", "locator", "provenance", "note")},
    )


@lru_cache(maxsize=1)
def _words():
    """What an expression in the table may use."""
    import sys

    return {
        "hc": herbcalc, "liquids": liquids, "dose": dose, "extraction": extraction,
        "keeping": sys.modules["herbcalc.keeping"],  # the module; hc.keeping is its function
        "F60": SIXTY_FAHRENHEIT, "POUND": _POUND, "GALLON": _GALLON, "DRACHM": _DRACHM,
        "DROPPER_1905": dose.DROPPER_TUBE * dose.drops_per_ml(herbcalc.water(1)) * _DRACHM / 60,
        "celsius": lambda fahrenheit: (fahrenheit - 32) / 1.8,
        "mix": lambda **parts: Liquid(**parts),
        "abv_of": lambda liquid, reference: abv(liquid.ethanol / liquid.mass, reference),
        "water_in_100": _water_in_100,
        "ratio_of": _ratio_of,
        "keeping_of": lambda liquid: (_keeping(liquid).low, _keeping(liquid).high),
        "densest_water": _densest_water,
    }


def _water_in_100(strength, reference):
    """Volumes of water that 100 volumes of spirit hold, as 27 CFR 30.66 Table 6 counts them."""
    liquid = herbcalc.spirit(100, strength, temperature=reference, reference=reference)
    return liquid.water / (density(0, reference) / 1000)


def _ratio_of(herb_mass, volume):
    """The ratio of a jar in which this much dried herb meets this much liquid."""
    herb = herbcalc.Herb("measured", "dried", water=0.1, bulk_density=1.0)
    room = (volume + herb.volume(herb_mass)) / 0.95
    return herbcalc.Jar(volume=room, herb=herb, herb_mass=herb_mass, headspace=0.05,
                        menstruum=herbcalc.spirit(1, 45)).ratio


def _densest_water():
    temperatures = np.linspace(0, 10, 1001)
    return float(temperatures[math.floor(np.argmax(density(0.0, temperatures)))])

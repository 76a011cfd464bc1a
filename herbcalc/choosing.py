"""Choosing a liquid: what the trade says of each kind of constituent, beside the computed line.

Two judgements stand side by side, each from 0 (poor) to 1 (as good as it gets among the liquids
compared), and neither is mixed into the other:

* the trade's rule: marks of 0 to 3 in ``data/trade_marks.csv``, common practice, no source;
* the line: `solubility_gain` of one example of the kind, counted in steps of ten behind the best.

Neither says whether a constituent is wanted, safe, or how long the bottle keeps.
"""

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from herbcalc import places
from herbcalc._numbers import at_least
from herbcalc.extraction import constituent, solubility_gain
from herbcalc.liquids import Liquid, glycerin, spirit, vinegar, water

BEHIND = 3.0  # steps of ten behind the best at which nothing is left: our own choice, no source
DIFFER = 0.5  # half of the scale apart: that is called a disagreement; our own choice, no source
MOST_MARKS = 3

_COLUMNS = {  # how the liquids are called, and their columns in the table
    "water": "water",
    "weak spirit (25 % vol)": "weak_spirit",
    "plain spirit (40 % vol)": "plain_spirit",
    "middling spirit (60 % vol)": "middling_spirit",
    "strong spirit (90 % vol)": "strong_spirit",
    "glycerin (half and half)": "glycerin",
    "vinegar (5 g acid)": "vinegar",
}


@lru_cache(maxsize=1)
def liquids() -> Mapping[str, Liquid]:
    """The liquids compared, by name.

    Examples
    --------
    >>> [f"{liquid.abv:.0f}" for liquid in liquids().values()]
    ['0', '25', '40', '60', '90', '0', '0']
    """
    return dict(zip(_COLUMNS, (
        water(100), spirit(100, abv=25), spirit(100, abv=40), spirit(100, abv=60),
        spirit(100, abv=90), glycerin(50) + water(50), vinegar(100, acidity=5),
    )))


@dataclass(frozen=True)
class Kind:
    """A kind of constituent.

    Attributes
    ----------
    name : str
    example : str, the constituent whose line stands for the kind
    marks : tuple of int, the trade's 0 (poor) to 3 (good) for each of `liquids`
    basis : str, where the marks come from
    why_they_differ : str, why rule and line part ways; "" where they agree
    """

    name: str
    example: str
    marks: tuple
    basis: str
    why_they_differ: str

    @property
    def by_trade(self):
        """0 to 1 for each liquid, from the trade's marks."""
        return np.array(self.marks) / MOST_MARKS

    @property
    def by_line(self):
        """0 to 1 for each liquid, from the line; None where there is none.

        1 for the best of the liquids and a third less for each factor of ten behind it.

        Examples
        --------
        >>> kinds()[0].by_line.round(1).tolist()       # aromatic oils: the stronger the better
        [0.0, 0.2, 0.4, 0.6, 1.0, 0.2, 0.0]
        """
        log_kow = constituent(self.example).log_kow
        if log_kow is None:
            return None
        gain = np.array([solubility_gain(log_kow, liquid) for liquid in liquids().values()])
        return np.clip(1 - np.log10(gain.max() / gain) / BEHIND, 0, 1)

    @property
    def differs(self):
        """For each liquid, whether rule and line lie more than half the scale apart."""
        if self.by_line is None:
            return np.zeros(len(_COLUMNS), dtype=bool)
        return np.abs(self.by_line - self.by_trade) > DIFFER


@lru_cache(maxsize=1)
def kinds():
    """The kinds of constituents, ``data/trade_marks.csv``, read once.

    Examples
    --------
    >>> [kind.name for kind in kinds()][:3]
    ['aromatic oils', 'resins', 'alkaloids']
    """
    with open(places.data() / "trade_marks.csv", encoding="utf-8", newline="") as file:
        return tuple(
            Kind(row["kind"], row["example"], tuple(int(row[c]) for c in _COLUMNS.values()),
                 row["basis"], row["why_they_differ"])
            for row in csv.DictReader(file))


@dataclass(frozen=True)
class Comparison:
    """How the liquids compare for one herb.

    Attributes
    ----------
    trade : mapping of liquid to 0 to 1, the weighted mean of the trade's rules
    line : mapping of liquid to 0 to 1, the same of the computed lines; empty where none is seen
    seen : float, 0 to 1: share of the weights for which there is a line
    """

    trade: Mapping[str, float]
    line: Mapping[str, float]
    seen: float

    @staticmethod
    def best(marks):
        """The liquids with the highest mark, ties together (closer than 0.02 is a tie)."""
        if not marks:
            return ()
        top = max(marks.values())
        return tuple(name for name, mark in marks.items() if mark > top - 0.02)


def compare(weights):
    """Hold the liquids against each other for one herb.

    Parameters
    ----------
    weights : mapping of kind to how much it matters, numbers not below 0; those left out are 0

    Returns
    -------
    Comparison

    Raises
    ------
    ValueError
        for an unknown kind, or when nothing matters.

    Examples
    --------
    >>> root = compare({"mucilage": 3, "minerals": 1})
    >>> root.best(root.trade)
    ('water',)
    >>> root.seen                     # no line for either: the model is blind here
    0.0
    """
    names = [kind.name for kind in kinds()]
    for name in weights:
        if name not in names:
            raise ValueError(f"There is no kind called {str(name)[:40]!r}: there is "
                             f"{', '.join(names)}.")
    given = np.array([float(at_least(weights.get(name, 0), 0, name)) for name in names])
    if not given.sum() > 0:
        raise ValueError("Nothing matters yet: give at least one kind a weight.")
    trade = given @ np.array([kind.by_trade for kind in kinds()]) / given.sum()
    has_line = np.array([kind.by_line is not None for kind in kinds()])
    counted = given * has_line
    line = {}
    if counted.sum() > 0:
        rows = np.array([np.zeros(len(_COLUMNS)) if kind.by_line is None else kind.by_line
                         for kind in kinds()])
        line = dict(zip(_COLUMNS, (counted @ rows / counted.sum()).tolist()))
    return Comparison(dict(zip(_COLUMNS, trade.tolist())), line,
                      float(counted.sum() / given.sum()))

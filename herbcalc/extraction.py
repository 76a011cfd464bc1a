"""Getting it out: what dissolves in what, how fast, and how much of the liquid comes back.

Three small models, each with its limits said beside it:

* solubility: the log-linear cosolvency line of Li & Yalkowsky (1998) says how many times better
  than water a liquid dissolves a constituent, from how oil-loving the constituent is (log Kow);
* steeping: a first-order approach to equilibrium, with a rate that is only an illustration;
* straining and pressing: a mass balance over what the marc (the spent herb) holds back.
"""

import csv
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from herbcalc import places
from herbcalc._numbers import above, at_least, between, same_shape

# Li & Yalkowsky, Ind. Eng. Chem. Res. 37 (1998) 4470, from memory: sigma = slope log Kow + start
COSOLVENCY = {"ethanol": (0.95, 0.30), "glycerin": (0.35, 0.28)}
ETHANOL_RANGE = (0.0, 95.0)  # % vol over which the line is drawn
GLYCERIN_RANGE = (0.0, 60.0)  # % by volume over which the line is drawn

HALF_WAY_DAYS = 4.0  # invented for illustration: half of what will come has come by then
# mL of liquid held back by 1 g of completely dry herb: invented to start with. Measure your own:
# (liquid poured + herb's water - liquid won) / dry weight. A yield of 4 to 4.5 from 1:5
# (Cooperation Phytopharmaceuticals) means 0.5 to 1.0 mL per g.
HELD_BACK = {"dripped only": 2.5, "by hand in cloth": 1.6, "kitchen press": 1.1,
             "screw press": 0.7}
# Sieve openings in mm by mesh number, ASTM E11 (from memory), and two household filters
MESH = {"10": 2.0, "20": 0.85, "40": 0.425, "60": 0.25, "100": 0.15, "200": 0.075}
FILTERS = {"kitchen sieve": 1.0, "muslin, one layer": 0.5, "muslin, four layers": 0.2,
           "coffee filter": 0.02}  # mm, rough figures from memory


@dataclass(frozen=True)
class Constituent:
    """Something in a plant that is wanted in the bottle, or not.

    Attributes
    ----------
    name, kind : str
    log_kow : float or None, decimal log of octanol/water partition: high = oil-loving
    cas, source, herb : str
    trade_rule : str, what makers say dissolves it (common practice, no source)
    meets : str, whether the computed line agrees with that rule, and if not, why
    """

    name: str
    kind: str
    log_kow: float | None
    cas: str
    source: str
    herb: str
    trade_rule: str
    meets: str


@lru_cache(maxsize=1)
def constituents():
    """The table of constituents, ``data/constituents.csv``, read once.

    Examples
    --------
    >>> [c.name for c in constituents()][:2]
    ['menthol', 'thymol']
    """
    with open(places.data() / "constituents.csv", encoding="utf-8", newline="") as file:
        return tuple(
            Constituent(row["name"], row["class"],
                        float(row["log_kow"]) if row["log_kow"] else None, row["cas"],
                        row["source"], row["herb"], row["trade_rule"], row["meets"])
            for row in csv.DictReader(file))


def constituent(name):
    """One constituent by name; an unknown one gets the nearest names.

    Examples
    --------
    >>> constituent("menthol").log_kow
    3.4
    """
    for item in constituents():
        if item.name == str(name).strip().lower():
            return item
    import difflib

    near = difflib.get_close_matches(str(name).lower(), [c.name for c in constituents()], 3, 0.5)
    offered = f" Did you mean {' or '.join(near)}?" if near else ""
    raise ValueError(f"There is no constituent called {str(name)[:40]!r} in the table.{offered}")


def solubility_gain(log_kow, liquid):
    """How many times better than water a liquid dissolves a constituent.

    log10 of the gain = sum over ethanol and glycerin of (volume fraction) x (slope log Kow +
    start). A straight line on a log scale: good to a factor of about 3 for small molecules
    between 20 and 80 % (our own caution, no source); real curves bend, and some peak before the
    strongest spirit. It says nothing about how fast, about salts, long chains or mixtures, or
    about whether a constituent is wanted.

    Parameters
    ----------
    log_kow : float or array, -5 to 8
    liquid : Liquid with 0 to 95 % vol ethanol and 0 to 60 % glycerin by volume

    Returns
    -------
    float or array, times as soluble as in water (1 = no better)

    Raises
    ------
    ValueError
        outside the range over which the line was drawn.

    References
    ----------
    Li & Yalkowsky, Ind. Eng. Chem. Res. 37 (1998) 4470 (regression recalled from memory).

    Examples
    --------
    >>> import herbcalc as hc
    >>> round(solubility_gain(3.4, hc.spirit(1, abv=40)))    # menthol in 40 % spirit
    26
    >>> solubility_gain(-3.7, hc.spirit(1, abv=40)) < 1      # sugar likes water better
    True
    """
    log_kow = between(log_kow, -5, 8, "log Kow")
    ethanol = np.asarray(liquid.abv)
    glycerin = np.asarray(liquid.glycerin_percent)
    if np.any(ethanol > ETHANOL_RANGE[1] + 1e-9):
        raise ValueError("The solubility line is drawn up to 95 % vol of ethanol.")
    if np.any(glycerin > GLYCERIN_RANGE[1] + 1e-9):
        raise ValueError("The solubility line is drawn up to 60 % glycerin.")
    (se, ie), (sg, ig) = COSOLVENCY["ethanol"], COSOLVENCY["glycerin"]
    exponent = ethanol / 100 * (se * log_kow + ie) + glycerin / 100 * (sg * log_kow + ig)
    return same_shape(10.0**exponent)


def steeped(days, half_way=HALF_WAY_DAYS):
    """Share of what will come out that has come out after some days: 1 - 2^(-days / half_way).

    First-order approach to equilibrium. The rate is an ILLUSTRATION (half after 4 days,
    invented): it depends on the cut, the warmth, the shaking and the constituent. Common practice
    (no source) is 4 to 6 weeks, which this rate puts beyond 99 %.

    Parameters
    ----------
    days : float or array, not below 0
    half_way : float or array, days, above 0

    Returns
    -------
    float or array, 0 to 1

    Examples
    --------
    >>> steeped(4)
    0.5
    """
    time = at_least(days, 0, "the days of steeping")
    return same_shape(1 - 0.5 ** (time / above(half_way, 0, "the half-way time", "days")))


@dataclass(frozen=True)
class Steep:
    """The outcome of one or more steeps: liquid and wanted stuff, in and out.

    Attributes
    ----------
    drawn : tuple, mL of liquid won in each steep
    held : float or array, mL left in the marc at the end
    won : tuple, share of the herb's extractable stuff won in each steep
    left : float or array, share left in the marc
    """

    drawn: tuple
    held: float
    won: tuple
    left: float

    @property
    def total_drawn(self):
        """mL of liquid won altogether"""
        return sum(self.drawn)

    @property
    def total_won(self):
        """share of the extractable stuff won altogether"""
        return sum(self.won)


def steep(dry_mass, pours, held_back, bound=0.0):
    """Steep once or several times on the same marc, to equilibrium each time.

    Each time the liquid (what is poured and what the marc still holds) takes up the stuff evenly;
    the marc keeps `held_back` mL for each gram of dry herb and, if `bound` is above 0, clings to
    some of the stuff as if it held that many mL more. Volumes are taken as adding: the shrinking
    of mixtures is a few mL here and does not change what is won.

    Parameters
    ----------
    dry_mass : float or array, g of completely dry herb, above 0
    pours : sequence of float or array, mL poured in each steep
    held_back : float or array, mL per g of dry herb, not below 0 (see `HELD_BACK`)
    bound : float or array, mL per g, not below 0

    Returns
    -------
    Steep: drawn + held = poured, and won + left = 1

    Raises
    ------
    ValueError
        when a pour is too small to wet the marc, so that nothing would come back.

    Examples
    --------
    >>> once = steep(100, [500], held_back=0.7)
    >>> round(once.total_drawn), round(once.total_won, 2)
    (430, 0.86)
    >>> twice = steep(100, [250, 250], held_back=0.7)     # the same liquid in two steeps
    >>> twice.total_won > once.total_won
    True
    """
    dry = above(dry_mass, 0, "the dry weight of the herb", "g")
    hold = dry * at_least(held_back, 0, "what the marc holds back", "mL per g")
    cling = dry * at_least(bound, 0, "what the marc clings to", "mL per g")
    pours = [above(pour, 0, "the liquid poured", "mL") for pour in pours]
    if not pours:
        raise ValueError("Pour something: a steep needs liquid.")
    held = left = None
    drawn, won = [], []
    for pour in pours:
        liquid = pour + (0.0 if held is None else held)
        remaining = 1.0 if left is None else left
        if np.any(liquid <= hold):
            raise ValueError("So little liquid only wets the herb: nothing would come back. "
                             "Pour more or take less herb.")
        out = liquid - hold
        share = out / (liquid + cling)
        won.append(same_shape(remaining * share))
        left = remaining * (1 - share)
        held = hold
        drawn.append(same_shape(out))
    return Steep(tuple(drawn), same_shape(held), tuple(won), same_shape(np.asarray(left)))


def held_back(poured, herb_water, drawn, dry_mass):
    """What your own marc held back: measure it once and use it from then on.

    Parameters
    ----------
    poured, herb_water, drawn : float or array, mL
    dry_mass : float or array, g

    Returns
    -------
    float or array, mL per g of completely dry herb

    Raises
    ------
    ValueError
        when more came out than went in.

    Examples
    --------
    >>> held_back(500, 10, 430, 100)
    0.8
    """
    inside = at_least(poured, 0, "the liquid poured", "mL") + at_least(
        herb_water, 0, "the herb's water", "mL")
    out = at_least(drawn, 0, "the liquid won", "mL")
    if np.any(out > inside):
        raise ValueError("More liquid came out than went in: measure again.")
    return same_shape((inside - out) / above(dry_mass, 0, "the dry weight", "g"))


def pressed(jar, method="by hand in cloth"):
    """What comes out of a jar after straining and pressing.

    Parameters
    ----------
    jar : Jar
    method : str, one of `HELD_BACK`, or a float: your own mL per g of dry herb

    Returns
    -------
    (Liquid won, Liquid left in the marc): together they are `jar.final`

    Examples
    --------
    >>> import herbcalc as hc
    >>> jar = hc.Jar(volume=500, herb=hc.herb("thyme", "dried"), herb_mass=40,
    ...              menstruum=hc.spirit(1, abv=45))
    >>> won, lost = pressed(jar, "screw press")
    >>> round(won.volume), round(lost.volume)
    (425, 26)
    """
    if isinstance(method, str):
        if method not in HELD_BACK:
            raise ValueError(f"Press how? Known are: {', '.join(HELD_BACK)}.")
        rate = HELD_BACK[method]
    else:
        rate = at_least(method, 0, "what the marc holds back", "mL per g")
    final = jar.final
    share = rate * np.asarray(jar.dry_mass) / final.volume
    if np.any(share >= 1):
        raise ValueError("The marc soaks up all the liquid: pour more or take less herb.")
    return final * (1 - share), final * share


def passes(particle, opening):
    """Whether a particle goes through a sieve or cloth.

    Parameters
    ----------
    particle, opening : float or array, mm, above 0

    Examples
    --------
    >>> bool(passes(0.3, MESH["60"])), bool(passes(0.1, MESH["60"]))
    (False, True)
    """
    return np.asarray(above(particle, 0, "the particle", "mm")
                      < above(opening, 0, "the opening", "mm"))[()]

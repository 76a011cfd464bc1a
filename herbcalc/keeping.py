"""How long it keeps, why, and what to look out for: always a range with its reasons.

Three things keep a tincture: spirit, little free water (glycerin), and acid. Each is held
against a short ladder of limits; the best of the three decides, and adding water can only move
a liquid down every ladder. Between the rungs the answer is the cautious one.

Where the limits come from
    40 % vol and its 15 to 20 years; glycerin 3 to 5 years; vinegar 6 to 12 months
                                  common practice, no source
    water activity 0.85, pH 4.6   law for foods in the United States: 21 CFR 114.3
    4 g acid per 100 mL           what may be sold as vinegar: FDA CPG Sec. 525.825 (1995)
    20 % vol, water activity 0.75, pH 3
                                  ISO 29621:2017, low-risk COSMETICS, read in a summary: a
                                  comparison, not a rule for anything swallowed
    every shorter range           our own cautious reading, no source

None of this replaces local law, a licensed practitioner, or your own nose.
"""

from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from herbcalc._numbers import between
from herbcalc.liquids import Liquid

DAYS = {"days": 1, "weeks": 7, "months": 30, "years": 365}
TRADE = "common practice, no source"
CAUTIOUS = "our own cautious reading, no source"
FOOD_LAW = "law for foods (USA): 21 CFR 114.3"
VINEGAR_RULE = "what may be called vinegar (USA): FDA CPG Sec. 525.825"
COSMETICS = "a standard for cosmetics, only as a comparison: ISO 29621:2017, read in a summary"

KEEPING_STRENGTH = 40.0  # % vol: common practice, no source
LOW_RISK_STRENGTH = 20.0  # % vol: ISO 29621:2017, cosmetics
FOOD_WATER_ACTIVITY = 0.85  # 21 CFR 114.3(d)
LOW_RISK_WATER_ACTIVITY = 0.75  # ISO 29621:2017, cosmetics
FOOD_PH = 4.6  # 21 CFR 114.3(a), (b)
LOW_RISK_PH = 3.0  # ISO 29621:2017, cosmetics
VINEGAR_ACIDITY = 4.0  # g per 100 mL, FDA CPG Sec. 525.825
GLYCERIN_BY_TRADE = (40.0, 50.0)  # % of the menstruum: common practice, no source
STEEPING_WEEKS = (4, 6)  # shaken daily in the dark: common practice, no source

SIGNS_OF_SPOILAGE = (
    ("look", "a skin, fluff, spots or threads on top, on the herb or under the lid"),
    ("look", "bubbles, fizz, or a lid that bulges or hisses"),
    ("look", "new cloudiness, slime or ropiness (a harmless sediment lies still at the bottom)"),
    ("look", "herb standing out of the liquid, brown or grey where it meets the air"),
    ("smell", "musty, yeasty, cheesy or rotten, or sour where no vinegar is"),
    ("jar", "a rusty lid, a cracked jar, a seal that no longer closes"),
    ("label", "no label, no date, or past its date"),
)


@dataclass(frozen=True)
class Rung:
    """One step of a ladder: reach `limit` and the keeping is at least this."""

    limit: float
    low: float
    high: float
    unit: str
    name: str
    basis: str
    cold: bool = False


# Each ladder from the best keeping down. Everything weaker than the last rung: UNPROTECTED.
_STRENGTH = (
    Rung(40.0, 15, 20, "years", "spirit", TRADE),
    Rung(30.0, 6, 12, "months", "weak spirit", CAUTIOUS, cold=True),
    Rung(20.0, 1, 3, "months", "very weak spirit", CAUTIOUS, cold=True),
)
_FREE_WATER = (  # limits are upper ones here: the less free water the better
    Rung(0.75, 3, 5, "years", "glycerin", TRADE),
    Rung(0.80, 3, 6, "months", "thinned glycerin", CAUTIOUS, cold=True),
    Rung(0.85, 2, 4, "weeks", "thin glycerin", CAUTIOUS, cold=True),
)
_ACID = (
    Rung(4.0, 6, 12, "months", "vinegar", TRADE),
    Rung(3.0, 2, 4, "weeks", "watered vinegar", CAUTIOUS, cold=True),
    Rung(2.0, 1, 2, "weeks", "thin vinegar", CAUTIOUS, cold=True),
)
_RAW_VINEGAR = Rung(4.0, 1, 3, "months", "raw vinegar on fresh herb", CAUTIOUS, cold=True)
_UNPROTECTED = Rung(0.0, 1, 3, "days", "unprotected", CAUTIOUS, cold=True)

ALWAYS = (
    "Food-grade liquids only: never rubbing, denatured or wood alcohol.",
    "Cool, dark, full, closed and labelled; out of reach of children.",
    "Look and smell before each use; if in doubt, throw it out.",
)


@dataclass(frozen=True)
class Keeping:
    """How long a liquid keeps: never a bare number, never a promise.

    Attributes
    ----------
    low, high : float, the range, in `unit`
    unit : str, "days", "weeks", "months" or "years"
    deciding : str, the limit that decides and where it comes from
    reasons : tuple of str, what was looked at, each with its basis
    safer : tuple of str, what would make it keep longer
    cautions : tuple of str
    refrigerate : bool
    kind : str, the class it belongs to
    ladders : tuple of (str, Rung), what each of "strength", "free water" and "acid" alone would
        give
    """

    low: float
    high: float
    unit: str
    deciding: str
    reasons: tuple
    safer: tuple
    cautions: tuple
    refrigerate: bool
    kind: str
    ladders: tuple = ()

    @property
    def range(self):
        """the range in words, with its unit and where to keep it"""
        place = " in the refrigerator" if self.refrigerate else " cool and dark"
        return f"{self.low:g} to {self.high:g} {self.unit}{place}"

    @property
    def days(self):
        """(low, high) in days, for pictures and dates"""
        return self.low * DAYS[self.unit], self.high * DAYS[self.unit]

    def use_by(self, made):
        """The date after which it is thrown out: the LOW end of the range.

        Parameters
        ----------
        made : datetime.date, or a text like "2027-01-31" (year-month-day): the day the liquid
            went onto the herb

        Examples
        --------
        >>> import herbcalc as hc
        >>> hc.keeping(hc.vinegar(100)).use_by("2027-01-01").isoformat()
        '2027-06-30'
        """
        return _checked_date(made) + timedelta(days=round(self.days[0]))

    def inspections(self, made):
        """Days to look and smell: often at first, and the use-by date last.

        Parameters
        ----------
        made : datetime.date, or a text like "2027-01-31" (year-month-day)

        Returns
        -------
        tuple of datetime.date, rising

        Examples
        --------
        >>> import herbcalc as hc
        >>> [d.isoformat() for d in
        ...  hc.keeping(hc.spirit(100, abv=35)).inspections("2027-01-01")][:3]
        ['2027-01-02', '2027-01-04', '2027-01-08']
        """
        made = _checked_date(made)
        end = round(self.days[0])
        after = [1, 3, 7, 14, 28, 42, 90, 180, 270, *range(365, end, 365)]
        return tuple(made + timedelta(days=d) for d in sorted({*after, end}) if d <= end)

    def __repr__(self):
        return f"Keeps {self.range}. {self.deciding}"


def keeping(liquid, fresh_herb=False, raw_vinegar=False):
    """How long a liquid keeps once the herb is in it, with the reasons.

    Parameters
    ----------
    liquid : Liquid, single numbers: the liquid as it ENDS (`Jar.final`), with the herb's water
    fresh_herb : bool, whether the herb went in fresh: it brings water and life of its own
    raw_vinegar : bool, whether a vinegar is unpasteurised ("with the mother")

    Returns
    -------
    Keeping

    Raises
    ------
    ValueError
        for an empty liquid, or one of several entries.

    Examples
    --------
    >>> import herbcalc as hc
    >>> hc.keeping(hc.spirit(500, abv=40)).range
    '15 to 20 years cool and dark'
    >>> hc.keeping(hc.spirit(500, abv=40) + hc.water(200)).range
    '1 to 3 months in the refrigerator'
    """
    if not isinstance(liquid, Liquid):
        raise ValueError("Keeping is asked of a liquid: hc.keeping(jar.final), say.")
    if np.ndim(liquid.mass):
        raise ValueError("Keeping is asked of one liquid at a time.")
    strength, activity, acid = liquid.abv, liquid.water_activity, liquid.acidity

    # Counted to whole % vol, as a label does: dried herb takes a 40 % spirit to 39.7 or so.
    by_strength = _climb(_STRENGTH, lambda r: strength >= r.limit - 0.5)
    by_water = _climb(_FREE_WATER, lambda r: activity <= r.limit + 1e-12)
    by_acid = _climb(_ACID, lambda r: acid >= r.limit - 1e-9)
    if raw_vinegar and fresh_herb and by_acid is _ACID[0]:
        by_acid = _RAW_VINEGAR
    best = max((by_strength, by_water, by_acid), key=_length)

    return Keeping(
        low=best.low, high=best.high, unit=best.unit,
        deciding=_decides(best, by_strength, by_water, by_acid, strength, activity, acid),
        reasons=_reasons(liquid, by_strength, by_water, by_acid),
        safer=_safer(liquid, best),
        cautions=_cautions(liquid, best, fresh_herb, raw_vinegar),
        refrigerate=best.cold, kind=best.name,
        ladders=(("strength", by_strength), ("free water", by_water), ("acid", by_acid)),
    )


def classes():
    """Every class of keeping, ladder by ladder, from the longest to the shortest.

    Returns
    -------
    tuple of (str, Rung): what keeps it ("strength", "free water", "acid" or "nothing"), and the
        class with its limit (% vol, water activity, g per 100 mL) and its range

    Examples
    --------
    >>> [rung.name for what, rung in classes() if what == "strength"]
    ['spirit', 'weak spirit', 'very weak spirit']
    """
    return (*(("strength", rung) for rung in _STRENGTH),
            *(("free water", rung) for rung in _FREE_WATER),
            ("acid", _ACID[0]), ("acid", _RAW_VINEGAR), *(("acid", rung) for rung in _ACID[1:]),
            ("nothing", _UNPROTECTED))


def glycerin_for_water_activity(activity):
    """Glycerin, % by volume in water, that brings the water activity down to a limit.

    Parameters
    ----------
    activity : float, 0.2 to below 1

    Returns
    -------
    float, % by volume

    Examples
    --------
    >>> round(glycerin_for_water_activity(0.85))
    39
    """
    goal = float(between(activity, 0.2, 0.9999, "the water activity"))
    low, high = 0.0, 1.0  # mass fraction
    for _ in range(60):
        x = (low + high) / 2
        low, high = (x, high) if Liquid(glycerin=x, water=1 - x).water_activity > goal else (low, x)
    return Liquid(glycerin=x, water=1 - x).glycerin_percent


def _climb(ladder, reached):
    return next((rung for rung in ladder if reached(rung)), _UNPROTECTED)


def _length(rung):
    return rung.low * DAYS[rung.unit]


def _decides(best, by_strength, by_water, by_acid, strength, activity, acid):
    if best is _UNPROTECTED:
        return ("No limit is met: too little spirit, too much free water and too little acid. "
                f"Treat it like tea ({CAUTIOUS}).")
    basis = f"; the range is {best.basis}."
    if best is by_strength:
        return (f"Its strength decides: {strength:.0f} % vol, held against {best.limit:.0f} % vol"
                f"{basis}")
    if best is by_water:
        return (f"Its free water decides: water activity {activity:.2f}, held against an "
                f"activity of {best.limit:.2f}{basis}")
    return (f"Its acid decides: {acid:.1f} g per 100 mL, held against {best.limit:.0f} g per "
            f"100 mL{basis}")


def _reasons(liquid, by_strength, by_water, by_acid):
    said = []
    if liquid.ethanol > 0:
        said.append(f"Strength {liquid.abv:.0f} % vol: {by_strength.name}. Keeping strength is "
                    f"40 % vol ({TRADE}); 20 % vol is {COSMETICS}.")
    said.append(f"Water activity {liquid.water_activity:.2f}, an estimate: {by_water.name}. The "
                f"limits are 0.85 ({FOOD_LAW}) and 0.75 ({COSMETICS}).")
    if liquid.acetic > 0:
        said.append(f"Acid {liquid.acidity:.1f} g per 100 mL: {by_acid.name}. Vinegar has at "
                    f"least 4 g per 100 mL ({VINEGAR_RULE}).")
        said.append(f"pH at least {liquid.ph:.1f} from the acid alone; the herb raises it, and "
                    f"the limit is 4.6 ({FOOD_LAW}): only strips or a meter tell.")
    return tuple(said)


def _safer(liquid, best):
    said = []
    if liquid.ethanol > 0 and liquid.abv < KEEPING_STRENGTH:
        said.append("Bring the final strength to 40 % vol or more: stronger spirit, less water, "
                    "dried herb.")
    if liquid.glycerin > 0 and liquid.water_activity > LOW_RISK_WATER_ACTIVITY:
        if liquid.ethanol == 0 and liquid.acetic == 0:
            need = glycerin_for_water_activity(LOW_RISK_WATER_ACTIVITY)
            said.append(f"More glycerin: about {need:.0f} % by volume brings the water activity "
                        "to 0.75.")
        else:
            said.append("More glycerin and less water: bring the water activity to 0.75.")
    if liquid.acetic > 0 and liquid.acidity < VINEGAR_ACIDITY:
        said.append("Stronger vinegar or dried herb, so that at least 4 g per 100 mL remain.")
    if best is _UNPROTECTED and not said:
        said.append("Spirit to 40 % vol, glycerin, or vinegar; or make it fresh each time.")
    if best.cold:
        said.append("Keep it in the refrigerator and make small amounts.")
    return tuple(said)


def _cautions(liquid, best, fresh_herb, raw_vinegar):
    said = []
    if best is _UNPROTECTED:
        said.append("A watery jar with little acid and no air can grow what makes people very "
                    "ill (botulism among them) without any smell: do not keep it; discard.")
    elif best.cold:
        said.append("Between the classes: refrigerate, use soon, and discard at the low end of "
                    "the range or at the first doubt.")
    if fresh_herb:
        said.append("Fresh herb brings water and yeasts of its own: keep it under the liquid and "
                    "reckon with the strength at the end, not the one poured.")
    if raw_vinegar and fresh_herb:
        said.append("Fresh herb in unpasteurised vinegar can ferment: use pasteurised vinegar, or "
                    "keep it cold and short.")
    if liquid.acetic > 0:
        said.append("Vinegar eats metal lids: use glass or plastic ones, or a paper between.")
    if liquid.ethanol > 0 and liquid.abv >= LOW_RISK_STRENGTH:
        said.append("Spirit burns, and its vapour can flash at room temperature: no flame near it.")
    return (*said, *ALWAYS)


def _checked_date(made):
    if isinstance(made, str):
        try:
            made = date.fromisoformat(made.strip())
        except ValueError:
            raise ValueError("The day it was made must be a date, written year-month-day like "
                             f"2027-01-31, not {made.strip()[:20]!r}.") from None
    if not isinstance(made, date):
        raise ValueError("The day it was made must be a date: '2027-01-31', say.")
    if made.year > 9900:
        raise ValueError("That day lies too far ahead to count from.")
    return made


_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def day_words(day):
    """A date as it is written on a label.

    >>> import datetime
    >>> day_words(datetime.date(2027, 1, 4))
    '4 Jan 2027'
    """
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"

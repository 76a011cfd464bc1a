"""Amounts as people write and measure them: metric, and the spoons, cups and ounces of a kitchen.

Three pieces: reading ("1 1/2 cups", "0.4 L", "2 oz"), turning one unit into another, and what
the tools at hand can measure. The sums are left to pint, which takes longer to load than all the
rest and so is loaded only when a unit is really turned into another. Spoons, cups, fluid ounces,
pints and quarts are those of the United States.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from functools import lru_cache

from herbcalc._numbers import above

__all__ = ["KITS", "Measured", "Unit", "convert", "cups_of_herb", "find_unit", "known_unit",
           "measure_volume", "measure_weight", "split_amount", "tidy", "volume", "weight"]


# --- units ---------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Unit:
    """A unit the course reads.

    Parameters
    ----------
    name : str
        as it is shown
    kind : str
        what it measures, in the student's words
    pint : str
        pint's name for it; empty where nothing converts into it
    """

    name: str
    kind: str
    pint: str = ""


VOLUME, WEIGHT, TIME = "a volume", "a weight", "a length of time"

# How each is written by students, in lower case. US spoons, cups and fluid ounces.
_SPELLINGS = {
    Unit("mL", VOLUME, "milliliter"):
        "ml, mls, millilitre, milliliter, millilitres, milliliters, cc, cm3, cm^3",
    Unit("L", VOLUME, "liter"): "l, litre, liter, litres, liters",
    Unit("cL", VOLUME, "centiliter"): "cl, centilitre, centiliter, centilitres, centiliters",
    Unit("dL", VOLUME, "deciliter"): "dl, decilitre, deciliter, decilitres, deciliters",
    Unit("fl oz", VOLUME, "fluid_ounce"): "fl oz, floz, fluid ounce, fluid ounces",
    Unit("tsp", VOLUME, "teaspoon"): "tsp, tsps, teaspoon, teaspoons",
    Unit("tbsp", VOLUME, "tablespoon"): "tbsp, tbsps, tablespoon, tablespoons",
    Unit("cups", VOLUME, "cup"): "cup, cups",
    Unit("pints", VOLUME, "pint"): "pint, pints",
    Unit("quarts", VOLUME, "quart"): "quart, quarts, qt",
    Unit("g", WEIGHT, "gram"): "g, gr, gram, grams, gramme, grammes",
    Unit("kg", WEIGHT, "kilogram"): "kg, kilo, kilos, kilogram, kilograms",
    Unit("mg", WEIGHT, "milligram"): "mg, milligram, milligrams",
    Unit("oz", WEIGHT, "ounce"): "oz, ounce, ounces",
    Unit("lb", WEIGHT, "pound"): "lb, lbs, pound, pounds",
    Unit("% vol", "a strength by volume"):
        "% vol, %vol, % v/v, %v/v, vol %, vol%, % by volume, per cent by volume, "
        "percent by volume, % abv, %abv, abv",
    Unit("% mass", "a share by mass"):
        "% mass, %mass, % m/m, % w/w, % by mass, % by weight, per cent by mass, "
        "percent by mass, percent by weight",
    Unit("%", "a share in per cent"): "%, per cent, percent, pct",
    Unit("proof", "a scale of its own"): "proof, us proof, ° proof, degrees proof",
    Unit("°C", "a temperature", "degC"): "°c, c, degc, deg c, degrees c, celsius, degrees celsius",
    Unit("°F", "a temperature", "degF"):
        "°f, f, degf, deg f, degrees f, fahrenheit, degrees fahrenheit",
    Unit("days", TIME, "day"): "day, days, d",
    Unit("weeks", TIME, "week"): "week, weeks, wk, wks",
    Unit("months", TIME, "month"): "month, months",
    Unit("years", TIME, "year"): "year, years, yr, yrs",
    Unit("hours", TIME, "hour"): "hour, hours, h, hr, hrs",
    Unit("minutes", TIME, "minute"): "minute, minutes, min, mins",
    Unit("g/mL", "a density", "gram / milliliter"): "g/ml, g / ml, g per ml, grams per ml",
    Unit("kg/m3", "a density", "kilogram / meter ** 3"): "kg/m3, kg/m³, kg/m^3",
    Unit("mL per g", "a ratio", "milliliter / gram"): "ml per g, ml/g, ml / g",
    Unit("g per 100 mL", "an acidity"): "g per 100 ml, g/100 ml, g/100ml, % acidity, % acid",
    Unit("pH", "how sour it is now"): "ph",
    Unit("mPa s", "a thickness", "millipascal * second"): "mpa s, mpa·s, mpas, mpa*s, cp",
    Unit("mg/mL", "a content", "milligram / milliliter"): "mg/ml, mg / ml, mg per ml",
    Unit("drops", "a number of drops"): "drop, drops",
    Unit("bottles", "a number of bottles"): "bottle, bottles",
    Unit("jars", "a number of jars"): "jar, jars",
    Unit("labels", "a number of labels"): "label, labels",
    Unit("$", "an amount of money"): "$, dollar, dollars, usd",
    Unit("€", "an amount of money"): "€, euro, euros, eur",
    Unit("parts", "a number of parts"): "part, parts",
    Unit("times", "a number of times"): "times, x, ×, fold",
}
_UNITS = {name.strip(): unit for unit, names in _SPELLINGS.items() for name in names.split(",")}
_NAMES = {unit.name: unit for unit in _SPELLINGS}


def known_unit(name: str) -> bool:
    """Whether a question may ask for this unit.

    >>> known_unit("mL"), known_unit("pinch")
    (True, False)
    """
    return name in _NAMES


def find_unit(written: str) -> Unit | None:
    """The unit behind what a student wrote, or None.

    >>> find_unit("Fl. oz").name
    'fl oz'
    >>> find_unit("handfuls") is None
    True
    """
    if written in _NAMES:
        return _NAMES[written]
    plain = " ".join(written.lower().split())
    return _UNITS.get(plain) or _UNITS.get(" ".join(plain.replace(".", " ").split()))


def convert(number: float, unit: Unit, wanted: Unit) -> float | None:
    """`number` of `unit` in the unit `wanted`; None where the two measure different things.

    >>> convert(0.5, find_unit("L"), find_unit("mL"))
    500.0
    >>> convert(1, find_unit("g"), find_unit("mL")) is None
    True
    """
    if unit == wanted:
        return number
    if "%" == unit.name and wanted.name.startswith("%"):
        return number  # "40 %" where % vol is asked for
    if unit.kind != wanted.kind or not (unit.pint and wanted.pint):
        return None
    import pint  # takes longer than all the rest: only when a unit is really converted

    registry = pint.get_application_registry()
    return float(round(registry.Quantity(number, unit.pint).to(wanted.pint).magnitude, 12))


@lru_cache(maxsize=64)
def _one(name: str, wanted: str) -> float:
    """How many `wanted` there are in one of the unit called `name`."""
    return convert(1.0, _NAMES[name], _NAMES[wanted])


# --- reading -------------------------------------------------------------------------------------

_AMOUNT = re.compile(
    r"(?P<sign>[+-]?)\s*"
    r"(?:(?P<whole>\d+)\s+(?P<over>\d+)\s*/\s*(?P<under>\d+)"  # 1 1/2
    r"|(?P<top>\d+)\s*/\s*(?P<bottom>\d+)"                     # 1/2
    r"|(?P<plain>(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?))"     # 406  40.6  .5  4.06e2
    r"(?![\d.,])\s*(?P<unit>\D.*)?"
)


def tidy(text: str) -> str:
    """Wide digits, hard spaces and long minus signs as plain ones; superscripts stay as written.

    >>> tidy("\\u2212 ４０\\u00a0 mL")
    '- 40 mL'
    """
    plainer = "".join(
        c if unicodedata.category(c) == "No" else unicodedata.normalize("NFKC", c) for c in text
    )
    return " ".join(plainer.replace("\u2212", "-").replace("\u2013", "-").split())


def split_amount(text: str) -> tuple[float, str] | None:
    """The number and the unit of a tidy text, the unit "" where none is written.

    Returns None when it does not start with a number; raises ZeroDivisionError for a fraction
    that divides by nothing.

    >>> split_amount("1 1/2 cups"), split_amount(".5"), split_amount("some")
    ((1.5, 'cups'), (0.5, ''), None)
    """
    found = _AMOUNT.fullmatch(text)
    if not found:
        return None
    if found["plain"]:
        number = float(found["plain"])
    else:
        top, bottom = found["over"] or found["top"], found["under"] or found["bottom"]
        if max(len(top), len(bottom)) > 6:
            raise ZeroDivisionError
        number = int(found["whole"] or 0) + int(top) / int(bottom)
    return (-number if found["sign"] == "-" else number), (found["unit"] or "").strip()


def volume(amount) -> float:
    """mL of an amount given as a number (of mL) or in words with its unit.

    Raises
    ------
    ValueError
        when it is no volume, or not above nothing.

    Examples
    --------
    >>> volume(500), volume("0.5 L"), round(volume("1 1/2 cups"))
    (500.0, 500.0, 355)
    >>> volume("8 oz")
    Traceback (most recent call last):
    ValueError: '8 oz': an ounce (oz) is a weight; for a volume write fl oz, or mL.
    """
    return _amount(amount, "mL", "the volume", ("500 mL", "2 cups"))


def weight(amount) -> float:
    """g of an amount given as a number (of g) or in words with its unit.

    Raises
    ------
    ValueError
        when it is no weight, or not above nothing.

    Examples
    --------
    >>> weight(40), round(weight("2 oz"), 1)
    (40.0, 56.7)
    >>> weight("2 cups")
    Traceback (most recent call last):
    ValueError: '2 cups' is a volume, and a weight is asked for: 40 g or 1.5 oz, say.
    """
    return _amount(amount, "g", "the weight", ("40 g", "1.5 oz"))


def _amount(amount, wanted, name, examples):
    if not isinstance(amount, str):
        return float(above(amount, 0, name, wanted))
    shown = amount if len(amount) <= 40 else amount[:37] + "..."
    try:
        found = split_amount(_with_point(tidy(amount)))
    except ZeroDivisionError:
        found = None
    if found is None:
        raise ValueError(f"{shown!r} cannot be read: write {' or '.join(examples)}, say.")
    number, written = found
    unit = find_unit(written) if written else _NAMES[wanted]
    if unit is None:
        raise ValueError(
            f"{shown!r}: there is no unit {written[:20]!r}; write {' or '.join(examples)}, say."
        )
    value = convert(number, unit, _NAMES[wanted])
    if value is None and unit.name == "oz":
        raise ValueError(
            f"{shown!r}: an ounce (oz) is a weight; for a volume write fl oz, or mL."
        )
    if value is None:
        raise ValueError(f"{shown!r} is {unit.kind}, and {_NAMES[wanted].kind} is asked for: "
                         f"{' or '.join(examples)}, say.")
    return float(above(value, 0, name, wanted))


def _with_point(text):
    """A decimal comma as a point; one that may part thousands is left, and is not read."""
    return re.sub(r"^([+-]?\d+),(\d{1,2}|\d{4,})(?!\d)", r"\1.\2", text)


# --- what the tools can measure ------------------------------------------------------------------

KITS = {
    "metric": "a measuring cylinder and a scale that shows grams",
    "kitchen": "cups, spoons and a scale that shows tenths of an ounce",
}
# (up to, step), in mL: the smallest cylinder that holds it and its marks: ISO 4788 (from memory).
# Above a litre it is filled again and again.
_CYLINDERS = ((10, 0.2), (100, 1), (500, 5), (float("inf"), 10))
_SCALE = ((10, 0.1), (float("inf"), 1))  # (up to, step), in g: a pocket scale, a kitchen scale
_OUNCE_STEP = 0.1  # what a kitchen scale in ounces shows; invented for the course: check yours
# (up to this many cups, smallest spoon used, its steps): finer than this no cup is filled
# (common practice, no source)
_SPOONED = ((1 / 8, "tsp", 4), (1, "tsp", 2), (4, "tbsp", 1), (float("inf"), "cups", 4))
_QUARTERS = {0.25: "1/4", 0.5: "1/2", 0.75: "3/4"}


@dataclass(frozen=True)
class Measured:
    """What is really measured with a tool.

    Attributes
    ----------
    amount : float, mL or g: not what was wanted but the nearest that the tool can do
    words : str, as it is read off the tool
    """

    amount: float
    words: str

    def __str__(self):
        return self.words


def measure_volume(amount, kit="metric"):
    """The nearest volume that the tools of a kit can measure, at least their smallest.

    Metric: cylinders of 10, 100, 500 and 1000 mL, marked every 0.2, 1, 5 and 10 mL (from
    memory). Kitchen: quarter cups, tablespoons, quarter teaspoons; the more it is, the coarser
    (common practice, no source).

    Parameters
    ----------
    amount : float, mL, above 0
    kit : "metric" or "kitchen"

    Returns
    -------
    Measured

    Examples
    --------
    >>> measure_volume(437.4).words, measure_volume(437.4, "kitchen").words
    ('435 mL', '1 3/4 cups + 2 tbsp')
    >>> round(measure_volume(437.4, "kitchen").amount, 1)
    443.6
    """
    amount = float(above(amount, 0, "the volume", "mL"))
    if _checked(kit) == "metric":
        return _on_scale(amount, _CYLINDERS, "mL")
    cups = amount / _one("cups", "mL")
    spoon, parts = next((unit, parts) for most, unit, parts in _SPOONED if cups <= most)
    step = _one(spoon, "mL") / parts
    steps = max(round(amount / step), 1)
    return Measured(steps * step, _spooned(steps * step / _one("tsp", "mL")))


def measure_weight(amount, kit="metric"):
    """The nearest weight that the scale of a kit can show, at least its smallest step.

    Metric: 0.1 g up to 10 g (a pocket scale), whole grams above. Kitchen: tenths of an ounce.
    Invented for the course: check yours.

    Parameters
    ----------
    amount : float, g, above 0
    kit : "metric" or "kitchen"

    Examples
    --------
    >>> measure_weight(40.4).words, measure_weight(40.4, "kitchen").words
    ('40 g', '1.4 oz')
    """
    amount = float(above(amount, 0, "the weight", "g"))
    if _checked(kit) == "metric":
        return _on_scale(amount, _SCALE, "g")
    ounce = _one("oz", "g")
    steps = max(round(amount / ounce / _OUNCE_STEP), 1)
    return Measured(steps * _OUNCE_STEP * ounce, f"{steps * _OUNCE_STEP:.1f} oz")


def cups_of_herb(volume):
    """The loose herb in quarter cups, for who has no scale: rough, and only as good as the
    herb's bulk density.

    Parameters
    ----------
    volume : float, mL of loose herb, above 0

    Examples
    --------
    >>> cups_of_herb(375).words
    '1 1/2 cups'
    """
    step = _one("cups", "mL") / 4
    steps = max(round(float(above(volume, 0, "the volume", "mL")) / step), 1)
    return Measured(steps * step, _counted(steps / 4, "cup", "cups"))


def _checked(kit):
    if kit not in KITS:
        raise ValueError(f"The tools are {' or '.join(KITS)}, not {kit!r}.")
    return kit


def _on_scale(amount, ladder, unit):
    step = next(step for most, step in ladder if amount <= most)
    value = round(max(round(amount / step), 1) * step, 6)
    return Measured(value, f"{value:g} {unit}" if value < 1e5 else f"{value:.0f} {unit}")


def _spooned(teaspoons):
    """A volume in teaspoons as cups, tablespoons and teaspoons."""
    teaspoons = round(teaspoons, 6)
    quarters, rest = divmod(teaspoons, 12)  # a quarter cup is 4 tablespoons
    tablespoons, rest = divmod(round(rest, 6), 3)
    said = []
    if quarters:
        said.append(_counted(quarters / 4, "cup", "cups"))
    if tablespoons:
        said.append(f"{tablespoons:.0f} tbsp")
    if rest > 1e-6:
        said.append(_counted(round(rest, 2), "tsp", "tsp"))
    return " + ".join(said)


def _counted(number, one, several):
    whole, part = divmod(round(number, 4), 1)
    words = " ".join(filter(None, [f"{whole:.0f}" if whole else "", _QUARTERS.get(part, "")]))
    return f"{words} {one if number <= 1 else several}"

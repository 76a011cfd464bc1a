"""Units as students write them, and pint only where one has to be turned into another."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Unit", "convert", "find_unit", "known_unit"]


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

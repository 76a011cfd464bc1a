"""A batch: what to measure for one jar or for twenty, what comes of it, and when it is due.

A `Batch` is one small object; everything else is asked of it: the amounts in metric and in
kitchen units, rounded to what the tools can measure, what that rounding does to the outcome, the
keeping, the cautions for exactly this batch, its dates.

What it rests on
    strength, volumes, the jar    as in strength.py, liquids.py and jar.py
    what pressing wins            extraction.HELD_BACK: invented starting values, measure your own
    keeping                       keeping.py: ranges with their reasons, no promise
    steeping 4 to 6 weeks, a shake a day     common practice, no source
"""

import re
import unicodedata
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import cached_property

from herbcalc import kitchen
from herbcalc._numbers import above, between
from herbcalc.extraction import HELD_BACK, pressed
from herbcalc.herbs import Herb, herb as find_herb
from herbcalc.jar import HEAD_SPACE, Jar, ratio_words, spirit_for_final
from herbcalc.keeping import KEEPING_STRENGTH, STEEPING_WEEKS, day_words, keeping
from herbcalc.liquids import Liquid, water
from herbcalc.shelf import Stock, liquid_parts, made_up
from herbcalc.strength import STRONGEST_SPIRIT, flash_point

__all__ = ["Amount", "Batch", "Dates", "Outcome"]

MOST_JARS = 1000
WARM_ROOM = 25.0  # degC: above the flash point of any strong spirit
THICK = 100.0  # mPa s, a hundred times water: from here a liquid hardly seeps into the herb
#               (our own cautious reading, no source)


# --- the batch ------------------------------------------------------------------------------------


@dataclass(frozen=True, repr=False)
class Amount:
    """One thing to measure.

    Attributes
    ----------
    what : str
    stock : Stock, or None for the herb
    exact : float, as worked out, in `unit`
    unit : "g" or "mL"
    grams : float, g: what a scale shows for the exact amount
    metric, kitchen : Measured, rounded to the tools
    """

    what: str
    stock: Stock | None
    exact: float
    unit: str
    grams: float

    def measured(self, tools):
        """what "metric" or "kitchen" tools really measure, a Measured"""
        measure = kitchen.measure_weight if self.unit == "g" else kitchen.measure_volume
        return measure(self.exact, tools)

    def __repr__(self):
        return f"{self.metric} or {self.kitchen} of {self.what}"

    @property
    def metric(self):
        """measured with cylinder and gram scale"""
        return self.measured("metric")

    @property
    def kitchen(self):
        """measured with cups, spoons and an ounce scale"""
        return self.measured("kitchen")


@dataclass(frozen=True)
class Outcome:
    """What stands in one jar.

    Attributes
    ----------
    herb : Herb
    herb_mass : float, g in one jar
    poured : Liquid in one jar
    """

    herb: Herb
    herb_mass: float
    poured: Liquid

    @cached_property
    def final(self):
        """the Liquid once the herb has given up its water, before straining"""
        return self.poured + Liquid(water=self.herb_mass * self.herb.water)

    @property
    def dry_mass(self):
        """g of the herb once completely dry"""
        return self.herb.dry_mass(self.herb_mass)

    @property
    def ratio(self):
        """mL poured for 1 g of herb as it went in (5 is "1:5")"""
        return self.poured.volume / self.herb_mass

    @property
    def dry_ratio(self):
        """mL poured for 1 g of completely dry herb"""
        return self.poured.volume / self.dry_mass


@dataclass(frozen=True)
class Dates:
    """The days of a batch.

    Attributes
    ----------
    start : date, the liquid goes onto the herb
    strain : (date, date), from when and until when to strain; None when it does not keep so long
    inspections : tuple of date, to look and smell
    use_by : date, what is left is thrown out
    """

    start: date
    strain: tuple | None
    inspections: tuple
    use_by: date

    @property
    def shake_until(self):
        """the last day of shaking: until it may be strained, or thrown out"""
        return self.strain[0] if self.strain else self.use_by


@dataclass(frozen=True, repr=False)
class Batch:
    """A batch of jars that are all alike.

    Parameters
    ----------
    herb : Herb, or words: "fresh peppermint", "dried thyme"
    jar : float, mL that one jar holds to the brim, or words: "1 pint"
    liquid : what is poured, as parts by volume measured before mixing: "spirit 40",
        "glycerin: 3, water: 2", ["spirit 95", "water"], {"spirit 95": 2, "vinegar 5": 1}
    fill : float, 0 to 1, share of the jar that loose herb fills (by eye)
    ratio : float, mL of liquid for 1 g of herb as it goes in (5 is "1:5")
    herb_mass : float, g of herb for one jar, or words: "2 oz". One of the three is given.
    final_abv : float, % by volume wanted once the herb has given up its water: spirit and water
        (or two spirits) are then balanced to reach it, whatever their parts
    jars : int, how many, 1 to 1000
    start : date or "2027-01-31", when the liquid goes on; today when nothing is said
    tools : "metric" or "kitchen", what the amounts are measured with
    press : str, one of `extraction.HELD_BACK`
    code : str, letters, digits, dot and dash; made of herb, state and date when nothing is said

    Raises
    ------
    ValueError
        in one sentence, when the batch cannot be: too much herb for the jar, a strength that
        cannot be reached, a liquid that is not for this.

    Examples
    --------
    >>> import herbcalc as hc
    >>> batch = hc.Batch("fresh peppermint", jar=500, fill=0.75, liquid="spirit 95",
    ...                  final_abv=45, start="2027-01-10")
    >>> batch
    PEP-F-270110: 1 jar of 500 mL, 40 g of fresh peppermint each, ends at 45 % vol
    >>> batch.amounts[0]
    40 g or 1.4 oz of fresh peppermint (leaf, whole)
    >>> batch.jars, batch.times(12).jars
    (1, 12)
    """

    herb: Herb
    jar: float
    liquid: tuple
    fill: float | None = None
    ratio: float | None = None
    herb_mass: float | None = None
    final_abv: float | None = None
    jars: int = 1
    start: date | None = None
    tools: str = "metric"
    press: str = "by hand in cloth"
    code: str = ""
    headspace: float = HEAD_SPACE

    def __post_init__(self):
        put = object.__setattr__
        put(self, "herb", checked_herb(self.herb))
        put(self, "jar", kitchen.volume(self.jar))
        put(self, "liquid", liquid_parts(self.liquid))
        if [self.fill, self.ratio, self.herb_mass].count(None) != 2:
            raise ValueError("Say how much herb goes in: fill= (by eye), ratio= or herb_mass=, "
                             "one of the three.")
        if self.herb_mass is not None:
            put(self, "herb_mass", kitchen.weight(self.herb_mass))
        if self.ratio is not None:
            put(self, "ratio", float(above(self.ratio, 0, "the ratio (mL for 1 g of herb)")))
        if self.final_abv is not None:
            goal = above(between(self.final_abv, 0, STRONGEST_SPIRIT, "the final strength",
                                 "% vol"), 0, "the final strength", "% vol")
            put(self, "final_abv", float(goal))
        put(self, "jars", _checked_count(self.jars))
        put(self, "start", _checked_start(self.start))
        if self.tools not in kitchen.KITS:
            raise ValueError(f"The tools are {' or '.join(kitchen.KITS)}, not {self.tools!r}.")
        if self.press not in HELD_BACK:
            raise ValueError(f"Press how? Known are: {', '.join(HELD_BACK)}.")
        put(self, "code", _checked_code(self.code) or _made_code(self.herb, self.start))
        self.recipe  # so that an impossible batch says so at once

    def times(self, jars):
        """The same batch in another number of jars."""
        return replace(self, jars=jars)

    @cached_property
    def filled(self):
        """one jar of it, a Jar, exactly as worked out"""
        return replace(self._bare_jar, fill=None, menstruum=self.menstruum)

    @cached_property
    def _bare_jar(self):
        """The jar with its herb: how much liquid fits does not depend on which."""
        any_liquid = water(1)
        if self.ratio is None:
            return Jar(self.jar, self.herb, fill=self.fill, herb_mass=self.herb_mass,
                       menstruum=any_liquid, headspace=self.headspace)
        room = self.jar * (1 - self.headspace)
        mass = room / (self.ratio + self.herb.volume(1.0))
        fullest = self.jar * self.herb.bulk_density
        if mass > fullest * (1 + 1e-9):
            least = room / fullest - self.herb.volume(1.0)
            raise ValueError(
                f"At 1:{self.ratio:g} a jar of {self.jar:.0f} mL would take {mass:.0f} g of "
                f"{self.herb}, and loose only {fullest:.0f} g lie in it: go to 1:{least:.1f} or "
                "thinner, or chop the herb and weigh a cup of it anew.")
        return Jar(self.jar, self.herb, herb_mass=mass, menstruum=any_liquid,
                   headspace=self.headspace)

    @cached_property
    def recipe(self):
        """(Stock, mL) of each liquid for one jar, measured before they are mixed"""
        jar = self._bare_jar
        room, herb_water = jar.menstruum_volume, Liquid(water=jar.herb_water)
        if self.final_abv is None:
            return made_up(self.liquid, room)
        return _balanced(self.liquid, room, herb_water, self.final_abv, jar)

    @cached_property
    def menstruum(self):
        """the Liquid poured into one jar"""
        return sum(item.liquid(volume) for item, volume in self.recipe)

    @cached_property
    def amounts(self):
        """what to measure: the herb for ONE jar, then each liquid for ALL the jars"""
        mass = self._bare_jar.herb_mass
        liquids = (Amount(str(item), item, volume * self.jars, "mL",
                          item.liquid(volume * self.jars).mass) for item, volume in self.recipe)
        return (Amount(str(self.herb), None, mass, "g", mass), *liquids)

    @property
    def loose(self):
        """the herb of one jar in quarter cups, loose, for who has no scale: a Measured"""
        return kitchen.cups_of_herb(self._bare_jar.fill * self.jar)

    @cached_property
    def planned(self):
        """the Outcome if everything were measured exactly"""
        return Outcome(self.herb, self._bare_jar.herb_mass, self.menstruum)

    def measured(self, tools):
        """The Outcome when the amounts are rounded to what the tools can measure."""
        herb, *liquids = (amount.measured(tools) for amount in self.amounts)
        poured = sum(amount.stock.liquid(got.amount / self.jars)
                     for amount, got in zip(self.amounts[1:], liquids))
        return Outcome(self.herb, herb.amount, poured)

    @cached_property
    def made(self):
        """the Outcome with this batch's own tools: what the label tells"""
        return self.measured(self.tools)

    @property
    def raw_vinegar(self):
        """whether an unpasteurised vinegar is in it"""
        return any(item.raw for item, _ in self.recipe)

    def keeping_of(self, outcome):
        """The Keeping of one Outcome of this batch."""
        return keeping(outcome.final, fresh_herb=self.herb.state == "fresh",
                       raw_vinegar=self.raw_vinegar)

    @cached_property
    def keeping(self):
        """the Keeping of what is really made"""
        return self.keeping_of(self.made)

    @cached_property
    def won(self):
        """the Liquid won from one jar by straining and pressing; None when the marc takes all"""
        try:
            return pressed(self.made, self.press)[0]
        except ValueError:
            return None

    @cached_property
    def dates(self):
        """the Dates: start, straining, inspections, use by"""
        use_by = self.keeping.use_by(self.start)
        first, last = (self.start + timedelta(weeks=weeks) for weeks in STEEPING_WEEKS)
        strain = (first, min(last, use_by)) if first < use_by else None
        return Dates(self.start, strain, self.keeping.inspections(self.start), use_by)

    @cached_property
    def rounding(self):
        """what measuring with each kit does to the outcome, one sentence a kit"""
        return tuple(self._rounding(kit) for kit in kitchen.KITS)

    def _rounding(self, kit):
        got, planned = self.measured(kit), self.planned
        pairs = [(ratio_words(got.ratio), ratio_words(planned.ratio))]
        for name, unit in (("abv", "% vol"), ("glycerin_percent", "% glycerin"),
                           ("acidity", "g acid per 100 mL")):
            wanted = getattr(planned.final, name)
            if wanted > 0.05:
                pairs.append((f"{getattr(got.final, name):.1f} {unit}", f"{wanted:.1f} {unit}"))
        said = [measured if measured == wanted else f"{measured} (planned {wanted})"
                for measured, wanted in pairs]
        return f"With {kitchen.KITS[kit]}: {', '.join(said)}."

    @cached_property
    def cautions(self):
        """the cautions for exactly this batch, the most urgent first"""
        return tuple(_cautions(self))

    @cached_property
    def poured_words(self):
        """the liquid as a label names it"""
        poured = self.made.poured
        if len(self.recipe) == 1:
            return str(self.recipe[0][0])
        kinds = {item.kind for item, _ in self.recipe}
        if kinds <= {"spirit", "water"}:
            return f"spirit of {poured.abv:.0f} % vol"
        parts = ", ".join(f"{100 * volume / sum(v for _, v in self.recipe):.0f} parts {item}"
                          for item, volume in self.recipe)
        return f"100 parts by volume: {parts}"

    @property
    def final_words(self):
        """what it ends as: "45 % vol", "52 % glycerin", "4.7 g acid per 100 mL", or several"""
        final = self.made.final
        said = [f"{getattr(final, name):.{digits}f} {unit}" for name, unit, digits in (
            ("abv", "% vol", 0), ("glycerin_percent", "% glycerin by volume", 0),
            ("acidity", "g acid per 100 mL", 1)) if getattr(final, name) > 0.05]
        return ", ".join(said) or "water"

    def __repr__(self):
        jars = f"{self.jars} jar{'s' if self.jars > 1 else ''} of {self.jar:.0f} mL"
        return (f"{self.code}: {jars}, {self.made.herb_mass:.0f} g of {self.herb.state} "
                f"{self.herb.name} each, ends at {self.final_words}")

    def __str__(self):
        return "\n".join(_page(self))


def checked_herb(given):
    if isinstance(given, Herb):
        return given
    if not isinstance(given, str):
        raise ValueError("A batch needs a herb: 'fresh peppermint', say, or hc.herb(...).")
    first, _, rest = " ".join(given.split()).partition(" ")
    if first.lower() in ("fresh", "dried") and rest:
        return find_herb(rest, first.lower())
    return find_herb(given)


def _checked_count(jars):
    count = float(between(jars, 1, MOST_JARS, "the number of jars"))
    if count != round(count):
        raise ValueError(f"Jars come whole: not {count:g} of them.")
    return round(count)


def _checked_start(start):
    if start is None:
        return date.today()
    if isinstance(start, str):
        try:
            start = date.fromisoformat(start.strip())
        except ValueError:
            raise ValueError(f"{start[:30]!r} is no date: write the year, month and day like "
                             "2027-01-31.") from None
    if not isinstance(start, date):
        raise ValueError("The start must be a date: '2027-01-31', say.")
    start = date(start.year, start.month, start.day)  # a time of day has no place in a plan
    if not 1900 <= start.year <= 2200:
        raise ValueError(f"The year {start.year} is not one of ours: look at the date again.")
    return start


def _checked_code(code):
    code = str(code or "").strip()
    if code and not re.fullmatch(r"[A-Za-z0-9][A-Za-z0-9._-]{0,23}", code):
        raise ValueError(f"The batch code {code[:30]!r} will not do: up to 24 letters, digits, "
                         "dots and dashes, for file names and labels alike.")
    return code


def _made_code(herb, start):
    letters = unicodedata.normalize("NFKD", herb.name).encode("ascii", "ignore").decode()
    letters = re.sub(r"[^A-Za-z]", "", letters).upper()[:3] or "HRB"
    return f"{letters}-{herb.state[0].upper()}-{start:%y%m%d}"


def _balanced(parts, volume, herb_water, goal, jar):
    """(Stock, mL) so that the jar ends at `goal` % vol, and fills `volume` mL when poured.

    What is neither spirit nor water keeps its parts; the other two are shifted against each
    other. The final strength rises with the share of the stronger one, so the root is bracketed.
    """
    pair = [(item, share) for item, share in parts if item.kind in ("spirit", "water")]
    spirits = [item for item, _ in pair if item.kind == "spirit"]
    if not spirits:
        raise ValueError("A final strength in % vol needs spirit among the liquids.")
    if len(pair) == 1:
        pair.append((Stock("water"), 0.0))
    if len(pair) > 2:
        raise ValueError("For a wanted final strength give one spirit, or two of them: with more "
                         "it is not clear which to change. Or give the parts of each.")
    strong, weak = sorted((item for item, _ in pair), key=lambda item: -item.strength)
    both = sum(share for _, share in pair)
    others = tuple(one for one in parts if one[0].kind not in ("spirit", "water"))

    def made(share):
        return (*others, (strong, share * both), (weak, (1 - share) * both))

    rest = sum((item.liquid(parts) for item, parts in others), Liquid())
    all_strong, all_weak = strong.liquid(both), weak.liquid(both)

    def miss(share):
        blend = rest + all_strong * share + all_weak * (1 - share)
        return (blend * (volume / blend.volume) + herb_water).abv - goal

    low, high = 0.0, 1.0
    at_low, at_high = miss(low), miss(high)
    if at_high < -1e-9:
        raise ValueError(_too_weak(strong, goal, at_high + goal, jar, others))
    if at_low > 1e-9:
        raise ValueError(f"Even {weak} alone ends at {at_low + goal:.1f} % vol in this jar, above "
                         f"the {goal:g} % vol wanted: let it down with water.")
    for _ in range(60):  # the secant, held in its bracket (Illinois)
        share = min(max(high - at_high * (high - low) / (at_high - at_low or 1), 0.0), 1.0)
        now = miss(share)
        if abs(now) < 1e-10:
            break
        if now * at_high < 0:
            low, at_low = high, at_high
        else:
            at_low /= 2
        high, at_high = share, now
    return tuple(one for one in made_up(made(share), volume) if one[1] > 1e-6)


def _too_weak(strong, goal, best, jar, others):
    said = (f"{str(strong).capitalize()} undiluted ends at {best:.1f} % vol in this jar, and "
            f"{goal:g} % vol is wanted: ")
    if others:
        return said + "take stronger spirit, or less of the other liquids."
    try:
        need = spirit_for_final(jar.herb, jar.herb_mass, jar.menstruum_volume, goal)
        return said + (f"it needs spirit of {need:.0f} % vol, or more liquid for less herb, or "
                       "the herb wilted or dried.")
    except ValueError:
        return said + "no spirit sold reaches it; take less herb, or the herb wilted or dried."


# --- cautions -------------------------------------------------------------------------------------


def _cautions(batch):
    final, kept = batch.made.final, batch.keeping
    planned = batch.keeping_of(batch.planned)
    strongest = max((item.strength for item, _ in batch.recipe if item.kind == "spirit"),
                    default=0)
    if strongest >= 20 and flash_point(strongest) <= WARM_ROOM:
        yield (f"Spirit of {strongest:g} % vol has a flash point of about "
               f"{flash_point(strongest):.0f} °C: in a warm room its vapour can catch fire. No "
               "flame, no stove, open window.")
    if batch.dates.strain is None:
        yield (f"It does not keep as long as a steep of {STEEPING_WEEKS[0]} to "
               f"{STEEPING_WEEKS[1]} weeks: throw it out by {day_words(batch.dates.use_by)}, or "
               "change the recipe before you start.")
    elif (batch.dates.use_by - batch.dates.strain[1]).days < 30:
        yield (f"Once strained, little time is left: use by {day_words(batch.dates.use_by)}.")
    if kept.kind != planned.kind:
        yield (f"The rounding moves it to another class: as measured it keeps {kept.range}, as "
               f"planned {planned.range}. Aim a little off the limit.")
    if 0 < final.abv < KEEPING_STRENGTH - 0.5:  # whole per cent, as a label counts
        yield (f"It ends at {final.abv:.0f} % vol, under the {KEEPING_STRENGTH:.0f} % vol of "
               "keeping strength (common practice, no source).")
    if final.viscosity > THICK:
        yield ("So much glycerin is too thick to seep into the herb: thin it with water, and mind "
               "that it keeps less long then.")
    if batch.filled.fill > 1 - batch.headspace:
        yield "The loose herb stands above the liquid: press it down until it is covered."
    if batch.won is None:
        yield ("The spent herb soaks up all the liquid: nothing would come back. Pour more or "
               "take less herb.")
    if not batch.herb.latin:
        yield "The herb's Latin name is missing: know your plant and write it on the label."
    # what this pair of herb and liquid does comes before what every such class has
    yield from sorted((said for said in kept.cautions
                       if not (strongest >= 20 and said.startswith("Spirit burns"))),
                      key=lambda said: "unpasteurised" not in said)
    yield ("Before anyone takes it: when pregnant, nursing, ill, allergic, on medicines, or for a "
           "child, ask a licensed practitioner. Selling or giving it away is a matter of local "
           "law.")


# --- in words -------------------------------------------------------------------------------------


def _page(batch):
    made, dates = batch.made, batch.dates
    one = batch.jars == 1
    yield f"Batch {batch.code}"
    yield (f"{batch.herb}{', ' + batch.herb.latin if batch.herb.latin else ''}; "
           f"{batch.jars} jar{'' if one else 's'} of {batch.jar:.0f} mL")
    yield ""
    yield f"{'MEASURE':<34}{'metric':>12}   kitchen"
    for amount in batch.amounts:
        per = "for each jar" if amount.stock is None and not one else ""
        weigh = f"(weighs {amount.grams:.0f} g)" if amount.stock else per
        yield (f"{amount.what:<34}{amount.metric.words:>12}   {amount.kitchen.words} "
               f"{weigh}").rstrip()
    yield f"{'gives, mixed, for each jar':<34}{made.poured.volume:>9.0f} mL"
    yield f"Without a scale: about {batch.loose} of loose herb a jar, and no better than by eye."
    yield ""
    yield "WHAT COMES OF IT"
    yield (f"{batch.final_words} once the herb has given up its water; {ratio_words(made.ratio)} "
           f"as poured, {ratio_words(made.dry_ratio)} on dry herb")
    if batch.won:
        yield (f"about {kitchen.measure_volume(batch.won.volume * batch.jars)} in all after "
               f"pressing ({batch.press}; invented starting value, measure your own)")
    yield from batch.rounding
    yield ""
    yield "KEEPING"
    yield f"{batch.keeping.range}. {batch.keeping.deciding}"
    yield from batch.keeping.reasons
    yield from batch.keeping.safer
    yield ""
    yield "DATES"
    yield (f"start {day_words(dates.start)}, shake it every day until "
           f"{day_words(dates.shake_until)}")
    if dates.strain:
        yield f"strain and press from {day_words(dates.strain[0])} to {day_words(dates.strain[1])}"
    yield f"look and smell: {', '.join(map(day_words, dates.inspections[:6]))} ..."
    yield f"use by {day_words(dates.use_by)}"
    yield ""
    yield "TAKE CARE"
    yield from batch.cautions

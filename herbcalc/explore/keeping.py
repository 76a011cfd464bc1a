"""Panels of lesson 09: how long it keeps, what decides, the dates, and the signs of spoilage."""

import herbcalc as hc
from herbcalc.figures import timeline as draw
from herbcalc.keeping import DAYS, SIGNS_OF_SPOILAGE, classes, day_words
from herbcalc.panel import Choice, Entry, Panel, Slider, Tick

__all__ = ["how_long", "signs_of_spoilage", "use_by_dates", "what_decides"]


# --- all the classes on one line of time ---------------------------------------------------------

POURED = 500  # mL
KEEPERS = {  # what is poured, by its share in per cent: 500 mL, the rest water
    "spirit": lambda share: hc.spirit(POURED, abv=share),
    "glycerin": lambda share: _filled(hc.glycerin(POURED * share / 100)),
    "vinegar": lambda share: _filled(hc.vinegar(POURED * share / 100)),
    "raw vinegar (with the mother)": lambda share: _filled(hc.vinegar(POURED * share / 100)),
}


def _filled(liquid):
    """Water to 500 mL, near enough."""
    return liquid + hc.water(max(POURED - liquid.volume, 0))


def _class_rows():
    return [(what, rung.name, draw.limit_words(what, rung.limit), rung.low * DAYS[rung.unit],
             rung.high * DAYS[rung.unit], rung.cold) for what, rung in classes()]


def _classes_backdrop(ax):
    draw.classes_backdrop(ax, _class_rows())


def _show_classes(ax, keeper, share, herb_water):
    liquid = KEEPERS[keeper](share) + hc.water(herb_water)
    kept = hc.keeping(liquid, fresh_herb=herb_water > 0, raw_vinegar=keeper.startswith("raw"))
    place = [rung.name for _, rung in classes()].index(kept.kind)
    ends = _ends_at(keeper, liquid)
    draw.classes(ax, place, *kept.days, f"{ends}: {_range_only(kept)}")
    return f"Your jar ends at {ends}: {kept.range}. {kept.deciding}"


def _range_only(kept):
    return f"{kept.low:g} to {kept.high:g} {kept.unit}"


def _ends_at(keeper, liquid):
    if keeper == "spirit":
        return f"{liquid.abv:.0f} % vol"
    if keeper == "glycerin":
        return f"{liquid.glycerin_percent:.0f} % glycerin"
    return f"{liquid.acidity:.1f} g acid in 100 mL"


def how_long():
    """Every class of keeping on one line of time, and your batch among them."""
    return Panel(
        title="How long will it keep",
        controls=dict(
            keeper=Choice("What keeps it", list(KEEPERS)),
            share=Slider("Of it in the liquid poured", 0, 95, start=40, unit="%",
                         help="Spirit: its strength. Glycerin: by volume. Vinegar: share of a "
                              "5 % vinegar. The rest is water."),
            herb_water=Slider("Water the fresh herb brings to 500 mL", 0, 300, start=0, step=10,
                              unit="g", help="0 g: dried herb."),
        ),
        size=(9, 6.6), backdrop=_classes_backdrop, show=_show_classes,
        alt="One line of time from a day to twenty years with a bar for every class of keeping: "
            "spirit, glycerin, vinegar, their weaker kinds, and what nothing keeps. The batch "
            "chosen is framed.",
    )


# --- the three ladders ---------------------------------------------------------------------------

JAR = 500  # mL
_LIMITS = {
    what: sorted(((rung.limit, rung) for kept, rung in classes()
                  if kept == what and not rung.name.startswith("raw")),
                 key=lambda pair: pair[1].low * DAYS[pair[1].unit])
    for what in draw.LADDER_ROWS
}


def _show_ladders(axes, spirit, strength, glycerin, vinegar, water):
    liquid = (hc.spirit(spirit, abv=strength) + hc.glycerin(glycerin) + hc.vinegar(vinegar)
              + hc.water(water))
    if liquid.mass == 0:
        raise ValueError("The jar is empty: pour something in.")
    total = liquid.volume
    if total > JAR:
        raise ValueError(f"That is {total:.0f} mL and the jar holds {JAR} mL: pour less.")
    values = {"strength": liquid.abv, "free water": liquid.water_activity, "acid": liquid.acidity}
    kept = hc.keeping(liquid)
    deciding = next((what for what, rung in kept.ladders
                     if rung.name == kept.kind != "unprotected"), "nothing")
    ethanol, sweet = total * liquid.abv / 100, total * liquid.glycerin_percent / 100
    acid = liquid.acetic / 1.049  # g/mL, pure acetic acid at 20 degC (from memory): for the bar
    parts = {"ethanol": ethanol, "glycerin": sweet, "acid": acid,
             "water": max(total - ethanol - sweet - acid, 0)}
    ranges = {what: "no help" if rung.name == "unprotected" else
              f"{rung.low:g} to {rung.high:g} {rung.unit}" for what, rung in kept.ladders}
    draw.ladders(axes, JAR, parts, total, values, ranges, deciding)
    said = f"{kept.range[0].upper()}{kept.range[1:]}. {kept.deciding}"
    if not kept.safer:
        return said
    return f"{said} To keep it longer: {kept.safer[0][0].lower()}{kept.safer[0][1:]}"


def what_decides():
    """Pour spirit, glycerin, vinegar and water together, and see which of three limits decides."""
    limits = {what: [(limit, rung.name) for limit, rung in rungs]
              for what, rungs in _LIMITS.items()}
    return Panel(
        title="Three ladders: the best one decides",
        controls=dict(
            spirit=Slider("Spirit", 0, 300, start=150, step=10, unit="mL"),
            strength=Slider("Strength of the spirit", 20, 95, start=40, unit="% vol"),
            glycerin=Slider("Glycerin", 0, 300, start=150, step=10, unit="mL"),
            vinegar=Slider("Vinegar, 5 g acid in 100 mL", 0, 150, start=0, step=10, unit="mL"),
            water=Slider("Water, the herb's counted", 0, 200, start=50, step=10, unit="mL"),
        ),
        size=(9, 4.8), axes=draw.ladders_axes,
        backdrop=lambda axes: draw.ladders_backdrop(axes, limits, JAR), show=_show_ladders,
        alt="A jar with the liquid, and three scales: strength, free water, and acid. A mark on "
            "each says how far up the liquid stands; the one that keeps it longest is framed.",
    )


# --- dates ---------------------------------------------------------------------------------------

BATCHES = {
    "spirit, ends at 45 % vol": lambda: hc.keeping(hc.spirit(1, 45)),
    "weak spirit, ends at 33 % vol": lambda: hc.keeping(hc.spirit(1, 33), fresh_herb=True),
    "very weak spirit, ends at 24 % vol": lambda: hc.keeping(hc.spirit(1, 24), fresh_herb=True),
    "glycerin 60 %, water 40 %": lambda: hc.keeping(hc.glycerin(60) + hc.water(40)),
    "glycerin 45 %, water 55 %": lambda: hc.keeping(hc.glycerin(45) + hc.water(55)),
    "vinegar, ends at 5 g acid": lambda: hc.keeping(hc.vinegar(1, 5)),
    "raw vinegar on fresh herb": lambda: hc.keeping(hc.vinegar(1, 5), True, True),
    "watered vinegar, ends at 3 g acid": lambda: hc.keeping(hc.vinegar(1, 3), fresh_herb=True),
    "watery: none of the three": lambda: hc.keeping(hc.spirit(1, 10), fresh_herb=True),
}


def _show_dates(ax, made, batch):
    kept = BATCHES[batch]()
    use_by = kept.use_by(made)
    looks = kept.inspections(made)[:-1]
    low, high = kept.days
    start = use_by.toordinal() - round(low)
    days = [day.toordinal() - start for day in looks]
    draw.dates(ax, days, [day_words(day) for day in looks], low, high, day_words(use_by),
               kept.refrigerate)
    last = f"{day_words(use_by)} at the latest"
    if not looks:
        return f"Use by {last}, then throw it out. {kept.deciding}"
    return (f"Look and smell on {day_words(looks[0])} first and {len(looks)} times in all; use by "
            f"{last}, the early end of {_range_only(kept)}.")


def use_by_dates():
    """From the day it was made: when to look, and when to throw it out."""
    return Panel(
        title="When to look, when to throw it out",
        controls=dict(
            made=Entry("Made on (year-month-day)", "2027-01-14", length=10),
            batch=Choice("The batch", list(BATCHES), start="weak spirit, ends at 33 % vol"),
        ),
        size=(9, 4.2), backdrop=draw.dates_backdrop, show=_show_dates,
        alt="A line of time from the day it was made, with a dot for each day to look and smell "
            "and a red mark at the use-by date.",
    )


# --- signs of spoilage ---------------------------------------------------------------------------


def _show_spoilage(ax, **signs):
    seen = [name for name, ticked in signs.items() if ticked]
    draw.spoilage(ax, seen)
    if not seen:
        return ("Nothing seen and nothing smelled: it may still be spoiled. Only enough spirit, "
                "glycerin or acid, and its dates, speak for it.")
    if len(seen) == 1:
        return "One sign is enough: throw it out, unopened if the lid bulges, and do not taste it."
    return f"{len(seen)} signs: throw it out, unopened if the lid bulges, and do not taste it."


def signs_of_spoilage():
    """The checklist before each use: tick what you see or smell."""
    ticks = {name: Tick(f"{where}: {words}") for name, (where, words)
             in zip(draw.SIGNS, SIGNS_OF_SPOILAGE, strict=True)}
    return Panel(
        title="Before each use: look, smell, read",
        controls=ticks, size=(9, 4.6), backdrop=draw.spoilage_backdrop, show=_show_spoilage,
        alt="A labelled jar of herb in liquid; each sign that is ticked is drawn on it in red.",
    )

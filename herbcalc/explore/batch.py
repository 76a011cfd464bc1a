"""Panels of lesson 11: a batch planned, bought, turned round, labelled, and kept an eye on."""

import re
import tempfile
from dataclasses import replace
from datetime import timedelta

import herbcalc as hc
from herbcalc import log
from herbcalc.cost import money, offers_of
from herbcalc.explore.herb_lists import herb_choice
from herbcalc.figures import cost as cost_figures
from herbcalc.figures import herbs as herb_figures
from herbcalc.figures import log as log_figures
from herbcalc.figures import plan as figures
from herbcalc.figures.glycerin import parts_of
from herbcalc.figures.herbs import herb_kind
from herbcalc.figures.jar import draw_jar, vessel_axes
from herbcalc.figures.paper import (
    draw_label_at,
    fitting_label,
    label_of,
    label_sheet,
    labels_on_a_page,
)
from herbcalc.figures.style import HERB
from herbcalc.jar import ratio_words
from herbcalc.keeping import ALWAYS, day_words
from herbcalc.kitchen import KITS, measure_volume
from herbcalc.panel import Action, Choice, Entry, Panel, Slider

__all__ = ["from_the_cupboard", "plan_a_batch", "sheet_of_labels", "what_is_due", "what_to_buy"]

START = "2027-01-14"  # a Thursday of the class at Quince Yard, invented
MAKER = "Quince Yard winter class (invented)"


# --- the plan -------------------------------------------------------------------------------------

LIQUIDS = {  # words: (liquid, whether the final strength can be chosen)
    "strong spirit and water": ("spirit 95, water", True),
    "plain spirit": ("spirit 40", False),
    "glycerin 3, water 2 parts": ("glycerin: 3, water: 2", False),
    "vinegar": ("vinegar 5", False),
    "raw vinegar": ("raw vinegar 5", False),
}


def _planned(herb, mass, jar, liquid, final, jars, tools, start):
    poured, chosen = liquid
    return hc.Batch(herb, jar=jar, herb_mass=mass, liquid=poured, jars=jars, tools=tools,
                    final_abv=final if chosen else None, start=start)


def _plan_axes(figure):
    top, weeks = figure.subfigures(2, 1, height_ratios=(2, 1))
    jar, right = top.subfigures(1, 2, width_ratios=(1, 2.4))
    amounts, keeps = right.subplots(2, 1, height_ratios=(2.9, 1))
    return {"jar": jar.subplots(), "amounts": amounts, "keeps": keeps,
            "weeks": weeks.subplots()}


def _plan_backdrop(axes):
    vessel_axes(axes["jar"], left=-1.25, right=1.25, top=2.85)
    figures.amounts_backdrop(axes["amounts"])
    herb_figures.time_strip_backdrop(axes["keeps"])
    figures.weeks_backdrop(axes["weeks"])


def _show_plan(axes, **values):
    batch = _planned(**values)
    jar, made, dates = batch.filled, batch.made, batch.dates
    draw_jar(
        axes["jar"], jar.volume, herb_volume=jar.fill * jar.volume, largest=1000,
        liquid_volume=jar.menstruum_volume, head_space=jar.headspace * jar.volume,
        parts=parts_of(made.poured), herb_kind=herb_kind(batch.herb.part, batch.herb.form),
        fresh=batch.herb.state == "fresh", bar=False, gauge=False,
        label=f"{batch.jars} × {batch.jar:.0f} mL",
    )
    draw_amounts(axes["amounts"], batch)
    low, high = batch.keeping.days
    herb_figures.draw_time(axes["keeps"], low, high, f"{batch.final_words}: "
                           f"{batch.keeping.low:g} to {batch.keeping.high:g} {batch.keeping.unit}")

    def week(day):
        return (day - dates.start).days / 7

    strain = dates.strain and tuple(map(week, dates.strain))
    figures.draw_weeks(
        axes["weeks"], week(dates.shake_until), strain, [week(day) for day in dates.inspections],
        week(dates.use_by),
        (f"{day_words(dates.start)}: shake each day",
         f"strain from {day_words(dates.strain[0])}" if strain else "",
         f"use by {day_words(dates.use_by)}"),
    )
    poured = _listed(f"{amount.measured(batch.tools)} of {amount.stock}"
                     for amount in batch.amounts[1:])
    each = " for each jar" if batch.jars > 1 else ""
    said = (f"{poured} on {batch.amounts[0].measured(batch.tools)} of {batch.herb.state} "
            f"{batch.herb.name}{each} ({ratio_words(made.ratio)}): ends at {batch.final_words}, "
            f"keeps {batch.keeping.range}.")
    return re.sub(r"(\d) (\d/\d)", r"\1 and \2", said)  # "1 and 1/2 cups", as it is spoken


def _listed(things):
    *most, last = things
    return f"{', '.join(most)} and {last}" if most else last


def _urgent(batch):
    """The cautions that this batch has for itself, as far as the card has room for them."""
    own = [said for said in batch.cautions[:-1] if said not in ALWAYS] or [ALWAYS[0]]
    shown = own[0]
    for said in own[1:]:
        if len(shown) + len(said) < 180:
            shown += f" {said}"
    return shown


def draw_amounts(ax, batch):
    """The amounts of a batch on its card."""
    rows = [(HERB, f"{batch.herb.state} {batch.herb.name}"[:24], batch.amounts[0])]
    rows += [(figures.liquid_colour(amount.stock.kind, amount.stock.strength),
              str(amount.stock).removesuffix(" acidity"), amount) for amount in batch.amounts[1:]]
    figures.draw_amounts(
        ax, [(colour, words, str(amount.metric), str(amount.kitchen))
             for colour, words, amount in rows[:figures.ROWS]],
        list(KITS).index(batch.tools),
        f"herb for each jar, liquid for all {batch.jars}" if batch.jars > 1 else "for one jar",
        _urgent(batch),
    )


def _write(**values):
    batch = _planned(**values)
    names = ", ".join(path.name for path in hc.write_papers(batch, maker=MAKER))
    return f"Written beside this lesson: {names}."


def _log(**values):
    batch = _planned(**values)
    log.add(batch)
    return f"Batch {batch.code} is in your log."


def plan_a_batch():
    """A batch from herb and jar to amounts, strength and dates; and its papers at a press."""
    return Panel(
        title="Plan a batch",
        controls=dict(
            herb=herb_choice("Herb", start="thyme, dried (herb, leaves)"),
            jar=Slider("One jar", 100, 1000, start=500, step=50, unit="mL"),
            mass=Slider("Herb in one jar", 5, 150, start=71, unit="g"),
            liquid=Choice("Poured", LIQUIDS),
            final=Slider("Strength wanted in the end", 20, 70, start=45, unit="% vol"),
            jars=Slider("Jars", 1, 24, start=12),
            tools=Choice("Measured with", {"cylinder and gram scale": "metric",
                                           "cups, spoons, ounce scale": "kitchen"}),
            start=Entry("Started on (year-month-day)", START, length=10),
            write=Action("Write sheet, labels and calendar", _write),
            log=Action("Put it in my log", _log),
        ),
        size=(9.5, 6.8), axes=_plan_axes, backdrop=_plan_backdrop, show=_show_plan,
        alt="A jar of herb and liquid; a card of what to measure, metric and kitchen; how long "
            "it keeps; the first weeks with shaking, straining and looking.",
    )


# --- what to buy ----------------------------------------------------------------------------------


def _show_buy(axes, jars, jar, poured, price):
    offers = [offer if (offer.what, offer.size) != (hc.stock("spirit 95"), 1000) else
              type(offer)(offer.what, offer.size, offer.unit, float(price), offer.currency)
              for offer in hc.prices()]
    batch = hc.Batch("dried thyme", jar=jar, ratio=6, liquid=hc.Stock("spirit", poured),
                     jars=jars, start=START)
    ways = {way.spirit: way for way in hc.ways(batch, offers)}
    strong = ways[hc.stock("spirit 95")]
    ready = min((way for spirit, way in ways.items() if spirit != strong.spirit),
                key=lambda way: way.spirit.strength, default=None)
    shelf = [_bottles("let down", strong)]
    if ready:
        shelf.append(_bottles("bought ready" if ready.ready else "let down a little", ready))
    cost_figures.draw_shelf(axes["shelf"], shelf)
    found = hc.break_even(batch, strong.spirit, (ready or strong).spirit, offers,
                          most=cost_figures.MOST)
    cost_figures.draw_costs(axes, found.jars, found.strong, found.ready if ready else None, jars,
                            found.from_jars)
    one = f"{jars} jar{'s' if jars > 1 else ''}"
    said = f"The spirit for {one} costs {_euros(strong.spirit_price)} as strong spirit let down"
    if ready is None:
        return f"{said}; the price list (invented) has none ready that is {poured} % vol."
    gain = ready.spirit_price - strong.spirit_price
    compared = ("just as much" if abs(gain) < 0.005 else
                f"{_euros(abs(gain))} {'more' if gain > 0 else 'less'}")
    return (f"{said}, and {compared} from the {ready.spirit.strength:g} % vol bottle: "
            f"{_euros(strong.spirit_price / jars)} or {_euros(ready.spirit_price / jars)} a jar. "
            "Prices are invented.")


def _euros(amount):
    """Money as it is spoken: the price list of the panel is the course's, or one's own."""
    return money(amount, hc.prices()[0].currency).replace("€", "euros")


def _bottles(words, way):
    basket = way.shopping.basket(way.spirit)
    left, bottles = basket.left_over, []
    for offer, count in reversed(basket.packs):
        for _ in range(count):
            unused = min(left, offer.size)
            left -= unused
            bottles.append((offer.size, 1 - unused / offer.size))
    total = f"{way.spirit.strength:g} % vol, {words}: {money(basket.price)}"
    return total, way.spirit.strength, sorted(bottles, key=lambda one: -one[1])


def what_to_buy():
    """Strong spirit let down against spirit bought ready: bottles, cost a jar, break-even."""
    sizes = sorted(offer.size for offer in hc.prices() if offer.what == "jar")
    litre = next(offer.price for offer in offers_of("spirit 95") if offer.size == 1000)
    return Panel(
        title="What to buy",
        controls=dict(
            jars=Slider("Jars of dried thyme, 1:6", 1, cost_figures.MOST, start=12),
            jar=Choice("One jar", {f"{size} mL": size for size in sizes}, start="500 mL"),
            poured=Slider("Strength poured", 30, 60, start=40, unit="% vol"),
            price=Slider("Price of 1000 mL of the strong spirit", 30, 90, start=round(litre),
                         unit="€", help="prices are invented"),
        ),
        size=(9.5, 5.4), axes=cost_figures.cost_axes, backdrop=cost_figures.cost_backdrop,
        show=_show_buy,
        alt="The bottles to buy, once of strong spirit to let down and once of ready spirit; the "
            "cost for each jar both ways; and what letting down saves for 1 to 24 jars.",
    )


# --- from the cupboard ----------------------------------------------------------------------------

_NAMES = {"spirit of 95 % vol": "strong", "spirit of 40 % vol": "plain", "water": "water"}


def _cupboard_axes(figure):
    bars, reach = figure.subplots(2, 1, height_ratios=(2.6, 1))
    return {"bars": bars, "reach": reach}


def _cupboard_backdrop(axes):
    figures.cupboard_backdrop(axes["bars"])
    figures.reach_backdrop(axes["reach"])


def _show_cupboard(axes, herb, mass, strong, plain, ratio, final):
    bottles = {words: amount for words, amount in (("spirit 95", strong), ("spirit 40", plain))
               if amount}
    can = hc.from_cupboard(bottles, herb, mass, ratio=ratio, final_abv=final, start=START)
    drawn = [(_poured(batch), _jar_words(batch), limit)
             for batch, limit in zip(can.batches, can.limits)]
    if can.nearest:
        drawn = [(_poured(can.nearest), f"nearest: {_jar_words(can.nearest)}", "too weak")]
    figures.draw_cupboard(axes["bars"], drawn)
    strongest = hc.stock("spirit 95" if strong else "spirit 40")
    shape = dict(jar=500, ratio=ratio, start=START)
    most = hc.Batch(herb, liquid=strongest, **shape).planned.final.abv
    figures.draw_reach(axes["reach"], final, most)
    if not can.batches:
        return can.why
    largest = can.largest
    poured = _listed(f"{measure_volume(volume)} of {item}" for item, volume in largest.recipe)
    return (f"The largest: {poured} on {largest.planned.herb_mass:.0f} g, a jar of "
            f"{largest.jar:.0f} mL that ends at {largest.planned.final.abv:.0f} % vol; "
            f"{can.limits[0]}.")


def _poured(batch):
    return [(_NAMES[str(item)], volume, item.strength) for item, volume in batch.recipe]


def _jar_words(batch):
    return (f"{batch.planned.herb_mass:.0f} g in a {batch.jar:.0f} mL jar, "
            f"{batch.planned.final.abv:.0f} % vol")


def from_the_cupboard():
    """From the bottles and the herb that are there to the batches they make."""
    return Panel(
        title="What the cupboard makes",
        controls=dict(
            herb=herb_choice("Herb", start="ginger, fresh (rhizome, sliced)"),
            mass=Slider("Herb there is", 20, 200, start=150, step=10, unit="g"),
            strong=Slider("Strong spirit, 95 % vol, there is", 0, 500, start=150, step=10,
                          unit="mL"),
            plain=Slider("Plain spirit, 40 % vol, there is", 0, 1400, start=700, step=50,
                         unit="mL"),
            ratio=Slider("Liquid for 1 g of herb", 3, 8, start=5, step=0.5, unit="mL"),
            final=Slider("Strength wanted in the end", 20, 75, start=40, unit="% vol"),
        ),
        size=(9.5, 5.2), axes=_cupboard_axes, backdrop=_cupboard_backdrop, show=_show_cupboard,
        alt="Each batch that can be made as a bar of strong spirit, plain spirit and water; below, "
            "the strength wanted on a scale, with all that is within reach shaded.",
    )


# --- a sheet of labels ----------------------------------------------------------------------------

PAGES = {"A4, 210 × 297 mm": (210, 297), "Letter, 216 × 279 mm": (215.9, 279.4),
         "A5, 148 × 210 mm": (148, 210)}
_MARGIN = 8.0  # mm


def _labelled(name, jars):
    thyme = hc.herb("thyme", "dried")
    return hc.Batch(replace(thyme, name=name or thyme.name), jar=500, ratio=6, jars=jars,
                    liquid="spirit 95, water", final_abv=45, start=START)


def _show_labels(axes, wide, high, page, gap, jars, name):
    batch, label = _labelled(name, jars), (wide, high)
    columns, rows = labels_on_a_page(label, page, _MARGIN, gap)
    text = label_of(batch, jars if jars > 1 else None, MAKER)
    (name_size, size), = fitting_label(text, label)
    figures.draw_sheet(axes[0], page, label, _MARGIN, gap, columns, rows,
                       min(jars, columns * rows))
    room, left = axes[1].get_xlim()[1], axes[1].get_ylim()[0]
    zoom = min((room - 4) / wide, (left - 4) / high) * 25.4 / 72
    zoom = int(2 * zoom * size) / (2 * size)  # type in half points: drawn letters are kept
    draw_label_at(axes[1], text, (2, 2), label, ((name_size, size),), zoom)
    pages = -(-jars // (columns * rows))
    take = f"{jars} {'jars take' if jars > 1 else 'jar takes'} {pages} page"
    return (f"{columns * rows} labels of {wide} × {high} mm on a page; {take}"
            f"{'s' if pages > 1 else ''}. The smallest type is {0.9 * size:.1f} points.")


def _write_labels(wide, high, page, gap, jars, name):
    batch = _labelled(name, jars)
    path = f"{batch.code}-labels.pdf"
    label_sheet(batch, path, label=(wide, high), page=page, margin=_MARGIN, gap=gap, maker=MAKER)
    return f"Written beside this lesson: {path}."


def sheet_of_labels():
    """A sheet of labels in the size you measure, with one of them seen closely."""
    return Panel(
        title="A sheet of labels",
        controls=dict(
            wide=Slider("Label, width", 60, 130, start=90, step=5, unit="mm"),
            high=Slider("Label, height", 50, 120, start=60, step=5, unit="mm"),
            page=Choice("Paper", PAGES),
            gap=Slider("Gap between labels", 0, 10, start=3, unit="mm"),
            jars=Slider("Jars", 1, 24, start=12),
            name=Entry("Name of the herb", "thyme", length=120),
            write=Action("Write these labels as PDF", _write_labels),
        ),
        size=(9.5, 5.0), axes=figures.sheet_axes, backdrop=figures.sheet_backdrop,
        show=_show_labels,
        alt="A page with the places of its labels, and one label large with everything on it.",
    )


# --- what is due ----------------------------------------------------------------------------------


def _invented_shelf():
    """The log of an invented shelf at Quince Yard, as its two tables."""
    with tempfile.TemporaryDirectory() as folder:
        start = log.checked_day(START)
        for days, words in (
            (0, dict(herb="dried thyme", ratio=6, liquid="spirit 95, water", final_abv=45,
                     jars=12)),
            (0, dict(herb="fresh peppermint", fill=0.75, liquid="spirit 50")),
            (7, dict(herb="dried sage", ratio=10, liquid="vinegar 5", jars=2)),
            (14, dict(herb="fresh ginger", ratio=5, liquid="raw vinegar 5")),
            (21, dict(herb="dried fennel", ratio=5, liquid="glycerin: 3, water: 2", jars=3)),
            (42, dict(herb="fresh rosemary", fill=0.6, liquid="spirit 40")),
        ):
            log.add(hc.Batch(jar=500, start=start + timedelta(days=days), **words), folder)
        for days, code, seen in (
            (1, "THY-D-270114", {}), (7, "THY-D-270114", {}), (21, "THY-D-270114", {}),
            (28, "THY-D-270114", dict(done="strained")), (1, "PEP-F-270114", {}),
            (7, "PEP-F-270114", {}), (42, "PEP-F-270114", dict(done="strained")),
            (28, "GIN-F-270128", dict(growth="seen", note="a white spot under the lid")),
        ):
            log.inspect(code, start + timedelta(days=days), folder=folder, **seen)
        return log.batches(folder), log.inspections(folder)


def _own_shelf():
    return log.batches(), log.inspections()


def _show_due(ax, days, whose, tables):
    first = log.checked_day(START if whose == "invented" else None)
    today = first + timedelta(days=days)
    table = log.stand(*tables[whose](), today)
    log_figures.draw_shelves(ax, [
        (batch.standing, batch.code, f"{batch.state} {batch.herb}"[:17],
         "throw it out" if batch.standing == "throw out" else
         f"{_short(batch.due)} {day_words(batch.on)[:-5]}")
        for batch in table.itertuples()])
    if table.empty:
        return (f"On {day_words(today)} no batch stands in the log: plan one and put it in.")
    counts = table["standing"].value_counts()
    said = [f"{counts[name]} {words}" for name, words in (
        ("throw out", "to throw out"), ("to strain", "to strain"), ("to look at", "to look at"),
        ("steeping", "steeping"), ("keeping", "keeping"), ("gone", "gone")) if name in counts]
    unread = " Some lines of the log could not be read." if table.attrs["unread"] else ""
    many = len(table) > 1
    return (f"On {day_words(today)} there {'are' if many else 'is'} {len(table)} "
            f"batch{'es' if many else ''}: {', '.join(said)}.{unread}")


def _short(due):
    return {"look and smell": "look", "strain and press": "strain", "overdue: strain it": "strain",
            "use by": "use by"}.get(due, due)


def what_is_due():
    """The shelf on any day: what steeps, what is due, what is past its date."""
    invented = _invented_shelf()
    tables = {"invented": lambda: invented, "own": _own_shelf}
    return Panel(
        title="The shelf, day by day",
        controls=dict(
            days=Slider("Days later", 0, 420, start=34, unit="days"),
            whose=Choice("Whose shelf", {"Quince Yard, from 14 Jan 2027 (invented)": "invented",
                                         "my own log, from today": "own"}),
        ),
        size=(9.5, 5.6), backdrop=log_figures.shelves_backdrop,
        show=lambda ax, days, whose: _show_due(ax, days, whose, tables),
        alt="Four shelves of jars: past their date, due now, steeping, and strained and keeping; "
            "each jar with its code, its herb and what is due.",
    )

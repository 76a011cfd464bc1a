"""Panels of lesson 07: a plant on the see-saw, one constituent's line, liquids held together."""

import numpy as np

import herbcalc as hc
from herbcalc.choosing import compare, kinds, liquids
from herbcalc.extraction import ETHANOL_RANGE, GLYCERIN_RANGE, constituents, solubility_gain
from herbcalc.figures import solubility as draw
from herbcalc.figures.style import ETHANOL, GLYCERIN, mix
from herbcalc.figures.style import WATER as WATER_COLOUR
from herbcalc.liquids import Liquid
from herbcalc.panel import Choice, Panel, Slider

__all__ = ["choose_a_liquid", "one_constituent", "whole_plant"]


def of_glycerin(percent):
    """Glycerin and water that hold exactly `percent` (or an array of them) by volume."""
    low, high = np.zeros(np.shape(percent)), np.ones(np.shape(percent))
    for _ in range(40):  # halve the distance: more by weight is more by volume
        x = (low + high) / 2
        less = Liquid(glycerin=x, water=1 - x).glycerin_percent < percent
        low, high = np.where(less, x, low), np.where(less, high, x)
    return Liquid(glycerin=low, water=1 - low)


# --- a whole plant at once -----------------------------------------------------------------------

_SHOWN = ("limonene", "quinine", "menthol", "luteolin", "eugenol", "cinnamaldehyde", "ferulic acid",
          "vanillin", "gallic acid", "catechin", "caffeine", "salicin", "ascorbic acid", "sucrose")
_ROWS = sorted((item for item in constituents() if item.name in _SHOWN),
               key=lambda item: -item.log_kow)
_KINDS = {"spirit": "spirit", "glycerin": "glycerin and water"}


def _see_saw_backdrop(ax):
    draw.see_saw_backdrop(ax, [item.name for item in _ROWS], [item.log_kow for item in _ROWS])


def _show_see_saw(ax, liquid, share):
    if liquid == "glycerin" and share > GLYCERIN_RANGE[1]:
        raise ValueError(f"The line for glycerin ends at {GLYCERIN_RANGE[1]:.0f} %: above it "
                         "nobody has drawn one. Take less glycerin.")
    mix_ = hc.spirit(1, abv=share) if liquid == "spirit" else of_glycerin(share)
    log_kow = np.array([item.log_kow for item in _ROWS])
    gains = solubility_gain(log_kow, mix_)
    draw.see_saw(ax, gains, mix(ETHANOL if liquid == "spirit" else GLYCERIN, WATER_COLOUR, 0.35))
    said = f"Spirit of {share} % vol" if liquid == "spirit" else f"Glycerin of {share} %"
    if share == 0:
        return "Water is the measure: every bar starts from here."
    menthol, sugar = (gains[[item.name for item in _ROWS].index(name)]
                      for name in ("menthol", "sucrose"))
    return (f"{said} dissolves menthol {draw.times(menthol)} as well as water, and sugar "
            f"{draw.times(sugar)} as well." if abs(np.log(sugar)) > 0.4 and menthol > 1.5 else
            f"{said} is still much like water for most of the plant.")


def whole_plant():
    """Fourteen constituents on one see-saw: what a liquid lifts, and what it leaves."""
    return Panel(
        title="The see-saw",
        controls=dict(
            liquid=Choice("Liquid", {words: key for key, words in _KINDS.items()}),
            share=Slider("Strength, or share", 0, 95, start=40, unit="%"),
        ),
        size=(9.2, 5.8),
        backdrop=_see_saw_backdrop,
        show=_show_see_saw,
        alt="Fourteen constituents from oil-loving to water-loving, each with a bar: to the right "
            "where the liquid dissolves it better than water, to the left where it does worse.",
    )


# --- one constituent's line ----------------------------------------------------------------------

_SHARES = {"spirit": np.linspace(*ETHANOL_RANGE, 96), "glycerin": np.linspace(*GLYCERIN_RANGE, 61)}
_MIXES = {"spirit": hc.spirit(np.ones(96), abv=_SHARES["spirit"]),
          "glycerin": of_glycerin(_SHARES["glycerin"])}


def _gains(log_kow):
    return {place: solubility_gain(log_kow, mixes) for place, mixes in _MIXES.items()}


def _lines_backdrop(axes):
    of_all = [_gains(item.log_kow) for item in constituents() if item.log_kow is not None]
    draw.lines_backdrop(axes, _SHARES,
                        {place: [gains[place] for gains in of_all] for place in _SHARES})


def _show_lines(axes, item, strength, glycerin):
    if item.log_kow is None:
        draw.lines(axes, _SHARES, None, {"spirit": (strength, None), "glycerin": (glycerin, None)},
                   item.name, item.trade_rule)
        return f"{item.name.capitalize()}: {item.meets}. The trade: {item.trade_rule}."
    here = {"spirit": solubility_gain(item.log_kow, hc.spirit(1, abv=strength)),
            "glycerin": solubility_gain(item.log_kow, of_glycerin(float(glycerin)))}
    draw.lines(axes, _SHARES, _gains(item.log_kow),
               {"spirit": (strength, here["spirit"]), "glycerin": (glycerin, here["glycerin"])},
               item.name, item.trade_rule)
    meets = "the trade agrees" if item.meets == "agrees" else f"the trade {item.meets}"
    return (f"{item.name.capitalize()}: {strength} % vol dissolves it {_words(here['spirit'])}, "
            f"{glycerin} % glycerin {_words(here['glycerin'])}; {meets}.")


def _words(gain):
    said = draw.times(gain)
    return said if said.startswith("as well") else f"{said} as well as water"


def one_constituent():
    """One constituent's line over spirit and over glycerin, beside the trade's rule."""
    return Panel(
        title="One constituent and its line",
        controls=dict(
            item=Choice("Constituent", {f"{item.name} ({item.kind})": item
                                        for item in constituents()}),
            strength=Slider("Strength of the spirit", 0, 95, start=40, unit="% vol"),
            glycerin=Slider("Glycerin in water", 0, 60, start=50, unit="%"),
        ),
        size=(9.4, 5),
        axes=draw.lines_axes,
        backdrop=_lines_backdrop,
        show=_show_lines,
        alt="How many times better than water spirit and glycerin dissolve one constituent: a "
            "straight line on a log scale with a band of a factor of three, from 0 to 95 % vol "
            "and from 0 to 60 % glycerin; above 80 % vol it is marked as rough.",
    )


# --- liquids held against each other -------------------------------------------------------------

_NAMES = {kind.name.replace(" ", "_"): kind for kind in kinds()}
_START = {"aromatic_oils": 4, "tannins": 2, "flavonoids": 2, "minerals": 1}


def _keeps(liquid):
    keeps = hc.keeping(liquid)
    cold = ", cold" if keeps.refrigerate else ""
    return f"keeps {keeps.low:g} to {keeps.high:g} {keeps.unit}{cold}"


def _chooser_backdrop(axes):
    draw.chooser_backdrop(
        axes, list(liquids()), [_keeps(liquid) for liquid in liquids().values()],
        [kind.name for kind in kinds()],
        np.array([kind.by_trade for kind in kinds()]), [kind.by_line for kind in kinds()],
        np.array([kind.differs for kind in kinds()]))


def _show_chooser(axes, **weights):
    given = {_NAMES[key].name: weight for key, weight in weights.items()}
    if not any(given.values()):
        raise ValueError("Nothing matters yet: give at least one kind a weight.")
    found = compare(given)
    line = np.array(list(found.line.values())) if found.line else None
    draw.chooser(axes, list(given.values()), np.array(list(found.trade.values())), line,
                 found.seen)
    by_trade, by_line = found.best(found.trade), found.best(found.line)
    said = f"By the trade's rules: {_either(by_trade)}."
    if by_trade == ("water",):
        said = "By the trade's rules: water, that is tea: it keeps a day or two in the cold."
    both = [name for name in by_trade if name in by_line]
    if both:
        return f"{said} The line agrees on {_either(both)}."
    said += f" By the line: {_either(by_line)}." if by_line else " There is no line for any of it."
    return f"{said} {_reason(given)}"


def _either(names):
    names = [name.split(" (")[0] for name in names]
    return " or ".join([", ".join(names[:-1]), names[-1]] if names[1:] else names)


def _reason(given):
    """Why rule and line differ, for the heaviest kind for which they do."""
    heavy = sorted((kind for kind in kinds() if given[kind.name] and kind.why_they_differ),
                   key=lambda kind: -given[kind.name])
    if not heavy:
        return "They differ because the weights pull both ways."
    return f"Why, for {heavy[0].name}: {heavy[0].why_they_differ}."


def choose_a_liquid():
    """Weigh the constituents of your herb, and see how the liquids compare."""
    return Panel(
        title="Which liquid for your herb",
        controls={
            key: Slider(kind.name.capitalize(), 0, 5, start=_START.get(key, 0),
                        help="" if kind.example == kind.name.rstrip("s") or
                        kind.example == kind.name else f"as {kind.example}")
            for key, kind in _NAMES.items()
        },
        size=(10.4, 5.8),
        axes=draw.chooser_axes,
        backdrop=_chooser_backdrop,
        show=_show_chooser,
        alt="A grid of liquids against kinds of constituents: a dot for the trade's mark and a "
            "ring for the computed line, larger is better, framed where the two differ; beside "
            "it two bars for each liquid, by the trade and by the line.",
    )

"""Panels of lesson 10: drops in a millilitre, and the ethanol in a serving. No dosing advice."""

from functools import lru_cache

import numpy as np

import herbcalc as hc
from herbcalc.dose import DROPPER_ERROR, SPOONS, STANDARD_DRINK
from herbcalc.figures import drops as draw
from herbcalc.panel import Choice, Panel, Slider
from herbcalc.published import rows

__all__ = ["alcohol_in_a_measure", "drops_in_one_ml"]


# --- drops ---------------------------------------------------------------------------------------

_STRENGTHS = np.linspace(0, 96, 97)
_PRINTED = {"drops-water-1905": 0, "drops-diluted-alcohol": 48.9, "drops-alcohol-1905": 94}


@lru_cache(maxsize=1)
def _printed():
    """(% vol, drops per mL) of the old tables, brought to our 3 mm dropper by their water.

    The dropper of those tables is unknown. Their 60 drops of water to the drachm, 16 to the mL,
    say that it was a little wider; in a narrower tube all counts grow alike.
    """
    counted = {row.id: row.published for row in rows() if row.id in _PRINTED}
    ours = hc.drops_per_ml(hc.water(1)) / counted["drops-water-1905"]
    return tuple((strength, counted[name] * ours) for name, strength in _PRINTED.items())


@lru_cache(maxsize=1)
def _curve_at_3mm():
    return np.asarray(hc.drops_per_ml(hc.spirit(np.ones(97), _STRENGTHS), tube=3.0))


def _show_drops(axes, strength, tube):
    count = hc.drops_per_ml(hc.spirit(1, strength), tube)
    curve = _STRENGTHS, _curve_at_3mm() * 3.0 / tube
    size = (6 / np.pi * 1000 / count) ** (1 / 3)  # mm: a ball of 1/count mL
    printed = [(at, drops * 3.0 / tube) for at, drops in _printed()]
    draw.drops(axes, tube, strength, count, DROPPER_ERROR, curve, size, printed)
    low, high = count * (1 - DROPPER_ERROR), count * (1 + DROPPER_ERROR)
    what = f"spirit of {strength} % vol" if strength else "water"
    return (f"From a {tube:g} mm tube about {count:.0f} drops of {what} make 1 mL; even a "
            f"calibrated dropper may be off by 15 %: {low:.0f} to {high:.0f} drops.")


def drops_in_one_ml():
    """How many drops make a millilitre, by strength and dropper."""
    return Panel(
        title="How many drops make 1 mL",
        controls=dict(
            strength=Slider("Strength", 0, 96, start=45, unit="% vol"),
            tube=Slider("Outside width of the dropper's tip", 2.0, 6.0, start=3.0, step=0.1,
                        unit="mm"),
        ),
        size=(9, 4.8), axes=draw.drops_axes,
        backdrop=draw.drops_backdrop, show=_show_drops,
        alt="A dropper with one drop true to scale, and a curve: the stronger the spirit, the "
            "smaller the drop and the more drops in a millilitre. The rule of twenty drops is a "
            "dashed line far below, true of water only.",
    )


# --- the ethanol in a serving --------------------------------------------------------------------

MEASURES = {
    "1 mL (a full dropper, if it is marked so)": (1.0, "1 mL mark"),
    "teaspoon, metric (5 mL)": (SPOONS["teaspoon (metric)"], "teaspoon"),
    "teaspoon, US (4.93 mL)": (SPOONS["teaspoon (US)"], "US teaspoon"),
    "tablespoon, metric (15 mL)": (SPOONS["tablespoon (metric)"], "tablespoon"),
    "tablespoon, US (14.79 mL)": (SPOONS["tablespoon (US)"], "US tablespoon"),
    "fluid ounce, US (29.57 mL)": (SPOONS["fluid ounce (US)"], "US fluid ounce"),
}


def share_words(share):
    """So much of a US standard drink, as people say it.

    >>> share_words(0.0226), share_words(0.8), share_words(1.28)
    ('about 1/44 of a US standard drink', 'about 0.8 of a US standard drink', \
'about 1.3 US standard drinks')
    """
    if share < 0.002:
        return "less than 1/500 of a US standard drink"
    if share >= 0.95:
        return f"about {share:.1f} US standard drinks"
    if share > 0.36:
        return f"about {share:.1f} of a US standard drink"
    return f"about 1/{1 / share:.0f} of a US standard drink"


def _show_serving(axes, measure, count, strength):
    size, words = measure
    volume = size * count
    grams = hc.ethanol_grams(volume, strength)
    draw.serving(axes, count, volume, strength, grams, STANDARD_DRINK, f"{count} × {words}")
    if strength == 0:
        return "Nothing of it is ethanol."
    share = share_words(hc.standard_drinks(volume, strength))
    return (f"{draw.millilitres(volume)} at {strength} % vol hold {draw.grams_words(grams)} of "
            f"ethanol: {share} ({STANDARD_DRINK:g} g).")


def alcohol_in_a_measure():
    """The ethanol in a measure, in grams and beside a standard drink."""
    return Panel(
        title="The alcohol in a measure",
        controls=dict(
            measure=Choice("Measure", MEASURES, start="teaspoon, metric (5 mL)"),
            count=Slider("How many of them", 1, 10, start=1),
            strength=Slider("Strength of the liquid", 0, 95, start=45, unit="% vol"),
        ),
        size=(9, 3.6), axes=draw.serving_axes,
        backdrop=lambda axes: draw.serving_backdrop(axes, STANDARD_DRINK), show=_show_serving,
        alt="A measure of liquid, and its ethanol in grams laid into the frame of a US standard "
            "drink of 14 grams.",
    )

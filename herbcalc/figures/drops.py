"""Drops and servings in pictures: how many drops make a millilitre, and the ethanol in a spoon.

Each picture has a backdrop, drawn once, and a function that draws what moves from given numbers.
"""

import numpy as np
from matplotlib.patches import Ellipse, Polygon, Rectangle

from herbcalc.figures.style import (
    CAUTION, ETHANOL, GLASS, HERB, INK, METAL, MISTAKE_LINE, PAPER, RESULT, SHINE, SOFT, mix, tint,
)

BIG = 15  # pt: what the back row must read
SMALL = 12

# --- drops ---------------------------------------------------------------------------------------

MOST_DROPS = 110
TUBE_TOP = 4.4


def drops_axes(figure):
    """The dropper on the left, the curve on the right."""
    return figure.subplots(1, 2, width_ratios=[1, 2.1])


def drops_backdrop(axes):
    """The dropper's bench in mm, and the scale of drops with the rule of twenty."""
    dropper, curve = axes
    dropper.set(xlim=(-4.4, 4.4), ylim=(-8.0, TUBE_TOP), aspect="equal")
    dropper.set_axis_off()
    dropper.plot([-4.2, -4.2, -3.2, -3.2], [4.1, 3.8, 3.8, 4.1], color=SOFT, linewidth=1.5)
    dropper.text(-4.2, 3.6, "1 mm", fontsize=SMALL, va="top", color=SOFT)
    curve.set(xlim=(0, 97), ylim=(0, MOST_DROPS), xticks=range(0, 101, 20),
              yticks=range(0, MOST_DROPS, 20), xlabel="strength, % vol",
              ylabel="drops in 1 mL")
    curve.plot([0, 97], [20, 20], zorder=2.2, **MISTAKE_LINE)
    curve.text(96, 17.5, '"20 drops to the mL"', ha="right", va="top", fontsize=SMALL, color=SOFT)


def drops(axes, tube, strength, count, error, curve, size, printed):
    """One drop to scale at its dropper, and where the liquid lies on the curve.

    Parameters
    ----------
    axes : (dropper, curve) with `drops_backdrop`
    tube : float, mm, outside diameter
    strength : float, % vol
    count : float, drops in 1 mL
    error : float, share either way
    curve : (array of % vol, array of drops in 1 mL), for this tube
    size : float, mm, diameter of a ball with the volume of one drop
    printed : sequence of (% vol, drops in 1 mL), counts of old tables brought to this tube
    """
    dropper, ax = axes
    half = tube / 2
    colour = tint({"ethanol": strength, "water": 100 - strength})
    dropper.add_patch(Rectangle((-half, 0), tube, TUBE_TOP, facecolor=SHINE, edgecolor=GLASS,
                                linewidth=2.5))
    dropper.add_patch(Rectangle((-half * 0.55, 0), tube * 0.55, TUBE_TOP, facecolor=colour,
                                edgecolor="none"))
    turn = np.linspace(0, 2 * np.pi, 60)
    radius = size / 2
    x = radius * np.sin(turn) * np.sin(turn / 2) ** 0.7
    y = radius * 1.12 * np.cos(turn)
    dropper.add_patch(Polygon(np.column_stack([x, y - radius * 1.12 - 0.35]), facecolor=colour,
                              edgecolor=INK, linewidth=1.6, gid="drop"))
    dropper.text(0, -0.7 - radius * 2.24, f"1 drop:\nabout {1 / count:.2f} mL", ha="center",
                 va="top", fontsize=BIG, fontweight="bold", linespacing=1.15, gid="one drop")
    ax.fill_between(*_band(curve, error), color=mix(RESULT, PAPER, 0.8), linewidth=0)
    ax.plot(*curve, color=RESULT, linewidth=4, gid="curve")
    ax.plot(*np.transpose(printed), "s", markersize=10, color=HERB, markeredgecolor=INK,
            markeredgewidth=1.2, zorder=2.3, clip_on=False, gid="printed")
    at, drops_then = printed[-1]
    ax.annotate("counted about 1900", (at, drops_then), xytext=(4, -26), fontsize=SMALL,
                textcoords="offset points", ha="right", va="top")
    ax.plot([strength, strength], [0, count], color=RESULT, linewidth=1.6, linestyle=":")
    ax.plot([strength], [count], "o", markersize=15, color=RESULT, markeredgecolor=PAPER,
            markeredgewidth=2, gid="here")
    right = strength > 60
    ax.annotate(f"{count:.0f} drops", (strength, count), xytext=(-12 if right else 8, 20),
                textcoords="offset points", ha="right" if right else "left", fontsize=BIG + 1,
                fontweight="bold", color=RESULT, gid="words")


def _band(curve, error):
    strengths, drops = curve
    return strengths, drops * (1 - error), drops * (1 + error)


# --- the ethanol in a serving --------------------------------------------------------------------

MOST_GRAMS = 14.0


def serving_axes(figure):
    """The measure on the left, the standard drink on the right."""
    return figure.subplots(1, 2, width_ratios=[1, 1.9])


def serving_backdrop(axes, drink):
    """A standard drink as a frame of grams of ethanol.

    Parameters
    ----------
    axes : (measure, drink)
    drink : float, g of ethanol in a standard drink
    """
    measure, frame = axes
    measure.set(xlim=(-1.08, 1.08), ylim=(-0.22, 1.45))
    measure.set_axis_off()
    frame.set(xlim=(0, drink * 1.28), ylim=(-1.1, 1.25), yticks=[],
              xticks=range(0, round(drink) + 1, 2), xlabel="ethanol, g")
    frame.spines["left"].set_visible(False)
    frame.add_patch(Rectangle((0, -0.4), drink, 0.8, facecolor=PAPER, edgecolor=INK,
                              linewidth=2))
    frame.text(drink / 2, 0.5, f"a US standard drink holds {drink:g} g", ha="center",
               va="bottom", fontsize=13)


def serving(axes, count, volume, strength, grams, drink, words):
    """The measure with its volume, and its ethanol laid into the frame of a standard drink.

    Parameters
    ----------
    axes : (measure, drink) with `serving_backdrop`
    count : int, how many measures
    volume : float, mL in all
    strength : float, % vol
    grams : float, g of ethanol
    drink : float, g of ethanol in a standard drink
    words : str, of the measure
    """
    measure, frame = axes
    colour = tint({"ethanol": strength, "water": 100 - strength})
    # the bowl grows as the cube root of the volume: a spoon of that volume to scale
    side = 0.36 * (volume / count / 30) ** (1 / 3)
    for nth in range(count):
        row, column = divmod(nth, 5)
        x = (column - (min(count - row * 5, 5) - 1) / 2) * 0.42
        y = 0.78 - 0.55 * row
        measure.add_patch(Rectangle((x - 0.022, y + side * 0.5), 0.044, 0.27, facecolor=METAL,
                                    edgecolor=SOFT, linewidth=1))
        measure.add_patch(Ellipse((x, y), 0.75 * side, 1.15 * side, facecolor=colour,
                                  edgecolor=INK, linewidth=1.6, gid=f"spoon {nth}"))
    measure.text(0, 1.42, words, ha="center", va="top", fontsize=13)
    measure.text(0, -0.18, millilitres(volume), ha="center", va="bottom", fontsize=BIG + 2,
                 fontweight="bold", gid="volume")
    shown = min(grams, drink * 1.28)
    over = grams > drink
    frame.add_patch(Rectangle((0, -0.4), shown, 0.8, facecolor=CAUTION if over else ETHANOL,
                              edgecolor=INK, hatch="//" if over else "", alpha=1, gid="ethanol"))
    frame.plot([drink, drink], [-0.4, 0.4], color=INK, linewidth=3)
    at = min(shown + 0.25, drink * 0.78)
    frame.text(at, -0.62, f"{grams_words(grams)} of ethanol", fontsize=BIG + 1, va="top",
               fontweight="bold", color=CAUTION if over else RESULT, gid="grams",
               ha="left" if shown < drink * 0.6 else "right" if at < shown else "left")


def millilitres(volume):
    """A volume as a spoon or dropper can tell it.

    >>> millilitres(1.0), millilitres(4.93), millilitres(29.57)
    ('1 mL', '4.9 mL', '30 mL')
    """
    return f"{round(volume, 1):g} mL" if volume < 9.95 else f"{volume:.0f} mL"


def grams_words(grams):
    """Grams of ethanol with as many digits as a spoon deserves.

    >>> grams_words(0.316), grams_words(1.58), grams_words(14.2)
    ('0.3 g', '1.6 g', '14 g')
    """
    if grams < 0.05:
        return "less than 0.1 g"
    return f"{grams:.1f} g" if grams < 9.95 else f"{grams:.0f} g"

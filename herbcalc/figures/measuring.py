"""What measuring tools do, in pictures: each dot is the same recipe, measured once more.

Each picture has a backdrop, drawn once, and a function that draws what moves from given numbers.
"""

import numpy as np
from matplotlib.patches import Rectangle

from herbcalc.figures.style import INK, PAPER, RESULT, mix

BIG = 15  # pt: what the back row must read
DOTS = 260  # drawn; the ranges come from many more

RATIO_OFF = (-45, 65)  # % of the ratio meant
JAR_STRENGTH_OFF = (-3.4, 3.4)  # % vol
OFF = (-9.5, 9.5)  # % vol, of a dilution


def _signed(number):
    return "0" if number == 0 else f"{number:+d}".replace("-", "−")


def _row_axes(ax, limits, ticks, label, rows):
    """An empty strip of rows about a line in the middle: what was meant."""
    ax.set(xlim=limits, ylim=(rows - 0.45, -0.66), yticks=[], xticks=ticks, xlabel=label)
    ax.set_xticklabels([_signed(at) for at in ticks])
    ax.spines["left"].set_visible(False)
    ax.plot([0, 0], [-0.12, rows - 0.45], color=INK, linewidth=2.5, zorder=0.9)


def _dots(ax, row, off, low, high, limits, chance, gid):
    """The dots of one row in their box, which holds 95 of 100."""
    left, right = np.clip((low, high), *limits)
    ax.add_patch(Rectangle((left, row - 0.13), right - left, 0.4, edgecolor=RESULT,
                           facecolor=mix(RESULT, PAPER, 0.85), linewidth=2.2, gid=f"range {gid}"))
    shown = off[:DOTS]
    shown = shown[(shown > limits[0]) & (shown < limits[1])]
    ax.plot(shown, row + 0.07 + chance.uniform(-0.15, 0.15, len(shown)), "o", markersize=4.5,
            color=mix(RESULT, PAPER, 0.2), markeredgecolor=PAPER, markeredgewidth=0.5,
            gid=f"dots {gid}")


# --- a jar: ratio and final strength -------------------------------------------------------------


def jar_axes(figure):
    """Two strips side by side: the ratio, and the final strength."""
    return figure.subplots(1, 2, width_ratios=[1.25, 1])


def jar_backdrop(axes, tools):
    """What was meant as a line down the middle of both strips, one row a pair of tools.

    Parameters
    ----------
    axes : (ratio, strength)
    tools : sequence of str
    """
    ratio, strength = axes
    _row_axes(ratio, RATIO_OFF, range(-40, 61, 20), "mL for each gram of herb, % off", len(tools))
    _row_axes(strength, JAR_STRENGTH_OFF, range(-3, 4), "final strength, % vol off", len(tools))
    for row, tool in enumerate(tools):
        ratio.text(RATIO_OFF[0], row - 0.34, tool, va="center", fontsize=13,
                   bbox={"facecolor": PAPER, "edgecolor": "none", "pad": 1})


def jar(axes, rows):
    """The dots of each pair of tools, and between which values 95 of 100 lie.

    Parameters
    ----------
    axes : (ratio, strength) with `jar_backdrop`
    rows : sequence of two entries a row, for ratio and strength, each
        (array of what it is off, low, high off, words)
    """
    chance = np.random.default_rng(5)
    for row, both in enumerate(rows):
        for ax, limits, what, (off, low, high, words) in zip(
            axes, (RATIO_OFF, JAR_STRENGTH_OFF), ("ratio", "strength"), both,
        ):
            _dots(ax, row, off, low, high, limits, chance, f"{what} {row}")
            ax.text(limits[1], row - 0.34, words, ha="right", va="center", fontsize=13.5,
                    fontweight="bold", color=RESULT, gid=f"words {what} {row}")


# --- a dilution ----------------------------------------------------------------------------------

def dilution_backdrop(ax, tools):
    """The strength meant as a line down the middle, one row a tool.

    Parameters
    ----------
    ax : matplotlib axes
    tools : sequence of str
    """
    _row_axes(ax, OFF, range(-8, 9, 4), "strength in the end, % vol off", len(tools))
    for row, tool in enumerate(tools):
        ax.text(OFF[0] + 0.1, row - 0.36, tool, va="center", fontsize=13.5, fontweight="bold")


def dilution(ax, rows):
    """The dots of each tool, and between which strengths 95 of 100 lie.

    Parameters
    ----------
    ax : matplotlib axes with `dilution_backdrop`
    rows : sequence of (array of % vol off, low, high off, words)
    """
    chance = np.random.default_rng(5)
    for row, (off, low, high, words) in enumerate(rows):
        _dots(ax, row, off, low, high, OFF, chance, str(row))
        ax.text(OFF[1], row - 0.36, words, ha="right", va="center", fontsize=BIG,
                fontweight="bold", color=RESULT, gid=f"words {row}")

"""A batch in pictures: what to measure, where it ends, its first weeks, and what a cupboard makes.

Each picture has a backdrop, drawn once, and a function that draws what moves from given numbers.
"""

import textwrap

import numpy as np
from matplotlib.collections import PolyCollection
from matplotlib.patches import Rectangle

from herbcalc.figures.style import (
    CAUTION, ETHANOL, HERB, INK, PAPER, RESULT, SOFT, WATER, mix, tint,
)

BIG = 16  # pt: what the back row must read
SMALL = 12


# --- what to measure ------------------------------------------------------------------------------

ROWS = 3  # rows there is room for
_CARE = 68  # characters in a line of the caution
_COLUMNS = (0.43, 0.63)  # where the metric and the kitchen measures begin


def amounts_backdrop(ax):
    """A card with a column for metric and one for kitchen measures."""
    ax.set(xlim=(0, 1), ylim=(ROWS + 3.6, 0))
    ax.set_axis_off()
    for x, words in zip(_COLUMNS, ("metric", "kitchen")):
        ax.text(x, 0.5, words, va="center", fontsize=SMALL, color=SOFT)


def draw_amounts(ax, rows, bold, note, care):
    """What to measure, one line a thing, with a swatch of its colour.

    Parameters
    ----------
    ax : matplotlib axes with `amounts_backdrop`
    rows : sequence of (str, str, str, str): colour, what, metric, kitchen; at most `ROWS`
    bold : {0, 1}: which of the two measures is the one used
    note : str, under them
    care : str, the most urgent caution
    """
    ax.text(0, len(rows) + 1.42, note, va="center", fontsize=SMALL, color=SOFT)
    lines = textwrap.wrap(f"Take care. {care}", _CARE)
    ax.text(0, ROWS + 2.05, "\n".join(lines[:3]), va="top", fontsize=11.5, color=CAUTION,
            linespacing=1.15, gid="care")
    for place, (colour, what, *measures) in enumerate(rows):
        y = place + 1.5
        ax.add_patch(Rectangle((0, y - 0.3), 0.025, 0.6, facecolor=colour, edgecolor=INK))
        ax.text(0.04, y, what, va="center", fontsize=13)
        for number, (x, words) in enumerate(zip(_COLUMNS, measures)):
            used = number == bold
            ax.text(x, y, words, va="center", fontsize=14 if used else 13,
                    color=RESULT if used else SOFT, fontweight="bold" if used else "normal",
                    gid=f"amount {place} {number}")


def liquid_colour(kind, strength=0.0):
    """The colour of a bought liquid: the stronger a spirit, the deeper its blue."""
    if kind == "spirit":
        return tint({"ethanol": strength, "water": 100 - strength})
    return tint({{"vinegar": "acid"}.get(kind, kind): 1})


# --- the first weeks ------------------------------------------------------------------------------

WEEKS = 13  # drawn


def weeks_backdrop(ax):
    """Weeks after the start along the bottom."""
    ax.set(xlim=(-0.3, WEEKS + 0.2), ylim=(0, 1.12), yticks=[], xlabel="weeks after the start")
    ax.set_xticks(range(0, WEEKS + 1))
    ax.grid(axis="y", visible=False)
    ax.spines["left"].set_visible(False)


def draw_weeks(ax, shake, strain, looks, use_by, words):
    """Shaking, straining, looks and use-by, in weeks after the start.

    Parameters
    ----------
    ax : matplotlib axes with `weeks_backdrop`
    shake : float, weeks of daily shaking
    strain : (float, float) or None
    looks : sequence of float
    use_by : float
    words : (str, str, str): beside the shaking, the straining and the use-by
    """
    days = np.arange(1, round(min(shake, WEEKS) * 7) + 1) / 7
    ax.plot(days, np.full(len(days), 0.72), linestyle="", marker="|", color=SOFT, markersize=11,
            markeredgewidth=2, gid="shake")
    ax.text(0, 0.9, words[0], va="bottom", fontsize=SMALL)
    if strain:
        ax.add_patch(Rectangle((strain[0], 0.58), max(strain[1] - strain[0], 0.15), 0.28,
                               facecolor=mix(RESULT, PAPER, 0.55), edgecolor=RESULT, linewidth=2,
                               gid="strain"))
        ax.text(strain[0], 0.9, words[1], va="bottom", fontsize=SMALL, color=RESULT,
                fontweight="bold")
    seen = [week for week in looks if week <= WEEKS]
    ax.plot(seen, np.full(len(seen), 0.26), "D", color=PAPER, markeredgecolor=INK,
            markeredgewidth=2, markersize=9, gid="looks")
    ax.text(-0.25, 0.38, "look and smell", va="bottom", fontsize=SMALL, color=SOFT)
    if use_by <= WEEKS:
        ax.plot([use_by, use_by], [0, 1], color=CAUTION, linewidth=4)
        at, side = (use_by + 0.15, "left") if use_by < 8 else (use_by - 0.15, "right")
    else:
        ax.annotate("", (WEEKS + 0.2, 0.12), (WEEKS - 1.2, 0.12), annotation_clip=False,
                    arrowprops={"arrowstyle": "-|>", "color": CAUTION, "linewidth": 3,
                                "mutation_scale": 18})
        at, side = WEEKS - 1.35, "right"
    ax.text(at, 0.12, words[2], ha=side, va="center", fontsize=SMALL, color=CAUTION,
            fontweight="bold", gid="use by",
            bbox={"facecolor": PAPER, "edgecolor": "none", "pad": 1.5})


# --- from the cupboard ----------------------------------------------------------------------------

CUPBOARD = (0, 1650)  # mL drawn
LINES = 3
HATCH = {"strong": "", "plain": "//", "water": ""}


def cupboard_backdrop(ax):
    """Room for three batches, one a line, their liquid in mL along the bottom."""
    for x, (words, colour, hatch) in zip((0.36, 0.58, 0.8), (
            ("strong spirit", liquid_colour("spirit", 95), HATCH["strong"]),
            ("plain spirit", liquid_colour("spirit", 40), HATCH["plain"]),
            ("water", WATER, HATCH["water"]))):
        ax.add_patch(Rectangle((x, 1.02), 0.03, 0.07, transform=ax.transAxes, clip_on=False,
                               facecolor=colour, edgecolor=INK, hatch=hatch))
        ax.text(x + 0.04, 1.055, words, transform=ax.transAxes, va="center", fontsize=SMALL)
    ax.set(xlim=CUPBOARD, ylim=(LINES - 0.25, -0.75), yticks=[],
           xlabel="liquid in the batch [mL]")
    ax.grid(axis="y", visible=False)
    ax.spines["left"].set_visible(False)


def draw_cupboard(ax, batches):
    """Each batch as a bar of what is poured; the largest is framed.

    Parameters
    ----------
    ax : matplotlib axes with `cupboard_backdrop`
    batches : sequence of (parts, words, limit); parts is a sequence of (name, mL, % vol) with
        the names of `HATCH`, words stand above the bar, limit beside it
    """
    for place, (parts, words, limit) in enumerate(batches):
        left = 0.0
        for name, volume, strength in parts:
            ax.add_patch(Rectangle((left, place - 0.22), volume, 0.44, edgecolor=INK,
                                   facecolor=WATER if name == "water" else
                                   liquid_colour("spirit", strength), hatch=HATCH[name]))
            left += volume
        if place == 0:
            ax.add_patch(Rectangle((0, -0.22), left, 0.44, fill=False, edgecolor=RESULT,
                                   linewidth=5, gid="largest"))
        ax.text(0, place - 0.28, words, va="bottom", fontsize=13,
                fontweight="bold" if place == 0 else "normal", color=RESULT if place == 0 else INK)
        inside = left > 0.62 * CUPBOARD[1]
        ax.text(left - 25 if inside else left + 25, place, limit, va="center", fontsize=SMALL,
                ha="right" if inside else "left",
                bbox={"facecolor": PAPER, "edgecolor": "none", "pad": 2, "alpha": 0.9})


def reach_backdrop(ax):
    """A scale from 0 to 100 % vol."""
    ax.set(xlim=(0, 100), ylim=(0, 1), yticks=[], xlabel="strength in the end [% vol]")
    ax.set_xticks(range(0, 101, 10))
    ax.grid(axis="y", visible=False)
    ax.spines["left"].set_visible(False)


def draw_reach(ax, wanted, most):
    """The strength wanted, and the strongest the cupboard reaches.

    Parameters
    ----------
    ax : matplotlib axes with `reach_backdrop`
    wanted, most : float, % by volume
    """
    ax.add_patch(Rectangle((0, 0.12), most, 0.3, facecolor=mix(ETHANOL, PAPER, 0.45),
                           edgecolor=ETHANOL, gid="reach"))
    fits = wanted <= most + 1e-6
    ax.plot([wanted, wanted], [0, 0.6], color=RESULT if fits else CAUTION, linewidth=4)
    side = "left" if wanted < 50 else "right"
    ax.text(wanted, 0.64, f"wanted {wanted:.0f} % vol", ha=side, va="bottom", fontsize=13,
            fontweight="bold", color=RESULT if fits else CAUTION, gid="wanted")
    ax.text(1, 0.27, f"within reach: up to {most:.0f} % vol", va="center", fontsize=SMALL,
            bbox={"facecolor": PAPER, "edgecolor": "none", "pad": 1.5, "alpha": 0.85}, gid="most")


# --- a sheet of labels ----------------------------------------------------------------------------

SHOWN = (4.05, 4.6)  # inches of the picture that one label is enlarged into


def sheet_axes(figure):
    """The page on the left; on the right one label, measured in points downwards."""
    figure.set_layout_engine("none")
    page = figure.add_axes((0.02, 0.03, 0.37, 0.94))
    label = figure.add_axes((0.41, 0.02, 0.58, 0.96))
    return page, label


def sheet_backdrop(axes):
    """Nothing moves less than the paper: both start white."""
    for ax in axes:
        ax.set_axis_off()
    page, label = axes
    page.set(xlim=(-12, 228), ylim=(312, -12), aspect="equal")
    wide, high = label.figure.get_size_inches() * 72
    label.set(xlim=(0, 0.58 * wide), ylim=(0.96 * high, 0))


def draw_sheet(ax, page, label, margin, gap, columns, rows, used):
    """The page with the places of its labels; those used are green.

    Parameters
    ----------
    ax : matplotlib axes with `sheet_backdrop`
    page, label : (float, float), mm
    margin, gap : float, mm
    columns, rows : int
    used : int, labels on this page
    """
    ax.add_patch(Rectangle((0, 0), *page, facecolor="#ffffff", edgecolor=INK, linewidth=2))
    corners = [(margin + c * (label[0] + gap), margin + r * (label[1] + gap))
               for r in range(rows) for c in range(columns)]
    boxes = [[(x, y), (x + label[0], y), (x + label[0], y + label[1]), (x, y + label[1])]
             for x, y in corners]
    colours = [mix(HERB, "#ffffff", 0.45) if n < used else "#ffffff" for n in range(len(boxes))]
    ax.add_collection(PolyCollection(boxes, facecolors=colours, edgecolors=SOFT, linewidths=1.2,
                                     gid="labels"), autolim=False)
    ax.text(page[0] / 2, page[1] + 3, f"{page[0]:.0f} × {page[1]:.0f} mm", ha="center", va="top",
            fontsize=SMALL, color=SOFT)

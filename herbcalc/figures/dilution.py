"""Diluting in pictures: what is lost on mixing, the mark on the bottle, blending, and the yield.

Each picture has a backdrop, drawn once, and a function that draws what moves from given numbers.
Vessels are those of `herbcalc.figures.jar`, so levels are true to scale.
"""

import numpy as np
from matplotlib.collections import PolyCollection
from matplotlib.patches import FancyArrowPatch, Rectangle

from herbcalc.figures.jar import GLASS, draw_bottle, draw_cylinder, vessel_axes
from herbcalc.figures.style import (
    AIR, ETHANOL, INK, MISTAKE_LINE, PAPER, RESULT, SOFT, WATER, tint,
)

BIG = 16  # pt: what the back row must read


def _shares(strength):
    """A liquid as its share of ethanol and the rest, for colours and layers."""
    return {"ethanol": strength, "water": 100 - strength}


# --- pouring together ----------------------------------------------------------------------------

CYLINDER = 500  # mL, each of the two poured; the one they meet in holds twice as much
_TOP = 2.45  # height of a drawn cylinder
_SPIRIT, _WATER, _BOTH = 0.0, 1.78, 3.72  # where the three stand
LENS = (-45, 15)  # mL around the simple sum


def pour_axes(figure):
    """The three cylinders, and beside them the top of the third seen closely."""
    return figure.subplots(1, 2, width_ratios=[4.6, 1])


def pour_backdrop(axes):
    """Plus and equals between the cylinders; the closer view's scale."""
    bench, lens = axes
    vessel_axes(bench, left=-1.26, right=5.0, top=3.0)
    for x, sign in ((0.68, "+"), (2.46, "=")):
        bench.text(x, 1.25, sign, ha="center", va="center", fontsize=30, fontweight="bold")
    lens.set(xlim=(0, 1), ylim=LENS, xticks=[], yticks=[-40, -30, -20, -10, 0, 10],
             ylabel="mL from the simple sum")
    lens.set_title("Closely", fontsize=13)
    lens.spines["bottom"].set_visible(False)


def pour(axes, spirit, strength, water, together, masses):
    """Spirit and water apart, and what they make in one cylinder.

    Parameters
    ----------
    axes : (bench, lens) with `pour_backdrop`
    spirit, water, together : float, mL at 20 degC
    strength : float, % by volume of the spirit
    masses : (float, float, float), g of the spirit, the water, and both
    """
    bench, lens = axes
    mixed = 100 * spirit * strength / 100 / together
    for x, volume, capacity, share, mass, what in (
        (_SPIRIT, spirit, CYLINDER, strength, masses[0], "spirit"),
        (_WATER, water, CYLINDER, 0, masses[1], "water"),
        (_BOTH, together, 2 * CYLINDER, mixed, masses[2], "both"),
    ):
        draw_cylinder(bench, volume, _shares(share), capacity=capacity, x=x,
                      label=f"{what}: {mass:.0f} g")
        bench.text(x, 2.68, f"{volume:.0f} mL", ha="center", fontsize=BIG, fontweight="bold",
                   color=RESULT if what == "both" else INK, gid=what)
    total = spirit + water
    lost = total - together
    at = total / (2 * CYLINDER) * _TOP
    bench.plot([_BOTH - 0.5, _BOTH + 0.6], [at, at], zorder=4, **MISTAKE_LINE)
    bench.text(_BOTH + 0.66, at, f"the sum:\n{total:.0f} mL", va="center", fontsize=12)
    lens.add_patch(Rectangle((0, LENS[0]), 1, -lost - LENS[0], facecolor=tint(_shares(mixed)),
                             edgecolor="none", gid="level"))
    lens.plot([0, 1], [-lost, -lost], color=INK, linewidth=3)
    lens.plot([0, 1], [0, 0], **MISTAKE_LINE)
    lens.text(0.5, 3.5, "the sum", ha="center", fontsize=12)
    if lost >= 1:
        if lost >= 5:
            lens.add_patch(FancyArrowPatch((0.5, 0), (0.5, -lost), arrowstyle="-|>",
                                           mutation_scale=16, shrinkA=1, shrinkB=1, color=RESULT,
                                           linewidth=3))
        lens.text(0.5, -lost - 3, f"{lost:.0f} mL\nless", ha="center", va="top", fontsize=BIG,
                  fontweight="bold", color=RESULT, gid="lost")


# --- making up to a volume -----------------------------------------------------------------------

_SUM, _MARK = 0.0, 4.1  # where the two bottles stand
_BRIM = 1.012  # the bottle holds this much of the wanted volume, so that the mark is in its neck


def make_up_backdrop(ax):
    """Heads over the two ways."""
    vessel_axes(ax, left=-0.85, right=6.75, top=3.2)
    for x, words, colour in ((_SUM, "\N{BALLOT X} the simple difference", SOFT),
                             (_MARK, "\N{CHECK MARK} made up to the mark", RESULT)):
        ax.text(x - 0.7, 2.94, words, fontsize=15, fontweight="bold", color=colour)


def make_up(ax, volume, spirit, waters, volumes, strengths, ethanol):
    """The same spirit twice: with the simple difference of water, and filled to the mark.

    Parameters
    ----------
    ax : matplotlib axes with `make_up_backdrop`
    volume : float, mL wanted
    spirit : float, mL of spirit measured out, the same in both bottles
    waters : (float, float), mL of water poured: the simple difference, and up to the mark
    volumes : (float, float), mL in each bottle at the end
    strengths : (float, float), % by volume in each bottle at the end
    ethanol : float, mL of ethanol in each bottle, the same in both
    """
    mark = None
    for place, x in ((1, _MARK), (0, _SUM)):
        got = volumes[place]
        stands = draw_bottle(ax, got, {"ethanol": ethanol, "water": got - ethanol},
                             capacity=volume * _BRIM, x=x, layers=True)
        mark = stands.level if mark is None else mark  # the second bottle is filled to its mark
        ax.plot([x - 0.42, x + 0.42], [mark, mark], color=INK, linewidth=3.5, zorder=4)
        if ethanol > 0.2 * volume:
            ax.text(x, 0.3, "alcohol", ha="center", va="center", color=PAPER, fontsize=13,
                    zorder=4)
        if ethanol < 0.7 * volume:
            ax.text(x, 1.36, "water", ha="center", va="center", fontsize=13, zorder=4)
        if place or volume - got < 1:
            ax.text(x + 0.5, mark, f"mark: {volume:.0f} mL", va="center", fontsize=12)
        else:
            _short(ax, x + 0.52, stands.level, mark, volume - got)
        ax.text(x + 0.85, 1.42, f"{strengths[place]:.1f} % vol", fontsize=21, fontweight="bold",
                color=RESULT if place else INK, va="center", gid=("sum", "mark")[place])
        ax.text(x + 0.85, 1.02, f"{ethanol:.0f} mL of alcohol\nin {got:.0f} mL", fontsize=13,
                va="center")
        ax.text(x + 0.85, 0.34, f"{spirit:.0f} mL spirit\n+ {waters[place]:.0f} mL water",
                fontsize=13, va="center")


def _short(ax, x, level, mark, missing):
    ax.annotate("", (x, mark), (x, level), arrowprops={"arrowstyle": "<->", "color": INK,
                                                        "linewidth": 2, "shrinkA": 0,
                                                        "shrinkB": 0})
    ax.text(x + 0.1, (level + mark) / 2, f"{missing:.0f} mL short", va="center", fontsize=BIG,
            fontweight="bold", gid="short")


# --- blending two strengths ----------------------------------------------------------------------

BLEND_MOST = 1000  # mL


def blend_backdrop(ax):
    """Strength along the foot, millilitres upwards."""
    ax.set(xlim=(-24, 124), ylim=(0, BLEND_MOST * 1.16), xlabel="strength [% vol]",
           ylabel="volume [mL]")
    ax.set_xticks(range(0, 101, 10))
    ax.set_yticks(range(0, BLEND_MOST + 1, 200))


def blend(ax, strengths, volumes, to, volume):
    """Two liquids at their places on the scale of strength, and their blend between them.

    Parameters
    ----------
    ax : matplotlib axes with `blend_backdrop`
    strengths : (float, float), % by volume, the stronger first
    volumes : (float, float), mL of each
    to : float, % by volume of the blend
    volume : float, mL of the blend
    """
    for side, strength, poured in zip((1, -1), strengths, volumes):
        _column(ax, strength, poured, strength)
        what = f"{strength:.0f} % vol" if strength else "water"
        ax.text(strength + side * 3, max(poured / 2, 80), f"{poured:.0f} mL\nof {what}",
                ha="left" if side > 0 else "right", va="center", fontsize=BIG,
                fontweight="bold", gid="strong" if side > 0 else "weak")
    ax.add_patch(Rectangle((to - 3, 0), 6, volume, fill=False, edgecolor=RESULT, linewidth=4,
                           gid="blend"))
    ax.text(to, volume + 25, f"{volume:.0f} mL of {to:.0f} % vol", ha="center", va="bottom",
            color=RESULT, fontsize=BIG, fontweight="bold")


def _column(ax, x, volume, strength, half=2.2):
    """A column of liquid, its ethanol below and its water above."""
    ethanol = volume * strength / 100
    ax.add_patch(Rectangle((x - half, 0), 2 * half, ethanol, facecolor=ETHANOL, edgecolor=INK))
    ax.add_patch(Rectangle((x - half, ethanol), 2 * half, volume - ethanol, facecolor=WATER,
                           edgecolor=INK))


# --- what a bottle becomes -----------------------------------------------------------------------

SMALL_BOTTLE = 100  # mL
SHELVES, _ACROSS = 4, 10  # room for 4 L
_FIRST = (1.78, 2.0)  # left foot of the first small bottle, on the top shelf
_APART = (0.535, -0.74)
_SMALL = np.array([(0, 0), (0.4, 0), (0.4, 0.34), (0.26, 0.43), (0.26, 0.57), (0.14, 0.57),
                   (0.14, 0.43), (0, 0.34)])


def becomes_backdrop(ax):
    """Room for the strong bottle, and shelves for small ones."""
    vessel_axes(ax, left=-0.98, right=7.2, top=3.15)
    left, right = _FIRST[0] - 0.12, _FIRST[0] + _ACROSS * _APART[0]
    boards = [[(left, y - 0.02), (right, y - 0.02), (right, y - 0.08), (left, y - 0.08)]
              for y in _FIRST[1] + _APART[1] * np.arange(SHELVES)]
    ax.add_collection(PolyCollection(boards, facecolors="#b98f5d", edgecolors=SOFT))


def becomes(ax, volume, strength, to, water, result):
    """One bottle of strong spirit, and the small bottles it fills once diluted.

    Parameters
    ----------
    ax : matplotlib axes with `becomes_backdrop`
    volume : float, mL of strong spirit, at most 1000
    strength, to : float, % by volume before and after
    water, result : float, mL of water added, and mL in the end (at most 4000)
    """
    draw_bottle(ax, volume, _shares(strength), capacity=volume * 1.02, largest=1020,
                label=f"{volume:.0f} mL of {strength:.0f} % vol")
    ax.annotate("", (1.56, 0.42), (0.82, 0.42), arrowprops={"arrowstyle": "-|>", "color": INK,
                                                            "linewidth": 3, "mutation_scale": 22})
    ax.text(1.2, 0.28, f"+ {water:.0f} mL\nwater", ha="center", va="top", fontsize=12)
    full, over = divmod(round(result), SMALL_BOTTLE)
    count = full + (over > 0)
    place = np.arange(count)
    feet = np.array(_FIRST) + np.column_stack([place % _ACROSS, place // _ACROSS]) * _APART
    colours = [tint(_shares(to))] * count
    bottles = list(_SMALL + feet[:, None])
    if over:  # the last one is not full
        high = 0.02 + 0.34 * over / SMALL_BOTTLE
        bottles.append(np.array([(0, 0), (0.4, 0), (0.4, high), (0, high)]) + feet[-1])
        colours = colours[:-1] + [AIR, colours[-1]]
    ax.add_collection(PolyCollection(bottles, facecolors=colours, edgecolors=GLASS,
                                     linewidths=1.8, gid="small bottles"))
    ax.text(_FIRST[0] - 0.1, 2.87, f"{result:.0f} mL of {to:.0f} % vol", fontsize=20,
            fontweight="bold", color=RESULT, va="center", gid="result")
    ax.text(7.12, 2.87, f"in bottles of {SMALL_BOTTLE} mL", fontsize=13, color=SOFT, ha="right",
            va="center")

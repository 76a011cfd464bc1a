"""What spirit costs, in pictures: the bottles to buy, and from how many jars letting down pays.

Each picture has a backdrop, drawn once, and a function that draws what moves from given numbers.
"""

import numpy as np
from matplotlib.collections import PolyCollection

from herbcalc.figures.plan import liquid_colour
from herbcalc.figures.style import AIR, GLASS, INK, PAPER, RESULT, SOFT, WRONG, mix

SMALL = 12
MOST = 24  # jars drawn
PER_JAR = (2, 90)  # money for one jar, log scale
SAVED = (-45, 75)  # money

_BODY = np.array([(0, 0), (0.72, 0), (0.72, 0.62), (0.46, 0.8), (0.46, 1), (0.26, 1), (0.26, 0.8),
                  (0, 0.62)])
_LARGEST = 1000  # mL: the bottle drawn at full size


def cost_axes(figure):
    """Bottles on the left, money for each jar and what is saved on the right."""
    shelf, money = figure.subfigures(1, 2, width_ratios=(1, 1.25))
    return {"shelf": shelf.subplots(), **dict(zip(("each", "saved"),
                                                  money.subplots(2, 1, sharex=False)))}


def cost_backdrop(axes):
    """Scales and zero line."""
    axes["shelf"].set(xlim=(-0.1, 8.6), ylim=(-0.15, 6.4))
    axes["shelf"].set_axis_off()
    each, saved = axes["each"], axes["saved"]
    each.set(xlim=(0.3, MOST + 0.7), yscale="log", ylim=PER_JAR, ylabel="€ a jar")
    each.set_yticks([2, 5, 10, 20, 50], ["2", "5", "10", "20", "50"])
    each.set_yticks([], minor=True)
    saved.set(xlim=(0.3, MOST + 0.7), ylim=SAVED, ylabel="€ saved",
              xlabel="jars in the batch")
    for ax in (each, saved):
        ax.set_xticks([1, 4, 8, 12, 16, 20, 24])
    saved.axhline(0, color=INK, linewidth=1.5)
    saved.text(MOST + 0.5, SAVED[1], "letting down is cheaper", ha="right", va="top",
               fontsize=SMALL, color=RESULT)
    saved.text(MOST + 0.5, SAVED[0], "dearer", ha="right", va="bottom", fontsize=SMALL,
               color=SOFT)


def draw_shelf(ax, rows):
    """The bottles to buy, each way on a shelf of its own, true to their size.

    Parameters
    ----------
    ax : the "shelf" of `cost_axes`
    rows : sequence of (words, strength % vol, bottles); bottles is a sequence of (mL it holds,
        share that is used); at most 2 rows, 16 bottles drawn in each
    """
    for place, (words, strength, bottles) in enumerate(rows):
        foot = 3.45 - place * 3.4
        ax.text(0, foot + 2.62, words, va="bottom", fontsize=13, fontweight="bold")
        shown = bottles[:16]
        glass, filled, colours = [], [], []
        for number, (size, used) in enumerate(shown):
            scale = (size / _LARGEST) ** (1 / 3)
            corner = np.array([(number % 8) * 1.05, foot + 1.25 * (1 - number // 8)])
            body = _BODY * scale + corner
            glass.append(body)
            high = 0.72 * scale * used
            filled.append(corner + np.array([(0, 0), (0.72 * scale, 0), (0.72 * scale, high),
                                             (0, high)]) * (1, 1) if used < 0.97 else body)
            colours.append(liquid_colour("spirit", strength))
        ax.add_collection(PolyCollection(glass, facecolors=AIR, edgecolors=GLASS, linewidths=2,
                                         gid=f"bottles {place}"), autolim=False)
        ax.add_collection(PolyCollection(filled, facecolors=colours, edgecolors="none"),
                          autolim=False)
        ax.add_collection(PolyCollection(glass, facecolors="none", edgecolors=INK, linewidths=1.4),
                          autolim=False)
        if len(bottles) > len(shown):
            ax.text(8.5, foot - 0.1, f"and {len(bottles) - len(shown)} more", ha="right", va="top",
                    fontsize=SMALL)


def draw_costs(axes, jars, strong, ready, here, from_jars):
    """Both ways over the number of jars, and what letting down saves.

    Parameters
    ----------
    axes : of `cost_axes`
    jars : sequence of int
    strong : sequence of float, money for that many jars with the strong spirit
    ready : the same with spirit bought ready, or None where none is strong enough
    here : int, the number of jars chosen
    from_jars : int or None, from where on the strong one is never dearer
    """
    each, saved = axes["each"], axes["saved"]
    jars = np.asarray(jars)
    lines = [(strong, "o", RESULT, "\u25cf let down")]
    if ready is not None:
        lines.append((ready, "s", SOFT, "\u25a0 bought ready"))
    for costs, marker, colour, _ in lines:
        each.plot(jars, np.asarray(costs) / jars, marker=marker, color=colour, markersize=6,
                  linewidth=1.5)
    for costs, marker, colour, words in lines:
        each.plot([here], [costs[here - 1] / here], marker, color=colour, markersize=13,
                  markeredgecolor=INK, gid=words[2:])
    # the higher of the two is named above, the other below: at the first jars they lie apart
    first = sorted(lines, key=lambda line: line[0][0])
    for (costs, _, colour, words), height, side in zip(first, (0.08, 0.9), ("bottom", "top")):
        each.text(0.98, height, words, transform=each.transAxes, ha="right", va=side,
                  color=colour, fontsize=13, fontweight="bold")
    if ready is None:
        saved.text(MOST / 2, 15, "no spirit sold ready is that strong", ha="center", fontsize=13,
                   color=SOFT)
        return
    gain = np.asarray(ready) - strong
    shown = np.clip(gain, *SAVED)
    bars = np.array([[(n - 0.38, 0), (n + 0.38, 0), (n + 0.38, high), (n - 0.38, high)]
                     for n, high in zip(jars, shown)])
    for which, colour, hatch in ((gain >= 0, mix(RESULT, PAPER, 0.25), ""),
                                 (gain < 0, WRONG, "///")):
        saved.add_collection(PolyCollection(bars[which], facecolors=colour, hatch=hatch,
                                            edgecolors=INK, linewidths=0.8,
                                            gid="cheaper" if not hatch else "dearer"),
                             autolim=False)
    saved.plot([here], [SAVED[0] + 7], marker="^", color=RESULT, markersize=13, gid="here")
    if from_jars:
        saved.plot([from_jars - 0.5] * 2, (SAVED[0], SAVED[1] * 0.72), color=RESULT,
                   linewidth=2.5, linestyle=(0, (2, 1.5)), gid="break-even")
        side = "left" if from_jars < 16 else "right"
        saved.text(from_jars - 0.5 + (0.3 if side == "left" else -0.3), SAVED[1] * 0.72,
                   f"from {from_jars} jars on" if from_jars > 1 else "from the first jar on",
                   ha=side, va="top", fontsize=13, fontweight="bold", color=RESULT)

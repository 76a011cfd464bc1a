"""How far computed figures lie from printed ones, counted in the last digit printed."""

import numpy as np
from matplotlib.patches import Rectangle

from herbcalc.figures.style import HERB, INK, PAPER, RESULT, SOFT, mix

SMALL = 12
LANES = ("to the digit", "more: says why", "taken over")
_MARKS = {  # mark, fill, edge
    LANES[0]: ("o", RESULT, PAPER), LANES[1]: ("D", PAPER, RESULT), LANES[2]: ("s", SOFT, PAPER),
}
EDGE = 200  # digits; what lies further out stands at the edge


def differences_backdrop(ax):
    """A scale in units of the last digit, even between -1 and 1 and in tenfold steps beyond."""
    ax.set_xscale("symlog", linthresh=1, linscale=1.6)
    ax.set(xlim=(-EDGE, EDGE), ylim=(len(LANES) - 0.45, -0.95),
           xlabel="computed less printed, in units of the last digit printed")
    ax.set_xticks([-100, -10, -1, 0, 1, 10, 100],
                  ["−100", "−10", "−1", "0", "+1", "+10", "+100"])
    ax.minorticks_off()
    ax.set_yticks(range(len(LANES)), LANES)
    ax.grid(axis="y", visible=False)
    ax.spines["left"].set_visible(False)
    ax.add_patch(Rectangle((-0.5, -0.5), 1, len(LANES), facecolor=mix(HERB, PAPER, 0.72),
                           edgecolor="none", zorder=0.5))
    ax.text(0, -0.72, "half a digit either way", ha="center", va="center", fontsize=SMALL)


def differences(ax, lanes):
    """One mark a figure, in the lane it belongs to.

    Parameters
    ----------
    ax : matplotlib axes with `differences_backdrop`
    lanes : mapping of the words of a lane (`LANES`) to its differences, in units of the last digit
    """
    chance = np.random.default_rng(2)
    for place, lane in enumerate(LANES):
        off = np.clip(np.asarray(lanes.get(lane, ()), float), -EDGE, EDGE)
        mark, fill, edge = _MARKS[lane]
        ax.plot(off, place + chance.uniform(-0.24, 0.24, len(off)), mark, markersize=8,
                color=fill, markeredgecolor=edge, markeredgewidth=1.5, gid=lane, clip_on=False)
        ax.text(EDGE, place, f"{len(off)}", ha="right", va="center", fontsize=14,
                fontweight="bold", color=INK, gid=f"count {lane}")

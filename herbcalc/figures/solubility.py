"""Solubility in pictures: a whole plant at once, one constituent's line, liquids held together.

Every function draws on given axes from given numbers; the backdrops hold what never moves.
"""

import textwrap

import numpy as np
from matplotlib.collections import LineCollection, PolyCollection
from matplotlib.patches import Rectangle

from herbcalc.figures.style import CAUTION, ETHANOL, GLYCERIN, HERB, INK, PAPER, RESULT, SOFT, mix

BIG = 16  # pt: what the back row must read
SMALL = 12
_ROUGH = mix(CAUTION, PAPER, 0.86)
_WORSE = mix(RESULT, PAPER, 0.55)


def times(gain):
    """A gain in words, with no more digits than a line good to a factor of three deserves.

    Examples
    --------
    >>> times(26.3), times(1.04), times(0.0021), times(123456)
    ('30 times', 'as well as water', '1/500', '100 000 times')
    >>> times(2345)
    '2000 times'
    """
    if 0.75 < gain < 1.5:
        return "as well as water"
    one_digit = float(f"{max(gain, 1 / gain):.0e}")
    number = f"{one_digit:.0f}"
    if one_digit >= 10_000:
        number = f"{one_digit:,.0f}".replace(",", " ")
    return f"{number} times" if gain > 1 else f"1/{number}"


# --- a whole plant at once ------------------------------------------------------------------------

GAINS = (5e-5, 3e6)  # times as soluble as in water, the ends of the scale


def see_saw_backdrop(ax, names, log_kow):
    """A row for each constituent, from oil-loving at the top to water-loving at the bottom.

    Parameters
    ----------
    ax : matplotlib axes
    names : sequence of str
    log_kow : sequence of float, falling
    """
    ax.set(xscale="log", xlim=GAINS, ylim=(len(names) - 0.4, -0.6))
    ax.set_xticks([1e-3, 1, 1e3, 1e6], ["1/1000", "water", "1000 times", "1 000 000"])
    ax.minorticks_off()
    ax.set_yticks(range(len(names)),
                  [f"{name}  {value:+.1f}".replace("-", "\N{MINUS SIGN}")
                   for name, value in zip(names, log_kow)])
    ax.tick_params("y", labelcolor=INK)
    ax.grid(False, axis="y")
    ax.spines["left"].set_visible(False)
    ax.axvline(1, color=INK, lw=2.5)
    ax.text(GAINS[1] * 0.8, 13.2, "better than water  \N{RIGHTWARDS ARROW}", ha="right",
            va="center", fontsize=13, fontweight="bold")
    ax.text(GAINS[0] * 1.2, -0.05, "\N{LEFTWARDS ARROW}  worse", va="center", fontsize=13,
            fontweight="bold")
    ax.set_ylabel("log Kow: loves water \N{MINUS SIGN}   + loves oil", fontsize=SMALL)
    ax.set_xlabel("dissolves so many times as well as water (good to a factor of 3)")


def see_saw(ax, gains, colour):
    """How much better or worse than water the liquid dissolves each constituent.

    Parameters
    ----------
    ax : matplotlib axes with `see_saw_backdrop`
    gains : sequence of float, times as soluble as in water
    colour : str
    """
    gains = np.asarray(gains)
    rows = np.arange(len(gains))
    ends = np.clip(gains, *GAINS)
    bars = [[(1, y - 0.32), (end, y - 0.32), (end, y + 0.32), (1, y + 0.32)]
            for y, end in zip(rows, ends)]
    ax.add_collection(PolyCollection(
        bars, facecolors=[colour if gain > 1 else _WORSE for gain in gains], edgecolors=INK,
        hatch=None, gid="bars"), autolim=False)
    for y, gain, end in zip(rows, gains, ends):
        if 0.75 < gain < 1.5:
            continue
        right = gain > 1
        ax.text(end * (1.25 if right else 0.8), y, times(gain), va="center", fontsize=SMALL,
                ha="left" if right else "right", gid=f"gain {y}")


# --- one constituent's line -----------------------------------------------------------------------

LINES = (1e-4, 1e5)  # times as soluble as in water
TRUSTED = (20, 80)  # % vol: where the line is at its best (our own caution, no source)


def lines_axes(figure):
    """Ethanol on the left, glycerin on the right, one scale of gain."""
    spirit, glycerin = figure.subplots(1, 2, sharey=True, width_ratios=(1.55, 1))
    return {"spirit": spirit, "glycerin": glycerin}


def lines_backdrop(axes, shares, gains):
    """The lines of all constituents, faintly, and where a line is only a guess.

    Parameters
    ----------
    axes : mapping with "spirit" and "glycerin"
    shares : mapping of the same names to arrays, % vol and % by volume
    gains : mapping of the same names to arrays (constituent, share), times as soluble as in water
    """
    for name, ax in axes.items():
        x = shares[name]
        ax.set(yscale="log", ylim=LINES, xlim=(0, x[-1]))
        ax.minorticks_off()
        ax.axhline(1, color=INK, lw=1.5)
        ax.add_collection(LineCollection([np.column_stack([x, y]) for y in gains[name]],
                                         colors=mix(SOFT, PAPER, 0.6), linewidths=1))
    spirit, glycerin = axes["spirit"], axes["glycerin"]
    spirit.set_yticks([1e-4, 1e-2, 1, 1e2, 1e4],
                      ["1/10 000", "1/100", "water", "100 times", "10 000\ntimes"])
    spirit.set_xlabel("strength [% vol]")
    glycerin.set_xlabel("glycerin [% by volume]")
    spirit.set_xticks([0, 20, 40, 60, 80, 95])
    spirit.axvspan(TRUSTED[1], shares["spirit"][-1], color=_ROUGH, lw=0)
    spirit.text((TRUSTED[1] + shares["spirit"][-1]) / 2, LINES[0] * 1.6, "rough:\nreal lines bend",
                ha="center", fontsize=SMALL, rotation=90, va="bottom")
    glycerin.text(1.5, LINES[1] * 0.5, "grey: all the others\nband: a factor of 3\n"
                  "no line above 60 %", va="top", fontsize=SMALL)


def lines(axes, shares, gains, here, name, rule):
    """One constituent's two lines with their width, and the liquids that are asked about.

    Parameters
    ----------
    axes : mapping with "spirit" and "glycerin", with `lines_backdrop`
    shares : as in the backdrop
    gains : mapping of the same names to arrays, or None where the constituent has no line
    here : mapping of the same names to (share, gain); the gain None where there is none
    name, rule : str, the constituent, and what the trade says
    """
    for place, ax in axes.items():
        share, gain = here[place]
        ax.plot([share, share], LINES, color=RESULT, lw=2)
        if gains is None:
            continue
        x, y = shares[place], gains[place]
        colour = ETHANOL if place == "spirit" else GLYCERIN
        ax.fill_between(x, y / 3, y * 3, color=colour, alpha=0.25, lw=0)
        ax.plot(x, y, color=INK, lw=6)
        ax.plot(x, y, color=colour, lw=3.5)
        ax.plot([share], [gain], "o", color=RESULT, markeredgecolor=PAPER, markersize=14,
                gid=f"{place} here")
        right = share < 0.55 * x[-1]
        ax.text(share + (1.5 if right else -1.5), gain * (25 if gain < 300 else 0.02),
                times(gain), ha="left" if right else "right", va="center", fontsize=BIG,
                fontweight="bold", color=RESULT, gid=f"{place} words",
                bbox={"facecolor": PAPER, "edgecolor": "none", "alpha": 0.8, "pad": 2})
    ax = axes["spirit"]
    ax.text(2, LINES[1] * 0.5, name, fontsize=BIG, fontweight="bold", va="top", gid="name")
    ax.text(2, LINES[1] * 0.14, textwrap.fill(f"the trade: {rule}", 34), fontsize=SMALL, va="top",
            gid="rule")
    if gains is None:
        ax.text(40, 1, "no line:\nit knows single small molecules only", ha="center",
                va="center", fontsize=14, color=CAUTION, fontweight="bold", gid="no line",
                bbox={"facecolor": PAPER, "edgecolor": CAUTION, "pad": 6})


# --- liquids held against each other --------------------------------------------------------------


def chooser_axes(figure):
    """The grid of kinds and liquids, and the totals beside it."""
    grid, total = figure.subplots(1, 2, width_ratios=(3, 1), sharey=True)
    return {"grid": grid, "total": total}


def chooser_backdrop(axes, liquids, keeps, kinds, trade, line, differs):
    """The grid: a dot for the trade's mark and a ring for the line, in each meeting of the two.

    Parameters
    ----------
    axes : mapping with "grid" and "total"
    liquids, kinds : sequences of str; under each liquid stands how long it keeps
    keeps : sequence of str
    trade : array (kind, liquid), 0 to 1
    line : sequence of array (liquid) or None where there is no line
    differs : array (kind, liquid) of bool
    """
    grid, total = axes["grid"], axes["total"]
    rows, columns = len(liquids), len(kinds)
    grid.set(xlim=(-0.6, columns - 0.4), ylim=(rows - 0.45, -1.1))
    grid.set_yticks(range(rows), [f"{liquid}\n{keep}" for liquid, keep in zip(liquids, keeps)])
    # every other word stands lower, so that none runs into its neighbour
    grid.set_xticks(range(columns),
                    [kind.replace(" ", "\n") if " " in kind else "\n" * (column % 2) + kind
                     for column, kind in enumerate(kinds)], fontsize=SMALL)
    grid.tick_params("y", labelcolor=INK, labelsize=11.5)
    grid.set_title("\N{BLACK CIRCLE} trade    \N{WHITE CIRCLE} line    larger is better",
                   fontsize=13)
    grid.tick_params("x", labelcolor=INK)
    grid.spines[["left", "bottom"]].set_visible(False)
    total.set(xlim=(0, 1), xticks=[0, 1])
    total.set_xticklabels(["poor", "good"])
    total.tick_params("y", left=False, labelleft=False)
    total.spines[["left", "bottom"]].set_visible(False)
    total.grid(False)
    total.set_title("your herb", fontsize=14, loc="center")
    for column in range(columns):
        for row in range(rows):
            if differs[column][row]:
                grid.add_patch(Rectangle((column - 0.42, row - 0.45), 0.84, 0.9, fill=False,
                                         edgecolor=CAUTION, lw=2.2, ls=(0, (4, 2)), zorder=2))
    x, y = np.meshgrid(np.arange(columns), np.arange(rows), indexing="ij")
    grid.scatter(x.ravel(), y.ravel(), s=20 + 330 * np.ravel(trade), color=HERB, lw=0, zorder=3)
    seen = [column for column in range(columns) if line[column] is not None]
    grid.scatter(np.repeat(seen, rows), np.tile(np.arange(rows), len(seen)),
                 s=20 + 330 * np.concatenate([line[column] for column in seen]),
                 facecolors="none", edgecolors=INK, lw=2, zorder=4)


def chooser(axes, weights, trade, line, seen):
    """What matters, as a bar over each kind, and how the liquids compare.

    Parameters
    ----------
    axes : mapping with "grid" and "total", with `chooser_backdrop`
    weights : array (kind), 0 to 5
    trade, line : arrays (liquid), 0 to 1; `line` None where nothing has a line
    seen : float, 0 to 1, share of the weights that have a line
    """
    grid, total = axes["grid"], axes["total"]
    weights = np.asarray(weights, dtype=float)
    columns, rows = np.arange(len(weights)), np.arange(len(trade))
    high = weights / 5 * 0.5  # in rows, for the most that can matter
    bars = [[(x - 0.4, -0.58), (x + 0.4, -0.58), (x + 0.4, -0.58 - h), (x - 0.4, -0.58 - h)]
            for x, h in zip(columns, high) if h]
    grid.add_collection(PolyCollection(bars, facecolors=RESULT, gid="weights"), autolim=False)
    idle = np.flatnonzero(weights == 0)
    veil = [[(x - 0.48, -0.5), (x + 0.48, -0.5), (x + 0.48, rows[-1] + 0.5),
             (x - 0.48, rows[-1] + 0.5)] for x in idle]
    if len(veil):
        grid.add_collection(PolyCollection(veil, facecolors=PAPER, alpha=0.82, zorder=5),
                            autolim=False)
    for kind, marks, low, colour in (("trade", trade, -0.36, HERB), ("line", line, 0.03, PAPER)):
        if marks is None:
            continue
        top = np.max(marks)
        boxes = [[(0, y + low), (m, y + low), (m, y + low + 0.33), (0, y + low + 0.33)]
                 for y, m in zip(rows, marks)]
        total.add_collection(PolyCollection(boxes, facecolors=colour, edgecolors=INK,
                                            linewidths=1.4, gid=kind), autolim=False)
        for row in np.flatnonzero(marks > top - 0.02):
            total.text(marks[row] - 0.03, row + low + 0.165, "\N{BLACK STAR}",
                       ha="right", va="center", fontsize=13, gid=f"best {kind}",
                       color=PAPER if kind == "trade" else INK)
        short = marks[0] < 0.65
        total.text(marks[0] + 0.03 if short else 0.03, low + 0.165, kind, va="center", fontsize=11,
                   color=INK)
    total.text(0.0, -0.75, f"the line sees {100 * seen:.0f} %", fontsize=SMALL, va="center",
               gid="seen")

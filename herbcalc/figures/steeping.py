"""Steeping, pressing and straining in pictures: what comes out, what stays in the marc.

Each picture has a backdrop, drawn once, and a function that draws what moves from given numbers.
"""

import numpy as np
from matplotlib.patches import Rectangle

from herbcalc.figures.style import CAUTION, HERB, INK, PAPER, RESULT, SOFT, WRONG, mix

BIG = 15  # pt: what the back row must read
SMALL = 12

KEPT = mix(HERB, PAPER, 0.25)  # what the marc keeps
SECOND = mix(RESULT, PAPER, 0.55)  # what a second steep wins


def ratio_words(ratio):
    """A ratio as makers write it; no more digits than a bench can tell apart.

    >>> ratio_words(4.48), ratio_words(23.04)
    ('1:4.5', '1:23')
    """
    return f"1:{ratio:.0f}" if ratio >= 9.95 else f"1:{ratio:.1f}"


# --- the steeping curve --------------------------------------------------------------------------

LONGEST = 56  # days drawn
_DAYS = np.linspace(0, LONGEST, 225)


def day_words(days):
    """A number of days in words.

    >>> day_words(1), day_words(2.5)
    ('1 day', '2.5 days')
    """
    return f"{days:g} day" if days == 1 else f"{days:g} days"


def curve_backdrop(ax, steeped, weeks, quicker, slower):
    """Weeks along the bottom, the trade's weeks as a band, a quicker and a slower pace.

    Parameters
    ----------
    ax : matplotlib axes
    steeped : function(days, half_way) -> share, 0 to 1
    weeks : (float, float), what is common practice
    quicker, slower : float, days after which half has come
    """
    ax.set(xlim=(0, LONGEST), ylim=(0, 108), xticks=np.arange(0, LONGEST + 1, 7),
           yticks=np.arange(0, 101, 25), xlabel="weeks of steeping",
           ylabel="come out, % of what will")
    ax.set_xticklabels([f"{day // 7}" for day in range(0, LONGEST + 1, 7)])
    ax.axvspan(weeks[0] * 7, weeks[1] * 7, color=mix(HERB, PAPER, 0.75), linewidth=0)
    ax.text(sum(weeks) * 3.5, 6, f"{weeks[0]} to {weeks[1]} weeks:\ncommon practice,\nno source",
            ha="center", va="bottom", fontsize=SMALL, linespacing=1.25)
    for half_way, words, at, put in ((quicker, "quicker", 3.2, (2, 8)),
                                     (slower, "slower", 9, (8, -8))):
        ax.plot(_DAYS, 100 * np.asarray(steeped(_DAYS, half_way)), color=WRONG, linewidth=2)
        ax.annotate(words, (at, 100 * float(steeped(at, half_way))), color=SOFT, fontsize=SMALL,
                    xytext=put, textcoords="offset points", va="center")


def curve(ax, days, share, half_way, along):
    """The pace of this jar, and where it stands today.

    Parameters
    ----------
    ax : matplotlib axes with `curve_backdrop`
    days : float
    share : float, 0 to 1, come out by then
    half_way : float, days after which half has come
    along : function(days) -> share
    """
    ax.plot(_DAYS, 100 * np.asarray(along(_DAYS)), color=RESULT, linewidth=4, gid="pace")
    ax.plot([half_way, half_way], [0, 50], color=RESULT, linewidth=1.6, linestyle=":")
    ax.text(half_way + 0.5, 1.5, f"half: {day_words(half_way)}", fontsize=SMALL, color=RESULT,
            va="bottom")
    ax.plot([days], [100 * share], "o", markersize=15, color=RESULT, markeredgecolor=PAPER,
            markeredgewidth=2, gid="today")
    right = days > 40
    ax.annotate(f"day {days:g}: {100 * share:.0f} %", (days, 100 * share),
                xytext=(-14 if right else 14, -15), textcoords="offset points", fontsize=BIG,
                fontweight="bold", color=RESULT, ha="right" if right else "left", va="top",
                gid="words", bbox={"facecolor": PAPER, "edgecolor": "none", "pad": 1.5})


# --- one steep or two ----------------------------------------------------------------------------

ROWS = 3


def steeps_backdrop(ax):
    """A scale of what the herb could give, from nothing to all of it."""
    ax.set(xlim=(0, 128), ylim=(ROWS - 0.35, -0.75), yticks=[], xticks=np.arange(0, 101, 25),
           xlabel="of all the herb could give, %")
    ax.spines["left"].set_visible(False)
    ax.spines["bottom"].set_bounds(0, 100)
    ax.text(126, -0.62, "won", ha="right", va="center", fontsize=SMALL, color=SOFT)


def steeps(ax, rows):
    """One bar a way of steeping: what each draw won, what the marc still holds.

    Parameters
    ----------
    ax : matplotlib axes with `steeps_backdrop`
    rows : sequence of (words, won, mL drawn): `won` the shares (0 to 1) of each draw, or None
        where the liquid only wets the herb
    """
    for place, (words, won, drawn) in enumerate(rows):
        ax.text(0, place - 0.27, words, va="bottom", fontsize=13.5, fontweight="bold")
        if won is None:
            ax.text(1, place, "a pour only wets the herb: nothing comes back",
                    va="center", fontsize=13, color=CAUTION)
            continue
        edge = 0.0
        for nth, share in enumerate(won):
            width = 100 * share
            ax.add_patch(Rectangle((edge, place - 0.22), width, 0.44, edgecolor=INK,
                                   facecolor=RESULT if nth == 0 else SECOND,
                                   linewidth=1.2, gid=f"won {place} {nth}"))
            if width > 13:
                name = ("1st draw" if nth == 0 else "2nd draw") if len(won) > 1 else "won"
                ax.text(edge + width / 2, place, f"{name} {width:.0f} %" if width > 22 else
                        f"{width:.0f} %", ha="center", va="center", fontsize=13,
                        color=PAPER if nth == 0 else INK)
            edge += width
        ax.add_patch(Rectangle((edge, place - 0.22), 100 - edge, 0.44, facecolor=KEPT,
                               edgecolor=INK, hatch="//", linewidth=1.2, gid=f"left {place}"))
        if 100 - edge > 17:
            ax.text((edge + 100) / 2, place, "in the marc", ha="center", va="center", fontsize=13,
                    bbox={"facecolor": KEPT, "edgecolor": "none", "pad": 2})
        ax.text(126, place, f"{100 * sum(won):.0f} %\nin {drawn:.0f} mL", ha="right", va="center",
                fontsize=BIG, fontweight="bold", color=RESULT, linespacing=1.1,
                gid=f"total {place}")


# --- pressing ------------------------------------------------------------------------------------

MOST = 500  # mL on the scale


def press_backdrop(ax):
    """A scale in mL; one bar a way of pressing will lie on it."""
    ax.set(xlim=(0, MOST), ylim=(4.55, -0.75), yticks=[], xticks=np.arange(0, MOST + 1, 100),
           xlabel="what comes out, mL")
    ax.spines["left"].set_visible(False)


def press(ax, rows, inside, colour):
    """What each way of pressing wins out of one jar.

    Parameters
    ----------
    ax : matplotlib axes with `press_backdrop`
    rows : sequence of (words, mL won, mL won per g of herb) or (words, None, why), at most five
    inside : float, mL of liquid in the jar before straining
    colour : str, of the liquid
    """
    for place, (words, won, ratio) in enumerate(rows):
        ax.text(4, place - 0.24, words, va="bottom", fontsize=13, gid=f"way {place}")
        if won is None:
            ax.add_patch(Rectangle((0, place - 0.2), inside, 0.42, facecolor="none",
                                   edgecolor=SOFT, linestyle=(0, (3, 3)), linewidth=1.4))
            ax.text(8, place, ratio, va="center", fontsize=13, color=SOFT, gid=f"none {place}")
            continue
        for left, width, fill, hatch, name in (
            (0, won, colour, "", f"won {place}"), (won, inside - won, KEPT, "//", f"kept {place}"),
        ):
            ax.add_patch(Rectangle((left, place - 0.2), width, 0.42, facecolor=fill, hatch=hatch,
                                   edgecolor=INK, linewidth=1.2, gid=name))
        ax.text(8, place + 0.01, f"{won:.0f} mL", va="center", fontsize=BIG, fontweight="bold",
                bbox={"facecolor": colour, "edgecolor": "none", "pad": 1})
        if won > 190:
            ax.text(won - 6, place + 0.01, ratio_words(ratio), va="center", ha="right", fontsize=13,
                    color=INK)
    dripped = rows[0][1]
    if dripped is not None and inside - dripped > 75:
        ax.text((inside + dripped) / 2, 0.01, "the marc", ha="center", va="center", fontsize=13,
                bbox={"facecolor": KEPT, "edgecolor": "none", "pad": 2})


# --- the yield against the published one ---------------------------------------------------------

RETAINED = (0.0, 3.0)  # mL per g of dry herb on the scale
PUBLISHED_RATIO = 5.0
PUBLISHED_YIELD = (4.0, 4.5)  # Cooperation Phytopharmaceuticals, Tincture: from 1:5


def yield_backdrop(ax, ways):
    """What the marc keeps along the bottom, what is won upwards, and the published band.

    Parameters
    ----------
    ax : matplotlib axes
    ways : mapping of words to mL kept per g of dry herb: a guide each
    """
    ax.set(xlim=RETAINED, ylim=(0, 12.6), xticks=np.arange(0, 3.1, 0.5), yticks=range(0, 11, 2),
           xlabel="the marc keeps, mL for 1 g of dry herb", ylabel="won, mL for 1 g of herb")
    ax.axhspan(*PUBLISHED_YIELD, color=mix(HERB, PAPER, 0.72), linewidth=0)
    ax.text(2.97, sum(PUBLISHED_YIELD) / 2, "published for 1:5:  1:4 to 1:4.5", ha="right",
            va="center", fontsize=SMALL)
    for words, kept in ways.items():
        ax.plot([kept, kept], [0, 11], color=SOFT, linewidth=1.2, linestyle=(0, (2, 3)))
        first, _, rest = words.partition(" ")
        ax.text(kept, 11.1, f"{first}\n{rest}", ha="center", va="bottom", fontsize=SMALL,
                linespacing=1.05)


def yields(ax, ratio, line, own):
    """The line of a poured ratio, and the student's own marc on it.

    Parameters
    ----------
    ax : matplotlib axes with `yield_backdrop`
    ratio : float, mL poured for 1 g of herb
    line : function(mL kept per g of dry herb) -> mL won per g of herb
    own : float, the student's own
    """
    kept = np.array(RETAINED)
    ax.plot(kept, np.maximum(line(kept), 0), color=RESULT, linewidth=3.5, gid="line")
    ax.text(0.03, line(0) + 0.3, f"poured at 1:{ratio:g}", va="bottom", fontsize=13, color=RESULT,
            fontweight="bold")
    won = max(line(own), 0)
    ax.plot([own], [won], "D", color=CAUTION, markersize=13, markeredgecolor=PAPER,
            markeredgewidth=1.5, gid="own")
    left = own > 2.3
    ax.annotate(f"yours: {ratio_words(won)}", (own, won), xytext=(-10 if left else 10, -12),
                textcoords="offset points", fontsize=BIG, fontweight="bold", va="top",
                ha="right" if left else "left", gid="words")


# --- straining -----------------------------------------------------------------------------------

GRAINS = (0.01, 5.0)  # mm on the scale


def sieve_backdrop(ax, rows):
    """One line a sieve or cloth, its opening on a scale in mm.

    Parameters
    ----------
    ax : matplotlib axes
    rows : sequence of (words, opening in mm), finest last
    """
    ax.set(xscale="log", xlim=GRAINS, ylim=(len(rows) - 0.4, -1.1), yticks=range(len(rows)),
           xlabel="size, mm (each step ten times the last)")
    ax.set_xticks([0.01, 0.1, 1], ["0.01", "0.1", "1"])
    ax.set_yticklabels([words for words, _ in rows])
    ax.minorticks_off()
    ax.grid(axis="y", visible=False)
    for place, (_, opening) in enumerate(rows):
        ax.add_patch(Rectangle((GRAINS[0], place - 0.3), opening - GRAINS[0], 0.6,
                               facecolor=mix(RESULT, PAPER, 0.8), edgecolor="none"))
        ax.plot([opening, opening], [place - 0.36, place + 0.36], color=INK, linewidth=2.5)


def sieve(ax, rows, grain, through, chosen):
    """A grain held against every sieve: through, or kept on top.

    Parameters
    ----------
    ax : matplotlib axes with `sieve_backdrop`
    rows : the same rows
    grain : float, mm
    through : sequence of bool, one a row
    chosen : int, the row the student strains with
    """
    ax.plot([grain, grain], [-0.5, len(rows) - 0.4], color=HERB, linewidth=3, zorder=2.5)
    ax.text(grain, -0.75, f"grain of {grain:g} mm", ha="center", va="center", fontsize=13,
            fontweight="bold", gid="grain")
    for place, passes in enumerate(through):
        ax.plot([grain], [place], "o" if not passes else "v", markersize=11,
                color=HERB if not passes else RESULT, markeredgecolor=PAPER, zorder=3)
        ax.text(4.7, place, "through" if passes else "held", ha="right", va="center",
                fontsize=13, fontweight="bold" if place == chosen else "normal",
                color=RESULT if passes else INK, gid=f"row {place}")
    ax.add_patch(Rectangle((GRAINS[0] * 1.01, chosen - 0.46), GRAINS[1] * 0.985, 0.92,
                           facecolor="none", edgecolor=INK, linewidth=2.2, gid="chosen"))

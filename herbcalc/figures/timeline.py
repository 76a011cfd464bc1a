"""Keeping in pictures: all classes on one line of time, the three ladders, dates, and spoilage.

Each picture has a backdrop, drawn once, and a function that draws what moves from given numbers.
Time runs on a log scale: each step to the right is several times as long as the one before.
"""

import numpy as np
from matplotlib.collections import LineCollection, PolyCollection
from matplotlib.patches import Arc, Circle, Rectangle

from herbcalc.figures.jar import draw_glass, draw_jar, place_of, vessel_axes
from herbcalc.figures.style import (
    ACID, AIR, CAUTION, CORK, DRIED_SHADE, ETHANOL, GLYCERIN, HERB, INK, PAPER, RESULT, SOFT, WATER,
    mix,
)

BIG = 15  # pt: what the back row must read
SMALL = 12

TIMES = {"1 day": 1, "1 week": 7, "1 month": 30, "1 year": 365, "5 years": 1825, "20 years": 7300}
SPAN = (0.8, 9500)  # days drawn
COLOURS = {"strength": ETHANOL, "free water": GLYCERIN, "acid": ACID, "nothing": CAUTION}


def time_axis(ax, span=SPAN):
    """Days along the bottom on a log scale, marked in the words people use."""
    shown = {words: days for words, days in TIMES.items() if span[0] <= days <= span[1]}
    ax.set(xscale="log", xlim=span)
    ax.set_xticks(list(shown.values()), list(shown))
    ax.minorticks_off()


# --- all the classes on one line of time ---------------------------------------------------------


def limit_words(what, limit):
    """The limit of a class, with its unit.

    >>> limit_words("strength", 40.0), limit_words("free water", 0.75)
    ('from 40 % vol', 'water activity to 0.75')
    """
    return {
        "strength": f"from {limit:g} % vol", "free water": f"water activity to {limit:.2f}",
        "acid": f"from {limit:g} g acid in 100 mL", "nothing": "none of the three",
    }[what]


def classes_backdrop(ax, rows):
    """One line a class, its range a bar; those for the refrigerator are hatched.

    Parameters
    ----------
    ax : matplotlib axes
    rows : sequence of (what keeps it, name, words of its limit, low days, high days, cold)
    """
    time_axis(ax)
    ax.set(ylim=(len(rows) - 0.3, -1.15), yticks=range(len(rows)))
    ax.set_yticklabels([f"{name}\n{limit}" for _, name, limit, *_ in rows], fontsize=11,
                       linespacing=0.95)
    ax.grid(axis="y", visible=False)
    ax.spines["left"].set_visible(False)
    before = rows[0][0]
    for place, (what, _, _, low, high, cold) in enumerate(rows):
        if what != before:
            ax.plot(SPAN, [place - 0.5] * 2, color=SOFT, linewidth=0.8)
            before = what
        ax.add_patch(Rectangle((low, place - 0.27), high - low, 0.54, edgecolor=INK, linewidth=1,
                               facecolor=mix(COLOURS[what], PAPER, 0.55 if cold else 0.15),
                               hatch="xx" if cold else "", gid=f"class {place}"))
    ax.add_patch(Rectangle((0.9, -0.98), 0.55, 0.46, facecolor=PAPER, edgecolor=INK, hatch="xx"))
    ax.text(1.6, -0.75, "in the refrigerator", va="center", fontsize=SMALL)


def classes(ax, place, low, high, words):
    """The student's batch: its row framed, its range laid on the line of time.

    Parameters
    ----------
    ax : matplotlib axes with `classes_backdrop`
    place : int, its row
    low, high : float, days
    words : str, what it is and its range
    """
    ax.add_patch(Rectangle((SPAN[0] * 1.01, place - 0.47), SPAN[1] * 0.99, 0.94,
                           facecolor=mix(RESULT, PAPER, 0.86), edgecolor=RESULT, linewidth=2.5,
                           zorder=0.5, gid="frame"))
    ax.add_patch(Rectangle((low, place - 0.27), high - low, 0.54, facecolor=RESULT,
                           edgecolor=INK, zorder=2, gid="batch"))
    if low > 60:
        ax.text(low * 0.88, place, words, ha="right", va="center", fontsize=BIG,
                fontweight="bold", color=RESULT, gid="words")
    else:
        ax.text(high * 1.14, place, words, ha="left", va="center", fontsize=BIG,
                fontweight="bold", color=RESULT, gid="words")


# --- the three ladders ---------------------------------------------------------------------------

SCALES = {  # where each scale begins and ends; the better end lies right
    "strength": (0, 60, "strength, % vol"),
    "free water": (1.0, 0.6, "water activity, from all free to bound"),
    "acid": (0, 6, "acid, g in 100 mL"),
}
LADDER_ROWS = list(SCALES)


def along(what, value):
    """Where a value lies on its scale, 0 to 1, held at the ends."""
    low, high, _ = SCALES[what]
    return float(np.clip((value - low) / (high - low), 0, 1))


def ladders_axes(figure):
    """The jar on the left, the three scales on the right."""
    return figure.subplots(1, 2, width_ratios=[1, 1.4])


def ladders_backdrop(axes, limits, capacity):
    """The jar's glass, and three scales with their rungs.

    Parameters
    ----------
    axes : (jar, scales)
    limits : mapping of what keeps it to (limit, words of the range from there on), worst first
    capacity : float, mL of the jar
    """
    jar, ax = axes
    vessel_axes(jar, left=-1.85, right=2.45)
    draw_glass(jar, capacity)
    ax.set(xlim=(-0.03, 1.06), ylim=(2.75, -0.62))
    ax.set_axis_off()
    for row, what in enumerate(LADDER_ROWS):
        low, high, words = SCALES[what]
        edges = [0.0, *(along(what, limit) for limit, _ in limits[what]), 1.0]
        for step, (left, right) in enumerate(zip(edges, edges[1:])):
            fade = (0.88, 0.72, 0.5, 0.12)[step]
            ax.add_patch(Rectangle((left, row - 0.13), right - left, 0.26, edgecolor=INK,
                                   facecolor=mix(COLOURS[what], PAPER, fade), linewidth=1.2))
        ax.text(0, row - 0.36, words, fontsize=13, va="center")
        for limit, _ in limits[what]:
            ax.text(along(what, limit), row + 0.18, f"{limit:g}", ha="center", va="top",
                    fontsize=SMALL)
        ax.text(0, row + 0.18, f"{low:g}", ha="center", va="top", fontsize=SMALL, color=SOFT)


def ladders(axes, capacity, parts, total, values, ranges, deciding):
    """The liquid in its jar, and where it stands on each of the three scales.

    Parameters
    ----------
    axes : (jar, scales) with `ladders_backdrop`
    capacity : float, mL of the jar
    parts : mapping, of the liquid, mL
    total : float, mL of the liquid
    values : mapping of what keeps it to the liquid's value
    ranges : mapping of what keeps it to the range it alone would give, in words
    deciding : str, the scale that decides, or "nothing"
    """
    jar, ax = axes
    draw_jar(jar, capacity, liquid_volume=total, parts=parts, glass=False)
    for row, what in enumerate(LADDER_ROWS):
        decides = what == deciding
        x = along(what, values[what])
        colour = RESULT if decides else SOFT
        ax.plot([x], [row], "D", markersize=15 if decides else 11, color=colour,
                markeredgecolor=PAPER, markeredgewidth=2, gid=f"at {what}")
        ax.text(1.04, row - 0.36, ranges[what], ha="right", va="center", color=colour,
                fontsize=BIG if decides else SMALL, fontweight="bold" if decides else "normal",
                gid=f"range {what}")
        if decides:
            ax.add_patch(Rectangle((-0.025, row - 0.56), 1.08, 1.0, facecolor="none",
                                   edgecolor=RESULT, linewidth=2.5, gid="deciding"))


# --- dates ---------------------------------------------------------------------------------------

DATES_SPAN = (0.7, 11000)  # days drawn


def dates_backdrop(ax):
    """A line of time from the day it is made."""
    time_axis(ax, DATES_SPAN)
    ax.set(ylim=(-1.25, 1.6), yticks=[], xlabel="after the day it was made")
    ax.spines["left"].set_visible(False)
    ax.grid(visible=False)
    ax.plot(DATES_SPAN, [0, 0], color=SOFT, linewidth=2)


def dates(ax, days, labels, use_by, high, use_by_words, cold):
    """Days to look and smell, and the day it is thrown out.

    Parameters
    ----------
    ax : matplotlib axes with `dates_backdrop`
    days : sequence of int, days after which to look, rising, without the last
    labels : sequence of str, the dates
    use_by, high : float, days: both ends of the range
    use_by_words : str, the date
    cold : bool, whether it stands in the refrigerator
    """
    ax.add_patch(Rectangle((DATES_SPAN[0], -0.13), use_by - DATES_SPAN[0], 0.26,
                           facecolor=mix(HERB, PAPER, 0.45), edgecolor="none", gid="keeps"))
    ax.add_patch(Rectangle((use_by, -0.13), high - use_by, 0.26, facecolor=mix(CAUTION, PAPER, 0.6),
                           edgecolor=INK, hatch="xx", gid="doubtful"))
    ax.plot(days, np.zeros(len(days)), "o", color=PAPER, markeredgecolor=INK, markeredgewidth=2,
            markersize=10, gid="looks")
    last = 0.0
    for day, label in zip(days, labels):
        if np.log10(day) - last < 0.2 and day > 1 or np.log10(use_by / day) < 0.14:
            continue
        last = np.log10(day)
        ax.text(day, 0.22, label, rotation=38, ha="left", va="bottom", fontsize=SMALL,
                rotation_mode="anchor")
    ax.plot([use_by, use_by], [-0.75, 0.2], color=CAUTION, linewidth=4, gid="use by")
    ha = "right" if use_by > 60 else "left"
    ax.text(use_by, -0.8, f"use by {use_by_words}", ha=ha, va="top", fontsize=BIG + 1,
            fontweight="bold", color=CAUTION, gid="use by words")
    ax.text(DATES_SPAN[0], 1.5, "look and smell on" + (" · keep in the refrigerator" if cold else
            " · keep cool and dark"), va="top", fontsize=SMALL, color=SOFT, gid="place")


# --- signs of spoilage ---------------------------------------------------------------------------

JAR = 500
_FILLED = 460
SIGNS = ("skin", "bubbles", "cloud", "brown", "smell", "rust", "label")


def spoilage_backdrop(ax):
    """The jar of herb in the middle of the bench."""
    vessel_axes(ax, left=-3.1, right=3.1, top=3.35)
    draw_jar(ax, JAR, herb_volume=330, liquid_volume=_FILLED, parts={"ethanol": 40, "water": 60},
             herb_kind="leaf", bar=False, gauge=False)


def spoilage(ax, seen):
    """What was seen or smelled, drawn on the jar of the backdrop.

    Parameters
    ----------
    ax : matplotlib axes with `spoilage_backdrop`
    seen : sequence of str, some of `SIGNS`
    """
    place = place_of(JAR, _FILLED)
    level = place.level
    chance = np.random.default_rng(3)
    if "cloud" in seen:
        ax.add_patch(Rectangle((-0.98, 0.05), 1.96, level - 0.07, facecolor=mix(SOFT, PAPER, 0.55),
                               alpha=0.72, zorder=2.7, gid="cloud"))
        x = np.linspace(-0.8, 0.8, 60)
        for y in (0.45, 0.9, 1.35):
            ax.plot(x, y + 0.09 * np.sin(9 * x + y), color=PAPER, linewidth=5, alpha=0.8,
                    zorder=2.75)
    if "brown" in seen:
        spots = [Circle((x, level + 0.01 + 0.06 * (i % 2)), 0.13) for i, x in
                 enumerate(np.linspace(-0.55, 0.55, 6))]
        for spot in spots:
            spot.set(facecolor=DRIED_SHADE, edgecolor=INK, linewidth=1, zorder=2.95)
            ax.add_patch(spot)
        _note(ax, (0.6, level + 0.05), (1.45, level + 0.28), "stands out, brown", "brown")
    if "skin" in seen:
        for x in np.linspace(-0.62, 0.62, 9):
            size = chance.uniform(0.07, 0.12)
            turns = np.linspace(0, 2 * np.pi, 15)[:-1]
            middle = np.array([x, level + 0.02])
            out = np.column_stack([np.cos(turns), np.sin(turns)])
            ax.add_collection(LineCollection(
                np.stack([middle + out * 0, middle + out * size * 1.5], axis=1), colors=INK,
                linewidths=0.9, zorder=3.05))
            ax.add_patch(Circle(middle, size, facecolor=mix(HERB, PAPER, 0.75), edgecolor=SOFT,
                                zorder=3.06))
        _note(ax, (-0.6, level + 0.05), (-1.45, level + 0.32), "skin, fluff", "skin")
    if "bubbles" in seen:
        for _ in range(26):
            ax.add_patch(Circle((chance.uniform(-0.8, 0.8), chance.uniform(0.2, level - 0.1)),
                                chance.uniform(0.03, 0.07), facecolor=PAPER, edgecolor=SOFT,
                                linewidth=1, zorder=2.9))
        ax.add_patch(Arc((0, place.top + 0.22), 1.6, 0.5, theta1=0, theta2=180, color=CAUTION,
                         linewidth=5, zorder=3.7))
        _note(ax, (0.6, place.top + 0.38), (1.3, place.top + 0.5), "lid bulges, fizz", "bubbles")
    if "smell" in seen:
        y = np.linspace(0, 0.42, 30)
        for x in (-0.35, 0, 0.35):
            ax.plot(x + 0.07 * np.sin(15 * y), place.top + 0.42 + y, color=CAUTION, linewidth=3.5)
        _note(ax, (-0.45, place.top + 0.62), (-1.3, place.top + 0.62), "wrong smell", "smell")
    if "rust" in seen:
        for x in np.linspace(-0.7, 0.7, 8):
            ax.add_patch(Circle((x, place.top + chance.uniform(0.05, 0.2)),
                                chance.uniform(0.03, 0.06), facecolor=mix(CORK, CAUTION, 0.35),
                                edgecolor="none", zorder=3.8))
        crack = np.array([(0.98, 1.5), (0.82, 1.25), (0.93, 1.05), (0.76, 0.8), (0.86, 0.62)])
        ax.plot(*crack.T, color=INK, linewidth=2.5, zorder=3.8)
        _note(ax, (0.95, 1.3), (1.45, 1.3), "rust, crack", "rust")
    lost = "label" in seen
    ax.add_patch(Rectangle((-0.7, 0.42), 1.4, 0.62, facecolor=PAPER, zorder=3.3,
                           edgecolor=CAUTION if lost else INK, linewidth=3 if lost else 1.5,
                           linestyle="--" if lost else "-", gid="paper"))
    ax.text(0, 0.73, "?" if lost else "thyme, 45 % vol\nmade 14 Jan 2027", ha="center",
            va="center", fontsize=30 if lost else 11, zorder=3.4,
            color=CAUTION if lost else INK, fontweight="bold" if lost else "normal")
    if lost:
        _note(ax, (-0.7, 0.73), (-1.45, 0.73), "no label, or\npast its date", "label")
    if "cloud" in seen:
        _note(ax, (-0.9, 1.35), (-1.45, 1.42), "cloudy, ropy", "cloud")
    ax.text(0, -0.16, "throw it out" if seen else "nothing seen today", ha="center", va="top",
            fontsize=BIG + 2, fontweight="bold", color=CAUTION if seen else INK, gid="verdict")


def _note(ax, start, end, words, gid):
    right = end[0] > 0
    ax.plot([start[0], end[0]], [start[1], end[1]], color=CAUTION, linewidth=1.8, zorder=3.9)
    ax.text(end[0] + (0.06 if right else -0.06), end[1], words, ha="left" if right else "right",
            va="center", fontsize=BIG, fontweight="bold", color=CAUTION, gid=gid)

"""Herbs in jars: what the herb's water does to the strength, and what an eyeballed jar holds.

Every function draws on given axes from given numbers. Jars stand on axes prepared by
`herbcalc.figures.jar.vessel_axes`; the strips and scales have a backdrop function of their own.
"""

import textwrap

import numpy as np
from matplotlib.patches import Rectangle

from herbcalc.figures.jar import draw_jar, draw_parts, vessel_axes
from herbcalc.figures.style import (
    CAUTION, HERB, INK, MISTAKE_LINE, PAPER, RESULT, SOFT, WATER, tint,
)
from herbcalc.jar import ratio_words

WATER_DENSITY = 0.9982  # g/mL at 20 degC: a herb's water in g becomes mL in the bar of parts

_KINDS = {  # how a part of a plant is drawn, once cut
    "root": "root", "rhizome": "root", "bulb": "root", "bark": "root", "stem": "root",
    "seed": "seed", "bud": "seed", "fruit": "seed", "berry": "seed",
    "flower": "flower", "stigma": "flower",
}


def herb_kind(part, form=""):
    """Which pieces stand for a part of a plant in the drawn jar.

    Parameters
    ----------
    part, form : str
        As in the herb table: "leaf", "root" ...; "whole", "ground" ...

    Returns
    -------
    str
        One of `herbcalc.figures.jar.HERB_KINDS`.

    Examples
    --------
    >>> herb_kind("rhizome", "sliced"), herb_kind("rhizome", "ground"), herb_kind("herb")
    ('root', 'powder', 'leaf')
    """
    if any(word in form.lower() for word in ("ground", "powder")):
        return "powder"
    return _KINDS.get(part.lower(), "leaf")


def spirit_parts(volume, abv, herb_water=0.0):
    """Parts of a liquid for the drawn jar, in mL that add up to its volume.

    Parameters
    ----------
    volume : float
        Of the whole liquid, mL.
    abv : float
        Its strength, % vol.
    herb_water : float
        How much of its water came out of the herb, g.

    Returns
    -------
    dict of str to float
        "ethanol", "herb's water" and "water", mL. What the mixture shrinks by is taken off the
        water, so that the alcohol is what the label counts.
    """
    ethanol = volume * abv / 100
    hidden = min(herb_water / WATER_DENSITY, volume - ethanol)
    return {"ethanol": ethanol, "herb's water": hidden, "water": volume - ethanol - hidden}


# --- strength, poured and in the end -------------------------------------------------------------


KEEPING_NOTE = "keeping strength: 40 % vol and up (common practice)"


def strength_strip_backdrop(ax, keeps=40.0, note=KEEPING_NOTE):
    """A strip from 0 to 100 % vol, with the strength a tincture is kept at marked.

    Parameters
    ----------
    ax : matplotlib axes
    keeps : float
        Keeping strength, % vol (common practice, no source).
    note : str
        What is said of it.
    """
    ax.set(xlim=(0, 100), ylim=(0, 1), yticks=[], xlabel="Strength [% vol]")
    ax.set_xticks(range(0, 101, 20))
    ax.grid(False)
    ax.spines["left"].set_visible(False)
    ax.axvspan(keeps, 100, color=tint({"ethanol": 1}), alpha=0.4, lw=0)
    ax.axvline(keeps, color=SOFT, lw=1.5)
    ax.text(100, 1.04, note, ha="right", va="bottom", fontsize=12, color=SOFT)


def draw_strengths(ax, poured, ends, decimals=0):
    """Where a jar starts and where it ends, on the strip of strengths.

    Parameters
    ----------
    ax : matplotlib axes
        With `strength_strip_backdrop`.
    poured : float
        Strength poured, % vol.
    ends : mapping of str to float
        Words to the strength in the end, % vol; one or two of them.
    decimals : int
        Decimals told: 0 or 1.
    """
    line = 0.5
    ax.plot([poured], [line], "o", color=INK, markerfacecolor=PAPER, markeredgewidth=2.5,
            markersize=13)
    at, side = _beside(poured)
    ax.text(at, 0.7, f"poured {percent(poured, decimals)}", ha=side, va="bottom")
    ranked = sorted(ends.items(), key=lambda item: item[1])
    for place, (words, strength) in enumerate(ranked):
        if poured - strength > 2:
            ax.annotate(
                "", xy=(strength + 0.8, line), xytext=(poured - 0.8, line),
                arrowprops={"arrowstyle": "-|>", "color": RESULT, "lw": 3, "shrinkA": 0,
                            "shrinkB": 0, "mutation_scale": 20},
            )
        ax.plot([strength], [line], "D" if place == 0 else "s", color=RESULT)
        at, side = _beside(strength)
        if len(ranked) == 2:  # the weaker to the left, the stronger to the right of a gap
            gap = min(max(ranked[0][1] + 1, 32), 66)
            side = ("right", "left")[place]
            at = gap if place == 0 else max(min(strength - 1, 70), gap + 3)
        ax.text(at, 0.3, f"{words} {percent(strength, decimals)}", va="top", ha=side,
                color=RESULT, fontweight="bold")


def _beside(strength):
    """Where words about a strength stand, and to which side, so that they stay on the strip."""
    if strength < 30:
        return max(strength - 5, 0), "left"
    if strength > 70:
        return min(strength + 4, 100), "right"
    return strength, "center"


def percent(strength, decimals=0):
    """A strength in words: whole % vol as a rule, as a jar can be known.

    Examples
    --------
    >>> percent(32.4)
    '32\\xa0% vol'
    """
    return f"{strength:.{decimals}f}\u00a0% vol"


# --- two jars ------------------------------------------------------------------------------------

APART = 4.75  # from the middle of one jar to the middle of the next, in jar radii


def pair_backdrop(ax, bars=True):
    """Axes for `draw_pair`; without bars of parts the jars stand larger."""
    vessel_axes(ax, left=-2.15, right=7.9 if bars else 6.6, top=2.85)


def draw_pair(ax, left, right, bars=True):
    """Two jars side by side, each with its bar of parts.

    Parameters
    ----------
    ax : matplotlib axes
        With `pair_backdrop`.
    left, right : mapping
        What `herbcalc.figures.jar.draw_jar` takes.
    bars : bool
        Whether to draw the bars.
    """
    for jar, more in ((left, {}), (right, {"x": APART, "gauge": False})):
        place = draw_jar(ax, **{"bar": False} | jar | more)
        if bars:
            _draw_bar(ax, jar["parts"], place)


def _draw_bar(ax, parts, place):
    """The bar of parts beside a jar, without what would read as 0 mL."""
    parts = {part: amount for part, amount in parts.items() if amount >= 0.5}
    draw_parts(ax, parts, place.right + 0.15, 0.0, max(place.level, 0.3))


def draw_one(ax, jar):
    """One jar with its bar of parts; `jar` is a mapping of what `draw_jar` takes."""
    place = draw_jar(ax, **{"bar": False} | jar)
    _draw_bar(ax, jar["parts"], place)


# --- which strength to pour ----------------------------------------------------------------------


def end_against_poured_backdrop(ax):
    """Axes for the strength in the end against the strength poured."""
    ax.set(xlim=(0, 100), ylim=(0, 100), xlabel="Strength poured [% vol]",
           ylabel="In the end [% vol]")
    ax.set_xticks(range(0, 101, 10))
    ax.set_yticks(range(0, 101, 20))
    ax.plot([0, 100], [0, 100], **MISTAKE_LINE)
    ax.text(72, 88, "if the herb brought no water ", ha="right", va="center", color=SOFT)
    ax.plot([72, 85], [88, 86], color=SOFT, lw=1)


def draw_end_against_poured(ax, poured, ends, wanted, answer):
    """The curve of one herb and ratio, the strength wanted and what must be poured for it.

    Parameters
    ----------
    ax : matplotlib axes
        With `end_against_poured_backdrop`.
    poured, ends : arrays
        Strength poured and in the end, % vol.
    wanted : float
        Strength wanted in the end, % vol.
    answer : float or None
        Strength to pour, % vol; None where no spirit sold reaches it.
    """
    ax.plot(poured, ends, color=RESULT)
    dotted = {"color": RESULT, "lw": 2, "ls": (0, (1, 1.5))}
    if answer is None:
        ax.plot([0, 100], [wanted, wanted], **dotted)
        ax.plot([poured[-1]], [ends[-1]], "D", color=RESULT)
        _note(ax, 98, ends[-1] - 7, f"{poured[-1]:.0f} % vol ends at {percent(ends[-1])}",
              ha="right", va="top")
    else:
        ax.plot([0, answer, answer], [wanted, wanted, 0], **dotted)
        ax.plot([answer], [wanted], "D", color=RESULT)
        left = answer > 60
        _note(ax, answer - 2 if left else answer + 2, 3, f"pour {percent(answer)}", va="bottom",
              ha="right" if left else "left")
    _note(ax, 1, wanted + 2, f"wanted {percent(wanted)}", va="bottom", ha="left")


def _note(ax, x, y, words, **more):
    """Words on a scrap of paper, so that they read over lines."""
    ax.text(x, y, words, color=RESULT, fontweight="bold",
            bbox={"facecolor": PAPER, "edgecolor": "none", "pad": 1.5, "alpha": 0.85}, **more)


def herb_bar_backdrop(ax):
    """Axes for `draw_herb_bar`: what goes into the jar, as shares of the whole."""
    ax.set(xlim=(0, 100), ylim=(-0.75, 0.45))
    ax.set_axis_off()


def draw_herb_bar(ax, mass, water, volume):
    """What goes into the jar, as one bar: the plant, the water hidden in it, and the spirit.

    Parameters
    ----------
    ax : matplotlib axes
        With `herb_bar_backdrop`.
    mass, water : float
        Weight of the herb and of the water in it, g.
    volume : float
        Spirit poured, mL.
    """
    dry = mass - water
    room = np.array([dry / 1.5, water / WATER_DENSITY, volume])  # mL; solids as in herbs.py
    edges = 100 * np.concatenate([[0], np.cumsum(room)]) / room.sum()
    looks = ((HERB, ""), (WATER, "//"), (tint({"water": 1, "ethanol": 1}), ""))
    for (colour, hatch), left, right in zip(looks, edges, edges[1:]):
        ax.add_patch(Rectangle((left, -0.3), right - left, 0.6, facecolor=colour, edgecolor=INK,
                               lw=1.2, hatch=hatch))
    words = (f"plant {dry:.0f} g", f"its water {water:.0f} g", f"spirit {volume:.0f} mL")
    at = [0, max(edges[1], 16), 100]
    for x, said, side in zip(at, words, ("left", "left", "right")):
        ax.text(x, -0.38, said, ha=side, va="top")


# --- what an eyeballed jar holds -----------------------------------------------------------------


ROW_STEP = 2.55  # from the middle of one jar of a row to the next, in jar radii


def jar_row_backdrop(ax, names):
    """Axes for a row of jars, with a name under each; an empty name is left to be drawn.

    Parameters
    ----------
    ax : matplotlib axes
    names : sequence of str
        Two lines each.
    """
    ax.set(xlim=(-1.3, ROW_STEP * (len(names) - 1) + 1.3), ylim=(-1.95, 2.75), aspect="equal")
    ax.set_axis_off()
    for place, name in enumerate(names):
        name_jar(ax, place, name)


def name_jar(ax, place, name):
    """A name of two lines under the jar at `place` of a row."""
    ax.text(place * ROW_STEP, -0.2, name, ha="center", va="top", fontsize=12, linespacing=1.15)


def draw_row_jar(ax, place, mass, ratio, **jar):
    """One jar of a row with its weight of herb and its ratio.

    Parameters
    ----------
    ax : matplotlib axes
        With `jar_row_backdrop`.
    place : int
        0 for the first.
    mass, ratio : float
        Herb in it, g; liquid for each g of it, mL.
    **jar
        What `draw_jar` takes.
    """
    x = place * ROW_STEP
    draw_jar(ax, x=x, bar=False, gauge=False, **jar)
    name_ratio(ax, x, mass, ratio, top=-0.98)


def name_ratio(ax, x, mass, ratio, top=-0.12, cut=""):
    """Weight of herb (with its cut) and ratio of a jar, written under it."""
    ax.text(x, top, f"{mass:.0f} g {cut}".rstrip(), ha="center", va="top")
    ax.text(x, top - 0.42, ratio_words(ratio), ha="center", va="top", color=RESULT, fontsize=19,
            fontweight="bold")


def ratio_strip_backdrop(ax, low=0.15, high=150.0):
    """A strip of ratios, strong on the left.

    Parameters
    ----------
    ax : matplotlib axes
    low, high : float
        Its ends, mL for each g.
    """
    ax.set(xscale="log", xlim=(low, high), ylim=(0, 1), yticks=[],
           xlabel="Liquid for each gram of herb [mL]")
    ticks = [t for t in (0.2, 0.5, 1, 2, 5, 10, 20, 50, 100) if low <= t <= high]
    ax.set_xticks(ticks, [ratio_words(t) for t in ticks])
    ax.set_xticks([], minor=True)
    ax.grid(False)
    ax.spines["left"].set_visible(False)
    ax.text(0, 1.04, "much herb", transform=ax.transAxes, ha="left", va="bottom", fontsize=12,
            color=SOFT)
    ax.text(1, 1.04, "much liquid", transform=ax.transAxes, ha="right", va="bottom", fontsize=12,
            color=SOFT)


def draw_ratios(ax, by_eye, wanted):
    """The ratio wanted and the one an eyeballed jar has, on the strip of ratios.

    Parameters
    ----------
    ax : matplotlib axes
        With `ratio_strip_backdrop`.
    by_eye, wanted : float
        mL for each g.
    """
    low, high = ax.get_xlim()
    line = 0.5
    ax.plot([by_eye, wanted], [line, line], color=RESULT, lw=3)
    for ratio, look, height, side, words in (
        (wanted, {"marker": "o", "markerfacecolor": PAPER, "markeredgewidth": 2.5, "color": INK,
                  "markersize": 13}, 0.7, "bottom", "by weight"),
        (by_eye, {"marker": "D", "color": RESULT}, 0.3, "top", "by eye"),
    ):
        ax.plot([ratio], [line], **look)
        at = min(max(ratio, low * 2.2), high / 2.2)
        ax.text(at, height, f"{words} {ratio_words(ratio)}", ha="center", va=side,
                color=look["color"], fontweight="bold" if side == "top" else "normal")


def grams(density):
    """The weight of one level mL in words, two digits that count.

    Examples
    --------
    >>> grams(0.0791), grams(0.38)
    ('0.079\\xa0g', '0.38\\xa0g')
    """
    return f"{density:.{2 if density >= 0.0995 else 3}f}\u00a0g"


# --- your own weighings --------------------------------------------------------------------------


def density_scale_backdrop(ax, fresh, dried, named=()):
    """The herbs of the table by the weight of a level millilitre, fresh above and dried below.

    Parameters
    ----------
    ax : matplotlib axes
    fresh, dried : sequences of float
        g/mL.
    named : sequence of (float, float, str)
        Places to name: g/mL, row (1 fresh, 0 dried) and words.
    """
    ax.set(xscale="log", xlim=(0.011, 1.6), ylim=(-0.75, 2.0), yticks=[],
           xlabel="Weight of one level mL of herb [g]")
    ax.set_xticks([0.02, 0.05, 0.1, 0.2, 0.5, 1], ["0.02", "0.05", "0.1", "0.2", "0.5", "1"])
    ax.set_xticks([], minor=True)
    ax.spines["left"].set_visible(False)
    ax.plot(fresh, np.ones(len(fresh)), "o", color=HERB, markersize=9, alpha=0.75)
    ax.plot(dried, np.zeros(len(dried)), "s", color=PAPER, markeredgecolor=HERB,
            markeredgewidth=2, markersize=8)
    for y, words in ((1, "fresh"), (0, "dried")):
        ax.text(0.0113, y, words, va="center", color=SOFT)
    for x, y, words in named:
        ax.annotate(words, (x, y), (x, y - 0.4), ha="center", va="center", fontsize=11.5,
                    color=SOFT)


def draw_own_density(ax, density, row, words, kept=()):
    """The student's own herb on the scale of `density_scale_backdrop`.

    Parameters
    ----------
    ax : matplotlib axes
    density : float
        g/mL.
    row : int
        1 fresh, 0 dried.
    words : str
        Its name.
    kept : sequence of (float, int)
        g/mL and row of weighings already written down.
    """
    for x, y in kept:
        ax.plot([x], [y], "D", color=PAPER, markeredgecolor=RESULT, markeredgewidth=2,
                markersize=9)
    ax.plot([density, density], [-0.75, 1.5], color=RESULT, lw=2, ls=(0, (1, 1.5)))
    ax.plot([density], [row], "D", color=RESULT, markersize=13)
    low, high = ax.get_xlim()
    place = (np.log(density) - np.log(low)) / (np.log(high) - np.log(low))
    side = "left" if place < 0.25 else "right" if place > 0.75 else "center"
    ax.text(density, 1.52, f"{words}: {grams(density)}", ha=side, va="bottom", color=RESULT,
            fontweight="bold")


def water_bar_backdrop(ax):
    """Axes for `draw_water_bar`: 0 to 100 % of the herb's weight."""
    ax.set(xlim=(0, 100), ylim=(0, 1), yticks=[], xlabel="Share of its weight [%]")
    ax.set_xticks(range(0, 101, 20))
    ax.grid(False)
    ax.spines["left"].set_visible(False)


def draw_water_bar(ax, water):
    """A herb's share of plant and of water.

    Parameters
    ----------
    ax : matplotlib axes
        With `water_bar_backdrop`.
    water : float
        0 to 1.
    """
    dry = 100 * (1 - water)
    for left, wide, colour, hatch in ((0, dry, HERB, ""), (dry, 100 - dry, WATER, "//")):
        ax.add_patch(Rectangle((left, 0.04), wide, 0.5, facecolor=colour, edgecolor=INK, lw=1.2,
                               hatch=hatch))
    ax.text(0, 0.62, f"plant {dry:.0f} %", va="bottom")
    ax.text(100, 0.62, f"water {100 - dry:.0f} %", va="bottom", ha="right")


# --- how long it keeps, with its reasons ---------------------------------------------------------


def time_strip_backdrop(ax):
    """A strip from one day to thirty years."""
    ax.set(xscale="log", xlim=(0.8, 11000), ylim=(0, 1), yticks=[], xlabel="Keeps for")
    ax.set_xticks([1, 7, 30, 365, 3650], ["a day", "week", "month", "year", "10 years"])
    ax.set_xticks([], minor=True)
    ax.grid(False)
    ax.spines["left"].set_visible(False)


def draw_time(ax, low, high, words):
    """A range of days on the strip of `time_strip_backdrop`, with its words above."""
    ax.add_patch(Rectangle((low, 0.3), high - low, 0.3, facecolor=RESULT, edgecolor=RESULT, lw=2))
    first, last = np.log(ax.get_xlim())
    place = (np.log(low * high) / 2 - first) / (last - first)
    side = "left" if place < 0.35 else "right" if place > 0.65 else "center"
    at = {"left": low, "right": high, "center": np.sqrt(low * high)}[side]
    ax.text(at, 0.68, words, ha=side, va="bottom", color=RESULT, fontweight="bold")


WIDE = 58  # characters in a line of `draw_words`
SMALL_TYPE = 11  # pt


def words_backdrop(ax):
    """Axes for `draw_words`: they count lines from the top down."""
    ax.set(xlim=(0, 1), ylim=(10.5, 0))
    ax.set_axis_off()


def draw_words(ax, blocks):
    """Short headings with sentences under each, from the top down.

    Parameters
    ----------
    ax : matplotlib axes
        With `words_backdrop`.
    blocks : mapping of str to sequence of str
        Headings to sentences; a heading without sentences is left out.

    Returns
    -------
    float
        The line below the last one.
    """
    line = 0.0
    for heading, sentences in blocks.items():
        if not sentences:
            continue
        colour = CAUTION if heading == "Take care" else INK
        ax.text(0, line, heading, va="top", fontweight="bold", color=colour)
        line += 1.3
        for sentence in sentences:
            lines = textwrap.wrap(sentence, WIDE)
            ax.text(0, line, "\n".join(lines), va="top", fontsize=SMALL_TYPE, linespacing=1.2)
            line += len(lines) + 0.3
        line += 0.3
    return line

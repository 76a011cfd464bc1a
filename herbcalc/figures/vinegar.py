"""Vinegar in pictures: a jar beside its acid and its pH, acid that is tied up, four jars compared.

Every function draws on given axes from given numbers; the backdrops hold what never moves.
"""

import numpy as np
from matplotlib.patches import FancyArrowPatch, Rectangle

from herbcalc.figures.jar import draw_glass, draw_jar, vessel_axes
from herbcalc.figures.style import ACID, CAUTION, HERB, INK, PAPER, RESULT, SOFT, mix

BIG = 16  # pt: what the back row must read
SMALL = 12
_SPOILS = mix(CAUTION, PAPER, 0.82)
_ACID = mix(ACID, PAPER, 0.72)


# --- a jar beside its acid and its pH -------------------------------------------------------------

ACIDITIES = (0.0, 10.0)  # g per 100 mL on the scale of acid
ACIDS = (2.0, 6.0)  # pH on the scale of pH


def jar_acid_axes(figure):
    """The jar on the left; on the right the scale of acid above the scale of pH."""
    grid = figure.add_gridspec(2, 2, width_ratios=(1.05, 1))
    return {"jar": figure.add_subplot(grid[:, 0]), "acid": figure.add_subplot(grid[0, 1]),
            "ph": figure.add_subplot(grid[1, 1])}


def _scale(ax, limits, label):
    ax.set(xlim=limits, ylim=(0, 1), yticks=[], xlabel=label)
    ax.grid(False)
    ax.spines["left"].set_visible(False)


def jar_acid_backdrop(axes, jar_volume, acidity_limit, ph_limit):
    """The empty jar, and the two scales with their limits.

    Parameters
    ----------
    axes : mapping with "jar", "acid" and "ph"
    jar_volume : float, mL
    acidity_limit : float, g per 100 mL: what may be called vinegar
    ph_limit : float, the pH of the law for foods
    """
    vessel_axes(axes["jar"], right=2.85)
    draw_glass(axes["jar"], jar_volume)
    ax = axes["acid"]
    _scale(ax, ACIDITIES, "acid [g in 100 mL]")
    ax.set_xticks(range(0, 11, 2))
    ax.axvspan(ACIDITIES[0], acidity_limit, color=_SPOILS, lw=0)
    ax.axvspan(acidity_limit, ACIDITIES[1], color=_ACID, lw=0)
    ax.plot([acidity_limit] * 2, [0, 1], color=CAUTION, lw=2.5, ls=(0, (5, 2)))
    ax.text(acidity_limit + 0.12, 0.9, f"vinegar: {acidity_limit:.0f} g and up (FDA)", va="center",
            fontsize=SMALL)
    ax.text(0.1, 0.9, "watered", va="center", fontsize=13, fontweight="bold", color=CAUTION)
    ax = axes["ph"]
    _scale(ax, ACIDS, "pH [sour is low]")
    ax.set_xticks(range(2, 7))
    ax.axvspan(ACIDS[0], ph_limit, color=_ACID, lw=0)
    ax.axvspan(ph_limit, ACIDS[1], color=_SPOILS, lw=0)
    ax.plot([ph_limit] * 2, [0, 1], color=CAUTION, lw=2.5, ls=(0, (5, 2)))
    ax.text(ph_limit - 0.05, 0.9, f"food law (USA): up to {ph_limit}", ha="right", va="center",
            fontsize=SMALL)
    ax.text(ph_limit + 0.08, 0.57, "strips tell", va="bottom", fontsize=SMALL)
    ax.text(ACIDS[1] - 0.03, 0.9, "too mild", ha="right", va="center", fontsize=SMALL,
            fontweight="bold", color=CAUTION)


def jar_acid(axes, jar, label, poured, final, lowest_ph, limit):
    """The jar once steeped, its acid before and after, and what can be said of its pH.

    Parameters
    ----------
    axes : mapping with "jar", "acid" and "ph", with `jar_acid_backdrop`
    jar : dict, what `draw_jar` takes
    label : str, stands below the jar
    poured, final : float, g of acid per 100 mL poured and in the end
    lowest_ph : float, the pH of the acid alone: the real one is higher
    limit : float, g per 100 mL, as in the backdrop
    """
    draw_jar(axes["jar"], glass=False, **jar)
    axes["jar"].text(0, -0.14, label, ha="center", va="top", fontweight="bold", gid="label")
    ax = axes["acid"]
    if poured - final > 0.25:
        ax.add_patch(FancyArrowPatch((poured - 0.1, 0.5), (final + 0.1, 0.5), arrowstyle="-|>",
                                     mutation_scale=22, shrinkA=0, shrinkB=0, color=RESULT, lw=3))
        ax.text(min(max(poured - 1, limit + 0.12), 7.3), 0.66, f"poured {poured:.1f} g",
                va="bottom", fontsize=SMALL)
    ax.plot([poured], [0.5], "o", color=INK, markerfacecolor=PAPER, markeredgewidth=2.5,
            markersize=13, clip_on=False)
    ax.plot([final], [0.5], "D", color=RESULT, markersize=12, clip_on=False, gid="end")
    watered = final < limit  # the words stay on their own side of the limit
    at = (max(min(final + 1.3, limit - 0.15), 3.1) if watered
          else min(max(final - 1.3, limit + 0.15), 6.8))
    ax.text(at, 0.34, f"ends {final:.1f} g", va="top", ha="right" if watered else "left",
            fontsize=BIG, fontweight="bold", color=RESULT, gid="end words")
    ax = axes["ph"]
    ax.add_patch(FancyArrowPatch((lowest_ph, 0.5), (ACIDS[1] - 0.3, 0.5), arrowstyle="-|>",
                                 mutation_scale=22, shrinkA=0, shrinkB=0, color=HERB, lw=3,
                                 linestyle=(0, (4, 2))))
    ax.plot([lowest_ph], [0.5], ">", color=RESULT, markersize=14, gid="ph")
    ax.text(lowest_ph, 0.34, f"at least {lowest_ph:.1f}", va="top", ha="left", fontsize=BIG,
            fontweight="bold", color=RESULT, gid="ph words")
    ax.text(lowest_ph + 0.25, 0.57, "the herb pushes it up", va="bottom", fontsize=SMALL)


# --- acid that is tied up -------------------------------------------------------------------------

MOST_SODA = 6.0  # g in 100 mL, the end of the scale
PH_SCALE = (2.0, 7.0)


def tied_backdrop(ax, soda, ph, acidity, limit):
    """The scale, the limit, and the line of a common vinegar.

    Parameters
    ----------
    ax : matplotlib axes
    soda : array, g of baking soda in 100 mL, rising
    ph : array, pH of a common vinegar with it
    acidity : float, g of acid per 100 mL of that vinegar
    limit : float, the pH of the law for foods
    """
    ax.set(xlim=(0, MOST_SODA), ylim=PH_SCALE, yticks=range(2, 8), ylabel="pH [sour is low]",
           xlabel="acid taken up, as if by baking soda [g in 100 mL]")
    ax.axhspan(limit, PH_SCALE[1], color=_SPOILS, lw=0)
    ax.plot([0, MOST_SODA], [limit] * 2, color=CAUTION, lw=2.5, ls=(0, (5, 2)))
    ax.text(MOST_SODA - 0.05, limit - 0.08, f"{limit}: food law (USA), 21 CFR 114.3", ha="right",
            va="top", fontsize=SMALL)
    ax.text(0.08, PH_SCALE[1] - 0.15, "not sour enough to keep by its acid", va="top",
            fontsize=14, fontweight="bold", color=CAUTION)
    shown = ph <= PH_SCALE[1]
    ax.plot(soda[shown], ph[shown], color=ACID, lw=2, ls=":")
    at = 0.9 * MOST_SODA
    ax.text(at, np.interp(at, soda, ph) + 0.12, f"vinegar of {acidity:.0f} g", ha="right",
            va="bottom", fontsize=SMALL, color=SOFT)


def tied(ax, soda, ph, taken, here, share):
    """The line of one jar, and where it stands.

    Parameters
    ----------
    ax : matplotlib axes with `tied_backdrop`
    soda, ph : arrays, the line of this jar
    taken : float, g of baking soda in 100 mL
    here : float, pH with it
    share : float, 0 to 1, of the acid that is tied up
    """
    shown = ph <= PH_SCALE[1]
    ax.plot(soda[shown], ph[shown], color=ACID, lw=4)
    top = here > PH_SCALE[1]
    at = PH_SCALE[1] if top else here
    ax.plot([taken, taken], [PH_SCALE[0], at], color=RESULT, lw=2)
    ax.plot([taken], [at], "^" if top else "o", color=RESULT, markeredgecolor=PAPER, markersize=15,
            clip_on=False, gid="here")
    right = taken < 0.55 * MOST_SODA
    ax.text(taken + (0.12 if right else -0.12), 2.35,
            f"pH {here:.1f}\n{100 * share:.0f} % of the acid tied up", va="center",
            ha="left" if right else "right", fontsize=BIG, fontweight="bold", color=RESULT,
            gid="words", bbox={"facecolor": PAPER, "edgecolor": "none", "pad": 2, "alpha": 0.85})


# --- four jars ------------------------------------------------------------------------------------

DAYS = {"1 day": 1, "1 week": 7, "1 month": 30, "3 months": 90, "1 year": 365}


def four_jars_backdrop(ax, names):
    """A row for each jar over a scale of days.

    Parameters
    ----------
    ax : matplotlib axes
    names : sequence of four str, from the top down
    """
    ax.set(xscale="log", xlim=(0.8, 5000), ylim=(len(names) - 0.4, -0.6))
    ax.set_xticks(list(DAYS.values()), list(DAYS))
    ax.minorticks_off()
    ax.set_yticks(range(len(names)), names)
    ax.tick_params("y", labelsize=14, labelcolor=INK)
    ax.grid(False, axis="y")
    ax.spines["left"].set_visible(False)
    ax.set_xlabel("how long it keeps: from the careful end to the far end")


def four_jars(ax, ranges, words, cold, acids):
    """The range of each jar.

    Parameters
    ----------
    ax : matplotlib axes with `four_jars_backdrop`
    ranges : sequence of (float, float), days
    words : sequence of str, what stands after each bar
    cold : sequence of bool, whether the jar must stand in the refrigerator
    acids : sequence of float, g of acid per 100 mL that are left
    """
    for row, acid in enumerate(acids):
        ax.text(4800, row, f"{acid:.1f} g of acid", va="center", ha="right", fontsize=13,
                color=SOFT, gid=f"acid {row}")
    for row, ((low, high), said, chilled) in enumerate(zip(ranges, words, cold)):
        ax.add_patch(Rectangle((low, row - 0.24), high - low, 0.48, edgecolor=INK,
                               facecolor=_SPOILS if chilled else ACID,
                               hatch="///" if chilled else "", gid=f"range {row}"))
        inside = high > 80
        ax.text(low / 1.12 if inside else high * 1.12, row, said, va="center",
                ha="right" if inside else "left", fontsize=13, gid=f"words {row}")

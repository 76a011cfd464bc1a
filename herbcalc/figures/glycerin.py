"""Glycerin in pictures: thickness and free water on one page, a jar of it, and its map with spirit.

Every function draws on given axes from given numbers; the backdrops hold what never moves.
"""

import numpy as np
from matplotlib.patches import FancyArrowPatch

from herbcalc.figures.herbs import WATER_DENSITY
from herbcalc.figures.jar import draw_glass, draw_jar, vessel_axes
from herbcalc.figures.style import (
    CAUTION, GLYCERIN, INK, PAPER, RESULT, SOFT, mix, tint,
)

BIG = 16  # pt: what the back row must read
SMALL = 12
_BAND = mix(GLYCERIN, PAPER, 0.72)
_SPOILS = mix(CAUTION, PAPER, 0.82)
_ACETIC_DENSITY = 1.049  # g/mL of pure acetic acid at 20 degC, from memory: for the bar alone


def parts_of(liquid, herb_water=0.0):
    """Parts of any liquid for the drawn jar, in mL that add up to its volume.

    Parameters
    ----------
    liquid : herbcalc.Liquid
        The whole liquid, with the herb's water in it.
    herb_water : float
        How much of its water came out of the herb, g.

    Returns
    -------
    dict of str to float
        mL of "glycerin", "ethanol", "acid", "herb's water" and "water", only what is there. What
        the mixture shrinks by is taken off the water.

    Examples
    --------
    >>> import herbcalc as hc
    >>> parts = parts_of(hc.glycerin(60) + hc.water(40), herb_water=10)
    >>> {part: round(amount) for part, amount in parts.items()}
    {'glycerin': 60, "herb's water": 10, 'water': 29}
    """
    volume = liquid.volume
    parts = {
        "glycerin": liquid.glycerin_percent * volume / 100,
        "ethanol": liquid.abv * volume / 100,
        "acid": liquid.acetic / _ACETIC_DENSITY,
    }
    water = max(volume - sum(parts.values()), 0.0)
    hidden = min(herb_water / WATER_DENSITY, water)
    parts |= {"herb's water": hidden, "water": water - hidden}
    return {part: amount for part, amount in parts.items() if amount > 1e-9}


# --- thickness and free water on one page ---------------------------------------------------------

OIL = 80  # mPa s, olive oil at room temperature, from memory: something everyone has poured
THICKEST = 2000  # mPa s, the top of the scale


def two_curves_axes(figure):
    """Thickness above, free water below, over one scale of glycerin."""
    thick, free = figure.subplots(2, 1, sharex=True, height_ratios=(1, 1.12))
    return {"thick": thick, "free": free}


def two_curves_backdrop(axes, shares, viscosity, activity, window, limits):
    """Both curves, the trade's window through both, and the limits of free water.

    Parameters
    ----------
    axes : mapping with "thick" and "free"
    shares : array, glycerin, % by volume, rising
    viscosity : array, mPa s
    activity : array, water activity, 0 to 1
    window : (float, float), the trade's share of glycerin, % by volume
    limits : mapping of str to (water activity, glycerin in % by volume at which it is reached)
    """
    thick, free = axes["thick"], axes["free"]
    for ax in (thick, free):
        ax.axvspan(*window, color=_BAND, lw=0)
        ax.set(xlim=(0, 100), xticks=range(0, 101, 10))
    thick.set(yscale="log", ylim=(0.8, THICKEST), ylabel="viscosity\n[mPa s]")
    thick.set_yticks([1, 10, 100, 1000], ["1", "10", "100", "1000"])
    thick.minorticks_off()
    thick.plot(shares, viscosity, color=GLYCERIN, lw=5)
    thick.plot(shares, viscosity, color=INK, lw=1.2)
    thick.plot([0, 100], [OIL, OIL], color=SOFT, lw=1.5, ls=":")
    thick.text(1, OIL * 1.15, "olive oil, about 80 (from memory)", fontsize=SMALL, color=SOFT)
    thick.text(99, 1.15, "thick: slow to draw  \N{RIGHTWARDS ARROW}", ha="right", fontsize=14,
               fontweight="bold", color=CAUTION)
    thick.text(sum(window) / 2, THICKEST * 1.15,
               f"the trade's {window[0]:.0f} to {window[1]:.0f} % (common practice)", ha="center",
               va="bottom", fontsize=13)

    free.set(ylim=(0, 1.05), yticks=[0, 0.25, 0.5, 0.75, 1], xlabel="glycerin [% by volume]",
             ylabel="water activity")
    free.plot(shares, activity, color=GLYCERIN, lw=5)
    free.plot(shares, activity, color=INK, lw=1.2)
    for place, (words, (limit, share)) in enumerate(limits.items()):
        free.plot([share, 100], [limit, limit], color=CAUTION, lw=1.8, ls=(0, (5, 2)))
        free.plot([share], [limit], "o", color=CAUTION, markersize=8)
        free.plot([share, share], [0, 0.1], color=CAUTION, lw=3)
        free.text(share + (1, -1)[place == 0], 0.06, f"{share:.0f} %", color=CAUTION,
                  ha=("left", "right")[place == 0], va="center", fontsize=13, fontweight="bold")
        free.text(99.5, limit + (-0.03, 0.02)[place == 0], words, ha="right",
                  va=("top", "bottom")[place == 0], fontsize=SMALL)
    free.text(1, 0.06, "\N{LEFTWARDS ARROW}  thin: spoils", fontsize=14, fontweight="bold",
              color=CAUTION, va="center")


def two_curves(axes, share, viscosity, activity):
    """Where one mixture stands on both curves.

    Parameters
    ----------
    axes : mapping with "thick" and "free", with `two_curves_backdrop`
    share : float, glycerin, % by volume
    viscosity : float, mPa s
    activity : float, water activity, 0 to 1
    """
    at_left = share < 18  # else the words stand left of the line, where the curves leave room
    free = "under 0.05" if activity < 0.05 else f"{activity:.2f}"
    digits = 1 - int(np.log10(viscosity))  # two of them: the formula is good to 3 %
    for ax, at, height, words, name in (
        (axes["thick"], viscosity, max(viscosity * 3, 8) if share < 80 else 12,
         f"{round(viscosity, digits):.{max(digits, 0)}f} mPa s",
         "thickness"),
        (axes["free"], activity, max(activity - 0.27, 0.12) if share < 88 else 0.5, free,
         "free water"),
    ):
        ax.plot([share, share], ax.get_ylim(), color=RESULT, lw=2)
        ax.plot([share], [at], "o", color=RESULT, markeredgecolor=PAPER, markersize=14)
        ax.text(share + (2 if at_left else -2), height, words, va="center",
                ha="left" if at_left else "right", fontsize=BIG, fontweight="bold", color=RESULT,
                gid=name)


# --- a jar beside a scale of free water -----------------------------------------------------------

SCALE = (0.4, 1.0)  # water activity on the scale beside the jar


def jar_scale_axes(figure):
    """The jar, and a standing scale beside it."""
    jar, scale = figure.subplots(1, 2, width_ratios=(1.45, 1))
    return {"jar": jar, "scale": scale}


def jar_scale_backdrop(axes, jar_volume, limits):
    """The empty jar; the scale of free water with its limits.

    Parameters
    ----------
    axes : mapping with "jar" and "scale"
    jar_volume : float, mL
    limits : (float, float), water activity: the law's for foods, and the standard's below it
    """
    vessel_axes(axes["jar"])
    draw_glass(axes["jar"], jar_volume)
    ax, (law, low) = axes["scale"], limits
    ax.set(xlim=(0, 1), ylim=SCALE, xticks=[], ylabel="water activity (free water)")
    ax.set_yticks([0.4, 0.5, 0.6, 0.7, low, law, 1.0])
    ax.grid(False)
    ax.spines["bottom"].set_visible(False)
    ax.axhspan(law, 1, color=_SPOILS, lw=0)
    ax.axhspan(SCALE[0], low, color=_BAND, lw=0)
    for limit in limits:
        ax.plot([0, 1], [limit, limit], color=CAUTION, lw=2, ls=(0, (5, 2)))
    ax.text(0.98, (1 + law) / 2, "spoils\nlike food", ha="right", va="center", fontsize=13,
            fontweight="bold", color=CAUTION)
    ax.text(0.98, (law + low) / 2, "between:\ncold and short", ha="right", va="center",
            fontsize=13)
    ax.text(0.98, low - 0.015, "keeps by the\ntrade's rule", ha="right", va="top", fontsize=13)
    ax.set_xlabel(f"{law:.2f}: food law (USA), 21 CFR 114.3\n{low:.2f}: cosmetics, ISO 29621",
                  fontsize=11)


def jar_on_scale(axes, jar, poured, final, limits):
    """The jar once steeped, and the fall from the liquid poured to the liquid it became.

    Parameters
    ----------
    axes : mapping with "jar" and "scale", with `jar_scale_backdrop`
    jar : dict, what `draw_jar` takes
    poured, final : float, water activity of the liquid poured and of the liquid in the end
    limits : (float, float), as in the backdrop
    """
    draw_jar(axes["jar"], glass=False, **jar)
    ax, x = axes["scale"], 0.1
    low = SCALE[0] + 0.004
    start, end = max(poured, low), max(final, low)
    said = f"{final:.2f}" if final > low else f"under {SCALE[0]:.1f}"
    moved = end - start > 0.03
    if moved:
        ax.add_patch(FancyArrowPatch((x, start + 0.008), (x, end - 0.008), arrowstyle="-|>",
                                     mutation_scale=22, shrinkA=0, shrinkB=0, color=RESULT, lw=3))
        words = f"poured {poured:.2f}" if poured > low else f"poured under {SCALE[0]:.1f}"
        ax.text(x + 0.08, start, words, va="center" if poured > low else "bottom", fontsize=13)
    ax.plot([x], [start], "o", color=INK, markerfacecolor=PAPER, markeredgewidth=2.5,
            markersize=13, clip_on=False)
    ax.plot([x], [end], "D", color=RESULT, markersize=12, clip_on=False, gid="end")
    near = next((limit for limit in limits if abs(end - limit) < 0.02), None)
    height = end if near is None else near + (0.022 if end > near else -0.022)  # off the line
    ax.text(x + 0.08, height, f"ends {said}", va="center" if final > low else "bottom",
            fontsize=14, fontweight="bold", color=RESULT, gid="end words")


# --- glycerin and spirit together -----------------------------------------------------------------

MAP = (70.0, 60.0)  # the map ends at so much glycerin, % by volume, and so strong, % vol


def spirit_map_axes(figure):
    """A bottle's worth of parts, and the map."""
    jar, chart = figure.subplots(1, 2, width_ratios=(1, 1.15))
    return {"jar": jar, "map": chart}


def spirit_map_backdrop(axes, jar_volume, lines, strengths):
    """The map of glycerin and spirit: where free water is low enough, where spirit is enough.

    Parameters
    ----------
    axes : mapping with "jar" and "map"
    jar_volume : float, mL of the drawn jar
    lines : mapping of water activity to (glycerin in % by volume, strength in % vol), arrays,
        the law's limit first; strengths rise
    strengths : (float, float), % vol, the low-risk one and the keeping one
    """
    vessel_axes(axes["jar"], left=-1.75, right=3.0, top=2.8)
    draw_glass(axes["jar"], jar_volume)
    ax, (weak, keeps) = axes["map"], strengths
    ax.set(xlim=(0, MAP[0]), ylim=(-3, MAP[1]), xticks=range(0, 71, 10), yticks=range(0, 61, 10),
           xlabel="glycerin [% by volume]", ylabel="strength [% vol]")
    ax.grid(False)
    ax.axhspan(-3, weak, color=_SPOILS, lw=0)
    (_, (law_x, law_y)), (_, (low_x, low_y)) = lines.items()
    for x, y, colour in ((law_x, law_y, PAPER), (low_x, low_y, _BAND)):
        ax.fill_betweenx([-3, *y], [x[0], *x], MAP[0], color=colour, lw=0)
    ax.axhspan(keeps, MAP[1], color=mix(tint({"ethanol": 1}), PAPER, 0.45), lw=0)
    for strength in strengths:
        ax.plot([0, MAP[0]], [strength, strength], color=SOFT, lw=1.5)
    for limit, (x, y) in lines.items():
        ax.plot(x[y < keeps], y[y < keeps], color=CAUTION, lw=2.5, ls=(0, (5, 2)))
        ax.text(np.interp(11, y, x) + 1.2, 11, f"{limit:.2f}", fontsize=13, va="center")
    ax.text(1.5, MAP[1] - 2, "keeps by its spirit", va="top", fontsize=13, fontweight="bold")
    ax.text(MAP[0] - 1, keeps - 1.5, "keeps by its\nlittle free water", ha="right", va="top",
            fontsize=13, fontweight="bold")
    ax.text(1.5, 1.5, "spoils", fontsize=14, fontweight="bold", color=CAUTION, va="bottom")
    ax.text(1.5, weak + 1, "between", fontsize=13, va="bottom")


def spirit_map(axes, jar, before, after):
    """The jar, and its place on the map before and after the herb's water.

    Parameters
    ----------
    axes : mapping with "jar" and "map", with `spirit_map_backdrop`
    jar : dict, what `draw_jar` takes
    before, after : (glycerin in % by volume, strength in % vol)
    """
    draw_jar(axes["jar"], glass=False, **jar)
    ax = axes["map"]
    edge = [(min(x, MAP[0] - 0.8), min(y, MAP[1] - 0.8)) for x, y in (before, after)]
    start, end = edge
    far = abs(start[0] - end[0]) + abs(start[1] - end[1])
    ax.plot(*[[value] for value in start], "o", color=INK, markerfacecolor=PAPER,
            markeredgewidth=2.5, markersize=13, clip_on=False)
    if far > 3:
        ax.add_patch(FancyArrowPatch(start, end, arrowstyle="-|>", mutation_scale=22, shrinkA=7,
                                     shrinkB=5, color=RESULT, lw=3))
        if before[0] < MAP[0] and before[1] < MAP[1]:
            ax.text(start[0] + 2, start[1] + 1, "poured", fontsize=SMALL, va="bottom",
                    ha="left" if start[0] < 58 else "right")
    ax.plot(*[[value] for value in end], "D", color=RESULT, markersize=12, clip_on=False,
            gid="end")

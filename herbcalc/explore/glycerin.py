"""Panels of lesson 05: glycerin's thickness and free water, fresh herb in it, spirit with it."""

import numpy as np

import herbcalc as hc
from herbcalc.explore.herb_lists import herb_choice
from herbcalc.figures import glycerin as draw
from herbcalc.figures.herbs import herb_kind
from herbcalc.keeping import (
    FOOD_WATER_ACTIVITY,
    GLYCERIN_BY_TRADE,
    KEEPING_STRENGTH,
    LOW_RISK_STRENGTH,
    LOW_RISK_WATER_ACTIVITY,
)
from herbcalc.panel import Panel, Slider

__all__ = ["glycerin_and_spirit", "glycerin_jar", "thick_and_thirsty"]

JAR = 500  # mL
LIMITS = (FOOD_WATER_ACTIVITY, LOW_RISK_WATER_ACTIVITY)


def _half_and_half(percent):
    """Glycerin and water, `percent` parts of 100 glycerin, as poured."""
    return hc.glycerin(percent) + hc.water(100 - percent)


def as_thick(liquid):
    """How thick against water, in words: as many digits as the formula deserves (3 %)."""
    times = liquid.viscosity / hc.water(1).viscosity
    if times < 10:
        return f"{times:.1f} times as thick as water"
    return f"about {round(times, 1 - int(np.log10(times))):.0f} times as thick as water"


def reckon_with(keeping):
    """The range of a `Keeping` as a sentence."""
    return f"Reckon with {keeping.range}."


def _free(liquid):
    activity = liquid.water_activity
    return f"a water activity {f'of {activity:.2f}' if activity >= 0.05 else 'under 0.05'}"


# --- the two curves ------------------------------------------------------------------------------


def _two_curves_backdrop(axes):
    x = np.linspace(0, 0.997, 300)  # mass fraction, up to glycerin as sold
    mixes = hc.Liquid(glycerin=x, water=1 - x)
    limits = {
        f"{limit:.2f}: {words}": (limit, hc.glycerin_for_water_activity(limit))
        for limit, words in zip(LIMITS, ("food law (USA), 21 CFR 114.3", "cosmetics, ISO 29621"))
    }
    draw.two_curves_backdrop(axes, mixes.glycerin_percent, mixes.viscosity, mixes.water_activity,
                             GLYCERIN_BY_TRADE, limits)


def _show_two_curves(axes, share):
    liquid = _half_and_half(share)
    draw.two_curves(axes, liquid.glycerin_percent, liquid.viscosity, liquid.water_activity)
    if share == 0:
        return "Water alone: water activity 1.00, all of it is free, and it spoils in days."
    return (f"{share} % glycerin is {as_thick(liquid)} and has {_free(liquid)}. "
            f"{reckon_with(hc.keeping(liquid))}")


def thick_and_thirsty():
    """Glycerin from none to undiluted: how thick it gets, and how little free water is left."""
    return Panel(
        title="Thick and thirsty",
        controls=dict(share=Slider("Glycerin in the mix", 0, 100, start=45, unit="%")),
        size=(9, 5.8),
        axes=draw.two_curves_axes,
        backdrop=_two_curves_backdrop,
        show=_show_two_curves,
        alt="Two curves over the share of glycerin: viscosity climbs steeply towards undiluted "
            "glycerin, water activity falls; the trade's 40 to 50 % lies between the limits 0.85 "
            "and 0.75 of water activity.",
    )


# --- fresh herb in glycerin ----------------------------------------------------------------------


def _jar_backdrop(axes):
    draw.jar_scale_backdrop(axes, JAR, LIMITS)


def _show_jar(axes, herb, fill, share):
    jar = hc.Jar(volume=JAR, herb=herb, fill=fill / 100, menstruum=_half_and_half(share))
    final = jar.final
    drawn = dict(
        jar_volume=JAR, herb_volume=jar.fill * JAR, liquid_volume=final.volume,
        head_space=jar.headspace * JAR, fresh=herb.state == "fresh",
        parts=draw.parts_of(final, jar.herb_water), herb_kind=herb_kind(herb.part, herb.form),
    )
    draw.jar_on_scale(axes, drawn, jar.poured.water_activity, final.water_activity,
                      LIMITS)
    return (f"{jar.herb_mass:.0f} g of herb bring {jar.herb_water:.0f} g of water: poured at "
            f"{share} % glycerin, the jar ends at {final.glycerin_percent:.0f} %, "
            f"{as_thick(final)}, with {_free(final)}. "
            f"{reckon_with(hc.keeping(final, fresh_herb=herb.state == 'fresh'))}")


def glycerin_jar():
    """A jar of herb in glycerin, and where its free water ends."""
    return Panel(
        title="Fresh herb in glycerin",
        controls=dict(
            herb=herb_choice("Herb", start="spearmint, fresh (leaf, whole)"),
            fill=Slider("Jar filled with loose herb", 10, 100, start=90, step=5, unit="%"),
            share=Slider("Glycerin in what you pour", 20, 100, start=60, step=5, unit="%"),
        ),
        size=(9, 5),
        axes=draw.jar_scale_axes,
        backdrop=_jar_backdrop,
        show=_show_jar,
        alt="A jar of herb in glycerin with a bar of what the liquid is made of; beside it, a "
            "scale of water activity with the limits 0.85 and 0.75 and an arrow from the liquid "
            "poured to the liquid in the end.",
    )


# --- glycerin and spirit -------------------------------------------------------------------------


def line_of_activity(limit):
    """Mixtures of glycerin, spirit and water that share one water activity.

    Parameters
    ----------
    limit : float, water activity, 0.5 to below 1

    Returns
    -------
    (glycerin in % by volume, strength in % vol), arrays; the strength rises until spirit alone
    reaches the limit
    """
    ethanol = np.linspace(0, 1.5, 60)  # g for each g of water
    low, high = np.zeros_like(ethanol), np.full_like(ethanol, 20.0)
    for _ in range(50):  # the more glycerin, the less free water: halve the distance
        middle = (low + high) / 2
        free = hc.Liquid(ethanol=ethanol, water=1.0, glycerin=middle).water_activity > limit
        low, high = np.where(free, middle, low), np.where(free, high, middle)
    mixes = hc.Liquid(ethanol=ethanol, water=1.0, glycerin=middle)
    needed = middle > 1e-6
    return mixes.glycerin_percent[needed], mixes.abv[needed]


def _map_backdrop(axes):
    lines = {limit: line_of_activity(limit) for limit in LIMITS}
    draw.spirit_map_backdrop(axes, 1000, lines, (LOW_RISK_STRENGTH, KEEPING_STRENGTH))


def _show_map(axes, glycerin, spirit, water, herb_water):
    poured = hc.glycerin(glycerin) + hc.spirit(spirit, abv=95) + hc.water(water)
    if poured.mass == 0:
        raise ValueError("Nothing is poured yet: give it some glycerin, spirit or water.")
    final = poured + hc.Liquid(water=herb_water)
    drawn = dict(jar_volume=1000, liquid_volume=final.volume,
                 parts=draw.parts_of(final, herb_water))
    draw.spirit_map(axes, drawn, (poured.glycerin_percent, poured.abv),
                    (final.glycerin_percent, final.abv))
    return (f"It ends at {final.glycerin_percent:.0f} % glycerin and {final.abv:.0f} % vol, with "
            f"{_free(final)} (an estimate). {reckon_with(hc.keeping(final, fresh_herb=True))}")


def glycerin_and_spirit():
    """Glycerin and strong spirit in one jar: each makes up for what the other lacks."""
    return Panel(
        title="A little spirit in the glycerin",
        controls=dict(
            glycerin=Slider("Glycerin", 0, 400, start=200, step=10, unit="mL"),
            spirit=Slider("Strong spirit, 95 % vol", 0, 300, start=0, step=10, unit="mL"),
            water=Slider("Water", 0, 150, start=100, step=10, unit="mL"),
            herb_water=Slider("Fresh herb's water", 0, 150, start=100, step=10, unit="g"),
        ),
        size=(10, 4.9),
        axes=draw.spirit_map_axes,
        backdrop=_map_backdrop,
        show=_show_map,
        alt="A jar with a bar of its parts; beside it a map of glycerin against strength, with the "
            "lines of water activity 0.85 and 0.75, the strengths 20 and 40 % vol, and an arrow "
            "from the liquid poured to the liquid with the herb's water in it.",
    )

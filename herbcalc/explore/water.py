"""Panels of lesson 03: the water hidden in the herb."""

import numpy as np

from herbcalc.explore.herb_lists import herb_choice
from herbcalc.figures import herbs as figures
from herbcalc.figures.herbs import ratio_words
from herbcalc.jar import Jar, spirit_for_final
from herbcalc.liquids import Liquid, spirit
from herbcalc.panel import Panel, Slider
from herbcalc.strength import STRONGEST_SPIRIT

__all__ = ["dried_beside_fresh", "fresh_jar", "strength_to_pour"]

JAR = 500  # mL
DANDELION = "dandelion (leaf, chopped)"


def _jar_over_strip(figure):
    jars, strip = figure.subplots(2, 1, height_ratios=(3.1, 1))
    return {"jars": jars, "strip": strip}


def _two_jars_backdrop(axes):
    figures.pair_backdrop(axes["jars"])
    figures.strength_strip_backdrop(axes["strip"])


def drawn(jar, liquid, herb_water=0.0, **more):
    """What `draw_jar` takes for a `Jar` with `liquid` in it, `herb_water` g of it the herb's."""
    herb = jar.herb
    return dict(
        jar_volume=jar.volume, herb_volume=jar.fill * jar.volume, liquid_volume=liquid.volume,
        head_space=jar.headspace * jar.volume, fresh=herb.state == "fresh",
        parts=figures.spirit_parts(liquid.volume, liquid.abv, herb_water),
        herb_kind=figures.herb_kind(herb.part, herb.form), **more,
    )


# --- a jar of fresh herb -------------------------------------------------------------------------


def _show_fresh(axes, herb, fill, poured):
    jar = Jar(volume=JAR, herb=herb, fill=fill / 100, menstruum=spirit(1, poured))
    final = jar.final
    figures.draw_pair(
        axes["jars"],
        drawn(jar, jar.poured, label="the day it is poured"),
        drawn(jar, final, jar.herb_water, label="once steeped"),
    )
    figures.draw_strengths(axes["strip"], poured, {"ends at": final.abv})
    return (
        f"{jar.herb_mass:.0f} g of herb bring {jar.herb_water:.0f} g of water; "
        f"{jar.menstruum_volume:.0f} mL of spirit fit ({ratio_words(jar.ratio)}), poured at "
        f"{poured:.0f} % vol: the jar ends at {final.abv:.0f} % vol."
    )


def fresh_jar():
    """Fill a 500 mL jar with fresh herb, pour, and see where its strength ends."""
    return Panel(
        title="A jar of fresh herb, before and after",
        controls=dict(
            herb=herb_choice("Fresh herb", "fresh", DANDELION),
            fill=Slider("Jar filled with loose herb", 10, 100, start=90, step=5, unit="%"),
            poured=Slider("Strength poured", 20, 96, start=40, unit="% vol"),
        ),
        size=(9, 5.5), axes=_jar_over_strip, backdrop=_two_jars_backdrop, show=_show_fresh,
        alt="A jar of herb and spirit on the day it is poured and again once steeped, with the "
            "herb's water in it; below, the strength falls on a scale from 0 to 100 % vol.",
    )


# --- which strength to pour ----------------------------------------------------------------------

_POURED = np.linspace(1, STRONGEST_SPIRIT, 96)


def _curve_axes(figure):
    bar, curve = figure.subplots(2, 1, height_ratios=(1, 4.2))
    return {"bar": bar, "curve": curve}


def _curve_backdrop(axes):
    figures.herb_bar_backdrop(axes["bar"])
    figures.end_against_poured_backdrop(axes["curve"])


def _show_strength_to_pour(axes, herb, mass, ratio, wanted):
    volume = mass * ratio
    water = mass * herb.water
    figures.draw_herb_bar(axes["bar"], mass, water, volume)
    ends = (spirit(volume, _POURED) + Liquid(water=water)).abv
    try:
        answer = spirit_for_final(herb, mass, volume, wanted)
    except ValueError as error:
        figures.draw_end_against_poured(axes["curve"], _POURED, ends, wanted, None)
        return f"None can. {error}"
    figures.draw_end_against_poured(axes["curve"], _POURED, ends, wanted, answer)
    plain = (spirit(volume, wanted) + Liquid(water=water)).abv
    return (
        f"Pour {volume:.0f} mL of {answer:.0f} % vol on {mass:.0f} g ({ratio_words(ratio)}) and "
        f"the jar ends at {wanted:.0f} % vol; poured at {wanted:.0f} % vol it would end at "
        f"{plain:.0f} % vol."
    )


def strength_to_pour():
    """Ask for a strength in the end, and see what to pour, or that nothing will do."""
    return Panel(
        title="Which strength to pour",
        controls=dict(
            herb=herb_choice("Fresh herb", "fresh", DANDELION),
            mass=Slider("Weight of the herb", 25, 500, start=150, step=25, unit="g"),
            ratio=Slider("Spirit for each gram of herb", 1, 10, start=2, step=0.5, unit="mL"),
            wanted=Slider("Strength wanted in the end", 10, 80, start=40, unit="% vol"),
        ),
        size=(9, 6), axes=_curve_axes, backdrop=_curve_backdrop, show=_show_strength_to_pour,
        alt="Above, the herb's weight as plant and water beside the spirit; below, a curve of the "
            "strength in the end against the strength poured, with the wanted strength marked.",
    )


# --- dried beside fresh --------------------------------------------------------------------------


def _show_dried(axes, plant, fill, poured):
    fresh, dried = plant
    first = Jar(volume=JAR, herb=fresh, fill=fill / 100, menstruum=spirit(1, poured))
    left = first.dry_mass / (1 - dried.water)
    second = Jar(volume=JAR, herb=dried, herb_mass=left, menstruum=spirit(1, poured))
    figures.draw_pair(
        axes["jars"],
        drawn(first, first.final, first.herb_water, label=f"{first.herb_mass:.0f} g fresh"),
        drawn(second, second.final, second.herb_water, label=f"the same, dried: {left:.0f} g"),
    )
    figures.draw_strengths(
        axes["strip"], poured, {"fresh ends at": first.final.abv, "dried at": second.final.abv},
    )
    return (
        f"Poured at {poured:.0f} % vol, {first.herb_mass:.0f} g of fresh herb end at "
        f"{first.final.abv:.0f} % vol; the same plants dried weigh {left:.0f} g and end at "
        f"{second.final.abv:.0f} % vol."
    )


def dried_beside_fresh():
    """The same plants once fresh and once dried, under the same spirit."""
    return Panel(
        title="The same plants, fresh and dried",
        controls=dict(
            plant=herb_choice("Herb", both=True, start="parsley (leaf)"),
            fill=Slider("Jar filled with the fresh herb", 10, 100, start=90, step=5, unit="%"),
            poured=Slider("Strength poured", 20, 96, start=40, unit="% vol"),
        ),
        size=(9, 5.5), axes=_jar_over_strip, backdrop=_two_jars_backdrop, show=_show_dried,
        alt="Two jars with the same plants, fresh on the left and dried on the right, once "
            "steeped; below, where each ends on a scale from 0 to 100 % vol.",
    )



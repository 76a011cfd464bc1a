"""Panels of lesson 06: herb in vinegar, acid that is tied up, and four jars on the shelf."""

import numpy as np

import herbcalc as hc
from herbcalc.explore.glycerin import reckon_with
from herbcalc.explore.herb_lists import herb_choice
from herbcalc.figures import vinegar as draw
from herbcalc.figures.glycerin import parts_of
from herbcalc.figures.herbs import herb_kind
from herbcalc.keeping import FOOD_PH, VINEGAR_ACIDITY
from herbcalc.liquids import BAKING_SODA, GRAMS_PER_MOLE, ph_with_soda
from herbcalc.panel import Choice, Panel, Slider

__all__ = ["acid_tied_up", "four_vinegars", "vinegar_jar"]

JAR = 500  # mL
COMMON = 5.0  # g of acid per 100 mL, a common table vinegar
RAW = {"pasteurised": False, "raw, with the mother": True}


# --- a jar of herb in vinegar --------------------------------------------------------------------


def _jar_backdrop(axes):
    draw.jar_acid_backdrop(axes, JAR, VINEGAR_ACIDITY, FOOD_PH)


def _show_jar(axes, herb, fill, acidity, raw):
    jar = hc.Jar(volume=JAR, herb=herb, fill=fill / 100, menstruum=hc.vinegar(1, acidity=acidity))
    final = jar.final
    drawn = dict(
        jar_volume=JAR, herb_volume=jar.fill * JAR, liquid_volume=final.volume,
        head_space=jar.headspace * JAR, fresh=herb.state == "fresh",
        parts=parts_of(final, jar.herb_water), herb_kind=herb_kind(herb.part, herb.form),
    )
    label = "raw vinegar" if raw else "pasteurised"
    draw.jar_acid(axes, drawn, label, acidity, final.acidity, final.ph, VINEGAR_ACIDITY)
    keeps = hc.keeping(final, fresh_herb=herb.state == "fresh", raw_vinegar=raw)
    return (f"{jar.herb_mass:.0f} g of herb bring {jar.herb_water:.0f} g of water: of "
            f"{acidity:.1f} g of acid in 100 mL {final.acidity:.1f} g are left, and the pH is at "
            f"least {final.ph:.1f}. {reckon_with(keeps)}")


def vinegar_jar():
    """A jar of herb in vinegar: how much acid is left, and what can be said of its pH."""
    return Panel(
        title="Herb in vinegar",
        controls=dict(
            herb=herb_choice("Herb", start="spearmint, fresh (leaf, whole)"),
            fill=Slider("Jar filled with loose herb", 10, 100, start=90, step=5, unit="%"),
            acidity=Slider("Acid poured", 4, 10, start=5, step=0.5, unit="g in 100 mL"),
            raw=Choice("Vinegar", RAW),
        ),
        size=(9.4, 4.7),
        axes=draw.jar_acid_axes,
        backdrop=_jar_backdrop,
        show=_show_jar,
        alt="A jar of herb in vinegar with a bar of what the liquid is made of; beside it a scale "
            "of acid with the limit of 4 g in 100 mL and an arrow from what was poured to what is "
            "left, and a scale of pH with the limit 4.6, where only the lower end is known.",
    )


# --- acid that is tied up ------------------------------------------------------------------------

_SODA = np.linspace(0, draw.MOST_SODA, 241)


def _tied_backdrop(ax):
    draw.tied_backdrop(ax, _SODA, ph_with_soda(COMMON, _SODA), COMMON, FOOD_PH)


def _show_tied(ax, acidity, taken):
    here = ph_with_soda(acidity, taken)
    share = min(taken / BAKING_SODA / (acidity / GRAMS_PER_MOLE["acetic"]), 1.0)
    draw.tied(ax, _SODA, ph_with_soda(acidity, _SODA), taken, here, share)
    if taken == 0:
        return (f"{acidity:.1f} g of acid in 100 mL and nothing to tie it up: pH {here:.1f}, the "
                "lowest it can be. Half as much acid would raise the pH only to "
                f"{ph_with_soda(acidity / 2, 0):.1f}.")
    side = "below" if here <= FOOD_PH else "above"
    return (f"If the herb ties up as much acid as {taken:.1f} g of baking soda would, "
            f"{100 * share:.0f} % of the acid is gone and the pH is about {here:.1f}, {side} "
            f"the limit of pH {FOOD_PH}.")


def acid_tied_up():
    """What a herb's minerals do to the pH, played with baking soda."""
    return Panel(
        title="When acid is tied up",
        controls=dict(
            acidity=Slider("Acid in the jar", 1, 10, start=5, step=0.5, unit="g in 100 mL"),
            taken=Slider("Tied up", 0, draw.MOST_SODA, start=0, step=0.1,
                         unit="g in 100 mL", help="As by baking soda. Invented: only strips tell."),
        ),
        size=(9, 4.7),
        backdrop=_tied_backdrop,
        show=_show_tied,
        alt="A curve of pH against acid tied up: it rises at once, then slowly, then steeply; the "
            "limit of pH 4.6 is marked, and a point shows where the jar stands.",
    )


# --- four jars on the shelf ----------------------------------------------------------------------

DRIED_WATER = 2.0  # g for 100 mL of vinegar: dried herb 1:5 with a tenth of water (lesson 03)
_FOUR = {  # name: (fresh herb, raw vinegar)
    "dried herb, pasteurised": (False, False),
    "dried herb, raw vinegar": (False, True),
    "fresh herb, pasteurised": (True, False),
    "fresh herb, raw vinegar": (True, True),
}


def _four_backdrop(ax):
    draw.four_jars_backdrop(ax, list(_FOUR))


def _show_four(ax, acidity, water):
    answers = {}
    for name, (fresh, raw) in _FOUR.items():
        final = hc.vinegar(100, acidity=acidity) + hc.Liquid(water=water if fresh else DRIED_WATER)
        answers[name] = hc.keeping(final, fresh_herb=fresh, raw_vinegar=raw), final.acidity
    words = [f"{keeps.low:g} to {keeps.high:g} {keeps.unit}{', cold' if keeps.refrigerate else ''}"
             for keeps, _ in answers.values()]
    draw.four_jars(ax, [keeps.days for keeps, _ in answers.values()], words,
                   [keeps.refrigerate for keeps, _ in answers.values()],
                   [acid for _, acid in answers.values()])
    dried, fresh = answers["dried herb, pasteurised"], answers["fresh herb, raw vinegar"]
    return (f"Dried herb leaves {dried[1]:.1f} g of acid in 100 mL: {dried[0].range}. "
            f"Fresh herb leaves {fresh[1]:.1f} g, and in raw vinegar it keeps {fresh[0].range}.")


def four_vinegars():
    """Dried or fresh herb, pasteurised or raw vinegar: four jars side by side."""
    return Panel(
        title="Four jars on the shelf",
        controls=dict(
            acidity=Slider("Acid poured", 4, 10, start=5, step=0.5, unit="g in 100 mL"),
            water=Slider("Fresh herb's water", 0, 100, start=20, step=2, unit="g",
                         help="For 100 mL of vinegar."),
        ),
        size=(9.4, 4),
        backdrop=_four_backdrop,
        show=_show_four,
        alt="Four bars over a scale of days: how long a vinegar keeps with dried or fresh herb, "
            "pasteurised or raw. Hatched bars must stand in the refrigerator.",
    )

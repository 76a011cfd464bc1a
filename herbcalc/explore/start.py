"""Panels of lesson 00: the colours on a first jar, and when spirit catches fire."""

import herbcalc as hc
from herbcalc.figures import strength as draw
from herbcalc.figures.jar import draw_jar, vessel_axes
from herbcalc.figures.style import legend_strip
from herbcalc.panel import Choice, Panel, Slider

__all__ = ["first_jar", "flash_point"]

HERBS = {
    "fresh peppermint": (("peppermint", "fresh"), "leaf"),
    "dried spearmint": (("spearmint", "dried"), "leaf"),
    "dried fennel seed": (("fennel", "dried"), "seed"),
}
JAR = 500  # mL


def _first_jar_axes(figure):
    return figure.subplots(2, 1, height_ratios=[3.4, 1])


def _first_jar_backdrop(axes):
    jar, strip = axes
    vessel_axes(jar, left=-2.6, right=3.8)
    legend_strip(strip)


def _show_first_jar(axes, herb, fill, strength):
    name, kind = HERBS[herb]
    jar = hc.Jar(JAR, hc.herb(*name), fill=fill / 100, menstruum=hc.spirit(1, abv=strength))
    poured = jar.poured
    ethanol = poured.volume * poured.abv / 100
    draw_jar(
        axes[0], JAR, herb_volume=JAR * fill / 100, liquid_volume=poured.volume,
        head_space=JAR * jar.headspace,
        parts={"ethanol": ethanol, "water": poured.volume - ethanol},
        herb_kind=kind, fresh=name[1] == "fresh",
    )
    return (f"{fill} % of this {JAR} mL jar is {herb}: it weighs {jar.herb_mass:.0f} g, and "
            f"{poured.volume:.0f} mL of spirit at {strength} % vol fit in around it.")


def first_jar():
    """The drawn jar of all lessons, and what its colours mean."""
    return Panel(
        title="A first jar, and the colours of all lessons",
        controls=dict(
            fill=Slider("How full of loose herb", 10, 90, start=60, step=5, unit="%"),
            strength=Slider("Strength of the spirit", 20, 95, start=40, step=5, unit="% vol"),
            herb=Choice("Herb", list(HERBS)),
        ),
        size=(9, 5.8),
        axes=_first_jar_axes,
        backdrop=_first_jar_backdrop,
        show=_show_first_jar,
        alt="A jar with herb and spirit, a bar of what the spirit is made of, and below it each "
            "colour with its meaning.",
    )


def _show_flash(axes, strength, temperature):
    flash = hc.flash_point(strength)
    draw.flash(axes, strength, temperature, flash)
    said = f"Spirit of {strength} % vol has a flash point of about {flash:.0f} °C"
    if temperature >= flash:
        return (f"{said}: at {temperature} °C one spark is enough to light its vapour. "
                "Put out every flame and let fresh air in first.")
    return (f"{said}, {flash - temperature:.0f} °C above where it stands: a warm pan or a sunny "
            "sill can make up that much. Keep every flame away.")


def flash_point():
    """How warm a spirit may be before a spark lights its vapour."""
    return Panel(
        title="When a spark is enough",
        controls=dict(
            strength=Slider("Strength of the spirit", 20, 96, start=95, unit="% vol"),
            temperature=Slider("Temperature there", 0, 40, start=20, unit="°C"),
        ),
        size=(9, 4.2),
        backdrop=draw.flash_backdrop,
        show=_show_flash,
        alt="A falling curve of flash points from weak to strong spirit; above it a spark lights "
            "the vapour. A mark shows your spirit at its temperature.",
    )

"""Panels of lesson 02: masses add and volumes do not, making up, blending, and the yield."""

import herbcalc as hc
from herbcalc.figures import dilution as draw
from herbcalc.panel import Panel, Slider

__all__ = ["blend", "make_up", "pour_together", "what_it_becomes"]


def _show_pour(axes, spirit, strength, water):
    one, other = hc.spirit(spirit, abv=strength), hc.water(water)
    both = one + other
    grams = round(one.mass), round(other.mass)  # as two readings of a 1 g scale
    draw.pour(axes, spirit, strength, water, both.volume, (*grams, sum(grams)))
    lost = spirit + water - both.volume
    said = f"{spirit} mL of spirit and {water} mL of water make {both.volume:.0f} mL"
    if water == 0:
        return f"{spirit} mL of spirit alone: nothing mixes, so nothing shrinks."
    if lost < 0.5:
        return f"{said} at {both.abv:.1f} % vol: so weak, the shrinking is too small to see."
    return (f"{said} at {both.abv:.1f} % vol, {lost:.0f} mL less than the sum; "
            f"the weights add up to {sum(grams)} g and not a gram is lost.")


def pour_together():
    """Spirit and water in one cylinder: the weights add, the volumes do not."""
    return Panel(
        title="Pour spirit and water together",
        controls=dict(
            spirit=Slider("Spirit", 50, 500, start=500, step=10, unit="mL"),
            water=Slider("Water", 0, 500, start=500, step=10, unit="mL"),
            strength=Slider("Strength of the spirit", 10, 96, start=95, unit="% vol"),
        ),
        size=(9, 4.4),
        axes=draw.pour_axes,
        backdrop=draw.pour_backdrop,
        show=_show_pour,
        alt="Two measuring cylinders, spirit and water, and a third with both in it, whose level "
            "is held against the simple sum of the two; beside it that level seen closely.",
    )


def _show_make_up(axes, volume, strength, to):
    spirit, to_mark = hc.make_up(volume, strength, to=to)
    simple = volume - spirit
    short = hc.spirit(spirit, abv=strength) + hc.water(simple)
    draw.make_up(axes, volume, spirit, (simple, to_mark), (short.volume, volume),
                 (short.abv, to), ethanol=volume * to / 100)
    missing = volume - short.volume
    if missing < 1:
        return (f"Here the simple difference of {simple:.0f} mL of water is as good as the mark: "
                f"nearly nothing shrinks, and {volume} mL come out at {to} % vol.")
    return (f"With {simple:.0f} mL of water the bottle is {missing:.0f} mL short and stands at "
            f"{short.abv:.1f} % vol; filled to the mark it takes {to_mark:.0f} mL "
            f"and is {to} % vol.")


def make_up():
    """The simple difference of water beside filling up to the mark."""
    return Panel(
        title="Make up to the mark",
        controls=dict(
            volume=Slider("Wanted volume", 100, 1000, start=1000, step=50, unit="mL"),
            strength=Slider("Spirit you have", 20, 96, start=95, unit="% vol"),
            to=Slider("Strength you want", 10, 90, start=40, unit="% vol"),
        ),
        size=(9, 4.5),
        backdrop=draw.make_up_backdrop,
        show=_show_make_up,
        alt="Two bottles with the same measure of spirit: one with the simple difference of water "
            "stays below its mark, the other is filled up to the mark.",
    )


def _show_blend(axes, strong, weak, to, volume):
    of_strong, of_weak = hc.blend_to(strong, weak, to=to, volume=volume)
    draw.blend(axes, (strong, weak), (of_strong, of_weak), to, volume)
    other = "water" if weak == 0 else f"{weak} % vol"
    return (f"{of_strong:.0f} mL of {strong} % vol and {of_weak:.0f} mL of {other} "
            f"make {volume} mL of {to} % vol.")


def blend():
    """Two strengths blended to a third."""
    return Panel(
        title="Blend two strengths",
        controls=dict(
            strong=Slider("The stronger", 50, 96, start=95, unit="% vol"),
            weak=Slider("The weaker", 0, 45, start=40, unit="% vol", help="0 is water"),
            to=Slider("Strength you want", 0, 96, start=60, unit="% vol"),
            volume=Slider("Wanted volume", 100, draw.BLEND_MOST, start=1000, step=50, unit="mL"),
        ),
        size=(9, 4.4),
        backdrop=draw.blend_backdrop,
        show=_show_blend,
        alt="Along a scale of strength stand two columns, what to take of the stronger and of the "
            "weaker spirit, and between them a frame for the blend.",
    )


def _show_becomes(axes, volume, strength, to):
    water = hc.water_to_dilute(volume, strength, to=to)
    result = volume * strength / to  # the ethanol stays: by the meaning of % vol
    draw.becomes(axes, volume, strength, to, water, result)
    ethanol = volume * strength / 100
    return (f"{volume} mL of {strength} % vol hold {ethanol:.0f} mL of alcohol: with "
            f"{water:.0f} mL of water they become {result:.0f} mL of {to} % vol.")


def what_it_becomes():
    """What a bottle of strong spirit becomes once diluted."""
    return Panel(
        title="What one strong bottle becomes",
        controls=dict(
            volume=Slider("Bottle", 100, 1000, start=500, step=50, unit="mL"),
            strength=Slider("Its strength", 60, 96, start=95, unit="% vol"),
            to=Slider("Strength you want", 25, 60, start=40, unit="% vol"),
        ),
        size=(9, 4.3),
        backdrop=draw.becomes_backdrop,
        show=_show_becomes,
        alt="One bottle of strong spirit, and rows of the small bottles it fills once diluted.",
    )

"""Panels for lessons 02 and 04: what measuring tools do to a dilution and to a jar."""

import herbcalc as hc
from herbcalc.explore.herb_lists import herb_choice
from herbcalc.figures import measuring as draw
from herbcalc.figures.steeping import ratio_words
from herbcalc.liquids import Liquid
from herbcalc.measuring import SCALES, VOLUMES, spread, spread_of_dilution
from herbcalc.panel import Panel, Slider

__all__ = ["measuring_dilution", "measuring_jar"]

TIMES = 2000  # measurings behind each range


PAIRS = {  # words: the tool for the herb, the tool for the spirit
    "lab scale, cylinder": ("lab scale", "measuring cylinder"),
    "kitchen scale, cylinder": ("kitchen scale", "measuring cylinder"),
    "kitchen scale, jug": ("kitchen scale", "kitchen jug"),
    "herb by eye, cups": ("by eye", "cups and spoons"),
}


def between_words(low, high):
    """Two ends of a range, or the one figure both round to.

    >>> between_words("1:4.6", "1:5.4"), between_words("1:5.0", "1:5.0")
    ('1:4.6 to 1:5.4', '1:5.0')
    """
    return low if low == high else f"{low} to {high}"


def _show_jar(axes, herb, mass, volume, strength):
    meant = hc.spirit(volume, strength)
    ratio, final = volume / mass, (meant + Liquid(water=mass * herb.water)).abv
    rows, said = [], []
    for scale, measure in PAIRS.values():
        got = spread(herb, mass, volume, strength, SCALES[scale], VOLUMES[measure], count=TIMES)
        low, _, high = got.range("ratio")
        weak, _, strong = got.range("final_abv")
        said.append(between_words(ratio_words(low), ratio_words(high)))
        rows.append((
            (100 * (got.ratio / ratio - 1), 100 * (low / ratio - 1), 100 * (high / ratio - 1),
             said[-1]),
            (got.final_abv - final, weak - final, strong - final,
             between_words(f"{weak:.1f}", f"{strong:.1f}")),
        ))
    draw.jar(axes, rows)
    return (f"Meant: {ratio_words(ratio)}, ending at {final:.1f} % vol. 95 of 100 jars lie at "
            f"{said[0]} by lab scale and cylinder, at {said[-1]} by eye and cups.")


def measuring_jar():
    """What scale, jug, cups and the eye do to a jar's ratio and final strength."""
    return Panel(
        title="The same jar, measured again and again",
        controls=dict(
            herb=herb_choice("Herb", start="peppermint, fresh (leaf, whole)"),
            mass=Slider("Herb meant", 5, 100, start=40, step=5, unit="g",
                        help="How far scales, jugs, cups and eyes are off is invented for the "
                             "course: check yours."),
            volume=Slider("Spirit meant", 100, 500, start=200, step=10, unit="mL"),
            strength=Slider("Its strength", 20, 95, start=50, step=5, unit="% vol"),
        ),
        size=(9, 5.2), axes=draw.jar_axes,
        backdrop=lambda axes: draw.jar_backdrop(axes, list(PAIRS)), show=_show_jar,
        alt="Rows of dots about what was meant, one row for each pair of tools: on the left the "
            "ratio of the jar, on the right its final strength. Careful tools keep the dots "
            "together, the eye and cups scatter them.",
    )


def _show_dilution(ax, volume, strength, to):
    water = hc.water_to_dilute(volume, strength, to=to)
    rows = []
    for tool in VOLUMES.values():
        got = spread_of_dilution(volume, strength, water, tool, count=TIMES)
        low, _, high = got.range("final_abv")
        rows.append((got.final_abv - to, low - to, high - to, f"{low:.1f} to {high:.1f} % vol"))
    draw.dilution(ax, rows)
    fine, rough = rows[0][3], rows[-1][3]
    return (f"{volume} mL of spirit and {water:.0f} mL of water, meant for {to} % vol: 95 of 100 "
            f"lie at {fine} by cylinder, at {rough} by cups and spoons.")


def measuring_dilution():
    """What a cylinder, a jug, and cups and spoons do to a dilution."""
    return Panel(
        title="The same dilution, measured again and again",
        controls=dict(
            volume=Slider("Spirit meant", 20, 500, start=100, step=10, unit="mL",
                          help="How far jugs, cups and spoons are off is invented for the "
                               "course: check yours."),
            strength=Slider("Its strength", 60, 96, start=95, unit="% vol"),
            to=Slider("Strength wanted", 20, 60, start=40, unit="% vol"),
        ),
        size=(9, 4.4), backdrop=lambda ax: draw.dilution_backdrop(ax, list(VOLUMES)),
        show=_show_dilution,
        alt="Three rows of dots about the strength that was meant, one row a tool: the cylinder's "
            "dots stand close together, those of cups and spoons lie far apart.",
    )

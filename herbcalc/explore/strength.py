"""Panels of lesson 01: one scale of strength, and what a hydrometer means."""

import herbcalc as hc
from herbcalc.figures import strength as draw
from herbcalc.panel import Panel, Slider, Tick

__all__ = ["hydrometer", "three_scales"]


def _show_scales(axes, strength, british):
    grams = hc.mass_fraction(strength)
    by_mass, proof = 100 * grams, hc.proof_from_abv(strength)
    litre = hc.density(grams)
    old = 100 * strength / draw.BRITISH_PROOF if british else None
    draw.scales(axes, strength, proof, by_mass, litre, old)
    said = f"{strength} % vol is {proof:.0f} US proof and {by_mass:.0f} % by mass"
    if british:
        said += f", and an old British book would call it {old:.0f} proof"
    return f"{said}; one litre of it weighs {litre:.0f} g."


def three_scales():
    """One liquid, its strength read three ways."""
    return Panel(
        title="One strength, three scales",
        controls=dict(
            strength=Slider("Strength", 0, 96, start=40, unit="% vol"),
            british=Tick("Show old British proof too"),
        ),
        size=(9, 4.4),
        backdrop=draw.scales_backdrop,
        show=_show_scales,
        alt="A bottle with its share of alcohol, a line from there across rulers of US proof, "
            "per cent by volume and per cent by mass, and a litre of it on a kitchen scale.",
    )


def _show_hydrometer(axes, reading, temperature):
    truth = hc.true_strength(reading, temperature)
    draw.hydrometer(axes, reading, temperature, truth)
    said = f"Read {reading} % vol at {temperature} °C and the spirit is {truth:.1f} % vol"
    if temperature == 20:
        return f"{said}: at 20 °C the scale is true."
    if temperature > 20:
        return f"{said}: warm spirit is lighter, the glass sinks deeper and reads too strong."
    return f"{said}: cold spirit is heavier, the glass rides higher and reads too weak."


def hydrometer():
    """What a hydrometer's reading means when the spirit is not at 20 °C."""
    return Panel(
        title="What the hydrometer means",
        controls=dict(
            reading=Slider("Reading on the stem", 10, 95, start=42, unit="% vol"),
            temperature=Slider("Temperature of the spirit", 5, 35, start=28, unit="°C"),
        ),
        size=(9, 4.6),
        backdrop=draw.hydrometer_backdrop,
        show=_show_hydrometer,
        alt="A thermometer, a hydrometer floating in a cylinder of spirit, its stem seen closely "
            "at the surface, and a ruler that holds the reading against the true strength.",
    )

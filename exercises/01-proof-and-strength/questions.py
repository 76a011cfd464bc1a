"""Proof and strength: the same liquid by three names, and what a hydrometer means.

Bottles and people are invented for the exercise. Results rest on OIML R 22 (1975) and 27 CFR 30.11.
"""

import herbcalc as hc
from herbcalc.classroom import Choice, Number, Option, Tolerance, Turn

title = "Proof and strength"

SCALES = "One strength, three scales"
FLOAT = "What the hydrometer feels"

self_check = [
    Number(
        name="check-proof",
        step=1,
        prompt="An imported bottle says **{proof} US proof**. How strong is it in % vol?",
        numbers=dict(proof=(86, 90, 100, 101, 151, 190)),
        model=lambda proof: hc.abv_from_proof(proof),
        unit="% vol",
        tolerance=Tolerance(0.1, "half of a whole number needs no rounding"),
        sensible=(40, 96),
        turns=[
            Turn("took proof for per cent", lambda proof: proof,
                 "Proof is another scale than per cent. Could a bottle of 190 proof be 190 per "
                 "cent alcohol?"),
            Turn("doubled it", lambda proof: 2 * proof,
                 "Which of the two numbers is the larger one, proof or per cent?"),
            Turn("took British proof", lambda proof: round(0.571 * proof, 1),
                 "That is the proof of old British books. This bottle says US proof."),
        ],
        section=SCALES,
        worked=lambda proof, answer: (
            f"US proof is twice the per cent by volume: {proof} / 2 = **{answer:g} % vol**."
        ),
    ),
    Choice(
        name="check-mass",
        step=2,
        prompt="You weigh out **100 g** of a spirit of **{abv} % vol**. How many grams of alcohol "
               "are in it?",
        numbers=dict(abv=(40, 50, 60)),
        options=[
            Option(lambda abv: f"about {100 * hc.mass_fraction(abv):.0f} g",
                   "Alcohol is lighter than water: its share of the weight is smaller than its "
                   "share of the room.", right=True),
            Option("exactly {abv} g",
                   "{abv} is the share of the room, in mL. Does a mL of alcohol weigh as much as a "
                   "mL of water?"),
            Option(lambda abv: f"about {2 * abv - 100 * hc.mass_fraction(abv):.0f} g",
                   "That would be so if alcohol were heavier than water. Which one floats the "
                   "hydrometer higher?"),
        ],
        section=SCALES,
        worked=lambda abv: (
            f"{abv} % vol is {100 * hc.mass_fraction(abv):.0f} % by mass: look at the third ruler "
            "in the panel."
        ),
    ),
    Number(
        name="check-hydrometer",
        step=2,
        prompt="Your hydrometer, true at 20 °C, reads **{reading} % vol** in a spirit at "
               "**{temperature} °C**. How strong is the spirit? Use the panel.",
        numbers=dict(reading=(38, 42, 45, 50, 55), temperature=(12, 14, 25, 28, 30)),
        model=lambda reading, temperature: hc.true_strength(reading, temperature),
        unit="% vol",
        tolerance=Tolerance(0.5, "a kitchen hydrometer is read to about half a per cent (common "
                                 "practice, no source)"),
        sensible=(30, 60),
        turns=[
            Turn("the reading itself", lambda reading: reading,
                 "That is the reading. The marks are true at 20 °C only: is this spirit at 20 °C?"),
            Turn("corrected the wrong way",
                 lambda reading, temperature: 2 * reading - hc.true_strength(reading, temperature),
                 "The right size, the wrong way. Does a warm hydrometer read too strong or too "
                 "weak?"),
        ],
        section=FLOAT,
        worked=lambda reading, temperature, answer: (
            ("Warm spirit is lighter, so the float sinks deeper and reads too strong: "
             if temperature > 20 else
             "Cold spirit is heavier, so the float rides higher and reads too weak: ")
            + f"{reading} % vol at {temperature} °C is **{answer:.1f} % vol**."
        ),
    ),
]

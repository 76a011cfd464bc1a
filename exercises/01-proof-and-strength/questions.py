"""Proof and strength: the same liquid by three names, and what a hydrometer means.

Bottles and people are invented for the exercise. Results rest on OIML R 22 (1975) and 27 CFR 30.11.
"""

import numpy as np

import herbcalc as hc
from herbcalc.classroom import (
    Before,
    Choice,
    Choices,
    Explain,
    Function,
    Number,
    Option,
    Order,
    Point,
    Published,
    Row,
    Table,
    Tolerance,
    Turn,
    steps,
)
from herbcalc.dose import ethanol_grams

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


# --- at home -------------------------------------------------------------------------------------

cautions = """
**If you measure for real:** only spirit sold for drinking, never rubbing, denatured or wood
alcohol. Stove out, no flame, window open before a bottle is opened; a bottle that is warm from the
sun cools down *closed* first. Out of reach of children. The sums here are about labels and
bottles: how much of anything a person may take is a question for a doctor, a pharmacist or a
licensed herbal practitioner.
"""

BENCH = "At the bench: labels, weights and a cold hydrometer"

PURE = 0.789  # g/mL of pure alcohol at 20 °C, OIML R 22: the figure the prompts give
FLUID_OUNCE = 29.57  # mL, US; NIST Handbook 44, from memory
OUNCE = 28.35  # g, avoirdupois; from memory
BRITISH = 57.1  # % vol of 100 British proof, from memory

HYDROMETER = Tolerance(
    0.5, "a kitchen hydrometer is read to about half a per cent (common practice, no source)")


def _litre(abv):
    """What a litre weighs, g, at 20 °C."""
    return hc.density(hc.mass_fraction(abv))


_STRENGTHS = np.linspace(0, 100, 201)
_LITRES = _litre(_STRENGTHS)


def _strength_of(litre):
    """% vol of the spirit of which a litre weighs so many g at 20 °C, to 0.01 % vol."""
    return float(np.interp(-litre, -_LITRES, _STRENGTHS))


homework = [
    Number(
        name="to-proof",
        step=1,
        prompt="A bottle of the class shelf says **{abv} % vol**. A friend across the sea asks "
               "what that is in **US proof**.",
        numbers=dict(abv=(37.5, 38, 40, 42, 43, 45, 47, 50, 55, 57, 60, 70, 80, 95)),
        model=lambda abv: hc.proof_from_abv(abv),
        unit="proof",
        tolerance=Tolerance(0.2, "doubling needs no rounding"),
        sensible=(70, 192),
        turns=[
            Turn("halved it", lambda abv: abv / 2,
                 "Which of the two numbers is the larger, per cent or proof?"),
            Turn("left it as it is", lambda abv: abv,
                 "That is the per cent. Proof is another scale for the same bottle."),
            Turn("took British proof", lambda abv: 100 * abv / BRITISH,
                 "That is the proof of old British books. The friend asks for US proof."),
        ],
        section=SCALES,
        worked=lambda abv, answer: (
            f"US proof is twice the per cent by volume: 2 × {abv} = **{answer:g} US proof**."
        ),
        published=Published(
            source="27 CFR 30.11, definition of proof: 40 % by volume is 80 proof (seen in a "
                   "summary)",
            numbers=dict(abv=40), result=80, within=0.1,
        ),
    ),
    Choice(
        name="the-strongest",
        step=1,
        prompt="Three bottles: one says **{abv} % vol**, one **{proof} US proof**, one **{mass} % "
               "by mass**. **Which is the strongest?**",
        numbers=dict(abv=(43, 44, 45, 46), proof=(84, 86, 90), mass=(40, 41, 42)),
        options=[
            Option("the one of {mass} % by mass",
                   "Alcohol is light, so its grams take up much room: by volume the number is "
                   "larger.", right=True),
            Option("the one of {abv} % vol",
                   "Its number is larger than that of the bottle by mass. But a gram of alcohol "
                   "takes up more room than a gram of water: what is the other bottle by volume?"),
            Option("the one of {proof} US proof",
                   "The largest number. But what is proof when it is turned into per cent?"),
            Option("it cannot be said without tasting",
                   "Each label says enough. Turn all three into % vol; the panel has the three "
                   "scales side by side. Nobody tastes to find out."),
        ],
        section=SCALES,
        worked=lambda abv, proof, mass: (
            f"All in % vol: {abv}; {proof} / 2 = {proof / 2:g}; and {mass} % by mass is "
            f"{hc.abv(mass / 100):.1f} % vol."
        ),
    ),
    Choices(
        name="one-liquid",
        step=2,
        prompt="A label says **{abv} % vol**. **What else is true of this liquid?** Pick all that "
               "is.",
        numbers=dict(abv=(40, 45, 50, 55, 60)),
        options=[
            Option(lambda abv: f"it is {2 * abv} US proof", right=True),
            Option(lambda abv: f"it is about {100 * hc.mass_fraction(abv):.0f} % by mass",
                   right=True),
            Option("100 mL of it hold {abv} mL of alcohol", right=True),
            Option("100 g of it hold {abv} g of alcohol",
                   "Grams in 100 g is another scale. Is a mL of alcohol as heavy as a mL of "
                   "water?"),
            Option(lambda abv: f"it is {abv / 2:g} US proof",
                   "Which of the two numbers is the larger, proof or per cent?"),
            Option("a litre of it weighs more than a litre of water",
                   "Which sinks deeper, a hydrometer in water or one in spirit? And why?"),
        ],
        section=SCALES,
        worked=lambda abv: (
            f"{abv} % vol means {abv} mL in 100 mL; doubled it is {2 * abv} US proof. Alcohol is "
            f"lighter than water, so by mass it is only {100 * hc.mass_fraction(abv):.0f} %, and a "
            f"litre weighs {_litre(abv):.0f} g, less than water's 998 g."
        ),
    ),
    Order(
        name="reading-it-well",
        step=2,
        prompt="A bottle has stood in the sun and you want to know its strength. **Put the work in "
               "order.**",
        items=[
            "stove out, window open, and the bottle stays closed until it has cooled",
            "fill a tall cylinder from the bottle and close the bottle again",
            "lower the hydrometer in with two fingers and wait until it stands still",
            "read it at eye level, and the thermometer beside it",
            "look up in the panel what the reading means at that temperature",
            "write the strength on the label",
        ],
        before=[
            Before("stove out, window open, and the bottle stays closed until it has cooled",
                   "fill a tall cylinder from the bottle and close the bottle again",
                   "Warm spirit gives off vapour that catches fire. What must be so before the "
                   "bottle is opened?"),
            Before("lower the hydrometer in with two fingers and wait until it stands still",
                   "read it at eye level, and the thermometer beside it",
                   "What is there to be read before the float is in?"),
            Before("read it at eye level, and the thermometer beside it",
                   "look up in the panel what the reading means at that temperature",
                   "The panel asks for two numbers. Where do they come from?"),
            Before("look up in the panel what the reading means at that temperature",
                   "write the strength on the label",
                   "Which strength belongs on the label: the reading, or what it means?"),
        ],
        section=FLOAT,
        worked="Stove out, cool it closed, fill and close, float, read both instruments, look up, "
               "write. The reading alone is no strength; reading and temperature together are.",
    ),
    Number(
        name="other-temperature",
        step=2,
        prompt="Your hydrometer, true at **{marked} °C**, reads **{reading} % vol** in a spirit at "
               "**{temperature} °C**. How strong is the spirit? The panel or the lesson's rule of "
               "thumb will do.",
        numbers=dict(marked=(20,), reading=steps(36, 52, 2),
                     temperature=(10, 12, 14, 15, 25, 26, 28, 30)),
        model=lambda marked, reading, temperature: hc.true_strength(reading, temperature, marked),
        unit="% vol",
        tolerance=HYDROMETER,
        sensible=(30, 58),
        turns=[
            Turn("the reading itself", lambda reading: reading,
                 "That is the reading. The marks on the stem are true at one temperature only."),
            Turn("corrected the wrong way",
                 lambda marked, reading, temperature:
                     2 * reading - hc.true_strength(reading, temperature, marked),
                 "The right size, the wrong way. Warm spirit is lighter: does the float sink "
                 "deeper in it, or less deep?"),
            Turn("a whole per cent for each degree",
                 lambda marked, reading, temperature: reading - (temperature - marked),
                 "The right way, but too much of it. How much does one degree do? The lesson has a "
                 "rule of thumb."),
        ],
        section=FLOAT,
        worked=lambda marked, reading, temperature, answer: (
            f"The spirit is {abs(temperature - marked)} °C "
            + ("warmer than the marks: it is lighter, the float sinks deeper and reads too "
               "strong.\n" if temperature > marked else
               "colder than the marks: it is heavier, the float rides higher and reads too weak.\n")
            + f"About 0.4 % vol for each degree: {reading} {'−' if temperature > marked else '+'} "
            f"{0.4 * abs(temperature - marked):.1f} = "
            f"{reading - 0.4 * (temperature - marked):.1f}. The panel says **{answer:.1f} % vol**."
        ),
        published=Published(
            source="27 CFR 30.61, Table 1: a hydrometer true at 60 °F that reads 193 US proof at "
                   "75 °F means 189.5 proof, that is 94.75 % vol",
            numbers=dict(marked=(60 - 32) / 1.8, reading=193 / 2, temperature=(75 - 32) / 1.8),
            result=189.5 / 2, within=0.025,
        ),
    ),
    Number(
        name="an-old-recipe",
        step=3,
        prompt=lambda mass: (
            f"An old chemist's recipe asks for spirit of **{mass} % by mass**. Bottles are "
            "labelled in % vol. **What must stand on the bottle?**\n\nA litre of that spirit "
            f"weighs {hc.density(mass / 100):.0f} g, a litre of pure alcohol 789 g (OIML R 22)."
        ),
        numbers=dict(mass=(28, 30, 32, 35, 38, 40, 42, 45, 48, 50, 55)),
        model=lambda mass: hc.abv(mass / 100),
        unit="% vol",
        tolerance=Tolerance(0.6, "the panel shows whole per cents by mass, so it is read to about "
                                 "half a per cent"),
        sensible=(30, 65),
        turns=[
            Turn("left it as it is", lambda mass: mass,
                 "That is the share of the weight. The label gives the share of the room."),
            Turn("upside down", lambda mass: mass * 789 / hc.density(mass / 100),
                 "Alcohol is light: will its share of the room be larger or smaller than its share "
                 "of the weight?"),
            Turn("as if alcohol weighed as much as water",
                 lambda mass: mass * hc.density(mass / 100) / 1000,
                 "You have the grams of alcohol in 100 mL. How many mL are those grams?"),
        ],
        section="Why",
        worked=lambda mass, answer: (
            f"100 mL of it weigh {hc.density(mass / 100) / 10:.1f} g; {mass} % of that, "
            f"{mass * hc.density(mass / 100) / 1000:.1f} g, is alcohol.\nEach mL of alcohol weighs "
            f"0.789 g: {mass * hc.density(mass / 100) / 1000:.1f} / 0.789 = **{answer:.1f} mL** in "
            f"100 mL, so **{answer:.1f} % vol**."
        ),
        published=Published(
            source="OIML R 22 (1975), table of % vol at 20 °C: 52.09 % by mass is 60 % vol (from "
                   "memory)",
            numbers=dict(mass=52.09), result=60, within=0.01,
        ),
    ),
    Number(
        name="a-measure",
        step=3,
        prompt="A recipe card from overseas counts in US fluid ounces: **{ounces} fl oz** of "
               "spirit at **{proof} US proof**. How many **grams of pure alcohol** are in it? Give "
               "one decimal.\n\n1 US fluid ounce is 29.57 mL; 1 mL of pure alcohol weighs 0.789 g.",
        numbers=dict(ounces=(1, 1.5, 2, 2.5, 3, 4), proof=(80, 86, 90, 100, 101, 120)),
        model=lambda ounces, proof: ethanol_grams(
            ounces * FLUID_OUNCE, hc.abv_from_proof(proof)),
        unit="g",
        tolerance=Tolerance(0.1, "one decimal is asked for; the two figures given are good to a "
                                 "part in a thousand", percent=1),
        sensible=(9, 60),
        turns=[
            Turn("took proof for per cent",
                 lambda ounces, proof: ounces * FLUID_OUNCE * proof / 100 * PURE,
                 "What is that proof in per cent by volume?"),
            Turn("mL for grams",
                 lambda ounces, proof: ounces * FLUID_OUNCE * proof / 200,
                 "So many mL of pure alcohol there are. What do they weigh?"),
            Turn("ounces by weight for fluid ounces",
                 lambda ounces, proof: ounces * OUNCE * proof / 200,
                 "An ounce on the scale is a weight. A fluid ounce is a volume: how many mL?"),
            Turn("divided by the weight of a mL",
                 lambda ounces, proof: ounces * FLUID_OUNCE * proof / 200 / PURE,
                 "Alcohol is lighter than water: is the number of grams larger or smaller than the "
                 "number of mL?"),
        ],
        section=SCALES,
        worked=lambda ounces, proof, answer: (
            f"{ounces} × 29.57 = {ounces * FLUID_OUNCE:.1f} mL of spirit at {proof} / 2 = "
            f"{proof / 2:g} % vol hold {ounces * FLUID_OUNCE * proof / 200:.1f} mL of pure "
            f"alcohol.\nThey weigh {ounces * FLUID_OUNCE * proof / 200:.1f} × 0.789 = "
            f"**{answer:.1f} g**."
        ),
        published=Published(
            source="NIAAA (seen quoted): 1.5 US fluid ounces of 80 proof are one US standard "
                   "drink, 14 g of alcohol",
            numbers=dict(ounces=1.5, proof=80), result=14, within=0.05,
        ),
    ),
    Number(
        name="on-the-scale",
        step=4,
        prompt="Tove has made up a spirit and not written down how strong. A bottle weighs "
               "**{empty} g** empty; filled with it to its **{volume} mL** mark, at 20 °C, "
               "**{full} g**. **About how strong is the spirit?** The panel shows what a litre "
               "weighs.",
        numbers=dict(empty=(304, 307, 310, 313), full=steps(758, 790, 2), volume=(500,)),
        keep=lambda empty, full, volume: 905 <= (full - empty) / volume * 1000 <= 955,
        model=lambda empty, full, volume: _strength_of((full - empty) / volume * 1000),
        unit="% vol",
        tolerance=Tolerance(1.5, "a kitchen scale shows whole grams, and 1 g in 500 mL is about 1 "
                                 "% vol here"),
        sensible=(34, 63),
        turns=[
            Turn("gave the per cent by mass",
                 lambda empty, full, volume: 100 * hc.mass_fraction(
                     _strength_of((full - empty) / volume * 1000)),
                 "That is the ruler of per cent by mass. Which scale stands on bottles?"),
            Turn("gave the proof",
                 lambda empty, full, volume: 2 * _strength_of((full - empty) / volume * 1000),
                 "The right line, another ruler: which one counts per cent by volume?"),
            Turn("as if the weight fell evenly from water to alcohol",
                 lambda empty, full, volume: (998 - (full - empty) / volume * 1000) / 2.09,
                 "Water and alcohol draw together when they mix, so the way from 998 g to 789 g is "
                 "no straight line. Take the panel."),
        ],
        section=BENCH,
        worked=lambda empty, full, volume, answer: (
            f"The spirit alone: {full} − {empty} = {full - empty} g in {volume} mL, so "
            f"{(full - empty) * 1000 / volume:.0f} g in a litre.\nIn the panel a litre weighs that "
            f"at about **{answer:.0f} % vol**. A hydrometer tells more. (This is for a spirit you "
            "know. What smells of spirit and has no label at all is never for drinking.)"
        ),
    ),
    Table(
        name="bottle-card",
        step=5,
        prompt=lambda volume, proof: (
            f"Write the card for a bottle that says **{proof} US proof** and holds **{volume} "
            "mL**. Write each number where the dots stand.\n\nA litre of this spirit weighs "
            f"{_litre(proof / 2):.0f} g; 1 mL of pure alcohol weighs 0.789 g."
        ),
        numbers=dict(volume=steps(200, 750, 50), proof=(80, 84, 86, 90, 96, 100, 101, 110, 114)),
        rows=[
            Row(
                label="strength",
                model=lambda proof: hc.abv_from_proof(proof),
                unit="% vol",
                tolerance=Tolerance(0.1, "half of a whole number needs no rounding"),
                sensible=(40, 57),
                turns=[Turn("took proof for per cent", lambda proof: proof,
                            "Proof is another scale than per cent. Which number is the larger?")],
            ),
            Row(
                label="pure alcohol",
                model=lambda volume, proof: volume * proof / 200,
                unit="mL",
                tolerance=Tolerance(1, "no table is needed; whole mL are enough"),
                sensible=(80, 430),
                turns=[Turn("took proof for per cent", lambda volume, proof: volume * proof / 100,
                            "More alcohol than the strength allows: which number is the per "
                            "cent?")],
            ),
            Row(
                label="weight of that alcohol",
                model=lambda volume, proof: ethanol_grams(volume, proof / 2),
                unit="g",
                tolerance=Tolerance(1, "a kitchen scale shows whole grams"),
                sensible=(60, 340),
                turns=[
                    Turn("mL for grams", lambda volume, proof: volume * proof / 200,
                         "A mL of alcohol is lighter than a gram."),
                    Turn("divided by the weight of a mL",
                         lambda volume, proof: volume * proof / 200 / PURE,
                         "Alcohol is lighter than water: more grams than mL, or fewer?"),
                ],
            ),
            Row(
                label="weight of all the spirit",
                model=lambda volume, proof: volume * _litre(proof / 2) / 1000,
                unit="g",
                tolerance=Tolerance(1, "a kitchen scale shows whole grams"),
                sensible=(180, 720),
                turns=[
                    Turn("as heavy as water", lambda volume: volume,
                         "That would be so for water. What does a litre of this spirit weigh?"),
                    Turn("as light as pure alcohol", lambda volume: volume * PURE,
                         "Only a part of it is alcohol."),
                ],
            ),
            Row(
                label="share of alcohol by mass",
                model=lambda proof: 100 * hc.mass_fraction(proof / 2),
                unit="% mass",
                tolerance=Tolerance(0.5, "from two weights in whole grams"),
                sensible=(33, 50),
                turns=[Turn("per cent by volume for per cent by mass", lambda proof: proof / 2,
                            "That is the share of the room. Which two of your weights give the "
                            "share of the weight?")],
            ),
        ],
        section=SCALES,
        worked=lambda volume, proof, answer: (
            f"{proof} / 2 = **{answer['strength']:g} % vol**.\n{volume} × "
            f"{answer['strength']:g} / 100 = **{answer['pure alcohol']:.0f} mL** of pure alcohol, "
            f"× 0.789 = **{answer['weight of that alcohol']:.0f} g**.\nAll of it: {volume} × "
            f"{_litre(proof / 2):.0f} / 1000 = **{answer['weight of all the spirit']:.0f} g**.\n"
            f"{answer['weight of that alcohol']:.0f} / {answer['weight of all the spirit']:.0f} × "
            f"100 = **{answer['share of alcohol by mass']:.0f} % by mass**."
        ),
    ),
    Explain(
        name="a-summer-reading",
        step=3,
        prompt="On a summer afternoon, at 28 °C, a friend floats a hydrometer (true at 20 °C) in a "
               "bottle labelled 40 % vol. It reads 44. \"They gave me more than the label says,\" "
               "says the friend, and writes 44 % vol on the jar. **Explain in three or four "
               "sentences** what happened, about how strong the spirit is, and what you would have "
               "done.",
        section=FLOAT,
        marks=4,
        rubric=[
            Point("says that warm spirit is lighter, so the hydrometer sinks deeper and reads too "
                  "strong"),
            Point("takes off about 0.4 % vol for each degree (or uses the panel): near 41 % vol"),
            Point("says that this agrees with the label, within what a hydrometer can tell"),
            Point("lets the bottle cool first, closed because warm spirit is above its flash "
                  "point, or corrects the reading"),
        ],
        example="Warm spirit is lighter, so the hydrometer sinks deeper and reads too strong. At "
                "28 °C that is eight degrees too warm, about 0.4 % vol each, so the spirit has "
                "about 41 % vol. That agrees with the label, since a kitchen hydrometer is good to "
                "half a per cent or so. I would have let the bottle cool to 20 °C, closed because "
                "at 28 °C a spark can light its vapour, and read it then.",
    ),
    Function(
        name="write-grams",
        step=3,
        prompt="Write a function that tells how many grams of pure alcohol are in a bottle. With "
               "{volume} mL at {proof} US proof it is called as `answer({volume}, {proof})`, and "
               "it must work for other numbers too. 1 mL of pure alcohol weighs 0.789 g.",
        numbers=dict(volume=steps(100, 1000, 50), proof=(76, 80, 86, 90, 100, 151, 190)),
        model=lambda volume, proof: ethanol_grams(volume, hc.abv_from_proof(proof)),
        unit="g",
        tolerance=Tolerance(0.5, "the weight of a mL is good to a part in a thousand", percent=0.5),
        sensible=(25, 760),
        turns=[
            Turn("took proof for per cent", lambda volume, proof: volume * proof / 100 * PURE,
                 "What is proof in per cent by volume?"),
            Turn("mL for grams", lambda volume, proof: volume * proof / 200,
                 "So many mL there are. What do they weigh?"),
        ],
        section=SCALES,
        worked="Half the proof is the per cent: `return volume * proof / 200 * 0.789`.",
    ),
]

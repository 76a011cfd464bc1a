"""Herb density: from a fill to grams, from grams to a ratio.

Amounts are invented for the exercise; herbs' figures are from the USDA National Nutrient
Database, release 27.
"""

import herbcalc as hc
from herbcalc.classroom import Choice, Number, Option, Tolerance, Turn

title = "Herb density"

FILL = "The same fill, five jars"
WEIGHT = "By eye, and by weight"
CUP = "At the bench: a level cup"

self_check = [
    Choice(
        name="check-much-herb",
        step=1,
        prompt="Two tinctures of the same dried herb: one is **1:3**, the other **1:10**. **Which "
               "holds more herb in each mL?**",
        options=[
            Option("the 1:3",
                   "Three mL for each gram: a third of a gram in each mL.", right=True),
            Option("the 1:10",
                   "Say it as a sentence: ten mL of liquid *for each gram*. How much of a gram is "
                   "in one of those mL?"),
            Option("both the same: it is the same herb",
                   "The herb is the same. Is the amount of liquid around each gram the same?"),
        ],
        section=WEIGHT,
        worked="A small number after the colon means much herb: in 1:3 each gram has 3 mL around "
               "it, in 1:10 it has 10 mL.",
    ),
    Number(
        name="check-cup",
        step=2,
        prompt="A cup of **{cup} mL** weighs **{empty} g** empty and **{full} g** levelled full of "
               "dried herb. How many grams of this herb are in a **{jar} mL** jar that is three "
               "quarters full?",
        numbers=dict(cup=(200, 240, 250), empty=(120, 180, 210), full=(240, 250, 260),
                     jar=(500, 750, 1000)),
        model=lambda cup, empty, full, jar: (
            0.75 * jar * hc.bulk_density_from_cup(full - empty, cup)),
        unit="g",
        tolerance=Tolerance(2, "a kitchen scale shows whole grams, and the jar holds a few cups",
                            percent=2),
        sensible=(40, 600),
        turns=[
            Turn("forgot to take off the cup",
                 lambda cup, full, jar: 0.75 * jar * full / cup,
                 "Herb that heavy would sink like a stone: what else was on the scale?"),
            Turn("filled the jar to the brim",
                 lambda cup, empty, full, jar: jar * (full - empty) / cup,
                 "How full is the jar?"),
            Turn("took the cup for the jar",
                 lambda empty, full: 0.75 * (full - empty),
                 "That is three quarters of the cup. The jar holds several cups."),
        ],
        section=CUP,
        worked=lambda cup, empty, full, jar, answer: (
            f"The herb in the cup: {full} − {empty} = {full - empty} g, that is "
            f"{(full - empty) / cup:.3f} g in each mL.\n0.75 × {jar} × {(full - empty) / cup:.3f} "
            f"= **{answer:.0f} g**."
        ),
    ),
    Choice(
        name="check-same-line",
        step=2,
        prompt="A friend makes fennel seed and dried marjoram tinctures alike: jar three quarters "
               "full, topped up. **What can you say about the two?**",
        options=[
            Option("the fennel jar holds several times as much herb",
                   "Seed lies close, leaf holds air: the line on the jar is the same, the weight "
                   "is not.", right=True),
            Option("they have the same ratio, because the fill is the same",
                   "The eye compares room. What does a ratio compare?"),
            Option("the marjoram jar holds more herb, because it takes in more liquid",
                   "It does take in more liquid. Whose room does the liquid take: the herb's, or "
                   "the air's?"),
            Option("the ratio depends on the size of the jar",
                   "Drag the size of the jars in the panel and watch the ratios: do they move?"),
        ],
        section=FILL,
        worked=lambda: (
            "In 500 mL the table's figures give "
            f"{375 * hc.herb('fennel', 'dried').bulk_density:.0f} g of fennel seed and "
            f"{375 * hc.herb('marjoram', 'dried').bulk_density:.0f} g of marjoram, at one line."
        ),
    ),
]

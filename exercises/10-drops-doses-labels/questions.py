"""Drops, doses, labels: one measure turned into another, and what stands on a bottle. No doses.

Amounts are invented for the exercise. Densities rest on OIML R 22 (1975).
"""

import herbcalc as hc
from herbcalc.classroom import Choice, Choices, Number, Option, Tolerance, Turn

title = "Drops, doses, labels"

DROPS = "How many drops are a millilitre"
SPOON = "The alcohol in a spoon"
LABEL = "The label"


self_check = [
    Choice(
        name="check-smaller-drops",
        step=1,
        prompt="From the same dropper, drops of 45 % spirit are **less than half the size** of "
               "drops of water. **Why?**",
        options=[
            Option("the skin of the liquid is weaker, so a drop lets go sooner",
                   "Surface tension holds a drop to the rim, and spirit has less of it.",
                   right=True),
            Option("spirit is lighter than water",
                   "A little, by some per cent. Would that make a lighter drop fall sooner or "
                   "later?"),
            Option("a part of each drop goes off into the air",
                   "Hardly any in a second. Think of what holds the drop to the glass until it "
                   "falls."),
            Option("spirit is thinner and runs faster",
                   "At this strength it is thicker than water, if anything. What decides when a "
                   "drop lets go?"),
        ],
        section=DROPS,
        worked="By Tate's law the weight of a drop follows the surface tension: that of spirit is "
               "less than half that of water.",
    ),
    Number(
        name="check-alcohol",
        step=2,
        prompt="A measure of **{volume} mL** is filled with a tincture of **{abv} % vol**. How "
               "many **grams** of alcohol are in it? (Pure ethanol weighs 0.789 g/mL.)",
        numbers=dict(volume=(5, 10, 15, 20, 30), abv=(25, 40, 45, 50)),
        model=lambda volume, abv: hc.ethanol_grams(volume, abv),
        unit="g",
        tolerance=Tolerance(0.1, "a spoon or small measure is filled to some per cent at best",
                            percent=3),
        sensible=(0.9, 15),
        turns=[
            Turn("gave mL of alcohol", lambda volume, abv: volume * abv / 100,
                 "So many mL of it are pure alcohol. What does a mL of alcohol weigh?"),
            Turn("weighed the whole measure", lambda volume: volume * 0.789,
                 "Only a part of it is alcohol. Which figure says how much?"),
            Turn("divided by the density", lambda volume, abv: volume * abv / 100 / 0.789,
                 "Alcohol is lighter than water. Must the grams be more or fewer than the mL?"),
            Turn("took proof for per cent", lambda volume, abv: volume * abv / 200 * 0.789,
                 "The strength is in % vol already; nothing needs halving."),
        ],
        section=SPOON,
        worked=lambda volume, abv, answer: (
            f"{volume} × {abv} / 100 = {volume * abv / 100:g} mL of pure alcohol.\n"
            f"{volume * abv / 100:g} × 0.789 = **{answer:.1f} g**."
        ),
    ),
    Choices(
        name="check-label",
        step=2,
        prompt="**What belongs on the label of a bottle?** Pick all that do.",
        options=[
            Option("the Latin name and the part of the plant", right=True),
            Option("the strength at the end, in % vol", right=True),
            Option("a batch number", right=True),
            Option("the use-by date", right=True),
            Option("what it is good for",
                   "A claim to heal makes a medicine of it in most countries, and medicines need a "
                   "licence."),
            Option("how many drops to take",
                   "That depends on the person, and drops on the dropper. Whose business is the "
                   "first, and which measure is better than the second?"),
        ],
        section=LABEL,
        worked="What it is, how it was made, when, by whom, how strong, how long, and the "
               "cautions. What it is for and how much to take are for licensed practice.",
    ),
]

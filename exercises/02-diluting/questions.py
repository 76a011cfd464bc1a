"""Diluting: masses add, volumes do not; the alcohol stays, whatever water joins it.

Amounts, bottles and people are invented for the exercise. Results rest on OIML R 22 (1975).
"""

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

title = "Diluting"

cautions = """
**If you pour for real:** only spirit sold for drinking, never rubbing, denatured or wood alcohol.
Strong spirit burns and its vapour catches fire below room temperature: no flame, no stove, open
window. Keep it away from children. Selling or giving it away is a matter of local law.
"""

CYLINDER = Tolerance(
    2, "a 500 mL measuring cylinder is marked every 5 mL, that is 1 %; tables round far finer",
    percent=1,
)

ADDING = "Adding water"
MAKING_UP = "Making up to a volume"
SHRINKING = "Masses add, volumes do not"


# --- in the lesson -------------------------------------------------------------------------------

self_check = [
    Choice(
        name="check-jug",
        step=1,
        prompt="You pour **500 mL of 95 % spirit** and **500 mL of water** into one jug. "
               "Nothing is spilled. Where does the jug stand?",
        options=[
            Option("a little under 1000 mL",
                   "The small water molecules find room between those of the alcohol.", right=True),
            Option("at 1000 mL exactly",
                   "That would be so if volumes added. Go back to the panel and watch the mark "
                   "after pouring."),
            Option("a little over 1000 mL",
                   "It gets warm when you pour, but where does it stand once it has cooled?"),
        ],
        section=SHRINKING,
        worked="The masses add up to the gram. The volumes do not: the mixture shrinks by a few "
               "per cent, most of all near half and half.",
    ),
    Choices(
        name="check-what-stays",
        step=2,
        prompt="You add water to a spirit. **What stays the same?** Pick all that do.",
        options=[
            Option("the grams of alcohol in the jug", right=True),
            Option("the mL of pure alcohol you could count in it, volume times strength",
                   right=True),
            Option("the strength in % vol", "Strength is alcohol in a hundred parts of the jug, "
                                            "and the jug now holds more."),
            Option("the sum of the two volumes", "That is the surprise of this lesson: look at "
                                                 "the jug in the panel again."),
        ],
        section=MAKING_UP,
        worked="Water brings no alcohol and takes none away. So volume times strength is the same "
               "before and after, and that is all you need for making up to a volume.",
    ),
    Number(
        name="check-spirit",
        step=2,
        prompt="You want **{volume} mL at {to} % vol** and you have spirit of {abv} % vol. How "
               "many mL of the spirit do you measure before you fill up with water?",
        numbers=dict(volume=(500, 750, 1000), abv=(95, 96), to=(40, 45, 50, 60)),
        model=lambda volume, abv, to: hc.make_up(volume, abv, to)[0],
        unit="mL",
        tolerance=CYLINDER,
        sensible=(150, 700),
        turns=[
            Turn("upside down", lambda volume, abv, to: volume * abv / to,
                 "More spirit than the whole bottle holds? Which of the two strengths must stand "
                 "on top?"),
            Turn("gave the water", lambda volume, abv, to: volume - volume * to / abv,
                 "That is what is left for the water. The question asks for the spirit."),
        ],
        section=MAKING_UP,
        worked=lambda volume, abv, to, answer: (
            f"Pure alcohol wanted: {volume} × {to} / 100 = {volume * to / 100:.0f} mL.\n"
            f"Each mL of your spirit brings {abv / 100:g} mL of it: "
            f"{volume * to / 100:.0f} / {abv / 100:g} = **{answer:.0f} mL**.\n"
            "Then water to the mark."
        ),
    ),
]


# --- at home -------------------------------------------------------------------------------------

homework = [
    Number(
        name="pure-alcohol",
        step=1,
        prompt="A bottle holds **{volume} mL** of spirit at **{abv} % vol**. How many mL of pure "
               "alcohol are in it?",
        numbers=dict(volume=steps(350, 1000, 50), abv=(37.5, 40, 43, 45, 55, 60)),
        model=lambda volume, abv: volume * abv / 100,
        unit="mL",
        tolerance=Tolerance(1, "no table is needed; whole mL are enough"),
        sensible=(100, 700),
        turns=[
            Turn("took the strength for proof", lambda volume, abv: volume * abv / 200,
                 "Proof is halved to get per cent. The bottle says per cent already."),
            Turn("divided by the strength", lambda volume, abv: volume / (abv / 100),
                 "Only a part of the bottle is alcohol: can there be more of it than the bottle "
                 "holds?"),
            Turn("gave the rest of the bottle", lambda volume, abv: volume * (1 - abv / 100),
                 "That is what is not alcohol."),
        ],
        section=MAKING_UP,
        worked=lambda volume, abv, answer: (
            f"{abv} % vol means {abv} mL of alcohol in every 100 mL: "
            f"{volume} × {abv} / 100 = **{answer:g} mL**."
        ),
    ),
    Choice(
        name="the-jug",
        step=1,
        prompt="You weigh **{each} g of 96 % spirit** and **{each} g of water** into one jug. "
               "What can you be sure of?",
        numbers=dict(each=steps(200, 450, 50)),
        options=[
            Option("the jug weighs {each} g more than with the spirit alone",
                   "Nothing is lost on a scale.", right=True),
            Option("the volume is the sum of the two volumes",
                   "Between the molecules of the one there is room for those of the other. What "
                   "adds up, and what does not?"),
            Option("the strength is now half of 96 % vol",
                   "Half by weight is not half by volume: a gram of alcohol takes more room than a "
                   "gram of water, and the mixture shrinks besides."),
            Option("it weighs a little less, because it shrinks",
                   "It takes less room. Does it also get lighter?"),
        ],
        section=SHRINKING,
        worked="Masses add, always: a scale does not care what is dissolved in what.",
    ),
    Order(
        name="order-of-work",
        step=2,
        prompt="You make up {volume} mL of a weaker spirit. **Put the work in order.**",
        numbers=dict(volume=(250, 500, 1000)),
        items=[
            "work out how much spirit is needed",
            "measure the spirit into the empty jug",
            "pour in water until it stands just under the {volume} mL mark",
            "stir, and wait until it is no longer warm",
            "fill up with water to the {volume} mL mark",
            "write the label: what, how strong, when",
        ],
        before=[
            Before("measure the spirit into the empty jug",
                   "fill up with water to the {volume} mL mark",
                   "The mark is reached last with water: what must already be in the jug?"),
            Before("stir, and wait until it is no longer warm",
                   "fill up with water to the {volume} mL mark",
                   "Spirit and water get warm and then shrink as they cool. When do you read the "
                   "mark?"),
            Before("work out how much spirit is needed",
                   "measure the spirit into the empty jug",
                   "How do you know how much to measure?"),
        ],
        section=MAKING_UP,
        worked="Sum, spirit, most of the water, stir and cool, up to the mark, label. The water "
               "is never measured: the mark does that, shrinking and all.",
    ),
    Number(
        name="make-up",
        step=2,
        prompt="You want **{volume} mL at {to} % vol** and you have spirit of **{abv} % vol**. How "
               "many mL of the spirit do you measure before you fill up with water to the mark?",
        numbers=dict(volume=steps(250, 1000, 50), abv=(95, 96, 96.3), to=steps(30, 70, 5)),
        model=lambda volume, abv, to: hc.make_up(volume, abv, to)[0],
        unit="mL",
        tolerance=CYLINDER,
        sensible=(75, 750),
        turns=[
            Turn("upside down", lambda volume, abv, to: volume * abv / to,
                 "Weaker than what you have, so you need less of it than the whole. Which strength "
                 "stands on top?"),
            Turn("gave the water", lambda volume, abv, to: volume * (1 - to / abv),
                 "That is the part left for water. The question asks for the spirit."),
            Turn("per cent by mass for per cent by volume",
                 lambda volume, abv, to: volume * hc.mass_fraction(to) / hc.mass_fraction(abv),
                 "Those strengths are by mass. Bottles and jugs are counted by volume."),
        ],
        section=MAKING_UP,
        worked=lambda volume, abv, to, answer: (
            f"Pure alcohol wanted: {volume} × {to} / 100 = {volume * to / 100:g} mL.\n"
            f"100 mL of your spirit bring {abv} mL: {volume * to / 100:g} × 100 / {abv} = "
            f"**{answer:.0f} mL**.\nThen water to the {volume} mL mark, once it has cooled."
        ),
        published=Published(
            source="Dilute Ethanols, British Pharmacopoeia: for 70 % v/v, ethanol (96 per cent), "
                   "which averages 96.3 % v/v, 727 mL made up to 1000 mL",
            numbers=dict(volume=1000, abv=96.3, to=70), result=727, within=0.5,
        ),
    ),
    Number(
        name="water-to-add",
        step=3,
        prompt="**{volume} mL** of spirit at **{abv} % vol** stand before you; the tincture wants "
               "**{to} % vol**. You use all of the spirit. How many mL of water do you **add**?\n\n"
               "Take the lesson's panel or table for the shrinking.",
        numbers=dict(volume=steps(200, 700, 50), abv=(95, 96), to=steps(40, 60, 5)),
        model=lambda volume, abv, to: hc.water_to_dilute(volume, abv, to),
        unit="mL",
        tolerance=CYLINDER,
        sensible=(100, 1100),
        turns=[
            Turn("the simple difference", lambda volume, abv, to: volume * (abv / to - 1),
                 "You took volumes as if they added. The mixture shrinks, so that much water "
                 "leaves it short."),
            Turn("gave the whole", lambda volume, abv, to: volume * abv / to,
                 "That is about how much there is in the end. How much of it do you add?"),
            Turn("shared out the spirit", lambda volume, abv, to: volume * (1 - to / abv),
                 "That would be the water inside {volume} mL of the finished mixture. But here all "
                 "{volume} mL are spirit, and water comes on top."),
        ],
        section=ADDING,
        worked=lambda volume, abv, to, answer: (
            f"The alcohol stays: {volume} × {abv} / {to} = {volume * abv / to:.0f} mL in the end.\n"
            f"The simple difference would be {volume * (abv / to - 1):.0f} mL of water. Spirit and "
            f"water shrink by {volume + answer - volume * abv / to:.0f} mL, which water must fill "
            f"too: **{answer:.0f} mL**."
        ),
        published=Published(
            source="27 CFR 30.66, Table 6: 112 US proof reduced to 100 proof, 12.42 volumes of "
                   "water to 100 of spirit (simple proportion would say 12.00)",
            numbers=dict(volume=100, abv=56, to=50), result=12.42, within=0.01,
            note="the table is for 60 °F, the course counts at 20 °C",
        ),
    ),
    Number(
        name="two-labels",
        step=3,
        prompt="An imported bottle says **{proof} US proof** and holds **{volume} mL**. You add "
               "water to all of it until it has **{to} % vol**. How many mL of water?",
        numbers=dict(volume=steps(300, 750, 50), proof=(151, 160, 190, 192), to=steps(40, 55, 5)),
        model=lambda volume, proof, to: hc.water_to_dilute(volume, hc.abv_from_proof(proof), to),
        unit="mL",
        tolerance=CYLINDER,
        sensible=(80, 1100),
        turns=[
            Turn("took proof for per cent", lambda volume, proof, to: volume * (proof / to - 1),
                 "Can a bottle hold more than 100 % alcohol? What does proof count?"),
            Turn("the simple difference",
                 lambda volume, proof, to: volume * (proof / 2 / to - 1),
                 "Proof is right. But volumes do not add: the mixture shrinks, and water must fill "
                 "that too."),
            Turn("gave the whole", lambda volume, proof, to: volume * proof / 2 / to,
                 "That is about what you have in the end. How much of it is added?"),
        ],
        section=ADDING,
        worked=lambda volume, proof, to, answer: (
            f"Proof is twice the per cent: {proof} / 2 = {proof / 2:g} % vol.\n"
            f"In the end there are {volume} × {proof / 2:g} / {to} = "
            f"{volume * proof / 2 / to:.0f} mL.\nWith the shrinking filled up: **{answer:.0f} mL** "
            "of water."
        ),
    ),
    Table(
        name="batch-sheet",
        step=4,
        prompt="The class fills **{bottles} bottles of {size} mL** with a menstruum of **{to} % "
               "vol**, made from spirit of **{abv} % vol**. Fill in the sheet; write each number "
               "where the dots stand.",
        numbers=dict(bottles=(4, 5, 6, 8, 10, 12), size=(50, 100, 120, 250), abv=(95, 96),
                     to=steps(40, 60, 5)),
        keep=lambda bottles, size: 400 <= bottles * size <= 2000,
        rows=[
            Row(
                label="to make",
                model=lambda bottles, size: bottles * size,
                unit="mL",
                tolerance=Tolerance(0.5, "bottles are counted, nothing is measured yet"),
                sensible=(400, 2000),
                turns=[Turn("one bottle only", lambda size: size,
                            "That fills one bottle. How many are there?")],
            ),
            Row(
                label="pure alcohol in it",
                model=lambda bottles, size, to: bottles * size * to / 100,
                unit="mL",
                tolerance=Tolerance(1, "no table is needed; whole mL are enough"),
                sensible=(150, 1300),
                turns=[Turn("took the strength of the spirit",
                            lambda bottles, size, abv: bottles * size * abv / 100,
                            "That would be so if the bottles held your spirit as it is.")],
            ),
            Row(
                label="spirit to measure",
                model=lambda bottles, size, abv, to: hc.make_up(bottles * size, abv, to)[0],
                unit="mL",
                tolerance=CYLINDER,
                sensible=(150, 1300),
                turns=[
                    Turn("upside down", lambda bottles, size, abv, to: bottles * size * abv / to,
                         "More spirit than there is to make? Which strength stands on top?"),
                    Turn("as if the spirit were pure",
                         lambda bottles, size, to: bottles * size * to / 100,
                         "That is pure alcohol. Your spirit is a little water too.")
                ],
            ),
            Row(
                label="water to add",
                model=lambda bottles, size, abv, to: hc.make_up(bottles * size, abv, to)[1],
                unit="mL",
                tolerance=Tolerance(
                    2, "a 500 mL measuring cylinder is marked every 5 mL, that is 1 %", percent=1),
                sensible=(150, 1300),
                turns=[Turn("the simple difference",
                            lambda bottles, size, abv, to: bottles * size * (1 - to / abv),
                            "You took volumes as if they added. The mixture shrinks below the "
                            "mark: what fills it up?")],
            ),
        ],
        section=MAKING_UP,
        worked=lambda bottles, size, abv, to, answer: (
            f"To make: {bottles} × {size} = **{answer['to make']:.0f} mL**.\n"
            f"Pure alcohol: {bottles * size} × {to} / 100 = "
            f"**{answer['pure alcohol in it']:.0f} mL**.\n"
            f"Spirit: {answer['pure alcohol in it']:.0f} × 100 / {abv} = "
            f"**{answer['spirit to measure']:.0f} mL**.\n"
            f"Water up to the mark: **{answer['water to add']:.0f} mL**; the two together are "
            f"{answer['spirit to measure'] + answer['water to add'] - bottles * size:.0f} mL more "
            "than the jug shows, and that is the shrinking."
        ),
    ),
    Number(
        name="two-leftovers",
        step=4,
        prompt="Two rests stand on the shelf: **{first} mL at {strong} % vol** and **{second} "
               "mL at {weak} % vol**. You pour them together and fill up with water to **{volume} mL**. "
               "How strong is it now?",
        numbers=dict(first=steps(100, 300, 25), strong=(60, 70, 75, 80), second=steps(100, 400, 25),
                     weak=(30, 35, 40, 45), volume=steps(500, 1000, 50)),
        keep=lambda first, second, volume: first + second + 50 <= volume,
        model=lambda first, strong, second, weak, volume:
            (first * strong + second * weak) / volume,
        unit="% vol",
        tolerance=Tolerance(0.5, "a kitchen hydrometer is read to about half a per cent (common "
                                 "practice, no source)"),
        sensible=(15, 55),
        turns=[
            Turn("the middle of the two strengths", lambda strong, weak: (strong + weak) / 2,
                 "The middle is right only for equal amounts, and without the water."),
            Turn("forgot the water",
                 lambda first, strong, second, weak: (first * strong + second * weak)
                 / (first + second),
                 "So strong it is before the water. In how much liquid is the alcohol in the end?"),
            Turn("forgot the weaker rest",
                 lambda first, strong, volume: first * strong / volume,
                 "The weaker rest brings alcohol too."),
        ],
        section=MAKING_UP,
        worked=lambda first, strong, second, weak, volume, answer: (
            f"Alcohol from the first: {first} × {strong} / 100 = {first * strong / 100:g} mL; from "
            f"the second: {second} × {weak} / 100 = {second * weak / 100:g} mL.\n"
            f"Together {(first * strong + second * weak) / 100:g} mL in {volume} mL: "
            f"{(first * strong + second * weak) / 100:g} / {volume} × 100 = **{answer:.1f} % vol**."
        ),
    ),
    Explain(
        name="why-the-mark",
        step=3,
        prompt="A friend wants a litre at half strength, measures 500 mL of 96 % spirit and 500 mL "
               "of water, and says the jug must be wrong: it stands under the mark. **Explain in "
               "two or three sentences** what happened, whether the mixture has the strength the "
               "friend expects, and how you would have done it.",
        section=SHRINKING,
        marks=3,
        rubric=[
            Point("says that volumes do not add while masses do (the mixture shrinks; room "
                  "between the molecules)"),
            Point("says that the alcohol is now in less than a litre, so it is somewhat stronger "
                  "than half of 96 %"),
            Point("says to measure the spirit and fill up with water to the mark, after cooling"),
        ],
        example="The jug is right: spirit and water shrink when they are mixed, because their "
                "molecules find room between each other. The weights add up, the volumes do not. "
                "All the alcohol is now in less than a litre, so it is a little stronger than 48 % "
                "vol. I would measure the spirit first, add most of the water, let it cool and "
                "then fill up with water to the mark.",
    ),
    Function(
        name="write-make-up",
        step=3,
        prompt="Write a function that tells how many mL of spirit to measure for making up to a "
               "volume. With {volume} mL wanted at {to} % vol from {abv} % vol it is called as "
               "`answer({volume}, {abv}, {to})`, and it must work for other numbers too.",
        numbers=dict(volume=steps(100, 1000, 50), abv=(90, 95, 96), to=steps(25, 70, 5)),
        model=lambda volume, abv, to: hc.make_up(volume, abv, to)[0],
        unit="mL",
        tolerance=CYLINDER,
        sensible=(20, 800),
        turns=[
            Turn("upside down", lambda volume, abv, to: volume * abv / to,
                 "Which strength stands on top?"),
            Turn("gave the water", lambda volume, abv, to: volume * (1 - to / abv),
                 "That is the part left for water."),
        ],
        section=MAKING_UP,
        worked="The alcohol stays the same: `return volume * to / abv`.",
    ),
]

"""Plan a batch: from one jar to many, what to buy, and what must stand on the label.

Amounts, bottles and jars are invented for the exercise. Results rest on OIML R 22 (1975); what
stands on a label is as in the lesson.
"""

from math import ceil

from herbcalc.classroom import Choices, Number, Option, Tolerance, Turn, steps

title = "Plan a batch"

WANTED = "What is wanted"
BUY = "What to buy"
PAPER = "What stands on the label"

self_check = [
    Number(
        name="check-strong-spirit",
        step=1,
        prompt="**{jars} jars** each take **{each} mL** of menstruum at **{to} % vol**. You let down "
               "spirit of **{abv} % vol**. How many mL of that spirit do you measure, once, for all "
               "of them?",
        numbers=dict(jars=(6, 8, 10, 12, 15), each=steps(200, 450, 25), to=steps(40, 60, 5),
                     abv=(90, 95, 96)),
        model=lambda jars, each, to, abv: jars * each * to / abv,
        unit="mL",
        tolerance=Tolerance(
            10, "a 1000 mL cylinder is marked every 10 mL, that is 1 %", percent=1),
        sensible=(450, 4600),
        turns=[
            Turn("one jar only", lambda each, to, abv: each * to / abv,
                 "That is one jar. The whole batch is measured at once."),
            Turn("upside down", lambda jars, each, to, abv: jars * each * abv / to,
                 "More spirit than there is menstruum to make? Which strength stands on top?"),
            Turn("as if the spirit were pure", lambda jars, each, to: jars * each * to / 100,
                 "That is pure alcohol. Your spirit is a little water too."),
        ],
        section=WANTED,
        worked=lambda jars, each, to, abv, answer: (
            f"All the jars: {jars} × {each} = {jars * each} mL. The alcohol stays, whatever water "
            f"joins it: {jars * each} × {to} / {abv} = **{answer:.0f} mL**, then water up to the "
            "mark."
        ),
    ),
    Number(
        name="check-bottles",
        step=2,
        prompt="A batch needs **{need} mL** of spirit. The shop sells it in bottles of **{size} "
               "mL** only. How many bottles do you buy?",
        numbers=dict(need=(1600, 2200, 2400, 3200, 3600, 3700, 4400, 5200), size=(500, 700, 750)),
        # so that cutting off and rounding to the nearest both give one bottle too few
        keep=lambda need, size: 0.05 < need / size % 1 < 0.45,
        model=lambda need, size: ceil(need / size),
        unit="bottles",
        tolerance=Tolerance(0.1, "bottles come whole"),
        sensible=(3, 12),
        turns=[
            Turn("left the rest out", lambda need, size: need // size,
                 "With those you stand there with an unfilled jar. What do you do about the rest?"),
            Turn("bought a part of a bottle", lambda need, size: need / size,
                 "The sum is right, and the shop sells whole bottles."),
        ],
        section=BUY,
        worked=lambda need, size, answer: (
            f"{need} / {size} = {need / size:.2f}, and bottles come whole: **{answer:.0f} bottles**. "
            f"{answer * size - need:.0f} mL are left over, and belong into the next plan."
        ),
    ),
    Choices(
        name="check-label",
        step=2,
        prompt="**What belongs on the label of a jar?** Pick all that do.",
        options=[
            Option("the Latin name, the part, and whether it was fresh or dried", right=True),
            Option("the ratio of herb to liquid, the liquid, and the % vol in the end", right=True),
            Option("when it was made, when to strain it and by when to use it up", right=True),
            Option("how many drops to take",
                   "Who may say how much a person takes? See the caution beside the labels."),
            Option("the strength of the spirit that was poured, and no other",
                   "The jar is not what the bottle was. Which strength says how long it keeps?"),
        ],
        section=PAPER,
        worked="Plant, ratio, liquid and final strength, the days, a batch code, the cautions and "
               "who made it. Never a dose: that is for a licensed practitioner.",
    ),
]

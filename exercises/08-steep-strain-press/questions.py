"""Steeping, straining, pressing: what comes out, what the marc keeps, what a second pour wins.

Amounts are invented for the exercise, and so is what the marc keeps back: measure your own.
"""

from herbcalc.classroom import Choice, Choices, Number, Option, Tolerance, Turn

title = "Steeping, straining, pressing"

STEEPS = "One steep or two"
PRESSING = "Pressing"


self_check = [
    Choice(
        name="check-two-steeps",
        step=1,
        prompt="Two jars with the same herb get **the same 500 mL** in all. One is steeped once, "
               "the other twice with 250 mL, pressed each time. **What comes of it?**",
        options=[
            Option("the same volume, with more of the herb in it, from two steeps",
                   "The marc keeps the same mL at the end, but the second time there is less in "
                   "them.", right=True),
            Option("twice as much of the herb from two steeps",
                   "The first steep has already won more than half. Of what is the second a "
                   "share?"),
            Option("more volume from two steeps, as strong in herb as before",
                   "What the marc holds at the end is the same in both. What is different about "
                   "it?"),
            Option("no difference: the same liquid is the same liquid",
                   "Look at the green part of the two upper bars in the panel. What is in it?"),
        ],
        section=STEEPS,
        worked="What is lost is what stays dissolved in the marc's liquid. The second pour thins "
               "that liquid before it is left behind.",
    ),
    Number(
        name="check-what-comes-back",
        step=2,
        prompt="**{dry} g** of completely dry herb have steeped in **{poured} mL**. You know your "
               "press: each g of dry herb keeps **{kept} mL**. How many mL come back?",
        numbers=dict(dry=(60, 80, 100, 120), poured=(400, 450, 500, 600), kept=(0.7, 1.1, 1.6)),
        model=lambda dry, poured, kept: poured - dry * kept,
        unit="mL",
        tolerance=Tolerance(5, "a 500 mL cylinder is read to 5 mL"),
        sensible=(200, 560),
        turns=[
            Turn("counted on all of it", lambda poured: poured,
                 "So much was poured. What does the herb do with a part of it?"),
            Turn("gave what the marc keeps", lambda dry, kept: dry * kept,
                 "That is what stays behind. The question asks for what comes out."),
            Turn("divided by what is kept", lambda poured, kept: poured / kept,
                 "What the marc keeps hangs on the grams of herb. Where are they in your sum?"),
        ],
        section=PRESSING,
        worked=lambda dry, poured, kept, answer: (
            f"The marc keeps {dry} × {kept} = {dry * kept:.0f} mL.\n"
            f"{poured} − {dry * kept:.0f} = **{answer:.0f} mL** come back."
        ),
    ),
    Choices(
        name="check-pressing",
        step=2,
        prompt="Maren presses the marc with a screw press instead of wringing it out by hand. "
               "**What is true?** Pick all that are.",
        options=[
            Option("she gets more mL", right=True),
            Option("each mL stands for as much herb as before", right=True),
            Option("she must count fewer grams of herb lost in the marc's liquid", right=True),
            Option("each mL is stronger in alcohol",
                   "What sits in the marc is the same liquid as in the jar. What would make it "
                   "stronger?"),
            Option("she can strain the jar a week earlier",
                   "Pressing works on the liquid that is there. What sets the time of steeping?"),
        ],
        section=PRESSING,
        worked="A press wins more of the same liquid. Strength and herb for each mL stay as they "
               "were; less of them is thrown away.",
    ),
]

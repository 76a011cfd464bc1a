"""Vinegar: acid in the jar, what fresh herb's water does to it, and what a pH tells.

Amounts are invented for the exercise. The limits are FDA CPG Sec. 525.825 (vinegar: 4 g in 100 mL)
and 21 CFR 114.3 (pH 4.6); the pH rests on the acid's Ka alone (CRC Handbook, from memory).
"""

import herbcalc as hc
from herbcalc.classroom import Choice, Choices, Number, Option, Tolerance, Turn

title = "Vinegar"

JAR = "Fresh herb in vinegar"
TIED = "When acid is tied up"
MISTAKE = "The common mistake"


def _left(poured, acidity, grams):
    """g of acid in 100 mL once `grams` g of water have joined `poured` mL of vinegar."""
    return (hc.vinegar(poured, acidity=acidity) + hc.Liquid(water=grams)).acidity


self_check = [
    Number(
        name="check-acid-left",
        step=2,
        prompt="**{poured} mL** of vinegar with **{acidity} g** of acid in 100 mL go on fresh herb "
               "that brings **{grams} g** of water. How many g of acid are in 100 mL at the end?",
        numbers=dict(poured=(300, 350, 400), acidity=(5, 6, 7), grams=(60, 90, 120, 150)),
        model=_left,
        unit="g per 100 mL",
        tolerance=Tolerance(0.1, "labels give acid to half a gram; the volumes add near enough"),
        sensible=(2.5, 6.5),
        turns=[
            Turn("the acid poured", lambda acidity: acidity,
                 "That is the label of the bottle. How much liquid does that acid share now?"),
            Turn("the acid of the whole jar",
                 lambda poured, acidity: poured * acidity / 100,
                 "That is all the acid there is, in grams. How much of it is in each 100 mL?"),
            Turn("took the herb's water for vinegar poured off",
                 lambda poured, acidity, grams: acidity * (poured - grams) / poured,
                 "No acid has left the jar. What has become more?"),
        ],
        section=JAR,
        worked=lambda poured, acidity, grams, answer: (
            f"Acid in the jar: {poured} × {acidity} / 100 = {poured * acidity / 100:g} g. Liquid: "
            f"{poured} + {grams} = {poured + grams} mL.\n{poured * acidity / 100:g} / "
            f"{poured + grams} × 100 = **{answer:.1f} g in 100 mL**"
            f"{', under 4 g: watered vinegar.' if answer < 4 else ', still vinegar.'}"
        ),
    ),
    Choice(
        name="check-lower-bound",
        step=2,
        prompt="The panel says of a jar of nettle vinegar: **pH at least 2.5**. A strip dipped in "
               "it shows **4.2**. **Which of the two do you believe, and why?**",
        options=[
            Option("the strip: minerals of the herb have tied up acid, and no table knows how much",
                   "The computed figure is what the acid alone would do, the lowest it can be.",
                   right=True),
            Option("the panel: a computed figure is more exact than a strip",
                   "It is exact about the vinegar as it came out of the bottle. What has happened "
                   "in the jar since?"),
            Option("neither: they must be equal, so something is broken",
                   "The panel says *at least*. Is 4.2 at least 2.5?"),
            Option("the middle of both, 3.4",
                   "Two figures that answer two different questions have no useful middle. Which "
                   "one looked into the jar?"),
        ],
        section=TIED,
        worked="The acid alone gives a lower bound. Herbs raise the pH, and only a strip or a "
               "meter tells how far. 4.2 is below 4.6, but not by much: keep it cold.",
    ),
    Choices(
        name="check-safer",
        step=2,
        prompt="A jar of fresh herb in vinegar will end at **3.4 g of acid in 100 mL**. **What "
               "helps?** Pick all that do.",
        options=[
            Option("pour a vinegar with more acid", right=True),
            Option("wilt or dry the herb first", right=True),
            Option("less herb for the same vinegar", right=True),
            Option("a metal lid, screwed on tight",
                   "What does acid do to bare metal? And does a lid change what is in the jar?"),
            Option("wait: more acid will come out of the herb",
                   "What comes out of a fresh leaf first, and most?"),
        ],
        section=MISTAKE,
        worked="All three ways leave more acid for each mL of water: stronger vinegar, drier herb, "
               "less herb. Lids of glass or plastic, or a paper between.",
    ),
]

"""Glycerin: why not undiluted, why not thin, and what fresh herb does to it.

Amounts are invented for the exercise. Water activity rests on Norrish's rule (1966, from memory),
viscosity on Cheng (2008) after Segur & Oberstar (1951); the limits are 21 CFR 114.3 (foods) and
ISO 29621 (cosmetics); the trade's 40 to 50 % is common practice, no source.
"""

import herbcalc as hc
from herbcalc.classroom import Choice, Choices, Number, Option, Tolerance, Turn

title = "Glycerin"

CURVES = "Thick and thirsty"
LEAF = "A fresh leaf in glycerin"
MISTAKE = "The common mistake"


def _end(poured, share, grams):
    """Glycerin, % by volume, of `poured` mL at `share` % once `grams` g of water have joined it."""
    liquid = (hc.glycerin(share) + hc.water(100 - share)).poured(poured)
    return (liquid + hc.Liquid(water=grams)).glycerin_percent


self_check = [
    Choice(
        name="check-undiluted",
        step=1,
        prompt="A friend pours **undiluted glycerin** on *dried* leaf, shakes it daily for four "
               "weeks, and finds that hardly anything has come out. **What is the matter?**",
        options=[
            Option("it is so thick that nothing can creep out of the leaf in that time",
                   "More than a thousand times as thick as water, and the dried leaf brings no "
                   "water to thin it.", right=True),
            Option("the water activity is too low",
                   "That is why it keeps. Does free water decide how fast something creeps "
                   "through a liquid?"),
            Option("glycerin dissolves nothing out of plants",
                   "Thinned to the trade's window it draws many things. What changes most when "
                   "you thin it: look at the upper curve."),
            Option("dried leaf has nothing left to give",
                   "Drying takes the water. Would the same leaf give something to the friend's "
                   "tea?"),
        ],
        section=CURVES,
        worked=lambda: (
            f"Undiluted it is about {round(hc.glycerin(1).viscosity, -2):.0f} times as thick as "
            "water, half and half only about "
            f"{(hc.glycerin(50) + hc.water(50)).viscosity:.0f} times. On dried leaf, thin it first."
        ),
    ),
    Number(
        name="check-ends-at",
        step=2,
        prompt="You pour **{poured} mL** of a mix with **{share} %** glycerin on fresh herb that "
               "brings **{grams} g** of water. How much glycerin, in % by volume, is in the "
               "liquid at the end?",
        numbers=dict(poured=(300, 350, 400), share=(60, 70, 80), grams=(60, 80, 100, 120)),
        model=_end,
        unit="%",
        tolerance=Tolerance(1.5, "the short sum leaves out the shrinking, about 1 %"),
        sensible=(35, 75),
        turns=[
            Turn("the glycerin poured", lambda share: share,
                 "That is what was in the jug. What has the leaf brought by now?"),
            Turn("took the water off the per cents",
                 lambda poured, share, grams: share - 100 * grams / poured,
                 "The glycerin stays the same mL; it is now in more liquid. In how much?"),
            Turn("put the water in the place of the liquid",
                 lambda poured, share, grams: share * (poured - grams) / poured,
                 "Nothing was poured off. Is there less glycerin in the jar than before?"),
        ],
        section=LEAF,
        worked=lambda poured, share, grams, answer: (
            f"Glycerin poured: {poured} × {share} / 100 = {poured * share / 100:.0f} mL. Liquid in "
            f"the end: about {poured} + {grams} = {poured + grams} mL.\n"
            f"{poured * share / 100:.0f} / {poured + grams} × 100 = "
            f"{100 * poured * share / 100 / (poured + grams):.0f} %; counted with the shrinking "
            f"**{answer:.0f} %**."
        ),
    ),
    Choices(
        name="check-limits",
        step=2,
        prompt="A strained glycerin of mint has ended at **34 % glycerin**, water activity 0.88. "
               "**What is right to do or to say?** Pick all that are.",
        options=[
            Option("treat it like tea: cold, used within days, or thrown out", right=True),
            Option("next time pour a stronger mix on the fresh leaf, or dry the leaf", right=True),
            Option("let it stand longer: it will thicken by itself",
                   "What would have to leave the closed jar for that?"),
            Option("it keeps 3 to 5 years, because it is a glycerin preparation",
                   "That habit of the trade speaks of a jar inside the window. On which side of "
                   "0.85 is this one?"),
            Option("it smells good, so it is good",
                   "Some of what makes people ill has no smell. What do the two limits go by?"),
        ],
        section=MISTAKE,
        worked=lambda: (
            "Above a water activity of 0.85, that is under "
            f"{hc.glycerin_for_water_activity(0.85):.0f} % glycerin, it counts as a food that "
            "spoils. Count the end, not what was poured."
        ),
    ),
]

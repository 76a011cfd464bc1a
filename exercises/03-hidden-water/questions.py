"""The water hidden in the herb: what it does to the strength, and what to pour.

Amounts are invented for the exercise. Strengths rest on OIML R 22 (1975), the herbs' water on the
USDA National Nutrient Database, release 27.
"""

import herbcalc as hc
from herbcalc.classroom import Choice, Choices, Number, Option, Tolerance, Turn

title = "The water hidden in the herb"

FRESH = "A jar of fresh herb"
POUR = "Which strength to pour"


def _end(volume, abv, grams):
    """Strength of `volume` mL of spirit once `grams` g of water have joined it."""
    return (hc.spirit(volume, abv) + hc.Liquid(water=grams)).abv


self_check = [
    Choice(
        name="check-where-it-went",
        step=1,
        prompt="A jar of fresh mint was poured at **40 % vol**. Six weeks later, never opened, it "
               "stands well below that. **What has happened?**",
        options=[
            Option("water has come out of the leaves into the spirit",
                   "The alcohol is all there; there is more liquid around it.", right=True),
            Option("alcohol has gone out through the lid",
                   "The jar was closed and nothing smelled of spirit. Look at the dark part of the "
                   "two bars in the panel: does it shrink?"),
            Option("the leaves have eaten up the alcohol",
                   "The leaves do take liquid in. But what do they give back, and is the alcohol "
                   "that is inside them gone?"),
            Option("alcohol turns into something else with time",
                   "Nothing in a closed jar of spirit does that. What did the leaf consist of when "
                   "it went in?"),
        ],
        section=FRESH,
        worked="A fresh leaf is mostly water. It mixes with the spirit: the same alcohol in more "
               "liquid is a weaker liquid.",
    ),
    Number(
        name="check-ends-at",
        step=2,
        prompt="**{mass} g** of fresh herb, **{share} %** of it water, lie in **{volume} mL** of "
               "spirit at **{abv} % vol**. About how strong is the liquid once it has steeped?",
        numbers=dict(mass=(100, 150, 200), share=(80, 85, 90), volume=(300, 400, 500),
                     abv=(40, 50, 60)),
        keep=lambda mass, share, volume, abv: volume >= 2 * mass,
        model=lambda mass, share, volume, abv: _end(volume, abv, mass * share / 100),
        unit="% vol",
        tolerance=Tolerance(1, "the short sum does not count the shrinking, up to 1 % vol here"),
        sensible=(24, 55),
        turns=[
            Turn("the strength poured", lambda abv: abv,
                 "That is the strength of the bottle. What does the herb bring into the jar?"),
            Turn("took the herb's water off the per cents",
                 lambda abv, mass, share: abv - mass * share / 1000,
                 "Per cents and grams cannot be subtracted. How much liquid is there in the end, "
                 "and how much of it is alcohol?"),
            Turn("gave the water the strength",
                 lambda mass, share, volume, abv: abv * mass * share / 100 / volume,
                 "Which stands on top of the fraction: the spirit that was poured, or the water "
                 "that joined it?"),
        ],
        section=FRESH,
        worked=lambda mass, share, volume, abv, answer: (
            f"The herb brings {mass} × {share} / 100 = {mass * share / 100:.0f} g of water, about "
            f"as many mL.\n{abv} × {volume} / ({volume} + {mass * share / 100:.0f}) = "
            f"{abv * volume / (volume + mass * share / 100):.0f}: about **{answer:.0f} % vol**."
        ),
    ),
    Choices(
        name="check-ways-out",
        step=2,
        prompt="Your jar of fresh herb would end too weak. **What makes it end stronger?** Pick "
               "all that do.",
        options=[
            Option("pour a stronger spirit", right=True),
            Option("let the herb wilt or dry first", right=True),
            Option("use less herb in the same spirit", right=True),
            Option("let it steep longer",
                   "Steeping is how the water comes out of the herb. Can more of it lift the "
                   "strength?"),
            Option("take a larger jar and fill it to the same height",
                   "Twice the spirit, and twice the herb. What happens to the ratio?"),
            Option("leave the lid off for a while",
                   "Alcohol goes off into the air more readily than water does, and its vapour "
                   "burns. Which way would the strength go?"),
        ],
        section=POUR,
        worked="Less of the herb's water for each mL of spirit, or a stronger spirit: nothing else "
               "lifts the strength in the end.",
    ),
]

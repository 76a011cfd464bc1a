"""Start here and stay safe: when a spirit's vapour lights, and what never goes into a jar.

Places and people are invented for the exercise. Flash points rest on the table of the Engineering
ToolBox, read the cautious way.
"""

import herbcalc as hc
from herbcalc.classroom import Choice, Choices, Number, Option, Tolerance, Turn

title = "Start here and stay safe"

FIRE = "Fire"

self_check = [
    Number(
        name="check-flash",
        step=1,
        prompt="Look it up in the panel *When a spark is enough*: from what temperature can a "
               "spark light the vapour of spirit at **{abv} % vol**?",
        numbers=dict(abv=(95,)),  # weaker: too near the hinted wrong turns to tell apart
        model=lambda abv: hc.flash_point(abv),
        unit="°C",
        tolerance=Tolerance(1, "the line is read off between four measured rows, to about 1 °C"),
        sensible=(15, 36),
        turns=[
            Turn("the flash point of the plain spirit", lambda abv: hc.flash_point(40),
                 "That is the plain spirit's, 40 % vol. Does another strength have the same?"),
            Turn("the strength for the temperature", lambda abv: abv,
                 "That is the strength. The temperature stands on the left side of the picture."),
            Turn("as if stronger were safer", lambda abv: hc.flash_point(max(20, 120 - abv)),
                 "Which way does the line go: up or down, when the spirit gets stronger?"),
        ],
        section=FIRE,
        worked=lambda abv, answer: (
            f"Set the strength to {abv} % vol: the line stands at about **{answer:.0f} °C**. In "
            "any place as warm as that a spark is enough."
        ),
    ),
    Choices(
        name="check-liquids",
        step=1,
        prompt="Five bottles stand on a friend's shelf. **Which may go into a tincture?** Pick all "
               "that may.",
        options=[
            Option("vodka, 40 % vol, from the grocer", right=True),
            Option("grain spirit, 95 % vol, sold for drinking", right=True),
            Option("rubbing alcohol, 70 %",
                   "Rubbing alcohol is isopropyl, or spirit with something bitter or poisonous in "
                   "it. Who is it made for?"),
            Option("methylated spirit, 94 %, for cleaning and burners",
                   "Poison has been added so that nobody drinks it. Does diluting or drying take "
                   "it out?"),
            Option("a bottle without a label that smells of spirit",
                   "Wood alcohol smells nearly the same. What do you know about this bottle?"),
        ],
        section="Only spirit made for drinking",
        worked="Only what is sold for drinking, with its strength on the label. No drying, "
               "filtering or diluting makes the others safe.",
    ),
    Choice(
        name="check-jar",
        step=2,
        prompt="A jar without a date stands at the back of the shelf. It is clear, and it smells "
               "of nothing but mint. **What do you do with it?**",
        options=[
            Option("throw it out",
                   "Some dangers neither look nor smell, and without label and date nobody can say "
                   "what is in it.", right=True),
            Option("taste a little to find out",
                   "Tasting is how people get hurt. What would the taste tell you about what you "
                   "cannot see or smell?"),
            Option("keep it: it looks and smells right",
                   "Fluff and a bad smell mean *out*. Do no fluff and no smell mean *safe*?"),
            Option("add spirit to be on the safe side",
                   "Spirit stops things from growing. Does it undo what has grown already?"),
        ],
        section="Spoiled jars",
        worked="No label or no date: out with it. What keeps a jar is enough alcohol, glycerin or "
               "acid, and clean work; nose and eye catch only the rest.",
    ),
]

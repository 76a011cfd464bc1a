"""Glycerin: why not undiluted, why not thin, and what fresh herb does to it.

Amounts are invented for the exercise. Water activity rests on Norrish's rule (1966, from memory),
viscosity on Cheng (2008) after Segur & Oberstar (1951); the limits are 21 CFR 114.3 (foods) and
ISO 29621 (cosmetics); the trade's 40 to 50 % is common practice, no source.
"""

from functools import lru_cache

import herbcalc as hc
from herbcalc.classroom import (
    Before,
    Choice,
    Choices,
    Explain,
    Number,
    Option,
    Order,
    Point,
    Published,
    Row,
    Table,
    Tolerance,
    Turn,
)

title = "Glycerin"

CURVES = "Thick and thirsty"
LEAF = "A fresh leaf in glycerin"
MISTAKE = "The common mistake"


@lru_cache(maxsize=10_000)
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


# --- at home -------------------------------------------------------------------------------------

cautions = """
**If you pour for real:** only glycerin sold for food or medicine, in a closed bottle from a seller
who vouches for it; glycerin from elsewhere has been mixed with a poisonous look-alike that nobody
can taste (from memory). A jar that ends under 39 % glycerin is tea with sugar. Fluff, fizz or a
yeasty smell: throw it all out. "No alcohol" does not mean "for everybody": diabetes, pregnancy,
medicines, allergies and children are questions for a doctor, a pharmacist or a licensed herbal
practitioner.
"""

HEAVY = "A heavy, thick liquid"
SPIRIT = "A little spirit in the glycerin"

HEAVIER = 1.26  # g/mL of glycerin as sold, at 20 °C: the figure the prompts give

MIX = Tolerance(1.5, "the short sum leaves out the shrinking, about 1 %; a mix is made to a "
                     "whole per cent")


@lru_cache(maxsize=10_000)
def _pour(poured, grams, to):
    """Share of glycerin, %, to pour so that a jar with `grams` g of herb's water ends at `to` %."""
    share = to
    for _ in range(6):  # what ends too low by a tenth is poured stronger by a tenth, and so on
        share *= to / _end(poured, min(share, 100), grams)
    if share > 100:
        raise ValueError("Even undiluted glycerin ends below that.")
    return share


def _added_missing(poured, grams, to):
    """What one pours who adds to the wanted share what it would lose."""
    return 2 * to - _end(poured, to, grams)


def _by_volume(glycerin, water):
    """Glycerin, % by volume as the panel counts it, of two weights in g."""
    return 100 * (glycerin / HEAVIER) / (glycerin / HEAVIER + water)


@lru_cache(maxsize=10_000)
def _as_thick(liquid):
    """How many times as thick as water."""
    return liquid.viscosity / hc.water(1).viscosity


homework = [
    Number(
        name="on-the-scale",
        step=1,
        prompt="A recipe wants **{volume} mL** of glycerin ({purity} % pure, as sold), but it "
               "sticks to every cylinder. So you weigh it into the jar. **How many grams?** One mL "
               "weighs 1.26 g.",
        numbers=dict(volume=(60, 80, 100, 120, 150, 180, 200, 240, 250, 300), purity=(99.7,)),
        model=lambda volume, purity: hc.glycerin(volume, purity).mass,
        unit="g",
        tolerance=Tolerance(1, "a kitchen scale shows whole grams", percent=0.5),
        sensible=(70, 400),
        turns=[
            Turn("as heavy as water", lambda volume: volume,
                 "That would be so for water. Is a mL of glycerin lighter or heavier?"),
            Turn("divided by the weight of a mL", lambda volume: volume / HEAVIER,
                 "Heavier than water: more grams than mL, or fewer?"),
        ],
        section=HEAVY,
        worked=lambda volume, answer: f"{volume} × 1.26 = **{answer:.0f} g**.",
        published=Published(
            source="Bosart & Snoddy, Ind. Eng. Chem. 20 (1928) 1377, as in handbooks (from "
                   "memory): pure glycerin weighs 1.2611 g/mL at 20 °C",
            numbers=dict(volume=100, purity=100), result=126.11, within=0.01,
        ),
    ),
    Choice(
        name="what-it-counts",
        step=1,
        prompt="Of a mix the panel says: *a water activity of {activity}*. **What does the number "
               "mean?**",
        numbers=dict(activity=(0.70, 0.77, 0.81, 0.88)),
        options=[
            Option("how free the water in it is, compared with pure water",
                   "The less free, the less a mould finds to drink, wet as the jar may be.",
                   right=True),
            Option(lambda activity: f"{100 * activity:.0f} % of it is water",
                   "Half and half is half water. What does the panel say its water activity is?"),
            Option(lambda activity: f"{100 * activity:.0f} % of it is glycerin",
                   "Drag the glycerin up in the panel: which way does the number go?"),
            Option("how thick it is, compared with undiluted glycerin",
                   "That is the other curve of the panel. What is the lower one about?"),
        ],
        section=CURVES,
        worked="Pure water has 1; glycerin holds on to water and takes part of that freedom away. "
               "It is a share of freedom, not of water.",
    ),
    Choices(
        name="for-a-neighbour",
        step=2,
        prompt="Idris makes a glycerin of mint for a neighbour who does not touch spirit. **What "
               "is right to do or to say?** Pick all that is.",
        options=[
            Option("buy glycerin that is sold for food or medicine, from a seller who vouches for "
                   "it", right=True),
            Option("write on the label what is in it, how much glycerin, and the date", right=True),
            Option("tell the neighbour to ask a doctor or pharmacist first, if there is diabetes, "
                   "pregnancy or any medicine", right=True),
            Option("without alcohol it is for everybody, children too",
                   "Is alcohol the only thing that does not suit everybody? What does glycerin do "
                   "in larger amounts?"),
            Option("glycerin for making soap will do, if it is clear and smells of nothing",
                   "Its poisonous look-alike is clear and smells of nothing too. For whom is soap "
                   "glycerin made?"),
            Option("if it fizzes later, stir it and move it to the refrigerator",
                   "Something lives in it when it fizzes. Is that mended by stirring?"),
        ],
        section="What you need",
        worked="Food grade, labelled, and a word to those it may not suit. What fizzes is thrown "
               "out, all of it.",
    ),
    Order(
        name="fresh-leaf-in-order",
        step=2,
        prompt="Fresh mint is to stand in glycerin. **Put the work in order.**",
        items=[
            "weigh the leaf and work out the water it brings",
            "work out how much glycerin the mix must hold, so that it ends high enough",
            "measure the glycerin and fill up with water to the mark",
            "pour it on the leaf and push every piece under",
            "turn it and look at it each day in the first weeks",
            "strain it",
        ],
        before=[
            Before("weigh the leaf and work out the water it brings",
                   "work out how much glycerin the mix must hold, so that it ends high enough",
                   "What will thin the mix? How much of that is there?"),
            Before("work out how much glycerin the mix must hold, so that it ends high enough",
                   "measure the glycerin and fill up with water to the mark",
                   "How much glycerin do you measure?"),
            Before("measure the glycerin and fill up with water to the mark",
                   "pour it on the leaf and push every piece under",
                   "Glycerin and water poured separately on leaf lie in layers. Where are they "
                   "mixed?"),
            Before("turn it and look at it each day in the first weeks", "strain it",
                   "Until the leaf has given up its water the jar is thin at the leaf. What does "
                   "it need in that time?"),
        ],
        section=LEAF,
        worked="Leaf, its water, the mix, the jar, the daily look, the strainer. The sum comes "
               "first, because nothing can be seen of it later.",
    ),
    Number(
        name="thick-by-weight",
        step=3,
        prompt="You weigh **{glycerin} g of glycerin** and **{water} g of water** into one jug. "
               "**How many times as thick as water is that?** The panel *Thick and thirsty* tells, "
               "but it counts glycerin by volume. One mL of glycerin weighs 1.26 g.",
        numbers=dict(glycerin=(90, 100, 120, 126, 150, 180, 200), water=(50, 60, 70, 80, 90, 100)),
        keep=lambda glycerin, water: 0.5 <= glycerin / (glycerin + water) <= 0.75,
        model=lambda glycerin, water: _as_thick(hc.Liquid(glycerin=glycerin, water=water)),
        unit="times",
        tolerance=Tolerance(0.3, "the panel moves in whole per cents, and one of them is up to a "
                                 "tenth of the thickness here", percent=8),
        sensible=(5, 40),
        turns=[
            Turn("grams for mL",
                 lambda glycerin, water: _as_thick(hc.glycerin(glycerin) + hc.water(water)),
                 "You gave the panel the weights. Glycerin is heavy: how many mL are its grams?"),
            Turn("as if thickness rose evenly",
                 lambda glycerin, water: 1 + (_as_thick(hc.glycerin(1)) - 1)
                 * _by_volume(glycerin, water) / 100,
                 "The curve in the panel climbs slowly first and steeply at the end. Read it off."),
            Turn("against undiluted glycerin",
                 lambda glycerin, water: _as_thick(hc.glycerin(1))
                 / _as_thick(hc.Liquid(glycerin=glycerin, water=water)),
                 "That is how much thinner it is than undiluted glycerin. The question compares it "
                 "with water."),
        ],
        section=CURVES,
        worked=lambda glycerin, water, answer: (
            f"{glycerin} g are {glycerin} / 1.26 = {glycerin / HEAVIER:.0f} mL; with {water} mL of "
            f"water that is {glycerin / HEAVIER:.0f} / {glycerin / HEAVIER + water:.0f} × 100 = "
            f"{_by_volume(glycerin, water):.0f} % by volume.\nThere the panel says about "
            f"**{answer:.2g} times** as thick as water."
        ),
        published=Published(
            source="Segur & Oberstar, Ind. Eng. Chem. 43 (1951) 2117 (from memory): 50 % glycerin "
                   "by mass has 6.00 mPa s at 20 °C, water 1.005",
            numbers=dict(glycerin=50, water=50), result=6.00 / 1.005, within=0.005,
        ),
    ),
    Number(
        name="what-to-pour",
        step=3,
        prompt="**{mass} g** of fresh leaf, **{share} %** of it water, and **{volume} mL** of a "
               "mix of glycerin and water to pour on it. The jar should **end at {to} % "
               "glycerin**. **How many per cent of glycerin must the mix hold?**",
        numbers=dict(mass=(80, 100, 120, 140), share=(80, 82, 85, 88),
                     volume=(250, 300, 350, 400), to=(45, 50, 52, 55)),
        model=lambda mass, share, volume, to: _pour(volume, mass * share / 100, to),
        unit="%",
        tolerance=MIX,
        sensible=(52, 90),
        turns=[
            Turn("the share wanted in the end", lambda to: to,
                 "Then it would end lower: the leaf's water is still to come."),
            Turn("added what it loses",
                 lambda mass, share, volume, to: _added_missing(volume, mass * share / 100, to),
                 "The stronger the mix, the more it loses to the same water."),
            Turn("worked out where it would end",
                 lambda mass, share, volume, to: _end(volume, to, mass * share / 100),
                 "That is where it ends if you pour the wanted share. Go the other way round."),
        ],
        section=LEAF,
        worked=lambda mass, share, volume, to, answer: (
            f"The leaf brings {mass} × {share} / 100 = {mass * share / 100:g} g of water, so there "
            f"are about {volume + mass * share / 100:g} mL in the end.\nTheir glycerin must all be "
            f"poured: {to} × {volume + mass * share / 100:g} / {volume} = "
            f"{to * (volume + mass * share / 100) / volume:.0f}; with the shrinking counted "
            f"**{answer:.0f} %**."
        ),
    ),
    Number(
        name="on-the-label",
        step=3,
        prompt="A strained jar: **{glycerin} mL of glycerin**, **{water} mL of water** that was "
               "poured with it, and **{leaf} g of water out of the leaf**. To keep it longer Maren "
               "stirs in **{spirit} mL of the strong spirit**, 95 % vol. The label must now name "
               "the strength. **What is it?**",
        numbers=dict(glycerin=(150, 180, 200, 240), water=(50, 80, 100), leaf=(60, 80, 100, 120),
                     spirit=(30, 40, 50, 60, 70)),
        model=lambda glycerin, water, leaf, spirit: (
            hc.glycerin(glycerin) + hc.water(water) + hc.Liquid(water=leaf)
            + hc.spirit(spirit, abv=95)).abv,
        unit="% vol",
        tolerance=Tolerance(0.4, "a label gives the strength to half a per cent; the short sum "
                                 "leaves out the shrinking", percent=2),
        sensible=(5, 17),
        turns=[
            Turn("forgot the leaf's water",
                 lambda glycerin, water, spirit: 95 * spirit / (glycerin + water + spirit),
                 "There is more in the jar than what was poured. What has the leaf brought?"),
            Turn("by the glycerin alone",
                 lambda glycerin, spirit: 95 * spirit / glycerin,
                 "Per cent of what? The alcohol is in all of the liquid."),
            Turn("the strength of the spirit", lambda: 95,
                 "So strong was the spirit by itself. In how much liquid is it now?"),
        ],
        section=SPIRIT,
        worked=lambda glycerin, water, leaf, spirit, answer: (
            f"Alcohol: {spirit} × 95 / 100 = {0.95 * spirit:g} mL. Liquid: {glycerin} + {water} + "
            f"{leaf} + {spirit} = {glycerin + water + leaf + spirit} mL, a little less for the "
            f"shrinking.\n{0.95 * spirit:g} / {glycerin + water + leaf + spirit} × 100: about "
            f"**{answer:.1f} % vol**, and some people must not have any: the label says so. "
            "Glycerin and spirit together are an estimate, good to 1 %."
        ),
    ),
    Choice(
        name="where-it-stands",
        step=4,
        prompt="**{mass} g** of fresh leaf, **{share} %** of it water, in **{volume} mL** of a mix "
               "with **{poured} %** glycerin. Work out where the jar ends. **What do you do with "
               "it, once it is strained?**",
        numbers=dict(mass=(80, 100, 120, 140), share=(82, 85, 88), volume=(300, 350, 400),
                     poured=(55, 60, 65)),
        keep=lambda mass, share, volume, poured: (
            41.5 <= _end(volume, poured, mass * share / 100) <= 48),
        options=[
            Option("to the refrigerator, in small bottles, and look before each use",
                   "Between the two limits: some moulds still manage.", right=True),
            Option("on the shelf: the trade gives glycerin 3 to 5 years",
                   "This course counts those years from a water activity of 0.75 down. What share "
                   "of glycerin is that?"),
            Option("on the shelf: the mix that was poured is strong enough",
                   "Which liquid is in the jar now: the one poured, or another?"),
            Option("it is no better than tea: drink it today or throw it out",
                   "So it would be above a water activity of 0.85. On which side of that does this "
                   "jar end?"),
        ],
        section=MISTAKE,
        worked=lambda mass, share, volume, poured: (
            f"Water: {mass} × {share} / 100 = {mass * share / 100:g} g. {poured} × {volume} / "
            f"({volume} + {mass * share / 100:g}) = "
            f"{poured * volume / (volume + mass * share / 100):.0f} % glycerin in the end: between "
            f"{hc.glycerin_for_water_activity(0.85):.0f} % (water activity 0.85, law for foods in "
            f"the USA) and {hc.glycerin_for_water_activity(0.75):.0f} % (0.75, a standard for "
            "cosmetics). Cold, small, and watched: this course's own cautious reading."
        ),
    ),
    Table(
        name="jar-sheet",
        step=5,
        prompt="Tove puts **{mass} g** of fresh spearmint, **{share} %** of it water, into a jar "
               "and has room for **{volume} mL** of mix. She wants the jar to **end at {to} % "
               "glycerin**, under the lower line. Fill in the sheet. One mL of glycerin weighs "
               "1.26 g.",
        numbers=dict(mass=(80, 100, 120, 140), share=(82, 84, 86, 88), volume=(250, 300, 350, 400),
                     to=(53, 54, 55)),
        rows=[
            Row(
                label="water in the leaf",
                model=lambda mass, share: mass * share / 100,
                unit="g",
                tolerance=Tolerance(1, "a kitchen scale shows whole grams"),
                sensible=(60, 125),
                turns=[Turn("gave the plant", lambda mass, share: mass * (1 - share / 100),
                            "That is what would be left if it were quite dry.")],
            ),
            Row(
                label="glycerin in the mix",
                model=lambda mass, share, volume, to: _pour(volume, mass * share / 100, to),
                unit="%",
                tolerance=MIX,
                sensible=(60, 90),
                turns=[
                    Turn("the share wanted in the end", lambda to: to,
                         "The leaf's water is still to come."),
                    Turn("added what it loses",
                         lambda mass, share, volume, to: _added_missing(
                             volume, mass * share / 100, to),
                         "The stronger the mix, the more it loses to the same water."),
                ],
            ),
            Row(
                label="glycerin to measure",
                model=lambda mass, share, volume, to: (
                    volume * _pour(volume, mass * share / 100, to) / 100),
                unit="mL",
                tolerance=Tolerance(3, "follows the share, which is good to 1.5 in 70", percent=2),
                sensible=(150, 300),
                turns=[
                    Turn("for the share wanted in the end",
                         lambda volume, to: volume * to / 100,
                         "Which share does the mix hold that you pour?"),
                    Turn("gave the water of the mix",
                         lambda mass, share, volume, to: (
                             volume * (1 - _pour(volume, mass * share / 100, to) / 100)),
                         "That is the part left for water."),
                ],
            ),
            Row(
                label="its weight",
                model=lambda mass, share, volume, to: hc.glycerin(
                    volume * _pour(volume, mass * share / 100, to) / 100).mass,
                unit="g",
                tolerance=Tolerance(3, "follows the mL of glycerin", percent=2),
                sensible=(190, 380),
                turns=[
                    Turn("as heavy as water",
                         lambda mass, share, volume, to: (
                             volume * _pour(volume, mass * share / 100, to) / 100),
                         "Is a mL of glycerin as heavy as a mL of water?"),
                    Turn("divided by the weight of a mL",
                         lambda mass, share, volume, to: (
                             volume * _pour(volume, mass * share / 100, to) / 100 / HEAVIER),
                         "Heavier than water: more grams than mL, or fewer?"),
                ],
            ),
            Row(
                label="liquid in the end",
                model=lambda mass, share, volume: volume + mass * share / 100,
                unit="mL",
                tolerance=Tolerance(4, "the shrinking, about 1 %, need not be counted", percent=2),
                sensible=(310, 530),
                turns=[Turn("forgot the leaf's water", lambda volume: volume,
                            "That is what is poured. What joins it?")],
            ),
        ],
        section=LEAF,
        worked=lambda mass, share, volume, to, answer: (
            f"Water: {mass} × {share} / 100 = **{answer['water in the leaf']:.0f} g**, so about "
            f"{volume} + {answer['water in the leaf']:.0f} = "
            f"**{answer['liquid in the end']:.0f} mL** in the end.\nMix: {to} × "
            f"{answer['liquid in the end']:.0f} / {volume}, a little less for the shrinking: "
            f"**{answer['glycerin in the mix']:.1f} %**.\nGlycerin: {volume} × "
            f"{answer['glycerin in the mix']:.1f} / 100 = "
            f"**{answer['glycerin to measure']:.0f} mL**, × 1.26 = "
            f"**{answer['its weight']:.0f} g**; then water to the {volume} mL mark."
        ),
    ),
    Explain(
        name="safe-for-everybody",
        step=3,
        prompt="A friend fills a jar with fresh lemon balm and half glycerin, half water, and "
               "says: \"It has no alcohol, so it is safe for everybody, and glycerin keeps for "
               "years.\" **Explain in four or five sentences**, kindly, what is wrong with both "
               "halves of the sentence and what the friend should do with this jar and with the "
               "next.",
        section=MISTAKE,
        marks=4,
        rubric=[
            Point("says that the leaf's water thins the mix, so the jar ends well below half "
                  "glycerin and has too much free water to keep for years"),
            Point("treats this jar with care: refrigerator and soon, or thrown out under 39 %; "
                  "thrown out at fizz, fluff or smell"),
            Point("says what to do next time: pour a stronger mix on fresh leaf, or dry the leaf "
                  "first, or add spirit and say so on the label"),
            Point("says that \"no alcohol\" is not \"for everybody\": diabetes, pregnancy, "
                  "medicines or children are for a doctor or pharmacist; food grade only"),
        ],
        example="Fresh lemon balm is mostly water, and glycerin draws that water out, so the jar "
                "ends well below half glycerin. Then too much of the water is free and it does not "
                "keep for years: if it is under 39 % it is tea with sugar, otherwise it goes into "
                "the refrigerator and is looked at before each use. Next time pour a stronger mix "
                "on the fresh leaf, or dry the leaf first. And without alcohol is not the same as "
                "safe for everybody: somebody with diabetes, in pregnancy, with medicines, or a "
                "child needs a doctor or pharmacist first, and the glycerin must be food grade.",
    ),
]

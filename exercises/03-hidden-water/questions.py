"""The water hidden in the herb: what it does to the strength, and what to pour.

Amounts are invented for the exercise. Strengths rest on OIML R 22 (1975), the herbs' water on the
USDA National Nutrient Database, release 27.
"""

from functools import lru_cache

import herbcalc as hc
from herbcalc import places
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
)

title = "The water hidden in the herb"

FRESH = "A jar of fresh herb"
POUR = "Which strength to pour"


@lru_cache(maxsize=10_000)
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


# --- at home -------------------------------------------------------------------------------------

cautions = """
**If you fill a jar for real:** only plants you surely know and may swallow; only spirit sold for
drinking. Strong spirit: stove out, no flame, window open. A jar that ends below 40 % vol is not a
keeper: refrigerator, use soon, throw out at the first doubt. Anyone who is pregnant or
breastfeeding, takes medicines or has an allergy asks a doctor, a pharmacist or a licensed herbal
practitioner first. The herbs here are examples for counting.
"""

LEAF_IS_WATER = "A leaf is mostly water"
DRIED = "Fresh beside dried"
MISTAKE = "The common mistake"
BENCH = "At the bench: find the water"

STRONG = 95  # % vol, the class's strong spirit; invented

SHORT_SUM = "the short sum of the lesson leaves out the shrinking"


@lru_cache(maxsize=100)
def _table(plant, state="fresh"):
    """A herb of the course's own table, whatever a student has weighed."""
    return hc.herb(plant, state, folder=places.data())


def _short_end(volume, abv, grams):
    """The lesson's short sum for where a jar ends."""
    return abv * volume / (volume + grams)


@lru_cache(maxsize=10_000)  # a sheet asks for the same strength on several lines
def _pour(volume, grams, share, to):
    """Strength to pour so that `grams` g of herb with `share` % of water end at `to` % vol."""
    herb = hc.Herb("herb", "fresh", water=share / 100, bulk_density=0.2)
    return hc.spirit_for_final(herb, grams, volume, to)


def _added_missing(volume, water, to):
    """What one pours who adds to the wanted strength what it would lose."""
    return 2 * to - _end(volume, to, water)


homework = [
    Number(
        name="water-in-the-herb",
        step=1,
        prompt=lambda plant, mass: (
            f"You have **{mass} g of fresh {plant} {_table(plant).part}**. The herb table (USDA, "
            f"release 27) says that 100 g of it hold {100 * _table(plant).water:.0f} g of water. "
            "**How much water does your herb bring into the jar?**"
        ),
        numbers=dict(
            plant=("basil", "burdock", "dandelion", "ginger", "parsley", "peppermint", "spearmint"),
            mass=(60, 80, 120, 150, 180, 240, 250)),
        model=lambda plant, mass: mass * _table(plant).water,
        unit="g",
        tolerance=Tolerance(1.5, "a kitchen scale shows whole grams, and the table's figure is "
                                 "rounded to a gram in 100", percent=1),
        sensible=(40, 240),
        turns=[
            Turn("gave the plant without its water",
                 lambda plant, mass: mass * (1 - _table(plant).water),
                 "That is what would be left if it were quite dry."),
            Turn("divided by the share", lambda plant, mass: mass / _table(plant).water,
                 "More water than herb? Only a part of the herb is water."),
            Turn("the water of 100 g", lambda plant: 100 * _table(plant).water,
                 "That is what 100 g bring. How much do you have?"),
        ],
        section=LEAF_IS_WATER,
        worked=lambda plant, mass, answer: (
            f"Of each gram {_table(plant).water:.2f} g is water: {mass} × "
            f"{_table(plant).water:.2f} = **{answer:.0f} g**."
        ),
    ),
    Choice(
        name="two-labels-one-ratio",
        step=1,
        prompt="Two labels from two kitchens, both parsley, both **1:{ratio}**, both from spirit "
               "of the same strength. One was made with fresh leaf, the other with dried. **What "
               "can you say?**",
        numbers=dict(ratio=(3, 4, 5)),
        options=[
            Option("the dried one holds several times as much plant in each mL, and is stronger in "
                   "alcohol",
                   "A gram of fresh leaf is nearly all water: little plant, and the water thins "
                   "the spirit.", right=True),
            Option("they are the same: the ratio says so",
                   "The ratio counts the herb as it goes into the jar. What does a gram of fresh "
                   "leaf consist of?"),
            Option("the fresh one holds more plant, because the leaf is whole",
                   "Dry a handful and weigh it again: where did the weight come from?"),
            Option("they differ in plant, but end at the same strength",
                   "Where does the water of the fresh leaf go?"),
        ],
        section=DRIED,
        worked=lambda: (
            f"100 g of fresh parsley are {100 * _table('parsley').water:.0f} g of water and only "
            f"{100 - 100 * _table('parsley').water:.0f} g of plant; 100 g of dried parsley are "
            f"{100 - 100 * _table('parsley', 'dried').water:.0f} g of plant. A ratio must say "
            "which herb it counts."
        ),
    ),
    Choices(
        name="ended-weak",
        step=2,
        prompt="A jar of fresh lemon balm was poured with the plain spirit, 40 % vol. By the count "
               "it has ended at **{ends} % vol**. **What is right to do?** Pick all that is.",
        numbers=dict(ends=(26, 28, 29, 31, 32, 34)),
        options=[
            Option("into the refrigerator, and use it soon", right=True),
            Option("write the strength in the end and the date on the label", right=True),
            Option("keep the herb under the liquid, and throw it all out at the first doubt",
                   right=True),
            Option("keep it on the shelf for years: the bottle said 40 % vol",
                   "The rule of 40 % vol speaks of the liquid in the jar. Which liquid is that "
                   "now?"),
            Option("top it up with the plain spirit until it is at 40 % vol again",
                   "What comes out when something weaker is mixed with 40 % vol: can it ever be 40 "
                   "% vol?"),
            Option("warm the open jar on the stove, so that the water goes off",
                   "Which goes off first, water or alcohol? And what does its vapour do at a "
                   "stove?"),
        ],
        section=MISTAKE,
        worked=lambda ends: (
            f"At {ends} % vol it is no keeper. Cold, soon, labelled with the strength in the end, "
            "herb under the liquid. Next time: stronger spirit, less herb, or drier herb."
        ),
    ),
    Number(
        name="dried-on-paper",
        step=2,
        prompt="**{before} g** of fresh herb from the garden, spread on paper until it snaps, "
               "weigh **{after} g**. What is dried in the air still holds **a tenth** of its "
               "weight in water. **How many per cent of the fresh herb was water?**",
        numbers=dict(before=(40, 50, 60, 80), after=(9, 10, 11, 12, 13, 14, 15, 16, 18, 20)),
        keep=lambda before, after: 0.15 <= after / before <= 0.4,
        model=lambda before, after: 100 * hc.water_from_drying(before, after, left=0.10),
        unit="%",
        tolerance=Tolerance(0.7, "weights in whole grams; whole per cents are enough"),
        sensible=(60, 90),
        turns=[
            Turn("forgot the tenth that is left",
                 lambda before, after: 100 * (before - after) / before,
                 "That is the water that has gone. Some is still in the herb that snaps."),
            Turn("gave the plant", lambda before, after: 90 * after / before,
                 "That is the share that is plant."),
            Turn("divided by the dried weight",
                 lambda before, after: 100 * (before - after) / after,
                 "Per cent of what? The question asks for the share of the fresh herb."),
        ],
        section=BENCH,
        worked=lambda before, after, answer: (
            f"Nine tenths of the {after} g are plant: {0.9 * after:.1f} g. The rest of the "
            f"{before} g was water: {before} − {0.9 * after:.1f} = {before - 0.9 * after:.1f} g, "
            f"and {before - 0.9 * after:.1f} / {before} × 100 = **{answer:.0f} %**."
        ),
    ),
    Order(
        name="order-of-work",
        step=2,
        prompt="{mass} g of fresh leaf are to end at 40 % vol. The class has the strong spirit, 95 "
               "% vol. **Put the work in order.**",
        numbers=dict(mass=(100, 120, 150, 200)),
        items=[
            "weigh the leaf",
            "work out how much water it brings",
            "work out the strength to pour",
            "make the strong spirit weaker, to the mark, with stove out and window open",
            "pour it on the leaf and push every piece under",
            "write the label: what, the strength in the end, the date",
        ],
        before=[
            Before("weigh the leaf", "work out how much water it brings",
                   "Water per 100 g is in the table. How many grams do you have?"),
            Before("work out how much water it brings", "work out the strength to pour",
                   "What does the strength to pour depend on?"),
            Before("work out the strength to pour",
                   "make the strong spirit weaker, to the mark, with stove out and window open",
                   "How weak do you make it?"),
            Before("make the strong spirit weaker, to the mark, with stove out and window open",
                   "pour it on the leaf and push every piece under",
                   "A mark in a jar full of leaf tells nothing. Where is the spirit made up?"),
        ],
        section=POUR,
        worked="Weigh, water, strength, make up, pour, label. Every number rests on the one before "
               "it, and the first is on the scale.",
    ),
    Number(
        name="ratio-of-the-dry-plant",
        step=3,
        prompt="A label says **1:{ratio}, fresh {plant}**. The fresh herb was **{share} %** water. "
               "To compare it with a tincture of dried herb, count only the dry plant: **how many "
               "mL of spirit are there for each gram of it?**",
        numbers=dict(ratio=(2, 2.5, 3, 4, 5), plant=("lemon balm", "nettle", "yarrow", "plantain"),
                     share=(75, 78, 80, 82, 85, 88)),
        model=lambda ratio, share: ratio / (1 - share / 100),
        unit="mL per g",
        tolerance=Tolerance(0.2, "a ratio is written with two digits", percent=3),
        sensible=(8, 42),
        turns=[
            Turn("multiplied by the share of plant", lambda ratio, share: ratio * (1 - share / 100),
                 "There is less plant than leaf, and just as much spirit. Is it more mL for each "
                 "gram, or fewer?"),
            Turn("divided by the share of water", lambda ratio, share: ratio / (share / 100),
                 "You counted the grams of water. The question counts the grams of plant."),
            Turn("left it as it is", lambda ratio: ratio,
                 "That ratio counts the leaf with its water."),
        ],
        section=DRIED,
        worked=lambda ratio, share, answer: (
            f"A gram of the leaf holds {1 - share / 100:.2f} g of dry plant, and has {ratio} mL of "
            f"spirit: {ratio} / {1 - share / 100:.2f} = **{answer:.1f} mL per g**, that is "
            f"1:{answer:.0f}. (The water shares of these herbs are invented for the sum; dry and "
            "weigh your own.)"
        ),
    ),
    Number(
        name="where-it-ends",
        step=3,
        prompt="**{mass} g** of fresh herb, **{share} %** of it water, under spirit of **{abv} % "
               "vol** at **1:{ratio}** (mL of spirit for each gram of the herb as it goes in). "
               "**How strong is the liquid once it has steeped?**",
        numbers=dict(mass=(80, 100, 120, 150), share=(70, 75, 78, 80, 82),
                     abv=(40, 43, 45, 50, 55), ratio=(2, 2.5, 3)),
        keep=lambda mass, share, abv, ratio: abs(
            _short_end(ratio * mass, abv, mass * share / 100)
            - _end(ratio * mass, abv, mass * share / 100)) <= 0.3,
        model=lambda mass, share, abv, ratio: _end(ratio * mass, abv, mass * share / 100),
        unit="% vol",
        tolerance=Tolerance(0.8, f"{SHORT_SUM}, up to 0.3 % vol here, and whole per cents are "
                                 "enough"),
        sensible=(26, 50),
        turns=[
            Turn("the strength poured", lambda abv: abv,
                 "That is the strength of the bottle. What has the herb brought by now?"),
            Turn("took all of the herb for water",
                 lambda mass, abv, ratio: _end(ratio * mass, abv, mass),
                 "Not all of the herb is water: the plant itself does not thin the spirit."),
            Turn("took the water off the per cents",
                 lambda share, abv, ratio: abv - share / ratio,
                 "The alcohol stays; the liquid has become more. Alcohol by all the liquid: what "
                 "is that?"),
        ],
        section=FRESH,
        worked=lambda mass, share, abv, ratio, answer: (
            f"Spirit: {ratio} × {mass} = {ratio * mass:g} mL. The herb's water: {mass} × {share} / "
            f"100 = {mass * share / 100:g} g, about as many mL.\n{abv} × {ratio * mass:g} / "
            f"({ratio * mass:g} + {mass * share / 100:g}) = "
            f"{_short_end(ratio * mass, abv, mass * share / 100):.1f}; with the shrinking counted "
            f"**{answer:.1f} % vol**."
        ),
        published=Published(
            source="27 CFR 30.66, Table 6: 100 volumes of 112 US proof with 12.42 volumes of water "
                   "(12.41 g) are at 100 proof, 50 % vol: a herb that brings that water does the "
                   "same",
            numbers=dict(mass=12.41, share=100, abv=56, ratio=100 / 12.41), result=50, within=0.01,
            note="the table is for 60 °F, the course counts at 20 °C",
        ),
    ),
    Number(
        name="what-to-pour",
        step=4,
        prompt="**{mass} g** of fresh herb, **{share} %** of it water, and **{volume} mL** of "
               "spirit to pour on it. The jar should **end at {to} % vol**. **How strong must the "
               "spirit be?**",
        numbers=dict(mass=(80, 100, 120, 140, 160), share=(75, 80, 85, 88),
                     volume=(250, 300, 350, 400), to=(40, 42, 45, 50)),
        keep=lambda mass, share, volume, to: abs(
            to * (volume + mass * share / 100) / volume - _pour(volume, mass, share, to)) <= 0.6,
        model=lambda mass, share, volume, to: _pour(volume, mass, share, to),
        unit="% vol",
        tolerance=Tolerance(0.8, f"{SHORT_SUM}, up to 0.6 % vol here"),
        sensible=(46, 75),
        turns=[
            Turn("the strength wanted in the end", lambda to: to,
                 "Then it would end weaker: the herb's water is still to come."),
            Turn("added what it loses",
                 lambda mass, share, volume, to: _added_missing(volume, mass * share / 100, to),
                 "The stronger the spirit, the more it loses to the same water. So what it loses "
                 "at the wanted strength is not enough on top."),
            Turn("worked out where it would end",
                 lambda mass, share, volume, to: _end(volume, to, mass * share / 100),
                 "That is where it ends if you pour the wanted strength. Go the other way round."),
            Turn("took all of the herb for water",
                 lambda mass, volume, to: to * (volume + mass) / volume,
                 "Not all of the herb is water."),
        ],
        section=POUR,
        worked=lambda mass, share, volume, to, answer: (
            f"The herb brings {mass} × {share} / 100 = {mass * share / 100:g} g of water, so there "
            f"are {volume} + {mass * share / 100:g} = {volume + mass * share / 100:g} mL in the "
            f"end.\nTheir alcohol must all be in what you pour: {to} × "
            f"{volume + mass * share / 100:g} / {volume} = "
            f"{to * (volume + mass * share / 100) / volume:.1f}; with the shrinking counted "
            f"**{answer:.1f} % vol**."
        ),
        published=Published(
            source="27 CFR 30.66, Table 6, read backwards: 12.42 volumes of water (12.41 g) on 100 "
                   "volumes end at 100 US proof when 112 proof, 56 % vol, was poured",
            numbers=dict(mass=24.82, share=50, volume=100, to=50), result=56, within=0.02,
            note="the table is for 60 °F, the course counts at 20 °C",
        ),
    ),
    Table(
        name="jar-sheet",
        step=5,
        prompt="Maren fills a jar with **{mass} g** of fresh leaf, **{share} %** of it water. She "
               "wants **1:{ratio}** on the fresh leaf, and the jar should **end at {to} % vol**. "
               "The class has the strong spirit, 95 % vol, and water. Fill in the sheet.",
        numbers=dict(mass=(80, 100, 120, 140), share=(80, 82, 85, 88), ratio=(2, 2.5, 3),
                     to=(40, 42, 45)),
        keep=lambda mass, share, ratio, to: abs(
            to * (ratio + share / 100) / ratio - _pour(ratio * mass, mass, share, to)) <= 0.7,
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
                label="spirit to pour",
                model=lambda mass, ratio: mass * ratio,
                unit="mL",
                tolerance=Tolerance(2, "no table is needed; a 500 mL cylinder is marked every 5 "
                                       "mL"),
                sensible=(160, 420),
                turns=[
                    Turn("divided by the ratio", lambda mass, ratio: mass / ratio,
                         "A ratio says: so many mL for each gram."),
                    Turn("ratio on the dry plant",
                         lambda mass, share, ratio: mass * (1 - share / 100) * ratio,
                         "Maren's ratio counts the leaf as it goes in."),
                ],
            ),
            Row(
                label="strength to pour",
                model=lambda mass, share, ratio, to: _pour(ratio * mass, mass, share, to),
                unit="% vol",
                tolerance=Tolerance(0.9, f"{SHORT_SUM}, up to 0.7 % vol here"),
                sensible=(50, 66),
                turns=[
                    Turn("the strength wanted in the end", lambda to: to,
                         "The leaf's water is still to come."),
                    Turn("added what it loses",
                         lambda mass, share, ratio, to: _added_missing(
                             ratio * mass, mass * share / 100, to),
                         "The stronger the spirit, the more it loses to the same water."),
                ],
            ),
            Row(
                label="strong spirit for it",
                model=lambda mass, share, ratio, to: hc.make_up(
                    ratio * mass, STRONG, _pour(ratio * mass, mass, share, to))[0],
                unit="mL",
                tolerance=Tolerance(3, "follows the strength to pour, which is good to 1 part in "
                                       "60", percent=2),
                sensible=(90, 290),
                turns=[
                    Turn("made up to the strength in the end",
                         lambda mass, ratio, to: ratio * mass * to / STRONG,
                         "That would make the strength wanted in the end. Which strength do you "
                         "pour?"),
                    Turn("upside down",
                         lambda mass, share, ratio, to:
                             ratio * mass * STRONG / _pour(ratio * mass, mass, share, to),
                         "More of the strong spirit than the whole? Which strength stands on top?"),
                ],
            ),
            Row(
                label="liquid in the end",
                model=lambda mass, share, ratio, to: (
                    hc.spirit(ratio * mass, _pour(ratio * mass, mass, share, to))
                    + hc.Liquid(water=mass * share / 100)).volume,
                unit="mL",
                tolerance=Tolerance(3, "the shrinking, under 2 %, need not be counted", percent=2),
                sensible=(220, 530),
                turns=[Turn("forgot the leaf's water", lambda mass, ratio: ratio * mass,
                            "That is what you pour. What joins it?")],
            ),
        ],
        section=POUR,
        worked=lambda mass, share, ratio, to, answer: (
            f"Water: {mass} × {share} / 100 = **{answer['water in the leaf']:.0f} g**. Spirit: "
            f"{ratio} × {mass} = **{answer['spirit to pour']:.0f} mL**.\nStrength: {to} × "
            f"({answer['spirit to pour']:.0f} + {answer['water in the leaf']:.0f}) / "
            f"{answer['spirit to pour']:.0f}, a little less for the shrinking: "
            f"**{answer['strength to pour']:.1f} % vol**.\nStrong spirit: "
            f"{answer['spirit to pour']:.0f} × {answer['strength to pour']:.1f} / 95 = "
            f"**{answer['strong spirit for it']:.0f} mL**, then water to the "
            f"{answer['spirit to pour']:.0f} mL mark.\nIn the end: about "
            f"{answer['spirit to pour']:.0f} + {answer['water in the leaf']:.0f}, shrunk a little: "
            f"**{answer['liquid in the end']:.0f} mL** at {to} % vol."
        ),
    ),
    Explain(
        name="the-neighbours-label",
        step=3,
        prompt="A neighbour packs a jar full of fresh lemon balm, tops it up with vodka of 40 % "
               "vol, and writes on the label: *40 % vol, keeps for years*. **Explain in three or "
               "four sentences**, kindly, what is wrong with the label, what should stand on it, "
               "and two ways to do better next time.",
        section=MISTAKE,
        marks=4,
        rubric=[
            Point("says that the fresh leaf brings water, so the jar ends well below 40 % vol "
                  "(about 30) though no alcohol is lost"),
            Point("says that the rule of 40 % vol is about the liquid in the jar: this one goes "
                  "into the refrigerator and is used soon"),
            Point("wants the strength in the end and the date on the label"),
            Point("names two ways: stronger spirit, less herb for each mL, wilted or dried herb"),
        ],
        example="Fresh lemon balm is mostly water, and that water has mixed with the vodka. All "
                "the alcohol is still there, but in more liquid, so the jar has ended near 30 % "
                "vol and does not keep for years: it belongs in the refrigerator and should be "
                "used soon. The label should say the strength in the end and the date. Next time "
                "pour a stronger spirit, or let the leaf wilt or dry first, or take less leaf.",
    ),
    Function(
        name="write-what-to-pour",
        step=4,
        prompt="Write a function that tells which strength to pour. With {volume} mL of spirit on "
               "a herb that brings {water} g of water, to end at {to} % vol, it is called as "
               "`answer({volume}, {water}, {to})`, and it must work for other numbers too. The "
               "short sum will do.",
        numbers=dict(volume=(250, 300, 350, 400, 500), water=(50, 60, 80, 100, 120),
                     to=(30, 35, 40, 45, 50)),
        keep=lambda volume, water, to: abs(
            to * (volume + water) / volume - _pour(volume, 2 * water, 50, to)) <= 0.7,
        model=lambda volume, water, to: _pour(volume, 2 * water, 50, to),
        unit="% vol",
        tolerance=Tolerance(0.9, f"{SHORT_SUM}, up to 0.7 % vol here"),
        sensible=(33, 75),
        turns=[
            Turn("the strength wanted in the end", lambda to: to,
                 "The herb's water is still to come."),
            Turn("worked out where it would end",
                 lambda volume, water, to: _end(volume, to, water),
                 "That is where it ends if you pour the wanted strength."),
        ],
        section=POUR,
        worked="The alcohol of the end must all be poured: `return to * (volume + water) / "
               "volume`.",
    ),
]

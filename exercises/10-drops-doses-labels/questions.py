"""Drops, doses, labels: one measure turned into another, and what stands on a bottle. No doses.

Amounts are invented for the exercise. Densities rest on OIML R 22 (1975).
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
from herbcalc.dose import STANDARD_DRINK

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


# --- at home -------------------------------------------------------------------------------------

cautions = """
**There is no dose in this homework.** How much of a preparation a person may take, and whether at
all, is for a doctor, a pharmacist or a licensed herbal practitioner who knows the person, the plant
and the other medicines. These sums only turn one measure into another, for a label. For children,
in pregnancy and while breastfeeding, with many medicines, with a sick liver, for whoever drives or
has stopped drinking, *any* alcohol can be too much: that is why the label says how much is in it.
If you count drops of spirit: no flame, and nothing is tasted.
"""

HERB = "The herb in a millilitre"
BENCH = "At the bench: count your own drops"

WATER, THIN = "water", "wine and water, 12 % vol"
WEAK, PLAIN, STRONG = "weak spirit, 20 % vol", "plain spirit, 40 % vol", "strong spirit, 95 % vol"

PURE = 0.789  # g/mL of pure alcohol at 20 °C, OIML R 22: the figure the prompts give
WATER_DROPS = 20  # to the mL, from the panel's 3 mm dropper: USP <1101>, 45 to 55 mg a drop
WON = tuple(won for won in steps(235, 425, 5) if won % 25)  # mL that leave a bottle part full
SPIRIT = 45  # % vol of the menstruum in the question on herb in a mL: it hardly matters there


def _drops(abv):
    """Drops to the mL from the panel's dropper, 3 mm across."""
    return hc.drops_per_ml(hc.spirit(1, abv))


def _mg_in_a_ml(mass, share, volume):
    """mg of completely dry herb that 1 mL of the finished liquid stands for."""
    final = hc.spirit(volume, SPIRIT) + hc.Liquid(water=mass * share / 100)
    return 1000 * mass * (1 - share / 100) / final.volume


def _strength(mass, share, volume, abv):
    """% vol once the fresh herb has given up its water."""
    return (hc.spirit(volume, abv) + hc.Liquid(water=mass * share / 100)).abv


homework = [
    Choice(
        name="somebody-asks",
        step=1,
        prompt="You give a friend a **{bottle} mL** bottle from the class. \"And how many drops do "
               "I take?\" **What do you say?**",
        numbers=dict(bottle=(30, 50, 100)),
        options=[
            Option("ask a doctor, a pharmacist or a licensed herbal practitioner, and show them "
                   "the label",
                   "They know the person; the label tells them the liquid.", right=True),
            Option("twenty drops, that is what everybody takes",
                   "Who is everybody, and whose dropper? What do you know of this person's other "
                   "medicines?"),
            Option("work it out from the mg of herb on the label",
                   "That figure says what went in. Does it say what came out, or what anyone "
                   "needs?"),
            Option("as much as does you good, it is only a herb",
                   "Is there a plant that is safe in any amount, for everybody? And what else is "
                   "in the bottle?"),
            Option("the same as you take yourself",
                   "What is different from one person to the next: weight, age, medicines, "
                   "allergies, a child on the way?"),
        ],
        section=LABEL,
        worked="A label says what is in the bottle. How much of it a person may take, and whether "
               "at all, is not a sum.",
    ),
    Number(
        name="my-own-dropper",
        step=2,
        prompt="Tove counts **{counted} drops** of the class spirit to the **2 mL** mark of her "
               "cylinder. For a colour test on white paper she lets **{drops}** of these drops "
               "fall. How many mL are that? Two decimals.",
        numbers=dict(counted=steps(60, 110, 2), drops=(10, 12, 15, 20, 25, 30)),
        model=lambda counted, drops: 2 * drops / counted,
        unit="mL",
        tolerance=Tolerance(0.01, "two decimals are asked for; she counts to a drop or two",
                            percent=3),
        sensible=(0.17, 1.05),
        turns=[
            Turn("twenty to the mL", lambda drops: drops / 20,
                 "That is the saying, and it is true of water. What did *she* count?"),
            Turn("counted to 1 mL", lambda counted, drops: drops / counted,
                 "Up to which mark did she count?"),
            Turn("upside down", lambda counted, drops: counted / (2 * drops),
                 "A drop is a small part of a mL. Can a few of them be more than all she counted?"),
            Turn("gave the drops in one mL", lambda counted: counted / 2,
                 "So many drops make one mL. How many mL are hers?"),
        ],
        section=BENCH,
        worked=lambda counted, drops, answer: (
            f"{counted} drops are 2 mL, so {counted} / 2 = {counted / 2:g} drops are one.\n{drops} "
            f"/ {counted / 2:g} = **{answer:.2f} mL**, from this dropper and in this hand only."
        ),
    ),
    Order(
        name="largest-drop-first",
        step=2,
        prompt="One and the same dropper, held upright. **Put these in order**: first the liquid "
               "with the largest drops, last the one with the smallest.",
        items=[words for words, _ in sorted(
            {WATER: 0, THIN: 12, WEAK: 20, PLAIN: 40, STRONG: 95}.items(),
            key=lambda one: _drops(one[1]))],
        before=[
            Before(WATER, STRONG,
                   "A drop hangs by its skin. Which of the two has the stronger skin, and so lets "
                   "the drop grow larger?"),
            Before(WATER, THIN,
                   "A little alcohol already weakens the skin a good deal. Look at the left end of "
                   "the curve in the panel."),
            Before(THIN, PLAIN,
                   "More alcohol, more drops in a mL: so what becomes of each drop?"),
            Before(PLAIN, STRONG,
                   "The curve gets flat to the right, but does it turn down?"),
        ],
        section=DROPS,
        worked=lambda: (
            f"From the panel's dropper 1 mL is {_drops(0):.0f} drops of water, {_drops(12):.0f} at "
            f"12 % vol, {_drops(20):.0f} at 20, {_drops(40):.0f} at 40 and {_drops(95):.0f} at 95 "
            "% vol: the more drops, the smaller each. So a measure in drops means nothing without "
            "the liquid and the dropper."
        ),
    ),
    Choices(
        name="what-the-figure-says",
        step=2,
        prompt="A label says: *1 mL from **{mg} mg** of thyme, counted dry*. **What does that "
               "mean?** Pick all that is true.",
        numbers=dict(mg=(80, 100, 120, 150, 160, 180)),
        options=[
            Option("so much dry herb went in for each mL of the liquid", right=True),
            Option("a jar of fresh and a jar of dried thyme can be compared by it", right=True),
            Option("it is the same whether the marc was pressed hard or only dripped", right=True),
            Option("each mL holds {mg} mg of dissolved thyme",
                   "How much of the herb has come out, and how much sits in the marc? Does anyone "
                   "know?"),
            Option("a label with a larger figure is a better tincture",
                   "More herb went in. What does that say about what the liquid took, or about "
                   "what anyone wants?"),
            Option("{mg} mg is how much to take",
                   "It is a figure about the jar. What does it know about the person?"),
        ],
        section=HERB,
        worked="It counts what went in, and only that. It lets jars be compared; it is neither a "
               "content nor a dose.",
    ),
    Number(
        name="a-bottle-in-drinks",
        step=3,
        prompt="A bottle of **{volume} mL** stands at **{abv} % vol** in the end. For the label's "
               "small print: how many times the alcohol of a US standard drink, 14 g, is in the "
               "**whole bottle**? (Pure alcohol weighs 0.789 g/mL.) Two decimals.",
        numbers=dict(volume=(30, 50, 60, 100, 120, 200, 250), abv=steps(25, 55, 5)),
        model=lambda volume, abv: hc.standard_drinks(volume, abv),
        unit="times",
        tolerance=Tolerance(0.01, "two decimals are asked for; a bottle is filled to some per cent",
                            percent=2),
        sensible=(0.4, 9.5),
        turns=[
            Turn("mL of alcohol for grams",
                 lambda volume, abv: volume * abv / 100 / STANDARD_DRINK,
                 "So many mL of alcohol are in it. The drink is counted in grams: what does a mL "
                 "of alcohol weigh?"),
            Turn("as if the bottle were pure alcohol",
                 lambda volume: volume * PURE / STANDARD_DRINK,
                 "Only a part of the bottle is alcohol."),
            Turn("divided by the weight of a mL",
                 lambda volume, abv: volume * abv / 100 / PURE / STANDARD_DRINK,
                 "Alcohol is lighter than water. Are the grams more or fewer than the mL?"),
            Turn("gave the grams", lambda volume, abv: hc.ethanol_grams(volume, abv),
                 "Those are the grams. How many drinks of 14 g are that?"),
        ],
        section=SPOON,
        worked=lambda volume, abv, answer: (
            f"{volume} × {abv} / 100 × 0.789 = {14 * answer:.1f} g of alcohol.\n{14 * answer:.1f} "
            f"/ 14 = **{answer:.2f} times** a US standard drink; other countries count 8 to 20 g "
            "as a drink. For some people even a small part of one is too much, so it stands on the "
            "label."
        ),
        published=Published(
            source="NIAAA (seen quoted): 1.5 US fluid ounces (44.36 mL) of 80 proof, 40 % vol, are "
                   "one US standard drink",
            numbers=dict(volume=44.36, abv=40), result=1, within=0.005,
        ),
    ),
    Number(
        name="from-water-to-spirit",
        step=3,
        prompt="From her dropper Maren counts **{water} drops of water** to the mL. The panel's "
               "dropper gives 20 of water, and its curve shows how many of spirit at **{abv} % "
               "vol**. How many drops of that spirit to the mL should Maren expect from **hers**?",
        numbers=dict(water=(11, 12, 13, 14, 15, 26, 27, 28, 30), abv=(25, 30, 40, 45, 50, 60, 70)),
        model=lambda water, abv: water * _drops(abv) / _drops(0),
        unit="drops",
        tolerance=Tolerance(1, "the panel shows whole drops; the count itself may be off by 15 % "
                               "(USP, chapter 1101)", percent=5),
        sensible=(18, 80),
        turns=[
            Turn("the panel's count as it stands", lambda abv: _drops(abv),
                 "That is the panel's dropper. Hers makes other drops: by how many times, for "
                 "water?"),
            Turn("added the difference", lambda water, abv: water + _drops(abv) - WATER_DROPS,
                 "A wider tube makes *all* drops larger by the same factor. Which stays the same "
                 "from dropper to dropper: the difference, or the quotient?"),
            Turn("as many as of water", lambda water: water,
                 "Spirit has a weaker skin than water: does its drop let go sooner or later?"),
            Turn("upside down", lambda water, abv: water * _drops(0) / _drops(abv),
                 "Fewer drops than of water? Their skin is weaker: are they larger or smaller?"),
        ],
        section=BENCH,
        worked=lambda water, abv, answer: (
            f"In the panel spirit of {abv} % vol gives about {_drops(abv):.0f} drops where water "
            f"gives 20: {_drops(abv) / WATER_DROPS:.2f} times as many. By Tate's law the quotient "
            f"is the same for her dropper: {water} × {_drops(abv) / WATER_DROPS:.2f} = "
            f"**{answer:.0f} drops**, give or take 15 %. She had better count."
        ),
        published=Published(
            source="Gorgas, Dental Medicine, p. 25, drop table of 1905: one dropper gives 60 drops "
                   "of water and 146 of alcohol (about 94 % vol) to the same measure",
            numbers=dict(water=60, abv=94), result=146, within=14.6,
            note="Tate's law without its correction factor: within 10 %",
        ),
    ),
    Number(
        name="herb-in-a-ml",
        step=3,
        prompt="**{mass} g** of dried leaf, **{share} %** of it water, lie in **{volume} mL** of "
               "spirit. How many **mg of completely dry herb** does 1 mL of the finished liquid "
               "stand for? Whole mg.",
        numbers=dict(mass=steps(40, 120, 10), share=(8, 9, 10, 11, 12), volume=steps(250, 600, 50)),
        keep=lambda mass, volume: 4 <= volume / mass <= 10,
        model=_mg_in_a_ml,
        unit="mg/mL",
        tolerance=Tolerance(1, "a kitchen scale shows whole grams, and a label needs no more"
                               "",
                            percent=3),
        sensible=(80, 230),
        turns=[
            Turn("took the herb for dry", lambda mass, volume: 1000 * mass / volume,
                 "Dried herb is not all dry. Which part of it is plant, and what becomes of the "
                 "rest?"),
            Turn("gave the ratio", lambda mass, volume: volume / mass,
                 "That is the ratio: mL for each gram. How many mg are there for each mL?"),
            Turn("left it in grams", lambda mass, share, volume:
                 _mg_in_a_ml(mass, share, volume) / 1000,
                 "Those are grams. How many mg is a gram?"),
        ],
        section=HERB,
        worked=lambda mass, share, volume, answer: (
            f"Dry herb: {mass} × {100 - share} / 100 = {mass * (1 - share / 100):.1f} g. Its "
            f"{mass * share / 100:.1f} g of water join the liquid: {volume} + "
            f"{mass * share / 100:.0f} = {volume + mass * share / 100:.0f} mL.\n1000 × "
            f"{mass * (1 - share / 100):.1f} / {volume + mass * share / 100:.0f} = "
            f"**{answer:.0f} mg**. So much went in for each mL; it is neither a content nor a dose."
        ),
        published=Published(
            source="US Pharmacopeia IX (1916), Tinctures: most hold 20 g of drug in 100 mL of "
                   "tincture, that is 200 mg in each mL",
            numbers=dict(mass=20, share=0, volume=100), result=200, within=0.5,
        ),
    ),
    Table(
        name="bottling-sheet",
        step=4,
        prompt="**{mass} g** of dried herb were covered with **{poured} mL** of spirit. Pressed "
               "and strained, **{won} mL** came back, and they stand at **{abv} % vol**. They go "
               "into bottles of **{size} mL**. Fill in the sheet. (Pure alcohol weighs 0.789 g/mL.)"
               "",
        numbers=dict(mass=(50, 60, 80), poured=(300, 350, 400, 450, 500),
                     won=WON, abv=(39, 40, 43, 44, 48), size=(30, 50, 100)),
        keep=lambda mass, poured, won:
            4 <= poured / mass <= 8 and 0.75 <= (poured - won) / mass <= 1.9,
        rows=[
            Row(
                label="ratio as poured",
                model=lambda mass, poured: poured / mass,
                unit="mL per g",
                tolerance=Tolerance(0.05, "a ratio is written with one decimal at most"),
                sensible=(4, 8),
                turns=[
                    Turn("counted what came back", lambda mass, won: won / mass,
                         "A ratio on a label counts what was *poured*, unless it says otherwise."),
                    Turn("upside down", lambda mass, poured: mass / poured,
                         "How many mL were there for one gram?"),
                ],
            ),
            Row(
                label="full bottles",
                model=lambda won, size: won // size,
                unit="bottles",
                tolerance=Tolerance(0.2, "bottles are counted"),
                sensible=(2, 18),
                turns=[Turn("counted what was poured", lambda poured, size: poured // size,
                            "That much was poured. How much came back?")],
            ),
            Row(
                label="left over",
                model=lambda won, size: won % size,
                unit="mL",
                tolerance=Tolerance(1, "a 100 mL cylinder is read to 1 mL"),
                sensible=(5, 95),
                turns=[Turn("counted what was poured", lambda poured, size: poured % size,
                            "That is from what was poured."),
                       Turn("what the last bottle lacks", lambda won, size: size - won % size,
                            "So much is missing in the last bottle. How much is in it?")],
            ),
            Row(
                label="alcohol in one bottle",
                model=lambda abv, size: hc.ethanol_grams(size, abv),
                unit="g",
                tolerance=Tolerance(0.2, "a bottle is filled to some per cent", percent=2),
                sensible=(8, 40),
                turns=[
                    Turn("mL for grams", lambda abv, size: size * abv / 100,
                         "So many mL of it are alcohol. What do they weigh?"),
                    Turn("weighed the whole bottle", lambda size: size * PURE,
                         "Only a part of it is alcohol."),
                    Turn("counted all of the batch", lambda abv, won: hc.ethanol_grams(won, abv),
                         "One bottle only."),
                ],
            ),
        ],
        section=LABEL,
        worked=lambda mass, poured, won, abv, size, answer: (
            f"Poured {poured} / {mass}: **1:{answer['ratio as poured']:.1f}**, and say that it "
            f"counts dried herb.\n{won} / {size}: **{answer['full bottles']:.0f} full bottles** "
            f"and **{answer['left over']:.0f} mL** over.\nIn one bottle {size} × {abv} / 100 × "
            f"0.789 = **{answer['alcohol in one bottle']:.1f} g** of alcohol. Each bottle gets its "
            "label before it goes on the shelf, the rest too."
        ),
    ),
    Number(
        name="a-spoon-of-it",
        step=5,
        prompt="**{mass} g** of fresh leaf, **{share} %** of it water, steeped in **{volume} mL** "
               "of spirit at **{abv} % vol**. For the label: how many **grams of alcohol** are in "
               "a measure of **{spoon} mL** of the finished liquid? (Pure alcohol weighs 0.789 "
               "g/mL.) Two decimals.",
        numbers=dict(mass=(100, 120, 150, 180, 200), share=(75, 78, 80, 85, 90),
                     volume=steps(250, 500, 50), abv=(40, 45, 50, 55, 60), spoon=(5, 10, 15)),
        keep=lambda mass, share, volume: 0.36 <= mass * share / 100 / volume <= 0.5,
        model=lambda mass, share, volume, abv, spoon:
            hc.ethanol_grams(spoon, _strength(mass, share, volume, abv)),
        unit="g",
        tolerance=Tolerance(0.02, "the short sum does not count the shrinking, and a spoon is "
                                  "filled to some per cent at best", percent=3),
        sensible=(0.9, 6),
        turns=[
            Turn("the strength poured", lambda abv, spoon: hc.ethanol_grams(spoon, abv),
                 "That is the spirit as it was poured. What has the leaf brought into it since?"),
            Turn("mL for grams", lambda mass, share, volume, abv, spoon:
                 spoon * _strength(mass, share, volume, abv) / 100,
                 "So many mL of the measure are alcohol. What do they weigh?"),
            Turn("weighed the whole measure", lambda spoon: spoon * PURE,
                 "Only a part of the measure is alcohol."),
        ],
        section=SPOON,
        worked=lambda mass, share, volume, abv, spoon, answer: (
            f"Water from the leaf: {mass} × {share} / 100 = {mass * share / 100:.0f} g. At the end "
            f"{abv} × {volume} / ({volume} + {mass * share / 100:.0f}), about "
            f"{_strength(mass, share, volume, abv):.0f} % vol.\nIn {spoon} mL: {spoon} × "
            f"{_strength(mass, share, volume, abv):.0f} / 100 = "
            f"{spoon * _strength(mass, share, volume, abv) / 100:.2f} mL of alcohol, × 0.789 = "
            f"**{answer:.2f} g**. That stands on the label so that whoever must mind it can ask."
        ),
    ),
    Explain(
        name="mend-this-label",
        step=3,
        prompt="A neighbour's label: *\"THYME DROPS. 200 mg thyme oil per mL. Alcohol 40 %. "
               "Against cough: 20 drops (1 mL).\"* The jar was dried thyme at 1:5 in the plain "
               "spirit. **Write in four or five sentences** what is wrong with it, and what must "
               "stand there that does not.",
        section=LABEL,
        marks=4,
        rubric=[
            Point("the 200 mg are herb that went in, not oil or any content (and somewhat less, "
                  "counted dry)"),
            Point("20 drops of 40 % spirit are about half a mL, not 1 mL; count in mL"),
            Point("no healing claim and no dose: that is for law and licensed practice"),
            Point("names at least three that are missing: Latin name and part, strength *at the "
                  "end* in % vol, ratio on dried herb, mL in the bottle, batch, dates and use-by, "
                  "maker, cautions"),
        ],
        example="1:5 means that about 200 mg of herb went in for each mL, a little less counted "
                "dry; it says nothing about oil. Twenty drops to the mL is true of water, and of "
                "40 % spirit about 43 make a mL, so 20 drops are not even half of one. What it is "
                "good for and how much to take do not belong on the label: a claim makes a "
                "medicine of it, and a dose is for licensed practice. Missing are the Latin name "
                "and the part of the plant, the strength at the end, the ratio and what it counts, "
                "the mL in the bottle, the batch, the dates, the maker and the cautions.",
    ),
    Function(
        name="write-mg-in-a-ml",
        step=3,
        prompt="Write a function that tells how many mg of completely dry herb 1 mL stands for. "
               "With {mass} g of herb, {share} % of it water, in {volume} mL of spirit it is "
               "called as `answer({mass}, {share}, {volume})`, and it must work for other numbers "
               "too.",
        numbers=dict(mass=steps(40, 120, 10), share=(60, 70, 75, 80, 85, 90),
                     volume=steps(250, 600, 50)),
        model=_mg_in_a_ml,
        unit="mg/mL",
        tolerance=Tolerance(0.5, "the short sum differs by the shrinking, well under 2 %",
                            percent=2),
        sensible=(9, 400),
        turns=[
            Turn("took the herb for dry", lambda mass, volume: 1000 * mass / volume,
                 "Which part of the herb is water, and where does it go?"),
            Turn("left out the herb's water in the liquid",
                 lambda mass, share, volume: 1000 * mass * (1 - share / 100) / volume,
                 "The dry herb is right. But the herb's water has joined the liquid."),
        ],
        section=HERB,
        worked="`return 1000 * mass * (1 - share / 100) / (volume + mass * share / 100)`.",
    ),
]

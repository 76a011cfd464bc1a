"""Herb density: from a fill to grams, from grams to a ratio.

Amounts are invented for the exercise; herbs' figures are from the USDA National Nutrient
Database, release 27.
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

title = "Herb density"

FILL = "The same fill, five jars"
WEIGHT = "By eye, and by weight"
CUP = "At the bench: a level cup"

self_check = [
    Choice(
        name="check-much-herb",
        step=1,
        prompt="Two tinctures of the same dried herb: one is **1:3**, the other **1:10**. **Which "
               "holds more herb in each mL?**",
        options=[
            Option("the 1:3",
                   "Three mL for each gram: a third of a gram in each mL.", right=True),
            Option("the 1:10",
                   "Say it as a sentence: ten mL of liquid *for each gram*. How much of a gram is "
                   "in one of those mL?"),
            Option("both the same: it is the same herb",
                   "The herb is the same. Is the amount of liquid around each gram the same?"),
        ],
        section=WEIGHT,
        worked="A small number after the colon means much herb: in 1:3 each gram has 3 mL around "
               "it, in 1:10 it has 10 mL.",
    ),
    Number(
        name="check-cup",
        step=2,
        prompt="A cup of **{cup} mL** weighs **{empty} g** empty and **{full} g** levelled full of "
               "dried herb. How many grams of this herb are in a **{jar} mL** jar that is three "
               "quarters full?",
        numbers=dict(cup=(200, 240, 250), empty=(120, 180, 210), full=(240, 250, 260),
                     jar=(500, 750, 1000)),
        model=lambda cup, empty, full, jar: (
            0.75 * jar * hc.bulk_density_from_cup(full - empty, cup)),
        unit="g",
        tolerance=Tolerance(2, "a kitchen scale shows whole grams, and the jar holds a few cups",
                            percent=2),
        sensible=(40, 600),
        turns=[
            Turn("forgot to take off the cup",
                 lambda cup, full, jar: 0.75 * jar * full / cup,
                 "Herb that heavy would sink like a stone: what else was on the scale?"),
            Turn("filled the jar to the brim",
                 lambda cup, empty, full, jar: jar * (full - empty) / cup,
                 "How full is the jar?"),
            Turn("took the cup for the jar",
                 lambda empty, full: 0.75 * (full - empty),
                 "That is three quarters of the cup. The jar holds several cups."),
        ],
        section=CUP,
        worked=lambda cup, empty, full, jar, answer: (
            f"The herb in the cup: {full} − {empty} = {full - empty} g, that is "
            f"{(full - empty) / cup:.3f} g in each mL.\n0.75 × {jar} × {(full - empty) / cup:.3f} "
            f"= **{answer:.0f} g**."
        ),
    ),
    Choice(
        name="check-same-line",
        step=2,
        prompt="A friend makes fennel seed and dried marjoram tinctures alike: jar three quarters "
               "full, topped up. **What can you say about the two?**",
        options=[
            Option("the fennel jar holds several times as much herb",
                   "Seed lies close, leaf holds air: the line on the jar is the same, the weight "
                   "is not.", right=True),
            Option("they have the same ratio, because the fill is the same",
                   "The eye compares room. What does a ratio compare?"),
            Option("the marjoram jar holds more herb, because it takes in more liquid",
                   "It does take in more liquid. Whose room does the liquid take: the herb's, or "
                   "the air's?"),
            Option("the ratio depends on the size of the jar",
                   "Drag the size of the jars in the panel and watch the ratios: do they move?"),
        ],
        section=FILL,
        worked=lambda: (
            "In 500 mL the table's figures give "
            f"{375 * hc.herb('fennel', 'dried').bulk_density:.0f} g of fennel seed and "
            f"{375 * hc.herb('marjoram', 'dried').bulk_density:.0f} g of marjoram, at one line."
        ),
    ),
]


# --- at home -------------------------------------------------------------------------------------

cautions = """
**If you weigh for real:** only plants you surely know and may handle; herb dust, and powder of hot
plants above all, hurts eyes and lungs: open bags gently. A jar filled by eye has no known strength
in herb, so nobody's dose can be carried over from one jar to another; doses are for a licensed
practitioner, and this course gives none.
"""

MISTAKE = "The common mistake"

OUNCE, FLUID_OUNCE = 28.35, 29.57  # g, and mL (US); NIST Handbook 44, from memory
OWN_ROOM = 0.7  # mL of dried herb itself for each gram, without air: the figure the prompts give
POURABLE = 0.95  # share of the jar: common practice, no source

CUPFUL = Tolerance(0.004, "1 g on the scale is 0.004 g/mL in such a cup", percent=1.5)
EYE = Tolerance(0.1, "a ratio is written with two digits; the herb's own room is good to a few per "
                     "cent", percent=3)


@lru_cache(maxsize=100)
def _dried(plant):
    """A dried herb of the course's own table, whatever a student has weighed."""
    return hc.herb(plant, "dried", folder=places.data())


def _cut(plant):
    part, form = _dried(plant).part, _dried(plant).form
    return form if form == "leaves" else f"{part}, {form}"


@lru_cache(maxsize=10_000)
def _by_eye(jar, fill, plant):
    """A jar filled by eye to `fill` % with a dried herb; its ratio asks for no strength."""
    return hc.Jar(volume=jar, herb=_dried(plant), fill=fill / 100, menstruum=hc.spirit(1, abv=40))


def _own(cup, empty, full):
    """g in each mL of one's own herb."""
    return (full - empty) / cup


def _for_ratio(jar, ratio):
    """g of dried herb that stand at 1:`ratio` once the jar is topped up."""
    room = hc.Herb("herb", "dried", water=0.10, bulk_density=0.2).volume(1)
    return POURABLE * jar / (ratio + room)


homework = [
    Number(
        name="liquid-for-a-ratio",
        step=1,
        prompt="A recipe asks for dried herb at **1:{ratio}**, weight to volume. You have weighed "
               "**{mass} g**. **How many mL of liquid do you pour?**",
        numbers=dict(ratio=(2, 3, 4, 5, 8, 10), mass=(15, 24, 25, 30, 35, 40, 45, 60, 75)),
        model=lambda ratio, mass: ratio * mass,
        unit="mL",
        tolerance=Tolerance(0.5, "whole numbers; nothing needs rounding"),
        sensible=(30, 800),
        turns=[
            Turn("divided", lambda ratio, mass: mass / ratio,
                 "Say it as a sentence: so many mL for *each* gram. And how many grams are there?"),
            Turn("one part of them all", lambda ratio, mass: (ratio - 1) * mass,
                 "You took the herb for one of the parts of liquid. The number after the colon "
                 "counts the liquid alone."),
            Turn("added the two", lambda ratio, mass: (ratio + 1) * mass,
                 "That is herb and liquid together. Only the liquid is asked for."),
        ],
        section=WEIGHT,
        worked=lambda ratio, mass, answer: (
            f"1:{ratio} means {ratio} mL for each gram: {ratio} × {mass} = **{answer:g} mL**."
        ),
        published=Published(
            source="US Pharmacopeia IX (1916), Tinctures: for most of them 20 g of drug in 100 mL, "
                   "which the European Pharmacopoeia (0765, seen in a summary) calls 1 to 5",
            numbers=dict(ratio=5, mass=20), result=100, within=0.5,
        ),
    ),
    Choice(
        name="crushed",
        step=1,
        prompt="Tove crushes dried thyme in her hand: the heap sinks by **{sunk} %**. Then she "
               "fills her jar to the **same line** as last time and tops it up. **What has become "
               "of the ratio?**",
        numbers=dict(sunk=(20, 25, 30, 35)),
        options=[
            Option("the number after the colon is smaller: more herb for each mL",
                   "The same line holds more grams now.", right=True),
            Option("the number after the colon is larger: more mL for each gram",
                   "Is there more herb in the jar than last time, or less?"),
            Option("it is the same: the same herb to the same line",
                   "The line measures room. Is the room filled with as much air as last time?"),
            Option("it depends on the spirit she pours",
                   "A ratio counts mL and grams. Does it ask what is in the mL?"),
        ],
        section=MISTAKE,
        worked=lambda sunk: (
            f"What filled 100 mL now fills {100 - sunk}. To the same line there is "
            f"{100 / (100 - sunk):.2f} times as much thyme, and less room for liquid besides."
        ),
    ),
    Number(
        name="a-level-cup",
        step=2,
        prompt="A cup holds **{cup} mL**. Empty it weighs **{empty} g**, levelled full of loose "
               "herb **{full} g**. **What does one mL of this herb weigh**, air and all (the bulk "
               "density)? Three decimals, please.",
        numbers=dict(cup=(200, 220, 240, 250), empty=(96, 124, 188, 205),
                     full=(129, 148, 156, 177, 214, 228, 236, 243, 260)),
        keep=lambda cup, empty, full: 22 <= full - empty <= 80,
        model=lambda cup, empty, full: hc.bulk_density_from_cup(full - empty, cup),
        unit="g/mL",
        tolerance=CUPFUL,
        sensible=(0.08, 0.4),
        turns=[
            Turn("forgot to take off the cup", lambda cup, full: full / cup,
                 "As heavy as that, the herb would nearly sink: what else was on the scale?"),
            Turn("upside down", lambda cup, empty, full: cup / (full - empty),
                 "That is how many mL one gram fills. The question asks what one mL weighs."),
            Turn("for 100 mL", lambda cup, empty, full: 100 * (full - empty) / cup,
                 "That is the weight of 100 mL. The question asks for one."),
        ],
        section=CUP,
        worked=lambda cup, empty, full, answer: (
            f"The herb alone: {full} − {empty} = {full - empty} g. It fills {cup} mL: "
            f"{full - empty} / {cup} = **{answer:.3f} g/mL**."
        ),
    ),
    Number(
        name="grams-in-the-jar",
        step=2,
        prompt=lambda plant, jar, fill: (
            f"A jar of **{jar} mL** is filled to **{fill} %** with dried **{plant}** "
            f"({_cut(plant)}). One mL of it, loose, weighs "
            f"{_dried(plant).bulk_density} g (USDA, release 27). **How many grams are in the "
            "jar?**"
        ),
        numbers=dict(plant=("anise", "basil", "clove", "fennel", "marjoram", "oregano", "parsley",
                            "rosemary", "thyme", "turmeric"),
                     jar=(250, 350, 500, 750, 1000), fill=(60, 70, 75, 80, 90)),
        model=lambda plant, jar, fill: _by_eye(jar, fill, plant).herb_mass,
        unit="g",
        tolerance=Tolerance(1, "a kitchen scale shows whole grams", percent=1),
        sensible=(15, 580),
        turns=[
            Turn("filled the jar to the brim",
                 lambda plant, jar: jar * _dried(plant).bulk_density,
                 "How full is the jar?"),
            Turn("took mL for grams", lambda jar, fill: jar * fill / 100,
                 "So many mL of loose herb there are. What does each of them weigh?"),
            Turn("divided by the bulk density",
                 lambda plant, jar, fill: jar * fill / 100 / _dried(plant).bulk_density,
                 "Loose herb is lighter than water: more grams than mL, or fewer?"),
        ],
        section=FILL,
        worked=lambda plant, jar, fill, answer: (
            f"Loose herb: {fill} % of {jar} mL = {jar * fill / 100:g} mL. Each weighs "
            f"{_dried(plant).bulk_density} g: {jar * fill / 100:g} × "
            f"{_dried(plant).bulk_density} = **{answer:.0f} g**."
        ),
        published=Published(
            source="USDA National Nutrient Database, release 27, NDB 02042: one tablespoon (14.79 "
                   "mL) of dried thyme leaves weighs 2.7 g",
            numbers=dict(plant="thyme", jar=14.79, fill=100), result=2.7, within=0.05,
        ),
    ),
    Choices(
        name="what-moves-a-ratio",
        step=2,
        prompt="A jar is filled with dried herb by eye, always to three quarters, and topped up. "
               "**What changes its ratio?** Pick all that does.",
        options=[
            Option("which plant it is", right=True),
            Option("how finely it is cut", right=True),
            Option("whether the hand presses it down", right=True),
            Option("the size of the jar, filled to three quarters",
                   "Twice the jar holds twice the herb and twice the liquid. And their ratio?"),
            Option("the strength of the spirit",
                   "A ratio counts mL for each gram. Does it ask what is in the mL?"),
            Option("how many weeks it stands",
                   "Time moves what is inside the herb. Does it move the grams or the mL that went "
                   "in?"),
        ],
        section=FILL,
        worked="Plant, cut and hand decide how many grams a mL of loose herb weighs. A larger jar "
               "only gives more of the same.",
    ),
    Order(
        name="level-cup-in-order",
        step=2,
        prompt="**Put in order** how you find the bulk density of your own herb.",
        items=[
            "weigh the cup empty and dry",
            "weigh it full of water: the grams of water are its mL",
            "dry the cup well",
            "fill it loosely with herb to over the rim and tap once",
            "draw a ruler over the rim",
            "weigh the levelled cup and take off the empty weight",
            "divide the grams of herb by the cup's mL",
        ],
        before=[
            Before("weigh it full of water: the grams of water are its mL", "dry the cup well",
                   "Which of the two makes the cup wet?"),
            Before("dry the cup well", "fill it loosely with herb to over the rim and tap once",
                   "Herb in a wet cup sticks and drinks: what comes before the herb?"),
            Before("weigh the cup empty and dry",
                   "weigh it full of water: the grams of water are its mL",
                   "To know the water's weight, what must you know before the cup is wet?"),
            Before("fill it loosely with herb to over the rim and tap once",
                   "draw a ruler over the rim",
                   "The ruler takes away what stands over the rim. What must be there first?"),
            Before("draw a ruler over the rim",
                   "weigh the levelled cup and take off the empty weight",
                   "A heaped cup holds more than its mL. When do you weigh?"),
            Before("weigh the levelled cup and take off the empty weight",
                   "divide the grams of herb by the cup's mL",
                   "Which grams do you divide?"),
        ],
        section=CUP,
        worked="Empty, water, dry, herb, level, weigh, divide. Three times over, and the middle "
               "weight counts.",
    ),
    Number(
        name="two-kinds-of-ounces",
        step=3,
        prompt="A recipe from overseas: **{ounces} oz** of dried herb, by weight, in **{fluid} fl "
               "oz** of spirit, by volume. **How many mL are there for each gram?** One decimal, "
               "please.\n\n1 oz is 28.35 g; 1 US fl oz is 29.57 mL.",
        numbers=dict(ounces=(1, 1.5, 2, 2.5, 3, 4, 5, 6), fluid=(4, 6, 8, 10, 12, 16, 20, 24, 32)),
        keep=lambda ounces, fluid: 2 <= fluid / ounces <= 9,
        model=lambda ounces, fluid: fluid * FLUID_OUNCE / (ounces * OUNCE),
        unit="mL per g",
        tolerance=Tolerance(0.03, "one decimal is asked for", percent=1.5),
        sensible=(2, 9.5),
        turns=[
            Turn("ounces by weight for fluid ounces", lambda ounces, fluid: fluid / ounces,
                 "You let both ounces be the same. One is a weight, the other a volume: turn each "
                 "into grams or mL first."),
            Turn("the two figures crossed",
                 lambda ounces, fluid: fluid * OUNCE / (ounces * FLUID_OUNCE),
                 "Which of the two figures belongs to the spirit?"),
            Turn("upside down", lambda ounces, fluid: ounces * OUNCE / (fluid * FLUID_OUNCE),
                 "That is grams for each mL. The question asks for mL for each gram."),
        ],
        section=WEIGHT,
        worked=lambda ounces, fluid, answer: (
            f"Herb: {ounces} × 28.35 = {ounces * OUNCE:.1f} g. Spirit: {fluid} × 29.57 = "
            f"{fluid * FLUID_OUNCE:.0f} mL.\n{fluid * FLUID_OUNCE:.0f} / {ounces * OUNCE:.1f} = "
            f"**{answer:.1f} mL per g**, where the recipe's own numbers say 1:{fluid / ounces:.1f}."
        ),
    ),
    Number(
        name="ratio-by-eye",
        step=4,
        prompt=lambda plant, jar, fill: (
            f"Idris fills a **{jar} mL** jar to **{fill} %** with dried **{plant}** "
            f"({_cut(plant)}) and tops it up. **At which ratio does "
            "it stand: how many mL for each gram?**\n\nOne mL of it, loose, weighs "
            f"{_dried(plant).bulk_density} g. The liquid takes the place of the air; a gram of "
            "dried herb itself takes up about 0.7 mL. 5 % of the jar stays empty."
        ),
        numbers=dict(plant=("anise", "basil", "cinnamon", "fennel", "marjoram", "oregano",
                            "rosemary", "thyme"),
                     jar=(250, 500, 750, 1000), fill=(60, 70, 75, 80, 90)),
        model=lambda plant, jar, fill: _by_eye(jar, fill, plant).ratio,
        unit="mL per g",
        tolerance=EYE,
        sensible=(1.2, 13.5),
        turns=[
            Turn("poured into the empty part of the jar only",
                 lambda plant, jar, fill:
                     jar * (1 - fill / 100) / _by_eye(jar, fill, plant).herb_mass,
                 "Between the pieces of herb there is air, and the liquid runs in there too."),
            Turn("forgot the herb's own room",
                 lambda plant, jar, fill: POURABLE * jar / _by_eye(jar, fill, plant).herb_mass,
                 "The herb itself takes up room as well. How much liquid fits beside it?"),
            Turn("upside down", lambda plant, jar, fill: 1 / _by_eye(jar, fill, plant).ratio,
                 "That is grams for each mL. A ratio says mL for each gram."),
        ],
        section=FILL,
        worked=lambda plant, jar, fill, answer: (
            f"Herb: {jar * fill / 100:g} × {_dried(plant).bulk_density} = "
            f"{_by_eye(jar, fill, plant).herb_mass:.0f} g, which itself takes up × 0.7 = "
            f"{OWN_ROOM * _by_eye(jar, fill, plant).herb_mass:.0f} mL.\nRoom to fill: 0.95 × {jar} "
            f"= {POURABLE * jar:g} mL. Liquid: "
            f"{POURABLE * jar - OWN_ROOM * _by_eye(jar, fill, plant).herb_mass:.0f} mL, and "
            f"for {_by_eye(jar, fill, plant).herb_mass:.0f} g that is **{answer:.1f} mL per g**."
        ),
    ),
    Table(
        name="jar-by-weight",
        step=5,
        prompt="Your own dried herb: a cup of **{cup} mL** weighs **{empty} g** empty and **{full} "
               "g** levelled full. You want it at **1:{ratio}** in a **{jar} mL** jar. Fill in the "
               "sheet; the last line says how high the loose herb will stand.\n\nA gram of dried "
               "herb itself takes up about 0.7 mL; 5 % of the jar stays empty.",
        numbers=dict(cup=(200, 240, 250), empty=(112, 145, 180), full=(150, 165, 192, 206, 228),
                     ratio=(5, 6, 8, 10), jar=(500, 750, 1000)),
        keep=lambda cup, empty, full, ratio, jar: (
            25 <= full - empty <= 60 and _for_ratio(jar, ratio) / _own(cup, empty, full) < jar),
        rows=[
            Row(
                label="one mL of herb",
                model=_own,
                unit="g/mL",
                tolerance=CUPFUL,
                sensible=(0.1, 0.3),
                turns=[
                    Turn("forgot to take off the cup", lambda cup, full: full / cup,
                         "What else was on the scale?"),
                    Turn("upside down", lambda cup, empty, full: cup / (full - empty),
                         "That is how many mL one gram fills."),
                ],
            ),
            Row(
                label="three quarters by eye",
                model=lambda cup, empty, full, jar: 0.75 * jar * _own(cup, empty, full),
                unit="g",
                tolerance=Tolerance(1, "three decimals of the bulk density are a gram or two here",
                                    percent=2),
                sensible=(35, 230),
                turns=[
                    Turn("filled the jar to the brim",
                         lambda cup, empty, full, jar: jar * _own(cup, empty, full),
                         "Three quarters of the jar, not all of it."),
                    Turn("three quarters of the cup",
                         lambda empty, full: 0.75 * (full - empty),
                         "The jar holds several cups."),
                ],
            ),
            Row(
                label="herb to weigh",
                model=lambda ratio, jar: _for_ratio(jar, ratio),
                unit="g",
                tolerance=Tolerance(0.6, "a kitchen scale shows whole grams", percent=1.5),
                sensible=(40, 170),
                turns=[
                    Turn("forgot the herb's own room",
                         lambda ratio, jar: POURABLE * jar / ratio,
                         "The herb takes up room too: each gram needs its mL of liquid and its own "
                         "0.7 mL."),
                    Turn("forgot the head space as well", lambda ratio, jar: jar / ratio,
                         "As if the whole jar were liquid. What else is in it, and what stays "
                         "empty?"),
                ],
            ),
            Row(
                label="liquid to pour",
                model=lambda ratio, jar: ratio * _for_ratio(jar, ratio),
                unit="mL",
                tolerance=Tolerance(5, "a 500 mL cylinder is marked every 5 mL", percent=1.5),
                sensible=(400, 900),
                turns=[
                    Turn("the jar without the herb", lambda jar: POURABLE * jar,
                         "That fits into the jar when no herb is in it."),
                    Turn("for the herb by eye",
                         lambda cup, empty, full, ratio, jar:
                             ratio * 0.75 * jar * _own(cup, empty, full),
                         "That belongs to the herb by eye. Which of the two do you pour on?"),
                ],
            ),
            Row(
                label="loose herb stands at",
                model=lambda cup, empty, full, ratio, jar: (
                    100 * _for_ratio(jar, ratio) / _own(cup, empty, full) / jar),
                unit="%",
                tolerance=Tolerance(2, "an eye tells the height of a heap to a few per cent",
                                    percent=3),
                sensible=(28, 100),
                turns=[
                    Turn("grams by mL of the jar",
                         lambda ratio, jar: 100 * _for_ratio(jar, ratio) / jar,
                         "You took a gram for a mL. How many mL does the loose herb fill?"),
                    Turn("three quarters, as by eye", lambda: 75,
                         "That is the line by eye. The herb you weighed fills another height."),
                ],
            ),
        ],
        section=WEIGHT,
        worked=lambda cup, empty, full, ratio, jar, answer: (
            f"One mL: ({full} − {empty}) / {cup} = **{answer['one mL of herb']:.3f} g/mL**. By "
            f"eye: 0.75 × {jar} × {answer['one mL of herb']:.3f} = "
            f"**{answer['three quarters by eye']:.0f} g**.\nBy weight each gram needs {ratio} mL "
            f"of liquid and 0.7 mL for itself: 0.95 × {jar} / {ratio + OWN_ROOM:.1f} = "
            f"**{answer['herb to weigh']:.0f} g**, with {ratio} × {answer['herb to weigh']:.1f} = "
            f"**{answer['liquid to pour']:.0f} mL**.\nLoose, that herb fills "
            f"{answer['herb to weigh']:.1f} / {answer['one mL of herb']:.3f} = "
            f"{answer['herb to weigh'] / answer['one mL of herb']:.0f} mL, "
            f"**{answer['loose herb stands at']:.0f} %** of the jar."
        ),
    ),
    Explain(
        name="the-same-jar-again",
        step=3,
        prompt="In autumn Idris filled a jar three quarters with whole fennel seed; in spring, "
               "with fennel he had ground. \"Same herb, same jar, same line,\" he says, \"so the "
               "new bottle can be used just like the old one.\" **Explain in three or four "
               "sentences** why the two may differ, how he could have known, and why he must not "
               "carry anything over from the old bottle to the new.",
        section=MISTAKE,
        marks=4,
        rubric=[
            Point("says that the line measures room, and that ground seed packs more (or otherwise "
                  "differs in) weight for each mL than whole seed"),
            Point("concludes that the ratio, herb for each mL, differs though jar and line are the "
                  "same"),
            Point("names the way to know: weigh the herb, or a level cup of each cut"),
            Point("says that no dose is carried over from a jar filled by eye; that is for a "
                  "licensed practitioner"),
        ],
        example="The line on the jar measures room, not weight. Ground fennel leaves less air "
                "between its pieces than whole seed, so the same line may hold more grams and the "
                "ratio is another one. He could have known by weighing what went in, or a level "
                "cup of each. As neither jar has a known strength in herb, nothing can be carried "
                "over from the old bottle; how much anybody takes is for a licensed practitioner.",
    ),
    Function(
        name="write-herb-for-ratio",
        step=4,
        prompt="Write a function that tells how many grams of dried herb to weigh. For a {jar} mL "
               "jar at 1:{ratio} it is called as `answer({jar}, {ratio})`, and it must work for "
               "other numbers too. Each gram takes up 0.7 mL itself, and 5 % of the jar stays "
               "empty.",
        numbers=dict(jar=(250, 300, 350, 500, 750, 1000), ratio=(3, 4, 5, 6, 8, 10)),
        model=_for_ratio,
        unit="g",
        tolerance=Tolerance(0.5, "a kitchen scale shows whole grams", percent=1),
        sensible=(20, 270),
        turns=[
            Turn("forgot the herb's own room", lambda jar, ratio: POURABLE * jar / ratio,
                 "Each gram needs its mL of liquid and its own room."),
            Turn("forgot the head space as well", lambda jar, ratio: jar / ratio,
                 "As if the whole jar were liquid."),
        ],
        section=WEIGHT,
        worked="What fits is shared by grams that each need ratio + 0.7 mL: `return 0.95 * jar / "
               "(ratio + 0.7)`.",
    ),
]

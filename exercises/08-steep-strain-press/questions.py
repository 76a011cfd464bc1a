"""Steeping, straining, pressing: what comes out, what the marc keeps, what a second pour wins.

Amounts are invented for the exercise, and so is what the marc keeps back: measure your own.
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
from herbcalc.extraction import FILTERS, HELD_BACK, MESH, passes

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


# --- at home -------------------------------------------------------------------------------------

cautions = """
**If you press for real:** cloths and marc wet with spirit burn as the spirit does. Stove out, no
flame, no glowing heater, window open; the marc goes wet into a closed tin or out of doors. Press
slowly and away from your face: a cloth that bursts sprays into the eyes. Gloves for herbs that burn
or stain, and only plants you surely know and may swallow. Out of reach of children.
"""

DAYS = "How long to steep"
PUBLISHED_YIELD = "What others get: from 1:5 to about 1:4 to 1:4.5"
STRAINING = "Straining: from coarse to fine"
BENCH = "At the bench: what my marc keeps back"

CYLINDER = Tolerance(
    2, "a 500 mL measuring cylinder is marked every 5 mL, that is 1 %", percent=1)
WHOLE_PER_CENT = Tolerance(1, "whole per cents are as much as the bench can tell")
DRIED_WATER = 0.1  # share of water in dried herb, for counting: 5 to 13 % in the USDA table


def _holds(opening):
    """Whether a sieve holds every grain the question asks for, 0.28 to 0.4 mm."""
    return not passes(0.28, opening)


def _for_one_gram(ratio, kept):
    """mL won for each g of dried herb, a tenth of it water."""
    return hc.steep(1 - DRIED_WATER, [ratio + DRIED_WATER], kept).total_drawn


def _two_pours(dry, first, second, kept):
    return hc.steep(dry, [first, second], kept)


def _thinner(dry, first, second, kept):
    """Herb in 1 mL of the second draw, in % of that in 1 mL of the first."""
    steeped = _two_pours(dry, first, second, kept)
    first_ml, second_ml = (won / drawn for won, drawn in zip(steeped.won, steeped.drawn))
    return 100 * second_ml / first_ml


homework = [
    Choices(
        name="which-holds-it",
        step=1,
        prompt="Turmeric has been ground to grains of **{grain} mm**. **Which of these hold the "
               "grains back?** Pick all that do.",
        numbers=dict(grain=(0.28, 0.3, 0.32, 0.35, 0.38, 0.4)),
        options=[
            *(Option(f"a sieve, mesh No. {number}",
                     "" if _holds(MESH[number]) else
                     "A mesh number counts the wires in an inch. Do more wires leave a larger hole "
                     "or a smaller one?", right=_holds(MESH[number]))
              for number in ("20", "60", "100")),
            *(Option(words[0], "" if _holds(FILTERS[name]) else words[1],
                     right=_holds(FILTERS[name]))
              for name, words in {
                  "kitchen sieve": ("a kitchen sieve", "Made for leaves. How many mm are its "
                                                       "holes, and how many the grain?"),
                  "muslin, one layer": ("one layer of muslin", "Hold one layer to the window: its "
                                                               "holes can be seen."),
                  "muslin, four layers": ("four layers of muslin", ""),
                  "coffee filter": ("a coffee filter", ""),
              }.items()),
        ],
        section=STRAINING,
        worked=lambda grain: (
            f"A grain of {grain} mm stays where the hole is smaller. No. 60 has holes of "
            f"{MESH['60']} mm, No. 100 of {MESH['100']} mm (ASTM E11, from memory), four layers of "
            f"muslin about {FILTERS['muslin, four layers']} mm, paper far less. No. 20 has "
            f"{MESH['20']} mm: the higher the number, the finer."
        ),
    ),
    Number(
        name="press-or-hand",
        step=1,
        prompt="The jar holds **{dry} g** of completely dry herb. Wrung by hand, each gram keeps "
               "back **{hand} mL**; in the press, **{press} mL**. How many mL **more** does the "
               "press win?",
        numbers=dict(dry=steps(60, 150, 10), hand=(1.4, 1.5, 1.6, 1.7, 1.8),
                     press=(0.6, 0.7, 0.8, 0.9, 1.0)),
        model=lambda dry, hand, press: dry * (hand - press),
        unit="mL",
        tolerance=Tolerance(2, "two readings of a 100 mL cylinder, each to 1 mL"),
        sensible=(20, 180),
        turns=[
            Turn("added the two", lambda dry, hand, press: dry * (hand + press),
                 "What does the one way keep back that the other does not?"),
            Turn("gave what the press leaves behind", lambda dry, press: dry * press,
                 "So much stays in the marc even so. How much stayed there before it was pressed?"),
            Turn("for one gram only", lambda hand, press: hand - press,
                 "That is for one gram of herb. How many grams are in the jar?"),
        ],
        section=PRESSING,
        worked=lambda dry, hand, press, answer: (
            f"By hand {dry} × {hand} = {dry * hand:.0f} mL stay in the marc, in the press "
            f"{dry} × {press} = {dry * press:.0f} mL.\n{dry * hand:.0f} − {dry * press:.0f} = "
            f"**{answer:.0f} mL** more, and each of them just like the others."
        ),
    ),
    Number(
        name="half-and-half-again",
        step=2,
        prompt="Suppose half of what will come out has come after **{half} days** (an invented "
               "pace: yours will differ). How much of it, in per cent, has come out after **{days} "
               "days**?",
        numbers=dict(half=(3, 4, 5, 6, 7), days=(8, 9, 10, 12, 14, 15, 16, 18, 20, 21, 24, 28)),
        keep=lambda half, days: days % half == 0 and 2 <= days // half <= 4,
        model=lambda half, days: 100 * hc.steeped(days, half),
        unit="%",
        tolerance=WHOLE_PER_CENT,
        sensible=(70, 95),
        turns=[
            Turn("half for each so many days", lambda half, days: 50 * days / half,
                 "All of it, or even more? Each time, half of *what is left* comes out."),
            Turn("gave what is still to come", lambda half, days: 100 * 0.5 ** (days / half),
                 "That is what is still in the herb."),
            Turn("one half too few", lambda half, days: 100 * hc.steeped(days - half, half),
                 "How many times does the time for a half fit into all the days?"),
        ],
        section=DAYS,
        worked=lambda half, days, answer: (
            f"{half} days fit into {days} days {days // half} times. Still to come: 100 %"
            + "".join(f", then {100 * 0.5 ** n:g} %" for n in range(1, days // half + 1))
            + f".\nOut have come 100 − {100 - answer:g} = **{answer:g} %**. The same number of "
            "days brings less each time."
        ),
    ),
    Order(
        name="out-of-the-jar",
        step=2,
        prompt="Six weeks are over. **Put the work in order**, from the closed jar to the shelf.",
        items=[
            "put the stove out and open the window",
            "pour the jar through a sieve and let it drip",
            "gather the marc in a strong cloth and wring or press it slowly",
            "let what was won stand overnight, closed, and pour off the clear",
            "measure the clear liquid",
            "fill bottles and label each of them at once",
        ],
        before=[
            Before("put the stove out and open the window",
                   "pour the jar through a sieve and let it drip",
                   "Spirit vapour is there as soon as the jar is open. What must be out before?"),
            Before("pour the jar through a sieve and let it drip",
                   "gather the marc in a strong cloth and wring or press it slowly",
                   "A cloth full of loose liquid bursts. What goes first, what runs by itself or "
                   "what must be forced?"),
            Before("gather the marc in a strong cloth and wring or press it slowly",
                   "let what was won stand overnight, closed, and pour off the clear",
                   "Pressing brings crumbs along. When is it worth letting them settle?"),
            Before("measure the clear liquid", "fill bottles and label each of them at once",
                   "How many bottles do you set out, before you know how much there is?"),
        ],
        section=STRAINING,
        worked="Flame out, drip, press, settle, measure, bottle. From coarse to fine, and the "
               "bottles are counted last: what was poured is not what comes back.",
    ),
    Choice(
        name="the-second-draw",
        step=2,
        prompt="Tove has pressed her marc. She pours **{second} mL** of fresh spirit on it, waits, "
               "and presses again. **What is in that second draw?**",
        numbers=dict(second=(150, 200, 250, 300)),
        options=[
            Option("a thinner tincture, which gets a label of its own or goes on the next jar",
                   "Only what the first liquid in the marc still held is left to share out.",
                   right=True),
            Option("the same tincture as the first, so it can fill up the first bottles",
                   "How much of the herb was still in the marc when she poured again?"),
            Option("plain spirit, because the first draw took everything",
                   "The marc was wet when she poured. Wet with what?"),
            Option("a stronger tincture, because the second pour gets what the first could not",
                   "It does get something more, but out of what, and into how much liquid?"),
        ],
        section=STEEPS,
        worked="A wet marc still holds tincture. The fresh liquid shares that out evenly: more is "
               "won in all, but it is thin.",
    ),
    Number(
        name="for-one-gram",
        step=3,
        prompt="Dried herb, a tenth of its weight water, is covered at **1:{ratio}**, {ratio} mL "
               "on each gram. Each gram of **completely dry** herb keeps back **{kept} mL**. How "
               "many mL are won for each gram of herb as you weighed it? Give two decimals.",
        numbers=dict(ratio=(4, 5, 6, 8, 10), kept=(1.0, 1.1, 1.2, 1.3, 1.4, 1.6, 1.7, 1.8)),
        model=lambda ratio, kept: _for_one_gram(ratio, kept),
        unit="mL per g",
        tolerance=Tolerance(0.045, "a cylinder is good for one decimal, so that is enough"),
        sensible=(2.6, 9.5),
        turns=[
            Turn("nothing kept back", lambda ratio: ratio,
                 "So much was poured. What does the marc do with a part of it?"),
            Turn("the plain difference", lambda ratio, kept: ratio - kept,
                 "The marc's figure counts completely dry herb. How much of your gram is dry, and "
                 "where does the rest of it go?"),
            Turn("forgot the herb's own water",
                 lambda ratio, kept: ratio - (1 - DRIED_WATER) * kept,
                 "The marc is right. But something has joined the liquid that nobody poured."),
        ],
        section=PUBLISHED_YIELD,
        worked=lambda ratio, kept, answer: (
            f"Of 1 g of herb 0.1 g is water, which joins the liquid, and 0.9 g is dry and keeps "
            f"0.9 × {kept} = {0.9 * kept:.2f} mL.\n{ratio} + 0.10 − {0.9 * kept:.2f} = "
            f"**{answer:.2f} mL** for each gram: poured at 1:{ratio}, bottled at 1:{answer:.1f}."
        ),
        published=Published(
            source="Cooperation Phytopharmaceuticals, Tincture: of a 1:5 maceration 1:4 to 1:4.5 "
                   "remain once it is pressed",
            numbers=dict(ratio=5, kept=HELD_BACK["kitchen press"]), result=4.25, within=0.25,
            note="the middle of the printed band and half its width; what the marc keeps is not "
                 "printed: it is the course's figure for a kitchen press",
        ),
    ),
    Number(
        name="my-own-marc",
        step=3,
        prompt="**{mass} g** of fresh leaf, **{share} %** of it water, lay in **{poured} mL** of "
               "spirit. Wrung out by hand it gave **{won} mL**. How many mL did each gram of "
               "**completely dry** leaf keep back? Give one decimal.",
        numbers=dict(mass=(100, 120, 140, 160), share=(75, 78, 80, 82), poured=(300, 350, 400),
                     won=steps(330, 470, 5)),
        keep=lambda mass, share, poured, won:
            0.9 <= (poured + mass * share / 100 - won) / (mass * (1 - share / 100)) <= 2.2,
        model=lambda mass, share, poured, won:
            hc.held_back(poured, mass * share / 100, won, mass * (1 - share / 100)),
        unit="mL per g",
        tolerance=Tolerance(0.1, "a cylinder is read to 5 mL, and on so little dry leaf that is a "
                               "fifth of a mL for each gram"),
        sensible=(0.9, 2.2),
        turns=[
            Turn("forgot the leaf's own water", lambda mass, share, poured, won:
                 (poured - won) / (mass * (1 - share / 100)),
                 "Count what went into the jar once more: a fresh leaf brings liquid too."),
            Turn("divided by the fresh weight", lambda mass, share, poured, won:
                 (poured + mass * share / 100 - won) / mass,
                 "That is for each gram of *fresh* leaf. Which part of it is dry?"),
            Turn("counted all of the leaf as water", lambda mass, share, poured, won:
                 (poured + mass - won) / (mass * (1 - share / 100)),
                 "Not all of a leaf runs out. Which part of it is water?"),
        ],
        section=BENCH,
        worked=lambda mass, share, poured, won, answer: (
            f"Water in the leaf: {mass} × {share} / 100 = {mass * share / 100:g} g; dry leaf: "
            f"{mass * (1 - share / 100):g} g.\nIn went {poured} + {mass * share / 100:g} mL, out "
            f"came {won}: {poured + mass * share / 100 - won:g} mL stayed in "
            f"{mass * (1 - share / 100):g} g of dry leaf, **{answer:.1f} mL** for each gram. Write "
            "it on the card of that herb."
        ),
    ),
    Table(
        name="two-pours",
        step=4,
        prompt="**{dry} g** of completely dry herb. Maren pours **{first} mL**, waits, and "
               "presses; then she pours **{second} mL** of fresh spirit on the same marc, waits, "
               "and presses again. Each gram of dry herb keeps back **{kept} mL**. Fill in the "
               "sheet: *won* is counted in per cent of all that the herb could give.",
        numbers=dict(dry=(60, 80, 100, 120), first=steps(250, 450, 50),
                     second=steps(100, 300, 50), kept=(0.7, 0.9, 1.1, 1.4, 1.6)),
        keep=lambda dry, first, kept: first >= 2.2 * dry * kept,
        rows=[
            Row(
                label="first draw",
                model=lambda dry, first, second, kept:
                    _two_pours(dry, first, second, kept).drawn[0],
                unit="mL",
                tolerance=CYLINDER,
                sensible=(90, 420),
                turns=[
                    Turn("counted on all of it", lambda first: first,
                         "So much was poured. What does the marc do?"),
                    Turn("gave what the marc keeps", lambda dry, kept: dry * kept,
                         "That is what stays behind."),
                ],
            ),
            Row(
                label="won by the first draw",
                model=lambda dry, first, second, kept:
                    100 * _two_pours(dry, first, second, kept).won[0],
                unit="%",
                tolerance=WHOLE_PER_CENT,
                sensible=(50, 95),
                turns=[Turn("gave what is left", lambda dry, first, kept: 100 * dry * kept / first,
                            "That share stays in the marc. How much came out?")],
            ),
            Row(
                label="second draw",
                model=lambda dry, first, second, kept:
                    _two_pours(dry, first, second, kept).drawn[1],
                unit="mL",
                tolerance=CYLINDER,
                sensible=(90, 310),
                turns=[Turn("let the marc drink once more",
                            lambda dry, second, kept: second - dry * kept,
                            "The marc was wet already: it holds as much after the second pressing "
                            "as after the first.")],
            ),
            Row(
                label="won by both together",
                model=lambda dry, first, second, kept:
                    100 * _two_pours(dry, first, second, kept).total_won,
                unit="%",
                tolerance=WHOLE_PER_CENT,
                sensible=(70, 99.5),
                turns=[
                    Turn("the second share of everything",
                         lambda dry, first, second, kept: 100 * (1 - dry * kept / first)
                         + 100 * second / (second + dry * kept),
                         "The second draw wins a share of what the first has left."),
                    Turn("as if all were poured at once",
                         lambda dry, first, second, kept:
                             100 * hc.steep(dry, [first + second], kept).total_won,
                         "That would be one steep with all of the liquid. Here the second pour "
                         "thins what the marc holds."),
                    Turn("the second draw alone",
                         lambda dry, first, second, kept:
                             100 * _two_pours(dry, first, second, kept).won[1],
                         "That is the second draw alone."),
                ],
            ),
            Row(
                label="a mL of the second draw, against the first",
                model=lambda dry, first, second, kept: _thinner(dry, first, second, kept),
                unit="%",
                tolerance=Tolerance(3, "from shares rounded to whole per cents", percent=7),
                sensible=(15, 70),
                turns=[Turn("compared the draws, not the mL",
                            lambda dry, first, second, kept:
                                100 * _two_pours(dry, first, second, kept).won[1]
                                / _two_pours(dry, first, second, kept).won[0],
                            "That compares the whole draws. In how many mL is each of them?")],
            ),
        ],
        section=STEEPS,
        worked=lambda dry, first, second, kept, answer: (
            f"The marc keeps {dry} × {kept} = {dry * kept:g} mL.\nFirst draw: {first} − "
            f"{dry * kept:g} = **{answer['first draw']:.0f} mL**, and with it "
            f"{answer['first draw']:.0f} / {first} = **{answer['won by the first draw']:.0f} %**.\n"
            f"Then {second} + {dry * kept:g} = {second + dry * kept:g} mL are on the herb and "
            f"{second} mL come out: **{answer['second draw']:.0f} mL**, and {second} / "
            f"{second + dry * kept:g} of the {100 - answer['won by the first draw']:.0f} % left, "
            f"together **{answer['won by both together']:.0f} %**.\nFor each mL the second draw "
            f"holds **{_thinner(dry, first, second, kept):.0f} %** of what the first does. It "
            "needs a label of its own."
        ),
    ),
    Number(
        name="enough-for-the-bottles",
        step=5,
        prompt="Idris has promised **{bottles} bottles of {size} mL**. He has dried herb, a tenth "
               "of its weight water, and covers it at **1:{ratio}** ({ratio} mL on each gram). "
               "Wrung by hand, each gram of completely dry herb keeps back **{kept} mL**. How many "
               "mL of spirit must he pour, so that all the bottles get full?",
        numbers=dict(bottles=(3, 4, 5, 6, 8), size=(50, 100, 120), ratio=(4, 5, 6),
                     kept=(1.4, 1.5, 1.6, 1.7, 1.8)),
        keep=lambda bottles, size: 200 <= bottles * size <= 800,
        model=lambda bottles, size, ratio, kept:
            bottles * size * ratio / _for_one_gram(ratio, kept),
        unit="mL",
        tolerance=CYLINDER,
        sensible=(230, 1300),
        turns=[
            Turn("poured what is to be bottled", lambda bottles, size: bottles * size,
                 "That is what must come *out*. How much of what is poured does the marc keep?"),
            Turn("added what that much herb keeps back",
                 lambda bottles, size, ratio, kept: bottles * size
                 + bottles * size / ratio * ((1 - DRIED_WATER) * kept - DRIED_WATER),
                 "More liquid at the same ratio means more herb, and that keeps back more too. "
                 "What does one gram give?"),
            Turn("forgot the herb's own water",
                 lambda bottles, size, ratio, kept:
                     bottles * size * ratio / (ratio - (1 - DRIED_WATER) * kept),
                 "Nearly. Something joins the liquid that he does not pour."),
            Turn("gave the grams of herb",
                 lambda bottles, size, ratio, kept: bottles * size / _for_one_gram(ratio, kept),
                 "So many grams of herb he needs. How many mL go on each gram?"),
        ],
        section=PRESSING,
        worked=lambda bottles, size, ratio, kept, answer: (
            f"To bottle: {bottles} × {size} = {bottles * size} mL.\nOne gram gives {ratio} + 0.10 "
            f"− 0.9 × {kept} = {_for_one_gram(ratio, kept):.2f} mL.\nHerb: {bottles * size} / "
            f"{_for_one_gram(ratio, kept):.2f} = {bottles * size / _for_one_gram(ratio, kept):.0f} "
            f"g.\nSpirit: {bottles * size / _for_one_gram(ratio, kept):.0f} × {ratio} = "
            f"**{answer:.0f} mL**, {answer - bottles * size:.0f} mL more than he bottles."
        ),
    ),
    Explain(
        name="the-new-press",
        step=3,
        prompt="A friend pours 400 mL of spirit on dried herb, promises four bottles of 100 mL, "
               "and buys a press, \"because pressing makes it stronger\". **Explain in three to "
               "five sentences** why there will not be four bottles, what the press does and does "
               "not do, how your friend can find out beforehand how much will come back, and what "
               "to mind with the marc.",
        section=PRESSING,
        marks=4,
        rubric=[
            Point("the marc keeps part of the liquid, so less comes back than was poured"),
            Point("a press wins more mL of the same: neither stronger in alcohol nor in herb"),
            Point("measure once: poured plus the herb's water less what is won, for each gram of "
                  "dry herb; then start with more herb and liquid alike"),
            Point("the marc is wet with spirit and burns: no flame, closed tin or out of doors; or "
                  "press slowly, away from the face"),
        ],
        example="The herb soaks up spirit and keeps part of it, so less than 400 mL comes back and "
                "the fourth bottle stays short. A press wins more of that liquid, but it is the "
                "same liquid: no stronger in alcohol, and each mL stands for as much herb as "
                "before. If my friend measures once how many mL each gram of dry herb keeps back, "
                "she can begin with enough herb and spirit for four bottles. The pressed marc is "
                "wet with spirit and goes into a closed tin, away from any flame.",
    ),
    Function(
        name="write-what-comes-back",
        step=3,
        prompt="Write a function that tells how many mL come back. With {mass} g of dried herb, a "
               "tenth of it water, {poured} mL poured and {kept} mL kept back by each gram of "
               "completely dry herb, it is called as `answer({mass}, {poured}, {kept})`, and it "
               "must work for other numbers too.",
        numbers=dict(mass=steps(40, 120, 10), poured=steps(300, 600, 50),
                     kept=(0.7, 0.9, 1.1, 1.4, 1.6)),
        model=lambda mass, poured, kept: hc.steep(
            mass * (1 - DRIED_WATER), [poured + mass * DRIED_WATER], kept).total_drawn,
        unit="mL",
        tolerance=Tolerance(0.5, "worked out by the machine, nothing is rounded on the way"),
        sensible=(120, 600),
        turns=[
            Turn("counted all of the herb as dry", lambda mass, poured, kept: poured - mass * kept,
                 "A tenth of the herb is water: it keeps nothing back, and it joins the liquid."),
            Turn("forgot the herb's own water",
                 lambda mass, poured, kept: poured - mass * (1 - DRIED_WATER) * kept,
                 "Something joins the liquid that nobody poured."),
        ],
        section=PUBLISHED_YIELD,
        worked="Poured, and the herb's water, less what the dry herb keeps: `return poured + 0.1 * "
               "mass - 0.9 * mass * kept`.",
    ),
]

"""Vinegar: acid in the jar, what fresh herb's water does to it, and what a pH tells.

Amounts are invented for the exercise. The limits are FDA CPG Sec. 525.825 (vinegar: 4 g in 100 mL)
and 21 CFR 114.3 (pH 4.6); the pH rests on the acid's Ka alone (CRC Handbook, from memory).
"""

from functools import lru_cache

import numpy as np

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

title = "Vinegar"

JAR = "Fresh herb in vinegar"
TIED = "When acid is tied up"
MISTAKE = "The common mistake"


@lru_cache(maxsize=10_000)
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


# --- at home -------------------------------------------------------------------------------------

cautions = """
**If you pour for real:** vinegar sold for food, 4 to 10 g of acid in 100 mL; never vinegar essence
or cleaning vinegar. Every piece of herb under the liquid, a lid of glass or plastic, never a closed
jar that fizzes. A jar that is not sour enough can grow what makes people very ill, botulism among
them, and may smell of nothing: when in doubt, throw it out. Anyone who is pregnant or
breastfeeding, takes medicines, has an allergy or a sore stomach, or means it for a child asks a
doctor, a pharmacist or a licensed herbal practitioner first.
"""

LABEL = "Five per cent of what?"
RAW = "Pasteurised or raw"

LEAST = 4.0  # g per 100 mL: FDA CPG Sec. 525.825, what may be called vinegar in the United States

ACID = Tolerance(0.1, "labels give acid to half a gram; the volumes add near enough")


@lru_cache(maxsize=10_000)
def _most_water(poured, acidity):
    """g of water that may join `poured` mL of vinegar until just 4 g of acid in 100 mL are left."""
    water = 0.0
    for _ in range(6):  # the volumes nearly add, so this settles at once
        water += poured * acidity / LEAST - (
            hc.vinegar(poured, acidity=acidity) + hc.Liquid(water=water)).volume
    return water


@lru_cache(maxsize=1_000)
def _ph(acidity):
    """The lowest pH there can be, from the acid alone."""
    return hc.vinegar(100, acidity=acidity).ph


def _needed(poured, grams):
    """Acid, g in 100 mL, of the vinegar to pour so that 4 g are left."""
    return LEAST * (poured + grams) / poured


homework = [
    Number(
        name="acid-in-the-bottle",
        step=1,
        prompt="A bottle of **{volume} mL** of vinegar says **{acidity} % acidity**. **How many "
               "grams of acid are in the bottle?**",
        numbers=dict(volume=(200, 250, 300, 400, 500, 700, 750), acidity=(4.5, 5, 5.5, 6, 7, 8)),
        model=lambda volume, acidity: hc.vinegar(volume, acidity=acidity).acetic,
        unit="g",
        tolerance=Tolerance(0.3, "labels give acid to half a gram in 100 mL"),
        sensible=(8, 80),
        turns=[
            Turn("the acid of 100 mL", lambda acidity: acidity,
                 "That is the acid of 100 mL. How much vinegar is in the bottle?"),
            Turn("took it for grams in a litre", lambda volume, acidity: volume * acidity / 1000,
                 "Per cent means out of a hundred: so many grams in each 100 mL."),
            Turn("divided", lambda volume, acidity: volume / acidity,
                 "More acid in the vinegar should make more grams. Does it, in your sum?"),
        ],
        section=LABEL,
        worked=lambda volume, acidity, answer: (
            f"{acidity} g in each 100 mL: {volume} × {acidity} / 100 = **{answer:g} g**."
        ),
    ),
    Choice(
        name="acid-or-ph",
        step=1,
        prompt="Two numbers belong to a herb vinegar: **grams of acid in 100 mL**, and the **pH**. "
               "**Which sentence is right?**",
        options=[
            Option("the acid is the reserve and can be counted; the pH is the moment and must be "
                   "measured",
                   "Two questions, two answers: is there enough, and is it sour enough now?",
                   right=True),
            Option("they say the same: half the acid is half the pH",
                   "In the lesson a vinegar was watered down to half its acid. What did the pH "
                   "do?"),
            Option("the pH can be worked out from the label, so strips are not needed",
                   "The label knows the vinegar. Does it know the herb's minerals?"),
            Option("the higher the pH, the better it keeps",
                   "On which side of 4.6 does the law for foods want it?"),
        ],
        section=TIED,
        worked="Count the acid beforehand, dip a strip afterwards. The acid alone gives only the "
               "lowest pH there can be.",
    ),
    Choices(
        name="a-safe-jar",
        step=2,
        prompt="Tove puts fresh garden herbs into vinegar. **What is right?** Pick all that is.",
        options=[
            Option("pasteurised vinegar sold for food", right=True),
            Option("a lid of glass or plastic, or baking paper under a metal one", right=True),
            Option("every piece of herb stays under the vinegar", right=True),
            Option("if a strip shows more than 4.6, throw it out", right=True),
            Option("vinegar essence, thinned with water: it is cheaper",
                   "What does acid that strong do to an eye or a throat before it is thinned? And "
                   "who knows the strength afterwards?"),
            Option("if it fizzes, close the lid tightly",
                   "What does gas do that cannot get out? And what is making it?"),
            Option("as long as it tastes sour it keeps",
                   "The tongue is satisfied long after the limit is passed. What tells instead?"),
        ],
        section="What you need",
        worked="Food vinegar, pasteurised for fresh herb; a lid that acid does not eat; all of it "
               "under; and a strip, not the tongue, for the pH.",
    ),
    Order(
        name="vinegar-in-order",
        step=2,
        prompt="Fresh leaf is to stand in vinegar. **Put the work in order.**",
        items=[
            "read on the bottle how much acid it has",
            "weigh the leaf and work out the water it brings",
            "work out how much acid will be left, and take less leaf if it is under 4 g",
            "put the leaf in the jar, pour the vinegar and push every piece under",
            "close it with a glass or plastic lid and write the label",
            "after some days dip a strip and write the pH on the label",
        ],
        before=[
            Before("weigh the leaf and work out the water it brings",
                   "work out how much acid will be left, and take less leaf if it is under 4 g",
                   "What thins the acid? How much of that is there?"),
            Before("read on the bottle how much acid it has",
                   "work out how much acid will be left, and take less leaf if it is under 4 g",
                   "Left of how much?"),
            Before("work out how much acid will be left, and take less leaf if it is under 4 g",
                   "put the leaf in the jar, pour the vinegar and push every piece under",
                   "Leaf that is in the vinegar cannot be taken out again unchanged. When do you "
                   "do the sum?"),
            Before("put the leaf in the jar, pour the vinegar and push every piece under",
                   "after some days dip a strip and write the pH on the label",
                   "What does the strip measure that the bottle does not know?"),
            Before("read on the bottle how much acid it has",
                   "weigh the leaf and work out the water it brings",
                   "Begin with the bottle: if it has too little acid, no leaf need be picked."),
        ],
        section=JAR,
        worked="Bottle, leaf, sum, jar, lid, strip. Count beforehand, measure afterwards.",
    ),
    Number(
        name="acid-left",
        step=3,
        prompt="**{mass} g** of fresh leaf, **{share} %** of it water, in **{volume} mL** of "
               "vinegar with **{acidity} g** of acid in 100 mL. **How much acid is in 100 mL once "
               "the leaf has given up its water?**",
        numbers=dict(mass=(80, 100, 120, 150), share=(80, 82, 85, 88), volume=(250, 300, 350, 400),
                     acidity=(5, 6, 7, 8)),
        keep=lambda mass, share, volume, acidity: (  # no answer that rounds to the limit itself
            abs(_left(volume, acidity, mass * share / 100) - LEAST) > 0.06),
        model=lambda mass, share, volume, acidity: _left(volume, acidity, mass * share / 100),
        unit="g per 100 mL",
        tolerance=ACID,
        sensible=(3, 7),
        turns=[
            Turn("the acid poured", lambda acidity: acidity,
                 "That is the label of the bottle. How much liquid does that acid share now?"),
            Turn("took all of the leaf for water",
                 lambda mass, volume, acidity: _left(volume, acidity, mass),
                 "Not all of the leaf is water: the plant itself does not thin the acid."),
            Turn("took the leaf's water for vinegar poured off",
                 lambda mass, share, volume, acidity:
                     acidity * (volume - mass * share / 100) / volume,
                 "No acid has left the jar. What has become more?"),
        ],
        section=JAR,
        worked=lambda mass, share, volume, acidity, answer: (
            f"The leaf's water: {mass} × {share} / 100 = {mass * share / 100:g} g.\n{acidity} × "
            f"{volume} / ({volume} + {mass * share / 100:g}) = **{answer:.1f} g in 100 mL**"
            + (", under 4 g: by this course's cautious reading for the refrigerator, and soon."
               if answer < LEAST else
               ", still what may be called vinegar. Dip a strip all the same.")
        ),
    ),
    Number(
        name="watered-down",
        step=3,
        prompt="A vinegar of **{acidity} g** of acid in 100 mL is watered down until there is "
               "**{parts} times** as much liquid. **What is the lowest pH it can have?** Work out "
               "its acid first; then the panel *When acid is tied up*, with nothing taken up, "
               "tells.",
        numbers=dict(acidity=(4, 5, 6, 8, 10), parts=(4, 5, 6, 8, 10)),
        keep=lambda acidity, parts: acidity >= parts and (2 * acidity) % parts == 0,
        model=lambda acidity, parts: _ph(acidity / parts),
        unit="pH",
        tolerance=Tolerance(0.1, "the panel shows tenths; a strip is good to half a pH at best"),
        sensible=(2.4, 2.9),
        turns=[
            Turn("the pH before", lambda acidity: _ph(acidity),
                 "That is the vinegar as it was. How much acid is in 100 mL now?"),
            Turn("the pH multiplied", lambda acidity, parts: _ph(acidity) * parts,
                 "The pH does not grow with the water. Set the panel to the acid that is left."),
            Turn("as an acid that is all set free",
                 lambda acidity, parts: _ph(acidity) + np.log10(parts),
                 "That is how a strong acid behaves. This one frees a larger share of itself when "
                 "it is thinned, so the pH moves less."),
            Turn("the limit of the law for foods", lambda: 4.6,
                 "That is the limit. Where does this vinegar stand?"),
        ],
        section=MISTAKE,
        worked=lambda acidity, parts, answer: (
            f"Acid now: {acidity} / {parts} = {acidity / parts:g} g in 100 mL. The panel: **pH "
            f"{answer:.1f}**, where it was {_ph(acidity):.1f} before. "
            "Hardly a shade on a strip, and most of the reserve is gone: that is why acid is "
            "counted."
        ),
        published=Published(
            source="Acetic acid, pKa 4.756 at 25 °C (CRC Handbook of Chemistry and Physics, from "
                   "memory): 5 g in 100 mL has pH 2.42 from the acid alone",
            numbers=dict(acidity=5, parts=1), result=2.42, within=0.005,
        ),
    ),
    Number(
        name="which-vinegar",
        step=3,
        prompt="**{mass} g** of fresh leaf, **{share} %** of it water, and room for **{volume} "
               "mL** of vinegar. **How many grams of acid in 100 mL must the vinegar have, so that "
               "4 g are left?**",
        numbers=dict(mass=(80, 100, 120, 150), share=(78, 80, 82, 85, 88),
                     volume=(250, 300, 350, 400)),
        model=lambda mass, share, volume: _needed(volume, mass * share / 100),
        unit="g per 100 mL",
        tolerance=ACID,
        sensible=(4.5, 6.3),
        turns=[
            Turn("just 4 g", lambda: LEAST,
                 "Then less than that is left: the leaf's water is still to come."),
            Turn("added what it loses",
                 lambda mass, share, volume: 2 * LEAST - _left(volume, LEAST, mass * share / 100),
                 "The stronger the vinegar, the more it loses to the same water."),
            Turn("worked out where it would end",
                 lambda mass, share, volume: _left(volume, LEAST, mass * share / 100),
                 "That is what is left of 4 g. Go the other way round."),
        ],
        section=JAR,
        worked=lambda mass, share, volume, answer: (
            f"The leaf's water: {mass} × {share} / 100 = {mass * share / 100:g} g; so "
            f"{volume + mass * share / 100:g} mL in the end.\n4 × {volume + mass * share / 100:g} "
            f"/ {volume} = **{answer:.1f} g in 100 mL**. Look for the next stronger one on the "
            "shelf, or dry the leaf."
        ),
    ),
    Number(
        name="how-much-leaf",
        step=4,
        prompt="**{volume} mL** of vinegar with **{acidity} g** of acid in 100 mL stand ready. The "
               "leaf is **{share} %** water. **How many grams of leaf may go in at most, so that 4 "
               "g of acid in 100 mL are left?**",
        numbers=dict(volume=(250, 300, 350, 400, 450), acidity=(5, 5.5, 6),
                     share=(70, 75, 78, 80, 85)),
        model=lambda volume, acidity, share: _most_water(volume, acidity) / (share / 100),
        unit="g",
        tolerance=Tolerance(3, "labels give acid to half a gram, so nobody can be "
                               "closer", percent=3),
        sensible=(60, 330),
        turns=[
            Turn("gave the water", lambda volume, acidity: _most_water(volume, acidity),
                 "So much water may come. How much leaf brings it?"),
            Turn("multiplied by the share",
                 lambda volume, acidity, share: _most_water(volume, acidity) * share / 100,
                 "The leaf is more than its water. Is the answer larger or smaller than the "
                 "water?"),
            Turn("took the liquid in the end for the leaf",
                 lambda volume, acidity: volume * acidity / LEAST,
                 "That is all the liquid at 4 g. How much of it is new?"),
        ],
        section=JAR,
        worked=lambda volume, acidity, share, answer: (
            f"All the acid, {volume * acidity / 100:g} g, is enough for {volume} × {acidity} / 4 = "
            f"{volume * acidity / LEAST:g} mL at 4 g. So {volume * acidity / LEAST:g} − {volume} = "
            f"{volume * acidity / LEAST - volume:g} g of water may come.\nThat is in "
            f"{volume * acidity / LEAST - volume:g} / {share / 100:g} = **{answer:.0f} g** of "
            "leaf; rather less, since a wet summer's leaf holds more."
        ),
    ),
    Table(
        name="jar-sheet",
        step=5,
        prompt="A jar takes **{volume} mL** of vinegar with **{acidity} g** of acid in 100 mL "
               "beside **{mass} g** of fresh leaf, **{share} %** of it water. Fill in the sheet; "
               "the last line says which vinegar would leave just 4 g.",
        numbers=dict(volume=(250, 300, 350, 400), acidity=(5, 6), mass=(80, 100, 120, 150),
                     share=(80, 82, 85, 88)),
        keep=lambda volume, acidity, mass, share: (  # no answer that rounds to the limit itself
            abs(_left(volume, acidity, mass * share / 100) - LEAST) > 0.06),
        rows=[
            Row(
                label="acid in the jar",
                model=lambda volume, acidity: hc.vinegar(volume, acidity=acidity).acetic,
                unit="g",
                tolerance=Tolerance(0.3, "labels give acid to half a gram in 100 mL"),
                sensible=(12, 25),
                turns=[Turn("the acid of 100 mL", lambda acidity: acidity,
                            "That is the acid of 100 mL. How much vinegar is in the jar?")],
            ),
            Row(
                label="water in the leaf",
                model=lambda mass, share: mass * share / 100,
                unit="g",
                tolerance=Tolerance(1, "a kitchen scale shows whole grams"),
                sensible=(60, 135),
                turns=[Turn("gave the plant", lambda mass, share: mass * (1 - share / 100),
                            "That is what would be left if it were quite dry.")],
            ),
            Row(
                label="liquid in the end",
                model=lambda volume, acidity, mass, share: (
                    hc.vinegar(volume, acidity=acidity)
                    + hc.Liquid(water=mass * share / 100)).volume,
                unit="mL",
                tolerance=Tolerance(5, "a 500 mL cylinder is marked every 5 mL"),
                sensible=(310, 540),
                turns=[
                    Turn("forgot the leaf's water", lambda volume: volume,
                         "That is what is poured. What joins it?"),
                    Turn("took all of the leaf for water", lambda volume, mass: volume + mass,
                         "Not all of the leaf is water."),
                ],
            ),
            Row(
                label="acid left",
                model=lambda volume, acidity, mass, share: _left(
                    volume, acidity, mass * share / 100),
                unit="g per 100 mL",
                tolerance=ACID,
                sensible=(3, 5.2),
                turns=[
                    Turn("the acid poured", lambda acidity: acidity,
                         "How much liquid does that acid share now?"),
                    Turn("took the leaf's water for vinegar poured off",
                         lambda volume, acidity, mass, share:
                             acidity * (volume - mass * share / 100) / volume,
                         "No acid has left the jar. What has become more?"),
                ],
            ),
            Row(
                label="acid it would need",
                model=lambda volume, mass, share: _needed(volume, mass * share / 100),
                unit="g per 100 mL",
                tolerance=ACID,
                sensible=(4.6, 6.3),
                turns=[
                    Turn("just 4 g", lambda: LEAST,
                         "Then less than that is left."),
                    Turn("added what it loses",
                         lambda volume, mass, share: (
                             2 * LEAST - _left(volume, LEAST, mass * share / 100)),
                         "The stronger the vinegar, the more it loses to the same water."),
                ],
            ),
        ],
        section=JAR,
        worked=lambda volume, acidity, mass, share, answer: (
            f"Acid: {volume} × {acidity} / 100 = **{answer['acid in the jar']:g} g**. Water: "
            f"{mass} × {share} / 100 = **{answer['water in the leaf']:.0f} g**. Liquid: {volume} + "
            f"{answer['water in the leaf']:.0f} = **{answer['liquid in the end']:.0f} mL**.\n"
            f"{answer['acid in the jar']:g} / {answer['liquid in the end']:.0f} × 100 = "
            f"**{answer['acid left']:.1f} g in 100 mL**"
            f"{', under 4 g.' if answer['acid left'] < LEAST else ', above 4 g.'}\n4 × "
            f"{answer['liquid in the end']:.0f} / {volume} = "
            f"**{answer['acid it would need']:.1f} g in 100 mL** would leave just 4 g."
        ),
    ),
    Explain(
        name="sour-enough",
        step=3,
        prompt="A neighbour has packed a jar with fresh nettle and filled it up, half with vinegar "
               "of 5 %, half with water \"so that it is not so sharp\". On the first day a strip "
               "showed 2.6 and it tasted sour. \"So it will keep till next winter,\" says the "
               "neighbour. **Explain in four or five sentences**, kindly, why that does not "
               "follow, and what to do with the jar.",
        section=MISTAKE,
        marks=4,
        rubric=[
            Point("says that water and the leaf's own water have taken away most of the acid (2.5 "
                  "g in 100 mL or less, under the 4 g of vinegar), though the pH hardly moved"),
            Point("says that the herb's minerals tie up acid in the days that follow, so the pH "
                  "rises from that of the first day"),
            Point("says that taste is no test: dip a strip again; above 4 into the refrigerator "
                  "and soon, above 4.6 thrown out"),
            Point("throws this jar out, or at the very most keeps it cold for days and tests it; "
                  "next time vinegar as it is, less or dried herb, everything under the liquid"),
        ],
        example="Half water and the nettle's own water leave 2.5 g of acid in 100 mL or less, "
                "which is no longer vinegar, and yet the pH hardly moves when vinegar is thinned. "
                "So the strip of the first day says nothing about the reserve. In the days that "
                "follow the nettle's minerals tie up acid, and with so little left the pH can pass "
                "4.6 while it still tastes sour. I would throw this jar out. Next time take the "
                "vinegar as it is, less leaf or dried leaf, push every piece under, and dip a "
                "strip after some days.",
    ),
]

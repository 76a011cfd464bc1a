"""How long will it keep: ranges, the limit that decides, dates, and what goes into the bin.

The jars are invented. Ranges are common practice or our own caution, no source; see the lesson.
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
from herbcalc.herbs import Herb
from herbcalc.keeping import (
    FOOD_WATER_ACTIVITY,
    LOW_RISK_WATER_ACTIVITY,
    glycerin_for_water_activity,
)

title = "How long will it keep"

DECIDES = "What decides"
MISTAKE = "The common mistake"
DATES = "From a date to a date"
SIGNS = "The signs of spoilage"


self_check = [
    Choice(
        name="check-which-number",
        step=1,
        prompt="A jar of **fresh** herb was filled up with spirit of 40 % vol. **Which figure says "
               "how long it keeps?**",
        options=[
            Option("the strength once the herb has given up its water",
                   "That is what anything that wants to grow meets.", right=True),
            Option("the 40 % vol on the bottle it was poured from",
                   "The label of the bottle knows nothing of the herb. What has joined the spirit "
                   "since?"),
            Option("the number of weeks it has steeped",
                   "Steeping brings the herb's water out. What does that do to the strength?"),
            Option("the average of spirit and herb's water, half each",
                   "How much is there of each? Lesson 03 has the sum."),
        ],
        section=MISTAKE,
        worked="Judge a jar by where it ends, not by what was poured: here well under 40 % vol, so "
               "it goes into the refrigerator and is used soon.",
    ),
    Number(
        name="check-use-by",
        step=2,
        prompt="A jar's range is **{low} to {high} months** in the refrigerator. How many days "
               "after it was poured do you throw it out? Count a month as 30 days.",
        numbers=dict(low=(1, 2, 3, 4, 6), high=(3, 4, 6, 8, 12)),
        keep=lambda low, high: high in (2 * low, 3 * low),
        model=lambda low: 30 * low,
        unit="days",
        tolerance=Tolerance(3, "months have 28 to 31 days, and a few days are no matter"),
        sensible=(30, 180),
        turns=[
            Turn("took the late end", lambda high: 30 * high,
                 "That is the luckiest jar. Which end of the range do you trust with your "
                 "stomach?"),
            Turn("took the middle", lambda low, high: 15 * (low + high),
                 "Half of all such jars would have gone off by the middle. Which end is the "
                 "cautious one?"),
            Turn("gave the months", lambda low: low,
                 "Those are months. How many days are they?"),
        ],
        section=DATES,
        worked=lambda low, answer: (
            f"The use-by date stands at the early end: {low} × 30 = **{answer:.0f} days**, "
            "counted from the day it was poured."
        ),
    ),
    Choices(
        name="check-into-the-bin",
        step=2,
        prompt="**Which of these go into the bin, untasted?** Pick all that do.",
        options=[
            Option("a tincture with a little fluff on one leaf that stands out", right=True),
            Option("a clear jar of herb in weak spirit, about 15 % vol, two weeks in the cupboard",
                   right=True),
            Option("a glycerin preparation with no date and no strength on it", right=True),
            Option("a lid that has begun to bulge", right=True),
            Option("a 45 % vol tincture of dried herb with some still sediment, two years old",
                   "A sediment that lies still is harmless, and that strength keeps for years. "
                   "What would have to be seen or smelled?"),
        ],
        section=SIGNS,
        worked="One sign is enough, no label is a sign, and a watery jar needs no sign at all. A "
               "still sediment in a strong tincture is none.",
    ),
]


# --- at home -------------------------------------------------------------------------------------

cautions = """
**Take care.** A range is no promise: local law and whoever is licensed to judge come before these
pages. **A watery jar with little acid, spirit or glycerin can grow what makes people very ill,
botulism among them, without any smell and without any sign.** It is drunk fresh or thrown out. If
in doubt, throw it out, and never taste to find out. If somebody feels ill after a spoiled jar
(double sight, a dry mouth, weak muscles), call the emergency number at once. Strong spirit: no
flame.
"""

LINE_OF_TIME = "One line of time"
SHELF = "At the bench: an honest shelf"

STRONG = 95  # % vol of the class's strong spirit
FOR_YEARS, FOR_FOODS = (  # share of glycerin by volume that brings the water activity there
    glycerin_for_water_activity(limit) / 100
    for limit in (LOW_RISK_WATER_ACTIVITY, FOOD_WATER_ACTIVITY))
SHRINKING = "the short sum does not count the shrinking, up to 1 % vol here"


def _at_the_end(volume, abv, grams):
    """The liquid once so many g of the herb's water have joined the spirit."""
    return hc.spirit(volume, abv) + hc.Liquid(water=grams)


def _kept(mass, share, volume, abv):
    return hc.keeping(_at_the_end(volume, abv, mass * share / 100), fresh_herb=True)


def _looks(mass, share, volume, abv):
    """How often it is looked at before the day it is thrown out; the day itself does not matter."""
    return len(_kept(mass, share, volume, abv).inspections("2027-01-14")) - 1


def _one_class(mass, share, volume, abv):
    """Whether short sum and table put the jar well inside one class below 40 % vol."""
    ends = _at_the_end(volume, abv, mass * share / 100).abv
    return any(low <= ends <= high for low, high in ((21, 28.5), (31, 38)))


def _needed(mass, share, volume, to):
    """Strength to pour, % vol, so that the jar ends at `to`."""
    return hc.spirit_for_final(Herb("leaf", "fresh", share / 100, 0.2), mass, volume, to)


def _to_add(volume, weak, strong, to):
    """mL of strong spirit that lift so many mL of weak to the strength wanted."""
    of_strong, of_weak = hc.blend_to(strong, weak, to, 100)
    return volume * of_strong / of_weak


def _by_keeping(jars):
    """The jars from the one that keeps longest to the one that keeps shortest."""
    return sorted(jars, key=lambda words: -jars[words].days[0])


SPIRIT_JAR = "dried leaf in spirit, ends at 45 % vol"
GLYCERIN_JAR = "dried leaf in glycerin 60 %, water 40 %"
VINEGAR_JAR = "dried leaf in vinegar, ends at 5 g acid in 100 mL"
WEAK_JAR = "fresh leaf in spirit, ends at 24 % vol"
WATERED_JAR = "fresh leaf in vinegar, ends at 3 g acid in 100 mL"
WINE_JAR = "fresh leaf in wine, ends at 12 % vol"

homework = [
    Choice(
        name="clear-and-fine",
        step=1,
        prompt="Fresh herb in wine and water, about **{abv} % vol** at the end, has stood in the "
               "cupboard for **{days} days**. It is clear, nothing floats, it smells of herb. "
               "**What do you do?**",
        numbers=dict(abv=(8, 10, 12, 14), days=(10, 12, 14, 18, 21)),
        options=[
            Option("throw it out, untasted",
                   "What can grow in a watery jar need neither show nor smell.", right=True),
            Option("taste a drop, and keep it if it tastes right",
                   "A drop can be enough to make somebody ill. What would the taste prove?"),
            Option("boil it up and bottle it hot",
                   "Heat does not undo all that may have grown there, and wine gives off vapour "
                   "that burns. Which of the three keepers does this jar have?"),
            Option("add strong spirit until it has 40 % vol, and keep it",
                   "Spirit keeps what is sound. What does it do to something already in there?"),
            Option("put it into the refrigerator and use it up this week",
                   "That would have been right on the first day. What has it been doing since?"),
        ],
        section=SIGNS,
        worked="No keeper, no cold, too long: it goes out, however good it looks. A clean look "
               "proves nothing; enough spirit, glycerin or acid does.",
    ),
    Number(
        name="days-after-pressing",
        step=2,
        prompt="A preparation keeps **{low} to {high} months** in the refrigerator. It steeped for "
               "**{weeks} weeks**; today it is pressed. How many days **from today** is it thrown "
               "out? Count a month as 30 days.",
        numbers=dict(low=(2, 3, 4, 6), high=(7, 8, 9, 12), weeks=(4, 5, 6)),
        model=lambda low, weeks: 30 * low - 7 * weeks,
        unit="days",
        tolerance=Tolerance(3, "months have 28 to 31 days, and a few days are no matter"),
        sensible=(15, 160),
        turns=[
            Turn("counted from the pressing", lambda low: 30 * low,
                 "On which day did the liquid go onto the herb? The clock runs since then."),
            Turn("took the late end", lambda high, weeks: 30 * high - 7 * weeks,
                 "That is the luckiest jar. Which end of the range do you trust?"),
            Turn("took the late end, from the pressing", lambda high: 30 * high,
                 "Two things: which end of the range, and since when does the clock run?"),
            Turn("added the weeks", lambda low, weeks: 30 * low + 7 * weeks,
                 "Has steeping won time, or used some up?"),
        ],
        section=DATES,
        worked=lambda low, weeks, answer: (
            f"The early end: {low} × 30 = {30 * low} days from the day it was poured.\n{weeks} × 7 "
            f"= {7 * weeks} of them are gone: **{answer:.0f} days** from today."
        ),
    ),
    Order(
        name="longest-first",
        step=2,
        prompt="Six jars, closed and clean. **Put them in order**: first the one that keeps "
               "longest, last the one that keeps shortest.",
        items=_by_keeping({
            SPIRIT_JAR: hc.keeping(hc.spirit(1, 45)),
            GLYCERIN_JAR: hc.keeping(hc.glycerin(60) + hc.water(40)),
            VINEGAR_JAR: hc.keeping(hc.vinegar(1, 5)),
            WEAK_JAR: hc.keeping(hc.spirit(1, 24), fresh_herb=True),
            WATERED_JAR: hc.keeping(hc.vinegar(1, 3), fresh_herb=True),
            WINE_JAR: hc.keeping(hc.spirit(1, 12), fresh_herb=True),
        }),
        before=[
            Before(VINEGAR_JAR, WINE_JAR,
                   "Wine has alcohol, but has it enough? And what does the other have enough of?"),
            Before(SPIRIT_JAR, GLYCERIN_JAR,
                   "Both keep for years. Of which of the two keepers do old bottles tell?"),
            Before(GLYCERIN_JAR, VINEGAR_JAR,
                   "One of the three keepers of the trade is counted in months, the other two in "
                   "years."),
            Before(WEAK_JAR, WATERED_JAR,
                   "Both are between the classes. Look at the crossed bars in the first panel."),
            Before(WATERED_JAR, WINE_JAR,
                   "Which of the two has reached a limit at all, if only a low one?"),
        ],
        section=LINE_OF_TIME,
        worked="Spirit from 40 % vol: 15 to 20 years. Glycerin with little free water: 3 to 5 "
               "years. Vinegar: 6 to 12 months. The weaker ones belong in the refrigerator, for "
               "months, for weeks, and the wine for days at most (common practice and our own "
               "caution, no source).",
    ),
    Choices(
        name="into-the-cold",
        step=2,
        prompt="Tove's jar of fresh mint ends at **{weak} % vol**, Maren's of dried thyme at "
               "**{strong} % vol**. **Which of these belong in the refrigerator?** Pick all that "
               "do.",
        numbers=dict(weak=(31, 32, 33, 34, 35, 36, 37), strong=(42, 45, 50, 55)),
        options=[
            Option("Tove's mint at {weak} % vol",
                   right=hc.keeping(hc.spirit(1, 34), fresh_herb=True).refrigerate),
            Option("Maren's thyme at {strong} % vol",
                   "Which strength, reached at the *end*, is called keeping strength?",
                   right=hc.keeping(hc.spirit(1, 42)).refrigerate),
            Option("dried herb in glycerin 45 %, water 55 %",
                   right=hc.keeping(hc.glycerin(45) + hc.water(55)).refrigerate),
            Option("dried herb in glycerin 65 %, water 35 %",
                   "How much of its water is still free? Find this share in the first panel.",
                   right=hc.keeping(hc.glycerin(65) + hc.water(35)).refrigerate),
            Option("fresh herb in raw vinegar, with the mother in it",
                   right=hc.keeping(hc.vinegar(1, 5), fresh_herb=True,
                                    raw_vinegar=True).refrigerate),
            Option("dried herb in pasteurised vinegar, 5 g acid in 100 mL at the end",
                   "How much acid does the law ask of a vinegar, and how much is here?",
                   right=hc.keeping(hc.vinegar(1, 5)).refrigerate),
        ],
        section=LINE_OF_TIME,
        worked="Everything between the classes goes into the cold: weak spirit, the trade's thin "
               "glycerin, raw vinegar on fresh herb. From 40 % vol, with little free water or with "
               "acid enough, cool and dark will do.",
    ),
    Number(
        name="enough-glycerin",
        step=3,
        prompt="Idris wants **{volume} mL** of dried herb in glycerin and water, without spirit or "
               "vinegar, in the class that keeps for **years**. How many mL of the {volume} must "
               "be glycerin, at the least? The lesson's first panel shows the share.",
        numbers=dict(volume=steps(100, 500, 25)),
        model=lambda volume: volume * FOR_YEARS,
        unit="mL",
        tolerance=Tolerance(1, "the panel goes in whole per cents, and water activity is an "
                               "estimate", percent=3),
        sensible=(50, 270),
        turns=[
            Turn("gave the water", lambda volume: volume * (1 - FOR_YEARS),
                 "That is the most that may be water. The question asks for the glycerin."),
            Turn("stopped at the limit for foods", lambda volume: volume * FOR_FOODS,
                 "That reaches the first limit, the one of the law for foods. Is the bar there "
                 "already as long as you want it?"),
            Turn("gave the grams", lambda volume: hc.glycerin(volume * FOR_YEARS).mass,
                 "So much it weighs. Glycerin is heavier than water: how many mL are that?"),
        ],
        section=LINE_OF_TIME,
        worked=lambda volume, answer: (
            f"In the panel the bar of years begins between {100 * answer / volume:.0f} and "
            f"{100 * answer / volume + 1:.0f} % of glycerin: about {volume} × "
            f"{answer / volume:.3f} = **{answer:.0f} mL**, and rather a little more. The trade's "
            "40 to 50 % lie below that: weeks to months, in the cold."
        ),
    ),
    Number(
        name="lift-it",
        step=4,
        prompt="Tove has strained **{volume} mL** of a tincture a month old, kept cold, without "
               "any sign of spoilage. It ended at **{weak} % vol**. How many mL of the strong "
               "spirit, **{strong} % vol**, must she **add** to lift it to **{to} % vol**?",
        numbers=dict(volume=steps(200, 500, 50), weak=(30, 31, 32, 33, 34, 35, 36),
                     strong=(95, 96), to=(40, 42, 45)),
        model=lambda volume, weak, strong, to: _to_add(volume, weak, strong, to),
        unit="mL",
        tolerance=Tolerance(3, "the short sum does not count the shrinking, a twentieth here, and "
                               "errs to the strong side", percent=6),
        sensible=(14, 160),
        turns=[
            Turn("only the missing per cents",
                 lambda volume, weak, strong, to: volume * (to - weak) / strong,
                 "The spirit you add becomes part of the jar, and must end at the same strength. "
                 "How much does each mL of it bring that is *left over* for the rest?"),
            Turn("in proportion to the strength",
                 lambda volume, weak, to: volume * (to / weak - 1),
                 "That would be right for adding alcohol without adding volume. Draw the cross: "
                 "how far is each of the two from the strength you want?"),
            Turn("the two distances swapped",
                 lambda volume, weak, strong, to: volume * (strong - to) / (to - weak),
                 "More of the strong than of the weak? Which of the two is nearer to where you "
                 "want to be, and of which do you need less?"),
            Turn("gave the whole",
                 lambda volume, weak, strong, to: volume + _to_add(volume, weak, strong, to),
                 "That is all of it afterwards. How much of it does she add?"),
        ],
        section=MISTAKE,
        worked=lambda volume, weak, strong, to, answer: (
            f"Each mL of hers lacks {to} − {weak} = {to - weak}; each mL of the strong spirit has "
            f"{strong} − {to} = {strong - to} to spare.\n{volume} × {to - weak} / {strong - to} = "
            f"{volume * (to - weak) / (strong - to):.0f} mL by the short sum, **{answer:.0f} mL** "
            "with the shrinking counted. It lifts what is sound; it mends nothing that is spoiled. "
            "And the label gets the new strength."
        ),
        published=Published(
            source="27 CFR 30.66, Table 6, read the other way round: 12.42 volumes of water (0 % "
                   "vol) are brought to 100 US proof, 50 % vol, by 100 volumes of 112 proof, 56 % "
                   "vol (the short sum would say 103.5)",
            numbers=dict(volume=12.42, weak=0, strong=56, to=50), result=100, within=0.1,
            note="the table is for 60 °F, the course counts at 20 °C",
        ),
    ),
    Table(
        name="shelf-card",
        step=4,
        prompt="**{mass} g** of fresh leaf, **{share} %** of it water, went into **{volume} mL** "
               "of spirit at **{abv} % vol**. Fill in the card. Count a month as 30 days; how "
               "often to look, the panel of dates says.",
        numbers=dict(mass=(80, 100, 120, 150, 180, 200), share=(75, 80, 85, 90),
                     volume=steps(250, 500, 50), abv=(40, 45)),
        keep=_one_class,
        rows=[
            Row(
                label="water from the leaf",
                model=lambda mass, share: mass * share / 100,
                unit="g",
                tolerance=Tolerance(1, "a kitchen scale shows whole grams"),
                sensible=(60, 180),
                turns=[
                    Turn("gave the dry leaf", lambda mass, share: mass * (1 - share / 100),
                         "That is the plant itself. The per cents are its water."),
                    Turn("counted all of the leaf as water", lambda mass: mass,
                         "Not all of a leaf is water."),
                ],
            ),
            Row(
                label="strength at the end",
                model=lambda mass, share, volume, abv:
                    _at_the_end(volume, abv, mass * share / 100).abv,
                unit="% vol",
                tolerance=Tolerance(1, SHRINKING),
                sensible=(20, 39),
                turns=[
                    Turn("the strength poured", lambda abv: abv,
                         "That stood on the bottle. What has joined it since?"),
                    Turn("took the dry leaf for the water",
                         lambda mass, share, volume, abv:
                             abv * volume / (volume + mass * (1 - share / 100)),
                         "Look at your first line: is that much water all that joins the spirit?"),
                ],
            ),
            Row(
                label="thrown out after",
                model=lambda mass, share, volume, abv: _kept(mass, share, volume, abv).days[0],
                unit="days",
                tolerance=Tolerance(2, "months have 28 to 31 days", percent=3),
                sensible=(25, 200),
                turns=[
                    Turn("judged by what was poured",
                         lambda abv: hc.keeping(hc.spirit(1, abv)).days[0],
                         "Years? A jar is judged by where it *ends*."),
                    Turn("took the late end",
                         lambda mass, share, volume, abv: _kept(mass, share, volume, abv).days[1],
                         "That is the luckiest jar. Which end of the range counts?"),
                    Turn("took the other class of weak spirit",
                         lambda mass, share, volume, abv:
                             {180: 30, 30: 180}[_kept(mass, share, volume, abv).days[0]],
                         "Between 20 and 40 % vol there are two classes. On which side of thirty "
                         "does this jar end?"),
                ],
            ),
            Row(
                label="looks before that",
                model=_looks,
                unit="times",
                tolerance=Tolerance(0.3, "they are counted"),
                sensible=(4, 8),
                turns=[Turn("counted the last day as well",
                            lambda mass, share, volume, abv: 1 + _looks(mass, share, volume, abv),
                            "On the last of those days it is thrown out, not looked at.")],
            ),
        ],
        section=SHELF,
        worked=lambda mass, share, volume, abv, answer: (
            f"Water: {mass} × {share} / 100 = **{answer['water from the leaf']:.0f} g**.\nEnd: "
            f"{abv} × {volume} / ({volume} + {answer['water from the leaf']:.0f}), about "
            f"**{answer['strength at the end']:.0f} % vol**.\nThat is the class of "
            f"{_kept(mass, share, volume, abv).range}: thrown out after "
            f"**{answer['thrown out after']:.0f} days**, and looked at "
            f"**{answer['looks before that']:.0f} times** before, often at first. By the bottle "
            "you would have counted in years."
        ),
    ),
    Number(
        name="the-next-jar",
        step=5,
        prompt="The next jar is to **end** at **{to} % vol**. It takes **{mass} g** of fresh leaf, "
               "**{share} %** of it water, and **{volume} mL** of a spirit that you mix from the "
               "strong one, 95 % vol, and water. How many mL of the **strong spirit** do you "
               "measure before you fill up with water to the {volume} mL mark?",
        numbers=dict(mass=(120, 150, 180, 200), share=(75, 78, 80, 85, 90),
                     volume=steps(200, 350, 25), to=(40, 42, 45)),
        keep=lambda mass, share, volume: 0.45 <= mass * share / 100 / volume <= 0.6,
        model=lambda mass, share, volume, to:
            hc.make_up(volume, STRONG, _needed(mass, share, volume, to))[0],
        unit="mL",
        tolerance=Tolerance(2, "a 500 mL cylinder is marked every 5 mL; the short sum is 1 to 2 % "
                               "off", percent=2),
        sensible=(120, 330),
        turns=[
            Turn("mixed as if the leaf were dry",
                 lambda volume, to: hc.make_up(volume, STRONG, to)[0],
                 "So it stands when it is poured. What joins it in the jar?"),
            Turn("put the lost per cents on top",
                 lambda mass, share, volume, to: hc.make_up(
                     volume, STRONG, 2 * to - to * volume / (volume + mass * share / 100))[0],
                 "You took what a weaker jar loses and put it on top. A stronger spirit loses "
                 "more: count the alcohol that must be in *all* of the liquid at the end."),
            Turn("took the strong spirit for pure alcohol",
                 lambda mass, share, volume, to:
                     _needed(mass, share, volume, to) / 100 * volume,
                 "That many mL of pure alcohol. Your strong spirit is a little water too."),
            Turn("gave the water",
                 lambda mass, share, volume, to:
                     hc.make_up(volume, STRONG, _needed(mass, share, volume, to))[1],
                 "That is what the mark takes in water. The question asks for the spirit."),
        ],
        section=MISTAKE,
        worked=lambda mass, share, volume, to, answer: (
            f"Water from the leaf: {mass} × {share} / 100 = {mass * share / 100:.0f} g, so in the "
            f"end {volume} + {mass * share / 100:.0f} = {volume + mass * share / 100:.0f} mL.\n"
            f"Alcohol in it: {volume + mass * share / 100:.0f} × {to} / 100 = "
            f"{(volume + mass * share / 100) * to / 100:.0f} mL, all from your {volume} mL: they "
            f"must have about {_needed(mass, share, volume, to):.0f} % vol.\nStrong spirit: "
            f"{(volume + mass * share / 100) * to / 100:.0f} / 0.95 = "
            f"{(volume + mass * share / 100) * to / STRONG:.0f} mL, **{answer:.0f} mL** with the "
            "shrinking counted. No flame while it stands open."
        ),
    ),
    Explain(
        name="three-keepers",
        step=3,
        prompt="A cousin pours 150 mL of spirit at 40 % vol, 100 mL of glycerin and 150 mL of "
               "vinegar (5 g acid in 100 mL) on dried herb: \"Three keepers, so it keeps three "
               "times as long.\" **Explain in four or five sentences** where each of the three "
               "ends (two short sums are enough), what decides, where the jar belongs, and how "
               "your cousin could have done it.",
        section=DECIDES,
        marks=4,
        rubric=[
            Point("counts: about 15 % vol (150 × 40 / 400), 25 % glycerin, under 2 g acid in 100 "
                  "mL; at least two of them"),
            Point("each thins the others; none reaches its limit for years or months"),
            Point("the best one alone counts, they do not add up; so the refrigerator, weeks at "
                  "most"),
            Point("one keeper and enough of it: spirit so that it ends at 40 % vol, more than half "
                  "glycerin, or vinegar alone"),
        ],
        example="In 400 mL the spirit is down to 150 × 40 / 400, that is 15 % vol, the glycerin to "
                "25 % and the acid to less than 2 g in 100 mL, because each of the three waters "
                "down the other two. None of them reaches its limit, and three half-measures do "
                "not add up to a whole: only the best of them counts, here the bound water, and "
                "that is good for a few weeks. So the jar belongs in the refrigerator and is "
                "thrown out at the early end. With spirit alone it would have kept for years, with "
                "vinegar alone for months.",
    ),
    Function(
        name="write-where-it-ends",
        step=3,
        prompt="Write a function that tells how strong a jar ends, by the short sum. With {volume} "
               "mL of spirit at {abv} % vol on {mass} g of herb, {share} % of it water, it is "
               "called as `answer({volume}, {abv}, {mass}, {share})`, and it must work for other "
               "numbers too.",
        numbers=dict(volume=steps(250, 500, 50), abv=(40, 45, 50, 60), mass=(80, 100, 120, 150),
                     share=(75, 80, 85, 90)),
        model=lambda volume, abv, mass, share: abv * volume / (volume + mass * share / 100),
        unit="% vol",
        tolerance=Tolerance(0.5, "the short sum and the panel, which counts the shrinking, differ "
                                 "by less in most jars", percent=1.5),
        sensible=(20, 60),
        turns=[
            Turn("took the herb's weight off the per cents",
                 lambda volume, abv, mass, share: abv * (1 - mass * share / 100 / volume),
                 "The water joins the spirit: in how much liquid is the alcohol at the end?"),
            Turn("counted the plant and left out its water",
                 lambda volume, abv, mass, share:
                     abv * volume / (volume + mass * (1 - share / 100)),
                 "The share is the water. Which part of the herb joins the spirit?"),
        ],
        section=MISTAKE,
        worked="`return abv * volume / (volume + mass * share / 100)`.",
    ),
]

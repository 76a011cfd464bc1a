"""Which liquid for which constituent: a line, its limits, and the trade's rules beside it.

The line is that of Li & Yalkowsky (1998, from memory), log Kow from SYRRES as the package chemicals
gives it; the trade's rules are common practice, no source. Herbs' weights are invented.
"""

import numpy as np

import herbcalc as hc
from herbcalc.choosing import MOST_MARKS, kinds, liquids
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

title = "Which liquid"

SEE_SAW = "Oil or water"
LINE = "One line, and how far to trust it"
CHOOSE = "Weigh your herb"

_LOG_KOW = {name: hc.constituent(name).log_kow for name in ("menthol", "eugenol", "vanillin")}


self_check = [
    Choice(
        name="check-log-kow",
        step=1,
        prompt="Two constituents: one has a log Kow of **+3.3**, the other of **−3**. **Which "
               "liquid suits which?**",
        options=[
            Option("strong spirit for +3.3, water for −3",
                   "Plus means it would rather be in oil, and spirit is the more oil-like of the "
                   "two.", right=True),
            Option("water for +3.3, strong spirit for −3",
                   "Where would +3.3 go if you shook it with oil and water? Which of your liquids "
                   "is the nearest to oil?"),
            Option("strong spirit for both, only more for one",
                   "Look at sugar in the see-saw. What happens to its bar as the spirit gets "
                   "stronger?"),
            Option("it does not matter, given time",
                   "Time decides how fast it goes, not how much the liquid can hold."),
        ],
        section=SEE_SAW,
        worked=lambda: (
            f"In 60 % spirit +3.3 dissolves about "
            f"{float(f'{hc.solubility_gain(3.3, hc.spirit(1, abv=60)):.0e}'):.0f} times as well as "
            f"in water, and −3 only about 1/"
            f"{float(f'{1 / hc.solubility_gain(-3.0, hc.spirit(1, abv=60)):.0e}'):.0f} as well."
        ),
    ),
    Number(
        name="check-how-many-times",
        step=3,
        prompt=lambda name, strength: (
            f"The log Kow of **{name}** is {_LOG_KOW[name]:.2f}. By the line, how many times as "
            f"well as in water does it dissolve in spirit of **{strength} % vol**?"),
        numbers=dict(name=tuple(_LOG_KOW), strength=(20, 40, 60)),
        model=lambda name, strength: float(
            hc.solubility_gain(_LOG_KOW[name], hc.spirit(1, abv=strength))),
        unit="times",
        tolerance=Tolerance(0.2, "the line is good to a factor of 3: two digits are plenty",
                            percent=8),
        sensible=(1.3, 200),
        turns=[
            Turn("stopped at the exponent",
                 lambda name, strength: strength / 100 * (0.95 * _LOG_KOW[name] + 0.30),
                 "That is the number of steps of ten. How many times is that?"),
            Turn("as if the spirit were pure",
                 lambda name: 10 ** (0.95 * _LOG_KOW[name] + 0.30),
                 "That would be pure alcohol. Which share of your liquid is alcohol?"),
            Turn("took the share off the result",
                 lambda name, strength: strength / 100 * 10 ** (0.95 * _LOG_KOW[name] + 0.30),
                 "The share belongs in the exponent: on a log scale the line is straight, on a "
                 "plain one it is not."),
        ],
        section=LINE,
        worked=lambda name, strength, answer: (
            f"Steps of ten: {strength / 100:g} × (0.95 × {_LOG_KOW[name]:.2f} + 0.30) = "
            f"{strength / 100 * (0.95 * _LOG_KOW[name] + 0.30):.2f}.\n10 to that power is "
            f"**{float(f'{answer:.2g}'):g} times**, give or take a factor of 3."
        ),
    ),
    Choices(
        name="check-blind",
        step=2,
        prompt="**Where must you not ask the line,** but the trade's rule or somebody who knows? "
               "Pick all.",
        options=[
            Option("minerals of nettle", right=True),
            Option("the slime of marshmallow root", right=True),
            Option("an alkaloid in a liquid with vinegar in it", right=True),
            Option("menthol in 50 % spirit",
                   "One small molecule, no salt, between 20 and 80 % vol: what more could a line "
                   "ask for?"),
            Option("camphor in 60 % spirit",
                   "A small oil-loving molecule in middling spirit. Is it a salt, a long chain or "
                   "a mixture?"),
        ],
        section=CHOOSE,
        worked="The line knows single small molecules that are not salts. Minerals are salts, "
               "slime is a long chain, and acid makes an alkaloid a salt.",
    ),
]


# --- at home -------------------------------------------------------------------------------------

cautions = """
**Take care.** These sums say how much of something a liquid *can* hold. They do not say that it is
wanted, or that it agrees with anyone: many of the strongest plant poisons dissolve very well. Which
constituents matter in a herb is a question for a licensed herbal practitioner; anyone who is
pregnant or breastfeeding, takes medicines or has an allergy asks first. If you pour for real: only
plants you surely know and may swallow, only spirit sold for drinking, stove out, no flame.
"""

DISAGREE = "Where they disagree, and why"
MISTAKE = "The common mistake"

LINE_IS_ROUGH = Tolerance(
    0.1, "the line is good to a factor of 3: two digits are plenty", percent=8)

# How many mL of water, and of alcohol of 95 % vol, dissolve 1 g: Merck Index and US Pharmacopeia,
# from memory. That each lies within a factor of 3 of the line is the check on both.
_HANDBOOK = {"camphor": (800, 1), "thymol": (1000, 1), "gallic acid": (87, 6),
             "caffeine": (46, 66), "salicin": (23, 90)}
_HELD_TOGETHER = {"middling spirit": "middling spirit (60 % vol)",
                  "strong spirit": "strong spirit (90 % vol)",
                  "glycerin": "glycerin (half and half)"}
_FRESH = {"peppermint": "menthol", "thyme": "thymol", "rosemary": "camphor"}


def _log_kow(name):
    return hc.constituent(name).log_kow


def _written(number):
    """Two decimals, with a real minus sign, as in the lesson."""
    return f"{number:.2f}".replace("-", "−")


def _summed(number):
    """The same inside a sum: a minus in brackets."""
    return f"({_written(number)})" if number < 0 else _written(number)


def _about(number, digits=2):
    """So many digits, written out."""
    return f"{float(f'{number:.{digits}g}'):g}"


def _steps(log_kow, strength=100):
    """Steps of ten above water, by hand: the line of Li & Yalkowsky."""
    return strength / 100 * (0.95 * log_kow + 0.30)


_SEE_SAW = {name: f"{name} of {plant}, log Kow {_written(_log_kow(name))}" for name, plant in (
    ("limonene", "dill"), ("menthol", "peppermint"), ("vanillin", "vanilla"), ("caffeine", "tea"),
    ("salicin", "willow bark"), ("sucrose", "a root"))}


def _gain(log_kow, strength):
    return float(hc.solubility_gain(log_kow, hc.spirit(1, abv=strength)))


def _mark(kind, liquid):
    """The trade's mark, 0 to 3, of a liquid for a kind of constituent."""
    return next(k for k in kinds() if k.name == kind).marks[list(liquids()).index(liquid)]


def _marks(label):
    liquid = _HELD_TOGETHER[label]
    return f"oils {_mark('aromatic oils', liquid)}, tannins {_mark('tannins', liquid)}"


def _share(liquid, oils, tannins):
    """What a herb of oils and tannins makes of a liquid, % of full marks, by the trade's rules."""
    marks = oils * _mark("aromatic oils", liquid) + tannins * _mark("tannins", liquid)
    return 100 * marks / (oils + tannins) / MOST_MARKS


def _liquid_row(label, liquid):
    return Row(
        label=label,
        model=lambda oils, tannins: _share(liquid, oils, tannins),
        unit="%",
        tolerance=Tolerance(1, "rounded to whole per cent; a mark is a judgement, no measurement"),
        sensible=(10, 95),
        turns=[
            Turn("the marks without the weights", lambda: _share(liquid, 1, 1),
                 "That counts both kinds alike. How often does each mark count in this herb?"),
            Turn("forgot that full marks are three",
                 lambda oils, tannins: MOST_MARKS * _share(liquid, oils, tannins),
                 "A liquid with the best mark for both would come out far above a hundred. What is "
                 "the full mark?"),
        ],
    )


def _off(name):
    """How far line and handbook are apart: the larger over the smaller."""
    water, alcohol = _HANDBOOK[name]
    ratio = _gain(_log_kow(name), 95) * alcohol / water
    return max(ratio, 1 / ratio)


def _water_of(plant):
    """Share of water in the fresh plant, whole per cent."""
    return round(100 * hc.herb(plant, "fresh").water)


def _jar(plant, mass, volume, abv):
    """The liquid once the fresh herb has given up its water."""
    return hc.spirit(volume, abv) + hc.water(mass * _water_of(plant) / 100)


homework = [
    Number(
        name="oil-and-water",
        step=1,
        prompt=lambda name: (
            f"The log Kow of **{name}** is **{_written(_log_kow(name))}**. Oil and water are "
            "shaken with a little of it and left to part. How many times as much is in a mL of the "
            "oil as in a mL of the water?\n\nOn a calculator it is the key 10ˣ."),
        numbers=dict(name=("vanillin", "coumarin", "cinnamaldehyde", "eugenol", "camphor",
                           "carvone", "linalool", "menthol")),
        model=lambda name: 10 ** _log_kow(name),
        unit="times",
        tolerance=Tolerance(0.3, "a log Kow is given in hundredths, and one hundredth is 2 %",
                            percent=5),
        sensible=(10, 3000),
        turns=[
            Turn("took the log for the number", lambda name: _log_kow(name),
                 "That is the log: it counts steps of ten. How much is so many steps of ten?"),
            Turn("ten times the log", lambda name: 10 * _log_kow(name),
                 "Each step multiplies by ten; they are not added up. What would a log of two be?"),
            Turn("the wrong key", lambda name: np.exp(_log_kow(name)),
                 "That is the key eˣ. Chemists count log Kow in steps of ten."),
        ],
        section=SEE_SAW,
        worked=lambda name, answer: (
            f"10 to the power {_written(_log_kow(name))} is about **{_about(answer)} times**. A "
            "log of 2 would be a hundred times, of 3 a thousand: it must lie between the two whole "
            "steps next to it."
        ),
    ),
    Choice(
        name="worse-than-water",
        step=1,
        prompt="Spirit of **{strength} % vol** stands before you. By the line, which of these does "
               "it dissolve **worse** than plain water does?",
        numbers=dict(strength=steps(25, 60, 5)),
        options=[
            Option(f"the sugar of a root, log Kow {_written(_log_kow('sucrose'))}",
                   "A log Kow far below zero means at home in water; spirit drives it out.",
                   right=True),
            Option(f"menthol of peppermint, log Kow {_written(_log_kow('menthol'))}",
                   "Far above zero: where would it go if it were shaken with oil and water? And is "
                   "spirit more like oil, or less, than water is?"),
            Option(f"eugenol of clove, log Kow {_written(_log_kow('eugenol'))}",
                   "A clove smells so strongly because of an oil. Which liquid is the nearest to "
                   "oil?"),
            Option(f"vanillin of vanilla, log Kow {_written(_log_kow('vanillin'))}",
                   "It is no great lover of oil, but on which side of zero does it lie?"),
        ],
        section=SEE_SAW,
        worked=lambda strength: (
            f"For sugar the line gives {strength / 100:g} × (0.95 × "
            f"{_summed(_log_kow('sucrose'))} + 0.30) = "
            f"{_written(_steps(_log_kow('sucrose'), strength))} steps of ten: a minus, so less "
            "than in water. The other three have a plus."
        ),
    ),
    Order(
        name="along-the-see-saw",
        step=2,
        prompt="Water is made into spirit of **{strength} % vol**. **Put these in order**: first "
               "what it lifts most, last what it drops most.",
        numbers=dict(strength=(40, 50, 60, 70, 80)),
        items=list(_SEE_SAW.values()),
        before=[
            Before(_SEE_SAW["limonene"], _SEE_SAW["sucrose"],
                   "A large number is not enough: look at its sign. On which end of the see-saw "
                   "does a minus sit?"),
            Before(_SEE_SAW["salicin"], _SEE_SAW["sucrose"],
                   "Both have a minus. Which of the two is further below zero, and so more at home "
                   "in water?"),
            Before(_SEE_SAW["caffeine"], _SEE_SAW["salicin"],
                   "Caffeine hardly moves on the see-saw. Does the other one go up or down?"),
            Before(_SEE_SAW["menthol"], _SEE_SAW["caffeine"],
                   "One of these is at home in oil and the other nearly as much in both. Which "
                   "gains more from spirit?"),
        ],
        section=SEE_SAW,
        worked="From the largest log Kow down, the signs counted: the more oil-loving, the more a "
               "spirit lifts it. Caffeine hardly moves; salicin and sugar go down.",
    ),
    Number(
        name="what-is-left",
        step=2,
        prompt=lambda name, strength: (
            f"The log Kow of **{name}** is **{_written(_log_kow(name))}**. By the line, how much "
            f"of what water can dissolve of it does spirit of **{strength} % vol** dissolve? "
            "Answer in per cent, with water as 100 %. (The line's formula stands under *Why* in "
            "the lesson.)"),
        numbers=dict(name=("salicin", "arbutin", "ascorbic acid"),
                     strength=steps(20, 75, 5)),
        model=lambda name, strength: 100 * _gain(_log_kow(name), strength),
        unit="%",
        tolerance=Tolerance(0.5, "the line is good to a factor of 3: two digits are plenty",
                            percent=5),
        sensible=(5, 70),
        turns=[
            Turn("lost the minus", lambda name, strength:
                 100 * 10 ** _steps(abs(_log_kow(name)), strength),
                 "That is better than water. Was the log Kow above or below zero?"),
            Turn("stopped at the exponent", lambda name, strength: _steps(_log_kow(name), strength),
                 "Those are steps of ten, downwards. What does ten to a power below zero give?"),
            Turn("left out the 0.30", lambda name, strength:
                 100 * 10 ** (strength / 100 * 0.95 * _log_kow(name)),
                 "The line does not start at nothing: which part of it does not hang on log Kow?"),
            Turn("as if the spirit were pure", lambda name: 100 * 10 ** _steps(_log_kow(name)),
                 "That would be pure alcohol. Which share of your liquid is alcohol?"),
        ],
        section=LINE,
        worked=lambda name, strength, answer: (
            f"Steps of ten: {strength / 100:g} × (0.95 × {_summed(_log_kow(name))} + 0.30) = "
            f"{_written(_steps(_log_kow(name), strength))}.\n10 to that power is "
            f"{answer / 100:.2g}, so about **{_about(answer)} %** of what water holds, give or "
            "take a factor of 3. That is why the trade takes water or weak spirit for it."
        ),
    ),
    Choices(
        name="what-follows",
        step=2,
        prompt=lambda strength: (
            f"By the line, spirit of **{strength} % vol** dissolves menthol about "
            f"**{_about(_gain(3.40, strength))} times** as well as water does. **What follows from "
            "that?** Pick all that does."),
        numbers=dict(strength=(20, 25, 30, 35, 40)),
        options=[
            Option("it may well be three times that, or a third of it", right=True),
            Option(lambda strength:
                   f"by the same line it is about {_about(_gain(3.40, 2 * strength))} times at "
                   f"twice the strength, {2 * strength} % vol", right=True),
            Option("for plain water the line says 1 times: no better and no worse", right=True),
            Option(lambda strength:
                   f"by the same line it is about {_about(2 * _gain(3.40, strength))} times at "
                   f"twice the strength, {2 * strength} % vol",
                   "Each bit of strength multiplies, it does not add. Going the same way once "
                   "more, by which factor does it rise again?"),
            Option("menthol comes out of the leaf so many times as fast",
                   "The line says how much the liquid can hold. What does it say about time?"),
            Option("a tincture made with it holds so many times as much menthol as the leaf did",
                   "No liquid draws more out than is in. What is the number compared with: the "
                   "leaf, or water?"),
        ],
        section=LINE,
        worked=lambda strength: (
            f"The same step up multiplies by the same factor: {_about(_gain(3.40, strength))} "
            f"times, then once more, {_about(_gain(3.40, 2 * strength))} times. It is a figure for "
            "what the liquid can hold, against water, good to a factor of 3: nothing about speed, "
            "and nothing about how much the leaf has to give."
        ),
    ),
    Number(
        name="a-stronger-spirit",
        step=3,
        prompt="Something in your herb has a log Kow of **{log_kow}**. So far you have used spirit "
               "of **{weak} % vol**; now you think of **{strong} % vol**. By the line, how many "
               "times as well as the **weaker spirit** does the stronger one dissolve it?",
        numbers=dict(log_kow=(1.2, 1.5, 1.9, 2.3, 2.7, 3.0, 3.3), weak=(20, 25, 30, 40),
                     strong=(45, 50, 55, 60, 70)),
        model=lambda log_kow, weak, strong: _gain(log_kow, strong) / _gain(log_kow, weak),
        unit="times",
        tolerance=LINE_IS_ROUGH,
        sensible=(1.4, 60),
        turns=[
            Turn("counted from water", lambda log_kow, strong: _gain(log_kow, strong),
                 "That is against water. You start from a spirit that already dissolves it better "
                 "than water does."),
            Turn("stopped at the exponent", lambda log_kow, weak, strong:
                 _steps(log_kow, strong - weak),
                 "That is the number of steps of ten between the two. How many times is that?"),
            Turn("one strength by the other", lambda weak, strong: strong / weak,
                 "So many times stronger is the spirit. But on this line each per cent multiplies: "
                 "how many steps of ten lie between the two?"),
        ],
        section=LINE,
        worked=lambda log_kow, weak, strong, answer: (
            f"Only the way from the one to the other counts: ({strong} − {weak}) / 100 × (0.95 × "
            f"{log_kow} + 0.30) = {_steps(log_kow, strong - weak):.2f} steps of ten.\n10 to that "
            f"power is **{_about(answer)} times**, give or take a factor of 3."
        ),
        published=Published(
            source="Li & Yalkowsky, Ind. Eng. Chem. Res. 37 (1998) 4470, from memory: pure ethanol "
                   "lies 0.95 log Kow + 0.30 steps of ten above water; for log Kow 2 that is 2.20, "
                   "so 1.10 for half ethanol, and 10 to that power is 12.6",
            numbers=dict(log_kow=2, weak=0, strong=50), result=12.6, within=0.05,
        ),
    ),
    Table(
        name="weigh-a-herb",
        step=3,
        prompt="Somebody weighs a herb: **aromatic oils {oils}**, **tannins {tannins}**, nothing "
               "else (weights invented). The trade's marks, from 0 to 3 (common practice, no "
               "source):\n\n"
               "- middling spirit: " + _marks("middling spirit") + "\n"
               "- strong spirit: " + _marks("strong spirit") + "\n"
               "- glycerin, half and half: " + _marks("glycerin") + "\n\n"
               "How much of the full marks does each liquid reach, in per cent? Weigh the marks: "
               "a weight of 4 counts four times.",
        numbers=dict(oils=(1, 2, 3, 4, 5), tannins=(1, 2, 3, 4, 5)),
        rows=[_liquid_row(label, liquid) for label, liquid in _HELD_TOGETHER.items()],
        section=CHOOSE,
        worked=lambda oils, tannins, answer: (
            f"Full marks would be 3 × ({oils} + {tannins}) = {3 * (oils + tannins)}.\n"
            + "\n".join(
                f"{label.capitalize()}: ({oils} × {_mark('aromatic oils', liquid)} + {tannins} × "
                f"{_mark('tannins', liquid)}) / {3 * (oils + tannins)} × 100 = "
                f"**{answer[label]:.0f} %**."
                for label, liquid in _HELD_TOGETHER.items())
            + "\nAnd before you choose: which of them keeps, and at what strength does the jar end?"
        ),
    ),
    Number(
        name="against-a-handbook",
        step=4,
        prompt=lambda name: (
            f"A chemist's handbook says: 1 g of **{name}** dissolves in **{_HANDBOOK[name][0]} "
            f"mL** of water, or in **{_HANDBOOK[name][1]} mL** of alcohol of 95 % vol (figures "
            f"from memory; an example for counting). Its log Kow is {_written(_log_kow(name))}. By "
            "how many times does the **line** miss the handbook? Answer with the larger divided by "
            "the smaller: 1 would be no miss at all."),
        numbers=dict(name=tuple(_HANDBOOK)),
        model=lambda name: _off(name),
        unit="times",
        tolerance=Tolerance(0.02, "steps of ten rounded to two decimals shift it by 1 %, a log Kow "
                                  "given in hundredths by 2 %", percent=5),
        sensible=(1, 3),
        turns=[
            Turn("stopped at the line", lambda name: _gain(_log_kow(name), 95),
                 "That is what the line says. What does the handbook say, and how far are the two "
                 "apart?"),
            Turn("stopped at the handbook", lambda name: _HANDBOOK[name][0] / _HANDBOOK[name][1],
                 "That is what the handbook says. What does the line say, and how far are the two "
                 "apart?"),
            Turn("took the mL for what dissolves",
                 lambda name: max(_gain(_log_kow(name), 95) * _HANDBOOK[name][0]
                                  / _HANDBOOK[name][1], _HANDBOOK[name][1] / _HANDBOOK[name][0]
                                  / _gain(_log_kow(name), 95)),
                 "The fewer mL a gram needs, the better it dissolves. Which of the two volumes "
                 "stands on top?"),
            Turn("took the one off the other",
                 lambda name: abs(_gain(_log_kow(name), 95)
                                  - _HANDBOOK[name][0] / _HANDBOOK[name][1]),
                 "*By how many times* asks for one divided by the other."),
        ],
        section=LINE,
        worked=lambda name, answer: (
            f"Handbook: {_HANDBOOK[name][0]} / {_HANDBOOK[name][1]} = "
            f"{_about(_HANDBOOK[name][0] / _HANDBOOK[name][1], 3)} times as well as in "
            f"water.\nLine: 0.95 × (0.95 × {_summed(_log_kow(name))} + 0.30) = "
            f"{_written(_steps(_log_kow(name), 95))} steps of ten, "
            f"{_about(_gain(_log_kow(name), 95), 3)} times.\nThe larger over the smaller: "
            f"**{answer:.2f} times**, inside the factor of 3 that we allow the line."
        ),
    ),
    Number(
        name="the-finished-jar",
        step=5,
        prompt=lambda plant, mass, volume, abv: (
            f"Idris pours **{volume} mL** of spirit at **{abv} % vol** on **{mass} g** of fresh "
            f"**{plant}**, which is {_water_of(plant)} % water. When the leaf has given up its "
            f"water: by the line, how many times as well as water does the liquid **then** "
            f"dissolve {_FRESH[plant]} (log Kow {_written(_log_kow(_FRESH[plant]))})?\n\nTake the "
            "short sum of lesson 03 for the strength at the end."),
        numbers=dict(plant=tuple(_FRESH), mass=(80, 100, 120, 150), volume=steps(200, 400, 50),
                     abv=(40, 45, 50, 55, 60)),
        model=lambda plant, mass, volume, abv:
            float(hc.solubility_gain(_log_kow(_FRESH[plant]), _jar(plant, mass, volume, abv))),
        unit="times",
        tolerance=Tolerance(0.2, "the short sum does not count the shrinking, up to 1 % vol at the "
                                 "end, and that is a tenth here", percent=10),
        sensible=(2, 150),
        turns=[
            Turn("the strength poured", lambda plant, abv: _gain(_log_kow(_FRESH[plant]), abv),
                 "That is the liquid on the day it was poured. What has the leaf brought into it "
                 "since?"),
            Turn("stopped at the exponent", lambda plant, mass, volume, abv:
                 _steps(_log_kow(_FRESH[plant]), _jar(plant, mass, volume, abv).abv),
                 "Those are the steps of ten. How many times is that?"),
            Turn("took the dry part for the water", lambda plant, mass, volume, abv:
                 _gain(_log_kow(_FRESH[plant]), abv * volume
                       / (volume + mass * (1 - _water_of(plant) / 100))),
                 "Only so little water in a fresh leaf? Which part of it is water, and which is "
                 "plant?"),
            Turn("took the share off the result", lambda plant, mass, volume, abv:
                 _jar(plant, mass, volume, abv).abv / 100 * 10 ** _steps(_log_kow(_FRESH[plant])),
                 "The share of alcohol belongs in the exponent: the line is straight on a scale of "
                 "tens only."),
        ],
        section=MISTAKE,
        worked=lambda plant, mass, volume, abv, answer: (
            f"Water from the leaf: {mass} × {_water_of(plant) / 100:g} = "
            f"{mass * _water_of(plant) / 100:.0f} g. Strength at the end: {abv} × {volume} / "
            f"({volume} + {mass * _water_of(plant) / 100:.0f}), about "
            f"{_jar(plant, mass, volume, abv).abv:.0f} % vol.\nSteps of ten: "
            f"{_jar(plant, mass, volume, abv).abv / 100:.2f} × (0.95 × "
            f"{_written(_log_kow(_FRESH[plant]))} + 0.30) = "
            f"{_steps(_log_kow(_FRESH[plant]), _jar(plant, mass, volume, abv).abv):.2f}.\n10 to "
            f"that power: about **{_about(answer)} times**, give or take a factor of 3. As poured "
            f"it would have been {_about(_gain(_log_kow(_FRESH[plant]), abv))} times: the leaf's "
            "water counts for the keeping, and for this too."
        ),
    ),
    Explain(
        name="strongest-for-all",
        step=3,
        prompt="A friend has read that resins want strong spirit, buys 95 % vol and means to put "
               "everything into it: marshmallow root, nettle leaf, propolis. **Explain in four or "
               "five sentences** for which of the three it suits and for which not, what the trade "
               "would take there and why, and one thing the line cannot tell about any of them.",
        section=DISAGREE,
        marks=4,
        rubric=[
            Point("propolis (resin): strong spirit suits; water drops it"),
            Point("marshmallow root (mucilage): cold water; spirit makes the slime clump"),
            Point("nettle (minerals, salts): vinegar; its acid frees what water leaves"),
            Point("names a limit of the line: no salts, long chains or mixtures; no speed; not "
                  "whether it is wanted or safe"),
        ],
        example="Strong spirit is right for propolis, because resins dissolve in it and drop out "
                "when water comes. Marshmallow root is picked for its slime, a long chain of "
                "sugars that swells in cold water and clumps in spirit, so the trade takes cold "
                "water, fresh each time, because it does not keep. Nettle is picked for minerals, "
                "which are salts: vinegar frees them better than any spirit. The line helps with "
                "none of the three, since it knows only single small molecules that are no salts, "
                "and it never says whether something is wanted or safe.",
    ),
    Function(
        name="write-the-line",
        step=3,
        prompt="Write a function that tells how many times as well as water a spirit dissolves "
               "something. With log Kow {log_kow} and {strength} % vol it is called as "
               "`answer({log_kow}, {strength})`, and it must work for other numbers too.",
        numbers=dict(log_kow=steps(-2, 3.5, 0.5), strength=steps(10, 90, 10)),
        model=_gain,
        unit="times",
        tolerance=Tolerance(0.001, "worked out by the machine, nothing is rounded on the way",
                            percent=2),
        sensible=(0.01, 2500),
        turns=[
            Turn("stopped at the exponent", _steps,
                 "Those are the steps of ten. How many times is that?"),
            Turn("took the share off the result", lambda log_kow, strength:
                 strength / 100 * 10 ** _steps(log_kow),
                 "The share of alcohol belongs in the exponent."),
        ],
        section=LINE,
        worked="`return 10 ** (strength / 100 * (0.95 * log_kow + 0.30))`.",
    ),
]

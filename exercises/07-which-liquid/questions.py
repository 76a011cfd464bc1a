"""Which liquid for which constituent: a line, its limits, and the trade's rules beside it.

The line is that of Li & Yalkowsky (1998, from memory), log Kow from SYRRES as the package chemicals
gives it; the trade's rules are common practice, no source. Herbs' weights are invented.
"""

import herbcalc as hc
from herbcalc.classroom import Choice, Choices, Number, Option, Tolerance, Turn

title = "Which liquid"

SEE_SAW = "Oil or water"
LINE = "One line, and how far to trust it"
CHOOSE = "Weigh your herb"

_LOG_KOW = {name: hc.constituent(name).log_kow for name in ("menthol", "eugenol", "vanillin")}


self_check = [
    Choice(
        name="check-log-kow",
        step=1,
        prompt="Two constituents: one has a log Kow of **+3.3**, the other of **−3**. **Which liquid "
               "suits which?**",
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
            f"**{answer:.2g} times**, give or take a factor of 3."
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
        worked="The line knows single small molecules that are not salts. Minerals are salts, slime "
               "is a long chain, and acid makes an alkaloid a salt.",
    ),
]

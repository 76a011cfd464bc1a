"""How long will it keep: ranges, the limit that decides, dates, and what goes into the bin.

The jars are invented. Ranges are common practice or our own caution, no source; see the lesson.
"""

from herbcalc.classroom import Choice, Choices, Number, Option, Tolerance, Turn

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

"""What a careful student gets with pen, calculator and a panel's rounded figures counts as right.

Each way below is worked out apart from the model answer, with the short sums of the lessons and
rounded on the way as people do: water and strength to whole numbers, logs to two decimals, panels
as they are read. So the tolerances are wide enough for the bench.
"""

import pytest

import herbcalc as hc
from herbcalc.classroom import Outcome, draw, find_topic, judge, student_key

KEYS = [student_key("a winter evening", f"student-{number:03}") for number in range(1, 61)]
LOG_KOW = {  # SYRRES, as the package chemicals gives them
    "vanillin": 1.21, "coumarin": 1.39, "cinnamaldehyde": 1.90, "eugenol": 2.27, "camphor": 2.38,
    "carvone": 2.71, "linalool": 2.97, "menthol": 3.40, "thymol": 3.30, "gallic acid": 0.70,
    "caffeine": -0.07, "salicin": -1.22, "arbutin": -1.35, "ascorbic acid": -1.85,
}
SOLUBLE = {  # mL of water, and of alcohol of 95 % vol, for 1 g: Merck Index, USP (from memory)
    "camphor": (800, 1), "thymol": (1000, 1), "gallic acid": (87, 6), "caffeine": (46, 66),
    "salicin": (23, 90),
}
FRESH = {  # whole per cent of water (USDA, release 27), and what is wanted
    "peppermint": (79, "menthol"), "thyme": (65, "thymol"), "rosemary": (68, "camphor"),
}
LEAST_GLYCERIN = 0.53  # the first whole per cent at which the panel of lesson 09 shows years


def digits(number, count=2):
    return float(f"{number:.{count}g}")


def line(name, strength):
    """Steps of ten by Li & Yalkowsky's line, to two decimals."""
    return round(strength / 100 * (0.95 * LOG_KOW[name] + 0.30), 2)


def ends_at(mass, share, volume, abv):
    """The short sum of lesson 03, to whole % vol."""
    return round(abv * volume / (volume + round(mass * share / 100)))


# --- 07 ------------------------------------------------------------------------------------------


def finished_jar(plant, mass, volume, abv):
    water, wanted = FRESH[plant]
    return digits(10 ** line(wanted, ends_at(mass, water, volume, abv)))


def against_a_handbook(name):
    water, alcohol = SOLUBLE[name]
    printed, drawn = round(water / alcohol, 2), digits(10 ** line(name, 95), 3)
    return round(max(printed, drawn) / min(printed, drawn), 1)


def weigh_a_herb(oils, tannins):
    full = 3 * (oils + tannins)
    return {"middling spirit": round(100 * (3 * oils + tannins) / full),
            "strong spirit": round(100 * 3 * oils / full),
            "glycerin": round(100 * (oils + 3 * tannins) / full)}


# --- 08 ------------------------------------------------------------------------------------------


def my_own_marc(mass, share, poured, won):
    water = round(mass * share / 100)
    return round((poured + water - won) / (mass - water), 1)


def two_pours(dry, first, second, kept):
    marc = round(dry * kept)
    draw_one = first - marc
    won = round(100 * draw_one / first)
    more = round((100 - won) * second / (second + marc))
    return {"first draw": draw_one, "won by the first draw": won, "second draw": second,
            "won by both together": won + more,
            "a mL of the second draw, against the first":
                round(100 * (more / second) / (won / draw_one))}


def enough_for_the_bottles(bottles, size, ratio, kept):
    return round(bottles * size / round(ratio + 0.1 - 0.9 * kept, 2)) * ratio


# --- 09 ------------------------------------------------------------------------------------------


def shelf_card(mass, share, volume, abv):
    ends = ends_at(mass, share, volume, abv)
    months, looks = (6, 7) if ends >= 30 else (1, 5)
    return {"water from the leaf": round(mass * share / 100), "strength at the end": ends,
            "thrown out after": 30 * months, "looks before that": looks}


def the_next_jar(mass, share, volume, to):
    alcohol = round((volume + round(mass * share / 100)) * to / 100)
    return round(alcohol / 0.95)


# --- 10 ------------------------------------------------------------------------------------------


def from_water_to_spirit(water, abv):
    on_the_panel = round(hc.drops_per_ml(hc.spirit(1, abv)))  # whole drops, as it shows them
    return round(water * round(on_the_panel / 20, 1))


def herb_in_a_ml(mass, share, volume):
    water = round(mass * share / 100)
    return round(1000 * round(mass * (1 - share / 100)) / (volume + water))


def bottling_sheet(mass, poured, won, abv, size):
    return {"ratio as poured": round(poured / mass, 1), "full bottles": won // size,
            "left over": won % size, "alcohol in one bottle": round(size * abv / 100 * 0.789, 1)}


def a_spoon_of_it(mass, share, volume, abv, spoon):
    return round(spoon * ends_at(mass, share, volume, abv) / 100 * 0.789, 2)


BY_HAND = {
    "07 oil-and-water": lambda name: digits(10 ** LOG_KOW[name]),
    "07 what-is-left": lambda name, strength: round(100 * 10 ** line(name, strength)),
    "07 a-stronger-spirit": lambda log_kow, weak, strong: digits(
        10 ** round((strong - weak) / 100 * (0.95 * log_kow + 0.30), 2)),
    "07 weigh-a-herb": weigh_a_herb,
    "07 against-a-handbook": against_a_handbook,
    "07 the-finished-jar": finished_jar,
    "08 press-or-hand": lambda dry, hand, press: round(dry * hand) - round(dry * press),
    "08 half-and-half-again": lambda half, days: round(100 - 100 * 0.5 ** (days / half)),
    "08 for-one-gram": lambda ratio, kept: round(ratio + 0.1 - 0.9 * kept + 1e-9, 1),
    "08 my-own-marc": my_own_marc,
    "08 two-pours": two_pours,
    "08 enough-for-the-bottles": enough_for_the_bottles,
    "09 days-after-pressing": lambda low, high, weeks: 30 * low - 7 * weeks,
    "09 enough-glycerin": lambda volume: round(volume * LEAST_GLYCERIN),
    "09 lift-it": lambda volume, weak, strong, to: round(volume * (to - weak) / (strong - to)),
    "09 shelf-card": shelf_card,
    "09 the-next-jar": the_next_jar,
    "10 my-own-dropper": lambda counted, drops: round(drops / (counted / 2), 2),
    "10 a-bottle-in-drinks": lambda volume, abv: round(
        round(volume * abv / 100 * 0.789, 1) / 14, 2),
    "10 from-water-to-spirit": from_water_to_spirit,
    "10 herb-in-a-ml": herb_in_a_ml,
    "10 bottling-sheet": bottling_sheet,
    "10 a-spoon-of-it": a_spoon_of_it,
}


@pytest.mark.parametrize("where", BY_HAND)
def test_a_careful_sum_by_hand_is_right(where):
    number, name = where.split()
    topic = find_topic(number)
    question = topic.question(name)
    for key in KEYS:
        drawn = draw(question, key, topic.name)
        answer = BY_HAND[where](**drawn.values)
        verdict = judge(question, drawn, answer)
        assert verdict.outcome is Outcome.RIGHT, (drawn.values, answer, verdict)

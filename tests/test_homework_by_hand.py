"""Homework as a student does it with pencil and pocket calculator: that must be accepted.

Each answer is worked out by the short sum of the lesson from the figures that the prompt gives,
rounded as one writes it down, without the course's own formulas of mixtures; or it is read off the
panel, in the steps of its sliders. So a tolerance that asks for more than the lesson teaches
fails, whoever the student is.
"""

import re

import pytest

import herbcalc as hc
from herbcalc.classroom import (
    Number,
    Outcome,
    Table,
    draw,
    find_topic,
    judge,
    student_key,
    topics,
)
from herbcalc.classroom.checking import worked_path
from herbcalc.classroom.questions import call, say
from herbcalc.explore.glycerin import as_thick

KEYS = [student_key("a winter evening", f"student-{number:03}") for number in range(1, 101)]


def _given(prompt, before="", after=""):
    """The number that a prompt gives between these two texts."""
    return float(re.search(rf"{before}\s*(\d+\.?\d*)\s*{after}", prompt)[1])


# By topic and question: what comes out by hand, from the numbers and, as `prompt`, its words.
BY_HAND = {
    "01 to-proof": lambda abv: 2 * abv,
    # the rule of thumb of lesson 01: 0.4 % vol for each degree
    "01 other-temperature": lambda reading, temperature: reading - 0.4 * (temperature - 20),
    "01 an-old-recipe": lambda mass, prompt: round(
        mass * _given(prompt, "weighs", "g") / 789, 1),
    "01 a-measure": lambda ounces, proof: round(ounces * 29.57 * proof / 200 * 0.789, 1),
    "03 water-in-the-herb": lambda mass, prompt: round(
        mass * _given(prompt, "of it hold", "g of water") / 100),
    "03 dried-on-paper": lambda before, after: round(100 * (before - 0.9 * after) / before),
    "03 ratio-of-the-dry-plant": lambda ratio, share: round(100 * ratio / (100 - share), 1),
    "03 where-it-ends": lambda mass, share, abv, ratio: round(abv * ratio / (ratio + share / 100)),
    "03 what-to-pour": lambda mass, share, volume, to: round(
        to * (volume + mass * share / 100) / volume, 1),
    "04 liquid-for-a-ratio": lambda ratio, mass: ratio * mass,
    "04 a-level-cup": lambda cup, empty, full: round((full - empty) / cup, 3),
    "04 grams-in-the-jar": lambda jar, fill, prompt: round(
        jar * fill / 100 * _given(prompt, "loose, weighs", "g")),
    "04 two-kinds-of-ounces": lambda ounces, fluid: round(29.57 * fluid / (28.35 * ounces), 1),
    "04 ratio-by-eye": lambda jar, fill, prompt: (lambda grams: round(
        (0.95 * jar - 0.7 * grams) / grams, 1))(
            round(jar * fill / 100 * _given(prompt, "loose, weighs", "g"))),
    "05 on-the-scale": lambda volume: round(1.26 * volume),
    "05 what-to-pour": lambda mass, share, volume, to: round(
        to * (volume + mass * share / 100) / volume),
    "05 on-the-label": lambda glycerin, water, leaf, spirit: round(
        95 * spirit / (glycerin + water + leaf + spirit), 1),
    "06 acid-in-the-bottle": lambda volume, acidity: volume * acidity / 100,
    "06 acid-left": lambda mass, share, volume, acidity: round(
        acidity * volume / (volume + mass * share / 100), 1),
    "06 which-vinegar": lambda mass, share, volume: round(
        4 * (volume + mass * share / 100) / volume, 1),
    "06 how-much-leaf": lambda volume, acidity, share: round(
        (volume * acidity / 4 - volume) / (share / 100)),
}

def _thick_in_panel(glycerin, water):
    """What the panel says at the whole per cent by volume that is nearest."""
    share = round(100 * (glycerin / 1.26) / (glycerin / 1.26 + water))
    words = as_thick(hc.glycerin(share) + hc.water(100 - share))
    return float(re.search(r"\d+\.?\d*", words)[0])


def _strength_in_panel(litre):
    """The whole % vol at which the panel's litre weighs nearest to so many whole g."""
    return min(range(97), key=lambda abv: abs(round(hc.density(hc.mass_fraction(abv))) - litre))


# Where the prompt sends the student to a panel: as it shows, in the steps of its sliders.
IN_THE_PANEL = {
    "01 on-the-scale": lambda empty, full: _strength_in_panel(2 * (full - empty)),
    "01 other-temperature": lambda reading, temperature: round(
        hc.true_strength(reading, temperature), 1),
    "05 thick-by-weight": _thick_in_panel,
    "06 watered-down": lambda acidity, parts: round(hc.ph_with_soda(acidity / parts, 0), 1),
}


def _bottle_card(volume, proof, prompt):
    alcohol = round(volume * proof / 200 * 0.789)
    spirit = round(volume * _given(prompt, "this spirit weighs", "g") / 1000)
    return {
        "strength": proof / 2,
        "pure alcohol": round(volume * proof / 200),
        "weight of that alcohol": alcohol,
        "weight of all the spirit": spirit,
        "share of alcohol by mass": round(100 * alcohol / spirit, 1),
    }


SHEETS = {
    "01 bottle-card": _bottle_card,
    "03 jar-sheet": lambda mass, share, ratio, to: {
        "water in the leaf": round(mass * share / 100),
        "spirit to pour": mass * ratio,
        "strength to pour": round(to * (ratio + share / 100) / ratio, 1),
        "strong spirit for it": round(mass * (ratio + share / 100) * to / 95),
        "liquid in the end": round(mass * (ratio + share / 100)),
    },
    "04 jar-by-weight": lambda cup, empty, full, ratio, jar: {
        "one mL of herb": round((full - empty) / cup, 3),
        "three quarters by eye": round(0.75 * jar * (full - empty) / cup),
        "herb to weigh": round(0.95 * jar / (ratio + 0.7)),
        "liquid to pour": round(ratio * round(0.95 * jar / (ratio + 0.7))),
        "loose herb stands at": round(
            100 * round(0.95 * jar / (ratio + 0.7)) * cup / (full - empty) / jar),
    },
    "05 jar-sheet": lambda mass, share, volume, to: {
        "water in the leaf": round(mass * share / 100),
        "glycerin in the mix": round(to * (volume + mass * share / 100) / volume),
        "glycerin to measure": round(to * (volume + mass * share / 100) / 100),
        "its weight": round(1.26 * to * (volume + mass * share / 100) / 100),
        "liquid in the end": round(volume + mass * share / 100),
    },
    "06 jar-sheet": lambda volume, acidity, mass, share: {
        "acid in the jar": volume * acidity / 100,
        "water in the leaf": round(mass * share / 100),
        "liquid in the end": round(volume + mass * share / 100),
        "acid left": round(acidity * volume / (volume + mass * share / 100), 1),
        "acid it would need": round(4 * (volume + mass * share / 100) / volume, 1),
    },
}


@pytest.mark.parametrize("which, by_hand", [
    pytest.param(which, by_hand, id=f"{which}-{how}")
    for how, several in (("pencil", BY_HAND), ("panel", IN_THE_PANEL), ("sheet", SHEETS))
    for which, by_hand in several.items()
])
def test_what_comes_out_by_hand_is_right(which, by_hand):
    number, name = which.split()
    topic = find_topic(number)
    question = topic.question(name)
    for key in KEYS:
        drawn = draw(question, key, topic.name)
        prompt = say(question.prompt, drawn.values)
        answer = call(by_hand, {**drawn.values, "prompt": prompt})
        verdict = judge(question, drawn, answer)
        assert verdict.outcome is Outcome.RIGHT, (drawn.values, answer, verdict)


@pytest.mark.parametrize("topic, question", [
    pytest.param(topic, question, id=f"{topic.number}-{question.name}")
    for topic in topics()
    for question in (*topic.homework, *topic.self_check)
    if isinstance(question, Number | Table)
])
def test_the_result_that_a_worked_path_shows_is_right_as_it_is_written_there(topic, question):
    """Rounded for the screen, a result must still be one that the check accepts."""
    for key in KEYS[:50]:
        drawn = draw(question, key, topic.name)
        shown = re.findall(r"\*\*([^*]+)\*\*", worked_path(question, drawn))
        numbers = [float(n) for bold in shown for n in re.findall(r"-?\d+\.?\d*", bold)]
        if isinstance(question, Number):
            verdicts = [judge(question, drawn, number) for number in numbers]
            assert any(v.outcome is Outcome.RIGHT for v in verdicts), (drawn.values, shown)
            continue
        for row in question.rows:
            sheets = [judge(question, drawn, {row.label: number}) for number in numbers]
            outcomes = {dict(sheet.rows)[row.label].outcome for sheet in sheets}
            assert Outcome.RIGHT in outcomes, (row.label, drawn.values, shown)

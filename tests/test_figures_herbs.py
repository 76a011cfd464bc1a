"""What the pictures and sentences of lessons 03, 04 and the what-if page say."""

import itertools
import math
import re
import struct

import matplotlib
import numpy as np
import pytest
from matplotlib.collections import Collection
from matplotlib.figure import Figure

import herbcalc as hc
from herbcalc import explore
from herbcalc.explore import herb_lists
from herbcalc.explore.density import mass_for_ratio
from herbcalc.figures import herbs as figures
from herbcalc.figures.style import HERB, STYLE, WATER
from herbcalc.keeping import ALWAYS
from herbcalc.liquids import Liquid
from herbcalc.panel import Choice, Entry, Slider

MINE = [
    "by_eye_or_by_weight", "dried_beside_fresh", "fresh_jar", "my_weighings", "same_fill",
    "strength_to_pour", "whole_jar",
]


@pytest.fixture(autouse=True)
def own_folder(tmp_path, monkeypatch):
    """No herb table of anybody lies where these tests run."""
    monkeypatch.chdir(tmp_path)


@pytest.fixture(scope="module")
def panels():
    return {name: getattr(explore, name)() for name in MINE}


@pytest.fixture
def axes():
    with matplotlib.rc_context(STYLE):
        yield Figure(figsize=(6, 4)).add_subplot()


def words_on(ax):
    return [text.get_text() for text in ax.texts if text.get_text()]


def said_numbers(pattern, sentence):
    return [float(number) for number in re.findall(pattern, sentence.replace("\xa0", " "))]


# --- every panel, at every end of every control --------------------------------------------------


def ends(control):
    """The values at the ends of a control, as `show` gets them."""
    if isinstance(control, Slider):
        return [control.low, control.high]
    if isinstance(control, Choice):
        return list(control.options.values())
    if isinstance(control, Entry) and control.kind == "number":
        return [control.low, control.high]
    if isinstance(control, Entry):
        return ["", "m" * control.length]
    return [False, True]


@pytest.mark.parametrize("name", MINE)
def test_every_end_of_every_control_answers_in_plain_words(panels, name):
    panel = panels[name]
    start = panel.answer()
    assert start.kind == "answer"
    for key, control in panel.controls.items():
        pictures = set()
        for value in ends(control):
            answer = panel.answer(**{key: value})
            assert answer.kind != "fault", (key, value, panel.trouble)
            assert "nan" not in answer.sentence.lower().split()
            assert not re.search(r"\d\.\d{4}|\b1:\d+\.\d{2}", answer.sentence)
            pictures.add(answer.picture)
        if not (isinstance(control, Entry) and control.kind == "number"):
            assert len(pictures | {start.picture}) > 1, f"{key} changes nothing"


@pytest.mark.parametrize("name", sorted(set(MINE) - {"my_weighings"}))
def test_all_ends_together_give_an_answer_or_one_clear_sentence(panels, name):
    panel = panels[name]
    corners = [ends(c)[:: max(len(ends(c)) - 1, 1)] for c in panel.controls.values()]
    for values in itertools.product(*corners):
        answer = panel.answer(**dict(zip(panel.controls, values)))
        assert answer.kind in ("answer", "warning"), panel.trouble
        assert answer.sentence.endswith((".", "?")) and "nan" not in answer.sentence.split()


@pytest.mark.parametrize("name", MINE)
def test_every_number_said_has_its_unit(panels, name):
    said = panels[name].answer().sentence.replace("\xa0", " ")
    bare = re.sub(r"1:\d+(\.\d+)?", "", said)  # a ratio is its own unit
    bare = re.sub(r"\d+(\.\d+)? to (?=\d)", "", bare)
    for number in re.finditer(r"\d+(\.\d+)?", bare):
        after = bare[number.end():]
        assert re.match(r" ?(mL|g|%|months?|years?|weeks?|proof|days)\b|( ?%)", after), (
            number.group(), said)


@pytest.mark.parametrize("name", MINE)
def test_the_still_tells_what_the_picture_shows(panels, name):
    still = panels[name].still()
    assert 'alt="' in still and panels[name].title in still
    width, height = struct.unpack(">II", panels[name].answer().picture[16:24])
    assert (width, height) == tuple(round(96 * side) for side in panels[name].size)


# --- lesson 03 -----------------------------------------------------------------------------------


@pytest.mark.parametrize(("herb", "fill", "poured"), [
    ("dandelion (leaf, chopped)", 90, 40), ("burdock (root, 1-inch pieces)", 100, 40),
    ("peppermint (leaf, whole)", 50, 96), ("basil (leaf, whole)", 75, 50),
])
def test_fresh_jar_says_what_the_alcohol_balance_says(panels, herb, fill, poured):
    # by hand from the masses: alcohol stays, the herb's water joins; density from OIML R 22
    plant = herb_lists.herb_list("fresh")[herb]
    grams = 500 * fill / 100 * plant.bulk_density
    room = 475 - grams * ((1 - plant.water) / 1.5 + plant.water / 0.998)
    p = hc.mass_fraction(poured)
    spirit_mass = room * hc.density(p) / 1000
    end = hc.abv(p * spirit_mass / (spirit_mass + grams * plant.water))
    said = panels["fresh_jar"].answer(herb=plant, fill=fill, poured=poured).sentence
    assert said_numbers(r"ends at (\d+)", said) == [round(end)]
    assert said_numbers(r"^(\d+) g", said) == [round(grams)]
    assert said_numbers(r"bring (\d+) g", said) == [round(grams * plant.water)]


def test_a_jar_full_of_fresh_herb_ends_well_under_the_strength_poured(panels):
    said = panels["fresh_jar"].answer().sentence
    assert said_numbers(r"poured at (\d+)", said) == [40]
    assert said_numbers(r"ends at (\d+)", said)[0] <= 34


def test_strength_to_pour_brings_the_jar_where_it_says(panels):
    parsley = hc.herb("parsley", "fresh")
    for ratio, wanted in ((2, 40), (3, 55), (10, 25)):
        said = panels["strength_to_pour"].answer(
            herb=parsley, mass=200, ratio=ratio, wanted=wanted).sentence
        (volume, pour) = re.search(r"Pour (\d+) mL of (\d+)\D% vol", said).groups()
        end = (hc.spirit(float(volume), float(pour)) + Liquid(water=200 * parsley.water)).abv
        assert end == pytest.approx(wanted, abs=0.6)  # the strength to pour is told in whole % vol


def test_strength_to_pour_says_why_none_can(panels):
    said = panels["strength_to_pour"].answer(ratio=1, wanted=60).sentence
    assert said.startswith("None can.") and "96 %" in said
    limit = (hc.spirit(150, 96) + Liquid(water=150 * hc.herb("dandelion").water)).abv
    assert f"{limit:.1f}" in said and limit < 60


def test_the_curve_and_its_mark_stand_where_the_numbers_are(axes):
    figures.end_against_poured_backdrop(axes)
    assert axes.get_xlabel() == "Strength poured [% vol]" and "[% vol]" in axes.get_ylabel()
    before = len(axes.lines)
    poured, end = np.array([0.0, 50, 96]), np.array([0.0, 35, 70])
    figures.draw_end_against_poured(axes, poured, end, 35, 50)
    curve, dotted, mark = axes.lines[before:]
    np.testing.assert_array_equal(curve.get_xydata(), np.column_stack([poured, end]))
    assert (50, 35) in [tuple(point) for point in dotted.get_xydata()]
    assert mark.get_xydata().tolist() == [[50, 35]]
    assert "pour 50\xa0% vol" in words_on(axes) and "wanted 35\xa0% vol" in words_on(axes)


def test_out_of_reach_is_drawn_as_out_of_reach(axes):
    figures.end_against_poured_backdrop(axes)
    figures.draw_end_against_poured(axes, np.array([0.0, 96]), np.array([0.0, 50]), 70, None)
    assert not any(words.startswith("pour ") for words in words_on(axes))
    assert "96 % vol ends at 50\xa0% vol" in words_on(axes)


def test_the_same_plants_dried_bring_the_same_dry_matter(panels):
    for words, (fresh, dried) in herb_lists.herb_list(both=True).items():
        said = panels["dried_beside_fresh"].answer(plant=(fresh, dried)).sentence
        before = said_numbers(r"(\d+) g of fresh", said)[0]
        after = said_numbers(r"weigh (\d+) g", said)[0]
        assert after * (1 - dried.water) == pytest.approx(
            450 * fresh.bulk_density * (1 - fresh.water), abs=1), words
        ends_fresh, ends_dried = said_numbers(r"end at (\d+)", said)
        assert after < before and ends_fresh < ends_dried <= 40


def test_a_bar_of_parts_adds_up_to_the_liquid_and_counts_the_alcohol():
    jar = hc.Jar(500, hc.herb("dandelion"), fill=0.9, menstruum=hc.spirit(1, 40))
    parts = figures.spirit_parts(jar.final.volume, jar.final.abv, jar.herb_water)
    assert sum(parts.values()) == pytest.approx(jar.final.volume)
    assert parts["ethanol"] == pytest.approx(0.4 * jar.menstruum_volume)  # none comes, none goes
    assert parts["herb's water"] == pytest.approx(jar.herb_water / 0.9982)


def test_strengths_stand_on_the_strip_at_their_places(axes):
    figures.strength_strip_backdrop(axes)
    assert axes.get_xlim() == (0, 100) and axes.get_xlabel() == "Strength [% vol]"
    assert any("40 % vol" in words and "common practice" in words for words in words_on(axes))
    before = len(axes.lines)
    figures.draw_strengths(axes, 40, {"fresh ends at": 31.2, "dried at": 39.6})
    assert [line.get_xdata()[0] for line in axes.lines[before:]] == [40, 31.2, 39.6]
    assert "fresh ends at 31\xa0% vol" in words_on(axes)


@pytest.mark.parametrize("wide", [3.6, 9])
@pytest.mark.parametrize("poured", [8, 20, 55, 96])
@pytest.mark.parametrize("share", [0.3, 0.75, 1])
def test_words_stay_on_the_strip(axes, wide, poured, share):
    axes.figure.set_size_inches(wide, 1.4)
    figures.strength_strip_backdrop(axes, note="")
    figures.draw_strengths(axes, poured, {"ends at": poured * share}, decimals=1)
    axes.figure.canvas.draw()
    frame = axes.figure.bbox
    for text in axes.texts:
        box = text.get_window_extent()
        assert box.x0 >= frame.x0 - 1 and box.x1 <= frame.x1 + 1, text.get_text()


@pytest.mark.parametrize("poured", [20, 40, 70, 96])
@pytest.mark.parametrize("share", [0.3, 0.65, 0.98])
def test_fresh_and_dried_never_stand_on_each_other(axes, poured, share):
    axes.figure.set_size_inches(9, 1.4)
    figures.strength_strip_backdrop(axes, note="")
    figures.draw_strengths(axes, poured, {"fresh ends at": poured * share, "dried at": poured})
    axes.figure.canvas.draw()
    fresh, dried = (text.get_window_extent() for text in axes.texts[-2:])
    frame = axes.figure.bbox
    assert fresh.x1 < dried.x0 and fresh.x0 >= frame.x0 - 1 and dried.x1 <= frame.x1 + 1


def test_plant_water_and_spirit_take_their_shares_of_the_bar(axes):
    figures.herb_bar_backdrop(axes)
    figures.draw_herb_bar(axes, mass=150, water=120, volume=300)
    plant, water, spirit = (patch.get_width() for patch in axes.patches)
    assert plant + water + spirit == pytest.approx(100)
    assert water / spirit == pytest.approx(120 / 0.9982 / 300)
    assert plant / water == pytest.approx((30 / 1.5) / (120 / 0.9982))
    assert words_on(axes) == ["plant 30 g", "its water 120 g", "spirit 300 mL"]


@pytest.mark.parametrize(("part", "form", "kind"), [
    ("leaf", "whole", "leaf"), ("root", "1-inch pieces", "root"), ("seed", "whole", "seed"),
    ("leaf", "ground", "powder"), ("stigma", "whole", "flower"), ("", "", "leaf"),
])
def test_what_part_of_a_plant_is_drawn_as(part, form, kind):
    assert figures.herb_kind(part, form) == kind


# --- lesson 04 -----------------------------------------------------------------------------------


def test_the_same_fill_gives_very_different_ratios(panels):
    said = panels["same_fill"].answer().sentence
    low, high = said_numbers(r"(?<=1:)(\d+(?:\.\d+)?)", said)[::-1]
    assert high / low > 10
    assert said_numbers(r"hold (\d+) to", said) == [round(0.75 * 500 * 0.038)]


def test_each_jar_of_the_row_has_its_own_weight_and_ratio():
    panel = explore.same_fill()
    told = {}

    def look(ax, **values):
        sentence = show(ax, **values)
        told["words"] = words_on(ax)
        return sentence

    show, panel._show = panel._show, look
    panel.answer(fill=50, herb=hc.herb("clove", "dried"), volume=1000)
    for asked in (("dill", "fresh", "sprigs"), ("dill", "dried", "leaves"), ("clove", "dried")):
        herb = hc.herb(*asked)
        grams = 500 * herb.bulk_density
        ratio = (950 - herb.volume(grams)) / grams
        assert f"{grams:.0f} g" in told["words"]
        assert figures.ratio_words(ratio) in told["words"]


def test_by_weight_the_ratio_comes_out_as_asked(panels):
    for herb in (hc.herb("fennel", "dried"), hc.herb("thyme", "dried"), hc.herb("garlic")):
        mass = mass_for_ratio(herb, 500, 5)
        if mass / herb.bulk_density <= 500:
            jar = hc.Jar(500, herb, herb_mass=mass, menstruum=hc.spirit(1, 40))
            assert jar.ratio == pytest.approx(5)
    said = panels["by_eye_or_by_weight"].answer(herb=hc.herb("fennel", "dried")).sentence
    grams, pour = (float(x) for x in re.search(r"weigh (\d+) g and pour (\d+) mL", said).groups())
    assert pour / grams == pytest.approx(5, rel=0.01)


def test_what_does_not_fit_is_said_and_pressing_makes_it_fit(panels):
    mint = hc.herb("peppermint", "fresh")
    panel = panels["by_eye_or_by_weight"]
    assert "the jar holds 500 mL" in panel.answer(herb=mint, ratio=5).sentence
    assert "the jar holds" not in panel.answer(herb=mint, ratio=5, pressed=40).sentence


def test_pressing_puts_more_herb_in_the_same_fill(panels):
    panel = panels["by_eye_or_by_weight"]
    loose, pressed = (
        float(re.search(r"stands at 1:([\d.]+)", panel.answer(pressed=by).sentence)[1])
        for by in (0, 40)
    )
    assert pressed < loose


def test_the_scale_shows_every_herb_of_the_table_and_the_own_one(axes):
    figures.density_scale_backdrop(axes, [0.1, 0.5], [0.2])
    assert "[g]" in axes.get_xlabel() and axes.get_xscale() == "log"
    fresh, dried = axes.lines[:2]
    assert fresh.get_xdata().tolist() == [0.1, 0.5] and dried.get_xdata().tolist() == [0.2]
    figures.draw_own_density(axes, 0.079, 1, "lemon balm", kept=[(0.3, 0)])
    places = [tuple(line.get_xydata()[0]) for line in axes.lines[2:]]
    assert (0.3, 0) in places and (0.079, 1) in places
    assert "lemon balm: 0.079\xa0g" in words_on(axes)


def test_a_water_bar_is_as_long_as_its_share(axes):
    figures.water_bar_backdrop(axes)
    assert axes.get_xlim() == (0, 100) and "[%]" in axes.get_xlabel()
    figures.draw_water_bar(axes, 0.78)
    plant, water = axes.patches
    assert plant.get_width() == pytest.approx(22) and water.get_width() == pytest.approx(78)
    assert matplotlib.colors.to_hex(plant.get_facecolor()) == HERB
    assert matplotlib.colors.to_hex(water.get_facecolor()) == WATER and water.get_hatch()


# --- the what-if page ----------------------------------------------------------------------------


def test_the_whole_jar_agrees_with_the_library(panels):
    ginger = herb_lists.plants()["ginger (rhizome)"]
    said = panels["whole_jar"].answer(proof=151, added=50, fill=60, volume=800).sentence
    menstruum = hc.spirit(100, 75.5) + hc.water(50)
    jar = hc.Jar(800, ginger["fresh"], fill=0.6, menstruum=menstruum)
    assert said_numbers(r"poured at ([\d.]+)", said) == [round(menstruum.abv, 1)]
    assert said_numbers(r"end at ([\d.]+)", said) == [round(jar.final.abv, 1)]
    assert said_numbers(r"^(\d+) mL", said) == [round(jar.menstruum_volume)]
    assert hc.keeping(jar.final, fresh_herb=True).range in said


def test_every_slider_of_the_whole_jar_pulls_the_way_it_should(panels):
    def end(**values):
        return said_numbers(r"end at ([\d.]+)", panels["whole_jar"].answer(**values).sentence)[0]

    start = end()
    assert end(proof=120) > start > end(added=100)
    assert end(moisture=20) > start > end(moisture=150)
    assert end(packed=50) > start > end(packed=120)
    assert end(fill=20) > start > end(fill=95)
    assert end(state="dried") > start
    assert end(volume=1000) == pytest.approx(start, abs=0.1)  # the same jar, only larger


def test_a_plant_known_in_one_state_only_says_so(panels):
    fennel = herb_lists.plants()["fennel (seed)"]
    said = panels["whole_jar"].answer(plant=fennel, state="fresh").sentence
    assert said.startswith("The table knows fennel only dried.")


def test_reasons_and_cautions_fit_on_their_half_of_the_picture(axes):
    figures.words_backdrop(axes)
    bottom = axes.get_ylim()[0]
    for poured in range(5, 97, 3):
        keeps = hc.keeping(hc.spirit(100, poured), fresh_herb=True)
        why = {"Why that long": [keeps.deciding], "Safer": keeps.safer}
        assert figures.draw_words(axes, why) <= bottom
        care = [said for said in keeps.cautions if said not in ALWAYS]
        assert figures.draw_words(axes, {"Take care": care}) <= bottom


def test_time_is_drawn_from_low_to_high(axes):
    figures.time_strip_backdrop(axes)
    figures.draw_time(axes, 30, 90, "1 to 3 months")
    (bar,) = axes.patches
    assert (bar.get_x(), bar.get_x() + bar.get_width()) == (30, 90)
    low, high = axes.get_xlim()
    assert low <= 1 and high >= 20 * 365 and not math.isnan(low)


def test_nothing_is_left_on_the_picture_after_an_answer(panels):
    panel = panels["fresh_jar"]
    first = panel.answer().picture
    panel.answer(fill=10, poured=96)
    assert panel.answer().picture == first
    counted = [len([a for a in ax.get_children() if isinstance(a, Collection)])
               for ax in panel._pictures[1.0].figure.axes]
    panel.answer(fill=20)
    assert counted == [len([a for a in ax.get_children() if isinstance(a, Collection)])
                       for ax in panel._pictures[1.0].figure.axes]

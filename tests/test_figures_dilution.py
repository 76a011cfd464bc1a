"""What the pictures of lesson 02 show and say, held against the library and published examples."""

import itertools
import re

import matplotlib
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from matplotlib.figure import Figure

import herbcalc as hc
from herbcalc import explore
from herbcalc.figures import dilution as draw
from herbcalc.figures.style import STYLE
from herbcalc.panel import Slider


def picture(lay_out, backdrop, moving, *numbers, **more):
    with matplotlib.rc_context(STYLE):
        axes = lay_out(Figure(figsize=(9, 4.4)))
        backdrop(axes)
        moving(axes, *numbers, **more)
    return axes


def alone(figure):
    return figure.add_subplot()


def one(ax, gid):
    (found,) = ax.findobj(lambda artist: artist.get_gid() == gid)
    return found


def poured(spirit, strength, water):
    a, b = hc.spirit(spirit, abv=strength), hc.water(water)
    return picture(draw.pour_axes, draw.pour_backdrop, draw.pour, spirit, strength, water,
                   (a + b).volume, (a.mass, b.mass, (a + b).mass))


def test_the_level_is_lower_than_the_sum_by_what_is_lost():
    """500 mL of alcohol and 500 mL of water make about 970 mL: USP 29-NF 24, Diluted Alcohol
    (seen; at 25 degC, alcohol of 94.9 to 96.0 % vol)."""
    bench, lens = poured(500, 95, 500)
    level = one(lens, "level")
    assert level.get_y() + level.get_height() == pytest.approx(-30, abs=2)
    assert one(lens, "lost").get_text() == "29 mL\nless"
    assert one(bench, "both").get_text() == "971 mL"
    assert lens.get_ylabel() == "mL from the simple sum"
    grams = [re.search(r": (\d+) g$", text.get_text()) for text in bench.texts]
    spirit, water, both = (int(found[1]) for found in grams if found)
    assert spirit + water == both


def test_weak_spirit_leaves_no_gap():
    _, lens = poured(100, 10, 500)
    assert not lens.findobj(lambda artist: artist.get_gid() == "lost")


@given(st.integers(5, 50), st.integers(10, 96), st.integers(0, 50))
@settings(max_examples=60, deadline=None)
def test_every_level_stays_within_the_closer_view(tens, strength, water):
    spirit, water = 10 * tens, 10 * water
    lost = hc.contraction(hc.spirit(spirit, abv=strength), hc.water(water))
    assert draw.LENS[0] < -lost < draw.LENS[1]


def made_up(volume, strength, to):
    spirit, to_mark = hc.make_up(volume, strength, to=to)
    short = hc.spirit(spirit, abv=strength) + hc.water(volume - spirit)
    ax = picture(alone, draw.make_up_backdrop, draw.make_up, volume, spirit,
                 (volume - spirit, to_mark), (short.volume, volume), (short.abv, to),
                 ethanol=volume * to / 100)
    return ax, spirit, to_mark, short


def test_the_same_spirit_ends_short_and_strong_or_at_the_mark():
    """727 mL of ethanol (96 per cent, 96.3 % vol on average) made up to 1000 mL give 70 % vol:
    British Pharmacopoeia, Dilute Ethanols (seen)."""
    ax, spirit, to_mark, short = made_up(1000, 96.3, 70)
    assert round(spirit) == 727
    assert one(ax, "mark").get_text() == "70.0 % vol"
    assert one(ax, "sum").get_text() == f"{short.abv:.1f} % vol"
    assert short.abv > 71
    assert one(ax, "short").get_text() == f"{1000 - short.volume:.0f} mL short"
    said = " ".join(text.get_text() for text in ax.texts)
    assert said.count("727 mL spirit") == 2  # the same measure in both
    assert "273 mL water" in said and f"{to_mark:.0f} mL water" in said
    assert said.count("700 mL of alcohol") == 2  # and so the same alcohol


def test_both_bottles_show_the_same_alcohol_and_different_levels():
    ax, *_ = made_up(1000, 95, 40)
    heights = {draw._SUM: set(), draw._MARK: set()}
    blue = matplotlib.colors.to_rgba(draw.ETHANOL)
    for group in ax.collections:
        for path, colour in zip(group.get_paths(), group.get_facecolors()):
            if tuple(colour) == blue:
                x = round(path.vertices[:, 0].mean(), 1)
                heights[x].add(round(path.vertices[:, 1].max(), 6))
    assert heights[draw._SUM] == heights[draw._MARK] and len(heights[draw._SUM]) == 1


def test_where_nothing_is_short_nothing_is_said_to_be():
    ax, *_ = made_up(100, 40, 38)
    assert not ax.findobj(lambda artist: artist.get_gid() == "short")


@pytest.mark.parametrize("to", [40, 60, 95])
def test_the_columns_of_a_blend(to):
    strong, weak = hc.blend_to(95, 40, to=to, volume=1000)
    ax = picture(alone, draw.blend_backdrop, draw.blend, (95, 40), (strong, weak), to, 1000)
    tops = {}
    for patch in ax.patches:
        if not patch.get_gid():
            middle = round(patch.get_x() + patch.get_width() / 2)
            tops[middle] = max(tops.get(middle, 0), patch.get_y() + patch.get_height())
    assert tops == {95: pytest.approx(strong), 40: pytest.approx(weak)}
    frame = one(ax, "blend")
    assert frame.get_height() == 1000 and frame.get_x() + frame.get_width() / 2 == to
    assert ax.get_xlabel() == "strength [% vol]" and ax.get_ylabel() == "volume [mL]"


@pytest.mark.parametrize("volume, strength, to", [(500, 95, 40), (1000, 96, 25), (100, 60, 60)])
def test_the_shelf_holds_what_comes_out(volume, strength, to):
    result = volume * strength / to
    ax = picture(alone, draw.becomes_backdrop, draw.becomes, volume, strength, to,
                 hc.water_to_dilute(volume, strength, to), result)
    bottles = one(ax, "small bottles").get_paths()
    full, over = divmod(round(result), draw.SMALL_BOTTLE)
    assert len(bottles) == full + 2 * (over > 0)  # the last: its glass and what is in it
    lowest = min(path.vertices[:, 1].min() for path in bottles)
    assert lowest > ax.get_ylim()[0]
    assert one(ax, "result").get_text() == f"{result:.0f} mL of {to} % vol"


# --- sentences -----------------------------------------------------------------------------------


def sentence(name, **values):
    answer = getattr(explore, name)().answer(**values)
    assert answer.kind == "answer"
    return answer.sentence


def test_sentences():
    assert sentence("pour_together") == (
        "500 mL of spirit and 500 mL of water make 971 mL at 48.9 % vol, 29 mL less than the sum; "
        "the weights add up to 905 g and not a gram is lost.")
    assert "nothing mixes" in sentence("pour_together", water=0)
    assert "too small to see" in sentence("pour_together", spirit=100, strength=10)
    assert sentence("make_up") == (
        "With 579 mL of water the bottle is 28 mL short and stands at 41.2 % vol; filled to the "
        "mark it takes 608 mL and is 40 % vol.")
    assert "as good as the mark" in sentence("make_up", strength=40, to=39)
    assert sentence("blend") == (
        "356 mL of 95 % vol and 654 mL of 40 % vol make 1000 mL of 60 % vol.")
    assert "mL of water make" in sentence("blend", weak=0)
    assert sentence("what_it_becomes") == (
        "500 mL of 95 % vol hold 475 mL of alcohol: with 721 mL of water they become 1188 mL of "
        "40 % vol.")


def test_what_cannot_be_done_is_said_in_one_sentence():
    for name, values in (("make_up", dict(strength=40, to=60)), ("blend", dict(to=96)),
                         ("blend", dict(to=10))):
        answer = getattr(explore, name)().answer(**values)
        assert answer.kind == "warning" and answer.sentence.count(". ") == 0


@pytest.mark.parametrize("name", ["first_jar", "flash_point", "three_scales", "hydrometer",
                                  "pour_together", "make_up", "blend", "what_it_becomes"])
def test_every_corner_of_every_panel_answers(name):
    """All ends of all sliders together: never a fault, a nan, or a number of too many digits."""
    panel = getattr(explore, name)()
    ends = []
    for control in panel.controls.values():
        if isinstance(control, Slider):
            ends.append((control.read(control.low), control.read(control.high)))
        else:
            ends.append(tuple(control.options.values()) if control.kind == "choice"
                        else (False, True))
    for values in itertools.product(*ends):
        answer = panel.answer(**dict(zip(panel.controls, values)))
        assert answer.kind in ("answer", "warning"), panel.trouble
        assert "nan" not in answer.sentence and not re.search(r"\d\.\d\d", answer.sentence)
    assert len({panel.answer(**{key: value}).picture for key, pair in zip(panel.controls, ends)
                for value in pair}) > len(panel.controls)  # each control moves the picture

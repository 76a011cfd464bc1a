"""What the pictures and sentences of lesson 07 say, held against the library."""

import itertools
import re

import matplotlib
import numpy as np
import pytest
from matplotlib.figure import Figure

import herbcalc as hc
from herbcalc import choosing, explore
from herbcalc.explore.solubility import of_glycerin
from herbcalc.figures import solubility as draw
from herbcalc.figures.style import STYLE

MINE = ["choose_a_liquid", "one_constituent", "whole_plant"]


def drawn(panel, **values):
    """The axes of a panel with `values` on them, and the sentence."""
    with matplotlib.rc_context(STYLE):
        figure = Figure(figsize=panel.size)
        axes = panel._axes(figure) if panel._axes else figure.add_subplot()
        panel._backdrop(axes)
        sentence = panel._show(axes, **(panel.start | values))
        figure.canvas.draw()
    return axes, sentence


def by_gid(ax, gid):
    return next(artist for artist in ax.get_children() if artist.get_gid() == gid)


def words(ax):
    return [text.get_text() for text in ax.texts]


def ends(control):
    if control.kind == "choice":
        return list(control.options.values())[:: max(len(control.options) - 1, 1)]
    return [control.low, control.high]


@pytest.mark.parametrize("name", MINE)
def test_every_end_of_every_control_moves_the_picture_and_says_a_clear_sentence(name):
    panel = getattr(explore, name)()
    start = panel.answer()
    assert start.kind == "answer"
    for key, control in panel.controls.items():
        for value in ends(control):
            answer = panel.answer(**{key: value})
            assert answer.kind == "answer", (key, value, answer.sentence)
            assert "nan" not in answer.sentence
            assert not re.search(r"\d\.\d", answer.sentence)  # a factor of three has no decimals
            if value != panel.start[key]:
                assert answer.picture != start.picture, (key, value)


@pytest.mark.parametrize("name", ["one_constituent", "whole_plant"])
def test_all_ends_together_give_an_answer_or_one_clear_sentence(name):
    panel = getattr(explore, name)()
    for corner in itertools.product(*(ends(c)[:: max(len(ends(c)) - 1, 1)]
                                      for c in panel.controls.values())):
        answer = panel.answer(**dict(zip(panel.controls, corner)))
        assert answer.kind != "fault", (corner, panel.trouble)


def test_glycerin_beyond_its_line_is_said():
    answer = explore.whole_plant().answer(liquid="glycerin", share=70)
    assert answer.kind == "warning" and "ends at 60 %" in answer.sentence


# --- the see-saw ---------------------------------------------------------------------------------


def test_what_loves_oil_rises_and_what_loves_water_falls():
    axes, sentence = drawn(explore.whole_plant(), share=60)
    rows = [label.get_text().rsplit("  ", 1)[0] for label in axes.get_yticklabels()]
    bars = by_gid(axes, "bars").get_paths()
    assert len(rows) == len(bars) == 14
    for name, bar in zip(rows, bars):
        gain = hc.solubility_gain(hc.constituent(name).log_kow, hc.spirit(1, abv=60))
        reach = max(bar.vertices[:, 0], key=lambda x: abs(np.log(x)))
        assert reach == pytest.approx(gain, rel=1e-6)
    kow = [hc.constituent(name).log_kow for name in rows]
    assert kow == sorted(kow, reverse=True)
    menthol = hc.solubility_gain(3.40, hc.spirit(1, abv=60))
    assert f"menthol {draw.times(menthol)} as well as water" in sentence


def test_water_is_the_measure():
    panel = explore.whole_plant()
    axes, sentence = drawn(panel, share=0)
    for bar in by_gid(axes, "bars").get_paths():
        assert bar.vertices[:, 0] == pytest.approx(1)
    assert "measure" in sentence


def test_glycerin_of_a_share_holds_that_share():
    shares = np.array([0.0, 10, 50, 60])
    assert of_glycerin(shares).glycerin_percent == pytest.approx(shares, abs=1e-6)


# --- one line ------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["menthol", "sucrose", "caffeine"])
def test_the_line_drawn_is_the_library_s_with_its_width(name):
    item = hc.constituent(name)
    axes, sentence = drawn(explore.one_constituent(), item=item, strength=40, glycerin=50)
    for place, mixed in (("spirit", hc.spirit(1, abv=40)), ("glycerin", of_glycerin(50.0))):
        gain = hc.solubility_gain(item.log_kow, mixed)
        mark = by_gid(axes[place], f"{place} here")
        assert mark.get_ydata()[0] == pytest.approx(gain)
        assert by_gid(axes[place], f"{place} words").get_text() == draw.times(gain)
        band = axes[place].collections[-1].get_paths()[0].vertices
        at = band[np.isclose(band[:, 0], {"spirit": 40, "glycerin": 50}[place]), 1]
        assert max(at) / min(at) == pytest.approx(9)  # three times up and three times down
    assert f"the trade: {item.trade_rule}".split()[2] in by_gid(axes["spirit"], "rule").get_text()
    assert "agrees" in sentence if item.meets == "agrees" else item.meets in sentence


def test_the_limits_of_the_model_stand_where_its_line_is_shown():
    axes, _ = drawn(explore.one_constituent())
    assert "rough:\nreal lines bend" in words(axes["spirit"])
    assert any("no line above 60 %" in said and "factor of 3" in said
               for said in words(axes["glycerin"]))
    assert axes["spirit"].get_xlim() == (0, 95) and axes["glycerin"].get_xlim() == (0, 60)


@pytest.mark.parametrize("name", ["mucilage", "inulin", "resin", "minerals"])
def test_what_has_no_line_gets_none(name):
    axes, sentence = drawn(explore.one_constituent(), item=hc.constituent(name))
    assert "no line" in by_gid(axes["spirit"], "no line").get_text()
    assert "no line" in sentence and hc.constituent(name).trade_rule in sentence


# --- the chooser ---------------------------------------------------------------------------------


def weigh(**weights):
    panel = explore.choose_a_liquid()
    return drawn(panel, **{key: weights.get(key, 0) for key in panel.controls})


def test_the_bars_are_the_comparison_of_the_library():
    axes, _ = weigh(aromatic_oils=5, tannins=2)
    found = choosing.compare({"aromatic oils": 5, "tannins": 2})
    for gid, marks in (("trade", found.trade), ("line", found.line)):
        bars = by_gid(axes["total"], gid).get_paths()
        assert [bar.vertices[:, 0].max() for bar in bars] == pytest.approx(list(marks.values()))
    assert by_gid(axes["total"], "seen").get_text() == "the line sees 100 %"


@pytest.mark.parametrize("weights, said", [
    (dict(minerals=3), "vinegar. There is no line for any of it. Why, for minerals"),
    (dict(mucilage=3), "it keeps a day or two in the cold"),
    (dict(resins=3), "strong spirit. There is no line"),
    (dict(aromatic_oils=3), "The line agrees on strong spirit"),
    (dict(alkaloids=3), "Why, for alkaloids: the line sees the free base; acid"),
    (dict(tannins=3), "Why, for tannins: the line knows no size"),
])
def test_rule_and_line_part_where_they_must_and_say_why(weights, said):
    assert said in weigh(**weights)[1]


def test_nothing_weighed_is_said():
    panel = explore.choose_a_liquid()
    answer = panel.answer(**{key: 0 for key in panel.controls})
    assert answer.kind == "warning" and "Nothing matters yet" in answer.sentence


def test_each_liquid_says_how_long_it_keeps():
    axes, _ = weigh(tannins=1)
    rows = [label.get_text() for label in axes["grid"].get_yticklabels()]
    assert len(rows) == len(choosing.liquids())
    for row, (name, liquid) in zip(rows, choosing.liquids().items()):
        assert row.startswith(name)
        assert f"{hc.keeping(liquid).low:g} to {hc.keeping(liquid).high:g}" in row

"""What the pictures of lesson 10 show and say: drops, the alcohol in a spoon, the label."""

import datetime
import re

import matplotlib
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from PIL import Image

import herbcalc as hc
from herbcalc import explore
from herbcalc.explore import drops as drop_panels
from herbcalc.explore.label import LIQUIDS, what_stands_on_it
from herbcalc.figures import drops as draw
from herbcalc.figures import label as paper
from herbcalc.figures.style import STYLE
from herbcalc.published import rows

THYME = hc.herb("thyme", "dried")


def shown(backdrop, show, *numbers, lay_out):
    with matplotlib.rc_context(STYLE):
        axes = lay_out(Figure(figsize=(9, 4.8)))
        backdrop(axes)
        said = show(axes, *numbers)
    return axes, said


def one(ax, gid):
    (found,) = ax.findobj(lambda artist: artist.get_gid() == gid)
    return found


# --- drops ---------------------------------------------------------------------------------------


def test_twenty_drops_of_water_and_more_than_twice_as_many_of_spirit():
    """USP <1101> (seen): from a tube of 3 mm a drop of water weighs 45 to 55 mg: 18 to 22 drops."""
    said = explore.drops_in_one_ml().answer(strength=0, tube=3.0).sentence
    assert 18 <= int(re.search(r"about (\d+) drops of water", said)[1]) <= 22
    said = explore.drops_in_one_ml().answer(strength=45, tube=3.0).sentence
    count, low, high = (int(n) for n in re.search(
        r"about (\d+) drops.*: (\d+) to (\d+) drops", said).groups())
    assert count > 40
    assert low == pytest.approx(0.85 * count, abs=1)  # USP <1101>: 15 % either way
    assert high == pytest.approx(1.15 * count, abs=1)


def test_the_old_counts_lie_near_the_curve_in_any_dropper():
    """Drop tables of about 1900 (the table's own provenance beside each row): within 10 %."""
    for tube in (2.0, 3.0, 6.0):
        axes, _ = shown(draw.drops_backdrop, drop_panels._show_drops, 45, tube,
                        lay_out=draw.drops_axes)
        strengths, counts = one(axes[1], "printed").get_data()
        curve = np.interp(strengths, *one(axes[1], "curve").get_data())
        assert counts == pytest.approx(curve, rel=0.10)
    printed = {row.id: row.published for row in rows()}
    assert counts[2] / counts[0] == pytest.approx(
        printed["drops-alcohol-1905"] / printed["drops-water-1905"])


@pytest.mark.parametrize("tube", [2.0, 3.7, 6.0])
@pytest.mark.parametrize("strength", [0, 45, 96])
def test_the_mark_lies_on_the_curve_and_the_drop_is_true_to_scale(strength, tube):
    axes, _ = shown(draw.drops_backdrop, drop_panels._show_drops, strength, tube,
                    lay_out=draw.drops_axes)
    count = hc.drops_per_ml(hc.spirit(1, strength), tube)
    assert one(axes[1], "here").get_ydata()[0] == pytest.approx(count)
    assert np.interp(strength, *one(axes[1], "curve").get_data()) == pytest.approx(count, rel=1e-6)
    drop = one(axes[0], "drop").get_xy()
    ball = (6 * 1000 / count / np.pi) ** (1 / 3)  # mm
    assert 0.7 * ball < np.ptp(drop[:, 0]) < 1.05 * ball
    assert np.ptp(drop[:, 1]) == pytest.approx(1.12 * ball, rel=0.02)
    assert axes[1].get_ylabel() == "drops in 1 mL"


# --- the alcohol in a measure --------------------------------------------------------------------


def test_one_and_a_half_fluid_ounces_of_eighty_proof_are_a_standard_drink():
    """NIAAA (seen quoted): 1.5 US fl oz of 80 proof hold 14 g of ethanol, a standard drink."""
    axes, said = shown(lambda axes: draw.serving_backdrop(axes, 14.0), drop_panels._show_serving,
                       (1.5 * 29.57, "dram glass"), 1, 40, lay_out=draw.serving_axes)
    assert "hold 14 g of ethanol: about 1.0 US standard drinks" in said
    assert one(axes[1], "ethanol").get_width() == pytest.approx(14, abs=0.05)


def test_a_teaspoon_at_45_by_hand():
    """5 mL x 0.45 x 0.789 g/mL = 1.78 g; 1.78 / 14 is about an eighth."""
    said = explore.alcohol_in_a_measure().answer().sentence
    assert "5 mL at 45 % vol hold 1.8 g of ethanol: about 1/8 of a US standard drink" in said


def test_as_many_spoons_as_asked_for():
    for count in (1, 7, 10):
        axes, _ = shown(lambda axes: draw.serving_backdrop(axes, 14.0), drop_panels._show_serving,
                        (5.0, "teaspoon"), count, 45, lay_out=draw.serving_axes)
        assert len([p for p in axes[0].patches if "spoon" in (p.get_gid() or "")]) == count
        assert one(axes[0], "volume").get_text() == f"{5 * count} mL"


# --- the label -----------------------------------------------------------------------------------

USUAL = dict(herb=THYME, fill=90, liquid=hc.spirit(1, 45), made="2027-01-14", weeks=6, bottle=100,
             batch="QY-2027-03", maker="Quince Yard")
EXPECTED = ("Plant", "Liquid", "Ratio", "1 mL", "Content", "Batch", "Made", "Use by")


def test_everything_the_trade_expects_is_on_it():
    """Name, Latin name, part, state, liquid and strength, ratio, content, batch, dates, maker,
    cautions: common practice, no source."""
    text = what_stands_on_it(**USUAL)
    said = dict(text.rows)
    assert tuple(said) == EXPECTED and not text.missing
    assert text.latin == "Thymus vulgaris" and text.name == "Thyme tincture"
    jar = hc.Jar(500, THYME, fill=0.9, menstruum=hc.spirit(1, 45))
    assert f"{jar.final.abv:.0f} % vol" in said["Liquid"]
    assert said["Ratio"].startswith(f"1:{jar.ratio:.1f}, ")
    assert said["Made"] == "poured 14 Jan 2027, pressed 25 Feb 2027"
    use_by = hc.keeping(jar.final).use_by("2027-01-14")
    assert use_by - datetime.date(2027, 1, 14) == datetime.timedelta(days=15 * 365)
    assert said["Use by"] == "10 Jan 2042, kept cool and dark"
    cautions = " ".join(text.cautions)
    for word in ("children", "pregnant", "medicines", "allergy", "flame", "licensed practitioner"):
        assert word in cautions


def test_the_figures_for_one_ml_by_hand():
    """Dry herb in g over mL of liquid, and % vol x 0.789 g/mL."""
    said = dict(what_stands_on_it(**USUAL).rows)["1 mL"]
    jar = hc.Jar(500, THYME, fill=0.9, menstruum=hc.spirit(1, 45))
    herb, alcohol = re.search(r"from (\d+) mg .*holds ([\d.]+) g", said).groups()
    assert float(herb) == pytest.approx(1000 * jar.dry_mass / jar.final.volume, abs=2.5)
    assert float(alcohol) == pytest.approx(jar.final.abv / 100 * 0.789, abs=0.006)


@pytest.mark.parametrize("liquid, kind, word", [
    ("glycerin 60 %, water 40 %", "glycerite", "glycerin"),
    ("vinegar, 5 g acid in 100 mL", "vinegar", "acid"),
])
def test_other_liquids_call_themselves_by_their_name(liquid, kind, word):
    text = what_stands_on_it(**USUAL | {"liquid": LIQUIDS[liquid]})
    assert text.name == f"Thyme {kind}" and word in dict(text.rows)["Liquid"]
    assert "alcohol;" not in dict(text.rows)["1 mL"] and "% vol" not in " ".join(text.cautions)


def test_what_is_missing_is_named():
    panel = explore.bottle_label()
    answer = panel.answer(batch="", maker="")
    assert answer.sentence == "Still missing on the label: maker and batch."
    assert answer.picture != panel.answer().picture


def test_no_dose_anywhere():
    panel = explore.bottle_label()
    said = " ".join([panel.answer().sentence, *what_stands_on_it(**USUAL).cautions,
                     *(words for _, words in what_stands_on_it(**USUAL).rows)]).lower()
    assert "not a dose" in said
    assert not re.search(r"\btake \d|drops? (a|per) day|times (a|per) day|daily", said)


PLAIN = st.characters(min_codepoint=32, max_codepoint=0x24F, exclude_categories=["Cc", "Cf"])


@given(st.text(PLAIN, max_size=200).map(lambda words: " ".join(words.split())),
       st.sampled_from([8, 13, 31]), st.floats(60, 500))
@settings(deadline=None)
def test_wrapping_loses_nothing_and_no_line_is_too_wide(words, size, room):
    lines = paper.wrap(words, room, size, True, paper.SERIF)
    assert "".join(lines).replace(" ", "") == words.replace(" ", "")
    for line in lines:
        assert paper.width(line, size, True, paper.SERIF) <= room or len(line) == 1


@given(st.text(PLAIN, max_size=120), st.text(PLAIN, max_size=90), st.text(PLAIN, max_size=30))
@settings(max_examples=15, deadline=None)
def test_long_names_stay_on_the_paper(name, maker, batch):
    clean = [" ".join(words.split()) for words in (name, maker, batch)]
    with matplotlib.rc_context(STYLE):
        figure = Figure(figsize=paper.SIZE, dpi=96)
        canvas = FigureCanvasAgg(figure)
        ax = paper.label_axes(figure)
        paper.label_backdrop(ax)
        text = what_stands_on_it(**USUAL | dict(zip(("name", "maker", "batch"), clean)))
        paper.draw_label(ax, text)
        canvas.draw()
        edge = ax.patches[0].get_window_extent()
        boxes = [t.get_window_extent() for t in ax.texts if t.get_text().strip()]
    for box in boxes:
        assert edge.x0 <= box.x0 and box.x1 <= edge.x1 + 1
        assert edge.y0 - 1 <= box.y0 and box.y1 <= edge.y1


def test_the_label_can_be_saved_for_print(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    panel = explore.bottle_label()
    said, kind = panel.press("save", panel.start | {"batch": "QY / 2027: no. 3"})
    assert kind == "answer" and said == "Saved as label-qy-2027-no-3.png beside this lesson."
    assert [path.name for path in tmp_path.iterdir()] == ["label-qy-2027-no-3.png"]
    assert Image.open(tmp_path / "label-qy-2027-no-3.png").size == (1800, 1140)
    said, kind = panel.press("save", panel.start | {"made": "someday"})
    assert kind == "warning" and "year-month-day" in said

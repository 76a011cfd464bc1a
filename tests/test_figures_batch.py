"""What the pictures and panels of lesson 11 show and say."""

import itertools
import re
from datetime import date, timedelta

import matplotlib
import numpy as np
import pytest
from matplotlib.figure import Figure

import herbcalc as hc
from herbcalc import explore, log
from herbcalc.explore import batch as panels
from herbcalc.figures import cost as cost_figures
from herbcalc.figures import log as log_figures
from herbcalc.figures import plan as plan_figures
from herbcalc.figures.style import STYLE
from herbcalc.panel import Choice

PANELS = {name: getattr(explore, name) for name in panels.__all__}
START = date(2027, 1, 14)


def shown(panel, **values):
    """The axes as drawn for some values, and the sentence."""
    with matplotlib.rc_context(STYLE):
        figure = Figure(figsize=panel.size)
        axes = panel._axes(figure) if panel._axes else figure.add_subplot()
        panel._backdrop(axes)
        said = panel._show(axes, **panel.start | values)
    return axes, said


def one(ax, gid):
    (found,) = ax.findobj(lambda artist: artist.get_gid() == gid)
    return found


def words(ax):
    return " ".join(text.get_text() for text in ax.texts)


@pytest.mark.parametrize("name", PANELS)
def test_every_end_of_every_control_answers_in_a_sentence(name):
    panel = PANELS[name]()
    ends = {}
    for control, what in panel.controls.items():
        if isinstance(what, Choice):
            ends[control] = list(what.options.values())
        elif what.kind == "text":
            ends[control] = [panel.start[control]]
        else:
            ends[control] = [what.low, what.high]
    for control, values in ends.items():
        for value in values:
            answer = panel.answer(**{control: value})
            assert answer.kind in ("answer", "warning"), answer.sentence
            assert not re.search(r"\bnan\b|\binf\b", answer.sentence)
    assert panel.trouble is None
    corners = itertools.product(*(v for v in ends.values() if len(v) == 2))
    for corner in itertools.islice(corners, 0, 256, 7):
        values = dict(zip((c for c, v in ends.items() if len(v) == 2), corner))
        assert panel.answer(**values).kind != "fault", panel.trouble


# --- the plan ------------------------------------------------------------------------------------


def test_the_card_shows_what_the_batch_says():
    panel = explore.plan_a_batch()
    axes, said = shown(panel)
    batch = hc.Batch("dried thyme", jar=500, herb_mass=71, liquid="spirit 95, water",
                     final_abv=45, jars=12, start=START)
    for place, amount in enumerate(batch.amounts):
        assert one(axes["amounts"], f"amount {place} 0").get_text() == amount.metric.words
        assert one(axes["amounts"], f"amount {place} 1").get_text() == amount.kitchen.words
        assert amount.metric.words in said
    assert "flash point" in one(axes["amounts"], "care").get_text().replace("\n", " ")
    assert "ends at 45 % vol" in said and "15 to 20 years" in said


def test_the_tools_chosen_are_the_ones_in_bold():
    panel = explore.plan_a_batch()
    for tools, bold in (("metric", 0), ("kitchen", 1)):
        axes, said = shown(panel, tools=tools)
        assert one(axes["amounts"], f"amount 1 {bold}").get_fontweight() == "bold"
        assert one(axes["amounts"], f"amount 1 {1 - bold}").get_fontweight() == "normal"
        assert one(axes["amounts"], f"amount 2 {bold}").get_text() in said.replace(" and ", " ")


def test_the_first_weeks_stand_where_they_belong():
    axes, _ = shown(explore.plan_a_batch())
    ax = axes["weeks"]
    assert ax.get_xlabel() == "weeks after the start"
    strain = one(ax, "strain")
    assert (strain.get_x(), strain.get_x() + strain.get_width()) == (4, 6)
    shakes = one(ax, "shake").get_xdata()
    assert len(shakes) == 28 and shakes[-1] == 4
    looks = one(ax, "looks").get_xdata()
    assert looks[:3] == pytest.approx([1 / 7, 3 / 7, 1])
    assert "use by 10 Jan 2042" in words(ax) and "strain from 11 Feb 2027" in words(ax)


def test_a_batch_that_does_not_keep_is_not_strained_in_the_picture():
    mint = hc.herb("peppermint", "fresh")
    _, said = shown(explore.plan_a_batch(), final=20, mass=40, herb=mint)
    assert "refrigerator" in said
    raw = panels.LIQUIDS["raw vinegar"]
    axes, said = shown(explore.plan_a_batch(), liquid=raw, mass=40, herb=mint)
    care = one(axes["amounts"], "care").get_text().replace("\n", " ")
    assert "ferment" in care
    assert one(axes["weeks"], "use by").get_text() == "use by 13 Feb 2027"


def test_the_buttons_write_what_they_say(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    panel = explore.plan_a_batch()
    said, kind = panel.press("write", panel.start)
    names = {"THY-D-270114-sheet.pdf", "THY-D-270114-labels.pdf", "THY-D-270114.ics"}
    assert kind == "answer" and {path.name for path in tmp_path.iterdir()} == names
    assert all(name in said for name in names)
    assert panel.press("log", panel.start)[1] == "answer"
    said, kind = panel.press("log", panel.start)
    assert kind == "warning" and "already" in said
    assert log.batches()["code"].tolist() == ["THY-D-270114"]
    labels = explore.sheet_of_labels()
    said, kind = labels.press("write", labels.start | {"name": "lady's mantle"})
    assert kind == "answer" and (tmp_path / "LAD-D-270114-labels.pdf").exists()


def test_the_what_if_page_plans_the_jar_it_shows(tmp_path, monkeypatch):
    import pypdfium2 as pdfium

    monkeypatch.chdir(tmp_path)
    panel = explore.whole_jar()
    values = panel.start | {"proof": 120, "added": 20, "fill": 50, "volume": 700}
    said, kind = panel.press("plan", values)
    assert kind == "answer", said
    sheet, = tmp_path.glob("*-sheet.pdf")
    text = " ".join(pdfium.PdfDocument(sheet)[0].get_textpage().get_text_bounded().split())
    strength = re.search(r"end at (\d+)\.\d % vol", panel.answer(**values).sentence)[1]
    assert abs(int(re.search(r"Ends at (\d+) % vol", text)[1]) - int(strength)) <= 1
    assert "1 jar of 700 mL" in text and "spirit of 60 % vol" in text and "fresh ginger" in text
    said, kind = panel.press("plan", values | {"fill": 100, "packed": 200, "moisture": 0})
    assert kind == "warning" or "Sheet" in said


# --- what to buy ---------------------------------------------------------------------------------


def test_bottles_and_bars_are_those_of_the_price_list():
    axes, said = shown(explore.what_to_buy())
    batch = hc.Batch("dried thyme", jar=500, ratio=6, liquid="spirit 40", jars=12, start=START)
    ways = {way.spirit: way for way in hc.ways(batch)}
    strong, plain = ways[hc.stock("spirit 95")], ways[hc.stock("spirit 40")]
    for place, way in enumerate((strong, plain)):
        count = sum(n for _, n in way.shopping.basket(way.spirit).packs)
        assert len(one(axes["shelf"], f"bottles {place}").get_paths()) == count
        assert f"{way.spirit_price:.2f} €" in words(axes["shelf"])
    for gid, way in (("let down", strong), ("bought ready", plain)):
        x, y = one(axes["each"], gid).get_data()
        assert (x[0], y[0]) == (12, pytest.approx(way.spirit_price / 12))
    found = hc.break_even(batch, most=cost_figures.MOST)
    gain = np.subtract(found.ready, found.strong)
    assert len(one(axes["saved"], "cheaper").get_paths()) == (gain >= 0).sum()
    assert len(one(axes["saved"], "dearer").get_paths()) == (gain < 0).sum()
    assert one(axes["saved"], "break-even").get_xdata()[0] == found.from_jars - 0.5
    assert f"from {found.from_jars} jars on" in words(axes["saved"])
    assert "invented" in said and f"{strong.spirit_price:.2f} euros" in said
    assert axes["saved"].get_xlabel() == "jars in the batch"
    assert axes["each"].get_ylabel() == "€ a jar"


def test_a_spirit_that_nobody_sells_ready_is_said_to_be_so():
    axes, said = shown(explore.what_to_buy(), poured=60)
    assert "none ready" in said and "no spirit sold ready" in words(axes["saved"])


def test_a_cheap_strong_spirit_pays_from_the_first_jar_or_early():
    _, dear = shown(explore.what_to_buy(), price=90)
    axes, cheap = shown(explore.what_to_buy(), price=30)
    assert "less from" in dear and "more from" in cheap
    assert "on" in words(axes["saved"])


# --- the cupboard --------------------------------------------------------------------------------


def test_bars_are_the_batches_and_the_largest_is_framed():
    axes, said = shown(explore.from_the_cupboard())
    can = hc.from_cupboard({"spirit 95": 150, "spirit 40": 700}, "fresh ginger", 150, ratio=5,
                           final_abv=40, start=START)
    poured = sum(volume for _, volume in can.largest.recipe)
    assert one(axes["bars"], "largest").get_width() == pytest.approx(poured)
    assert f"a jar of {can.largest.jar:.0f} mL" in said and can.limits[0] in said
    assert f"{can.largest.jar:.0f} mL jar" in words(axes["bars"])
    assert axes["bars"].get_xlabel() == "liquid in the batch [mL]"
    most = hc.Batch("fresh ginger", jar=500, ratio=5, liquid="spirit 95").planned.final.abv
    assert one(axes["reach"], "reach").get_width() == pytest.approx(most)


def test_when_none_fits_the_nearest_and_the_reason_are_shown():
    axes, said = shown(explore.from_the_cupboard(), strong=0)
    assert "is wanted" in said and "What would help" in said
    assert "nearest" in words(axes["bars"])
    reach = one(axes["reach"], "reach").get_width()
    assert reach < 40 and f"{reach:.1f} % vol" in said


def test_an_empty_cupboard_says_so():
    answer = explore.from_the_cupboard().answer(strong=0, plain=0)
    assert answer.kind == "warning" and "in the cupboard" in answer.sentence


# --- labels --------------------------------------------------------------------------------------


def test_the_sheet_has_as_many_places_as_it_says():
    panel = explore.sheet_of_labels()
    for wide, high, page, places in ((90, 60, (210, 297), 8), (60, 60, (210, 297), 12),
                                     (130, 60, (148, 210), 3)):
        axes, said = shown(panel, wide=wide, high=high, page=page)
        assert len(one(axes[0], "labels").get_paths()) == places
        assert said.startswith(f"{places} labels of {wide} × {high} mm")


def test_a_long_name_stays_on_the_label():
    name = "lady's mantle from the old hedge behind the potting shed, third terrace, north side"
    panel = explore.sheet_of_labels()
    axes, _ = shown(panel, name=name, high=80)
    said = words(axes[1])
    assert name.replace(" ", "") in said.replace(" ", "")
    answer = panel.answer(name="x" * 120, wide=60, high=50)
    assert answer.kind == "warning" and "too small to be read" in answer.sentence


# --- the shelf -----------------------------------------------------------------------------------


@pytest.mark.parametrize("days", [0, 3, 27, 34, 60, 120, 420])
def test_every_jar_of_the_log_stands_on_its_shelf(days):
    panel = explore.what_is_due()
    ax, said = shown(panel, days=days)
    table = log.stand(*panels._invented_shelf(), START + timedelta(days=days))
    on_shelves = table[table["standing"] != "gone"]
    drawn = {text.get_text() for text in ax.texts if text.get_gid() == "jar"}
    more = sum(int(n) for n in re.findall(r"and (\d+) more", words(ax)))
    assert drawn <= set(on_shelves["code"]) and len(drawn) + more == len(on_shelves)
    height = {text.get_text(): text.get_position()[1] for text in ax.texts
              if text.get_gid() == "jar"}
    for shelf, standings in enumerate(log_figures.SHELVES.values()):
        for code in set(on_shelves["code"][on_shelves["standing"].isin(standings)]) & drawn:
            assert 0 < height[code] - log_figures._foot(shelf) < 1
    for standing, words_ in (("throw out", "to throw out"), ("to strain", "to strain"),
                             ("steeping", "steeping")):
        count = (table["standing"] == standing).sum()
        assert (f"{count} {words_}" in said) == (count > 0)
    assert "14 Jan 2027" in said if days == 0 else True


def test_more_jars_than_room_are_counted():
    jars = [("steeping", f"B{n}", "dried thyme", "look 1 Feb") for n in range(9)]
    with matplotlib.rc_context(STYLE):
        ax = Figure(figsize=(9.5, 5.6)).add_subplot()
        log_figures.shelves_backdrop(ax)
        log_figures.draw_shelves(ax, jars)
    drawn = [text for text in ax.texts if text.get_gid() == "jar"]
    assert len(drawn) == log_figures.ACROSS - 1
    assert f"and {9 - len(drawn)} more" in words(ax)


def test_the_own_log_is_read_at_every_look(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    panel = explore.what_is_due()
    assert "no batch" in panel.answer(whose="own", days=0).sentence
    log.add(hc.Batch("dried thyme", jar=500, ratio=6, liquid="spirit 50", code="MINE"))
    assert "1 steeping" in panel.answer(whose="own", days=0).sentence
    assert "1 to throw out" not in panel.answer(whose="own", days=0).sentence


def test_the_page_of_the_shelf_names_every_batch(tmp_path):
    import pypdfium2 as pdfium

    table = log.stand(*panels._invented_shelf(), START + timedelta(days=60))
    pages = log_figures.shelf_page(table, START + timedelta(days=60), tmp_path / "shelf.pdf")
    document = pdfium.PdfDocument(tmp_path / "shelf.pdf")
    assert len(document) == pages == 1
    said = " ".join(document[0].get_textpage().get_text_bounded().split())
    for batch in table.itertuples():
        assert batch.code in said and batch.due[1:] in said
    assert "15 Mar 2027" in said and "throw out: past its date, or spoiled" in said


def test_colours_of_bought_liquids_deepen_with_strength():
    light, dark = (plan_figures.liquid_colour("spirit", s) for s in (40, 95))
    assert sum(int(light[n:n + 2], 16) for n in (1, 3, 5)) > sum(
        int(dark[n:n + 2], 16) for n in (1, 3, 5))

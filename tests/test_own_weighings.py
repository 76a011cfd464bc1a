"""A student's own weighings: from the panel's entries into the table, and into every later list."""

import csv
import sys

import pytest

import herbcalc as hc
from herbcalc import explore
from herbcalc.explore import herb_lists
from herbcalc.explore.density import weighed_herb

BALM = dict(name="lemon balm", state="fresh", cut="chopped", cup=250, empty=0, full=40,
            fresh=50, after=13, left=0.1)


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


def write(**changes):
    return explore.my_weighings().press("write", BALM | changes)


def test_weights_become_density_and_water_by_plain_division():
    balm = weighed_herb(**BALM)
    assert balm.bulk_density == 40 / 250  # a tared cup: the empty weight is 0
    assert balm.water == pytest.approx(1 - 13 * 0.9 / 50)  # a tenth of the dried herb is water
    assert weighed_herb(**BALM | dict(empty=210, full=250)).bulk_density == balm.bulk_density
    assert weighed_herb(**BALM | dict(left=0.0)).water == pytest.approx(1 - 13 / 50)


def test_written_down_it_is_in_the_file_and_in_every_list(folder):
    sentence, kind = write()
    assert kind == "answer" and "my-herbs.csv" in sentence and "0.16\xa0g" in sentence
    with open(folder / "my-herbs.csv", encoding="utf-8", newline="") as file:
        (row,) = csv.DictReader(file)
    assert (row["name"], row["state"], row["form"]) == ("lemon balm", "fresh", "chopped")
    assert float(row["bulk_density_g_per_ml"]) == 0.16
    assert float(row["water_g_per_100g"]) == pytest.approx(76.6)
    assert "40 g" in row["source"] and "own weighing" in row["source"]

    mine = "lemon balm (chopped), yours"
    assert next(iter(explore.fresh_jar().controls["herb"].options)) == mine
    assert mine in explore.strength_to_pour().controls["herb"].options
    assert mine in explore.whole_jar().controls["plant"].options
    for raised in (explore.same_fill, explore.by_eye_or_by_weight):
        assert "lemon balm, fresh (chopped), yours" in raised().controls["herb"].options
    assert hc.herb("lemon balm").bulk_density == 0.16


def test_the_panels_own_figures_are_used(folder):
    write()
    panel = explore.fresh_jar()
    balm = panel.controls["herb"].options["lemon balm (chopped), yours"]
    jar = hc.Jar(500, balm, fill=1.0, menstruum=hc.spirit(1, 40))
    said = panel.answer(herb=balm, fill=100).sentence
    assert said.startswith(f"{500 * 0.16:.0f} g of herb")
    assert f"ends at {jar.final.abv:.0f} % vol" in said


def test_a_second_weighing_replaces_the_first_in_the_lists_and_loses_nothing(folder):
    write()
    write(full=50)
    write(name="basil", cut="torn")
    lines = (folder / "my-herbs.csv").read_text(encoding="utf-8").splitlines()
    assert len(lines) == 4
    assert hc.herb("lemon balm").bulk_density == 0.2
    assert sum("yours" in words for words in herb_lists.herb_list()) == 2


def test_weighed_fresh_and_dried_it_can_stand_beside_itself(folder):
    write()
    write(state="dried", full=18)
    pair = herb_lists.herb_list(both=True)["lemon balm, yours"]
    assert [herb.state for herb in pair] == ["fresh", "dried"]
    panel = explore.dried_beside_fresh()
    assert panel.answer(plant=pair).kind == "answer"


def test_the_picture_shows_what_has_been_kept(folder):
    panel = explore.my_weighings()
    values = BALM | dict(name="tansy", full=200)
    before = panel.answer(**values).picture
    panel.press("write", BALM)
    assert panel.answer(**values).picture != before


def test_a_herb_of_the_table_lends_its_latin_name_and_its_water():
    thyme = weighed_herb(**BALM | dict(name="Thyme", fresh=0))
    assert thyme.latin == "Thymus vulgaris"
    assert thyme.water == 0.6511  # USDA Standard Reference 27, NDB 02049
    dried = weighed_herb(**BALM | dict(name="lemon balm", state="dried"))
    assert dried.water == 0.10  # as dried herbs usually hold: USDA's hold 0.05 to 0.13


@pytest.mark.parametrize(("changes", "words"), [
    (dict(name=""), "name"),
    (dict(full=0.5, empty=20), "tared"),
    (dict(cup=10, full=40), "heavier than water"),
    (dict(after=60), "drying takes water away"),
    (dict(fresh=0), "Weigh a handful"),
])
def test_what_cannot_be_is_refused_in_one_sentence_and_nothing_is_written(folder, changes, words):
    sentence, kind = write(**changes)
    assert kind == "warning" and words in sentence
    assert not (folder / "my-herbs.csv").exists()


def test_the_invented_example_is_never_written(folder):
    panel = explore.my_weighings()
    sentence, kind = panel.press("write", panel.start | {"name": "lemon balm"})
    assert kind == "warning" and "invented" in sentence
    assert "example" in panel.answer().sentence
    assert not (folder / "my-herbs.csv").exists()


def test_a_spoiled_table_is_told_of_and_left_alone(folder):
    write()
    path = folder / "my-herbs.csv"
    path.write_text(path.read_text(encoding="utf-8") + "nettle,,,fresh,,wet,0.1,mine\n")
    spoiled = path.read_bytes()
    panel = explore.fresh_jar()
    assert "Line 3 of my-herbs.csv" in panel.controls["herb"].help
    assert "dandelion (leaf, chopped)" in panel.controls["herb"].options
    sentence, kind = write(name="yarrow")
    assert kind == "warning" and "Line 3" in sentence
    assert path.read_bytes() == spoiled


@pytest.mark.skipif(sys.platform == "win32", reason="Windows keeps a folder somebody works in")
def test_a_folder_that_cannot_be_written_is_said_in_one_sentence(tmp_path, monkeypatch):
    gone = tmp_path / "gone"
    gone.mkdir()
    monkeypatch.chdir(gone)
    gone.rmdir()
    sentence, kind = write()
    assert kind == "warning" and "could not be written" in sentence

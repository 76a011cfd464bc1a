"""Every wrong or impossible input gets one clear sentence that a student understands."""

import math

import pytest

import herbcalc as hc
from herbcalc import dose, extraction

MINT = "peppermint", "fresh"

WRONG = [
    # what is typed                                          words the sentence must hold
    (lambda: hc.abv_from_proof(-1), ["US proof", "0 and 200", "-1"]),
    (lambda: hc.abv_from_proof(240), ["US proof", "240"]),
    (lambda: hc.proof_from_abv(101), ["strength", "% vol", "101"]),
    (lambda: hc.proof_from_abv(math.nan), ["strength", "missing"]),
    (lambda: hc.mass_fraction(math.inf), ["strength", "missing or endless"]),
    (lambda: hc.abv("forty"), ["must be a number", "forty"]),
    (lambda: hc.abv(None), ["must be a number"]),
    (lambda: hc.abv(True), ["must be a number"]),
    (lambda: hc.density(0.5, 80), ["temperature", "-20 and 40", "80"]),
    (lambda: hc.density(1.5), ["mass fraction", "0 and 1"]),
    (lambda: hc.true_strength(0.1, 39), ["No mixture", "thermometer"]),
    (lambda: hc.true_strength(99.9, 0), ["No mixture", "thermometer"]),
    (lambda: hc.spirit(-5, 40), ["volume of spirit", "less than nothing", "-5 mL"]),
    (lambda: hc.spirit(5, 140), ["strength", "140"]),
    (lambda: hc.water(-1), ["volume of water", "less than nothing"]),
    (lambda: hc.glycerin(-1), ["glycerin", "less than nothing"]),
    (lambda: hc.glycerin(10, purity=0), ["purity", "more than 0"]),
    (lambda: hc.vinegar(10, acidity=80), ["acidity", "0 and 30"]),
    (lambda: hc.Liquid(ethanol=-1), ["ethanol", "less than nothing"]),
    (lambda: hc.Liquid().abv, ["nothing in this liquid", "pour"]),
    (lambda: hc.water_to_dilute(500, 40, to=60), ["cannot make it stronger", "40", "60"]),
    (lambda: hc.water_to_dilute(500, 40, to=0), ["never", "0 % vol"]),
    (lambda: hc.make_up(500, 40, to=41), ["cannot make it stronger"]),
    (lambda: hc.blend_to(40, 60, to=70, volume=100), ["70", "does not lie between"]),
    (lambda: (hc.spirit(1, 50) + hc.glycerin(1)).volume_at(30), ["spirit and water only"]),
    (lambda: hc.flash_point(10), ["starts at 20 % vol"]),
    (lambda: hc.herb("pepermint"), ["no herb called 'pepermint'", "Did you mean", "peppermint"]),
    (lambda: hc.herb("Mentha piperita", "fresh"), ["Did you mean peppermint"]),
    (lambda: hc.herb("xyzzy"), ["no herb called", "It knows"]),
    (lambda: hc.herb("sage", "fresh"), ["sage", "only dried"]),
    (lambda: hc.herb("basil"), ["fresh or dried"]),
    (lambda: hc.herb("basil", "frozen"), ["fresh or dried", "frozen"]),
    (lambda: hc.herb("basil", "dried", "ground"), ["leaves", "ground"]),
    (lambda: hc.Herb("x", "fresh", water=1.2, bulk_density=0.2), ["water", "0 and 1"]),
    (lambda: hc.Herb("x", "fresh", water=0.5, bulk_density=0), ["bulk density"]),
    (lambda: hc.Herb("", "fresh", water=0.5, bulk_density=0.2), ["needs a name"]),
    (lambda: hc.water_from_drying(100, 120), ["After drying", "120", "100"]),
    (lambda: hc.bulk_density_from_cup(20, 0), ["cup's volume", "more than 0"]),
    (lambda: jar(fill=1.2), ["fill", "0 and 1"]),
    (lambda: jar(fill=0), ["fill", "more than 0"]),
    (lambda: jar(), ["fill=", "herb_mass="]),
    (lambda: jar(fill=0.5, herb_mass=10), ["one of the two"]),
    (lambda: jar(herb_mass=180), ["180 g", "1667 mL", "500 mL", "at most 54 g"]),
    (lambda: jar(herb_mass=-3), ["herb's weight", "-3"]),
    (lambda: jar(volume=0, fill=0.5), ["jar's volume"]),
    (lambda: jar(fill=0.5, menstruum=40), ["needs a liquid"]),
    (lambda: hc.Jar(volume=500, herb="mint", fill=0.5, menstruum=hc.spirit(1, 40)),
     ["needs a herb"]),
    (lambda: hc.Jar(volume=100, fill=1, menstruum=hc.water(1),
                    herb=hc.Herb("mud", "fresh", water=0.5, bulk_density=1.3)),
     ["no room for liquid"]),
    (lambda: hc.spirit_for_final(hc.herb(*MINT), 100, 100, 80), ["Even 96 % spirit ends at"]),
    (lambda: hc.keeping(40), ["hc.keeping(jar.final)"]),
    (lambda: hc.keeping(hc.spirit([1, 2], 40)), ["one liquid at a time"]),
    (lambda: hc.keeping(hc.water(1)).use_by("today"), ["must be a date"]),
    (lambda: extraction.constituent("mentol"), ["Did you mean menthol"]),
    (lambda: extraction.solubility_gain(2, hc.spirit(1, 96)), ["up to 95 % vol"]),
    (lambda: extraction.steep(100, [50], 1), ["only wets the herb"]),
    (lambda: extraction.pressed(jar(fill=0.5), "by foot"), ["Known are", "screw press"]),
    (lambda: dose.drops_per_ml(hc.water(1), tube=0), ["dropper's tube"]),
]


def jar(**given):
    return hc.Jar(**{"volume": 500, "herb": hc.herb(*MINT), "menstruum": hc.spirit(1, 40),
                     **given})


@pytest.mark.parametrize("wrong, words", WRONG, ids=range(len(WRONG)))
def test_one_clear_sentence(wrong, words):
    with pytest.raises(ValueError) as caught:
        wrong()
    sentence = str(caught.value)
    for word in words:
        assert word in sentence
    assert "\n" not in sentence and len(sentence) < 260
    assert sentence.rstrip()[-1] in ".?"
    for jargon in ("array", "NoneType", "float", "nan", "inf,", "Traceback"):
        assert jargon not in sentence


def test_a_damaged_own_table_names_its_line_and_stays(tmp_path):
    table = tmp_path / "my-herbs.csv"
    hc.remember(hc.herb(*MINT).measured(bulk_density=0.2), tmp_path)
    text = table.read_text() + "nettle,,,fresh,,lots,0.1,me\n"
    table.write_text(text)
    with pytest.raises(ValueError, match="Line 3 of my-herbs.csv cannot be read"):
        hc.herb(*MINT, folder=tmp_path)
    with pytest.raises(ValueError, match="Line 3"):
        hc.remember(hc.herb(*MINT), tmp_path)
    assert table.read_text() == text


def test_own_weighings_come_first_and_last_longest(tmp_path):
    before = hc.herb(*MINT, folder=tmp_path)
    hc.remember(before.measured(bulk_density=0.2), tmp_path)
    hc.remember(before.measured(bulk_density=0.25, water=0.8), tmp_path)
    own = hc.herb(*MINT, folder=tmp_path)
    assert (own.bulk_density, own.water, own.source) == (0.25, 0.8, "your own weighing")
    assert hc.herb(*MINT).bulk_density == before.bulk_density
    assert sorted(p.name for p in tmp_path.iterdir()) == ["my-herbs.csv"]


def test_a_folder_that_cannot_be_written_gets_a_sentence(tmp_path):
    missing = tmp_path / "not there"
    with pytest.raises(ValueError, match="could not be written"):
        hc.remember(hc.herb(*MINT), missing)

"""The verbs for the real bench, run as a person at the keyboard runs them."""

import subprocess
import sys

import pytest
import vobject

from herbcalc import log

MINT = ["plan", "fresh peppermint", "--jar", "500", "--fill", "75", "--liquid", "spirit 95",
        "--final", "45", "--start", "2027-01-14"]


def say(folder, *words):
    """(exit status, what was printed, what went wrong)"""
    run = subprocess.run([sys.executable, "-P", "-m", "herbcalc", *map(str, words)], cwd=folder,
                         capture_output=True, text=True, encoding="utf-8")
    return run.returncode, run.stdout, run.stderr


def test_one_line_plans_writes_and_logs(tmp_path):
    status, said, wrong = say(tmp_path, *MINT, "--jars", 12, "--log", "--maker", "Quince Yard")
    assert (status, wrong) == (0, "")
    for words in ("Batch PEP-F-270114", "12 jars of 500 mL", "flash point", "15 to 20 years", "BUY",
                  "invented", "use by"):
        assert words in said
    names = {path.name for path in tmp_path.iterdir()}
    assert names == {"PEP-F-270114-sheet.pdf", "PEP-F-270114-labels.pdf", "PEP-F-270114.ics",
                     "batch-log.csv"}
    assert (tmp_path / "PEP-F-270114-sheet.pdf").read_bytes().startswith(b"%PDF-")
    days = vobject.readOne((tmp_path / "PEP-F-270114.ics").read_text(encoding="utf-8"))
    assert any(event.summary.value.startswith("Strain") for event in days.vevent_list)
    assert log.batches(tmp_path)["jars"].tolist() == [12]


def test_a_plan_can_be_looked_at_without_a_file(tmp_path):
    status, said, _ = say(tmp_path, *MINT, "--no-papers", "--tools", "kitchen", "--buy")
    assert status == 0 and "cup" in said and "BUY" in said and not list(tmp_path.iterdir())


def test_own_figures_of_the_herb_are_taken(tmp_path):
    _, usual, _ = say(tmp_path, *MINT, "--no-papers")
    _, own, _ = say(tmp_path, *MINT, "--no-papers", "--water", 50, "--density", 0.2)
    assert "40 g" in usual and "75 g" in own


def test_kitchen_words_are_read(tmp_path):
    status, said, _ = say(tmp_path, "plan", "dried thyme", "--jar", "1 pint", "--weight", "2 oz",
                          "--liquid", "vinegar 5", "--no-papers", "--start", "2027-01-14")
    assert status == 0 and "1 jar of 473 mL" in said and "57 g" in said


def test_the_papers_come_in_the_size_asked_for(tmp_path):
    import pypdfium2 as pdfium

    status, _, wrong = say(tmp_path, *MINT, "--page", "215.9x279.4", "--label", "100×70",
                           "--folder", "new/one")
    assert (status, wrong) == (0, "")
    page = pdfium.PdfDocument(tmp_path / "new" / "one" / "PEP-F-270114-labels.pdf")[0]
    assert page.get_size() == pytest.approx((612, 792), abs=0.1)  # Letter, in points


def test_the_cupboard_answers_with_batches_or_with_why(tmp_path):
    status, said, _ = say(tmp_path, "cupboard", "dried thyme", 100, "--have", "spirit 95 = 300",
                          "--have", "spirit 40=700", "--ratio", 5, "--final", 45)
    assert status == 0 and "1 jar of 599 mL" in said and "is used up" in said
    status, said, _ = say(tmp_path, "cupboard", "fresh spearmint", 100, "--have", "spirit 40 = 700",
                          "--ratio", 3, "--final", 45)
    assert status == 0 and "What would help" in said and "Nearest" in said


def test_from_a_look_to_the_shelf_and_its_page(tmp_path):
    say(tmp_path, *MINT, "--log", "--no-papers")
    status, said, _ = say(tmp_path, "shelf", "--day", "2027-02-11")
    assert status == 0 and said.startswith("to strain") and "PEP-F-270114" in said
    status, said, _ = say(tmp_path, "look", "PEP-F-270114", "--day", "2027-02-12", "--smell",
                          "doubtful", "--note", "musty, I think")
    assert status == 0 and "throw it out" in said
    status, said, _ = say(tmp_path, "shelf", "--day", "2027-02-12", "--page", "shelf.pdf")
    assert status == 0 and said.startswith("throw out")
    assert (tmp_path / "shelf.pdf").read_bytes().startswith(b"%PDF-")


def test_an_empty_shelf_and_a_price_list_of_ones_own(tmp_path):
    assert "no batch in the log yet" in say(tmp_path, "shelf")[1]
    status, said, _ = say(tmp_path, "prices")
    assert status == 0 and "my-prices.csv" in said and (tmp_path / "my-prices.csv").exists()
    status, said, wrong = say(tmp_path, "prices")
    assert status == 1 and "already" in wrong and said == ""


@pytest.mark.parametrize("words, said", [
    ([*MINT[:4], "--liquid", "spirit 95"], "one of the three"),
    ([*MINT, "--ratio", "5"], "one of the three"),
    ([*MINT[:-2], "--start", "soon"], "is no date"),
    (["plan", "fresh pepermint", *MINT[2:]], "Did you mean peppermint"),
    ([*MINT, "--jars", "12", "--label", "30x20"], "too small to be read"),
    (["plan", "dried thyme", "--jar", "500", "--ratio", "5", "--liquid", "rubbing alcohol 70"],
     "Never rubbing alcohol"),
    (["cupboard", "dried thyme", "100", "--have", "spirit 95", "--ratio", "5"], "equals sign"),
    (["cupboard", "dried thyme", "100", "--have", "spirit 95 = 300"], "one of the two"),
    (["look", "NOPE"], "no batch 'NOPE'"),
])
def test_what_does_not_go_is_one_sentence_and_leaves_nothing(tmp_path, words, said):
    status, out, wrong = say(tmp_path, *words)
    assert status == 1 and said in wrong
    assert len(wrong.strip().splitlines()) == 1 and "Traceback" not in wrong
    assert not list(tmp_path.iterdir())


def test_a_size_that_is_none_is_told_by_the_parser(tmp_path):
    status, _, wrong = say(tmp_path, *MINT, "--label", "big")
    assert status == 2 and "a width and a height in mm like 90x60" in wrong

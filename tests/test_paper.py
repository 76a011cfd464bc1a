"""Batch sheets and labels as PDF: read back and rendered by PDFium (pypdfium2), which shares no
code with matplotlib's writer."""

import re
import unicodedata
from datetime import date

import numpy as np
import pypdfium2 as pdfium
import pytest
from hypothesis import HealthCheck, given, settings, strategies as st

import herbcalc as hc
from herbcalc.figures import letters, paper

START = date(2027, 1, 10)
MM = 72 / 25.4
LONG = hc.Herb("lady's mantle from the old hedge behind the potting shed, third terrace",
               "fresh", 0.75, 0.12, latin="Alchemilla xanthochlora Rothm. var. longissima "
               "inventa-pro-probatione", part="flowering aerial parts without the woody stem")


def a_batch(**changes):
    return hc.Batch(**dict(dict(herb="fresh peppermint", jar=500, fill=0.75, liquid="spirit 95",
                                final_abv=45, start=START), **changes))


class Pdf:
    """What a reader makes of the file."""

    def __init__(self, path):
        self.bytes = path.read_bytes()
        self.document = pdfium.PdfDocument(self.bytes)
        self.pages = [self.document[n] for n in range(len(self.document))]

    def words(self):
        text = "\n".join(page.get_textpage().get_text_bounded() for page in self.pages)
        return unicodedata.normalize("NFC", " ".join(text.split()))

    def run_together(self):
        """Without spaces: a line break inside a name is no loss."""
        return self.words().replace(" ", "")

    def letter_boxes(self, number):
        page = self.pages[number].get_textpage()
        for n in range(page.count_chars()):
            if page.get_text_range(n, 1).strip():
                yield page.get_charbox(n)

    def picture(self, number, scale=2):
        return np.asarray(self.pages[number].render(scale=scale).to_pil().convert("L"))


def labels(folder, batch, **how):
    path = folder / "labels.pdf"
    pages = paper.label_sheet(batch, path, **how)
    pdf = Pdf(path)
    assert len(pdf.pages) == pages
    return pdf


# --- labels --------------------------------------------------------------------------------------


def test_a_label_says_what_pharmacopoeia_and_trade_ask(tmp_path):
    """Ph. Eur. and BP Extracts (0765), USP <565>, both from memory: plant, Latin name, part, fresh
    or dried, ratio, liquid, final % vol. Common practice, no source: code, days, cautions."""
    batch = a_batch()
    said = labels(tmp_path, batch, maker="Quince Yard, invented").words()
    for words in ("Peppermint tincture", "Mentha x piperita", "fresh peppermint, leaf",
                  f"1:{batch.made.ratio:.0f}, g of fresh herb to mL of liquid poured",
                  f"spirit of {batch.made.poured.abv:.0f} % vol; 45 % vol at the end",
                  "PEP-F-270110", "10 Jan 2027", "7 Feb 2027 to 21 Feb 2027", "6 Jan 2042",
                  "cool and dark", "Quince Yard, invented", "Contains 45 % vol alcohol",
                  "no flame", "children", "pregnant", "licensed practitioner"):
        assert words in said
    assert not re.search(r"\b(dose|daily|times a day|drops)\b", said)


def test_a_gap_is_left_for_what_is_missing(tmp_path):
    herb = hc.Herb("garden mint", "dried", 0.1, 0.1)
    said = labels(tmp_path, a_batch(herb=herb, liquid="spirit 40", final_abv=None)).words()
    assert "still missing" in said and "who made it, and where to ask?" in said


@pytest.mark.parametrize("label, page, margin, gap, across, down", [
    ((90, 60), (210, 297), 10, 3, 2, 4), ((70, 50), (210, 297), 10, 3, 2, 5),
    ((99.1, 67.7), (210, 297), 5, 0, 2, 4), ((90, 60), (215.9, 279.4), 12, 3, 2, 4),
    ((80, 60), (80, 60), 0, 0, 1, 1), ((100, 100), (148, 210), 10, 3, 1, 1),
])
def test_every_size_given_in_mm_is_the_size_on_paper(tmp_path, label, page, margin, gap, across,
                                                     down):
    how = dict(label=label, page=page, margin=margin, gap=gap)
    pdf = labels(tmp_path, a_batch(jars=across * down + 1), **how)
    assert len(pdf.pages) == 2
    for sheet in pdf.pages:
        assert sheet.get_size() == pytest.approx([side * MM for side in page], abs=0.01)
    assert paper.labels_on_a_page(**how) == (across, down)
    # the edges of the labels, found as dark lines in the picture of the page
    scale = 4
    picture = pdf.picture(0, scale)
    rows = [(margin + n * (label[1] + gap) + label[1] / 2) * MM * scale for n in range(down)]
    edges = [margin + n * (label[0] + gap) + at for n in range(across) for at in (0, label[0])]
    for x in edges:
        at = x * MM * scale
        seen = picture[round(rows[0]), max(round(at) - 3, 0):round(at) + 4]
        assert seen.min() < 200, f"no edge at {x} mm"


def test_nothing_is_cut_however_long_the_names(tmp_path):
    """Every letter lies inside its own label, and none is lost."""
    batch = a_batch(herb=LONG, jars=12, code="A-very-long-code-2027-01")
    maker = "The winter evening class of the community garden at Quince Yard, potting shed"
    pdf = labels(tmp_path, batch, label=(80, 92), margin=8, gap=4, maker=maker)
    said = pdf.run_together()
    for words in (LONG.name, LONG.latin, LONG.part, maker, "jar 12 of 12",
                  "A-very-long-code-2027-01"):
        assert words.replace(" ", "") in said
    columns, rows = paper.labels_on_a_page((80, 92), margin=8, gap=4)
    for number in range(len(pdf.pages)):
        for left, bottom, right, top in pdf.letter_boxes(number):
            column = int((left / MM - 8) // 84)
            row = int((297 - top / MM - 8) // 96)
            assert 0 <= column < columns and 0 <= row < rows
            x0, y0 = 8 + column * 84, 8 + row * 96
            assert x0 < left / MM and right / MM < x0 + 80
            assert y0 < 297 - top / MM and 297 - bottom / MM < y0 + 92


ALPHABET = ("àéîõüçñåøßþœæžčšřłğışāēģķņ ABCabc Σπύρος мята ромашка × ½ ‰ – „“ ’ € ° µ ₂ ² "
            "ΑΒΓ ЖЩЮ fi fl")


def test_every_letter_prints(tmp_path):
    """Text comes back letter by letter, and each letter leaves ink of its own shape: none is the
    empty box that stands for a letter the font lacks."""
    herb = hc.Herb(ALPHABET, "dried", 0.1, 0.3, latin=ALPHABET, part=ALPHABET)
    batch = a_batch(herb=herb, liquid="spirit 50", final_abv=None)
    pdf = labels(tmp_path, batch, label=(150, 150), maker=ALPHABET)
    plain = re.sub(r"\s", "", ALPHABET)
    assert pdf.run_together().count(plain) >= 3  # maker, Latin name, part
    for style in (dict(), dict(bold=True), dict(italic=True),
                  dict(bold=True, family=letters.SERIF)):
        path = letters.findfont(letters.FontProperties(
            family=letters.face(ALPHABET, **style)["fontfamily"]))
        assert not letters._lacking(frozenset(plain), path)
    paper.batch_sheet(batch, tmp_path / "sheet.pdf")
    assert plain in Pdf(tmp_path / "sheet.pdf").run_together()


def test_a_letter_that_only_another_font_has_is_found_or_told(tmp_path):
    """On a computer with a font for it, it prints; elsewhere one sentence says so."""
    herb = hc.Herb("甘草 gan cao", "dried", 0.1, 0.3, latin="Glycyrrhiza uralensis", part="root")
    batch = a_batch(herb=herb, liquid="spirit 50", final_abv=None)
    try:
        said = labels(tmp_path, batch).run_together()
    except ValueError as error:
        assert re.search(r"No font on this computer has the letter '[甘草]'", str(error))
        assert not list(tmp_path.iterdir())
    else:
        assert "甘草gancao" in said


@settings(max_examples=8, deadline=None,
          suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.text(st.characters(max_codepoint=0x24F, exclude_categories=["Cs", "Co", "Cn"]),
               min_size=1, max_size=120).filter(lambda name: letters.plain(name)))
def test_any_name_comes_back_whole(tmp_path_factory, name):
    folder = tmp_path_factory.mktemp("labels")
    herb = hc.Herb(name if name.strip() else "x" + name, "dried", 0.1, 0.3, latin="Nomen",
                   part="leaf")
    pdf = labels(folder, a_batch(herb=herb, liquid="spirit 50", final_abv=None),
                 label=(120, 130), maker="Quince Yard")
    # a soft hyphen is a control letter and is not set; PDFium tells a hyphen at a line's end apart
    bare = re.sub(r"[\s\u00ad\u2010\ufffe-]", "", letters.plain(name))
    assert bare in re.sub(r"[\u00ad\u2010\ufffe\x02-]", "", pdf.run_together())


def test_the_smallest_letters_can_be_read(tmp_path):
    """Regulation (EU) 1169/2011, Article 13 (from memory): an x at least 0.9 mm high on packs
    whose largest side is under 80 cm2."""
    from matplotlib.font_manager import FontProperties
    from matplotlib.textpath import text_to_path

    path, _, _ = text_to_path.get_text_width_height_descent(
        "x", FontProperties(family=letters.SANS, size=0.9 * paper.SMALLEST), False), None, None
    assert path[1] / MM >= 0.9
    with pytest.raises(ValueError, match="too small to be read") as caught:
        labels(tmp_path, a_batch(), label=(45, 30))
    need = int(re.search(r"at least (\d+) mm high", str(caught.value))[1])
    labels(tmp_path, a_batch(), label=(45, need))  # what it says really does
    with pytest.raises(ValueError, match="too small"):
        labels(tmp_path, a_batch(), label=(45, need - 2))


def test_jars_are_numbered_and_bottles_counted(tmp_path):
    said = labels(tmp_path, a_batch(jars=12)).words()
    assert [int(n) for n in re.findall(r"jar (\d+) of 12", said)] == list(range(1, 13))
    said = labels(tmp_path, a_batch(jars=12), count=30, content=50).words()
    assert said.count("PEP-F-270110") == 30 and "jar 1 of" not in said and "50 mL" in said


def test_a_sheet_half_used_is_used_on(tmp_path):
    pdf = labels(tmp_path, a_batch(jars=6), skip=5)
    assert len(pdf.pages) == 2
    upper = pdf.picture(0)
    half = upper[: int(2 * 63 * MM * 2)]
    assert (half > 250).all(), "the places used up stay white"


@pytest.mark.parametrize("how, said", [
    (dict(label=(250, 50)), "does not fit on a page"), (dict(label=5), "a width and a height"),
    (dict(label=(-5, 50)), "between 10"), (dict(label=("wide", 50)), "number"),
    (dict(margin=-1), "between 0"), (dict(count=0), "between 1"), (dict(count=1.5), "whole number"),
    (dict(skip=8), "skip fewer"), (dict(page=(210, float("nan"))), "number"),
])
def test_sizes_that_make_no_sense(tmp_path, how, said):
    with pytest.raises(ValueError, match=said):
        labels(tmp_path, a_batch(), **how)
    assert not list(tmp_path.iterdir())


# --- the batch sheet -----------------------------------------------------------------------------


def sheet(folder, batch, **how):
    path = folder / "sheet.pdf"
    pages = paper.batch_sheet(batch, path, **how)
    pdf = Pdf(path)
    assert len(pdf.pages) == pages
    return pdf


BATCHES = {
    "usual": dict(),
    "twelve": dict(jars=12, tools="kitchen"),
    "vinegar": dict(liquid="raw vinegar 5", final_abv=None),
    "mixture": dict(liquid={"spirit 95": 2, "glycerin": 1, "vinegar 5": 1, "water": 1},
                    final_abv=None),
    "watery": dict(liquid="water", final_abv=None),
    "long": dict(herb=LONG, jars=12, liquid={"spirit 95": 3, "glycerin": 1, "water": 1}),
}


@pytest.mark.parametrize("name", BATCHES)
def test_the_sheet_is_one_page_with_all_of_it(tmp_path, name):
    batch = a_batch(**BATCHES[name])
    pdf = sheet(tmp_path, batch, shopping=hc.shop(batch), maker="Quince Yard (invented)")
    assert len(pdf.pages) == 1
    assert pdf.pages[0].get_size() == pytest.approx((210 * MM, 297 * MM), abs=0.01)
    said = pdf.run_together()
    for amount in batch.amounts:
        assert amount.metric.words.replace(" ", "") in said
        assert amount.kitchen.words.replace(" ", "") in said
    for words in (*batch.cautions, *batch.rounding, *batch.keeping.reasons, batch.code,
                  batch.keeping.range, batch.keeping.deciding, batch.final_words,
                  *map(str, hc.shop(batch).baskets)):
        assert letters.plain(words).replace(" ", "") in said
    inside = pdf.pages[0].get_size()
    for left, bottom, right, top in pdf.letter_boxes(0):
        assert 0.02 * inside[0] < left < right < 0.98 * inside[0]
        assert 0.01 * inside[1] < bottom < top < 0.99 * inside[1]


def test_no_letter_lies_on_another(tmp_path):
    """The boxes of the letters, read back, hardly overlap anywhere on the sheet (two letters set
    as one, like fl, have one box)."""
    pdf = sheet(tmp_path, a_batch(jars=12))
    boxes = np.array(sorted(set(pdf.letter_boxes(0))))
    left, bottom, right, top = boxes.T
    over = (np.minimum.outer(right, right) - np.maximum.outer(left, left)).clip(0)
    over = over * (np.minimum.outer(top, top) - np.maximum.outer(bottom, bottom)).clip(0)
    np.fill_diagonal(over, 0)
    area = (right - left) * (top - bottom)
    assert (over.max(axis=1) < 0.5 * area + 0.3).all()


@pytest.mark.parametrize("page", [(100, 140), (148, 210), (215.9, 279.4), (420, 297)])
def test_any_page_that_can_hold_a_sheet_holds_all_of_it(tmp_path, page):
    batch = a_batch(jars=12)
    pdf = sheet(tmp_path, batch, page=page)
    said = pdf.run_together()
    for words in (*batch.cautions, *batch.rounding):
        assert words.replace(" ", "") in said
    for sheet_page in pdf.pages:
        assert sheet_page.get_size() == pytest.approx([side * MM for side in page], abs=0.01)
    for number in range(len(pdf.pages)):
        for left, bottom, right, top in pdf.letter_boxes(number):
            assert 0 < left < right < page[0] * MM and 0 < bottom < top < page[1] * MM


def test_a_page_too_small_for_a_sheet(tmp_path):
    with pytest.raises(ValueError, match="at least 100 × 140"):
        sheet(tmp_path, a_batch(), page=(90, 200))


# --- the files -----------------------------------------------------------------------------------


def test_paper_is_vector_and_the_same_bytes_each_time(tmp_path):
    batch = a_batch()
    first, second = sheet(tmp_path, batch).bytes, sheet(tmp_path, batch).bytes
    assert first == second
    for pdf in (sheet(tmp_path, batch), labels(tmp_path, batch)):
        kinds = {thing.type for page in pdf.pages for thing in page.get_objects()}
        assert pdfium.raw.FPDF_PAGEOBJ_IMAGE not in kinds
        assert {pdfium.raw.FPDF_PAGEOBJ_TEXT, pdfium.raw.FPDF_PAGEOBJ_PATH} <= kinds
        assert b"/Subtype /Type3" not in pdf.bytes and b"/FontFile2" in pdf.bytes  # TrueType
        assert pdf.document.get_metadata_dict()["Title"].endswith(batch.code)


def test_what_cannot_be_written_leaves_nothing(tmp_path):
    for write in (paper.batch_sheet, paper.label_sheet):
        with pytest.raises(ValueError, match="could not be written"):
            write(a_batch(), tmp_path / "nowhere" / "x.pdf")
    assert not list(tmp_path.iterdir())

"""Lessons on paper: complete in one file, stills for sliders, the teacher's notes only for them."""

import re
import subprocess
from html.parser import HTMLParser

import pytest

from browser import chromium

from herbcalc import handouts, lessons, places

ALL = lessons.lessons()


class Page(HTMLParser):
    """What a page asks for from elsewhere, its pictures, and its words."""

    def __init__(self, html):
        super().__init__()
        self.fetched, self.pictures, self.words, self._skip = [], [], [], False
        self.feed(html)

    def handle_starttag(self, tag, attributes):
        attributes = dict(attributes)
        self._skip = tag in ("style", "script")
        if tag in ("script", "link", "iframe"):
            self.fetched.append(tag)
        if tag == "img":
            self.pictures.append(attributes)
            if not attributes.get("src", "").startswith("data:image/"):
                self.fetched.append(attributes.get("src"))

    def handle_endtag(self, tag):
        self._skip = False

    def handle_data(self, data):
        if not self._skip:
            self.words.append(data)

    @property
    def text(self):
        return " ".join(" ".join(self.words).split())


@pytest.mark.parametrize("lesson", ALL, ids=lambda lesson: lesson.path.stem)
def test_a_handout_is_complete_and_has_no_teachers_notes(lesson):
    page = Page(handouts.handout_html(lesson.path))
    assert page.fetched == []
    assert page.pictures and all(picture.get("alt") for picture in page.pictures)
    assert "For whoever leads the class" not in page.text
    assert "explore." not in page.text, "cells that only raise a panel are left out"
    assert "$$" not in page.text and "\\frac" not in page.text


@pytest.mark.parametrize("lesson", [one for one in ALL if one.number], ids=lambda one: one.number)
def test_the_teachers_edition_has_the_notes(lesson):
    page = Page(handouts.handout_html(lesson.path, teacher=True))
    assert page.text.count("For whoever leads the class") >= 2
    assert "minutes" in page.text and "Teacher's edition" in page.text


@pytest.mark.parametrize("teacher", [False, True])
def test_links_lead_to_the_pages_that_are_there(tmp_path, teacher):
    pair = [lesson for lesson in ALL if lesson.number in ("00", "01")]
    made = handouts.make(pair, tmp_path, teacher=teacher, pdf=False)
    assert [one.pdf for one in made] == [None, None]
    for one in made:
        html = one.page.read_text(encoding="utf-8")
        targets = [t for t in re.findall(r'href="([^"#]+\.\w+)', html)]
        assert targets and ".ipynb" not in html
        for target in targets:
            assert (tmp_path / target).is_file(), target


def test_formulas_become_mathml_and_prices_do_not():
    said = handouts.with_mathml(r"$$a = \frac{b}{c}$$ at $x=1$, for 5 $ or US$ 6 or `$HOME`")
    assert said.count("<math") == 2 and "<mfrac>" in said
    assert said.endswith("for 5 $ or US$ 6 or `$HOME`")


def test_a_damaged_notebook_gets_one_sentence(tmp_path):
    broken = tmp_path / "mine.ipynb"
    broken.write_text("not a notebook")
    with pytest.raises(ValueError, match="mine.ipynb cannot be read as a notebook"):
        handouts.handout_html(broken)


@pytest.mark.browser
def test_a_pdf_holds_the_words_and_fits_the_paper(tmp_path):
    chromium()

    lesson = lessons.find("02", ALL)
    made = handouts.make([lesson], tmp_path)[0]
    pdf = made.pdf.read_bytes()
    assert pdf.startswith(b"%PDF") and b"/Image" in pdf
    if subprocess.run(["which", "pdftotext"], capture_output=True).returncode == 0:
        text = subprocess.run(["pdftotext", str(made.pdf), "-"], capture_output=True, text=True,
                              check=True).stdout
        assert "02 Diluting" in text and "971 mL" in " ".join(text.split())


def test_every_lesson_is_there():
    numbers = [lesson.number for lesson in ALL if lesson.number]
    assert numbers == sorted(numbers) and "00" in numbers
    assert places.notebooks().is_dir()

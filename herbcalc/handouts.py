"""Lessons on paper: self-contained HTML pages, and PDF where Chromium is at hand.

A handout is made from a notebook as it is saved: its stills stand in place of the sliders, the
cells that only raise a panel are left out, formulas become MathML, and everything (pictures,
styles) is inside the one file. The teacher's edition keeps the notes for whoever leads the class;
the student's never has them.
"""

import re
import subprocess
import tempfile
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import escape
from pathlib import Path

import nbformat

from herbcalc import places
from herbcalc.files import write_whole
from herbcalc.lessons import Lesson

__all__ = ["Handout", "handout_html", "make", "with_mathml"]

_DISPLAY = re.compile(r"\$\$(.+?)\$\$", re.DOTALL)
_INLINE = re.compile(r"(?<![\\$\w])\$(?![\s$])([^$\n]+?)(?<!\s)\$(?![\w$])")


@dataclass(frozen=True)
class Handout:
    """What was written for one lesson: the page, the PDF (None without Chromium)."""

    lesson: str
    page: Path
    pdf: Path | None


def with_mathml(markdown: str) -> str:
    """Markdown with its TeX formulas as MathML, which browsers and printers show by themselves.

    >>> with_mathml("so $x = 2$")[:25]
    'so <math xmlns="http://ww'
    >>> with_mathml("It costs 3 $ or 4 $.")
    'It costs 3 $ or 4 $.'
    """
    from latex2mathml.converter import convert

    def turned(display):
        # No line breaks: Markdown would take them for paragraphs.
        return lambda found: convert(found[1].strip(), display=display).replace("\n", " ")

    return _INLINE.sub(turned("inline"), _DISPLAY.sub(turned("block"), markdown))


def handout_html(path: Path, teacher: bool = False, linked: Iterable[str] = ()) -> str:
    """The page of one notebook, complete in itself.

    Parameters
    ----------
    path : Path
        of the notebook
    teacher : bool
        keep the notes for whoever leads the class
    linked : names of notebooks
        whose pages will stand beside this one: links to them are turned; others become plain text

    Raises
    ------
    ValueError
        when the notebook cannot be read.
    """
    from nbconvert import HTMLExporter
    from nbconvert.preprocessors import TagRemovePreprocessor
    from traitlets.config import Config

    try:
        notebook = nbformat.read(path, as_version=4)
    except Exception as error:  # nbformat, json and the file system each have their own
        raise ValueError(f"{path.name} cannot be read as a notebook.") from error
    linked = set(linked)
    for cell in notebook.cells:
        tags = cell.metadata.get("tags", [])
        if cell.metadata.get("jupyter", {}).get("source_hidden") and "panel" not in tags:
            cell.metadata.tags = [*tags, "panel"]
        if cell.cell_type == "markdown":
            cell.source = with_mathml(_with_page_links(cell.source, linked))
            if "teacher" in tags:
                cell.source = f'<div class="for-teacher">\n\n{cell.source}\n\n</div>'
    exporter = HTMLExporter(template_name="basic", config=Config({
        "HTMLExporter": {"preprocessors": [TagRemovePreprocessor]},
        "TagRemovePreprocessor": {
            "enabled": True,
            "remove_cell_tags": [] if teacher else ["teacher"],
            "remove_input_tags": ["panel"],
        },
    }))
    exporter.exclude_input_prompt = exporter.exclude_output_prompt = True
    exporter.exclude_anchor_links = True
    body, _ = exporter.from_notebook_node(notebook)
    title = _title(notebook, path.stem)
    edition = "Teacher's edition" if teacher else "Handout"
    style = Path(__file__).with_name("handout.css").read_text(encoding="utf-8")
    return (
        f'<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">\n'
        f'<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(title)} · {edition}</title>\n<style>\n{style}</style></head>\n"
        f'<body><p class="edition">{edition}</p><main>\n{body}\n</main></body></html>\n'
    )


def make(lessons: Sequence[Lesson], folder: Path, teacher: bool = False, pdf: bool = True,
         tell=lambda sentence: None) -> tuple[Handout, ...]:
    """Write the handouts of some lessons into a folder.

    Parameters
    ----------
    lessons : sequence of Lesson
    folder : Path
        made when missing
    teacher : bool
        the teacher's edition; its files say so in their names
    pdf : bool
        also a PDF each, where Chromium is found
    tell : callable
        is told one line as each lesson is done

    Raises
    ------
    OSError
        when the folder cannot be written.
    """
    folder.mkdir(parents=True, exist_ok=True)
    ending = "-teacher" if teacher else ""
    linked = {lesson.path.stem: f"{lesson.path.stem}{ending}.html" for lesson in lessons}
    browser = places.chromium() if pdf else None
    done = []
    for lesson in lessons:
        html = handout_html(lesson.path, teacher, linked)
        if teacher:
            for stem, page in linked.items():
                html = html.replace(f'href="{stem}.html', f'href="{page}')
        page = folder / linked[lesson.path.stem]
        write_whole(page, html)
        printed = _print(browser, page) if browser else None
        done.append(Handout(lesson.title, page, printed))
        tell(f"  {page.name}{' and PDF' if printed else ''}")
    return tuple(done)


def _print(browser: str, page: Path) -> Path | None:
    pdf = page.with_suffix(".pdf")
    with tempfile.TemporaryDirectory() as profile:
        made = Path(profile, "page.pdf")
        subprocess.run(
            [browser, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic",
             "--no-first-run", "--disable-background-networking", "--disable-component-update",
             "--disable-sync", "--no-pdf-header-footer", f"--user-data-dir={profile}/browser",
             f"--print-to-pdf={made}", page.resolve().as_uri()],
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, timeout=120, check=False,
        )
        if not made.is_file():
            return None
        write_whole(pdf, made.read_bytes())
    return pdf


def _with_page_links(markdown: str, linked) -> str:
    """Links between notebooks: to the page beside where there is one, else only its words."""
    def turned(found):
        words, stem, anchor = found[1], found[2], found[3] or ""
        return f"[{words}]({stem}.html{anchor})" if stem in linked else words

    return re.sub(r"\[([^\]]+)\]\(([\w-]+)\.ipynb(#[\w-]+)?\)", turned, markdown)


def _title(notebook, otherwise: str) -> str:
    for cell in notebook.cells:
        heading = re.search(r"^# +(.+)$", cell.source, flags=re.MULTILINE)
        if cell.cell_type == "markdown" and heading:
            return heading[1].strip()
    return otherwise

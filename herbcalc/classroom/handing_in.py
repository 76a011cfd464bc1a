"""Before handing in: run the notebook from top to bottom in a fresh kernel, and say what holds.

nbval runs it (pytest in a process of its own); the homework opened in that run writes the outcome
of each check into a log, and the two together are told in plain words.
"""

from __future__ import annotations

import html
import json
import os
import re
import subprocess
import sys
import tempfile
import time
import xml.etree.ElementTree as ElementTree
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from herbcalc.classroom.topics import find_topic

__all__ = ["RUN_LOG", "Report", "before_handing_in", "find_notebook"]

RUN_LOG = "HERBCALC_RUN_LOG"  # set while a notebook is run to be checked: where checks are noted
SECONDS_A_CELL = 60
LARGEST = 50_000_000  # bytes; a homework with its cards has some 100 000


@dataclass(frozen=True)
class Report:
    """What the run found.

    Parameters
    ----------
    holds : bool
        the notebook runs from the top and gives what it gave before; blanks are no fault
    summary : str
        one or two sentences
    lines : tuple of (sign, text)
        one for each question and each trouble
    """

    holds: bool
    summary: str
    lines: tuple[tuple[str, str], ...] = ()

    def __repr__(self):
        return "\n".join([self.summary, *(f"  {sign} {text}" for sign, text in self.lines)])

    def _repr_html_(self):
        sign, colour = ("✓", "#00545c") if self.holds else ("!", "#c8400f")
        lines = "".join(f"<li style='list-style:none'>{html.escape(sign)} {html.escape(text)}</li>"
                        for sign, text in self.lines)
        return (
            f"<div role='status' style='border-left:6px solid {colour};padding:.5em 1em;"
            f"max-width:44em;line-height:1.45'><p style='margin:0'><strong>{sign}</strong> "
            f"{html.escape(self.summary)}</p><ul style='margin:.4em 0;padding-left:.5em'>{lines}"
            "</ul></div>"
        )


def before_handing_in(path: str | Path, session: Mapping | None = None) -> Report:
    """Run a student's notebook from top to bottom and say whether everything still holds.

    What stands in the notebook is run as it is: for one's own work, not for marking others'.

    Parameters
    ----------
    path : path
        of the notebook, as saved; it is not changed
    session : mapping, optional
        the answers last checked in the open notebook, by question: tells when it was not saved

    Returns
    -------
    Report

    Raises
    ------
    ValueError
        when the file is no homework, or cannot be run here.
    """
    path = Path(path)
    notebook = _read(path)
    topic = find_topic(_homework_of(notebook, path))
    with tempfile.TemporaryDirectory(prefix="before-handing-in-") as folder:
        ran, checks = _run(notebook, path, Path(folder))
    return _report(topic, notebook, path, ran, checks, session or {})


def find_notebook(homework: str, shell=None) -> Path:
    """The notebook in which the asking kernel runs.

    Raises
    ------
    ValueError
        when it cannot be told, saying what to write instead.
    """
    named = [getattr(shell, "user_ns", {}).get("__vsc_ipynb_file__"),
             os.environ.get("JPY_SESSION_NAME")]  # an editor's name for it, Jupyter's name for it
    for name in named:
        if name and name.endswith(".ipynb") and Path(name).is_file():
            return Path(name)
    here = []
    for path in sorted(Path.cwd().glob("*.ipynb")):
        try:
            if _homework_of(_read(path), path) == homework:
                here.append(path)
        except ValueError:
            continue
    if len(here) == 1:
        return here[0]
    raise ValueError(
        "I cannot tell which file this notebook is. Write its name between the brackets: "
        'homework.before_handing_in("homework.ipynb").'
    )


# --- reading and running -------------------------------------------------------------------------


def _read(path: Path) -> dict:
    try:
        if path.stat().st_size > LARGEST:
            raise ValueError(f"{path.name} is far too large for a homework.")
        notebook = json.loads(path.read_text(encoding="utf-8"))
    except OSError as error:
        raise ValueError(f"{path.name} cannot be read: {error.strerror}.") from None
    except (UnicodeDecodeError, json.JSONDecodeError, RecursionError):
        raise ValueError(f"{path.name} is damaged: it is not a notebook any more.") from None
    if not _is_notebook(notebook):
        raise ValueError(f"{path.name} is not a notebook.")
    return notebook


def _is_notebook(notebook) -> bool:
    """Whether it is laid out as a notebook as far as it is read here."""
    if not isinstance(notebook, dict) or not isinstance(notebook.get("cells"), list):
        return False
    parts = [notebook, *notebook["cells"]]
    if not all(isinstance(p, dict) and isinstance(p.get("metadata", {}), dict) for p in parts):
        return False
    outputs = [cell.get("outputs", []) for cell in notebook["cells"]]
    return all(isinstance(some, list) and all(isinstance(one, dict) for one in some)
               for some in outputs)


def _homework_of(notebook, path) -> str:
    identity = notebook.get("metadata", {}).get("herbcalc", {})
    name = identity.get("homework") if isinstance(identity, dict) else None
    if not isinstance(name, str):
        raise ValueError(f"{path.name} is a notebook but not one of this course's homeworks.")
    return name


def _run(notebook, path, folder) -> tuple[list, dict]:
    """What nbval says of each code cell, and the last check of each question."""
    # A copy under a plain name (the student's may hold anything) and without outputs. It runs
    # where the student's file lies, so that a table of one's own is found.
    unrun = {"outputs": [], "execution_count": None}
    enter = {"cell_type": "code", "id": "enter", "metadata": {},
             "source": f"import os; os.chdir({str(path.resolve().parent)!r})"} | unrun
    cells = [cell | unrun if cell.get("cell_type") == "code" else cell
             for cell in notebook["cells"]]
    copy = folder / "homework.ipynb"
    copy.write_text(json.dumps(notebook | {"cells": [enter, *cells]}), encoding="utf-8")
    (folder / "pytest.ini").write_text("[pytest]\n", encoding="utf-8")
    log, results = folder / "checks.jsonl", folder / "results.xml"
    environment = {name: value for name, value in os.environ.items()
                   if not name.startswith("PYTEST_")}
    environment |= {RUN_LOG: str(log), "PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1"}
    command = [sys.executable, "-m", "pytest", "-p", "nbval.plugin", "-p", "no:cacheprovider",
               "--nbval-lax", "--nbval-current-env", f"--nbval-cell-timeout={SECONDS_A_CELL}",
               "-q", "-c", "pytest.ini", f"--rootdir={folder}", f"--junitxml={results}", copy.name]
    done = subprocess.run(command, cwd=folder, env=environment, capture_output=True, text=True)
    if not results.exists():
        if "nbval" in done.stderr and "No module" in done.stderr:
            raise ValueError("This check needs nbval: install it with pip install nbval.")
        last = (done.stderr.strip() or done.stdout.strip() or "no reason given").splitlines()[-1]
        raise ValueError(f"{path.name} could not be run: {last[:200]}")
    checks = {}
    if log.exists():
        for line in log.read_text(encoding="utf-8").splitlines():
            one = json.loads(line)
            checks[one["question"]] = one
    cases = ElementTree.parse(results).getroot().iter("testcase")
    return [_trouble(case) for case in cases][1:], checks


def _trouble(case) -> str:
    """What went wrong in a cell, as short as it can be said; empty where nothing did."""
    failure = case.find("failure") if case.find("failure") is not None else case.find("error")
    if failure is None:
        return ""
    text = re.sub(r"\x1b\[[0-9;]*m|#x1B\[[0-9;]*m", "", failure.text or "")
    if "Timeout" in text:
        return f"it did not come to an end in {SECONDS_A_CELL} seconds"
    if "Kernel" in text and "dead" in text.lower():
        return "Python itself stopped there"
    errors = re.findall(r"^\w*(?:Error|Exception|Interrupt|Exit)\b.*$", text, flags=re.M)
    return errors[-1].strip()[:200] if errors else "it stopped with an error"


# --- telling -------------------------------------------------------------------------------------


def _report(topic, notebook, path, ran, checks, session) -> Report:
    code = [cell for cell in notebook["cells"] if cell.get("cell_type") == "code"]
    troubles = [(cell, trouble) for cell, trouble in zip(code, ran) if trouble]
    if troubles and "start" in _tags(troubles[0][0]):
        return Report(False, f"The first cell of {path.name} does not run, so nothing could be "
                             f"checked: {troubles[0][1]}")
    lines, holds = [], True
    stopped = {_question(cell): trouble for cell, trouble in troubles}
    before = _outcomes_before(code)
    blank, right = [], 0
    for place, question in enumerate(topic.homework, start=1):
        check = checks.get(question.name)
        outcome = check["outcome"] if check else "blank"
        sign, text, fine = _line(question, check, stopped, before, session)
        holds &= fine
        right += outcome == "right" and question.automatic and not question.optional
        if outcome == "blank" and not question.optional:
            blank.append(str(place))
        lines.append((sign, f"{'Extra' if question.optional else f'Question {place}'}: {text}"))
    for cell, trouble in troubles:
        if _question(cell) is None:
            holds = False
            lines.append(("!", f"The cell that starts “{_source(cell)[:40].strip()}” stops: "
                               f"{trouble}"))
    automatic = sum(q.automatic and not q.optional for q in topic.homework)
    saved = time.strftime("%H:%M", time.localtime(path.stat().st_mtime))
    summary = ("Everything holds: " if holds else "Something needs a look: ")
    summary += (f"run from the top as saved at {saved}, {right} of {automatic} are right, "
                + (f"left blank: {', '.join(blank)}." if blank else "nothing is left blank."))
    return Report(holds, summary, tuple(lines))


def _line(question, check, stopped, before, session) -> tuple[str, str, bool]:
    """Sign, words, and whether all is well with one question."""
    name = question.name
    if name in stopped:
        return "!", f"the cell stops: {stopped[name]}", False
    if check is None:
        return "!", "its answer line or its check is gone; take them from a fresh copy", False
    outcome = check["outcome"]
    if name in session and json.dumps(session[name]) != json.dumps(check["answer"]):
        return "!", ("the saved file holds another answer than the one you checked last: save "
                     "(Ctrl+S) and run this cell again"), False
    if before.get(name) in ("right", "written") and outcome != before[name]:
        return "!", (f"it was {before[name]} when you checked it, but from a fresh start it is "
                     f"{outcome}: does its line use something from a cell that is gone or comes "
                     "later?"), False
    signs = {"right": "●", "written": "●", "close": "◐"}
    words = {"blank": "left blank", "written": "written, your teacher reads it",
             "wrong turn": "not right yet, see the hint under it", "not yet": "not right yet",
             "unreadable": "written in a way that cannot be read, see the note under it"}
    if outcome == "blank" and question.optional:
        return "·", "left out", True
    return signs.get(outcome, "○"), words.get(outcome, outcome), True


def _outcomes_before(code) -> dict:
    """The outcomes saved in the notebook under its checks."""
    found = {}
    for cell in code:
        called = re.fullmatch(r'homework\.check\("([a-z0-9-]+)"\)', _source(cell).strip())
        for output in cell.get("outputs", []) if called else ():
            metadata = output.get("metadata")
            own = metadata.get("herbcalc") if isinstance(metadata, dict) else None
            if isinstance(own, dict) and "outcome" in own:
                found[called[1]] = own["outcome"]
    return found


def _question(cell) -> str | None:
    """The question a cell belongs to: as answer by its label, as check by what it calls."""
    own = cell.get("metadata", {}).get("herbcalc")
    if isinstance(own, dict) and isinstance(own.get("question"), str):
        return own["question"]
    called = re.search(r'homework\.check\("([a-z0-9-]+)"\)', _source(cell))
    return called[1] if called else None


def _tags(cell) -> list:
    tags = cell.get("metadata", {}).get("tags", [])
    return tags if isinstance(tags, list) else []


def _source(cell) -> str:
    source = cell.get("source", "")
    return source if isinstance(source, str) else "".join(map(str, source))

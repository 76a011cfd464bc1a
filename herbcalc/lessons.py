"""The lessons' originals, and the copies a student works in.

A student's copy is the original without the teacher's notes. Beside the copies a small hidden
file remembers what was handed out, so that handing out again never touches a student's own
words and can tell what is new.
"""

import hashlib
import json
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from herbcalc import places
from herbcalc.files import write_whole

__all__ = ["HIDDEN", "HandedOut", "Lesson", "find", "hand_out", "lessons", "student_copy"]

HIDDEN = ".herbcalc"  # the folder in the student's folder that is ours, not theirs
_MEMORY = "handed-out.json"


@dataclass(frozen=True)
class Lesson:
    """One lesson: its file, its number as text ("" when it has none) and its title."""

    path: Path
    number: str
    title: str


@dataclass(frozen=True)
class HandedOut:
    """What handing out did: names of files new, brought up to date, and put beside as newer."""

    new: tuple[str, ...] = ()
    updated: tuple[str, ...] = ()
    newer: Mapping[str, str] = field(default_factory=dict)  # the student's copy -> the newer one beside it


def lessons(folder: Path | None = None) -> tuple[Lesson, ...]:
    """All lessons of a folder (the originals' when None), in the order they are taught.

    A lesson's title is its first heading. Raises ValueError when a lesson cannot be read.
    """
    folder = places.notebooks() if folder is None else Path(folder)
    found = []
    for path in sorted(folder.glob("*.ipynb")):
        number = re.match(r"\d+", path.stem)
        found.append(Lesson(path, number[0] if number else "", _title(path)))
    return tuple(found)


def find(wanted: str, among: tuple[Lesson, ...]) -> Lesson:
    """The lesson meant by a number ("3", "03"), a file's name or a part of it ("what-if").

    Raises ValueError, naming the lessons there are, when none or several are meant.

    >>> jar = Lesson(Path("03-hidden-water.ipynb"), "03", "The water hidden in the herb")
    >>> find("3", (jar,)).title
    'The water hidden in the herb'
    """
    word = wanted.strip().lower().removesuffix(".ipynb")
    for meant in (
        lambda lesson: lesson.path.stem.lower() == word,
        lambda lesson: word.isdecimal() and lesson.number and int(lesson.number) == int(word),
        lambda lesson: word and not word.isdecimal() and word in lesson.path.stem.lower(),
    ):
        hits = [lesson for lesson in among if meant(lesson)]
        if len(hits) == 1:
            return hits[0]
    names = ", ".join(lesson.number or lesson.path.stem for lesson in among)
    raise ValueError(f"There is no lesson '{wanted}'; the lessons are {names}.")


def student_copy(original: str) -> str:
    """The text of a notebook file without the cells tagged `teacher`.

    >>> note = {"cell_type": "markdown", "metadata": {"tags": ["teacher"]}, "source": "Ask first"}
    >>> student_copy(json.dumps({"cells": [note], "nbformat": 4})).split()
    ['{', '"cells":', '[],', '"nbformat":', '4', '}']
    """
    notebook = json.loads(original)
    notebook["cells"] = [
        cell
        for cell in notebook["cells"]
        if "teacher" not in cell.get("metadata", {}).get("tags", ())
    ]
    return json.dumps(notebook, indent=1, ensure_ascii=False) + "\n"


def hand_out(folder: Path, originals: Path | None = None) -> HandedOut:
    """Bring the student's folder up to date without touching anything they wrote.

    A lesson that is not there is copied. One that has changed since it was handed out
    replaces the student's copy only when they changed no word of it (having run it is no
    change); otherwise theirs stays and the newer one is put beside it under its own name.

    Raises OSError when the folder cannot be written; files already written stay whole.
    """
    originals = _all_originals() if originals is None else {
        path.name: path for path in sorted(Path(originals).glob("*.ipynb"))}
    (folder / HIDDEN).mkdir(parents=True, exist_ok=True)
    remembered = _recall(folder)
    new, updated, newer = [], [], {}
    for name, path in originals.items():
        text = student_copy(path.read_text(encoding="utf-8"))
        now = {"file": _hash(text), "words": _words(text)}
        then = remembered.get(name)
        copy = folder / name
        if not copy.exists():
            write_whole(copy, text)
            new.append(name)
        elif then is None or then == now:
            pass  # theirs from elsewhere, or nothing new
        elif _words_of(copy) == then["words"]:
            write_whole(copy, text)
            updated.append(name)
        elif then["words"] != now["words"] and _words_of(copy) != now["words"]:
            beside = _name_beside(copy, remembered)
            write_whole(beside, text)
            newer[name] = beside.name
            remembered[beside.name] = now
        remembered[name] = now
        # After every file: a stop half-way must not make the next one look edited.
        write_whole(folder / HIDDEN / _MEMORY, json.dumps(remembered, indent=1) + "\n")
    return HandedOut(tuple(new), tuple(updated), newer)


def _all_originals() -> dict[str, Path]:
    """What a student gets, by the name it gets: the lessons, and the homework for self-study."""
    found = {path.name: path for path in sorted(places.notebooks().glob("*.ipynb"))}
    for path in sorted(places.exercises().glob("*/homework.ipynb")):
        found[f"homework-{path.parent.name}.ipynb"] = path
    return found


def _recall(folder: Path) -> dict[str, dict[str, str]]:
    try:
        memory = json.loads((folder / HIDDEN / _MEMORY).read_text(encoding="utf-8"))
        return {name: {"file": e["file"], "words": e["words"]} for name, e in memory.items()}
    except (FileNotFoundError, ValueError, KeyError, TypeError, AttributeError):
        return {}  # without memory every copy that is there counts as the student's own


def _name_beside(copy: Path, remembered: dict[str, dict[str, str]]) -> Path:
    """A name beside the student's copy: free, or of an earlier newer one they never changed."""
    count = 1
    while True:
        beside = copy.with_name(f"{copy.stem}-newer{'' if count == 1 else f'-{count}'}.ipynb")
        then = remembered.get(beside.name)
        if not beside.exists() or (then and _words_of(beside) == then["words"]):
            return beside
        count += 1


def _hash(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def _words(text: str) -> str:
    """A fingerprint of what is written in the cells, whatever was run or folded."""
    cells = [[cell["cell_type"], _source(cell)] for cell in json.loads(text)["cells"]]
    # Running the last cell adds an empty one: that is no change of theirs.
    return _hash(json.dumps([cell for cell in cells if cell[1].strip()]))


def _words_of(path: Path) -> str | None:
    try:
        return _words(path.read_text(encoding="utf-8"))
    except (OSError, ValueError, KeyError, TypeError):
        return None  # not a notebook any more: certainly not as it was handed out


def _source(cell: dict) -> str:
    source = cell["source"]
    return source if isinstance(source, str) else "".join(source)


def _title(path: Path) -> str:
    try:
        cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
        sources = [_source(cell) for cell in cells if cell["cell_type"] == "markdown"]
    except (ValueError, KeyError, TypeError):
        raise ValueError(f"The lesson {path} is damaged: it cannot be read.") from None
    for source in sources:
        heading = re.search(r"^# +(.+)$", source, flags=re.MULTILINE)
        if heading:
            return heading[1].strip()
    return path.stem

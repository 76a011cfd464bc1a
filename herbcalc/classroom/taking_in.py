"""Taking in: whatever lies in a folder of returns, whose it is, and the answer cells in it.

Nothing in a name or a folder counts: homework, student and numbers are read from the notebook
itself and held against the class secret. A file is only ever read, into memory and up to a size;
nothing is unpacked to the disk, no link is followed. Whatever cannot be used is told in one
sentence, and stops nothing.
"""

from __future__ import annotations

import hashlib
import io
import json
import os
import re
import stat
import unicodedata
import zipfile
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from herbcalc.classroom.notebook import homework_notebook
from herbcalc.classroom.numbers import SELF_STUDY
from herbcalc.classroom.outcomes import Unmarked
from herbcalc.classroom.roster import ClassFile
from herbcalc.classroom.topics import Topic, find_topic

__all__ = ["Found", "Kept", "TakenIn", "find", "printable", "take_in"]

LARGEST = 20_000_000  # bytes of a notebook; one without outputs has some 20 000
LARGEST_ZIP = 400_000_000  # bytes, and as many out of one zip with all that is packed in it
LONGEST_CELL = 100_000  # characters of an answer cell
_DEEPEST = 4  # zips in zips
_MOST_PACKED = 5000  # files in one zip
_EPOCH = datetime(1980, 1, 1)  # where a zip's time begins: of what has no time


@dataclass(frozen=True)
class Found:
    """One file: what it is called, when it was last changed, and its bytes or why there are none.

    Parameters
    ----------
    file : str
        made printable
    when : datetime
        local
    content : bytes
    why : str
        one sentence, where it was not read
    """

    file: str
    when: datetime
    content: bytes = b""
    why: str = ""


@dataclass(frozen=True)
class Kept:
    """A cell that goes into the clean copy: the answer to a question, or (question "") a cell of
    the student's own that an answer needs."""

    question: str
    source: str


@dataclass(frozen=True)
class TakenIn:
    """One notebook whose student and homework are known.

    Parameters
    ----------
    file, when
        as `Found`
    content : str
        hexadecimal SHA-256 of the file
    homework, student : str
    cells : tuple of Kept
        in the order of the notebook; answer cells left as handed out are not among them
    missing : tuple of str
        questions whose answer cell is gone
    notes : tuple of str
        sentences to the teacher
    """

    file: str
    when: datetime
    content: str
    homework: str
    student: str
    cells: tuple[Kept, ...]
    missing: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


def take_in(room: ClassFile, folder: str | Path) -> tuple[list[TakenIn], list[Unmarked]]:
    """Everything in a folder (or a zip): the notebooks to mark, and what is not to be marked.

    Raises
    ------
    ValueError
        when there is no such folder.
    """
    folder = Path(folder)
    if not folder.exists():
        raise ValueError(f"There is no folder {folder}: put what the students handed in there.")
    owners = _Owners(room)
    taken, unmarked = [], []
    for found in find(folder):
        try:
            if found.why:
                raise _NotMarked(found.why)
            taken.append(_taken(owners, found))
        except _NotMarked as error:
            unmarked.append(Unmarked(found.file, str(error), error.student, error.homework))
    return taken, sorted(unmarked, key=lambda one: (one.file, one.why))


class _NotMarked(Exception):
    """Why a file is not marked; with whose it says it is."""

    def __init__(self, why, student="", homework=""):
        super().__init__(why)
        self.student, self.homework = student, homework


def printable(text: str, most: int = 200) -> str:
    """Text that anybody chose, fit for showing: no control, direction or invisible characters.

    >>> printable("a\\u202eb\\n")
    'a\\\\u202eb\\\\u000a'
    """
    if len(text) > most:
        text = f"{text[:most - 60]}…{text[-59:]}"
    return "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in text)


# --- finding -------------------------------------------------------------------------------------


def find(folder: str | Path) -> Iterator[Found]:
    """Every file in a folder and in the zips in it, in the order of their names."""
    folder = Path(folder)
    if folder.is_file():
        yield from _file(str(folder), folder.name)
        return
    waiting = [str(folder)]
    while waiting:
        place = waiting.pop()
        label = os.path.relpath(place, folder)
        try:
            entries = sorted(os.scandir(place), key=lambda entry: entry.name)
        except OSError as error:
            yield Found(printable(label), _EPOCH, why=f"This folder cannot be read: "
                                                      f"{error.strerror}.")
            continue
        below = []
        for entry in entries:
            if entry.is_dir(follow_symlinks=False):
                below.append(entry.path)
            else:
                yield from _file(entry.path, os.path.relpath(entry.path, folder))
        waiting += reversed(below)


def _file(path, label) -> Iterator[Found]:
    shown = printable(label)
    try:
        # Neither a link nor a pipe: opening must not lead elsewhere, or wait for ever.
        flags = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)
        handle = os.open(path, flags | getattr(os, "O_BINARY", 0))
    except OSError as error:
        why = ("It is a link to somewhere else, which is not followed." if os.path.islink(path)
               else f"It cannot be read: {error.strerror}.")
        yield Found(shown, _EPOCH, why=why)
        return
    with os.fdopen(handle, "rb") as file:
        about = os.fstat(handle)
        when = _when(about.st_mtime)
        if not stat.S_ISREG(about.st_mode):
            yield Found(shown, when, why="It is not a file that could be read.")
            return
        try:
            if file.read(4) == b"PK\x03\x04" and about.st_size <= LARGEST_ZIP:
                yield from _zip(file, shown, when, _Allowance(LARGEST_ZIP), _DEEPEST)
                return
            file.seek(0)
            yield _sized(Found(shown, when, file.read(LARGEST + 1)), about.st_size)
        except OSError as error:
            yield Found(shown, when, why=f"It cannot be read: {error.strerror}.")


class _Allowance:
    """How many bytes may still come out of a zip."""

    def __init__(self, left):
        self.left = left

    def take(self, size) -> bool:
        self.left -= size
        return self.left >= 0


def _zip(file, shown, when, allowance, deeper) -> Iterator[Found]:
    """What is in a zip. A damaged one can raise nearly anything while it is read."""
    if not deeper:
        yield Found(shown, when, why="It is packed too often, a zip in a zip in a zip.")
        return
    try:
        archive = zipfile.ZipFile(file)
        entries = archive.infolist()
    except Exception:
        yield Found(shown, when, why="This zip is damaged and cannot be opened.")
        return
    if len(entries) > _MOST_PACKED:
        yield Found(shown, when, why=f"There are {len(entries)} files in this zip: far too many.")
        return
    for entry in sorted(entries, key=lambda entry: entry.filename):
        if entry.is_dir():
            continue
        inside = f"{shown} > {printable(entry.filename)}"
        try:
            time = datetime(*entry.date_time)
        except ValueError:
            time = when
        if stat.S_ISLNK(entry.external_attr >> 16):
            yield Found(inside, time, why="It is a link to somewhere else, which is not followed.")
            continue
        if entry.flag_bits & 1:
            yield Found(inside, time, why="It is locked with a password.")
            continue
        try:
            with archive.open(entry) as packed:
                content = packed.read(LARGEST + 1)
        except Exception:
            yield Found(inside, time, why="It is damaged: this part of the zip cannot be read.")
            continue
        if not allowance.take(len(content)):
            yield Found(shown, when, why="There is far too much in this zip; the rest of it was "
                                         "left out.")
            return
        if content.startswith(b"PK\x03\x04") and len(content) <= LARGEST:
            yield from _zip(io.BytesIO(content), inside, time, allowance, deeper - 1)
        else:
            yield _sized(Found(inside, time, content), entry.file_size)


def _sized(found, size) -> Found:
    if len(found.content) <= LARGEST:
        return found
    return Found(found.file, found.when, why=(
        f"It is far too large for a homework: {size / 1e6:.0f} MB. Ask for one with its outputs "
        "cleared."))


def _when(seconds) -> datetime:
    try:
        return datetime.fromtimestamp(int(seconds))
    except (ValueError, OverflowError, OSError):
        return _EPOCH


# --- reading a notebook --------------------------------------------------------------------------

_PACKED = (b"Rar!", b"7z\xbc\xaf", b"\x1f\x8b", b"BZh", b"\xfd7zXZ")
_BY_ITSELF = re.compile(r"(^|[/>] ?)(__MACOSX/|\.ipynb_checkpoints/|\._|\.DS_Store$|Thumbs\.db$|"
                        r"desktop\.ini$)", re.IGNORECASE)


def _taken(owners, found) -> TakenIn:
    if _BY_ITSELF.search(found.file):
        raise _NotMarked("The computer made this copy or file by itself; it is left out.")
    cells, about = _notebook(found.content)
    topic, student, notes = owners.of(cells, about)
    kept, missing, more = _answers(topic, cells, owners.templates(topic))
    return TakenIn(found.file, found.when, hashlib.sha256(found.content).hexdigest(), topic.name,
                   student, kept, missing, (*notes, *more))


def _notebook(content) -> tuple[list[dict], dict]:
    """Cells and metadata of a notebook; what is not laid out as one is put aside."""
    if not content.strip(b"\0 \t\r\n"):
        raise _NotMarked("It is empty.")
    if content.startswith(_PACKED):
        raise _NotMarked("It is packed in a way that is not opened here: unpack it, or ask for a "
                         "zip.")
    try:
        notebook = json.loads(content)
    except (ValueError, RecursionError, MemoryError):
        looks = content.lstrip(b"\xef\xbb\xbf \t\r\n")[:1] == b"{" or b'"cells"' in content[:9999]
        raise _NotMarked("It is damaged: it is not a notebook any more." if looks
                         else "It is not a notebook.") from None
    if not isinstance(notebook, dict) or not ("nbformat" in notebook or "cells" in notebook):
        raise _NotMarked("It is not a notebook.")
    edition = notebook.get("nbformat", 4)
    if isinstance(edition, int) and edition < 4:
        raise _NotMarked(f"It was saved in an old notebook format ({edition}): open it in "
                         "JupyterLab and save it again.")
    if edition != 4:
        raise _NotMarked(f"It was saved in a notebook format that this course does not know "
                         f"({printable(str(edition), 20)}).")
    cells, about = notebook.get("cells"), notebook.get("metadata")
    if not isinstance(cells, list):
        raise _NotMarked("It is damaged: there are no cells in it.")
    return [_cell(one) for one in cells if isinstance(one, dict)], _dict(about, "herbcalc")


def _cell(cell) -> dict:
    """Type, name, question and source of a cell, whatever else is in it."""
    source = cell.get("source", "")
    if isinstance(source, list):
        source = "".join(part for part in source if isinstance(part, str))
    if not isinstance(source, str):
        source = ""
    source = source.encode("utf-8", "replace").decode("utf-8")  # half characters cannot be sent
    about = cell.get("metadata")
    return {"kind": cell.get("cell_type"), "id": cell.get("id"), "source": source,
            "question": _dict(about, "herbcalc").get("question")}


def _dict(about, name) -> dict:
    found = about.get(name) if isinstance(about, dict) else None
    return found if isinstance(found, dict) else {}


# --- whose it is ---------------------------------------------------------------------------------

_OPENS = re.compile(
    r'open_homework\(\s*"([\w-]{1,60})"(?:,\s*("(?:[^"\\\n]|\\.){1,200}"))?'
    r'(?:,\s*key="([0-9a-f]{16})")?(?:,\s*numbers="([0-9a-f]{8})")?')
_HEADING = re.compile(r"^#\s+Homework\s+(\d\d)\b", re.MULTILINE)
_WHOSE = re.compile(r"These are the numbers of \*\*([^*\n]{1,200})\*\*")


@dataclass(frozen=True)
class _Says:
    """What a notebook says about itself, in any of the places where it does."""

    homeworks: tuple[str, ...]
    students: tuple[str, ...]
    keys: frozenset[str]
    sums: frozenset[str]


def _says(cells, about) -> _Says:
    homeworks, students, keys, sums = [about.get("homework")], [about.get("student")], set(), set()
    sums.add(about.get("numbers"))
    for cell in cells:
        source = cell["source"][:5000]
        opened = _OPENS.search(source)
        if opened:
            homeworks.append(opened[1])
            keys.add(opened[3])
            sums.add(opened[4])
            try:
                students.append(json.loads(opened[2]) if opened[2] else None)
            except ValueError:
                pass
        elif cell["kind"] == "markdown":
            homeworks += _HEADING.findall(source)[:1]
            students += _WHOSE.findall(source)[:1]
    return _Says(_texts(homeworks), _texts(students), frozenset(_texts(keys)),
                 frozenset(_texts(sums)))


def _texts(things) -> tuple[str, ...]:
    texts = [unicodedata.normalize("NFC", one).strip() for one in things if isinstance(one, str)]
    return tuple(dict.fromkeys(text for text in texts if text))


class _Owners:
    """Whose numbers are whose, in one class."""

    def __init__(self, room: ClassFile):
        self._room = room
        self._topics = {one.homework: find_topic(one.homework) for one in room.assignments}
        self._by_key = {room.key(code): code for code in room.codes}
        self._sums, self._templates = {}, {}

    def templates(self, topic) -> dict[str, str]:
        """The answer cells as they were handed out, by question."""
        if topic.name not in self._templates:
            found = [_cell(cell) for cell in homework_notebook(topic)["cells"]]
            self._templates[topic.name] = {cell["question"]: cell["source"] for cell in found
                                           if cell["question"]}
        return self._templates[topic.name]

    def _by_sum(self, topic) -> dict[str, str]:
        if topic.name not in self._sums:
            self._sums[topic.name] = {topic.checksum(self._room.key(code)): code
                                      for code in self._room.codes}
        return self._sums[topic.name]

    def of(self, cells, about) -> tuple[Topic, str, list[str]]:
        """Homework, student and notes, or `_NotMarked`."""
        says = _says(cells, about)
        topic = self._topic(says)
        claimed = [code for code in says.students if code != SELF_STUDY]
        claim = printable(claimed[0], 40) if claimed else ""

        def refuse(why):
            return _NotMarked(why, claim, topic.name)

        keys = {self._by_key.get(key) for key in says.keys}
        sums = {self._by_sum(topic).get(one) for one in says.sums}
        found = sorted((keys | sums) - {None})
        if len(found) > 1:
            raise refuse(f"The numbers of {' and of '.join(found)} are mixed in it.")
        if not found:
            raise refuse(self._nobodys(topic, says, claimed))
        (owner,) = found
        others = [printable(code, 40) for code in claimed if code != owner]
        if others:
            if owner in claimed:
                raise refuse(f"It says in one place that it is {others[0]}'s and in another that "
                             f"it is {owner}'s, whose numbers are in it.")
            raise refuse(f"It says it is {others[0]}'s, but the numbers in it are {owner}'s.")
        notes = []
        if not claimed:
            notes.append(f"It does not say whose it is; the numbers in it are {owner}'s.")
        if None in keys | sums:
            notes.append("Something in its first cell or its data was changed.")
        return topic, owner, notes

    def _topic(self, says) -> Topic:
        for name in says.homeworks:
            for topic in self._topics.values():
                if name in (topic.name, topic.number):
                    return topic
        if says.homeworks:
            raise _NotMarked(f"It is homework {printable(says.homeworks[0], 40)}, which is not set "
                             "for this class.")
        raise _NotMarked("It is a notebook, but not one of this course's homeworks.")

    def _nobodys(self, topic, says, claimed) -> str:
        if topic.checksum() in says.sums and not claimed:
            return "It is the self-study notebook, which has nobody's own numbers."
        if not claimed:
            return "It does not say whose it is, and the numbers in it are nobody's in this class."
        code = printable(claimed[0], 40)
        if claimed[0] not in self._room.codes:
            return f"It says it is {code}'s, who is not on the roster."
        if not says.keys and not says.sums:
            return f"It says it is {code}'s, but its first cell is gone, so nothing shows it."
        return f"It says it is {code}'s, but the numbers in it are not theirs."


# --- the answer cells ----------------------------------------------------------------------------

_QUESTION = re.compile(r"^##\s+(?:Question (\d{1,2}) of|(Extra))", re.MULTILINE)
_OTHERS = re.compile(r"^\s*(homework\b|from herbcalc\.classroom import open_homework)")
_DEFINES = re.compile(r"(?:def|class|import|from)\s")
_NAMES = re.compile(r"[A-Za-z_][\w, ]*")
_WORD = re.compile(r"[A-Za-z_]\w*")


def _answers(topic, cells, templates):
    """The cells to keep, the questions without one, and what to say of it."""
    places, loose, current = defaultdict(list), [], None
    names = {question.name for question in topic.homework}
    by_id = {f"{name}-answer"[:64]: name for name in names}
    for place, cell in enumerate(cells):
        question = cell["question"] if isinstance(cell["question"], str) else None
        asked = _asked(topic, cell) if cell["kind"] == "markdown" else None
        if question in names:
            places[question].append(place)
        elif asked:
            current = asked
        elif cell["kind"] == "code" and not _OTHERS.match(cell["source"]):
            name = by_id.get(cell["id"]) if isinstance(cell["id"], str) else None
            loose.append((place, name or current))
    for place, name in loose:  # only where the label of the answer cell was lost
        if name and name not in places:
            places[name] = [p for p, other in loose if other == name]
    return _chosen(topic, cells, templates, places, [place for place, _ in loose])


def _chosen(topic, cells, templates, places, loose):
    kept, missing, notes = {}, [], []
    for number, question in enumerate(topic.homework, start=1):
        found = places.get(question.name, [])
        written = [p for p in found if not _untouched(cells[p], templates[question.name])]
        if not found:
            missing.append(question.name)
        if len(found) > 1:
            notes.append(f"Question {number} has {len(found)} answer cells; the last one that is "
                         "filled in counts.")
        if written and len(cells[written[-1]]["source"]) > LONGEST_CELL:
            notes.append(f"The answer cell of question {number} is longer than anybody can write; "
                         "it was left out.")
        elif written:
            kept[written[-1]] = question.name
    if len(missing) == len(topic.homework):
        raise _NotMarked("There is no answer cell left in it.", homework=topic.name)
    own = _needed(cells, [place for place in loose if place not in kept], kept)
    ordered = sorted({**kept, **own}.items())
    return (tuple(Kept(question, cells[place]["source"]) for place, question in ordered),
            tuple(missing), notes)


def _asked(topic, cell) -> str | None:
    heading = _QUESTION.search(cell["source"][:500])
    if not heading:
        return None
    extras = [question.name for question in topic.homework if question.optional]
    if heading[2]:
        return extras[0] if extras else None
    number = int(heading[1])
    return topic.homework[number - 1].name if 0 < number <= len(topic.homework) else None


def _untouched(cell, template) -> bool:
    return cell["source"].strip() in ("", template.strip(), "answer = ...")


def _needed(cells, own, kept) -> dict[int, str]:
    """Cells of the student's own that set a name which an answer uses, straight or through
    another such cell. All others stay out, so nothing else in the notebook can matter.

    Looked for by words and not by Python's grammar: this text is not to be trusted.
    """
    used = set()
    for place in kept:
        used |= set(_WORD.findall(cells[place]["source"]))
    needed, last = {}, max(kept, default=0)
    for place in reversed([place for place in own if place < last]):
        source = cells[place]["source"]
        if len(source) > LONGEST_CELL:
            continue
        if (_sets(source) - {"answer"}) & used:
            needed[place] = ""
            used |= set(_WORD.findall(source))
    return needed


def _sets(source) -> set[str]:
    """Names that the lines of a cell seem to set."""
    names = set()
    for line in source.splitlines():
        head, equals, rest = line.partition("=")
        if _DEFINES.match(line):
            names |= set(_WORD.findall(line.partition("(")[0]))
        elif equals and not rest.startswith("=") and _NAMES.fullmatch(head.rstrip(" +-*/")):
            names |= set(_WORD.findall(head))
    return names

"""The class folder: who is in the class (``roster.csv``), and what is asked of it (``class.toml``).

``class.toml``::

    title = "Winter evening class"
    secret = "..."                    # long, and kept by the teacher: it makes everyone's numbers

    [due]
    "02" = 2027-02-05                 # homework 02, by the end of that day
    "05" = 2027-02-19T18:00:00        # or to the minute; or "" for no date

``roster.csv`` has a column ``student`` (a code) and may have a column ``name``. Names stay there:
everything that is handed out, marked or exported knows the code alone.
"""

from __future__ import annotations

import csv
import io
import re
import secrets
import tomllib
import unicodedata
from dataclasses import dataclass, field
from datetime import date, datetime, time
from pathlib import Path

from herbcalc.classroom.numbers import SELF_STUDY, student_key
from herbcalc.classroom.topics import find_topic

__all__ = ["Assignment", "ClassFile", "Student", "read_class", "read_roster"]

SHORTEST_SECRET = 12  # characters; whoever guesses it knows everyone's numbers
_LARGEST = 5_000_000  # bytes
_CODE = re.compile(r"\w[\w.-]{0,39}")
_TAKEN = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)(\..*)?", re.IGNORECASE)  # names on Windows


@dataclass(frozen=True)
class Student:
    """One line of the roster; the name never leaves it."""

    code: str
    name: str = field(default="", repr=False)


@dataclass(frozen=True)
class Assignment:
    """A homework of the class: its exercise folder's name, and when it is due (local time)."""

    homework: str
    due: datetime | None = None

    @property
    def due_words(self) -> str:
        """The due date in words, empty without one.

        >>> Assignment("02-diluting", datetime(2027, 2, 5, 23, 59, 59)).due_words
        'Friday 5 February 2027'
        """
        if self.due is None:
            return ""
        words = f"{_DAYS[self.due.weekday()]} {self.due.day} {_MONTHS[self.due.month - 1]} " \
                f"{self.due.year}"
        return words if self.due.time() == _END_OF_DAY else f"{words}, {self.due:%H:%M}"


@dataclass(frozen=True)
class ClassFile:
    """A class as its folder tells it.

    Parameters
    ----------
    folder : Path
    title : str
    secret : str
    students : tuple of Student
        in the order of the roster
    assignments : tuple of Assignment
        in the order of the lessons
    """

    folder: Path
    title: str
    secret: str = field(repr=False)
    students: tuple[Student, ...] = ()
    assignments: tuple[Assignment, ...] = ()

    def key(self, student: str) -> str:
        """A student's key, from which the numbers come."""
        return student_key(self.secret, student)

    @property
    def codes(self) -> tuple[str, ...]:
        """Every student code."""
        return tuple(student.code for student in self.students)

    def assignment(self, homework: str) -> Assignment | None:
        """The assignment of that exercise folder, None where it was not set."""
        return next((one for one in self.assignments if one.homework == homework), None)


# English whatever the language of the machine: the handouts must be the same anywhere.
_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September",
           "October", "November", "December")
_END_OF_DAY = time(23, 59, 59)


def read_class(folder: str | Path) -> ClassFile:
    """Read ``class.toml`` and ``roster.csv`` of a class folder.

    Raises
    ------
    ValueError
        saying which file, and what to write there.
    """
    folder = Path(folder)
    path = folder / "class.toml"
    try:
        found = tomllib.loads(_text(path))
    except FileNotFoundError:
        raise ValueError(f"There is no class.toml in {folder}. Write one with these lines:\n"
                         f"{_example()}") from None
    except tomllib.TOMLDecodeError as error:
        raise ValueError(f"{path} cannot be read: {error}.") from None
    unknown = sorted(set(found) - {"title", "secret", "due"})
    if unknown:
        raise ValueError(f"{path}: there is nothing called {', '.join(unknown)} in a class file; "
                         "it has title, secret and [due].")
    title, secret, due = found.get("title", ""), found.get("secret", ""), found.get("due", {})
    if not isinstance(title, str) or not title.strip():
        raise ValueError(f'{path}: the class needs a title, for example title = "Tuesdays".')
    if not isinstance(secret, str) or len(secret) < SHORTEST_SECRET:
        raise ValueError(
            f"{path}: the class needs a secret of at least {SHORTEST_SECRET} letters that nobody "
            f'can guess. Here is a fresh one to paste in: secret = "{secrets.token_hex(16)}"'
        )
    if not isinstance(due, dict) or not due:
        raise ValueError(f'{path}: no homework is set. Write [due], and under it for example '
                         '"02" = 2027-02-05')
    assignments = tuple(sorted((_assignment(path, *one) for one in due.items()),
                               key=lambda one: one.homework))
    if len({one.homework for one in assignments}) < len(assignments):
        raise ValueError(f"{path}: a homework is set twice.")
    return ClassFile(folder, title.strip(), secret, read_roster(folder / "roster.csv"),
                     assignments)


def _assignment(path, number, due) -> Assignment:
    try:
        topic = find_topic(number)
    except ValueError as error:
        raise ValueError(f"{path}: {error}") from None
    if not topic.homework:
        raise ValueError(f"{path}: lesson {topic.number} has no homework.")
    if due == "":
        return Assignment(topic.name)
    if type(due) is date:
        return Assignment(topic.name, datetime.combine(due, _END_OF_DAY))
    if not isinstance(due, datetime):
        raise ValueError(f'{path}: "{number}" needs a date like 2027-02-05, without quotes, or '
                         '"" for none.')
    return Assignment(topic.name, due.astimezone().replace(tzinfo=None) if due.tzinfo else due)


def read_roster(path: str | Path) -> tuple[Student, ...]:
    """Read a roster: CSV with a column ``student``, and perhaps ``name``.

    Commas or semicolons, with or without a byte order mark, as spreadsheets save it.

    Raises
    ------
    ValueError
        naming the line that does not fit.
    """
    path = Path(path)
    try:
        text = _text(path)
    except FileNotFoundError:
        raise ValueError(f"There is no roster at {path}: write one with a column 'student', a "
                         "code on each line, and perhaps a column 'name'.") from None
    head = text.partition("\n")[0]
    separator = max(",;\t", key=head.count)
    try:
        lines = list(csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True))
    except csv.Error as error:
        raise ValueError(f"{path} cannot be read as CSV: {error}.") from None
    columns = [name.strip().casefold() for name in lines[0]] if lines else []
    if columns.count("student") != 1:
        raise ValueError(f"{path}: the first line must name one column 'student'.")
    place = columns.index("student")
    place_of_name = columns.index("name") if "name" in columns else None
    students, seen = [], {}
    for number, line in enumerate(lines[1:], start=2):
        if not any(part.strip() for part in line):
            continue
        code = _at(line, place)
        name = "" if place_of_name is None else _at(line, place_of_name)
        fault = _code_fault(code, name)
        # "Student-1" and "student-1" would be one file on many disks.
        alike = unicodedata.normalize("NFKC", code).casefold()
        if not fault and alike in seen:
            fault = f"the code {code!r} stands there twice (line {seen[alike]} too)"
        if fault:
            raise ValueError(f"{path}, line {number}: {fault}.")
        seen[alike] = number
        students.append(Student(code, name))
    if not students:
        raise ValueError(f"{path}: there is no student in it.")
    return tuple(students)


def _at(line, place) -> str:
    return unicodedata.normalize("NFC", line[place]).strip() if place < len(line) else ""


def _code_fault(code, name) -> str:
    if not code:
        return "the student code is missing"
    if not _CODE.fullmatch(code) or code.endswith("."):
        return (f"the code {code[:40]!r} must be letters, digits, hyphens and dots, at most 40, "
                "without spaces")
    if code.casefold() == SELF_STUDY or _TAKEN.fullmatch(code):
        return f"the code {code!r} means something else: choose another"
    if name and code.casefold() == name.casefold():
        return "the code is the person's name: codes go on every handout, so choose another"
    return ""


def _text(path: Path) -> str:
    try:
        with open(path, "rb") as file:
            content = file.read(_LARGEST + 1)
    except FileNotFoundError:
        raise
    except OSError as error:
        raise ValueError(f"{path} cannot be read: {error.strerror}.") from None
    if len(content) > _LARGEST or b"\0" in content:
        raise ValueError(f"{path} is not a text file of a class.")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise ValueError(f"{path} is not in UTF-8: save it again, as “CSV UTF-8” where your "
                         "program offers it.") from None


def _example() -> str:
    return (f'title = "Tuesday evenings"\nsecret = "{secrets.token_hex(16)}"\n\n[due]\n'
            '"02" = 2027-02-05')

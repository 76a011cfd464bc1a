"""What a marking run leaves behind: for each return its outcomes, and what could not be marked.

`herbcalc mark` writes one file, ``marks/outcomes.json`` in the class folder; whoever makes a
marksheet, feedback or pictures of it reads it with `load_outcomes`. Nothing in it is a person's
name, a secret or a model answer; the same returns give the same bytes.

A file looks like this (one return, one of its answers)::

    {"format": 1, "title": "...", "students": ["student-01"], "homeworks": ["02-diluting"],
     "returns": [{"student": "student-01", "homework": "02-diluting", "file": "a b (2).ipynb",
                  "when": "2026-02-03T18:20:00", "late": false, "counts": true,
                  "content": "5e884898da28...", "notes": [],
                  "answers": [{"question": "make-up", "outcome": "wrong turn", "marks": 0.0,
                               "out_of": 1.0, "sentence": "...", "turn": "upside down",
                               "given": "814", "text": "", "optional": false}]}],
     "unmarked": [{"file": "photo.jpg", "why": "It is not a notebook.", "student": "",
                   "homework": ""}]}
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass, fields
from enum import StrEnum
from pathlib import Path

from herbcalc.files import write_whole

__all__ = ["Answer", "Outcomes", "Result", "Return", "Unmarked", "load_outcomes",
           "save_outcomes"]

FORMAT = 1


class Result(StrEnum):
    """How the answer to one question came out."""

    RIGHT = "right"
    PARTLY = "partly"  # close, or right in part
    TURN = "wrong turn"  # a known one, named in `Answer.turn`
    WRONG = "wrong"  # also: written so that it cannot be read
    BLANK = "blank"
    BROKE = "broke"  # its lines stopped with an error, or were stopped
    WRITTEN = "written"  # words: they wait for the teacher


@dataclass(frozen=True)
class Answer:
    """The outcome of one question in one return.

    Parameters
    ----------
    question : str
        its name
    outcome : Result
    marks, out_of : float
        0 to `out_of`; words (`Result.WRITTEN`) have 0 until the teacher has read them
    sentence : str
        one sentence of feedback to the student
    turn : str
        name of the wrong turn, for the teacher
    given : str
        the answer as it came, shortened to one line
    text : str
        the whole of what was written, for a question to explain in words
    optional : bool
        an extra: its marks come on top
    """

    question: str
    outcome: Result
    marks: float
    out_of: float
    sentence: str
    turn: str = ""
    given: str = ""
    text: str = ""
    optional: bool = False


@dataclass(frozen=True)
class Return:
    """One notebook handed in, marked.

    Parameters
    ----------
    student, homework : str
        student code, and name of the exercise folder
    file : str
        where it was found, from the folder of returns; "hand-ins.zip > a.ipynb" inside a zip.
        For showing only: whatever a student chose, made printable
    when : str
        when it was last changed, as far as the file tells, "2026-02-03T18:20:00" local time
    late : bool
        later than the due date
    counts : bool
        whether it is the newest of this student's tries at this homework
    content : str
        hexadecimal digest of the file
    answers : tuple of Answer
        in the order of the homework
    notes : tuple of str
        to the teacher, a sentence each
    """

    student: str
    homework: str
    file: str
    when: str
    late: bool
    counts: bool
    content: str
    answers: tuple[Answer, ...]
    notes: tuple[str, ...] = ()

    @property
    def marks(self) -> float:
        """The sum of all marks, extras counted."""
        return round(sum(answer.marks for answer in self.answers), 3)

    @property
    def out_of(self) -> float:
        """The marks there are without the extras."""
        return round(sum(a.out_of for a in self.answers if not a.optional), 3)

    def answer(self, question: str) -> Answer:
        """The answer to the question of that name."""
        return next(answer for answer in self.answers if answer.question == question)


@dataclass(frozen=True)
class Unmarked:
    """A file that was not marked, and why, in one sentence; whose it says it is, where it does."""

    file: str
    why: str
    student: str = ""
    homework: str = ""


@dataclass(frozen=True)
class Outcomes:
    """A whole run.

    Parameters
    ----------
    title : str
        of the class
    students : tuple of str
        every code on the roster, also of those who handed nothing in
    homeworks : tuple of str
        names of the exercise folders in the class file
    returns : tuple of Return
        all tries, by homework, student and time
    unmarked : tuple of Unmarked
        by file
    """

    title: str
    students: tuple[str, ...]
    homeworks: tuple[str, ...]
    returns: tuple[Return, ...] = ()
    unmarked: tuple[Unmarked, ...] = ()

    def counting(self, homework: str) -> Iterator[Return]:
        """The return that counts of each student who handed this homework in."""
        return (one for one in self.returns if one.counts and one.homework == homework)


def save_outcomes(path: str | Path, outcomes: Outcomes) -> None:
    """Write a run's outcomes, whole or not at all."""
    text = json.dumps({"format": FORMAT} | asdict(outcomes), indent=1, ensure_ascii=False)
    write_whole(path, text + "\n")


def load_outcomes(path: str | Path) -> Outcomes:
    """Read what `save_outcomes` wrote.

    Raises
    ------
    ValueError
        when there is nothing, or not what was written.

    Examples
    --------
    >>> import tempfile
    >>> folder = tempfile.TemporaryDirectory()
    >>> one = Answer("make-up", Result.TURN, 0.0, 1.0, "Which stands on top?", "upside down")
    >>> back = Return("student-01", "02-diluting", "a.ipynb", "2026-02-03T18:20:00", False, True,
    ...               "5e88", (one,))
    >>> outcomes = Outcomes("Winter", ("student-01",), ("02-diluting",), (back,))
    >>> save_outcomes(Path(folder.name, "outcomes.json"), outcomes)
    >>> load_outcomes(Path(folder.name, "outcomes.json")) == outcomes
    True
    >>> folder.cleanup()
    """
    path = Path(path)
    try:
        found = json.loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        raise ValueError(f"There are no outcomes at {path} yet: mark the returns first.") from None
    except (OSError, ValueError) as error:
        raise ValueError(f"{path} cannot be read as outcomes: {error}.") from None
    if not isinstance(found, dict) or found.get("format") != FORMAT:
        raise ValueError(f"{path} was written by another version: mark the returns again.")
    try:
        return Outcomes(
            title=found["title"],
            students=tuple(found["students"]),
            homeworks=tuple(found["homeworks"]),
            returns=tuple(_return(one) for one in found["returns"]),
            unmarked=tuple(_known(Unmarked, one) for one in found["unmarked"]),
        )
    except (AttributeError, KeyError, TypeError, ValueError) as error:
        raise ValueError(f"{path} is damaged ({error!r}): mark the returns again.") from None


def _return(found: dict) -> Return:
    answers = tuple(read_answer(one) for one in found["answers"])
    return _known(Return, found | {"answers": answers, "notes": tuple(found["notes"])})


def read_answer(found: dict) -> Answer:
    """One answer as `dataclasses.asdict` wrote it."""
    return _known(Answer, found | {"outcome": Result(found["outcome"])})


def _known(kind, found: dict):
    return kind(**{field.name: found[field.name] for field in fields(kind)})

"""An invented class to try everything with: 12 students, their handouts, and what came back.

Class, codes, names and answers are made up; nothing in it is about a real person. The answers
are chosen by arithmetic, so the same course makes the same class anywhere: most are right, some
take a known wrong turn, some are blank, close or broken, and a few files are what a teacher
really gets back: two tries, a zip, a photograph, someone else's numbers.
"""

from __future__ import annotations

import copy
import hashlib
import io
import os
import zipfile
from collections.abc import Mapping
from datetime import datetime, timedelta
from pathlib import Path

from herbcalc.classroom.checking import model_answer
from herbcalc.classroom.homework import as_written
from herbcalc.classroom.notebook import homework_notebook, notebook_text
from herbcalc.classroom.numbers import Drawn
from herbcalc.classroom.questions import (
    Choice,
    Choices,
    Explain,
    Function,
    Number,
    Order,
    Question,
    Table,
    call,
)
from herbcalc.classroom.roster import ClassFile, read_class
from herbcalc.classroom.topics import Topic, find_topic
from herbcalc.files import write_whole

__all__ = ["answer_source", "fill", "write_demo_class"]

# All invented for the demo.
_NAMES = ("Ada Quill", "Bo Fennimore", "Cleo Marsh", "Dov Larkspur", "Elin Thorne", "Fay Burdock",
          "Gus Yarrow", "Hana Sorrel", "Ivo Tansy", "Juno Mallow", "Kit Hyssop", "Lou Bracken")
_CLASS = """\
# An invented class, to try the marking with.
title = "Winter evenings at the Lantern Lane garden (invented)"
secret = "a lantern, a lane, twelve jars"

[due]
"02" = 2027-02-05
"""
_DUE = datetime(2027, 2, 5, 23, 59, 59)
_WORDS = (
    "Volumes do not add but masses do: the mixture shrinks, because the small molecules fit "
    "between the big ones. So the litre is not full and it is a bit stronger than my friend "
    "thinks. I would measure the spirit and fill up with water to the mark when it is cool.",
    "Alcohol and water shrink when you mix them, so it is less than a litre in the end.",
    "Perhaps some of it was spilled or it went off as vapour while pouring.",
)


def write_demo_class(folder: str | Path) -> ClassFile:
    """Write ``roster.csv``, ``class.toml`` and a folder ``returns`` of the invented class.

    Parameters
    ----------
    folder : path
        new or empty: nothing is written over

    Raises
    ------
    ValueError
        when something is there already.
    """
    folder = Path(folder)
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise ValueError(f"{folder} is not empty: the demo class wants a folder of its own.")
    (folder / "returns").mkdir(parents=True)
    roster = ["student,name", *(f"student-{n:02},{name} (invented)"
                                for n, name in enumerate(_NAMES, start=1))]
    write_whole(folder / "roster.csv", "\n".join(roster) + "\n")
    write_whole(folder / "class.toml", _CLASS)
    room = read_class(folder)
    for name, when, content in _returns(room, find_topic("02")):
        path = folder / "returns" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        write_whole(path, content)
        os.utime(path, (when.timestamp(), when.timestamp()))
    return room


def fill(notebook: dict, answers: Mapping[str, str]) -> dict:
    """A copy of a homework notebook with these answer lines in it, by question.

    >>> from herbcalc.classroom import find_topic, homework_notebook
    >>> done = fill(homework_notebook(find_topic("02")), {"make-up": "answer = 3"})
    >>> [cell["source"] for cell in done["cells"] if cell["id"] == "make-up-answer"]
    [['answer = 3']]
    """
    notebook = copy.deepcopy(notebook)
    for cell in notebook["cells"]:
        name = cell["metadata"].get("herbcalc", {}).get("question")
        if name in answers:
            cell["source"] = answers[name].splitlines(keepends=True)
    return notebook


def answer_source(question: Question, drawn: Drawn, how: str | int = "right") -> str:
    """The answer line of a student.

    Parameters
    ----------
    question : Question
    drawn : Drawn
        the student's numbers
    how : {"right", "close", "lost"} or int
        a number is the known wrong turn to take, counted round; lost is far from anything

    Examples
    --------
    >>> topic = find_topic("02")
    >>> answer_source(topic.question("pure-alcohol"), topic.drawn()["pure-alcohol"])
    'answer = 320  # mL'
    """
    if isinstance(question, Explain):
        place = how if isinstance(how, int) else 0
        return f'answer = """\n{question.example if how == "right" else _WORDS[place % 3]}\n"""'
    if isinstance(question, Function):
        return _function(question, how)
    right = model_answer(question, drawn)
    if how == "right":
        value = right
    elif isinstance(question, Number):
        value = _amount(question, drawn.values, right, how)
    elif isinstance(question, Table):
        row = question.rows[0 if isinstance(how, str) else -1 - how % 2]
        lines = dict(line.split(": ", 1) for line in right.splitlines())
        number = float(lines[row.label].split()[0])
        lines[row.label] = f"{_amount(row, drawn.values, number, how)} {row.unit}"
        value = "\n".join(f"{label}: {written}" for label, written in lines.items())
    elif isinstance(question, Order):
        letters = right.split()
        at = len(letters) - 2 if isinstance(how, str) else how % (len(letters) - 1)
        letters[at], letters[at + 1] = letters[at + 1], letters[at]
        value = " ".join(letters)
    else:
        value = _other_letters(question, drawn, right, how)
    if isinstance(question, Table):
        return f'answer = """\n{value}\n"""'
    if isinstance(question, Number):
        return f"answer = {value}  # {question.unit}"
    return "".join(as_written([f"answer = {value}"]))


def _amount(amount, values, right, how) -> float:
    if how == "close":
        return round(right + 2 * amount.tolerance.around(right), 4)
    if how == "lost":
        return round(right * 7.3 + 11, 2)
    return float(f"{call(amount.turns[how % len(amount.turns)].value, values):.4g}")


def _other_letters(question: Choice | Choices, drawn, right, how) -> str:
    letters = "abcdefgh"[:len(question.options)]
    wrong = [letter for letter in letters if letter not in right]
    place = how if isinstance(how, int) else 0
    return wrong[place % len(wrong)]


def _function(question: Function, how) -> str:
    head = f"def answer({', '.join(question.numbers)}):\n"
    if question.name == "write-make-up" and how == "right":
        return head + "    return volume * to / abv"
    if question.name == "write-make-up":
        return head + "    return volume * abv / to"
    return head + "    return 0"


# --- what came back ------------------------------------------------------------------------------


def _returns(room, topic: Topic):
    """(name, time, content) of everything that lies in the folder of returns."""
    early, evening = _DUE - timedelta(days=2, hours=3), _DUE - timedelta(hours=4)
    works = {code: _work(room, topic, code, strength=place)
             for place, code in enumerate(room.codes)}
    yield "02-diluting.ipynb", early, works["student-01"]
    yield "02-diluting (2).ipynb", early + timedelta(hours=1), works["student-02"]
    yield "Homework 2 – dilution FINAL.ipynb", evening, works["student-03"]
    yield "drop box/02 diluting.ipynb", evening, works["student-04"]
    yield "drop box/homework.ipynb", early, _work(room, topic, "student-05", strength=0)
    yield "drop box/homework (1).ipynb", evening, works["student-05"]
    yield "drop box/från Elin/Über Nacht.ipynb", evening, works["student-06"]
    yield "student-07/student-07/02-diluting.ipynb", early, works["student-07"]
    yield "mail/my homework.zip", evening, _zip("hw/02-diluting.ipynb", works["student-08"])
    yield "mail/02-diluting-copy1.ipynb", _DUE + timedelta(hours=9), works["student-09"]
    # student-10 hands nothing in; student-12 sends the work of student-04 as their own.
    yield "mail/untitled.ipynb", evening, works["student-11"]
    mine = works["student-04"].decode().replace("student-04", "student-12").encode()
    yield "mail/student 12.ipynb", evening, mine
    yield "mail/jars on the shelf.jpg", early, b"\xff\xd8\xff\xe0 not really a photograph"
    yield "mail/empty.ipynb", early, b""


def _work(room, topic, code, strength) -> bytes:
    """The notebook of one student; the weaker the `strength`, the more goes wrong."""
    key = room.key(code)
    drawn = topic.drawn(key)
    answers = {}
    for question in topic.homework:
        dice = hashlib.sha256(f"{code} {question.name} {strength}".encode()).digest()
        luck = dice[0] + 6 * strength - 20 * question.step
        if question.optional and dice[1] < 170:
            continue  # few try the extra
        if isinstance(question, Explain) and luck > 20:
            how = dice[2] % 3
        elif luck > 90:
            how = "right"
        elif luck > 30:
            how = dice[2] % 2 if dice[3] < 60 else 0  # the first wrong turn is the usual one
        elif luck > 15:
            how = "close"
        elif dice[4] < 130:
            continue  # left blank
        elif dice[4] < 200 and isinstance(question, Number):
            answers[question.name] = "answer = x * 40 / 100"  # x is nothing: it stops
            continue
        else:
            how = "lost"
        answers[question.name] = answer_source(question, drawn[question.name], how)
    due = room.assignment(topic.name).due_words
    return notebook_text(fill(homework_notebook(topic, code, key, due), answers)).encode()


def _zip(name, content) -> bytes:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        entry = zipfile.ZipInfo(name, date_time=(2027, 2, 5, 19, 30, 0))  # the same bytes always
        archive.writestr(entry, content)
    return packed.getvalue()

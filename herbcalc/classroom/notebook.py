"""The homework notebook, made from the questions: what a student gets, and the model answers.

The same topic, student and key give the same bytes. Nothing but the student's key is in it: no
secret, and no answer.
"""

from __future__ import annotations

import json

from herbcalc.classroom.checking import INVITATION, model_answer
from herbcalc.classroom.numbers import SELF_STUDY, student_key
from herbcalc.classroom.questions import (
    Choice,
    Choices,
    Explain,
    Function,
    Number,
    Order,
    Question,
    Table,
    say,
)
from herbcalc.classroom.text import to_markdown
from herbcalc.classroom.topics import Topic

__all__ = ["homework_notebook", "model_notebook", "notebook_text"]

_STEPS = {1: "one step", 2: "two steps", 3: "three steps", 4: "four steps", 5: "five steps"}

_HOW = """
1. Run the first cell below (click on it, then **Shift+Enter**), each time you open this notebook.
2. In an answer line put your answer where the three dots stand, and nothing else:
   `answer = 406  # mL`. `406`, `406 mL` and `0.406 L` all do.
3. **Shift+Enter** twice: once for your line, once for the check under it. Try as often as you like.
4. At the end, save and run the last cell: it says whether all is well before you hand it in.

If red text says *NameError*, run the first cell again.
"""

_LAST = """
## Before you hand in

Save (**Ctrl+S**), then run this cell. It runs your saved notebook from top to bottom in a fresh
start and says whether everything still holds and what is left blank. It takes some seconds.
"""


def homework_notebook(
    topic: Topic, student: str = SELF_STUDY, key: str = "", due: str = ""
) -> dict:
    """The homework of one student, as a notebook (format 4.5).

    Parameters
    ----------
    topic : Topic
    student : str
        student code; left out for self-study
    key : str
        the student's key (`student_key`); left out for self-study
    due : str
        the due date in words, where there is one

    Returns
    -------
    dict
        `notebook_text` makes a file of it

    Examples
    --------
    >>> from herbcalc.classroom import find_topic
    >>> notebook = homework_notebook(find_topic("02"))
    >>> notebook["metadata"]["herbcalc"]["student"]
    'self-study'
    """
    return _notebook(topic, student, key, lambda question, drawn: [_answer_line(question)], due)


def model_notebook(topic: Topic, student: str = SELF_STUDY, key: str = "") -> dict:
    """The same notebook with every model answer filled in, for nbval to run.

    After each check stands a cell with the outcome it must have, marked for comparing.
    """

    def answers(question, drawn):
        outcome = "right" if question.automatic else "written"
        expected = _code(f"{question.name}-outcome", f'print(homework.outcome("{question.name}"))',
                         tags=["nbval-check-output"])
        expected["execution_count"] = 1  # nbval compares only cells that have been run
        printed = {"name": "stdout", "output_type": "stream", "text": [f"{outcome}\n"]}
        expected["outputs"] = [printed]
        return [_model_line(question, drawn), expected]

    return _notebook(topic, student, key, answers)


def notebook_text(notebook: dict) -> str:
    """A notebook as the text of its file, laid out as Jupyter saves it."""
    return json.dumps(notebook, indent=1, sort_keys=True, ensure_ascii=False) + "\n"


def _notebook(topic, student, key, answers, due="") -> dict:
    own = key or student_key()
    drawn = topic.drawn(own)
    numbers = topic.checksum(own)
    who = "" if student == SELF_STUDY else f"These are the numbers of **{student}**."
    until = f"Hand it in by **{due}**." if due else ""
    top = [f"# Homework {topic.number} · {topic.title}", f"{who} {until}".strip(), _HOW.strip(),
           topic.cautions.strip()]
    cells = [_text("top", "\n\n".join(part for part in top if part)),
             _start(topic, student, key, numbers)]
    asked = sum(not question.optional for question in topic.homework)
    for place, question in enumerate(topic.homework, start=1):
        mine = drawn[question.name]
        extra = answers(question, mine)
        cells += [_text(f"{question.name}-prompt", _prompt(question, mine, place, asked)),
                  _answer(question, extra[0]), _check(question), *extra[1:]]
    cells += [_text("last", _LAST.strip()),
              _code("before-handing-in", "homework.before_handing_in()",
                    tags=["hand-in", "nbval-skip"])]
    return {
        "cells": cells,
        "metadata": {
            "herbcalc": {"homework": topic.name, "student": student, "numbers": numbers},
            "kernelspec": {"display_name": "Python 3 (ipykernel)", "language": "python",
                           "name": "python3"},
            "language_info": {"name": "python"},
        },
        "nbformat": 4,
        "nbformat_minor": 5,
    }


# --- cells ---------------------------------------------------------------------------------------


def _start(topic, student, key, numbers):
    named = f'"{topic.number}"'
    if student != SELF_STUDY:
        named += f', {json.dumps(student, ensure_ascii=False)}, key="{key}"'
    return _code("start", "from herbcalc.classroom import open_homework\n"
                          f'homework = open_homework({named}, numbers="{numbers}")\n'
                          "homework", tags=["start"], editable=False)


def _answer(question, source):
    cell = _code(f"{question.name}-answer", source, tags=["answer"])
    cell["metadata"]["herbcalc"] = {"question": question.name}
    return cell


def _check(question):
    cell = _code(f"{question.name}-check", f'homework.check("{question.name}")', tags=["check"],
                 editable=False)
    cell["metadata"]["jupyter"] = {"source_hidden": True}
    return cell


def _code(name, source, tags, editable=True):
    cell = _cell("code", name, source) | {"execution_count": None, "outputs": []}
    cell["metadata"] = {"deletable": False, "tags": tags}
    if not editable:
        cell["metadata"]["editable"] = False
    return cell


def _text(name, source):
    cell = _cell("markdown", name, source)
    cell["metadata"] = {"deletable": False, "editable": False}
    return cell


def _cell(kind, name, source):
    # Format 4.5 allows 64 characters for the id of a cell.
    return {"cell_type": kind, "id": name[:64], "source": source.splitlines(keepends=True)}


# --- what stands in them -------------------------------------------------------------------------


def _prompt(question: Question, drawn, place, asked) -> str:
    of = f"Extra, for those who code · {_STEPS[question.step]}" if question.optional else (
        f"Question {place} of {asked} · " + (
            _STEPS[question.step] if question.automatic else "in your own words"
        )
    )
    parts = [f"## {of}", to_markdown(say(question.prompt, drawn.values))]
    if isinstance(question, Choice | Choices):
        texts = [say(option.text, drawn.values) for option in question.options]
    elif isinstance(question, Order):
        texts = [say(item, drawn.values) for item in question.items]
    else:
        texts = []
    if texts:
        parts.append("\n".join(
            f"- **{letter}** · {to_markdown(texts[i])}"
            for letter, i in zip("abcdefgh", drawn.order)
        ))
    return "\n\n".join(parts)


def _answer_line(question: Question) -> str:
    if isinstance(question, Number):
        return f"answer = ...  # {question.unit}"
    if isinstance(question, Choice):
        return f"answer = ...  # one letter, {_letters(question.options)}"
    if isinstance(question, Choices):
        return f"answer = ...  # letters, {_letters(question.options)}, with commas between"
    if isinstance(question, Order):
        return f"answer = ...  # all letters, {_letters(question.items)}, in the right order"
    if isinstance(question, Table):
        return _sheet(f"{row.label}: ... {row.unit}" for row in question.rows)
    if isinstance(question, Explain):
        return _sheet([INVITATION])
    return f"def answer({', '.join(question.numbers)}):\n    return ...  # {question.unit}"


def _model_line(question: Question, drawn) -> str:
    if isinstance(question, Function):
        return ("from herbcalc.classroom import model_answer\n"
                f'name = "{question.name}"\n'
                "answer = model_answer(homework.topic.question(name), homework.drawn[name])")
    answer = model_answer(question, drawn)
    if isinstance(question, Table | Explain):
        return _sheet(answer.splitlines())
    return f"answer = {answer!r}"


def _sheet(lines) -> str:
    return "\n".join(['answer = """', *lines, '"""'])


def _letters(things) -> str:
    return f"a to {'abcdefgh'[len(things) - 1]}"

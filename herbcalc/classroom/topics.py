"""The exercise folders: finding them, reading their questions, and what makes a whole homework."""

from __future__ import annotations

import re
import types
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from herbcalc import places
from herbcalc.classroom.numbers import Drawn, checksum, draw, student_key
from herbcalc.classroom.questions import (
    Choice,
    Choices,
    Explain,
    Function,
    Number,
    Question,
    amounts,
    call,
)

__all__ = ["Topic", "faults", "find_topic", "load_topic", "topics"]

FEWEST = 6  # automatically checked questions of a homework


@dataclass(frozen=True)
class Topic:
    """One exercise folder: the questions of one lesson.

    Parameters
    ----------
    name : str
        of the folder, "02-diluting"
    title : str
    self_check, homework : tuple of Question
    cautions : str
        shown at the top of the homework, where hands or health are at stake
    """

    name: str
    title: str
    self_check: tuple[Question, ...] = ()
    homework: tuple[Question, ...] = ()
    cautions: str = ""

    @property
    def number(self) -> str:
        """ "02" of "02-diluting" """
        return self.name.partition("-")[0]

    def question(self, name: str) -> Question:
        """The question of that name, of the homework or of the self-check."""
        for question in (*self.homework, *self.self_check):
            if question.name == name:
                return question
        raise ValueError(f"Homework {self.number} has no question called {name!r}.")

    def drawn(self, key: str | None = None) -> dict[str, Drawn]:
        """A student's numbers for every question of the homework, by question name."""
        key = student_key() if key is None else key
        return {question.name: draw(question, key, self.name) for question in self.homework}

    def checksum(self, key: str | None = None) -> str:
        """What tells one set of numbers from another: eight hexadecimal digits."""
        return checksum(self.drawn(key).items())


def topics(folder: Path | None = None) -> list[Topic]:
    """Every topic that has questions, in the order of the lessons."""
    folder = places.exercises() if folder is None else folder
    return [load_topic(path.parent) for path in sorted(folder.glob("*/questions.py"))]


def find_topic(number: str | int) -> Topic:
    """The topic of a lesson.

    Parameters
    ----------
    number : str or int
        "02", 2 or "02-diluting"

    Raises
    ------
    ValueError
        when there is none, naming those there are; or when its questions need mending.
    """
    asked = str(number).strip()
    start = asked.zfill(2) if asked.isdigit() else asked
    found = sorted(places.exercises().glob("*/questions.py"))
    for path in found:
        if start in (path.parent.name, path.parent.name.partition("-")[0]):
            return load_topic(path.parent)
    known = ", ".join(path.parent.name for path in found) or "none yet"
    raise ValueError(f"There are no questions for {asked!r}. There are: {known}.")


def load_topic(folder: Path) -> Topic:
    """Read ``questions.py`` of an exercise folder, without leaving a trace in Python's modules.

    Raises
    ------
    ValueError
        saying what is wrong and, where known, on which line.
    """
    folder = Path(folder)
    path = folder / "questions.py"
    shown = f"exercises/{folder.name}/questions.py"
    if not re.fullmatch(r"\d\d(-[a-z0-9]+)+", folder.name):
        raise ValueError(f"An exercise folder is called NN-topic, not {folder.name!r}.")
    try:
        source = path.read_text(encoding="utf-8")
    except OSError as error:
        raise ValueError(f"{shown} cannot be read: {error.strerror}.") from None
    module = types.ModuleType(f"questions of {folder.name}")
    try:
        exec(compile(source, str(path), "exec"), module.__dict__)
    except Exception as error:
        raise ValueError(f"{shown}{_line(error, path)}: {error}") from error
    return _topic(folder.name, shown, module)


def _topic(name, shown, module) -> Topic:
    lists = {}
    for kind in ("self_check", "homework"):
        found = getattr(module, kind, ())
        if not isinstance(found, Sequence) or not all(isinstance(q, Question) for q in found):
            raise ValueError(f"{shown}: {kind} must be a list of questions.")
        names = [question.name for question in found]
        if len(set(names)) < len(names):
            raise ValueError(f"{shown}: two questions of {kind} have the same name.")
        lists[kind] = tuple(found)
    both = {q.name for q in lists["homework"]} & {q.name for q in lists["self_check"]}
    if both:
        raise ValueError(f"{shown}: {', '.join(both)} names two questions.")
    title, cautions = getattr(module, "title", ""), getattr(module, "cautions", "")
    if not isinstance(title, str) or not title.strip():
        raise ValueError(f"{shown}: it has no title.")
    if not any(lists.values()):
        raise ValueError(f"{shown}: it has neither a self_check nor a homework.")
    return Topic(name, title, cautions=cautions, **lists)


def _line(error, path) -> str:
    if isinstance(error, SyntaxError):
        return f", line {error.lineno}"
    lines, trace = [], error.__traceback__
    while trace is not None:
        if trace.tb_frame.f_code.co_filename == str(path):
            lines.append(trace.tb_lineno)
        trace = trace.tb_next
    return f", line {lines[-1]}" if lines else ""


def faults(topic: Topic) -> list[str]:
    """What a topic still lacks as a whole (each question has already been looked at by itself).

    Three questions for the self-check, of kinds a panel can show; at least six automatic
    questions and one to explain; rising steps; a published worked example, and every published
    example reproduced by the model answer.
    """
    found = []
    if len(topic.self_check) != 3:
        found.append(f"the self-check has {len(topic.self_check)} questions, not three")
    for question in topic.self_check:
        if not isinstance(question, Number | Choice | Choices):
            found.append(f"{question.name}: a self-check shows numbers and choices only")
    if topic.homework:
        found += _homework_faults(topic.homework)
    for question in (*topic.self_check, *topic.homework):
        found += _published_faults(question)
    return found


def _homework_faults(homework) -> list[str]:
    found = []
    counted = [question for question in homework if not question.optional]
    automatic = [question for question in counted if question.automatic]
    if len(automatic) < FEWEST:
        found.append(f"the homework has {len(automatic)} automatic questions, not {FEWEST}")
    if not any(isinstance(question, Explain) for question in counted):
        found.append("the homework has no question to explain in words")
    steps = [question.step for question in automatic]
    if steps != sorted(steps) or steps[:1] != [1] or len(set(steps)) < 3:
        found.append(f"the steps must rise from 1, through at least three levels: {steps}")
    if not any(question.published for question in counted):
        found.append("no question of the homework is a published worked example")
    extras = [question.optional for question in homework]
    if extras != sorted(extras):
        found.append("the extras come last")
    found += [f"{q.name}: only a function to write may be an extra" for q in homework
              if q.optional and not isinstance(q, Function)]
    return found


def _published_faults(question) -> list[str]:
    if question.published is None:
        return []
    published = question.published
    (amount,) = amounts(question)
    result = float(call(amount.model, published.numbers))
    if abs(result - published.result) <= published.within:
        return []
    return [f"{question.name}: {published.source} prints {published.result:g} {amount.unit}, the "
            f"model answer gives {result:.6g}"]

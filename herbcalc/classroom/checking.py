"""What an answer is worth: right, close, a known wrong turn, or not yet, and what to say to it.

`judge` is a pure function of question, numbers and plain answer. The student's check cell calls
it in the notebook; the marking calls it outside the student's kernel.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import singledispatch

from herbcalc.classroom.answers import (
    plain,
    read_letters,
    read_number,
    read_sheet,
    read_words,
)
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
    amounts,
    call,
    say,
)

__all__ = ["CLOSE", "INVITATION", "Outcome", "Verdict", "judge", "judge_calls", "model_answer",
           "worked_path"]

CLOSE = 3  # an answer within this many tolerances is called close; common practice, no source
_FEWEST_WORDS = 5
INVITATION = "Write your answer here, in a few sentences of your own."


class Outcome(StrEnum):
    """How an answer came out."""

    RIGHT = "right"
    CLOSE = "close"
    TURN = "wrong turn"
    NOT_YET = "not yet"
    WRITTEN = "written"  # words, for the teacher to read
    BLANK = "blank"
    UNREADABLE = "unreadable"


@dataclass(frozen=True)
class Verdict:
    """What an answer is worth and what to say to it.

    Parameters
    ----------
    outcome : Outcome
    sentence : str
        to the student; before the answer is right it never tells the result
    turn : str
        name of the wrong turn, for the teacher
    marks : float
        share of the question's marks, 0 to 1
    rows : tuple of (label, Verdict)
        line by line, for a sheet
    """

    outcome: Outcome
    sentence: str
    turn: str = ""
    marks: float = 0.0
    rows: tuple[tuple[str, Verdict], ...] = ()


_BLANK = Verdict(Outcome.BLANK, "Nothing is written here yet.")
_UNPICKED = Verdict(Outcome.BLANK, "Nothing is picked yet.")
_RIGHT = Verdict(Outcome.RIGHT, "Right.", marks=1.0)
_NOT_YET = Verdict(
    Outcome.NOT_YET, "Not yet. Write down what you have and what is asked for, then try again."
)


def judge(question: Question, drawn: Drawn, answer) -> Verdict:
    """What `answer` is worth as an answer to this student's version of a question.

    Parameters
    ----------
    question : Question
    drawn : Drawn
        the student's numbers
    answer
        anything at all; only plain data in it is read. A written function is judged by
        `judge_calls` instead.

    Examples
    --------
    >>> from herbcalc.classroom.questions import *
    >>> double = Number(name="double", step=1, prompt="Twice {x} mL?", numbers={"x": (5, 7)},
    ...     model=lambda x: 2 * x, unit="mL", tolerance=Tolerance(0.4, "by counting"),
    ...     sensible=(1, 100), section="-", worked="-", turns=[
    ...         Turn("squared", lambda x: x * x, "Twice is adding it once more."),
    ...         Turn("halved", lambda x: x / 2, "Twice is more, not less.")])
    >>> judge(double, Drawn({"x": 5}), "0.01 L").outcome
    <Outcome.RIGHT: 'right'>
    >>> judge(double, Drawn({"x": 5}), 25).sentence
    'Twice is adding it once more.'
    """
    return _judge(question, drawn, plain(answer))


@singledispatch
def _judge(question, drawn, answer) -> Verdict:
    raise TypeError(f"There is no judging a {type(question).__name__}.")


@_judge.register
def _(question: Number, drawn, answer):
    return _judge_amount(question, drawn.values, answer)


def _judge_amount(amount, values: Mapping, answer) -> Verdict:
    read = read_number(answer, amount.unit, amount.sensible)
    if read.blank:
        return _BLANK
    if read.trouble:
        return Verdict(Outcome.UNREADABLE, read.trouble)
    right = float(call(amount.model, values))
    allowed = amount.tolerance.around(right)
    off = abs(read.value - right)
    if off <= allowed:
        return _RIGHT
    for turn in amount.turns:
        wrong = float(call(turn.value, values))
        if abs(read.value - wrong) <= amount.tolerance.around(wrong):
            return Verdict(Outcome.TURN, say(turn.hint, values), turn.name)
    if off <= CLOSE * allowed:
        return Verdict(
            Outcome.CLOSE,
            "Close. The way is right: carry one more digit and round only at the end.", marks=0.5,
        )
    for factor in (1000, 0.001):
        if amount.unit in ("mL", "g") and abs(read.value * factor - right) <= allowed:
            return Verdict(Outcome.TURN, f"Look at the unit: the question asks for {amount.unit}.",
                           "thousandfold unit")
    return _NOT_YET


@_judge.register
def _(question: Choice, drawn, answer):
    read = read_letters(answer, len(question.options))
    if read.blank or read.trouble:
        return _unread(read, _UNPICKED)
    picked = drawn.order[read.value[0]]
    option = question.options[picked]
    says = say(option.says, drawn.values)
    if option.right:
        return Verdict(Outcome.RIGHT, f"Right. {says}".strip(), marks=1.0)
    return Verdict(Outcome.TURN, says, say(option.text, drawn.values))


@_judge.register
def _(question: Choices, drawn, answer):
    read = read_letters(answer, len(question.options), "some")
    if read.blank or read.trouble:
        return _unread(read, _UNPICKED)
    picked = {drawn.order[place] for place in read.value}
    if picked == question.right:
        return _RIGHT
    share = max(len(picked & question.right) - len(picked - question.right), 0)
    marks = round(share / len(question.right), 2) * 0.5  # at most half: it is not right
    wrong = [question.options[i] for i in sorted(picked - question.right)]
    if wrong:
        return Verdict(Outcome.TURN, say(wrong[0].says, drawn.values),
                       say(wrong[0].text, drawn.values), marks)
    return Verdict(Outcome.CLOSE, "What you picked belongs there, but something is missing.",
                   marks=marks)


@_judge.register
def _(question: Order, drawn, answer):
    read = read_letters(answer, len(question.items), "all")
    if read.blank or read.trouble:
        return _unread(read)
    given = [drawn.order[place] for place in read.value]
    if given == sorted(given):
        return _RIGHT
    placed = {question.items[item]: place for place, item in enumerate(given)}
    for pair in question.before:
        if placed[pair.first] > placed[pair.then]:
            return Verdict(Outcome.TURN, say(pair.hint, drawn.values),
                           say(f"{pair.then} before {pair.first}", drawn.values))
    if sum(item != place for place, item in enumerate(given)) == 2:
        return Verdict(Outcome.CLOSE, "Close: two of them have changed places.", marks=0.5)
    return Verdict(Outcome.NOT_YET, "Not yet. Think of your hands: what must be there before the "
                                    "next thing can be done?")


@_judge.register
def _(question: Table, drawn, answer):
    read = read_sheet(answer, [row.label for row in question.rows])
    if read.blank or read.trouble:
        return _unread(read)
    rows = tuple(
        (row.label, _judge_amount(row, drawn.values, read.value.get(row.label)))
        for row in question.rows
    )
    outcomes = [verdict.outcome for _, verdict in rows]
    if all(outcome is Outcome.BLANK for outcome in outcomes):
        return _BLANK
    marks = round(sum(verdict.marks for _, verdict in rows) / len(rows), 3)
    right = outcomes.count(Outcome.RIGHT)
    if right == len(rows):
        return Verdict(Outcome.RIGHT, "Right. The whole sheet.", marks=1.0, rows=rows)
    sentence = f"{right} of {len(rows)} lines are right."
    turn = "; ".join(f"{label}: {v.turn}" for label, v in rows if v.turn)
    for outcome in (Outcome.TURN, Outcome.UNREADABLE):
        if outcome in outcomes:
            return Verdict(outcome, sentence, turn, marks, rows)
    if Outcome.NOT_YET in outcomes or Outcome.BLANK in outcomes:
        return Verdict(Outcome.NOT_YET, sentence, marks=marks, rows=rows)
    return Verdict(Outcome.CLOSE, sentence, marks=marks, rows=rows)


@_judge.register
def _(question: Explain, drawn, answer):
    read = read_words(answer, INVITATION)
    if read.blank or read.trouble:
        return _unread(read)
    count = len(read.value.split())
    if count < _FEWEST_WORDS:
        return Verdict(Outcome.UNREADABLE, "Say a little more: one or two whole sentences.")
    return Verdict(Outcome.WRITTEN, f"Written: {count} words. Your teacher reads them.")


@_judge.register
def _(question: Function, drawn, answer):
    if answer is None:
        return _BLANK
    return Verdict(Outcome.UNREADABLE, "Here a function is asked for: keep the line that starts "
                                       "with def answer.")


def judge_calls(question: Function, tried, results) -> Verdict:
    """What a written function is worth, from what it gave back.

    Parameters
    ----------
    question : Function
    tried : sequence of mappings
        the arguments of each call (`herbcalc.classroom.numbers.calls`)
    results : sequence
        what came back, plain data or anything else
    """
    results = [plain(result) for result in results]
    if len(results) != len(tried):
        return Verdict(Outcome.NOT_YET, "Not every call of your function came back.")
    if all(result is None for result in results):
        return Verdict(Outcome.BLANK, "Your function gives nothing back yet.")
    for values, result in zip(tried, results):
        verdict = _judge_amount(question, values, result)
        if verdict.outcome is not Outcome.RIGHT:
            asked = ", ".join(f"{name} = {value}" for name, value in values.items())
            return Verdict(verdict.outcome, f"For {asked}: {verdict.sentence}", verdict.turn)
    return _RIGHT


def _unread(read, blank=_BLANK) -> Verdict:
    return Verdict(Outcome.UNREADABLE, read.trouble) if read.trouble else blank


def model_answer(question: Question, drawn: Drawn):
    """The right answer as a student would write it (for a `Function`, a function).

    A number keeps six significant digits: far finer than any tolerance.
    """
    values = drawn.values
    if isinstance(question, Number):
        return _number(question, values)
    if isinstance(question, Choice | Choices):
        places = sorted(drawn.order.index(i) for i in question.right)
        return ", ".join("abcdefgh"[place] for place in places)
    if isinstance(question, Order):
        return " ".join("abcdefgh"[drawn.order.index(i)] for i in range(len(question.items)))
    if isinstance(question, Table):
        return "\n".join(f"{row.label}: {_number(row, values)} {row.unit}"
                         for row in question.rows)
    if isinstance(question, Explain):
        return question.example
    return lambda *given, **named: call(
        question.model, dict(zip(question.numbers, given)) | named
    )


def worked_path(question: Question, drawn: Drawn) -> str:
    """The worked path with the student's numbers: only for who has it right.

    ``answer`` in it is the right number; for a sheet the numbers by their labels.
    """
    values = dict(drawn.values)
    if isinstance(question, Table):
        values["answer"] = {row.label: call(row.model, values) for row in question.rows}
    elif amounts(question):
        values["answer"] = call(question.model, values)
    return say(question.worked, values)


def _number(amount, values):
    value = float(f"{call(amount.model, values):.6g}")
    return int(value) if value.is_integer() else value

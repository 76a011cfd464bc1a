"""What a question is: prompt, numbers, model answer, tolerance, wrong turns and hints in one block.

A lesson's questions stand in ``exercises/NN-topic/questions.py``::

    title = "Diluting"
    self_check = [Choice(...), Choice(...), Number(...)]       # three, shown in the lesson
    homework = [Number(...), Choice(...), Table(...), Explain(...)]

and a question is one block::

    Number(
        name="water-to-add",
        step=2,                                   # 1 one step ... 5 a jar problem with five
        prompt="You have **{volume} mL** of spirit at {abv} % vol ... How much water goes in?",
        numbers=dict(volume=steps(200, 600, 50), abv=(90, 95, 96), to=steps(40, 60, 5)),
        model=lambda volume, abv, to: hc.water_to_dilute(volume, abv, to),
        unit="mL",
        tolerance=Tolerance(5, "a 500 mL cylinder is read to 5 mL"),
        sensible=(50, 1000),
        turns=[
            Turn("the simple difference", lambda volume, abv, to: volume * (abv / to - 1),
                 "Masses add, volumes do not: ..."),
            Turn("upside down", lambda volume, abv, to: volume * to / abv, "..."),
        ],
        section="Adding water to spirit",         # heading of the lesson to read again
        worked=lambda volume, abv, to, answer: f"...",
    )

Every callable is handed, by name, those of the student's numbers that it asks for. Texts are
either plain (with ``{numbers}``) or callables of the numbers; ``worked`` may also ask for
``answer``, a hint may not. A question that breaks a rule is refused with all its faults at once.
"""

from __future__ import annotations

import inspect
import math
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from functools import lru_cache
from string import Formatter

from herbcalc.kitchen import known_unit

__all__ = [
    "Before", "Choice", "Choices", "Explain", "Function", "Number", "Option", "Order", "Point",
    "Published", "Question", "Row", "Table", "Tolerance", "Turn", "amounts", "call", "say",
    "steps",
]

Words = str | Callable[..., str]
Figure = Callable[..., float]


def steps(first, last, step):
    """The values from `first` to `last` in steps of `step`, both ends counted, exact as written.

    >>> steps(100, 250, 50)
    (100, 150, 200, 250)
    >>> steps(0.1, 0.4, 0.1)
    (0.1, 0.2, 0.3, 0.4)
    """
    low, high, by = (Decimal(str(number)) for number in (first, last, step))
    if by <= 0 or high < low or (high - low) % by:
        raise ValueError(f"Steps of {step} from {first} never land on {last}.")
    values = (low + by * i for i in range(int((high - low) / by) + 1))
    return tuple(int(value) if value == value.to_integral_value() else float(value)
                 for value in values)


@lru_cache(maxsize=None)
def _asks_for(function) -> tuple[str, ...]:
    return tuple(inspect.signature(function).parameters)


def call(function, values: Mapping):
    """`function` with those of the `values` that it asks for by name.

    >>> call(lambda volume: volume / 2, {"volume": 100, "abv": 40})
    50.0
    """
    return function(**{name: values[name] for name in _asks_for(function)})


def say(words: Words, values: Mapping) -> str:
    """A text with the student's numbers in it.

    >>> say("{volume} mL", {"volume": 100})
    '100 mL'
    """
    return call(words, values) if callable(words) else words.format_map(values)


# --- the parts of a question ---------------------------------------------------------------------


@dataclass(frozen=True)
class Tolerance:
    """How far an answer may be off and still be right, and why that far.

    Parameters
    ----------
    absolute : float
        in the unit of the answer
    why : str
        one sentence: what the bench can measure, what the tables round
    percent : float
        of the right answer; the wider of the two counts

    Examples
    --------
    >>> Tolerance(5, "a 500 mL cylinder is read to 5 mL", percent=1).around(800)
    8.0
    """

    absolute: float
    why: str
    percent: float = 0.0

    def around(self, value: float) -> float:
        """The distance allowed on either side of `value`."""
        return max(float(self.absolute), abs(value) * self.percent / 100)


@dataclass(frozen=True)
class Turn:
    """A known wrong turn: what a student gets who takes it, and the hint that names the idea.

    Parameters
    ----------
    name : str
        what was done, for the teacher ("took proof for per cent")
    value : callable
        what comes out, from the student's own numbers, in the unit of the answer
    hint : str or callable
        names the idea, never the result
    """

    name: str
    value: Figure
    hint: Words


@dataclass(frozen=True)
class Published:
    """A published worked example that the model answer must reproduce.

    Parameters
    ----------
    source : str
        where it is printed
    numbers : mapping
        the published numbers, under the question's names
    result : float
        the published result, in the unit of the answer
    within : float
        half of the last digit printed, or what the source's own rounding on the way explains
    note : str
        what that is, where `within` is more than the last digit
    """

    source: str
    numbers: Mapping[str, object]
    result: float
    within: float
    note: str = ""


@dataclass(frozen=True)
class Option:
    """One thing to pick: its text, whether it is right, and what to say to who picks it."""

    text: Words
    says: Words = ""
    right: bool = False


@dataclass(frozen=True)
class Before:
    """In an `Order`: `first` comes before `then`; the hint for who has it the other way round."""

    first: str
    then: str
    hint: Words


@dataclass(frozen=True)
class Point:
    """One line of a rubric: what the teacher looks for, and the marks it is worth."""

    text: str
    marks: int = 1


@dataclass(frozen=True, kw_only=True, eq=False)
class _Amount:
    """A number with its unit, and how it is judged (a question or a row of a sheet)."""

    model: Figure
    unit: str
    tolerance: Tolerance
    turns: Sequence[Turn]
    sensible: tuple[float, float]  # lowest and highest right answer that a real bench would meet


@dataclass(frozen=True, kw_only=True, eq=False)
class Row(_Amount):
    """One line of a `Table`: a label and a number with its unit."""

    label: str

    least_turns = 1


# --- questions -----------------------------------------------------------------------------------


@dataclass(frozen=True, kw_only=True, eq=False)
class Question:
    """What every kind of question has.

    Parameters
    ----------
    name : str
        lower-case words joined by hyphens; one of its kind in its topic
    step : int
        1 (one step) to 5 (a jar problem with five)
    prompt : str or callable
        with the numbers in it, all of them; ``**bold**`` and ``*italic*`` are understood
    section : str
        heading of the lesson to read again after the second miss
    worked : str or callable
        the worked path, shown once the answer is right
    numbers : mapping of name to the values it may take (`steps` helps)
        each student gets one of each
    keep : callable, optional
        from the numbers: whether they go together; others are drawn anew
    published : Published, optional
        a published worked example (kinds with a number)
    marks : int
        what it is worth
    optional : bool
        an extra: never counted as missing
    """

    name: str
    step: int
    prompt: Words
    section: str
    worked: Words
    numbers: Mapping[str, Sequence] = field(default_factory=dict)
    keep: Callable[..., bool] | None = None
    published: Published | None = None
    marks: int = 1
    optional: bool = False

    automatic = True

    def __post_init__(self):
        faults = list(self._faults())
        if faults:
            raise ValueError(
                f"The question {str(self.name)!r} needs mending: " + "; ".join(faults) + "."
            )

    def _faults(self):
        """Everything that is wrong with the block as it is written, one phrase each."""
        if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", str(self.name)):
            yield "its name must be lower-case words joined by hyphens"
        if self.step not in (1, 2, 3, 4, 5):
            yield f"its step must be 1 to 5, not {self.step!r}"
        if not isinstance(self.marks, int) or self.marks < 1:
            yield "its marks must be a whole number above 0"
        if not callable(self.prompt):
            yield from _written("prompt", self.prompt)
        yield from _written("section", self.section)
        if not callable(self.worked):
            yield from _written("worked", self.worked)
        for name, values in self.numbers.items():
            if not str(name).isidentifier() or name == "answer":
                yield f"a number cannot be called {name!r}"
            if isinstance(values, str) or not isinstance(values, Sequence) or not values:
                yield f"the number {name} needs a list of values to take"
            elif len(set(values)) < len(values):
                yield f"the number {name} has the same value twice"
        asked = set(_asked(self.prompt))
        if asked != set(self.numbers):
            stray = ", ".join(sorted(asked ^ set(self.numbers)))
            yield f"prompt and numbers do not go together: {stray}"
        yield from self._understood("worked", self.worked, "answer")
        if self.keep is not None:
            yield from self._understood("keep", self.keep)
        if self.published is not None:
            yield from self._published_faults(self.published)

    def _understood(self, what, words, *extra):
        """Faults of a callable or a text that asks for numbers the question has not."""
        unknown = sorted(set(_asked(words)) - set(self.numbers) - set(extra))
        if unknown:
            yield f"{what} asks for {', '.join(unknown)}, which is not among its numbers"

    def _amount_faults(self, amount, where="", least=2):
        if not callable(amount.model):
            yield f"{where}model must be a callable of the numbers"
        else:
            yield from self._understood(f"{where}model", amount.model)
        if not known_unit(amount.unit):
            yield f"{where}unit {amount.unit!r} is not one the course can read"
        if not (amount.tolerance.absolute > 0 or amount.tolerance.percent > 0):
            yield f"{where}tolerance must be above 0"
        yield from _written(f"{where}reason for the tolerance", amount.tolerance.why)
        low, high = amount.sensible
        if not (math.isfinite(low) and low < high < math.inf):
            yield f"{where}sensible range must be two numbers, the lower first"
        if len(amount.turns) < least:
            yield f"{where}it must know at least {least} wrong turn{'s' if least > 1 else ''}"
        for turn in amount.turns:
            yield from _written(f"{where}name of a wrong turn", turn.name)
            yield from self._hint_faults(f"{where}hint of {turn.name!r}", turn.hint)
            yield from self._understood(f"{where}wrong turn {turn.name!r}", turn.value)
        if len({turn.name for turn in amount.turns}) < len(amount.turns):
            yield f"{where}two wrong turns have the same name"

    def _hint_faults(self, what, hint):
        if not callable(hint):
            yield from _written(what, hint)
        yield from self._understood(what, hint)

    def _published_faults(self, published):
        yield from _written("source of the published example", published.source)
        if not isinstance(self, Number | Function):
            yield "a published example belongs to a question with one number"
        if set(published.numbers) != set(self.numbers):
            yield "the published example must give all of its numbers and no others"
        if not (math.isfinite(published.result) and 0 < published.within < math.inf):
            yield "the published example needs its result and how it was rounded"


@dataclass(frozen=True, kw_only=True, eq=False)
class Number(_Amount, Question):
    """A number with its unit: ``answer = 406  # mL``."""

    least_turns = 2

    def _faults(self):
        yield from super()._faults()
        yield from self._amount_faults(self)


@dataclass(frozen=True, kw_only=True, eq=False)
class _Picking(Question):
    options: Sequence[Option]

    def _faults(self):
        yield from super()._faults()
        if not 2 <= len(self.options) <= 8:
            yield "it needs 2 to 8 options"
        if len({str(option.text) for option in self.options}) < len(self.options):
            yield "two options read the same"
        for option in self.options:
            what = f"option {str(option.text)[:30]!r}"
            if not callable(option.text):
                yield from _written("text of an option", option.text)
            yield from self._understood(what, option.text)
            if option.right:
                yield from self._understood(f"what is said to {what}", option.says)
            else:
                yield from self._hint_faults(f"what is said to {what}", option.says)

    @property
    def right(self) -> frozenset[int]:
        """The places of the right options."""
        return frozenset(i for i, option in enumerate(self.options) if option.right)


@dataclass(frozen=True, kw_only=True, eq=False)
class Choice(_Picking):
    """One of several: ``answer = "b"``."""

    def _faults(self):
        yield from super()._faults()
        if len(self.right) != 1:
            yield "exactly one option must be right"


@dataclass(frozen=True, kw_only=True, eq=False)
class Choices(_Picking):
    """Several of several: ``answer = "a, d"``."""

    def _faults(self):
        yield from super()._faults()
        if not 1 <= len(self.right) < len(self.options):
            yield "some options must be right, and not all of them"


@dataclass(frozen=True, kw_only=True, eq=False)
class Order(Question):
    """Put in order: ``answer = "c a d b"``. The items are written in the right order."""

    items: Sequence[str]
    before: Sequence[Before]

    def _faults(self):
        yield from super()._faults()
        if not 3 <= len(self.items) <= 8:
            yield "it needs 3 to 8 items"
        if len(set(self.items)) < len(self.items):
            yield "two items read the same"
        if not self.before:
            yield "it must know at least one pair that is often the wrong way round"
        for item in self.items:
            yield from self._understood(f"item {item[:30]!r}", item)
        for pair in self.before:
            if not {pair.first, pair.then} <= set(self.items):
                yield f"the pair {pair.first!r} and {pair.then!r} is not among the items"
            elif self.items.index(pair.first) >= self.items.index(pair.then):
                yield f"{pair.first!r} does not come before {pair.then!r}"
            yield from self._hint_faults(f"hint of the pair {pair.first!r}", pair.hint)


@dataclass(frozen=True, kw_only=True, eq=False)
class Table(Question):
    """A small sheet to fill in, one number with its unit on each line."""

    rows: Sequence[Row]

    def _faults(self):
        yield from super()._faults()
        if not 2 <= len(self.rows) <= 10:
            yield "it needs 2 to 10 rows"
        labels = [row.label for row in self.rows]
        if len({str(label).casefold() for label in labels}) < len(labels):
            yield "two rows have the same label"
        for row in self.rows:
            if not re.fullmatch(r"[A-Za-z][^:=#\n{}]*", str(row.label)):
                yield f"the label {row.label!r} must start with a letter and hold no : = or #"
            yield from self._amount_faults(row, f"row {row.label!r}: ", least=Row.least_turns)


@dataclass(frozen=True, kw_only=True, eq=False)
class Explain(Question):
    """To explain in words; the teacher marks it by the rubric."""

    rubric: Sequence[Point]
    example: str
    worked: Words = ""

    automatic = False

    def __post_init__(self):
        if not self.worked:
            object.__setattr__(self, "worked", self.example or "")
        super().__post_init__()

    def _faults(self):
        yield from super()._faults()
        yield from _written("model explanation (example)", self.example)
        if not self.rubric:
            yield "it needs a rubric"
        for point in self.rubric:
            yield from _written("a line of the rubric", point.text)
            if not isinstance(point.marks, int) or point.marks < 1:
                yield f"the rubric line {point.text[:30]!r} needs marks above 0"
        if self.rubric and self.marks != sum(point.marks for point in self.rubric):
            yield "its marks must be those of the rubric together"


@dataclass(frozen=True, kw_only=True, eq=False)
class Function(_Amount, Question):
    """A function to write, for those who code; always an extra. Its arguments are the numbers."""

    optional: bool = True

    least_turns = 2
    tries = 6  # calls with which a function is tried

    def _faults(self):
        yield from super()._faults()
        yield from self._amount_faults(self)
        if not self.optional:
            yield "a function to write can only be an extra (optional=True)"
        if not self.numbers:
            yield "a function needs numbers as its arguments"


def amounts(question: Question) -> tuple[_Amount, ...]:
    """What in a question is a number with a unit: itself, its rows, or nothing."""
    if isinstance(question, Table):
        return tuple(question.rows)
    return (question,) if isinstance(question, _Amount) else ()


def _asked(words) -> Sequence[str]:
    """The numbers that a text or a callable asks for."""
    if callable(words):
        return _asks_for(words)
    return [name for _, name, _, _ in Formatter().parse(str(words)) if name is not None]


def _written(what, text):
    if not isinstance(text, str) or not text.strip():
        yield f"the {what} is missing"

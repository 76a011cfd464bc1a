"""Each student's own numbers: from class secret, student code and question, the same anywhere.

The class secret never leaves the teacher. From it and a student code comes that student's *key*,
which stands in the student's notebook; from the key and a question come the numbers. Both steps
are HMAC-SHA256 (RFC 2104, FIPS 198-1), so no version of Python or of a library can change them.
"""

from __future__ import annotations

import hashlib
import hmac
import json
import math
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from herbcalc.classroom.questions import (
    Choice,
    Choices,
    Function,
    Order,
    Question,
    amounts,
    call,
)

__all__ = [
    "OPEN_SECRET", "SELF_STUDY", "Drawn", "calls", "checksum", "draw", "fits", "student_key",
]

SELF_STUDY = "self-study"
OPEN_SECRET = "open to everyone"  # of self-study: there is nothing to hide

_DRAWS = 400  # a question whose values rarely go together is a question to mend


@dataclass(frozen=True)
class Drawn:
    """One student's version of one question.

    Parameters
    ----------
    values : mapping
        the numbers by name
    order : tuple of int
        of options or items: which of them stands at letter a, b, c ...
    """

    values: Mapping[str, object] = field(default_factory=dict)
    order: tuple[int, ...] = ()


def student_key(secret: str = OPEN_SECRET, student: str = SELF_STUDY) -> str:
    """The key of one student: 16 hexadecimal digits.

    Parameters
    ----------
    secret : str
        the class secret, kept by the teacher
    student : str
        the student code; read in Unicode's NFC form, spaces around it do not count

    Raises
    ------
    ValueError
        when one of them is empty.

    Examples
    --------
    >>> student_key()
    '937bb16938bae222'
    >>> student_key("our secret", "student-01") == student_key("our secret", " student-01 ")
    True
    """
    code = unicodedata.normalize("NFC", student).strip()
    if not secret or not code:
        raise ValueError("A student's numbers need a class secret and a student code.")
    return _digest(secret, f"student {code}").hex()[:16]


def draw(question: Question, key: str, topic: str) -> Drawn:
    """One student's numbers for a question.

    The first draw that fits (see `fits`) counts, so right answer and wrong turns always stand
    apart, whoever the student is.

    Parameters
    ----------
    question : Question
    key : str
        of the student
    topic : str
        name of the exercise folder

    Raises
    ------
    ValueError
        when the question's values hardly ever go together.
    """
    for attempt in range(_DRAWS):
        drawn = _draw(question, key, f"{topic}/{question.name}/{attempt}")
        if fits(question, drawn.values):
            return drawn
    raise ValueError(
        f"The numbers of {question.name!r} do not go together: in {_DRAWS} draws the right answer "
        "was never in the sensible range and well apart from every wrong turn."
    )


def fits(question: Question, values: Mapping) -> bool:
    """Whether these values make a fair question.

    The question's own `keep` agrees, each right answer is in its sensible range, and the bands
    of tolerance around the right answer and the wrong turns do not touch each other.

    >>> from herbcalc.classroom.questions import *
    >>> double = Number(name="double", step=1, prompt="Twice {x} mL?", numbers={"x": (2, 5)},
    ...     model=lambda x: 2 * x, unit="mL", tolerance=Tolerance(0.4, "by counting"),
    ...     sensible=(1, 100), section="-", worked="-", turns=[
    ...         Turn("squared", lambda x: x * x, "Twice is adding it once more."),
    ...         Turn("halved", lambda x: x / 2, "Twice is more, not less.")])
    >>> fits(double, {"x": 5}), fits(double, {"x": 2})    # 2 + 2 is 2 times 2
    (True, False)
    """
    try:
        if question.keep is not None and not call(question.keep, values):
            return False
        return all(_apart(amount, values) for amount in amounts(question))
    except ValueError:  # the course itself says that these numbers are impossible
        return False


def _apart(amount, values) -> bool:
    right = float(call(amount.model, values))
    low, high = amount.sensible
    if not low <= right <= high:
        return False
    found = [right, *(float(call(turn.value, values)) for turn in amount.turns)]
    if not all(math.isfinite(value) for value in found):
        return False
    bands = sorted((v - amount.tolerance.around(v), v + amount.tolerance.around(v)) for v in found)
    return all(below[1] < above[0] for below, above in zip(bands, bands[1:]))


def calls(question: Function, key: str, topic: str, salt: str = "") -> tuple[dict, ...]:
    """Arguments to try a written function with; another `salt` gives others."""
    label = f"{topic}/call {salt}"
    return tuple(dict(draw(question, key, f"{label}{n}").values) for n in range(question.tries))


def checksum(drawn: Iterable[tuple[str, Drawn]]) -> str:
    """Eight hexadecimal digits that change when any number of a homework does.

    >>> checksum([("one", Drawn({"x": 1}))]) == checksum([("one", Drawn({"x": 2}))])
    False
    """
    listed = [[name, sorted(one.values.items()), list(one.order)] for name, one in drawn]
    return hashlib.sha256(json.dumps(listed).encode()).hexdigest()[:8]


def _draw(question, key, label) -> Drawn:
    values = {
        name: choices[int.from_bytes(_digest(key, f"{label}/{name}")[:8]) % len(choices)]
        for name, choices in question.numbers.items()
    }
    return Drawn(values, _shuffled(question, key, label))


def _shuffled(question, key, label) -> tuple[int, ...]:
    if isinstance(question, Order):
        things = len(question.items)
    elif isinstance(question, Choice | Choices):
        things = len(question.options)
    else:
        return ()
    order = sorted(range(things), key=lambda i: _digest(key, f"{label}/place {i}"))
    if isinstance(question, Order) and order == sorted(order):
        order.reverse()  # never handed out in the right order
    return tuple(order)


def _digest(key: str, words: str) -> bytes:
    return hmac.new(key.encode(), words.encode(), hashlib.sha256).digest()

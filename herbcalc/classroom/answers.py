"""Reading what a student wrote: a number with or without its unit, letters, a sheet, words.

Two steps, so that the marking can do the second one outside the student's kernel. `plain` turns
whatever `answer` holds into plain data (only exact, known types are looked into; of anything
else just the name of its type is kept); it is told in `herbcalc.classroom.inside`. The
`read_...` functions turn plain data into a value, or into one friendly sentence that says how to
write it.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from herbcalc.classroom.inside.plain import LONGEST, plain
from herbcalc.kitchen import convert, find_unit, split_amount, tidy

__all__ = ["Reading", "plain", "read_letters", "read_number", "read_sheet", "read_words"]


@dataclass(frozen=True)
class Reading:
    """What an answer says: a `value`, or a `trouble` in one sentence, or neither (`blank`)."""

    value: object = None
    trouble: str = ""

    @property
    def blank(self) -> bool:
        """Whether nothing was written yet."""
        return self.value is None and not self.trouble


# --- a number with its unit ----------------------------------------------------------------------

_COMMA = re.compile(r"[+-]?\d+,\d+\D*")
_THOUSANDS = re.compile(r"[+-]?[1-9]\d{0,2},\d{3}(\.\d+)?\D*")
_GROUPS = re.compile(r"[+-]?\d{1,3}([ ']\d{3})+(\.\d+)?\D*|[+-]?\d{1,3}(,\d{3}){2,}(\.\d+)?\D*")


def read_number(answer, unit: str, sensible: tuple[float, float]) -> Reading:
    """A number in the `unit` asked for.

    Parameters
    ----------
    answer
        plain data
    unit : str
        the unit asked for
    sensible : (float, float)
        lowest and highest right answer; tells a per cent given as a fraction

    Examples
    --------
    >>> read_number("0.406 L", "mL", (1, 1000)).value
    406.0
    >>> read_number("40,6", "% vol", (1, 96)).trouble
    'Write the decimal with a point, not a comma: 40.6.'
    """
    if isinstance(answer, list):
        return Reading(trouble=_list_trouble(answer))
    if isinstance(answer, dict):
        return Reading(trouble=_object_trouble(answer, f"one number, in {unit}"))
    if isinstance(answer, bool):
        return Reading(trouble=f"The question asks for a number, in {unit}, not for yes or no.")
    if isinstance(answer, str):
        read = _read_text(answer, unit)
    else:
        read = Reading(answer)
    if read.value is None:
        return read
    return _settle(float(read.value), unit, sensible)


def _settle(number, unit, sensible) -> Reading:
    if not math.isfinite(number):
        return Reading(trouble="That number is missing or endless: look at the sum again.")
    if unit.startswith("%") and sensible[0] > 1 and 0 < number < 1:
        return Reading(trouble=(
            f"{number:.4g} looks like a fraction. Per cent means out of a hundred: a half is "
            "written as fifty."
        ))
    return Reading(number)


def _read_text(text, unit) -> Reading:
    if len(text) > 200:
        return Reading(trouble=f"That is a lot of text: the question asks for a number, in {unit}.")
    text = tidy(text)
    if text.strip(".?-_ \u2026") == "" or re.fullmatch(r"(\.\.\.|\u2026)\D*", text):
        return Reading()  # "... mL" of a sheet not filled in
    if _GROUPS.fullmatch(text):
        return Reading(trouble="Write the number in one piece: 1200, not 1 200 or 1,200.")
    if _THOUSANDS.fullmatch(text):
        return Reading(trouble=(
            "A comma can mean two things here. Write 1000 for a thousand, 1.5 for one and a half."
        ))
    if _COMMA.fullmatch(text):
        return Reading(trouble=(
            f"Write the decimal with a point, not a comma: {text.replace(',', '.')}."
        ))
    if unit in ("mL per g", "parts") and (ratio := re.fullmatch(r"1\s*:\s*(\d+\.?\d*)", text)):
        return Reading(float(ratio[1]))
    if text[:1] in "$€":  # money is written before the number
        text = f"{text[1:]} {text[0]}"
    if sour := re.fullmatch(r"ph\s*[=:]?\s*(\d.*)", text, flags=re.I):  # so is the pH
        text = f"{sour[1]} pH"
    text = re.sub(r"^(about|roughly|approx\.?|ca\.?|circa|~|≈|=)\s*", "", text, flags=re.I)
    if re.fullmatch(r"\d[\d.]*\s*[^\d\s./-]*\s*(-|to|or|and|\u2026)\s*\d[\d.]*[^\d]*", text):
        return Reading(trouble="That is two numbers. Settle on one.")
    try:
        found = split_amount(text)
    except ZeroDivisionError:
        return Reading(trouble="That divides by nothing: look at the fraction again.")
    if not found:
        return Reading(trouble=_text_trouble(text, unit))
    return _in_unit(*found, unit)


def _in_unit(number, written, unit) -> Reading:
    if not written:
        return Reading(number)
    wanted, given = find_unit(unit), find_unit(written)
    if given is None:
        shown = written if len(written) <= 20 else written[:20] + "…"
        return Reading(trouble=(
            f"I do not know the unit “{shown}”. Write just the number, in {unit}."
        ))
    value = convert(number, given, wanted)
    if value is not None:
        return Reading(value)
    if given.name == "oz" and wanted.kind == "a volume":
        return Reading(trouble=(
            "An ounce (oz) is a weight; the ounce of a measuring jug is a fluid ounce. "
            f"The question asks for a volume, in {unit}."
        ))
    if given.kind == wanted.kind:
        return Reading(trouble=f"That is in {given.name}; the question asks for {unit}.")
    return Reading(trouble=(
        f"That is in {given.name}, {given.kind}. The question asks for {wanted.kind}, in {unit}."
    ))


def _list_trouble(answer) -> str:
    if (len(answer) == 2 and all(type(one) is int for one in answer) and answer[1] >= 0):
        return ("The comma makes two numbers of it. Write the decimal with a point: "
                f"{answer[0]}.{answer[1]}.")
    if len(answer) == 1:
        return "Write the number alone, without the brackets."
    return f"That is a list of {len(answer)}; the question asks for one number."


def _object_trouble(answer, wanted) -> str:
    what = answer.get("?") if set(answer) == {"?"} else "sheet"
    if what in ("function", "builtin_function_or_method", "method"):
        return f"That is a function, not its result; the question asks for {wanted}."
    if what == "Liquid":
        return (f"That is a whole liquid; the question asks for {wanted}. "
                "Ask the liquid for it: .volume, say.")
    if what == "endless number":
        return f"That number has no end; the question asks for {wanted}."
    return f"That is a {what}; the question asks for {wanted}."


def _text_trouble(text, unit) -> str:
    if not any(c.isdigit() for c in text):
        return f"There is no number in “{text[:40]}”. The question asks for a number, in {unit}."
    return f"I cannot read “{text[:40]}”. Write just the number, in {unit}."


# --- letters -------------------------------------------------------------------------------------


def read_letters(answer, count: int, wanted: str = "one") -> Reading:
    """The places of the letters picked: "b" is (1,).

    Parameters
    ----------
    answer
        plain data
    count : int
        how many letters there are to pick from
    wanted : {"one", "some", "all"}
        all: each letter exactly once

    Examples
    --------
    >>> read_letters("c, A", 4, "some").value
    (2, 0)
    >>> read_letters("f", 4).trouble
    'There is no f here: the letters go from a to d.'
    """
    last = "abcdefgh"[count - 1]
    if isinstance(answer, list):
        if not all(isinstance(one, str) and len(one.strip()) <= 2 for one in answer):
            return Reading(trouble=f"Answer with letters from a to {last}.")
        answer = " ".join(answer)
    if answer is None:
        return Reading()
    if not isinstance(answer, str) or len(answer) > 200:
        return Reading(trouble=f"Answer with letters from a to {last}.")
    text = tidy(answer).lower()
    if text.strip(".?-_ \u2026") == "":
        return Reading()
    if re.search(r"[a-z]{2}", re.sub(r"\b(and|then|or)\b", " ", text)) and not re.fullmatch(
        rf"[a-{last}]{{2,{count}}}", text  # "cadb"
    ):
        return Reading(trouble=f"Answer with the letter alone, from a to {last}.")
    letters = re.findall(r"[a-z0-9]", re.sub(r"\b(and|then|or)\b", " ", text))
    stray = [letter for letter in letters if not "a" <= letter <= last]
    if stray or not letters:
        shown = stray[0] if stray else text[:10]
        return Reading(trouble=f"There is no {shown} here: the letters go from a to {last}.")
    places = tuple(ord(letter) - ord("a") for letter in letters)
    if len(set(places)) < len(places):
        return Reading(trouble="One letter stands there twice.")
    if wanted == "one" and len(places) > 1:
        return Reading(trouble="Pick one letter only.")
    if wanted == "all" and len(places) < count:
        return Reading(trouble=f"Put all {count} letters in order, each of them once.")
    return Reading(places)


# --- a sheet and words ---------------------------------------------------------------------------


def read_sheet(answer, labels) -> Reading:
    """The lines of a sheet as a mapping from label to what stands behind it.

    >>> read_sheet("spirit: 421 mL\\nwater: ...", ["spirit", "water"]).value
    {'spirit': '421 mL', 'water': '...'}
    """
    labels = list(labels)
    if answer is None:
        return Reading()
    if isinstance(answer, str) and len(answer) <= 5000:
        if not answer.strip():
            return Reading()
        lines = [line.partition("#")[0] for line in answer.splitlines()]
        pairs = [re.split("[:=]", line, maxsplit=1) for line in lines if line.strip()]
        astray = next((pair[0].strip() for pair in pairs if len(pair) < 2), None)
        if astray is not None:
            return Reading(trouble=(
                f"I cannot read the line “{astray[:40]}”: write what it is, a colon, the number."
            ))
        pairs = [(name, value.strip()) for name, value in pairs]
    elif isinstance(answer, dict) and "?" not in answer:
        pairs = list(answer.items())
    else:
        return Reading(trouble="Fill in the sheet as it stands, one number on each line.")
    known = {" ".join(label.casefold().split()): label for label in labels}
    found = {}
    for name, value in pairs:
        label = known.get(" ".join(name.casefold().split()))
        if label is None:
            return Reading(trouble=(
                f"There is no line “{name.strip()[:40]}” in this sheet. "
                f"Its lines are: {', '.join(labels)}."
            ))
        if label in found:
            return Reading(trouble=f"The line “{label}” stands there twice.")
        found[label] = value
    return Reading(found)


def read_words(answer, invitation: str) -> Reading:
    """An explanation; blank while it still is only the `invitation` to write.

    >>> read_words("  Masses add.  ", "Write here.").value
    'Masses add.'
    """
    if answer is None:
        return Reading()
    if not isinstance(answer, str):
        return Reading(trouble="Write your answer in words, between the two lines of quotes.")
    text = answer.replace(invitation, "").strip()
    if text.strip(".?-_ \u2026") == "":
        return Reading()
    if len(text) > LONGEST:
        return Reading(trouble="That is longer than anyone can read: a few sentences will do.")
    return Reading(text)

"""Answers as people write them, what is said to them, and the notebook around it."""

import ast
import json
import math
import os
from dataclasses import replace
from pathlib import Path

import nbformat
import numpy as np
import pint
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from nbclient import NotebookClient

from herbcalc import explore
from herbcalc.classroom import (
    Function,
    Outcome,
    before_handing_in,
    calls,
    draw,
    find_topic,
    homework_notebook,
    judge,
    judge_calls,
    model_answer,
    notebook_text,
    open_homework,
    student_key,
    topics,
)
from herbcalc.classroom.answers import plain, read_letters, read_number, read_sheet, read_words
from herbcalc.classroom.homework import as_written
from herbcalc.classroom.questions import amounts, call, say
from herbcalc.classroom.text import to_html

DILUTING = find_topic("02")
KEY = student_key("an oak by the gate", "student-007")


# --- a number with its unit ----------------------------------------------------------------------

# Exact by definition: NIST Handbook 44, Appendix C (US customary measures).
PUBLISHED_FACTORS = [
    ("L", "mL", 1000), ("cL", "mL", 10), ("dL", "mL", 100), ("fl oz", "mL", 29.5735295625),
    ("tsp", "mL", 4.92892159375), ("tbsp", "mL", 14.78676478125), ("cups", "mL", 236.5882365),
    ("pints", "mL", 473.176473), ("quarts", "mL", 946.352946), ("oz", "g", 28.349523125),
    ("lb", "g", 453.59237), ("kg", "g", 1000), ("mg", "g", 0.001), ("weeks", "days", 7),
    ("years", "months", 12), ("kg/m3", "g/mL", 0.001),
]


@pytest.mark.parametrize("written, asked, factor", PUBLISHED_FACTORS)
@given(number=st.floats(0.01, 1000))
def test_units_convert_as_published(written, asked, factor, number):
    read = read_number(f"{number!r} {written}", asked, (0, 1e9))
    assert read.value == pytest.approx(number * factor, rel=1e-9)


def test_temperatures_convert():
    assert read_number("68 °F", "°C", (0, 50)).value == pytest.approx(20)


@pytest.mark.parametrize("written", [
    406, 406.0, "406", "406 mL", "406ml", "406 ML", " 406  ml ", "406 milliliters", "406.",
    "0.406 L", "0.406 litres", ".406 l", "40.6 cl", "4.06e2 mL", "+406", "about 406", "~406 mL", "= 406 mL",
    "４０６ mL", "406\u00a0mL", "812/2", "405 2/2", "406 cc", np.float64(406), np.float32(406),
    np.int32(406), np.array(406.0), np.array(406), pint.Quantity(0.406, "liter"),
    pint.Quantity(406, "milliliter"), np.str_("406 mL"),
])
def test_406_ml_in_many_hands(written):
    assert read_number(plain(written), "mL", (1, 1000)).value == pytest.approx(406)


@pytest.mark.parametrize("written", [2.4, "2.4", "pH 2.4", "2.4 pH", "ph=2.4", "PH: 2.4"])
def test_a_ph_is_written_before_or_behind(written):
    assert read_number(written, "pH", (1, 7)).value == 2.4


def test_a_ph_is_no_acidity():
    assert "how sour it is now, in pH" in read_number("2.4 g per 100 mL", "pH", (1, 7)).trouble


@pytest.mark.parametrize("written", [None, ..., "", "  ", "...", "…", "?", "-", "... mL", "…  mL"])
def test_blanks(written):
    assert read_number(plain(written), "mL", (1, 1000)).blank


@pytest.mark.parametrize("written, unit, said", [
    ("40,6", "% vol", "with a point, not a comma: 40.6"),
    ("40,6 % vol", "% vol", "40.6 % vol"),
    ((40, 6), "% vol", "two numbers of it. Write the decimal with a point: 40.6"),
    ("1,000", "mL", "comma can mean two things"),
    ("1 000 mL", "mL", "in one piece"),
    ("1'000", "mL", "in one piece"),
    (0.406, "% vol", "looks like a fraction"),
    ("0.406 % vol", "% vol", "looks like a fraction"),
    ("406 g", "mL", "in g, a weight. The question asks for a volume, in mL"),
    ("14 oz", "mL", "fluid ounce"),
    ("14 fl oz", "g", "a volume. The question asks for a weight"),
    ("80 proof", "% vol", "a scale of its own"),
    ("40 % mass", "% vol", "a share by mass"),
    ("406 handfuls", "mL", "do not know the unit “handfuls”"),
    ("four hundred", "mL", "no number in “four hundred”"),
    ("400-410", "mL", "two numbers"),
    ("400 mL to 410 mL", "mL", "two numbers"),
    ("400 or 410", "mL", "two numbers"),
    ("3.4.5", "mL", "cannot read"),
    ("406 mL 406", "mL", "do not know the unit"),
    ("1/0", "mL", "divides by nothing"),
    ("10²", "mL", "do not know the unit"),
    ("9" * 500, "mL", "a lot of text"),
    ("1e999", "mL", "missing or endless"),
    (math.nan, "mL", "missing or endless"),
    (math.inf, "mL", "missing or endless"),
    (10**400, "mL", "no end"),
    (True, "mL", "not for yes or no"),
    (np.True_, "mL", "not for yes or no"),
    ([406], "mL", "without the brackets"),
    ([1, 2, 3], "mL", "list of 3"),
    ({"spirit": 406}, "mL", "That is a sheet"),
    ({406}, "mL", "That is a set"),
    (1 + 2j, "mL", "That is a complex"),
    (len, "mL", "a function, not its result"),
    (lambda: 406, "mL", "a function, not its result"),
    (pint.Quantity([1, 2], "liter"), "mL", "That is a Quantity"),
])
def test_each_slip_has_its_own_sentence(written, unit, said):
    read = read_number(plain(written), unit, (2, 1000))
    assert read.value is None and said in read.trouble
    assert 10 < len(read.trouble) < 160 and read.trouble.endswith((".", "."))


def test_a_whole_liquid_is_not_a_number():
    import herbcalc as hc

    assert ".volume" in read_number(plain(hc.spirit(500, 95)), "mL", (2, 1000)).trouble


def test_per_cent_of_any_kind_is_taken_where_the_question_says_which():
    assert read_number("40 %", "% vol", (2, 96)).value == 40


def test_a_small_per_cent_is_no_fraction_where_the_answer_can_be_that_small():
    assert read_number(0.4, "% vol", (0.1, 5)).value == 0.4


@pytest.mark.parametrize("written", ["1:5", "1 : 5", 5, "5 mL/g", "5 mL per g"])
def test_a_ratio_is_read_as_it_is_spoken(written):
    assert read_number(written, "mL per g", (2, 20)).value == 5


@given(st.floats(-1e6, 1e6), st.sampled_from(["{} mL", "{}mL", "about {} ml", "{}", "= {}"]))
def test_any_number_is_read_as_written(number, form):
    text = form.format(f"{number:f}")
    assert read_number(text, "mL", (-1e6, 1e6)).value == pytest.approx(number, abs=1e-6)


@given(st.text(max_size=60))
@example("1:9:1")
@example("1/1/1 mL")
def test_any_text_gives_a_number_a_blank_or_a_sentence(text):
    read = read_number(text, "mL", (1, 1000))
    assert read.blank or (read.trouble != "") != (read.value is not None)
    assert read.value is None or any(c.isdigit() for c in text)
    assert len(read.trouble) < 300


# --- letters, sheets, words ----------------------------------------------------------------------


@pytest.mark.parametrize("written, wanted, value", [
    ("b", "one", (1,)), ("B", "one", (1,)), (" b) ", "one", (1,)), ("(b)", "one", (1,)),
    ("a, c", "some", (0, 2)), ("a c", "some", (0, 2)), ("a and c", "some", (0, 2)),
    (["a", "c"], "some", (0, 2)), ("ac", "some", (0, 2)), ("cadb", "all", (2, 0, 3, 1)),
    ("c > a > d > b", "all", (2, 0, 3, 1)), ("c, then a, then d, then b", "all", (2, 0, 3, 1)),
])
def test_letters(written, wanted, value):
    assert read_letters(plain(written), 4, wanted).value == value


@pytest.mark.parametrize("written, wanted, said", [
    ("e", "one", "no e here: the letters go from a to d"), ("2", "one", "no 2 here"),
    ("a b", "one", "one letter only"), ("a a", "some", "twice"), ("a b", "all", "all 4 letters"),
    (2, "one", "letters from a to d"), (["ab", 3], "some", "letters from a to d"),
    ("the first", "one", "the letter alone"), ({"a": 1}, "one", "letters from a to d"),
])
def test_letters_that_cannot_be(written, wanted, said):
    assert said in read_letters(plain(written), 4, wanted).trouble


@given(st.text(max_size=30), st.integers(2, 8), st.sampled_from(["one", "some", "all"]))
def test_any_text_gives_places_a_blank_or_a_sentence(text, count, wanted):
    read = read_letters(text, count, wanted)
    assert read.blank or (read.trouble != "") != (read.value is not None)
    assert read.value is None or all(0 <= place < count for place in read.value)


def test_a_sheet_is_read_line_by_line():
    labels = ["spirit", "water to add"]
    text = "\nSpirit : 421 mL   # measured\n\nwater  to add = ...\n"
    assert read_sheet(text, labels).value == {"spirit": "421 mL", "water to add": "..."}
    assert read_sheet({"spirit": 421}, labels).value == {"spirit": 421}
    assert read_sheet(None, labels).blank and read_sheet("\n \n", labels).blank
    assert "cannot read the line “421 mL”" in read_sheet("421 mL", labels).trouble
    assert "no line “sugar”" in read_sheet("sugar: 3", labels).trouble
    assert "twice" in read_sheet("spirit: 1\nspirit: 2", labels).trouble
    assert "as it stands" in read_sheet(plain([1, 2]), labels).trouble
    assert "as it stands" in read_sheet(plain(object()), labels).trouble


def test_words_are_kept_and_the_invitation_is_not():
    assert read_words("\nWrite here.\n", "Write here.").blank
    assert read_words("\nWrite here.\nMasses add.\n", "Write here.").value == "Masses add."
    assert "in words" in read_words(12, "Write here.").trouble
    assert "longer than anyone can read" in read_words("a" * 20_001, "Write here.").trouble


# --- whatever an answer may be -------------------------------------------------------------------


class EqualToAll:
    def __eq__(self, other):
        return True

    def __float__(self):
        return 160.0

    def __str__(self):
        return "160"

    __repr__ = __str__
    __hash__ = None


class Liar:
    @property
    def __class__(self):
        return float

    def __getattr__(self, name):
        raise RuntimeError("caught looking")


class LyingFloat(float):
    def __sub__(self, other):
        return 0.0

    __rsub__ = __sub__


class LyingText(str):
    def strip(self, *given):
        return "160"


def guarded():
    """A class that lets nobody look at it (inside a function: pytest looks at every other)."""

    class Meta(type):
        def __getattribute__(cls, name):
            raise RuntimeError("caught looking")

        def __hash__(cls):
            raise RuntimeError("caught hashing")

        def __eq__(cls, other):
            raise RuntimeError("caught comparing")

    class Guarded(metaclass=Meta):
        pass

    return Guarded


class EndlessList(list):
    def __iter__(self):
        while True:
            yield 160

    def __len__(self):
        return 1


def endless():
    while True:
        yield 160


LOOP = []
LOOP.append(LOOP)
HOSTILE = [EqualToAll(), Liar(), LyingFloat(160), LyingText("160"), guarded()(), guarded(),
           EndlessList(), endless(), LOOP, {"a": LOOP}, range(10**12), "9" * 10**6, b"160",
           10**5000, [[[[160]]]], "\ud800 160", np.zeros(10**5), np.array([object()]), [0] * 10**6,
           {"?": "Liquid"}, {"to make": EqualToAll()}, type, object]


@pytest.mark.parametrize("place", range(len(HOSTILE)))  # pytest itself would look into them
def test_no_object_can_lie_hang_or_fail(place):
    thing = HOSTILE[place]
    kept = plain(thing)
    assert len(json.dumps(kept)) < 30_000
    for question in DILUTING.homework:
        drawn = draw(question, student_key(), DILUTING.name)
        verdict = judge(question, drawn, thing)
        assert verdict.outcome is not Outcome.RIGHT and verdict.marks == 0
        assert len(verdict.sentence) < 400


anything = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=20)
    | st.just(...) | st.complex_numbers() | st.binary(max_size=5),
    lambda inner: st.lists(inner, max_size=4) | st.tuples(inner, inner)
    | st.dictionaries(st.text(max_size=8), inner, max_size=4) | st.sets(st.integers(), max_size=3),
    max_leaves=8,
)


@given(anything)
def test_whatever_is_written_there_is_an_answer_to_it(answer):
    sent = json.loads(json.dumps(plain(answer)))  # as it leaves the student's kernel
    for question in (*DILUTING.homework, *DILUTING.self_check):
        drawn = draw(question, KEY, DILUTING.name)
        verdict = judge(question, drawn, answer)
        assert verdict == judge(question, drawn, sent)
        assert verdict.sentence and 0 <= verdict.marks <= 1
        assert (verdict.marks == 1) == (verdict.outcome is Outcome.RIGHT)
        if verdict.outcome in (Outcome.BLANK, Outcome.UNREADABLE):
            assert verdict.marks == 0 or verdict.rows


# --- what an answer is worth ---------------------------------------------------------------------


def drawn_for(name, key=KEY):
    question = DILUTING.question(name)
    return question, draw(question, key, DILUTING.name)


@pytest.mark.parametrize("name", [q.name for q in DILUTING.homework if hasattr(q, "model")
                                  and not isinstance(q, Function)])
def test_the_bands_around_the_right_answer(name):
    question, drawn = drawn_for(name)
    right = call(question.model, drawn.values)
    allowed = question.tolerance.around(right)
    for side in (-1, 1):
        assert judge(question, drawn, right + side * allowed * 0.99).outcome is Outcome.RIGHT
        assert judge(question, drawn, right + side * allowed * 1.01).outcome is not Outcome.RIGHT
    outcomes = {judge(question, drawn, right + side * 2 * allowed).outcome for side in (-1, 1)}
    assert outcomes <= {Outcome.CLOSE, Outcome.TURN}


def test_litres_for_millilitres_are_a_wrong_turn_of_their_own():
    question, drawn = drawn_for("make-up")
    verdict = judge(question, drawn, call(question.model, drawn.values) / 1000)
    assert (verdict.outcome, verdict.turn) == (Outcome.TURN, "thousandfold unit")


def test_several_choices_one_by_one():
    question, drawn = drawn_for("check-what-stays")
    right = model_answer(question, drawn).split(", ")
    wrong = sorted(set("abcd") - set(right))
    missing = judge(question, drawn, right[0])
    assert (missing.outcome, missing.marks) == (Outcome.CLOSE, 0.25)
    too_many = judge(question, drawn, ", ".join([*right, wrong[0]]))
    option = question.options[drawn.order["abcd".index(wrong[0])]]
    assert (too_many.outcome, too_many.sentence) == (Outcome.TURN, option.says)
    assert judge(question, drawn, "a b c d").marks == 0
    assert judge(question, drawn, ...).sentence == "Nothing is picked yet."


def test_a_choice_says_what_belongs_to_the_pick():
    question, drawn = drawn_for("the-jug")
    for place, i in enumerate(drawn.order):
        verdict = judge(question, drawn, "abcd"[place])
        assert say(question.options[i].says, drawn.values) in verdict.sentence
        assert (verdict.outcome is Outcome.RIGHT) == question.options[i].right


def test_an_order_with_two_changed_is_close_unless_it_breaks_a_rule():
    question, drawn = drawn_for("order-of-work")
    right = model_answer(question, drawn).split()
    swapped = [*right[:3], right[4], right[3], right[5]]  # the mark before it has cooled
    assert judge(question, drawn, swapped).outcome is Outcome.TURN
    backwards = judge(question, drawn, right[::-1])
    assert backwards.outcome is Outcome.TURN and " before " in backwards.turn
    plainly = replace(question, before=question.before[:1])
    assert judge(plainly, drawn, swapped).outcome is Outcome.CLOSE
    assert judge(plainly, drawn, [right[2], *right[:2], *right[3:]]).outcome is Outcome.NOT_YET


def test_a_sheet_is_judged_line_by_line():
    question, drawn = drawn_for("batch-sheet")
    right = {row.label: call(row.model, drawn.values) for row in question.rows}
    assert judge(question, drawn, right).outcome is Outcome.RIGHT
    one_off = judge(question, drawn, right | {"water to add": 1})
    assert one_off.outcome is Outcome.NOT_YET and one_off.marks == 0.75
    assert [v.outcome for _, v in one_off.rows] == [Outcome.RIGHT] * 3 + [Outcome.NOT_YET]
    turn = call(question.rows[3].turns[0].value, drawn.values)
    turned = judge(question, drawn, right | {"water to add": turn})
    assert (turned.outcome, turned.turn) == (Outcome.TURN, "water to add: the simple difference")
    half = judge(question, drawn, {"to make": right["to make"]})
    assert half.outcome is Outcome.NOT_YET and half.marks == 0.25
    assert half.sentence == "1 of 4 lines are right."
    text = "\n".join(f"{row.label}: ... {row.unit}" for row in question.rows)
    assert judge(question, drawn, text).outcome is Outcome.BLANK


def test_words_are_left_to_the_teacher():
    question, drawn = drawn_for("why-the-mark")
    assert judge(question, drawn, question.example).outcome is Outcome.WRITTEN
    assert judge(question, drawn, "It shrinks.").outcome is Outcome.UNREADABLE
    assert judge(question, drawn, "\n").outcome is Outcome.BLANK


def test_a_written_function_is_tried_with_several_numbers():
    question, _ = drawn_for("write-make-up")
    tried = calls(question, KEY, DILUTING.name)
    others = calls(question, KEY, DILUTING.name, salt="unseen")
    assert tried == calls(question, KEY, DILUTING.name) and tried != others
    assert len({json.dumps(one) for one in tried}) > 1

    def outcome(function):
        return judge_calls(question, tried, [function(**values) for values in tried])

    assert outcome(lambda volume, abv, to: volume * to / abv).outcome is Outcome.RIGHT
    assert outcome(lambda volume, abv, to: f"{volume * to / abv} mL").outcome is Outcome.RIGHT
    upside = outcome(lambda volume, abv, to: volume * abv / to)
    assert upside.turn == "upside down" and upside.sentence.startswith("For volume = ")
    assert outcome(lambda **values: None).outcome is Outcome.BLANK
    learnt = call(question.model, tried[0])  # by heart
    assert outcome(lambda **values: learnt).outcome is not Outcome.RIGHT
    assert judge_calls(question, tried, []).outcome is Outcome.NOT_YET


# --- the homework in the student's hands ---------------------------------------------------------


def wrong_answer(homework, name):
    question = homework.topic.question(name)
    return call(question.turns[0].value, homework.drawn[name].values)


def test_the_second_miss_points_to_the_lesson_and_the_first_does_not():
    homework = open_homework("02")
    first = homework.check("make-up", wrong_answer(homework, "make-up"))
    again = homework.check("make-up", wrong_answer(homework, "make-up"))  # run once more
    unread = homework.check("make-up", "40,6")
    second = homework.check("make-up", 1)
    assert not first.again and not again.again and not unread.again
    assert second.again == "Read again in lesson 02: “Making up to a volume”."
    assert "Making up to a volume" in second._repr_html_() and "Making up" in repr(second)


def test_the_worked_path_comes_only_after_the_right_answer():
    homework = open_homework("02")
    for question in homework.topic.homework:
        for answer in (None, 1, "a", "b a c", "x: 1", question):
            feedback = homework.check(question.name, answer)
            if feedback.verdict.outcome is not Outcome.RIGHT:
                assert not feedback.worked
        right = homework.check(question.name, model_answer(question, homework.drawn[question.name]))
        if question.automatic:
            assert right.worked and to_html(right.worked) in right._repr_html_()


def test_progress_counts_what_is_right():
    homework = open_homework("02")
    assert homework.progress == "○○○○○○○○○  0 of 8 right"
    homework.check("pure-alcohol", wrong_answer(homework, "pure-alcohol"))
    assert homework.progress.endswith("0 of 8 right")
    for question in homework.topic.homework:
        homework.check(question.name, model_answer(question, homework.drawn[question.name]))
    assert homework.progress == "●●●●●●●●●  8 of 8 right, and your own words are written"
    homework.check("pure-alcohol", 1)
    assert homework.progress.endswith("7 of 8 right, and your own words are written")
    assert homework.outcome("pure-alcohol") == "not yet"


def test_a_card_says_it_in_words_and_escapes_what_was_typed():
    homework = open_homework("02")
    card = homework.check("pure-alcohol", "<script>alert(1)</script> 5")
    assert "<script>" not in card._repr_html_() and "&lt;script&gt;" in card._repr_html_()
    data, metadata = card._repr_mimebundle_()
    assert "Not counted." in data["text/plain"] and metadata["herbcalc"]["outcome"] == "unreadable"


def test_a_function_that_stops_is_told_so():
    homework = open_homework("02")
    card = homework.check("write-make-up", lambda volume, abv, to: 1 / 0)
    assert "ZeroDivisionError" in card.verdict.sentence
    card = homework.check("write-make-up", 12)
    assert "def answer" in card.verdict.sentence


@pytest.mark.parametrize("given, said", [
    (dict(number="77"), "There are no questions"),
    (dict(number="02", numbers="00000000"), "one of the two is older"),
    (dict(number="02", student="student-007"), "key is missing"),
])
def test_a_homework_that_does_not_belong_here_is_refused(given, said):
    with pytest.raises(ValueError, match=said):
        open_homework(**given)


def test_a_homework_opens_with_the_numbers_it_was_handed_out_with():
    homework = open_homework("02", "student-007", key=KEY, numbers=DILUTING.checksum(KEY))
    assert homework.drawn == DILUTING.drawn(KEY)


# --- what is typed where Python is expected ------------------------------------------------------


@pytest.mark.parametrize("typed, read", [
    ("answer = 406 mL", "406 mL"), ("answer = 406 mL  # mL", "406 mL"), ("answer = 40%", "40%"),
    ("answer=0.5 L", "0.5 L"), ("answer = b", "b"), ("answer = a, c", "a, c"),
    ("answer = c a d b  # letters", "c a d b"), ("answer =", ""), ("answer =   # mL", ""),
    ("answer = 406 mL?", "406 mL?"), ('answer = "406 mL', "406 mL"), ("answer = “b”", "b"),
    ("answer = 406", 406), ("answer = ...", ...), ("answer = 0.5 * 812", 406.0),
    ("answer = 'b'", "b"), ("answer = 40,6", (40, 6)), ("water = 400\nanswer = water + 6", 406),
    ("water = 406\nanswer = water", 406), ("answer = max(1, 406)", 406),
    ('answer = """\nto make: 5 mL\n"""', "\nto make: 5 mL\n"),
    ("x = 1\nanswer = 406 mL", "406 mL"), ("answer = 40 % vol", "40 % vol"),
    ("answer = 40.5 % vol  # % vol", "40.5 % vol"), ("answer = 40 % v/v", "40 % v/v"),
    ("answer = 33 % mass", "33 % mass"), ("answer = -2 % vol", "-2 % vol"),
    ("vol = 7\nanswer = 40 % vol", 5), ("answer = 40 % 7", 5),
])
def test_an_answer_line_is_read_as_people_write_it(typed, read):
    lines = as_written(typed.splitlines(keepends=True))
    scope = {}
    exec("".join(lines), scope)
    assert scope["answer"] == read
    assert as_written(lines) == lines  # doing it twice changes nothing


def test_names_that_are_known_stay_names():
    assert as_written(["answer = b"], known=["b"]) == ["answer = b"]
    assert as_written(["answer = b, c"], known=["b", "c"]) == ["answer = b, c"]


ENDS_OF_LINES = "\r\n\x0b\x0c\x1c\x1d\x1e\x85\u2028\u2029"


@given(st.text(max_size=30, alphabet=st.characters(
    exclude_characters=ENDS_OF_LINES, exclude_categories=["Cs"])))
def test_any_answer_line_becomes_python_or_stays_as_it_is(text):
    line = f"answer = {text}"
    lines = as_written([line])
    try:
        ast.parse(lines[0])
    except (SyntaxError, ValueError):
        assert lines == [line] and ('"""' in text or "'''" in text or "\x00" in text)
    other = ["x = 1\n", f"print({text!r})\n"]
    assert as_written(other) == other


# --- in a real kernel ----------------------------------------------------------------------------


def code_cell(source):
    return nbformat.v4.new_code_cell(source)


def run(cells, folder):
    """The plain output of each cell, from a real kernel."""
    notebook = nbformat.v4.new_notebook(cells=[code_cell(source) for source in cells])
    NotebookClient(notebook, timeout=60, resources={"metadata": {"path": str(folder)}},
                   allow_errors=True).execute()
    return ["\n".join(output.get("text") or output.get("data", {}).get("text/plain", "")
                      or output.get("evalue", "") for output in cell.outputs)
            for cell in notebook.cells]


def test_a_check_takes_the_answer_above_it_and_no_other(tmp_path):
    homework = open_homework("02")
    right = model_answer(homework.topic.question("pure-alcohol"), homework.drawn["pure-alcohol"])
    said = run([
        "from herbcalc.classroom import open_homework\nhomework = open_homework('02')\nhomework",
        "homework.check('pure-alcohol')",         # before any answer
        f"answer = {right} mL  # mL",             # as people write it
        "homework.check('pure-alcohol')",
        "homework.check('make-up')",              # must not take the answer of the one above
        "homework.check('pure-alcohol')",         # run again: what was said before
        "answer = b", "homework.check('the-jug')",
        "homework = open_homework('02')", "answer = 1 mL", "homework.check('make-up')",
        "len([t for t in get_ipython().input_transformers_cleanup if 'AsWritten' in repr(t)])",
    ], tmp_path)
    assert said[0].endswith("0 of 8 right")
    assert "Run the answer line above first" in said[1]
    assert said[2] == "" and "✓ Right." in said[3] and "1 of 8 right" in said[3]
    assert "Run the answer line above first" in said[4]
    assert "✓ Right." in said[5]
    assert "Look again" in said[7] or "Right" in said[7]
    assert "Not yet" in said[10] and said[11] == "1"


# --- before handing in ---------------------------------------------------------------------------


def filled(folder, name="homework.ipynb", answers=None, change=lambda cells: None):
    """A returned homework with some answers written in, saved in `folder`."""
    topic = DILUTING
    notebook = homework_notebook(topic, "student-007", KEY)
    for cell in notebook["cells"]:
        question = cell["metadata"].get("herbcalc", {}).get("question")
        if question in (answers or {}):
            cell["source"] = answers[question]
    change(notebook["cells"])
    path = Path(folder) / name
    path.write_text(notebook_text(notebook), encoding="utf-8")
    return path


def right_answers(*names):
    found = {}
    for name in names:
        question, drawn = drawn_for(name)
        found[name] = f"answer = {model_answer(question, drawn)!r}"
    return found


def lines_of(report):
    return {text.partition(":")[0]: (sign, text) for sign, text in report.lines}


def test_before_handing_in_tells_right_wrong_and_blank(tmp_path):
    question, drawn = drawn_for("water-to-add")
    wrong = call(question.turns[0].value, drawn.values)
    path = filled(tmp_path, "my homework (2) [küche].ipynb",
                  right_answers("pure-alcohol", "the-jug", "why-the-mark")
                  | {"make-up": "answer = 40,6", "water-to-add": f"answer = {wrong} mL"})
    before = path.read_bytes()
    report = before_handing_in(path, session={"the-jug": "x"})
    lines = lines_of(report)
    assert lines["Question 1"] == ("●", "Question 1: right")
    assert lines["Question 2"][0] == "!" and "save" in lines["Question 2"][1]
    assert lines["Question 3"] == ("○", "Question 3: left blank")
    assert "cannot be read" in lines["Question 4"][1]
    assert "hint" in lines["Question 5"][1]
    assert lines["Question 9"][0] == "●"
    assert lines["Extra"] == ("·", "Extra: left out")
    assert not report.holds and "2 of 8 are right, left blank: 3, 6, 7, 8" in report.summary
    assert before_handing_in(path).holds  # the same, with nothing unsaved
    assert path.read_bytes() == before and os.listdir(tmp_path) == [path.name]


def test_before_handing_in_finds_what_only_held_in_the_old_session(tmp_path):
    def change(cells):
        check = next(c for c in cells if c["id"] == "pure-alcohol-check")
        check["outputs"] = [{"output_type": "execute_result", "execution_count": 3, "data": {
            "text/plain": ["✓ Right."]}, "metadata": {"herbcalc": {"outcome": "right"}}}]
        cells[:] = [c for c in cells if c["id"] != "the-jug-check"]
        cells.append({"cell_type": "code", "id": "own", "metadata": {}, "outputs": [],
                      "execution_count": None, "source": "1 / 0"})

    path = filled(tmp_path, answers={
        "pure-alcohol": "answer = 1", "make-up": "answer = spirit_from_a_cell_that_is_gone * 2"},
        change=change)
    report = before_handing_in(path)
    lines = lines_of(report)
    assert not report.holds and report.summary.startswith("Something needs a look")
    assert "was right when you checked it" in lines["Question 1"][1]
    assert "is gone" in lines["Question 2"][1]
    assert "NameError" in lines["Question 4"][1]
    assert any("“1 / 0” stops: ZeroDivisionError" in text for _, text in report.lines)


def test_before_handing_in_when_the_first_cell_does_not_run(tmp_path):
    def change(cells):
        cells[1]["source"] = cells[1]["source"][-1:]

    report = before_handing_in(filled(tmp_path, change=change))
    assert not report.holds and "first cell" in report.summary and "NameError" in report.summary


@pytest.mark.parametrize("content, said", [
    (b"", "damaged"), (b"{", "damaged"), (b"\xff\xfe\x00", "damaged"), (b"[]", "not a notebook"),
    (b'{"cells": [1]}', "not a notebook"), (b'{"cells": {}}', "not a notebook"),
    (b'{"cells": [{"metadata": []}]}', "not a notebook"),
    (b'{"cells": [{"outputs": [3]}]}', "not a notebook"),
    (b'{"cells": [], "metadata": 1}', "not a notebook"),
    (b'{"cells": [], "metadata": {"herbcalc": 1}}', "not one of this course's homeworks"),
    (b'{"cells": []}', "not one of this course's homeworks"),
    (b'{"cells": [], "metadata": {"herbcalc": {"homework": "99-none"}}}', "There are no questions"),
    (b"[" * 100_000, "damaged"),
])
def test_a_file_that_is_no_homework_is_named(content, said, tmp_path):
    path = tmp_path / "homework.ipynb"
    path.write_bytes(content)
    with pytest.raises(ValueError, match=said):
        before_handing_in(path)


def test_a_file_that_is_not_there_is_named(tmp_path):
    with pytest.raises(ValueError, match="none.ipynb cannot be read"):
        before_handing_in(tmp_path / "none.ipynb")


def test_the_cell_that_checks_before_handing_in(tmp_path):
    """In a kernel that knows the notebook's name only by looking into its folder."""
    filled(tmp_path, answers=right_answers("pure-alcohol"))
    start = homework_notebook(DILUTING, "student-007", KEY)["cells"][1]["source"]
    environment = os.environ.pop("JPY_SESSION_NAME", None)
    try:
        said = run(["".join(start), right_answers("pure-alcohol")["pure-alcohol"],
                    "homework.check('pure-alcohol')", "homework.before_handing_in()",
                    "homework.before_handing_in('other.ipynb')"], tmp_path)
        (tmp_path / "copy.ipynb").write_bytes((tmp_path / "homework.ipynb").read_bytes())
        two = run(["".join(start), "homework.before_handing_in()"], tmp_path)
    finally:
        if environment is not None:
            os.environ["JPY_SESSION_NAME"] = environment
    assert "Everything holds" in said[3] and "1 of 8 are right" in said[3]
    assert "other.ipynb cannot be read" in said[4]
    assert "cannot tell which file" in two[1]


# --- the self-check in a lesson ------------------------------------------------------------------

CHECKS = [topic for topic in topics() if topic.self_check]


@pytest.mark.parametrize("topic", CHECKS, ids=lambda topic: topic.name)
def test_a_self_check_on_paper_has_every_option_and_no_answer(topic, monkeypatch):
    monkeypatch.setenv("HERBCALC_STILLS", "1")
    bundle = explore.self_check(topic.number)._repr_mimebundle_()
    assert set(bundle) == {"text/plain", "text/html"}
    for question in topic.self_check:
        drawn = draw(question, student_key(), topic.name)
        assert to_html(say(question.prompt, drawn.values)) in bundle["text/html"]
        for option in getattr(question, "options", ()):
            assert to_html(say(option.text, drawn.values)) in bundle["text/html"]
            says = say(option.says, drawn.values)
            assert not says or says not in bundle["text/html"]
        for amount in amounts(question):
            right = call(amount.model, drawn.values)
            given = set(drawn.values.values())
            assert round(right) in given or f">{right:.0f}<" not in bundle["text/html"]


@pytest.mark.parametrize("topic", CHECKS, ids=lambda topic: topic.name)
def test_a_self_check_judges_as_the_homework_does(topic):
    panel = explore.self_check(topic.number)
    sent = []
    widget = panel.widget
    widget.observe(lambda change: sent.append(change.new), "said")
    for question in topic.self_check:
        answer = model_answer(question, panel.homework.drawn[question.name])
        widget._asked(None, {"check": question.name, "answer": str(answer)}, [])
        assert sent[-1][question.name]["outcome"] == "right"
    assert widget.progress.endswith("3 of 3 right")
    widget._asked(None, {"check": "no such question", "answer": "a"}, [])
    widget._asked(None, {}, [])
    assert len(sent) == 3
    live, _ = panel._repr_mimebundle_()
    assert {"text/plain", "text/html", "application/vnd.jupyter.widget-view+json"} <= set(live)


def test_a_lesson_without_a_self_check_is_told_so():
    with pytest.raises(ValueError, match="no questions"):
        explore.self_check("88")

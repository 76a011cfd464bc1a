"""The questions themselves: written whole, fair for every student, and the same everywhere."""

import functools
import hmac
import itertools
import json
import os
import re
import subprocess
import sys
from dataclasses import replace

import nbformat
import pytest
from hypothesis import given
from hypothesis import strategies as st

from herbcalc import places
from herbcalc.classroom import (
    Before,
    Choice,
    Choices,
    Explain,
    Function,
    Number,
    Option,
    Order,
    Outcome,
    Point,
    Published,
    Row,
    Table,
    Tolerance,
    Topic,
    Turn,
    calls,
    draw,
    faults,
    find_topic,
    homework_notebook,
    judge,
    judge_calls,
    load_topic,
    model_answer,
    model_notebook,
    notebook_text,
    steps,
    student_key,
    topics,
)
from herbcalc.classroom import numbers as student_numbers
from herbcalc.classroom.questions import amounts, call, say

STUDENTS = [f"student-{number:03}" for number in range(1, 201)]
KEYS = [student_key("a winter evening", student) for student in STUDENTS]
TOPICS = topics()
QUESTIONS = [
    pytest.param(topic, question, id=f"{topic.number}-{question.name}")
    for topic in TOPICS
    for question in (*topic.homework, *topic.self_check)
]
AMOUNTS = [
    pytest.param(topic, question, id=f"{topic.number}-{question.name}")
    for topic in TOPICS
    for question in (*topic.homework, *topic.self_check)
    if amounts(question)
]


@functools.cache
def drawn_for_all(topic, question):
    """The 200 students' versions of a question, in the order of `KEYS`."""
    return [draw(question, key, topic.name) for key in KEYS]


# --- every exercise folder -----------------------------------------------------------------------


@pytest.mark.parametrize("topic", TOPICS, ids=lambda topic: topic.name)
def test_a_topic_is_whole(topic):
    assert faults(topic) == []


@pytest.mark.parametrize("topic", TOPICS, ids=lambda topic: topic.name)
def test_the_sections_to_read_again_are_in_the_lesson(topic):
    lesson = places.notebooks() / f"{topic.name}.ipynb"
    if not lesson.exists():
        pytest.skip(f"the lesson {lesson.name} is not written yet")
    cells = nbformat.read(lesson, as_version=4).cells
    text = "\n".join(cell.source for cell in cells if cell.cell_type == "markdown")
    headings = {found.strip() for found in re.findall(r"^#+\s+(.+)$", text, flags=re.M)}
    wanted = {question.section for question in (*topic.homework, *topic.self_check)}
    assert wanted <= headings


@pytest.mark.parametrize("topic, question", QUESTIONS)
def test_the_model_answer_is_right_for_200_students(topic, question):
    several = isinstance(question, Function)  # each student's is tried with several numbers
    for key, drawn in list(zip(KEYS, drawn_for_all(topic, question)))[:40 if several else None]:
        answer = model_answer(question, drawn)
        if several:
            tried = calls(question, key, topic.name)
            verdict = judge_calls(question, tried, [answer(**values) for values in tried])
        else:
            verdict = judge(question, drawn, answer)
        wanted = Outcome.RIGHT if question.automatic else Outcome.WRITTEN
        assert verdict.outcome is wanted, (drawn, answer, verdict)


@pytest.mark.parametrize("topic, question", AMOUNTS)
def test_wrong_turns_are_told_apart_for_200_students(topic, question):
    """Each is recognised under its own name, and neither it nor a rounding of it is accepted."""
    for drawn in drawn_for_all(topic, question):
        for amount in amounts(question):
            right = call(amount.model, drawn.values)
            for turn in amount.turns:
                wrong = call(turn.value, drawn.values)
                rounded = [wrong, float(f"{wrong:.4g}")]
                verdicts = [_judged(question, amount, drawn, value) for value in rounded]
                assert {(v.outcome, v.turn) for v in verdicts} == {(Outcome.TURN, turn.name)}, (
                    drawn, right, wrong, verdicts)
                assert all(verdict.marks == 0 for verdict in verdicts)


@pytest.mark.parametrize("topic, question", AMOUNTS)
def test_numbers_are_sensible_for_200_students(topic, question):
    for drawn in drawn_for_all(topic, question):
        assert set(drawn.values) == set(question.numbers)
        for name, value in drawn.values.items():
            assert value in question.numbers[name]
        for amount in amounts(question):
            low, high = amount.sensible
            assert low <= call(amount.model, drawn.values) <= high


@pytest.mark.parametrize("topic, question", AMOUNTS)
def test_nothing_said_before_gives_the_answer_away(topic, question):
    """No number in what is said is the right one, unless the student or the prompt has it."""
    for drawn in drawn_for_all(topic, question)[:60]:
        for amount in amounts(question):
            right = call(amount.model, drawn.values)
            allowed = amount.tolerance.around(right)
            tries = [right + 2 * allowed, right * 7 + 50, right / 1000, "lots", [3, 3, 3],
                     *(call(turn.value, drawn.values) for turn in amount.turns)]
            for tried in tries:
                verdict = _judged(question, amount, drawn, tried)
                assert verdict.outcome is not Outcome.RIGHT
                said = {float(n) for n in re.findall(r"\d+\.?\d*", verdict.sentence)}
                own = {float(n) for n in re.findall(r"\d+\.?\d*", str(tried))}
                given = {v for v in drawn.values.values() if not isinstance(v, str)}
                near = {n for n in said - own - given if abs(n - right) <= allowed}
                assert not near, (verdict.sentence, right)


@pytest.mark.parametrize("topic, question", [
    p for p in QUESTIONS if isinstance(p.values[1], Choice | Choices | Order)])
def test_only_the_right_picks_are_accepted(topic, question):
    for drawn in drawn_for_all(topic, question)[:10]:
        letters = "abcdefgh"[:len(drawn.order)]
        if isinstance(question, Order):
            every = itertools.permutations(letters)
        elif isinstance(question, Choices):
            every = (s for n in range(1, len(letters) + 1)
                     for s in itertools.combinations(letters, n))
        else:
            every = ((letter,) for letter in letters)
        right = [picks for picks in every
                 if judge(question, drawn, " ".join(picks)).outcome is Outcome.RIGHT]
        assert [set(model_answer(question, drawn)) - set(", ")] == [set(right[0])]
        assert len(right) == 1


def _judged(question, amount, drawn, value):
    """The verdict on one number of a question, whether it stands alone, on a sheet or in code."""
    if isinstance(question, Table):
        sheet = {row.label: None for row in question.rows} | {amount.label: value}
        return dict(judge(question, drawn, sheet).rows)[amount.label]
    if isinstance(question, Function):
        return judge_calls(question, [drawn.values], [value])
    return judge(question, drawn, value)


@pytest.mark.parametrize("topic, question", [
    p for p in QUESTIONS if p.values[1].published is not None])
def test_a_published_example_gives_its_published_result(topic, question):
    """The source stands in the question (`published.source`)."""
    published = question.published
    (amount,) = amounts(question)
    assert call(amount.model, published.numbers) == pytest.approx(
        published.result, abs=published.within)


# --- the notebooks made of them ------------------------------------------------------------------


@pytest.mark.parametrize("topic", TOPICS, ids=lambda topic: topic.name)
def test_the_committed_homework_is_up_to_date(topic):
    if topic.homework:
        path = places.exercises() / topic.name / "homework.ipynb"
        made = notebook_text(homework_notebook(topic))
        assert path.read_text(encoding="utf-8") == made, "run: python tests/refresh_homework.py"


@pytest.mark.parametrize("topic", [t for t in TOPICS if t.homework], ids=lambda topic: topic.name)
def test_a_handout_is_a_notebook_with_the_students_own_numbers_and_no_secret(topic):
    secret = "an oak by the gate"
    key = student_key(secret, "student-007")
    text = notebook_text(homework_notebook(topic, "student-007", key))
    notebook = nbformat.reads(text, as_version=4)
    nbformat.validate(notebook)
    assert text == notebook_text(homework_notebook(topic, "student-007", key))
    assert text == nbformat.writes(notebook) + "\n"  # as Jupyter itself lays it out
    assert len({cell.id for cell in notebook.cells}) == len(notebook.cells)
    assert secret not in text
    for question in topic.homework:
        drawn = draw(question, key, topic.name)
        prompt = next(c.source for c in notebook.cells if c.id == f"{question.name}-prompt"[:64])
        for value in drawn.values.values():
            assert str(value) in prompt
        if isinstance(question, Explain):
            assert question.example not in text
        for turn in (turn for amount in amounts(question) for turn in amount.turns):
            assert say(turn.hint, drawn.values) not in text
        worked = question.worked
        assert callable(worked) or worked not in text


@pytest.mark.parametrize("student", ["self-study", "student-042"])
def test_nbval_runs_the_model_answers_of_every_homework(student, tmp_path):
    """In a real kernel; after each check the outcome is compared by nbval."""
    asked = 0
    for topic in TOPICS:
        if topic.homework:
            key = student_key("an oak by the gate", student) if student != "self-study" else ""
            notebook = model_notebook(topic, student, key)
            (tmp_path / f"{topic.name}.ipynb").write_text(notebook_text(notebook))
            asked += len(topic.homework)
    done = _nbval(tmp_path)
    assert done.returncode == 0, done.stdout[-3000:]
    assert int(re.search(r"(\d+) passed", done.stdout)[1]) >= 3 * asked


def test_nbval_would_see_a_wrong_model_answer(tmp_path):
    notebook = model_notebook(find_topic("02"))
    cell = next(c for c in notebook["cells"] if c["id"] == "make-up-answer")
    cell["source"] = ["answer = 3"]
    (tmp_path / "wrong.ipynb").write_text(notebook_text(notebook))
    done = _nbval(tmp_path)
    assert done.returncode == 1 and "1 failed" in done.stdout, done.stdout[-3000:]


def _nbval(folder):
    (folder / "pytest.ini").write_text("[pytest]\n")
    return subprocess.run(
        [sys.executable, "-m", "pytest", "--nbval-lax", "--nbval-current-env", "-q",
         "-p", "no:cacheprovider", "-c", "pytest.ini",
         *sorted(path.name for path in folder.glob("*.ipynb"))],
        cwd=folder, capture_output=True, text=True)


# --- each student's own numbers ------------------------------------------------------------------


def test_numbers_rest_on_hmac_sha256():
    """RFC 4231, test case 2."""
    expected = "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843"
    assert student_numbers._digest("Jefe", "what do ya want for nothing?").hex() == expected
    by_hand = hmac.digest(b"an oak by the gate", b"student student-007", "sha256").hex()[:16]
    assert student_key("an oak by the gate", "student-007") == by_hand


def test_the_same_numbers_in_another_process(tmp_path):
    """Whatever the order of hashes there, and wherever it runs."""
    code = ("from herbcalc.classroom import *\n"
            "t = find_topic('02')\n"
            "print(notebook_text(homework_notebook(t, 'student-007', "
            "student_key('an oak by the gate', 'student-007'))))")
    made = {
        subprocess.run([sys.executable, "-c", code], cwd=tmp_path, capture_output=True, text=True,
                       check=True, env=os.environ | {"PYTHONHASHSEED": seed}).stdout
        for seed in ("1", "2")
    }
    assert len(made) == 1


def test_students_get_different_numbers():
    topic = find_topic("02")
    sums = {topic.checksum(key) for key in KEYS}
    assert len(sums) == len(KEYS)


@pytest.mark.parametrize("topic, question", QUESTIONS)
def test_every_listed_number_is_given_to_someone(topic, question):
    """A value that no student gets (it never goes with the others) has no business in the list."""
    drawn = [one.values for one in drawn_for_all(topic, question)]
    for name, values in question.numbers.items():
        assert {one[name] for one in drawn} == set(values), name


@given(st.text(min_size=1), st.text(min_size=1))
def test_a_key_never_shows_the_secret(secret, student):
    if not student.strip():
        with pytest.raises(ValueError, match="student code"):
            student_key(secret, student)
        return
    try:
        key = student_key(secret, student)
    except UnicodeEncodeError:  # half a surrogate pair is no text
        return
    assert re.fullmatch("[0-9a-f]{16}", key)
    assert key != student_key(secret + "x", student)


def test_a_code_typed_in_two_ways_of_unicode_is_one_student():
    assert student_key("s", "jos\u00e9") == student_key("s", "jose\u0301")


def test_letters_are_never_handed_out_in_the_right_order():
    topic = find_topic("02")
    question = topic.question("order-of-work")
    for drawn in drawn_for_all(topic, question):
        assert drawn.order != tuple(range(len(question.items)))


def test_numbers_that_never_go_together_are_said_so():
    with pytest.raises(ValueError, match="do not go together"):
        draw(replace(good_number(), sensible=(1000, 2000)), KEYS[0], "02-diluting")


@given(st.integers(0, 400), st.integers(1, 40), st.integers(0, 30))
def test_steps_are_exact(first, step, count):
    """In tenths, as a decimal is written: no 0.30000000000000004."""
    values = steps(first / 10, (first + step * count) / 10, step / 10)
    assert values == tuple((first + step * i) / 10 for i in range(count + 1))
    assert all(len(f"{value}") <= 5 for value in values)


@pytest.mark.parametrize("bad", [(1, 2, 0), (2, 1, 1), (0, 1, 0.3), (0, 10, -1)])
def test_steps_that_never_land_are_refused(bad):
    with pytest.raises(ValueError, match="never land"):
        steps(*bad)


# --- a question written wrongly is refused with a word about it ----------------------------------


def good_number():
    return Number(
        name="double", step=1, prompt="Twice {x} mL?", numbers={"x": (5, 7, 9)},
        model=lambda x: 2 * x, unit="mL", tolerance=Tolerance(0.4, "by counting"),
        sensible=(1, 100), section="Counting", worked=lambda x, answer: f"{x} + {x} = {answer}",
        turns=[Turn("squared", lambda x: x * x, "Twice is adding it once more."),
               Turn("halved", lambda x: x / 2, "Twice is more, not less.")])


def good_choice():
    return Choice(name="pick", step=1, prompt="Which?", section="Counting", worked="So it is.",
                  options=[Option("this", right=True), Option("that", "Not that.")])


def good_order():
    return Order(name="sort", step=1, prompt="Sort.", section="Counting", worked="So it is.",
                 items=["one", "two", "three"], before=[Before("one", "three", "Small first.")])


def good_table():
    one = good_number()
    return Table(name="sheet", step=1, prompt="Fill in for {x}.", numbers={"x": (5, 7)},
                 section="Counting", worked="So it is.", rows=[
                     Row(label=label, model=one.model, unit="mL", tolerance=one.tolerance,
                         sensible=(1, 100), turns=one.turns) for label in ("first", "second")])


def good_explain():
    return Explain(name="tell", step=1, prompt="Why?", section="Counting", marks=2,
                   example="Because it is so.", rubric=[Point("gives a reason", 2)])


def good_function():
    one = good_number()
    return Function(name="code", step=1, prompt="Double {x}.", numbers=one.numbers, unit="mL",
                    model=one.model, tolerance=one.tolerance, turns=one.turns, section="Counting",
                    sensible=(1, 100), worked="x + x")


SOURCE = Published("a book", {"x": 5}, 10, 0.5)
WRONG = [
    (good_number, dict(name="Two Words"), "hyphens"),
    (good_number, dict(step=6), "step"),
    (good_number, dict(marks=0), "marks"),
    (good_number, dict(prompt=" "), "prompt"),
    (good_number, dict(prompt="Twice what?"), "prompt and numbers do not go together: x"),
    (good_number, dict(prompt="Twice {x} or {y}?"), "do not go together: y"),
    (good_number, dict(section=""), "section is missing"),
    (good_number, dict(worked=""), "worked is missing"),
    (good_number, dict(worked="{z}"), "worked asks for z"),
    (good_number, dict(unit=""), "unit"),
    (good_number, dict(unit="pinch"), "unit 'pinch'"),
    (good_number, dict(numbers={"x": ()}), "list of values"),
    (good_number, dict(numbers={"x": (5, 5)}), "twice"),
    (good_number, dict(tolerance=Tolerance(0, "why")), "tolerance must be above 0"),
    (good_number, dict(tolerance=Tolerance(1, "")), "reason for the tolerance is missing"),
    (good_number, dict(sensible=(5, 5)), "sensible"),
    (good_number, dict(turns=()), "at least 2 wrong turns"),
    (good_number, dict(turns=[Turn("a", lambda x: x, "")] * 2), "hint of 'a' is missing"),
    (good_number, dict(turns=[Turn("a", lambda x: x, "h")] * 2), "same name"),
    (good_number, dict(turns=[Turn("a", lambda q: q, "h"), Turn("b", lambda x: x, "h")]),
     "asks for q"),
    (good_number, dict(turns=[Turn("a", lambda x: x, lambda answer: "h"),
                              Turn("b", lambda x: x, "{answer}")]), "asks for answer"),
    (good_number, dict(model=lambda y: y), "model asks for y"),
    (good_number, dict(keep=lambda y: True), "keep asks for y"),
    (good_number, dict(published=replace(SOURCE, source=" ")), "source of the published"),
    (good_number, dict(published=replace(SOURCE, numbers={})), "all of its numbers"),
    (good_number, dict(published=replace(SOURCE, within=0)), "rounded"),
    (good_choice, dict(published=SOURCE, numbers={"x": (5,)}, prompt="{x}"), "with one number"),
    (good_choice, dict(options=[Option("a"), Option("b", right=True)]), "said to option 'a'"),
    (good_choice, dict(options=[Option("a", "no"), Option("b", "no")]), "exactly one"),
    (good_choice, dict(options=[Option("a", "no"), Option("a", right=True)]), "read the same"),
    (good_choice, dict(options=[Option("a", right=True)]), "2 to 8"),
    (good_order, dict(items=["one", "two"]), "3 to 8"),
    (good_order, dict(before=[]), "wrong way round"),
    (good_order, dict(before=[Before("three", "one", "h")]), "does not come before"),
    (good_order, dict(before=[Before("one", "four", "h")]), "not among the items"),
    (good_order, dict(before=[Before("one", "two", "")]), "hint"),
    (good_table, dict(rows=good_table().rows[:1]), "2 to 10 rows"),
    (good_table, dict(rows=[good_table().rows[0]] * 2), "same label"),
    (good_table, dict(rows=[replace(row, turns=()) for row in good_table().rows]),
     "at least 1 wrong turn"),
    (good_table, dict(rows=[replace(row, label=f"{row.label}: a") for row in good_table().rows]),
     "label"),
    (good_explain, dict(rubric=[]), "rubric"),
    (good_explain, dict(example=""), "example"),
    (good_explain, dict(marks=5), "rubric together"),
    (good_function, dict(optional=False), "extra"),
]


@pytest.mark.parametrize("make, change, said", WRONG)
def test_a_faulty_question_is_refused(make, change, said):
    with pytest.raises(ValueError, match=re.escape(said)):
        replace(make(), **change)


def test_all_faults_are_said_at_once():
    with pytest.raises(ValueError) as error:
        replace(good_number(), unit="", section="", turns=())
    assert str(error.value).count(";") == 2


def whole():
    """A homework that has everything."""
    auto = [replace(good_number(), name=f"n{i}", step=step, published=SOURCE if i == 3 else None)
            for i, step in enumerate([1, 1, 2, 2, 3, 4])]
    check = [replace(good_choice(), name=f"c{i}") for i in range(3)]
    return Topic("90-counting", "Counting", tuple(check), (*auto, good_explain(), good_function()))


def test_a_whole_homework_has_no_faults():
    assert faults(whole()) == []


@pytest.mark.parametrize("change, said", [
    (lambda q: q[1:], "5 automatic"),
    (lambda q: q[:6] + q[7:], "explain in words"),
    (lambda q: (*q[:6][::-1], *q[6:]), "steps must rise"),
    (lambda q: tuple(replace(one, step=1) for one in q), "steps must rise"),
    (lambda q: tuple(replace(one, published=None) for one in q), "published worked example"),
    (lambda q: (q[-1], *q[:-1]), "extras come last"),
    (lambda q: (*q, replace(good_explain(), name="more", optional=True)), "only a function"),
    (lambda q: (*q[:3], replace(q[3], published=replace(SOURCE, result=12)), *q[4:]),
     "a book prints 12 mL, the model answer gives 10"),
])
def test_an_unfinished_homework_is_named(change, said):
    topic = whole()
    found = faults(replace(topic, homework=change(topic.homework)))
    assert any(said in fault for fault in found), found


def test_a_self_check_has_three_questions_a_panel_can_show():
    found = faults(replace(whole(), self_check=(good_order(), good_choice())))
    assert any("not three" in fault for fault in found)
    assert any("numbers and choices only" in fault for fault in found)


# --- reading the folders -------------------------------------------------------------------------


def test_reading_a_folder_leaves_no_trace():
    modules, path = set(sys.modules), list(sys.path)
    topic = load_topic(places.exercises() / "02-diluting")
    assert topic.homework and (set(sys.modules), sys.path) == (modules, path)


@pytest.mark.parametrize("written, said", [
    ("title = 'A'\nhomework = [", "line 2"),
    ("title = 'A'\nx = 1\ny = 1 / 0", "line 3: division by zero"),
    ("title = 'A'", "neither"),
    ("homework = []", "no title"),
    ("title = 'A'\nhomework = [1]", "list of questions"),
    ("title = 'A'\nhomework = 'ab'", "list of questions"),
    ("from herbcalc.classroom import *\ntitle = 'A'\n"
     "homework = [Explain(name='a', step=1, prompt='p', section='s', example='e', marks=1, "
     "rubric=[Point('x')])] * 2", "same name"),
    ("from herbcalc.classroom import *\ntitle = 'A'\nhomework = [\n"
     "    Explain(name='a', step=9, prompt='p', section='s', example='e', rubric=[])]",
     "line 4: The question 'a' needs mending: its step must be 1 to 5"),
])
def test_a_damaged_folder_is_refused_with_its_line(written, said, tmp_path):
    folder = tmp_path / "91-test"
    folder.mkdir()
    (folder / "questions.py").write_text(written)
    with pytest.raises(ValueError, match=re.escape(said)) as error:
        load_topic(folder)
    assert "91-test/questions.py" in str(error.value)


def test_an_unknown_homework_names_those_there_are():
    with pytest.raises(ValueError, match="02-diluting"):
        find_topic("77")
    assert find_topic(2).name == find_topic("2").name == find_topic("02-diluting").name


def test_the_classroom_loads_nothing_heavy():
    code = ("import sys, herbcalc\nassert 'herbcalc.classroom' not in sys.modules\n"
            "import herbcalc.classroom as c\nc.find_topic('02')\n"
            "print([m for m in ('pint', 'IPython', 'pandas', 'matplotlib', 'anywidget', 'pytest') "
            "if m in sys.modules])")
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_the_metadata_say_whose_it_is():
    key = student_key("s", "student-001")
    notebook = json.loads(notebook_text(homework_notebook(find_topic("02"), "student-001", key)))
    own = notebook["metadata"]["herbcalc"]
    assert own == {"homework": "02-diluting", "student": "student-001",
                   "numbers": find_topic("02").checksum(key)}

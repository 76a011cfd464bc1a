"""From roster to outcomes: handing out, taking in, marking, and never losing what is done."""

import csv
import json
import os
import random
import shutil
import signal
import subprocess
import sys
import time
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from classroom_tools import (
    QUESTIONS,
    SECRET,
    TOPIC,
    hand_in,
    make_class,
    need_sandbox,
    right_answers,
    work,
)
from hypothesis import given, settings
from hypothesis import strategies as st

from herbcalc.classroom import Outcome, calls, judge, marking, notebook_text, sandbox
from herbcalc.classroom.demo import write_demo_class
from herbcalc.classroom.handing_out import hand_out
from herbcalc.classroom.outcomes import Result, load_outcomes
from herbcalc.classroom.roster import read_class, read_roster
from herbcalc.classroom.sandbox import Limits
from herbcalc.classroom.taking_in import find, take_in

CODES = [f"student-{number:02}" for number in range(1, 9)]


def herbcalc(*words, tmp=None, **more):
    environment = os.environ | ({"TMPDIR": str(tmp)} if tmp else {}) | more.pop("env", {})
    return subprocess.Popen([sys.executable, "-m", "herbcalc", *map(str, words)], text=True,
                            stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=environment,
                            start_new_session=True, **more)


def ran(*words, **more):
    process = herbcalc(*words, **more)
    out, err = process.communicate()
    return process.returncode, out, err


# --- the class folder ----------------------------------------------------------------------------


@pytest.mark.parametrize("text", [
    "student,name\na-1,Ada Quill\nb-2,\n", "\ufeffname;Student\r\nAda Quill;a-1\r\n;b-2\r\n",
    "student\n\n a-1 \n\nb-2", "Student\tgroup\na-1\tx\nb-2\ty\n",
])
def test_rosters_as_spreadsheets_save_them(tmp_path, text):
    path = tmp_path / "roster.csv"
    path.write_text(text, encoding="utf-8", newline="")
    assert [student.code for student in read_roster(path)] == ["a-1", "b-2"]


@pytest.mark.parametrize("text, said", [
    ("", "must name one column 'student'"), ("name\nAda\n", "must name one column 'student'"),
    ("student\n", "no student in it"), ("student\na\nA\n", "line 3: the code 'A' stands there"),
    ("student\na\n\uff41\n", "twice"), ("student,name\nAda,ada\n", "is the person's name"),
    ("student\n../../x\n", "must be letters"), ("student\na b\n", "without spaces"),
    ("student\nself-study\n", "means something else"), ("student\nnul\n", "means something else"),
    ("student,name\n,Ada\n", "line 2: the student code is missing"), ('student\n"a\n', "as CSV"),
    (f"student\n{'a' * 41}\n", "at most 40"), ("student\na\u200bb\n", "must be letters"),
])
def test_a_roster_that_does_not_fit_is_told_by_line(tmp_path, text, said):
    path = tmp_path / "roster.csv"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(ValueError, match=".*") as error:
        read_roster(path)
    assert said in str(error.value)


@pytest.mark.parametrize("text, said", [
    ("title = ", "cannot be read"), ('title = "x"', "a fresh one to paste in"),
    (f'title = "x"\nsecret = "short"\n[due]\n"02" = ""', "at least 12"),
    (f'title = "x"\nsecret = "{SECRET}"', "no homework is set"),
    (f'title = "x"\nsecret = "{SECRET}"\n[due]\n"77" = ""', "There are no questions for '77'"),
    (f'title = "x"\nsecret = "{SECRET}"\n[due]\n"02" = "soon"', "needs a date"),
    (f'title = "x"\nsecret = "{SECRET}"\n[due]\n"02" = ""\n"2" = ""', "set twice"),
    (f'secret = "{SECRET}"\n[due]\n"02" = ""', "needs a title"),
    (f'title = "x"\nsekret = "{SECRET}"\n[due]\n"02" = ""', "nothing called sekret"),
])
def test_a_class_file_that_does_not_fit_is_told(tmp_path, text, said):
    make_class(tmp_path / "class", CODES)
    (tmp_path / "class" / "class.toml").write_text(text)
    with pytest.raises(ValueError) as error:
        read_class(tmp_path / "class")
    assert said in str(error.value)


def test_due_dates(tmp_path):
    room = make_class(tmp_path / "class", CODES)
    assert room.assignments[0].due == datetime(2027, 2, 5, 23, 59, 59)
    assert room.assignments[0].due_words == "Friday 5 February 2027"
    path = tmp_path / "class" / "class.toml"
    path.write_text(path.read_text().replace("2027-02-05", "2027-02-05T18:30:00"))
    assert read_class(path.parent).assignments[0].due_words == "Friday 5 February 2027, 18:30"


def test_neither_secret_nor_name_shows_by_accident(tmp_path):
    room = make_class(tmp_path / "class", CODES)
    assert SECRET not in repr(room) and "Invented Name" not in repr(room)


# --- handing out ---------------------------------------------------------------------------------


def test_handouts_are_the_same_bytes_and_hold_no_name_and_no_secret(tmp_path):
    room = make_class(tmp_path / "class", CODES)
    first = hand_out(room, tmp_path / "a")
    hand_out(read_class(room.folder), tmp_path / "b")
    shared = hand_out(room, tmp_path / "c", one_folder=True)
    assert len(first.new) == len(CODES) and len(shared.new) == len(CODES) + 1
    for path in first.new:
        text = path.read_text(encoding="utf-8")
        assert text.encode() == (tmp_path / "b" / path.relative_to(tmp_path / "a")).read_bytes()
        code = path.parent.name
        assert text.encode() == (tmp_path / "c" / f"{TOPIC.name}_{code}.ipynb").read_bytes()
        assert f"numbers of **{code}**" in text and "by **Friday 5 February 2027**" in text
        assert TOPIC.checksum(room.key(code)) in text
    everything = "".join(path.read_text(encoding="utf-8") + str(path.relative_to(tmp_path))
                         for path in tmp_path.rglob("[abc]/**/*") if path.is_file())
    assert SECRET not in everything and "Invented" not in everything


def test_handing_out_again_changes_only_what_changed(tmp_path):
    room = make_class(tmp_path / "class", CODES)
    first = hand_out(room, tmp_path / "out")
    moments = {path: path.stat().st_mtime_ns for path in first.new}
    again = hand_out(room, tmp_path / "out")
    assert len(again.unchanged) == len(CODES) and not again.new and not again.changed
    assert moments == {path: path.stat().st_mtime_ns for path in again.unchanged}
    other = hand_out(replace(room, secret=SECRET + "!"), tmp_path / "out")
    assert len(other.changed) == len(CODES)


# --- taking in -----------------------------------------------------------------------------------


def test_whose_it_is_comes_from_the_content(tmp_path):
    room = make_class(tmp_path / "class", CODES)
    for name, code in [("a b (2).ipynb", CODES[0]), ("Über/ü/x.ipynb", CODES[1]),
                       ("student-01.txt", CODES[2]), (f"{CODES[0]}/copy", CODES[3])]:
        hand_in(room, name, work(room, code, right_answers(room, code)))
    taken, unmarked = take_in(room, room.folder / "returns")
    assert unmarked == []
    assert {one.file: one.student for one in taken} == {
        "a b (2).ipynb": CODES[0], "Über/ü/x.ipynb": CODES[1], "student-01.txt": CODES[2],
        f"{CODES[0]}/copy": CODES[3]}


@pytest.mark.parametrize("strip", ["metadata", "start", "top", "cell labels", "metadata and top"])
def test_a_student_is_known_with_part_of_it_gone(tmp_path, strip):
    room = make_class(tmp_path / "class", CODES)
    notebook = work(room, CODES[0], right_answers(room, CODES[0]))
    if "metadata" in strip:
        notebook["metadata"] = {}
    if "top" in strip:
        notebook["cells"] = [cell for cell in notebook["cells"] if cell["id"] != "top"]
    if strip == "start":
        notebook["cells"] = [cell for cell in notebook["cells"] if cell["id"] != "start"]
    if strip == "cell labels":
        for cell in notebook["cells"]:
            cell["metadata"] = {}
            cell["id"] = "x"
    hand_in(room, "x.ipynb", notebook)
    ((one,), unmarked) = take_in(room, room.folder / "returns")
    assert one.student == CODES[0] and one.missing == () and unmarked == []
    kept = {cell.question: cell.source for cell in one.cells}
    assert kept == right_answers(room, CODES[0])


@settings(max_examples=150, deadline=None)
@given(data=st.data())
def test_whatever_a_file_holds_it_gets_one_line(data, tmp_path_factory):
    """A good notebook with bytes changed, cut, doubled: taken in or told, and nobody else's."""
    room, good = _room_and_work(tmp_path_factory)
    content = bytearray(good)
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(content) - 1))
        to = min(len(content), at + data.draw(st.integers(0, 400)))
        content[at:to] = data.draw(st.sampled_from([
            b"", b"\0", b"{", b"]", b'"', b"\xff", b"1", bytes(content[at:to]) * 2]))
        content = content or bytearray(b" ")
    folder = room.folder / "mangled"
    folder.mkdir(exist_ok=True)
    (folder / "x.ipynb").write_bytes(content)
    taken, unmarked = take_in(room, folder)
    assert len(taken) + len(unmarked) == 1
    assert {one.student for one in taken} <= {CODES[0]}
    assert all(one.why.endswith(".") and one.why.isprintable() for one in unmarked)


JSON = st.recursive(st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=20),
                    lambda some: st.lists(some, max_size=4) | st.dictionaries(
                        st.sampled_from(["cells", "metadata", "herbcalc", "source", "question",
                                         "cell_type", "id", "student", "homework", "numbers",
                                         "value", "results", "error", "?"]), some, max_size=5),
                    max_leaves=20)


@settings(max_examples=150, deadline=None)
@given(cells=JSON, about=JSON, edition=JSON | st.just(4))
def test_any_json_gets_one_line(cells, about, edition, tmp_path_factory):
    room, _ = _room_and_work(tmp_path_factory)
    folder = room.folder / "json"
    folder.mkdir(exist_ok=True)
    (folder / "x.ipynb").write_text(json.dumps(
        {"nbformat": edition, "cells": cells, "metadata": {"herbcalc": about}}))
    taken, unmarked = take_in(room, folder)
    assert len(taken) + len(unmarked) == 1 and not taken


_made = {}


def _room_and_work(factory):
    if not _made:
        room = make_class(factory.mktemp("property") / "class", CODES)
        good = notebook_text(work(room, CODES[0], right_answers(room, CODES[0]))).encode()
        _made["it"] = room, good
    return _made["it"]


# --- judging -------------------------------------------------------------------------------------


def _job(room, **sources):
    hand_in(room, "x.ipynb", work(room, CODES[0], sources or right_answers(room, CODES[0])))
    ((one,), _) = take_in(room, room.folder / "returns")
    return marking._Job("x", one, TOPIC)


@settings(max_examples=200, deadline=None)
@given(name=st.sampled_from(list(QUESTIONS)), sent=st.none() | st.text(max_size=50) | JSON.map(
    lambda value: json.dumps({"value": value})) | JSON.map(lambda value: json.dumps(
        {"results": value})) | JSON.map(json.dumps))
def test_whatever_a_kernel_sends_is_only_an_answer(name, sent, tmp_path_factory):
    """No text from the kernel raises, and none earns more than the same answer does."""
    room, _ = _room_and_work(tmp_path_factory)
    if "job" not in _made:
        _made["job"], _made["drawn"] = _job(room), TOPIC.drawn(room.key(CODES[0]))
    job, drawn, question = _made["job"], _made["drawn"][name], QUESTIONS[name]
    answer = marking._answer(room, job, question, drawn,
                             {"error": None, "stopped": "", "sent": sent}, Limits())
    assert 0 <= answer.marks <= answer.out_of and answer.sentence.isprintable()
    found = marking._read(sent)
    if answer.outcome is Result.RIGHT and "value" in found:
        assert judge(question, drawn, found["value"]).outcome is Outcome.RIGHT


def test_functions_are_tried_with_calls_that_depend_on_the_secret(tmp_path):
    room = make_class(tmp_path / "class", CODES)
    job, question = _job(room), QUESTIONS["write-make-up"]
    tried = marking._tried(room, job, question)
    seen = calls(question, room.key(CODES[0]), TOPIC.name)
    assert tried == marking._tried(room, job, question) and not set(map(str, tried)) & set(
        map(str, seen))
    assert tried != marking._tried(replace(room, secret=SECRET + "!"), job, question)


# --- whole runs ----------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def marked(tmp_path_factory):
    """A class and what an undisturbed run made of it; memory is watched on the way."""
    need_sandbox()
    base = tmp_path_factory.mktemp("m")
    room = make_class(base / "class", CODES)
    for number, code in enumerate(CODES):
        answers = right_answers(room, code, leave=list(QUESTIONS)[:number])
        hand_in(room, f"work of {number}.ipynb", work(room, code, answers))
    held = []
    outcomes = marking.mark(room, room.folder / "returns", room.folder / "marks",
                            progress=lambda *told: held.append(_held()))
    return room, outcomes, held


def _held():
    with open("/proc/self/statm") as file:
        return int(file.read().split()[1]) * os.sysconf("SC_PAGE_SIZE") / 1e6


def _again(marked, folder):
    """The same class in another place, not yet marked."""
    shutil.copytree(marked[0].folder, folder, copy_function=shutil.copy2,
                    ignore=shutil.ignore_patterns("marks"))
    return folder


def test_right_answers_are_right_and_blanks_are_blank(marked):
    _, outcomes, _ = marked
    assert len(outcomes.returns) == len(CODES) and outcomes.unmarked == ()
    for number, one in enumerate(outcomes.returns):
        assert [answer.outcome for answer in one.answers[:number]] == [Result.BLANK] * number
        assert {answer.outcome for answer in one.answers[number:]} <= {
            Result.RIGHT, Result.WRITTEN}
        assert one.counts and not one.late and one.notes == ()
    best = outcomes.returns[0]
    assert best.answer("why-the-mark").text == QUESTIONS["why-the-mark"].example
    extra = best.answer("write-make-up").out_of
    assert best.marks == best.out_of - best.answer("why-the-mark").out_of + extra


def test_memory_stays_flat(marked):
    """A run of 300 is measured by tests/marking_benchmark.py."""
    held = marked[2]
    assert held[-1] - held[2] < 20, held  # MB, once everything is loaded


def test_nothing_is_marked_twice(marked):
    room, outcomes, _ = marked
    told = []
    before = (room.folder / "marks" / marking.OUTCOMES).read_bytes()
    moments = _moments(room.folder)
    again = marking.mark(room, room.folder / "returns", room.folder / "marks",
                         progress=lambda *one: told.append(one))
    assert told == [(0, 0, None)] and again == outcomes and _moments(room.folder) == moments
    assert (room.folder / "marks" / marking.OUTCOMES).read_bytes() == before
    assert load_outcomes(room.folder / "marks" / marking.OUTCOMES) == outcomes


def _moments(folder):
    return {path.name: path.stat().st_mtime_ns for path in (folder / "marks/stored").glob("*")}


def _processes(mark):
    found = []
    for process in Path("/proc").iterdir():
        try:
            line = (process / "cmdline").read_bytes()
        except OSError:
            continue
        if mark.encode() in line and process.name != str(os.getpid()):
            found.append(line)
    return found


@pytest.fixture
def tmp(tmp_path_factory):
    """An empty folder for what is temporary; its name is short, as names of sockets must be."""
    return tmp_path_factory.mktemp("t")


def test_killed_at_random_moments_it_goes_on_and_ends_the_same(marked, tmp_path, tmp):
    folder = _again(marked, tmp_path / "class")
    dice = random.Random()
    seed = dice.randrange(10**6)
    print("seed", seed)  # shown where it fails
    dice.seed(seed)
    seen, kills = {}, 0
    while True:
        process = herbcalc("mark", folder, tmp=tmp)
        try:
            process.communicate(timeout=dice.uniform(0.5, 4) if kills < 5 else None)
        except subprocess.TimeoutExpired:
            process.kill()
            process.communicate()
            kills += 1
        stored = folder / "marks" / "stored"
        for path in stored.glob("*.json") if stored.exists() else ():
            content = json.loads(path.read_text(encoding="utf-8"))  # whole, at any moment
            assert len(content) == len(QUESTIONS)
            about = (path.stat().st_mtime_ns, path.stat().st_ino)
            assert seen.setdefault(path.name, about) == about  # what is done is not done again
        if process.returncode == 0:
            break
        until = time.monotonic() + 10
        while _processes(str(tmp)) and time.monotonic() < until:
            time.sleep(0.05)
        assert _processes(str(tmp)) == []  # no kernel outlives the run
    assert kills >= 1
    assert (folder / "marks" / marking.OUTCOMES).read_bytes() == (
        marked[0].folder / "marks" / marking.OUTCOMES).read_bytes()
    assert list(tmp.iterdir()) == []  # also what the killed runs could not clear up


def test_two_runs_at_once_do_each_other_no_harm(marked, tmp_path):
    folder = _again(marked, tmp_path / "class")
    for path in sorted((folder / "returns").iterdir())[3:]:
        path.unlink()
    two = [herbcalc("mark", folder) for _ in range(2)]
    for process in two:
        out, err = process.communicate()
        assert process.returncode == 0, err
        assert "3 of 8 students have handed in" in out
    outcomes = load_outcomes(folder / "marks" / marking.OUTCOMES)
    assert outcomes.returns == marked[1].returns[:3]
    status, out, err = ran("mark", folder, "--again")  # and everything anew, when asked for
    assert status == 0 and "3 of 3 marked" in err, err
    assert load_outcomes(folder / "marks" / marking.OUTCOMES) == outcomes
    assert sorted(path.suffix for path in (folder / "marks/stored").iterdir()) == [".json"] * 3


def test_interrupted_it_says_so_and_leaves_nothing(marked, tmp_path, tmp):
    folder = _again(marked, tmp_path / "class")
    process = herbcalc("mark", folder, tmp=tmp)
    while not any(tmp.glob("*/s*")):  # a session of returns has begun
        assert process.poll() is None
        time.sleep(0.02)
    process.send_signal(signal.SIGINT)
    out, err = process.communicate(timeout=30)
    assert process.returncode == 130 and "the same command goes on from there" in out
    assert list(tmp.iterdir()) == [] and _processes(str(tmp)) == []


def test_a_session_that_is_killed_costs_no_return(marked, tmp_path, tmp):
    folder = _again(marked, tmp_path / "class")
    for path in sorted((folder / "returns").iterdir())[3:]:
        path.unlink()
    process = herbcalc("mark", folder, tmp=tmp)
    while not (killed := _sessions(tmp)):
        assert process.poll() is None
        time.sleep(0.05)
    os.kill(killed[0], signal.SIGKILL)
    out, err = process.communicate()
    assert process.returncode == 0 and "Not marked" not in out, (out, err)
    outcomes = load_outcomes(folder / "marks" / marking.OUTCOMES)
    assert outcomes.returns == marked[1].returns[:3]


def _sessions(tmp):
    """Numbers of the pytest processes below a marking run."""
    found = []
    for process in Path("/proc").iterdir():
        try:
            words = (process / "cmdline").read_bytes().split(b"\0")
        except OSError:
            continue
        if b"pytest" in words and any(str(tmp).encode() in word for word in words):
            found.append(int(process.name))
    return found


def test_a_class_that_students_code_could_see_is_refused(tmp_path):
    need_sandbox()
    assert sandbox.visible(Path(sys.prefix) / "class") and not sandbox.visible(tmp_path)
    room = replace(make_class(tmp_path / "class", CODES), folder=Path(sys.prefix) / "class")
    with pytest.raises(ValueError, match="keep the class somewhere else"):
        marking.mark(room, tmp_path / "class" / "returns", tmp_path / "marks")


def test_without_bubblewrap_it_stops_and_says_what_to_install(marked, tmp_path):
    folder = _again(marked, tmp_path / "class")
    status, out, err = ran("mark", folder, env={"PATH": str(tmp_path)})
    assert status == 1 and "apt install bubblewrap" in err and not (folder / "marks").exists()


def test_without_a_sandbox_only_when_told_so_in_so_many_words(marked, tmp_path):
    folder = _again(marked, tmp_path / "class")
    for path in sorted((folder / "returns").iterdir())[1:]:
        path.unlink()
    status, out, err = ran("mark", folder, "--without-sandbox", env={"PATH": str(tmp_path)})
    assert status == 0 and "with all your own rights" in out, err
    assert load_outcomes(folder / "marks" / marking.OUTCOMES).returns == marked[1].returns[:1]


# --- the demo class, through the commands --------------------------------------------------------


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    folder = tmp_path_factory.mktemp("d") / "class"
    status, out, err = ran("demo-class", folder)
    assert status == 0 and "12" in out, err
    return folder


def test_the_demo_class_is_the_same_everywhere(demo, tmp_path):
    write_demo_class(tmp_path / "again")
    for path in (path for path in demo.rglob("*") if path.is_file()):
        assert path.read_bytes() == (tmp_path / "again" / path.relative_to(demo)).read_bytes()
    with open(demo / "roster.csv", encoding="utf-8") as file:
        assert all("(invented)" in row["name"] for row in csv.DictReader(file))
    status, _, err = ran("demo-class", demo)
    assert status == 1 and "not empty" in err


def test_the_demo_class_from_handout_to_outcomes(demo):
    need_sandbox()
    status, out, err = ran("hand-out", demo)
    assert status == 0 and "12 new" in out, err
    status, out, err = ran("mark", demo)
    assert status == 0, err
    assert "10 of 12 students have handed in, not yet: student-10, student-12" in out
    assert "says it is student-12's, but the numbers in it are student-04's" in out
    assert "11 of 11 marked" in err and " left" in err
    outcomes = load_outcomes(demo / "marks" / marking.OUTCOMES)
    found = {answer.outcome for one in outcomes.returns for answer in one.answers}
    assert found >= {*Result} - {Result.WRONG}
    tries = [one for one in outcomes.returns if one.student == "student-05"]
    assert [(one.file, one.counts) for one in tries] == [
        ("drop box/homework.ipynb", False), ("drop box/homework (1).ipynb", True)]
    assert [one.student for one in outcomes.returns if one.late] == ["student-09"]
    text = (demo / "marks" / marking.OUTCOMES).read_text(encoding="utf-8")
    assert "(invented)" not in text.replace("garden (invented)", "")
    assert "lantern, a lane" not in text


def test_of_two_tries_of_one_moment_the_higher_copy_counts(tmp_path):
    room = make_class(tmp_path / "class", CODES)
    stored = marking._Store(room, tmp_path)
    moment = datetime(2027, 2, 1, 12).timestamp()
    for number, name in enumerate(["x (2).ipynb", "x.ipynb", "x (10).ipynb", "y/x (1).ipynb"]):
        path = hand_in(room, name, work(room, CODES[0], {"make-up": f"answer = {number}"}))
        os.utime(path, (moment, moment))
    taken, _ = take_in(room, room.folder / "returns")
    for one in taken:
        job = marking._Job(stored.name(one), one, TOPIC)
        stored.save(job.name, marking._judged(room, stored, job, {}, Limits()))
    outcomes = marking._outcomes(room, stored, taken, [], {})
    assert [one.file for one in outcomes.returns if one.counts] == ["x (10).ipynb"]
    assert all("different folders" in one.notes[1] for one in outcomes.returns)


def test_a_folder_of_ten_thousand_levels_and_a_link_to_itself(tmp_path):
    place = tmp_path
    for _ in range(60):
        place = place / "deep"
    place.mkdir(parents=True)
    (place / "x.txt").write_text("x")
    (tmp_path / "loop").symlink_to(tmp_path)
    assert sorted(one.why or one.content.decode() for one in find(tmp_path)) == [
        "It is a link to somewhere else, which is not followed.", "x"]


def test_late_is_after_the_due_date(tmp_path):
    room = make_class(tmp_path / "class", CODES)
    stored = marking._Store(room, tmp_path)
    due = room.assignments[0].due
    for name, when in [("in time", due), ("late", due + timedelta(seconds=1))]:
        path = hand_in(room, name, work(room, CODES[0], {"make-up": f"answer = '{name}'"}))
        os.utime(path, (when.timestamp(), when.timestamp()))
    taken, _ = take_in(room, room.folder / "returns")
    for one in taken:
        stored.save(stored.name(one), ())
    outcomes = marking._outcomes(room, stored, taken, [], {})
    assert {one.file: one.late for one in outcomes.returns} == {"in time": False, "late": True}

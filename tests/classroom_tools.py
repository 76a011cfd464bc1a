"""A class for the tests of marking: its folder, its students' work, and whether there is a sandbox.

Everyone in it is invented.
"""

import functools
import json
import os

import pytest

from herbcalc.classroom import find_topic, homework_notebook, sandbox
from herbcalc.classroom.demo import answer_source, fill
from herbcalc.classroom.roster import read_class

TOPIC = find_topic("02")
QUESTIONS = {question.name: question for question in TOPIC.homework}
SECRET = "an oak by the garden gate, 1931"


@functools.cache
def sandbox_trouble():
    return sandbox.trouble()


def need_sandbox():
    """Skip where there is no sandbox; where there must be one, fail."""
    trouble = sandbox_trouble()
    if trouble and os.environ.get("HERBCALC_NEED_SANDBOX"):
        pytest.fail(trouble)
    if trouble:
        pytest.skip(trouble)


def make_class(folder, codes):
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "returns").mkdir()
    (folder / "roster.csv").write_text("student,name\n" + "".join(
        f"{code},Invented Name {n}\n" for n, code in enumerate(codes)), encoding="utf-8")
    (folder / "class.toml").write_text(
        f'title = "A class for tests (invented)"\nsecret = "{SECRET}"\n\n[due]\n'
        '"02" = 2027-02-05\n', encoding="utf-8")
    return read_class(folder)


def right_answers(room, code, leave=()):
    """Answer lines that are all right; `leave` names questions to leave as they were."""
    drawn = TOPIC.drawn(room.key(code))
    return {name: answer_source(question, drawn[name]) for name, question in QUESTIONS.items()
            if name not in leave}


def work(room, code, answers):
    """A student's notebook with these answer lines, as a dict."""
    return fill(homework_notebook(TOPIC, code, room.key(code)), answers)


def hand_in(room, name, notebook):
    path = room.folder / "returns" / name
    path.parent.mkdir(parents=True, exist_ok=True)
    if isinstance(notebook, dict):
        notebook = json.dumps(notebook).encode()  # with escapes: half characters go through too
    path.write_bytes(notebook)
    return path

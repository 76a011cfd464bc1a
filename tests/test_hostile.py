"""Returns that are broken or mean harm, all in one marking run.

Each has its own line in the report, gains no mark that its answers do not earn, costs nobody
else one, and leaves no file and no process. What each tries stands beside it.
"""

import io
import json
import os
import socket
import tempfile
import threading
import zipfile
from dataclasses import dataclass
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

from herbcalc import places
from herbcalc.classroom import calls, model_answer, notebook_text
from herbcalc.classroom.inside.start import MIME
from herbcalc.classroom.marking import mark
from herbcalc.classroom.outcomes import Result
from herbcalc.classroom.sandbox import Limits
from herbcalc.classroom.taking_in import LARGEST

LIMITS = Limits(seconds=20, cell_seconds=2, memory=500_000_000, scratch=20_000_000,
                output=1_000_000)
FIRST = "pure-alcohol"  # the question whose answer cell does the harm; all others are right
MARKER = "4242.4242"  # seconds that a process left behind would sleep

BROKE, WRONG, BLANK, TURN = Result.BROKE, Result.WRONG, Result.BLANK, Result.TURN


@dataclass(frozen=True)
class Hostile:
    """Lines in the answer cell of the first question, and how that question must come out."""

    name: str
    lines: str
    outcome: Result
    says: str = ""
    others: bool = True  # whether the right answers to the other questions still count


SEND = f"from IPython.display import publish_display_data as send\nMIME = {MIME!r}\n"

HOSTILE = [
    # --- taking without end
    Hostile("endless-loop", "while True: pass", BROKE, "did not come to an end in 2 seconds"),
    Hostile("endless-loop-not-to-be-interrupted",
            "import signal\nsignal.signal(signal.SIGINT, signal.SIG_IGN)\nwhile True: pass",
            BROKE, "did not come to an end"),
    Hostile("stops-itself", "import os, signal\nos.kill(os.getpid(), signal.SIGSTOP)", BROKE,
            "did not come to an end"),
    Hostile("fork-bomb", "import os\nwhile True:\n    try: os.fork()\n    except OSError: pass",
            BROKE),
    Hostile("thread-bomb", "import threading, time\nwhile True:\n"
            "    threading.Thread(target=time.sleep, args=(999,)).start()", BROKE, "RuntimeError"),
    Hostile("memory-bomb", "answer = bytearray(10**11)", BROKE, "MemoryError"),
    Hostile("memory-bomb-touched", "hoard = []\nwhile True: hoard.append(b'x' * 10**7)", BROKE),
    Hostile("memory-bomb-in-many-processes",
            "import os, time\nfor _ in range(4):\n    if not os.fork():\n"
            "        hoard = [b'x' * 10**7 for _ in range(20)]\n        time.sleep(999)\n"
            "time.sleep(999)", BROKE, "500 MB of memory"),
    Hostile("shared-memory-bomb", "import mmap\nm = mmap.mmap(-1, 10**10)", BROKE, "Error"),
    Hostile("disk-bomb", "n = 0\nwhile True:\n    n += 1\n"
            "    open(f'file{n}', 'wb').write(b'x' * 10**6)", BROKE, "OSError"),
    Hostile("one-endless-file", "with open('file', 'wb') as file:\n"
            "    while True: file.write(b'x' * 10**6)", BROKE, "OSError"),
    Hostile("disk-bomb-beside-the-sockets",
            "import sys, os, glob\nplace = os.path.dirname(sys.argv[2])\nn = 0\nwhile True:\n"
            "    n += 1\n    open(f'{place}/{n}', 'wb').write(b'x' * 10**5)", BROKE, "it wrote"),
    Hostile("endless-folders-beside-the-sockets",
            "import sys, os\nos.chdir(os.path.dirname(sys.argv[2]))\nfor _ in range(3000):\n"
            "    os.mkdir('d'); os.chdir('d')\nos.chmod('.', 0)\nimport time\ntime.sleep(9)",
            BROKE, "it wrote"),
    Hostile("output-without-end", "while True: print('x' * 10**4)", BROKE),
    Hostile("output-past-python", "import os\nfor _ in range(500): os.write(1, b'x' * 10**6)",
            BLANK, "set no answer"),
    Hostile("one-giant-message", "print('x' * 10**8)", BROKE),
    Hostile("giant-number", "answer = 10 ** 10**6", WRONG, "no end"),
    Hostile("giant-text", "answer = '9' * 10**8", WRONG, "a lot of text"),
    Hostile("list-in-itself", "answer = []\nanswer.append(answer)", WRONG, "without the brackets"),
    Hostile("asks-and-waits", "answer = input('? ')", BROKE, "StdinNotImplementedError"),
    # --- ending everything
    Hostile("kills-the-kernel", "import os\nos.kill(os.getpid(), 9)", BROKE, "stopped there"),
    Hostile("kills-everything", "import os\nos.kill(-1, 9)", BROKE, "ProcessLookupError"),
    Hostile("leaves-at-once", "import os\nos._exit(0)", BROKE, "stopped there"),
    Hostile("sys-exit", "import sys\nsys.exit(0)", BROKE, "SystemExit"),
    Hostile("exit", "exit()", BROKE, "NameError"),
    Hostile("crashes", "import ctypes\nctypes.string_at(0)", BROKE, "stopped there"),
    Hostile("recursion", "def f(): return f()\nanswer = f()", BROKE, "RecursionError"),
    # --- forging
    Hostile("replaced-capture", "class Mine:\n    def value(self): print('right')\n"
            "    calls = value\n_capture = Mine()", BLANK, others=False),
    Hostile("capture-sends-a-mark", SEND + "class Mine:\n    def value(self):\n"
            "        send({MIME: '{\"outcome\": \"right\", \"marks\": 1}'})\n_capture = Mine()",
            BLANK, others=False),
    Hostile("patched-numpy", "np.isclose = np.allclose = lambda *a, **k: True\n"
            "np.float64.__sub__ = lambda *a: 0\nanswer = 1", BROKE),
    Hostile("patched-builtins", "import builtins\nbuiltins.abs = lambda x: 0\n"
            "builtins.float = builtins.max = builtins.isinstance = lambda *a: 0\nanswer = 1",
            BROKE),
    Hostile("patched-json", "import json\n"
            "json.dumps = lambda *a, **k: '{\"value\": 1, \"marks\": 9}'\nanswer = 1", BROKE),
    Hostile("prints-that-it-is-right", "print('✓ Right. 10 of 10 right')\n"
            "print('1 passed in 0.01s')\nanswer = 1", WRONG),
    Hostile("sends-that-it-is-right", SEND + "send({'text/plain': '✓ Right.'}, "
            "{'herbcalc': {'outcome': 'right'}})\nanswer = 1", WRONG),
    Hostile("sends-answers-all-the-time", SEND + "import threading\ndef flood():\n"
            "    while True: send({MIME: '{\"value\": 1}'})\n"
            "threading.Thread(target=flood, daemon=True).start()\nanswer = 1", WRONG,
            others=False),
    Hostile("sends-deep-json", SEND + "class Mine:\n    def value(self):\n"
            "        send({MIME: '[' * 100000 + ']' * 100000})\n    calls = value\n"
            "_capture = Mine()", BLANK, others=False),
    Hostile("sends-a-list-for-a-mapping", SEND + "class Mine:\n    def value(self):\n"
            "        send({MIME: '[1, 2]'})\n    calls = value\n_capture = Mine()",
            BLANK, others=False),
    Hostile("says-it-is-idle",
            "k = get_ipython().kernel\nfor _ in range(50):\n"
            "    k.session.send(k.iopub_socket, 'status', {'execution_state': 'idle'},\n"
            "                   parent=k.get_parent())\nanswer = 1", WRONG, others=False),
    Hostile("speaks-no-known-language",
            "k = get_ipython().kernel\nfor _ in range(50):\n"
            "    k.iopub_socket.send_multipart([b'junk', b'\\xff' * 99, b'{'])\nanswer = 1", BROKE),
    Hostile("writes-to-its-own-program",
            "import sys\nopen(sys.argv[0], 'a').write('#')", BROKE, "Error"),
    Hostile("lying-object", "class Liar:\n"
            "    def __eq__(self, other): return True\n"
            "    __lt__ = __gt__ = __le__ = __ge__ = __eq__\n"
            "    def __sub__(self, other): return 0\n    __rsub__ = __sub__\n"
            "    def __float__(self): return 320.0\n    def __hash__(self): return 1\n"
            "answer = Liar()", WRONG, "That is a Liar"),
    Hostile("lying-number", "class Liar(float):\n    def __sub__(self, other): return 0.0\n"
            "    __rsub__ = __sub__\nanswer = Liar(1)", WRONG, "That is a Liar"),
    Hostile("slow-to-compare-and-print", "import time\nclass Slow:\n"
            "    def __eq__(self, other): time.sleep(600)\n"
            "    __repr__ = __str__ = __float__ = __hash__ = __len__ = __eq__\nanswer = Slow()",
            WRONG, "That is a Slow"),
    Hostile("lying-class", "class Meta(type):\n    def __instancecheck__(c, o): return True\n"
            "    @property\n    def __name__(c): raise SystemExit\n"
            "class Liar(metaclass=Meta): pass\nanswer = Liar()", WRONG),
    Hostile("not-a-number", "answer = float('nan')", WRONG),
    Hostile("a-comment-for-nbval", "# NBVAL_SKIP\nanswer = 1", WRONG),
    Hostile("nul-bytes", "answer = '1\0'", WRONG),
    Hostile("half-characters", "answer = '1\ud800'", WRONG),
    # --- reading what is not theirs
    Hostile("asks-for-the-model-answer",
            "from herbcalc.classroom import model_answer", BROKE, "ImportError"),
    Hostile("reads-the-roster", "answer = open(ROSTER).read()", BROKE, "FileNotFoundError"),
    Hostile("reads-the-secret", "answer = open(SECRET).read()", BROKE, "FileNotFoundError"),
    Hostile("reads-other-returns", "import os\nanswer = os.listdir(RETURNS)", BROKE,
            "FileNotFoundError"),
    Hostile("reads-the-questions", "answer = open(QUESTIONS).read()", BROKE, "FileNotFoundError"),
    Hostile("reads-the-passwords", "answer = open('/etc/passwd').read()", BROKE,
            "FileNotFoundError"),
    Hostile("opens-a-socket", "import socket\n"
            "socket.create_connection(('127.0.0.1', PORT), 5)\nanswer = 1", BROKE, "Error"),
    Hostile("leaves-a-process", "import subprocess, os\n"
            f"for _ in range(3): subprocess.Popen(['sleep', '{MARKER}'], start_new_session=True)\n"
            f"if not os.fork():\n    os.setsid()\n    os.execvp('sleep', ['sleep', '{MARKER}'])\n"
            "answer = 1", WRONG),
]

# What a return could see, as the answer to the question in words.
SPY = '''
import json, os, socket, sys
seen = {"files": [], "environments": [], "commands": [], "writable": []}
names = ("roster.csv", "class.toml", "questions.py", "outcomes.json", "checking.py", ".git")
for place, folders, files in os.walk("/"):
    if place.startswith(("/proc", "/sys", "/usr")) or "site-packages/" in place:
        folders.clear()  # of the system and of Python: long, and the same for everybody
    seen["files"] += [os.path.join(place, one) for one in [*files, *folders]
                      if one in names or one.endswith(".ipynb")]
    if os.access(place, os.W_OK):
        seen["writable"].append(place)
for one in os.listdir("/proc"):
    if one.isdigit():
        for name, what in (("environ", "environments"), ("cmdline", "commands")):
            try:
                seen[what].append(open(f"/proc/{one}/{name}").read())
            except OSError:
                pass
seen["processes"] = len(seen["commands"])
seen["network"] = [name for _, name in socket.if_nameindex()]
seen["root"] = os.geteuid() == 0 and open("/proc/self/uid_map").read().split()[1] == "0"
seen["rights"] = [line.split()[1] for line in open("/proc/self/status")
                  if line.startswith(("CapEff", "CapPrm", "CapAmb"))]
seen["home"] = os.listdir(os.path.expanduser("~"))
answer = "seen by me in there: " + json.dumps(seen)
'''


class Run:
    """The one marking run, and what was made for it."""


@pytest.fixture(scope="module")
def run(tmp_path_factory):
    need_sandbox()
    base = tmp_path_factory.mktemp("hostile")
    run = Run()
    files = ["honest-1", "honest-2", "honest-3", "spy", "function-by-heart", "deleted-cells",
             "doubled-cells", "marked-by-themselves", "own-cells", "turned-into-text",
             "traversal", "packed", "renamed", "swapped", "reader", "taken-over"]
    run.room = room = make_class(base / "class", [*files, *(h.name for h in HOSTILE)])
    run.listener, run.callers = _listener()
    names = {"ROSTER": room.folder / "roster.csv", "SECRET": room.folder / "class.toml",
             "RETURNS": room.folder / "returns", "PORT": run.listener.getsockname()[1],
             "QUESTIONS": places.exercises() / TOPIC.name / "questions.py"}
    for hostile in HOSTILE:
        lines = hostile.lines
        for name, value in names.items():
            if hostile.name.startswith(("reads-", "opens-")):
                lines = lines.replace(name, repr(value if isinstance(value, int) else str(value)))
        hand_in(room, f"{hostile.name}.ipynb", _with(room, hostile.name, {FIRST: lines}))
    run.unmarked = _files(room, base)
    run.temporary = tmp_path_factory.mktemp("t")  # short, as names of sockets must be
    before = os.environ.get("TMPDIR")
    os.environ |= {"HERBCALC_TEST_SENTINEL": SECRET, "TMPDIR": str(run.temporary)}
    tempfile.tempdir = None
    run.told = []
    try:
        run.outcomes = mark(room, room.folder / "returns", room.folder / "marks", LIMITS,
                            progress=lambda *told: run.told.append(told))
    finally:
        del os.environ["HERBCALC_TEST_SENTINEL"]
        os.environ.pop("TMPDIR") if before is None else os.environ.update(TMPDIR=before)
        tempfile.tempdir = None
        run.listener.close()
    run.by_student = {one.student: one for one in run.outcomes.returns}
    return run


def _listener():
    """A server of the machine's own; it notes who calls."""
    server = socket.create_server(("127.0.0.1", 0))
    callers = []

    def wait():
        while True:
            try:
                callers.append(server.accept())
            except OSError:
                return

    threading.Thread(target=wait, daemon=True).start()
    return server, callers


def _with(room, code, answers):
    return work(room, code, right_answers(room, code) | answers)


def _files(room, base):
    """Everything that is more than an answer; returns what is said of what is not marked."""
    for code in ("honest-1", "honest-2", "honest-3"):
        hand_in(room, f"{code}/homework.ipynb", _with(room, code, {}))
    hand_in(room, "spy.ipynb", _with(room, "spy", {"why-the-mark": SPY}))
    _by_heart(room)
    _odd_cells(room)
    returns = room.folder / "returns"
    outside = base / "outside.ipynb"
    outside.write_text(notebook_text(_with(room, "reader", {})))
    (returns / "link.ipynb").symlink_to(outside)
    (returns / "link to the class").symlink_to(room.folder)
    os.mkfifo(returns / "pipe.ipynb")
    good = notebook_text(_with(room, "packed", {})).encode()
    hand_in(room, "traversal.zip", _zip({
        "../../../../escaped.ipynb": notebook_text(_with(room, "traversal", {})).encode(),
        "/absolute.txt": b"text"}))
    deep = good
    for _ in range(2):
        deep = _zip({"inside.zip": deep} if deep.startswith(b"PK") else {"a.ipynb": deep})
    hand_in(room, "twice packed.zip", deep)
    for _ in range(4):
        deep = _zip({"inside.zip": deep})
    hand_in(room, "packed without end.zip", deep)
    hand_in(room, "bomb.zip", _zip({"bomb.ipynb": b"\0" * (LARGEST + 5_000_000)}))
    hand_in(room, "cut off.zip", _zip({"a.ipynb": good})[:-200])
    locked = bytearray(_zip({"a.ipynb": good}))
    locked[6] |= 1
    locked[locked.index(b"PK\x01\x02") + 8] |= 1
    hand_in(room, "locked.zip", bytes(locked))
    with open(returns / "giant.ipynb", "wb") as file:
        file.write(b'{"cells": [')
        file.truncate(200_000_000)
    hand_in(room, "cut off.ipynb", good[:-500])
    hand_in(room, "nul.ipynb", good[:500] + b"\0" * 100 + good[500:])
    hand_in(room, "nothing but nul.ipynb", b"\0" * 5000)
    hand_in(room, "empty.ipynb", b"")
    hand_in(room, "photo.jpg", b"\xff\xd8\xff\xe0")
    hand_in(room, "deep.ipynb", b'{"nbformat": 4, "cells": ' + b"[" * 200_000)
    hand_in(room, "long number.ipynb", b'{"nbformat": 4, "cells": [' + b"1" * 100_000 + b"]}")
    hand_in(room, "old.ipynb", json.dumps({"nbformat": 3, "worksheets": []}).encode())
    hand_in(room, "future.ipynb", json.dumps({"nbformat": 5, "cells": []}).encode())
    hand_in(room, "odd.ipynb", json.dumps({"nbformat": 4, "metadata": [1], "cells": [
        1, None, [], {"cell_type": 7}, {"source": 5}, {"source": [1, {}], "metadata": "x"}]}
    ).encode())
    hand_in(room, "other.ipynb", json.dumps({"nbformat": 4, "metadata": {}, "cells": [
        {"cell_type": "code", "source": "print(1)", "metadata": {}}]}).encode())
    renamed = _with(room, "renamed", {})
    renamed["metadata"]["herbcalc"]["student"] = "honest-1"
    hand_in(room, "renamed.ipynb", renamed)
    text = notebook_text(_with(room, "swapped", {})).replace("swapped", "honest-2")
    hand_in(room, "swapped.ipynb", text.encode())
    text = notebook_text(_with(room, "swapped", {})).replace("swapped", "hon\u200best-1")
    hand_in(room, "invisible.ipynb", text.encode())
    text = notebook_text(_with(room, "swapped", {})).replace("swapped", "1-tsenoh\u202e")
    hand_in(room, "\u202ebpyni.backwards\n.ipynb", text.encode())
    return {
        "link.ipynb": "a link to somewhere else",
        "link to the class": "a link to somewhere else",
        "pipe.ipynb": "not a file",
        "traversal.zip > /absolute.txt": "not a notebook",
        "packed without end.zip > inside.zip > inside.zip > inside.zip > inside.zip":
            "packed too often",
        "bomb.zip > bomb.ipynb": "far too large",
        "cut off.zip": "damaged",
        "locked.zip > a.ipynb": "password",
        "giant.ipynb": "far too large for a homework: 200 MB",
        "cut off.ipynb": "damaged",
        "nul.ipynb": "damaged",
        "nothing but nul.ipynb": "empty",
        "empty.ipynb": "empty",
        "photo.jpg": "not a notebook",
        "deep.ipynb": "damaged",
        "long number.ipynb": "damaged",
        "old.ipynb": "old notebook format (3)",
        "future.ipynb": "does not know (5)",
        "odd.ipynb": "not one of this course's",
        "other.ipynb": "not one of this course's",
        "renamed.ipynb": "in one place that it is honest-1's and in another that it is renamed's",
        "swapped.ipynb": "says it is honest-2's, but the numbers in it are swapped's",
        "invisible.ipynb": "says it is hon\\u200best-1's, but the numbers in it are swapped's",
        "\\u202ebpyni.backwards\\u000a.ipynb": "says it is 1-tsenoh\\u202e's",
    }


def _by_heart(room):
    """A function that knows the results of the calls in the notebook's own check, and no other."""
    name, code = "write-make-up", "function-by-heart"
    question = QUESTIONS[name]
    key = room.key(code)
    seen = calls(question, key, TOPIC.name)
    right = model_answer(question, TOPIC.drawn(key)[name])
    table = {tuple(values.values()): right(**values) for values in seen}
    lines = f"def answer(volume, abv, to):\n    return {table!r}.get((volume, abv, to), 1)"
    hand_in(room, f"{code}.ipynb", _with(room, code, {name: lines}))


def _odd_cells(room):
    def cells(notebook, question):
        return [cell for cell in notebook["cells"]
                if cell["metadata"].get("herbcalc", {}).get("question") == question]

    gone = _with(room, "deleted-cells", {})
    keep = ("make-up-answer", "start")
    gone["cells"] = [cell for cell in gone["cells"] if cell["id"] in keep]
    hand_in(room, "deleted-cells.ipynb", gone)

    doubled = _with(room, "doubled-cells", {FIRST: "answer = 1"})
    (cell,) = cells(doubled, FIRST)
    place = doubled["cells"].index(cell)
    right = right_answers(room, "doubled-cells")[FIRST]
    doubled["cells"][place + 1:place + 1] = [cell | {"source": right}, cell | {"source": ""}]
    hand_in(room, "doubled-cells.ipynb", doubled)

    marked = _with(room, "marked-by-themselves", {FIRST: "answer = 1"})
    (cell,) = cells(marked, FIRST)
    cell["metadata"]["herbcalc"] |= {"outcome": "right", "marks": 100}
    cell["metadata"] |= {"marks": 100, "tags": ["right", "nbval-skip"]}
    marked["metadata"]["herbcalc"] |= {"marks": 100, "outcome": "right"}
    for one in marked["cells"]:
        if "check" in one["metadata"].get("tags", []):
            one["source"] = "print('Right.')"
            one["outputs"] = [{"output_type": "display_data", "data": {"text/plain": "✓ Right."},
                               "metadata": {"herbcalc": {"outcome": "right"}}}]
    hand_in(room, "marked-by-themselves.ipynb", marked)

    own = _with(room, "own-cells", {FIRST: "answer = mine"})
    (cell,) = cells(own, FIRST)
    place = own["cells"].index(cell)
    line = right_answers(room, "own-cells")[FIRST].replace("answer", "half", 1).split("#")[0]
    code = {"cell_type": "code", "metadata": {}, "outputs": [], "execution_count": None}
    own["cells"][place:place] = [code | {"id": "own-1", "source": f"{line}/ 2"},
                                 code | {"id": "own-2", "source": "mine = half * 2"},
                                 code | {"id": "own-3", "source": "while True: pass"}]
    hand_in(room, "own-cells.ipynb", own)

    text = _with(room, "turned-into-text", {})
    for cell in cells(text, FIRST):
        cell["cell_type"] = "markdown"
    hand_in(room, "turned-into-text.ipynb", text)

    # Of the work of another, with everything that says so changed; the numbers are not theirs.
    stolen = notebook_text(_with(room, "honest-1", {})).replace("honest-1", "taken-over")
    stolen = stolen.replace(room.key("honest-1"), room.key("taken-over")).replace(
        TOPIC.checksum(room.key("honest-1")), TOPIC.checksum(room.key("taken-over")))
    hand_in(room, "taken-over.ipynb", stolen.encode())


def _zip(files) -> bytes:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files.items():
            archive.writestr(zipfile.ZipInfo(name), content, zipfile.ZIP_DEFLATED)
    return packed.getvalue()


# --- what must hold ------------------------------------------------------------------------------


@pytest.mark.parametrize("hostile", HOSTILE, ids=lambda hostile: hostile.name)
def test_a_hostile_answer_earns_nothing(run, hostile):
    marked = run.by_student[hostile.name]
    answer = marked.answer(FIRST)
    assert (answer.outcome, answer.marks) == (hostile.outcome, 0), answer
    assert hostile.says in answer.sentence
    assert len(answer.sentence) < 400 and answer.sentence.isprintable()
    others = [one for one in marked.answers if one.question != FIRST]
    assert all(0 <= one.marks <= one.out_of for one in others)
    if hostile.others:
        assert {one.outcome for one in others} == {Result.RIGHT, Result.WRITTEN}, others


@pytest.mark.parametrize("code", ["honest-1", "honest-2", "honest-3"])
def test_it_costs_nobody_else_a_mark(run, code):
    marked = run.by_student[code]
    assert {one.outcome for one in marked.answers} == {Result.RIGHT, Result.WRITTEN}
    assert marked.counts and marked.notes == ()


def test_every_file_has_its_line(run):
    found = {one.file: one.why for one in run.outcomes.unmarked}
    assert set(found) == set(run.unmarked)
    for file, why in run.unmarked.items():
        assert why in found[file], (file, found[file])
        assert file.isprintable() and found[file].isprintable() and len(found[file]) < 300
    assert set(run.by_student) == set(run.room.codes) - {"renamed", "swapped", "reader"}


def test_nothing_is_left_behind(run):
    assert list(run.temporary.iterdir()) == []
    assert not list(run.room.folder.parent.rglob("*escaped*"))
    assert not Path("/escaped.ipynb").exists()
    assert sorted(path.name for path in run.room.folder.iterdir()) == [
        "class.toml", "marks", "returns", "roster.csv"]
    left = []
    for process in Path("/proc").iterdir():
        try:
            line = (process / "cmdline").read_text()
        except (OSError, UnicodeDecodeError):
            continue
        if MARKER in line or str(run.temporary) in line:
            left.append(line)
    assert left == []


def test_progress_is_told_with_the_time_left(run):
    of = len(run.by_student)
    assert run.told[0] == (0, of, None) and run.told[-1] == (of, of, 0)
    assert [done for done, _, _ in run.told] == list(range(of + 1))


def test_a_spy_sees_nothing(run):
    text = run.by_student["spy"].answer("why-the-mark").text
    seen = json.loads(text.partition(": ")[2])
    assert seen["files"] == []
    said = json.dumps(seen["environments"] + seen["commands"])
    assert SECRET not in said and "SENTINEL" not in said and "honest" not in said
    assert seen["processes"] <= 3  # bubblewrap's own first process, the kernel, at most a helper
    assert seen["network"] == ["lo"] and run.callers == []
    assert not seen["root"] and {int(rights, 16) for rights in seen["rights"]} == {0}
    assert set(seen["home"]) <= {".ipython"}
    assert all(place.startswith("/tmp") or place.startswith(str(run.temporary))
               for place in seen["writable"]), seen["writable"]


def test_a_function_is_tried_with_numbers_not_seen_before(run):
    by_heart = run.by_student["function-by-heart"].answer("write-make-up")
    assert by_heart.marks == 0 and by_heart.outcome is not Result.RIGHT
    assert run.by_student["honest-1"].answer("write-make-up").outcome is Result.RIGHT


def test_deleted_cells_are_blank_and_said_to_be_gone(run):
    marked = run.by_student["deleted-cells"]
    assert marked.answer("make-up").outcome is Result.RIGHT
    rest = [one for one in marked.answers if one.question != "make-up"]
    assert {(one.outcome, one.marks) for one in rest} == {(Result.BLANK, 0)}
    assert all("gone" in one.sentence for one in rest)


def test_of_doubled_cells_the_last_one_filled_in_counts(run):
    marked = run.by_student["doubled-cells"]
    assert marked.answer(FIRST).outcome is Result.RIGHT
    assert "Question 1 has 3 answer cells" in marked.notes[0]


def test_what_a_return_says_of_its_own_marks_does_not_count(run):
    marked = run.by_student["marked-by-themselves"]
    assert marked.answer(FIRST).marks == 0 and marked.marks == run.by_student["honest-1"].marks - 1


def test_cells_of_their_own_count_only_where_an_answer_needs_them(run):
    assert {one.outcome for one in run.by_student["own-cells"].answers} == {
        Result.RIGHT, Result.WRITTEN}


def test_an_answer_cell_turned_into_text_is_still_an_answer(run):
    assert run.by_student["turned-into-text"].answer(FIRST).outcome is Result.RIGHT


def test_the_work_of_another_is_judged_by_ones_own_numbers(run):
    marked = run.by_student["taken-over"]
    numbers = [one for one in marked.answers if one.outcome is Result.RIGHT]
    assert len(numbers) < len(marked.answers) / 2


def test_zips_are_looked_into_and_nothing_is_unpacked(run):
    assert run.by_student["traversal"].file == "traversal.zip > ../../../../escaped.ipynb"
    assert run.by_student["packed"].file == "twice packed.zip > inside.zip > a.ipynb"

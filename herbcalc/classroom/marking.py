"""Marking: clean copies of what was handed in run under nbval, and their answers are judged here.

A clean copy holds a start cell, the student's answer cells, and after each a cell that sends the
answer out as plain data. It runs in a sandbox (`sandbox`, `running`); what comes back is text.
Here, outside, with the class secret, it is read as an answer and judged: whatever the code in the
copy did, all it can bring about is another answer.

Each outcome is stored at once under a digest of the file, the student and the questions, so a
run that was stopped goes on where it was and nothing is marked twice. A stored outcome depends
on nothing else, so it does not matter which of two runs writes it.
"""

from __future__ import annotations

import hashlib
import json
import math
import os
import re
import subprocess
import sys
import tempfile
import time
import unicodedata
from collections import defaultdict, deque
from collections.abc import Callable, Mapping
from contextlib import contextmanager
from dataclasses import asdict, dataclass, replace
from datetime import datetime
from pathlib import Path

import herbcalc
from herbcalc import places
from herbcalc.classroom import sandbox
from herbcalc.classroom.checking import Outcome, Verdict, judge, judge_calls
from herbcalc.classroom.inside.plain import LONGEST
from herbcalc.classroom.numbers import Drawn, calls
from herbcalc.classroom.outcomes import (
    Answer,
    Outcomes,
    Result,
    Return,
    Unmarked,
    read_answer,
    save_outcomes,
)
from herbcalc.classroom.questions import Explain, Function, Question
from herbcalc.classroom.roster import ClassFile
from herbcalc.classroom.sandbox import Limits
from herbcalc.classroom.taking_in import TakenIn, printable, take_in
from herbcalc.classroom.topics import Topic, find_topic
from herbcalc.files import write_whole

__all__ = ["OUTCOMES", "mark"]

OUTCOMES = "outcomes.json"
EDITION = 1  # of this module's judging: another one marks everything anew
_KERNEL = "herbcalc-marking"
_A_SESSION = 25  # returns in one run of pytest: it keeps something of each until its end
_TRIES = 1  # more, for a return in whose run not the return but the running failed
_LONGEST_SENTENCE = 400
_LONGEST_BASE = 65  # characters: the name of a socket may have 107, with ours below it

Progress = Callable[[int, int, float | None], None]


def mark(room: ClassFile, returns: str | Path, marks: str | Path, limits: Limits = Limits(),
         sandboxed: bool = True, workers: int | None = None, again: bool = False,
         progress: Progress = lambda done, of, left: None) -> Outcomes:
    """Mark everything in a folder of returns.

    Parameters
    ----------
    room : ClassFile
    returns : path
        a folder, with anything in it, or a zip
    marks : path
        folder for the outcomes: ``outcomes.json``, and in ``stored`` what a next run can use
    limits : Limits
        for one return
    sandboxed : bool
        False runs what students wrote with all the rights of whoever calls this
    workers : int
        returns run at the same time; as many as there are processors when nothing is said
    again : bool
        forget what is stored, and mark everything anew
    progress : callable
        told now and then: how many are done, of how many, and the seconds left or None

    Returns
    -------
    Outcomes
        also written to ``outcomes.json``

    Raises
    ------
    ValueError
        when there is no sandbox to be had, or nothing to mark.
    OSError
        when the outcomes cannot be written.
    """
    marks = Path(marks)
    if sandboxed:
        trouble = sandbox.trouble() or _in_sight(room, Path(returns), marks)
        if trouble:
            raise ValueError(trouble)
    elif sys.platform == "win32":
        raise ValueError("Marking does not run on Windows itself: run it in WSL, the Linux within "
                         "Windows.")
    taken, unmarked = take_in(room, returns)
    (marks / "stored").mkdir(parents=True, exist_ok=True)
    for path in (marks / "stored").glob("*.json") if again else ():
        path.unlink(missing_ok=True)
    store = _Store(room, marks / "stored")
    jobs = {}
    for one in taken:
        name = store.name(one)
        if name not in jobs and store.load(name) is None:
            jobs[name] = _Job(name, one, store.topics[one.homework])
    progress(0, len(jobs), None)
    trouble = _run_all(room, store, jobs, limits, sandboxed, workers or _processors(), progress)
    outcomes = _outcomes(room, store, taken, unmarked, trouble)
    save_outcomes(marks / OUTCOMES, outcomes)
    return outcomes


def _in_sight(room, *paths) -> str:
    for path in (room.folder, *paths):
        if sandbox.visible(path):
            return (f"{path} lies in a folder of Python's or of the system's, which students' code "
                    "could read: keep the class somewhere else.")
    return ""


def _processors() -> int:
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


# --- what is stored ------------------------------------------------------------------------------


class _Store:
    """Outcomes by the digest of what they depend on."""

    def __init__(self, room: ClassFile, folder: Path):
        self._room, self._folder, self._loaded = room, folder, {}
        self.topics = {one.homework: find_topic(one.homework) for one in room.assignments}
        self._questions = {
            name: hashlib.sha256((places.exercises() / name / "questions.py").read_bytes()).digest()
            for name in self.topics
        }
        self.drawn = {}

    def name(self, one: TakenIn) -> str:
        parts = (f"{herbcalc.__version__} {EDITION}".encode(), one.content.encode(), one.homework.encode(),
                 self._room.key(one.student).encode(), self._questions[one.homework])
        return hashlib.sha256(b"\0".join(parts)).hexdigest()[:40]

    def load(self, name) -> tuple[Answer, ...] | None:
        if name not in self._loaded:
            try:
                text = (self._folder / f"{name}.json").read_text(encoding="utf-8")
                self._loaded[name] = tuple(read_answer(one) for one in json.loads(text))
            except (OSError, ValueError, KeyError, TypeError):  # not there, or not whole
                return None
        return self._loaded[name]

    def save(self, name, answers: tuple[Answer, ...]) -> None:
        text = json.dumps([asdict(answer) for answer in answers], indent=1, ensure_ascii=False)
        write_whole(self._folder / f"{name}.json", text + "\n")
        self._loaded[name] = answers


# --- clean copies --------------------------------------------------------------------------------

_START = "import herbcalc as hc\nimport numpy as np"


@dataclass(frozen=True)
class _Job:
    """One return on its way: what is to be run, and what has come back so far.

    `left_out` is the question whose lines ended everything the first time, `captured` what had
    come back by then, and `tries` counts runs that failed through no fault of the return.
    """

    name: str
    taken: TakenIn
    topic: Topic
    left_out: str = ""
    captured: Mapping[str, dict] | None = None
    tries: int = 0

    def plan(self) -> list[tuple[str, str, str]]:
        """The cells of the clean copy: (what it is, question, source or none)."""
        plan = [("start", "", _START)]
        for cell in self.taken.cells:
            if cell.question and cell.question == self.left_out:
                continue
            plan.append(("answer" if cell.question else "own", cell.question, cell.source))
            if cell.question:
                plan.append(("capture", cell.question, ""))
        return plan

    def answered(self) -> set[str]:
        return {cell.question for cell in self.taken.cells} - {""}


def _clean_copy(room, job) -> str:
    cells = []
    for number, (what, name, source) in enumerate(job.plan()):
        if what == "capture":
            source = _capture(room, job, job.topic.question(name))
        cells.append({"cell_type": "code", "id": f"cell-{number}", "metadata": {},
                      "source": source, "execution_count": None, "outputs": []})
    return json.dumps({"cells": cells, "metadata": {}, "nbformat": 4, "nbformat_minor": 5})


def _capture(room, job, question) -> str:
    if isinstance(question, Function):
        return f"_capture.calls({json.dumps(_tried(room, job, question))!r})"
    return "_capture.value()"


def _tried(room, job, question) -> tuple[dict, ...]:
    """Calls that the student has not seen: other than those in the notebook's own check."""
    student = job.taken.student
    return calls(question, room.key(student), job.topic.name, room.key(f"calls of {student}"))


# --- running them --------------------------------------------------------------------------------


@dataclass
class _Session:
    """One run of pytest over some clean copies."""

    process: subprocess.Popen
    folder: Path
    waiting: dict[str, _Job]
    read: int = 0
    heard: float = 0.0

    def lines(self) -> list[dict]:
        """What has been written since the last look, whole lines only."""
        try:
            with open(self.folder / "results.jsonl", "rb") as file:
                file.seek(self.read)
                fresh = file.read()
        except OSError:
            return []
        fresh = fresh[:fresh.rfind(b"\n") + 1]
        self.read += len(fresh)
        return [json.loads(line) for line in fresh.splitlines()]

    def end(self) -> None:
        """Make sure that it is over; the kernel in it ends with it."""
        if self.process.poll() is None:
            self.process.kill()
        self.process.wait()
        self.process.stdin.close()


def _run_all(room, store, jobs, limits, sandboxed, workers, progress) -> dict[str, str]:
    """Run and judge every job; returns why some could not be run, by name of the job."""
    trouble, total, start, sessions = {}, len(jobs), time.monotonic(), []
    ready = deque()
    for job in jobs.values():
        if job.answered():
            ready.append(job)
        else:
            store.save(job.name, _judged(room, store, job, {}, limits))
    done = total - len(ready)
    size = max(1, min(_A_SESSION, math.ceil(len(ready) / workers)))
    with _work_folder(limits, sandboxed) as work:
        try:
            while ready or sessions:
                while ready and len(sessions) < workers:
                    first = ready.popleft()
                    some = [first]
                    while ready and len(some) < (1 if first.tries else size):
                        some.append(ready.popleft())
                    sessions.append(_begin(room, work, some, limits))
                time.sleep(0.03)
                for session in list(sessions):
                    over = session.process.poll() is not None or _silent(session, limits)
                    for line in session.lines():
                        session.heard = time.monotonic()
                        job = session.waiting.pop(line["notebook"], None)
                        if job is None:
                            continue
                        again = _take(room, store, job, line, limits)
                        if again and again.tries <= _TRIES:
                            ready.append(again)
                            continue
                        if again:
                            trouble[job.name] = "no kernel could be started for it"
                        done += 1
                        progress(done, total, _left(start, done, total))
                    if over:
                        sessions.remove(session)
                        session.end()
                        for job in session.waiting.values():  # what it did not get to
                            if job.tries < _TRIES:
                                ready.append(replace(job, tries=job.tries + 1))
                                continue
                            trouble[job.name] = _last_words(session)
                            done += 1
                        sandbox.remove(session.folder)
        finally:
            for session in sessions:
                session.end()
    return trouble


def _left(start, done, total) -> float | None:
    return (time.monotonic() - start) / done * (total - done) if done else None


def _silent(session, limits) -> bool:
    """Whether pytest itself hangs: each return comes to an end well before this."""
    return time.monotonic() - session.heard > limits.seconds + limits.cell_seconds + 90


def _begin(room, work, jobs, limits) -> _Session:
    folder = Path(tempfile.mkdtemp(prefix="s", dir=work))
    (folder / "pytest.ini").write_text("[pytest]\n", encoding="utf-8")
    waiting = {}
    for number, job in enumerate(jobs):
        waiting[f"{number:03}"] = job
        (folder / f"{number:03}.ipynb").write_text(_clean_copy(room, job), encoding="utf-8")
    command = [
        sys.executable, "-m", "pytest", "-p", "herbcalc.classroom.running", "-p", "nbval.plugin",
        "-p", "no:cacheprovider", "--nbval-lax", f"--nbval-kernel-name={_KERNEL}",
        f"--nbval-cell-timeout={limits.cell_seconds}", "--capture=no", "--tb=no", "-q", "-c",
        "pytest.ini", f"--rootdir={folder}", *(f"{name}.ipynb" for name in waiting),
    ]
    with open(folder / "log.txt", "wb") as log:
        process = subprocess.Popen(
            command, cwd=folder, env=_environment(work, folder), stdin=subprocess.PIPE, stdout=log,
            stderr=subprocess.STDOUT, start_new_session=True,  # Ctrl+C is for this process alone
        )
    return _Session(process, folder, waiting, heard=time.monotonic())


def _environment(work, folder) -> dict[str, str]:
    kept = {name: value for name, value in os.environ.items()
            if not name.startswith(("PYTEST_", "JUPYTER", "JPY_", "IPYTHON", "NBVAL"))}
    return kept | {
        sandbox.RESULTS: str(folder / "results.jsonl"),
        "PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1", "JUPYTER_PATH": str(work),
        "JUPYTER_DATA_DIR": str(work), "JUPYTER_CONFIG_DIR": str(work),
        "JUPYTER_RUNTIME_DIR": str(work), "IPYTHONDIR": str(work / "ipython"),
        "JUPYTER_PLATFORM_DIRS": "1", "TMPDIR": str(work),
    }


def _last_words(session) -> str:
    try:
        with open(session.folder / "log.txt", encoding="utf-8", errors="replace") as file:
            said = [line.strip() for line in file if line.strip()]
    except OSError:
        said = []
    return printable(said[-1] if said else "it ended without a word")


@contextmanager
def _work_folder(limits, sandboxed):
    """A folder for everything that is only needed while marking, with the kernel's description.

    It is held by a lock that ends with this process, however it ends: folders without a holder
    are what is left of a run that was killed, and are removed.
    """
    import fcntl

    prefix = "herbcalc-marking-"
    base = tempfile.gettempdir()
    base = base if len(base) <= _LONGEST_BASE else "/tmp"
    for left in Path(base).glob(f"{prefix}*"):
        try:
            with open(left / "lock", "rb+") as lock:
                fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
                sandbox.remove(left)
        except OSError:  # another run's, or another person's
            continue
    work = Path(tempfile.mkdtemp(prefix=prefix, dir=base))
    try:
        with open(work / "lock", "wb") as lock:
            fcntl.flock(lock, fcntl.LOCK_EX)
            about = {
                "argv": ["python"], "display_name": "Marking", "language": "python",
                "interrupt_mode": "message",
                "metadata": {"kernel_provisioner": {
                    "provisioner_name": "herbcalc-sandbox",
                    "config": {"limits": asdict(limits), "sandboxed": sandboxed},
                }},
            }
            kernel = work / "kernels" / _KERNEL
            kernel.mkdir(parents=True)
            (kernel / "kernel.json").write_text(json.dumps(about), encoding="utf-8")
            yield work
    finally:
        sandbox.remove(work)


# --- judging what came back ----------------------------------------------------------------------


_NEVER = "never"  # in place of an error: these lines were not reached


def _take(room, store, job, line, limits) -> _Job | None:
    """Judge what one run of a clean copy brought; or the same job, to be run once more."""
    ended = {cell["cell"]: cell for cell in line["cells"]}
    if ended.get(0, {"error": True}).get("error"):  # the start cell: nothing of theirs has run
        return replace(job, tries=job.tries + 1)
    found, culprit = _came_back(job.plan(), ended, line["stopped"])
    if job.left_out:  # the second time: the rest is known from the first
        first = dict(job.captured)
        found = {name: found[name] if came["error"] == _NEVER else came
                 for name, came in first.items()}
    elif culprit and any(came["error"] == _NEVER for came in found.values()):
        # Whatever stands after the lines that ended everything gets a run without them.
        return replace(job, captured=found, left_out=culprit)
    store.save(job.name, _judged(room, store, job, found, limits))
    return None


def _came_back(plan, ended, stopped) -> tuple[dict[str, dict], str]:
    """By question what came of its cells, and the question that ended everything, if any did."""
    errors = [ended.get(number, {}).get("error", ["gone", ""] if number not in ended else None)
              for number in range(len(plan))]
    gone = next((n for n, error in enumerate(errors) if error and error[0] == "gone"), len(plan))
    last = gone - 1 if gone < len(plan) and (errors[gone - 1] or [""])[0] == "timeout" else gone
    culprit = next((name for _, name, _ in plan[last:] if name), "")
    found = {}
    for number, (what, name, _) in enumerate(plan):
        if what == "answer":
            error = _NEVER if number > last and name != culprit else errors[number]
            found[name] = {"error": error, "stopped": "", "sent": None}
        elif what == "capture":
            found[name]["sent"] = ended.get(number, {}).get("captured")
    if culprit:
        found[culprit] |= {"stopped": stopped,
                           "error": found[culprit]["error"] or ["gone", ""]}
    return found, culprit


def _judged(room, store, job, found, limits) -> tuple[Answer, ...]:
    key = (job.taken.student, job.topic.name)
    if key not in store.drawn:
        store.drawn.clear()  # one student's at a time
        store.drawn[key] = job.topic.drawn(room.key(job.taken.student))
    return tuple(
        _answer(room, job, question, store.drawn[key][question.name],
                found.get(question.name), limits)
        for question in job.topic.homework
    )


def _answer(room, job, question: Question, drawn: Drawn, came, limits) -> Answer:
    blank = Answer(question.name, Result.BLANK, 0.0, float(question.marks),
                   "Nothing is written here yet.", optional=question.optional)
    if question.name in job.taken.missing:
        return replace(blank, sentence="Its answer cell is gone from the notebook.")
    if came is None:
        return blank
    sent = _read(came["sent"])
    broke = _why_broke(came, limits)
    if sent.get("results") is not None and isinstance(question, Function):
        return _judged_calls(room, job, question, blank, sent["results"])
    if "value" not in sent:
        return replace(blank, outcome=Result.BROKE, sentence=broke) if broke else replace(
            blank, sentence="Its lines set no answer.")
    verdict = judge(question, drawn, sent["value"])
    if verdict.outcome is Outcome.BLANK and broke:
        return replace(blank, outcome=Result.BROKE, sentence=broke)
    answer = _as_answer(blank, question, verdict)
    return replace(answer, given=_shown(sent["value"]), text=_text(question, sent["value"]))


def _judged_calls(room, job, question, blank, results) -> Answer:
    tried = _tried(room, job, question)
    results = results if isinstance(results, list) else []
    results = [one if isinstance(one, dict) else {} for one in results[:len(tried)]]
    for values, one in zip(tried, results):
        if "error" in one:
            asked = ", ".join(f"{name} = {value}" for name, value in values.items())
            return replace(blank, outcome=Result.BROKE, given="a function", sentence=(
                f"For {asked} your function stopped: {printable(str(one['error']), 60)}."))
    verdict = judge_calls(question, tried, [one.get("value") for one in results])
    return replace(_as_answer(blank, question, verdict), given="a function")


_RESULTS = {Outcome.RIGHT: Result.RIGHT, Outcome.CLOSE: Result.PARTLY, Outcome.TURN: Result.TURN,
            Outcome.WRITTEN: Result.WRITTEN, Outcome.BLANK: Result.BLANK}


def _as_answer(blank, question, verdict: Verdict) -> Answer:
    result = _RESULTS.get(verdict.outcome, Result.PARTLY if verdict.marks else Result.WRONG)
    return replace(
        blank, outcome=result, marks=round(verdict.marks * question.marks, 3),
        sentence=printable(" ".join(verdict.sentence.split()), _LONGEST_SENTENCE),
        turn=printable(verdict.turn, _LONGEST_SENTENCE),
    )


def _read(sent) -> dict:
    """What a capture cell sent. Anybody may have sent it, so nothing in it is believed."""
    try:
        found = json.loads(sent) if isinstance(sent, str) else {}
    except (ValueError, RecursionError):
        return {}
    return found if isinstance(found, dict) else {}


def _why_broke(came, limits) -> str:
    """Why the lines of an answer did not come to their end; empty when they did."""
    error = came["error"]
    if came["stopped"]:
        return f"Its lines were stopped: {came['stopped']}."
    if not error:
        return ""
    if error == _NEVER:
        return "It was not reached: an answer before it had stopped everything."
    name, words = error
    if name == "timeout":
        return f"Its lines did not come to an end in {limits.cell_seconds:g} seconds."
    if name == "gone":
        return "Python itself stopped there."
    said = f"{printable(name, 60)}: {printable(words, 120)}".rstrip(":. ")
    return f"Its lines stopped with an error: {said}."


def _shown(value) -> str:
    """An answer in one line."""
    if value is None:
        return ""
    if isinstance(value, dict) and set(value) == {"?"}:
        return f"a {printable(str(value['?']), 40)}"
    text = value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)
    return printable("; ".join(text.strip().split("\n")), 120)


def _text(question, value) -> str:
    """What was written, without the characters that could turn or hide what stands around it."""
    if not isinstance(question, Explain) or not isinstance(value, str):
        return ""
    return "".join(c for c in value[:LONGEST].strip() if c in "\n\t" or not (
        unicodedata.category(c) in ("Cc", "Cs") or c in _TURNING))


_TURNING = "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"


# --- all together --------------------------------------------------------------------------------


def _outcomes(room, store, taken, unmarked, trouble) -> Outcomes:
    returns, failed = [], []
    for one in taken:
        answers = store.load(store.name(one))
        if answers is None:
            why = trouble.get(store.name(one), "")
            failed.append(Unmarked(one.file, f"It could not be run: {why}.", one.student,
                                   one.homework))
            continue
        due = room.assignment(one.homework).due
        returns.append(Return(one.student, one.homework, one.file, one.when.isoformat(),
                              due is not None and one.when > due, False, one.content, answers,
                              one.notes))
    tries = defaultdict(list)
    for one in returns:
        tries[one.homework, one.student].append(one)
    ordered = []
    for _, some in sorted(tries.items()):
        some.sort(key=_newness)
        some[-1] = replace(some[-1], counts=True)
        ordered += [replace(one, notes=(*one.notes, *_among(one, some))) for one in some]
    return Outcomes(room.title, room.codes, tuple(one.homework for one in room.assignments),
                    tuple(ordered), tuple(sorted((*unmarked, *failed), key=lambda u: u.file)))


_COPY = re.compile(r"\((\d{1,4})\)\.\w+$")


def _newness(one: Return):
    """The newest last; of two of the same moment (zips know it to 2 seconds) the higher copy."""
    moment = datetime.fromisoformat(one.when)
    copy = _COPY.search(one.file)
    return (moment.replace(second=moment.second // 2 * 2), int(copy[1]) if copy else 0, one.file)


def _among(one, some) -> list[str]:
    """What there is to say of a return among all of the same student."""
    others = [other for other in some if other is not one]
    if not others:
        return []
    same = [other.file for other in others if other.content == one.content]
    if len(same) == len(others):
        return [f"It is there twice: {same[0]} is the same file."]
    notes = [f"There are {len(some)} returns with this identity; the newest counts."]
    if len({other.file.rpartition("/")[0] for other in some}) > 1:
        notes.append("They come from different folders: is one of them somebody else's?")
    return notes

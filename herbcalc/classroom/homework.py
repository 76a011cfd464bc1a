"""The student's side of a homework: open it, check an answer, see how far one has come.

In the notebook each question has an answer line, which the student edits, and under it a folded
cell ``homework.check("its-name")``. The check *takes* the answer: what was written for one
question can never be judged as the answer to the next.
"""

from __future__ import annotations

import html
import json
import os
import sys
from collections import defaultdict
from dataclasses import dataclass
from pathlib import Path

from herbcalc.classroom.answers import plain
from herbcalc.classroom.checking import Outcome, Verdict, judge, judge_calls, worked_path
from herbcalc.classroom.handing_in import RUN_LOG, Report, before_handing_in, find_notebook
from herbcalc.classroom.inside.written import AsWritten, as_written
from herbcalc.classroom.numbers import OPEN_SECRET, SELF_STUDY, calls, student_key
from herbcalc.classroom.questions import Function
from herbcalc.classroom.text import to_html, to_plain
from herbcalc.classroom.topics import Topic, find_topic
from herbcalc.kitchen import convert, find_unit

__all__ = ["Feedback", "Homework", "as_written", "open_homework"]

# Shape and words carry the meaning; the colour only helps.
LOOKS = {
    Outcome.RIGHT: ("✓", "Right", "#00545c"),
    Outcome.CLOSE: ("≈", "Close", "#dfa52b"),
    Outcome.TURN: ("↺", "Look again", "#dfa52b"),
    Outcome.NOT_YET: ("○", "Not yet", "#8a8a8a"),
    Outcome.WRITTEN: ("✎", "Written", "#00545c"),
    Outcome.BLANK: ("…", "Blank", "#8a8a8a"),
    Outcome.UNREADABLE: ("?", "Not counted", "#8a8a8a"),
}
_MISSES = (Outcome.CLOSE, Outcome.TURN, Outcome.NOT_YET)
_MARKS = {Outcome.RIGHT: "●", Outcome.WRITTEN: "●", Outcome.CLOSE: "◐"}
_NOTHING = object()


def open_homework(
    number: str | int, student: str = SELF_STUDY, key: str = "", numbers: str = ""
) -> Homework:
    """Open a homework in a notebook: the first cell of each.

    Parameters
    ----------
    number : str or int
        of the lesson: "02"
    student : str
        student code; left out for self-study
    key : str
        the student's key, as handed out; left out for self-study
    numbers : str
        checksum of the numbers printed in the notebook; empty is not compared

    Raises
    ------
    ValueError
        when there is no such homework, or when it does not belong to the numbers printed.

    Examples
    --------
    >>> homework = open_homework("02")
    >>> homework.topic.title
    'Diluting'
    """
    topic = find_topic(number)
    if not topic.homework:
        raise ValueError(f"Lesson {topic.number} has no homework yet.")
    if student != SELF_STUDY and not key:
        raise ValueError(
            f"This homework says it is {student}'s but the key is missing: open the notebook as "
            "your teacher handed it out."
        )
    homework = Homework(topic, student, key or student_key(OPEN_SECRET, SELF_STUDY))
    if numbers and numbers != topic.checksum(homework.key):
        raise ValueError(
            "The numbers printed in this notebook are not those of the course installed here: one "
            "of the two is older. Ask your teacher for a fresh copy; nothing you wrote is lost."
        )
    shell = _shell()
    if shell is not None:
        # pint loads now, while the homework opens, so that every check answers at once.
        convert(1, find_unit("L"), find_unit("mL"))
        transformers = shell.input_transformers_cleanup
        # Opening it again must not stack one upon the other.
        transformers[:] = [t for t in transformers if not isinstance(t, AsWritten)]
        transformers.append(AsWritten(shell))
    return homework


class Homework:
    """One student's homework while the notebook is open.

    Parameters
    ----------
    topic : Topic
    student : str
    key : str
    """

    def __init__(self, topic: Topic, student: str, key: str):
        self.topic, self.student, self.key = topic, student, key
        self.drawn = topic.drawn(key)
        self._answers: dict[str, object] = {}  # the last answer to each, as plain data
        self._verdicts: dict[str, Verdict] = {}
        self._missed: dict[str, list] = defaultdict(list)  # answers that were not right

    def check(self, name: str, answer=_NOTHING) -> Feedback:
        """Judge the answer to one question.

        Parameters
        ----------
        name : str
            of the question
        answer : optional
            left out in a notebook: the variable ``answer`` is taken

        Returns
        -------
        Feedback
            which a notebook shows as a small card

        Examples
        --------
        >>> open_homework("02").check("pure-alcohol", None).verdict.outcome
        <Outcome.BLANK: 'blank'>
        """
        question = self.topic.question(name)
        if answer is _NOTHING:
            answer = self._take()
        if answer is _NOTHING:
            if name not in self._verdicts:
                return self._feedback(question, Verdict(
                    Outcome.BLANK, "Run the answer line above first: click on it, Shift+Enter."
                ))
            return self._feedback(question, self._verdicts[name])
        if isinstance(question, Function) and callable(answer):
            verdict, kept = self._try(question, answer), "a function"
        else:
            kept = plain(answer)
            verdict = judge(question, self.drawn[name], kept)
        self._answers[name], self._verdicts[name] = kept, verdict
        miss = (kept, verdict.sentence)  # of two functions only what is said to them differs
        if verdict.outcome in _MISSES and miss not in self._missed[name]:
            self._missed[name].append(miss)
        self._log(name, verdict)
        return self._feedback(question, verdict)

    def outcome(self, name: str) -> str:
        """How the last answer to a question came out, in one word ("blank" before any).

        >>> open_homework("02").outcome("pure-alcohol")
        'blank'
        """
        verdict = self._verdicts.get(self.topic.question(name).name)
        return str(verdict.outcome if verdict else Outcome.BLANK)

    @property
    def progress(self) -> str:
        """How far one has come, in one line.

        >>> open_homework("02").progress[-12:]
        '0 of 8 right'
        """
        asked = [question for question in self.topic.homework if not question.optional]
        outcomes = [Outcome(self.outcome(question.name)) for question in asked]
        right = sum(outcome is Outcome.RIGHT for outcome in outcomes)
        automatic = sum(question.automatic for question in asked)
        line = "".join(_MARKS.get(outcome, "○") for outcome in outcomes)
        words = f"{line}  {right} of {automatic} right"
        if any(outcome is Outcome.WRITTEN for outcome in outcomes):
            words += ", and your own words are written"
        return words

    def before_handing_in(self, file: str | Path | None = None) -> Report:
        """Run the saved notebook from top to bottom and say whether everything still holds.

        Parameters
        ----------
        file : path, optional
            of the notebook, where it is not found by itself
        """
        if RUN_LOG in os.environ:  # this very check is running the notebook
            return Report(True, "This cell is left out when the notebook is run to check it.")
        try:
            path = Path(file) if file else find_notebook(self.topic.name, _shell())
            return before_handing_in(path, session=dict(self._answers))
        except ValueError as error:
            return Report(False, str(error))

    def __repr__(self):
        return f"Homework {self.topic.number}, {self.topic.title}: {self.student}. {self.progress}"

    def _repr_html_(self):
        say_it = html.escape
        return (
            f"<p><strong>Homework {self.topic.number} · {say_it(self.topic.title)}</strong> "
            f"is open for {say_it(self.student)}. {say_it(self.progress)}</p>"
        )

    def _take(self):
        shell = _shell()
        return _NOTHING if shell is None else shell.user_ns.pop("answer", _NOTHING)

    def _try(self, question, function) -> Verdict:
        tried = calls(question, self.key, self.topic.name)
        results = []
        for values in tried:
            try:
                results.append(function(**values))
            except Exception as error:
                asked = ", ".join(f"{name} = {value}" for name, value in values.items())
                return Verdict(Outcome.NOT_YET, f"For {asked} your function stopped: "
                                                f"{type(error).__name__}: {str(error)[:200]}")
        return judge_calls(question, tried, results)

    def _feedback(self, question, verdict) -> Feedback:
        worked = again = ""
        if verdict.outcome is Outcome.RIGHT:
            worked = worked_path(question, self.drawn[question.name])
        elif verdict.outcome in _MISSES and len(self._missed[question.name]) > 1:
            again = f"Read again in lesson {self.topic.number}: “{question.section}”."
        return Feedback(verdict, worked, again, self.progress)

    def _log(self, name, verdict):
        log = os.environ.get(RUN_LOG)
        if log:
            line = {"question": name, "outcome": verdict.outcome, "answer": self._answers[name]}
            with open(log, "a", encoding="utf-8") as file:
                file.write(json.dumps(line) + "\n")


@dataclass(frozen=True)
class Feedback:
    """What is shown under an answer.

    Parameters
    ----------
    verdict : Verdict
    worked : str
        the worked path, once it is right
    again : str
        what to read again, after the second miss
    progress : str
    """

    verdict: Verdict
    worked: str = ""
    again: str = ""
    progress: str = ""

    def __repr__(self):
        sign, word, _ = LOOKS[self.verdict.outcome]
        lines = [f"{sign} {word}. {_without(word, self.verdict.sentence)}".strip()]
        lines += [f"  {label}: {_row(one)}" for label, one in self.verdict.rows]
        lines += [to_plain(part) for part in (self.again, self.worked, self.progress) if part]
        return "\n".join(lines)

    def _repr_html_(self):
        sign, word, colour = LOOKS[self.verdict.outcome]
        said = _without(word, self.verdict.sentence)
        parts = [f"<p style='margin:0'><strong>{sign} {word}.</strong> {to_html(said)}</p>"]
        if self.verdict.rows:
            parts.append("<ul style='margin:.4em 0'>" + "".join(
                f"<li><strong>{html.escape(label)}</strong>: {to_html(_row(one))}</li>"
                for label, one in self.verdict.rows
            ) + "</ul>")
        if self.again:
            parts.append(f"<p style='margin:.4em 0 0'>→ {to_html(self.again)}</p>")
        if self.worked:
            parts.append("<p style='margin:.6em 0 0'><strong>The way there</strong></p>"
                         f"<p style='margin:.2em 0 0'>{to_html(self.worked)}</p>")
        if self.progress:
            parts.append(f"<p style='margin:.6em 0 0;opacity:.8'>{html.escape(self.progress)}</p>")
        return (
            f"<div role='status' style='border-left:6px solid {colour};padding:.5em 1em;"
            f"max-width:44em;line-height:1.45'>{''.join(parts)}</div>"
        )

    def _repr_mimebundle_(self, include=None, exclude=None):
        # The outcome goes into the saved notebook beside the card: the check before handing in
        # compares it with a fresh run.
        return (
            {"text/plain": repr(self), "text/html": self._repr_html_()},
            {"herbcalc": {"outcome": str(self.verdict.outcome)}},
        )


def _without(word, sentence) -> str:
    """The sentence without the word that already heads the card."""
    return sentence.removeprefix(f"{word}.").removeprefix(f"{word}:").strip()


def _row(verdict) -> str:
    sign, word, _ = LOOKS[verdict.outcome]
    if verdict.outcome in (Outcome.RIGHT, Outcome.BLANK, Outcome.NOT_YET):
        return f"{sign} {word.lower()}"
    return f"{sign} {verdict.sentence}"


def _shell():
    """The running IPython, or None; nobody is in a notebook who has not loaded it."""
    ipython = sys.modules.get("IPython")
    return ipython.get_ipython() if ipython else None

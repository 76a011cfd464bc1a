"""The self-check at the end of a lesson: three questions on one panel, answered at once.

The questions stand in ``exercises/NN-topic/questions.py`` (``self_check``) and are judged by the
same code as the homework, with the numbers of self-study.
"""

from __future__ import annotations

import html
import os
from dataclasses import replace
from pathlib import Path

import anywidget
import traitlets

from herbcalc.classroom.homework import Homework
from herbcalc.classroom.numbers import SELF_STUDY, student_key
from herbcalc.classroom.questions import Choice, Number, say
from herbcalc.classroom.text import to_html, to_plain
from herbcalc.classroom.topics import find_topic

__all__ = ["SelfCheck", "self_check"]

_HERE = Path(__file__).parent
_LETTERS = "abcdefgh"


def self_check(number: str | int) -> SelfCheck:
    """The three questions of a lesson, with feedback.

    Parameters
    ----------
    number : str or int
        of the lesson: "02"

    Raises
    ------
    ValueError
        when the lesson has no self-check.

    Examples
    --------
    >>> self_check("02")
    SelfCheck('02-diluting', 3 questions)
    """
    topic = find_topic(number)
    if not topic.self_check:
        raise ValueError(f"Lesson {topic.number} has no self-check yet.")
    # For the student a self-check is a short homework: judged, hinted and counted alike.
    return SelfCheck(Homework(replace(topic, homework=topic.self_check), SELF_STUDY, student_key()))


class SelfCheck:
    """A lesson's questions as a panel; on paper, the questions alone.

    Parameters
    ----------
    homework : Homework
        of the questions to ask
    """

    title = "Check yourself"

    def __init__(self, homework: Homework):
        self.homework = homework
        self._widget = None

    def questions(self) -> list[dict]:
        """What is asked, ready for the page: name, kind, prompt, options, unit."""
        return [self._asked(question) for question in self.homework.topic.homework]

    def check(self, name: str, answer) -> dict:
        """Judge one answer; what the page shows of it."""
        feedback = self.homework.check(name, answer)
        return {"html": replace(feedback, progress="")._repr_html_(),
                "outcome": str(feedback.verdict.outcome)}

    def _asked(self, question) -> dict:
        drawn = self.homework.drawn[question.name]
        spec = {"name": question.name, "prompt": to_html(say(question.prompt, drawn.values))}
        if isinstance(question, Number):
            return spec | {"kind": "number", "unit": question.unit}
        texts = [to_html(say(question.options[i].text, drawn.values)) for i in drawn.order]
        return spec | {"kind": "one" if isinstance(question, Choice) else "some",
                       "options": [list(pair) for pair in zip(_LETTERS, texts)]}

    def still(self) -> str:
        """The questions as HTML for paper: boxes to tick and a line to write on, no answers."""
        parts = []
        for question in self.questions():
            parts.append(f"<li><p>{question['prompt']}</p>")
            if question["kind"] == "number":
                parts.append(f"<p>____________ {html.escape(question['unit'])}</p></li>")
                continue
            box = "◯" if question["kind"] == "one" else "☐"
            options = "".join(f"<li style='list-style:none'>{box} {text}</li>"
                              for _, text in question["options"])
            parts.append(f"<ul style='padding-left:1em'>{options}</ul></li>")
        return (f'<section class="herbcalc-still"><p><strong>{self.title}</strong></p>'
                f"<ol>{''.join(parts)}</ol></section>")

    def _plain(self) -> str:
        lines = [self.title]
        for place, question in enumerate(self.homework.topic.homework, start=1):
            drawn = self.homework.drawn[question.name]
            lines.append(f"{place}. {to_plain(say(question.prompt, drawn.values))}")
            if isinstance(question, Number):
                lines.append(f"   ____________ {question.unit}")
            else:
                lines += [f"   [ ] {to_plain(say(question.options[i].text, drawn.values))}"
                          for i in drawn.order]
        return "\n".join(lines)

    @property
    def widget(self):
        """The live front end (made when first asked for)."""
        if self._widget is None:
            self._widget = _Front(self)
        return self._widget

    def _repr_mimebundle_(self, **kwargs):
        bundle = {"text/plain": self._plain(), "text/html": self.still()}
        if os.environ.get("HERBCALC_STILLS") == "1":
            return bundle
        data, metadata = self.widget._repr_mimebundle_(**kwargs)
        return data | bundle, metadata

    def __repr__(self):
        topic = self.homework.topic
        return f"SelfCheck({topic.name!r}, {len(topic.homework)} questions)"


class _Front(anywidget.AnyWidget):
    """The questions on the page: an answer is sent, what is said to it comes back."""

    _esm = _HERE / "selfcheck.js"
    _css = (_HERE.parent / "panel.css").read_text(encoding="utf-8") + (
        _HERE / "selfcheck.css").read_text(encoding="utf-8")

    spec = traitlets.Dict().tag(sync=True)
    said = traitlets.Dict().tag(sync=True)  # by question: the card, and the count of answers
    progress = traitlets.Unicode().tag(sync=True)

    def __init__(self, selfcheck: SelfCheck):
        self._selfcheck = selfcheck
        super().__init__(
            spec={"title": selfcheck.title, "questions": selfcheck.questions()},
            progress=selfcheck.homework.progress,
        )
        self.on_msg(self._asked)

    def _asked(self, _, content, buffers):
        name = content.get("check")
        if name not in self._selfcheck.homework.drawn:
            return
        card = self._selfcheck.check(name, content.get("answer"))
        count = self.said.get(name, {}).get("count", 0) + 1  # the same words are said again too
        with self.hold_sync():
            self.said = self.said | {name: card | {"count": count}}
            self.progress = self._selfcheck.homework.progress

"""Every lesson in JupyterLab, top to bottom, with every control of every panel at its ends.

A picture must change where a control moved, and the sentence must be one a student can use: no
"nan", no number without its unit, no more digits than the bench can measure.
"""

import re

import pytest
from browser import kernel_errors, open_lesson, panel_state, panels, run_all

from herbcalc import lessons

NAMES = [lesson.path.stem for lesson in lessons.lessons()]

# A number is fine when a unit or a counted thing follows, when it is a ratio (1:5) or part of a
# date, or when the word before it names a scale that has no unit.
_NUMBER = re.compile(r"(?<![\w.:-])\d+(?:[.,]\d+)?(?![\w:.-]*\d)")
_UNITLESS = re.compile(r"\b(pH|activity|Kow|ratio|batch|No\.|lesson|ISO|CFR|CPG|Sec\.)[^.;]{0,60}$")


def faults_of(sentence: str) -> list[str]:
    """What is wrong with an outcome sentence."""
    wrong = []
    said = sentence.replace("\u00a0", " ").replace("\u202f", " ")
    if re.search(r"\b(nan|NaN|inf|None(?! can)|null|undefined)\b", said):
        wrong.append("not a number")
    if not said.strip().endswith((".", "?", "!")):
        wrong.append("no whole sentence")
    for number in _NUMBER.finditer(said):
        before, after = said[:number.start()], said[number.end():]
        if not re.match(r"\s?(%|°|[A-Za-zµ×/(])", after) and not _UNITLESS.search(before):
            wrong.append(f"{number[0]} without a unit")
        if re.match(r"\d+\.\d{3,}", number[0]) and not _UNITLESS.search(before):
            wrong.append(f"{number[0]} has too many digits")
        if re.match(r"\d+\.\d\d", number[0]) and re.match(r"\s?% vol", after):
            wrong.append(f"{number[0]} % vol is finer than any hydrometer")
        if re.match(r"\d{3,}\.\d", number[0]) and re.match(r"\s?(mL|g)\b", after):
            wrong.append(f"{number[0]} is finer than any kitchen scale or cylinder")
    return wrong


@pytest.mark.parametrize("sentence, count", [
    ("500 mL of spirit make 971 mL at 48.9 % vol.", 0),
    ("The jar stands at 1:11 and ends at 37 % vol.", 0),
    ("Keeps 6 to 12 months; water activity 0.85; pH 2.4.", 0),
    ("It ends at 37.", 1),
    ("It ends at nan % vol.", 1),
    ("Pour 421.05 mL of 95.25 % vol.", 2),
    ("Pour 421 mL", 1),
])
def test_the_sieve_for_sentences_can_fail(sentence, count):
    assert len(faults_of(sentence)) == count, faults_of(sentence)


def _ends(panel):
    """Every control of a panel, with its kind."""
    for kind, where in (("slider", "input[type=range]"), ("choice", "select"),
                        ("tick", "input[type=checkbox]")):
        for control in panel.locator(where).all():
            yield control, kind


def _do(panel, action):
    """Act as a hand would; -> the panel's state once it has answered."""
    before = panel.get_attribute("data-answered")
    action()
    panel.page.wait_for_function(
        "([node, before]) => node.dataset.answered !== before && node.dataset.waiting !== 'true'",
        arg=[panel.element_handle(), before])
    return (*panel_state(panel), panel.get_attribute("data-kind"))


def _move(panel, control, kind):
    """Move one control to each of its ends and back; -> the states at the ends."""
    if kind == "slider":
        value, low, high = control.evaluate(
            "(node) => [node.value, node.min, node.max].map(Number)")
        ends = [key for key, end in (("Home", low), ("End", high)) if value != end]
        seen = [_do(panel, lambda key=key: control.press(key)) for key in ends]
        _do(panel, lambda: control.evaluate(
            """(node, value) => { node.value = value;
               node.dispatchEvent(new Event("input", {bubbles: true})); }""", str(value)))
    elif kind == "choice":
        start = control.evaluate("(node) => node.selectedIndex")
        last = control.locator("option").count() - 1
        seen = [_do(panel, lambda index=index: control.select_option(index=index))
                for index in (0, last) if index != start]
        _do(panel, lambda: control.select_option(index=start))
    else:
        seen = [_do(panel, control.click), _do(panel, control.click)]
    return seen


@pytest.mark.browser
@pytest.mark.parametrize("name", NAMES)
def test_every_control_of_every_panel(page, course, name):
    open_lesson(page, course, name)
    run_all(page)
    for panel in panels(page):
        title = panel.locator(".hc-title").inner_text()
        start = panel_state(panel)
        assert faults_of(start.sentence) == [], (title, start.sentence)
        for control, kind in _ends(panel):
            label = control.evaluate("(node) => (node.labels[0] ?? node).outerHTML.slice(0, 200)")
            states = _move(panel, control, kind)
            pictures = {start.picture, *(picture for picture, _, _ in states)}
            # Where both ends are impossible the picture stays, and the sentence says why.
            refused = all(kind == "warning" for _, _, kind in states)
            assert len(pictures) > 1 or refused, f"{title}: nothing moves with {label}"
            for _, sentence, _ in states:
                assert sentence != start.sentence or len(pictures) > 1, (title, label)
                assert faults_of(sentence) == [], (title, label, sentence)
    assert kernel_errors(page) == []

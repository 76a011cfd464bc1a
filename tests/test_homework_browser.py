"""One whole homework in a real browser, as a student does it."""

import re

import pytest
from browser import kernel_errors, open_lesson, run_all

from herbcalc.classroom import (
    Function,
    Table,
    draw,
    find_topic,
    homework_notebook,
    model_answer,
    notebook_text,
    student_key,
)
from herbcalc.classroom.questions import call
from herbcalc.files import write_whole

TOPIC = find_topic("02")
KEY = student_key("an oak by the gate", "student-007")


@pytest.fixture
def homework(course, page):
    """The page with the homework of one student open and its first cell run."""
    name = "homework-02.ipynb"
    text = notebook_text(homework_notebook(TOPIC, "student-007", KEY))
    write_whole(course.folder / name, text)
    open_lesson(page, course, name)
    _cell(page, "open_homework").locator(".cm-content").click()
    page.keyboard.press("Shift+Enter")
    page.get_by_text("is open for student-007").wait_for()
    return page


def _cell(page, text):
    return page.locator(".jp-Notebook .jp-CodeCell").filter(has_text=text).first


def _answer(page, name, source):
    """Write an answer line, Shift+Enter twice; -> what the card under it says."""
    check = _cell(page, f'homework.check("{name}")')
    place = int(check.evaluate(
        "node => [...node.parentNode.querySelectorAll('.jp-Cell')].indexOf(node)"))
    line = page.locator(".jp-Notebook .jp-Cell").nth(place - 1)
    line.scroll_into_view_if_needed()
    line.locator(".cm-content").click()
    page.keyboard.press("Control+a")
    page.keyboard.insert_text(source)
    before = _count(check)
    page.keyboard.press("Shift+Enter")
    page.keyboard.press("Shift+Enter")
    for _ in range(300):
        if _count(check) > before and check.locator("[role=status]").count():
            break
        page.wait_for_timeout(100)
    return check.locator("[role=status]").inner_text()


def _count(check):
    shown = re.search(r"\d+", check.locator(".jp-OutputPrompt").first.inner_text()
                      if check.locator(".jp-OutputPrompt").count() else "")
    return int(shown[0]) if shown else 0


@pytest.mark.browser
def test_a_homework_from_the_first_wrong_turn_to_handing_in(homework):
    page = homework
    question = TOPIC.question("make-up")
    drawn = draw(question, KEY, TOPIC.name)
    turn = question.turns[0]

    said = _answer(page, "make-up", f"answer = {call(turn.value, drawn.values):.0f} mL  # mL")
    assert turn.hint in said and "Read again" not in said and "0 of 8 right" in said
    said = _answer(page, "make-up", "answer = 40,6  # mL")
    assert "with a point" in said
    said = _answer(page, "make-up", "answer = 3  # mL")
    assert "Not yet" in said and question.section in said

    asked = [q for q in TOPIC.homework if not q.optional]
    for done, one in enumerate(asked, start=1):
        answer = model_answer(one, draw(one, KEY, TOPIC.name))
        source = f"answer = {answer}"
        if isinstance(one, Table) or not one.automatic:
            source = f'answer = """\n{answer}\n"""'
        said = _answer(page, one.name, source)
        if one.automatic:
            assert "Right" in said and "The way there" in said
            assert f"{done} of 8 right" in said
        else:
            assert "Written" in said
    assert isinstance(TOPIC.homework[-1], Function)  # an extra, left out

    page.keyboard.press("Control+s")
    page.locator(".jp-mod-dirty").wait_for(state="detached")
    _cell(page, "before_handing_in").locator(".cm-content").click()
    page.keyboard.press("Shift+Enter")
    page.get_by_text("Everything holds").wait_for(timeout=60_000)
    report = _cell(page, "before_handing_in").locator("[role=status]").inner_text()
    assert "8 of 8 are right, nothing is left blank" in report
    assert "Extra: left out" in report
    assert kernel_errors(page) == []


@pytest.mark.browser
def test_a_self_check_by_keyboard_in_its_lesson(course, page):
    open_lesson(page, course, "02-diluting")
    run_all(page)
    form = page.locator("form.hc-question[data-question=check-jug]")
    form.scroll_into_view_if_needed()
    seen = set()
    form.locator("input").first.focus()
    page.keyboard.press("Space")
    for _ in range(3):
        page.keyboard.press("Enter")
        card = form.locator(".hc-said [role=status]")
        card.wait_for()
        seen.add(card.inner_text().split(".")[0])
        page.keyboard.press("ArrowDown")  # the next option; what was said to the other goes
        assert form.locator(".hc-said").inner_text() == ""
    assert seen == {"✓ Right", "↺ Look again"}
    number = page.locator("form.hc-question[data-question=check-spirit] input")
    number.fill("0.0001 L")
    number.press("Enter")
    page.locator("form[data-question=check-spirit] [role=status]").wait_for()
    assert page.locator(".hc-selfcheck [aria-live=polite]").count() == 3

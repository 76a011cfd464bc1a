"""Fixtures of the tests in a real browser; what they work with is in browser.py."""

import hypothesis
import pytest
from browser import FLAGS, chromium, start_course

# A busy machine is no fault of the course: no test is judged by the clock.
hypothesis.settings.register_profile("course", deadline=None)
hypothesis.settings.load_profile("course")


@pytest.fixture(scope="session")
def course(tmp_path_factory):
    """The course, opened through its command in an empty folder (browser.Course)."""
    place = tmp_path_factory.mktemp("student")
    opened = start_course(place / "herb-course", cwd=place)
    yield opened
    opened.close()


@pytest.fixture(scope="module")  # while it is open no other event loop can run in this thread
def browser():
    """A real Chromium; the test is skipped, or fails, where there is none."""
    path = chromium()
    playwright = pytest.importorskip("playwright.sync_api")
    with playwright.sync_playwright() as driver:
        running = driver.chromium.launch(executable_path=path, args=FLAGS)
        yield running
        running.close()


@pytest.fixture
def page(browser):
    """An empty page; an error on it or in its console fails the test."""
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    page = context.new_page()
    page.set_default_timeout(30_000)
    faults = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.on("console", lambda said: said.type == "error" and faults.append(said.text))
    yield page
    context.close()
    assert not faults, "errors on the page:\n" + "\n".join(faults)

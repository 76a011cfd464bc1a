"""A lesson before the class: code hidden, sliders live, large type, the leader's notes on request."""

import os
import re
import signal
import subprocess
import sys

import pytest
from browser import panel_state

from herbcalc import lessons, presenting

ALL = lessons.lessons()


@pytest.mark.parametrize("notes", [False, True])
def test_notes_only_when_asked_for(notes):
    page = presenting.lesson_page(lessons.find("02", ALL).path, notes)
    said = "\n".join(cell.source for cell in page.cells)
    assert ("For whoever leads the class" in said) is notes
    assert "$$" not in said and "<math" in said


def test_results_keep_their_remark_when_the_code_is_hidden():
    page = presenting.lesson_page(lessons.find("02", ALL).path)
    assert any(cell.source == '<p class="said">mL less than the sum</p>' for cell in page.cells)


@pytest.mark.browser
def test_a_presented_lesson_is_live(page, tmp_path):
    from playwright.sync_api import expect

    pytest.importorskip("voila", reason="the extra 'present' is not installed")
    server = subprocess.Popen(
        [sys.executable, "-P", "-m", "herbcalc", "present", "02", "--no-browser"], cwd=tmp_path,
        stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, stdin=subprocess.DEVNULL,
    )
    try:
        address = None
        for line in server.stdout:
            if found := re.search(r"http://127\.0\.0\.1:\S+", line):
                address = found[0]
                break
        assert address, "the page was not served"
        elsewhere = []
        page.on("request", lambda r: "127.0.0.1" in r.url or r.url.startswith(("data:", "blob:"))
                or elsewhere.append(r.url))
        page.goto(address)
        panel = page.locator(".hc-panel:has(img.hc-picture)").first
        panel.locator("img.hc-picture").wait_for(timeout=90_000)
        before = panel_state(panel)
        panel.locator("input[type=range]").first.press("Home")
        sentence = panel.locator(".hc-sentence")
        expect(sentence).not_to_have_text(before.sentence, timeout=30_000)
        assert panel_state(panel).picture != before.picture
        assert page.locator(".jp-CodeMirrorEditor, .CodeMirror, .highlight").count() == 0
        size = page.locator(".jp-MarkdownOutput p").first.evaluate(
            "(node) => parseFloat(getComputedStyle(node).fontSize)")
        assert size >= 20
        assert "For whoever leads the class" not in page.content()
        assert elsewhere == [], "the class may be offline"
    finally:
        page.goto("about:blank")  # or it would miss the server that goes now
        server.send_signal(signal.SIGINT)
        server.wait(timeout=30)
    assert not [name for name in os.listdir(tmp_path) if name.endswith(".ipynb")]

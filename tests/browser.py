"""What the tests in a real browser share: opening a lesson, running it, reading its panels.

The fixtures `course` and `page` are in conftest.py. A test says `@pytest.mark.browser`, opens a
lesson, runs it, and works the panels as a hand would:

    open_lesson(page, course, "02-diluting")
    run_all(page)
    panel = panels(page)[0]
    before = panel_state(panel)
    after = press(panel, panel.locator("input[type=range]").first, "ArrowRight")

An error on the page or in its console fails the test when it ends, without being asked for; errors
of the kernel are in `kernel_errors(page)`, and `run_all` fails on them.
"""

import base64
import hashlib
import os
import queue
import re
import signal
import subprocess
import sys
import threading
import time
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple
from urllib.parse import quote

import pytest

from herbcalc import places

FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync",
    "--disable-background-networking", "--disable-component-update",
]  # fmt: skip


def chromium() -> str:
    """The path of Chromium; skips the test where there is none, or fails it where one must be."""
    found = places.chromium()
    if not found:
        reason = "no Chromium was found (install it, or name one in the variable CHROMIUM)"
        if os.environ.get("HERBCALC_NEED_BROWSER") == "1":
            pytest.fail(reason + ", and HERBCALC_NEED_BROWSER=1 says there must be one")
        pytest.skip(reason)
    return found


# --- the course, through its command -------------------------------------------------------------


@dataclass
class Course:
    """A course that is open: its process, its first address, the student's folder."""

    process: subprocess.Popen
    address: str
    folder: Path
    said: list[str]
    listener: threading.Thread

    def url(self, name: str) -> str:
        """The address of a notebook in the folder."""
        base, token = re.fullmatch(r"(http://[^/]+/).*\?token=(\w+)", self.address).groups()
        return f"{base}doc/tree/{quote(name.removesuffix('.ipynb'))}.ipynb?token={token}"

    def __enter__(self) -> "Course":
        return self

    def __exit__(self, *_) -> None:
        self.close()

    def close(self) -> int:
        """End it as Ctrl+C does; -> its exit status. What it still said is added to `said`."""
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGINT)
        try:
            self.process.wait(timeout=60)
        except subprocess.TimeoutExpired:
            self.process.kill()
            raise
        self.listener.join(timeout=60)
        return self.process.returncode


def start_course(
    folder: Path | None,
    *words: str,
    cwd: Path,
    command: tuple[str, ...] = (),
    show: bool = False,
    **environment: str,
) -> Course:
    """Run `herbcalc open --no-browser` (without the flag to `show`) and wait for its address."""
    command = command or (sys.executable, "-P", "-m", "herbcalc")
    where = ("--folder", str(folder)) if folder else ()
    flags = () if show else ("--no-browser",)
    process = subprocess.Popen(
        [*command, "open", *flags, *where, *words],
        cwd=cwd,
        env={**os.environ, **environment},
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        encoding="utf-8",
    )
    lines = queue.Queue()
    said = []

    def listen():
        for line in process.stdout:
            said.append(line.rstrip("\n"))
            lines.put(line.strip())
        lines.put(None)

    listener = threading.Thread(target=listen, daemon=True)
    listener.start()
    try:
        while (line := lines.get(timeout=180)) is not None:
            if line.startswith("http://127.0.0.1:"):
                return Course(process, line, folder or Path(cwd, "herb-course"), said, listener)
    except queue.Empty:
        process.kill()
    raise AssertionError("the course did not open; it said:\n" + "\n".join(said))


# --- a lesson in the browser ---------------------------------------------------------------------


def open_lesson(page, course: Course, name: str) -> None:
    """Show a notebook of the course's folder and wait until it can be worked with."""
    heard = []  # what the kernel has said: before its first word, a run would be lost

    def listen(socket):
        if "/channels" in socket.url:
            socket.on("framereceived", lambda *_: heard.append(True))

    page.on("websocket", listen)
    page.goto(course.url(name))
    page.locator(".jp-Notebook .jp-Cell").first.wait_for(timeout=60_000)
    _answer_dialogs(page)
    _wait(page, lambda: heard and _idle(page), 60, f"the kernel of {name} did not start")
    page.remove_listener("websocket", listen)


def run_all(page, seconds: float = 120) -> None:
    """Run > Run All Cells, and wait until every cell has run and the kernel rests.

    The saved output is cleared first, so that only what ran now can be seen. Fails when a cell
    fails or when it takes longer.
    """
    choose(page, "Edit", "Clear Outputs of All Cells")
    _wait(page, lambda: not any(_has_run(page)), 30, "the saved output did not go")
    choose(page, "Run", "Run All Cells")
    _answer_dialogs(page)

    def done():
        assert not kernel_errors(page), "\n".join(kernel_errors(page))
        return all(_has_run(page)) and _idle(page)

    _wait(page, done, seconds, "the lesson did not run to its end")


def choose(page, menu: str, item: str) -> None:
    """Click an item of JupyterLab's menu bar."""
    page.get_by_role("menuitem", name=menu, exact=True).click()
    page.get_by_role("menuitem", name=item, exact=True).click()


def kernel_errors(page) -> list[str]:
    """What cells wrote as errors or warnings, and what panels show as a fault of ours."""
    return page.evaluate(
        """() => [...document.querySelectorAll(
            '[data-mime-type="application/vnd.jupyter.error"],' +
            '[data-mime-type="application/vnd.jupyter.stderr"],' +
            '.hc-panel[data-kind="fault"] .hc-sentence'
        )].map((node) => node.innerText)"""
    )


def _has_run(page) -> list[bool]:
    """For every code cell with code in it, whether it has run; a folded one shows no number."""
    return page.evaluate(
        """() => [...document.querySelectorAll(".jp-Notebook .jp-CodeCell")]
            .map((cell) => [cell.querySelector(".jp-Placeholder"), cell])
            .filter(([folded, cell]) => folded || cell.querySelector(".cm-content").innerText.trim())
            .map(([folded, cell]) => folded
                ? cell.querySelector(".jp-OutputArea-child") !== null
                : /^\\[\\d+\\]/.test(cell.querySelector(".jp-InputPrompt").innerText.trim()))"""
    )


def _idle(page) -> bool:
    return page.locator(".jp-Notebook-ExecutionIndicator").first.get_attribute(
        "data-status"
    ) == "idle"


def _answer_dialogs(page) -> None:
    """Accept what JupyterLab may ask first, as "Select Kernel"."""
    page.wait_for_timeout(300)
    for _ in range(3):
        accept = page.locator(".jp-Dialog button.jp-mod-accept")
        if accept.count():
            accept.last.click()
            page.wait_for_timeout(300)


def _wait(page, happened, seconds: float, otherwise: str) -> None:
    end = time.monotonic() + seconds
    while not happened():
        assert time.monotonic() < end, otherwise
        page.wait_for_timeout(100)


# --- panels --------------------------------------------------------------------------------------


class State(NamedTuple):
    """What a panel shows: a fingerprint of its picture, and its sentence."""

    picture: str
    sentence: str


def panels(page) -> list:
    """The live panels of a lesson that has run, top to bottom, each with its first picture."""
    found = page.locator(".hc-panel:has(img.hc-picture)")  # a self-check has none
    for panel in found.all():
        panel.scroll_into_view_if_needed()
        _wait(page, lambda: _answered(panel), 30, "a panel showed no picture")  # noqa: B023
    return found.all()


def panel_state(panel) -> State:
    """The picture's fingerprint and the sentence, as they are now."""
    encoded = panel.locator("img.hc-picture").evaluate(
        """async (image) => {
            const bytes = new Uint8Array(await (await fetch(image.src)).arrayBuffer());
            return btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(""));
        }"""
    )
    picture = hashlib.sha256(base64.b64decode(encoded)).hexdigest()
    return State(picture, panel.locator(".hc-sentence").inner_text().strip())


def press(panel, control, key: str) -> State:
    """Press a key on a control as a student would; -> the state once the panel has answered.

    A slider that stands at its end already has nothing to answer: that fails.
    """
    control.scroll_into_view_if_needed()
    before = panel.get_attribute("data-answered")
    control.press(key)

    def answered():
        return _answered(panel) and panel.get_attribute("data-answered") != before

    _wait(panel.page, answered, 30, f"the panel did not answer to {key}")
    return panel_state(panel)


def _answered(panel) -> bool:
    there = panel.locator("img.hc-picture").evaluate("(image) => image.naturalWidth > 0")
    return there and not panel.get_attribute("data-waiting")

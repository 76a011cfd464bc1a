"""Setting up, handing out and opening the course: as a student's own hands would do it."""

import ast
import json
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.request
from pathlib import Path

import pytest
from browser import kernel_errors, open_lesson, panel_state, panels, press, run_all, start_course
from hypothesis import given
from hypothesis import strategies as st

from herbcalc import places
from herbcalc.lessons import HIDDEN, find, hand_out, lessons, student_copy
from herbcalc.places import exercises

PACKAGE = Path(places.__file__).parent
LESSONS = lessons()
# What a student's folder holds: the lessons and, by names of their own, the homeworks.
HOMEWORKS = {f"homework-{path.parent.name}.ipynb" for path in exercises().glob("*/homework.ipynb")}
GIVEN = {lesson.path.name for lesson in LESSONS} | HOMEWORKS


def run(*words, cwd, python=(sys.executable, "-P", "-m", "herbcalc"), **more):
    """Run the command to its end; -> the finished process, with its words as text."""
    return subprocess.run(
        [*python, *map(str, words)],
        cwd=cwd,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=180,
        **more,
    )


def one_sentence(process):
    """What a failed command said: exactly one line, no traceback."""
    assert process.returncode == 1, process.stdout + process.stderr
    lines = process.stderr.strip().splitlines()
    assert len(lines) == 1, process.stderr
    return lines[0]


# --- the student's copies ------------------------------------------------------------------------


def notebook(*sources, tags=(), outputs=()):
    cells = [
        {
            "cell_type": "code", "execution_count": None, "id": f"c{n}", "metadata": {"tags": [*tags]},
            "outputs": [*outputs], "source": source,
        }
        for n, source in enumerate(sources)
    ]  # fmt: skip
    return json.dumps({"cells": cells, "metadata": {}, "nbformat": 4, "nbformat_minor": 5})


@pytest.fixture
def rooms(tmp_path):
    """(originals, the student's folder), with one lesson handed out."""
    originals, folder = tmp_path / "originals", tmp_path / "mine"
    originals.mkdir()
    (originals / "01-jar.ipynb").write_text(notebook("fill = 75"))
    assert hand_out(folder, originals).new == ("01-jar.ipynb",)
    return originals, folder


def test_a_copy_is_the_original_without_the_teachers_notes():
    for lesson in LESSONS:
        original = json.loads(lesson.path.read_text(encoding="utf-8"))
        copy = json.loads(student_copy(lesson.path.read_text(encoding="utf-8")))
        notes = [c for c in original["cells"] if "teacher" in c["metadata"].get("tags", ())]
        assert notes, f"{lesson.path.name} has no notes for the teacher"
        assert [c for c in original["cells"] if c not in notes] == copy["cells"]


def test_handing_out_again_touches_nothing(rooms):
    originals, folder = rooms
    copy = folder / "01-jar.ipynb"
    copy.write_text(notebook("fill = 60  # mine"))
    before = (copy.read_bytes(), copy.stat().st_mtime_ns, sorted(os.listdir(folder)))
    again = hand_out(folder, originals)
    assert (again.new, again.updated, again.newer) == ((), (), {})
    assert before == (copy.read_bytes(), copy.stat().st_mtime_ns, sorted(os.listdir(folder)))


def test_a_changed_lesson_replaces_a_copy_that_was_only_run(rooms):
    originals, folder = rooms
    copy = folder / "01-jar.ipynb"
    # Running the last cell leaves output, a count, and an empty cell below.
    copy.write_text(notebook("fill = 75", "", outputs=[{"output_type": "stream", "text": "x"}]))
    (originals / "01-jar.ipynb").write_text(notebook("fill = 80"))
    assert hand_out(folder, originals).updated == ("01-jar.ipynb",)
    assert json.loads(copy.read_text())["cells"][0]["source"] == "fill = 80"


def test_a_changed_lesson_is_put_beside_a_copy_with_own_words(rooms):
    originals, folder = rooms
    copy, newer = folder / "01-jar.ipynb", folder / "01-jar-newer.ipynb"
    mine = notebook("fill = 60  # mine")
    copy.write_text(mine)
    (originals / "01-jar.ipynb").write_text(notebook("fill = 80"))
    assert hand_out(folder, originals).newer == {"01-jar.ipynb": "01-jar-newer.ipynb"}
    assert copy.read_text() == mine and "fill = 80" in newer.read_text()
    assert hand_out(folder, originals).newer == {}, "it is offered once"
    # The next change replaces the newer one they did not touch, and spares the one they did.
    (originals / "01-jar.ipynb").write_text(notebook("fill = 85"))
    assert hand_out(folder, originals).newer == {"01-jar.ipynb": "01-jar-newer.ipynb"}
    assert "fill = 85" in newer.read_text()
    newer.write_text(notebook("fill = 85  # mine too"))
    (originals / "01-jar.ipynb").write_text(notebook("fill = 90"))
    assert hand_out(folder, originals).newer == {"01-jar.ipynb": "01-jar-newer-2.ipynb"}
    assert copy.read_text() == mine and "mine too" in newer.read_text()


def test_new_pictures_alone_do_not_come_beside_own_words(rooms):
    originals, folder = rooms
    (folder / "01-jar.ipynb").write_text(notebook("fill = 60  # mine"))
    (originals / "01-jar.ipynb").write_text(
        notebook("fill = 75", outputs=[{"output_type": "stream", "text": "new picture"}])
    )
    assert hand_out(folder, originals).newer == {}


def test_a_new_lesson_is_added_and_a_deleted_copy_comes_back(rooms):
    originals, folder = rooms
    (originals / "02-more.ipynb").write_text(notebook("1"))
    (folder / "01-jar.ipynb").unlink()
    assert hand_out(folder, originals).new == ("01-jar.ipynb", "02-more.ipynb")


@pytest.mark.parametrize("memory", ["", "{", "[]", '{"01-jar.ipynb": 3}', "\x00"])
def test_without_its_memory_every_copy_counts_as_the_students_own(rooms, memory):
    originals, folder = rooms
    copy = folder / "01-jar.ipynb"
    (folder / HIDDEN / "handed-out.json").write_text(memory)
    (originals / "01-jar.ipynb").write_text(notebook("fill = 80"))
    before = copy.read_bytes()
    hand_out(folder, originals)
    assert copy.read_bytes() == before


def test_a_copy_that_is_no_notebook_any_more_is_left_alone(rooms):
    originals, folder = rooms
    (folder / "01-jar.ipynb").write_bytes(b"\x00 my shopping list")
    (originals / "01-jar.ipynb").write_text(notebook("fill = 80"))
    assert hand_out(folder, originals).newer == {"01-jar.ipynb": "01-jar-newer.ipynb"}
    assert (folder / "01-jar.ipynb").read_bytes() == b"\x00 my shopping list"


@given(
    st.lists(
        st.tuples(
            st.sampled_from(["write", "write newer", "publish", "run", "delete", "forget"]),
            st.integers(0, 3),
        ),
        max_size=12,
    )
)
def test_no_word_of_the_student_is_ever_lost(steps):
    """Whatever was written, published or forgotten before: what they wrote last is still there."""
    with tempfile.TemporaryDirectory() as top:
        originals, folder = Path(top, "originals"), Path(top, "mine")
        originals.mkdir()
        (originals / "01.ipynb").write_text(notebook("original 0"))
        hand_out(folder, originals)
        theirs = {}
        for step, number in steps:
            copy = folder / ("01-newer.ipynb" if step == "write newer" else "01.ipynb")
            if step.startswith("write") and copy.exists():
                copy.write_text(notebook(f"mine {number}"))
                theirs[copy.name] = copy.read_bytes()
            elif step == "publish":
                (originals / "01.ipynb").write_text(notebook(f"original {number}"))
            elif step == "delete":
                copy.unlink(missing_ok=True)
                theirs.pop(copy.name, None)
            elif step == "forget":
                (folder / HIDDEN / "handed-out.json").unlink(missing_ok=True)
            hand_out(folder, originals)
            for name, text in theirs.items():
                assert (folder / name).read_bytes() == text


@pytest.mark.skipif(os.name == "nt", reason="Windows has no limit of a file's size")
def test_a_disk_that_fails_half_way_leaves_whole_files_and_the_next_time_goes_on(tmp_path):
    import resource

    def small_disk():
        resource.setrlimit(resource.RLIMIT_FSIZE, (80_000, resource.RLIM_INFINITY))

    folder = tmp_path / "mine"
    failed = run("open", "--no-browser", "--folder", folder, cwd=tmp_path, preexec_fn=small_disk)
    assert re.search(r"cannot be written \(File too large\).*--folder", one_sentence(failed))
    there = sorted(folder.glob("*.ipynb"))
    assert len(there) < len(GIVEN), "some lesson is larger than the limit of this test"
    for path in there:
        json.loads(path.read_text(encoding="utf-8"))
    assert not [p for p in folder.rglob("*.new")]
    assert len(hand_out(folder).new) == len(GIVEN) - len(there)


# --- the lessons ---------------------------------------------------------------------------------


def test_lessons_are_listed_with_their_titles(tmp_path):
    said = run("lessons", cwd=tmp_path)
    assert said.returncode == 0
    for lesson, line in zip(LESSONS, said.stdout.splitlines(), strict=True):
        assert line.split()[0] == (lesson.number or lesson.path.stem)
        assert lesson.title.removeprefix(lesson.number).strip() in line


def test_every_lesson_leads_to_the_list_and_the_list_to_every_lesson():
    for lesson in LESSONS:
        first = json.loads(lesson.path.read_text(encoding="utf-8"))["cells"][0]
        text = "".join(first["source"])
        assert text.startswith("# "), f"{lesson.path.name} does not begin with its title"
        link = "#All-lessons" if lesson is LESSONS[0] else LESSONS[0].path.name
        assert f"]({link})" in text, f"{lesson.path.name} has no way to the list at its top"
    everything = LESSONS[0].path.read_text(encoding="utf-8")
    for lesson in LESSONS[1:]:
        assert f"]({lesson.path.name})" in everything


def test_no_link_between_lessons_is_dead():
    for lesson in LESSONS:
        text = lesson.path.read_text(encoding="utf-8")
        for target in re.findall(r"\]\(([^)#:]+\.ipynb)[)#]", text):
            assert target in GIVEN, f"{lesson.path.name}: {target}"  # what a student's folder holds


@pytest.mark.parametrize("wanted", ["2", "02", "02-diluting", "02-Diluting.ipynb", "dilut"])
def test_a_lesson_is_found_by_what_people_type(wanted):
    assert find(wanted, LESSONS).path.name == "02-diluting.ipynb"


@pytest.mark.parametrize("wanted", ["77", "", "brandy", "e", "-1", "../02-diluting"])
def test_a_lesson_that_is_not_there_gets_a_sentence(wanted):
    with pytest.raises(ValueError, match=r"^There is no lesson '.*'; the lessons are 00, 01, 02"):
        find(wanted, LESSONS)


# --- opening -------------------------------------------------------------------------------------


def ask(url, **headers):
    """GET from the course's own server, by no proxy; -> status."""
    opener = urllib.request.build_opener(urllib.request.ProxyHandler({}))
    try:
        return opener.open(urllib.request.Request(url, headers=headers), timeout=30).status
    except urllib.error.HTTPError as error:
        return error.code


def test_open_copies_serves_reopens_and_ends_cleanly(tmp_path):
    home = tmp_path / "home"
    home.mkdir()
    with start_course(None, cwd=tmp_path, HOME=str(home), DISPLAY="", WAYLAND_DISPLAY="") as mine:
        assert mine.folder == tmp_path / "herb-course"
        assert {p.name for p in mine.folder.glob("*.ipynb")} == GIVEN
        base, token = re.fullmatch(r"(http://127\.0\.0\.1:\d+/)doc.*token=(\w{32})",
                                   mine.address).groups()
        assert f"doc/tree/{LESSONS[0].path.name}" in mine.address
        assert ask(base + "api/status") == 403, "without the token nobody gets in"
        assert ask(mine.address) == 200
        # A kernel writes to the student's folder too, and not to their home.
        start = urllib.request.Request(
            base + "api/kernels", b"{}", {"Authorization": f"token {token}"}
        )
        opener = urllib.request.build_opener(urllib.request.ProxyHandler({}))
        assert opener.open(start, timeout=60).status == 201

        again = run("open", "what-if", "--no-browser", cwd=tmp_path)
        assert again.returncode == 0 and "already open" in again.stdout
        assert f"{base}doc/tree/what-if.ipynb?token={token}" in again.stdout

        assert mine.close() == 0
    assert re.match(r"The course is closed\. Your work is in .*herb-course", mine.said[-1])
    assert not [line for line in mine.said if "Traceback" in line or "arning" in line]
    assert list(home.iterdir()) == [], "nothing is left in the student's home"
    with pytest.raises(OSError):
        ask(base)


def test_a_taken_port_is_passed_over_and_said_so_in_a_folder_of_any_name(tmp_path):
    folder = tmp_path / ".Märta's Kräuter" / "jar & spoon=2 [new] 100%"
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        with start_course(folder, "3", "--port", str(port), cwd=tmp_path) as mine:
            other = int(re.search(r":(\d+)/", mine.address)[1])
            assert other != port and f"Port {port} is taken; the course uses {other}" in " ".join(
                mine.said
            )
            assert "/03-" in mine.address
            base, rest = mine.address.split("doc/tree/")
            assert ask(base + "api/contents/" + rest) == 200


@pytest.mark.skipif(os.name == "nt", reason="Windows ends a process in another way")
def test_it_ends_cleanly_when_it_is_told_to(tmp_path):
    with start_course(tmp_path / "mine", cwd=tmp_path) as mine:
        mine.process.send_signal(signal.SIGTERM)
        assert mine.process.wait(timeout=60) == 0


@pytest.mark.skipif(os.name == "nt", reason="needs a shell script as a browser")
def test_the_lesson_is_shown_in_the_persons_browser(tmp_path):
    theirs, shown = tmp_path / "theirs", tmp_path / "shown"
    theirs.write_text(f'#!/bin/sh\necho "$1" >> "{shown}"\n')
    theirs.chmod(0o755)
    desktop = {"BROWSER": str(theirs), "DISPLAY": ":0"}
    with start_course(tmp_path / "mine", cwd=tmp_path, show=True, **desktop) as mine:
        ask(mine.address)
        again = run("open", "--folder", mine.folder, cwd=tmp_path, env={**os.environ, **desktop})
        assert again.returncode == 0
        for _ in range(300):
            if shown.exists() and len(shown.read_text().split()) == 2:
                break
            time.sleep(0.1)
    assert shown.read_text().split() == [mine.address] * 2


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="elsewhere there is a desktop")
def test_without_a_desktop_the_address_is_for_opening_oneself(tmp_path):
    bare = {"DISPLAY": "", "WAYLAND_DISPLAY": "", "WSL_DISTRO_NAME": ""}
    with start_course(tmp_path / "mine", cwd=tmp_path, show=True, **bare) as mine:
        assert "There is no desktop here" in " ".join(mine.said)


def test_a_file_is_no_folder(tmp_path):
    (tmp_path / "herb-course").write_text("a list")
    said = one_sentence(run("open", "--no-browser", cwd=tmp_path))
    assert "herb-course is a file, not a folder: choose another with --folder" in said
    assert (tmp_path / "herb-course").read_text() == "a list"
    said = one_sentence(run("open", "--folder", "herb-course/in", cwd=tmp_path))
    assert "cannot be written" in said and "--folder" in said


@pytest.mark.parametrize("inside", [PACKAGE, PACKAGE / "mine", places.notebooks()])
def test_the_originals_are_no_place_for_copies(inside, tmp_path):
    said = one_sentence(run("open", "--no-browser", "--folder", inside, cwd=tmp_path))
    assert "belongs to the course itself" in said and "--folder" in said
    assert not (PACKAGE / "mine").exists()


@pytest.mark.skipif(not hasattr(os, "geteuid"), reason="needs Unix permissions")
def test_a_folder_that_cannot_be_written_gets_a_sentence(tmp_path):
    locked = tmp_path / "locked"
    locked.mkdir(mode=0o555)
    python = (sys.executable, "-P", "-m", "herbcalc")
    if os.geteuid() == 0:  # root may write anywhere: try as nobody
        if not shutil.which("setpriv"):
            pytest.skip("root cannot be kept out of a folder here (no setpriv)")
        # Permissions are the only thing to lose: nobody must still reach Python and the course.
        python = ("setpriv", "--inh-caps=-all", "--bounding-set=-all", *python)
    said = one_sentence(run("open", "--folder", locked / "mine", cwd=tmp_path, python=python))
    assert "cannot be written (Permission denied): choose another with --folder" in said


def test_an_unknown_lesson_is_said_before_anything_is_copied(tmp_path):
    said = one_sentence(run("open", "77", "--no-browser", cwd=tmp_path))
    assert said.startswith("There is no lesson '77'")
    assert list(tmp_path.iterdir()) == []


def test_without_jupyterlab_a_sentence_says_so(tmp_path):
    without = (
        "import sys; sys.modules['jupyterlab'] = None; "
        "from herbcalc.command import main; sys.exit(main())"
    )
    said = one_sentence(run("open", cwd=tmp_path, python=(sys.executable, "-c", without)))
    assert said.startswith("JupyterLab, which shows the lessons, is missing here")


@pytest.mark.parametrize("port", ["0", "99999", "-1", "x", "8.5"])
def test_a_port_that_is_none_gets_a_sentence(port, tmp_path):
    said = run("open", f"--port={port}", cwd=tmp_path)
    assert said.returncode == 2 and "a port is a number from 1 to 65535" in said.stderr


# --- the first start in a clone ------------------------------------------------------------------

BASE = getattr(sys, "_base_executable", None) or sys.executable  # the Python outside of any venv


@pytest.fixture
def clone(tmp_path):
    """A copy of what a clone holds, without its `.venv`."""
    root = places.clone()
    if root is None:
        pytest.skip("these tests are of a clone")
    copy = tmp_path / "a clone"  # with a space, as people's folders have
    for name in ("herbcalc", "notebooks", "exercises", "data"):
        shutil.copytree(root / name, copy / name, ignore=shutil.ignore_patterns("__pycache__"))
    for path in root.iterdir():
        if path.is_file():
            shutil.copy2(path, copy / path.name)
    return copy


def as_folder(clone, *words, cwd, **environment):
    environment = {**os.environ, **environment}
    return run(*words, cwd=cwd, python=(BASE, str(clone / "herbcalc")), env=environment)


def test_a_clone_sets_itself_up_once(clone, tmp_path):
    # The parts are there already, as after a download: a venv that sees this Python's packages.
    subprocess.run([BASE, "-m", "venv", clone / ".venv"], check=True)
    library = subprocess.run(
        [clone / ".venv" / ("Scripts" if os.name == "nt" else "bin") / "python", "-c",
         "import sysconfig; print(sysconfig.get_path('purelib'))"],
        check=True, capture_output=True, text=True,
    ).stdout.strip()  # fmt: skip
    here = Path(pytest.__file__).parents[1]
    Path(library, "here.pth").write_text(f"{here}\n")
    offline = {"PIP_NO_INDEX": "1", "PIP_NO_BUILD_ISOLATION": "0"}

    first = as_folder(clone, "lessons", cwd=tmp_path, **offline)
    assert first.returncode == 0, first.stdout + first.stderr
    assert "Fetching" in first.stdout and "02-diluting" not in first.stdout
    assert "Start here" in first.stdout
    second = as_folder(clone, "lessons", cwd=clone, **offline)
    assert "Fetching" not in second.stdout and "Start here" in second.stdout
    # Another need of the project is another set-up.
    with open(clone / "pyproject.toml", "a", encoding="utf-8") as file:
        file.write("# changed\n")
    assert "Fetching" in as_folder(clone, "lessons", cwd=tmp_path, **offline).stdout
    # A test that asks for something more than lessons do sees to that too.
    assert "Fetching" in as_folder(clone, "test", "--version", cwd=tmp_path, **offline).stdout

    opened = start_course(None, cwd=clone, command=(BASE, "herbcalc"), **offline)
    with opened:
        assert opened.folder == clone / "herb-course"
    assert "open' goes on from there" in opened.said[-1]
    assert "herbcalc open'" in opened.said[-1] and opened.said[-1].count("python") == 1


def test_without_the_index_a_clone_says_what_to_do(clone, tmp_path):
    nowhere = {
        "PIP_INDEX_URL": "http://127.0.0.1:9/", "PIP_EXTRA_INDEX_URL": "", "PIP_RETRIES": "0",
        "PIP_FIND_LINKS": "",
    }  # fmt: skip
    failed = as_folder(clone, "open", cwd=tmp_path, **nowhere)
    said = one_sentence(failed)
    assert "index did not answer: check the internet connection" in said
    assert not (clone / ".venv" / "herbcalc-setup.json").exists()


def test_without_venv_a_clone_says_what_to_install(clone, tmp_path):
    missing = tmp_path / "missing"
    missing.mkdir()
    (missing / "ensurepip.py").write_text("raise ImportError('Debian ships it apart')")
    said = one_sentence(as_folder(clone, "open", cwd=tmp_path, PYTHONPATH=str(missing)))
    assert "'sudo apt install python3." in said and "-venv'" in said


def test_an_old_python_gets_a_sentence(clone, tmp_path):
    source = (clone / "herbcalc" / "__main__.py").read_text(encoding="utf-8")
    ast.parse(source, feature_version=(3, 4))  # or it would stop at a SyntaxError instead
    pretend = (
        "import sys, runpy; sys.version_info = (3, 9, 2, 'final', 0); "
        f"sys.argv = ['herbcalc', 'open']; runpy.run_path({str(clone / 'herbcalc')!r}, "
        "run_name='__main__')"
    )
    said = one_sentence(run(cwd=tmp_path, python=(BASE, "-c", pretend)))
    assert said.startswith("The course needs Python 3.11 or newer and this is Python 3.9")


def test_no_part_of_the_package_hides_one_of_pythons_own():
    """Run as a folder, the package's own folder is where Python looks first."""
    names = {path.stem for path in PACKAGE.iterdir() if path.suffix in ("", ".py")}
    assert not names & sys.stdlib_module_names


# --- in the browser ------------------------------------------------------------------------------


@pytest.mark.browser
def test_it_opens_on_the_lesson_and_nothing_else(course, page):
    page.goto(course.address)
    page.get_by_role("heading", name=LESSONS[0].title).first.wait_for()
    page.wait_for_timeout(2000)  # what pops up does so late
    for clutter in (".jp-Dialog", ".Toastify__toast", ".jp-FileBrowser", ".jp-Launcher",
                    ".jp-Notebook .jp-Toolbar"):
        assert page.locator(clutter).locator("visible=true").count() == 0, clutter
    assert "For whoever leads the class" not in page.locator("body").inner_text()


@pytest.mark.browser
def test_there_is_a_way_to_the_list_and_from_it_to_every_lesson(course, page):
    open_lesson(page, course, "02-diluting")
    page.get_by_role("link", name="All lessons").first.click()
    heading = page.get_by_role("heading", name=LESSONS[0].title)
    heading.locator("visible=true").first.wait_for()
    page.locator(f"a[href*='{LESSONS[-1].path.name}']").locator("visible=true").first.click()
    page.get_by_role("heading", name=LESSONS[-1].title).locator("visible=true").first.wait_for()
    assert LESSONS[-1].path.name in page.url


@pytest.mark.browser
def test_lesson_02_runs_and_its_panels_answer_to_a_key(course, page):
    open_lesson(page, course, "02-diluting")
    run_all(page)
    live = panels(page)
    assert len(live) >= 2
    for panel in live:
        slider = panel.locator("input[type=range]").first
        before = panel_state(panel)
        back = press(panel, slider, "ArrowLeft")
        assert back.picture != before.picture and back.sentence != before.sentence
        assert press(panel, slider, "ArrowRight") == before, "the way back shows the same again"
    assert kernel_errors(page) == []

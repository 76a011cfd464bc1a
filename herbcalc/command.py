"""The command `herbcalc`: one small function and one parser block for each verb.

Every function takes the parsed words and returns an exit status (None for 0); what it needs
beyond the standard library it imports itself, so that each verb starts as fast as it can. A
ValueError is a sentence for the person at the keyboard.
"""

import argparse
import os
import subprocess
import sys
import threading
from pathlib import Path

from herbcalc import bench_command, class_command, places

__all__ = ["main"]

# How this person starts the course: "herbcalc", or from a clone "python3 herbcalc".
CALLED = os.environ.get("HERBCALC_CALLED", "herbcalc")


def say(*sentences: str) -> None:
    print(*sentences, sep="\n", flush=True)


def open_course(words: argparse.Namespace) -> int | None:
    """Copy the lessons into the student's own folder and open one there."""
    from herbcalc import desk, lessons

    folder = _own_folder(words.folder)
    lesson = _lesson_to_open(words.lesson, folder)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        address = desk.is_open(folder, lesson)
        if address:
            say(f"The course is already open from {folder}. The lesson's address:", address)
            if words.browser:
                _show(address)
            return None
        handed = lessons.hand_out(folder)
        desk.trust(folder, (*handed.new, *handed.updated, *handed.newer.values()))
        say(*_what_is_new(handed, folder))
        desk.open_desk(folder, lesson, words.port, _ready(words.port, words.browser))
    except ImportError as error:
        raise ValueError(
            f"JupyterLab, which shows the lessons, is missing here ({error}): "
            f"install the course again with 'pip install herbcalc'."
        ) from error
    except OSError as error:
        raise ValueError(
            f"The folder {folder} cannot be written ({error.strerror or error}): choose another "
            f"with --folder, for example {CALLED} open --folder {Path.home() / 'herb-course'}"
        ) from error
    say("", f"The course is closed. Your work is in {folder}; '{CALLED} open' goes on from there.")
    return None


def _own_folder(given: str | None) -> Path:
    folder = Path(given or "herb-course").expanduser().resolve()
    if folder.exists() and not folder.is_dir():
        raise ValueError(f"{folder} is a file, not a folder: choose another with --folder.")
    kept = {places.notebooks(), places.exercises(), places.data(), Path(__file__).parent}
    inside = any(folder.is_relative_to(room.resolve()) for room in kept)
    if inside or folder == places.clone():
        raise ValueError(
            f"{folder} belongs to the course itself, whose originals stay as they are: go to a "
            "folder of your own first, or choose one with --folder."
        )
    return folder


def _lesson_to_open(wanted: str | None, folder: Path) -> str:
    """The name of the notebook to show: one of the course's, or the student's own."""
    from herbcalc import lessons

    there = lessons.lessons()
    if not there:
        raise ValueError(f"There are no lessons in {places.notebooks()}.")
    if wanted is None:
        return there[0].path.name
    own = Path(wanted).name
    if own.endswith(".ipynb") and (folder / own).is_file():
        return own
    return lessons.find(wanted, there).path.name


def _what_is_new(handed, folder: Path) -> list[str]:
    said = [f"Your own copies of the lessons are in {folder}"]
    if len(handed.new) > 4:
        said.append(f"  new: {len(handed.new)} lessons")
    elif handed.new:
        said.append(f"  new: {', '.join(handed.new)}")
    if handed.updated:
        said.append(f"  brought up to date (you had changed nothing): {', '.join(handed.updated)}")
    for yours, newer in handed.newer.items():
        said.append(f"  {yours} has changed: yours stays as it is, the newer one is {newer}")
    if len(said) == 1:
        said.append("  nothing new; everything is as you left it")
    return said


def _ready(wanted: int | None, browser: bool):
    def ready(address: str, port: int) -> None:
        if wanted not in (None, port):
            say(f"Port {wanted} is taken; the course uses {port} instead.")
        if browser and not _desktop():
            say("There is no desktop here to open a browser on: open this address yourself.")
        say("The course is open at", f"  {address}", "Leave this window open; Ctrl+C closes it.")
        if browser:  # in a thread, for some browsers answer only when they are closed
            threading.Thread(target=_show, args=(address,), daemon=True).start()

    return ready


def _desktop() -> bool:
    """Whether a browser window can appear: on Linux without a display only a text browser could."""
    if sys.platform.startswith("linux"):
        return any(map(os.environ.get, ("DISPLAY", "WAYLAND_DISPLAY", "WSL_DISTRO_NAME")))
    return True


def _show(address: str) -> None:
    import webbrowser

    if _desktop():
        webbrowser.open(address)


def present_lesson(words: argparse.Namespace) -> None:
    """Show a lesson before the class: code hidden, sliders live, type large."""
    from herbcalc import lessons

    try:
        from herbcalc import presenting

        there = lessons.lessons()
        first = lessons.find(words.lesson, there)

        def ready(address: str) -> None:
            say(f"'{first.title}' is shown at", f"  {address}")
            say("Leave this window open; Ctrl+C closes it.")
            if words.browser:
                threading.Thread(target=_show, args=(address,), daemon=True).start()

        presenting.present(there, first, words.notes, words.port, Path.cwd(), ready)
    except ImportError as error:
        raise ValueError(
            f"Voila, which presents the lessons, is missing here ({error}): "
            "install it with 'pip install herbcalc[present]'."
        ) from error
    say("", "The presentation is closed.")


def print_lessons(words: argparse.Namespace) -> None:
    """Write lessons as pages for the printer."""
    from herbcalc import handouts, lessons

    there = lessons.lessons()
    chosen = [lessons.find(name, there) for name in words.lesson] or there
    folder = Path(words.folder or "herb-handouts").expanduser().resolve()
    try:
        done = handouts.make(chosen, folder, teacher=words.notes, pdf=words.pdf, tell=say)
    except OSError as error:
        raise ValueError(
            f"The folder {folder} cannot be written ({error.strerror or error}): choose another "
            "with --folder."
        ) from error
    say(f"The pages are in {folder}")
    if words.pdf and not any(handout.pdf for handout in done):
        say("No Chromium was found, so there are no PDFs: print the pages from your browser.")


def check_homework(words: argparse.Namespace) -> int:
    """Look a homework over before it is handed in."""
    from herbcalc.classroom.handing_in import before_handing_in

    report = before_handing_in(words.file)
    say(repr(report))
    return 0 if report.holds else 1


def list_lessons(words: argparse.Namespace) -> None:
    """Print number and title of every lesson."""
    from herbcalc import lessons

    there = lessons.lessons()
    names = [lesson.number or lesson.path.stem for lesson in there]
    for name, lesson in zip(names, there, strict=True):
        title = lesson.title.removeprefix(lesson.number).strip()
        say(f"  {name:<{max(map(len, names))}}  {title}")


def run_tests(words: argparse.Namespace) -> int:
    """Run every test of a clone with the project's own settings."""
    clone = places.clone()
    if clone is None:
        raise ValueError("The tests are in the project's clone: run this command from there.")
    browser = places.chromium()
    if browser:
        say(f"Chromium found ({browser}): the tests in a real browser run too.")
    else:
        say(
            "No Chromium found: the tests in a real browser are skipped. (Install Chromium, or "
            "name one in the environment variable CHROMIUM.)"
        )
    # Two files at a time: the whole takes half as long, and each file still runs in order.
    together = ("-n", "2", "--dist", "loadfile")
    return subprocess.call(
        [sys.executable, "-m", "pytest", *together, *words.for_pytest], cwd=clone)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog=CALLED, description="A course in making herbal tinctures, by calculation."
    )
    verbs = parser.add_subparsers(title="what to do", metavar="VERB", required=True)

    verb = verbs.add_parser(
        "open",
        help="open the lessons in the browser",
        description="Copy the lessons into your own folder and open one in the browser. What you "
        "change there is yours: opening again never overwrites it, and says what is new.",
    )
    verb.add_argument(
        "lesson", nargs="?", help="number or name of the lesson, for example 03 (default: the first)"
    )
    verb.add_argument("--folder", help="your own folder (default: herb-course, where you stand)")
    verb.add_argument(
        "--no-browser",
        dest="browser",
        action="store_false",
        help="only print the address, open no browser",
    )
    verb.add_argument("--port", type=_port, help="a port of your choice (default: a free one)")
    verb.set_defaults(run=open_course)

    verb = verbs.add_parser(
        "present",
        help="show a lesson before the class",
        description="Show a lesson as a page with the code hidden, the sliders live and the type "
        "large. The notes for whoever leads the class are left out unless you ask for them.",
    )
    verb.add_argument("lesson", help="number or name of the lesson, for example 03")
    verb.add_argument("--notes", action="store_true", help="with the notes for the teacher")
    verb.add_argument("--no-browser", dest="browser", action="store_false",
                      help="only print the address, open no browser")
    verb.add_argument("--port", type=_port, help="a port of your choice (default: a free one)")
    verb.set_defaults(run=present_lesson)

    verb = verbs.add_parser(
        "print",
        help="write lessons as pages for the printer",
        description="Write lessons as pages (and PDF where Chromium is found), with still "
        "pictures in place of the sliders.",
    )
    verb.add_argument("lesson", nargs="*", help="numbers or names (default: the whole course)")
    verb.add_argument("--notes", action="store_true", help="the teacher's edition, with the notes")
    verb.add_argument("--folder", help="where to write (default: herb-handouts, where you stand)")
    verb.add_argument("--no-pdf", dest="pdf", action="store_false", help="only the pages")
    verb.set_defaults(run=print_lessons)

    verb = verbs.add_parser(
        "check",
        help="look a homework over before handing it in",
        description="Run your homework from top to bottom in a fresh start and say in plain words "
        "whether everything still holds and what is left blank.",
    )
    verb.add_argument("file", type=Path, help="the homework, for example homework-02.ipynb")
    verb.set_defaults(run=check_homework)

    verb = verbs.add_parser("lessons", help="list the lessons")
    verb.set_defaults(run=list_lessons)

    bench_command.add_verbs(verbs)
    class_command.add_verbs(verbs)

    verb = verbs.add_parser(
        "test",
        help="run every test (in a clone)",
        description="Run every test of the project. What follows the verb goes to pytest, "
        "for example: test -k jar",
    )
    verb.set_defaults(run=run_tests)
    return parser


def _port(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text) <= 65535:
        raise argparse.ArgumentTypeError(f"a port is a number from 1 to 65535, not '{text}'")
    return int(text)


def main(arguments: list[str] | None = None) -> int:
    """Do what the words say; print one sentence and return 1 when it cannot be done."""
    arguments = sys.argv[1:] if arguments is None else arguments
    parser = _parser()
    if arguments[:1] == ["test"] and not {"-h", "--help"} & set(arguments):
        words, for_pytest = parser.parse_args(["test"]), arguments[1:]  # all of it is pytest's
        words.for_pytest = for_pytest
    else:
        words = parser.parse_args(arguments)
    try:
        return words.run(words) or 0
    except ValueError as error:
        print(error, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("\nStopped.", file=sys.stderr)
        return 130

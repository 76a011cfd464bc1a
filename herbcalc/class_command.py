"""The command's verbs for who leads a class: hand-out, mark, demo-class.

As in `herbcalc.command`: one small function and one parser block for each verb.
"""

import argparse
import sys
from pathlib import Path

__all__ = ["add_verbs"]


def demo_class(words: argparse.Namespace) -> None:
    """Write the invented class."""
    from herbcalc.classroom.demo import write_demo_class

    try:
        room = write_demo_class(words.folder)
    except OSError as error:
        raise _unwritable(words.folder, error) from error
    print(f"An invented class of {len(room.students)} is in {words.folder}: who is in it "
          "(roster.csv), what is asked of it (class.toml), and what came back (returns).")


def hand_out(words: argparse.Namespace) -> None:
    """Write a homework notebook for each student."""
    from herbcalc.classroom.handing_out import hand_out
    from herbcalc.classroom.roster import read_class

    room = read_class(words.folder)
    folder = Path(words.to or room.folder / ("to-share" if words.one_folder else "handouts"))
    try:
        out = hand_out(room, folder, words.one_folder)
    except OSError as error:
        raise _unwritable(folder, error) from error
    print(f"{len(out.new)} new, {len(out.unchanged)} as they were, {len(out.changed)} changed: "
          f"the handouts of {len(room.students)} students are in {folder}")
    if out.changed:
        print("Changed means: other numbers or another due date than before. Whoever has the "
              "older one already needs the new one when the numbers changed.")


def mark(words: argparse.Namespace) -> None:
    """Mark what the students handed in."""
    from herbcalc.classroom.marking import mark
    from herbcalc.classroom.roster import read_class

    room = read_class(words.folder)
    returns = Path(words.returns or room.folder / "returns")
    marks = room.folder / "marks"
    if not words.sandbox:
        print("Without a sandbox: what is in the returns runs with all your own rights.")
    meter = _Meter()
    try:
        outcomes = mark(room, returns, marks, sandboxed=words.sandbox, again=words.again,
                        progress=meter)
    except KeyboardInterrupt:
        meter.end()
        print("Stopped. What is marked is kept; the same command goes on from there.")
        raise
    except OSError as error:
        raise _unwritable(marks, error) from error
    meter.end()
    print(*_what_was_marked(outcomes), f"All outcomes: {marks / 'outcomes.json'}", sep="\n")


class _Meter:
    """How far the marking is, on one line of a terminal; elsewhere a line now and then."""

    def __init__(self):
        self._shown, self._terminal = -1, sys.stderr.isatty()

    def __call__(self, done: int, of: int, left: float | None) -> None:
        words = f"{done} of {of} marked"
        if left:
            words += ", about "
            words += f"{left:.0f} s left" if left < 100 else f"{left / 60:.0f} min left"
        if self._terminal:
            print(f"\r{words:<60}", end="", file=sys.stderr, flush=True)
        elif of and done * 10 // of > self._shown:
            self._shown = done * 10 // of
            print(words, file=sys.stderr, flush=True)

    def end(self) -> None:
        if self._terminal:
            print(file=sys.stderr)


def _what_was_marked(outcomes) -> list[str]:
    said = []
    for homework in outcomes.homeworks:
        handed_in = {one.student for one in outcomes.counting(homework)}
        missing = [code for code in outcomes.students if code not in handed_in]
        said.append(f"{homework}: {len(handed_in)} of {len(outcomes.students)} students have "
                    "handed in" + (f", not yet: {', '.join(missing)}" if missing else ""))
    noted = [f"  {one.file}: {note}" for one in outcomes.returns for note in one.notes]
    if noted:
        said += ["Look at these:", *noted]
    if outcomes.unmarked:
        said += ["Not marked:", *(f"  {one.file}: {one.why}" for one in outcomes.unmarked)]
    return said


def _unwritable(folder, error: OSError) -> ValueError:
    return ValueError(f"{folder} cannot be written ({error.strerror or error}).")


def add_verbs(verbs) -> None:
    """Add these verbs to the command's."""
    verb = verbs.add_parser(
        "hand-out",
        help="make everyone's homework notebooks",
        description="Make a homework notebook with their own numbers for each student of a class. "
        "The class folder holds roster.csv (columns: student, name) and class.toml (title, "
        "secret, due dates). The same class gives the same files, byte for byte.",
    )
    verb.add_argument("folder", nargs="?", default=".", help="the class folder (default: here)")
    verb.add_argument("--to", metavar="FOLDER", help="where to (default: handouts in the class)")
    verb.add_argument("--one-folder", action="store_true",
                      help="all in one folder to share, instead of a folder for each student")
    verb.set_defaults(run=hand_out)

    verb = verbs.add_parser(
        "mark",
        help="mark what the students handed in",
        description="Mark every notebook in the folder of returns, whatever it is called there; "
        "zips are looked into. Each runs in a sandbox and is judged outside of it. Stopped at any "
        "moment, the same command goes on; what is marked is not marked again.",
    )
    verb.add_argument("folder", nargs="?", default=".", help="the class folder (default: here)")
    verb.add_argument("--returns", metavar="FOLDER",
                      help="what was handed in (default: returns in the class folder)")
    verb.add_argument("--without-sandbox", dest="sandbox", action="store_false",
                      help="run students' code with all your own rights: only for code you know")
    verb.add_argument("--again", action="store_true",
                      help="mark everything anew, also what is marked already")
    verb.set_defaults(run=mark)

    verb = verbs.add_parser(
        "demo-class",
        help="make an invented class, to try marking",
        description="Write an invented class of 12 students: roster, class file and what they "
        "handed in.",
    )
    verb.add_argument("folder", help="a new folder")
    verb.set_defaults(run=demo_class)

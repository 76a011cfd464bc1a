"""Handing out: a homework notebook for each student, with their own numbers and their due date.

The same class file, roster and course give the same bytes. Only the student code is in them.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from herbcalc.classroom.notebook import homework_notebook, notebook_text
from herbcalc.classroom.roster import ClassFile
from herbcalc.classroom.topics import find_topic
from herbcalc.files import write_whole

__all__ = ["HandedOut", "hand_out"]

READ_FIRST = "read-me-first.txt"


@dataclass(frozen=True)
class HandedOut:
    """What was written: files new, changed since the last time, and as they were."""

    folder: Path
    new: tuple[Path, ...]
    changed: tuple[Path, ...]
    unchanged: tuple[Path, ...]


def hand_out(room: ClassFile, folder: str | Path, one_folder: bool = False) -> HandedOut:
    """Write everyone's handouts.

    Parameters
    ----------
    room : ClassFile
    folder : path
        made where it is missing; files that are there already stay untouched where nothing in
        them changes
    one_folder : bool
        all in one folder to share, with a note which file is whose; otherwise a folder for each
        student

    Raises
    ------
    OSError
        when the folder cannot be written.
    """
    folder = Path(folder)
    files = {}
    for assignment in room.assignments:
        topic = find_topic(assignment.homework)
        for student in room.students:
            notebook = homework_notebook(topic, student.code, room.key(student.code),
                                         assignment.due_words)
            files[_place(topic.name, student.code, one_folder)] = notebook_text(notebook)
    if one_folder:
        files[Path(READ_FIRST)] = _note(room)
    outcome = {"new": [], "changed": [], "unchanged": []}
    for place, text in files.items():
        path = folder / place
        there = path.read_bytes() if path.is_file() else None
        if there != text.encode():
            path.parent.mkdir(parents=True, exist_ok=True)
            write_whole(path, text)
        kind = "new" if there is None else "unchanged" if there == text.encode() else "changed"
        outcome[kind].append(path)
    return HandedOut(folder, **{kind: tuple(paths) for kind, paths in outcome.items()})


def _place(homework, code, one_folder) -> Path:
    return Path(f"{homework}_{code}.ipynb") if one_folder else Path(code, f"{homework}.ipynb")


def _note(room) -> str:
    lines = [room.title, "",
             "Take the files that end in your own code, and no one else's: the numbers in them are",
             "yours. Work on a copy and hand it back, by the date below; its name does not matter.",
             ""]
    for assignment in room.assignments:
        until = f", by {assignment.due_words}" if assignment.due else ""
        lines.append(f"{assignment.homework}{until}")
    return "\n".join(lines) + "\n"

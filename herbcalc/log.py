"""The log of the shelf: which batches were made, what was seen at each look, and what is due.

Two plain CSV files in the user's own folder, ``batch-log.csv`` and ``inspection-log.csv``. Lines
are only ever added. Each is written in one go and pushed to the disk before it counts, and it
ends with the moment of writing, so a line torn by a crash or a full disk is known for what it
is: it is left out, told of, and the next line starts afresh below it.
"""

from __future__ import annotations

import csv
import io
import os
import re
from datetime import date, datetime
from pathlib import Path

from herbcalc.batch import Batch
from herbcalc.cupboard import poured

__all__ = ["BATCH_LOG", "CHOICES", "INSPECTION_LOG", "STATES", "add", "batches", "checked_day",
           "inspect", "inspections", "stand", "standing"]

BATCH_LOG, INSPECTION_LOG = "batch-log.csv", "inspection-log.csv"
_COLUMNS = {
    BATCH_LOG: ("code", "herb", "latin", "state", "part", "jars", "jar_ml", "herb_g", "liquid",
                "ends_at", "start", "strain_from", "strain_to", "use_by", "inspections", "note",
                "written"),
    INSPECTION_LOG: ("code", "day", "look", "smell", "clarity", "growth", "done", "note",
                     "written"),
}
_LONGEST = 2000  # characters of a note
_DAYS = ("start", "strain_from", "strain_to", "use_by", "day")
#: What can be seen at a look, the good first, and what may be done then.
CHOICES = {
    "look": ("good", "doubtful"),
    "smell": ("good", "doubtful"),
    "clarity": ("clear", "cloudy"),
    "growth": ("none", "seen"),
    "done": ("", "strained", "used up", "thrown out", "put back"),
}
#: Where a batch stands, the most urgent first, with what it means.
STATES = {
    "throw out": "past its date, or spoiled",
    "to strain": "its straining days have come, or are over",
    "to look at": "a look is due",
    "steeping": "on the herb, nothing due",
    "keeping": "strained, nothing due",
    "gone": "used up or thrown out",
}


# --- adding ---------------------------------------------------------------------------------------


def add(batch, folder=".", note=""):
    """Write a batch into the log.

    Parameters
    ----------
    batch : Batch
    folder : path, the user's own folder
    note : str

    Returns
    -------
    Path of the log

    Raises
    ------
    ValueError
        when its code is in the log already, or the log cannot be written.
    """
    if not isinstance(batch, Batch):
        raise ValueError("The log takes a batch: add(batch), say.")
    if batch.code in set(batches(folder)["code"]):
        raise ValueError(f"There is a batch {batch.code} in the log already: give this one a code "
                         "of its own.")
    herb, dates = batch.herb, batch.dates
    strain = dates.strain or ("", "")
    return _append(folder, BATCH_LOG, [
        batch.code, herb.name, herb.latin, herb.state, herb.part, batch.jars, f"{batch.jar:.0f}",
        f"{batch.made.herb_mass:g}", poured(batch), batch.final_words, dates.start, *strain,
        dates.use_by, " ".join(map(str, dates.inspections)), str(note)])


def inspect(code, day=None, *, look="good", smell="good", clarity="clear", growth="none",
            done="", note="", folder="."):
    """Write down a look at a batch.

    Parameters
    ----------
    code : str, of a batch in the log
    day : date or "2027-02-07"; today when nothing is said
    look, smell, clarity, growth, done : str, one of `CHOICES`; "put back" takes an earlier
        "strained", "used up" or "thrown out" back
    note : str
    folder : path

    Returns
    -------
    Path of the log

    Raises
    ------
    ValueError
        for a batch that is not in the log, a word that is not among the choices, a day that is
        none.
    """
    known = list(batches(folder)["code"])
    if code not in known:
        raise ValueError(f"There is no batch {str(code)[:30]!r} in the log. It has: "
                         f"{', '.join(known[-8:]) or 'none yet'}.")
    seen = dict(look=look, smell=smell, clarity=clarity, growth=growth, done=done)
    for name, word in seen.items():
        if word not in CHOICES[name]:
            offered = " or ".join(repr(choice) for choice in CHOICES[name])
            raise ValueError(f"{name} is {offered}, not {str(word)[:30]!r}.")
    return _append(folder, INSPECTION_LOG, [code, checked_day(day), *seen.values(), str(note)])


def checked_day(day):
    """A day as a date: a date, "2027-02-07", or today when it is None."""
    if day is None:
        return date.today()
    try:
        return date.fromisoformat(day) if isinstance(day, str) else date(day.year, day.month,
                                                                         day.day)
    except (ValueError, AttributeError):
        raise ValueError(f"{str(day)[:30]!r} is no date: write the year, month and day like "
                         "2027-01-31.") from None


def _append(folder, name, values):
    """Add one line in one write, on the disk before this returns."""
    if len(values[-1]) > _LONGEST:
        raise ValueError(f"A note holds up to {_LONGEST} characters: make it shorter.")
    path = Path(folder) / name
    line = _line([*values, datetime.now().isoformat(timespec="seconds")])
    try:
        # binary: Windows must not change the line ends; append: two writers do not overwrite
        handle = os.open(path, os.O_RDWR | os.O_CREAT | os.O_APPEND | getattr(os, "O_BINARY", 0),
                         0o644)
        try:
            size = os.fstat(handle).st_size
            if size == 0:
                line = _line(_COLUMNS[name]) + line
            else:
                os.lseek(handle, -1, os.SEEK_END)
                if os.read(handle, 1) != b"\n":  # a crash tore the last line: start below it
                    line = "\n" + line
            data = line.encode("utf-8")
            if os.write(handle, data) != len(data):
                raise OSError(0, "the disk is full")
            os.fsync(handle)
        finally:
            os.close(handle)
    except OSError as error:
        raise ValueError(f"The log {path} could not be written: "
                         f"{error.strerror or error}. Nothing in it is lost.") from None
    return path


def _line(values):
    text = io.StringIO()
    # one record, one line: a line end in a note would let a crash tear more than its own record
    csv.writer(text, lineterminator="\n").writerow(" ".join(str(one).split()) for one in values)
    return text.getvalue()


# --- reading --------------------------------------------------------------------------------------

_WRITTEN = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d")


def batches(folder="."):
    """The batches as a pandas DataFrame, in the order they were written.

    What could not be read is told in its ``attrs["unread"]``, one sentence a line.

    Parameters
    ----------
    folder : path

    Returns
    -------
    pandas.DataFrame, empty where there is no log yet
    """
    return _read(folder, BATCH_LOG)


def inspections(folder="."):
    """The looks as a pandas DataFrame, in the order they were written; as `batches`."""
    return _read(folder, INSPECTION_LOG)


def _read(folder, name):
    import pandas as pd  # here: the rest of the course need not wait for it

    path, columns = Path(folder) / name, _COLUMNS[name]
    try:
        text = path.read_bytes().decode("utf-8-sig", "replace")
    except FileNotFoundError:
        text = ""
    except OSError as error:
        raise ValueError(f"The log {path} could not be read: {error.strerror or error}.") from None
    good, unread = [_line(columns).rstrip("\n")], []
    for number, line in enumerate(text.replace("\r", "").split("\n"), start=1):
        try:
            fields = next(csv.reader([line]), [])
        except csv.Error:
            fields = []
        if not line.strip() or tuple(fields) == columns:
            continue
        if _whole(dict(zip(columns, fields)), len(fields) == len(columns)):
            good.append(line)
        else:
            unread.append(f"Line {number} of {name} is not whole and was left out: "
                          f"{line[:60]!r}.")
    table = pd.read_csv(io.StringIO("\n".join(good)), dtype=str, keep_default_na=False)
    for column in set(_DAYS) & set(columns):
        table[column] = pd.to_datetime(table[column].replace("", None), format="%Y-%m-%d")
    if "jars" in columns:
        table["jars"] = table["jars"].astype(int)
    table.attrs["unread"] = tuple(unread)
    return table


def _whole(row, complete):
    """Whether all of a line was written, and its days are days."""
    if not complete or not _WRITTEN.fullmatch(row["written"]):
        return False
    days = [row[name] for name in _DAYS if row.get(name)]
    days += row.get("inspections", "").split()
    try:
        for day in days:
            date.fromisoformat(day)
        return int(row.get("jars", 1)) > 0
    except ValueError:
        return False


# --- what is due ----------------------------------------------------------------------------------


def standing(today=None, folder="."):
    """Where every batch stands on a day: what is steeping, what is due, what is past its date.

    Parameters
    ----------
    today : date or "2027-02-07"; today when nothing is said
    folder : path

    Returns
    -------
    pandas.DataFrame with the columns code, herb, state (fresh or dried), jars, standing (one of
        `STATES`), due (the words), on (the day it was or will be due), use_by; the most urgent
        first. What could not be read is in its ``attrs["unread"]``.
    """
    return stand(batches(folder), inspections(folder), today)


def stand(made, looks, today=None):
    """`standing`, from the two tables as `batches` and `inspections` read them."""
    import pandas as pd

    now = pd.Timestamp(checked_day(today))
    rows = []
    for batch in made[made["start"] <= now].to_dict("records"):
        seen = looks[(looks["code"] == batch["code"]) & (looks["day"] <= now)]
        rows.append({name: batch[name] for name in ("code", "herb", "state", "jars")}
                    | dict(zip(("standing", "due", "on"), _stands(batch, seen, now, pd)))
                    | {"use_by": batch["use_by"]})
    columns = ["code", "herb", "state", "jars", "standing", "due", "on", "use_by"]
    table = pd.DataFrame(rows, columns=columns)
    order = table["standing"].map(list(STATES).index)
    table = table.assign(order=order).sort_values(["order", "on", "code"]).drop(columns="order")
    table.attrs["unread"] = made.attrs.get("unread", ()) + looks.attrs.get("unread", ())
    return table.reset_index(drop=True)


def _stands(batch, seen, now, pd):
    """(standing, what is due, on which day) of one batch."""
    done = ""
    for word in seen.sort_values("day", kind="stable")["done"]:
        done = "" if word == "put back" else word or done
    if done in ("used up", "thrown out"):
        return "gone", done, seen["day"].max()
    bad = seen[(seen["growth"] == "seen") | (seen["smell"] == "doubtful")]
    if len(bad):
        return "throw out", "spoiled when last seen: throw it out", bad["day"].min()
    if now > batch["use_by"]:
        return "throw out", "past its date: throw it out", batch["use_by"]
    strained = done == "strained"
    window = batch["strain_from"], batch["strain_to"]
    if not strained and not pd.isna(window[0]) and now >= window[0]:
        late = now > window[1]
        return "to strain", "overdue: strain it" if late else "strain and press", window[0]
    planned = [pd.Timestamp(day) for day in batch["inspections"].split()]
    last = seen["day"].max() if len(seen) else batch["start"]
    missed = [day for day in planned if last < day <= now]
    if missed:
        return "to look at", "look and smell", missed[0]
    coming = [("look and smell", day) for day in planned if day > now]
    if not strained and not pd.isna(window[0]):
        coming.append(("strain and press", window[0]))
    coming.append(("use by", batch["use_by"]))
    return ("keeping" if strained else "steeping", *min(coming, key=lambda one: one[1]))

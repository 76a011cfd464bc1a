"""The log: append-only, whole after a crash, read by pandas, and what it says is due."""

import subprocess
import sys
from datetime import date, timedelta

import pandas as pd
import pytest
from hypothesis import HealthCheck, given, settings, strategies as st

import herbcalc as hc
from herbcalc import log

START = date(2027, 1, 10)


def a_batch(**changes):
    return hc.Batch(**dict(dict(herb="dried thyme", jar=500, ratio=5, liquid="spirit 50",
                                start=START), **changes))


@pytest.fixture
def shelf(tmp_path):
    log.add(a_batch(code="A"), tmp_path)
    return tmp_path


def stands(folder, day, code="A"):
    table = log.standing(START + timedelta(days=day), folder)
    row = table[table["code"] == code].iloc[0]
    return row["standing"], row["due"], row["on"].date()


# --- the files -----------------------------------------------------------------------------------


def test_plain_pandas_reads_both_files(shelf):
    """What a teacher would do in a notebook of her own: no word of our reader in it."""
    log.add(a_batch(code="B", herb="fresh peppermint", ratio=None, fill=0.7, jars=12), shelf)
    log.inspect("A", "2027-01-11", note='clear, and "fresh"\nas on the first day', folder=shelf)
    made = pd.read_csv(shelf / "batch-log.csv", parse_dates=["start", "use_by"])
    assert list(made["code"]) == ["A", "B"] and list(made["jars"]) == [1, 12]
    assert made["start"].dt.date.tolist() == [START, START]
    looks = pd.read_csv(shelf / "inspection-log.csv", keep_default_na=False)
    assert looks["note"][0] == 'clear, and "fresh" as on the first day'
    assert looks.loc[0, ["look", "smell", "clarity", "growth"]].tolist() == [
        "good", "good", "clear", "none"]


def test_what_stands_there_is_never_changed(shelf):
    path = shelf / "batch-log.csv"
    before = path.read_bytes()
    for number in range(5):
        log.add(a_batch(code=f"N{number}"), shelf)
        after = path.read_bytes()
        assert after.startswith(before)
        before = after


@settings(max_examples=40, deadline=None,
          suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(note=st.text(max_size=200))
def test_any_note_comes_back(tmp_path_factory, note):
    folder = tmp_path_factory.mktemp("log")
    log.add(a_batch(code="A"), folder)
    log.inspect("A", START, note=note.encode("utf-8", "replace").decode(), folder=folder)
    log.inspect("A", START, note="after", folder=folder)
    looks = log.inspections(folder)
    kept = " ".join(note.encode("utf-8", "replace").decode().split())
    assert looks["note"].tolist() == [kept, "after"] and not looks.attrs["unread"]


def test_a_line_torn_at_any_byte_costs_only_itself(shelf):
    """A crash may leave any part of the last line: all before it is read, all after it too."""
    path = shelf / "batch-log.csv"
    first = path.read_bytes()
    log.add(a_batch(code="B", herb=hc.Herb('Süßholz, "wild"', "dried", 0.1, 0.3)), shelf)
    both = path.read_bytes()
    for cut in range(len(first) + 1, len(both)):
        path.write_bytes(both[:cut])
        whole = cut == len(both) - 1  # only the line end is missing: all was written
        table = log.batches(shelf)
        assert table["code"].tolist() == (["A", "B"] if whole else ["A"]), cut
        assert len(table.attrs["unread"]) == (0 if whole else 1)
        log.add(a_batch(code="C"), shelf)
        table = log.batches(shelf)
        assert table["code"].tolist() == (["A", "B", "C"] if whole else ["A", "C"]), cut
        assert path.read_bytes().startswith(both[:cut])


def test_killed_while_writing_nothing_that_was_told_is_lost(tmp_path):
    """A real process, a real kill -9 in the middle of a run of writes, several times."""
    code = ("import herbcalc as hc; from herbcalc import log\n"
            "b = hc.Batch('dried thyme', jar=500, ratio=5, liquid='spirit 50', "
            "start='2027-01-10', code='A')\n"
            "if not len(log.batches()): log.add(b)\n"
            "print('ready', flush=True)\n"
            "n = len(log.inspections())\n"
            "while True:\n"
            "    log.inspect('A', '2027-01-11', note=f'look {n}, ' + 'x' * 900)\n"
            "    print(n, flush=True); n += 1\n")
    told = 0
    for lines in (1, 2, 5, 9):
        run = subprocess.Popen([sys.executable, "-c", code], cwd=tmp_path,
                               stdout=subprocess.PIPE, text=True)
        assert run.stdout.readline() == "ready\n"
        for _ in range(lines):
            told += run.stdout.readline().endswith("\n")
        run.kill()  # at once: the next line is being written
        told += sum(line.endswith("\n") for line in run.communicate()[0].splitlines(True))
        assert len(log.inspections(tmp_path)) >= told > 0
    assert log.batches(tmp_path)["code"].tolist() == ["A"]


def test_two_writers_at_once_lose_nothing(shelf):
    code = ("import sys; from herbcalc import log\n"
            "for n in range(40): log.inspect('A', '2027-01-11', note=sys.argv[1] + str(n))\n")
    runs = [subprocess.Popen([sys.executable, "-c", code, name], cwd=shelf) for name in "xy"]
    assert [run.wait() for run in runs] == [0, 0]
    notes = set(log.inspections(shelf)["note"])
    assert notes == {f"{name}{n}" for name in "xy" for n in range(40)}


def test_lines_of_other_hands_are_told_and_left(shelf):
    path = shelf / "batch-log.csv"
    good = path.read_text(encoding="utf-8").splitlines()[1]
    with open(path, "a", encoding="utf-8", newline="") as file:
        file.write("my own note\r\n\r\n" + good.replace("2027-01-10", "10.1.2027") + "\r\n")
    table = log.batches(shelf)
    assert table["code"].tolist() == ["A"] and len(table.attrs["unread"]) == 2
    assert "Line 3 of batch-log.csv" in table.attrs["unread"][0]
    assert log.standing(START, shelf).attrs["unread"] == table.attrs["unread"]


def test_no_log_yet_is_an_empty_table(tmp_path):
    assert log.batches(tmp_path).empty and log.inspections(tmp_path).empty
    assert log.standing(START, tmp_path).empty and not list(tmp_path.iterdir())


@pytest.mark.parametrize("does, said", [
    (lambda folder: log.add(a_batch(code="A"), folder), "already"),
    (lambda folder: log.add("thyme", folder), "takes a batch"),
    (lambda folder: log.inspect("Z", folder=folder), "no batch 'Z'.*A"),
    (lambda folder: log.inspect("A", "yesterday", folder=folder), "no date"),
    (lambda folder: log.inspect("A", smell="nice", folder=folder), "'good' or 'doubtful'"),
    (lambda folder: log.inspect("A", note="x" * 3000, folder=folder), "shorter"),
    (lambda folder: log.add(a_batch(), folder / "nowhere"), "could not be written"),
])
def test_what_does_not_go_gets_one_sentence_and_changes_nothing(shelf, does, said):
    before = {path.name: path.read_bytes() for path in shelf.iterdir()}
    with pytest.raises(ValueError, match=said):
        does(shelf)
    assert {path.name: path.read_bytes() for path in shelf.iterdir()} == before


# --- what is due ---------------------------------------------------------------------------------


def test_a_batch_through_its_life(shelf):
    strain = START + timedelta(weeks=4)
    assert log.standing(START - timedelta(days=1), shelf).empty
    assert stands(shelf, 0) == ("steeping", "look and smell", START + timedelta(days=1))
    assert stands(shelf, 2) == ("to look at", "look and smell", START + timedelta(days=1))
    log.inspect("A", START + timedelta(days=2), folder=shelf)
    assert stands(shelf, 2) == ("steeping", "look and smell", START + timedelta(days=3))
    assert stands(shelf, 28) == ("to strain", "strain and press", strain)
    assert stands(shelf, 60)[1] == "overdue: strain it"
    log.inspect("A", START + timedelta(days=30), done="strained", folder=shelf)
    assert stands(shelf, 30)[0] == "keeping"
    assert stands(shelf, 50) == ("to look at", "look and smell", START + timedelta(days=42))
    log.inspect("A", START + timedelta(days=95), folder=shelf)
    assert stands(shelf, 95)[0] == "keeping"
    assert stands(shelf, 15 * 365 + 1)[0] == "throw out"
    log.inspect("A", START + timedelta(days=400), done="used up", folder=shelf)
    assert stands(shelf, 400)[:2] == ("gone", "used up")
    assert stands(shelf, 100)[0] != "gone"  # a look of later days is not known before


@pytest.mark.parametrize("seen", [dict(growth="seen"), dict(smell="doubtful")])
def test_what_is_spoiled_is_thrown_out_whatever_is_seen_later(shelf, seen):
    log.inspect("A", START + timedelta(days=5), folder=shelf, **seen)
    log.inspect("A", START + timedelta(days=6), folder=shelf)
    assert stands(shelf, 7) == ("throw out", "spoiled when last seen: throw it out",
                                START + timedelta(days=5))
    log.inspect("A", START + timedelta(days=7), done="thrown out", folder=shelf)
    assert stands(shelf, 8)[0] == "gone"


def test_a_slip_is_taken_back_by_another_line(shelf):
    log.inspect("A", START + timedelta(days=5), done="thrown out", folder=shelf)
    log.inspect("A", START + timedelta(days=5), done="put back", folder=shelf)
    assert stands(shelf, 5)[0] == "steeping"


def test_the_most_urgent_stands_first(shelf):
    log.add(a_batch(code="W", liquid="water"), shelf)
    log.add(a_batch(code="G"), shelf)
    log.inspect("G", START, done="used up", folder=shelf)
    table = log.standing(START + timedelta(days=8), shelf)
    assert table["code"].tolist() == ["W", "A", "G"]
    assert table["standing"].tolist() == ["throw out", "to look at", "gone"]

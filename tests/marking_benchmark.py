"""How long marking takes against plain ``pytest --nbval-lax`` over the same notebooks.

    python tests/marking_benchmark.py               # 16 returns, three rounds side by side
    python tests/marking_benchmark.py --returns 300 --rounds 0    # one large run: is memory flat?

Both do their work on the same processors: plain pytest runs all notebooks in one session, as it
comes; the marking has its sandbox on. The rounds alternate, and the medians are compared. The
marking may take at most half the time of plain nbval.
"""

import argparse
import os
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from classroom_tools import TOPIC, hand_in, make_class, right_answers, work

from herbcalc.classroom.marking import mark

ALLOWED = 0.5  # of plain nbval's time
FLAT = 30  # MB by which the memory may grow between a fifth of a large run and its end


def make_returns(folder, count):
    room = make_class(folder, [f"student-{n:03}" for n in range(1, count + 1)])
    for code in room.codes:
        hand_in(room, f"{code}.ipynb", work(room, code, right_answers(room, code)))
    return room


def plain(folder) -> float:
    """Seconds of plain nbval over a folder of notebooks."""
    notebooks = sorted(path.name for path in folder.glob("*.ipynb"))
    (folder / "pytest.ini").write_text("[pytest]\n")
    command = [sys.executable, "-m", "pytest", "--nbval-lax", "--nbval-current-env", "-q",
               "-p", "no:cacheprovider", "-c", "pytest.ini", *notebooks]
    start = time.perf_counter()
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True)
    seconds = time.perf_counter() - start
    assert done.returncode == 0, done.stdout[-2000:]
    return seconds


def marked(room, progress=lambda *told: None) -> float:
    """Seconds of marking the same, from nothing."""
    shutil.rmtree(room.folder / "marks", ignore_errors=True)
    start = time.perf_counter()
    outcomes = mark(room, room.folder / "returns", room.folder / "marks", progress=progress)
    seconds = time.perf_counter() - start
    count = len(room.codes)
    asked = len(TOPIC.homework)
    right = sum(answer.outcome in ("right", "written")
                for one in outcomes.returns for answer in one.answers)
    assert (len(outcomes.returns), right) == (count, count * asked), (len(outcomes.returns), right)
    return seconds


def compare(room, rounds) -> float:
    """Median of marking over median of plain nbval, measured in turn."""
    times = {"plain": [], "marked": []}
    for number in range(rounds):
        times["plain"].append(plain(room.folder / "returns"))
        times["marked"].append(marked(room))
        print(f"round {number + 1}: plain nbval {times['plain'][-1]:.1f} s, "
              f"marking {times['marked'][-1]:.1f} s", flush=True)
    return statistics.median(times["marked"]) / statistics.median(times["plain"])


def memory_of_a_run(room) -> list[float]:
    """MB that this process holds each time a return is done; and its children's most, at last."""
    held = []
    seconds = marked(room, lambda *told: held.append(_held()))
    print(f"{len(room.codes)} returns in {seconds:.0f} s")
    return held


def _held() -> float:
    with open("/proc/self/statm") as file:
        return int(file.read().split()[1]) * os.sysconf("SC_PAGE_SIZE") / 1e6


def main():
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--returns", type=int, default=16)
    parser.add_argument("--rounds", type=int, default=3)
    words = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="bench-") as folder:
        room = make_returns(Path(folder, "class"), words.returns)
        if words.rounds:
            ratio = compare(room, words.rounds)
            print(f"marking takes {ratio:.2f} of plain nbval's time ({ALLOWED} is allowed)")
            return ratio > ALLOWED
        held = memory_of_a_run(room)
        most = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1000
        fifth = held[len(held) // 5]
        print(f"memory at a fifth {fifth:.0f} MB, at the end {held[-1]:.0f} MB; the largest "
              f"process it started {most:.0f} MB")
        return held[-1] - fifth > FLAT


if __name__ == "__main__":
    sys.exit(main())

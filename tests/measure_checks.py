"""How long a student waits for a check, in a real kernel: ``python tests/measure_checks.py``.

Every check cell of every homework is run again and again with right, wrong and unreadable
answers; told are the first, the median and the slowest of the rest, in milliseconds, from asking
until the kernel is idle again. An empty cell is timed beside them for comparison.
"""

import statistics
import sys
import time

from jupyter_client.manager import start_new_kernel

from herbcalc.classroom import Function, model_answer, topics

ROUNDS = 20


def timed(client, code):
    start = time.perf_counter()
    reply = client.execute_interactive(code, timeout=60, output_hook=lambda message: None)
    if reply["content"]["status"] != "ok":
        raise SystemExit(f"{code}\n{reply['content']['evalue']}")
    return (time.perf_counter() - start) * 1000


def measure(client, topic):
    """Milliseconds of every check of one homework, in the order they were asked."""
    timed(client, "from herbcalc.classroom import open_homework\n"
                  f"homework = open_homework({topic.number!r})")
    drawn, times = topic.drawn(), []
    for turn in range(ROUNDS):
        for question in topic.homework:
            right = model_answer(question, drawn[question.name])
            right = "lambda **given: 1" if isinstance(question, Function) else repr(right)
            answer = (right, "1.5", "'0.123 L'", "'forty, or so'")[turn % 4]
            timed(client, f"answer = {answer}")
            times.append(timed(client, f'homework.check("{question.name}")'))
    return times


def tell(name, times):
    rest = sorted(times[1:])
    print(f"{name:28} first {times[0]:6.1f}   median {statistics.median(rest):5.1f}   "
          f"slowest {rest[-1]:6.1f} ms   ({len(times)} checks)")


if __name__ == "__main__":
    manager, client = start_new_kernel(kernel_name="python3")
    try:
        tell("an empty cell", [timed(client, "pass") for _ in range(100)])
        for topic in topics():
            if topic.homework:
                tell(topic.name, measure(client, topic))
    finally:
        client.stop_channels()
        manager.shutdown_kernel(now=True)
    sys.exit(0)

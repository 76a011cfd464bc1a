"""Running returns: what pytest and nbval load in the process that starts the sandboxed kernels.

Two parts. The kernel provisioner starts each kernel under bubblewrap, reached over sockets in a
folder of its own (IPC), and guards it: time, memory, scratch, output. The pytest hooks note, for
each cell of a clean copy, how it ended and what answer came out, and write one line of JSON per
notebook. Nothing here knows a question, a secret or a mark, and what a kernel sends is kept as
text, cut to a length, for others to judge.
"""

from __future__ import annotations

import asyncio
import json
import os
import signal
import socket
import subprocess
import sys
import tempfile
import threading
import time
from pathlib import Path
from queue import Empty

import pytest
import zmq
from jupyter_client.blocking import BlockingKernelClient
from jupyter_client.channels import ZMQSocketChannel
from jupyter_client.provisioning import LocalProvisioner
from traitlets import Bool, Dict, Type

from herbcalc.classroom.inside.start import LONGEST_MESSAGE, MIME
from herbcalc.classroom.sandbox import RESULTS, Limits, command, new_user, remove, start_line

__all__ = ["BoundedClient", "SandboxProvisioner"]

if os.environ.get(RESULTS):
    # A part of jsonschema's that nothing here uses (it checks web addresses) and that takes more
    # than a second to load with nbval: it does without where it is not installed.
    sys.modules.setdefault("rfc3987_syntax", None)

LARGEST_MESSAGE = 2_000_000  # bytes; a kernel that sends a larger one is cut off
_MESSAGES = 300  # that may wait
_POLL = 0.05  # seconds
_START = 30.0  # seconds for a kernel to open its sockets


# --- talking to a kernel that may say anything ---------------------------------------------------


class _Channel(ZMQSocketChannel):
    """A channel that counts what comes in, and notices when there is nobody left to send."""

    guard = None

    def get_msg(self, timeout=None):
        until = None if timeout is None else time.monotonic() + timeout
        while True:
            left = _POLL if until is None else min(_POLL, max(until - time.monotonic(), 0))
            if self.socket.poll(int(left * 1000)):
                return self._recv()
            if self.guard.gone:
                raise RuntimeError("The kernel is gone.")
            if until is not None and time.monotonic() >= until:
                raise Empty

    def _recv(self, **kwargs):
        parts = self.socket.recv_multipart(**kwargs)
        self.guard.received(sum(map(len, parts)))
        _, message = self.session.feed_identities(parts)
        return self.session.deserialize(message)


class BoundedClient(BlockingKernelClient):
    """nbval's side of the conversation."""

    shell_channel_class = Type(_Channel)
    iopub_channel_class = Type(_Channel)
    stdin_channel_class = Type(_Channel)
    control_channel_class = Type(_Channel)

    def _context_default(self):
        return self.parent.provisioner.guard.context()

    def start_channels(self, shell=True, iopub=True, stdin=True, hb=True, control=True):
        # No heartbeat: the guard knows whether the kernel lives. No input: nobody answers.
        guard = self.parent.provisioner.guard
        for channel in (self.shell_channel, self.iopub_channel, self.control_channel):
            channel.guard = guard
        super().start_channels(shell, iopub, stdin=False, hb=False, control=control)

    def stop_channels(self):
        for channel in (self._shell_channel, self._iopub_channel, self._control_channel):
            if channel is not None:
                channel.stop()

    def wait_for_ready(self, timeout=None):
        """Once the sockets are there the first reply is near; nbval itself waits for iopub."""
        self.kernel_info()
        try:
            self.shell_channel.get_msg(timeout=timeout)
        except Empty:
            raise RuntimeError("The kernel does not answer.") from None


# --- starting and guarding it --------------------------------------------------------------------


class _Guard(threading.Thread):
    """Watches one kernel from outside and ends it when it uses too much.

    `reason` then says why. Everything in a sandbox ends with the first process in it.
    """

    latest = None  # one kernel runs at a time in this process

    def __init__(self, limits: Limits, folder: Path):
        super().__init__(daemon=True)
        self.limits, self.folder = limits, folder
        self.process, self.first, self.reason = None, None, ""
        self._over = threading.Event()
        self._heard, self._context = 0, None
        _Guard.latest = self

    def context(self) -> zmq.Context:
        """Sockets that take no giant message, keep few, and never connect a second time.

        The folder of the sockets can be written by the kernel: a second connection might be led
        somewhere else.
        """
        if self._context is None:
            self._context = zmq.Context()
            self._context.setsockopt(zmq.MAXMSGSIZE, LARGEST_MESSAGE)
            self._context.setsockopt(zmq.RCVHWM, _MESSAGES)
            self._context.setsockopt(zmq.RECONNECT_IVL, -1)
        return self._context

    @property
    def gone(self) -> bool:
        """Whether the kernel has ended, for whatever reason."""
        return self.process is not None and self.process.poll() is not None

    def received(self, size: int) -> None:
        """Count output."""
        self._heard += size
        if self._heard > self.limits.output:
            self._end("it put out too much")
            raise RuntimeError("Too much output.")

    def run(self):
        start = time.monotonic()
        while not self._over.wait(0.1):
            if self.gone:
                return
            fault = self._fault(time.monotonic() - start)
            if fault:
                return self._end(fault)

    def _fault(self, seconds) -> str:
        if seconds > self.limits.seconds:
            return f"the whole of it took more than {self.limits.seconds:g} seconds"
        if _memory(self.process.pid) > self.limits.memory:
            return f"it used more than {self.limits.memory / 1e6:.0f} MB of memory"
        if _size(self.folder) > self.limits.scratch:
            return f"it wrote more than {self.limits.scratch / 1e6:.0f} MB"
        return ""

    def _end(self, reason):
        self.reason = self.reason or reason
        self.kill()

    def kill(self):
        """End the kernel and everything it has started; whoever waits for it sees it go."""
        if self.process is None or self.gone:
            return
        try:
            if self.first is not None:
                os.kill(self.first, signal.SIGKILL)  # takes all the others in there along
            else:
                os.killpg(self.process.pid, signal.SIGKILL)
        except ProcessLookupError:
            pass
        try:
            self.process.wait(5)
        except subprocess.TimeoutExpired:
            self.process.kill()

    def close(self):
        """End it for good and clear up; nbval does not where the kernel has ended by itself."""
        self._over.set()
        self.kill()
        if self._context is not None:
            self._context.destroy(linger=0)
        remove(self.folder)


def _children(pid: int) -> list[int]:
    found = []
    try:
        for thread in os.listdir(f"/proc/{pid}/task"):
            with open(f"/proc/{pid}/task/{thread}/children") as file:
                found += [int(child) for child in file.read().split()]
    except (OSError, ValueError):  # it has just ended, or there is no /proc here
        pass
    return found


def _memory(pid: int) -> int:
    """Bytes that a process and all that came from it hold in memory."""
    total, waiting = 0, [pid]
    while waiting:
        one = waiting.pop()
        waiting += _children(one)
        try:
            with open(f"/proc/{one}/statm") as file:
                total += int(file.read().split()[1]) * _PAGE
        except (OSError, ValueError, IndexError):
            continue
    return total


_PAGE = os.sysconf("SC_PAGE_SIZE") if hasattr(os, "sysconf") else 4096


def _size(folder: Path, most: int = 50) -> float:
    """Bytes in the folder of the sockets; endless when more is in it than sockets and files.

    Students have a scratch folder in memory; whoever writes here is up to something.
    """
    total = 0
    try:
        for place, entry in enumerate(os.scandir(folder)):
            if place > most or entry.is_dir(follow_symlinks=False):
                return float("inf")
            total += entry.stat(follow_symlinks=False).st_size
    except OSError:  # gone meanwhile
        pass
    return total


class SandboxProvisioner(LocalProvisioner):
    """Starts a kernel in the sandbox; in the kernel specification it is ``herbcalc-sandbox``.

    Its configuration there: `limits` (fields of `Limits`), and `sandboxed`, which is false only
    where somebody asked for it in so many words.
    """

    limits = Dict(help="fields of Limits")
    sandboxed = Bool(True)

    guard = None
    _folder = None

    async def pre_launch(self, **kwargs):
        manager = self.parent
        self._folder = Path(tempfile.mkdtemp(prefix="k"))
        manager.transport = "ipc"
        manager.ip = str(self._folder / "k")
        manager.connection_file = str(self._folder / "kernel.json")
        manager.client_factory = BoundedClient
        self.guard = _Guard(Limits(**self.limits), self._folder)
        manager.context = self.guard.context()
        return await super().pre_launch(**kwargs)

    async def launch_kernel(self, cmd, **kwargs):
        limits, folder = self.guard.limits, str(self._folder)
        user = new_user() if self.sandboxed else 0
        line = start_line(limits, self.parent.connection_file, user, self.sandboxed)
        if self.sandboxed:
            line = command(line, limits, shared=folder)
            if user:
                for path in (folder, self.parent.connection_file):
                    os.chown(path, user, user)
        # Neither an environment nor an open file of ours goes in. Whether this process ends or
        # is killed, bubblewrap and all within end too.
        self.process = subprocess.Popen(
            line, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
            cwd=folder, env={} if self.sandboxed else _plain_environment(), start_new_session=True,
        )
        self.pid = self.pgid = self.process.pid
        self.cwd = folder
        self.guard.process = self.process
        self.guard.start()
        await self._wait_for_sockets()
        if self.sandboxed:
            self.guard.first = next(iter(_children(self.process.pid)), None)
        return self.connection_info

    async def _wait_for_sockets(self):
        """Until every socket accepts: the client connects once and never again."""
        ports = ("shell_port", "iopub_port", "stdin_port", "control_port", "hb_port")
        until = time.monotonic() + _START
        for port in ports:
            path = f"{self.parent.ip}-{self.connection_info[port]}"
            while not _accepts(path):
                if self.guard.gone or time.monotonic() > until:
                    raise RuntimeError("The kernel does not start.")
                await asyncio.sleep(0.005)

    async def send_signal(self, signum):
        if signum == signal.SIGKILL:
            self.guard.kill()
        elif self.process and not self.sandboxed:
            await super().send_signal(signum)

    async def kill(self, restart=False):
        self.guard.kill()

    terminate = kill

    async def wait(self):
        while self.process.poll() is None:
            await asyncio.sleep(0.005)
        code, self.process = self.process.returncode, None
        return code

    async def cleanup(self, restart=False):
        self.guard.close()


def _accepts(path) -> bool:
    with socket.socket(socket.AF_UNIX) as attempt:
        try:
            attempt.connect(path)
        except OSError:
            return False
    return True


def _plain_environment() -> dict:
    kept = ("PATH", "HOME", "LANG", "LC_ALL", "SYSTEMROOT", "TMPDIR", "TEMP")
    return {name: os.environ[name] for name in kept if name in os.environ} | {
        "JPY_PARENT_PID": str(os.getpid()), "OPENBLAS_NUM_THREADS": "1"}


# --- the hooks of pytest -------------------------------------------------------------------------

_LONGEST_ERROR = 200


def pytest_configure(config):
    config.stash[_NOTEBOOK] = {"cells": []}
    if os.environ.get(RESULTS):
        _end_with_parent()


_NOTEBOOK = pytest.StashKey()


def _end_with_parent():
    """End at once when whoever started this is gone: standard input then ends."""
    handle = os.dup(0)

    def wait():
        while os.read(handle, 1):
            pass
        if _Guard.latest is not None:
            _Guard.latest.kill()
        os._exit(1)

    threading.Thread(target=wait, daemon=True).start()


def pytest_collection_modifyitems(items):
    for item in items:  # whatever comment a student has in a cell: it is run
        item.options = {"check": False, "skip": False, "check_exception": False}
        item.output_timeout = 3  # seconds to wait for a kernel that has stopped talking


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item, call):
    report = yield
    if report.when == "call" or report.failed:
        cells = item.config.stash[_NOTEBOOK]["cells"]
        if report.when != "teardown" or not cells:
            cells.append({"cell": item.cell_num, **_outcome(item, call.excinfo)})
        item.test_outputs = item.cell = None  # keep memory flat
    report.longrepr = report.longrepr and "failed"
    report.sections = []
    return report


def _outcome(item, excinfo) -> dict:
    outputs = item.test_outputs or []
    captured = [str(out["data"][MIME]) for out in outputs
                if out.get("output_type") == "display_data"
                and isinstance(out.get("data"), dict) and MIME in out["data"]]
    outcome = {"captured": captured[-1] if captured else None}
    if captured and len(captured[-1]) > LONGEST_MESSAGE:
        outcome["captured"] = None
    error = next((out for out in outputs if out.get("output_type") == "error"), None)
    if item.parent.timed_out:  # not always an exception: the interrupt may have been swallowed
        item.parent.timed_out = False
        outcome["error"] = ["timeout", ""]
    elif error is not None:
        outcome["error"] = [str(error.get("ename"))[:_LONGEST_ERROR],
                            str(error.get("evalue"))[:_LONGEST_ERROR]]
    elif excinfo is not None:
        outcome["error"] = ["gone", ""]
    return outcome


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item, nextitem):
    done = yield
    if nextitem is None or nextitem.parent is not item.parent:
        notebook = item.config.stash[_NOTEBOOK]
        guard = _Guard.latest
        line = {"notebook": Path(item.path).stem, "cells": notebook["cells"],
                "stopped": guard.reason if guard else "", "started": guard is not None}
        item.config.stash[_NOTEBOOK] = {"cells": []}
        with open(os.environ[RESULTS], "a", encoding="utf-8") as file:
            file.write(json.dumps(line) + "\n")  # one write: a reader sees whole lines
        if guard:
            guard.close()
        _Guard.latest = item.parent.kernel = item.parent.nb = None
    return done

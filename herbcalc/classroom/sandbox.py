"""The sandbox in which a student's code runs: bubblewrap's command line, and the limits.

Inside there is no network, no other process, an empty home, and one scratch folder in memory
that goes with the sandbox; the system, Python and the science of the course are there to read.
The exercises, the judging, the class folder and the rest of the machine are not there at all.
"""

from __future__ import annotations

import json
import os
import shutil
import site
import subprocess
import sys
import sysconfig
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from herbcalc import places

__all__ = ["HOME", "RESULTS", "Limits", "command", "new_user", "remove", "start_line", "trouble",
           "visible"]

RESULTS = "HERBCALC_MARKING_RESULTS"  # names the file to which `running` writes

HOME = "/tmp/home"  # inside
_CLASSROOM = Path(__file__).resolve().parent
_INSIDE = _CLASSROOM / "inside"
_PACKAGE = _CLASSROOM.parent
_FIRST_USER, _LAST_USER = 0x70000000, 0x7FFFFFFE  # no system hands these numbers out
_INSTALL = ("install it with your system's package manager (Debian and Ubuntu: sudo apt install "
            "bubblewrap; Fedora: sudo dnf install bubblewrap)")


@dataclass(frozen=True)
class Limits:
    """What one return may use.

    Parameters
    ----------
    seconds, cell_seconds : float
        for the whole return, for one answer
    memory : int
        bytes, of all its processes together
    address_space : int
        bytes, of one process; much of it is only reserved
    processes : int
        threads counted; the kernel itself has about ten
    file_size, scratch : int
        bytes, of one file, of all files together
    output : int
        bytes of everything shown or printed
    """

    seconds: float = 60.0
    cell_seconds: float = 10.0
    memory: int = 1_000_000_000
    address_space: int = 2_500_000_000
    processes: int = 48
    file_size: int = 10_000_000
    scratch: int = 50_000_000
    output: int = 4_000_000


def trouble() -> str:
    """Why there is no sandbox to be had here, in one sentence; empty when there is one.

    It is tried for real: a sandbox is started, with all its limits, and the course loaded in it.
    """
    if not sys.platform.startswith("linux"):
        return ("The sandbox for students' code needs Linux: run the marking in a Linux "
                "container or, on Windows, in WSL.")
    if not shutil.which("bwrap"):
        return f"Bubblewrap (bwrap), the sandbox for students' code, is missing: {_INSTALL}."
    try:
        done = subprocess.run(command(start_line(Limits()), Limits()), env={}, timeout=60,
                              capture_output=True, text=True, errors="replace")
    except (OSError, subprocess.TimeoutExpired) as error:
        return f"Bubblewrap does not start here: {error}."
    if done.returncode == 0:
        return ""
    said = (done.stderr.strip().splitlines() or ["it gave no reason"])[-1][:200]
    if "nknown option" in said:
        return f"Bubblewrap is too old here, 0.8 or newer is needed: {_INSTALL}."
    return (f"Bubblewrap is there but cannot make a sandbox on this system ({said}): it needs "
            "Linux 5.14 or newer with user namespaces allowed.")


def start_line(limits: Limits, connection_file: str = "", user: int = 0,
               sandboxed: bool = True) -> list[str]:
    """The command that starts a kernel under its limits."""
    within = {"cpu": int(limits.seconds) + 1, "address_space": limits.address_space,
              "file_size": limits.file_size, "open_files": 256}
    if sandboxed:  # without it everything else that is open would count as processes too
        within |= {"all": True, "processes": limits.processes, "user": user or new_user()}
    return [sys.executable, str(_INSIDE / "start.py"), json.dumps(within), connection_file]


def new_user() -> int:
    """As root: a user number that nothing else has; 0 for anyone else."""
    if not hasattr(os, "geteuid") or os.geteuid() != 0:
        return 0
    span = _LAST_USER - _FIRST_USER
    return _FIRST_USER + int.from_bytes(os.urandom(4)) % span


def command(inner: list[str], limits: Limits, shared: str = "") -> list[str]:
    """The whole command line of a sandbox.

    Parameters
    ----------
    inner : list of str
        what to run in it
    limits : Limits
    shared : str
        a folder that is seen inside under the same name and can be written there: for the
        sockets of the kernel
    """
    line = ["bwrap", "--unshare-ipc", "--unshare-pid", "--unshare-net", "--unshare-uts",
            "--unshare-cgroup-try", "--die-with-parent", "--new-session",
            "--hostname", "sandbox", "--cap-drop", "ALL"]
    if os.geteuid() == 0:  # only to become somebody else, see inside/start.py
        line += ["--cap-add", "CAP_SETUID", "--cap-add", "CAP_SETGID"]
    else:
        line += ["--unshare-user", "--disable-userns"]
    line += ["--clearenv"]
    for name, value in _environment().items():
        line += ["--setenv", name, value]
    line += _passable(_system())
    # Before Python's rooms, or it would cover a course that stands in /tmp itself.
    line += ["--perms", "1777", "--size", str(limits.scratch), "--tmpfs", "/tmp",
             "--perms", "0777", "--dir", HOME]
    line += _passable(_python())
    line += ["--proc", "/proc", "--dev", "/dev", "--remount-ro", "/dev"]
    if shared:
        line += _passable(("--bind", shared, shared))
    # Its root is a folder in memory too, without a limit: closed once all is in place.
    return [*line, "--remount-ro", "/", "--chdir", HOME, "--", *inner]


def _environment() -> dict[str, str]:
    return {
        "PATH": "/usr/bin:/bin", "HOME": HOME, "USER": "student", "LANG": "C.UTF-8",
        "IPYTHONDIR": f"{HOME}/.ipython", "PYTHONDONTWRITEBYTECODE": "1", "PYTHONNOUSERSITE": "1",
        # Threads of the numerics count as processes and reserve memory each.
        "OPENBLAS_NUM_THREADS": "1", "OMP_NUM_THREADS": "1", "MKL_NUM_THREADS": "1",
        "MALLOC_ARENA_MAX": "2",
    }


def _passable(line: tuple[str, ...]) -> list[str]:
    """The same mounts, with the folders above them made so that anybody may pass through."""
    above = []
    for kind, place in zip(line, line[2:]):
        if kind in ("--ro-bind", "--ro-bind-try", "--bind"):
            above += [str(one) for one in reversed(Path(place).parents) if one != Path("/")]
    there = ["/usr", *(place for kind, place in zip(line, line[2:]) if kind == "--ro-bind")]
    fresh = [name for name in dict.fromkeys(above) if name != "/tmp" and not any(
        Path(name).is_relative_to(room) for room in there)]
    return [word for name in fresh for word in ("--perms", "0755", "--dir", name)] + list(line)


@cache
def _system() -> tuple[str, ...]:
    """The system's programs and libraries; nothing of /etc but what loading a library needs."""
    line = ["--ro-bind", "/usr", "/usr"]
    for name in ("/bin", "/sbin", "/lib", "/lib32", "/lib64", "/libx32"):
        if os.path.islink(name):
            line += ["--symlink", os.readlink(name), name]
        elif os.path.isdir(name):
            line += ["--ro-bind", name, name]
    for name in ("/etc/ld.so.cache", "/etc/alternatives", "/nix/store", "/gnu/store"):
        line += ["--ro-bind-try", name, name]
    return tuple(line)


@cache
def _python() -> tuple[str, ...]:
    """Python with its packages, and of the course its science."""
    rooms = {Path(sys.base_prefix), Path(sys.prefix), Path(sysconfig.get_path("purelib"))}
    rooms |= {Path(name) for name in site.getsitepackages() if Path(name).is_dir()}
    if site.ENABLE_USER_SITE and Path(site.getusersitepackages()).is_dir():
        rooms.add(Path(site.getusersitepackages()))
    rooms.add(Path(sys.executable).resolve().parent.parent)
    rooms |= {_PACKAGE, places.data()}
    line = []
    for room in sorted(rooms):
        if room == Path("/") or Path.home().is_relative_to(room):
            raise ValueError(f"Python is installed in {room}, together with everything else: "
                             "install it in a folder of its own to mark with a sandbox.")
        wider = {*rooms, Path("/usr")} - {room}
        if not any(room.is_relative_to(other) for other in wider):
            line += ["--ro-bind", str(room), str(room)]
    # Seen as an empty folder: everything that judges, and everything with answers in it.
    hidden = [_CLASSROOM, *(path for path in (places.exercises(), places.notebooks())
                            if path.is_relative_to(_PACKAGE))]
    for path in hidden:
        line += ["--tmpfs", str(path)]
    line += ["--ro-bind", str(_INSIDE), str(_INSIDE)]
    for path in hidden:
        line += ["--remount-ro", str(path)]
    return tuple(line)


def visible(path: Path) -> bool:
    """Whether a path of this machine is seen in the sandbox."""
    bound = [Path("/usr"), *(Path(a) for kind, a in zip(_python(), _python()[1:])
                             if kind == "--ro-bind")]
    return any(path.resolve().is_relative_to(room) for room in bound)


def remove(folder: str | Path) -> None:
    """Remove a folder in which anything at all may have been made."""
    try:
        shutil.rmtree(folder)
    except FileNotFoundError:
        return
    except (OSError, RecursionError):  # locked, or deeper than Python can go
        for tool in (["chmod", "-R", "u+rwX"], ["rm", "-rf"]):
            subprocess.run([*tool, "--", str(folder)], stdin=subprocess.DEVNULL,
                           stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)

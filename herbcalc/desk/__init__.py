"""The student's desk: JupyterLab showing one lesson, without a developer's clutter.

How it looks is set by the three files beside this one (settings, parts switched off, type);
what it keeps goes into the hidden folder in the student's own, so nothing else on their machine
changes.
"""

import os
import secrets
import signal
import sys
import warnings
import zlib
from collections.abc import Callable
from pathlib import Path
from urllib.parse import quote
from urllib.request import ProxyHandler, Request, build_opener

from herbcalc.files import write_whole
from herbcalc.lessons import HIDDEN

__all__ = ["is_open", "open_desk", "trust"]


def _usual_port(folder: Path) -> int:
    """The port a folder's course is given when it is free.

    The same each time, for a browser keeps a cookie for each port it has seen; and rarely that of
    another folder, so that two courses starting at the same moment do not get into each other's
    way.
    """
    return 8600 + zlib.crc32(os.fsencode(folder)) % 1000


def _stay_in(folder: Path) -> Path:
    """Point everything Jupyter and its kernels write to the hidden folder; -> its runtime."""
    home = folder / HIDDEN
    runtime = home / "runtime"
    os.environ.update(
        JUPYTER_CONFIG_DIR=str(home / "config"),
        JUPYTER_DATA_DIR=str(home / "data"),
        JUPYTER_RUNTIME_DIR=str(runtime),
        IPYTHONDIR=str(home / "ipython"),
        PYDEVD_DISABLE_FILE_VALIDATION="1",  # a warning of the debugger, which nobody here uses
    )
    for name in ("JUPYTERLAB_DIR", "JUPYTERLAB_SETTINGS_DIR", "JUPYTERLAB_WORKSPACES_DIR"):
        os.environ.pop(name, None)
    return runtime


def _address(base: str, lesson: str, token: str) -> str:
    return f"{base}doc/tree/{quote(lesson)}?token={token}"


def is_open(folder: Path, lesson: str) -> str | None:
    """The lesson's address when a course is already open from this folder, else None."""
    runtime = _stay_in(folder)
    from jupyter_server.serverapp import list_running_servers

    for server in list_running_servers(str(runtime)):
        if _answers(server["url"], server["token"]):
            return _address(server["url"], lesson, server["token"])
    return None


def _answers(base: str, token: str) -> bool:
    """Whether it is really the course that runs there: numbers of processes get used again."""
    ask = Request(base + "api/status", headers={"Authorization": f"token {token}"})
    try:
        with build_opener(ProxyHandler({})).open(ask, timeout=5) as answer:
            return answer.status == 200
    except OSError:
        return False


def trust(folder: Path, names: tuple[str, ...]) -> None:
    """Let JupyterLab show the saved pictures of these notebooks as they are: they are ours."""
    _stay_in(folder)
    import nbformat
    from nbformat.sign import NotebookNotary

    data = Path(os.environ["JUPYTER_DATA_DIR"])
    data.mkdir(parents=True, exist_ok=True)
    notary = NotebookNotary(data_dir=str(data))
    for name in names:
        notary.sign(nbformat.read(folder / name, as_version=4))


def open_desk(
    folder: Path, lesson: str, port: int | None, ready: Callable[[str, int], None]
) -> None:
    """Serve the folder on 127.0.0.1, until Ctrl+C or a signal to end.

    A port that is taken is passed over for a free one; None picks one. `ready(address, port)` is
    called once, with the lesson's address, when it can be opened. Raises ImportError when JupyterLab is missing, OSError and ValueError
    when it cannot start.
    """
    _stay_in(folder)
    # JupyterLab looks for a style of one's own in its settings folder alone.
    style = Path(os.environ["JUPYTER_CONFIG_DIR"], "custom", "custom.css")
    style.parent.mkdir(parents=True, exist_ok=True)
    write_whole(style, Path(__file__).with_name("custom.css").read_bytes())
    warnings.showwarning = lambda *_, **__: None  # they are words to Jupyter's developers
    from jupyterlab.labapp import LabApp

    token = secrets.token_hex(16)  # ours: for one of its own Jupyter prints a long greeting
    options = {
        "ServerApp.root_dir": folder,
        "ServerApp.ip": "127.0.0.1",
        "IdentityProvider.token": token,
        "ServerApp.port": port or _usual_port(folder),
        "ServerApp.port_retries": 50,
        "ServerApp.open_browser": False,
        "ServerApp.terminals_enabled": False,
        "ServerApp.kernel_websocket_connection_class": "herbcalc.desk.prompt.PromptConnection",
        "ContentsManager.pre_save_hook": "herbcalc.desk.saving.keep_stills",
        "Application.log_level": "ERROR",
        "ServerApp.allow_root": True,
        "LabApp.default_url": f"/doc/tree/{quote(lesson)}",
        "LabApp.app_settings_dir": Path(__file__).parent,
        "LabApp.check_for_updates_class": "jupyterlab.NeverCheckForUpdate",
        "LabApp.custom_css": True,
        "LabApp.extension_manager": "readonly",
        "KernelManager.transport_encryption": "auto",
        "LanguageServerManager.autodetect": False,  # it would look through the whole machine
    }
    arguments = [f"--{name}={value}" for name, value in options.items()]
    try:
        server = LabApp.initialize_server(arguments)

        def stop(*_: object) -> None:
            server.stop(from_signal=True)

        for name in ("SIGINT", "SIGHUP"):  # JupyterLab would ask back, or leave kernels running
            if hasattr(signal, name):
                signal.signal(getattr(signal, name), stop)
        # A callback, for the port is taken by an earlier one; until then nobody can connect.
        address = _address(server.connection_url, lesson, token)
        server.io_loop.add_callback(ready, address, server.port)
        server.start()
    except SystemExit as end:
        if end.code:
            raise ValueError(
                "JupyterLab could not start: run the same command again, with another --port if "
                "this keeps happening."
            ) from end
    except KeyboardInterrupt:  # a second Ctrl+C while it ends
        sys.stderr.write("\n")

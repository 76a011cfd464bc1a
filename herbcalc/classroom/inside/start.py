"""Start the kernel in which a return runs: limits first, then a kernel that is light and empty.

Run as a script: ``python start.py '{"cpu": 60, ...}' CONNECTION_FILE``; without a connection file
it only tries whether everything is there. The limits hold for this process and all that come
from it, and cannot be lifted again.
"""

import json
import os
import sys

MIME = "application/vnd.herbcalc.answer+json"
LONGEST_MESSAGE = 300_000  # characters of an answer on its way out


def confine(limits: dict) -> None:
    """Take on the limits, and another user where this one is root."""
    try:
        import resource
    except ImportError:  # Windows, where there is no sandbox either
        return
    if limits.get("user"):
        # As root there would be no limit on processes, and every file would be its own.
        os.setgroups([])
        os.setgid(limits["user"])
        os.setuid(limits["user"])
    kinds = {"cpu": resource.RLIMIT_CPU, "address_space": resource.RLIMIT_AS,
             "processes": resource.RLIMIT_NPROC, "file_size": resource.RLIMIT_FSIZE,
             "open_files": resource.RLIMIT_NOFILE}
    for name, kind in kinds.items():
        if name in limits:
            try:
                resource.setrlimit(kind, (limits[name], limits[name]))
            except (ValueError, OSError):
                # Not every system has every limit; where the sandbox is, they are all there.
                if limits.get("all"):
                    raise
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


class Capture:
    """What a capture cell calls: sends the answer out as plain data, and forgets it here.

    The answer is taken away, so that what was written for one question can never be sent as the
    answer to the next.
    """

    def __init__(self, shell, plain):
        self._shell, self._plain = shell, plain

    def value(self) -> None:
        """Send the answer itself."""
        namespace = self._shell.user_ns
        self._send({"value": self._plain(namespace.pop("answer"))} if "answer" in namespace
                   else {})

    def calls(self, tried: str) -> None:
        """Send what the answer, a function, gives back for each of these arguments (JSON)."""
        answer = self._shell.user_ns.get("answer")
        if not callable(answer):
            return self.value()
        del self._shell.user_ns["answer"]
        results = []
        for values in json.loads(tried):
            try:
                results.append({"value": self._plain(answer(**values))})
            except Exception as error:
                results.append({"error": type(error).__name__})
        self._send({"results": results})

    def _send(self, content) -> None:
        text = json.dumps(content)
        if len(text) > LONGEST_MESSAGE:
            text = json.dumps({"value": {"?": "endless answer"}})
        self._shell.display_pub.publish({MIME: text})


def start(connection_file: str) -> None:
    """Run the kernel until it is told to stop."""
    sys.modules["debugpy"] = None  # nobody debugs here, and loading it takes a fifth of the start
    import herbcalc  # noqa: F401  (now, while nothing of the student's has run)
    import numpy  # noqa: F401
    from ipykernel.kernelapp import IPKernelApp
    from plain import plain
    from traitlets.config import Config
    from written import AsWritten

    sys.path.pop(0)  # this script's own folder
    if not connection_file:
        return
    config = Config()
    config.IPKernelApp.connection_file = connection_file
    config.IPKernelApp.capture_fd_output = False
    config.HistoryManager.enabled = False
    config.InteractiveShell.xmode = "Minimal"  # a long traceback takes long, and nobody reads it
    config.InteractiveShellApp.extensions = config.IPKernelApp.default_extensions = []
    app = IPKernelApp.instance(config=config)
    app.initialize([])
    shell = app.shell
    shell.input_transformers_cleanup.append(AsWritten(shell))
    shell.user_ns["_capture"] = Capture(shell, plain)
    for name in ("exit", "quit"):  # IPython's would end the kernel; Python's own raise an error
        shell.user_ns.pop(name, None)
    app.start()


if __name__ == "__main__":
    confine(json.loads(sys.argv[1]))
    start(sys.argv[2] if len(sys.argv) > 2 else "")

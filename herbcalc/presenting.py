"""A lesson before the class: a page with the code hidden, the sliders live, the type large.

Voila serves it, from copies in a folder of its own that goes afterwards. The notes for whoever
leads the class are left out unless asked for: they are for the leader's own screen.
"""

import os
import re
import secrets
import shutil
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from urllib.error import URLError
from urllib.request import ProxyHandler, build_opener

import nbformat

from herbcalc.handouts import with_mathml
from herbcalc.herbs import OWN_TABLE
from herbcalc.lessons import Lesson

__all__ = ["lesson_page", "present"]

_LARGE = """<style>
:root { --jp-content-font-size1: 23px; --jp-code-font-size: 22px; --jp-content-line-height: 1.5; }
body { background: #fffdf8; }
.jp-Cell { max-width: 62rem; margin-inline: auto; }
.jp-MarkdownOutput :is(p, li, blockquote) { max-width: 54rem; }
blockquote { border: 2px solid #b3260e; border-left-width: 10px; padding: .3em 1em; }
.jp-OutputArea-output pre { font-size: 24px; font-weight: bold; }
.for-teacher { background: #f1ecf4; border: 2px dashed #3d1f4a; padding: .2em 1em; }
.said { margin-top: -1em; font-size: 18px; }
math[display="block"] { font-size: 115%; margin: .6em 0; }
</style>"""

# Voila's page asks the internet for an icon font that nothing here uses: the class may be offline.
_TEMPLATE = """{%- extends 'voila/templates/lab/index.html.j2' -%}
{%- block notebook_css -%}
{%- set icons = 'https://cdn.jsdelivr.net/npm/@fortawesome/fontawesome-free@^5/css/' -%}
{{ super() | replace(icons ~ 'all.min.css', 'data:text/css,')
           | replace(icons ~ 'v4-shims.min.css', 'data:text/css,') }}
{%- endblock notebook_css -%}
"""


def lesson_page(path: Path, notes: bool = False):
    """The notebook that is shown: large type, MathML, notes for the leader or none.

    Parameters
    ----------
    path : Path
        of the lesson's original
    notes : bool
        keep the notes for whoever leads the class
    """
    notebook = nbformat.read(path, as_version=4)
    cells = [nbformat.v4.new_markdown_cell(_LARGE)]
    for cell in notebook.cells:
        if "teacher" in cell.metadata.get("tags", []):
            if not notes:
                continue
            cell.source = f'<div class="for-teacher">\n\n{with_mathml(cell.source)}\n\n</div>'
        elif cell.cell_type == "markdown":
            # The homework is for home: the page before the class has none to lead to.
            plain = re.sub(r"\[([^\]]+)\]\(homework-[\w-]+\.ipynb\)", r"\1", cell.source)
            cell.source = with_mathml(plain)
        cells.append(cell)
        # With the code hidden, what its last line says of the result stands under the result.
        remark = re.search(r"#\s*(.+)$", cell.source.rstrip().rsplit("\n", 1)[-1])
        if cell.cell_type == "code" and remark and "=" not in cell.source.rsplit("\n", 1)[-1]:
            cells.append(nbformat.v4.new_markdown_cell(f'<p class="said">{remark[1]}</p>'))
    for number, cell in enumerate(cells):
        cell.id = f"cell-{number}"
    notebook.cells = cells
    return notebook


def present(lessons: Sequence[Lesson], first: Lesson, notes: bool, port: int | None,
            own: Path, ready: Callable[[str], None]) -> None:
    """Serve the lessons' pages on 127.0.0.1 until Ctrl+C; `ready(address)` once `first` is there.

    Parameters
    ----------
    lessons : sequence of Lesson
        all that links may lead to
    first : Lesson
        the one to show
    notes : bool
        with the notes for whoever leads the class
    port : int, optional
        None or a taken one: a free one is found
    own : Path
        folder whose own herb table, if any, feeds the panels
    ready : callable

    Raises
    ------
    ImportError
        when Voila is missing
    ValueError
        when it cannot start
    """
    import voila  # noqa: F401  (only to say early that it is missing)

    with tempfile.TemporaryDirectory(prefix="herbcalc-present-") as scratch:
        folder = Path(scratch, "lessons")
        folder.mkdir()
        for lesson in lessons:
            nbformat.write(lesson_page(lesson.path, notes), folder / lesson.path.name)
        if (own / OWN_TABLE).is_file():
            shutil.copy(own / OWN_TABLE, folder / OWN_TABLE)
        template = Path(scratch, "data", "voila", "templates", "lesson")
        template.mkdir(parents=True)
        (template / "conf.json").write_text('{"base_template": "lab"}')
        (template / "index.html.j2").write_text(_TEMPLATE)
        port = _free(port)
        base = f"/{secrets.token_hex(8)}/"  # only who has the address finds the page
        environment = {**os.environ, "HERBCALC_SIZE": "presenting", "HERBCALC_STILLS": "",
                       "JUPYTER_CONFIG_DIR": f"{scratch}/config", "JUPYTER_DATA_DIR": f"{scratch}/data",
                       "JUPYTER_RUNTIME_DIR": f"{scratch}/runtime", "IPYTHONDIR": f"{scratch}/ip",
                       "PYDEVD_DISABLE_FILE_VALIDATION": "1"}
        log = Path(scratch, "log")
        with log.open("wb") as output:
            server = subprocess.Popen(
                [sys.executable, "-m", "voila", str(folder), "--no-browser", f"--port={port}",
                 "--Voila.ip=127.0.0.1", f"--base_url={base}", "--strip_sources=True",
                 "--show_tracebacks=True", "--theme=light",
                 "--template=lesson"],
                stdout=output, stderr=subprocess.STDOUT, stdin=subprocess.DEVNULL,
                env=environment, start_new_session=True,
            )
        try:
            _wait_for(server, f"http://127.0.0.1:{port}{base}", log)
            ready(f"http://127.0.0.1:{port}{base}voila/render/{first.path.name}")
            server.wait()
        except KeyboardInterrupt:
            pass
        finally:
            server.terminate()
            try:
                server.wait(timeout=10)
            except subprocess.TimeoutExpired:
                server.kill()


def _free(port: int | None) -> int:
    for wanted in (port or 8666, 0):
        with socket.socket() as trial:
            try:
                trial.bind(("127.0.0.1", wanted))
                return trial.getsockname()[1]
            except OSError:
                continue
    raise ValueError("No free port was found on this machine.")


def _wait_for(server, address: str, log: Path, seconds: float = 60) -> None:
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if server.poll() is not None:
            break
        try:
            with build_opener(ProxyHandler({})).open(address, timeout=2):
                return
        except (URLError, OSError):
            time.sleep(0.2)
    last = log.read_text(encoding="utf-8", errors="replace").strip().splitlines()[-3:]
    raise ValueError("The page could not be served: " + " ".join(last))

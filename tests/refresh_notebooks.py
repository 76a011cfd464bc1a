"""Run the lessons and save them with their output: ``python tests/refresh_notebooks.py [NAMES]``.

Panels show as still pictures of their start, so that a lesson reads on paper and on a code host.
A lesson that fails or warns is left as it was. Running it again without a change writes the
very same bytes.
"""

import os
import sys
import tempfile

import nbformat
from nbclient import NotebookClient
from nbclient.exceptions import CellExecutionError

from herbcalc import places
from herbcalc.files import write_whole
from herbcalc.lessons import find, lessons

KERNEL = {"display_name": "Python 3", "language": "python", "name": "python3"}


def tidy(notebook: nbformat.NotebookNode, stem: str) -> None:
    """Leave nothing in the notebook that another run or another machine would make different."""
    notebook.nbformat, notebook.nbformat_minor = 4, 5
    kept = {k: v for k, v in notebook.metadata.items() if k == "title"}
    notebook.metadata = nbformat.from_dict(
        {**kept, "kernelspec": KERNEL, "language_info": {"name": "python"}}
    )
    for n, cell in enumerate(notebook.cells, start=1):
        cell.id = f"{stem}-{n}"
        for passing in ("execution", "collapsed", "scrolled", "trusted", "ExecuteTime"):
            cell.metadata.pop(passing, None)


def run(notebook: nbformat.NotebookNode) -> None:
    """Run it top to bottom in a fresh kernel, in a folder of its own that goes afterwards.

    Raises CellExecutionError when a cell fails, ValueError when one warns.
    """
    with tempfile.TemporaryDirectory() as folder:
        os.environ.update(HERBCALC_STILLS="1", IPYTHONDIR=os.path.join(folder, ".ipython"))
        NotebookClient(
            notebook,
            kernel_name="python3",
            timeout=300,
            record_timing=False,
            store_widget_state=False,
            extra_arguments=["--log-level=ERROR"],
            resources={"metadata": {"path": folder}},
        ).execute()
    for cell in notebook.cells:
        for output in cell.get("outputs", ()):
            if output.output_type == "stream" and output.name == "stderr":
                raise ValueError(f"the cell '{cell.source}' warns: {output.text.strip()}")
            shown = output.get("data", {})
            if " at 0x" in shown.get("text/plain", ""):
                raise ValueError(f"the cell '{cell.source}' shows a bare object, new at each run")
            if "application/vnd.jupyter.widget-view+json" in shown:
                raise ValueError(f"the cell '{cell.source}' shows a widget, which no paper can")


def refresh(lesson) -> str:
    """Run and save one lesson; -> what was done, as one line."""
    before = lesson.path.read_text(encoding="utf-8")
    notebook = nbformat.reads(before, as_version=4)
    for cell in notebook.cells:
        if cell.cell_type == "code":
            cell.outputs, cell.execution_count = [], None
    tidy(notebook, lesson.path.stem)
    run(notebook)
    tidy(notebook, lesson.path.stem)
    nbformat.validate(notebook)
    after = nbformat.writes(notebook).rstrip("\n") + "\n"
    if after != before:
        write_whole(lesson.path, after)
    did = "as it was" if after == before else "saved"
    return f"{lesson.path.name}: {did}, {len(after.encode()) / 1024:.0f} KiB"


def main(names: list[str]) -> int:
    there = lessons()
    failed = 0
    for lesson in [find(name, there) for name in names] or there:
        try:
            print(refresh(lesson), flush=True)
        except (CellExecutionError, ValueError) as error:
            failed += 1
            print(f"{lesson.path.name}: left as it was: {error}", file=sys.stderr, flush=True)
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

"""The wheel built from this clone works without it."""

import os
import shutil
import subprocess
import sys
import urllib.request
import venv
import zipfile
from pathlib import Path

import pytest
from browser import start_course

from herbcalc import places
from herbcalc.lessons import lessons

ROOT = places.clone()
pytestmark = pytest.mark.skipif(ROOT is None, reason="a wheel is built from a clone")
ROOMS = {"notebooks": "*.ipynb", "exercises": "*.*", "data": "*.csv"}


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    folder = tmp_path_factory.mktemp("wheel")
    subprocess.run(
        [sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--no-index",
         "--no-build-isolation", "--wheel-dir", folder, ROOT],
        check=True,
    )  # fmt: skip
    return next(folder.glob("herbcalc-*.whl"))


@pytest.fixture(scope="module")
def installed(wheel, tmp_path_factory):
    """The scripts' folder of a fresh Python with the wheel; other packages are lent by this one."""
    home = tmp_path_factory.mktemp("installed") / "python"
    venv.create(home, symlinks=os.name != "nt")
    scripts = home / ("Scripts" if os.name == "nt" else "bin")
    python = scripts / ("python.exe" if os.name == "nt" else "python")
    subprocess.run(
        [sys.executable, "-m", "pip", "--python", python, "install", "--quiet", "--no-deps",
         "--no-index", wheel],
        check=True,
    )  # fmt: skip
    library = subprocess.run(
        [python, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))"],
        check=True, capture_output=True, text=True,
    ).stdout.strip()  # fmt: skip
    # A path in a .pth file lends the packages, but not this clone, which has a .pth of its own.
    Path(library, "lent.pth").write_text(f"{Path(pytest.__file__).parents[1]}\n")
    shutil.copytree(Path(sys.prefix, "share", "jupyter"), home / "share" / "jupyter")
    return scripts


def test_it_carries_every_lesson_exercise_and_table(wheel):
    with zipfile.ZipFile(wheel) as archive:
        carried = set(archive.namelist())
    for room, kind in ROOMS.items():
        originals = [p for p in (ROOT / room).rglob(kind) if "__pycache__" not in p.parts]
        originals = [p for p in originals if ".ipynb_checkpoints" not in p.parts]
        assert originals
        for path in originals:
            assert f"herbcalc/course/{path.relative_to(ROOT).as_posix()}" in carried
    for path in (ROOT / "herbcalc").rglob("*.*"):
        if path.is_file() and "__pycache__" not in path.parts:
            assert path.relative_to(ROOT).as_posix() in carried, "css, js and json are needed too"
    assert not [name for name in carried if name.startswith(("tests/", "notebooks/"))]


def test_its_command_opens_the_course_in_an_empty_folder(installed, tmp_path):
    course = start_course(None, cwd=tmp_path, command=(str(installed / "herbcalc"),))
    with course:
        names = {path.name for path in course.folder.glob("*.ipynb")}
        assert course.folder == tmp_path / "herb-course"
        homeworks = {f"homework-{p.parent.name}.ipynb"
                     for p in (ROOT / "exercises").glob("*/homework.ipynb")}
        assert names == {lesson.path.name for lesson in lessons()} | homeworks
        opener = urllib.request.build_opener(urllib.request.ProxyHandler({}))
        with opener.open(course.address, timeout=60) as answer:
            assert answer.status == 200 and b"JupyterLab" in answer.read()
    assert course.process.returncode == 0


def test_its_library_and_panels_need_no_clone(installed, tmp_path):
    program = (
        "import herbcalc as hc; from herbcalc import explore, places; "
        "print(hc.__file__, places.notebooks(), places.clone()); "
        "assert hc.herb('peppermint', 'fresh').water > 0.5; "
        "assert 'figure' in explore.make_up()._repr_mimebundle_()['text/html']"
    )
    said = subprocess.run(
        [installed / "python", "-c", program], cwd=tmp_path, capture_output=True, text=True,
        env={**os.environ, "HERBCALC_STILLS": "1"},
    )  # fmt: skip
    assert said.returncode == 0, said.stderr
    assert str(ROOT / "herbcalc") not in said.stdout and said.stdout.split()[-1] == "None"
    listed = subprocess.run(
        [installed / "herbcalc", "lessons"], cwd=tmp_path, capture_output=True, text=True
    )
    assert len(listed.stdout.splitlines()) == len(lessons())


def test_it_says_that_tests_are_in_the_clone(installed, tmp_path):
    said = subprocess.run(
        [installed / "herbcalc", "test"], cwd=tmp_path, capture_output=True, text=True
    )
    assert said.returncode == 1
    assert said.stderr.strip() == (
        "The tests are in the project's clone: run this command from there."
    )

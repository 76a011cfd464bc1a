"""Where the lessons, the exercises and the tables are kept, and where Chromium is.

In a clone the three folders stand beside the package; the wheel carries them inside it, under
``herbcalc/course``.
"""

import os
from pathlib import Path

__all__ = ["chromium", "clone", "data", "exercises", "notebooks"]

_PACKAGE = Path(__file__).resolve().parent


def _room(name: str) -> Path:
    carried = _PACKAGE / "course"
    # Only a wheel has the inner folder: in a clone it must not hide the real one.
    return (carried if carried.is_dir() else _PACKAGE.parent) / name


def notebooks() -> Path:
    """The folder of the lessons' originals.

    >>> notebooks().name
    'notebooks'
    """
    return _room("notebooks")


def exercises() -> Path:
    """The folder of the exercises, one folder each.

    >>> exercises().name
    'exercises'
    """
    return _room("exercises")


def data() -> Path:
    """The folder of the tables (CSV).

    >>> data().name
    'data'
    """
    return _room("data")


def clone() -> Path | None:
    """The top folder of the clone this runs from, None when it runs from a wheel."""
    root = _PACKAGE.parent
    return root if (root / "pyproject.toml").is_file() and (root / "notebooks").is_dir() else None


def chromium() -> str | None:
    """The Chromium (or Chrome) of this machine, for tests and for printing; None without one.

    The environment variable CHROMIUM names one when it stands elsewhere.
    """
    import shutil  # only here: importing herbcalc must stay light

    names = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")
    usual = (
        "/Applications/Chromium.app/Contents/MacOS/Chromium",
        "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
        r"C:\Program Files\Google\Chrome\Application\chrome.exe",
    )
    for candidate in (os.environ.get("CHROMIUM"), *names, *usual):
        found = candidate and shutil.which(candidate)
        if found:
            return found
    return None

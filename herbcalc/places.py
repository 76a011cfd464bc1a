"""Where the lessons, the exercises and the tables are kept.

In a clone they stand beside the package; the wheel carries them inside it, under
``herbcalc/course``.
"""

from pathlib import Path

__all__ = ["data", "exercises", "notebooks"]

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

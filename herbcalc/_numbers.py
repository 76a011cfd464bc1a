"""Reading numbers in and handing them back: scalars stay scalars, arrays keep their shape."""

import numpy as np


def numbers(value, name):
    """`value` as a float array; one clear sentence when it is not a number.

    >>> numbers([1, 2], "the volume").shape
    (2,)
    >>> numbers("a cupful", "the volume")
    Traceback (most recent call last):
    ValueError: the volume must be a number, not 'a cupful'.
    """
    if isinstance(value, (bool, np.bool_)):
        raise ValueError(f"{name} must be a number, not {value!r}.")
    try:
        array = np.asarray(value, dtype=float)
    except (TypeError, ValueError):
        shown = repr(value)
        shown = shown if len(shown) <= 40 else shown[:37] + "..."
        raise ValueError(f"{name} must be a number, not {shown}.") from None
    if not np.all(np.isfinite(array)):
        raise ValueError(f"{name} must be a number, and it is missing or endless.")
    return array


def at_least(value, low, name, unit=""):
    """`value` as a float array, none of it below `low`."""
    array = numbers(value, name)
    if np.any(array < low):
        worst = float(np.min(array))
        if low == 0:
            raise ValueError(f"{name} cannot be less than nothing: {worst:g}{_spaced(unit)}.")
        raise ValueError(f"{name} must be at least {low:g}{_spaced(unit)}, not {worst:g}.")
    return array


def above(value, low, name, unit=""):
    """`value` as a float array, all of it above `low`."""
    array = numbers(value, name)
    if np.any(array <= low):
        worst = float(np.min(array))
        raise ValueError(f"{name} must be more than {low:g}{_spaced(unit)}, not {worst:g}.")
    return array


def between(value, low, high, name, unit=""):
    """`value` as a float array, all of it from `low` to `high`.

    What a computer's rounding put a hair outside is taken as the limit itself.
    """
    array = numbers(value, name)
    hair = 1e-9 * (high - low)
    if np.any((array < low - hair) | (array > high + hair)):
        outside = array[(array < low - hair) | (array > high + hair)] if array.ndim else array
        raise ValueError(
            f"{name} must lie between {low:g} and {high:g}{_spaced(unit)}, "
            f"not {float(np.ravel(outside)[0]):g}."
        )
    return np.clip(array, low, high)


def same_shape(array):
    """A plain float for a single number, the array itself otherwise."""
    array = np.asarray(array)
    return array.item() if array.ndim == 0 else array


def _spaced(unit):
    return f" {unit}" if unit and unit != "%" else unit and " %"

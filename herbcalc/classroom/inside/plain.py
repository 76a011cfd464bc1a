"""Whatever `answer` holds, as plain data: the one thing that leaves a student's kernel."""

from __future__ import annotations

import sys

import numpy as np

__all__ = ["LONGEST", "plain"]

LONGEST = 20_000  # characters of an explanation; nobody writes more by hand
_MOST = 60  # entries of a list or a sheet that are looked at
_NUMPY = tuple({np.float16, np.float32, np.float64, np.longdouble, np.bool_, np.int8, np.int16,
                np.int32, np.int64, np.uint8, np.uint16, np.uint32, np.uint64, np.str_})
_NAME = type.__dict__["__name__"]


def plain(answer, depth: int = 2):
    """Plain data (None, bool, int, float, str, list, dict) for whatever `answer` holds.

    What is not plain becomes ``{"?": name of its type}``. Nothing of the object itself is
    called, so it cannot lie, hang or fail.

    >>> import numpy as np
    >>> plain(np.float64(406.2)), plain(...), plain((40, 6)), plain(object())
    (406.2, None, [40, 6], {'?': 'object'})
    """
    kind = type(answer)
    if answer is None or answer is ...:
        return None
    if any(kind is one for one in _NUMPY):
        answer = answer.item()
        kind = type(answer)
        if kind is np.longdouble:  # its item() is itself
            answer, kind = float(answer), float
    if kind is bool or kind is float:
        return answer
    if kind is int:
        return answer if answer.bit_length() <= 64 else {"?": "endless number"}
    if kind is str:
        text = answer[:LONGEST + 1]
        return text.encode("utf-8", "replace").decode("utf-8")  # half characters cannot be saved
    if kind is np.ndarray and answer.size <= _MOST and answer.dtype.kind in "biufU":
        return plain(answer.tolist(), depth)
    if (kind is list or kind is tuple) and depth:
        return [plain(one, depth - 1) for one in answer[:_MOST]]
    if kind is dict and depth:
        kept = list(answer.items())[:_MOST]
        return {str(k)[:80]: plain(v, depth - 1) for k, v in kept if type(k) is str}
    if _is_quantity(kind):
        return _quantity_text(answer)
    return {"?": _type_name(kind)}


def _is_quantity(kind) -> bool:
    pint = sys.modules.get("pint")  # nobody has a quantity of pint's without pint
    return pint is not None and any(one is pint.Quantity for one in type.mro(kind))


def _quantity_text(answer):
    try:
        return f"{float(answer.magnitude)!r} {answer.units}"[:80]
    except Exception:  # of an array, say
        return {"?": "Quantity"}


def _type_name(kind) -> str:
    name = _NAME.__get__(kind)  # not kind.__name__: a metaclass may run anything there
    return name[:40] if type(name) is str and name.isidentifier() else "something"

"""Reading what a student typed: an answer line that is no Python is taken as text."""

from __future__ import annotations

import ast
import builtins
import re
from collections.abc import Collection

__all__ = ["AsWritten", "as_written"]

_LINE = re.compile(r"answer\s*=(?!=)\s*([^#\n]*)(#.*)?\n?")


def as_written(lines: list[str], known: Collection[str] = ()) -> list[str]:
    """A cell's lines, with an answer that is no Python put in quotes.

    ``answer = 406 mL``, ``answer = 40 % vol`` and ``answer = b`` are how people write; so they
    are read as the texts "406 mL", "40 % vol" and "b". What is Python already stays as it is,
    names that are `known` included.

    >>> as_written(["answer = 406 mL  # mL"])
    ["answer = '406 mL'  # mL"]
    >>> as_written(["water = 406\\n", "answer = water"], known=["water"])
    ['water = 406\\n', 'answer = water']
    """
    try:
        if not _stray_names(ast.parse("".join(lines)), known):
            return lines
    except (SyntaxError, ValueError):  # no Python yet
        pass
    return [_quoted(line, known) for line in lines]


def _quoted(line, known) -> str:
    found = _LINE.fullmatch(line)
    if not found or '"""' in line or "'''" in line:
        return line
    value, comment = found[1].strip(), found[2] or ""
    try:
        if value and not _stray_names(ast.parse(f"answer = {value}"), known):
            return line
    except (SyntaxError, ValueError):
        pass
    value = value.strip("\"'“”‘’ ")
    end = "\n" if line.endswith("\n") else ""
    return f"answer = {value!r}" + (f"  {comment}" if comment else "") + end


def _stray_names(tree, known) -> bool:
    """Whether the answer is only names that stand for nothing, or has one for a unit."""
    defined = {n.id for n in ast.walk(tree)
               if isinstance(n, ast.Name) and isinstance(n.ctx, ast.Store)} - {"answer"}
    for node in tree.body:
        if isinstance(node, ast.Assign) and [ast.unparse(t) for t in node.targets] == ["answer"]:
            parts = _unit(node.value) or (
                node.value.elts if isinstance(node.value, ast.Tuple) else [node.value])
            names = [part.id for part in parts if isinstance(part, ast.Name)]
            unknown = set(names) - set(known) - set(dir(builtins)) - defined
            if names and len(names) == len(parts) and unknown:
                return True
    return False


def _unit(value) -> list[ast.expr]:
    """The names in "40 % vol" and "40 % v/v": to Python a remainder, to people a strength."""
    names = []
    while isinstance(value, ast.BinOp) and isinstance(value.op, ast.Div | ast.Mod):
        names.append(value.right)
        if isinstance(value.op, ast.Mod):
            left = value.left.operand if isinstance(value.left, ast.UnaryOp) else value.left
            return names if isinstance(left, ast.Constant) else []
        value = value.left
    return []


class AsWritten:
    """`as_written` as IPython calls it, with what the notebook knows."""

    def __init__(self, shell):
        self._shell = shell

    def __call__(self, lines):
        return as_written(lines, self._shell.user_ns)

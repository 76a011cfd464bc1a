"""The little markup of prompts, hints and worked paths: ``**bold**``, ``*italic*``, ```code```.

A number is kept on one line with its unit.
"""

import html
import re

__all__ = ["to_html", "to_markdown", "to_plain"]

_BOLD = re.compile(r"\*\*(.+?)\*\*")
_ITALIC = re.compile(r"(?<![*\w])\*(\w(?:[^*\n]*[\w.?!])?)\*(?![*\w])")  # 2*3*4 is a sum
_CODE = re.compile(r"`(.+?)`")
_BEFORE_UNIT = re.compile(r"(?<=\d) (?=(?:mL|L|g|kg|%|°C|°F|US proof|proof|drops|months|days)\b|%)")
NBSP = "\u00a0"


def to_html(text: str) -> str:
    """For a panel or a card.

    >>> to_html("**2 parts** < 3 parts, *by volume*")
    '<strong>2 parts</strong> &lt; 3 parts, <em>by volume</em>'
    """
    safe = _BOLD.sub(r"<strong>\1</strong>", html.escape(_glued(text), quote=False))
    safe = _ITALIC.sub(r"<em>\1</em>", safe)
    return _CODE.sub(r"<code>\1</code>", safe).replace("\n", "<br>")


def to_plain(text: str) -> str:
    """For a screen without markup.

    >>> to_plain("**2 mL** < 3 mL")
    '2 mL < 3 mL'
    """
    return _ITALIC.sub(r"\1", _BOLD.sub(r"\1", text.strip()))


def to_markdown(text: str) -> str:
    """For a notebook's text cell: a dollar is money there, not the start of a formula.

    >>> to_markdown("It costs $3 to $5.")
    'It costs \\\\$3 to \\\\$5.'
    """
    return _glued(text).replace("$", "\\$")


def _glued(text: str) -> str:
    return _BEFORE_UNIT.sub(NBSP, text.strip()).replace("% vol", f"%{NBSP}vol")

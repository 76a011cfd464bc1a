"""The little markup of prompts, hints and worked paths: ``**bold**``, lines, paragraphs."""

import html
import re

__all__ = ["to_html", "to_markdown", "to_plain"]

_BOLD = re.compile(r"\*\*(.+?)\*\*")


def to_html(text: str) -> str:
    """For a panel or a card.

    >>> to_html("**2 mL** < 3 mL")
    '<strong>2 mL</strong> &lt; 3 mL'
    """
    safe = _BOLD.sub(r"<strong>\1</strong>", html.escape(text.strip(), quote=False))
    return safe.replace("\n", "<br>")


def to_plain(text: str) -> str:
    """For a screen without markup.

    >>> to_plain("**2 mL** < 3 mL")
    '2 mL < 3 mL'
    """
    return _BOLD.sub(r"\1", text.strip())


def to_markdown(text: str) -> str:
    """For a notebook's text cell: a dollar is money there, not the start of a formula.

    >>> to_markdown("It costs $3 to $5.")
    'It costs \\\\$3 to \\\\$5.'
    """
    return text.strip().replace("$", "\\$")

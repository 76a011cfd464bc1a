"""Setting type: how wide words are, where lines break, and a font that has every letter.

The fonts are those that come with matplotlib, so that paper looks alike everywhere; only for a
letter that they lack are the computer's own fonts asked.
"""

import unicodedata
from functools import lru_cache

from matplotlib.font_manager import FontProperties, findfont, fontManager, get_font
from matplotlib.textpath import text_to_path

__all__ = ["SANS", "SERIF", "face", "plain", "width", "wrap"]

SERIF, SANS = "DejaVu Serif", "DejaVu Sans"


def plain(words):
    """Words as they can be set: letters composed, single spaces, nothing that steers a screen.

    Examples
    --------
    >>> plain("Su\\u0308\\u00dfholz\\n\\u200b wild")
    'Süßholz wild'
    """
    words = unicodedata.normalize("NFC", " ".join(str(words).split()))
    # Cc, Cf: control and format; Cs, Co, Cn: no letters at all; FE0F asks for a coloured picture
    kept = (c for c in words if unicodedata.category(c)[0] != "C" and c != "\ufe0f")
    return " ".join("".join(kept).split())


def face(words, family=SANS, bold=False, italic=False):
    """The font for some words: as asked for where it has every letter, else the next plainer.

    Parameters
    ----------
    words : str
    family : str
    bold, italic : bool

    Returns
    -------
    dict for `matplotlib.text.Text`: fontfamily, fontweight, fontstyle

    Raises
    ------
    ValueError
        naming a letter that no font on this computer has.

    Examples
    --------
    >>> face("Süßholz", bold=True)["fontweight"]
    'bold'
    """
    return dict(_face(frozenset(words), family, bold, italic))


@lru_cache(maxsize=2048)
def _face(letters, family, bold, italic):
    for tried in ((family, bold, italic), (SANS, bold, italic), (SANS, bold, False),
                  (SANS, False, False)):
        style = _style(*tried)
        if not _lacking(letters, _path(style)):
            return style
    missing = _lacking(letters, _path(style))
    families = [SANS]
    while missing:
        found = max(fontManager.ttflist, key=lambda font: len(missing - _lacking(
            missing, font.fname)))
        still = _lacking(missing, found.fname)
        if still == missing:
            raise ValueError(f"No font on this computer has the letter {min(missing)!r}: write "
                             "that word with other letters, or install a font that has it.")
        families.append(found.name)
        missing = still
    return dict(fontfamily=families, fontweight="normal", fontstyle="normal")


def _style(family, bold, italic):
    return dict(fontfamily=[family], fontweight="bold" if bold else "normal",
                fontstyle="italic" if italic else "normal")


def _path(style):
    return findfont(FontProperties(family=style["fontfamily"], weight=style["fontweight"],
                                   style=style["fontstyle"]))


def _lacking(letters, path):
    return frozenset(c for c in letters if ord(c) not in _charmap(path))


@lru_cache(maxsize=256)
def _charmap(path):
    try:
        return frozenset(get_font(path).get_charmap())
    except (OSError, RuntimeError):  # a font file that is damaged, or gone since the last look
        return frozenset()


def width(words, size, bold=False, family=SANS, italic=False):
    """Width of a line of type.

    Parameters
    ----------
    words : str
    size : float, points
    bold, italic : bool
    family : str

    Returns
    -------
    float, points
    """
    # Summed over words, each measured once: setting type is slow, and a space kerns with nothing.
    style = _face(frozenset(words), family, bold, italic)
    key = tuple(style["fontfamily"]), style["fontweight"], style["fontstyle"]
    pieces = words.split(" ")
    total = sum(_outlines(piece, key) for piece in pieces) + (len(pieces) - 1) * _space(key)
    # small type on a screen is set on whole pixels and comes out a little wider than its outlines
    return 1.04 * size * total


@lru_cache(maxsize=16384)
def _outlines(word, key):
    """Width of the outlines, in type sizes."""
    family, weight, style = key
    prop = FontProperties(family=list(family), weight=weight, style=style, size=100)
    return float(text_to_path.get_text_width_height_descent(word, prop, False)[0]) / 100


def _space(key):
    return _outlines("i i", key) - 2 * _outlines("i", key)


def wrap(words, room, size, bold=False, family=SANS, italic=False):
    """Lines no wider than `room` points; a word that is wider is broken. Nothing is lost.

    Examples
    --------
    >>> wrap("lady's mantle from the hedge", 120, 14)
    ["lady's mantle", 'from the hedge']
    >>> "".join(wrap("W" * 50, 100, 14)) == "W" * 50
    True
    """
    def fits(line):
        return width(line, size, bold, family, italic) <= room

    lines, line = [], ""
    for word in words.split():
        while word:
            longer = f"{line} {word}" if line else word
            if fits(longer):
                line, word = longer, ""
            elif line:
                lines.append(line)
                line = ""
            else:
                cut = next((n for n in range(len(word) - 1, 1, -1) if fits(word[:n])), 1)
                lines.append(word[:cut])
                word = word[cut:]
    return [*lines, line] if line or not lines else lines

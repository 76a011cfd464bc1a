"""A bottle's label, drawn: names of any length wrap, and what is missing shows as missing.

The label is laid out in points (1/72 inch), so that it comes out the same on screen and on paper.
"""

from dataclasses import dataclass
from functools import lru_cache

from matplotlib.font_manager import FontProperties
from matplotlib.patches import FancyBboxPatch, Rectangle
from matplotlib.textpath import text_to_path

from herbcalc.figures.style import CAUTION, HERB, INK, PAPER, SOFT, mix

SIZE = (9.0, 5.7)  # inches
_WIDE, _HIGH = SIZE[0] * 72, SIZE[1] * 72  # points
_LEFT, _RIGHT, _TOP, _FOOT = 34.0, _WIDE - 34, 24.0, _HIGH - 20
_BAND = 12.0  # of herb green along the left edge
_TAB = 96.0  # where the values begin, right of the left edge
SERIF, SANS = "DejaVu Serif", "DejaVu Sans"
LEAD = 1.28  # from line to line, in type sizes
#: Type of the name and of the rest, from the first choice down, in points.
TYPES = [(38, 15.5), (34, 14.5), (31, 13.5), (27, 13), (23, 12.5), (20, 12), (17, 11), (15, 10), (13, 9), (11, 8)]


@dataclass(frozen=True)
class Label:
    """What stands on a label.

    Attributes
    ----------
    name, latin, maker : str
    rows : tuple of (str, str), a field and what stands in it; "" is a gap to be filled in
    cautions : tuple of str
    """

    name: str
    latin: str
    maker: str
    rows: tuple
    cautions: tuple

    @property
    def missing(self):
        """the fields that are still blank"""
        blank = [] if self.maker else ["maker"]
        return tuple([*blank, *(field.lower() for field, words in self.rows if not words)])


@lru_cache(maxsize=4096)
def width(words, size, bold=False, family=SANS):
    """Width of a line of type.

    Parameters
    ----------
    words : str
    size : float, points
    bold : bool
    family : str

    Returns
    -------
    float, points
    """
    prop = FontProperties(family=family, size=size, weight="bold" if bold else "normal")
    # small type on a screen is set on whole pixels and comes out a little wider than its outlines
    return 1.04 * float(text_to_path.get_text_width_height_descent(words, prop, False)[0])


def wrap(words, room, size, bold=False, family=SANS):
    """Lines no wider than `room` points; a word that is wider is broken. Nothing is lost.

    Examples
    --------
    >>> wrap("lady's mantle from the hedge", 120, 14)
    ["lady's mantle", 'from the hedge']
    >>> "".join(wrap("W" * 50, 100, 14)) == "W" * 50
    True
    """
    lines, line = [], ""
    for word in words.split():
        while word:
            longer = f"{line} {word}" if line else word
            if width(longer, size, bold, family) <= room:
                line, word = longer, ""
            elif line:
                lines.append(line)
                line = ""
            else:
                cut = next((n for n in range(len(word) - 1, 1, -1)
                            if width(word[:n], size, bold, family) <= room), 1)
                lines.append(word[:cut])
                word = word[cut:]
    return [*lines, line] if line or not lines else lines


def label_axes(figure):
    """The whole picture, measured in points from its upper left corner."""
    figure.set_layout_engine("none")
    ax = figure.add_axes((0, 0, 1, 1))
    ax.set(xlim=(0, _WIDE), ylim=(_HIGH, 0))
    ax.set_axis_off()
    return ax


def label_backdrop(ax):
    """The paper, its edge, and the green band."""
    ax.add_patch(FancyBboxPatch((_LEFT - 18, _TOP - 12), _RIGHT - _LEFT + 36, _FOOT - _TOP + 22,
                                boxstyle="round,pad=0,rounding_size=10", facecolor="#ffffff",
                                edgecolor=INK, linewidth=2, zorder=0.1))
    ax.add_patch(Rectangle((_LEFT - 8, _TOP - 4), _BAND - 6, _FOOT - _TOP + 6, facecolor=HERB,
                           edgecolor="none", zorder=0.2))


def draw_label(ax, label):
    """Write a label on its paper, in the largest type in which all of it finds room.

    Parameters
    ----------
    ax : matplotlib axes with `label_backdrop`
    label : Label

    Returns
    -------
    (float, float): the type of the name and of the rest, points
    """
    for name_size, size in TYPES:
        lines, foot = _lay_out(label, name_size, size)
        if foot <= _FOOT:
            break
    for x, y, words, style in lines:
        if words is None:
            ax.add_patch(Rectangle((x, y), **style))
        else:
            ax.text(x, y, words, parse_math=False, **style)
    return name_size, size


def _lay_out(label, name_size, size):
    """What stands where, and how far down it reaches, for one size of type."""
    left = _LEFT + _BAND
    put = []
    y = _TOP

    def write(words, x, y, size, **style):
        put.append((x, y, words, {"fontsize": size, "va": "top", "color": INK} | style))

    def gap(x, y, words, size):
        high = size * LEAD
        put.append((x, y - 0.1 * size, None, dict(
            width=width(words, size) + 14, height=high, facecolor="none", edgecolor=CAUTION,
            linestyle=(0, (4, 3)), linewidth=1.6)))
        write(words, x + 7, y, size, color=CAUTION)

    if label.maker:
        for line in wrap(label.maker, _RIGHT - left, size, bold=True):
            write(line, left, y, size, fontweight="bold", color=SOFT)
            y += size * LEAD
    else:
        gap(left, y, "who made it, and where to ask?", size)
        y += size * LEAD
    y += 0.25 * size
    for line in wrap(label.name, _RIGHT - left, name_size, True, SERIF):
        write(line, left, y, name_size, fontweight="bold", fontfamily=SERIF, gid="name")
        y += name_size * 1.14
    if label.latin:
        y += 0.12 * name_size
        write(label.latin, left, y, size + 1, fontstyle="italic", gid="latin")
        y += (size + 1) * LEAD
    y += 0.55 * size
    for field, words in label.rows:
        write(field, left, y, size, color=SOFT)
        if not words:
            gap(left + _TAB, y, "still missing", size)
            y += size * LEAD
        for line in wrap(words, _RIGHT - left - _TAB, size) if words else ():
            write(line, left + _TAB, y, size, gid=f"row {field}")
            y += size * LEAD
    y += 0.7 * size
    top = y - 0.45 * size
    small = size - 1.5
    for caution in label.cautions:
        for line in wrap(caution, _RIGHT - left - 20, small):
            write(line, left + 10, y, small, gid="caution")
            y += small * LEAD
    put.append((left, top, None, dict(width=_RIGHT - left, height=y - top + 0.25 * size,
                                      facecolor=mix(CAUTION, PAPER, 0.93), edgecolor=CAUTION,
                                      linewidth=1.6, zorder=0.9)))
    return put, y + 0.25 * size

"""A bottle's label, drawn: names of any length wrap, and what is missing shows as missing.

The label is laid out in points (1/72 inch), so that it comes out the same on screen and on paper.
The panel of lesson 10 shows one large; `herbcalc.figures.paper` prints whole sheets of them.
"""

from bisect import bisect_left
from dataclasses import dataclass

from matplotlib.patches import FancyBboxPatch, Rectangle

from herbcalc.figures.letters import SANS, SERIF, face, plain, width, wrap
from herbcalc.figures.style import CAUTION, HERB, INK, PAPER, SOFT, mix

SIZE = (9.0, 5.7)  # inches
_WIDE, _HIGH = SIZE[0] * 72, SIZE[1] * 72  # points
_LEFT, _RIGHT, _TOP, _FOOT = 34.0, _WIDE - 34, 24.0, _HIGH - 20
_BAND = 12.0  # of herb green along the left edge
_TAB = 6.2  # where the values begin, in type sizes right of the left edge
BOX = (_LEFT + _BAND, _TOP, _RIGHT, _FOOT)  # left, top, right, foot of what is written, points
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


CAUTIONS = (
    "Keep out of reach of children. Keep closed. Look and smell before each use; if in doubt, "
    "throw it out.",
    "Ask a doctor, a pharmacist or a licensed practitioner first if you are pregnant or "
    "breastfeeding, take medicines, have an allergy, are ill, or must not drink alcohol.",
)


def kind(final):
    """What such a liquid is called: tincture, glycerite or vinegar."""
    if final.ethanol > 0:
        return "tincture"
    return "glycerite" if final.glycerin > 0 else "vinegar" if final.acetic > 0 else "water extract"


def cautions(final):
    """The cautions that stand on the label of a liquid, as it ends (common practice, no source)."""
    first, *others = CAUTIONS
    if final.abv >= 0.5:
        first = f"Contains {final.abv:.0f} % vol alcohol. Burns: no flame near it. {first}"
    elif final.acetic > 0:
        first = f"Contains acid: not for metal spoons and lids. {first}"
    return (first, *others)


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


def draw_label(ax, label, box=BOX, types=TYPES):
    """Write a label on its paper, in the largest type in which all of it finds room.

    Parameters
    ----------
    ax : matplotlib axes measured in points downwards, as of `label_axes`
    label : Label
    box : (left, top, right, foot), points, where it is written
    types : sequence of (type of the name, type of the rest), points, the first choice first

    Returns
    -------
    (float, float, float): the type of the name and of the rest, and how far down the label
        reaches, points. Beyond `foot` only when the smallest type is still too large.
    """
    label = Label(plain(label.name), plain(label.latin), plain(label.maker),
                  tuple((plain(field), plain(words)) for field, words in label.rows),
                  tuple(plain(words) for words in label.cautions))
    tried = {}

    def too_low(place):
        tried[place] = _lay_out(label, *types[place], box)
        return tried[place][1] > box[3]

    # halving the ladder finds the first type that fits in a few tries
    place = bisect_left(range(len(types) - 1), True, key=lambda place: not too_low(place))
    name_size, size = types[place]
    lines, foot = tried.get(place) or _lay_out(label, name_size, size, box)
    for x, y, words, style in lines:
        if words is None:
            ax.add_patch(Rectangle((x, y), **style))
        else:
            ax.text(x, y, words, parse_math=False, **style)
    return name_size, size, foot


def _lay_out(label, name_size, size, box):
    """What stands where, and how far down it reaches, for one size of type."""
    left, y, right, _ = box
    unit = size / 15.5  # the finer measures grow with the type
    tab = max(_TAB * size, *(width(field, size) + 0.9 * size for field, _ in label.rows))
    put = []

    def write(words, x, y, size, bold=False, italic=False, family=SANS, **style):
        put.append((x, y, words, {"fontsize": size, "va": "top", "color": INK, **style,
                                  **face(words, family, bold, italic)}))

    def gap(x, y, words, size):
        put.append((x, y - 0.1 * size, None, dict(
            width=width(words, size) + 14 * unit, height=size * LEAD, facecolor="none",
            edgecolor=CAUTION, linestyle=(0, (4, 3)), linewidth=1.6 * unit)))
        write(words, x + 7 * unit, y, size, color=CAUTION)

    if label.maker:
        for line in wrap(label.maker, right - left, size, bold=True):
            write(line, left, y, size, bold=True, color=SOFT)
            y += size * LEAD
    else:
        gap(left, y, "who made it, and where to ask?", size)
        y += size * LEAD
    y += 0.25 * size
    for line in wrap(label.name, right - left, name_size, True, SERIF):
        write(line, left, y, name_size, bold=True, family=SERIF, gid="name")
        y += name_size * 1.14
    if label.latin:
        y += 0.12 * name_size
        for line in wrap(label.latin, right - left, size + unit, italic=True):
            write(line, left, y, size + unit, italic=True, gid="latin")
            y += (size + unit) * LEAD
    y += 0.55 * size
    for field, words in label.rows:
        write(field, left, y, size, color=SOFT)
        if not words:
            gap(left + tab, y, "still missing", size)
            y += size * LEAD
        for line in wrap(words, right - left - tab, size) if words else ():
            write(line, left + tab, y, size, gid=f"row {field}")
            y += size * LEAD
    y += 0.7 * size
    top = y - 0.45 * size
    small = 0.9 * size
    for caution in label.cautions:
        for line in wrap(caution, right - left - 20 * unit, small):
            write(line, left + 10 * unit, y, small, gid="caution")
            y += small * LEAD
    put.append((left, top, None, dict(width=right - left, height=y - top + 0.25 * size,
                                      facecolor=mix(CAUTION, PAPER, 0.93), edgecolor=CAUTION,
                                      linewidth=1.6 * unit, zorder=0.9)))
    return put, y + 0.25 * size

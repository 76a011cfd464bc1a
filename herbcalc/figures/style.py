"""The course's look: one matplotlib style and one small set of colours with a meaning.

Every colour means one thing in all lessons; `legend_strip` explains them once, in lesson 00. The
liquids stand in order of lightness, so that they stay apart in grey print too, and carry a hatch
where they meet in one bar; everything else is labelled where it lies. How far apart the colours
stay for colour-blind eyes and in grey is measured in ``tests/test_figures.py``.
"""

from collections import namedtuple
from collections.abc import Mapping

import numpy as np

WATER = "#9fd9f5"
GLYCERIN = "#e7a922"
ACID = "#ae5097"
ETHANOL = "#1942a0"
HERB = "#679756"
AIR = "#faf3e8"
CAUTION = "#d9260b"
RESULT = "#4c1f4c"
WRONG = "#968c88"

INK = "#22252b"  # text and outlines
SOFT = "#5c5f66"  # text of second rank
GRID = "#ddd8cc"
PAPER = "#fffdf8"

FRESH = "#e9f2b8"  # lights and shades of drawn herb
FRESH_SHADE = "#1c3a14"
DRIED = "#f1e3bd"
DRIED_SHADE = "#3b3420"
GLASS = "#7c8a8f"
SHINE = "#e6ecee"
METAL = "#c9c6be"
CORK = "#b98f5d"

Meaning = namedtuple("Meaning", "colour words hatch")

#: What each colour means, in the words shown to students, and its hatch in a bar of parts.
MEANINGS = {
    "water": Meaning(WATER, "water", ""),
    "ethanol": Meaning(ETHANOL, "alcohol (ethanol)", ""),
    "glycerin": Meaning(GLYCERIN, "glycerin", ".."),
    "acid": Meaning(ACID, "acid of vinegar", "\\\\"),
    "herb": Meaning(HERB, "herb", ""),
    "air": Meaning(AIR, "air, head space", ""),
    "result": Meaning(RESULT, "what comes out", ""),
    "caution": Meaning(CAUTION, "take care", ""),
    "wrong": Meaning(WRONG, "the common mistake", "///"),
}

#: For `matplotlib.rc_context`: large type, since lessons are read from the back row.
STYLE = {
    "font.family": "DejaVu Sans",  # ships with matplotlib, so pictures are alike everywhere
    "font.size": 13,
    "axes.labelsize": 13,
    "axes.titlesize": 14,
    "axes.titleweight": "bold",
    "axes.titlelocation": "left",
    "axes.titlepad": 10,
    "figure.facecolor": PAPER,
    "figure.constrained_layout.use": True,
    "figure.constrained_layout.w_pad": 0.1,
    "figure.constrained_layout.h_pad": 0.1,
    "savefig.facecolor": PAPER,
    "axes.facecolor": PAPER,
    "axes.edgecolor": SOFT,
    "axes.linewidth": 1.2,
    "axes.labelcolor": INK,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.grid": True,
    "axes.axisbelow": True,
    "axes.prop_cycle": "cycler('color', ['#4c1f4c', '#1942a0', '#679756', '#d9260b'])",
    "grid.color": GRID,
    "grid.linewidth": 1,
    "text.color": INK,
    "xtick.color": SOFT,
    "ytick.color": SOFT,
    "xtick.labelcolor": INK,
    "ytick.labelcolor": INK,
    "xtick.major.size": 0,
    "ytick.major.size": 0,
    "xtick.major.pad": 6,
    "ytick.major.pad": 6,
    "lines.linewidth": 3,
    "lines.markersize": 11,
    "lines.solid_capstyle": "round",
    "patch.linewidth": 1,
    "hatch.linewidth": 1.2,
    "hatch.color": INK,
    "legend.frameon": False,
}

#: The common mistake is drawn dashed, so that it reads in grey too.
MISTAKE_LINE = {"color": WRONG, "linestyle": (0, (3, 2)), "linewidth": 3}


def _rgb(colour: str) -> np.ndarray:
    return np.array([int(colour[i : i + 2], 16) for i in (1, 3, 5)], float)


def mix(one: str, other: str, share: float) -> str:
    """The colour `share` (0 to 1) of the way from `one` to `other`.

    Examples
    --------
    >>> mix("#000000", "#ffffff", 0.5)
    '#808080'
    """
    red, green, blue = np.rint(_rgb(one) * (1 - share) + _rgb(other) * share).astype(int)
    return f"#{red:02x}{green:02x}{blue:02x}"


def colour_of(part: str) -> str:
    """The colour of a part of a liquid; "herb's water" is water.

    Raises
    ------
    ValueError
        For a part without a meaning.

    Examples
    --------
    >>> colour_of("herb's water") == WATER
    True
    """
    if part == "herb's water":
        return WATER
    if part not in MEANINGS:
        raise ValueError(f"No colour means {part!r}: there is {', '.join(MEANINGS)}.")
    return MEANINGS[part].colour


def tint(parts: Mapping[str, float]) -> str:
    """The pale colour of a whole liquid: its parts' colours by volume, thinned with paper.

    The stronger the spirit, the deeper the blue.

    Examples
    --------
    >>> tint({"water": 600, "ethanol": 400}) == tint({"water": 3, "ethanol": 2})
    True
    """
    total = sum(parts.values())
    if not total > 0:
        return AIR
    colour = sum(_rgb(colour_of(part)) * amount / total for part, amount in parts.items())
    red, green, blue = np.rint(colour).astype(int)
    return mix(f"#{red:02x}{green:02x}{blue:02x}", PAPER, 0.5)


def palette() -> np.ndarray:
    """Every colour of the course with its steps towards paper, ink and its neighbours.

    Returns
    -------
    array of uint8, shape (n, 3), n below 200
        Pictures are sent in these colours (a picture of numbered colours is small and quick).
    """
    def steps(one, other, count):
        return [mix(one, other, share) for share in np.linspace(0, 1, count)]

    colours = ["#ffffff", "#000000", *steps(INK, PAPER, 20), *steps(SOFT, PAPER, 6)]
    for meaning in MEANINGS.values():
        colours += steps(meaning.colour, PAPER, 6)[:-1] + steps(meaning.colour, INK, 7)[1:-1]
    for one, other, count in [("ethanol", "water", 20), ("water", "glycerin", 8),
                              ("water", "acid", 8), ("ethanol", "glycerin", 8)]:
        colours += [tint({one: a, other: 1 - a}) for a in np.linspace(0, 1, count)]
    for light, shade in [(FRESH, FRESH_SHADE), (DRIED, DRIED_SHADE)]:
        colours += steps(mix(HERB, shade, 0.3), mix(HERB, light, 0.5), 9)
    for colour in (GLASS, METAL, CORK):
        colours += [colour, mix(colour, PAPER, 0.5), mix(colour, INK, 0.4)]
    colours += steps(mix(GLYCERIN, HERB, 0.5), mix(PAPER, HERB, 0.2), 4)
    colours += [SHINE, GRID, mix(GRID, PAPER, 0.5), FRESH_SHADE, DRIED_SHADE]
    return np.array([_rgb(colour) for colour in dict.fromkeys(colours)]).astype(np.uint8)


def legend_strip(ax) -> None:
    """Explain every colour once, as a strip of labelled swatches that fills `ax`."""
    from matplotlib.patches import Rectangle

    columns = 3
    rows = -(-len(MEANINGS) // columns)
    ax.set(xlim=(0, columns), ylim=(rows, 0))
    ax.set_axis_off()
    for place, meaning in enumerate(MEANINGS.values()):
        row, column = divmod(place, columns)
        ax.add_patch(
            Rectangle(
                (column + 0.02, row + 0.2), 0.22, 0.6,
                facecolor=meaning.colour, edgecolor=INK, hatch=meaning.hatch,
            )
        )
        ax.text(column + 0.28, row + 0.5, meaning.words, va="center")

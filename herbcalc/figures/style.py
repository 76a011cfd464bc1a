"""The course's look: one matplotlib style and one small set of colours with a meaning."""

WATER = "#a7d3ee"
ETHANOL = "#3c3a86"
GLYCERIN = "#dfa52b"
ACID = "#b0456f"
HERB = "#5d8a3c"
AIR = "#f4f1e8"
CAUTION = "#c8400f"
RESULT = "#00545c"
WRONG = "#8a8a8a"
INK = "#22252b"
PAPER = "#fffdf8"
GRID = "#d9d5ca"

STYLE = {
    "font.family": "DejaVu Sans",
    "font.size": 13,
    "axes.labelsize": 13,
    "axes.titlesize": 15,
    "axes.titleweight": "bold",
    "axes.titlelocation": "left",
    "figure.facecolor": PAPER,
    "axes.facecolor": PAPER,
    "axes.edgecolor": INK,
    "axes.labelcolor": INK,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.grid": True,
    "grid.color": GRID,
    "axes.axisbelow": True,
    "text.color": INK,
    "xtick.color": INK,
    "ytick.color": INK,
    "lines.linewidth": 2.5,
    "lines.markersize": 11,
    "legend.frameon": False,
    "figure.constrained_layout.use": True,
}

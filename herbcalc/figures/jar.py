"""The drawn jar that carries through all lessons, and its kin: cylinder and bottle.

A vessel is drawn as if cut in half: heights are true to scale, computed from the volume of the
round body, so that the level, the herb and the marks on the glass agree. `vessel_axes` prepares
an axes (in the backdrop), `draw_jar`, `draw_cylinder` and `draw_bottle` draw on it. One unit of
the axes is the inner radius of the largest jar.

The pieces of herb lie at fixed places, so nothing jumps when a slider moves.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from matplotlib.collections import LineCollection, PolyCollection

from herbcalc.figures.style import (
    AIR, CORK, DRIED, DRIED_SHADE, FRESH, FRESH_SHADE, GLASS, HERB, INK, MEANINGS, METAL, PAPER,
    SHINE, SOFT, colour_of, mix, tint,
)

SMALL = 11.5  # pt, the marks on the glass
LINES = 0.48  # room for two lines of that, in radii of the largest jar

HERB_KINDS = ("leaf", "flower", "root", "seed", "powder")


# --- shapes --------------------------------------------------------------------------------------


@dataclass(frozen=True, eq=False)
class _Shape:
    """A round body: inner radius `r` at height `y`; `share` of the volume below each height."""

    y: np.ndarray
    r: np.ndarray
    share: np.ndarray
    wall: float
    lid: str

    @property
    def height(self) -> float:
        return float(self.y[-1])

    def level(self, share: float) -> float:
        """Height below which `share` (0 to 1) of the volume lies."""
        return float(np.interp(share, self.share, self.y))

    def inside(self, low: float, high: float) -> np.ndarray:
        """Outline of the room between two heights, as points (n, 2)."""
        y = self.y[(self.y > low) & (self.y < high)]
        y = np.concatenate([[low], y, [high]])
        r = np.interp(y, self.y, self.r)
        right = np.column_stack([r, y])
        return np.concatenate([right, right[::-1] * (-1, 1)])

    def outside(self) -> np.ndarray:
        """The outer side of the glass, from brim to floor to brim, as points (n, 2)."""
        along_r, along_y = np.gradient(self.r), np.gradient(self.y)
        along = np.hypot(along_r, along_y)
        out = np.column_stack([along_y, -along_r]) / along[:, None] * self.wall
        right = np.column_stack([self.r, self.y]) + out
        right = np.concatenate([[(self.r[0], -self.wall)], right])
        return np.concatenate([right[::-1], right * (-1, 1)])


def _shape(points, wall, lid) -> _Shape:
    """A body from (height, radius) points."""
    y, r = np.asarray(points, float).T
    slices = np.diff(y) * (r[1:] ** 2 + r[1:] * r[:-1] + r[:-1] ** 2) / 3  # cut cones, times pi
    share = np.concatenate([[0.0], np.cumsum(slices)])
    return _Shape(y, r, share / share[-1], wall, lid)


def _corner(radius, size, count=8):
    """The rounded corner between floor and wall."""
    turn = np.linspace(0, np.pi / 2, count)
    return [(size * (1 - np.cos(a)), radius - size * (1 - np.sin(a))) for a in turn]


def _shoulder(low, high, wide, narrow, count=14):
    """The wall that draws in from `wide` to `narrow` between two heights."""
    t = np.linspace(0, 1, count)
    ease = t * t * (3 - 2 * t)
    return [(low + (high - low) * a, wide + (narrow - wide) * b) for a, b in zip(t, ease)]


@lru_cache
def _vessel(kind: str) -> _Shape:
    if kind == "jar":
        return _shape(
            _corner(1, 0.22) + _shoulder(1.95, 2.3, 1, 0.76) + [(2.45, 0.76)], 0.055, "screw lid",
        )
    if kind == "bottle":
        return _shape(
            _corner(0.66, 0.15) + _shoulder(1.5, 2.05, 0.66, 0.2) + [(2.45, 0.2)], 0.05, "cork",
        )
    if kind == "cylinder":
        return _shape(_corner(0.46, 0.06) + [(2.45, 0.46)], 0.035, "spout")
    raise ValueError(f"No vessel is called {kind!r}.")


# --- pieces of herb ------------------------------------------------------------------------------


def _leaf(count=9):
    t = np.linspace(0, 1, count)
    half = 0.36 * np.sin(np.pi * t**0.8) * (1 - 0.25 * t)
    top = np.column_stack([t - 0.5, half])
    return np.concatenate([top, top[-2:0:-1] * (1, -1)])


def _round(corners, bumps=0, depth=0.0, squash=1.0):
    turn = np.linspace(0, 2 * np.pi, corners, endpoint=False)
    radius = 0.5 * (1 + depth * np.cos(bumps * turn)) / (1 + depth)
    return np.column_stack([radius * np.cos(turn), squash * radius * np.sin(turn)])


_PIECES = {  # outline of one piece 1 long; its length and its distance from the next, in jar radii
    "leaf": (_leaf(), 0.34, 0.235),
    "flower": (_round(25, bumps=5, depth=0.3), 0.25, 0.25),
    "root": (np.array([(-0.5, -0.2), (-0.42, 0.2), (0, 0.27), (0.46, 0.2), (0.5, -0.13),
                       (0.08, -0.24)]), 0.25, 0.2),
    "seed": (_round(10, squash=0.55), 0.15, 0.125),
    "powder": (_round(4), 0.035, 0.085),
}


@lru_cache
def _heap(kind: str, shape_name: str) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Outlines (n, points, 2), heights and shades of all pieces a full vessel holds."""
    if kind not in _PIECES:
        raise ValueError(f"No herb is drawn as {kind!r}: there is {', '.join(HERB_KINDS)}.")
    outline, length, distance = _PIECES[kind]
    shape = _vessel(shape_name)
    chance = np.random.default_rng(HERB_KINDS.index(kind))
    places = []
    for row, y in enumerate(np.arange(length * 0.4, shape.height, distance)):
        reach = np.interp(y, shape.y, shape.r) - length * 0.45
        across = np.arange(-reach, reach + 1e-9, distance * 1.12) if reach > 0 else np.zeros(0)
        if len(across):
            across = across + (reach - across[-1]) * (row % 2)
            places += [(x, y) for x in across]
    places = np.array(places)
    places += chance.uniform(-0.2, 0.2, places.shape) * distance
    turn = chance.uniform(0, 2 * np.pi, len(places))
    size = length * chance.uniform(0.85, 1.1, len(places))
    shade = chance.uniform(-1, 1, len(places))
    order = np.argsort(places[:, 1], kind="stable")
    places, turn, size, shade = places[order], turn[order], size[order], shade[order]
    spin = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    pieces = np.einsum("pi,ijn->npj", outline, spin) * size[:, None, None] + places[:, None]
    pieces[..., 1] -= np.minimum(pieces[..., 1].min(axis=1), 0)[:, None]  # onto the floor
    for _ in range(3):  # and off the wall, which leans where the piece moves to
        room = np.interp(pieces[..., 1], shape.y, shape.r)
        over = np.maximum(np.abs(pieces[..., 0]) - room, 0).max(axis=1)
        pieces[..., 0] -= (over * np.sign(places[:, 0]))[:, None]
    return pieces, places[:, 1], shade


# --- drawing -------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Place:
    """Where a vessel stands on its axes, for notes beside it.

    Attributes
    ----------
    x : float
        Middle.
    left, right : float
        Outer walls.
    level, herb, top : float
        Heights of the liquid, of the loose herb and of the brim.
    """

    x: float
    left: float
    right: float
    level: float
    herb: float
    top: float


def vessel_axes(ax, left=-2.15, right=2.95, top=3.0) -> None:
    """Prepare `ax` for vessels: equal scale, no frame. Call it in the backdrop.

    Parameters
    ----------
    ax : matplotlib axes
    left, right : float
        Room left and right of the middle of the first vessel, in radii of the largest jar. The
        default holds one jar with its marks and its bar of parts.
    top : float
        Room upwards; the largest jar with its lid is 2.7 high.
    """
    ax.set(xlim=(left, right), ylim=(-0.42, top), aspect="equal")
    ax.set_axis_off()


def _fills(ax, outlines, **look) -> None:
    # autolim: the limits stand, and working them out takes time
    ax.add_collection(PolyCollection(outlines, **look), autolim=False)


def _lines(ax, paths, **look) -> None:
    ax.add_collection(LineCollection(paths, **look), autolim=False)


def _marks(capacity: float, most: int) -> np.ndarray:
    """Round volumes for at most `most` marks on the glass."""
    for step in (1, 2, 5, 10, 20, 25, 50, 100, 200, 250, 500, 1000, 2000, 5000):
        if capacity / step <= most:
            return np.arange(step, capacity * (1 + 1e-9), step)
    return np.array([capacity])


def _glass(ax, shape, x, scale) -> None:
    """Wall and lid."""
    place = np.array([x, 0.0])
    thick = shape.wall
    width = 2.4 * max(scale, 0.6)
    lines = [shape.outside() * scale + place]
    if shape.lid == "spout":
        brim = shape.height
        lines.append(np.array([(-0.46, brim), (-0.62, brim + 0.07)]) * scale + place)
        lines.append(np.array([(-0.7, -0.06), (0.7, -0.06)]) * scale + place)
    _fills(ax, [lines[0]], facecolors=SHINE, edgecolors="none", zorder=1.9)
    _lines(ax, lines, colors=GLASS, linewidths=width, capstyle="round", zorder=3.2)
    if shape.lid == "spout":
        return
    top, half = shape.height, shape.r[-1] + thick
    if shape.lid == "cork":
        body = [(-0.16, top - 0.12), (-0.19, top + 0.17), (0.19, top + 0.17), (0.16, top - 0.12)]
        fill, ridges = CORK, []
    else:
        half += 0.05
        body = [(-half, top + 0.01), (-half, top + 0.2), (-half + 0.04, top + 0.24),
                (half - 0.04, top + 0.24), (half, top + 0.2), (half, top + 0.01)]
        fill = METAL
        ridges = [[(i, top + 0.04), (i, top + 0.18)] for i in np.linspace(-half, half, 17)[1:-1]]
    _fills(
        ax, [np.array(body) * scale + place], facecolors=fill, edgecolors=SOFT, linewidths=1.4,
        zorder=3.4,
    )
    if ridges:
        _lines(ax, np.array(ridges) * scale + place, colors=SOFT, linewidths=0.8, zorder=3.5)


def _gauge(ax, shape, x, scale, capacity) -> None:
    """Marks in mL on the left side of the glass."""
    volumes = _marks(capacity, 6 if scale > 0.75 else 4)
    heights = np.interp(volumes / capacity, shape.share, shape.y)
    radii = np.interp(heights, shape.y, shape.r) + shape.wall
    edge = -(shape.r.max() + shape.wall) - 0.08
    ticks = [[(-r, y), (edge, y)] for r, y in zip(radii, heights)]
    _lines(ax, np.array(ticks) * scale + (x, 0), colors=SOFT, linewidths=1.2, zorder=3)
    for place, (volume, y) in enumerate(zip(volumes, heights)):
        last = place == len(volumes) - 1
        ax.text(
            x + (edge - 0.06) * scale, y * scale, f"{volume:g} mL" if last else f"{volume:g}",
            ha="right", va="center", fontsize=SMALL, color=SOFT,
        )


def _spread(wanted: list[float], gap: float, low: float, high: float) -> list[float]:
    """Heights as near as can be to `wanted` (ascending) that keep `gap` between neighbours."""
    heights = list(wanted)
    for place in range(1, len(heights)):
        heights[place] = max(heights[place], heights[place - 1] + gap)
    if heights and heights[-1] > high:
        heights[-1] = high
        for place in range(len(heights) - 2, -1, -1):
            heights[place] = min(heights[place], heights[place + 1] - gap)
    return [max(height, low) for height in heights]


def _words(part: str, amount: float) -> str:
    name = {"acid": "acid", "ethanol": "alcohol"}.get(part, part)
    return f"{name}\n{amount:.0f} mL"


def draw_parts(ax, parts: Mapping[str, float], x: float, low: float, high: float) -> None:
    """A bar of what a liquid is made of, from the bottom up in the order given, labelled.

    Parameters
    ----------
    ax : matplotlib axes, prepared by `vessel_axes`
    parts : mapping of "water", "ethanol", "glycerin", "acid" or "herb's water" to mL
    x : float
        Left edge of the bar.
    low, high : float
        Its foot and its top.
    """
    parts = {part: amount for part, amount in parts.items() if amount > 0}
    total = sum(parts.values())
    if not total or high - low < 1e-6:
        return
    edges = low + (high - low) * np.cumsum([0, *parts.values()]) / total
    right = x + 0.3
    for part, foot, head in zip(parts, edges, edges[1:]):
        hatch = "//" if part == "herb's water" else MEANINGS[part].hatch
        _fills(
            ax, [[(x, foot), (right, foot), (right, head), (x, head)]], facecolors=colour_of(part),
            edgecolors=INK, linewidths=1.2, hatch=hatch, zorder=3,
        )
    middles = (edges[1:] + edges[:-1]) / 2
    top = max(high - 0.16, low + LINES * (len(parts) - 1))  # the head space is named above it
    heights = _spread(list(middles), LINES, low, top)
    leaders = [
        [(right + 0.02, middle), (right + 0.1, height)] for middle, height in zip(middles, heights)
    ]
    _lines(ax, leaders, colors=SOFT, linewidths=1, zorder=3)
    for (part, amount), height in zip(parts.items(), heights):
        ax.text(
            right + 0.13, height, _words(part, amount), va="center", fontsize=SMALL,
            linespacing=0.95,
        )


def _fill(ax, shape, x, scale, level, colours) -> None:
    """Air, then the liquid as layers [(height of the top, colour)] under `level`."""
    rooms, fills = [shape.inside(0, shape.height)], [AIR]
    low = 0.0
    for high, colour in colours:
        if high > low + 1e-9:
            rooms.append(shape.inside(low, high))
            fills.append(colour)
        low = high
    _fills(
        ax, [room * scale + (x, 0) for room in rooms], facecolors=fills, edgecolors="none", zorder=2,
    )
    at = 0.84 * shape.r.max()  # where the light shines on the glass
    shine = np.array([[(-at, 0.35), (-at, 1.05)], [(-at, 1.2), (-at, 1.35)]])
    _lines(
        ax, shine * scale + (x, 0), colors=PAPER, linewidths=5 * scale, capstyle="round", alpha=0.7,
        zorder=3.1,
    )
    if level > 0:
        r = np.interp(level, shape.y, shape.r)
        _lines(
            ax, [np.array([(-r, level), (r, level)]) * scale + (x, 0)], colors=INK, linewidths=1.8,
            zorder=2.9,
        )


def _check(capacity, **amounts) -> None:
    if not capacity > 0:
        raise ValueError("The vessel must hold more than 0 mL.")
    for name, amount in amounts.items():
        if not 0 <= amount <= capacity * (1 + 1e-6):
            raise ValueError(
                f"The {name}, {amount:.0f} mL, does not fit into {capacity:.0f} mL."
            )


def draw_glass(ax, jar_volume, *, label="", x=0.0, largest=None, gauge=True) -> None:
    """Draw what of a jar never moves: glass, lid, marks, label. For the backdrop.

    Where the jar keeps its size, `draw_jar` with ``glass=False`` then draws the contents alone,
    in half the time. Parameters as for `draw_jar`.
    """
    _check(jar_volume)
    shape = _vessel("jar")
    scale = (jar_volume / (largest or jar_volume)) ** (1 / 3)
    _glass(ax, shape, x, scale)
    if gauge:
        _gauge(ax, shape, x, scale, jar_volume)
    if label:
        ax.text(x, -0.14, label, ha="center", va="top", fontweight="bold")


def draw_jar(
    ax, jar_volume, *, herb_volume=0.0, liquid_volume=0.0, head_space=None, parts=None,
    herb_kind="leaf", fresh=False, label="", x=0.0, largest=None, bar=True, gauge=True,
    glass=True,
) -> Place:
    """Draw a jar with what is in it.

    Parameters
    ----------
    ax : matplotlib axes, prepared by `vessel_axes`
    jar_volume : float
        What it holds to the brim, mL.
    herb_volume : float
        Room the loose herb fills, with the air between its pieces, mL (0 to `jar_volume`).
    liquid_volume : float
        Liquid poured, mL.
    head_space : float, optional
        Room left empty above the liquid, mL. Given, it sets the level (the pieces of herb take
        their own room in the liquid); else the level is that of `liquid_volume` alone.
    parts : mapping, optional
        Parts of the liquid in mL ("water", "ethanol", "glycerin", "acid", "herb's water"): they
        colour the liquid and make the bar beside the jar.
    herb_kind : {"leaf", "flower", "root", "seed", "powder"}
    fresh : bool
        Fresh pieces are drawn brighter than dried ones.
    label : str
        Stands below the jar.
    x : float
        Middle of the jar on the axes.
    largest : float, optional
        Volume of the largest jar of the picture, mL: smaller jars are drawn smaller, true to
        scale.
    bar, gauge : bool
        Whether to draw the bar of parts; the marks in mL with the bracket beside the herb.
    glass : bool
        False where `draw_glass` has drawn the glass in the backdrop.

    Returns
    -------
    Place
        Where things stand, for notes beside the jar.

    Raises
    ------
    ValueError
        When something does not fit into the jar.
    """
    _check(jar_volume, **{"loose herb": herb_volume, "liquid": liquid_volume})
    shape = _vessel("jar")
    scale = (jar_volume / (largest or jar_volume)) ** (1 / 3)
    filled = liquid_volume if head_space is None else jar_volume - head_space
    if liquid_volume <= 0:
        filled = 0.0
    _check(jar_volume, **{"filled room": filled})
    level = shape.level(filled / jar_volume)
    heap = shape.level(herb_volume / jar_volume)
    _fill(ax, shape, x, scale, level, [(level, tint(parts or {"water": 1}))])
    if herb_volume > 0:
        _draw_heap(ax, herb_kind, x, scale, heap, fresh)
    if glass:
        draw_glass(ax, jar_volume, label=label, x=x, largest=largest, gauge=gauge)
    wide = shape.r.max() + shape.wall
    if gauge and herb_volume > 0:
        _bracket(ax, x - (wide + 0.72) * scale, heap * scale, f"herb {herb_volume:.0f} mL")
    if bar and parts:
        left = x + (wide + 0.2) * scale
        draw_parts(ax, parts, left, 0.0, max(level * scale, 0.3))
        if head_space is not None and liquid_volume > 0:
            _head_space(ax, shape, x, scale, level, head_space, left)
    return place_of(jar_volume, filled, herb_volume, x=x, largest=largest)


def place_of(jar_volume, filled, herb_volume=0.0, *, x=0.0, largest=None) -> Place:
    """Where things stand in a jar filled up to `filled` mL that is drawn elsewhere, as in a
    backdrop; parameters as for `draw_jar`.

    Examples
    --------
    >>> place_of(500, 500).level == place_of(500, 0).top
    True
    """
    shape = _vessel("jar")
    scale = (jar_volume / (largest or jar_volume)) ** (1 / 3)
    wide = (shape.r.max() + shape.wall) * scale
    level, heap = (shape.level(volume / jar_volume) * scale for volume in (filled, herb_volume))
    return Place(x, x - wide, x + wide, level, heap, shape.height * scale)


def _draw_heap(ax, kind, x, scale, heap, fresh) -> None:
    pieces, heights, shade = _heap(kind, "jar")
    length = _PIECES[kind][1]
    # at least one row shows, however little herb there is
    count = np.searchsorted(heights, max(heap - 0.35 * length, heights[0] + 0.02), side="right")
    pieces = pieces[:count]
    light = mix(HERB, FRESH if fresh else DRIED, 0.5)
    dark = mix(HERB, FRESH_SHADE if fresh else DRIED_SHADE, 0.3)
    ramp = np.array([mix(dark, light, share) for share in np.linspace(0, 1, 9)])
    edge = mix(HERB, INK, 0.75)
    if kind == "powder":  # too fine to see each grain
        room = _vessel("jar").inside(0, heap)
        _fills(ax, [room * scale + (x, 0)], facecolors=ramp[5], linewidths=0, zorder=2.4)
    _fills(
        ax, pieces * scale + (x, 0), facecolors=ramp[np.rint((shade[:count] + 1) * 4).astype(int)],
        edgecolors=edge if kind != "powder" else "none", linewidths=0.9, zorder=2.5,
    )
    if kind == "leaf":  # the rib in the middle
        ribs = np.stack([pieces[:, 0], (pieces[:, 0] + 4 * pieces[:, 8]) / 5], axis=1)
        _lines(ax, ribs * scale + (x, 0), colors=edge, linewidths=0.8, zorder=2.6)


def _bracket(ax, x, height, words) -> None:
    """A bracket from the floor to `height`, with words along it."""
    lines = [[(x + 0.07, 0), (x, 0), (x, height), (x + 0.07, height)]]
    _lines(ax, lines, colors=HERB, linewidths=3, capstyle="round", zorder=3)
    long = height > 1.3
    ax.text(
        x - 0.08, height / 2 if long else 0, words, rotation=90, ha="right",
        va="center" if long else "bottom", fontsize=SMALL,
    )


def _head_space(ax, shape, x, scale, level, head_space, left) -> None:
    """A note on the room above the liquid."""
    middle = (level + shape.height) / 2
    r = np.interp(middle, shape.y, shape.r) + shape.wall
    height = max(middle * scale, level * scale + 0.15)
    _lines(
        ax, [[(x + r * scale * 0.75, middle * scale), (left, height)]], colors=SOFT, linewidths=1,
        zorder=3.6,
    )
    ax.text(
        left + 0.05, height, f"head space\n{head_space:.0f} mL", va="bottom", fontsize=SMALL,
        linespacing=0.95,
    )


def _draw_plain(ax, kind, volume, parts, capacity, label, x, largest, layers, gauge) -> Place:
    _check(capacity, liquid=volume)
    shape = _vessel(kind)
    scale = (capacity / (largest or capacity)) ** (1 / 3)
    level = shape.level(volume / capacity)
    parts = {part: amount for part, amount in (parts or {"water": 1}).items() if amount > 0}
    total = sum(parts.values()) or 1.0
    if layers:
        tops = np.cumsum(list(parts.values())) / total * volume / capacity
        colours = [(shape.level(top), colour_of(part)) for top, part in zip(tops, parts)]
    else:
        colours = [(level, tint(parts))]
    _fill(ax, shape, x, scale, level, colours)
    _glass(ax, shape, x, scale)
    if gauge:
        _gauge(ax, shape, x, scale, capacity)
    if label:
        ax.text(x, -0.14, label, ha="center", va="top", fontweight="bold")
    wide = (shape.r.max() + shape.wall) * scale
    return Place(x, x - wide, x + wide, level * scale, 0.0, shape.height * scale)


def draw_cylinder(
    ax, volume, parts=None, *, capacity, label="", x=0.0, largest=None, layers=False, gauge=True,
) -> Place:
    """Draw a measuring cylinder with `volume` mL of a liquid of the given parts.

    Parameters
    ----------
    ax : matplotlib axes, prepared by `vessel_axes`
    volume : float
        Liquid in it, mL (0 to `capacity`).
    parts : mapping, optional
        Parts of the liquid in any one unit; they colour it.
    capacity : float
        What it holds to the brim, mL.
    label, x, largest, gauge
        As for `draw_jar`.
    layers : bool
        Draw the parts one above the other, as if they did not mix.

    Returns
    -------
    Place

    Raises
    ------
    ValueError
        When the liquid does not fit.
    """
    return _draw_plain(ax, "cylinder", volume, parts, capacity, label, x, largest, layers, gauge)


def draw_bottle(
    ax, volume, parts=None, *, capacity, label="", x=0.0, largest=None, layers=False, gauge=False,
) -> Place:
    """Draw a corked bottle with `volume` mL in it; parameters as for `draw_cylinder`."""
    return _draw_plain(ax, "bottle", volume, parts, capacity, label, x, largest, layers, gauge)

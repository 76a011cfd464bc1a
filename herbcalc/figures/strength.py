"""Strength in pictures: one scale read three ways, the hydrometer, and the flash point.

Each picture has a backdrop, drawn once, and a function that draws what moves from given numbers.
"""

import numpy as np
from matplotlib.collections import LineCollection, PolyCollection
from matplotlib.patches import Circle, Polygon, Rectangle
from matplotlib.path import Path

from herbcalc.figures.jar import GLASS, METAL, SHINE
from herbcalc.figures.style import (
    AIR, CAUTION, GRID, INK, PAPER, RESULT, SOFT, WRONG, colour_of, mix, tint,
)
from herbcalc.strength import abv, flash_point

# % vol of the "proof spirit" of old British books, from memory. The tests check it by its legal
# definition: it weighs 12/13 of as much water, both at 51 degF.
BRITISH_PROOF = 57.1

# --- one scale of strength -----------------------------------------------------------------------

_BOTTLE = (5.0, 43.0)  # left and right wall of the drawn bottle
_RULERS = {"US proof": 66, "% vol": 110, "% by mass": 146}
_HALF = 6.0  # half the width of a ruler
_BRITISH = 82.0  # middle of the old British figures, on the right edge of the proof ruler
_BALANCE = 181.0  # the middle of the kitchen scale


def scales_backdrop(ax):
    """The three rulers (US proof, % by volume, % by mass) and an empty kitchen scale.

    Parameters
    ----------
    ax : matplotlib axes; its heights 0 to 100 are % by volume
    """
    ax.set(xlim=(0, 204), ylim=(-11, 126))
    ax.set_axis_off()
    ax.text(sum(_BOTTLE) / 2, -3.5, "100 mL of it", ha="center", va="top", fontweight="bold")
    _ruler(ax, "US proof", {v: v / 2 for v in range(0, 201, 10)}, every=20)
    _ruler(ax, "% vol", {v: v for v in range(0, 101, 5)}, every=10)
    _ruler(ax, "% by mass", {v: abv(v / 100) for v in range(0, 101, 5)}, every=10)
    x = _BALANCE
    ax.add_patch(Polygon([(x - 14, 2), (x + 14, 2), (x + 17, -1), (x - 17, -1)],
                         facecolor=SOFT, edgecolor=SOFT))
    ax.add_patch(Polygon([(x - 16, 2), (x + 16, 2), (x + 12, 22), (x - 12, 22)],
                         facecolor=METAL, edgecolor=SOFT, linewidth=1.5))
    ax.add_patch(Rectangle((x - 17, 22), 34, 3, facecolor=METAL, edgecolor=SOFT, linewidth=1.5))
    ax.text(x, -3.5, "one litre of it", ha="center", va="top", fontweight="bold")


def _ruler(ax, name, places, every):
    """A ruler whose mark `v` stands at the height `places[v]` (% by volume)."""
    x = _RULERS[name]
    ax.add_patch(Rectangle((x - _HALF, 0), 2 * _HALF, 100, facecolor=AIR, edgecolor=SOFT))
    _graduate(ax, x - _HALF, 1, places, every)
    ax.text(x, 108, name, ha="center", va="bottom", fontweight="bold")


def _graduate(ax, edge, inward, places, every):
    """Marks and figures along one edge of a ruler; `inward` (1 or -1) points into it."""
    marks = [[(edge, y), (edge + inward * (5 if v % every == 0 else 2.5), y)]
             for v, y in places.items()]
    ax.add_collection(LineCollection(marks, colors=SOFT, linewidths=1.2))
    for v, y in places.items():
        if v % every == 0:
            ax.text(edge - inward * 1.5, y, f"{v:g}", ha="right" if inward > 0 else "left",
                    va="center", fontsize=11, color=SOFT)


def _bottle_outline():
    """A bottle whose straight wall goes from 0 to 100, with a round shoulder and foot."""
    left, right = _BOTTLE
    middle, neck = (left + right) / 2, 6.0
    turn = np.linspace(0, np.pi / 2, 7)
    foot = [(right - 4 + 4 * np.sin(a), 4 - 4 * np.cos(a)) for a in turn]
    t = np.linspace(0, 1, 10)
    reach = right - middle
    shoulder = [(middle + reach + (neck - reach) * b * b * (3 - 2 * b), 100 + 11 * b) for b in t]
    half = np.array([*foot, *shoulder, (middle + neck, 120)])
    mirrored = half[::-1] * (-1, 1) + (2 * middle, 0)
    return np.concatenate([half, mirrored])


def scales(ax, strength, proof, by_mass, litre, british=None):
    """One liquid on all the rulers at once, how much of it is ethanol, and what it weighs.

    Parameters
    ----------
    ax : matplotlib axes with `scales_backdrop`
    strength : float, % by volume
    proof : float, US proof
    by_mass : float, % by mass
    litre : float, g, the weight of one litre
    british : float, optional, old British proof; given, that scale is drawn too
    """
    _fill_bottle(ax, strength)
    if british is not None:
        x = _RULERS["US proof"]
        places = {v: v * BRITISH_PROOF / 100 for v in range(0, 176, 25)}
        _graduate(ax, x + _HALF, -1, places, every=50)
        ax.text(x + 19, 108, "British", ha="center", va="bottom", color=SOFT)
    ax.plot([_BOTTLE[0], _RULERS["% by mass"] + _HALF + 3], [strength, strength], color=RESULT,
            linewidth=2, gid="level")
    for name, number in {"US proof": proof, "% vol": strength, "% by mass": by_mass}.items():
        _flag(ax, _RULERS[name], strength, number, name)
    if british is not None:
        _flag(ax, _BRITISH, strength, british, "British")
    _weigh(ax, strength, litre)


def _flag(ax, x, y, number, gid):
    ax.text(x, y, f"{number:.0f}", ha="center", va="center", color=PAPER, fontsize=17,
            fontweight="bold", gid=gid,
            bbox={"boxstyle": "round,pad=0.2", "facecolor": RESULT, "edgecolor": "none"})


def _fill_bottle(ax, strength):
    left, right = _BOTTLE
    middle = (left + right) / 2
    outline = _bottle_outline()
    glass = Polygon(outline, facecolor=SHINE, edgecolor="none")
    ax.add_patch(glass)
    for low, high, part in ((0, strength, "ethanol"), (strength, 100, "water")):
        layer = Rectangle((left, low), right - left, high - low, facecolor=colour_of(part),
                          edgecolor="none", gid=part)
        ax.add_patch(layer)
        layer.set_clip_path(glass)
    ax.add_patch(Polygon(outline, fill=False, edgecolor=GLASS, linewidth=4, joinstyle="round"))
    ax.add_patch(Polygon([(middle - 5, 116), (middle + 5, 116), (middle + 6.2, 125),
                          (middle - 6.2, 125)], facecolor="#b98f5d", edgecolor=SOFT))
    if strength >= 16:
        ax.text(middle, strength / 2, f"alcohol\n{strength:.0f} mL", color=PAPER, ha="center",
                va="center", fontsize=14)
    if strength <= 88:
        ax.text(middle, (strength + 100) / 2, "water", ha="center", va="center", fontsize=14)


def _weigh(ax, strength, litre):
    """A litre of it on the kitchen scale."""
    x = _BALANCE
    body = np.array([(-11, 25), (-11, 68), (-5, 78), (-5, 84), (5, 84), (5, 78), (11, 68),
                     (11, 25)]) + (x, 0)
    ax.add_patch(Polygon(body, facecolor=tint({"ethanol": strength, "water": 100 - strength}),
                         edgecolor=GLASS, linewidth=4, joinstyle="round"))
    ax.text(x, 47, "1 L", ha="center", va="center", fontsize=15)
    ax.text(x, 12, f"{litre:.0f} g", ha="center", va="center", fontsize=16, fontweight="bold",
            color=PAPER, gid="weight",
            bbox={"boxstyle": "round,pad=0.15", "facecolor": RESULT, "edgecolor": "none"})


# --- the hydrometer ------------------------------------------------------------------------------

_SURFACE = 72.0  # height of the liquid's surface
_TUBE = (60.0, 88.0)  # walls of the cylinder
_LENS = (119.0, 60.0, 20.0)  # middle and half width of the magnifier
_NEAR = 3.6  # magnified heights for 1 % vol
_WHOLE = 0.5  # heights for 1 % vol on the stem itself
_THERMOMETER = 19.0
_COLDEST, _WARMEST = 5, 35
_TRUTH = 177.0


def hydrometer_backdrop(ax):
    """Thermometer, cylinder and the ruler of true strength."""
    ax.set(xlim=(0, 214), ylim=(-11, 112))
    ax.set_axis_off()
    _say_below(ax, _THERMOMETER, "temperature")
    _say_below(ax, sum(_TUBE) / 2, "hydrometer")
    _say_below(ax, _LENS[0], "looking closely")
    _say_below(ax, _TRUTH, "strength")
    x = _THERMOMETER
    ax.add_patch(Rectangle((x - 3, 10), 6, 96, facecolor=AIR, edgecolor=GLASS, linewidth=2.5))
    for t in range(_COLDEST, _WARMEST + 1, 5):
        y = _thermometer_height(t)
        ax.plot([x - 6, x - 3], [y, y], color=SOFT, linewidth=1.2)
        ax.text(x - 7.5, y, f"{t}", ha="right", va="center", fontsize=11, color=SOFT)
    y = _thermometer_height(20)
    ax.plot([x - 6, x + 6], [y, y], color=INK, linewidth=2)
    ax.text(x + 8, y, "20 °C:\nreads true", va="center", fontsize=11, color=SOFT)
    ax.add_patch(Rectangle((_TRUTH - 5, 2), 10, 104, facecolor=AIR, edgecolor=SOFT))
    for v in range(0, 101, 10):
        y = _truth_height(v)
        ax.plot([_TRUTH - 5, _TRUTH + 5], [y, y], color=GRID, linewidth=1.2)
        ax.text(_TRUTH, y, f"{v}", ha="center", va="center", fontsize=11, color=SOFT)


def _say_below(ax, x, words):
    ax.text(x, -3, words, ha="center", va="top", fontweight="bold")


def _thermometer_height(temperature):
    return 16 + (temperature - _COLDEST) / (_WARMEST - _COLDEST) * 84


def _truth_height(strength):
    return 4 + strength


def hydrometer(ax, reading, temperature, truth):
    """A hydrometer as it floats, its stem seen closely, and what the reading means.

    Parameters
    ----------
    ax : matplotlib axes with `hydrometer_backdrop`
    reading : float, % by volume as read where the surface cuts the stem
    temperature : float, degC, 5 to 35
    truth : float, % by volume at 20 degC
    """
    x = _THERMOMETER
    ax.add_patch(Rectangle((x - 3, 10), 6, _thermometer_height(temperature) - 10,
                           facecolor=SOFT, edgecolor="none", gid="temperature"))
    ax.add_patch(Circle((x, 9), 6, facecolor=SOFT, edgecolor=GLASS, linewidth=2.5))
    ax.text(x + 8, _clear_of(_thermometer_height(temperature), _thermometer_height(20), 13),
            f"{temperature:.0f} °C", va="center", fontsize=16, fontweight="bold")
    _float(ax, reading, tint({"ethanol": truth, "water": 100 - truth}))
    _closely(ax, reading, tint({"ethanol": truth, "water": 100 - truth}))
    _mark(ax, reading, f"reads\n{reading:.0f} % vol", -1, WRONG)
    _mark(ax, truth, f"is really\n{truth:.0f} % vol", 1, RESULT)


def _clear_of(height, taken, gap):
    """`height`, moved away from `taken` where the two are nearer than `gap`."""
    if abs(height - taken) >= gap:
        return height
    return taken + gap if height >= taken else taken - gap


def _float(ax, reading, colour):
    left, right = _TUBE
    middle = (left + right) / 2
    ax.add_patch(Rectangle((left, 0), right - left, 94, facecolor=AIR, edgecolor="none"))
    ax.add_patch(Rectangle((left, 0), right - left, _SURFACE, facecolor=colour,
                           edgecolor="none"))
    foot = _SURFACE - reading * _WHOLE  # where the stem grows out of the bulb
    stem = np.array([(-1.6, 0), (-1.6, 50), (-1, 51.5), (1, 51.5), (1.6, 50), (1.6, 0)])
    turn = np.linspace(0, 2 * np.pi, 33)
    bulb = np.column_stack([5.5 * np.sin(turn), -8.5 + 8.8 * np.cos(turn)])
    shot = bulb[(bulb[:, 1] < -11.5)] * (0.86, 0.97)
    ax.add_collection(PolyCollection(
        [stem + (middle, foot), bulb + (middle, foot), shot + (middle, foot)],
        facecolors=[PAPER, SHINE, SOFT], edgecolors=INK, linewidths=1.2, zorder=2))
    marks = [[(middle - 1.6, foot + v * _WHOLE), (middle + 1.6, foot + v * _WHOLE)]
             for v in range(0, 101, 10)]
    ax.add_collection(LineCollection(marks, colors=INK, linewidths=1.2, zorder=2.1))
    ax.plot([left, right], [_SURFACE, _SURFACE], color=INK, linewidth=1.8, zorder=1.9)
    wall = [(left, 95), (left, 0), (right, 0), (right, 95)]
    ax.plot(*zip(*wall), color=GLASS, linewidth=4, zorder=2.2)
    ax.plot([left - 6, right + 6], [0, 0], color=GLASS, linewidth=4)
    reach = _LENS[2]
    lens_left = _LENS[0] - reach
    ax.plot([middle, lens_left], [_SURFACE + 3, _LENS[1] + 6], color=SOFT, linewidth=1)
    ax.plot([middle, lens_left], [_SURFACE - 3, _LENS[1] - 6], color=SOFT, linewidth=1)


def _closely(ax, reading, colour):
    x, y, reach = _LENS
    high = 40
    frame = Rectangle((x - reach, y - high), 2 * reach, 2 * high, facecolor=AIR,
                      edgecolor="none")
    ax.add_patch(frame)
    ax.add_patch(Rectangle((x - reach, y - high), 2 * reach, high, facecolor=colour,
                           edgecolor="none"))
    half = 13
    ax.add_patch(Rectangle((x - half, y - high), 2 * half, 2 * high, facecolor=PAPER,
                           edgecolor=INK, linewidth=1.4))
    near = high / _NEAR
    values = range(int(np.ceil(max(reading - near, 0))), int(min(reading + near, 100)) + 1)
    marks = [[(x - half, y + (v - reading) * _NEAR),
              (x - half + (12 if v % 5 == 0 else 6), y + (v - reading) * _NEAR)] for v in values]
    ax.add_collection(LineCollection(marks, colors=INK, linewidths=1.6))
    for v in values:
        at = y + (v - reading) * _NEAR
        if v % 5 == 0 and abs(at - y) <= high - 4:
            ax.text(x + half - 2, at, f"{v}", ha="right", va="center", fontsize=15,
                    fontweight="bold", zorder=4,
                    bbox={"boxstyle": "square,pad=0.05", "facecolor": PAPER, "edgecolor": "none"})
    ax.plot([x - reach, x + reach], [y, y], color=INK, linewidth=2.4, gid="surface")
    ax.add_patch(Rectangle((x - reach, y - high), 2 * reach, 2 * high, fill=False,
                           edgecolor=SOFT, linewidth=2.5))


def _mark(ax, strength, words, side, colour):
    """A pointer at the ruler of true strength, from the left (-1) or the right (+1)."""
    y = _truth_height(strength)
    tip = _TRUTH + side * 5.5
    ax.add_patch(Polygon([(tip, y), (tip + side * 5, y + 4), (tip + side * 5, y - 4)],
                         facecolor=colour, edgecolor=INK))
    ax.text(tip + side * 6.5, y, words, ha="left" if side > 0 else "right", va="center",
            fontsize=14, fontweight="bold", color=INK if colour == WRONG else colour,
            gid="truth" if side > 0 else "reading")


# --- the flash point -----------------------------------------------------------------------------

_TABLE = (20, 40, 70, 96)  # % vol, the rows of the table behind `flash_point`
_FLAME = Path([
    (0.0, 1.25), (0.25, 0.75), (0.95, 0.35), (0.85, -0.4), (0.75, -0.9), (0.35, -1.0), (0.0, -1.0),
    (-0.35, -1.0), (-0.75, -0.9), (-0.85, -0.4), (-0.9, 0.0), (-0.6, 0.25), (-0.5, 0.55),
    (-0.3, 0.3), (-0.15, 0.7), (0.0, 1.25),
], [Path.MOVETO] + [Path.CURVE4] * 15)


def flash_backdrop(ax):
    """The flash point of spirit from 20 to 96 % vol, and what lies above it."""
    ax.set(xlim=(18, 99), ylim=(0, 46), xlabel="strength [% vol]", ylabel="temperature [°C]")
    ax.set_xticks([20, 30, 40, 50, 60, 70, 80, 90])
    flash = flash_point(np.array(_TABLE))
    ax.fill_between(_TABLE, flash, 46, facecolor=mix(CAUTION, PAPER, 0.76), linewidth=0)
    ax.plot(_TABLE, flash, "o-", color=CAUTION, markersize=8, gid="flash points")
    ax.text(58, 43, "above the line, a spark lights the vapour", ha="center", va="center",
            fontsize=15, fontweight="bold")
    ax.text(58, 3, "below it, it still burns once warmed or lit", ha="center", va="center",
            fontsize=15)
    ax.text(22, 31, "flash point", color=CAUTION, fontsize=13, fontweight="bold",
            rotation=-21, rotation_mode="anchor", va="center")


def flash(ax, strength, temperature, flash):
    """Where a spirit stands against its flash point.

    Parameters
    ----------
    ax : matplotlib axes with `flash_backdrop`
    strength : float, % by volume, 20 to 96
    temperature : float, degC, 0 to 40, of the warmest place the spirit or its vapour meets
    flash : float, degC, its flash point
    """
    alight = temperature >= flash
    ax.plot([strength, strength], [temperature, flash], color=INK, linewidth=2,
            linestyle=(0, (2, 1.5)), gid="distance")
    ax.plot([strength], [temperature], marker=_FLAME if alight else "o",
            markersize=34 if alight else 20, color=CAUTION if alight else RESULT,
            markeredgecolor=INK, gid="here")
    right = strength < 70
    label = np.clip(temperature + (3.5 if alight else -3.5), 6.5, 39.5)
    ax.text(strength + (2.4 if right else -2.4), label,
            f"{strength:.0f} % vol at {temperature:.0f} °C", ha="left" if right else "right",
            va="center", fontsize=15, fontweight="bold",
            bbox={"boxstyle": "round,pad=0.25", "facecolor": PAPER, "edgecolor": INK})

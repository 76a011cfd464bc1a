"""What the pictures of measuring error show, held against the library's draws."""

import re

import matplotlib
import pytest
from matplotlib.figure import Figure

import herbcalc as hc
from herbcalc import explore
from herbcalc.explore import measuring as panels
from herbcalc.figures import measuring as draw
from herbcalc.figures.style import STYLE
from herbcalc.measuring import SCALES, VOLUMES, spread

MINT = hc.herb("peppermint", "fresh")


def one(ax, gid):
    (found,) = ax.findobj(lambda artist: artist.get_gid() == gid)
    return found


def jar(*numbers):
    with matplotlib.rc_context(STYLE):
        axes = draw.jar_axes(Figure(figsize=(9, 5.2)))
        draw.jar_backdrop(axes, list(panels.PAIRS))
        return axes, panels._show_jar(axes, *numbers)


def dilution(*numbers):
    with matplotlib.rc_context(STYLE):
        ax = Figure(figsize=(9, 4.4)).add_subplot()
        draw.dilution_backdrop(ax, list(VOLUMES))
        return ax, panels._show_dilution(ax, *numbers)


def test_each_box_holds_what_the_library_says():
    axes, said = jar(MINT, 40, 200, 50)
    assert "Meant: 1:5.0" in said
    for row, (scale, measure) in enumerate(panels.PAIRS.values()):
        got = spread(MINT, 40, 200, 50, SCALES[scale], VOLUMES[measure], count=panels.TIMES)
        low, _, high = got.range("ratio")
        box = one(axes[0], f"range ratio {row}")
        assert box.get_x() == pytest.approx(100 * (low / 5 - 1))
        assert box.get_x() + box.get_width() == pytest.approx(100 * (high / 5 - 1))
        words = one(axes[0], f"words ratio {row}").get_text()
        assert words in (f"1:{low:.1f} to 1:{high:.1f}", f"1:{low:.1f}")


def test_better_tools_stand_above_worse_ones():
    axes, _ = jar(MINT, 40, 200, 50)
    for ax, what in zip(axes, ("ratio", "strength")):
        widths = [one(ax, f"range {what} {row}").get_width() for row in range(len(panels.PAIRS))]
        assert widths == sorted(widths)
    assert all("% off" in axes[0].get_xlabel() or "% vol" in ax.get_xlabel() for ax in axes)


def test_of_a_hundred_dots_about_five_lie_outside_the_box():
    ax, _ = dilution(200, 95, 40)
    for row in range(2):
        box, dots = one(ax, f"range {row}"), one(ax, f"dots {row}").get_xdata()
        outside = sum((dots < box.get_x()) | (dots > box.get_x() + box.get_width()))
        assert 0.01 < outside / len(dots) < 0.11


@pytest.mark.parametrize("to", [20, 40, 60])
def test_the_ranges_lie_about_what_was_meant(to):
    ax, said = dilution(100, 95, to)
    assert f"meant for {to} % vol" in said
    for row in range(len(VOLUMES)):
        low, high = map(float, re.findall(r"[\d.]+", one(ax, f"words {row}").get_text()))
        assert low < to < high


def test_the_errors_of_kitchen_tools_are_said_to_be_invented():
    assert "invented" in " ".join(tool.source for tool in SCALES.values())
    for panel in (explore.measuring_jar(), explore.measuring_dilution()):
        assert "invented" in " ".join(c.help for c in panel.controls.values())

"""What the course's look promises: colours that stay apart, and a jar that is true to scale."""

import io
from itertools import combinations
from pathlib import Path

import matplotlib
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.colors import to_rgb
from matplotlib.figure import Figure
from panel_benchmark import demo
from PIL import Image

from herbcalc.figures import jar, style

BASELINES = Path(__file__).with_name("baselines")

# --- colour, seen with other eyes ----------------------------------------------------------------

# Machado, Oliveira, Fernandes: A Physiologically-based Model for Simulation of Color Vision
# Deficiency, IEEE Trans. Visualization and Computer Graphics 15 (2009) 1291-1298: matrices for
# severity 1.0, on linear RGB. Figures from memory.
EYES = {
    "usual": np.eye(3),
    "protanopia": [
        [0.152286, 1.052583, -0.204868],
        [0.114503, 0.786281, 0.099216],
        [-0.003882, -0.048116, 1.051998],
    ],
    "deuteranopia": [
        [0.367322, 0.860646, -0.227968],
        [0.280085, 0.672501, 0.047413],
        [-0.011820, 0.042940, 0.968881],
    ],
    "tritanopia": [
        [1.255528, -0.076749, -0.178779],
        [-0.078411, 0.930809, 0.147602],
        [0.004733, 0.691367, 0.303900],
    ],
}
# sRGB to CIE XYZ under D65: IEC 61966-2-1
XYZ = np.array(
    [[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]]
)


def linear(colour):
    c = np.array(to_rgb(colour))
    return np.where(c <= 0.04045, c / 12.92, ((c + 0.055) / 1.055) ** 2.4)


def lab(light):
    """CIE 1976 L*a*b* of linear RGB light (CIE 15, white D65)."""
    t = XYZ @ np.clip(light, 0, 1) / XYZ.sum(axis=1)
    f = np.where(t > (6 / 29) ** 3, np.cbrt(t), t / (3 * (6 / 29) ** 2) + 4 / 29)
    return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])


def contrast(one, other):
    """Contrast ratio of WCAG 2.2."""
    low, high = sorted(float(XYZ[1] @ linear(colour)) for colour in (one, other))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("eyes", EYES)
def test_colours_stay_apart_for_all_eyes(eyes):
    # A difference of 2.3 is just noticeable side by side; 20 is plain across a room.
    seen = {
        name: lab(np.array(EYES[eyes]) @ linear(meaning.colour))
        for name, meaning in style.MEANINGS.items()
    }
    for one, other in combinations(seen, 2):
        assert np.linalg.norm(seen[one] - seen[other]) > 20, f"{one} and {other}"


def test_liquids_stay_apart_in_grey_print():
    """Any two parts may meet in the bar of parts, so each pair differs by lightness alone."""
    grey = {name: lab(linear(style.colour_of(name)))[0]
            for name in ("water", "ethanol", "glycerin", "acid")}
    for one, other in combinations(grey, 2):
        assert abs(grey[one] - grey[other]) > 10, f"{one} and {other}"
    hatches = [style.MEANINGS[name].hatch for name in ("glycerin", "acid", "wrong")]
    assert len({*hatches, ""}) == 4


@pytest.mark.parametrize("parts", [{"water": 1}, {"ethanol": 40, "water": 60}, {"glycerin": 1}])
def test_herb_and_level_show_through_any_liquid_in_grey(parts):
    liquid = lab(linear(style.tint(parts)))[0]
    assert abs(liquid - lab(linear(style.HERB))[0]) > 12
    assert abs(liquid - lab(linear(style.AIR))[0]) > 3  # and a dark line marks the level


def test_stronger_spirit_is_a_deeper_blue():
    lightness = [
        lab(linear(style.tint({"ethanol": abv, "water": 100 - abv})))[0]
        for abv in range(0, 101, 10)
    ]
    assert all(np.diff(lightness) < 0)


def test_words_and_lines_can_be_read():
    for colour in (style.INK, style.SOFT, style.RESULT, style.CAUTION):
        assert contrast(colour, style.PAPER) >= 4.5  # WCAG 2.2, 1.4.3: text
    for colour in (style.WRONG, style.HERB, style.ETHANOL, style.ACID):
        assert contrast(colour, style.PAPER) >= 3  # 1.4.11: what a picture is made of
    with matplotlib.rc_context(style.STYLE):
        sizes = [matplotlib.rcParams[name] for name in ("font.size", "axes.labelsize")]
    assert min(sizes) >= 13 and jar.SMALL >= 11


def test_every_colour_is_explained_once():
    with matplotlib.rc_context(style.STYLE):
        figure = Figure(figsize=(9, 1.8), dpi=96)
        canvas = FigureCanvasAgg(figure)
        ax = figure.subplots()
        style.legend_strip(ax)
        canvas.draw()
        words = [text.get_text() for text in ax.texts]
        shown = [matplotlib.colors.to_hex(patch.get_facecolor()) for patch in ax.patches]
        for text in ax.texts:
            box = text.get_window_extent()
            assert box.x1 <= figure.bbox.x1 and box.y0 >= 0
    assert words == [meaning.words for meaning in style.MEANINGS.values()]
    assert shown == [meaning.colour for meaning in style.MEANINGS.values()]
    assert len(set(shown)) == len(shown)


# --- the jar -------------------------------------------------------------------------------------


def drawn(draw, size=(4.4, 4.2), **axes):
    """A figure with one axes prepared for vessels; `draw` draws on it."""
    with matplotlib.rc_context(style.STYLE):
        figure = Figure(figsize=size, dpi=96)
        canvas = FigureCanvasAgg(figure)
        ax = figure.add_subplot()
        jar.vessel_axes(ax, **axes)
        place = draw(ax)
        canvas.draw()
    return figure, ax, place


def pixels(figure):
    return np.asarray(figure.canvas.buffer_rgba())[..., :3].astype(float)


def outlines(ax, colour):
    """Outlines of everything filled with `colour`."""
    found = []
    for collection in ax.collections:
        faces = [matplotlib.colors.to_hex(face) for face in collection.get_facecolor()]
        for face, path in zip(faces, collection.get_paths()):
            if face == colour:
                found.append(path.vertices)
    return found


def turned(outline):
    """Volume of the body that the right half of `outline` makes when turned about x = 0.

    Pappus of Alexandria: area times the way of its centre, 2 pi x. Area and centre of a polygon
    by the shoelace formula.
    """
    right = outline.copy()
    right[:, 0] = np.maximum(right[:, 0], 0)
    x, y = right.T
    cross = x * np.roll(y, -1) - np.roll(x, -1) * y
    return abs(2 * np.pi * ((x + np.roll(x, -1)) * cross).sum() / 6)


VESSELS = {
    "jar": lambda ax, volume, capacity: jar.draw_jar(
        ax, capacity, liquid_volume=volume, parts={"water": volume}, bar=False,
    ),
    "bottle": lambda ax, volume, capacity: jar.draw_bottle(ax, volume, capacity=capacity),
    "cylinder": lambda ax, volume, capacity: jar.draw_cylinder(ax, volume, capacity=capacity),
}


@pytest.mark.parametrize("vessel", VESSELS)
@given(share=st.floats(0.02, 0.999))
def test_the_liquid_drawn_is_the_liquid_poured(vessel, share):
    ax = Figure().add_subplot()
    place = VESSELS[vessel](ax, 800 * share, 800)
    (liquid,) = outlines(ax, style.tint({"water": 1}))
    (room,) = outlines(ax, style.AIR)
    assert turned(liquid) / turned(room) == pytest.approx(share, abs=2e-3)
    assert liquid[:, 1].max() == pytest.approx(place.level)


def test_marks_on_the_glass_stand_where_that_much_liquid_stands():
    figure, ax, _ = drawn(lambda ax: jar.draw_jar(ax, 500, liquid_volume=1))
    marks = {text.get_text(): text.get_position()[1] for text in ax.texts}
    assert {"100", "200", "300", "400", "500 mL"} <= set(marks)
    for words, height in marks.items():
        volume = float(words.removesuffix(" mL"))
        _, _, place = drawn(lambda ax: jar.draw_jar(ax, 500, liquid_volume=volume))
        assert place.level == pytest.approx(height)


def test_smaller_jars_are_smaller_to_scale():
    _, _, large = drawn(lambda ax: jar.draw_jar(ax, 1000, largest=1000))
    _, _, half = drawn(lambda ax: jar.draw_jar(ax, 500, largest=1000))
    assert ((half.right - half.left) / (large.right - large.left)) ** 3 == pytest.approx(0.5)
    assert (half.top / large.top) ** 3 == pytest.approx(0.5)


def test_head_space_sets_the_level_and_is_named():
    _, ax, place = drawn(lambda ax: jar.draw_jar(
        ax, 500, herb_volume=400, liquid_volume=380, head_space=25, parts={"water": 380},
    ))
    _, _, same = drawn(lambda ax: jar.draw_jar(ax, 500, liquid_volume=475))
    assert place.level == pytest.approx(same.level)
    assert "head space\n25 mL" in [text.get_text() for text in ax.texts]


PARTS = {"ethanol": 160, "water": 240, "herb's water": 60, "glycerin": 30, "acid": 10}


def test_the_bar_shows_the_parts_and_says_them():
    _, ax, _ = drawn(lambda ax: jar.draw_parts(ax, PARTS, 0, 0, 2))
    bars = [path.vertices for c in ax.collections if c.get_facecolor().size
            for path in c.get_paths()]
    heights = [np.ptp(bar[:, 1]) for bar in bars]
    assert heights == pytest.approx([2 * part / 500 for part in PARTS.values()])
    words = [text.get_text() for text in ax.texts]
    assert words == ["alcohol\n160 mL", "water\n240 mL", "herb's water\n60 mL",
                     "glycerin\n30 mL", "acid\n10 mL"]
    gaps = np.diff([text.get_position()[1] for text in ax.texts])
    assert (gaps >= jar.LINES - 1e-9).all()  # no label over another, however thin a part


@pytest.mark.parametrize("kind", jar.HERB_KINDS)
@pytest.mark.parametrize("fill", [20, 250, 500])
def test_herb_lies_inside_the_glass_and_up_to_its_height(kind, fill):
    pieces, _, _ = jar._heap(kind, "jar")
    shape = jar._vessel("jar")
    inside = np.interp(pieces[..., 1], shape.y, shape.r)
    assert (np.abs(pieces[..., 0]) <= inside + shape.wall).all()
    assert pieces[..., 1].min() >= -shape.wall
    _, ax, place = drawn(
        lambda ax: jar.draw_jar(ax, 500, herb_volume=fill, herb_kind=kind, gauge=False)
    )
    heaps = [path.vertices[:, 1].max() for c in ax.collections if 2.4 <= c.get_zorder() <= 2.5
             for path in c.get_paths()]
    length = jar._PIECES[kind][1]
    assert heaps and max(heaps) <= place.herb + 0.75 * length
    assert max(heaps) >= place.herb - 1.5 * length


def test_pieces_of_herb_never_jump():
    """More herb adds pieces on top; those below stay where they were."""
    def pieces(fill):
        _, ax, _ = drawn(lambda ax: jar.draw_jar(ax, 500, herb_volume=fill, gauge=False))
        (heap,) = [c for c in ax.collections if c.get_zorder() == 2.5]
        return [path.vertices for path in heap.get_paths()]

    less, more = pieces(200), pieces(260)
    assert len(less) < len(more)
    for one, other in zip(less, more):
        assert (one == other).all()


def test_glass_in_the_backdrop_and_contents_apart_make_the_same_picture():
    contents = dict(herb_volume=300, liquid_volume=400, head_space=25, parts={"water": 400})
    whole, _, _ = drawn(lambda ax: jar.draw_jar(ax, 500, label="mint", **contents))

    def apart(ax):
        jar.draw_glass(ax, 500, label="mint")
        return jar.draw_jar(ax, 500, glass=False, **contents)

    assert (pixels(whole) == pixels(drawn(apart)[0])).all()


@pytest.mark.parametrize(
    "draw, words",
    [
        (lambda ax: jar.draw_jar(ax, 500, herb_volume=600), "loose herb, 600 mL, does not fit"),
        (lambda ax: jar.draw_jar(ax, 0), "more than 0 mL"),
        (lambda ax: jar.draw_jar(ax, 500, liquid_volume=-1), "does not fit"),
        (lambda ax: jar.draw_jar(ax, 500, herb_volume=9, herb_kind="fog"), "leaf, flower, root"),
        (lambda ax: jar.draw_jar(ax, 500, liquid_volume=9, parts={"gin": 9}), "No colour means"),
        (lambda ax: jar.draw_cylinder(ax, 501, capacity=500), "does not fit into 500 mL"),
    ],
)
def test_what_does_not_fit_is_refused_in_a_sentence(draw, words):
    with pytest.raises(ValueError, match=words):
        draw(Figure().add_subplot())


# --- pictures as a whole -------------------------------------------------------------------------


def fresh_jar(ax):
    jar.draw_jar(
        ax, 500, herb_volume=375, liquid_volume=437, head_space=25, fresh=True, label="mint",
        parts={"ethanol": 175, "water": 262, "herb's water": 32},
    )


def dried_seed(ax):
    jar.draw_jar(
        ax, 500, herb_volume=120, liquid_volume=400, head_space=25, herb_kind="seed",
        parts={"glycerin": 250, "water": 140, "acid": 10}, label="dried fennel seed",
    )


def measuring(ax):
    jar.draw_cylinder(ax, 300, {"ethanol": 95, "water": 5}, capacity=500, label="spirit")
    jar.draw_cylinder(ax, 200, capacity=500, label="water", x=1.8)
    jar.draw_cylinder(
        ax, 480, {"ethanol": 285, "water": 215}, capacity=500, label="both", x=3.6, layers=True,
    )
    jar.draw_bottle(ax, 420, {"ethanol": 40, "water": 60}, capacity=500, label="bottle", x=5.2)


PICTURES = {
    "fresh-jar": lambda: drawn(fresh_jar)[0],
    "dried-seed": lambda: drawn(dried_seed)[0],
    "measuring": lambda: drawn(measuring, (8, 4), left=-1.2, right=6.1)[0],
}


def test_nothing_is_cut_off_at_the_usual_size():
    for draw in (fresh_jar, dried_seed):
        figure, ax, _ = drawn(draw)
        for text in ax.texts:
            box = text.get_window_extent()
            assert box.x0 >= 0 and box.x1 <= figure.bbox.x1, text.get_text()
            assert box.y0 >= 0 and box.y1 <= figure.bbox.y1, text.get_text()


@pytest.mark.parametrize("part", ["acid", "herb's water", "ethanol"])
@pytest.mark.parametrize("amount", [1, 20, 200])
def test_labels_never_lie_over_each_other(part, amount):
    parts = {"glycerin": 150, "water": 150, part: amount}
    _, ax, _ = drawn(lambda ax: jar.draw_jar(
        ax, 500, herb_volume=375, liquid_volume=sum(parts.values()) * 0.9, head_space=25,
        parts=parts, label="dandelion",
    ))
    boxes = [text.get_window_extent() for text in ax.texts]
    for one, other in combinations(boxes, 2):
        wide = min(one.x1, other.x1) - max(one.x0, other.x0)
        high = min(one.y1, other.y1) - max(one.y0, other.y0)
        assert wide <= 0 or high <= 2


def compare(name, picture):
    """Against the kept picture, a step back: a release of matplotlib may set type anew."""
    kept = Image.open(BASELINES / f"{name}.png").convert("RGB")
    assert picture.size == kept.size
    now, then = (np.asarray(each.reduce(4), float) for each in (picture, kept))
    off = np.sqrt(((now - then) ** 2).mean())
    assert off < 5, f"{name} has changed by {off:.1f}; if that is meant, see _keep() below"


@pytest.mark.parametrize("name", PICTURES)
def test_pictures_look_as_they_did(name):
    compare(name, Image.fromarray(pixels(PICTURES[name]()).astype(np.uint8)))


def test_a_whole_panel_looks_as_it_did():
    compare("panel", Image.open(io.BytesIO(demo().answer().picture)).convert("RGB"))


def _keep():
    """Keep the pictures as they are now: python tests/test_figures.py, then look at them."""
    BASELINES.mkdir(exist_ok=True)
    for name, draw in PICTURES.items():
        picture = Image.fromarray(pixels(draw()).astype(np.uint8))
        picture.quantize(128, dither=Image.Dither.NONE).save(BASELINES / f"{name}.png")
    (BASELINES / "panel.png").write_bytes(demo().answer().picture)


if __name__ == "__main__":
    _keep()

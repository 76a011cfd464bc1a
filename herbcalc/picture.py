"""Painting the picture of a panel quickly.

The backdrop is painted once and copied. At each change only what moves is painted over the copy,
with ordinary matplotlib artists that are taken off again, and the result becomes one small PNG of
numbered colours. Most of the time of such a picture went into setting type, so words and digits
are set once and then stamped.
"""

import io
import re
import threading

import matplotlib
import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg, RendererAgg
from matplotlib.figure import Figure
from PIL import Image

from herbcalc.figures.style import STYLE, palette

__all__ = ["Picture"]

# JupyterLab may answer sliders in a thread of their own while a cell runs. matplotlib's settings
# and font caches are shared by all threads, so one picture is painted at a time.
_painting = threading.RLock()

_PIECES = re.compile(r"\d|\D+")  # numbers change all the time: their digits are stamped one by one
_MOST = 1000  # stamps and sizes kept


class _Colours:
    """A list of at most 256 colours: numbered colours make a small PNG, and quickly.

    The course's own colours come first; what the first picture needs beyond them is added. From
    then on the list stands, so that the same values always give the same picture.
    """

    def __init__(self, first: Image.Image):
        self._fix(palette())
        self._learn(first)

    def _fix(self, colours: np.ndarray):
        self._colours = colours
        self._list = Image.new("P", (1, 1))
        self._list.putpalette(colours.tobytes())

    def _number(self, picture: Image.Image) -> Image.Image:
        return picture.quantize(palette=self._list, dither=Image.Dither.NONE)

    def _learn(self, picture: Image.Image):
        """Add what is missed by a few of the pixels, looked at for all."""
        room = 256 - len(self._colours)
        few = np.ascontiguousarray(np.asarray(picture)[::5, ::5])
        kept = np.asarray(self._number(Image.fromarray(few)).convert("RGB"))
        off = np.abs(few.astype(int) - kept).max(axis=2) > 12
        if off.sum() > 6:
            strangers = Image.fromarray(few[off][None])
            found = strangers.quantize(room, dither=Image.Dither.NONE)
            extra = np.array(found.getpalette(), np.uint8).reshape(-1, 3)[:room]
            self._fix(np.concatenate([self._colours, extra]))

    def png(self, picture: Image.Image, effort: int = 1) -> bytes:
        """`picture` (RGB) as a PNG; `effort` from 1 (quick) to 9 (small)."""
        memory = io.BytesIO()
        self._number(picture).save(memory, "PNG", compress_level=effort)
        return memory.getvalue()


class _Brush(RendererAgg):
    """Agg with a memory for words.

    Digits and the words between them have a whole number of pixels of advance (the font is
    hinted), so put side by side they are the line that matplotlib would set.
    """

    def __init__(self, width, height, dpi):
        super().__init__(width, height, dpi)
        self._stamps, self._sizes = {}, {}

    def get_text_width_height_descent(self, s, prop, ismath):
        """Size of `s` in pixels, put together from the sizes of its pieces."""
        if ismath:
            return super().get_text_width_height_descent(s, prop, ismath)
        pieces = _PIECES.findall(s) or [""]
        sizes = [self._size(piece, prop) for piece in pieces]
        width = sum(advance for advance, *_ in sizes[:-1]) + sizes[-1][1]
        descent = max(size[3] for size in sizes)
        return width, max(size[2] - size[3] for size in sizes) + descent, descent

    def _size(self, piece, prop):
        """Advance, width, height and descent of a piece."""
        key = piece, hash(prop)
        if key not in self._sizes:
            measure = super().get_text_width_height_descent
            advance = measure(piece + "0", prop, False)[0] - measure("0", prop, False)[0]
            _keep(self._sizes, key, (advance, *measure(piece, prop, False)))
        return self._sizes[key]

    def draw_text(self, gc, x, y, s, prop, angle, ismath=False, mtext=None):
        """Stamp `s` piece by piece, from (x, y) on along `angle`."""
        if ismath:
            return super().draw_text(gc, x, y, s, prop, angle, ismath, mtext)
        turn = np.deg2rad(angle)
        for piece in _PIECES.findall(s):
            key = piece, hash(prop), angle, gc.get_rgb()
            if key not in self._stamps:
                _keep(self._stamps, key, self._stamp(gc, piece, prop, angle, mtext))
            left, below, image = self._stamps[key]
            if image.size:
                self.draw_image(gc, round(x) + left, self.height - round(y) + below, image)
            advance = self._size(piece, prop)[0]
            x, y = x + advance * np.cos(turn), y - advance * np.sin(turn)

    def _stamp(self, gc, piece, prop, angle, mtext):
        """`piece` as a small image, and where that lies from the point the piece starts at."""
        _, width, height, descent = self._size(piece, prop)
        reach = int(np.hypot(width, height + descent)) + 8
        slip = RendererAgg(2 * reach, 2 * reach, self.dpi)
        slip.draw_text(gc, reach, reach, piece, prop, angle, False, mtext)
        image = np.asarray(slip.buffer_rgba())[::-1]  # upwards, as draw_image counts
        rows, columns = (np.flatnonzero(image[..., 3].any(axis=way)) for way in (1, 0))
        if not len(rows):
            return 0, 0, image[:0]
        inked = image[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1].copy()
        return int(columns[0]) - reach, int(rows[0]) - reach, inked


def _keep(memory: dict, key, value) -> None:
    if len(memory) >= _MOST:
        memory.clear()
    memory[key] = value


class _Canvas(FigureCanvasAgg):
    def get_renderer(self):
        """The brush of this canvas, made once."""
        if not hasattr(self, "renderer"):
            width, height = self.figure.bbox.size
            self.renderer = _Brush(width, height, self.figure.dpi)
        return self.renderer


class Picture:
    """A backdrop painted once, over which moving parts are painted again and again."""

    def __init__(self, size, axes, backdrop, dpi, effort=1):
        self._colours, self._effort = None, effort
        with _painting, matplotlib.rc_context(STYLE):
            figure = Figure(figsize=size, dpi=dpi + 1e-6)  # so that no last pixel is rounded off
            self.canvas = _Canvas(figure)
            self.figure = figure
            self.axes = axes(figure) if axes else figure.add_subplot()
            if backdrop:
                backdrop(self.axes)
            self.canvas.draw()
            for ax in figure.axes:
                ax.autoscale(False)  # what moves must not move the limits
            self._limits = self._read_limits()
            self._fixed = {id(artist) for owner in self._owners() for artist in _parts(owner)}
            self._background = self.canvas.copy_from_bbox(figure.bbox)

    def _owners(self):
        return [self.figure, *self.figure.axes]

    def _read_limits(self):
        return [(ax.get_xlim(), ax.get_ylim()) for ax in self.figure.axes]

    def paint(self, show, values) -> tuple[bytes | None, str]:
        """Run `show`, and return the picture and the sentence. `show`'s errors pass through."""
        with _painting, matplotlib.rc_context(STYLE):
            containers = [(ax, len(ax.containers)) for ax in self.figure.axes]
            added = []
            try:
                sentence = show(self.axes, **values)
                added = self._added()
                if self._read_limits() != self._limits:
                    raise RuntimeError("show changed the limits of an axes; the backdrop sets them")
                self.canvas.restore_region(self._background)
                renderer = self.canvas.get_renderer()
                for artist in added:
                    artist.draw(renderer)
                return self._png(), sentence
            finally:
                for artist in added or self._added():
                    artist.remove()
                for ax, count in containers:
                    del ax.containers[count:]
                    ax.set_prop_cycle(None)

    def _added(self) -> list:
        added = []
        for owner in self._owners():
            new = [artist for artist in _parts(owner) if id(artist) not in self._fixed]
            added += sorted(new, key=lambda artist: artist.get_zorder())
        return added

    def backdrop(self) -> bytes:
        """The picture of the backdrop alone."""
        with _painting:
            self.canvas.restore_region(self._background)
            return self._png()

    def _png(self) -> bytes:
        size = self.canvas.get_width_height(physical=True)
        pixels = self.canvas.buffer_rgba()
        picture = Image.frombuffer("RGBA", size, pixels, "raw", "RGBA", 0, 1).convert("RGB")
        if self._colours is None:
            self._colours = _Colours(picture)
        return self._colours.png(picture, self._effort)


def _parts(owner) -> list:
    """The artists that stand directly on a figure or an axes."""
    axes = set(getattr(owner, "axes", ())) if isinstance(owner, Figure) else ()
    return [artist for artist in owner.get_children() if artist not in axes]

"""The log as shelves of jars: past its date, due, steeping, keeping."""

import numpy as np
from matplotlib.collections import PolyCollection
from matplotlib.patches import Rectangle

from herbcalc.figures.paper import A4, POINT, page_axes, write_pdf
from herbcalc.figures.letters import SANS, face, plain, wrap
from herbcalc.figures.style import CAUTION, GLASS, HERB, INK, METAL, PAPER, RESULT, SOFT, WATER, mix
from herbcalc.keeping import day_words

__all__ = ["SHELVES", "draw_shelves", "shelf_page", "shelves_backdrop"]

#: Each shelf with the standings (of `herbcalc.log.STATES`) that belong on it.
SHELVES = {
    "past its date, or spoiled": ("throw out",),
    "due now": ("to strain", "to look at"),
    "steeping": ("steeping",),
    "strained and keeping": ("keeping",),
}
ACROSS = 4  # jars drawn on a shelf; the last place says how many more there are
_JAR = np.array([(0.0, 0.0), (0.62, 0.0), (0.62, 0.66), (0.52, 0.78), (0.1, 0.78), (0.0, 0.66)])
_HERB = np.array([(0.0, 0.0), (0.62, 0.0), (0.62, 0.36), (0.0, 0.42)])
_LID = np.array([(0.08, 0.78), (0.54, 0.78), (0.54, 0.9), (0.08, 0.9)])
_STEP = 2.04  # from one jar to the next


def shelves_backdrop(ax):
    """Four empty shelves with their names."""
    ax.set(xlim=(-0.05, ACROSS * _STEP + 0.05), ylim=(-0.05, 4.05 * 1.32))
    ax.set_axis_off()
    for place, name in enumerate(SHELVES):
        foot = _foot(place)
        ax.plot([0, ACROSS * _STEP], [foot, foot], color=SOFT, linewidth=5)
        ax.text(ACROSS * _STEP, foot + 1.16, name, ha="right", va="top", fontsize=13,
                fontweight="bold", color=CAUTION if place == 0 else RESULT if place == 1 else SOFT)


def _foot(place):
    return (3 - place) * 1.32 + 0.05


def draw_shelves(ax, jars):
    """The jars on their shelves.

    Parameters
    ----------
    ax : matplotlib axes with `shelves_backdrop`
    jars : sequence of (standing, first line, second line, third line), the most urgent first
    """
    for place, standings in enumerate(SHELVES.values()):
        here = [jar for jar in jars if jar[0] in standings]
        shown = here if len(here) <= ACROSS else here[:ACROSS - 1]
        foot = _foot(place) + 0.03
        corners = [np.array([n * _STEP, foot]) for n in range(len(shown))]
        for outline, colour, edge in ((_JAR, mix(WATER, PAPER, 0.45), GLASS),
                                      (_HERB, HERB if place < 3 else mix(WATER, RESULT, 0.25),
                                       "none"),
                                      (_JAR, "none", GLASS), (_LID, METAL, GLASS)):
            ax.add_collection(PolyCollection([outline + corner for corner in corners],
                                             facecolors=colour, edgecolors=edge, linewidths=2.5),
                              autolim=False)
        for corner, (_, *lines) in zip(corners, shown):
            if place == 0:  # struck out, so that it reads in grey too
                ax.plot(corner[0] + np.array([0.0, 0.62]), foot + np.array([0.0, 0.78]),
                        color=CAUTION, linewidth=4)
                ax.plot(corner[0] + np.array([0.0, 0.62]), foot + np.array([0.78, 0.0]),
                        color=CAUTION, linewidth=4)
            for number, (words, size) in enumerate(zip(lines, (10.5, 10.5, 10.5))):
                words = plain(words)
                ax.text(corner[0] + 0.68, foot + 0.83 - 0.26 * number, words, fontsize=size,
                        va="top", parse_math=False, color=INK if number < 2 else SOFT,
                        gid="jar" if number == 0 else None,
                        **face(words, bold=number == 0))
        if len(here) > len(shown):
            ax.text((ACROSS - 1) * _STEP + 0.1, foot + 0.4, f"and {len(here) - len(shown)} more",
                    va="center", fontsize=13)


def shelf_page(table, day, path, page=A4):
    """Where every batch stands, as a PDF: the most urgent first.

    Parameters
    ----------
    table : DataFrame, of `herbcalc.log.standing`
    day : date or str or None, the day it is for; today when None
    path : path of the PDF
    page : (width, height), mm

    Returns
    -------
    int, how many pages
    """
    from herbcalc.log import STATES, checked_day

    size, pad = 10.0, 15 * POINT
    right, foot = page[0] * POINT - pad, page[1] * POINT - pad
    pages, y = [[]], pad

    def write(words, size, high, left=pad, **how):
        nonlocal y
        for line in wrap(plain(words), right - left, size, how.get("bold", False)):
            if y + high > foot:
                pages.append([])
                y = pad
            style = face(line, SANS, how.get("bold", False)) | {
                "fontsize": size, "va": "top", "color": how.get("color", INK)}
            pages[-1].append(lambda ax, y=y, line=line, style=style: ax.text(
                left, y, line, parse_math=False, **style))
            y += high

    write(f"The shelf on {day_words(checked_day(day))}", 18, 28, bold=True)
    for standing, meaning in STATES.items():
        here = table[table["standing"] == standing]
        if here.empty:
            continue
        y += 8
        write(f"{standing}: {meaning}", 12, 18, bold=True,
              color=CAUTION if standing == "throw out" else INK)
        for batch in here.itertuples():
            top, sheet = y, len(pages)
            jars = f"{batch.jars} jar{'' if batch.jars == 1 else 's'}"
            write(f"{batch.code}: {jars} of {batch.state} {batch.herb}. {batch.due[:1].upper()}"
                  f"{batch.due[1:]}, {day_words(batch.on)}. Use by {day_words(batch.use_by)}.",
                  size, 1.35 * size, left=pad + 18)
            if sheet == len(pages):
                pages[-1].append(lambda ax, top=top: ax.add_patch(Rectangle(
                    (pad, top + 1), 9, 9, facecolor="none", edgecolor=SOFT, linewidth=0.8)))
            y += 4
    if table.empty:
        write("No batch is in the log yet.", size, 1.35 * size)
    for sentence in table.attrs.get("unread", ()):
        write(sentence, size, 1.35 * size, color=CAUTION)

    def draw(figure, number):
        ax = page_axes(figure, page)
        for put in pages[number]:
            put(ax)

    write_pdf(path, page, draw, len(pages), "The shelf")
    return len(pages)

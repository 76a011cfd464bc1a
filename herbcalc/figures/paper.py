"""Paper for a batch: the batch sheet and sheets of labels, as PDF in the size you say.

Everything is drawn as lines and letters (vector), so that it prints sharp at any size, and
letters can be searched and copied. Sizes are given in mm, as one measures paper.

What stands on a label, and who asks for it
    the plant's name, Latin name and part, fresh or dried, the ratio of herb to liquid, the
    liquid, and the final % vol        European (and British) Pharmacopoeia, Extracts (0765),
                                       and USP <565> Botanical Extracts, labelling: from memory
    a batch code, the days made, to strain and to use by, the maker, cautions
                                       common practice, no source
    letters whose small x is at least 0.9 mm high
                                       law for foods in the European Union, Regulation 1169/2011
                                       Article 13, for small packs: from memory
What the law where you live asks of a label comes before all of it.
"""

import io

import matplotlib
from matplotlib.backends.backend_pdf import FigureCanvasPdf, PdfPages
from matplotlib.figure import Figure
from matplotlib.patches import FancyBboxPatch, Rectangle

from herbcalc._numbers import between
from herbcalc.cost import money
from herbcalc.files import write_whole
from herbcalc.figures.glycerin import parts_of
from herbcalc.figures.herbs import herb_kind
from herbcalc.figures.jar import draw_jar, vessel_axes
from herbcalc.figures.label import Label, cautions, draw_label, kind
from herbcalc.figures.letters import SANS, SERIF, face, plain, width, wrap
from herbcalc.figures.style import CAUTION, GRID, HERB, INK, PAPER, SOFT, STYLE, mix
from herbcalc.jar import ratio_words
from herbcalc.keeping import day_words
from herbcalc.kitchen import measure_volume

__all__ = ["A4", "batch_sheet", "draw_label_at", "fitting_label", "label_of", "label_sheet",
           "labels_on_a_page", "page_axes", "write_pdf"]

A4 = (210, 297)  # mm
POINT = 72 / 25.4  # points in a mm
SMALLEST = 5.2  # pt; cautions are nine tenths of it, their x then 0.9 mm high
_LABEL_TYPES = tuple((round(1.9 * tenths / 10, 2), tenths / 10)
                     for tenths in (*range(160, 80, -5), *range(80, 51, -2)))
_HEADING = mix(HERB, INK, 0.45)
_LEAD = 1.32  # from line to line of the batch sheet, in type sizes
# In a rc_context: letters as letters (TrueType), not as drawings of their outlines
_SETTINGS = STYLE | {"pdf.fonttype": 42, "figure.constrained_layout.use": False}


# --- labels ---------------------------------------------------------------------------------------


def label_of(batch, number=None, maker="", content=None):
    """What stands on the label of one jar, or bottle, of a batch.

    Parameters
    ----------
    batch : Batch
    number : int, which of the jars; left out for a label fit for all of them
    maker : str, who made it and where to ask; "" leaves a gap to fill in by hand
    content : float, mL in the bottle; not said when left out

    Returns
    -------
    Label

    Examples
    --------
    >>> import herbcalc as hc
    >>> batch = hc.Batch("fresh peppermint", jar=500, fill=0.75, liquid="spirit 95",
    ...                  final_abv=45, start="2027-01-10", jars=12)
    >>> dict(label_of(batch, 3).rows)["Batch"]
    'PEP-F-270110, jar 3 of 12'
    """
    herb, made, dates = batch.herb, batch.made, batch.dates
    rows = [
        ("Plant", f"{herb.state} {herb.name}{f', {herb.part}' if herb.part else ''}"),
        ("Latin", "" if not herb.latin else None),
        ("Liquid", f"{batch.poured_words}; {batch.final_words} at the end"),
        ("Ratio", f"{ratio_words(made.ratio)}, g of {herb.state} herb to mL of liquid poured"),
        ("Content", f"{content:.0f} mL" if content else None),
        ("Batch", batch.code if number is None else
         f"{batch.code}, jar {number} of {batch.jars}"),
        ("Made", day_words(dates.start)),
        ("Strain", " to ".join(map(day_words, dates.strain)) if dates.strain
         else "does not keep as long as a steep"),
        ("Use by", f"{day_words(dates.use_by)}, kept "
                   f"{'in the refrigerator' if batch.keeping.refrigerate else 'cool and dark'}"),
    ]
    name = f"{herb.name[:1].upper()}{herb.name[1:]} {kind(made.final)}"
    return Label(name, herb.latin, maker, tuple(row for row in rows if row[1] is not None),
                 cautions(made.final))


def labels_on_a_page(label, page=A4, margin=10.0, gap=3.0):
    """(columns, rows) of labels that find room on a page; all sizes in mm.

    Raises
    ------
    ValueError
        when not even one does.

    Examples
    --------
    >>> labels_on_a_page((70, 50))
    (2, 5)
    """
    page, label = size_in_mm(page, "the page"), size_in_mm(label, "the label")
    margin, gap = _mm(margin, "the margin", 0, 100), _mm(gap, "the gap", 0, 100)
    columns, rows = (int((paper - 2 * margin + gap) / (side + gap) + 1e-9)
                     for paper, side in zip(page, label))
    if columns < 1 or rows < 1:
        raise ValueError(f"A label of {label[0]:g} × {label[1]:g} mm does not fit on a page of "
                         f"{page[0]:g} × {page[1]:g} mm with margins of {margin:g} mm.")
    return columns, rows


def label_sheet(batch, path, *, label=(90, 60), page=A4, margin=10.0, gap=3.0, count=None,
                skip=0, maker="", content=None):
    """Labels for a batch as a PDF, as many pages as it takes.

    Parameters
    ----------
    batch : Batch
    path : path of the PDF, usually ending in ``.pdf``
    label, page : (width, height), mm
    margin, gap : float, mm around the sheet, and between labels
    count : int, how many; one for each jar when nothing is said, and these are numbered
    skip : int, places at the start of the first page that are used up already
    maker, content : as of `label_of`

    Returns
    -------
    int, how many pages

    Raises
    ------
    ValueError
        when the labels do not fit on the page, or the words do not fit on a label: then it says
        what size does.
    """
    columns, rows = labels_on_a_page(label, page, margin, gap)
    page, label = size_in_mm(page, "the page"), size_in_mm(label, "the label")
    numbered = count is None
    count = batch.jars if numbered else _whole(count, "the number of labels", 1)
    skip = _whole(skip, "the places to skip", 0)
    if skip >= columns * rows:
        raise ValueError(f"A page holds {columns * rows} labels: skip fewer than that.")
    texts = [label_of(batch, n if numbered and batch.jars > 1 else None, maker, content)
             for n in range(1, count + 1)]
    sizes = fitting_label(texts[-1], label)  # the highest number is the longest
    places = [divmod(n, columns * rows) for n in range(skip, skip + count)]

    def draw(figure, number):
        ax = page_axes(figure, page)
        for (sheet, place), text in zip(places, texts):
            if sheet == number:
                row, column = divmod(place, columns)
                corner = [(margin + at * (side + gap)) * POINT
                          for at, side in ((column, label[0]), (row, label[1]))]
                draw_label_at(ax, text, corner, label, sizes)

    pages = places[-1][0] + 1
    write_pdf(path, page, draw, pages, f"Labels of batch {batch.code}")
    return pages


def fitting_label(text, label):
    """The largest type in which a label's words fit, as types for `draw_label`.

    Parameters
    ----------
    text : Label
    label : (width, height), mm

    Returns
    -------
    ((type of the name, type of the rest),), points

    Raises
    ------
    ValueError
        when they do not fit, saying what height does.
    """
    ax = Figure().add_axes((0, 0, 1, 1))
    name_size, size, foot = draw_label(ax, text, _inside((0, 0), label), _LABEL_TYPES)
    right_foot = _inside((0, 0), label)[3]
    if foot > right_foot:
        need = label[1] + (foot - right_foot) / POINT
        raise ValueError(
            f"A label of {label[0]:g} × {label[1]:g} mm is too small to be read with all that "
            f"must stand on it: make it at least {need + 0.5:.0f} mm high, or wider.")
    return ((name_size, size),)


def _inside(corner, label, zoom=1.0):
    """Left, top, right, foot of the words on a label, points."""
    left, top = corner
    unit = POINT * zoom
    return (left + 4.4 * unit, top + 2.2 * unit, left + (label[0] - 2.2) * unit,
            top + (label[1] - 2.2) * unit)


def draw_label_at(ax, text, corner, label, types, zoom=1.0):
    """One label with its edge and its band of green.

    Parameters
    ----------
    ax : matplotlib axes measured in points downwards
    text : Label
    corner : (left, top), points
    label : (width, height), mm
    types : of `fitting_label`
    zoom : float, how many times its size on paper
    """
    unit = POINT * zoom
    wide, high = (side * unit for side in label)
    ax.add_patch(FancyBboxPatch(corner, wide, high, facecolor="#ffffff", edgecolor=SOFT,
                                boxstyle=f"round,pad=0,rounding_size={1.5 * unit}",
                                linewidth=0.5 * zoom, zorder=0.5))
    ax.add_patch(Rectangle((corner[0] + 1.6 * unit, corner[1] + 1.8 * unit), 1.2 * unit,
                           high - 3.6 * unit, facecolor=HERB, edgecolor="none"))
    draw_label(ax, text, _inside(corner, label, zoom),
               tuple((zoom * name, zoom * rest) for name, rest in types))


# --- the batch sheet ------------------------------------------------------------------------------


def batch_sheet(batch, path, *, page=A4, shopping=None, maker=""):
    """The sheet of a batch as a PDF: what to measure, what to do, when, and what to mind.

    Parameters
    ----------
    batch : Batch
    path : path of the PDF
    page : (width, height), mm, at least 100 wide and 140 high
    shopping : Shopping, adds what to buy
    maker : str

    Returns
    -------
    int, how many pages: one, unless the page is small or there is very much to say
    """
    page = size_in_mm(page, "the page")
    if page[0] < 100 or page[1] < 140:
        raise ValueError("A batch sheet needs a page of at least 100 × 140 mm.")
    for size in (10.5, 10, 9.5, 9, 8.5, 8, 7.5, 7, 6.5):
        pages = _lay_out(batch, page, size, shopping, maker)
        if len(pages) == 1:
            break
    else:
        pages = _lay_out(batch, page, 9, shopping, maker)

    def draw(figure, number):
        ax = page_axes(figure, page)
        for put in pages[number]:
            put(figure, ax)

    write_pdf(path, page, draw, len(pages), f"Batch {batch.code}")
    return len(pages)


class _Flow:
    """Words and boxes set one below the other, on as many pages as they need."""

    def __init__(self, page, size):
        self.size, self.page = size, page
        pad = max(min(page[0] * 0.07, 15), 7) * POINT
        self.left, self.top = pad, pad
        self.right, self.foot = page[0] * POINT - pad, page[1] * POINT - pad
        self.pages, self.y = [[]], self.top

    def _put(self, does):
        self.pages[-1].append(does)

    def need(self, high):
        """A new page when `high` points are not left on this one."""
        if self.y + high > self.foot and self.y > self.top:
            self.pages.append([])
            self.y = self.top

    def text(self, x, y, words, size, bold=False, italic=False, family=SANS, **style):
        style = {"color": INK, "va": "top", "fontsize": size, **style,
                 **face(words, family, bold, italic)}
        self._put(lambda figure, ax: ax.text(x, y, words, parse_math=False, **style))

    def box(self, x, y, wide, high, **style):
        style = {"facecolor": "none", "edgecolor": SOFT, "linewidth": 0.6, **style}
        self._put(lambda figure, ax: ax.add_patch(Rectangle((x, y), wide, high, **style)))

    def line(self, words, size=None, left=None, right=None, **how):
        """A paragraph."""
        size = size or self.size
        left, right = left or self.left, right or self.right
        asked = {key: how[key] for key in ("bold", "italic", "family") if key in how}
        for line in wrap(plain(words), right - left, size, **asked):
            self.need(size * _LEAD)
            self.text(left, self.y, line, size, **how)
            self.y += size * _LEAD

    def heading(self, words, right=None):
        self.need(self.size * 5)  # a heading alone at the foot of a page helps nobody
        self.y += 0.55 * self.size
        self.line(words, self.size * 1.15, bold=True, color=_HEADING, right=right)
        self.y += 0.1 * self.size

    def table(self, rows, shares, head=True, right=None):
        """Rows of cells that wrap; a cell that is None is a box to tick."""
        pad = 0.5 * self.size
        edges = [self.left]
        for column in self._columns(rows, shares, (right or self.right) - self.left, pad):
            edges.append(edges[-1] + column)
        for number, row in enumerate(rows):
            bold = head and number == 0
            cells = [wrap(plain(cell or ""), b - a - pad, self.size, bold)
                     for cell, a, b in zip(row, edges, edges[1:])]
            high = (max(map(len, cells)) * _LEAD + 0.35) * self.size
            self.need(high)
            for cell, lines, x in zip(row, cells, edges):
                if cell is None:
                    side = 0.95 * self.size
                    self.box(x, self.y + 0.25 * self.size, side, side)
                for place, line in enumerate(lines):
                    self.text(x, self.y + (place * _LEAD + 0.2) * self.size, line, self.size,
                              bold=bold, color=SOFT if bold else INK)
            self.y += high
            under = self.y
            end = edges[-1]
            self._put(lambda figure, ax, y=under, end=end: ax.plot(
                [self.left, end], [y, y], color=GRID if not bold else SOFT, linewidth=0.6))

    def _columns(self, rows, shares, room, pad):
        """Widths as asked for, but wide enough for the longest word where there is room."""
        need = [max(width(word, self.size, bold=True) for row in rows
                    for word in (row[n] or "").split() or [""]) + pad + 0.1
                for n in range(len(shares))]
        need = [min(wanted, room * 0.3) for wanted in need]
        wide = [max(room * share, wanted) for share, wanted in zip(shares, need)]
        largest = wide.index(max(wide))
        wide[largest] -= sum(wide) - room
        return wide

    def warning(self, sentences):
        """The cautions in their box, each line kept with the box around it."""
        pad = 0.7 * self.size
        for place, sentence in enumerate(sentences):
            lines = wrap(plain(sentence), self.right - self.left - 2 * pad - self.size, self.size)
            high = len(lines) * _LEAD * self.size + 0.25 * self.size
            self.need(high)
            self.box(self.left, self.y, self.right - self.left, high,
                     facecolor=mix(CAUTION, PAPER, 0.93), edgecolor="none", zorder=0.8)
            self.box(self.left, self.y, 0.25 * self.size, high, facecolor=CAUTION,
                     edgecolor="none", zorder=0.9)
            self.text(self.left + pad, self.y + 0.1 * self.size, "!", self.size, bold=True,
                      color=CAUTION)
            for line in lines:
                self.text(self.left + pad + self.size, self.y + 0.1 * self.size, line, self.size)
                self.y += _LEAD * self.size
            self.y += 0.25 * self.size

    def jar(self, batch, x, y, wide, high):
        """The drawn jar of the course, with this batch in it."""
        page = self.page

        def draw(figure, ax):
            ax = figure.add_axes((x / page[0] / POINT, 1 - (y + high) / page[1] / POINT,
                                  wide / page[0] / POINT, high / page[1] / POINT))
            vessel_axes(ax, left=-1.2, right=1.2, top=2.8)
            jar = batch.filled
            draw_jar(ax, jar.volume, herb_volume=min(jar.fill, 1) * jar.volume,
                     liquid_volume=jar.menstruum_volume, head_space=jar.volume * jar.headspace,
                     parts=parts_of(batch.made.poured),
                     herb_kind=herb_kind(batch.herb.part, batch.herb.form),
                     fresh=batch.herb.state == "fresh", bar=False, gauge=False)

        self._put(draw)


def _lay_out(batch, page, size, shopping, maker):
    """Everything of the sheet in one size of type: a list of pages of drawing steps."""
    flow = _Flow(page, size)
    made, dates, herb = batch.made, batch.dates, batch.herb
    one = batch.jars == 1
    jars = f"{batch.jars} jar{'' if one else 's'} of {batch.jar:.0f} mL"
    picture = 0.2 * (flow.right - flow.left)
    head_right = flow.right - picture - size

    flow.jar(batch, flow.right - picture, flow.top, picture, picture * 1.25)
    flow.line(f"{herb.name[:1].upper()}{herb.name[1:]} {kind(made.final)}", 2 * size,
              right=head_right, bold=True, family=SERIF)
    if herb.latin:
        flow.line(herb.latin, 1.1 * size, right=head_right, italic=True)
    flow.line(f"Batch {batch.code} · {herb} · {jars}", right=head_right)
    flow.line(f"Ends at {batch.final_words}; {ratio_words(made.ratio)} as "
              f"poured, {ratio_words(made.dry_ratio)} on completely dry herb.", right=head_right)
    flow.line(f"Keeps {batch.keeping.range}.", right=head_right)
    if maker:
        flow.line(maker, right=head_right, color=SOFT)
    flow.y = max(flow.y, flow.top + picture * 1.25)

    flow.heading("Measure")
    rows = [("", "metric", "kitchen", "weighs", "done")]
    for amount in batch.amounts:
        each = " for each jar" if amount.stock is None and not one else ""
        rows.append((amount.what + each, amount.metric.words, amount.kitchen.words,
                     f"{amount.grams:.0f} g" if amount.stock else "", None))
    flow.table(rows, (0.42, 0.14, 0.27, 0.11, 0.06))
    flow.y += 0.2 * size
    if len(batch.recipe) > 1:
        flow.line(f"Mixed, that is about {measure_volume(made.poured.volume)} for each jar.")
    for sentence in (*batch.rounding, f"Without a scale: about {batch.loose} of loose herb a jar, "
                     "and no better than by eye."):
        flow.line(sentence, 0.92 * size, color=SOFT)

    if shopping:
        flow.heading("Buy")
        for basket in shopping.baskets:
            flow.line(str(basket))
        for what in shopping.missing:
            flow.line(f"{what}: not in the price list")
        flow.line(f"Together {money(shopping.total, shopping.currency)}. The course's price list "
                  "is invented: put your own in.", 0.92 * size, color=SOFT)

    flow.heading("Do")
    flow.table([(f"{number}", step, None) for number, step in enumerate(_steps(batch), 1)],
               (0.04, 0.9, 0.06), head=False)

    flow.heading("Look and smell, and write it down")
    # the days that a first year asks for; the years after go on below them
    days = dates.inspections[:8]
    ahead = [("day", "look", "smell", "clear or cloudy", "growth", "by")]
    flow.table([*ahead, *((day_words(day), "", "", "", "", "") for day in days)],
               (0.2, 0.2, 0.2, 0.16, 0.14, 0.1))
    if len(dates.inspections) > len(days):
        flow.line(f"Later: {', '.join(map(day_words, dates.inspections[len(days):][:4]))}"
                  f"{' ...' if len(dates.inspections) > len(days) + 4 else ''}",
                  0.92 * size, color=SOFT)

    flow.heading("Why that long")
    flow.line(batch.keeping.deciding)
    for sentence in batch.keeping.reasons:
        flow.line(sentence, 0.92 * size, color=SOFT)
    for sentence in batch.keeping.safer:
        flow.line(f"Safer: {sentence}")
    flow.heading("Take care")
    flow.warning(batch.cautions)
    flow.y += 0.5 * size
    flow.line("Volumes and strengths at 20 °C (OIML R 22). What pressing wins is an invented "
              "starting value: measure your own. Steeping weeks and keeping years: common "
              "practice, no source. No promise and no advice to take it; local law and licensed "
              "practice come first.", 0.85 * size, color=SOFT)
    return flow.pages


def _steps(batch):
    """What to do, in order."""
    made, dates = batch.made, batch.dates
    each = "" if batch.jars == 1 else " into each jar"
    fire = "; flames out, window open" if made.poured.abv >= 20 else ""
    yield f"Hands, jars and table clean{fire}."
    yield (f"Weigh {batch.amounts[0].measured(batch.tools)} of {batch.herb.state} "
           f"{batch.herb.name}{each}. Be sure of the plant.")
    if len(batch.recipe) > 1:
        yield "Pour the liquids together and let them cool: mixed, they shrink and warm a little."
    yield (f"Pour about {measure_volume(made.poured.volume)}{each}, until the herb is covered and "
           f"{100 * batch.headspace:.0f} % of the jar is left empty. Close and label it: "
           f"{day_words(dates.start)}.")
    yield f"Shake every day until {day_words(dates.shake_until)}, in the dark; keep the herb under."
    if dates.strain:
        yield (f"Strain and press between {day_words(dates.strain[0])} and "
               f"{day_words(dates.strain[1])}"
               + (f": about {measure_volume(batch.won.volume * batch.jars)} in all "
                  f"({batch.press}). "
                  if batch.won else ". ") + "Bottle and label.")
    yield f"Use by {day_words(dates.use_by)}; then throw out what is left."


# --- the file -------------------------------------------------------------------------------------


def page_axes(figure, page):
    """The whole page, measured in points from its upper left corner."""
    ax = figure.add_axes((0, 0, 1, 1), zorder=-1)
    ax.set(xlim=(0, page[0] * POINT), ylim=(page[1] * POINT, 0))
    ax.set_axis_off()
    ax.autoscale(False)
    return ax


def write_pdf(path, page, draw, pages, title):
    """Draw the pages and write them as one PDF, whole or not at all.

    Parameters
    ----------
    path : path
    page : (width, height), mm
    draw : function(figure, number) that draws one page
    pages : int
    title : str

    Raises
    ------
    ValueError
        when it cannot be written.
    """
    memory = io.BytesIO()
    about = {"Title": title, "Creator": "herbcalc", "Producer": None, "CreationDate": None}
    with matplotlib.rc_context(_SETTINGS):
        with PdfPages(memory, metadata=about) as pdf:
            for number in range(pages):
                figure = Figure(figsize=(page[0] / 25.4, page[1] / 25.4), layout="none",
                                facecolor="white")
                FigureCanvasPdf(figure)
                draw(figure, number)
                pdf.savefig(figure, facecolor="white")
    try:
        write_whole(path, memory.getvalue())
    except OSError as error:
        raise ValueError(f"{path} could not be written: {error.strerror or error}.") from None


def size_in_mm(size, name):
    try:
        wide, high = size
    except (TypeError, ValueError):
        raise ValueError(f"The size of {name} is a width and a height in mm: (210, 297), say."
                         ) from None
    return _mm(wide, f"the width of {name}", 10), _mm(high, f"the height of {name}", 10)


def _mm(value, name, low=10, high=2000):
    return float(between(value, low, high, name, "mm"))


def _whole(value, name, low):
    value = float(between(value, low, 10_000, name))
    if value != round(value):
        raise ValueError(f"{name[:1].upper()}{name[1:]} is a whole number, not {value:g}.")
    return round(value)

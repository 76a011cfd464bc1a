"""The table of published values, as a page shows it: printed, computed, and the difference."""

import base64
import html
import math

from herbcalc.figures import published as draw
from herbcalc.panel import Panel
from herbcalc.published import rows

__all__ = ["PublishedValues", "published_values"]

#: How a figure was come by, in plain words.
PROVENANCE = {
    "seen": "read there",
    "seen quoted": "read where it is quoted",
    "seen in a summary": "read in a summary",
    "seen in independent transcriptions": "read in independent transcriptions",
    "read from the package": "read from a data package",
    "memory": "from memory",
    "trade": "common practice, no source",
}


def published_values(*topics):
    """The published values on some topics beside what the library computes.

    Parameters
    ----------
    *topics : str
        of the table, "dilution" say; none means all of them

    Returns
    -------
    PublishedValues : shows itself as a picture and a table

    Raises
    ------
    ValueError
        for a topic that is not in the table.

    Examples
    --------
    >>> published_values("hydrometer")
    5 published figures: 5 agree to the last digit printed.
    """
    table = rows()
    known = dict.fromkeys(row.topic for row in table)
    for topic in topics:
        if topic not in known:
            raise ValueError(f"There are no published values on {topic!r}: the topics are "
                             f"{', '.join(known)}.")
    return PublishedValues([row for row in table if not topics or row.topic in topics])


def kind(row):
    """What came of a row: one of the lanes of the picture, "limit" or "does not hold"."""
    if not row.holds:
        return "does not hold"
    if row.relation in (">=", "<=", "within"):
        return "limit"
    if _same(row.published, row.computed):
        return draw.LANES[2]
    return draw.LANES[0] if abs(row.difference) <= row.printed_to / 2 * (1 + 1e-9) else (
        draw.LANES[1])


def _same(one, other):
    ones, others = (v if isinstance(v, tuple) else (v,) for v in (one, other))
    return all(math.isclose(a, b, rel_tol=1e-12, abs_tol=1e-15) for a, b in zip(ones, others))


# --- numbers as they are read --------------------------------------------------------------------


def digits(row):
    """Decimals that are printed in the source."""
    return max(0, -math.floor(math.log10(row.printed_to) + 1e-9)) if row.printed_to else None


def printed_words(row):
    """What is printed, with its unit."""
    sign = {">=": "at least ", "<=": "at most "}.get(row.relation, "")
    return f"{sign}{_number(row.published, digits(row))}{_unit(row)}"


def computed_words(row):
    """What is computed here, to one digit more than printed."""
    places = digits(row)
    if _same(row.published, row.computed):
        return f"{_number(row.published, places)}{_unit(row)}"
    return f"{_number(row.computed, None if places is None else places + 1)}{_unit(row)}"


def _number(value, places):
    if isinstance(value, tuple):
        return " and ".join(_number(part, places) for part in value)
    return f"{value:g}" if places is None else f"{value:.{places}f}"


def _unit(row):
    return "" if row.unit == "1" else f" {row.unit.replace('degC', '°C')}"


def difference_words(row):
    """The difference, in the unit and in units of the last digit printed."""
    came = kind(row)
    if came == draw.LANES[2]:
        return "none: taken over, or a definition"
    if came == "limit":
        return "inside, as it should be"
    if came == "does not hold":
        return "DOES NOT HOLD"
    places = digits(row)
    off = f"{row.difference:+.{(places or 0) + 1}f}".replace("-", "−")
    if float(off.replace("−", "-")) == 0:
        return "none that shows"
    return f"{off} ({abs(row.difference) / row.printed_to:.1f} of the last digit)"


# --- on the page ---------------------------------------------------------------------------------

_LEFT = ' style="text-align:left;vertical-align:top"'
_HEADS = ("what", "printed", "computed here", "difference", "source, and how it was come by")


class PublishedValues:
    """Some rows of the table, as a picture of the differences and a table.

    Parameters
    ----------
    rows : sequence of herbcalc.published.Row
    """

    def __init__(self, rows):
        self.rows = tuple(rows)

    @property
    def counts(self):
        """how many rows of each kind"""
        kinds = [kind(row) for row in self.rows]
        return {name: kinds.count(name) for name in (*draw.LANES, "limit", "does not hold")}

    def sentence(self):
        """The outcome in one plain sentence."""
        words = {draw.LANES[0]: "{} agree to the last digit printed",
                 draw.LANES[1]: "{} differ by more and say why",
                 draw.LANES[2]: "{} are taken over as printed or are definitions",
                 "limit": "{} are limits or ranges that are kept",
                 "does not hold": "{} DO NOT HOLD"}
        said = [_agree(words[name].format(n), n) for name, n in self.counts.items() if n]
        return f"{len(self.rows)} published figures: {', '.join(said)}."

    def _lanes(self):
        lanes = {lane: [] for lane in draw.LANES}
        for row in self.rows:
            if kind(row) in lanes:
                lanes[kind(row)].append(row.difference / row.printed_to if row.printed_to else 0.0)
        return lanes

    def picture(self):
        """The differences in units of the last digit printed, as a PNG with its alt text."""
        def show(ax):
            draw.differences(ax, self._lanes())
            return self.sentence()

        answer = Panel(
            title="Computed beside printed", controls={}, size=(9, 2.7), show=show,
            backdrop=draw.differences_backdrop,
            alt="One mark for each figure, by how many units of the last printed digit the "
                "computed one lies off; a band marks half a digit either way.",
        ).answer()
        return answer.picture, answer.alt

    def table(self):
        """The table as HTML, readable by ear as well: a caption, and a header to each row."""
        head = "".join(f'<th scope="col"{_LEFT}>{words}</th>' for words in _HEADS)
        body = "".join(self._line(row) for row in self.rows)
        return (f"<table><caption{_LEFT}>{html.escape(self.sentence())}</caption>"
                f"<thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>")

    @staticmethod
    def _line(row):
        what = f"{row.quantity}; {row.given}" if row.given else row.quantity
        where = f"{row.source}, {row.locator}" if row.locator else row.source
        provenance = PROVENANCE[row.provenance]
        come_by = where if provenance in where else f"{where} ({provenance})"
        came = difference_words(row)
        if kind(row) == draw.LANES[1]:
            came = f"{came}: {row.why}"
        cells = (printed_words(row), computed_words(row), came, come_by)
        return (f'<tr><th scope="row"{_LEFT}>{_tidy(what)}</th>'
                + "".join(f"<td{_LEFT}>{_tidy(cell)}</td>" for cell in cells) + "</tr>")

    def _repr_mimebundle_(self, **kwargs):
        picture, alt = self.picture()
        image = base64.b64encode(picture).decode("ascii")
        shown = (f'<figure class="herbcalc-still"><img src="data:image/png;base64,{image}" '
                 f'alt="{html.escape(alt)}" width="864" height="259"></figure>{self.table()}')
        return {"text/plain": self.sentence(), "text/html": shown}

    def __repr__(self):
        return self.sentence()


def _agree(words, count):
    """Singular where it is one.

    >>> _agree("1 are limits or ranges that are kept", 1)
    '1 is a limit or range that is kept'
    """
    if count != 1:
        return words
    for many, one in (("1 agree ", "1 agrees "), ("1 differ ", "1 differs "), (" say ", " says "),
                      ("are limits or ranges that are", "is a limit or range that is"),
                      ("are taken over as printed or are definitions",
                       "is taken over as printed or is a definition"),
                      ("DO NOT", "DOES NOT")):
        words = words.replace(many, one)
    return words


def _tidy(words):
    for plain, written in (("degC", "°C"), ("degF", "°F"), ("kg/m3", "kg/m³")):
        words = words.replace(plain, written)
    return html.escape(words)

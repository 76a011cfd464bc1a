"""Panel of lesson 10: a label for your bottle. Arithmetic and cautions, never a dose."""

import datetime
import re

import herbcalc as hc
from herbcalc.explore.herb_lists import herb_choice
from herbcalc.figures import label as draw
from herbcalc.figures.steeping import ratio_words
from herbcalc.files import write_whole
from herbcalc.keeping import day_words
from herbcalc.panel import DPI, Action, Choice, Entry, Panel, Slider

__all__ = ["bottle_label"]

JAR = 500  # mL
PRINT = 200  # dots to the inch of a saved label, 9 inches wide: more when printed smaller
LIQUIDS = {
    "spirit of 40 % vol": hc.spirit(1, 40),
    "spirit of 45 % vol": hc.spirit(1, 45),
    "spirit of 60 % vol": hc.spirit(1, 60),
    "spirit of 95 % vol": hc.spirit(1, 95),
    "glycerin 60 %, water 40 %": hc.glycerin(60) + hc.water(40),
    "vinegar, 5 g acid in 100 mL": hc.vinegar(1, 5),
}

def what_stands_on_it(herb, fill, liquid, made, weeks, bottle, name="", batch="", maker=""):
    """Everything makers put on a label (common practice, no source; local law decides).

    Parameters
    ----------
    herb : Herb
    fill : float, % of a 500 mL jar filled with loose herb
    liquid : Liquid, what was poured
    made : str, the day it was poured, year-month-day
    weeks : int, of steeping
    bottle : int, mL
    name, batch, maker : str, "" where not filled in (the name is then the herb's)

    Returns
    -------
    Label

    Raises
    ------
    ValueError
        when the day is none, or the jar leaves no room for liquid.
    """
    jar = hc.Jar(JAR, herb, fill=fill / 100, menstruum=liquid)
    final = jar.final
    fresh = herb.state == "fresh"
    kept = hc.keeping(final, fresh_herb=fresh)
    use_by = kept.use_by(made)
    poured = use_by - datetime.timedelta(days=round(kept.days[0]))
    place = "in the refrigerator" if kept.refrigerate else "cool and dark"
    rows = [
        ("Plant", f"{herb.state} {herb.name}, {herb.part or 'part not named'}"),
        ("Liquid", _liquid_words(final)),
        ("Ratio", f"{ratio_words(jar.ratio)}, g of {herb.state} herb to mL of liquid poured"),
        ("1 mL", _per_ml(jar, final)),
        ("Content", f"{bottle} mL"),
        ("Batch", batch),
        ("Made", f"poured {day_words(poured)}, pressed "
                 f"{day_words(poured + datetime.timedelta(weeks=weeks))}"),
        ("Use by", f"{day_words(use_by)}, kept {place}"),
    ]
    title = name or f"{herb.name[0].upper()}{herb.name[1:]} {draw.kind(final)}"
    return draw.Label(title, herb.latin, maker, tuple(rows), draw.cautions(final))


def _liquid_words(final):
    if final.ethanol > 0:
        return f"water, alcohol (ethanol); {final.abv:.0f} % vol at the end"
    if final.glycerin > 0:
        return f"vegetable glycerin, water; {final.glycerin_percent:.0f} % glycerin at the end"
    return f"vinegar; {final.acidity:.1f} g acid in 100 mL at the end"


def _per_ml(jar, final):
    herb = 5 * round(hc.dry_herb_per_ml(jar) / 5)
    said = f"from {herb:.0f} mg of herb, counted dry"
    if final.ethanol > 0:
        said += f"; holds {hc.ethanol_grams(1, final.abv):.2f} g of alcohol"
    return said


def _show(ax, **values):
    text = what_stands_on_it(**values)
    draw.draw_label(ax, text)
    if text.missing:
        return f"Still missing on the label: {' and '.join(text.missing)}."
    per_ml = next(words for field, words in text.rows if field == "1 mL")
    return (f"The label is complete. 1 mL: {per_ml}. That is arithmetic, not a dose; local law "
            "says what else must stand on it.")


def _save(**values):
    answer = bottle_label().answer(scale=PRINT / DPI, **values)
    if answer.kind != "answer":
        raise ValueError(answer.sentence)
    title = values["batch"] or values["name"] or values["herb"].name
    stem = re.sub(r"[^a-z0-9]+", "-", title.lower()).strip("-")
    name = f"label-{stem[:40] or 'mine'}.png"
    try:
        write_whole(name, answer.picture)
    except OSError as error:
        raise ValueError(f"The label could not be saved here: {error.strerror or error}.") from None
    return f"Saved as {name} beside this lesson."


def bottle_label():
    """A label with everything the trade expects, filled in from your choices."""
    return Panel(
        title="A label for your bottle",
        controls=dict(
            herb=herb_choice("Herb", start="thyme, dried (herb, leaves)"),
            fill=Slider("500 mL jar filled with loose herb", 10, 90, start=90, step=5, unit="%"),
            liquid=Choice("Poured", LIQUIDS, start="spirit of 45 % vol"),
            bottle=Choice("Bottle", {"30 mL": 30, "50 mL": 50, "100 mL": 100, "250 mL": 250},
                          start="100 mL"),
            made=Entry("Poured on (year-month-day)", "2027-01-14", length=10),
            weeks=Slider("Weeks of steeping", 2, 8, start=6, unit="weeks"),
            name=Entry("Name on the label", "", length=120, help="Blank: the herb's own."),
            batch=Entry("Batch", "QY-2027-03", length=30),
            maker=Entry("Maker, and where to ask", "Quince Yard winter class (invented)",
                        length=90),
            save=Action("Save this label as a picture", _save),
        ),
        size=draw.SIZE, axes=draw.label_axes, backdrop=draw.label_backdrop, show=_show,
        alt="A bottle's label with maker, name, Latin name, plant, liquid, ratio, content, batch, "
            "dates and cautions.",
    )

"""Panels of lesson 08: steeping, one steep or two, pressing, the yield, straining."""

from functools import partial

import herbcalc as hc
from herbcalc.explore.herb_lists import herb_choice
from herbcalc.explore.water import drawn
from herbcalc.extraction import FILTERS, HALF_WAY_DAYS, HELD_BACK, MESH, passes
from herbcalc.figures import steeping as draw
from herbcalc.figures.jar import draw_glass, draw_jar, vessel_axes
from herbcalc.figures.style import tint
from herbcalc.keeping import STEEPING_WEEKS
from herbcalc.panel import Choice, Entry, Panel, Slider

__all__ = ["days_of_steeping", "one_steep_or_two", "pressing", "straining", "yield_of_pressing"]


# --- the steeping curve --------------------------------------------------------------------------


def _curve_backdrop(ax):
    draw.curve_backdrop(ax, hc.steeped, STEEPING_WEEKS, quicker=1.5, slower=9)


def _show_curve(ax, days, half_way):
    share = hc.steeped(days, half_way)
    draw.curve(ax, days, share, half_way, partial(hc.steeped, half_way=half_way))
    if days == 0:
        return ("Nothing has come out yet. At this pace, which is only an illustration, half of "
                f"it takes {draw.day_words(half_way)}.")
    more = hc.steeped(days + 7, half_way) - share
    rest = ("hardly anything" if more < 0.005 else f"{100 * more:.0f} %")
    return (f"After {draw.day_words(days)} {100 * share:.0f} % of what will come out has come; a "
            f"week more brings {rest}. The pace (half in {draw.day_words(half_way)}) is an "
            "illustration.")


def days_of_steeping():
    """How what is wanted comes out with the days."""
    return Panel(
        title="How long to steep",
        controls=dict(
            days=Slider("Days in the jar", 0, 56, start=14, unit="days"),
            half_way=Slider("Half of it has come out after", 1, 10, start=HALF_WAY_DAYS, step=0.5,
                            unit="days", help="Invented for illustration: the cut, the warmth "
                                              "and the shaking set it."),
        ),
        size=(9, 4.4), backdrop=_curve_backdrop, show=_show_curve,
        alt="A curve that climbs steeply in the first days and then flattens towards all there "
            "is; the four to six weeks of common practice are marked on its flat part.",
    )


# --- one steep or two ----------------------------------------------------------------------------


def _show_steeps(ax, herb, liquid, first, press):
    begin = liquid * first / 100
    rest = liquid - begin
    ways = [
        (f"all at once: {liquid} mL", [liquid]),
        (f"the same in two steeps: {begin:.0f} mL, then {rest:.0f} mL", [begin, rest]),
        (f"all at once, then {rest:.0f} mL fresh on the marc", [liquid, rest]),
    ]
    outcomes = [_steep(herb, pours, press) for _, pours in ways]
    draw.steeps(ax, [(words, *(outcome or (None, None)))
                     for (words, _), outcome in zip(ways, outcomes)])
    once, twice, fresh = outcomes
    if once is None:
        return f"{liquid} mL only wet {herb} g of dry herb: pour more or take less herb."
    said = f"All at once {100 * sum(once[0]):.0f} % is won in {once[1]:.0f} mL"
    if twice is None:
        return f"{said}; in two steeps one pour is too small: it only wets the herb."
    return (f"{said}; the same {liquid} mL in two steeps win {100 * sum(twice[0]):.0f} % in "
            f"{twice[1]:.0f} mL. Fresh on the marc wins {100 * sum(fresh[0]):.0f} %, but thinner: "
            f"in {fresh[1]:.0f} mL.")


def _steep(herb, pours, press):
    """(shares won, mL drawn), or None where a pour only wets the herb."""
    try:
        result = hc.steep(herb, pours, HELD_BACK[press])
    except ValueError:
        return None
    return result.won, result.total_drawn


def one_steep_or_two():
    """The same liquid in one steep or in two, and fresh menstruum on the marc."""
    return Panel(
        title="One steep or two",
        controls=dict(
            herb=Slider("Herb, completely dry", 20, 150, start=100, step=10, unit="g"),
            liquid=Slider("Liquid", 300, 1000, start=500, step=50, unit="mL"),
            first=Slider("Of it in the first steep", 20, 80, start=50, step=5, unit="%"),
            press=Choice("Pressed each time", list(HELD_BACK), start="kitchen press"),
        ),
        size=(9, 4.4), backdrop=draw.steeps_backdrop, show=_show_steeps,
        alt="Three bars, one a way of steeping: what the first and the second draw won, and what "
            "is left in the marc, in per cent of all the herb could give.",
    )


# --- pressing ------------------------------------------------------------------------------------

JAR = 500  # mL
THYME = "thyme, dried (herb, leaves)"
YOURS = "your own marc"


def _press_axes(figure):
    return figure.subplots(1, 2, width_ratios=[1, 1.75])


def _press_backdrop(axes):
    vessel_axes(axes[0], left=-2.1, right=1.2)
    draw_glass(axes[0], JAR)
    draw.press_backdrop(axes[1])


def _show_press(axes, herb, fill, own):
    jar = hc.Jar(JAR, herb, fill=fill / 100, menstruum=hc.spirit(1, abv=45))
    final = jar.final
    draw_jar(axes[0], bar=False, glass=False, **drawn(jar, final, jar.herb_water))
    axes[0].text(0, -0.14, f"{jar.herb_mass:.0f} g in {jar.menstruum_volume:.0f} mL", ha="center",
                 va="top", fontweight="bold")
    rows = [(way, *_won(jar, kept)) for way, kept in [*HELD_BACK.items(), (YOURS, own)]]
    colour = tint({"ethanol": final.abv, "water": 100 - final.abv})
    draw.press(axes[1], rows, final.volume, colour)
    won = {way: volume for way, volume, _ in rows}
    return _say_press(final.volume, won, rows[-1][2])


def _say_press(inside, won, own_ratio):
    by_hand, screw = won["by hand in cloth"], won["screw press"]
    if by_hand is None:
        return (f"So much herb soaks up nearly all of the {inside:.0f} mL: fill the jar less, or "
                "pour twice.")
    said = (f"Of {inside:.0f} mL in the jar, by hand in cloth wins {by_hand:.0f} mL and a screw "
            f"press {screw:.0f} mL")
    if won[YOURS] is None:
        return f"{said}, {screw - by_hand:.0f} mL more (figures invented: measure your own marc)."
    return (f"{said}; with your own marc you win {won[YOURS]:.0f} mL, that is "
            f"{draw.ratio_words(own_ratio)}.")


def _won(jar, kept):
    """(mL won, mL won per g of herb); a way without a figure gives (None, words)."""
    if kept is None:
        return None, "not measured yet"
    try:
        won, _ = hc.pressed(jar, kept)
    except ValueError:
        return None, "nothing comes back"
    return won.volume, won.volume / jar.herb_mass


def pressing():
    """What one jar gives back, dripped, wrung by hand, or pressed."""
    return Panel(
        title="What pressing wins",
        controls=dict(
            herb=herb_choice("Herb", start=THYME),
            fill=Slider("Jar filled with loose herb", 20, 90, start=90, step=5, unit="%"),
            own=Entry("Your own marc keeps back", None, low=0, high=5, step=0.1, unit="mL per g",
                      help="Measured at the bench below, for 1 g of completely dry herb. May "
                           "stay blank."),
        ),
        size=(9, 4.8), axes=_press_axes, backdrop=_press_backdrop, show=_show_press,
        alt="A 500 mL jar of herb and spirit, and one bar a way of pressing: what is won, and "
            "what the marc keeps.",
    )


# --- the yield against the published one ---------------------------------------------------------

DRIED_WATER = 0.10  # share of water in dried herb: between 5 and 13 % in the USDA table


def _show_yield(ax, ratio, own):
    def line(kept):
        return ratio + DRIED_WATER - kept * (1 - DRIED_WATER)

    draw.yields(ax, ratio, line, own)
    won = line(own)
    if won <= 0:
        return (f"Poured at 1:{ratio:g}, a marc that keeps {own:g} mL per g gives nothing back: "
                "pour more.")
    said = (f"Poured at 1:{ratio:g} on dried herb, a marc that keeps {own:g} mL per g leaves you "
            f"{draw.ratio_words(won)}")
    if ratio != draw.PUBLISHED_RATIO:
        return f"{said}. The published band is for 1:5."
    low, high = draw.PUBLISHED_YIELD
    place = ("inside" if low <= round(won, 1) <= high else
             "under" if won < low else "above")
    return f"{said}: {place} the published 1:4 to 1:4.5."


def yield_of_pressing():
    """What is won for each gram of herb, beside the published yield of 1:5."""
    return Panel(
        title="From 1:5 poured to what you bottle",
        controls=dict(
            ratio=Slider("Poured, mL for 1 g of dried herb", 3, 10, start=5, step=0.5, unit="mL"),
            own=Slider("Your marc keeps, for 1 g of dry herb", 0.2, 3.0, start=1.4, step=0.1,
                       unit="mL"),
        ),
        size=(9, 4.6), backdrop=lambda ax: draw.yield_backdrop(ax, HELD_BACK), show=_show_yield,
        alt="A falling line: the more the marc keeps, the less is won for each gram of herb. The "
            "published yield of one to five is a band across it.",
    )


# --- straining -----------------------------------------------------------------------------------


def _sieves():
    """(words, opening in mm), coarsest first."""
    rows = [(f"mesh {number}", opening) for number, opening in MESH.items()]
    return sorted([*rows, *FILTERS.items()], key=lambda row: -row[1])


SIEVES = _sieves()


def _show_sieve(ax, grain, chosen):
    grain = round(grain, 3)
    through = [bool(passes(grain, opening)) for _, opening in SIEVES]
    place = [words for words, _ in SIEVES].index(chosen)
    draw.sieve(ax, SIEVES, grain, through, place)
    opening = SIEVES[place][1]
    stops = next((words for (words, _), goes in zip(SIEVES, through) if not goes), None)
    said = f"A grain of {grain:g} mm "
    if not through[place]:
        return said + f"stays on {_named(chosen)}, whose openings are about {opening:g} mm."
    said += f"goes through {_named(chosen)}, whose openings are about {opening:g} mm; "
    return said + (f"the first to hold it is {_named(stops)}." if stops else "nothing here holds "
                   "it: let it settle and pour off.")


def _named(sieve):
    if sieve.startswith("mesh"):
        return f"a {sieve} sieve"
    return sieve if sieve.startswith("muslin") else f"a {sieve}"


def straining():
    """Which sieve, cloth or filter holds a grain of powdered herb."""
    return Panel(
        title="Which cloth holds it",
        controls=dict(
            grain=Slider("Size of the grains", 0.02, 3.0, start=0.3, step=0.02, unit="mm"),
            chosen=Choice("You strain through", [words for words, _ in SIEVES],
                          start="muslin, four layers"),
        ),
        size=(9, 5.0), backdrop=lambda ax: draw.sieve_backdrop(ax, SIEVES), show=_show_sieve,
        alt="Sieves, cloths and filters one under the other, each with its opening on a scale in "
            "millimetres, and a line for the grain: through, or held.",
    )

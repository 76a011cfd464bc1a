"""Panels of lesson 04: what an eyeballed jar really holds."""

from herbcalc import places
from herbcalc.explore.herb_lists import herb_choice, own_trouble
from herbcalc.explore.water import drawn
from herbcalc.figures import herbs as figures
from herbcalc.figures.jar import draw_jar, vessel_axes
from herbcalc.herbs import (
    Herb,
    bulk_density_from_cup,
    known_herbs,
    own_herbs,
    remember,
    water_from_drying,
)
from herbcalc.herbs import herb as find_herb
from herbcalc.jar import HEAD_SPACE, Jar
from herbcalc.liquids import spirit
from herbcalc.panel import Action, Choice, Entry, Panel, Slider

__all__ = ["by_eye_or_by_weight", "my_weighings", "same_fill"]

MENSTRUUM = spirit(1, 40)  # the plain spirit: ratios do not depend on it
JAR = 500  # mL

# --- the same fill -------------------------------------------------------------------------------

_ROW = (
    ("fresh dill\nsprigs", ("dill", "fresh", "sprigs")),
    ("fresh pepper-\nmint leaves", ("peppermint", "fresh", "whole")),
    ("dried dill\nleaves", ("dill", "dried", "leaves")),
    ("dill seed,\nwhole", ("dill", "dried", "whole")),
)


def _row_backdrop(ax):
    figures.jar_row_backdrop(ax, [name for name, _ in _ROW])
    ax.set_xlim(-1.3, figures.ROW_STEP * len(_ROW) + 1.3)


def _show_same_fill(ax, herb, fill, volume):
    jars = [Jar(volume, plant, fill=fill / 100, menstruum=MENSTRUUM)
            for plant in (*_row_herbs(), herb)]
    for place, jar in enumerate(jars):
        figures.draw_row_jar(
            ax, place, jar.herb_mass, jar.ratio, largest=1000,
            **drawn(jar, jar.poured),
        )
    figures.name_jar(ax, len(_ROW), _two_lines(herb))
    jars.sort(key=lambda jar: jar.ratio)
    dense, thin = jars[0], jars[-1]
    return (
        f"All five jars of {volume} mL look {fill} % full, yet they hold "
        f"{thin.herb_mass:.0f} to {dense.herb_mass:.0f} g of herb: from "
        f"{figures.ratio_words(thin.ratio)} to {figures.ratio_words(dense.ratio)}."
    )


def _row_herbs():
    return [find_herb(*asked) for _, asked in _ROW]


def _two_lines(plant):
    words = f"{plant.form or plant.part}"
    return f"{plant.state} {plant.name[:14]}\n{words[:16]}"


def same_fill():
    """Five jars filled alike by eye, side by side, with what they really hold."""
    return Panel(
        title="The same fill, five jars",
        controls=dict(
            fill=Slider("Every jar filled with loose herb", 10, 100, start=75, step=5, unit="%"),
            herb=herb_choice("Herb in the fifth jar", start="turmeric, dried (rhizome, ground)"),
            volume=Slider("Size of the jars", 250, 1000, start=500, step=250, unit="mL"),
        ),
        size=(9, 3.625), backdrop=_row_backdrop, show=_show_same_fill,
        alt="Five jars in a row, filled to the same height with different herbs and cuts; under "
            "each the weight of herb in it and its ratio of herb to liquid.",
    )


# --- by eye or by weight -------------------------------------------------------------------------


def _pair_over_strip(figure):
    jars, strip = figure.subplots(2, 1, height_ratios=(3.1, 1))
    return {"jars": jars, "strip": strip}


def _pair_backdrop(axes):
    figures.pair_backdrop(axes["jars"], bars=False)
    figures.ratio_strip_backdrop(axes["strip"])


def mass_for_ratio(plant, volume, ratio):
    """Herb, g, that stands at `ratio` (mL per g) once the jar of `volume` mL is topped up."""
    return volume * (1 - HEAD_SPACE) / (ratio + plant.volume(1))


def _show_by_eye(axes, herb, fill, pressed, ratio):
    plant = herb
    if pressed:  # pushed down to a smaller heap: the same herb in less room
        plant = herb.measured(bulk_density=min(herb.bulk_density / (1 - pressed / 100), 1.5))
    by_eye = Jar(JAR, plant, fill=fill / 100, menstruum=MENSTRUUM)
    mass = mass_for_ratio(plant, JAR, ratio)
    loose = mass / plant.bulk_density
    fits = loose <= JAR
    weighed = dict(
        jar_volume=JAR, herb_volume=min(loose, JAR), liquid_volume=mass * ratio,
        head_space=HEAD_SPACE * JAR, parts=figures.spirit_parts(mass * ratio, 40),
        herb_kind=figures.herb_kind(plant.part, plant.form), fresh=plant.state == "fresh",
    )
    figures.draw_pair(
        axes["jars"],
        drawn(by_eye, by_eye.poured, label=f"by eye: {by_eye.herb_mass:.0f} g"),
        weighed | {"label": f"by weight: {mass:.0f} g"},
        bars=False,
    )
    figures.draw_ratios(axes["strip"], by_eye.ratio, ratio)
    said = (
        f"Filled to {fill} % by eye the jar stands at {figures.ratio_words(by_eye.ratio)}; for "
        f"{figures.ratio_words(ratio)} weigh {mass:.0f} g and pour {mass * ratio:.0f} mL"
    )
    if fits:
        return f"{said}: the herb then comes up to {100 * loose / JAR:.0f} % of the jar."
    return (
        f"{said}, but {mass:.0f} g lie in {loose:.0f} mL and the jar holds {JAR} mL: chop or "
        "press the herb, or take a larger jar and less liquid in it."
    )


def by_eye_or_by_weight():
    """One jar filled by eye, one by weight to a wanted ratio."""
    return Panel(
        title="By eye, and by weight",
        controls=dict(
            herb=herb_choice(start="fennel, dried (seed, whole)"),
            fill=Slider("By eye: jar filled to", 25, 100, start=75, step=5, unit="%"),
            pressed=Slider("The hand presses the heap down by", 0, 40, start=0, step=5, unit="%"),
            ratio=Slider("By weight: liquid for each gram", 1, 20, start=5, step=0.5, unit="mL"),
        ),
        size=(9, 5.375), axes=_pair_over_strip, backdrop=_pair_backdrop, show=_show_by_eye,
        alt="Two jars, one filled by eye and one by weight, and below them a scale of ratios that "
            "shows how far apart the two come out.",
    )


# --- your own weighings --------------------------------------------------------------------------

# Invented for the panel's start; never written into anybody's table.
_EXAMPLE = {"cup": 240.0, "empty": 212.0, "full": 236.0, "fresh": 100.0, "after": 24.0}
_USUAL_DRIED_WATER = 0.10  # USDA's dried herbs: 0.05 to 0.13
_NAMED = (  # far enough apart on the scale to be named
    ("dill", "fresh", "sprigs", "dill sprigs"),
    ("peppermint", "fresh", "whole", "peppermint"),
    ("burdock", "fresh", "1-inch pieces", "burdock root"),
    ("spearmint", "dried", "crumbled", "spearmint"),
    ("rosemary", "dried", "leaves", "rosemary"),
    ("turmeric", "dried", "ground", "turmeric"),
)


def weighed_herb(name, state, cut, cup, empty, full, fresh, after, left):
    """A herb from a student's own weighings.

    Parameters
    ----------
    name, state, cut : str
        "lemon balm"; "fresh" or "dried"; "chopped".
    cup, empty, full : float
        What the cup holds to the rim, mL; its weight empty (0 if the scale was tared) and
        levelled full of loose herb, g.
    fresh, after : float
        A handful weighed before and after drying, g; 0 where it was not done.
    left : float
        Share of water that is still in the herb once dried that way.

    Returns
    -------
    Herb

    Raises
    ------
    ValueError
        Weights that cannot be, or a fresh herb whose water nobody has measured.

    Examples
    --------
    >>> balm = weighed_herb("lemon balm", "fresh", "chopped", 240, 212, 236, 100, 24, 0.1)
    >>> balm.bulk_density, round(balm.water, 3)
    (0.1, 0.784)
    """
    if full <= empty:
        raise ValueError(
            f"The full cup weighs {full:g} g and the empty one {empty:g} g: the herb must weigh "
            "something. Is the empty weight 0 because you tared the scale?"
        )
    density = bulk_density_from_cup(full - empty, cup)
    if density > 1:
        raise ValueError(
            f"{full - empty:g} g in {cup:g} mL is heavier than water: no loose herb is. Look at "
            "the cup's volume and at the empty weight again."
        )
    known = _in_table(name, state)
    if state == "fresh" and fresh and after:
        water, how = water_from_drying(fresh, after, left), f"{fresh:g} g dried to {after:g} g"
    elif known:
        water, how = known.water, "water as in the table"
    elif state == "dried":
        water, how = _USUAL_DRIED_WATER, "water 10 %, as dried herbs usually hold"
    else:
        raise ValueError(
            f"How much water is in fresh {name or 'herb'}? Weigh a handful, dry it, weigh it "
            "again, and fill in both weights."
        )
    return Herb(
        name=name or "your herb", state=state, water=water, bulk_density=density, form=cut,
        latin=known.latin if known else "", part=known.part if known else "",
        source=f"own weighing: {full - empty:g} g in a level {cup:g} mL; {how}",
    )


def _in_table(name, state):
    wanted = name.lower(), state
    return next((h for h in known_herbs(places.data()) if (h.name, h.state) == wanted), None)


def _weighing_axes(figure):
    left, right = figure.subfigures(1, 2, width_ratios=(1.75, 1))
    scale, water = left.subplots(2, 1, height_ratios=(2.6, 1))
    return {"scale": scale, "water": water, "jar": right.subplots()}


def _weighing_backdrop(axes):
    table = known_herbs(places.data())
    dots = {state: [h.bulk_density for h in table if h.state == state]
            for state in ("fresh", "dried")}
    named = []
    for *asked, words in _NAMED:
        plant = find_herb(*asked, folder=places.data())
        named.append((plant.bulk_density, _row_of(plant), words))
    figures.density_scale_backdrop(axes["scale"], dots["fresh"], dots["dried"], named)
    figures.water_bar_backdrop(axes["water"])
    vessel_axes(axes["jar"], left=-1.35, right=1.35, top=2.85)
    axes["jar"].set_ylim(-1.1, 2.85)  # room for weight and ratio below


def _row_of(plant):
    return 1 if plant.state == "fresh" else 0


def _show_weighing(axes, **weights):
    plant = weighed_herb(**weights)
    jar = Jar(JAR, plant, fill=0.75, menstruum=MENSTRUUM)
    mine = () if own_trouble() else own_herbs()
    figures.draw_own_density(
        axes["scale"], plant.bulk_density, _row_of(plant), plant.name,
        [(h.bulk_density, _row_of(h)) for h in mine],
    )
    figures.draw_water_bar(axes["water"], plant.water)
    draw_jar(axes["jar"], **drawn(jar, jar.poured, bar=False, gauge=False))
    figures.name_ratio(axes["jar"], 0, jar.herb_mass, jar.ratio, cut=plant.form)
    example = "With the example's weights, a" if _is_example(weights) else "A"
    return (
        f"{example} level mL of {plant.name}, {plant.state}, weighs "
        f"{figures.grams(plant.bulk_density)}, {100 * plant.water:.0f} % of it water: "
        f"a {JAR} mL jar three quarters full holds "
        f"{jar.herb_mass:.0f} g and stands at {figures.ratio_words(jar.ratio)}."
    )


def _is_example(weights):
    return all(weights[name] == figure for name, figure in _EXAMPLE.items())


def _write_down(**weights):
    if not weights["name"]:
        raise ValueError("Give your herb a name first: the list must call it something.")
    if _is_example(weights):
        raise ValueError(
            "These are still the example's weights, which are invented: type in your own first."
        )
    plant = weighed_herb(**weights)
    path = remember(plant)
    return (
        f"Written into {path.name} in your folder: {plant}, {figures.grams(plant.bulk_density)} in "
        f"a mL, {100 * plant.water:.0f} % water. Panels opened from now on offer it, marked as "
        "yours."
    )


def my_weighings():
    """Type in your own weighings; a button writes them into your herb table."""
    return Panel(
        title="My weighings",
        controls=dict(
            name=Entry("Name of the herb", "", length=24),
            state=Choice("Fresh or dried", ["fresh", "dried"]),
            cut=Entry("Cut", "chopped", length=20, help="whole, chopped, crumbled, ground ..."),
            cup=Entry("The cup holds", _EXAMPLE["cup"], low=10, high=2000, decimals=0, unit="mL"),
            empty=Entry("Empty cup", _EXAMPLE["empty"], low=0, high=3000, decimals=1, unit="g",
                        help="0 if you tared the cup"),
            full=Entry("Cup levelled full of loose herb", _EXAMPLE["full"], low=1, high=5000,
                       decimals=1, unit="g"),
            fresh=Entry("A handful before drying", _EXAMPLE["fresh"], low=0, high=5000,
                        decimals=1, unit="g", help="0 if you have not dried any yet"),
            after=Entry("The same handful dried", _EXAMPLE["after"], low=0, high=5000,
                        decimals=1, unit="g"),
            left=Choice("Dried until", {
                "it snaps (10 % water left)": 0.1,
                "its weight stands still (none)": 0.0,
            }),
            write=Action("Write it into my herb table", _write_down),
        ),
        size=(9, 4.75), axes=_weighing_axes, backdrop=_weighing_backdrop, show=_show_weighing,
        alt="The herbs of the table as dots on a scale of weight for one level mL, fresh above and "
            "dried below, with your own marked; a bar of its plant and water; a jar of it.",
    )

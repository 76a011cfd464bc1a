"""The panel of the what-if page: one jar, with every slider that matters."""

from herbcalc.explore.herb_lists import own_trouble, plants
from herbcalc.explore.water import drawn
from herbcalc.figures import herbs as figures
from herbcalc.figures.jar import vessel_axes
from herbcalc.jar import Jar
from herbcalc.keeping import ALWAYS, keeping
from herbcalc.liquids import spirit, water
from herbcalc.panel import Action, Choice, Panel, Slider
from herbcalc.strength import abv_from_proof

__all__ = ["whole_jar"]

LARGEST = 1000  # mL


def _with_water(herb, share):
    """The same herb wilted (`share` below 1) or wet: water for each gram of plant, times that."""
    moisture = share * herb.water / (1 - herb.water)
    return herb.measured(water=moisture / (1 + moisture))


def _axes(figure):
    top, words = figure.subfigures(2, 1, height_ratios=(1.75, 1))
    left, right = top.subfigures(1, 2, width_ratios=(1.15, 1))
    strength, time = right.subplots(2, 1)
    why, care = words.subplots(1, 2)
    return {"jar": left.subplots(), "strength": strength, "time": time, "why": why, "care": care}


def _backdrop(axes):
    vessel_axes(axes["jar"], left=-2.2, right=2.5, top=2.85)
    figures.strength_strip_backdrop(axes["strength"], note="keeping strength")
    figures.time_strip_backdrop(axes["time"])
    for name in ("why", "care"):
        figures.words_backdrop(axes[name])


def _chosen(plant, state, moisture, packed):
    """The herb as the sliders make it."""
    herb = plant.get(state) or next(iter(plant.values()))
    herb = _with_water(herb, moisture / 100)
    return herb.measured(bulk_density=min(herb.bulk_density * packed / 100, 1.5))


def _plan(proof, added, plant, state, moisture, packed, fill, volume):
    """The papers of this very jar, started today."""
    from herbcalc.batch import Batch  # here and below: who only looks need not wait for paper
    from herbcalc.papers import write_papers
    from herbcalc.shelf import Stock

    batch = Batch(_chosen(plant, state, moisture, packed), jar=volume, fill=fill / 100,
                  liquid={Stock("spirit", abv_from_proof(proof)): 100, Stock("water"): added})
    names = ", ".join(path.name for path in write_papers(batch))
    return f"Sheet, labels and calendar of this jar, started today, are beside this page: {names}."


def _show(axes, proof, added, plant, state, moisture, packed, fill, volume):
    herb = _chosen(plant, state, moisture, packed)
    only = "" if state in plant else f"The table knows {herb.name} only {herb.state}. "
    menstruum = spirit(100, abv_from_proof(proof)) + water(added)
    jar = Jar(volume=volume, herb=herb, fill=fill / 100, menstruum=menstruum)
    final, poured = jar.final, menstruum.abv
    keeps = keeping(final, fresh_herb=herb.state == "fresh")

    figures.draw_one(
        axes["jar"],
        drawn(jar, final, jar.herb_water, largest=LARGEST,
              label=f"{jar.herb_mass:.0f} g, {figures.ratio_words(jar.ratio)}"),
    )
    figures.draw_strengths(axes["strength"], poured, {"ends at": final.abv}, decimals=1)
    figures.draw_time(axes["time"], *keeps.days, keeps.range)
    care = [said for said in keeps.cautions if said not in ALWAYS]  # those stand on the page
    figures.draw_words(axes["why"], {"Why that long": [keeps.deciding], "Safer": keeps.safer})
    figures.draw_words(axes["care"], {"Take care": care})
    return (
        f"{only}{jar.menstruum_volume:.0f} mL poured at {poured:.1f} % vol "
        f"({2 * poured:.0f} proof) on {jar.herb_mass:.0f} g of {herb.state} {herb.name} "
        f"({figures.ratio_words(jar.ratio)}) end at {final.abv:.1f} % vol and keep "
        f"{keeps.range}."
    )


def whole_jar():
    """The whole jar on one page: spirit, water, herb, fill, and what comes of them."""
    return Panel(
        title="What if: the whole jar",
        controls=dict(
            proof=Slider("Spirit on the label", 40, 192, start=80, step=1, unit="US proof",
                         help="US proof is twice the % vol: 80 proof is 40 % vol"),
            added=Slider("Water added to 100 mL of it", 0, 150, start=0, step=5, unit="mL"),
            plant=Choice("Herb", plants(), start="ginger (rhizome)", help=own_trouble()),
            state=Choice("Fresh or dried", ["fresh", "dried"]),
            moisture=Slider("Water in it", 0, 150, start=100, step=5, unit="% of the table's",
                            help="less when wilted, more after rain"),
            packed=Slider("Its density", 50, 200, start=100, step=5, unit="% of the table's",
                          help="more when chopped or pressed"),
            fill=Slider("Jar filled with herb", 10, 100, start=75, step=5, unit="%"),
            volume=Slider("Jar", 100, LARGEST, start=500, step=50, unit="mL"),
            plan=Action("Plan this jar", _plan,
                        help="writes its sheet, labels and calendar"),
        ),
        size=(9.5, 5.5), axes=_axes, backdrop=_backdrop, show=_show,
        alt="The jar once steeped, with its alcohol, its water and the herb's water; a scale from "
            "the strength poured to the strength in the end; a scale of how long it keeps, from "
            "days to years, with the reasons and cautions in words.",
    )

"""Herbs: how much water is in them and how much of a jar they fill.

The course's table, ``data/herbs.csv``, is from the USDA National Nutrient Database for Standard
Reference (release 27, public domain): water in 100 g and the weight of a household measure. The
bulk density, grams in one millilitre of loosely filled herb, is that weight divided by that
measure: a kitchen figure for one cut of one plant, not a property of the species. Your own
weighings are better; `remember` writes them to ``my-herbs.csv`` in your own folder, and `herb`
finds them there first.
"""

import csv
import os
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path

from herbcalc import places
from herbcalc._numbers import above, between

SOLIDS_DENSITY = 1.5  # g/mL of the dry plant itself without its air: from memory, cell walls 1.5
OWN_TABLE = "my-herbs.csv"
_COLUMNS = ["name", "latin", "part", "state", "form", "water_g_per_100g",
            "bulk_density_g_per_ml", "source"]


@dataclass(frozen=True)
class Herb:
    """One herb in one state and cut.

    Parameters
    ----------
    name : str
    state : str, "fresh" or "dried"
    water : float, share of its weight that is water, 0 to below 1
    bulk_density : float, g per mL of loosely filled herb, above 0 to 1.5
    latin, part, form : str
    source : str, where the figures come from

    Examples
    --------
    >>> mint = herb("peppermint", "fresh")
    >>> mint.water, mint.bulk_density
    (0.7865, 0.108)
    >>> round(mint.volume(100))     # mL that 100 g take up by themselves, without the air between
    93
    """

    name: str
    state: str
    water: float
    bulk_density: float
    latin: str = ""
    part: str = ""
    form: str = ""
    source: str = "your own figures"

    def __post_init__(self):
        if not isinstance(self.name, str) or not self.name.strip():
            raise ValueError("A herb needs a name.")
        if self.state not in ("fresh", "dried"):
            raise ValueError(f"A herb is fresh or dried, not {self.state!r}.")
        if float(between(self.water, 0, 1, "the herb's share of water")) == 1:
            raise ValueError("A herb cannot be all water.")
        above(between(self.bulk_density, 0, 1.5, "the bulk density", "g/mL"), 0,
              "the bulk density", "g/mL")

    def __str__(self):
        cut = f", {self.form}" if self.form else ""
        return f"{self.state} {self.name} ({self.part}{cut})" if self.part else (
            f"{self.state} {self.name}{' (' + self.form + ')' if self.form else ''}")

    def dry_mass(self, mass):
        """Grams of completely dry plant in `mass` grams of this herb."""
        return mass * (1 - self.water)

    def volume(self, mass):
        """mL that `mass` grams fill by themselves: solids (1.5 g/mL, from memory) and water."""
        return mass * ((1 - self.water) / SOLIDS_DENSITY + self.water / 0.998)

    def measured(self, water=None, bulk_density=None, source="your own weighing"):
        """The same herb with figures you measured.

        Examples
        --------
        >>> herb("peppermint", "fresh").measured(bulk_density=0.16).bulk_density
        0.16
        """
        return replace(self, water=self.water if water is None else water, source=source,
                       bulk_density=self.bulk_density if bulk_density is None else bulk_density)


@lru_cache(maxsize=1)
def _course_table():
    with open(places.data() / "herbs.csv", encoding="utf-8", newline="") as file:
        return tuple(
            Herb(name=row["name"], latin=row["latin"], part=row["part"], state=row["state"],
                 form=row["form"], water=round(float(row["water_g_per_100g"]) / 100, 6),
                 bulk_density=float(row["bulk_density_g_per_ml"]),
                 source=f"USDA Standard Reference 27, NDB {row['ndb_no']} "
                        f"({row['household_measure']} = {row['grams']} g)")
            for row in csv.DictReader(file)
        )


def own_herbs(folder="."):
    """The herbs in ``my-herbs.csv`` of a folder (your course folder), newest last.

    Parameters
    ----------
    folder : path

    Returns
    -------
    tuple of Herb, empty where there is no such file

    Raises
    ------
    ValueError
        naming the line that cannot be read; the others are not lost, the file is not touched.
    """
    path = Path(folder) / OWN_TABLE
    if not path.is_file():
        return ()
    return _read_own(path, os.stat(path).st_mtime_ns, os.stat(path).st_size)


@lru_cache(maxsize=8)
def _read_own(path, mtime, size):
    found = []
    with open(path, encoding="utf-8-sig", newline="") as file:
        for number, row in enumerate(csv.DictReader(file), start=2):
            try:
                found.append(Herb(
                    name=row["name"], state=row["state"], latin=row.get("latin") or "",
                    part=row.get("part") or "", form=row.get("form") or "",
                    water=float(row["water_g_per_100g"]) / 100,
                    bulk_density=float(row["bulk_density_g_per_ml"]),
                    source=row.get("source") or "your own weighing"))
            except (KeyError, TypeError, ValueError) as error:
                raise ValueError(
                    f"Line {number} of {OWN_TABLE} cannot be read ({error}): "
                    "mend or remove that line; the file was left as it is."
                ) from None
    return tuple(found)


def known_herbs(folder="."):
    """Every herb known: your own first (the newest weighing of each), then the course's table.

    Examples
    --------
    >>> len(known_herbs()) >= 35
    True
    """
    seen, result = set(), []
    for item in (*reversed(own_herbs(folder)), *_course_table()):
        key = (item.name.lower(), item.state, item.form)
        if key not in seen:
            seen.add(key)
            result.append(item)
    return tuple(result)


def herb(name, state=None, form=None, folder="."):
    """Look a herb up by its English or Latin name.

    Parameters
    ----------
    name : str, upper or lower case
    state : "fresh" or "dried"; may be left out where only one is known
    form : str, the cut ("whole", "ground", ...); may be left out: the first one listed is taken
    folder : path where your own table may lie

    Returns
    -------
    Herb

    Raises
    ------
    ValueError
        unknown name (the nearest names are offered), state or form (what is known is listed).

    Examples
    --------
    >>> herb("Thymus vulgaris", "dried").bulk_density
    0.183
    >>> herb("pepermint", "fresh")
    Traceback (most recent call last):
    ValueError: There is no herb called 'pepermint' in the table. Did you mean peppermint or spearmint?
    """
    known = known_herbs(folder)
    asked = str(name).strip().lower()
    matches = [h for h in known if asked in (h.name.lower(), h.latin.lower())]
    if not matches:
        raise ValueError(_not_found(name, asked, known))
    if state is not None:
        wanted = str(state).strip().lower()
        if wanted not in ("fresh", "dried"):
            raise ValueError(f"A herb is fresh or dried, not {state!r}.")
        in_state = [h for h in matches if h.state == wanted]
        if not in_state:
            others = " and ".join(sorted({h.state for h in matches}))
            raise ValueError(
                f"The table knows {matches[0].name} only {others}. "
                "Weigh your own (lesson 04) and it joins the table."
            )
        matches = in_state
    elif len({h.state for h in matches}) > 1:
        raise ValueError(f"Is the {matches[0].name} fresh or dried? The table knows both.")
    if form is not None:
        in_form = [h for h in matches if h.form.lower() == str(form).strip().lower()]
        if not in_form:
            raise ValueError(
                f"The table knows {matches[0].state} {matches[0].name} as "
                f"{', '.join(h.form for h in matches)}, not as {form!r}."
            )
        matches = in_form
    return matches[0]


def _not_found(name, asked, known):
    import difflib  # here and below: a course without a slip never loads it

    english = sorted({h.name for h in known})
    lookup = {**{h.latin.lower(): h.name for h in known if h.latin},
              **{n.lower(): n for n in english}}
    near = difflib.get_close_matches(asked, list(lookup), n=3, cutoff=0.6)
    sentence = f"There is no herb called {str(name)[:40]!r} in the table."
    if near:
        offered = list(dict.fromkeys(lookup[key] for key in near))
        return f"{sentence} Did you mean {' or '.join(offered)}?"
    return f"{sentence} It knows, among others, {', '.join(english[:6])}."


def bulk_density_from_cup(net_mass, volume):
    """Bulk density from your own level cup.

    Parameters
    ----------
    net_mass : float, g of herb in it (weight of the full cup less the empty one)
    volume : float, mL the cup holds

    Returns
    -------
    float, g/mL

    Examples
    --------
    >>> bulk_density_from_cup(29, 240)
    0.121
    """
    mass = above(net_mass, 0, "the herb's weight", "g")
    return round(float(mass / above(volume, 0, "the cup's volume", "mL")), 3)


def water_from_drying(fresh_mass, dried_mass, left=0.0):
    """Share of water in a fresh herb from its weight before and after drying.

    Parameters
    ----------
    fresh_mass, dried_mass : float, g; the same herb before and after
    left : float, share of water still in the dried herb, 0 to below 1: air-dried herbs keep about
        0.1 (USDA's dried herbs: 0.05 to 0.13); oven-dried to constant weight 0

    Returns
    -------
    float, 0 to below 1

    Raises
    ------
    ValueError
        when the dried herb weighs as much as the fresh or more.

    Examples
    --------
    >>> round(water_from_drying(100, 24, left=0.1), 3)
    0.784
    """
    fresh = float(above(fresh_mass, 0, "the fresh weight", "g"))
    dried = float(above(dried_mass, 0, "the dried weight", "g"))
    left = float(between(left, 0, 0.5, "the water left in the dried herb"))
    if dried >= fresh:
        raise ValueError(
            f"After drying it weighs {dried:g} g and before {fresh:g} g: drying takes water away, "
            "so look at the two weights again."
        )
    return 1 - dried * (1 - left) / fresh


def remember(herb, folder="."):
    """Write your own figures into ``my-herbs.csv`` of your folder; `herb` finds them from then on.

    The file is written whole or not at all; earlier lines are kept as they are.

    Parameters
    ----------
    herb : Herb
    folder : path

    Returns
    -------
    Path of the file

    Raises
    ------
    ValueError
        when the folder cannot be written, or the file there cannot be read.
    """
    import tempfile

    path = Path(folder) / OWN_TABLE
    own = [*own_herbs(folder), herb]
    try:
        handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=".my-herbs-")
        try:
            with open(handle, "w", encoding="utf-8", newline="") as file:
                writer = csv.writer(file)
                writer.writerow(_COLUMNS)
                for item in own:
                    writer.writerow([item.name, item.latin, item.part, item.state, item.form,
                                     round(item.water * 100, 4), item.bulk_density, item.source])
                file.flush()
                os.fsync(file.fileno())
            os.replace(temporary, path)
        except BaseException:
            Path(temporary).unlink(missing_ok=True)
            raise
    except OSError as error:
        raise ValueError(f"Your herb table could not be written: {error.strerror}.") from None
    return path

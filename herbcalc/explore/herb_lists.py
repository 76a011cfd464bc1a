"""The lists of herbs that panels offer: the course's table and the student's own weighings.

A panel asks for its list when it is raised, so a weighing written down a moment ago is in it.
"""

from herbcalc import places
from herbcalc.herbs import known_herbs, own_herbs
from herbcalc.panel import Choice


def herb_list(state=None, both=False):
    """Herbs by the words a student reads; their own come first and say so.

    Parameters
    ----------
    state : "fresh" or "dried", optional
        Only these.
    both : bool
        Only plants known fresh and dried; the value is then the pair (fresh, dried).

    Returns
    -------
    dict of str to Herb, or to (Herb, Herb)

    Examples
    --------
    >>> herb_list("fresh")["peppermint (leaf, whole)"].water
    0.7865
    >>> [str(herb) for herb in herb_list(both=True)["basil (leaf)"]]
    ['fresh basil (leaf, whole)', 'dried basil (leaf, leaves)']
    """
    known, mine = _known()
    if both:
        return _pairs(known, mine)
    chosen = [herb for herb in known if state in (None, herb.state)]
    chosen.sort(key=lambda herb: (herb not in mine, herb.name.lower(), herb.part, herb.state))
    return {_words(herb, state is None, herb in mine): herb for herb in chosen}


def herb_choice(label="Herb", state=None, start=None, both=False):
    """A list of herbs to choose from, for a panel's controls.

    Parameters
    ----------
    label : str
        What it is called on the panel.
    state, both
        As for `herb_list`.
    start : str, optional
        What stands there first; the first of the list where it is not known.

    Returns
    -------
    Choice

    Examples
    --------
    >>> herb_choice(state="dried", start="sage (leaf, ground)").start
    'sage (leaf, ground)'
    """
    herbs = herb_list(state, both)
    return Choice(label, herbs, start=start if start in herbs else None, help=own_trouble())


def plants():
    """Plants by part, each with the states it is known in; the student's own come first.

    Returns
    -------
    dict of str to dict of "fresh" or "dried" to Herb

    Examples
    --------
    >>> sorted(plants()["ginger (rhizome)"])
    ['dried', 'fresh']
    """
    known, mine = _known()
    found = {}
    for herb in sorted(known, key=lambda herb: (herb not in mine, herb.name.lower(), herb.part)):
        own = herb in mine
        about = (herb.form if own else herb.part) or herb.part
        words = f"{herb.name}{f' ({about})' if about else ''}{', yours' if own else ''}"
        found.setdefault(words, {}).setdefault(herb.state, herb)
    return found


def own_trouble():
    """What is wrong with the student's own herb table, in one sentence; "" where nothing is."""
    try:
        own_herbs()
    except ValueError as error:
        return str(error)
    return ""


def _known():
    """Every herb, and those among them that are the student's own."""
    if own_trouble():  # the panel still opens, with the course's table and the trouble told
        return known_herbs(places.data()), ()
    return known_herbs(), own_herbs()


def _words(herb, with_state, mine):
    state = f", {herb.state}" if with_state else ""
    cut = ", ".join(word for word in (herb.part, herb.form) if word)
    return f"{herb.name}{state}{f' ({cut})' if cut else ''}{', yours' if mine else ''}"


def _pairs(known, mine):
    by_plant = {}
    for herb in known:
        by_plant.setdefault((herb.name.lower(), herb.part), []).append(herb)
    pairs = {}
    for herbs in by_plant.values():
        fresh = next((herb for herb in herbs if herb.state == "fresh"), None)
        dried = next((herb for herb in herbs if herb.state == "dried"), None)
        if fresh and dried:
            part = f" ({fresh.part})" if fresh.part else ""
            own = ", yours" if fresh in mine or dried in mine else ""
            pairs[f"{fresh.name}{part}{own}"] = fresh, dried
    return dict(sorted(pairs.items(), key=lambda item: (not item[0].endswith("yours"), item[0])))

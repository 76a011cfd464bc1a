"""Panels to play with, one module a topic; a lesson raises each in one short line.

Every panel function of a topic module is re-exported here and listed in ``__all__``:
the tests and the benchmark walk that list.
"""

from herbcalc.explore.density import by_eye_or_by_weight, my_weighings, same_fill
from herbcalc.explore.dilution import blend, make_up, pour_together, what_it_becomes
from herbcalc.explore.glycerin import glycerin_and_spirit, glycerin_jar, thick_and_thirsty
from herbcalc.explore.solubility import choose_a_liquid, one_constituent, whole_plant
from herbcalc.explore.start import first_jar, flash_point
from herbcalc.explore.strength import hydrometer, three_scales
from herbcalc.explore.vinegar import acid_tied_up, four_vinegars, vinegar_jar
from herbcalc.explore.water import dried_beside_fresh, fresh_jar, strength_to_pour
from herbcalc.explore.whatif import whole_jar

# Not in __all__: it is asked for by the number of a lesson.
from herbcalc.explore.selfcheck import self_check  # noqa: F401

__all__ = [
    "acid_tied_up", "blend", "by_eye_or_by_weight", "choose_a_liquid", "dried_beside_fresh",
    "first_jar", "flash_point", "four_vinegars", "fresh_jar", "glycerin_and_spirit",
    "glycerin_jar", "hydrometer", "make_up", "my_weighings", "one_constituent", "pour_together",
    "same_fill", "strength_to_pour", "thick_and_thirsty", "three_scales", "vinegar_jar",
    "what_it_becomes", "whole_jar", "whole_plant",
]

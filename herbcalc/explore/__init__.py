"""Panels to play with, one module a topic; a lesson raises each in one short line.

Every panel function of a topic module is re-exported here and listed in ``__all__``:
the tests and the benchmark walk that list.
"""

from herbcalc.explore.batch import (
    from_the_cupboard,
    plan_a_batch,
    sheet_of_labels,
    what_is_due,
    what_to_buy,
)
from herbcalc.explore.density import by_eye_or_by_weight, my_weighings, same_fill
from herbcalc.explore.dilution import blend, make_up, pour_together, what_it_becomes
from herbcalc.explore.drops import alcohol_in_a_measure, drops_in_one_ml
from herbcalc.explore.glycerin import glycerin_and_spirit, glycerin_jar, thick_and_thirsty
from herbcalc.explore.keeping import how_long, signs_of_spoilage, use_by_dates, what_decides
from herbcalc.explore.label import bottle_label
from herbcalc.explore.measuring import measuring_dilution, measuring_jar
from herbcalc.explore.solubility import choose_a_liquid, one_constituent, whole_plant
from herbcalc.explore.start import first_jar, flash_point
from herbcalc.explore.steeping import (
    days_of_steeping,
    one_steep_or_two,
    pressing,
    straining,
    yield_of_pressing,
)
from herbcalc.explore.strength import hydrometer, three_scales
from herbcalc.explore.vinegar import acid_tied_up, four_vinegars, vinegar_jar
from herbcalc.explore.water import dried_beside_fresh, fresh_jar, strength_to_pour
from herbcalc.explore.whatif import whole_jar

# Not in __all__: they are asked for by the number of a lesson, and by topics.
from herbcalc.explore.published import published_values  # noqa: F401
from herbcalc.explore.selfcheck import self_check  # noqa: F401

__all__ = [
    "acid_tied_up", "alcohol_in_a_measure", "blend", "bottle_label", "by_eye_or_by_weight",
    "choose_a_liquid", "days_of_steeping", "dried_beside_fresh", "drops_in_one_ml", "first_jar",
    "flash_point", "four_vinegars", "fresh_jar", "from_the_cupboard", "glycerin_and_spirit",
    "glycerin_jar", "how_long", "hydrometer", "make_up", "measuring_dilution", "measuring_jar",
    "my_weighings", "one_constituent", "one_steep_or_two", "plan_a_batch", "pour_together",
    "pressing", "same_fill", "sheet_of_labels", "signs_of_spoilage", "straining",
    "strength_to_pour", "thick_and_thirsty", "three_scales", "use_by_dates", "vinegar_jar",
    "what_decides", "what_is_due", "what_it_becomes", "what_to_buy", "whole_jar", "whole_plant",
    "yield_of_pressing",
]

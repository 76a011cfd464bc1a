"""Herbal tinctures by calculation: strength, mixing, herbs, jars, keeping.

Volumes in mL at 20 degC, masses in g, strength in % by volume at 20 degC, temperatures in degC.
Every function takes numbers or NumPy arrays and hands back the same shape; anything impossible
raises ValueError with a sentence that says what is wrong.

>>> import herbcalc as hc
>>> hc.spirit(500, abv=95) + hc.water(300)
778 mL at 61.1 % vol
"""

from herbcalc.herbs import (
    Herb,
    bulk_density_from_cup,
    herb,
    known_herbs,
    remember,
    water_from_drying,
)
from herbcalc.jar import Jar, spirit_for_final
from herbcalc.keeping import Keeping, glycerin_for_water_activity, keeping
from herbcalc.liquids import (
    Liquid,
    blend_to,
    contraction,
    glycerin,
    make_up,
    ph_with_soda,
    spirit,
    vinegar,
    water,
    water_to_dilute,
)
from herbcalc.strength import (
    abv,
    abv_from_proof,
    density,
    flash_point,
    mass_fraction,
    proof_from_abv,
    true_strength,
    weight_in_air,
)

__version__ = "0.1.0"

# Loaded when first asked for, so that `import herbcalc` takes hardly longer than NumPy alone.
_LATER = {
    "herbcalc.batch": ("Batch",),
    "herbcalc.cost": ("break_even", "cheapest", "copy_prices", "prices", "shop", "ways"),
    "herbcalc.cupboard": ("from_cupboard",),
    "herbcalc.dose": ("drop_mass", "drops_per_ml", "dry_herb_per_ml", "ethanol_grams",
                      "standard_drinks", "surface_tension"),
    "herbcalc.extraction": ("constituent", "constituents", "held_back", "pressed",
                            "solubility_gain", "steep", "steeped"),
    "herbcalc.papers": ("write_papers",),
    "herbcalc.shelf": ("Stock", "stock"),
}

_MODULES = ("dates", "log", "measuring")


def __getattr__(name):
    if name in _MODULES:
        from importlib import import_module

        return import_module(f"herbcalc.{name}")
    for module, names in _LATER.items():
        if name in names:
            from importlib import import_module

            return getattr(import_module(module), name)
    raise AttributeError(f"herbcalc has nothing called {name!r}")


def __dir__():
    return sorted([*globals(), *_MODULES,
                   *(name for names in _LATER.values() for name in names)])

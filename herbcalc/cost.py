"""What it costs: what to buy in the sizes that shops sell, what is left over, and which way is
cheaper.

The course's price list, ``data/prices.csv``, is INVENTED, shops and all: copy it into your own
folder with `copy_prices`, put your own prices in, and every sum uses them. Each line is one size
of one thing: a liquid in the words of `herbcalc.shelf`, a herb ("dried thyme"), or a jar.
"""

import csv
import os
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from math import ceil, gcd
from pathlib import Path

from herbcalc import places
from herbcalc._numbers import above, at_least, between
from herbcalc.batch import Batch
from herbcalc.kitchen import measure_volume
from herbcalc.shelf import Stock, stock

__all__ = ["Basket", "BreakEven", "Offer", "Shopping", "Way", "break_even", "cheapest",
           "copy_prices", "money", "offers_of", "prices", "shop", "ways"]

OWN_PRICES = "my-prices.csv"
SIGNS = {"EUR": "€", "USD": "$", "GBP": "£"}
_COLUMNS = ("what", "size", "unit", "price", "currency")
_MOST_STEPS = 2_000_000


@dataclass(frozen=True)
class Offer:
    """One size of one thing in a shop.

    Attributes
    ----------
    what : Stock for a liquid, str for a herb ("dried thyme") or "jar"
    size : int, mL or g in one pack; of a jar, what it holds
    unit : "mL" or "g"
    price : float, of one pack
    currency : str, "EUR", "USD", ...
    """

    what: Stock | str
    size: int
    unit: str
    price: float
    currency: str = "EUR"


def money(amount, currency="EUR"):
    """An amount of money as it is shown.

    >>> money(29), money(3.5, "CHF")
    ('29.00 €', '3.50 CHF')
    """
    return f"{amount:.2f} {SIGNS.get(currency, currency)}"


def prices(folder="."):
    """The price list: your own ``my-prices.csv`` where the folder has one, else the course's.

    Parameters
    ----------
    folder : path

    Returns
    -------
    tuple of Offer

    Raises
    ------
    ValueError
        naming the line that cannot be read; the file is left as it is.

    Examples
    --------
    >>> [money(o.price) for o in prices() if o.what == stock("spirit 95")]
    ['29.00 €', '46.00 €']
    """
    own = Path(folder) / OWN_PRICES
    path = own if own.is_file() else places.data() / "prices.csv"
    stat = os.stat(path)
    return _read(path, stat.st_mtime_ns, stat.st_size)


@lru_cache(maxsize=8)
def _read(path, mtime, size):
    found = []
    try:
        text = path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError:
        raise ValueError(f"{path.name} is not saved as UTF-8: save it again as CSV UTF-8."
                         ) from None
    rows = csv.DictReader(text.splitlines())
    missing = [name for name in _COLUMNS if name not in (rows.fieldnames or ())]
    if missing:
        raise ValueError(f"{path.name} has no column {missing[0]!r}: its first line must be "
                         f"{','.join(_COLUMNS)}, parted by commas.")
    for number, row in enumerate(rows, start=2):
        try:
            found.append(_offer(row))
        except (TypeError, AttributeError, ValueError) as error:
            said = str(error) if isinstance(error, ValueError) else "something is missing"
            raise ValueError(f"Line {number} of {path.name} cannot be read: {said.rstrip('.')}. "
                             "Mend that line; the file was left as it is.") from None
    if len({offer.currency for offer in found}) > 1:
        raise ValueError(f"{path.name} has prices in more than one currency: they cannot be "
                         "added up.")
    return tuple(found)


def _offer(row):
    what, unit = " ".join(row["what"].split()).lower(), row["unit"].strip()
    if not what:
        raise ValueError("it does not say what it is")
    if unit not in ("mL", "g"):
        raise ValueError(f"the unit is mL or g, not {unit!r}")
    size = float(above(_figure(row["size"], "the size"), 0, "the size", unit))
    if size != round(size):
        raise ValueError(f"the size is in whole {unit}, not {size:g}")
    price = float(at_least(_figure(row["price"], "the price"), 0, "the price"))
    herb_or_jar = unit == "g" or what == "jar"
    return Offer(what if herb_or_jar else stock(what), round(size), unit, price,
                 row["currency"].strip().upper() or "EUR")


def _figure(text, name):
    try:
        return float(text.strip().replace(",", "."))
    except ValueError:
        raise ValueError(f"{name} must be a number, not {text.strip()[:20]!r}") from None


def copy_prices(folder="."):
    """Put a copy of the course's price list into a folder, to write your own prices into.

    Parameters
    ----------
    folder : path

    Returns
    -------
    Path of the file

    Raises
    ------
    ValueError
        when there is one already: yours is never overwritten.
    """
    path = Path(folder) / OWN_PRICES
    try:
        with open(path, "x", encoding="utf-8", newline="") as file:
            file.write((places.data() / "prices.csv").read_text(encoding="utf-8"))
    except FileExistsError:
        raise ValueError(f"There is a {OWN_PRICES} already: it stays as it is. "
                         "Open it and write your prices in.") from None
    except OSError as error:
        raise ValueError(f"{path} could not be written: {error.strerror}.") from None
    return path


# --- covering a need ------------------------------------------------------------------------------


@dataclass(frozen=True)
class Basket:
    """What is bought of one thing.

    Attributes
    ----------
    need : float, mL or g (of jars: how many)
    packs : tuple of (Offer, count), the cheapest way to have enough
    """

    need: float
    packs: tuple

    @property
    def what(self):
        """the Stock, or the words for a herb or a jar"""
        return self.packs[0][0].what

    @property
    def unit(self):
        """mL or g; "jars" for jars"""
        return "jars" if self.what == "jar" else self.packs[0][0].unit

    @property
    def price(self):
        """what all the packs cost"""
        return round(sum(offer.price * count for offer, count in self.packs), 2)

    @property
    def bought(self):
        """mL or g in all the packs together; of jars, how many"""
        if self.what == "jar":
            return sum(count for _, count in self.packs)
        return sum(offer.size * count for offer, count in self.packs)

    @property
    def left_over(self):
        """mL or g that is bought and not used"""
        return max(self.bought - self.need, 0.0)

    @property
    def used_worth(self):
        """the price of the share that is used"""
        return self.price * min(self.need / self.bought, 1.0)

    def __str__(self):
        bought = " + ".join(f"{count} × {offer.size} {offer.unit}" for offer, count in self.packs)
        left = f"; {self.left_over:.0f} {self.unit} left over" if self.left_over >= 0.5 else ""
        return (f"{self.what}: {bought}, {money(self.price, self.packs[0][0].currency)}{left}")


def cheapest(need, offers):
    """The cheapest packs that hold at least what is needed; of equal price, the fewest packs.

    Exact: every way to cover the need is weighed against every other, step by step of the
    greatest size that all packs are whole multiples of.

    Parameters
    ----------
    need : float, mL or g, above 0
    offers : sequence of Offer, all of one thing

    Returns
    -------
    Basket

    Raises
    ------
    ValueError
        when nothing is offered, or the need is beyond all shops.

    Examples
    --------
    >>> vodka = offers_of("spirit 40")
    >>> str(cheapest(1600, vodka))
    'spirit of 40 % vol: 1 × 700 mL + 1 × 1000 mL, 38.00 €; 100 mL left over'
    """
    need = float(above(need, 0, "what is needed"))
    offers = tuple(offers)
    if not offers:
        raise ValueError("Nothing is offered: there is no price to reckon with.")
    step = gcd(*(offer.size for offer in offers))
    steps = max(ceil(need / step - 1e-9), 1)
    if steps > _MOST_STEPS:
        raise ValueError(f"{need:.0f} {offers[0].unit} is more than a shop sells.")
    choice = _choices(offers, step, _round_up(steps))
    counts = {offer: 0 for offer in sorted(offers, key=lambda offer: offer.size)}
    while steps > 0:
        offer = offers[choice[1][steps]]
        counts[offer] += 1
        steps -= offer.size // step
    return Basket(need, tuple((offer, count) for offer, count in counts.items() if count))


def _round_up(steps):
    """A few table lengths serve all needs, so that a slider does not fill the tables anew."""
    length = 256
    while length < steps:
        length *= 2
    return length


@lru_cache(maxsize=32)
def _choices(offers, step, steps):
    """(price in hundredths and packs, last offer taken) for each need up to `steps`."""
    sizes = [offer.size // step for offer in offers]
    cents = [round(offer.price * 100) for offer in offers]
    best, last = [(0, 0)], [None]
    for need in range(1, steps + 1):
        ways = [(best[max(need - size, 0)][0] + cost, best[max(need - size, 0)][1] + 1, i)
                for i, (size, cost) in enumerate(zip(sizes, cents))]
        cost, packs, i = min(ways)
        best.append((cost, packs))
        last.append(i)
    return best, last


def offers_of(what, offers=None):
    """The sizes in which one thing is sold.

    Parameters
    ----------
    what : Stock or words ("spirit 40"), or a herb ("dried thyme")
    offers : sequence of Offer; the price list when nothing is said

    Returns
    -------
    tuple of Offer, empty when it is not sold
    """
    offers = prices() if offers is None else offers
    if isinstance(what, str):
        known = " ".join(what.lower().split())
        if any(offer.what == known for offer in offers):
            return tuple(offer for offer in offers if offer.what == known)
        try:
            what = stock(known)
        except ValueError:
            return ()
    return tuple(offer for offer in offers if offer.what == what)


# --- a batch --------------------------------------------------------------------------------------


@dataclass(frozen=True, repr=False)
class Shopping:
    """What to buy for a batch.

    Attributes
    ----------
    batch : Batch
    baskets : tuple of Basket
    missing : tuple of str, what the price list does not have
    """

    batch: Batch
    baskets: tuple
    missing: tuple

    @cached_property
    def total(self):
        """what all of it costs in the shop"""
        return round(sum(basket.price for basket in self.baskets), 2)

    @property
    def per_jar(self):
        """what one jar costs when all that is bought is counted"""
        return self.total / self.batch.jars

    @property
    def used_per_jar(self):
        """what one jar costs when what is left over is not counted"""
        return sum(basket.used_worth for basket in self.baskets) / self.batch.jars

    @property
    def currency(self):
        """the currency of the price list"""
        return self.baskets[0].packs[0][0].currency if self.baskets else "EUR"

    def basket(self, what):
        """the Basket of one thing, or None"""
        return next((one for one in self.baskets if one.what == what), None)

    def __str__(self):
        said = [str(basket) for basket in self.baskets]
        said += [f"{what}: not in the price list" for what in self.missing]
        said.append(f"together {money(self.total, self.currency)}, for each jar "
                    f"{money(self.per_jar, self.currency)} (without what is left over "
                    f"{money(self.used_per_jar, self.currency)}); prices from the list, which is "
                    "invented until you put your own in")
        return "\n".join(said)

    __repr__ = __str__


def shop(batch, offers=None):
    """What to buy for a batch, in the sizes that shops sell, and what is left over.

    What is needed are the amounts as measured with the batch's tools. Water is taken from the
    tap, unless the price list sells some.

    Parameters
    ----------
    batch : Batch
    offers : sequence of Offer; the price list when nothing is said

    Returns
    -------
    Shopping

    Examples
    --------
    >>> import herbcalc as hc
    >>> batch = hc.Batch("dried thyme", jar=500, ratio=5, liquid="spirit 40", jars=12,
    ...                  start="2027-01-10")
    >>> bought = shop(batch)
    >>> print(bought.baskets[1])
    spirit of 40 % vol: 3 × 700 mL + 3 × 1000 mL, 114.00 €; 90 mL left over
    """
    if not isinstance(batch, Batch):
        raise ValueError("Shopping is for a batch: hc.shop(batch), say.")
    offers = prices() if offers is None else offers
    herb, *liquids = batch.amounts
    needs = [(f"{batch.herb.state} {batch.herb.name}".lower(),
              herb.measured(batch.tools).amount * batch.jars)]
    needs += [(liquid.stock, liquid.measured(batch.tools).amount) for liquid in liquids]
    baskets, missing = [], []
    for what, need in needs:
        sold = offers_of(what, offers)
        if sold:
            baskets.append(cheapest(need, sold))
        elif what != Stock("water"):
            missing.append(str(what))
    jars = [offer for offer in offers if offer.what == "jar"
            and abs(offer.size - batch.jar) < 0.5]
    if jars:
        baskets.append(Basket(batch.jars, ((min(jars, key=lambda o: o.price), batch.jars),)))
    else:
        missing.append(f"jar of {batch.jar:.0f} mL")
    return Shopping(batch, tuple(baskets), tuple(missing))


@dataclass(frozen=True, repr=False)
class Way:
    """One way to have the spirit of a batch.

    Attributes
    ----------
    spirit : Stock that is bought
    batch : Batch, the same batch made of it
    shopping : Shopping
    """

    spirit: Stock
    batch: Batch
    shopping: Shopping

    def __repr__(self):
        return f"{self.spirit}: {money(self.shopping.total, self.shopping.currency)}"

    @property
    def ready(self):
        """whether the spirit is poured as bought"""
        return all(item.kind != "water" for item, _ in self.batch.recipe)

    @property
    def spirit_price(self):
        """what the spirit alone costs"""
        return self.shopping.basket(self.spirit).price


def ways(batch, offers=None):
    """Every spirit of the price list that can make the batch, the cheapest first.

    What is stronger than needed is let down with water, its shrinking counted; the batch ends as
    strong as before.

    Parameters
    ----------
    batch : Batch with spirit in it
    offers : sequence of Offer; the price list when nothing is said

    Returns
    -------
    tuple of Way

    Raises
    ------
    ValueError
        when there is no spirit in the batch, or none sold is strong enough.

    Examples
    --------
    >>> import herbcalc as hc
    >>> batch = hc.Batch("dried thyme", jar=500, ratio=5, liquid="spirit 40", jars=13,
    ...                  start="2027-01-10")
    >>> ways(batch)[:2]
    (spirit of 95 % vol: 188.80 €, spirit of 40 % vol: 191.80 €)
    """
    offers = prices() if offers is None else offers
    sold = dict.fromkeys(offer.what for offer in offers
                         if isinstance(offer.what, Stock) and offer.what.kind == "spirit")
    found = []
    for item in sold:
        try:
            other = _made_of(batch, item)
        except ValueError:
            if batch.planned.final.abv == 0:
                raise
            continue
        found.append(Way(item, other, shop(other, offers)))
    if not found:
        raise ValueError(f"No spirit of the price list is strong enough to end at "
                         f"{batch.planned.final.abv:.0f} % vol.")
    return tuple(sorted(found, key=lambda way: way.shopping.total))


def _made_of(batch, item):
    """The same batch, ending as strong, from another spirit and water."""
    if batch.planned.final.abv == 0:
        raise ValueError("There is no spirit in this batch to be bought one way or another.")
    others = tuple(one for one in batch.liquid if one[0].kind not in ("spirit", "water"))
    both = sum(parts for one, parts in batch.liquid if one.kind in ("spirit", "water"))
    return replace(batch, liquid=(*others, (item, both), (Stock("water"), both)),
                   final_abv=min(batch.planned.final.abv, 96.0))


@dataclass(frozen=True)
class BreakEven:
    """Strong spirit let down with water against spirit bought ready, over the number of jars.

    Attributes
    ----------
    jars : tuple of int, 1 to the most looked at
    strong, ready : tuple of float, what the spirit for that many jars costs each way
    strong_spirit, ready_spirit : Stock
    from_jars : int or None, from so many jars on the strong spirit is never dearer (within what
        was looked at); None when that never comes
    worth_per_litre : float, what a litre of the strong spirit may cost to be no dearer than the
        ready one, when left-overs do not count
    currency : str
    """

    jars: tuple
    strong: tuple
    ready: tuple
    strong_spirit: Stock
    ready_spirit: Stock
    from_jars: int | None
    worth_per_litre: float
    currency: str


def break_even(batch, strong="spirit 95", ready="spirit 40", offers=None, most=24):
    """From how many jars on letting down strong spirit is cheaper than buying it ready.

    Only the spirit is counted: herb, jars and water cost the same both ways. Both end at the
    same strength; whatever is stronger than needed is let down, its shrinking counted.

    Parameters
    ----------
    batch : Batch with spirit in it; its own number of jars does not matter
    strong, ready : Stock or words, both in the price list
    offers : sequence of Offer; the price list when nothing is said
    most : int, most jars looked at, 1 to 1000

    Returns
    -------
    BreakEven

    Raises
    ------
    ValueError
        when one of the two is not sold or is not strong enough.

    Examples
    --------
    >>> import herbcalc as hc
    >>> batch = hc.Batch("dried thyme", jar=500, ratio=5, liquid="spirit 40", start="2027-01-10")
    >>> found = break_even(batch, most=36)
    >>> found.from_jars, round(found.worth_per_litre, 2)
    (13, 52.25)
    """
    offers = prices() if offers is None else offers
    most = round(float(between(most, 1, 1000, "the number of jars")))
    one, sides = batch.times(1), []
    for item in (stock(strong), stock(ready)):
        sold = offers_of(item, offers)
        if not sold:
            raise ValueError(f"The price list has no {item}.")
        other = _made_of(one, item)
        need = dict(other.recipe)[item]
        sides.append((item, need, sold))
    costs = [tuple(cheapest(measure_volume(need * jars, batch.tools).amount, sold).price
                   for jars in range(1, most + 1)) for _, need, sold in sides]
    dearer = [jars for jars, (a, b) in enumerate(zip(*costs), start=1) if a > b + 1e-9]
    from_jars = (dearer[-1] if dearer else 0) + 1
    (strong, need_strong, _), (ready, need_ready, sold) = sides
    per_litre = min(1000 * offer.price / offer.size for offer in sold)
    return BreakEven(tuple(range(1, most + 1)), *costs, strong, ready,
                     from_jars if from_jars <= most else None,
                     per_litre * need_ready / need_strong, sold[0].currency)

"""The command's verbs for the real bench: plan, cupboard, shelf, look, prices.

As in `herbcalc.command`: one small function and one parser block for each verb.
"""

import argparse
from pathlib import Path

__all__ = ["add_verbs"]

_LIQUID = ("what is poured: 'spirit 40', 'spirit 95, water', 'glycerin: 3, water: 2', "
           "'vinegar 5', 'raw vinegar'")


def plan(words: argparse.Namespace) -> None:
    """Print the plan of a batch, and write its sheet, labels and calendar."""
    import herbcalc as hc

    if [words.fill, words.ratio, words.weight].count(None) != 2:
        raise ValueError("Say how much herb goes in: --fill 75 (per cent of the jar, by eye), "
                         "--ratio 5 (1:5) or --weight 40 (g for one jar), one of the three.")
    batch = hc.Batch(
        _herb(words), jar=words.jar, liquid=words.liquid, ratio=words.ratio,
        fill=None if words.fill is None else words.fill / 100, herb_mass=words.weight,
        final_abv=words.final, jars=words.jars, start=words.start, tools=words.tools,
        press=words.press, code=words.code,
    )
    print(batch)
    if batch.jars > 1 or words.buy:
        print("", "BUY", hc.shop(batch, hc.prices(words.folder)), sep="\n")
    if words.write:
        papers = hc.write_papers(batch, words.folder, page=words.page, label=words.label,
                                 maker=words.maker)
        print("", "Written:", *(f"  {path}" for path in papers), sep="\n")
    if words.log:
        from herbcalc import log

        print(f"In the log: {log.add(batch, words.folder)}")


def _herb(words):
    from herbcalc.batch import checked_herb

    herb = checked_herb(words.herb)
    if words.water is None and words.density is None:
        return herb
    water = None if words.water is None else words.water / 100
    return herb.measured(water=water, bulk_density=words.density)


def cupboard(words: argparse.Namespace) -> None:
    """Print the batches that the bottles and the herb at hand can make."""
    import herbcalc as hc

    if [words.fill, words.ratio].count(None) != 1:
        raise ValueError("Say how much herb goes in: --fill 75 (per cent of the jar, by eye) or "
                         "--ratio 5 (1:5), one of the two.")
    bottles = {}
    for said in words.have:
        name, _, amount = said.partition("=")
        if not amount.strip():
            raise ValueError(f"{said[:40]!r}: write how much there is behind an equals sign, "
                             "'spirit 40 = 700', say.")
        bottles[name.strip()] = _number_or_words(amount)
    print(hc.from_cupboard(
        bottles, words.herb, words.weight, ratio=words.ratio, final_abv=words.final,
        fill=None if words.fill is None else words.fill / 100, jar=words.jar,
    ))


def shelf(words: argparse.Namespace) -> None:
    """Print what is steeping, what is due and what is past its date."""
    from herbcalc import log
    from herbcalc.keeping import day_words

    table = log.standing(words.day, words.folder)
    for batch in table.itertuples():
        print(f"{batch.standing:<11} {batch.code:<16} {batch.state} {batch.herb}: {batch.due}, "
              f"{day_words(batch.on)}")
    if table.empty:
        print("There is no batch in the log yet: plan one with --log.")
    for sentence in table.attrs["unread"]:
        print(sentence)
    if words.page:
        from herbcalc.figures.log import shelf_page

        shelf_page(table, words.day, words.page)
        print(f"Written: {words.page}")


def look(words: argparse.Namespace) -> None:
    """Write down a look at a batch."""
    from herbcalc import log

    log.inspect(words.code, words.day, look=words.look, smell=words.smell, clarity=words.clarity,
                growth=words.growth, done=words.done, note=words.note, folder=words.folder)
    print(f"Written down for {words.code}.")
    if "doubtful" in (words.look, words.smell) or words.growth == "seen":
        print("If in doubt, throw it out: do not taste to find out.")


def prices(words: argparse.Namespace) -> None:
    """Put a copy of the price list where it can be changed."""
    import herbcalc as hc

    print(f"Your own price list is {hc.copy_prices(words.folder)}: the prices in it are "
          "invented, write your own over them.")


def add_verbs(verbs) -> None:
    """Add the verbs to the command's parser."""
    verb = verbs.add_parser(
        "plan",
        help="plan a batch: amounts, sheet, labels, calendar",
        description="Plan a batch of jars: what to measure in metric and kitchen units, what "
        "comes of it, how long it keeps and why, what to mind; and write its sheet and labels "
        "(PDF) and its calendar. Example: plan 'fresh peppermint' --jar 500 --fill 75 --liquid "
        "'spirit 95' --final 45 --jars 12",
    )
    verb.add_argument("herb", help="'dried thyme', 'fresh peppermint'")
    verb.add_argument("--jar", required=True, type=_number_or_words,
                      help="what one jar holds: 500 (mL) or '1 pint'")
    _how_much(verb)
    verb.add_argument("--weight", type=_number_or_words, help="herb for one jar: 40 (g) or '2 oz'")
    verb.add_argument("--liquid", required=True, help=_LIQUID)
    verb.add_argument("--jars", type=int, default=1, help="how many jars (default: 1)")
    verb.add_argument("--start", help="the day the liquid goes on, 2027-01-31 (default: today)")
    verb.add_argument("--tools", default="metric", help="metric (default) or kitchen")
    verb.add_argument("--press", default="by hand in cloth",
                      help="'dripped only', 'by hand in cloth' (default), 'kitchen press', "
                      "'screw press'")
    verb.add_argument("--water", type=float, metavar="PERCENT",
                      help="your own figure for the herb: water in 100 g of it")
    verb.add_argument("--density", type=float, metavar="G_PER_ML",
                      help="your own figure for the herb: g in one mL of it, loose")
    verb.add_argument("--code", default="", help="a batch code of your own")
    verb.add_argument("--maker", default="", help="for the label: who made it and where to ask")
    verb.add_argument("--page", type=_size, default=(210, 297), metavar="WIDTHxHEIGHT",
                      help="paper in mm (default: 210x297)")
    verb.add_argument("--label", type=_size, default=(90, 60), metavar="WIDTHxHEIGHT",
                      help="one label in mm (default: 90x60)")
    verb.add_argument("--folder", default=".", help="where to write (default: here)")
    verb.add_argument("--no-papers", dest="write", action="store_false",
                      help="only show the plan, write no file")
    verb.add_argument("--buy", action="store_true", help="also show what to buy for one jar")
    verb.add_argument("--log", action="store_true", help="put the batch into the log there")
    verb.set_defaults(run=plan)

    verb = verbs.add_parser(
        "cupboard",
        help="which batches the bottles at hand can make",
        description="From the bottles and the herb that are there to the batches they make, the "
        "largest first. Example: cupboard 'dried thyme' 100 --have 'spirit 95 = 300' --have "
        "'spirit 40 = 700' --ratio 5 --final 45",
    )
    verb.add_argument("herb", help="'dried thyme', 'fresh peppermint'")
    verb.add_argument("weight", type=_number_or_words, help="how much of it: 100 (g) or '4 oz'")
    verb.add_argument("--have", action="append", required=True, metavar="'LIQUID = AMOUNT'",
                      help="a bottle and what is in it, in mL; once for each bottle")
    _how_much(verb)
    verb.add_argument("--jar", type=_number_or_words,
                      help="the size of the jars there are (default: one that fits)")
    verb.set_defaults(run=cupboard)

    verb = verbs.add_parser(
        "shelf",
        help="what is steeping, what is due, what is past its date",
        description="Read the log of a folder and say where each batch stands.",
    )
    verb.add_argument("--day", help="on this day, 2027-02-07 (default: today)")
    verb.add_argument("--page", type=Path, help="also write it as a page: shelf.pdf, say")
    verb.add_argument("--folder", default=".", help="where the log is (default: here)")
    verb.set_defaults(run=shelf)

    verb = verbs.add_parser(
        "look",
        help="write down what you saw at a batch",
        description="Write a look at a batch into the log: what is not said was good.",
    )
    verb.add_argument("code", help="the batch code, as on the label")
    verb.add_argument("--day", help="2027-02-07 (default: today)")
    for name, good, bad in (("look", "good", "doubtful"), ("smell", "good", "doubtful"),
                            ("clarity", "clear", "cloudy"), ("growth", "none", "seen")):
        verb.add_argument(f"--{name}", default=good, choices=(good, bad),
                          help=f"{good} (default) or {bad}")
    verb.add_argument("--done", default="",
                      choices=("", "strained", "used up", "thrown out", "put back"),
                      help="strained, 'used up', 'thrown out'; 'put back' takes that back")
    verb.add_argument("--note", default="", help="in your own words")
    verb.add_argument("--folder", default=".", help="where the log is (default: here)")
    verb.set_defaults(run=look)

    verb = verbs.add_parser("prices", help="make a price list of your own to change")
    verb.add_argument("--folder", default=".", help="where (default: here)")
    verb.set_defaults(run=prices)


def _how_much(verb) -> None:
    verb.add_argument("--fill", type=float, metavar="PERCENT",
                      help="how much of the jar loose herb fills, by eye")
    verb.add_argument("--ratio", type=float, help="mL of liquid for 1 g of herb: 5 is 1:5")
    verb.add_argument("--final", type=float, metavar="PERCENT",
                      help="%% vol wanted once the herb has given up its water")


def _number_or_words(text: str) -> float | str:
    try:
        return float(text.strip())
    except ValueError:
        return text.strip()


def _size(text: str) -> tuple[float, float]:
    try:
        wide, high = text.lower().replace("×", "x").split("x")
        return float(wide), float(high)
    except ValueError:
        raise argparse.ArgumentTypeError(
            f"a size is a width and a height in mm like 90x60, not '{text}'") from None

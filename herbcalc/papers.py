"""Everything on paper for a batch at once: its sheet, its labels, its calendar."""

from pathlib import Path

__all__ = ["write_papers"]


def write_papers(batch, folder=".", *, page=(210, 297), label=(90, 60), maker="", shopping=True):
    """Write the sheet, the labels and the calendar of a batch into a folder.

    The files are named after the batch code; those of the same code are written anew.

    Parameters
    ----------
    batch : Batch
    folder : path; made when it is not there
    page, label : (width, height), mm
    maker : str, who made it and where to ask
    shopping : bool, whether the sheet says what to buy

    Returns
    -------
    tuple of Path: sheet, labels, calendar

    Raises
    ------
    ValueError
        when they cannot be written, or the labels do not fit.

    Examples
    --------
    >>> import herbcalc as hc, tempfile
    >>> batch = hc.Batch("dried thyme", jar=500, ratio=5, liquid="spirit 50", start="2027-01-10")
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     [path.name for path in write_papers(batch, folder)]
    ['THY-D-270110-sheet.pdf', 'THY-D-270110-labels.pdf', 'THY-D-270110.ics']
    """
    from herbcalc.cost import prices, shop  # here: each of these takes its time to load
    from herbcalc.dates import write_calendar
    from herbcalc.figures.paper import batch_sheet, label_sheet

    folder = Path(folder)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise ValueError(f"The folder {folder} cannot be made: {error.strerror}.") from None
    sheet, labels, days = (folder / f"{batch.code}{end}"
                           for end in ("-sheet.pdf", "-labels.pdf", ".ics"))
    label_sheet(batch, labels, label=label, page=page, maker=maker)  # first: it may not fit
    batch_sheet(batch, sheet, page=page, maker=maker,
                shopping=shop(batch, prices(folder)) if shopping else None)
    write_calendar(days, batch)
    return sheet, labels, days

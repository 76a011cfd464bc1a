"""The days of a batch as a calendar file that any calendar program reads (iCalendar, RFC 5545).

All events are whole days without a time zone: a jar is strained on a day, wherever the reader
is. The daily shake is one event that repeats. Putting the file in again changes the events that
are there instead of doubling them, because each event keeps its identity.
"""

from datetime import datetime, timedelta, timezone
from uuid import NAMESPACE_URL, uuid5

from herbcalc.batch import Batch
from herbcalc.files import write_whole
from herbcalc.keeping import SIGNS_OF_SPOILAGE, day_words

__all__ = ["calendar", "write_calendar"]

_DAY = timedelta(days=1)


def calendar(*batches, stamp=None):
    """One or more batches as an iCalendar file.

    Parameters
    ----------
    batches : Batch
    stamp : datetime with a time zone, when the file was made; now when nothing is said

    Returns
    -------
    bytes

    Raises
    ------
    ValueError
        when no batch is given.

    References
    ----------
    RFC 5545 (2009), Internet Calendaring and Scheduling Core Object Specification.

    Examples
    --------
    >>> import herbcalc as hc
    >>> batch = hc.Batch("dried thyme", jar=500, ratio=5, liquid="spirit 50", start="2027-01-10")
    >>> text = calendar(batch).decode()
    >>> "DTSTART;VALUE=DATE:20270110" in text, "RRULE:FREQ=DAILY;UNTIL=20270207" in text
    (True, True)
    """
    from icalendar import Calendar  # here: only who writes a calendar waits for it

    if not batches or not all(isinstance(batch, Batch) for batch in batches):
        raise ValueError("A calendar is made of batches: calendar(batch), say.")
    stamp = (stamp or datetime.now(timezone.utc)).astimezone(timezone.utc).replace(microsecond=0)
    made = Calendar()
    made.add("prodid", "-//herbcalc//batch plan//EN")
    made.add("version", "2.0")
    made.add("method", "PUBLISH")
    for batch in batches:
        for event in _events(batch, stamp):
            made.add_component(event)
    return made.to_ical()


def write_calendar(path, *batches):
    """Write the calendar file, whole or not at all; `path` usually ends in ``.ics``.

    Raises
    ------
    ValueError
        when it cannot be written.
    """
    try:
        write_whole(path, calendar(*batches))
    except OSError as error:
        raise ValueError(f"{path} could not be written: {error.strerror or error}.") from None


def _events(batch, stamp):
    dates, name = batch.dates, f"{batch.herb.state} {batch.herb.name}, {batch.code}"
    jars = f"{batch.jars} jar{'' if batch.jars == 1 else 's'} of {batch.jar:.0f} mL"
    signs = "\n".join(f"- {sense}: {what}" for sense, what in SIGNS_OF_SPOILAGE)
    label = f"Ends at {batch.final_words}. Use by {day_words(dates.use_by)}."

    def event(kind, first, last, summary, description, repeat=None):
        from icalendar import Event

        made = Event()
        # the same batch, the same identity: a second import changes and does not double
        made.add("uid", f"{uuid5(NAMESPACE_URL, f'herbcalc:{batch.code}:{batch.start}:{kind}')}")
        made.add("dtstamp", stamp)
        made.add("dtstart", first)
        made.add("dtend", last + _DAY)  # RFC 5545: the end is the first day that is free again
        made.add("summary", summary)
        made.add("description", description)
        made.add("transp", "TRANSPARENT")  # a jar to shake does not make the day a busy one
        if repeat:
            made.add("rrule", repeat)
        return made

    yield event("start", dates.start, dates.start, f"Start: {name}", f"{jars}. {label}")
    first_shake = dates.start + _DAY
    if first_shake <= dates.shake_until:
        yield event("shake", first_shake, first_shake, f"Shake: {name}",
                    f"{jars}, and see that the herb stays under the liquid.",
                    {"freq": "daily", "until": dates.shake_until})
    if dates.strain:
        yield event("strain", *dates.strain, f"Strain and press: {name}",
                    f"From the first of these days to the last (4 to 6 weeks: common practice, no "
                    f"source). {label}")
    for number, day in enumerate(dates.inspections, start=1):
        if day != dates.use_by:
            yield event(f"look {number}", day, day, f"Look and smell: {name}",
                        f"Throw it out when you find\n{signs}")
    yield event("use by", dates.use_by, dates.use_by, f"Use by: {name}",
                f"{batch.keeping.range}: {batch.keeping.deciding} Throw out what is left.")

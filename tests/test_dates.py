"""The calendar file, written by one library (icalendar) and read by another (vobject)."""

import re
from datetime import date, datetime, timedelta, timezone

import pytest
import vobject

import herbcalc as hc
from herbcalc import dates

START = date(2027, 1, 10)
STAMP = datetime(2027, 1, 1, 12, tzinfo=timezone.utc)


def a_batch(**changes):
    return hc.Batch(**dict(dict(herb="fresh peppermint", jar=500, fill=0.75, jars=12, start=START,
                                liquid="spirit 95", final_abv=45), **changes))


def read(*batches):
    text = dates.calendar(*batches, stamp=STAMP).decode("utf-8")
    return text, list(vobject.readOne(text).vevent_list)


def named(events, start):
    return [event for event in events if event.summary.value.startswith(start)]


def test_another_library_finds_every_day_of_the_batch():
    batch = a_batch()
    _, events = read(batch)
    start, = named(events, "Start")
    strain, = named(events, "Strain")
    use_by, = named(events, "Use by")
    looks = named(events, "Look")
    assert start.dtstart.value == START
    assert strain.dtstart.value == START + timedelta(weeks=4)
    assert strain.dtend.value == START + timedelta(weeks=6) + timedelta(days=1)  # first free day
    assert use_by.dtstart.value == batch.keeping.use_by(START)
    assert [e.dtstart.value for e in looks] == [day for day in batch.dates.inspections
                                                if day != batch.dates.use_by]
    assert "fluff" in looks[0].description.value
    assert batch.code in start.summary.value and "12 jars of 500 mL" in start.description.value


def test_the_daily_shake_is_one_event_that_repeats():
    _, events = read(a_batch())
    shake, = named(events, "Shake")
    days = [day.date() for day in shake.getrruleset(addRDate=True)]
    assert days == [START + timedelta(days=n) for n in range(1, 29)]


def test_every_event_is_a_whole_day_without_a_time_zone():
    text, events = read(a_batch())
    for event in events:
        for line in (event.dtstart, event.dtend):
            assert type(line.value) is date
            assert line.params.get("VALUE") == ["DATE"] and "TZID" not in line.params
        assert event.dtend.value > event.dtstart.value
    assert "VTIMEZONE" not in text


def test_the_file_keeps_the_rules_of_rfc_5545():
    """Sections 3.1 (lines of at most 75 octets, CRLF), 3.6 and 3.6.1 (what must be there),
    3.3.10 (UNTIL has the kind of DTSTART), 3.8.2.2 (an end of the same kind)."""
    text, events = read(a_batch(), a_batch(herb="dried thyme", fill=0.5))
    assert text.endswith("END:VCALENDAR\r\n") and "\n" not in text.replace("\r\n", "")
    assert all(len(line.encode()) <= 75 for line in text.split("\r\n"))
    assert text.count("VERSION:2.0\r\n") == 1 and text.count("PRODID:") == 1
    uids = [event.uid.value for event in events]
    assert len(set(uids)) == len(uids) and all(event.dtstamp.value for event in events)
    assert re.findall(r"UNTIL=(\S+?)[;\r]", text) == ["20270207", "20270207"]


def test_the_same_batch_keeps_its_identity_and_another_has_its_own():
    uids = [{event.uid.value for event in read(batch)[1]}
            for batch in (a_batch(), a_batch(jars=3), a_batch(code="other"))]
    assert uids[0] == uids[1] and not uids[0] & uids[2]


def test_a_batch_that_does_not_keep_is_not_strained():
    _, events = read(a_batch(liquid="water", final_abv=None))
    assert not named(events, "Strain") and not named(events, "Look")
    assert named(events, "Use by")[0].dtstart.value == START + timedelta(days=1)
    shake, = named(events, "Shake")
    assert [day.date() for day in shake.getrruleset(addRDate=True)] == [START + timedelta(days=1)]


def test_names_of_any_letters_come_through():
    herb = hc.Herb("Süßholz; große, „wilde“ \\ 甘草", "dried", 0.1, 0.3)
    _, events = read(a_batch(herb=herb, final_abv=None))
    assert herb.name in named(events, "Start")[0].summary.value


def test_the_file_is_written_whole_or_not_at_all(tmp_path):
    path = tmp_path / "batch.ics"
    dates.write_calendar(path, a_batch())
    assert vobject.readOne(path.read_text(encoding="utf-8")).version.value == "2.0"
    with pytest.raises(ValueError, match="could not be written"):
        dates.write_calendar(tmp_path / "nowhere" / "batch.ics", a_batch())
    with pytest.raises(ValueError, match="made of batches"):
        dates.calendar()
    assert [file.name for file in tmp_path.iterdir()] == ["batch.ics"]

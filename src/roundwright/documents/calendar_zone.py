"""A time zone as a calendar file must spell it out: each change of clock around a class."""

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

from icalendar import Timezone, TimezoneDaylight, TimezoneStandard

_SECOND = timedelta(seconds=1)


def zone_component(name: str, starts: datetime, ends: datetime) -> Timezone:
    """Give the VTIMEZONE of a zone, from 1 January of a class's year to the end of the next.

    Parameters
    ----------
    name : str
        IANA name, as 'Europe/London'.
    starts, ends : datetime
        The class, with a time zone.

    Notes
    -----
    The onset of an observance is written in the local time that holds until then
    (`TZOFFSETFROM`), as the standard asks.

    References
    ----------
    RFC 5545, 3.6.5.
    """
    zone = ZoneInfo(name)
    first = datetime(starts.astimezone(UTC).year, 1, 1, tzinfo=UTC)
    last = datetime(ends.astimezone(UTC).year + 2, 1, 1, tzinfo=UTC)
    component = Timezone()
    component.add("tzid", name)
    before = _offset(first, zone)
    component.add_component(_observance(zone, first, before))
    for change in clock_changes(zone, first, last):
        component.add_component(_observance(zone, change, before))
        before = _offset(change, zone)
    return component


def clock_changes(zone: ZoneInfo, first: datetime, last: datetime) -> Iterator[datetime]:
    """Yield the UTC seconds at which a zone's offset changes, after one instant up to another."""
    step = timedelta(days=1)
    at = first
    while at < last:
        after = min(at + step, last)
        if _offset(at, zone) != _offset(after, zone):
            low, high = at, after
            while high - low > _SECOND:
                middle = low + (high - low) // 2
                if _offset(middle, zone) == _offset(low, zone):
                    low = middle
                else:
                    high = middle
            yield high.replace(microsecond=0)
        at = after


def _observance(
    zone: ZoneInfo, onset: datetime, before: timedelta
) -> TimezoneStandard | TimezoneDaylight:
    local = onset.astimezone(zone)
    found = TimezoneDaylight() if local.dst() else TimezoneStandard()
    found.add("dtstart", (onset + before).replace(tzinfo=None))
    found.add("tzoffsetfrom", before)
    found.add("tzoffsetto", _offset(onset, zone))
    found.add("tzname", local.tzname() or "local")
    return found


def _offset(at: datetime, zone: ZoneInfo) -> timedelta:
    return at.astimezone(zone).utcoffset() or timedelta(0)

"""Dates and times of a class: local, in the hall's own zone, and never doubtful."""

from datetime import UTC, date, datetime, time
from zoneinfo import ZoneInfo


def instant_of(on: date, at_local: time, time_zone: str) -> datetime:
    """Give the UTC instant at which a local time falls.

    Raises
    ------
    ValueError
        When the local time does not exist or is double on that day.
    """
    zone = ZoneInfo(time_zone)
    early = datetime.combine(on, at_local, zone).replace(fold=0)
    late = early.replace(fold=1)
    if early.utcoffset() != late.utcoffset():
        back = early.astimezone(UTC).astimezone(zone)
        kind = "double" if back.replace(tzinfo=None) == early.replace(tzinfo=None) else "missing"
        raise ValueError(f"{at_local:%H:%M} on {on} is {kind} in {time_zone}")
    return early.astimezone(UTC)


def written(instant: datetime) -> str:
    """Write an instant as RFC 3339 in UTC with milliseconds and Z."""
    return instant.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def ages_on(birth_year: int, on: date) -> tuple[int, int]:
    """Give the youngest and oldest age possible on a date when only the birth year is known.

    Rules for the young read the first, rules for the old read the second.
    """
    return on.year - birth_year - 1, on.year - birth_year

"""Local times of a class as seconds from its start, and the other way round."""

from datetime import datetime, time, timedelta

from roundwright.plan.core import Core


def seconds_until(core: Core, at: time) -> int:
    """Give a local time as seconds from the class's start; after midnight where it is earlier."""
    booked = core.class_
    start = datetime.combine(booked.starts_on, booked.starts_at_local)
    end = datetime.combine(booked.starts_on, at.replace(tzinfo=None))
    end += timedelta(days=1) if end <= start else timedelta()
    return int((end - start).total_seconds())


def clock_at(core: Core, seconds: int) -> str:
    """Give a second of the class as local time, to the minute and never too early."""
    booked = core.class_
    start = datetime.combine(booked.starts_on, booked.starts_at_local)
    return f"{start + timedelta(minutes=-(-seconds // 60)):%H:%M}"

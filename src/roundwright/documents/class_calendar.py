"""A class as a calendar file (RFC 5545): when and where, no health, no names unless asked."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

from icalendar import Calendar, Event

from roundwright.documents.calendar_zone import zone_component
from roundwright.documents.group_lines import form_words
from roundwright.documents.page_heading import view_of
from roundwright.documents.plan_view import PlanView
from roundwright.foundation.errors import DocumentError
from roundwright.foundation.instants import instant_of
from roundwright.foundation.words import say
from roundwright.hall.hall import Hall
from roundwright.plan.gate.checked_plan import CheckedPlan

MADE_BY = "-//Roundwright//Class plan//EN"


def class_calendar(
    checked: CheckedPlan, hall: Hall, stamped_at: datetime, *, with_names: bool = False
) -> bytes:
    """Write a calendar file with one event: the booked slot of the class.

    The event's UID is the plan's id, its SEQUENCE the plan's revision, so that a changed plan
    takes the place of the older one. Times stand in the hall's time zone, whose changes of
    clock in the class's year are in the file.

    Parameters
    ----------
    checked : CheckedPlan
        A plan that the gate passed in this process; nothing else is written.
    hall : Hall
        Its name; the shown names of its people where they are asked for.
    stamped_at : datetime
        When the file is made, with a time zone; whole seconds are kept.
    with_names : bool
        Whether who takes part stands in the event; it is then marked private.

    Returns
    -------
    bytes
        UTF-8 with CRLF; the same plan, hall and stamp give the same bytes.

    Raises
    ------
    UnsafePlanError
        When given anything that the gate did not seal in this process.
    ChangedMeanwhileError
        When the plan is no longer what it was when the gate passed it.
    DocumentError
        When the class starts at a local time that does not exist or is double.

    References
    ----------
    RFC 5545, Internet Calendaring and Scheduling Core Object Specification, 2009:
    3.6.1 (event), 3.6.5 (time zone), 3.8.4.7 (UID), 3.8.7.4 (sequence).
    """
    view = view_of(checked, hall)
    booked, spec = view.core.class_, view.problem.spec
    zone = ZoneInfo(spec.time_zone)
    try:
        starts = instant_of(booked.starts_on, booked.starts_at_local, spec.time_zone)
    except ValueError as error:
        raise DocumentError(
            f"The calendar file could not be made: {error}.", "Give the class another start."
        ) from error
    ends = starts + timedelta(seconds=booked.slot_s)
    event = Event()
    event.add("uid", view.core.plan_id)
    event.add("sequence", view.core.revision)
    event.add("dtstamp", stamped_at.astimezone(UTC).replace(microsecond=0))
    event.add("dtstart", starts.astimezone(zone))
    event.add("dtend", ends.astimezone(zone))
    event.add("summary", spec.name)
    event.add("location", f"{hall.settings.name}, {view.problem.room.name}")
    event.add("description", _description(view, with_names=with_names))
    event.add("status", "CONFIRMED")
    event.add("class", "PRIVATE" if with_names else "PUBLIC")
    calendar = Calendar()
    calendar.add("prodid", MADE_BY)
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    calendar.add_component(zone_component(spec.time_zone, starts, ends))
    calendar.add_component(event)
    return bytes(calendar.to_ical())


def _description(view: PlanView, *, with_names: bool) -> str:
    lines = [f"{form_words(view)}."]
    if with_names:
        people = ", ".join(view.name(p) for p in view.order)
        lines.append(say("Taking part: {people}.", people=people))
    return "\n".join(lines)

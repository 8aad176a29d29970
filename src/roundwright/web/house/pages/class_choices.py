"""What a form of a class offers: days, formats, rooms, bursts, people; and its faults in words."""

from roundwright.goals.class_wish import ClassFormat
from roundwright.hall.hall import Hall
from roundwright.plan.build_problem import WEEKDAYS
from roundwright.services.keeping.class_form import burst_lines
from roundwright.web.house.visit import Sent, Visit


def class_choices(visit: Visit, hall: Hall, sent: Sent) -> dict[str, object]:
    """Give what `class_fields.html` offers, and what of it is ticked."""
    say, people = visit.say, sent.lists.get("people", ())
    return {
        "weekdays": [(day, say(day.title())) for day in WEEKDAYS],
        "formats": [(f.value, say(f.value)) for f in ClassFormat],
        "rooms": [(room.id, room.name) for room in hall.rooms],
        "bursts": [("", say("none")), *((line.slug, say(line.name)) for line in burst_lines(hall))],
        "leads": [("", say("not said")), *((m.id, m.name) for m in hall.staff)],
        "people": [(p.person_id, p.shown_name) for p in hall.people],
        "everybody": sent.text("everybody") == "yes" or not people,
        "ticked": frozenset(people),
    }

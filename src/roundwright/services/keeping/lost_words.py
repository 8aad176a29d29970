"""A clinician's words do not fall away because a hall is put in the place of another.

A person who is not in the new hall goes with everything said of them; of who is in both, each
word that a clinician gave must still be there, or be followed by a clinician's later one.
"""

from roundwright.foundation.errors import NotAllowedError
from roundwright.hall.hall import Hall
from roundwright.people.clearance_record import ClearanceRecord, GivenBy
from roundwright.people.limitation import SetBy
from roundwright.people.person import Clearance, Person


def lost_words(before: Hall, after: Hall) -> tuple[str, ...]:
    """Give the ids of the people of whom a clinician's word, or 'not today', would fall away."""
    return tuple(
        person.person_id
        for person in before.people
        if (now := after.person(person.person_id)) is not None
        and _loses(before, after, person, now)
    )


def require_no_lost_words(before: Hall, after: Hall) -> None:
    """Refuse a hall in which a clinician's word of somebody would fall away.

    Raises
    ------
    NotAllowedError
        With the ids of the people, and nothing of what was said.
    """
    lost = lost_words(before, after)
    if lost:
        raise NotAllowedError(
            f"A word that a clinician gave, or 'not today', would fall away of: {', '.join(lost)}.",
            "Take it into the files, or have the clinician's later word written down first.",
        )


def _loses(before: Hall, after: Hall, person: Person, now: Person) -> bool:
    rows = after.limitations_of(person.person_id)
    theirs = [r for r in before.limitations_of(person.person_id) if r.set_by is SetBy.CLINICIAN]
    if any(row not in rows for row in theirs):
        return True
    was, record = before.clearance_of(person.person_id), after.clearance_of(person.person_id)
    if was is not None and was.given_by is GivenBy.CLINICIAN and not _follows(record, was):
        return True
    held_back = person.clearance is Clearance.NOT_CLEARED
    return held_back and now.clearance is not Clearance.NOT_CLEARED and not _answers(record)


def _follows(record: ClearanceRecord | None, was: ClearanceRecord) -> bool:
    """Say whether a record is the same word, or a clinician's later one."""
    if record is None or record == was:
        return record is not None
    return record.given_by is GivenBy.CLINICIAN and record.on > was.on


def _answers(record: ClearanceRecord | None) -> bool:
    return record is not None and record.given_by is GivenBy.CLINICIAN

"""What may be changed about health by writing a record: nothing of a clinician's falls away unsaid.

One place for the rules that pages and programs share.
"""

from collections.abc import Sequence
from datetime import date

from pydantic import ValidationError

from roundwright.foundation.errors import NotAllowedError
from roundwright.people.clearance_record import GivenBy
from roundwright.people.health_screen import HealthScreen, screen_outcome
from roundwright.people.limitation import Limitation, SetBy
from roundwright.people.person import Clearance
from roundwright.services.keeping.record_forms import LimitationRows
from roundwright.services.keeping.records import KeptHall, RecordEdit, RecordKey, RecordKind

ASK_CLINICIAN = "A clinician set this: it ends with a clinician's word only."


def health_edits(
    kept: KeptHall, edit: RecordEdit, on: date, *, clinician_says: bool
) -> tuple[RecordEdit, ...]:
    """Give the edits that keep one wish of a record, with what has to be written beside it.

    Parameters
    ----------
    clinician_says : bool
        Whether a clinician has said that what they set has ended.

    Raises
    ------
    NotAllowedError
        A clinician's limit or clearance would fall away, get weaker or be replaced without their
        word, or the word of the hall's list of people would be changed by hand.
    """
    kind, person_id = edit.where.kind, edit.where.key
    if kind is RecordKind.CLEARANCE:
        raise NotAllowedError(
            "This word is the hall's own and is not written from outside.",
            "Write a clearance_record: who said what, on which conditions.",
        )
    if kind is RecordKind.LIMITATIONS and not clinician_says:
        _require_clinicians_rows(kept.hall.limitations_of(person_id), edit)
    if kind is RecordKind.CLEARANCE_RECORD and not clinician_says:
        _require_clinicians_record(kept, edit)
    if kind is RecordKind.SCREEN:
        return (edit, *_held_over(kept, edit, on))
    if kind is RecordKind.CLEARANCE_RECORD:
        return (edit, *_answered(kept, edit))
    return (edit,)


def screen_edits(
    kept: KeptHall, screen: HealthScreen, base_version: int | None, on: date
) -> tuple[RecordEdit, ...]:
    """Give the edits that keep the answers to a health screen; a referral stays standing."""
    where = RecordKey(RecordKind.SCREEN, screen.person_id)
    edit = RecordEdit(where, screen.model_dump(mode="json", by_alias=True), base_version)
    return (edit, *_held_over(kept, edit, on))


def _held_over(kept: KeptHall, edit: RecordEdit, on: date) -> Sequence[RecordEdit]:
    """Hold back whom the old answers held back, until a clinician or a coach answers it."""
    person_id = edit.where.key
    person, old = kept.hall.person(person_id), kept.hall.screen_of(person_id)
    if person is None or old is None or not _held_back(old, on):
        return ()
    try:
        new = None if edit.values is None else HealthScreen.model_validate(edit.values)
    except ValidationError:
        return ()  # the reader of halls refuses the edit with its faults
    if new is not None and _held_back(new, on):
        return ()
    where = RecordKey(RecordKind.CLEARANCE, person_id)
    held = {"clearance": Clearance.NOT_CLEARED.value, "effort_only": person.effort_only}
    return (RecordEdit(where, held, kept.versions.get(where)),)


def _answered(kept: KeptHall, edit: RecordEdit) -> Sequence[RecordEdit]:
    """Take back 'not today' once a clinician has answered it by name; screen and record decide."""
    person, values = kept.hall.person(edit.where.key), edit.values or {}
    answers = values.get("given_by") == GivenBy.CLINICIAN.value and values.get("clearance") in (
        Clearance.CLEARED.value,
        Clearance.MODERATE_ONLY.value,
    )
    if person is None or person.clearance is not Clearance.NOT_CLEARED or not answers:
        return ()
    where = RecordKey(RecordKind.CLEARANCE, edit.where.key)
    open_word = {"clearance": Clearance.UNKNOWN.value, "effort_only": person.effort_only}
    return (RecordEdit(where, open_word, kept.versions.get(where)),)


def _held_back(screen: HealthScreen, on: date) -> bool:
    return screen_outcome(screen, on).clearance is Clearance.NOT_CLEARED


def _require_clinicians_record(kept: KeptHall, edit: RecordEdit) -> None:
    """Refuse to take away a clinician's clearance, or to put another's word in its place."""
    record = kept.hall.clearance_of(edit.where.key)
    if record is None or record.given_by is not GivenBy.CLINICIAN:
        return
    if edit.values is None or edit.values.get("given_by") != GivenBy.CLINICIAN.value:
        raise NotAllowedError(ASK_CLINICIAN)


def _require_clinicians_rows(was: Sequence[Limitation], edit: RecordEdit) -> None:
    theirs = [row for row in was if row.set_by is SetBy.CLINICIAN]
    if not theirs:
        return
    try:
        now = () if edit.values is None else LimitationRows.model_validate(edit.values).limitations
    except ValidationError:
        return  # the reader of halls refuses the edit with its faults
    if any(row not in now for row in theirs):
        raise NotAllowedError(ASK_CLINICIAN)

"""What a hall's records are after some edits, or who changed one of them meanwhile."""

from collections.abc import Mapping, Sequence
from datetime import datetime

from roundwright.foundation.errors import BadInputError, ChangedMeanwhileError
from roundwright.foundation.faults import Fault
from roundwright.services.keeping.hall_records import named, person_of
from roundwright.services.keeping.record_forms import PRIVACY
from roundwright.services.keeping.records import Record, RecordEdit, RecordKey
from roundwright.store.database.record_rows import GoneRecord, KeptRecord

MOST_NAMED = 5
"""So many changed records are named, then a number; our choice."""
_NEXT = "Look at it as it is now, then make the change again."


def edited(
    edits: Sequence[RecordEdit],
    kept: Mapping[RecordKey, KeptRecord],
    gone: Mapping[RecordKey, GoneRecord],
) -> dict[RecordKey, Record]:
    """Give all records after the edits; what is not edited stays.

    Raises
    ------
    ChangedMeanwhileError
        One is not what it was at its `base_version`.
    BadInputError
        One is edited twice.
    """
    wanted = {where: one.record for where, one in kept.items()}
    done: set[RecordKey] = set()
    for edit in edits:
        if edit.where in done:
            fault = Fault(code="name.duplicate", file=named(edit.where), expected="one edit of it")
            raise BadInputError([fault])
        done.add(edit.where)
        before = kept.get(edit.where)
        _require_unchanged(edit, before, gone.get(edit.where))
        if edit.values is None:
            wanted.pop(edit.where, None)
            continue
        wanted[edit.where] = Record(
            where=edit.where,
            place=before.record.place if before else _next_place(edit.where, wanted),
            privacy=PRIVACY[edit.where.kind],
            person_id=person_of(edit.where),
            values=edit.values,
        )
    return wanted


def changed_since(
    base_version: int,
    kept: Mapping[RecordKey, KeptRecord],
    gone: Mapping[RecordKey, GoneRecord],
) -> ChangedMeanwhileError:
    """Say which records of a hall were changed or removed since a version of the whole."""
    every: list[tuple[RecordKey, KeptRecord | GoneRecord]] = [*kept.items(), *gone.items()]
    since = [
        (one.changed_at, f"{named(where)} by the {one.changed_by}")
        for where, one in every
        if one.hall_version > base_version
    ]
    told = [words for _, words in sorted(since, reverse=True)]
    more = f" and {len(told) - MOST_NAMED} more" if len(told) > MOST_NAMED else ""
    listed = f" Changed since: {', '.join(told[:MOST_NAMED])}{more}." if told else ""
    return ChangedMeanwhileError(f"The hall was changed meanwhile.{listed}", _NEXT)


def _require_unchanged(
    edit: RecordEdit, before: KeptRecord | None, gone: GoneRecord | None
) -> None:
    name = named(edit.where)
    if before is None and edit.base_version is not None:
        told = f" by the {gone.changed_by} on {_when(gone.changed_at)}" if gone else ""
        raise ChangedMeanwhileError(f"The {name} was removed{told}.", _NEXT)
    if before is None or before.version == edit.base_version:
        return
    did = "added" if edit.base_version is None else "changed"
    raise ChangedMeanwhileError(
        f"The {name} was {did} meanwhile by the {before.changed_by} on {_when(before.changed_at)}.",
        _NEXT,
    )


def _when(at: str) -> str:
    return datetime.fromisoformat(at).strftime("%Y-%m-%d at %H:%M UTC")


def _next_place(where: RecordKey, wanted: Mapping[RecordKey, Record]) -> int:
    places = [one.place for key, one in wanted.items() if key.kind is where.kind]
    return max(places, default=-1) + 1

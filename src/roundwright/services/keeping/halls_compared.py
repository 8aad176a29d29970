"""What would be other if one hall took the place of another: counts by kind, and no value."""

from collections import Counter
from dataclasses import dataclass

from roundwright.hall.hall import Hall
from roundwright.services.keeping.hall_records import records_of
from roundwright.services.keeping.records import RecordKind


@dataclass(frozen=True, slots=True)
class KindCompared:
    """Of one kind of record: how many are new, changed, gone, and the same."""

    kind: RecordKind
    new: int
    changed: int
    gone: int
    same: int


def halls_compared(before: Hall | None, after: Hall) -> tuple[KindCompared, ...]:
    """Count by kind what differs; without a hall before, everything is new.

    Kinds of which neither hall has anything are left out.
    """
    old = {} if before is None else records_of(before)
    now = records_of(after)
    found: dict[RecordKind, Counter[str]] = {}
    for where in dict.fromkeys((*now, *old)):
        if where not in old:
            word = "new"
        elif where not in now:
            word = "gone"
        else:
            word = "same" if old[where].values == now[where].values else "changed"
        found.setdefault(where.kind, Counter())[word] += 1
    return tuple(
        KindCompared(kind, *(found[kind][word] for word in ("new", "changed", "gone", "same")))
        for kind in RecordKind
        if kind in found
    )

"""Which column of somebody's list of people is which of ours: exact, nearest, or chosen."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from roundwright.foundation.identifiers import nearest_names
from roundwright.hall.people_text import PEOPLE_COLUMNS
from roundwright.services.keeping.record_forms import CLEARANCE_FIELDS

How = Literal["exact", "near", "chosen", "not_used", "not_allowed"]

OTHER_WORDS: Mapping[str, str] = {
    "id": "person_id",
    "name": "shown_name",
    "full name": "shown_name",
    "member": "shown_name",
    "born": "birth_year",
    "year of birth": "birth_year",
    "gender": "sex",
    "mass": "body_mass_kg",
    "mass kg": "body_mass_kg",
    "weight": "body_mass_kg",
    "weight kg": "body_mass_kg",
    "body weight": "body_mass_kg",
    "height": "height_cm",
    "classes": "classes_done",
    "last class": "last_class_on",
    "cleared": "clearance",
    "kit": "own_kit",
    "kit at home": "own_kit",
}
"""Words that lists of people use, in small letters, and the column that they mean. Our choice."""


@dataclass(frozen=True, slots=True)
class ColumnMatch:
    """One column of the list: what it is taken for, how that was found, what else is near.

    `near` is a proposal that the coach sees before anything is kept; `not_allowed` is a column
    of health that whoever asks may not change.
    """

    place: int
    header: str
    column: str | None
    how: How
    nearest: tuple[str, ...] = ()


def matched_columns(
    header: Sequence[str], choice: Mapping[str, str | None], may_health: bool
) -> tuple[ColumnMatch, ...]:
    """Match the columns of a list; a coach's choice wins over everything.

    Parameters
    ----------
    header : sequence of str
        The names in the first line.
    choice : mapping
        Header to column, or None for 'not used'.
    may_health : bool
        Whether whoever asks may change clearance.
    """
    plain = [_plain(name) for name in header]
    wanted: list[tuple[str | None, How]] = [(None, "not_used")] * len(header)
    taken: set[str] = set()

    def take(place: int, column: str | None, how: How) -> None:
        if column is None or column not in taken:
            wanted[place] = (column, how)
        if column is not None:
            taken.add(column)

    for place, name in enumerate(header):
        if name in choice:
            column = choice[name] if choice[name] in PEOPLE_COLUMNS else None
            take(place, column, "chosen")
    for place, name in enumerate(header):
        if name not in choice and plain[place] in _OURS:
            take(place, _OURS[plain[place]], "exact")
    near = [_near(name) for name in plain]
    for place, name in enumerate(header):
        if name not in choice and wanted[place][0] is None:
            free = [column for column in near[place] if column not in taken]
            if free:
                take(place, free[0], "near")
    found: list[ColumnMatch] = []
    for place, name in enumerate(header):
        column, how = wanted[place]
        if column in CLEARANCE_FIELDS and not may_health:
            column, how = None, "not_allowed"
        found.append(ColumnMatch(place, name, column, how, near[place]))
    return tuple(found)


def _plain(name: str) -> str:
    letters = "".join(c if c.isalnum() else " " for c in name.casefold())
    return " ".join(letters.split())


_OURS: Mapping[str, str] = {_plain(column): column for column in PEOPLE_COLUMNS}


def _near(plain: str) -> tuple[str, ...]:
    if plain in OTHER_WORDS:
        return (OTHER_WORDS[plain],)
    words = {**_OURS, **OTHER_WORDS}
    found = [words[near] for near in nearest_names(plain, words)]
    return tuple(dict.fromkeys(found))

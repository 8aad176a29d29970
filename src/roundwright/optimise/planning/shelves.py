"""What people may do, remembered from one planning to the next: a class asked again starts at once.

Options and ways hang on a person's facts, on the exercise and how it is met, and on kit, rules,
prices and library. They are remembered by digests of all of these, so that whatever differs is
made anew. Nobody's id is part of what is remembered.
"""

from collections import OrderedDict
from collections.abc import Mapping
from dataclasses import dataclass, field
from hashlib import sha256

from roundwright.optimise.options import Option, Shelf, ShelfKey
from roundwright.optimise.planning.person_ways import WayKey, Ways
from roundwright.plan.planning_problem import PlanningProblem
from roundwright.plan.problem import Problem
from roundwright.plan.recent import Recent

MOST_PEOPLE = 200
"""People of whom it is remembered what they may do, each in one setting; our choice."""
MOST_ENTRIES = 1_500
"""Places and exercises that are remembered of one of them; our choice."""

_APART = {
    "class_id": "",
    "name": "",
    "starts_on": "2000-01-01",
    "starts_at_local": "00:00",
    "exercises": (),
    "keep": (),
    "format": "together",
    "groups": None,
    "rounds": 1,
    "slot_s": 0,
    "change_s": 0,
    "rest_s": 0,
    "chosen_by": "coach",
    "length_by": "coach",
    "work_rest": None,
    "chance_on_time_bp": 0,
}
"""Fields of a class that no option hangs on, or only by what it is looked up by."""

Key = tuple[bytes, bytes]
"""Digests of the setting and of the person."""


@dataclass(frozen=True, slots=True)
class Tables:
    """Options and ways of everybody in one planning; the search fills them."""

    options: Shelf = field(default_factory=dict)
    ways: dict[WayKey, Ways] = field(default_factory=dict)


@dataclass(slots=True)
class _OfOne:
    """What one person may do in one setting, without their id."""

    options: dict[tuple[object, ...], tuple[Option, ...]] = field(default_factory=dict)
    ways: dict[tuple[object, ...], Ways] = field(default_factory=dict)


class Shelves:
    """Remembers the tables of the last plannings, person by person; for one thread."""

    def __init__(self, most: int = MOST_PEOPLE) -> None:
        self._most = most
        self._kept: OrderedDict[Key, _OfOne] = OrderedDict()

    def __len__(self) -> int:
        """Give how many people are remembered, each in one setting."""
        return len(self._kept)

    def opened(self, planning: PlanningProblem) -> Tables:
        """Give the tables of a planning with all that is remembered of its people."""
        tables = Tables()
        for person_id, key in _keys(planning.base).items():
            known = self._kept.get(key)
            if known is None:
                continue
            self._kept.move_to_end(key)
            for rest, options in known.options.items():
                tables.options[_shelf_key(person_id, rest)] = options
            for rest, ways in known.ways.items():
                tables.ways[_way_key(person_id, rest)] = ways
        return tables

    def keep(self, planning: PlanningProblem, tables: Tables) -> None:
        """Remember the tables of a planning; those unused for longest are forgotten.

        What a class keeps for somebody at a place is not remembered: it names a person.
        """
        keys = _keys(planning.base)
        for key in keys.values():
            self._kept.setdefault(key, _OfOne())
            self._kept.move_to_end(key)
        for (person_id, *rest), options in tables.options.items():
            kept = self._kept[keys[person_id]].options
            if not rest[-1] and len(kept) < MOST_ENTRIES:
                kept[tuple(rest)] = options
        for (person_id, *more), ways in tables.ways.items():
            of_one = self._kept[keys[person_id]].ways
            if len(of_one) < MOST_ENTRIES:
                of_one[tuple(more)] = ways
        while len(self._kept) > self._most:
            self._kept.popitem(last=False)


def _keys(base: Problem) -> Mapping[str, Key]:
    """Give the key of each person of a problem."""
    apart = {"spec": base.spec.model_copy(update=_APART), "people": {}, "recent": Recent()}
    setting = _digest(base.model_copy(update=apart).model_dump_json(warnings=False))
    return {p: (setting, _digest(one.model_dump_json())) for p, one in base.people.items()}


def _digest(text: str) -> bytes:
    return sha256(text.encode()).digest()


def _shelf_key(person_id: str, rest: tuple[object, ...]) -> ShelfKey:
    return (person_id, *rest)  # type: ignore[return-value]


def _way_key(person_id: str, rest: tuple[object, ...]) -> WayKey:
    return (person_id, *rest)  # type: ignore[return-value]

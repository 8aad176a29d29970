"""Whether the places of a class that is to be completed make sense: how many, and who stands where.

A class with more `places` than exercises is completed by the tool. A `position` holds one
exercise at its place; the others may stand anywhere.
"""

import re
from collections.abc import Mapping, Sequence

from roundwright.foundation.faults import Fault
from roundwright.foundation.toml_lines import Path
from roundwright.hall.file_text import TomlText

ANY_ROUNDS = (3, 2, 4)
"""What `rounds = "any"` stands for, the asked number first; common practice, no source."""
MOST_ROUNDS = 10
MOST_NAMED = 7
"""The asked number of rounds and six others."""
ROUNDS_WORDS = 'a number, a list such as [3, 2], a range such as "2 to 4", or "any"; 1 to 10 rounds'


def is_completed(toml: TomlText) -> bool:
    """Say whether the tool is to complete this class: more places than exercises, or positions."""
    places = toml.values.get("places")
    positions = any("position" in row for _, row in toml.tables("exercise"))
    return positions or (_is_number(places) and places != _given(toml))


def exercises_by_place(toml: TomlText) -> dict[int, str]:
    """Give the exercises that stand at a place for certain."""
    rows = [(n, row, str(row.get("exercise", ""))) for n, row in toml.tables("exercise")]
    if not is_completed(toml):
        return {n + 1: name for n, _, name in rows}
    found: dict[int, str] = {}
    for _, row, name in rows:
        position = row.get("position")
        if isinstance(position, int) and _is_number(position):
            found.setdefault(position, name)
    return found


def kept_places_words(toml: TomlText, standing: Mapping[int, str]) -> str:
    """Say at which places something can be kept for a person."""
    if not is_completed(toml):
        return f"1 to {len(standing)}"
    places = ", ".join(str(k) for k in sorted(standing))
    return f"the position of an exercise: {places}" if places else "an exercise with its position"


def completing_faults(toml: TomlText) -> list[Fault]:
    """Give the faults of places, positions and rounds that may be chosen."""
    return [*_places(toml), *_positions(toml), *_twice(toml), *_rounds(toml)]


def _places(toml: TomlText) -> list[Fault]:
    places, given = toml.values.get("places"), _given(toml)
    if not isinstance(places, int) or not _is_number(places) or not 1 <= places < given:
        return []
    expected = f"at least {given}, as so many exercises are given"
    return [toml.fault("field.range", ("places",), places, expected)]


def _positions(toml: TomlText) -> list[Fault]:
    places = toml.values.get("places")
    taken: dict[int, str] = {}
    faults = []
    for n, row in toml.tables("exercise"):
        position = row.get("position")
        if not isinstance(position, int) or not _is_number(position) or position < 1:
            continue
        path: Path = ("exercise", n, "position")
        if toml.values.get("order") == "free":
            expected = 'no position, as order = "free" gives every place up'
            faults.append(toml.fault("field.value", path, position, expected))
        elif isinstance(places, int) and _is_number(places) and position > max(places, 1):
            faults.append(toml.fault("field.range", path, position, f"1 to {places}"))
        elif position in taken:
            expected = f"another place than that of {taken[position]}"
            faults.append(toml.fault("name.duplicate", path, position, expected))
        taken.setdefault(position, str(row.get("exercise", "")))
    if taken and "places" not in toml.values:
        expected = "how many exercises a round has, as a position is given"
        faults.append(toml.fault("field.missing", ("places",), expected=expected))
    return faults


def _twice(toml: TomlText) -> list[Fault]:
    """Find exercises given twice in a class that is completed: there each stands once."""
    if not is_completed(toml):
        return []
    seen: set[str] = set()
    faults = []
    for n, row in toml.tables("exercise"):
        name = row.get("exercise")
        if isinstance(name, str) and name in seen:
            faults.append(toml.fault("name.duplicate", ("exercise", n, "exercise"), name))
        seen.add(str(name))
    return faults


def _rounds(toml: TomlText) -> list[Fault]:
    choice, path = toml.values.get("rounds_choice"), "rounds_choice"
    said = toml.values.get("rounds")
    if isinstance(said, str | list):
        if choice:
            expected = "one number, as rounds_choice gives the others"
            return [toml.fault("field.value", ("rounds",), said, expected)]
        choice, path = spelt_rounds(said), "rounds"
        if choice is None:
            return [toml.fault("field.value", ("rounds",), said, ROUNDS_WORDS)]
    if not isinstance(choice, list):
        return []
    return [
        toml.fault("name.duplicate", (path, n), rounds)
        for n, rounds in enumerate(choice)
        if rounds in choice[:n]
    ]


def spelt_rounds(said: str | Sequence[object]) -> list[int] | None:
    """Give the numbers of rounds that a file's `rounds` names, the asked one first.

    Parameters
    ----------
    said : str or list
        `any`, a range such as `2 to 4`, or a list of numbers.

    Returns
    -------
    list of int or None
        None when it names no rounds.
    """
    if said == "any":
        return list(ANY_ROUNDS)
    numbers: list[int] = []
    if isinstance(said, str):
        ends = re.fullmatch(r"(\d{1,2}) to (\d{1,2})", said, re.ASCII)
        numbers += range(int(ends[1]), int(ends[2]) + 1) if ends else ()
    else:
        numbers += [n for n in said if isinstance(n, int) and _is_number(n)]
        if len(numbers) < len(said):
            return None
    in_range = all(1 <= n <= MOST_ROUNDS for n in numbers)
    return numbers if in_range and 0 < len(numbers) <= MOST_NAMED else None


def with_rounds_spelt(values: Mapping[str, object]) -> Mapping[str, object]:
    """Give a class's values with `rounds` as the asked number and `rounds_choice` as the others."""
    said = values.get("rounds")
    if not isinstance(said, str | list) or values.get("rounds_choice"):
        return values
    spelt = spelt_rounds(said)
    return values if spelt is None else {**values, "rounds": spelt[0], "rounds_choice": spelt[1:]}


def _given(toml: TomlText) -> int:
    return len(toml.tables("exercise"))


def _is_number(value: object) -> bool:
    return isinstance(value, int) and not isinstance(value, bool)

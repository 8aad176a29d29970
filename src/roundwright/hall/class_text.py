"""What classes/<slug>.toml holds, and whether every name and count in it makes sense here."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, time

from roundwright.body.anatomy import Side
from roundwright.foundation.faults import Fault
from roundwright.foundation.instants import instant_of
from roundwright.foundation.quantities import mass_g
from roundwright.foundation.toml_lines import Path
from roundwright.goals.class_wish import ClassWish, CountUnit, Pace, WorkRestWish
from roundwright.hall.class_places import (
    completing_faults,
    exercises_by_place,
    is_completed,
    kept_places_words,
    with_rounds_spelt,
)
from roundwright.hall.file_text import TomlText, unknown_name
from roundwright.hall.hall import MOST_PEOPLE
from roundwright.hall.model_faults import model_of
from roundwright.library.catalogue import Catalogue
from roundwright.library.combination import Combination

TIMED = (CountUnit.SECONDS, CountUnit.SECONDS_PER_SIDE)
A_SIDE = (CountUnit.REPS_PER_SIDE, CountUnit.SECONDS_PER_SIDE)


@dataclass(frozen=True)
class ClassSurroundings:
    """What a class may name. None where that file could not be read: then it is not judged."""

    rooms: frozenset[str] | None
    people: frozenset[str] | None
    masses_g: frozenset[int] | None
    catalogue: Catalogue | None
    time_zone: str | None


def read_class(
    toml: TomlText, around: ClassSurroundings
) -> tuple[ClassWish | None, tuple[Fault, ...]]:
    """Read one class, with every fault in it."""
    own = [
        *_day_and_time(toml, around),
        *_pace(toml),
        *_room(toml, around),
        *_people(toml, around),
        *_exercises(toml, around),
        *completing_faults(toml),
        *_burst(toml, around),
        *_keep(toml, around),
        *_ban(toml, around),
    ]
    wish, found = model_of(ClassWish, with_rounds_spelt(toml.values), toml)
    said = {fault.field for fault in own}
    own += [
        fault
        for fault in found
        if fault.field and not fault.field.startswith("people") and fault.field not in said
    ]
    if not own and found:
        own += found
    return (None if own else wish), tuple(own)


def _day_and_time(toml: TomlText, around: ClassSurroundings) -> list[Fault]:
    values = toml.values
    faults = []
    if ("on" in values) == ("weekday" in values):
        expected = "either on = a date or weekday = its name, and not both"
        faults.append(toml.fault("field.missing", ("on",), expected=expected))
    if "on" in values and _day(values["on"]) is None:
        expected = "a date such as 2026-03-31"
        faults.append(toml.fault("field.value", ("on",), values["on"], expected))
    start = _time(values["start"]) if "start" in values else None
    if "start" in values and start is None:
        faults.append(
            toml.fault("field.value", ("start",), values["start"], "a local time such as 18:30")
        )
    day = _day(values.get("on"))
    if day is not None and start is not None and around.time_zone is not None:
        try:
            instant_of(day, start, around.time_zone)
        except ValueError as error:
            faults.append(toml.fault("field.time", ("start",), error))
    return faults


def _day(value: object) -> date | None:
    """Give a date written as a TOML date or as text; a point in time is not one."""
    if isinstance(value, date) and not isinstance(value, time) and type(value) is date:
        return value
    try:
        return date.fromisoformat(value) if isinstance(value, str) and len(value) == 10 else None
    except ValueError:
        return None


def _time(value: object) -> time | None:
    """Give a local time written as a TOML time or as text, without a zone."""
    if isinstance(value, time):
        return value
    try:
        found = time.fromisoformat(value) if isinstance(value, str) and ":" in value else None
    except ValueError:
        return None
    return found if found is not None and found.tzinfo is None else None


def _pace(toml: TomlText) -> list[Fault]:
    if toml.values.get("pace") == Pace.TIMED and "work" not in toml.values:
        expected = "the seconds of one exercise, as pace is timed"
        return [toml.fault("field.missing", ("work",), expected=expected)]
    chosen = toml.values.get("work_rest", WorkRestWish.OWN)
    if toml.values.get("pace") != Pace.TIMED and chosen in tuple(WorkRestWish)[1:]:
        expected = 'own, as the tool chooses work and rest only where pace = "timed"'
        return [toml.fault("field.value", ("work_rest",), chosen, expected)]
    return []


def _room(toml: TomlText, around: ClassSurroundings) -> list[Fault]:
    room = toml.values.get("room")
    if not isinstance(room, str) or around.rooms is None or room in around.rooms:
        return []
    return [unknown_name(toml, ("room",), room, around.rooms, "a room of hall.toml")]


def _people(toml: TomlText, around: ClassSurroundings) -> list[Fault]:
    given = toml.values.get("people", "all")
    known = around.people
    path: Path = ("people",)
    if given == "all":
        return [] if known is None else _how_many(toml, len(known))
    if not isinstance(given, list) or any(not isinstance(name, str) for name in given):
        return [toml.fault("field.value", path, given, '"all" or a list of person ids')]
    faults = _how_many(toml, len(given))
    for place, name in enumerate(given):
        if name in given[:place]:
            faults.append(toml.fault("name.duplicate", (*path, place), name))
        elif known is not None and name not in known:
            faults.append(
                unknown_name(toml, (*path, place), name, known, "a person_id of people.csv")
            )
    return faults


def _how_many(toml: TomlText, count: int) -> list[Fault]:
    if count == 0:
        return [toml.fault("people.none", ("people",), expected=f"1 to {MOST_PEOPLE}")]
    if count > MOST_PEOPLE:
        return [
            toml.fault("people.too_many", ("people",), f"{count} people", f"1 to {MOST_PEOPLE}")
        ]
    return []


def _exercises(toml: TomlText, around: ClassSurroundings) -> list[Fault]:
    if not toml.values.get("exercise") and toml.values.get("places"):
        return []
    if not toml.values.get("exercise"):
        return [toml.fault("field.missing", ("exercise",), expected="at least one [[exercise]]")]
    faults = []
    for place, row in toml.tables("exercise"):
        path: Path = ("exercise", place)
        name = row.get("exercise")
        if isinstance(name, str) and around.catalogue is not None:
            faults += _exercise_name(toml, (*path, "exercise"), name, around.catalogue)
        faults += _count(toml, path, row, around.catalogue)
    return faults


def _exercise_name(toml: TomlText, path: Path, name: str, catalogue: Catalogue) -> list[Fault]:
    if catalogue.has_exercise(name):
        return []
    expected = "a progression line or combination of the library"
    lines = tuple(s for s, line in catalogue.lines.items() if name in line.versions)
    if lines:
        remedy = "This is a version; name the progression line that it belongs to."
        return [toml.fault("name.unknown", path, name, expected, lines, remedy)]
    known = frozenset(catalogue.lines) | frozenset(catalogue.combinations)
    return [unknown_name(toml, path, name, known, expected)]


def _count(
    toml: TomlText, path: Path, row: Mapping[str, object], catalogue: Catalogue | None
) -> list[Fault]:
    timed = toml.values.get("pace") == Pace.TIMED
    count = row.get("count")
    if count is None:
        expected = 'count = { value = 12, unit = "reps" }, as the pace is counted'
        return (
            []
            if timed or is_completed(toml)
            else [toml.fault("field.missing", (*path, "count"), expected=expected)]
        )
    unit = count.get("unit") if isinstance(count, dict) else None
    if not isinstance(unit, str) or unit not in tuple(CountUnit):
        return []
    where: Path = (*path, "count", "unit")
    if timed and unit not in TIMED:
        expected = "seconds or seconds_per_side, as the pace is timed"
        return [toml.fault("field.value", where, unit, expected)]
    name = row.get("exercise")
    combination = catalogue.combinations.get(str(name)) if catalogue else None
    if combination is None:
        return []
    if unit == CountUnit.REPS_ALTERNATING:
        expected = "reps, reps_per_side, seconds or seconds_per_side for a combination"
        return [toml.fault("library.sides", where, unit, expected)]
    if unit in A_SIDE and all(part.side is Side.BOTH for part in combination.parts):
        expected = "reps or seconds, as no part of this combination has a side"
        return [toml.fault("library.sides", where, unit, expected)]
    if unit not in A_SIDE and not _is_even(combination):
        expected = "reps_per_side or seconds_per_side, as left and right differ within one pass"
        return [toml.fault("library.sides", where, unit, expected)]
    return []


def _is_even(combination: Combination) -> bool:
    """Say whether one pass does as much on the left as on the right, line by line."""
    times: Counter[tuple[str, Side]] = Counter()
    for part in combination.parts:
        times[part.line, part.side] += part.times
    return all(times[line, Side.LEFT] == times[line, Side.RIGHT] for line, _ in list(times))


def _burst(toml: TomlText, around: ClassSurroundings) -> list[Fault]:
    burst = toml.values.get("burst")
    line = burst.get("line") if isinstance(burst, dict) else None
    if not isinstance(line, str) or around.catalogue is None or line in around.catalogue.lines:
        return []
    known = frozenset(around.catalogue.lines)
    return [unknown_name(toml, ("burst", "line"), line, known, "a progression line")]


def _keep(toml: TomlText, around: ClassSurroundings) -> list[Fault]:
    given = toml.values.get("people", "all")
    people = frozenset(n for n in given if isinstance(n, str)) if isinstance(given, list) else None
    known = around.people if people is None else people
    standing = exercises_by_place(toml)
    faults = []
    for place, row in toml.tables("keep"):
        path: Path = ("keep", place)
        person, position, version = row.get("person"), row.get("position"), row.get("version")
        if isinstance(person, str) and known is not None and person not in known:
            expected = "a person of this class"
            faults.append(unknown_name(toml, (*path, "person"), person, known, expected))
        exercise = None
        if isinstance(position, int) and position >= 1:
            exercise = standing.get(position)
            if exercise is None:
                expected = kept_places_words(toml, standing)
                faults.append(toml.fault("field.range", (*path, "position"), position, expected))
        if isinstance(version, str):
            faults += _kept_version(toml, (*path, "version"), version, exercise, around.catalogue)
        faults += _kept_mass(toml, (*path, "mass"), row.get("mass"), around.masses_g)
    return faults


def _kept_version(
    toml: TomlText, path: Path, version: str, exercise: str | None, catalogue: Catalogue | None
) -> list[Fault]:
    if catalogue is None or (exercise is not None and not catalogue.has_exercise(exercise)):
        return []
    known = frozenset(catalogue.movements)
    if exercise is not None:
        lines = catalogue.lines_of_exercise(exercise)
        known = frozenset(slug for line in lines for slug in catalogue.lines[line].versions)
    if version in known:
        return []
    expected = f"a version of {exercise}" if exercise else "a version of the library"
    return [unknown_name(toml, path, version, known, expected)]


def _kept_mass(
    toml: TomlText, path: Path, value: object, masses_g: frozenset[int] | None
) -> list[Fault]:
    if isinstance(value, bool) or not isinstance(value, int | float | str) or masses_g is None:
        return []
    try:
        grams = mass_g(value)
    except (ValueError, ArithmeticError):
        return []  # the model says what is wrong with it
    if grams <= 0 or grams in masses_g:
        return []
    expected = "a mass of kit.toml: " + ", ".join(f"{m / 1000:g} kg" for m in sorted(masses_g))
    return [toml.fault("field.value", path, value, expected)]


def _ban(toml: TomlText, around: ClassSurroundings) -> list[Fault]:
    ban = toml.values.get("ban", [])
    if not isinstance(ban, list) or around.catalogue is None:
        return []
    known = frozenset(around.catalogue.movements) | frozenset(around.catalogue.lines)
    expected = "a version or progression line"
    return [
        unknown_name(toml, ("ban", place), name, known, expected)
        for place, name in enumerate(ban)
        if isinstance(name, str) and name not in known
    ]

"""How cells are read: each is a version at the person's own count, or a note says why not."""

from collections.abc import Callable

from roundwright.goals.class_wish import Count, CountUnit, KeptCell
from roundwright.library.vocabulary import KitKind
from roundwright.plan.core import Cell, CellState
from roundwright.plan.gate.people_limits import pace_factor
from roundwright.plan.gate.reading import Note, Reading, Work
from roundwright.plan.gate.recount import (
    A_SIDE,
    Listing,
    combination_listing,
    count_of_version,
    known_versions,
    line_listing,
    lines_of,
    passes_of,
    seconds_of,
    whole,
    within_landings,
)
from roundwright.plan.problem import Problem, ProblemPerson

MOST_TIMES = 1000
MOST_MASS_G = 1_000_000


def read_cells(reading: Reading) -> None:
    """Read every cell, then what is missing, then what the coach wanted kept."""
    _read_all(reading)
    _read_keep(reading)


def _read_all(reading: Reading) -> None:
    seen: set[tuple[str, int, int]] = set()
    counts = {
        p: reading.own_counts(p, dose.dose_bp, len(rounds))
        for p, rounds in reading.rounds.items()
        for dose in (reading.doses[p],)
    }
    for cell in reading.core.cells:
        who = (cell.person_id,)
        if cell.person_id not in reading.problem.people:
            reading.notes.append(Note("unknown_person"))
            continue
        if cell.position not in reading.positions():
            reading.notes.append(Note("position", who))
            continue
        done = reading.rounds.get(cell.person_id)
        if done is None:
            reading.notes.append(Note("cell_without_dose", who, (cell.position,)))
            continue
        rounds = done if cell.round == 0 else tuple(r for r in done if r == cell.round)
        if not rounds:
            reading.notes.append(Note("round", who, (cell.position,)))
            continue
        keys = {(cell.person_id, cell.position, r) for r in rounds}
        if keys & seen:
            reading.notes.append(Note("two_cells", who, (cell.position,), cell.round))
        seen |= keys
        _read_cell(reading, cell, rounds, counts[cell.person_id])
    for person_id, rounds in reading.rounds.items():
        for position in reading.positions():
            if any((person_id, position, r) not in seen for r in rounds):
                reading.notes.append(Note("no_cell", (person_id,), (position,)))


def _read_cell(
    reading: Reading, cell: Cell, rounds: tuple[int, ...], counts: dict[int, Count]
) -> None:
    who, where = (cell.person_id,), (cell.position,)

    def note(what: str) -> None:
        reading.notes.append(Note(what, who, where, cell.round))

    if cell.state is CellState.SIT_OUT:
        if cell.steps or cell.count or cell.unit_mass_g or cell.units or cell.kit:
            note("sit_out_with_work")
        reading.sit_outs.append(cell)
        return
    problem = reading.problem
    place = next((e for e in problem.spec.exercises if e.position == cell.position), None)
    exercise_id = _exercise_of(reading, cell, place.exercise_id if place else "", note)
    movements = tuple(problem.library.movements.get(s.movement_id) for s in cell.steps)
    known = tuple(m for m in movements if m is not None)
    if not known or len(known) != len(movements):
        note("unknown_movement")
        return
    if cell.count is None or not 0 < cell.count.value <= 100_000:
        note("no_count")
        return
    if any(not 0 < s.times <= MOST_TIMES for s in cell.steps):
        note("steps")
        return
    if not 0 <= cell.unit_mass_g <= MOST_MASS_G or not 0 <= cell.units <= 2:
        note("mass")
        return
    person = problem.people[cell.person_id]
    combination = problem.library.combinations.get(exercise_id)
    listing = Listing(cell.steps, known, combination)
    wish = counts.get(cell.position)
    if wish is not None:
        whole_wish = whole(wish) if cell.state is CellState.SUBSTITUTE else wish
        _compare(problem, cell, listing, exercise_id, whole_wish, note)
    _check_kit_named(listing, cell, note)
    pace = pace_factor(person, problem.rules)
    done = reading.rounds[cell.person_id]
    reading.works.append(
        Work(
            cell.person_id,
            person,
            cell.position,
            reading.interval_of(cell.person_id, cell.position),
            rounds,
            cell,
            exercise_id,
            listing,
            cell.count,
            passes_of(listing, cell.count),
            seconds_of(listing, cell.count, pace, problem.spec.side_change_s),
            done[-1],
            len(done),
        )
    )


def _exercise_of(reading: Reading, cell: Cell, planned: str, note: Callable[[str], None]) -> str:
    if cell.state is CellState.DO:
        if cell.exercise_id not in (None, planned):
            note("other_exercise")
        return planned
    named = cell.exercise_id or ""
    if reading.coach_gives(cell) and _can_be_read(reading, named):
        return named
    if named not in reading.problem.substitutes or named in lines_of(reading.library, planned):
        note("not_a_substitute")
    return named


def _can_be_read(reading: Reading, exercise_id: str) -> bool:
    return exercise_id in reading.library.lines or exercise_id in reading.library.combinations


def _compare(
    problem: Problem,
    cell: Cell,
    listing: Listing,
    exercise_id: str,
    wish: Count,
    note: Callable[[str], None],
) -> None:
    """Compare steps and count with the versions of the exercise at the person's own count."""
    person = problem.people[cell.person_id]
    if listing.combination is not None:
        expected = _as_combination(problem, listing, wish.unit, person)
        count = wish
    else:
        versions = known_versions(problem.library, exercise_id)
        movement = next((m for m in versions if m.slug == cell.steps[0].movement_id), None)
        expected = line_listing(movement, person) if movement else None
        done = listing.movements[0]
        count = count_of_version(wish, done.laterality, person.unused_side_of(done.limb))
    count = within_landings(listing, count, problem.rules.most_landings_a_set)
    if expected is None or expected.steps != cell.steps:
        note("steps")
    elif cell.count is not None and (cell.count.value, cell.count.unit) != (
        count.value,
        count.unit,
    ):
        note("count")


def _as_combination(
    problem: Problem, listing: Listing, unit: CountUnit, person: ProblemPerson
) -> Listing | None:
    """Give the listing that the movements of a cell should have, one version a part."""
    combination = listing.combination
    if combination is None:
        return None
    parts = combination.parts
    movements = listing.movements[: len(parts)]
    if len(listing.steps) != len(parts) * (2 if unit in A_SIDE else 1):
        return None
    for part, movement in zip(parts, movements, strict=True):
        if movement.slug not in {m.slug for m in known_versions(problem.library, part.line)}:
            return None
        if combination.load == "none" and movement.dumbbells_lifted:
            return None
    return combination_listing(combination, movements, unit, person.first_side)


def _check_kit_named(listing: Listing, cell: Cell, note: Callable[[str], None]) -> None:
    """Compare dumbbells and items with what the steps use; fitness is a rule of its own."""
    needed = max(m.dumbbells_needed for m in listing.movements)
    if cell.units != needed or (cell.unit_mass_g > 0) != (needed > 0):
        note("dumbbells")
    if len({k.item_id for k in cell.kit}) != len(cell.kit) or any(k.units < 1 for k in cell.kit):
        note("kit")
        return
    kinds = {
        need.item: max(
            n.units for m in listing.movements for n in m.other_kit if n.item is need.item
        )
        for m in listing.movements
        for need in m.other_kit
        if need.item is not KitKind.WALL
    }
    if len(cell.kit) > len(kinds) or sum(k.units for k in cell.kit) > sum(kinds.values()):
        note("kit")


def _read_keep(reading: Reading) -> None:
    """Note what the coach wanted kept and is something else; who rests there is told apart."""
    for kept in reading.problem.spec.keep:
        if kept.person not in reading.rounds:
            continue
        place = (kept.person, kept.position)
        mine = [w for w in reading.works if (w.person_id, w.position) == place]
        resting = [c for c in reading.sit_outs if (c.person_id, c.position) == place]
        if kept.rests:
            holds = not mine and any(c.kept for c in resting)
        elif resting and not mine:
            holds = True
            reading.unheld.append(place)
        else:
            holds = any(_is_held(kept, w) for w in mine)
        if not holds:
            reading.notes.append(Note("kept", (kept.person,), (kept.position,)))


def _is_held(kept: KeptCell, work: Work) -> bool:
    if not work.cell.kept:
        return False
    if kept.instead is not None and (
        work.cell.state is not CellState.SUBSTITUTE or work.exercise_id != kept.instead
    ):
        return False
    return (kept.version is None or kept.version in work.listing.signature) and (
        kept.mass_g is None or work.cell.unit_mass_g == kept.mass_g
    )

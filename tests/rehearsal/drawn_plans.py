"""Drawn plans of all four formats, small enough to be simulated event by event.

Together and pairs are fitted to drawn halls. Stations and staggered groups are made from plans
fitted together: the same cells, people dealt into groups, the timeline of the definition
written out here, and exactly as much kit as the fullest window takes.
"""

from collections.abc import Iterator, Sequence
from functools import cache

from roundwright.foundation.seeds import generator
from roundwright.goals.class_wish import ClassFormat
from roundwright.kit.inventory import Dumbbells, Inventory
from roundwright.library.catalogue import Catalogue
from roundwright.library.vocabulary import Demand
from roundwright.optimise.fit import fit
from roundwright.plan.core import Cell, CellState, Core, Window, WindowKind
from roundwright.plan.gate.people_limits import pace_factor
from roundwright.plan.gate.recount import Listing, seconds_of
from roundwright.plan.problem import Problem
from tests.rehearsal.kit_simulation import most_used
from tests.support.random_halls import a_hasty_hall, a_middling_hall, a_tiny_hall

PLAN_ID = "00000000-0000-4000-8000-000000000001"
Plan = tuple[Core, Problem]


@cache
def fitted_plans() -> tuple[Plan, ...]:
    """Fit drawn halls: together and in pairs, 2 to 10 people."""
    halls = [a_tiny_hall(seed) for seed in range(130)]
    halls += [a_hasty_hall(seed) for seed in range(40)]
    halls += [a_middling_hall(seed, most_people=10) for seed in range(24)]
    halls += [
        a_middling_hall(seed, most_people=7, form=ClassFormat.PAIRS) for seed in range(50, 60)
    ]
    found = []
    for problem in halls:
        core = fit(problem, seed=1, plan_id=PLAN_ID).core
        if core is not None:
            found.append((core, problem))
    return tuple(found)


@cache
def rotating_plans() -> tuple[Plan, ...]:
    """Deal the people of plans fitted together into staggered groups and stations."""
    halls = [a_middling_hall(s, most_people=9, form=ClassFormat.TOGETHER) for s in range(60, 140)]
    found: list[Plan] = []
    for seed, problem in enumerate(halls):
        core = fit(problem, seed=1, plan_id=PLAN_ID).core
        if core is None:
            continue
        rng = generator(seed, "dealt into groups")
        people = [core.people[int(i)].person_id for i in rng.permutation(len(core.people))]
        places = core.class_.positions
        for form in (ClassFormat.STAGGERED, ClassFormat.STATIONS):
            number = int(rng.integers(2, 4)) if form is ClassFormat.STAGGERED else places
            number = min(number, len(people), places)
            offsets = list(range(number))
            if form is ClassFormat.STAGGERED:
                offsets[1:] = sorted(int(o) + 1 for o in rng.permutation(places - 1)[: number - 1])
            groups = tuple(tuple(sorted(people[g::number])) for g in range(number))
            found.append(_rotating(core, problem, form, groups, offsets))
    return tuple(found)


def _rotating(
    core: Core,
    problem: Problem,
    form: ClassFormat,
    groups: tuple[tuple[str, ...], ...],
    offsets: Sequence[int],
) -> Plan:
    booked = core.class_.model_copy(update={"format": form, "groups": groups})
    core = core.model_copy(update={"class_": booked, "handovers": ()})
    core = core.model_copy(update={"timeline": tuple(_timeline(core, problem, offsets))})
    changes = {"kit": _just_enough(core, problem), "library": _half_on_the_floor(problem)}
    return core, problem.model_copy(update=changes)


def _timeline(core: Core, problem: Problem, offsets: Sequence[int]) -> Iterator[Window]:
    spec, places, at_s = problem.spec, core.class_.positions, 0
    parts: list[tuple[WindowKind, int, int, tuple[int, ...]]] = [
        (WindowKind.WARM_UP, 0, spec.warm_up_s, ()),
        (WindowKind.DEMONSTRATION, 0, spec.demonstration_s, ()),
    ]
    for n in range(1, spec.rounds + 1):
        for interval in range(places):
            positions = tuple((interval + o) % places + 1 for o in offsets)
            works = _works(core, n, positions)
            if works:
                longest = max(_seconds(problem, cell) for cell in works)
                parts.append((WindowKind.WORK, n, longest, positions))
                parts.append((WindowKind.CHANGE, n, spec.change_s, ()))
        if spec.burst is not None and (n < spec.rounds or spec.after_last_round != "nothing"):
            parts.append((WindowKind.BURST, n, spec.burst.length_s, ()))
        if n < spec.rounds or spec.after_last_round == "burst_and_rest":
            parts.append((WindowKind.REST, n, spec.rest_s, ()))
    parts.append((WindowKind.COOL_DOWN, 0, spec.cool_down_s, ()))
    for kind, n, length_s, positions in parts:
        if length_s:
            yield Window(at_s=at_s, length_s=length_s, kind=kind, round=n, positions=positions)
            at_s += length_s


def _works(core: Core, n: int, positions: Sequence[int]) -> list[Cell]:
    in_round = {d.person_id for d in core.people if n in d.rounds}
    return [
        cell
        for group, position in zip(core.class_.groups, positions, strict=True)
        for cell in core.cells
        if cell.person_id in in_round.intersection(group)
        and cell.position == position
        and cell.round in (0, n)
        and cell.state is not CellState.SIT_OUT
    ]


def _seconds(problem: Problem, cell: Cell) -> int:
    library = problem.library
    listing = Listing(
        cell.steps,
        tuple(library.movements[s.movement_id] for s in cell.steps),
        library.combinations.get(cell.exercise_id or ""),
    )
    assert cell.count is not None
    pace = pace_factor(problem.people[cell.person_id], problem.rules)
    return seconds_of(listing, cell.count, pace, problem.spec.side_change_s)


def _half_on_the_floor(problem: Problem) -> Catalogue:
    """Say of every second movement that it is done on the floor, so that people rise from it."""
    library, low = problem.library, {Demand.FLOOR_RISE: 2}
    movements = {
        slug: m.model_copy(update={"demands": m.demands | low}) if n % 2 else m
        for n, (slug, m) in enumerate(sorted(library.movements.items()))
    }
    return library.model_copy(update={"movements": movements})


def _just_enough(core: Core, problem: Problem) -> Inventory:
    most = most_used(core)
    return Inventory(
        dumbbells=tuple(
            Dumbbells(unit_mass_g=key, count=units, flat_sided=True)
            for key, units in sorted((k, u) for k, u in most.items() if isinstance(k, int))
        ),
        items=tuple(
            item.model_copy(update={"count": most[item.id]})
            for item in problem.kit.items
            if item.id in most
        ),
    )

"""What warm-up and cool-down hold: raise the pulse, loosen, practise, land; then walk and stretch.

Implements section P7 of *How a class is planned*. A pure function of the problem
and the core: the same class has the same pieces. A library without the lines
for pulse or walking gives none; the coach then fills that time.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import islice

from roundwright.body.anatomy import Muscle
from roundwright.foundation.quantities import BP
from roundwright.library.catalogue import Catalogue
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import Demand, Laterality
from roundwright.plan import piece_table as table
from roundwright.plan.allowed import contact_limit, may_do
from roundwright.plan.class_count import PersonCount
from roundwright.plan.core import Core, Piece, PieceKind
from roundwright.plan.count import count_of
from roundwright.plan.counts_of_version import milliseconds
from roundwright.plan.piece_kit import PieceKit
from roundwright.plan.problem import Problem


@dataclass(frozen=True, slots=True)
class _Part:
    """A piece before its seconds are known; `needs_s` is what its reps take, 0 if any will do."""

    line_id: str
    why: str
    versions: Mapping[str, str]
    needs_s: int = 0


def with_pieces(core: Core, problem: Problem) -> Core:
    """Give a core with its warm-up and cool-down filled in, in place of any it had."""
    return core.model_copy(update={"pieces": pieces_for(problem, core)})


def with_piece_lines(problem: Problem, catalogue: Catalogue) -> Problem:
    """Give a problem whose library also holds the lines that pieces are made of.

    Parameters
    ----------
    problem : Problem
        Its library holds what the class itself uses.
    catalogue : Catalogue
        The hall's whole library; what it does not have is passed over.
    """
    more = catalogue.only(frozenset(table.PIECE_LINES) & catalogue.lines.keys())
    library = Catalogue(
        movements=more.movements | problem.library.movements,
        lines=more.lines | problem.library.lines,
        combinations=problem.library.combinations,
        raised_by_model=more.raised_by_model | problem.library.raised_by_model,
    )
    return problem.model_copy(update={"library": library})


def pieces_for(problem: Problem, core: Core) -> tuple[Piece, ...]:
    """Choose the pieces of warm-up and cool-down, with each person's version.

    Parameters
    ----------
    problem : Problem
        People, kit, library and the seconds of warm-up and cool-down.
    core : Core
        Who does what: what is loosened and stretched follows from it, and who lands.

    Returns
    -------
    tuple of Piece
        In order. The seconds of each kind sum exactly to the class's own, or
        there are none of that kind. People without an allowed version rest.

    Raises
    ------
    BadInputError
        When the core names a movement or person that its problem does not hold.
    """
    counts = count_of(core, problem).people
    chooser = _Chooser(problem, core, counts)
    return (*_warm_up(chooser, problem.spec.warm_up_s), *_cool_down(chooser, problem))


class _Chooser:
    """Makes parts with everybody's version, from what the class holds."""

    def __init__(self, problem: Problem, core: Core, counts: Sequence[PersonCount]) -> None:
        self.problem, self.core = problem, core
        self.people = tuple(dose.person_id for dose in core.people)
        self.landings = {count.person_id: count.contacts for count in counts}
        self.volume: dict[str, int] = {}
        for count in counts:
            for muscle, reps in count.muscle_volume.items():
                self.volume[muscle] = self.volume.get(muscle, 0) + reps

    def most_worked(self, lines: Mapping[Muscle, str]) -> list[str]:
        """Give the lines of the muscles that work in the class, the most worked first."""
        load: dict[str, int] = {}
        for muscle, line_id in lines.items():
            load[line_id] = load.get(line_id, 0) + self.volume.get(muscle.value, 0)
        ordered = sorted(load, key=lambda line_id: -load[line_id])
        return [line_id for line_id in ordered if load[line_id]]

    def part(self, line_id: str, why: str) -> _Part | None:
        """Make a part of a line, each person at the hardest version; None when nobody has one."""
        if line_id not in self.problem.library.lines:
            return None
        versions = self._shared_out(line_id, why)
        return _Part(line_id, why, versions, self._reps_s(why, versions)) if versions else None

    def first_parts(self, lines: Mapping[Muscle, str], why: str, most: int) -> list[_Part]:
        """Give parts for the muscles that work most, as many as there are to be at the most."""
        parts = (self.part(line, why) for line in self.most_worked(lines))
        return list(islice((part for part in parts if part), max(0, most)))

    def regions(self) -> list[_Part]:
        """Give the regions to loosen; with one-leg work in the class the last is balance."""
        found = self.first_parts(table.MOBILISE, "mobilise", table.MOST_REGIONS)
        balance = self.part(table.BALANCE_LINE, "mobilise") if self._stands_on_one_leg() else None
        if balance is None:
            return found
        return [*found[: table.MOST_REGIONS - 1], balance]

    def patterns(self) -> list[_Part]:
        """Give one part for each main pattern of the class, in order of the exercises."""
        library, found = self.problem.library, {}
        for exercise in sorted(self.core.exercises, key=lambda e: e.position):
            own = library.lines_of_exercise(exercise.exercise_id)[0]
            pattern = library.versions(own)[0].pattern
            if pattern in found:
                continue
            part = self.part(own, "pattern")
            if part is None and pattern in table.UNLOADED:
                part = self.part(table.UNLOADED[pattern], "pattern")
            if part is not None:
                found[pattern] = part
        return list(found.values())

    def landing(self) -> _Part | None:
        """Give the landing practice, when anybody jumps and may practise it."""
        part = self.part(table.LANDING_LINE, "landing") if any(self.landings.values()) else None
        movements = self.problem.library.movements
        lands = part and any(movements[m].contacts_a_rep for m in part.versions.values())
        return part if lands else None

    def _stands_on_one_leg(self) -> bool:
        movements = self.problem.library.movements
        named = {step.movement_id for cell in self.core.cells for step in cell.steps}
        return any(movements[m].demand(Demand.BALANCE) >= table.BALANCE_FROM for m in named)

    def _shared_out(self, line_id: str, why: str) -> dict[str, str]:
        """Give each person a version: who has the fewest chooses first, kit is used once."""
        kit = PieceKit(self.problem)
        options = {p: self._options(p, line_id, why, kit) for p in self.people}
        chosen = {}
        for person_id in sorted(options, key=lambda p: (len(options[p]), p)):
            mass_g = self.problem.people[person_id].body_mass_g
            for movement in options[person_id]:
                if kit.take(movement, mass_g):
                    chosen[person_id] = movement.slug
                    break
        return dict(sorted(chosen.items()))

    def _options(self, person_id: str, line_id: str, why: str, kit: PieceKit) -> list[Movement]:
        """Give a person's versions, the wanted one first: hardest; of the class's lines easiest."""
        mass_g = self.problem.people[person_id].body_mass_g
        versions = [
            movement
            for movement in self.problem.library.versions(line_id)
            if movement.level <= table.HIGHEST_PIECE_LEVEL
            and movement.low_hops_a_rep == 0
            and (movement.contacts_a_rep == 0 or self._may_land(person_id, movement, why))
            and may_do(self.problem, person_id, line_id, movement)
            and kit.could_serve(movement, mass_g)
        ]
        own = why == "pattern" and line_id not in table.PIECE_LINES
        return versions if own else versions[::-1]

    def _may_land(self, person_id: str, movement: Movement, why: str) -> bool:
        """Say whether a person jumps today and has room for the practice within the limit."""
        jumps = self.landings.get(person_id, 0)
        practice = table.LANDINGS * movement.contacts_a_rep
        limit = contact_limit(self.problem, person_id)
        return why == "landing" and jumps > 0 and jumps + practice <= limit

    def _reps_s(self, why: str, versions: Mapping[str, str]) -> int:
        movements = self.problem.library.movements
        done = [movements[m] for m in set(versions.values())]
        if why == "landing":
            return max((_slow_s(m, table.LANDINGS, 0) for m in done if m.contacts_a_rep), default=0)
        if why == "pattern":
            change_s = self.problem.spec.side_change_s
            return max(_slow_s(m, table.PATTERN_REPS, change_s) for m in done)
        return 0


def _slow_s(movement: Movement, reps: int, side_change_s: int) -> int:
    """Give the seconds of slow reps, a side where one-sided, rounded up."""
    sides = 2 if movement.is_one_sided else 1
    slow = sides * reps * milliseconds(movement.seconds_a_rep) * table.SLOW_BP
    change_s = side_change_s if movement.laterality is Laterality.UNILATERAL else 0
    return -(-slow // (BP * 1000)) + change_s


def _warm_up(chooser: _Chooser, whole_s: int) -> tuple[Piece, ...]:
    pulse = chooser.part(table.PULSE_LINE, "pulse")
    if whole_s <= 0 or pulse is None:
        return ()
    pulse_s = min(whole_s, max(table.PULSE_LEAST_S, whole_s // table.PULSE_PARTS))
    left_s = whole_s - pulse_s
    landing = chooser.landing()
    if landing is not None and landing.needs_s > left_s:
        landing = None
    left_s -= landing.needs_s if landing else 0
    practice: list[_Part] = []
    for part in chooser.patterns():
        if part.needs_s <= left_s:
            practice.append(part)
            left_s -= part.needs_s
    regions = chooser.regions()[: left_s // table.MOBILISE_LEAST_S]
    each_s = left_s // len(regions) if regions else 0
    last = [landing] if landing else []
    parts = [(pulse, pulse_s), *((p, each_s) for p in regions)]
    parts += [(p, p.needs_s) for p in (*practice, *last)]
    return _made(PieceKind.WARM_UP, parts, whole_s)


def _cool_down(chooser: _Chooser, problem: Problem) -> tuple[Piece, ...]:
    whole_s = problem.spec.cool_down_s
    walk = chooser.part(table.WALK_LINE, "walk")
    if whole_s <= 0 or walk is None:
        return ()
    walk_s = min(whole_s, table.WALK_S)
    left_s = whole_s - walk_s
    most = min(table.MOST_REGIONS, left_s // table.STRETCH_LEAST_S)
    stretches = chooser.first_parts(table.STRETCH, "floor", most)
    each_s = left_s // len(stretches) if stretches else 0
    return _made(PieceKind.COOL_DOWN, [(walk, walk_s), *((p, each_s) for p in stretches)], whole_s)


def _made(kind: PieceKind, parts: Sequence[tuple[_Part, int]], whole_s: int) -> tuple[Piece, ...]:
    """Make the pieces; the last one takes what is left of the whole."""
    rest_s = whole_s - sum(length_s for _, length_s in parts)
    last = len(parts) - 1
    return tuple(
        Piece.model_validate(
            {
                "kind": kind,
                "line_id": part.line_id,
                "length_s": length_s + (rest_s if index == last else 0),
                "why": part.why,
                "versions": dict(part.versions),
            }
        )
        for index, (part, length_s) in enumerate(parts)
    )

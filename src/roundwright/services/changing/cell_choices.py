"""What may be put into one cell of a plan: versions by name, loads of the rack, other exercises."""

from dataclasses import dataclass

from roundwright.foundation.errors import NotFoundError
from roundwright.foundation.words import say
from roundwright.library.catalogue import Catalogue
from roundwright.library.spoken_library import spoken
from roundwright.plan.allowed import may_do
from roundwright.plan.core import Cell, CellState
from roundwright.plan.document import PlanDocument
from roundwright.plan.problem import Problem


@dataclass(frozen=True, slots=True)
class CellChoices:
    """One person's place of the round, and what could stand there.

    Attributes
    ----------
    exercise_id : str
        What the place is, as the person does it: their own where they were given another.
    doing : tuple of str
        Names of what they do now; empty where they rest.
    version, mass_g : str, int or None
        What they do now, where it is one movement, with the mass of one dumbbell.
    versions : tuple
        Movement and name of each version that they may do at all; the gate judges the rest.
    masses_g : tuple of int
        Masses of one dumbbell that the hall has.
    instead : tuple
        Exercise and name of what they could do in its place; the coach's yes makes it so.
    is_fixed : bool
        Whether the coach has fixed something here.
    """

    exercise_id: str
    exercise: str
    doing: tuple[str, ...]
    version: str | None
    mass_g: int | None
    versions: tuple[tuple[str, str], ...]
    masses_g: tuple[int, ...]
    instead: tuple[tuple[str, str], ...]
    is_fixed: bool

    @property
    def rests(self) -> bool:
        """Whether the person has nothing to do here."""
        return not self.doing


def cell_choices(
    document: PlanDocument, person_id: str, position: int, library: Catalogue
) -> CellChoices:
    """Give what may be put into a cell.

    Parameters
    ----------
    library : Catalogue
        Everything that may be put into the class.

    Raises
    ------
    NotFoundError
        There is no such person or place in the plan.
    """
    problem, core = document.problem, document.core
    cells = [c for c in core.cells if c.person_id == person_id and c.position == position]
    stands = next((e for e in core.exercises if e.position == position), None)
    if stands is None or person_id not in {dose.person_id for dose in core.people}:
        raise NotFoundError("There is no such person or place in this plan.")
    cell = max(cells, key=lambda c: (c.state is not CellState.SIT_OUT, c.unit_mass_g), default=None)
    rests = cell is None or cell.state is CellState.SIT_OUT
    mine = stands.exercise_id if cell is None or rests else cell.exercise_id or stands.exercise_id
    names = () if cell is None or rests else _names(cell, spoken(problem.library))
    held = () if cell is None or rests else tuple(dict.fromkeys(cell.signature))
    return CellChoices(
        exercise_id=mine,
        exercise=spoken(problem.library).exercise_name(mine),
        doing=names,
        version=held[0] if len(held) == 1 else None,
        mass_g=None if cell is None or rests else cell.unit_mass_g or None,
        versions=_versions(problem, person_id, mine),
        masses_g=tuple(sorted({d.unit_mass_g for d in problem.kit.dumbbells if d.in_use})),
        instead=_instead(problem, person_id, stands.exercise_id, library),
        is_fixed=any(k.person == person_id and k.position == position for k in problem.spec.keep),
    )


def _names(cell: Cell, library: Catalogue) -> tuple[str, ...]:
    return tuple(library.movements[m].name for m in dict.fromkeys(cell.signature))


def _versions(problem: Problem, person_id: str, exercise_id: str) -> tuple[tuple[str, str], ...]:
    library = problem.library
    found = {
        movement.slug: say(movement.name)
        for line in library.lines_of_exercise(exercise_id)
        for movement in library.versions(line)
        if may_do(problem, person_id, line, movement)
    }
    return tuple(found.items())


def _instead(
    problem: Problem, person_id: str, exercise_id: str, library: Catalogue
) -> tuple[tuple[str, str], ...]:
    """Give the lines of the patterns of the exercise first, then all others, each by name."""
    whole = problem.model_copy(update={"library": library})
    patterns = {
        m.pattern for line in library.lines_of_exercise(exercise_id) for m in library.versions(line)
    }
    open_to_them = [
        line
        for line in library.lines.values()
        if line.slug != exercise_id
        and any(may_do(whole, person_id, line.slug, m) for m in library.versions(line.slug))
    ]

    def kin(slug: str) -> bool:
        return any(m.pattern in patterns for m in library.versions(slug))

    ordered = sorted(open_to_them, key=lambda line: (not kin(line.slug), say(line.name)))
    return tuple((line.slug, say(line.name)) for line in ordered)

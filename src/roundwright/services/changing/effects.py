"""What a plan comes to in the figures by which a coach weighs a change: section C5."""

from collections import Counter

from pydantic import Field

from roundwright.foundation.model import Stored
from roundwright.plan.core import CellState, Core, PersonDose, Window, WindowKind
from roundwright.plan.document import PlanDocument
from roundwright.services.class_reasons import kind_of


class Effects(Stored):
    """The figures of one plan that a change may move."""

    length_s: int = Field(description="planned, s")
    kit_in_use: int = Field(description="pieces of kit held at once, at most")
    push: int = Field(description="exercises of a round")
    pull: int = Field(description="exercises of a round")
    knee: int = Field(description="exercises of a round")
    hip: int = Field(description="exercises of a round")
    contacts: int = Field(description="landings of everybody over the class")
    versions: int = Field(description="teaching load: versions in the room over all places")
    chance_on_time_bp: int | None = None
    late_s: int | None = Field(default=None, description="length that one class in ten exceeds, s")


def effects_of(document: PlanDocument) -> Effects:
    """Give the figures of a judged plan; no chance where it was not played through."""
    core, chance = document.core, document.facts.chance_on_time
    kinds = Counter(kind_of(document.problem.library, e.exercise_id) for e in core.exercises)
    return Effects(
        length_s=document.facts.total_s,
        kit_in_use=kit_in_use(core),
        push=kinds["push"],
        pull=kinds["pull"],
        knee=kinds["knee"],
        hip=kinds["hip"],
        contacts=sum(person.contacts for person in document.facts.people),
        versions=len(
            {
                (cell.position, cell.exercise_id, cell.signature)
                for cell in core.cells
                if cell.state is not CellState.SIT_OUT
            }
        ),
        chance_on_time_bp=None if chance is None else chance.chance_bp,
        late_s=None if chance is None else chance.late_s,
    )


def kit_in_use(core: Core) -> int:
    """Give the most pieces of kit that are held in one window, dumbbells counted singly."""
    return max((_held(core, window) for window in core.timeline), default=0)


def _held(core: Core, window: Window) -> int:
    doses = {dose.person_id: dose for dose in core.people if window.round in dose.rounds}
    if window.kind is WindowKind.BURST:
        return sum(k.units for dose in doses.values() for k in dose.burst_kit)
    if window.kind is not WindowKind.WORK:
        return 0
    return sum(
        _units_at(core, doses[person], position, window.round)
        for group, position in zip(core.class_.groups, _positions(core, window), strict=False)
        for person in group
        if person in doses
    )


def _positions(core: Core, window: Window) -> tuple[int, ...]:
    """Give the position of each group; one for all where the window names a single one."""
    if len(window.positions) == 1:
        return window.positions * len(core.class_.groups)
    return window.positions


def _units_at(core: Core, dose: PersonDose, position: int, round_number: int) -> int:
    return sum(
        cell.units + sum(k.units for k in cell.kit)
        for cell in core.cells_of(dose.person_id, round_number)
        if cell.position == position
    )

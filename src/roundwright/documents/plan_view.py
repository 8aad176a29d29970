"""One plan with its names joined: what the parts of a sheet ask of it."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from roundwright.documents.spoken import load_words, mass_label, wall_clock
from roundwright.foundation.words import say
from roundwright.goals.class_wish import ClassFormat
from roundwright.library.catalogue import Catalogue
from roundwright.library.spoken_library import spoken
from roundwright.plan.core import Cell, CellState, Core, PersonDose, Window, WindowKind
from roundwright.plan.document import PlanDocument
from roundwright.plan.problem import Problem


def joined_names(shown: Mapping[str, str]) -> dict[str, str]:
    """Give each person a name of their own: where two share one, the id tells them apart."""
    seen = list(shown.values())
    return {
        person_id: name if seen.count(name) == 1 else f"{name} ({person_id})"
        for person_id, name in shown.items()
    }


@dataclass(frozen=True)
class PlanView:
    """A plan document, the names of its people, and the units to show."""

    document: PlanDocument
    names: Mapping[str, str]
    units: str

    @property
    def core(self) -> Core:
        """The plan itself."""
        return self.document.core

    @property
    def problem(self) -> Problem:
        """What the plan answers to."""
        return self.document.problem

    @cached_property
    def library(self) -> Catalogue:
        """The library entries that the class uses, in the language that is spoken."""
        return spoken(self.problem.library)

    @property
    def in_pairs(self) -> bool:
        """Whether one works while the other rests."""
        return self.core.class_.format is ClassFormat.PAIRS

    @property
    def rotates(self) -> bool:
        """Whether groups stand at different places of the round at one time."""
        return self.core.class_.format in (ClassFormat.STATIONS, ClassFormat.STAGGERED)

    @cached_property
    def begins_at(self) -> tuple[int, ...]:
        """Give the place of the round at which each group begins."""
        work = self.windows(WindowKind.WORK)
        return work[0].positions if work else ()

    @cached_property
    def doses(self) -> dict[str, PersonDose]:
        """Dose lines by person."""
        return {dose.person_id: dose for dose in self.core.people}

    @cached_property
    def order(self) -> tuple[str, ...]:
        """Everyone who takes part, partners next to each other."""
        grouped = [p for group in self.core.class_.groups for p in group if p in self.doses]
        return tuple(dict.fromkeys([*grouped, *self.doses]))

    @cached_property
    def _cells(self) -> dict[tuple[str, int], list[Cell]]:
        found: dict[tuple[str, int], list[Cell]] = {}
        for cell in self.core.cells:
            found.setdefault((cell.person_id, cell.position), []).append(cell)
        return found

    @cached_property
    def _labels(self) -> dict[int, str]:
        masses = {d.unit_mass_g for d in self.problem.kit.dumbbells}
        masses |= {cell.unit_mass_g for cell in self.core.cells}
        return {m: mass_label(m, self.problem.kit, self.units) for m in masses}

    def name(self, person_id: str) -> str:
        """Give the shown name, or words for someone whose row is gone."""
        return self.names.get(person_id) or say("someone ({id})", id=person_id)

    def load(self, cell: Cell) -> str:
        """Say the load of a cell."""
        return load_words(cell.units, cell.unit_mass_g, self._labels, self.units)

    def mass(self, unit_mass_g: int) -> str:
        """Say the mass of one dumbbell with its unit."""
        return self._labels.get(unit_mass_g) or mass_label(
            unit_mass_g, self.problem.kit, self.units
        )

    def cell(self, person_id: str, round_number: int, position: int) -> Cell | None:
        """Give what a person does at one place in one round, None when they rest that round."""
        dose = self.doses.get(person_id)
        if dose is None or round_number not in dose.rounds:
            return None
        cells = self._cells.get((person_id, position), ())
        return next((c for c in cells if c.round in (0, round_number)), None)

    def cells_by_round(self, person_id: str, position: int) -> dict[int, Cell]:
        """Give a person's cells at one place for every round that they do."""
        rounds = self.doses[person_id].rounds if person_id in self.doses else ()
        found = {r: self.cell(person_id, r, position) for r in rounds}
        return {r: cell for r, cell in found.items() if cell is not None}

    def signatures(self, position: int) -> list[tuple[str, ...]]:
        """Give the different versions of the exercise itself at a place."""
        return sorted(
            {
                c.signature
                for c in self.core.cells
                if c.position == position and c.state is CellState.DO and c.steps
            }
        )

    def windows(self, kind: WindowKind, position: int | None = None) -> list[Window]:
        """Give the windows of one kind, at one place where it is work."""
        return [
            w
            for w in self.core.timeline
            if w.kind is kind and (position is None or position in w.positions)
        ]

    def clock(self, at_s: int) -> str:
        """Give the wall clock at some seconds of the class."""
        return wall_clock(self.core.class_.starts_at_local, at_s)

    @property
    def total_s(self) -> int:
        """Seconds from the first window to the end of the last."""
        return max((w.at_s + w.length_s for w in self.core.timeline), default=0)

"""The library as one frozen value: look up, filter, and what an exercise resolves to."""

from collections.abc import Mapping

from pydantic import Field, model_validator

from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Stored
from roundwright.library.combination import Combination
from roundwright.library.line import ProgressionLine
from roundwright.library.movement import DemandDegree, Movement
from roundwright.library.vocabulary import Demand


class Catalogue(Stored):
    """Movements, progression lines and combinations by slug.

    Slugs of lines and combinations never coincide, so an exercise is named by
    its slug alone.
    """

    movements: dict[Slug, Movement]
    lines: dict[Slug, ProgressionLine]
    combinations: dict[Slug, Combination]
    raised_by_model: dict[Slug, dict[Demand, DemandDegree]] = Field(
        default_factory=dict,
        description="what the author gave where the body model asks for more; "
        "`demands` of the movement holds the model's degree",
    )

    @model_validator(mode="after")
    def _exercise_names_are_single(self) -> "Catalogue":
        both = self.lines.keys() & self.combinations.keys()
        if both:
            raise ValueError(f"names used for a line and a combination: {sorted(both)}")
        return self

    def has_exercise(self, exercise_id: str) -> bool:
        """Say whether a slug names a line or a combination."""
        return exercise_id in self.lines or exercise_id in self.combinations

    def exercise_name(self, exercise_id: str) -> str:
        """Give the shown name of a line or combination."""
        if exercise_id in self.combinations:
            return self.combinations[exercise_id].name
        return self.lines[exercise_id].name

    def versions(self, line_id: str) -> tuple[Movement, ...]:
        """Give a line's movements, easy to hard."""
        return tuple(self.movements[slug] for slug in self.lines[line_id].versions)

    def lines_of_exercise(self, exercise_id: str) -> tuple[str, ...]:
        """Give the lines that an exercise is made of, in order."""
        if exercise_id in self.combinations:
            return tuple(part.line for part in self.combinations[exercise_id].parts)
        return (exercise_id,)

    def with_model(self, degrees: Mapping[str, Mapping[Demand, int]]) -> "Catalogue":
        """Give the library with the body model's degrees laid over it: none is ever lowered.

        Parameters
        ----------
        degrees : mapping
            Movement to what the model gives each demand; movements without are left as they are.
        """
        movements = {s: m.asking_at_least(degrees.get(s, {})) for s, m in self.movements.items()}
        by_model = {
            slug: {d: was.demand(d) for d in is_now.demands if is_now.demand(d) > was.demand(d)}
            for slug, is_now in movements.items()
            if (was := self.movements[slug]) is not is_now
        }
        return self.model_copy(
            update={"movements": movements, "raised_by_model": {**self.raised_by_model, **by_model}}
        )

    def only(self, exercise_ids: frozenset[str]) -> "Catalogue":
        """Give the part of the library that some exercises use."""
        combinations = {s: c for s, c in self.combinations.items() if s in exercise_ids}
        line_ids = {line for e in exercise_ids for line in self.lines_of_exercise(e)}
        lines = {s: line for s, line in self.lines.items() if s in line_ids}
        used = {m for line in lines.values() for m in line.versions}
        movements = {s: m for s, m in self.movements.items() if s in used}
        raised_ones = {s: was for s, was in self.raised_by_model.items() if s in used}
        return Catalogue(
            movements=movements,
            lines=lines,
            combinations=combinations,
            raised_by_model=raised_ones,
        )

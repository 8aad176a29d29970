"""What a progression line is: versions from easy to hard, with criteria up and down."""

from typing import Annotated

from pydantic import Field

from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Authored
from roundwright.library.movement import Sentence


class StepCriteria(Authored):
    """What must be seen before the step to one version of the line is tried.

    `min_classes` is what the tool can count itself; `seen` is what a coach
    must have seen. Both are common practice (floor page, section D).
    """

    to: Slug
    min_classes: int = Field(default=0, ge=0, le=100)
    seen: tuple[Sentence, ...] = ()


class ProgressionLine(Authored):
    """Versions of one movement idea, easy to hard; levels never fall along it."""

    slug: Slug
    name: Annotated[str, Field(min_length=2, max_length=60)]
    versions: tuple[Slug, ...] = Field(min_length=1)
    up: tuple[Sentence, ...] = Field(min_length=1)
    down: tuple[Sentence, ...] = Field(min_length=1)
    steps: tuple[StepCriteria, ...] = ()
    was: tuple[Slug, ...] = ()

    def min_classes_for(self, movement_id: str) -> int:
        """Give how many classes a person should have done before a version is offered."""
        return next((s.min_classes for s in self.steps if s.to == movement_id), 0)

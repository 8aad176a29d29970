"""Who takes part: what the tool may know of a person, and how unknown is kept unknown."""

from datetime import date
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from roundwright.foundation.authored_types import MassG
from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Authored
from roundwright.library.movement import Level
from roundwright.library.vocabulary import StrengthFamily


class Sex(StrEnum):
    """Which published tables apply; `unstated` takes the mean of both and a wider interval."""

    F = "f"
    M = "m"
    UNSTATED = "unstated"


class Clearance(StrEnum):
    """What the health screen or a clinician allows; unknown is not healthy."""

    CLEARED = "cleared"
    MODERATE_ONLY = "moderate_only"
    NOT_CLEARED = "not_cleared"
    UNKNOWN = "unknown"


class Person(Authored):
    """One row of people.csv."""

    person_id: Slug
    shown_name: Annotated[str, Field(min_length=1, max_length=40)]
    birth_year: int | None = Field(default=None, ge=1900, le=2100)
    sex: Sex = Sex.UNSTATED
    body_mass_g: MassG | None = Field(default=None, ge=20_000, le=300_000)
    height_mm: int | None = Field(default=None, ge=800, le=2500)
    level: Level | None = None
    level_by_family: dict[StrengthFamily, Level] = Field(default_factory=dict)
    classes_done: int | None = Field(default=None, ge=0, le=100_000)
    last_class_on: date | None = None
    clearance: Clearance = Field(default=Clearance.UNKNOWN, repr=False)
    effort_only: bool = Field(default=False, repr=False)
    usual_chance_pct: int | None = Field(default=None, ge=0, le=100)
    own_kit: str = Field(default="", max_length=200)

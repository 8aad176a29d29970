"""What a coach wants of a class: the file classes/<slug>.toml as one model."""

from datetime import date, time
from enum import StrEnum
from typing import Annotated, Literal

from pydantic import Field, model_validator

from roundwright.foundation.authored_types import DurationS, MassG
from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Authored

MOST_REPS_LEFT = 6
"""Reps in reserve that a class may ask for at most; our choice."""

MOST_GROUPS = 4
"""Staggered groups that a class may ask for at most; our choice."""


class CountUnit(StrEnum):
    """What a count counts. `12 reps_per_side` is 24 reps; `16 reps_alternating` is 16."""

    REPS = "reps"
    REPS_PER_SIDE = "reps_per_side"
    REPS_ALTERNATING = "reps_alternating"
    SECONDS = "seconds"
    SECONDS_PER_SIDE = "seconds_per_side"


class Count(Authored):
    """How much of an exercise is done in one round."""

    value: int = Field(ge=1, le=600)
    unit: CountUnit

    @model_validator(mode="after")
    def _alternating_is_even(self) -> "Count":
        if self.unit is CountUnit.REPS_ALTERNATING and self.value % 2:
            raise ValueError("an alternating count is even: both sides do the same")
        return self

    @property
    def is_timed(self) -> bool:
        """Whether the count is in seconds."""
        return self.unit in (CountUnit.SECONDS, CountUnit.SECONDS_PER_SIDE)


class ClassFormat(StrEnum):
    """How people move through a round."""

    TOGETHER = "together"
    PAIRS = "pairs"
    STATIONS = "stations"
    STAGGERED = "staggered"
    ANY = "any"


class Pace(StrEnum):
    """Whether the count or the clock ends an exercise."""

    COUNTED = "counted"
    TIMED = "timed"


class WorkRestWish(StrEnum):
    """Who says how long work and rest are where the clock ends an exercise.

    `own`: the class's `work` and `change`. `any`: the tool takes a pair that fits who is
    there; `heavier`: one for heavier loads.
    """

    OWN = "own"
    ANY = "any"
    HEAVIER = "heavier"


class AfterLastRound(StrEnum):
    """What follows the last exercise of the last round."""

    NOTHING = "nothing"
    BURST = "burst"
    BURST_AND_REST = "burst_and_rest"


class BurstWish(Authored):
    """The cardio burst after a round: a progression line from marching to skipping."""

    line: Slug
    length_s: DurationS = Field(gt=0, le=600, alias="length")
    rate_a_min: int | None = Field(default=None, gt=0, le=300)


class ExerciseWish(Authored):
    """One exercise of the coach's own class, at full dose.

    With `places` the class is completed: an exercise with a `position` keeps that
    place, one without may stand anywhere.
    """

    exercise: Slug
    count: Count | None = None
    position: int | None = Field(default=None, ge=1, le=20)


class KeptCell(Authored):
    """What the coach wants kept for one person at one place of the round.

    `rests` leaves the person without anything to do there; `instead` gives them
    another exercise, which is the coach's yes to it.
    """

    person: Slug
    position: int = Field(ge=1, le=20)
    version: Slug | None = None
    mass_g: MassG | None = Field(default=None, gt=0, alias="mass")
    rests: bool = False
    instead: Slug | None = None


class ClassWish(Authored):
    """A class as the coach brings it. Times are local; `on` or `weekday` is given."""

    name: Annotated[str, Field(min_length=1, max_length=80)]
    on: date | None = None
    weekday: (
        Literal["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"] | None
    ) = None
    start: time
    slot_s: DurationS = Field(ge=60, le=4 * 3600, alias="slot")
    room: Slug
    people: Literal["all"] | tuple[Slug, ...] = "all"
    goal: Annotated[str, Field(max_length=200)] = ""
    format: ClassFormat = ClassFormat.TOGETHER
    groups: int | None = Field(
        default=None,
        ge=2,
        le=MOST_GROUPS,
        description="how many, where format is stations or staggered; none: the tool's choice",
    )
    coaches: int = Field(default=1, ge=1, le=10)
    lead: Slug | None = Field(default=None, description="who of staff.toml leads it")
    rounds: int = Field(
        ge=1,
        le=10,
        description='the number asked; a file may also say a list, "2 to 4" or "any": '
        "the first is asked, the others go to rounds_choice",
    )
    rounds_choice: tuple[Annotated[int, Field(ge=1, le=10)], ...] = Field(
        default=(), max_length=6, description="rounds that may be planned instead"
    )
    places: int | None = Field(
        default=None,
        ge=1,
        le=12,
        description="exercises a round; more than given: propose the rest",
    )
    pace: Pace = Pace.COUNTED
    work_s: DurationS | None = Field(default=None, gt=0, le=600, alias="work")
    work_rest: WorkRestWish = Field(
        default=WorkRestWish.OWN,
        description="any or heavier: the tool chooses work and rest of a timed class",
    )
    change_s: DurationS = Field(default=15, ge=0, le=600, alias="change")
    side_change_s: DurationS = Field(default=4, ge=0, le=60, alias="side_change")
    partner_swap_s: DurationS = Field(default=6, ge=0, le=60, alias="partner_swap")
    rest_s: DurationS = Field(default=60, ge=0, le=900, alias="rest")
    burst: BurstWish | None = None
    after_last_round: AfterLastRound = AfterLastRound.BURST
    warm_up_s: DurationS = Field(default=360, ge=0, le=3600, alias="warm_up")
    demonstration_s: DurationS = Field(default=240, ge=0, le=3600, alias="demonstration")
    cool_down_s: DurationS = Field(default=300, ge=0, le=3600, alias="cool_down")
    reps_left: int | None = Field(
        default=None,
        ge=0,
        le=MOST_REPS_LEFT,
        description="reps left in reserve at the end of a set; who must leave more leaves more",
    )
    order: Literal["as_given", "free"] = "as_given"
    exercise: tuple[ExerciseWish, ...] = Field(default=(), max_length=20)
    keep: tuple[KeptCell, ...] = ()
    ban: tuple[Slug, ...] = ()
    chance_on_time_pct: int = Field(default=90, ge=1, le=99)

    @model_validator(mode="after")
    def _day_and_pace(self) -> "ClassWish":
        if (self.on is None) == (self.weekday is None):
            raise ValueError("give either on = a date or weekday = its name, and not both")
        if self.pace is Pace.TIMED and self.work_s is None:
            raise ValueError("pace = 'timed' needs work, the seconds of one exercise")
        if self.pace is not Pace.TIMED and self.work_rest is not WorkRestWish.OWN:
            raise ValueError("work_rest is chosen only where pace = 'timed'")
        rotates = self.format in (ClassFormat.STATIONS, ClassFormat.STAGGERED)
        if self.groups is not None and not rotates:
            raise ValueError("groups are counted only where format is stations or staggered")
        return self

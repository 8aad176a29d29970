"""What the people and the hall did lately, as far as it matters for the next class."""

from pydantic import Field

from roundwright.body.anatomy import Muscle
from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Stored


class RecentExercise(Stored):
    """An exercise of an earlier class, and how many days ago that was."""

    exercise_id: Slug
    days_ago: int = Field(ge=0)


class Recent(Stored):
    """The hall's exercises of the last two weeks, and who has tired which main muscles lately.

    Until classes are logged, a plan that was kept counts as held.
    """

    exercises: tuple[RecentExercise, ...] = ()
    worked: dict[Slug, tuple[Muscle, ...]] = Field(
        default_factory=dict, description="main muscles of the last 48 hours, by person"
    )

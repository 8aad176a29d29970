"""What a version of an exercise resolves to: the steps of one pass, in order."""

from pydantic import Field

from roundwright.body.anatomy import Side
from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Stored


class Step(Stored):
    """One movement within a pass: on which side, how often."""

    movement_id: Slug
    side: Side
    times: int = Field(default=1, ge=1)

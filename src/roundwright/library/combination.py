"""What a combination is: ordered parts done as one rep, or as a complex, in blocks."""

from typing import Annotated, Literal

from pydantic import Field

from roundwright.body.anatomy import Muscle, Side
from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Authored
from roundwright.library.vocabulary import DoneAs


class Part(Authored):
    """One part: a progression line, how often in one pass, and on which side."""

    line: Slug
    times: int = Field(default=1, ge=1, le=20)
    side: Side = Side.BOTH


class Combination(Authored):
    """Two to six parts done one after the other with one load throughout."""

    slug: Slug
    name: Annotated[str, Field(min_length=2, max_length=60)]
    parts: tuple[Part, ...] = Field(min_length=2, max_length=6)
    load: Literal["held", "none"] = "held"
    link_s: float = Field(default=0.7, ge=0, le=10)
    done_as: DoneAs = DoneAs.COMBINATION
    main_muscle: Muscle | None = None
    was: tuple[Slug, ...] = ()

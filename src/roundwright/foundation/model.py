"""The two kinds of typed model that everything written down is made of.

*Authored* files refuse unknown fields; *stored* JSON keeps them untouched, so
that a newer program's file survives an older one.
"""

from pydantic import BaseModel, ConfigDict


class Authored(BaseModel):
    """A frozen model of something a person writes: unknown fields are faults."""

    model_config = ConfigDict(frozen=True, extra="forbid", populate_by_name=True)


class Stored(BaseModel):
    """A frozen model of something the tool writes: unknown fields are kept."""

    model_config = ConfigDict(frozen=True, extra="allow", populate_by_name=True)

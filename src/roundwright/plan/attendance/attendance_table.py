"""How likely people come, and what 'the plan holds' means: figures as data, all our choice."""

from pydantic import Field

from roundwright.foundation.model import Stored


class AttendanceTable(Stored):
    """Figures of section C9 of *How a plan is changed*; none has a source."""

    usual_coming_bp: int = Field(
        default=8000, ge=0, le=10_000, description="chance of somebody of whom nothing is said"
    )
    walk_ins_bp: int = Field(
        default=10_000, ge=0, description="mean number of walk-ins, 1/10,000 of one"
    )
    most_walk_ins: int = Field(default=4, ge=0, description="no more are drawn")
    few_disturbed: int = Field(default=2, ge=0, description="more people changed: it does not hold")
    held_bp: int = Field(
        default=9000, gt=0, le=10_000, description="of the rosters of a head count: it is told"
    )
    least_rosters: int = Field(
        default=10, ge=1, description="a head count that was drawn less often is not told"
    )
    choosing: int = Field(default=60, ge=1, description="rosters by which a plan is chosen")
    telling: int = Field(default=200, ge=1, description="other rosters by which it is told")
    reserved: tuple[int, ...] = Field(
        default=(0, 1, 2), description="walk-ins that plans of the pool keep kit and room for"
    )
    other_sets: int = Field(default=1, ge=0, description="next best sets of exercises in the pool")

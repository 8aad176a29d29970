"""What counts against a plan, in points: one table of named terms, with its digest.

All figures are our choice, scaled so that one step too hard outweighs two
steps too easy. The plan, the gate, the brute force of the tests and every
yardstick state the same total.
"""

from pydantic import Field

from roundwright.foundation.canonical import digest_of
from roundwright.foundation.model import Stored


class CostTable(Stored):
    """Integer prices."""

    version_above: int = Field(default=20, description="each level above the person's own")
    version_below: int = Field(default=8, description="each level below the person's own")
    easier_of_equals: int = Field(
        default=6, description="each harder version of the line at the same level"
    )
    unloaded: int = Field(
        default=12,
        description="nothing lifted for knees, hips, push or pull by somebody who could lift there",
    )
    load_short: int = Field(default=40, description="times the share missing to the target load")
    load_over_base: int = Field(default=4, description="a load managed less surely than aimed at")
    load_over: int = Field(default=60, description="times the chance missing to the aim")
    held_back: int = Field(
        default=6,
        description="times the share missing to the own loads of a combination's other parts",
    )
    burst_below: int = Field(default=4, description="each level below the person's own, burst")
    substitute: int = Field(default=120, description="another exercise for one person")
    sit_out: int = Field(default=1000, description="a person does nothing at one place")
    further_version: int = Field(default=10, description="each version of an exercise after one")
    crowded_version: int = Field(default=30, description="more, for each version beyond the limit")
    third_mass: int = Field(default=15, description="each dumbbell mass a person uses beyond two")
    push_pull: int = Field(default=6, description="each exercise more of one than the other")
    knee_hip: int = Field(default=6, description="each exercise more of one than the other")
    recent_use: int = Field(default=8, description="each time an exercise was used lately")
    worked_lately: int = Field(default=3, description="each person whose main muscle is not fresh")
    combination: int = Field(default=4, description="each combination: it must be taught")
    unloaded_hip: int = Field(
        default=2,
        description="each person of level 3 or more, for a hip exercise that is not loaded",
    )
    repeated_part: int = Field(
        default=8, description="each part of a combination that repeats another's line or muscle"
    )
    shared_mover: int = Field(default=5, description="each prime mover neighbours share")
    grip_run: int = Field(default=4, description="neighbours that both ask for grip")
    back_run: int = Field(default=6, description="neighbours that both ask for the low back")
    overhead_run: int = Field(default=5, description="neighbours that are both overhead")
    floor_change: int = Field(default=2, description="down to or up from the floor between")
    first_timer_pair: int = Field(default=100, description="two first-timers as partners")

    unused_minutes: int = Field(
        default=6, description="each minute of the slot left unused, where the tool chose lengths"
    )
    hurried_minutes: int = Field(
        default=12, description="each minute missing to register and clear up, likewise"
    )

    @property
    def digest(self) -> str:
        """Digest over every price."""
        return digest_of(self.model_dump(mode="json"))


class CostLine(Stored):
    """One named term of a total."""

    term: str
    points: int

"""The defaults of the trade as data: each figure with its tag, all of them changeable.

CP is common practice without a source; an id names an entry of the published
reference values; 'our choice' says so.
"""

from typing import Literal

from pydantic import Field

from roundwright.foundation.canonical import digest_of
from roundwright.foundation.model import Stored


class EasedIn(Stored):
    """What a person's n-th class may hold at most (floor page C7; CP)."""

    classes_done: int
    share_bp: int
    rounds: int = 99
    lunges: int | None = None
    push_ups: int | None = None
    easiest_burst: bool = False


class Limit(Stored):
    """A limit that holds from a number of classes done and a level on."""

    from_classes: int
    from_level: int = 1
    limit: int


Room = Literal["newcomers", "mixed", "trained"]
"""Who is there, as far as work and rest depend on it (P8)."""


class WorkRest(Stored):
    """A pair of work and rest, and the room it is for (floor page B; CP, no source)."""

    room: Literal[Room, "heavier"]
    work_s: int = Field(ge=5, le=600)
    rest_s: int = Field(ge=0, le=600)


class RuleTable(Stored):
    """Every figure that the maker of a plan and the gate obey."""

    eased_in: tuple[EasedIn, ...] = (
        EasedIn(
            classes_done=0, share_bp=6000, rounds=2, lunges=40, push_ups=20, easiest_burst=True
        ),
        EasedIn(classes_done=1, share_bp=7000),
        EasedIn(classes_done=2, share_bp=8500),
    )
    dose_steps_bp: tuple[int, ...] = (10_000, 8500, 7500, 7000, 6000, 5000)
    away_days: int = Field(default=14, description="days away after which volume is cut; CP")
    away_share_bp: int = Field(default=7000, description="our choice")
    newcomer_classes: int = Field(default=4, description="fewer classes done than this; CP")
    contacts: tuple[Limit, ...] = (
        Limit(from_classes=0, limit=0),
        Limit(from_classes=4, limit=20),
        Limit(from_classes=12, from_level=3, limit=40),
        Limit(from_classes=40, from_level=4, limit=60),
    )
    most_landings_a_set: int = Field(default=8, description="foot contacts in one set; CP")
    least_cut_share_bp: int = Field(
        default=3000,
        ge=0,
        le=10_000,
        description="of the own count: a version that landings cut to less is not open; our choice",
    )
    low_hops: tuple[Limit, ...] = (
        Limit(from_classes=0, limit=0),
        Limit(from_classes=1, limit=120),
        Limit(from_classes=4, limit=180),
        Limit(from_classes=8, limit=360),
    )
    rir: tuple[Limit, ...] = (
        Limit(from_classes=0, limit=5),
        Limit(from_classes=2, limit=4),
        Limit(from_classes=6, limit=3),
        Limit(from_classes=20, from_level=4, limit=2),
    )
    moderate_rir: int = Field(default=4, description="our choice")
    moderate_effort: int = Field(default=4, description="of 10; CP")
    moderate_level: int = Field(default=2, description="our choice")
    newcomer_effort: int = Field(default=6, description="of 10; our choice")
    usual_effort: int = Field(default=8, description="of 10; our choice")
    highest_level_step: int = Field(default=1, description="versions above a person's level; CP")
    first_chance_bp: int = Field(default=7500, description="first three sessions; trial")
    usual_chance_bp: int = Field(default=6000, description="trial")
    first_chance_classes: int = 3
    least_chance_bp: int = Field(default=3000, description="below it the gate stops the plan")
    fail_cap_bp: int = Field(default=100, description="our choice")
    fail_cap_careful_bp: int = Field(
        default=20, description="overhead, over the face, newcomers; our choice"
    )
    fatigue_share_bp: int = Field(
        default=2500, description="reps of other parts with the same prime mover; our choice"
    )
    part_decides_bp: int = Field(
        default=5000,
        description="share missing to another part's own load from which it is said; our choice",
    )
    heavy_overhead_bp: int = Field(
        default=1500, description="external load as a share of body mass; our choice"
    )
    one_leg_balance: int = Field(default=3, description="degree of the balance demand; our choice")
    jump_box_mm: int = Field(default=450, description="highest box to jump on; CP")
    newcomer_pace_bp: int = Field(default=12_000, description="seconds a rep, times; CP")
    old_pace_bp: int = Field(default=14_000, description="65 and over; CP 1.3 to 1.5")
    old_age: int = 65
    child_age: int = 16
    warm_up_floor_s: int = Field(default=300, description="CP")
    warm_up_eased_s: int = Field(default=480, description="newcomers or 65 and over; CP")
    cool_down_floor_s: int = Field(default=240, description="CP")
    change_floor_s: int = Field(default=8, description="CP")
    rest_floor_s: int = Field(default=30, description="between rounds; our choice")
    walk_after_burst_s: int = Field(default=30, description="CP")
    register_and_clear_s: int = Field(default=300, description="register 2 min, kit 3 min; CP")
    most_versions: int = Field(default=3, description="of one exercise in a room; CP")
    most_new_combinations: int = Field(default=2, description="CP")
    most_first_timers: int = Field(default=3, description="a coach; CP")
    people_a_coach_jumps: int = Field(default=12, description="with jumps; CP")
    people_a_coach: int = Field(default=16, description="mixed, loaded; CP")
    most_substitutes: int = Field(default=3, description="a class; CP")
    room_people_caution: int = 40
    most_of_a_pattern: int = Field(default=2, description="exercises a class, when proposing; CP")
    most_jumping: int = Field(default=2, description="exercises a class, when proposing; CP")
    most_accessories: int = Field(
        default=1,
        description="exercises a class for one muscle or one elbow, when proposing; our choice",
    )
    most_of_a_line: int = Field(
        default=2,
        description="exercises a class that hold one line, as a part too, when proposing; "
        "our choice",
    )
    least_places_for_four: int = Field(
        default=4, description="places from which knee, hip, push and pull are each needed; CP"
    )
    least_places_for_trunk: int = Field(default=5, description="from which trunk is needed; CP")
    balance_days: int = Field(default=14, description="over which balance is judged; CP")
    recent_days: int = Field(default=7, description="within which an exercise counts as recent")
    overlap_hours: int = Field(default=48, description="a muscle worked hard so lately; CP")
    pace_between_bp: int = Field(default=1500, description="SD between people; CP")
    pace_within_bp: int = Field(default=800, description="SD from set to set; CP")
    last_third_bp: int = Field(default=11_000, description="seconds a rep, last third of a set; CP")
    round_slower_bp: int = Field(default=500, description="each round after the first; CP")
    swap_here_s: int = Field(default=12, description="other dumbbells at one's place; CP")
    rack_trip_s: int = Field(default=30, description="to the rack and back, without a queue; CP")
    first_time_s: int = Field(default=5, description="more in the first round; CP")
    floor_up_s: int = Field(default=8, description="from floor to standing; CP")

    work_rests: tuple[WorkRest, ...] = Field(
        default=(
            WorkRest(room="newcomers", work_s=20, rest_s=40),
            WorkRest(room="newcomers", work_s=30, rest_s=30),
            WorkRest(room="mixed", work_s=30, rest_s=30),
            WorkRest(room="mixed", work_s=40, rest_s=20),
            WorkRest(room="trained", work_s=45, rest_s=15),
            WorkRest(room="heavier", work_s=30, rest_s=60),
        ),
        description="work and rest that the tool may choose; CP, no source",
    )
    trained_classes: int = Field(
        default=12, description="classes done from which somebody is trained; our choice"
    )
    spare_s: int = Field(
        default=120, description="of the slot that may be left unused for nothing; our choice"
    )

    @property
    def digest(self) -> str:
        """Digest over every figure."""
        return digest_of(self.model_dump(mode="json"))


def limit_for(limits: tuple[Limit, ...], classes_done: int, level: int) -> int:
    """Give the last limit of a table that a person has reached."""
    return [
        row.limit for row in limits if row.from_classes <= classes_done and row.from_level <= level
    ][-1]

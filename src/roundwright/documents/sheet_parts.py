"""What a class sheet is made of: frozen lines of words, ready for paper or page.

Nothing is computed from these any more; names are joined already, so a sheet
is personal and stays on the coach's side.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PersonAt:
    """A person under a version; `note` holds an own count, own rounds or an own tail.

    `person_id` is for addresses of pages, never for paper.
    """

    name: str
    note: str = ""
    person_id: str = ""


@dataclass(frozen=True, slots=True)
class LoadGroup:
    """The people who do a version with the same load, as 'pair 8', 'one 6', 'no load'."""

    load: str
    people: tuple[PersonAt, ...]


@dataclass(frozen=True, slots=True)
class VersionRow:
    """One named version at a place; `count` only where it differs from the exercise's own."""

    name: str
    count: str
    loads: tuple[LoadGroup, ...]
    is_substitute: bool = False

    @property
    def people(self) -> tuple[str, ...]:
        """Names of everyone who does this version."""
        return tuple(person.name for group in self.loads for person in group.people)


@dataclass(frozen=True, slots=True)
class Move:
    """One movement of an exercise as it is shown: name, side at work, picture, seconds a rep.

    `picture` is SVG text, empty where the movement has no posture or was shown before.
    """

    movement_id: str
    name: str
    side: str
    picture: str
    seconds: float


@dataclass(frozen=True, slots=True)
class ExerciseBlock:
    """One place of the round: its count, clock times by round, and versions easy to hard."""

    position: int
    name: str
    parts: str
    count: str
    window: str
    starts: tuple[str, ...]
    versions: tuple[VersionRow, ...]
    sitting_out: tuple[str, ...]
    cue: str
    limiter: str
    moves: tuple[Move, ...] = ()


@dataclass(frozen=True, slots=True)
class GroupLine:
    """A pair or a group: its mark, its people, where it begins.

    In pairs the people stand in turn: those who work first are the first, third and so on.
    `begins_at` is a place of the round, None where all begin at the first.
    """

    mark: str
    people: tuple[str, ...]
    begins_at: int | None = None


@dataclass(frozen=True, slots=True)
class IntervalRow:
    """One stretch of work in which groups stand at different places: length, clock by round."""

    number: int
    length: str
    starts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class StretchRow:
    """A stretch that is no exercise: warm-up, demonstration, rest, cool-down."""

    name: str
    length: str
    starts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class BurstBlock:
    """The cardio burst after a round, and who does which version of it."""

    length: str
    starts: tuple[str, ...]
    groups: tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True)
class PieceLine:
    """One piece of warm-up or cool-down: most people's version, and who does another or rests.

    `how` says how often, where it is counted; `others` holds version and names;
    `landings` holds name and words of another version in which people land.
    """

    name: str
    length: str
    how: str
    set_up: str
    steps: tuple[str, ...]
    cue: str
    others: tuple[tuple[str, tuple[str, ...]], ...]
    landings: tuple[tuple[str, str], ...]
    resting: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class KitRow:
    """What to set out: how many single pieces at most at once, and who uses it."""

    what: str
    how_many: int
    people: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ScriptItem:
    """What a stand-in says at one place, short enough for arm's length."""

    position: int
    name: str
    version: str
    set_up: str
    steps: tuple[str, ...]
    breathing: str
    cues: tuple[str, ...]
    stop_fault: str


@dataclass(frozen=True, slots=True)
class PersonCell:
    """What one person does at one place."""

    position: int
    exercise: str
    version: str
    load: str
    count: str


@dataclass(frozen=True, slots=True)
class PersonLine:
    """One person: number on the floor plan, actions without reasons, and their class."""

    number: int
    name: str
    partners: tuple[str, ...]
    actions: tuple[str, ...]
    burst: str
    cells: tuple[PersonCell, ...]


@dataclass(frozen=True, slots=True)
class Place:
    """A place on the floor, its corner and size in mm, and what stands at it.

    It is one person's, marked with their number, or a station of the class
    (`is_station`), marked with its place in the round and named after its exercise.
    """

    number: int
    name: str
    x_mm: int
    y_mm: int
    width_mm: int
    depth_mm: int
    items: tuple[str, ...]
    is_station: bool = False


@dataclass(frozen=True, slots=True)
class WallMark:
    """A door, the rack or the like: its words, and where it lies in mm."""

    kind: str
    wall: str
    words: str
    x_mm: int
    y_mm: int
    width_mm: int
    depth_mm: int


@dataclass(frozen=True, slots=True)
class FloorPlan:
    """A proposal of places in the room's rectangle; `unplaced` did not fit at this spacing."""

    length_mm: int
    width_mm: int
    front_mm: int
    aisle_mm: int
    places: tuple[Place, ...]
    unplaced: tuple[str, ...]
    words: str
    marks: tuple[WallMark, ...] = ()


@dataclass(frozen=True, slots=True)
class SheetContent:
    """Everything that a class sheet says. Page one runs the class, page two sets it up."""

    hall: str
    title: str
    day: str
    starts: str
    ends: str
    slot_ends: str
    room: str
    form: str
    unit: str
    before: tuple[StretchRow, ...]
    rounds: int
    exercises: tuple[ExerciseBlock, ...]
    burst: BurstBlock | None
    rest: StretchRow | None
    after: tuple[StretchRow, ...]
    usual_effort: str
    kit: tuple[KitRow, ...]
    handovers: tuple[str, ...]
    floor: FloorPlan
    script: tuple[ScriptItem, ...]
    people: tuple[PersonLine, ...]
    to_talk_to: tuple[str, ...]
    findings: tuple[str, ...]
    emergency: tuple[str, ...]
    stop_signs: tuple[str, ...]
    cautions: tuple[str, ...]
    questions: tuple[str, ...]
    printed_at: str
    plan_mark: str
    warm_up: tuple[PieceLine, ...] = ()
    cool_down: tuple[PieceLine, ...] = ()
    groups: tuple[GroupLine, ...] = ()
    intervals: tuple[IntervalRow, ...] = ()

"""What a posture is: a few key positions of one movement, as a coach would describe them.

A posture says which way up the body is, what touches what, a handful of
angles, where hands go, what is held. The solver finds the rest. One-sided
movements are described for the left side at work; the right is its mirror.
The how-to page 'Describe a posture' is written for authors.
"""

from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BeforeValidator, Field, model_validator

from roundwright.body import posture_words as words
from roundwright.body.posture_words import Base, Hold, Path, RopePlace, Surface
from roundwright.foundation.canonical import digest_of_json
from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Authored

SCHEMA = "roundwright.posture/1"


def _no_flag(value: Any) -> Any:
    if isinstance(value, bool):
        raise ValueError("expected a number, not yes or no")
    return value


def _some_way(value: tuple[float, float, float]) -> tuple[float, float, float]:
    if max(abs(each) for each in value) < 1e-6:
        raise ValueError("expected a direction that is not zero")
    return value


Free = Literal["free"]
Number = Annotated[float, BeforeValidator(_no_flag)]
Degrees = Annotated[Number, Field(ge=-360, le=360, description="degrees")]
Fraction = Annotated[Number, Field(ge=-1.5, le=1.5, description="fraction of stature")]
Metres = Annotated[Number, Field(ge=-4, le=4, description="m")]
Part = Annotated[Number, Field(ge=-10, le=10)]
Triple = Annotated[tuple[Part, Part, Part], AfterValidator(_some_way)]
KeyName = Annotated[str, Field(min_length=2, max_length=30)]


def _one_of(names: list[str]) -> BeforeValidator:
    def known(value: Any) -> Any:
        if isinstance(value, str) and value not in names:
            raise ValueError(f"expected one of {len(names)} known names")
        return value

    return BeforeValidator(known)


AngleName = Annotated[str, _one_of(words.ANGLE_NAMES)]
TouchName = Annotated[str, _one_of(words.TOUCH_NAMES)]
AimName = Annotated[str, _one_of(words.AIM_NAMES)]
PutName = Annotated[str, _one_of(words.PUT_NAMES)]
PointName = Annotated[str, _one_of(words.POINT_NAMES)]
DirectionWord = Annotated[str, _one_of([*words.DIRECTIONS, words.LEVEL, words.FREE])]
PlaceWord = Annotated[str, _one_of([*words.PLACES, words.FREE])]

Nothing = Literal["none"]

KEY_NAMES: dict[str, list[str]] = {
    "angles": words.ANGLE_NAMES,
    "touch": words.TOUCH_NAMES,
    "aim": words.AIM_NAMES,
    "put": words.PUT_NAMES,
    "height": words.POINT_NAMES,
    "weight": words.TOUCH_NAMES,
}
"""Fields that are tables with names of their own, and those names."""


class Touch(Authored):
    """One part that rests on something; a bare word is the surface alone."""

    on: Surface
    forward: Fraction | None = None
    out: Fraction | None = None
    up: Fraction | None = None
    turn: Degrees | None = Field(default=None, description="toes or fingers out +")
    light: bool = Field(default=False, description="it touches but carries no weight")
    moves: bool = Field(default=False, description="not held where it was in the key before")

    @model_validator(mode="before")
    @classmethod
    def _from_word(cls, value: Any) -> Any:
        return {"on": value} if isinstance(value, str) else value


class Place(Authored):
    """Where a hand, elbow, knee or foot goes: by a point, with a distance in that part's axes."""

    by: PointName
    forward: Fraction = 0.0
    out: Fraction = 0.0
    up: Fraction = 0.0


class Pose(Authored):
    """What is said of one position, or of all positions of a posture."""

    angles: dict[AngleName, Degrees | Free] = Field(default_factory=dict)
    lean: Degrees | Free | None = Field(default=None, description="trunk from upright")
    touch: dict[TouchName, Touch] = Field(default_factory=dict)
    aim: dict[AimName, DirectionWord | Triple] = Field(default_factory=dict)
    put: dict[PutName, PlaceWord | Place] = Field(default_factory=dict)
    height: dict[PointName, Fraction | Free] = Field(default_factory=dict)
    weight: dict[TouchName, Annotated[Number, Field(ge=0, le=1)] | Free] = Field(
        default_factory=dict
    )
    hold: Hold | None = None
    dynamic: bool | None = Field(default=None, description="in flight or falling: no balance")
    rope: RopePlace | None = None

    @model_validator(mode="before")
    @classmethod
    def _angles_apart(cls, value: Any) -> Any:
        """Gather what is no field of its own under `angles`, where it is checked by name."""
        if not isinstance(value, dict) or "angles" in value:
            return value
        own = {k: v for k, v in value.items() if k in cls.model_fields}
        return own | {"angles": {k: v for k, v in value.items() if k not in cls.model_fields}}


class Push(Authored):
    """An arrow for a press in which nothing moves: at which point, and which way it presses."""

    at: PointName
    towards: Annotated[str, _one_of(list(words.DIRECTIONS))] | Triple


class Key(Pose):
    """One key position."""

    name: KeyName
    base: Base | None = None
    arrow: PointName | Nothing | Push | None = None


class Bench(Authored):
    """A flat bench: height in m, and whether its length runs forward or across."""

    height: Number = Field(default=0.45, gt=0.1, le=1.2)
    along: Literal["forward", "across"] = "across"
    shift: tuple[Metres, Metres] = (0.0, 0.0)


class Box(Authored):
    """A box: height in m, moved by `shift` (forward, left) from under what touches it."""

    height: Number = Field(default=0.30, gt=0.03, le=1.2)
    shift: tuple[Metres, Metres] = (0.0, 0.0)


class Chair(Authored):
    """A chair: seat height in m, and which way a sitter would face."""

    height: Number = Field(default=0.45, gt=0.2, le=0.8)
    faces: Literal["forward", "back", "left", "right"] = "forward"
    shift: tuple[Metres, Metres] = (0.0, 0.0)


class Wall(Authored):
    """A wall: which side of the person, and how far from the origin as a fraction of stature."""

    side: Literal["front", "back", "left", "right"] = "front"
    away: Annotated[Number, Field(gt=0, le=1.5)] = 0.35


class Band(Authored):
    """A band: drawn from its anchor (forward, left, up, in m; or under the feet) to the hands."""

    anchor: tuple[Metres, Metres, Metres] | Literal["feet"] = (0.6, 0.0, 1.0)
    to: Literal["hands", "hand_left", "hand_right"] = "hands"


class Props(Authored):
    """What stands in the room; a thing that is touched but not listed has its usual size."""

    bench: Bench | None = None
    box: Box | None = None
    chair: Chair | None = None
    wall: Wall | None = None
    band: Band | None = None


class Posture(Pose):
    """One movement: what holds in all key positions, and the key positions."""

    slug: Slug
    base: Base = Base.STANDING
    view: Degrees = Field(default=30, description="round from the left side")
    path: Path = Path.THERE_AND_BACK
    first: KeyName | None = Field(default=None, description="key that places hands and feet")
    lift: PointName | Nothing | None = Field(
        default=None, description="point whose rise is the lift; none: no share"
    )
    props: Props = Props()
    key: tuple[Key, ...] = Field(min_length=1, max_length=5)

    @property
    def anchor(self) -> int:
        """Place of the key that is solved first."""
        return next((i for i, key in enumerate(self.key) if key.name == self.first), 0)

    @property
    def digest(self) -> str:
        """SHA-256 of what was written, once `like` is resolved; the slug is not part of it."""
        return digest_of_json(self.model_dump(mode="json", exclude={"slug"}, exclude_none=True))


PROP_OF: dict[Surface, str] = {
    Surface.BENCH: "bench",
    Surface.BOX: "box",
    Surface.CHAIR: "chair",
    Surface.CHAIR_BACK: "chair",
    Surface.WALL: "wall",
}
"""Which prop a surface belongs to."""

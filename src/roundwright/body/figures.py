"""All figures of a solved posture for one body: moments by load, supports, work, floor."""

from dataclasses import dataclass
from itertools import takewhile

from roundwright.body.demand_bands import JOINT_NAMES, Demand
from roundwright.body.posture import Posture
from roundwright.body.segment_table import GRAVITY_M_S2
from roundwright.body.solved import SolvedPosture
from roundwright.body.statics import JOINTS, Held, HeldPosition
from roundwright.body.work import LiftWork, footprint_m, lift_work


@dataclass(frozen=True)
class KeyFigures:
    """One key position: what is held at each load."""

    name: str
    helds: tuple[Held, ...]
    """One for each load, up to the first with which the body would fall; none where dynamic."""


@dataclass(frozen=True)
class BodyFigures:
    """All figures of one body."""

    load_shares: tuple[float, ...]
    """Mass of one dumbbell as a share of body mass."""
    keys: tuple[KeyFigures, ...]
    work: LiftWork
    footprint_m: tuple[float, float]
    band_pulls_unweighed: bool = False
    """A band pulls with a force that the model does not know: what is held without it is not what
    the exercise asks, so no demand is given."""


def figures_of(
    solved: SolvedPosture, body: int, load_shares: tuple[float, ...] = (0.0,)
) -> BodyFigures:
    """Give all figures of one of the bodies for some loads."""
    keys = []
    for key in solved.keys:
        helds: list[Held] = []
        if not key.pose.dynamic:
            position = HeldPosition(key, body)
            found = (position.held(share) for share in load_shares)
            helds = list(takewhile(lambda held: held.is_balanced, found))
        keys.append(KeyFigures(key.pose.name, tuple(helds)))
    return BodyFigures(
        load_shares,
        tuple(keys),
        lift_work(solved, body),
        footprint_m(solved, body),
        has_unweighed_band(solved.posture),
    )


def has_unweighed_band(posture: Posture) -> bool:
    """Say whether a band pulls in a posture: its force is not known."""
    return posture.props.band is not None


def demand_bands(figures: BodyFigures, load: int = 0) -> dict[str, Demand]:
    """Give what each joint is asked at most over the key positions that may be published.

    Where nothing may be (in flight, with a band) each demand names no key and has no band.

    Parameters
    ----------
    figures : BodyFigures
        Figures of one body.
    load : int
        Which of its loads.
    """
    worst: dict[str, Demand] = {name: Demand(name, 0.0, 0.0, "") for name in JOINT_NAMES}
    for key in figures.keys:
        if len(key.helds) <= load or figures.band_pulls_unweighed:
            continue
        held = key.helds[load]
        for joint in JOINTS:
            name = joint.removesuffix("_left").removesuffix("_right")
            total = held.total[joint] * GRAVITY_M_S2
            if total > worst[name].nm_per_kg:
                bend = held.bend[joint] * GRAVITY_M_S2
                worst[name] = Demand(name, total, bend, key.name)
    return worst

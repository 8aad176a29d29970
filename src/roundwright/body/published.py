"""The body model beside published measurements: figure, source, error, and what was fitted."""

from collections.abc import Mapping
from dataclasses import dataclass

from roundwright.body.build import BodySex, bodies_of
from roundwright.body.posture import Posture
from roundwright.body.segment_table import GRAVITY_M_S2
from roundwright.body.solved import solve_posture
from roundwright.body.statics import HeldPosition

PERSON = (BodySex.MALE, 1.75)
"""The body that is compared; the published means are of groups."""

HANDS_ON_BOX = "fitted: where the hands go was chosen after its share was seen"
NOT_FITTED = "not fitted"


@dataclass(frozen=True)
class PublishedFigure:
    """One published figure and how the model gets at the same thing."""

    posture: str
    key: int
    what: str
    """`hands`: share of body weight on the hands; `hip_and_knee`: N·m per kg, of one leg."""
    value: float
    source: str
    fitted: str


EBBEN = "pushup-load-ebben (Ebben 2011, 14 men, 9 women, peak of a moving rep)"
SUPRAK = "pushup-load-suprak (Suprak 2011, 28 men, held; second decimals from memory)"
YOSHIOKA = "Yoshioka 2007, abstract; 'of one leg' is our reading"

PUBLISHED: tuple[PublishedFigure, ...] = (
    PublishedFigure("hands_on_61_cm", 0, "hands", 0.41, EBBEN, HANDS_ON_BOX),
    PublishedFigure("knees", 0, "hands", 0.49, EBBEN, NOT_FITTED),
    PublishedFigure("hands_on_30_cm", 0, "hands", 0.55, EBBEN, HANDS_ON_BOX),
    PublishedFigure("regular", 0, "hands", 0.64, EBBEN, NOT_FITTED),
    PublishedFigure("feet_on_30_cm", 0, "hands", 0.70, EBBEN, NOT_FITTED),
    PublishedFigure("feet_on_61_cm", 0, "hands", 0.74, EBBEN, NOT_FITTED),
    PublishedFigure("regular", 0, "hands", 0.6916, SUPRAK, NOT_FITTED),
    PublishedFigure("regular", 1, "hands", 0.7504, SUPRAK, NOT_FITTED),
    PublishedFigure("knees", 0, "hands", 0.5356, SUPRAK, NOT_FITTED),
    PublishedFigure("knees", 1, "hands", 0.618, SUPRAK, NOT_FITTED),
    PublishedFigure("parallel_squat", 1, "hip_and_knee", 1.53, YOSHIOKA, NOT_FITTED),
)


@dataclass(frozen=True)
class Checked:
    """A published figure with what the model gives."""

    published: PublishedFigure
    key: str
    model: float

    @property
    def error(self) -> float:
        """Model less published."""
        return self.model - self.published.value


def checked_figures(postures: Mapping[str, Posture]) -> tuple[Checked, ...]:
    """Compute every published figure anew.

    Parameters
    ----------
    postures : mapping
        The postures of published measurements, by short name.
    """
    bodies = bodies_of([PERSON])
    solved = {
        slug: solve_posture(postures[slug], bodies)
        for slug in dict.fromkeys(each.posture for each in PUBLISHED)
    }
    found = []
    for each in PUBLISHED:
        key = solved[each.posture].keys[each.key]
        held = HeldPosition(key, 0).held()
        if each.what == "hands":
            model = held.share("palm")
        else:
            model = (held.bend["hip_left"] + held.bend["knee_left"]) * GRAVITY_M_S2
        found.append(Checked(each, key.pose.name, model))
    return tuple(found)

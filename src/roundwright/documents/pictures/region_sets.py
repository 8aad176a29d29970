"""Hard sets by region of the body: hatched bars, no tinted figure.

A set counts for a region once, at the greatest role of its muscles: prime mover a set, helper
half a set. It is hard with four reps left or fewer, as in the count of a plan.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from statistics import median

from roundwright.body.anatomy import Muscle
from roundwright.documents.pictures.ink import (
    HAIR,
    SLANTED,
    SMALL,
    SOFT,
    Picture,
    Table,
    drawing,
    line,
    rect,
    words_at,
)
from roundwright.documents.plan_view import PlanView
from roundwright.dose.counting import reps_of_steps
from roundwright.dose.muscle_sets import HARD_SET_RIR, half_sets_of_set
from roundwright.foundation.words import in_sentence, say, say_number
from roundwright.plan.core import Cell
from roundwright.plan.count import link_s_of
from roundwright.plan.document import PlanDocument

NAME = "regions"
WIDTH, LEFT, RIGHT, TOP, ROW, BAR = 900, 200, 60, 96, 36, 20
REGIONS: dict[str, tuple[Muscle, ...]] = {
    "Front of thigh": (Muscle.QUADS, Muscle.HIP_FLEXORS),
    "Seat and hamstrings": (Muscle.GLUTES, Muscle.HAMSTRINGS),
    "Inner and outer thigh": (Muscle.ADDUCTORS, Muscle.ABDUCTORS),
    "Calves": (Muscle.CALVES,),
    "Chest": (Muscle.CHEST,),
    "Back": (Muscle.LATS, Muscle.UPPER_BACK),
    "Shoulders": (Muscle.FRONT_DELTS, Muscle.SIDE_DELTS, Muscle.REAR_DELTS),
    "Arms": (Muscle.BICEPS, Muscle.TRICEPS, Muscle.FOREARMS),
    "Trunk": (Muscle.ABDOMINALS, Muscle.OBLIQUES, Muscle.LOW_BACK),
}
"""Every muscle belongs to one region; the grouping is our choice."""
WORDS = (
    "Bars: the middle of those who do hard sets (half do more, half fewer). "
    "Thin line: from the fewest to the most."
)


@dataclass(frozen=True, slots=True)
class _Region:
    name: str
    half_sets: tuple[int, ...]
    """Of everyone who does any hard set at all, sorted."""

    @property
    def middle(self) -> float:
        return median(self.half_sets) / 2 if self.half_sets else 0.0

    @property
    def ends(self) -> tuple[float, float]:
        return (self.half_sets[0] / 2, self.half_sets[-1] / 2) if self.half_sets else (0.0, 0.0)


def region_sets(document: PlanDocument, names: Mapping[str, str], units: str) -> Picture:
    """Draw hard sets by region of the body.

    Parameters
    ----------
    document : PlanDocument
        The plan.
    names : mapping
        Shown names by person id, for the second table.
    units : {'kg', 'lb'}
        Not shown; the same for all pictures of a plan.

    Returns
    -------
    Picture
        With a table by region, and one by person.

    References
    ----------
    Direct 1 and indirect 1/2: Pelland 2024, from memory; hard at 4 left or fewer: our choice.
    """
    view = PlanView(document, names, units)
    mine = {p: sets_of_person(view, p) for p in view.order}
    hard = [p for p in view.order if any(mine[p].values())]
    regions = [_Region(r, tuple(sorted(mine[p][r] for p in hard))) for r in REGIONS]
    most = max((r.ends[1] for r in regions), default=0)
    title = _title(regions, len(hard), len(view.order))
    top_value = max(1, int(-(-most // 1)))
    bottom = TOP + ROW * len(regions)
    scale = (WIDTH - LEFT - RIGHT) / top_value
    parts = [
        words_at(24, 34, title, size=22, weight=600),
        words_at(24, 58, say(WORDS), fill=SOFT),
        *_axis(top_value, scale, bottom),
        *(part for n, region in enumerate(regions) for part in _drawn(region, n, scale)),
    ]
    svg = drawing(NAME, WIDTH, bottom + 48, title, say(WORDS), parts)
    return Picture(NAME, title, say(WORDS), svg, (_table(regions), _people(view, mine)))


def sets_of_person(view: PlanView, person_id: str) -> dict[str, int]:
    """Give a person's hard sets by region, in half sets; all zero where their sets are not hard."""
    total = dict.fromkeys(REGIONS, 0)
    dose = view.doses[person_id]
    if dose.rir > HARD_SET_RIR:
        return total
    for number in dose.rounds:
        for cell in view.core.cells_of(person_id, number):
            worth = _worth(view, cell)
            for region, muscles in REGIONS.items():
                total[region] += max((worth.get(m.value, 0) for m in muscles), default=0)
    return total


def _worth(view: PlanView, cell: Cell) -> dict[str, int]:
    if cell.count is None:
        return {}
    movements = view.library.movements
    link_s = link_s_of(view.problem, cell.exercise_id)
    return half_sets_of_set(reps_of_steps(cell.count, cell.steps, movements, link_s), movements)


def _title(regions: list[_Region], hard: int, people: int) -> str:
    if not hard:
        return say("Hard sets: none, everybody stops well before")
    chief = max(regions, key=lambda r: r.middle)
    return say(
        "Hard sets by region: most for {region}; {hard} of {people} people do any",
        region=in_sentence(say(chief.name)),
        hard=hard,
        people=people,
    )


def _axis(top_value: int, scale: float, bottom: float) -> list[str]:
    step = 1 if top_value <= 12 else 5
    found = []
    for number in range(0, top_value + 1, step):
        x = LEFT + number * scale
        found.append(rect(x - 0.5, TOP - 6, 1, bottom - TOP + 10, fill=HAIR))
        found.append(words_at(x, bottom + 22, str(number), size=SMALL, anchor="middle"))
    found.append(words_at(LEFT, bottom + 40, say("hard sets of a person"), size=SMALL, fill=SOFT))
    return found


def _drawn(region: _Region, n: int, scale: float) -> list[str]:
    top = TOP + ROW * n
    middle = top + BAR / 2
    found = [words_at(LEFT - 10, middle + 5, say(region.name), anchor="end", weight=500)]
    if region.middle:
        said = say(
            "{region}: {n} hard sets", region=say(region.name), n=say_number(f"{region.middle:g}")
        )
        found.append(
            rect(LEFT, top, region.middle * scale, BAR, fill=SLANTED.fill, line=1, more=said)
        )
    low, high = region.ends
    if high:
        found.append(line(LEFT + low * scale, middle, LEFT + high * scale, middle, width=2))
        for end in (low, high):
            x = LEFT + end * scale
            found.append(line(x, middle - 6, x, middle + 6, width=2))
    return found


def _table(regions: list[_Region]) -> Table:
    return Table(
        say("Hard sets by region, of those who do any"),
        (say("Region"), say("Fewest"), say("Middle"), say("Most")),
        tuple(
            (say(r.name), *(say_number(f"{n:g}") for n in (r.ends[0], r.middle, r.ends[1])))
            for r in regions
        ),
    )


def _people(view: PlanView, mine: Mapping[str, Mapping[str, int]]) -> Table:
    rows = tuple(
        (view.name(p), *(say_number(f"{mine[p][region] / 2:g}") for region in REGIONS))
        for p in view.order
    )
    return Table(say("Hard sets by person"), (say("Person"), *map(say, REGIONS)), rows)

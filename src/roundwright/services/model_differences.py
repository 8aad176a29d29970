"""Where the body model and the author of the library differ, each with its reason."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from roundwright.body.body_table import BodyTable
from roundwright.body.people_figures import hands_share_bp, lifted_share_bp
from roundwright.body.posture import Posture
from roundwright.foundation.quantities import BP
from roundwright.library.model_demands import (
    DEGREE_FROM_NM_PER_KG,
    USUAL_MALE_PART,
    USUAL_STATURE_M,
    added,
    model_degrees,
    usual_load_share,
)
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import Pattern

SHARE_APART = 0.10
"""Lifted shares that differ by less are not listed; our choice."""


@dataclass(frozen=True, slots=True)
class Difference:
    """One figure on which both speak and do not say the same."""

    movement: str
    what: str
    author: str
    model: str
    holds: str
    """Which of the two holds in plans: `model` only where it asks for more."""
    reason: str


@dataclass(frozen=True, slots=True)
class Agreement:
    """How often both give one demand the same degree, over movements with a posture."""

    demand: str
    same: int
    author_higher: int
    model_higher: int


def differences(
    movements: Mapping[str, Movement], postures: Mapping[str, Posture], table: BodyTable
) -> tuple[Difference, ...]:
    """List every difference of the authored library and the model.

    Parameters
    ----------
    movements : mapping
        The library as its authors wrote it.
    postures, table : mapping, BodyTable
        Postures and their figures.
    """
    found: list[Difference] = []
    for slug in sorted(movements.keys() & postures.keys()):
        movement = movements[slug]
        found += _of_demands(movement, postures[slug], table)
        found += _of_share(movement, table)
        found += _of_floor(movement, table)
    return tuple(found)


def agreement(
    movements: Mapping[str, Movement], postures: Mapping[str, Posture], table: BodyTable
) -> tuple[Agreement, ...]:
    """Count, demand by demand, how often the degrees are the same."""
    shown = sorted(movements.keys() & postures.keys())
    all_degrees = {s: model_degrees(movements[s], postures[s], table) for s in shown}
    out = []
    for demand in DEGREE_FROM_NM_PER_KG:
        pairs = [(movements[s].demand(demand), all_degrees[s][demand].degree) for s in shown]
        out.append(
            Agreement(
                demand.value,
                same=sum(a == m for a, m in pairs),
                author_higher=sum(a > m for a, m in pairs),
                model_higher=sum(a < m for a, m in pairs),
            )
        )
    return tuple(out)


def _of_demands(movement: Movement, posture: Posture, table: BodyTable) -> Iterator[Difference]:
    load = usual_load_share(movement, posture)
    with_load = f", with {load:.0%} of body mass in a hand" if load else ""
    for demand, each in added(movement, model_degrees(movement, posture, table)):
        least = DEGREE_FROM_NM_PER_KG[demand][each.degree - 1]
        yield Difference(
            movement=movement.slug,
            what=demand.value,
            author=str(movement.demand(demand)),
            model=str(each.degree),
            holds="model",
            reason=f"held at '{each.key}'{with_load}: {each.nm_per_kg:.2f} N·m/kg, "
            f"{each.degree} is from {least:.2f}",
        )


def _of_share(movement: Movement, table: BodyTable) -> Iterator[Difference]:
    row = table.movements[movement.slug]
    if not movement.lifted_share:
        return
    if movement.pattern is Pattern.HORIZONTAL_PUSH:
        given = hands_share_bp(row, USUAL_STATURE_M, USUAL_MALE_PART)
        reason = "share of the weight on the hands, held at the first key position"
    else:
        given = lifted_share_bp(row, USUAL_STATURE_M, USUAL_MALE_PART)
        reason = "rise of the body's centre by rise of the lift; the author's is the trade's share"
    if given is not None and abs(given / BP - movement.lifted_share) >= SHARE_APART:
        yield Difference(
            movement=movement.slug,
            what="lifted_share",
            author=f"{movement.lifted_share:.2f}",
            model=f"{given / BP:.2f}",
            holds="author",
            reason=reason,
        )


def _of_floor(movement: Movement, table: BodyTable) -> Iterator[Difference]:
    length, width = table.movements[movement.slug].footprint_mm
    longer, shorter = max(length, width), min(length, width)
    floor = max(movement.floor.length, movement.floor.width)
    across = min(movement.floor.length, movement.floor.width)
    if longer > floor or shorter > across:
        yield Difference(
            movement=movement.slug,
            what="floor",
            author=f"{floor / 1000:g} × {across / 1000:g} m",
            model=f"{longer / 1000:.2f} × {shorter / 1000:.2f} m",
            holds="author",
            reason="the floor under somebody of 1.90 m in all key positions",
        )

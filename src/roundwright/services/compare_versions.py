"""Two versions side by side: bands by joint, which asks less of what when held, work and share."""

from collections.abc import Mapping
from dataclasses import dataclass

from roundwright.body.body_table import BodyTable
from roundwright.body.demand_bands import JOINT_NAMES, LABEL, SENSITIVITY, Demand, compared
from roundwright.body.people_figures import demand_of, rep_joules
from roundwright.body.posture import Posture
from roundwright.foundation.errors import NotFoundError
from roundwright.foundation.identifiers import nearest_names
from roundwright.foundation.shown import mass
from roundwright.foundation.words import say, say_number, shown_units
from roundwright.library.catalogue import Catalogue
from roundwright.library.model_demands import (
    USUAL_MALE_PART,
    USUAL_MASS_G,
    USUAL_STATURE_M,
    usual_load_share,
)

NOT_TOLERANCE = (
    "What is asked when held is not what a joint can stand. Speed and landing are not in it."
)
NOTHING_APART = "When held, neither asks clearly less of any joint."
NOT_KNOWN = "not known"
NOT_COMPARED = (
    "They cannot be compared: a band pulls that is not weighed, or nothing is held still."
)


@dataclass(frozen=True, slots=True)
class ComparedVersion:
    """One of the two: name, bands by joint, load it was judged with, work of a rep."""

    movement_id: str
    name: str
    load: str
    bands: tuple[str, ...]
    """In words, in the order of `Comparison.joints`."""
    work: str


@dataclass(frozen=True, slots=True)
class Comparison:
    """Both versions and what may be said of them."""

    label: str
    joints: tuple[str, ...]
    one: ComparedVersion
    other: ComparedVersion
    said: tuple[str, ...]
    """Sentences; only where figures are more than a fifth apart."""
    sensitivity: str
    caution: str
    for_whom: str


def compare_versions(
    catalogue: Catalogue,
    postures: Mapping[str, Posture],
    table: BodyTable,
    one: str,
    other: str,
) -> Comparison:
    """Compare two movements.

    Raises
    ------
    NotFoundError
        When one of them is unknown or has no posture.
    """
    for slug in (one, other):
        if slug not in postures or slug not in catalogue.movements:
            near = nearest_names(slug, [s for s in catalogue.movements if s in postures])
            hint = f"Nearest: {', '.join(near)}." if near else "See: roundwright library list."
            raise NotFoundError(f"The library has no movement '{slug}' with a posture.", hint)
    found = {slug: _demands(catalogue, postures, table, slug) for slug in (one, other)}
    name = catalogue.movements[one].name
    said = [compared(joint, found[one], found[other]) for joint in JOINT_NAMES]
    return Comparison(
        label=say(LABEL),
        joints=tuple(say("low back" if joint == "lumbar" else joint) for joint in JOINT_NAMES),
        one=_version(catalogue, postures, table, one, found[one]),
        other=_version(catalogue, postures, table, other, found[other]),
        said=tuple(f"{name} {words}." for words in said if words) or (_nothing_said(found),),
        sensitivity=say("How far to trust it: {words}.", words=say(SENSITIVITY)),
        caution=say(NOT_TOLERANCE),
        for_whom=say(
            "For somebody of {stature} m and {mass}, midway between women and men.",
            stature=say_number(f"{USUAL_STATURE_M:.2f}"),
            mass=_mass(USUAL_MASS_G),
        ),
    )


def _mass(grams: int) -> str:
    return mass(grams, shown_units("kg"))


def _nothing_said(found: Mapping[str, Mapping[str, Demand]]) -> str:
    """Say why nothing is said: both are alike, or of one nothing is known."""
    known = all(each.band is not None for demands in found.values() for each in demands.values())
    return say(NOTHING_APART if known else NOT_COMPARED)


def _demands(
    catalogue: Catalogue, postures: Mapping[str, Posture], table: BodyTable, slug: str
) -> dict[str, Demand]:
    load = usual_load_share(catalogue.movements[slug], postures[slug])
    return demand_of(table, slug, USUAL_STATURE_M, USUAL_MALE_PART, load)


def _version(
    catalogue: Catalogue,
    postures: Mapping[str, Posture],
    table: BodyTable,
    slug: str,
    found: Mapping[str, Demand],
) -> ComparedVersion:
    movement = catalogue.movements[slug]
    load_kg = usual_load_share(movement, postures[slug]) * USUAL_MASS_G / 1000
    count = movement.dumbbells_needed
    words = f"{count} × {_mass(round(load_kg) * 1000)}" if load_kg else say("no load")
    joules = rep_joules(
        table.movements[slug], USUAL_STATURE_M, USUAL_MALE_PART, USUAL_MASS_G / 1000, load_kg
    )
    return ComparedVersion(
        movement_id=slug,
        name=movement.name,
        load=words,
        bands=tuple(say(found[joint].band or NOT_KNOWN) for joint in JOINT_NAMES),
        work=say("{n} joules of lifting work a rep", n=say_number(f"{float(f'{joules:.2g}'):g}")),
    )

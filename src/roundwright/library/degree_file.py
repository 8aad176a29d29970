"""The body model's degrees of all shipped movements as one small file, read at every start.

The figures themselves are large; a plan needs only these. Each entry carries the
digest of the posture it was taken from, the whole file the digest of the bands.
"""

import json
from collections.abc import Mapping

from pydantic import Field, ValidationError

from roundwright.body.body_table import BodyTable
from roundwright.body.posture import Posture
from roundwright.foundation.canonical import digest_of_json
from roundwright.foundation.faults import Fault
from roundwright.foundation.identifiers import Slug
from roundwright.foundation.model import Stored
from roundwright.library.model_demands import (
    BENT_KNEE_DEG,
    DEGREE_FROM_NM_PER_KG,
    RESTS_ON,
    USUAL_MALE_PART,
    USUAL_MASS_G,
    USUAL_STATURE_M,
    model_degrees,
)
from roundwright.library.movement import DemandDegree, Movement
from roundwright.library.vocabulary import Demand

SCHEMA = "roundwright.degrees/1"


class MovementDegrees(Stored):
    """The model's degrees of one movement; a demand with none is left out."""

    posture: str
    """Digest of the posture."""
    degrees: dict[Demand, DemandDegree]


class DegreeFile(Stored):
    """The file as stored."""

    schema_: str = Field(default=SCHEMA, alias="schema")
    bands: str
    """Digest of the bands and of for whom they are taken."""
    movements: dict[Slug, MovementDegrees]

    @property
    def by_movement(self) -> dict[str, dict[Demand, int]]:
        """Degrees by movement."""
        return {slug: dict(each.degrees) for slug, each in self.movements.items()}


def bands_digest() -> str:
    """Give a digest of all choices that turn moments into degrees."""
    return digest_of_json(
        {
            "from": {demand.value: list(each) for demand, each in DEGREE_FROM_NM_PER_KG.items()},
            "person": [USUAL_STATURE_M, USUAL_MALE_PART, USUAL_MASS_G],
            "judged": [BENT_KNEE_DEG, list(RESTS_ON)],
        }
    )


def degrees_of(
    movements: Mapping[str, Movement], postures: Mapping[str, Posture], table: BodyTable
) -> DegreeFile:
    """Give the degrees of all movements that have a posture and a row of figures."""
    found = {}
    for slug in sorted(postures.keys() & movements.keys() & table.movements.keys()):
        degrees = model_degrees(movements[slug], postures[slug], table)
        found[slug] = MovementDegrees(
            posture=postures[slug].digest,
            degrees={demand: each.degree for demand, each in degrees.items() if each.degree},
        )
    return DegreeFile(bands=bands_digest(), movements=found)


def degree_text(file: DegreeFile) -> str:
    """Write the file, one movement a line; equal files give equal text."""
    whole = file.model_dump(mode="json", by_alias=True)
    rows = whole.pop("movements")
    head = json.dumps(whole, sort_keys=True)
    lines = [f"{json.dumps(s)}: {json.dumps(rows[s], sort_keys=True)}" for s in sorted(rows)]
    return head[:-1] + ', "movements": {\n' + ",\n".join(lines) + "\n}}\n"


def read_degree_text(name: str, text: str) -> tuple[DegreeFile | None, tuple[Fault, ...]]:
    """Read the file back, or say what is wrong with it."""
    remedy = "Make the figures of the body model anew."
    try:
        found = DegreeFile.model_validate_json(text)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        field = ".".join(str(step) for step in first["loc"])
        fault = Fault(
            code="field.value", file=name, field=field, expected=first["msg"], remedy=remedy
        )
        return None, (fault,)
    if found.schema_ != SCHEMA:
        fault = Fault(
            code="file.schema", file=name, field="schema", value=found.schema_,
            expected=SCHEMA, remedy=remedy,
        )  # fmt: skip
        return None, (fault,)
    return found, ()

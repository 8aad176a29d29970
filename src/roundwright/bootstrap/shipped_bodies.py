"""The shipped postures with their solved figures: read once, when something asks for them."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from roundwright.body.body_table import BodyTable, model_digest
from roundwright.body.kept_positions import solved_as_kept
from roundwright.body.posture import Posture
from roundwright.body.posture_text import read_postures
from roundwright.body.solved import SolvedPosture
from roundwright.body.table_text import read_table_text
from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import Fault
from roundwright.library.degree_file import DegreeFile, bands_digest, read_degree_text
from roundwright.library.movement import Movement
from roundwright.library.posture_rules import disagreements, without_posture

POSTURES = "roundwright.library.postures"
FIGURES = "roundwright.library.body_figures"
CHECKED = "roundwright.library.checked_postures"
DEGREES = "degrees.json"
REMEDY = "Make the figures of the body model anew."


@dataclass(frozen=True)
class Bodies:
    """All shipped postures and the table of their figures; none of them is stale."""

    postures: Mapping[str, Posture]
    table: BodyTable

    def solved(self, slug: str) -> SolvedPosture:
        """Give a movement's solved posture of the reference body."""
        return solved_as_kept(self.postures[slug], self.table.movements[slug])


def posture_texts() -> dict[str, str]:
    """Give the shipped posture files: name to TOML text."""
    return _texts(POSTURES, ".toml")


def checked_texts() -> dict[str, str]:
    """Give the posture files of published measurements: name to TOML text."""
    return _texts(CHECKED, ".toml")


def checked_postures() -> dict[str, Posture]:
    """Read the postures of published measurements.

    Raises
    ------
    BadInputError
        When one has faults: the installation is damaged.
    """
    return _read(checked_texts())


def shipped_postures() -> dict[str, Posture]:
    """Read the shipped postures.

    Raises
    ------
    BadInputError
        When one has faults: the installation is damaged.
    """
    return _read(posture_texts())


def shipped_table() -> BodyTable:
    """Read the shipped figures, all files together.

    Raises
    ------
    BadInputError
        When one has faults: the installation is damaged.
    """
    rows, models = {}, set()
    for name, text in sorted(_texts(FIGURES, ".json").items()):
        if name == DEGREES:
            continue
        table, faults = read_table_text(name, text)
        if table is None:
            raise BadInputError(faults)
        rows.update(table.movements)
        models.add(table.model)
    return BodyTable(movements=rows, model=models.pop() if len(models) == 1 else "")


@cache
def shipped_bodies() -> Bodies:
    """Give postures and figures, which belong together.

    Raises
    ------
    BadInputError
        When a file has faults, or figures are not of the posture that stands beside them.
    """
    postures, table = shipped_postures(), shipped_table()
    stale = stale_faults(postures, table, shipped_degrees())
    if stale:
        raise BadInputError(stale)
    return Bodies(postures, table)


@cache
def shipped_degrees() -> DegreeFile:
    """Give the model's degrees of all shipped movements.

    Raises
    ------
    BadInputError
        When the file has faults: the installation is damaged.
    """
    text = (files(FIGURES) / DEGREES).read_text(encoding="utf-8")
    found, faults = read_degree_text(DEGREES, text)
    if found is None:
        raise BadInputError(faults)
    return found


def check_bodies(movements: Mapping[str, Movement]) -> None:
    """Check that every movement has a posture that agrees with it, with figures of its own.

    Raises
    ------
    BadInputError
        With everything that does not belong together.
    """
    postures = shipped_bodies().postures
    faults = [
        Fault(code="field.missing", file="postures", field=f"posture.{slug}", value=slug)
        for slug in without_posture(movements, postures)
    ]
    faults += disagreements(movements, postures)
    if faults:
        raise BadInputError(faults)


def stale_faults(
    postures: Mapping[str, Posture], table: BodyTable, degrees: DegreeFile
) -> tuple[Fault, ...]:
    """Name every movement whose figures or degrees were taken from another posture or model."""
    stale = set(table.stale(postures)) | (table.movements.keys() - postures.keys())
    stale |= postures.keys() ^ degrees.movements.keys()
    stale |= {
        slug
        for slug, each in degrees.movements.items()
        if slug in postures and each.posture != postures[slug].digest
    }
    if degrees.bands != bands_digest():
        stale |= degrees.movements.keys()
    expected = (
        "figures of this posture" if table.model == model_digest() else "figures of this model"
    )
    return tuple(
        Fault(code="library.stale", file=FIGURES, field=f"posture.{slug}", value=slug,
              expected=expected, remedy=REMEDY)
        for slug in sorted(stale)
    )  # fmt: skip


def _read(texts: Mapping[str, str]) -> dict[str, Posture]:
    postures, faults = read_postures(texts)
    if faults:
        raise BadInputError(faults)
    return postures


def _texts(package: str, ending: str) -> dict[str, str]:
    return {
        resource.name: resource.read_text(encoding="utf-8")
        for resource in files(package).iterdir()
        if resource.name.endswith(ending)
    }

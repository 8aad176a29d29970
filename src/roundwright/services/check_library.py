"""Check library files of one's own on top of the library that is shipped."""

import tomllib
from collections.abc import Callable, Mapping

from roundwright.body.body_table import gate_faults
from roundwright.body.build import bodies_of
from roundwright.body.posture import Posture
from roundwright.body.solved import REFERENCE, solve_posture
from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import Fault
from roundwright.library.catalogue import Catalogue
from roundwright.library.catalogue_text import read_catalogue
from roundwright.library.movement import Movement
from roundwright.library.own_postures import has_postures, place_of_postures, read_own_postures

Postures = Callable[[], Mapping[str, Posture]]
"""Gives the shipped postures; asked only where a file has postures of its own."""


def check_library(
    texts: Mapping[str, str], base: Catalogue, shipped: Postures | None = None
) -> dict[str, int]:
    """Give how many entries there are with these files added.

    Parameters
    ----------
    texts : mapping of str to str
        File names to their text; empty: only the base is counted.
    base : Catalogue
        The shipped library, already without faults.
    shipped : callable, optional
        Gives the shipped postures; without it postures in the files are not judged.

    Raises
    ------
    BadInputError
        With every fault of all files.
    """
    return _counts(_with_own(texts, base, shipped) if texts else base)


def movements_without_posture(texts: Mapping[str, str], base: Catalogue) -> tuple[str, ...]:
    """Give the shown names of one's own movements that have no posture, so that it can be said.

    Parameters
    ----------
    texts : mapping of str to str
        Files without faults.
    base : Catalogue
        The shipped library.
    """
    catalogue, _ = read_catalogue(texts, base)
    if catalogue is None:
        return ()
    told = {slug for text in texts.values() for slug in tomllib.loads(text).get("posture", {})}
    own = (m for slug, m in catalogue.movements.items() if slug not in base.movements)
    return tuple(movement.name for movement in own if movement.slug not in told)


def posture_faults(
    texts: Mapping[str, str], movements: Mapping[str, Movement] | None, shipped: Postures
) -> tuple[Fault, ...]:
    """Give what is wrong with postures in library files: words, agreement, and what bodies can do.

    Parameters
    ----------
    texts : mapping of str to str
        File names to their text.
    movements : mapping or None
        All movements, the files' own included; None where they have faults of their own.
    shipped : callable
        Gives the shipped postures.
    """
    if not has_postures(texts):
        return ()
    postures, faults = read_own_postures(texts, movements, shipped())
    found, places = list(faults), place_of_postures(texts)
    for slug, posture in postures.items():
        solved = solve_posture(posture, bodies_of([REFERENCE]))
        file, line = places[slug]
        fails = gate_faults(posture, solved, file, words=True)
        found += [fault.model_copy(update={"line": line}) for fault in fails]
    return tuple(found)


def _with_own(texts: Mapping[str, str], base: Catalogue, shipped: Postures | None) -> Catalogue:
    catalogue, faults = read_catalogue(texts, base)
    found = list(faults)
    if shipped is not None:
        movements = None if catalogue is None else catalogue.movements
        found += posture_faults(texts, movements, shipped)
    if catalogue is None or found:
        raise BadInputError(found)
    return catalogue


def _counts(catalogue: Catalogue) -> dict[str, int]:
    return {
        "movements": len(catalogue.movements),
        "lines": len(catalogue.lines),
        "combinations": len(catalogue.combinations),
    }

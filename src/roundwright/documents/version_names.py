"""How the version that a person does is named, and which of two is the harder."""

from collections.abc import Iterable

from roundwright.foundation.words import in_sentence, say
from roundwright.library.catalogue import Catalogue
from roundwright.plan.core import Cell, CellState

Signature = tuple[str, ...]


def once(signature: Iterable[str]) -> Signature:
    """Give the movements of a version once each, in order."""
    return tuple(dict.fromkeys(signature))


def hardness(signature: Signature, library: Catalogue) -> tuple[int, int, Signature]:
    """Give a key that orders versions from easy to hard."""
    levels = [library.movements[m].level for m in once(signature)]
    return (sum(levels), max(levels, default=0), signature)


def shared_parts(
    signatures: Iterable[Signature], exercise_id: str, library: Catalogue
) -> Signature:
    """Give the movements that all versions of a combination have in common."""
    if exercise_id not in library.combinations:
        return ()
    all_versions = [once(s) for s in signatures]
    return (
        tuple(m for m in all_versions[0] if all(m in v for v in all_versions))
        if (all_versions)
        else ()
    )


def version_name(signature: Signature, shared: Signature, library: Catalogue) -> str:
    """Name a version: its movement, or what sets a combination's version apart."""
    own = [library.movements[m].name for m in once(signature) if m not in shared]
    if not own:
        return say("All as named") if shared else say("Nothing")
    if len(once(signature)) == 1:
        return own[0]
    return say("With {parts}", parts=" + ".join(in_sentence(name) for name in own))


def full_name(cell: Cell, library: Catalogue) -> str:
    """Name everything that a cell holds, for a line of its own."""
    if cell.state is CellState.SIT_OUT:
        return say("sits out")
    return " + ".join(library.movements[m].name for m in once(cell.signature))

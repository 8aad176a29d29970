"""Look into the library: what there is, and all that is known of one entry."""

from collections.abc import Mapping
from typing import Any

from roundwright.foundation.errors import NotFoundError
from roundwright.foundation.identifiers import nearest_names
from roundwright.foundation.model import Authored
from roundwright.library.catalogue import Catalogue


def list_library(catalogue: Catalogue) -> dict[str, list[dict[str, Any]]]:
    """Give movements, lines and combinations, each with slug, name and what tells them apart."""
    return {
        "movements": [
            {"slug": slug, "name": m.name, "pattern": m.pattern.value, "level": m.level}
            for slug, m in sorted(catalogue.movements.items())
        ],
        "lines": [
            {"slug": slug, "name": line.name, "versions": list(line.versions)}
            for slug, line in sorted(catalogue.lines.items())
        ],
        "combinations": [
            {
                "slug": slug,
                "name": c.name,
                "done_as": c.done_as.value,
                "parts": [part.model_dump(mode="json", by_alias=True) for part in c.parts],
            }
            for slug, c in sorted(catalogue.combinations.items())
        ],
    }


def show_entry(catalogue: Catalogue, slug: str) -> dict[str, Any]:
    """Give everything that is known of one movement, line or combination.

    Raises
    ------
    NotFoundError
        When no entry has this slug; the nearest ones are named.
    """
    kinds: tuple[tuple[str, Mapping[str, Authored]], ...] = (
        ("movement", catalogue.movements),
        ("line", catalogue.lines),
        ("combination", catalogue.combinations),
    )
    for kind, entries in kinds:
        if slug in entries:
            return {"kind": kind} | entries[slug].model_dump(mode="json", by_alias=True)
    known = [name for _, entries in kinds for name in entries]
    nearest = nearest_names(slug, known)
    hint = f"Nearest: {', '.join(nearest)}." if nearest else "See: roundwright library list."
    raise NotFoundError(f"The library has no entry '{slug}'.", hint)

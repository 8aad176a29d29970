"""What a consistency rule yields: which entry says what against itself."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Contradiction:
    """One thing that cannot be true together with another of the same library.

    `code` is an entry of the table of fault codes, `path` the field within the
    entry (list places from 0).
    """

    code: str
    kind: str
    slug: str
    path: tuple[str | int, ...]
    value: str
    expected: str
    remedy: str = ""

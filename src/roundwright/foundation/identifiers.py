"""What names things: slugs for authored things, UUIDs for made ones."""

import re
import uuid
from collections.abc import Iterable
from difflib import get_close_matches
from typing import Annotated, Protocol

from pydantic import StringConstraints

from roundwright.foundation.seeds import generator

SLUG_PATTERN = r"^[a-z][a-z0-9_]{1,40}$"
Slug = Annotated[str, StringConstraints(pattern=SLUG_PATTERN)]


def is_slug(text: str) -> bool:
    """Say whether a text may be the short name of an authored thing."""
    return re.fullmatch(SLUG_PATTERN, text) is not None


def nearest_names(name: str, known: Iterable[str], most: int = 3) -> tuple[str, ...]:
    """Give the known names nearest to one that was not understood."""
    return tuple(get_close_matches(name, sorted(known), n=most, cutoff=0.6))


class IdSource(Protocol):
    """Where identifiers of made things come from; passed in, never global."""

    def new_id(self) -> str:
        """Give a fresh UUID v4 as text."""


class SeededIds:
    """Identifiers that repeat: the same seed and purpose give the same row of UUIDs."""

    def __init__(self, seed: int, purpose: str) -> None:
        self._rng = generator(seed, f"ids:{purpose}", 0)

    def new_id(self) -> str:
        """Give the next UUID v4 of this source as text."""
        return str(uuid.UUID(bytes=self._rng.bytes(16), version=4))

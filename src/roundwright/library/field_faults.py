"""What is wrong with the fields of one entry, in words a coach can act on.

The typed models find the faults; this file says where they stand, what was
expected and which known word is nearest.
"""

import math
import re
from collections.abc import Iterator
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from roundwright.foundation.authored_types import AUTHORED
from roundwright.foundation.faults import Fault, shortened
from roundwright.foundation.model_faults import Loc, described
from roundwright.library.toml_entries import Entry

M = TypeVar("M", bound=BaseModel)

LARGEST = 1e9
"""No number of a library file comes near it; larger ones are slips of the pen."""
STAND_IN = "?"


def typed(model: type[M], entry: Entry, slug: str) -> tuple[M | None, tuple[Fault, ...]]:
    """Make the typed model of an entry, or give every fault of its fields.

    Parameters
    ----------
    model : type
        What the entry should be.
    entry : Entry
        Its raw table and place.
    slug : str
        The short name to give it; the table's key, unless that is itself at fault.
    """
    faults = []
    table = dict(entry.table)
    if "slug" in table:
        del table["slug"]
        faults.append(
            entry.fault(
                "field.unknown",
                ("slug",),
                expected="no such field",
                remedy="Take it out; the table's own name is the short name.",
            )
        )
    odd = dict(_odd_values(table, ()))
    faults += [entry.fault("field.value", loc, **words) for loc, words in odd.items()]
    try:
        made = model.model_validate(
            _without(table, (), set(odd)) | {"slug": slug}, context=AUTHORED
        )
    except ValidationError as error:
        details = _without_echoes(error.errors(include_url=False))
        told = [each for each in details if not _under(each["loc"], odd)]
        return None, (*faults, *(_fault_of(model, entry, each) for each in told))
    return (None if faults else made), tuple(faults)


def _without_echoes(details: list[ErrorDetails]) -> list[ErrorDetails]:
    """Drop 'too few' of a list whose items are told one by one."""
    places = [each["loc"] for each in details]
    return [
        each
        for each in details
        if each["type"] != "too_short"
        or not any(loc[: len(each["loc"])] == each["loc"] != loc for loc in places)
    ]


def _odd_values(value: Any, loc: Loc) -> Iterator[tuple[Loc, dict[str, str]]]:
    """Find values that no field takes and that a typed model might let pass or choke on."""
    if isinstance(value, dict):
        for key, inner in value.items():
            if (*loc, key) != ("posture",):
                yield from _odd_values(inner, (*loc, key))
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from _odd_values(inner, (*loc, index))
    elif isinstance(value, bool):
        yield loc, {"value": str(value).lower(), "expected": "a number or text, not yes or no"}
    elif _is_unlikely(value):
        yield loc, {"value": shortened(value), "expected": "a number of a likely size"}


def _is_unlikely(value: Any) -> bool:
    if isinstance(value, int | float):
        return not math.isfinite(value) or abs(value) > LARGEST
    return isinstance(value, str) and re.match(r"\s*-?[\d.,]{13}", value) is not None


def _without(value: Any, loc: Loc, odd: set[Loc]) -> Any:
    if loc in odd:
        return STAND_IN
    if isinstance(value, dict):
        return {key: _without(inner, (*loc, key), odd) for key, inner in value.items()}
    if isinstance(value, list):
        return [_without(inner, (*loc, index), odd) for index, inner in enumerate(value)]
    return value


def _under(loc: Loc, odd: dict[Loc, dict[str, str]]) -> bool:
    return any(loc[: len(path)] == path for path in odd)


def _fault_of(model: type[BaseModel], entry: Entry, details: ErrorDetails) -> Fault:
    told = described(model, details, leave_out=("slug",))
    return entry.fault(
        told.code, told.loc, value=told.value, expected=told.expected, nearest=told.nearest
    )

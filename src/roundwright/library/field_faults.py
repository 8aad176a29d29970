"""What is wrong with the fields of one entry, in words a coach can act on.

The typed models find the faults; this file says where they stand, what was
expected and which known word is nearest.
"""

import math
import re
from collections.abc import Iterator
from typing import Any, TypeVar, get_args

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from roundwright.foundation.authored_types import AUTHORED
from roundwright.foundation.faults import Fault, shortened
from roundwright.foundation.identifiers import SLUG_PATTERN, nearest_names
from roundwright.library.toml_entries import Entry

M = TypeVar("M", bound=BaseModel)
Loc = tuple[str | int, ...]

LARGEST = 1e9
"""No number of a library file comes near it; larger ones are slips of the pen."""
STAND_IN = "?"
LISTED_WORDS = 24

_RANGE_WORDS = {
    "greater_than": "more than {gt}",
    "greater_than_equal": "{ge} or more",
    "less_than": "less than {lt}",
    "less_than_equal": "{le} or less",
    "string_too_short": "at least {min_length} characters",
    "string_too_long": "at most {max_length} characters",
    "too_short": "at least {min_length} of them",
    "too_long": "at most {max_length} of them",
}
_TYPE_WORDS = {
    "int": "a whole number",
    "float": "a number",
    "string": "text",
    "tuple": "a list",
    "dict": "a table",
    "model": "a table",
}


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
    kind = details["type"]
    context = details.get("ctx", {})
    loc = tuple(step for step in details["loc"] if step != "[key]")
    shown = shortened(details["input"])
    if kind == "missing":
        return entry.fault("field.missing", loc, expected="a value")
    if kind == "extra_forbidden":
        known = _fields_at(model, loc[:-1])
        return entry.fault(
            "field.unknown",
            loc,
            value=shown,
            expected="one of " + ", ".join(known),
            nearest=nearest_names(str(loc[-1]), known),
        )
    if kind in ("enum", "literal_error"):
        words = re.findall(r"'([^']*)'", str(context.get("expected", "")))
        near = nearest_names(str(details["input"]), words)
        every = len(words) <= LISTED_WORDS or not near
        return entry.fault(
            "field.value",
            loc,
            value=shown,
            expected="one of " + ", ".join(words) if every else f"one of {len(words)} known words",
            remedy="Use a word that is known.",
            nearest=near,
        )
    if kind in _RANGE_WORDS:
        return entry.fault(
            "field.range", loc, value=shown, expected=_RANGE_WORDS[kind].format(**context)
        )
    if kind == "string_pattern_mismatch":
        pattern = str(context.get("pattern", ""))
        if pattern == SLUG_PATTERN:
            return entry.fault("field.slug", loc, value=shown, expected="a short name")
        return entry.fault("field.value", loc, value=shown, expected=_pattern_words(pattern))
    return entry.fault("field.value", loc, value=shown, expected=_type_words(kind, details))


def _pattern_words(pattern: str) -> str:
    alternatives = re.fullmatch(r"\^\(([a-z_|]+)\)\$", pattern)
    if alternatives:
        return "one of " + alternatives[1].replace("|", ", ")
    return "whole seconds like 2-0-1 (lower, pause, lift)" if r"\d" in pattern else pattern


def _type_words(kind: str, details: ErrorDetails) -> str:
    if kind == "value_error":
        return str(details["msg"]).removeprefix("Value error, ").removeprefix("expected ")
    return _TYPE_WORDS.get(kind.split("_")[0], details["msg"])


def _fields_at(model: type[BaseModel], loc: Loc) -> list[str]:
    """Give the field names of the model at a place within another, its slug left out."""
    here = model
    for step in loc:
        if step in here.model_fields:
            here = _model_in(here.model_fields[str(step)].annotation) or here
    return [name for name in here.model_fields if name != "slug"]


def _model_in(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    found = (_model_in(inner) for inner in get_args(annotation))
    return next((inner for inner in found if inner), None)

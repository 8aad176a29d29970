"""How a typed model's complaints become words that a coach can act on.

The models find what is wrong; this file says which fault it is, what was
expected and which known word is nearest. Where it stands in a file is said by
whoever reads the file.
"""

import re
from dataclasses import dataclass
from typing import Any, get_args

from pydantic import BaseModel
from pydantic_core import ErrorDetails

from roundwright.foundation.faults import shortened
from roundwright.foundation.identifiers import SLUG_PATTERN, nearest_names

Loc = tuple[str | int, ...]

LISTED_WORDS = 24
"""More words than these are counted rather than listed, when a near one is known."""
_RANGE = {
    "greater_than": "more than {gt}",
    "greater_than_equal": "at least {ge}",
    "less_than": "less than {lt}",
    "less_than_equal": "at most {le}",
    "string_too_short": "at least {min_length} characters",
    "string_too_long": "at most {max_length} characters",
    "too_short": "at least {min_length} of them",
    "too_long": "at most {max_length} of them",
}
_TYPES = {
    "int": "a whole number",
    "float": "a number",
    "string": "text",
    "tuple": "a list",
    "list": "a list",
    "dict": "a table",
    "model": "a table",
}
_UNITS = {"_g": " g", "_mm": " mm", "_s": " s"}


@dataclass(frozen=True, slots=True)
class Described:
    """One complaint in a coach's words; `loc` is the place within the model."""

    code: str
    loc: Loc
    value: str = ""
    expected: str = ""
    nearest: tuple[str, ...] = ()


def described(
    model: type[BaseModel], detail: ErrorDetails, leave_out: tuple[str, ...] = ()
) -> Described:
    """Describe one complaint of a model.

    Parameters
    ----------
    model : type
        The model that complained.
    detail : ErrorDetails
        What it said.
    leave_out : tuple of str
        Fields of the model that files do not name, such as the slug of a table's key.
    """
    kind = detail["type"]
    context: dict[str, Any] = detail.get("ctx", {})
    loc = tuple(step for step in detail["loc"] if step != "[key]")
    value = "" if isinstance(detail["input"], dict) else shortened(detail["input"])
    if kind == "missing":
        return Described("field.missing", loc, expected="a value")
    if kind == "extra_forbidden":
        known = [n for n in _fields_at(model, loc[:-1]) if n not in leave_out]
        near = nearest_names(str(loc[-1]), known)
        return Described("field.unknown", loc, value, "one of " + ", ".join(known), near)
    if kind in ("enum", "literal_error"):
        words = re.findall(r"'([^']*)'", str(context.get("expected", "")))
        near = nearest_names(str(detail["input"]), words)
        every = len(words) <= LISTED_WORDS or not near
        expected = "one of " + ", ".join(words) if every else f"one of {len(words)} known words"
        return Described("field.value", loc, value, expected, near)
    if kind in _RANGE:
        unit = "" if kind.startswith(("too_", "string_")) else _unit_of(model, loc)
        return Described("field.range", loc, value, _RANGE[kind].format(**context) + unit)
    if kind == "string_pattern_mismatch":
        pattern = str(context.get("pattern", ""))
        if pattern == SLUG_PATTERN:
            return Described("field.slug", loc, value, "a short name")
        return Described("field.value", loc, value, _pattern_words(pattern))
    return Described("field.value", loc, value, _type_words(kind, detail))


def file_names(model: type[BaseModel]) -> dict[str, str]:
    """Map the names that a file may use to the model's own field names."""
    return {info.alias or name: name for name, info in model.model_fields.items()}


def _pattern_words(pattern: str) -> str:
    alternatives = re.fullmatch(r"\^\(([a-z_|]+)\)\$", pattern)
    if alternatives:
        return "one of " + alternatives[1].replace("|", ", ")
    return "whole seconds like 2-0-1 (lower, pause, lift)" if r"\d" in pattern else pattern


def _type_words(kind: str, detail: ErrorDetails) -> str:
    if kind == "value_error":
        return str(detail["msg"]).removeprefix("Value error, ").removeprefix("expected ")
    plain = detail["msg"].removeprefix("Input should be ")
    return _TYPES.get(kind.split("_")[0], plain)


def _fields_at(model: type[BaseModel], loc: Loc) -> list[str]:
    """Give the names that a file may use at a place within a model."""
    return list(file_names(_model_at(model, loc)))


def _model_at(model: type[BaseModel], loc: Loc) -> type[BaseModel]:
    here = model
    for step in loc:
        field = file_names(here).get(str(step))
        if field is not None:
            here = _model_in(here.model_fields[field].annotation) or here
    return here


def _model_in(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    found = (_model_in(inner) for inner in get_args(annotation))
    return next((inner for inner in found if inner), None)


def _unit_of(model: type[BaseModel], loc: Loc) -> str:
    """Give the stored unit of a field whose file name does not say it."""
    if not loc:
        return ""
    name = file_names(_model_at(model, loc[:-1])).get(str(loc[-1]), "")
    ends = [unit for ending, unit in _UNITS.items() if name.endswith(ending)]
    return ends[0] if ends and name != loc[-1] else ""

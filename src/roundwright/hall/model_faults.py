"""How a typed model's complaints become faults that a coach can act on.

Values are checked in strict JSON form: a number is not a text, true is not 1.
Only the names that the files document are accepted, not the program's own.
"""

import json
from collections.abc import Mapping
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from roundwright.foundation.authored_types import AUTHORED
from roundwright.foundation.faults import Fault
from roundwright.foundation.identifiers import SLUG_PATTERN, nearest_names
from roundwright.foundation.toml_lines import Path
from roundwright.hall.file_text import TomlText, as_json_values

M = TypeVar("M", bound=BaseModel)

_RANGE = {
    "greater_than": "more than {gt}",
    "greater_than_equal": "at least {ge}",
    "less_than": "less than {lt}",
    "less_than_equal": "at most {le}",
    "too_long": "at most {max_length} of them",
    "too_short": "at least {min_length} of them",
    "string_too_long": "at most {max_length} characters",
    "string_too_short": "at least {min_length} characters",
}
_UNITS = {"_g": " g", "_mm": " mm", "_s": " s"}


def model_of(
    model: type[M], values: Mapping[str, object], toml: TomlText, at: Path = ()
) -> tuple[M | None, tuple[Fault, ...]]:
    """Make a model of TOML values, or the faults that stand in its way.

    Parameters
    ----------
    model : type
        What the values should be.
    values : mapping
        As read from the file.
    toml : TomlText
        The file, for names and lines.
    at : path
        Where in the file the values stand.
    """
    try:
        made = model.model_validate_json(
            json.dumps(as_json_values(dict(values))),
            strict=True,
            context=AUTHORED,
            by_alias=True,
            by_name=False,
        )
    except ValidationError as error:
        found = error.errors(include_url=False)
        return None, tuple(_fault(model, detail, toml, at) for detail in found)
    return made, ()


def file_names(model: type[BaseModel]) -> dict[str, str]:
    """Map the names that a file may use to the model's own field names."""
    return {info.alias or name: name for name, info in model.model_fields.items()}


def _fault(model: type[BaseModel], detail: ErrorDetails, toml: TomlText, at: Path) -> Fault:
    path: Path = (*at, *detail["loc"])
    kind = detail["type"]
    context: dict[str, Any] = detail.get("ctx", {})
    if kind == "missing":
        return toml.fault("field.missing", path)
    if kind == "extra_forbidden":
        names = nearest_names(str(path[-1]), file_names(model)) if len(path) == len(at) + 1 else ()
        return toml.fault("field.unknown", path, nearest=names)
    value = detail["input"] if detail["loc"] and not isinstance(detail["input"], dict) else ""
    if kind in _RANGE:
        expected = _RANGE[kind].format(**context) + _unit_of(model, detail)
        return toml.fault("field.range", path, value, expected)
    if kind == "string_pattern_mismatch":
        if context.get("pattern") == SLUG_PATTERN:
            return toml.fault("field.slug", path, value)
        return toml.fault("field.value", path, value, f"the form {context.get('pattern')}")
    if kind in ("enum", "literal_error"):
        expected = str(context.get("expected", ""))
        allowed = [word.strip().strip("'") for word in expected.replace(" or ", ",").split(",")]
        near = nearest_names(str(value), allowed)
        return toml.fault("field.value", path, value, expected, near)
    message = detail["msg"].removeprefix("Value error, ")
    if message.startswith("an alternating count is even"):
        return toml.fault("class.odd_alternating", (*path, "value"), expected=message)
    expected = message if kind == "value_error" else message.removeprefix("Input should be ")
    return toml.fault("field.value", path, value, expected)


def _unit_of(model: type[BaseModel], detail: ErrorDetails) -> str:
    """Give the stored unit of a field whose file name does not say it."""
    if len(detail["loc"]) != 1 or detail["type"].startswith(("too_", "string_")):
        return ""
    name = file_names(model).get(str(detail["loc"][0]), "")
    ends = [unit for ending, unit in _UNITS.items() if name.endswith(ending)]
    return ends[0] if ends and name != detail["loc"][0] else ""

"""How the values of a hall file become a model, or the faults that stand in its way.

Values are checked in strict JSON form: a number is not a text, true is not 1.
Only the names that the files document are accepted, not the program's own.
"""

import json
from collections.abc import Mapping
from typing import TypeVar

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from roundwright.foundation.authored_types import AUTHORED
from roundwright.foundation.faults import Fault
from roundwright.foundation.model_faults import described
from roundwright.foundation.toml_lines import Path
from roundwright.hall.file_text import TomlText, as_json_values

M = TypeVar("M", bound=BaseModel)


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


def _fault(model: type[BaseModel], detail: ErrorDetails, toml: TomlText, at: Path) -> Fault:
    told = described(model, detail)
    path: Path = (*at, *told.loc)
    if told.expected.startswith("an alternating count is even"):
        return toml.fault("class.odd_alternating", (*path, "value"), expected=told.expected)
    value = told.value if told.loc else ""
    return toml.fault(told.code, path, value, told.expected, told.nearest)

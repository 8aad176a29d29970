"""Fields that people write with a unit and the tool stores as integers.

Text always carries its unit ('8 kg'). A bare number means kg, m or s where a
person wrote it (validation context ``{"authored": True}``), and the stored
integer (`_g`, `_mm`, `_s`) where the tool did.
"""

from collections.abc import Callable
from typing import Annotated, Any

from pydantic import BeforeValidator, ValidationInfo, WithJsonSchema

from roundwright.foundation.quantities import duration_s, length_mm, mass_g

AUTHORED = {"authored": True}


def _reader(parse: Callable[[str | float], int]) -> Callable[[Any, ValidationInfo], Any]:
    def read(value: Any, info: ValidationInfo) -> Any:
        authored = bool((info.context or {}).get("authored"))
        if isinstance(value, str) or (authored and isinstance(value, int | float)):
            return parse(value)
        return value

    return read


def _schema(example: str) -> WithJsonSchema:
    return WithJsonSchema({"type": ["number", "string"], "examples": [example]})


MassG = Annotated[int, BeforeValidator(_reader(mass_g)), _schema("8 kg")]
LengthMm = Annotated[int, BeforeValidator(_reader(length_mm)), _schema("45 cm")]
DurationS = Annotated[int, BeforeValidator(_reader(duration_s)), _schema("90 s")]

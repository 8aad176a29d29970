"""Tables of a movement, its line and its posture as the text of a library file."""

import re
from collections.abc import Mapping, Sequence

from roundwright.foundation.toml_words import Plain, toml_key, toml_value
from roundwright.library.catalogue import Catalogue
from roundwright.library.movement import Movement

LENGTHS = ("length", "width", "min_height", "max_height")
LATER_TABLES = ("muscles", "demands", "teaching")
"""Tables of a movement that are written under a heading of their own."""
_SCHEMA = re.compile(r"^\s*schema\s*=.*$", re.MULTILINE)


def table_of(movement: Movement) -> dict[str, Plain]:
    """Give a movement as it would be written, so that another can start from it."""
    given = movement.model_dump(
        mode="json", exclude={"slug", "was", "posture", "lifted_share_by"}, exclude_none=True
    )
    given["kit"] = [_measured(need) for need in given["kit"]]
    given["floor"] = _measured(given["floor"])
    loads = given.get("assumed_load_by_level")
    if loads:
        given["assumed_load_by_level"] = {level: f"{grams} g" for level, grams in loads.items()}
    return given


def _measured(table: Mapping[str, Plain]) -> dict[str, Plain]:
    """Give lengths their unit: stored ones are millimetres."""
    return {k: f"{v} mm" if k in LENGTHS and isinstance(v, int) else v for k, v in table.items()}


def steps_of(versions: Sequence[str], catalogue: Catalogue) -> list[Plain]:
    """Give the criteria that versions have in the lines where they stand, the strictest of each."""
    found: dict[str, tuple[int, tuple[str, ...]]] = {}
    for line in catalogue.lines.values():
        for step in line.steps:
            known = found.get(step.to, (-1, ()))
            if step.to in versions and step.min_classes > known[0]:
                found[step.to] = (step.min_classes, step.seen)
    return [
        {"to": slug, "min_classes": found[slug][0], "seen": list(found[slug][1])}
        for slug in versions
        if slug in found
    ]


def library_text_of(
    slug: str,
    movement: Mapping[str, Plain],
    line_slug: str,
    line: Mapping[str, Plain],
    posture: str,
) -> str:
    """Write a library file with one movement, its line, and its posture where there is one.

    Parameters
    ----------
    slug, movement
        Short name and fields of the movement.
    line_slug, line
        Short name and fields of its line; `steps` become tables of their own.
    posture : str
        Posture tables as TOML text, with or without their schema line; empty for none.
    """
    head = f"movement.{slug}"
    out = ['schema = "roundwright.library/1"', "", f"[{head}]"]
    out += _fields({k: v for k, v in movement.items() if k not in LATER_TABLES})
    for name in LATER_TABLES:
        table = movement.get(name)
        if isinstance(table, Mapping):
            out += ["", f"[{head}.{name}]", *_fields(table)]
        elif table is not None:
            out.insert(out.index(f"[{head}]") + 1, f"{name} = {toml_value(table)}")
    steps = line.get("steps") or ()
    out += ["", f"[line.{line_slug}]", *_fields({k: v for k, v in line.items() if k != "steps"})]
    if isinstance(steps, Sequence) and not isinstance(steps, str):
        for step in steps:
            if isinstance(step, Mapping):
                out += ["", f"[[line.{line_slug}.steps]]", *_fields(step)]
    if posture.strip():
        out += ["", _SCHEMA.sub("", posture, count=1).strip()]
    return "\n".join(out) + "\n"


def _fields(table: Mapping[str, Plain]) -> list[str]:
    return [f"{toml_key(str(k))} = {toml_value(v)}" for k, v in table.items() if v is not None]

"""The interface's own description, read for people: operations with what they take and give."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

Plain = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Taken:
    """One thing that an operation takes: its name, where, of which kind, and what it is."""

    name: str
    where: str
    kind: str
    is_needed: bool
    words: str


@dataclass(frozen=True, slots=True)
class Operation:
    """One operation as it is told."""

    operation_id: str
    subject: str
    method: str
    path: str
    words: str
    takes: tuple[Taken, ...]
    gives: str
    statuses: tuple[str, ...]


def operations_of(document: Plain) -> tuple[Operation, ...]:
    """Give every operation of an OpenAPI document, in its order."""
    return tuple(
        Operation(
            operation_id=str(one["operationId"]),
            subject=str(one["tags"][0]),
            method=method.upper(),
            path=path,
            words=str(one.get("description", "")),
            takes=tuple(_takes(one, document)),
            gives=_gives(one),
            statuses=tuple(sorted(one["responses"])),
        )
        for path, methods in document["paths"].items()
        for method, one in methods.items()
    )


def _takes(operation: Plain, document: Plain) -> Iterator[Taken]:
    for one in operation.get("parameters", ()):
        kind = _kind(one["schema"])
        words = str(one.get("description", ""))
        yield Taken(one["name"], one["in"], kind, bool(one.get("required")), words)
    body = operation.get("requestBody")
    if body is not None:
        schema = body["content"]["application/json"]["schema"]
        model = _resolved(schema, document)
        needed = model.get("required", ())
        for name, part in model.get("properties", {}).items():
            words = str(part.get("description", ""))
            yield Taken(name, "body", _kind(part), name in needed, words)


def _gives(operation: Plain) -> str:
    for status, response in sorted(operation["responses"].items()):
        if status.startswith("2"):
            for media, content in response.get("content", {}).items():
                if media != "application/json":
                    return ", ".join(response["content"])
                return _kind(content["schema"])
    return "nothing"


def _kind(schema: Plain) -> str:
    if "$ref" in schema:
        return str(schema["$ref"]).rsplit("/", 1)[-1]
    for name in ("anyOf", "oneOf"):
        if name in schema:
            kinds = [_kind(one) for one in schema[name]]
            return " or ".join("none" if kind == "null" else kind for kind in kinds)
    if "enum" in schema:
        return ", ".join(str(one) for one in schema["enum"])
    if schema.get("type") == "array":
        return f"list of {_kind(schema.get('items', {}))}"
    return str(schema.get("format") or schema.get("const") or schema.get("type") or "anything")


def _resolved(schema: Plain, document: Plain) -> Plain:
    if "$ref" not in schema:
        return schema
    found: Plain = document["components"]["schemas"][_kind(schema)]
    return found

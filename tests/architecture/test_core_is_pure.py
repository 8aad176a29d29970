"""The core of a plan holds integers and words only, and nothing that names a person's health."""

import typing
from datetime import date, time
from enum import Enum

from pydantic import BaseModel

from roundwright.people.limitation import Concern
from roundwright.plan.core import Core

ALLOWED = (int, str, bool, type(None), date, time)


def _types(annotation):
    if annotation is Ellipsis:
        return
    if typing.get_origin(annotation) is typing.Literal:
        for value in typing.get_args(annotation):
            yield type(value)
    elif args := typing.get_args(annotation):
        for arg in args:
            if isinstance(arg, type) or typing.get_args(arg):
                yield from _types(arg)
    else:
        yield annotation


def _leaves(model, seen):
    for name, field in model.model_fields.items():
        for kind in _types(field.annotation):
            if kind in (tuple, list, dict):
                continue
            if isinstance(kind, type) and issubclass(kind, BaseModel):
                if kind not in seen:
                    seen.add(kind)
                    yield from _leaves(kind, seen)
            else:
                yield f"{model.__name__}.{name}", kind


def test_no_float_can_stand_in_a_core():
    leaves = list(_leaves(Core, {Core}))
    assert len(leaves) > 40
    for name, kind in leaves:
        assert isinstance(kind, type), name
        assert issubclass(kind, Enum) or kind in ALLOWED, (name, kind)


def test_no_field_of_a_core_speaks_of_health():
    words = {c.value for c in Concern} | {"clearance", "limitation", "caps", "reason", "name"}
    names = {name.split(".")[1] for name, _ in _leaves(Core, {Core})}
    assert names & words == set()

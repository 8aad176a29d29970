"""Roundwright plans, fits and checks metabolic resistance circuits for people in a real hall.

The names below are the public interface; they are looked up when first used, so
that importing a part of the package does not load solvers and printers.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from roundwright.interface import (
        change_plan,
        check,
        class_sheet,
        count,
        finish_by,
        fit,
        keep_change,
        keep_plan,
        open_plan,
        propose,
        read_hall,
        read_plan,
        redo,
        shipped_library,
        undo,
    )

__all__ = [
    "change_plan",
    "check",
    "class_sheet",
    "count",
    "finish_by",
    "fit",
    "keep_change",
    "keep_plan",
    "open_plan",
    "propose",
    "read_hall",
    "read_plan",
    "redo",
    "shipped_library",
    "undo",
]


def __getattr__(name: str) -> object:
    if name in __all__:
        return getattr(import_module("roundwright.interface"), name)
    raise AttributeError(f"roundwright has no {name!r}")

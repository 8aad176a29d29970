"""How a plan's core becomes bytes, and a digest over them.

The form is RFC 8785 (JSON Canonicalization Scheme) restricted to what a core
may hold: integers, strings, booleans, null, lists and objects. Without floats
the number rule of the standard is plain decimal digits.
"""

import hashlib
import json
from collections.abc import Iterable, Mapping
from typing import Any

LARGEST_INTEGER = 2**53 - 1


def canonical_bytes(value: object) -> bytes:
    """Give the canonical JSON of a value made of integers, strings, booleans, lists, objects.

    Raises
    ------
    TypeError
        When the value holds a float or anything else that a core may not hold.
    """
    if _is_plain(value):
        text = json.dumps(value, sort_keys=True, ensure_ascii=False, separators=(",", ":"))
        return text.encode("utf-8")
    return _text(value).encode("utf-8")


def digest_of(value: object) -> str:
    """Give the SHA-256 of the canonical JSON, as 64 hex digits."""
    return hashlib.sha256(canonical_bytes(value)).hexdigest()


def digest_of_json(value: object) -> str:
    """Give the SHA-256 of sorted JSON for things that may hold floats (tables, problems)."""
    text = json.dumps(value, sort_keys=True, ensure_ascii=False, separators=(",", ":"))
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def _is_plain(value: object) -> bool:
    """Say whether the standard encoder gives the same: only ASCII keys sort as it does."""
    left: list[Iterable[Any]] = [(value,)]
    while left:
        for one in left.pop():
            kind = type(one)
            if kind is str or kind is bool or one is None:
                continue
            if kind is int:
                if not -LARGEST_INTEGER <= one <= LARGEST_INTEGER:
                    return False
            elif kind is dict:
                if not _has_plain_keys(one):
                    return False
                left.append(one.values())
            elif kind is list or kind is tuple:
                left.append(one)
            else:
                return False
    return True


def _has_plain_keys(one: dict[Any, Any]) -> bool:
    try:
        return "".join(one).isascii()
    except TypeError:  # a key that is no text
        return False


def _text(value: Any) -> str:
    if value is None or isinstance(value, bool):
        return json.dumps(value)
    if isinstance(value, int):
        if abs(value) > LARGEST_INTEGER:
            raise TypeError(f"{value} is too large for a canonical integer")
        return str(value)
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False)
    if isinstance(value, Mapping):
        keys = sorted(value, key=lambda key: key.encode("utf-16-be"))
        return "{" + ",".join(f"{_text(key)}:{_text(value[key])}" for key in keys) + "}"
    if isinstance(value, list | tuple):
        return "[" + ",".join(_text(item) for item in value) + "]"
    raise TypeError(f"{type(value).__name__} may not stand in a plan's core")

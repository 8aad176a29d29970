"""Values as TOML text: for entries that the program writes into a coach's own files."""

from collections.abc import Mapping, Sequence
from enum import Enum

Plain = str | int | float | bool | None | Mapping[str, "Plain"] | Sequence["Plain"]


def quoted(text: str) -> str:
    r"""Write a TOML basic string: quotes, backslashes and control characters escaped.

    Examples
    --------
    >>> quoted('say "up"')
    '"say \\"up\\""'
    """
    escaped = "".join(
        f"\\{c}" if c in '"\\' else c if c >= " " and c != "\x7f" else f"\\u{ord(c):04x}"
        for c in text
    )
    return f'"{escaped}"'


def toml_value(value: Plain) -> str:
    """Write one value; what is None inside a table is left out.

    Raises
    ------
    TypeError
        When a list or the value itself is None, or of a kind that TOML does not have.
    """
    if value is None:
        raise TypeError("TOML has no value for nothing")
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Enum):
        return toml_value(value.value)
    if isinstance(value, str):
        return quoted(value)
    if isinstance(value, Mapping):
        kept = [f"{toml_key(str(k))} = {toml_value(v)}" for k, v in value.items() if v is not None]
        return "{ " + ", ".join(kept) + " }" if kept else "{}"
    if isinstance(value, Sequence):
        return "[" + ", ".join(toml_value(item) for item in value) + "]"
    if not isinstance(value, int | float):
        raise TypeError(f"TOML has no value of the kind {type(value).__name__}")
    return repr(value)


def toml_key(name: str) -> str:
    """Write a key: bare where TOML allows it, else quoted.

    Examples
    --------
    >>> toml_key("upper_arm"), toml_key("two words")
    ('upper_arm', '"two words"')
    """
    is_bare = bool(name) and all(c.isascii() and (c.isalnum() or c in "_-") for c in name)
    return name if is_bare else quoted(name)

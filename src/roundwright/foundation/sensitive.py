"""Health values that never print: not in logs, errors, traces or reprs."""

from typing import Generic, TypeVar

T = TypeVar("T")


class Sensitive(Generic[T]):
    """A health value that must be asked for by name.

    Its text and repr are ``(hidden)``; `reveal` gives the value to the code
    that is allowed to use it.
    """

    __slots__ = ("_value",)

    def __init__(self, value: T) -> None:
        self._value = value

    def reveal(self) -> T:
        """Give the value itself."""
        return self._value

    def __repr__(self) -> str:
        return "(hidden)"

    __str__ = __repr__

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Sensitive) and self._value == other._value

    def __hash__(self) -> int:
        return hash((Sensitive, self._value))

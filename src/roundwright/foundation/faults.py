"""What a fault in somebody's file looks like: where, what, and what to do."""

from pydantic import BaseModel, ConfigDict

from roundwright.foundation.fault_codes import entry_of

HIDDEN = "(hidden)"


class Fault(BaseModel):
    """One fault in an authored file.

    `value` is shown as written, cut to 80 characters; a health value is
    replaced by ``(hidden)`` by whoever makes the fault.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    code: str
    file: str
    line: int | None = None
    column: int | None = None
    field: str = ""
    value: str = ""
    expected: str = ""
    remedy: str = ""
    nearest: tuple[str, ...] = ()

    def in_words(self) -> str:
        """Give the fault as one sentence that a coach can act on."""
        place = self.file + (f", line {self.line}" if self.line else "")
        words = f"{place}: {entry_of(self.code).title.lower()}"
        if self.field:
            words += f" in '{self.field}'"
        if self.value:
            words += f": {self.value}"
        if self.expected:
            words += f"; expected {self.expected}"
        if self.nearest:
            words += f"; nearest: {', '.join(self.nearest)}"
        return f"{words}. {self.remedy or entry_of(self.code).remedy}"


def shortened(value: object, length: int = 80) -> str:
    """Give a value as text of at most `length` characters, on one line."""
    text = " ".join(str(value).split())
    return text if len(text) <= length else text[: length - 1] + "…"

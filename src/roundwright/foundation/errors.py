"""Which errors there are, and what each must say: what is wrong, where, what to do.

::

    RoundwrightError
    ├─ BadInputError          every fault of an import at once
    ├─ NotFoundError          what was looked for, and where
    ├─ ChangedMeanwhileError  the thing is not what it was when it was checked
    ├─ UnsafePlanError        raised by the gate alone
    ├─ NoPlanError            impossible, or nothing found in time
    ├─ StoreError             the file or folder could not be read or written
    ├─ DocumentError          a page could not be made
    ├─ NotSignedInError       nobody is signed in, or name and password do not fit
    ├─ NotAllowedError        the role does not allow it
    └─ TooManyTriesError      wait before the next try

Expected outcomes are values (`plan.outcome`); these are for broken promises.
Status, exit code, title and remedy of each code stand in `fault_codes`.
"""

from collections.abc import Sequence

from roundwright.foundation.fault_codes import CodeEntry, entry_of
from roundwright.foundation.faults import Fault


class RoundwrightError(Exception):
    """One family: each has a code, what is wrong, and what to do next.

    Parameters
    ----------
    detail : str
        What is wrong and where, in plain words. Never a health value.
    next_step : str, optional
        What to do now; the code's own remedy when left out.
    """

    code = "inside.fault"

    def __init__(self, detail: str, next_step: str = "") -> None:
        super().__init__(detail)
        self.detail = detail
        self.next_step = next_step or self.entry.remedy

    @property
    def entry(self) -> CodeEntry:
        """Title, status and exit code of this error."""
        return entry_of(self.code)

    @property
    def exit_code(self) -> int:
        """The command's exit code for this error."""
        return self.entry.exit_code

    def as_problem(self) -> dict[str, object]:
        """Give the error as problem details (RFC 9457)."""
        return {
            "type": f"urn:roundwright:{self.code}",
            "title": self.entry.title,
            "status": self.entry.status,
            "detail": self.detail,
            "next_step": self.next_step,
        }


class BadInputError(RoundwrightError):
    """Files or values that cannot be accepted, with every fault found.

    Parameters
    ----------
    faults : sequence of Fault
        At least one, ordered by file and line here.
    """

    code = "input.faults"

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults = sorted(faults, key=lambda f: (f.file, f.line or 0, f.column or 0, f.field))
        first = self.faults[0]
        more = "" if len(self.faults) == 1 else f" (and {len(self.faults) - 1} more)"
        super().__init__(f"{first.in_words()}{more}")

    def as_problem(self) -> dict[str, object]:
        """Give the error as problem details with its list of faults."""
        return super().as_problem() | {
            "faults": [fault.model_dump(mode="json") for fault in self.faults]
        }


class NotFoundError(RoundwrightError):
    """What was asked for is not there."""

    code = "name.not_found"


class ChangedMeanwhileError(RoundwrightError):
    """The thing is no longer what it was when it was checked."""

    code = "plan.changed"


class UnsafePlanError(RoundwrightError):
    """The gate refuses the plan; raised by the gate alone."""

    code = "plan.refused"


class NoPlanError(RoundwrightError):
    """No plan: proven impossible."""

    code = "plan.impossible"


class UndecidedError(RoundwrightError):
    """No plan within the budget, and no proof that there is none."""

    code = "plan.undecided"


class StoreError(RoundwrightError):
    """A file or folder could not be read or written."""

    code = "store.failed"


class DocumentError(RoundwrightError):
    """A page could not be made; the class can go on without it."""

    code = "document.failed"


class NotSignedInError(RoundwrightError):
    """Nobody is signed in, or name and password do not belong together."""

    code = "account.unknown"


class NotAllowedError(RoundwrightError):
    """The role of who asks does not allow it."""

    code = "account.not_allowed"


class TooManyTriesError(RoundwrightError):
    """Too many wrong tries: wait before the next one."""

    code = "account.wait"

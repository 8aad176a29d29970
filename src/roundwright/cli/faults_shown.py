"""How a failed command is told: words on stderr, or one JSON document on stdout."""

import json
import sys
import traceback
from typing import Any

from typer import TyperException

from roundwright.foundation.errors import BadInputError, RoundwrightError
from roundwright.foundation.fault_codes import OURS, USAGE, CodeEntry, entry_of

USAGE_CODE = "usage.wrong"
OURS_ENTRY = CodeEntry(
    "A fault of ours",
    500,
    OURS,
    "Run it again with --debug after roundwright, and report the text to whoever looks after"
    " Roundwright for you. Take names out first.",
)


def tell_error(error: RoundwrightError, as_json: bool, more: dict[str, Any] | None = None) -> int:
    """Tell an error of the family and give its exit code.

    Parameters
    ----------
    error : RoundwrightError
        What went wrong; it carries what to do next.
    as_json : bool
        Whether stdout gets problem details; otherwise stderr gets words.
    more : dict, optional
        Further members of the problem details, such as the draft that was stopped.
    """
    if as_json:
        print_json(error.as_problem() | (more or {}))
        return error.exit_code
    if isinstance(error, BadInputError):
        for fault in error.faults:
            _words(fault.in_words())
        if len(error.faults) > 1:
            _words(f"{error.entry.title}: {len(error.faults)} in all.")
    else:
        _words(f"{error.entry.title}. {error.detail}")
        _words(error.next_step)
    return error.exit_code


def tell_usage(error: TyperException, as_json: bool) -> int:
    """Tell that a command line is not understood, and give the exit code for that."""
    detail = error.format_message()
    if as_json:
        print_json(_problem(USAGE_CODE, entry_of(USAGE_CODE), detail))
    else:
        _words(detail)
        if "Usage:" not in detail:
            _words(entry_of(USAGE_CODE).remedy)
    return USAGE


def tell_unexpected(error: Exception, as_json: bool, debug: bool) -> int:
    """Tell a fault of ours; the traceback only when it was asked for.

    The error's own text may hold what a person wrote, so only its kind is told.
    """
    detail = f"Something went wrong inside ({type(error).__name__}). Nothing was changed."
    if debug:
        traceback.print_exception(error, file=sys.stderr)
    if as_json:
        print_json(_problem("inside.fault", OURS_ENTRY, detail))
    else:
        _words(f"{OURS_ENTRY.title}. {detail}")
        _words(OURS_ENTRY.remedy)
    return OURS


def print_json(document: object) -> None:
    """Write one JSON document on stdout."""
    sys.stdout.write(json.dumps(document, ensure_ascii=False, indent=2) + "\n")


def _problem(code: str, entry: CodeEntry, detail: str) -> dict[str, object]:
    return {
        "type": f"urn:roundwright:{code}",
        "title": entry.title,
        "status": entry.status,
        "detail": detail,
        "next_step": entry.remedy,
    }


def _words(text: str) -> None:
    sys.stderr.write(text + "\n")

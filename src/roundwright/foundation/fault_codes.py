"""The one table of codes: area.what → title, status, exit code, remedy.

Exit codes: 0 done · 1 fault of ours · 2 usage · 3 bad input · 4 gate says never
or stop · 5 impossible · 6 undecided · 7 not found · 8 changed meanwhile ·
9 storage or document.
"""

from dataclasses import dataclass

DONE, OURS, USAGE, BAD_INPUT, GATE, IMPOSSIBLE, UNDECIDED, NOT_FOUND, CHANGED, STORAGE = range(10)


@dataclass(frozen=True, slots=True)
class CodeEntry:
    """What a code means wherever it is shown."""

    title: str
    status: int
    exit_code: int
    remedy: str


def _bad(title: str, remedy: str) -> CodeEntry:
    return CodeEntry(title, 422, BAD_INPUT, remedy)


CODES: dict[str, CodeEntry] = {
    "inside.fault": CodeEntry(
        "A fault of ours", 500, OURS, "Report it with what you did; nothing was changed."
    ),
    "usage.wrong": CodeEntry(
        "The command is not understood", 400, USAGE, "See: roundwright COMMAND --help."
    ),
    "input.faults": _bad("There are faults in the files", "Mend each fault and try again."),
    "name.not_found": CodeEntry(
        "Not found", 404, NOT_FOUND, "Check the name, or list what there is."
    ),
    "plan.changed": CodeEntry(
        "Changed meanwhile", 409, CHANGED, "Load it again and check it again."
    ),
    "plan.refused": CodeEntry(
        "The safety check refuses this plan",
        422,
        GATE,
        "Mend what each finding names, then check again.",
    ),
    "plan.impossible": CodeEntry(
        "No plan is possible", 422, IMPOSSIBLE, "Change one of the things that clash."
    ),
    "plan.undecided": CodeEntry(
        "Undecided within the budget", 422, UNDECIDED, "Let it search longer."
    ),
    "store.failed": CodeEntry(
        "Could not read or write", 503, STORAGE, "Check the folder, its rights and free space."
    ),
    "document.failed": CodeEntry(
        "The page could not be made", 500, STORAGE, "The class can go on without it; report it."
    ),
    "account.unknown": CodeEntry(
        "Not signed in", 401, BAD_INPUT, "Sign in with your name and password."
    ),
    "account.not_allowed": CodeEntry("Not allowed", 403, BAD_INPUT, "Ask the owner."),
    "account.wait": CodeEntry("Too many tries", 429, BAD_INPUT, "Wait, then try again."),
    # files as such
    "file.missing": _bad("The file is missing", "Add it; the how-to page shows its form."),
    "file.not_text": _bad("The file is not UTF-8 text", "Save it as UTF-8 text."),
    "file.too_large": _bad("The file is too large", "Check that it is the right file."),
    "file.syntax": _bad(
        "The file cannot be read", "Mend the line; the how-to page shows the form."
    ),
    "file.schema": _bad("Unknown schema", "Use a schema that this version reads."),
    # tables
    "table.header": _bad("Wrong header", "Use the column names exactly as documented."),
    "table.separator": _bad("Mixed separators", "Use either , or ; throughout."),
    "table.width": _bad("A row with the wrong number of cells", "Give each column one cell."),
    "table.duplicate": _bad("Given twice", "Keep one of them."),
    # fields
    "field.missing": _bad("A field is missing", "Add it."),
    "field.unknown": _bad("Unknown field", "Remove it or mend its name."),
    "field.value": _bad("A value that cannot be", "Give a value as expected."),
    "field.range": _bad("A value out of range", "Give a value within the range."),
    "field.slug": _bad(
        "Not a usable short name", "Use a-z, digits and _, beginning with a letter."
    ),
    "field.time": _bad("A local time that does not exist or is double", "Choose another time."),
    # names
    "name.unknown": _bad("Unknown name", "Use a name that exists, or add it."),
    "name.duplicate": _bad("A name used twice", "Give each its own name."),
    # library
    "library.shares": _bad("Muscle shares do not add up", "Let them sum to one."),
    "library.line": _bad("A line that gets easier", "Order its versions from easy to hard."),
    "library.combination": _bad("A combination that contains itself", "Take it out of its parts."),
    "library.sides": _bad("Sides that do not fit the movement", "Name left and right, or both."),
    "library.stale": _bad("Figures of another posture", "Make the figures of the body model anew."),
    "library.consistency": _bad("An entry that contradicts itself", "Mend one of the two."),
    # hall and class
    "hall.no_kit": _bad("A hall without kit", "Add at least one dumbbell or item to kit.toml."),
    "people.none": _bad("Nobody is in this class", "Add between 1 and 60 people."),
    "people.too_many": _bad("Too many people in one class", "Plan 1 to 60 people a class."),
    "limitation.override": _bad(
        "An override without reason, person or end", "Give reason, who and until when."
    ),
    "limitation.clinician": _bad(
        "An override that only a clinician can give",
        "Ask the clinician; until then the limitation holds.",
    ),
    "class.odd_alternating": _bad("An odd alternating count", "Give an even count."),
    "class.asked": _bad(
        "Not plain enough to be a class", "Write what is missing, or one of the nearest."
    ),
    "class.not_understood": _bad(
        "Words that were not understood", "Say it in other words, or take it out."
    ),
}


def entry_of(code: str) -> CodeEntry:
    """Give the table's entry of a code.

    Raises
    ------
    KeyError
        When the code is not in the table: a fault of ours.
    """
    return CODES[code]

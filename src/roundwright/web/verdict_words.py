"""The verdict of a checked class in one sentence."""

from roundwright.documents.sheet_parts import SheetContent
from roundwright.foundation.words import one_or_more, say


def verdict_words(sheet: SheetContent) -> str:
    """Say that the class fits, who does something else, and when it ends.

    Parameters
    ----------
    sheet : SheetContent
        The sheet of a plan that the gate has passed.
    """
    out = {name for exercise in sheet.exercises for name in exercise.sitting_out}
    instead = {
        name
        for exercise in sheet.exercises
        for version in exercise.versions
        if version.is_substitute
        for name in version.people
    }
    versions = say("everyone has a version")
    if out:
        versions = one_or_more(
            len(out),
            "1 person without a version at some exercise",
            "{n} people without a version at some exercise",
        )
    elif instead:
        versions = one_or_more(
            len(instead),
            "everyone has a version, 1 person by another exercise",
            "everyone has a version, {n} people by another exercise",
        )
    return say(
        "Fits: {versions}, the kit suffices, ends {ends} of {slot_ends}.",
        versions=versions,
        ends=sheet.ends,
        slot_ends=sheet.slot_ends,
    )

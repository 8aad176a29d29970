"""The verdict of a checked class in one sentence."""

from roundwright.documents.sheet_parts import SheetContent


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
    versions = "everyone has a version"
    if out:
        versions = f"{_people(len(out))} without a version at some exercise"
    elif instead:
        versions = f"everyone has a version, {_people(len(instead))} by another exercise"
    return f"Fits: {versions}, the kit suffices, ends {sheet.ends} of {sheet.slot_ends}."


def _people(number: int) -> str:
    return "1 person" if number == 1 else f"{number} people"

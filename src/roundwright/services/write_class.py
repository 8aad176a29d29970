"""A class in plain words for a hall: read with its names, and written as files of its folder."""

from collections.abc import Sequence

from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import HIDDEN, Fault, shortened
from roundwright.goals.quick_entry.entry import quick_entry
from roundwright.goals.quick_entry.names import Around
from roundwright.goals.quick_entry.results import QuickEntry
from roundwright.hall.hall import Hall
from roundwright.hall.hall_text import CLASSES, LIBRARY, read_hall_texts
from roundwright.hall.written_hall import class_text, written_hall
from roundwright.library.catalogue import Catalogue
from roundwright.people.person import Person


def around_hall(hall: Hall) -> Around:
    """Give what a class of this hall may name: its library, rooms and people."""
    return Around(
        catalogue=hall.catalogue,
        rooms={room.id: room.name for room in hall.rooms},
        people={person.person_id: person.shown_name for person in hall.people},
    )


def class_in_plain_words(hall: Hall, text: str) -> QuickEntry:
    """Read a class in plain words with a hall's rooms, people and library."""
    return quick_entry(text, around_hall(hall))


def faults_of(entry: QuickEntry, hall: Hall, file: str) -> tuple[Fault, ...]:
    """Give what is asked and what was not understood as faults of a file.

    Words that name somebody are hidden, and what comes near them: they may say why.

    Parameters
    ----------
    entry : QuickEntry
        As it was read.
    hall : Hall
        Whose people are not to be named in a fault.
    file : str
        Name of the file, shown in faults; a question about the whole class has no line.
    """
    names = [name.casefold() for person in hall.people for name in _names_of(person)]

    def told(code: str, line: int | None, words: str, missing: str, near: tuple[str, ...]) -> Fault:
        if any(name in words.casefold() for name in names):
            # near names and quoted words would say again what is hidden
            words, near, missing = HIDDEN, (), "" if "'" in missing else missing
        return Fault(
            code=code, file=file, line=line, value=shortened(words), expected=missing, nearest=near
        )

    asked = [
        told("class.asked", each.line or None, each.words, each.missing, each.nearest)
        for each in entry.asked
    ]
    lost = [
        told("class.not_understood", each.line, each.words, "", each.nearest)
        for each in entry.not_understood
    ]
    return (*asked, *lost)


def _names_of(person: Person) -> tuple[str, ...]:
    """Give a person's whole shown name, each longer part of it, and the id."""
    parts = (part for part in person.shown_name.split() if len(part) > 2)
    return tuple(name for name in (person.shown_name, *parts, person.person_id) if name)


def class_files(
    hall: Hall, base: Catalogue, entries: Sequence[tuple[str, QuickEntry]]
) -> dict[str, str]:
    """Write understood classes as files of the hall's folder, the library first.

    Parameters
    ----------
    hall : Hall
        The hall they belong to.
    base : Catalogue
        The shipped library.
    entries : sequence of (slug, QuickEntry)
        Short name of each class, and what was read.

    Returns
    -------
    dict
        Text by name within the folder: `library/<slug>.toml` where there are new combinations,
        then `classes/<slug>.toml`.

    Raises
    ------
    BadInputError
        What is asked or was not understood; or the faults that the hall would have with them.
    """
    faults = [fault for slug, entry in entries for fault in faults_of(entry, hall, slug)]
    if faults:
        raise BadInputError(faults)
    libraries = {
        f"{LIBRARY}{slug}.toml": entry.new_library_text
        for slug, entry in entries
        if entry.new_library_text is not None
    }
    classes = {
        f"{CLASSES}{slug}.toml": class_text(entry.wish)
        for slug, entry in entries
        if entry.wish is not None
    }
    files = libraries | classes
    whole = written_hall(hall) | {name: text.encode() for name, text in files.items()}
    read_hall_texts(whole, base)
    return files

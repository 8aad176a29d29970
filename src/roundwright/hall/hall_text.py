"""How the files of a hall become one checked hall, or every fault of all of them at once.

Pure: files come in as bytes by name and nothing is read from a disk here.
"""

from collections.abc import Mapping

from pydantic import BaseModel

from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import Fault
from roundwright.foundation.identifiers import is_slug, nearest_names
from roundwright.goals.class_wish import ClassWish
from roundwright.hall.class_text import ClassSurroundings, read_class
from roundwright.hall.file_text import TomlText, text_of, toml_of
from roundwright.hall.hall import Hall, HallSettings
from roundwright.hall.kit_text import read_kit, read_settings
from roundwright.hall.people_text import read_limitations, read_people
from roundwright.hall.record_files import RECORDS, read_records, without_values
from roundwright.kit.inventory import Inventory, Room
from roundwright.library.catalogue import Catalogue
from roundwright.library.catalogue_text import read_catalogue
from roundwright.people.limitation import Limitation
from roundwright.people.person import Person

HALL_FILE = "hall.toml"
KIT_FILE = "kit.toml"
PEOPLE_FILE = "people.csv"
LIMITATIONS_FILE = "limitations.csv"
NEEDED_FILES = (HALL_FILE, KIT_FILE, PEOPLE_FILE, LIMITATIONS_FILE)
CLASSES = "classes/"
LIBRARY = "library/"
ROWS_LOST = ("table.header", "table.separator", "table.width", "file.syntax")
"""Faults after which not everybody in people.csv is known; nobody is called unknown then."""


def read_hall_texts(files: Mapping[str, bytes], base: Catalogue) -> Hall:
    """Read a hall from its files.

    Parameters
    ----------
    files : mapping
        Content by name within the hall folder: `hall.toml`, `kit.toml`,
        `people.csv`, `limitations.csv`, `classes/<slug>.toml`,
        `library/<slug>.toml`; if there `screens.toml`, `consents.toml`, `care.toml`,
        `staff.toml`.
    base : Catalogue
        The shipped library, to which the hall's own entries are added.

    Raises
    ------
    BadInputError
        With every fault of every file. Health values never stand in a fault.
    """
    return _Reading(files, base).hall()


def is_hall_file(name: str) -> bool:
    """Say whether a name within the folder is one that a hall is read from."""
    return name in (*NEEDED_FILES, *RECORDS) or (
        name.startswith((CLASSES, LIBRARY)) and name.endswith(".toml") and name.count("/") == 1
    )


class _Reading:
    """One reading: goes through the files and collects the faults of all of them."""

    def __init__(self, files: Mapping[str, bytes], base: Catalogue) -> None:
        self.files = files
        self.base = base
        self.faults: list[Fault] = []

    def hall(self) -> Hall:
        self._file_names()
        settings, rooms, room_ids = self._settings()
        kit = self._kit(room_ids)
        people, person_ids = self._people()
        limitations = self._limitations(person_ids)
        records = self._records(person_ids, kit, room_ids)
        texts = self._library_texts()
        catalogue = self._catalogue(texts)
        around = ClassSurroundings(
            rooms=room_ids,
            people=person_ids,
            masses_g=frozenset(d.unit_mass_g for d in kit.dumbbells) if kit else None,
            catalogue=catalogue,
            time_zone=settings.time_zone if settings else None,
        )
        classes = self._classes(around)
        if self.faults or settings is None or kit is None or catalogue is None:
            raise BadInputError(self.faults)
        return Hall(
            settings=settings,
            rooms=rooms,
            kit=kit,
            people=people,
            limitations=limitations,
            classes=classes,
            library_texts=texts,
            catalogue=catalogue,
        ).model_copy(update=records)

    def _file_names(self) -> None:
        self.faults += [
            Fault(code="file.missing", file=name) for name in NEEDED_FILES if name not in self.files
        ]
        for name in self.files:
            if not is_hall_file(name):
                near = nearest_names(name, NEEDED_FILES)
                expected = "a file of a hall folder"
                self.faults.append(
                    Fault(code="name.unknown", file=name, expected=expected, nearest=near)
                )
            elif name not in (*NEEDED_FILES, *RECORDS) and not is_slug(_slug_of(name)):
                self.faults.append(Fault(code="field.slug", file=name, field="file name"))

    def _text(self, name: str) -> str | None:
        if name not in self.files:
            return None
        text, faults = text_of(name, self.files[name])
        self.faults += faults
        return text

    def _toml(self, name: str, kind: str) -> TomlText | None:
        text = self._text(name)
        if text is None:
            return None
        toml, faults = toml_of(name, text, kind)
        self.faults += faults
        return None if any(f.code == "field.range" for f in faults) else toml

    def _settings(
        self,
    ) -> tuple[HallSettings | None, tuple[Room, ...], frozenset[str] | None]:
        toml = self._toml(HALL_FILE, "hall")
        if toml is None:
            return None, (), None
        settings, rooms, room_ids, faults = read_settings(toml)
        self.faults += faults
        return settings, rooms, room_ids

    def _kit(self, room_ids: frozenset[str] | None) -> Inventory | None:
        toml = self._toml(KIT_FILE, "kit")
        if toml is None:
            return None
        kit, faults = read_kit(toml, room_ids)
        self.faults += faults
        return None if faults else kit

    def _people(self) -> tuple[tuple[Person, ...], frozenset[str] | None]:
        text = self._text(PEOPLE_FILE)
        if text is None:
            return (), None
        people, ids, faults = read_people(PEOPLE_FILE, text)
        self.faults += faults
        rows_lost = any(f.code in ROWS_LOST for f in faults)
        return people, None if rows_lost else ids

    def _limitations(self, known: frozenset[str] | None) -> tuple[Limitation, ...]:
        text = self._text(LIMITATIONS_FILE)
        if text is None:
            return ()
        limitations, faults = read_limitations(LIMITATIONS_FILE, text, known)
        self.faults += faults
        return limitations

    def _records(
        self,
        people: frozenset[str] | None,
        kit: Inventory | None,
        rooms: frozenset[str] | None,
    ) -> dict[str, tuple[BaseModel, ...]]:
        found: dict[str, tuple[BaseModel, ...]] = {}
        items = frozenset(item.id for item in kit.items) if kit else None
        masses_g = frozenset(d.unit_mass_g for d in kit.dumbbells) if kit else None
        for name in RECORDS:
            before = len(self.faults)
            toml = self._toml(name, name.removesuffix(".toml"))
            self.faults[before:] = [without_values(f) for f in self.faults[before:]]
            if toml is not None:
                made, faults = read_records(toml, people, items, rooms, masses_g)
                self.faults += faults
                found |= made
        return found

    def _library_texts(self) -> dict[str, str]:
        names = [name for name in sorted(self.files) if name.startswith(LIBRARY)]
        texts = {name: self._text(name) for name in names if is_hall_file(name)}
        return {name: text for name, text in texts.items() if text is not None}

    def _catalogue(self, texts: Mapping[str, str]) -> Catalogue | None:
        if not texts:
            return self.base
        catalogue, faults = read_catalogue(texts, self.base)
        self.faults += faults
        return catalogue

    def _classes(self, around: ClassSurroundings) -> dict[str, ClassWish]:
        classes: dict[str, ClassWish] = {}
        for name in sorted(self.files):
            if not (name.startswith(CLASSES) and is_hall_file(name)):
                continue
            toml = self._toml(name, "class")
            if toml is None:
                continue
            wish, faults = read_class(toml, around)
            self.faults += faults
            if wish is not None and is_slug(_slug_of(name)):
                classes[_slug_of(name)] = wish
        return classes


def _slug_of(name: str) -> str:
    return name.rpartition("/")[2].removesuffix(".toml")

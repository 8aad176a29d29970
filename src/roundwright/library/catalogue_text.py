"""How library files become a catalogue: every fault of every file at once, or none and a catalogue.

The form of the files is described in the how-to page 'Write a library file'.
"""

from collections.abc import Iterator, Mapping

from roundwright.foundation.faults import Fault, shortened
from roundwright.foundation.identifiers import is_slug
from roundwright.library import consistency
from roundwright.library.catalogue import Catalogue
from roundwright.library.combination import Combination
from roundwright.library.contradiction import Contradiction
from roundwright.library.field_faults import typed
from roundwright.library.line import ProgressionLine
from roundwright.library.movement import Movement
from roundwright.library.name_checks import (
    AnyModel,
    Names,
    names_in_combination,
    names_in_line,
    old_names_in_use,
    short_names_used_twice,
    shown_names_used_twice,
)
from roundwright.library.toml_entries import Entry, entries_of

EMPTY = Catalogue(movements={}, lines={}, combinations={})
STAND_IN_SLUG = "unnamed_entry"

_MODELS: dict[str, type[Movement] | type[ProgressionLine] | type[Combination]] = {
    "movement": Movement,
    "line": ProgressionLine,
    "combination": Combination,
}


def read_catalogue(
    texts: Mapping[str, str], base: Catalogue | None = None
) -> tuple[Catalogue | None, tuple[Fault, ...]]:
    """Read library files into a catalogue.

    Parameters
    ----------
    texts : mapping
        File name to TOML text.
    base : Catalogue, optional
        The library that these files add to; they may use its names and may
        not use them anew.

    Returns
    -------
    catalogue : Catalogue or None
        Base and files together; None when there is any fault.
    faults : tuple of Fault
        Every fault of every file, ordered by file and line.
    """
    base = base or EMPTY
    files = [entries_of(file, texts[file]) for file in sorted(texts)]
    faults = [fault for file in files for fault in file.faults]
    entries = [entry for file in files for entry in file.entries]
    names = Names.of((name for file in files for name in file.declared), base)

    made: list[tuple[Entry, AnyModel]] = []
    for entry in entries:
        slug_is_good = is_slug(entry.slug)
        if not slug_is_good:
            faults.append(
                entry.fault(
                    "field.slug",
                    value=shortened(entry.slug),
                    expected="2 to 41 of a-z, 0-9 and _, beginning with a letter",
                )
            )
        slug = entry.slug if slug_is_good else STAND_IN_SLUG
        model, wrong = typed(_MODELS[entry.kind], entry, slug)
        faults += wrong
        if model is not None:
            made.append((entry, model))

    faults += short_names_used_twice(entries, base)
    faults += shown_names_used_twice(made, base)
    faults += old_names_in_use(made, names)
    known = _together(base, made)
    for entry, model in made:
        if isinstance(model, ProgressionLine):
            faults += names_in_line(entry, model, names)
        elif isinstance(model, Combination):
            faults += names_in_combination(entry, model, names)
        faults += [_placed(entry, found) for found in _contradictions(model, known)]
    if faults:
        ordered = sorted(faults, key=lambda f: (f.file, f.line or 0, f.column or 0, f.field))
        return None, tuple(dict.fromkeys(ordered))
    movements, lines, combinations = known
    catalogue = Catalogue(
        movements=movements,
        lines=lines,
        combinations=combinations,
        raised_by_model=base.raised_by_model,
    )
    return catalogue, ()


_Known = tuple[dict[str, Movement], dict[str, ProgressionLine], dict[str, Combination]]


def _together(base: Catalogue, made: list[tuple[Entry, AnyModel]]) -> _Known:
    movements, lines = dict(base.movements), dict(base.lines)
    combinations = dict(base.combinations)
    for _, model in made:
        if isinstance(model, Movement):
            movements.setdefault(model.slug, model)
        elif isinstance(model, ProgressionLine):
            lines.setdefault(model.slug, model)
        else:
            combinations.setdefault(model.slug, model)
    return movements, lines, combinations


def _contradictions(model: AnyModel, known: _Known) -> Iterator[Contradiction]:
    movements, lines, _ = known
    if isinstance(model, Movement):
        shown = {slug: movement.name for slug, movement in movements.items()}
        return consistency.in_movement(model, shown)
    if isinstance(model, ProgressionLine):
        return consistency.in_line(model, movements)
    return consistency.in_combination(model, lines, movements)


def _placed(entry: Entry, found: Contradiction) -> Fault:
    return entry.fault(
        found.code,
        found.path,
        value=shortened(found.value),
        expected=found.expected,
        remedy=found.remedy,
    )

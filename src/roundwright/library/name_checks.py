"""Whether every name in library files leads somewhere, once: references and names used twice.

Names of entries that are broken elsewhere still count as there, so that one
broken movement is one fault and not one in every line that uses it.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from roundwright.foundation.faults import Fault
from roundwright.foundation.identifiers import nearest_names
from roundwright.library.catalogue import Catalogue
from roundwright.library.combination import Combination
from roundwright.library.line import ProgressionLine
from roundwright.library.movement import Movement
from roundwright.library.toml_entries import Entry

AnyModel = Movement | ProgressionLine | Combination

_CLASHES = {
    "movement": ("movement",),
    "line": ("line", "combination"),
    "combination": ("combination", "line"),
}
"""An exercise is named by its slug alone, so lines and combinations share one set."""


@dataclass(frozen=True, slots=True)
class Names:
    """Every name there is, by kind, broken entries included."""

    movements: frozenset[str]
    lines: frozenset[str]
    combinations: frozenset[str]

    @classmethod
    def of(cls, declared: Iterable[tuple[str, str]], base: Catalogue) -> "Names":
        """Gather the names that files declare and those of the base."""
        by_kind: dict[str, set[str]] = {
            "movement": set(base.movements),
            "line": set(base.lines),
            "combination": set(base.combinations),
        }
        for kind, slug in declared:
            by_kind[kind].add(slug)
        return cls(
            frozenset(by_kind["movement"]),
            frozenset(by_kind["line"]),
            frozenset(by_kind["combination"]),
        )


def short_names_used_twice(entries: Iterable[Entry], base: Catalogue) -> Iterator[Fault]:
    """Find short names used twice, in any file or against the base."""
    first: dict[tuple[str, str], str] = {}
    first |= {("movement", slug): "the shipped library" for slug in base.movements}
    first |= {("line", slug): "the shipped library" for slug in base.lines}
    first |= {("combination", slug): "the shipped library" for slug in base.combinations}
    for entry in entries:
        taken = next((k for k in _CLASHES[entry.kind] if (k, entry.slug) in first), None)
        if taken:
            yield entry.fault(
                "name.duplicate",
                value=entry.slug,
                expected=f"a short name that is not yet a {taken} in {first[taken, entry.slug]}",
            )
        else:
            first[entry.kind, entry.slug] = entry.file


def shown_names_used_twice(
    made: Iterable[tuple[Entry, AnyModel]], base: Catalogue
) -> Iterator[Fault]:
    """Find shown names that two movements, or two exercises, would share on a sheet."""
    seen: dict[tuple[bool, str], str] = {}
    for slug, movement in base.movements.items():
        seen[True, movement.name.casefold()] = slug
    for slug, line in base.lines.items():
        seen[False, line.name.casefold()] = slug
    for slug, combination in base.combinations.items():
        seen[False, combination.name.casefold()] = slug
    for entry, model in made:
        key = (entry.kind == "movement", model.name.casefold())
        if key in seen:
            yield entry.fault(
                "name.duplicate",
                ("name",),
                value=model.name,
                expected=f"a shown name other than that of {seen[key]}",
            )
        seen.setdefault(key, entry.slug)


def old_names_in_use(made: Iterable[tuple[Entry, AnyModel]], names: Names) -> Iterator[Fault]:
    """Find old short names (`was`) that are still, or again, in use."""
    of_kind = {
        "movement": names.movements,
        "line": names.lines,
        "combination": names.combinations,
    }
    seen: dict[tuple[str, str], str] = {}
    for entry, model in made:
        for index, old in enumerate(model.was):
            if old in of_kind[entry.kind] or (entry.kind, old) in seen:
                yield entry.fault(
                    "name.duplicate",
                    ("was", index),
                    value=old,
                    expected="an old short name that nothing else bears or bore",
                )
            seen[entry.kind, old] = entry.slug


def names_in_line(entry: Entry, line: ProgressionLine, names: Names) -> Iterator[Fault]:
    """Find versions that are no movement or named twice, and criteria for no version."""
    for index, slug in enumerate(line.versions):
        if slug not in names.movements:
            yield entry.fault(
                "name.unknown",
                ("versions", index),
                value=slug,
                expected="the short name of a movement",
                nearest=nearest_names(slug, names.movements),
            )
        if slug in line.versions[:index]:
            yield entry.fault(
                "name.duplicate", ("versions", index), value=slug, expected="each version once"
            )
    targets = [step.to for step in line.steps]
    for index, target in enumerate(targets):
        if target not in line.versions:
            yield entry.fault(
                "name.unknown",
                ("steps", index, "to"),
                value=target,
                expected="one of this line's versions",
                nearest=nearest_names(target, line.versions),
            )
        if target in targets[:index]:
            yield entry.fault(
                "name.duplicate",
                ("steps", index, "to"),
                value=target,
                expected="one set of criteria for each version",
            )


def names_in_combination(entry: Entry, combination: Combination, names: Names) -> Iterator[Fault]:
    """Find parts that are no line: unknown, the combination itself, or another one."""
    for index, part in enumerate(combination.parts):
        path = ("parts", index, "line")
        if part.line in names.lines:
            continue
        if part.line in names.combinations:
            itself = part.line == combination.slug
            yield entry.fault(
                "library.combination",
                path,
                value=part.line,
                expected="a progression line"
                + (", not the combination itself" if itself else ", not another combination"),
                remedy="Name the lines that the part is made of.",
            )
        else:
            is_movement = part.line in names.movements
            yield entry.fault(
                "name.unknown",
                path,
                value=part.line,
                expected="the short name of a line"
                + (" (this is a movement; name its line)" if is_movement else ""),
                nearest=nearest_names(part.line, names.lines),
            )

"""Phrases about who comes, what is left out, and what is kept for one person."""

import re

from roundwright.foundation.quantities import mass_g
from roundwright.goals.class_wish import KeptCell
from roundwright.goals.quick_entry.names import Around, key_of
from roundwright.goals.quick_entry.plain_numbers import NUMBER, number_of
from roundwright.goals.quick_entry.results import Ask, Fact, Heard
from roundwright.library.catalogue import Catalogue
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import Demand, Pattern

_EVERYONE = re.compile(r"(?:for )?(?:everyone|everybody|all people|all members)")
_BUT = re.compile(
    r"(?:for )?(?:everyone|everybody|all)(?: people)? (?:but|except(?: for)?|without) (?P<who>.+)"
)
_WITH = re.compile(r"(?:with|people|only|for):? (?P<who>.+)")
_BAN = re.compile(r"(?:no|without|ban|leave out) (?P<alone>version )?(?P<what>.+)")
_FOR = re.compile(r"(?P<what>.+?),? for (?P<who>.+)")
_ALL = frozenset({"anyone", "anybody", "everyone", "everybody", "all", "today", "the class"})
_KEEP = re.compile(rf"(?:keep )?(?P<who>.+?) at place (?P<n>{NUMBER}): ?(?P<what>.+)")
_MASS = re.compile(
    r"(?:(?P<rest>.+?) with )?(?P<m>[0-9]{1,4}(?:[.,][0-9]{1,3})? ?(?:kg|lbs?|g|pounds?|kilos?))"
)

_GROUPS = ("jump", "floor work", "overhead work")


def banned_group(name: str, catalogue: Catalogue) -> tuple[str, ...]:
    """Give the movements that a group of movements means, by short name.

    Parameters
    ----------
    name : str
        `jump`: every version with a landing, a hop or the pattern jump. `floor work`: every
        version for which one gets down to the floor. `overhead work`: arms above the head.
    catalogue : Catalogue
        The library.
    """
    return tuple(sorted(m.slug for m in catalogue.movements.values() if _is_in(name, m)))


def _is_in(name: str, m: Movement) -> bool:
    if name == "jump":
        return bool(m.contacts_a_rep or m.low_hops_a_rep) or m.pattern is Pattern.JUMP
    return m.demand(Demand.FLOOR_RISE if name == "floor work" else Demand.OVERHEAD) > 0


def begins_people(text: str) -> bool:
    """Say whether a piece may begin a list of people."""
    return bool(_BUT.fullmatch(text) or _WITH.fullmatch(text))


def people_phrase(text: str, around: Around) -> Heard:
    """Hear who comes.

    Parameters
    ----------
    text : str
        One piece, in small letters; hyphens are kept as they may be part of a name.
    around : Around
        People that may be named.
    """
    if _EVERYONE.fullmatch(text):
        return Fact(says="everyone", sets=(("people", "all"),))
    but = _BUT.fullmatch(text)
    found = but or _WITH.fullmatch(text)
    if found is None:
        return None
    names = [name for name in re.split(r"\s*,\s*(?:and\s+)?|\s+and\s+", found["who"]) if name]
    known = around.people_named(names[0]) if names else ()
    if but is None and not known and not text.startswith("people"):
        return None
    people: list[str] = []
    for name in names:
        one = _person(name, around)
        if isinstance(one, Ask):
            return one
        if one in people:
            return Ask(f"who else: {name} is named twice")
        people.append(one)
    if but is not None:
        people = [person for person in around.people or {} if person not in people]
    if not people:
        return Ask("who comes; nobody is left")
    if len(people) > 60:
        return Ask("at most 60 people")
    return Fact(says=people_words(tuple(people), around), sets=(("people", tuple(people)),))


def _person(name: str, around: Around) -> str | Ask:
    if around.people is None:
        return Ask("whom you mean; no people are given here")
    found = around.people_named(name)
    if len(found) == 1:
        return found[0]
    if found:
        return Ask(f"which {name}", found)
    return Ask(f"who {name} is", around.near_people(name))


def people_words(people: tuple[str, ...], around: Around) -> str:
    """Write who comes."""
    return "with " + " and ".join(around.person_words(person) for person in people)


def ban_phrase(text: str, around: Around) -> Heard:
    """Hear what is left out for the whole class.

    Parameters
    ----------
    text : str
        One piece, in small letters, hyphens as blanks.
    around : Around
        The library.
    """
    found = _BAN.fullmatch(text)
    if found is None:
        return None
    what = found["what"]
    whose = _FOR.fullmatch(what)
    if whose is not None and whose["who"] in _ALL:
        what = whose["what"]
    elif whose is not None:
        return Ask(
            "who it is for: what one person must avoid belongs to that person, not to a class"
        )
    elif what.endswith(" today"):
        what = what.removesuffix(" today")
    catalogue, key = around.catalogue, key_of(what)
    group = next((g for g in _GROUPS if key_of(g) == key), None)
    if group is not None:
        slugs = banned_group(group, catalogue)
        said = f"no {_shown(group)} ({len(slugs)} versions are left out)"
        return (
            Fact(says=said, ban=slugs) if slugs else Ask("what to leave out; the library has none")
        )
    movements = around.versions.get(key, ())
    exercises = around.exercises.get(key, ())
    lines = [e for e in exercises if e in catalogue.lines and not found["alone"]]
    named = lines or list(movements)
    if len(named) == 1:
        said = ban_word(named[0], catalogue) + _all_versions(named[0], catalogue)
        return Fact(says=said, ban=(named[0],))
    if exercises and not lines:
        return Ask("a version or a progression line; a combination is left out by leaving it away")
    near = named or around.nearest(what)
    shown = tuple(ban_word(n, catalogue) if n in named else f"no {n}" for n in near)
    return Ask("what is left out", shown[:3])


def _all_versions(slug: str, catalogue: Catalogue) -> str:
    """Say that a line which is left out takes all of its versions with it."""
    if slug not in catalogue.lines:
        return ""
    names = "; ".join(movement.name for movement in catalogue.versions(slug))
    return f" (all its versions, the easy ones too: {names})"


def _shown(group: str) -> str:
    return "jumps" if group == "jump" else group


def ban_words(ban: tuple[str, ...], catalogue: Catalogue) -> tuple[str, ...]:
    """Write what is left out, one phrase each; a whole group in one word."""
    left, words = set(ban), []
    for group in _GROUPS:
        slugs = set(banned_group(group, catalogue))
        if slugs and slugs <= left:
            left -= slugs
            words.append(f"no {_shown(group)}")
    return (*words, *(ban_word(slug, catalogue) for slug in ban if slug in left))


def ban_word(slug: str, catalogue: Catalogue) -> str:
    """Write one thing that is left out."""
    if slug in catalogue.lines:
        return f"no {catalogue.lines[slug].name}"
    name = catalogue.movements[slug].name
    lines = {key_of(line.name) for line in catalogue.lines.values()} | set(catalogue.lines)
    alone = key_of(name) in lines or key_of(name) in {key_of(line) for line in catalogue.lines}
    return f"no version {name}" if alone else f"no {name}"


def keep_phrase(text: str, around: Around) -> Heard:
    """Hear what is kept for one person at one place: a version, a load, a rest, another exercise.

    Parameters
    ----------
    text : str
        One piece, in small letters; hyphens are kept.
    around : Around
        The library and people.
    """
    found = _KEEP.fullmatch(text)
    if found is None:
        return None
    person = _person(found["who"], around)
    if isinstance(person, Ask):
        return person
    position, what = number_of(found["n"]), found["what"].strip()
    if not 1 <= position <= 20:
        return Ask("a place from 1 to 20")
    cell = _cell(person, position, what, around)
    if isinstance(cell, Ask):
        return cell
    return Fact(says=keep_words(cell, around), keep=cell)


def _cell(person: str, position: int, what: str, around: Around) -> KeptCell | Ask:
    if what in ("rests", "rest", "nothing"):
        return KeptCell(person=person, position=position, rests=True)
    if what.endswith(" instead"):
        what = what.removesuffix(" instead")
        found = around.exercises.get(key_of(what), ())
        if len(found) != 1:
            return Ask("which exercise instead", around.nearest(what))
        return KeptCell(person=person, position=position, instead=found[0])
    mass = None
    weighed = _MASS.fullmatch(what)
    if weighed is not None:
        said = re.sub(r"pounds?|lbs", "lb", re.sub(r"kilos?", "kg", weighed["m"]))
        mass, what = mass_g(said), weighed["rest"] or ""
    if mass is not None and mass < 1:
        return Ask("a mass above 0")
    if not what:
        return KeptCell.model_validate({"person": person, "position": position, "mass": mass})
    movements = around.versions.get(key_of(what), ())
    if len(movements) != 1:
        return Ask("which version", around.nearest(what))
    return KeptCell.model_validate(
        {"person": person, "position": position, "version": movements[0], "mass": mass}
    )


def keep_words(cell: KeptCell, around: Around) -> str:
    """Write what is kept for one person at one place."""
    catalogue = around.catalogue
    if cell.rests:
        what = "rests"
    elif cell.instead is not None:
        what = f"{catalogue.exercise_name(cell.instead)} instead"
    else:
        mass = "" if cell.mass_g is None else _mass_words(cell.mass_g)
        version = "" if cell.version is None else catalogue.movements[cell.version].name
        what = f"{version} with {mass}" if version and mass else version or mass
    return f"{around.person_words(cell.person)} at place {cell.position}: {what}"


def _mass_words(grams: int) -> str:
    whole, rest = divmod(grams, 1000)
    return f"{whole}.{rest:03d}".rstrip("0").rstrip(".") + " kg"

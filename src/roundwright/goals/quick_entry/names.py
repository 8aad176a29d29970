"""Names as people write them: plurals, hyphens and capitals aside; nearest names never silently."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from difflib import SequenceMatcher
from functools import cached_property

from roundwright.foundation.identifiers import nearest_names
from roundwright.library.catalogue import Catalogue
from roundwright.library.combination import Combination
from roundwright.library.line import ProgressionLine

MOST_NEAR = 3
_NEAR = 0.72
"""Least likeness of letters that counts at all (our choice)."""
MEANT = 0.6
"""Likeness from which a name may well be what was meant (our choice)."""
RELATED = 0.25
"""Likeness from which a name is worth showing beside words that were not understood."""
_WORD = re.compile(r"[^\W_]+|,")


def words_of(text: str) -> tuple[str, ...]:
    """Give the words of a name in the singular, commas kept, all else that is no letter left out.

    Examples
    --------
    >>> words_of("Push-ups, close grip"), words_of("one-arm presses"), words_of("Rear flies")
    (('push', 'up', ',', 'close', 'grip'), ('one', 'arm', 'press'), ('rear', 'fly'))
    """
    return tuple(_singular(word) for word in _WORD.findall(text.casefold()) if word != "the")


def _singular(word: str) -> str:
    if len(word) > 4 and word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith(("sses", "ches", "shes", "xes")):
        return word[:-2]
    if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us", "is")):
        return word[:-1]
    return word


def key_of(text: str) -> str:
    """Give the normal form by which two spellings of a name are the same.

    Examples
    --------
    >>> key_of("Push-ups") == key_of("pushup") == key_of("push up")
    True
    """
    return "".join(words_of(text))


@dataclass(frozen=True)
class Around:
    """What a class may name: the library, rooms and people, each by short name with its shown name.

    `people` is None where nobody is known.
    """

    catalogue: Catalogue
    rooms: Mapping[str, str] = field(default_factory=dict)
    people: Mapping[str, str] | None = None

    @cached_property
    def exercises(self) -> Mapping[str, tuple[str, ...]]:
        """Lines and combinations by normal form: of shown names first, else of short and old ones.

        A normal form without the commas of the name leads to it as well.
        """
        both: dict[str, ProgressionLine | Combination] = {
            **self.catalogue.lines,
            **self.catalogue.combinations,
        }
        shown = [(slug, each.name) for slug, each in both.items()]
        further = [(slug, name) for slug, each in both.items() for name in (slug, *each.was)]
        return _by_key(further) | _by_key(shown)

    @cached_property
    def versions(self) -> Mapping[str, tuple[str, ...]]:
        """Movements by the normal form of their shown and short names."""
        movements = self.catalogue.movements.items()
        shown = _by_key([(slug, each.name) for slug, each in movements])
        further = _by_key([(slug, name) for slug, m in movements for name in (slug, *m.was)])
        return further | shown

    @cached_property
    def lines_of_version(self) -> Mapping[str, tuple[str, ...]]:
        """Progression lines in which a movement stands."""
        found: dict[str, tuple[str, ...]] = {}
        for slug, line in self.catalogue.lines.items():
            for movement in line.versions:
                found[movement] = (*found.get(movement, ()), slug)
        return found

    @cached_property
    def shown_names(self) -> tuple[str, ...]:
        """Shown names of everything that a class may name."""
        names = [each.name for each in self.catalogue.lines.values()]
        names += [each.name for each in self.catalogue.combinations.values()]
        names += [each.name for each in self.catalogue.movements.values()]
        return tuple(dict.fromkeys(names))

    @cached_property
    def _words(self) -> Mapping[str, frozenset[str]]:
        return {name: frozenset(words_of(name)) for name in self.shown_names}

    def nearest(self, text: str, least: float = MEANT) -> tuple[str, ...]:
        """Give at most three shown names that may have been meant, the nearest first.

        Likeness is that of the letters, or how many words the two share, 0 to 1; `least` is
        that from which a name is given.
        """
        wanted = frozenset(words_of(text)[:12])
        plain = " ".join(words_of(text)[:12])
        if not plain:
            return ()
        scores = []
        matcher = SequenceMatcher(autojunk=False)
        matcher.set_seq2(plain)
        for name, words in self._words.items():
            shared = 2 * len(wanted & words) / (len(wanted) + len(words))
            matcher.set_seq1(name.casefold())
            if matcher.real_quick_ratio() > _NEAR and matcher.quick_ratio() > _NEAR:
                shared = max(shared, matcher.ratio())
            if shared >= least:
                scores.append((-shared, len(name), name))
        return tuple(name for _, _, name in sorted(scores)[:MOST_NEAR])

    @cached_property
    def _people_by_name(self) -> Mapping[str, tuple[str, ...]]:
        found: dict[str, tuple[str, ...]] = {}
        for person, name in (self.people or {}).items():
            said = " ".join(name.casefold().split())
            found[said] = (*found.get(said, ()), person)
        return found

    def room_named(self, text: str) -> str | None:
        """Give the room of that name or short name."""
        wanted = key_of(text)
        found = [r for r, name in self.rooms.items() if wanted in (key_of(name), key_of(r))]
        return found[0] if wanted and len(found) == 1 else None

    def people_named(self, text: str) -> tuple[str, ...]:
        """Give everybody of that shown name, or the one of that id."""
        wanted = " ".join(text.casefold().split())
        if wanted in (self.people or {}):
            return (wanted,)
        return self._people_by_name.get(wanted, ())

    def near_people(self, text: str) -> tuple[str, ...]:
        """Give shown names of people that come near."""
        by_name = {name.casefold(): name for name in (self.people or {}).values()}
        return tuple(by_name[n] for n in nearest_names(text.casefold()[:80], by_name))

    def person_words(self, person_id: str) -> str:
        """Give how a person is named in words: by the shown name where it is theirs alone."""
        name = (self.people or {}).get(person_id, "")
        plain = bool(name) and not re.search(r"[,:;\n]|\band\b|\bat place\b", name.casefold())
        return name if plain and self.people_named(name) == (person_id,) else person_id


def _by_key(names: Iterable[tuple[str, str]]) -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for slug, name in names:
        key = key_of(name)
        for form in {key, key.replace(",", "")}:
            if slug not in found.get(form, ()):
                found[form] = (*found.get(form, ()), slug)
    return found

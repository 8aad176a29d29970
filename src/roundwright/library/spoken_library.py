"""The library in the language that is spoken: names, and what a coach says of each movement.

The library is written in English; texts of the shipped entries have their catalogue. A text that
no catalogue has, as in a coach's own entry, stays as it was written. Only for what is shown:
nothing that is kept, judged, planned or exported is read from it.
"""

from collections import OrderedDict
from collections.abc import Iterable
from threading import Lock

from roundwright.foundation.words import say, speech
from roundwright.library.catalogue import Catalogue
from roundwright.library.combination import Combination
from roundwright.library.line import ProgressionLine
from roundwright.library.movement import FaultAndFix, Movement, Teaching

MOST_KEPT = 16
"""Libraries that are kept in a language; our choice."""
_kept: OrderedDict[tuple[int, str], tuple[Catalogue, Catalogue]] = OrderedDict()
_lock = Lock()


def spoken(library: Catalogue) -> Catalogue:
    """Give a library in the language that is spoken; in English the very same one."""
    language = speech()
    if not language.texts:
        return library
    key = (id(library), language.language)
    with _lock:
        found = _kept.get(key)
        if found is None or found[0] is not library:
            found = (library, _translated(library))
            _kept[key] = found
        _kept.move_to_end(key)
        while len(_kept) > MOST_KEPT:
            _kept.popitem(last=False)
    return found[1]


def spoken_movement(movement: Movement) -> Movement:
    """Give a movement with its name and teaching in the language that is spoken."""
    update = {"name": say(movement.name), "teaching": _taught(movement.teaching)}
    return movement.model_copy(update=update)


def _translated(library: Catalogue) -> Catalogue:
    return library.model_copy(
        update={
            "movements": {s: spoken_movement(m) for s, m in library.movements.items()},
            "lines": {s: _line(line) for s, line in library.lines.items()},
            "combinations": {s: _named(c) for s, c in library.combinations.items()},
        }
    )


def _named(entry: Combination) -> Combination:
    return entry.model_copy(update={"name": say(entry.name)})


def _line(line: ProgressionLine) -> ProgressionLine:
    update = {"name": say(line.name), "up": _said(line.up), "down": _said(line.down)}
    return line.model_copy(update=update)


def _taught(written: Teaching) -> Teaching:
    return written.model_copy(
        update={
            "set_up": say(written.set_up),
            "steps": _said(written.steps),
            "start": say(written.start),
            "end": say(written.end),
            "feel": say(written.feel),
            "breathing": say(written.breathing),
            "cues": _said(written.cues),
            "faults": tuple(_fault(each) for each in written.faults),
            "watch": say(written.watch),
        }
    )


def _fault(written: FaultAndFix) -> FaultAndFix:
    return written.model_copy(update={"fault": say(written.fault), "fix": say(written.fix)})


def _said(texts: Iterable[str]) -> tuple[str, ...]:
    return tuple(say(text) for text in texts)

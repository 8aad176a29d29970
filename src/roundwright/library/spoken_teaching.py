"""What a coach says of a movement, in the language that is spoken.

The library is written in English; texts of the shipped entries have their catalogue. A text that
no catalogue has, as in a coach's own entry, is said as it was written.
"""

from collections.abc import Iterable

from roundwright.foundation.words import say
from roundwright.library.movement import FaultAndFix, Movement, Teaching


def taught(movement: Movement) -> Teaching:
    """Give the teaching of a movement in the language that is spoken; for showing only."""
    written = movement.teaching
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

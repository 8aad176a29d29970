"""What a row of the table of limits is made of, and the words that several rows share."""

from collections.abc import Mapping
from dataclasses import dataclass

from roundwright.library.vocabulary import Demand as D

CP = "common practice, no source"
MODS = "ref: mods-common (common practice, from memory)"


@dataclass(frozen=True, slots=True)
class Action:
    """What to do, in words that an assistant may see, and the cap it follows from, if one."""

    words: str
    follows_from: D | None = None


@dataclass(frozen=True, slots=True)
class CapRow:
    """The highest degrees allowed, the words, the highest effort of 10, and the tag."""

    caps: Mapping[D, int]
    actions: tuple[Action, ...]
    effort_cap: int | None
    source: str


NO_JUMPS = Action("no jumps", D.IMPACT)
SOFT_LANDINGS = Action("low, soft landings only", D.IMPACT)
NO_QUICK_TURNS = Action("no quick turns", D.QUICK_TURN)
EXHALE = Action("breathe out with the effort, never hold the breath")
FULL_SENTENCES = Action("steady: can speak in full sentences", D.VIGOROUS)
RISE_SLOWLY = Action("up and down slowly", D.FAST_LEVEL_CHANGE)
SUPPORT_NEAR = Action("a wall or chair within reach", D.BALANCE)
HANDS_RAISED = Action("hands raised for push-ups", D.SHOULDER)
FLAT_TRUNK = Action("no sit-ups: trunk stays long", D.DEEP_SPINAL_FLEXION)
LIGHT_BRACE = Action("light bracing only, no straining", D.ABDOMINAL_PRESSURE)
RAISED_TRUNK = Action("no lying on the back: raised trunk or another exercise", D.ON_BACK)
ASK_STILL = Action("ask before the start: does this still hold?")
ASK_SIDE = Action("ask before the start: which side?")
ASK_NEWS = Action("ask before the start: anything changed?")
ASK_LEAVE = Action("ask before the start: cleared for today?")

Half = tuple[dict[D, int], tuple[Action, ...], int | None]
"""Caps, words and effort of one amount."""

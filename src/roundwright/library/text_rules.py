"""What the words of an entry may not say, given its kit and its demands.

Only plain signs are looked for, in the places where they mean what they say:
the set-up, the steps, the start and the end. Cues are pictures ('on rails, not
on a rope') and faults name what to do instead, so they are left alone.
"""

import re
from collections.abc import Callable

from roundwright.library.movement import Movement
from roundwright.library.movement_says import Found, says
from roundwright.library.vocabulary import Demand, KitKind, KitUse

KIT_WORDS: dict[KitKind, re.Pattern[str]] = {
    KitKind.DUMBBELL: re.compile(r"\bdumbbells?\b"),
    KitKind.BENCH: re.compile(r"\bbench\b"),
    KitKind.BOX: re.compile(r"\bbox\b"),
    KitKind.MAT: re.compile(r"\bmat\b"),
    KitKind.BAND: re.compile(r"\bbands?\b"),
    KitKind.ROPE: re.compile(r"\b(skipping )?rope\b"),
    KitKind.CHAIR: re.compile(r"\bchair\b"),
}
"""What kit is called in the text. A wall is left out: much kit is set against one."""

DEMAND_WORDS: dict[Demand, re.Pattern[str]] = {
    Demand.ON_BACK: re.compile(r"\b(lie|lying) on (your|the) back\b"),
    Demand.ON_FRONT: re.compile(r"\b(lie|lying) (face down|on (your|the) front)\b"),
    Demand.FLOOR_RISE: re.compile(
        r"\b(kneel|kneeling|hands and knees|(lie|lying|sit|sitting) on (the floor|a mat|the mat))\b"
    ),
    Demand.IMPACT: re.compile(r"^(jump|hop|leap)\b|\b(then|and) (jump|hop|leap)\b"),
    Demand.OVERHEAD: re.compile(r"\b(overhead|above (your|the) head|over (your|the) head)\b"),
    Demand.NEEDS_STANDING: re.compile(r"^(stand|standing)\b"),
}
"""Words that say what is asked, sentence by sentence."""

STANDS = re.compile(r"\b(stand|standing|stands|rise|risen|up)\b")


def _sentences(movement: Movement) -> list[tuple[tuple[str | int, ...], str]]:
    teaching = movement.teaching
    found: list[tuple[tuple[str | int, ...], str]] = [(("set_up",), teaching.set_up)]
    found += [(("steps", place), step) for place, step in enumerate(teaching.steps)]
    return [*found, (("start",), teaching.start), (("end",), teaching.end)]


def kit_in_the_words_is_kit(movement: Movement) -> Found:
    """Require kit that the words speak of, or it is missing on the floor."""
    has = {need.item for need in movement.kit}
    for kind, word in KIT_WORDS.items():
        if kind in has:
            continue
        for path, sentence in _sentences(movement):
            if word.search(sentence.casefold()):
                yield says(
                    movement,
                    ("teaching", *path),
                    sentence,
                    f"kit with a {kind.value}, or other words",
                )
                break


def kit_is_in_the_words(movement: Movement) -> Found:
    """Require words for the kit that is needed, or a stand-in does not know what it is for."""
    teaching = movement.teaching
    texts = [sentence for _, sentence in _sentences(movement)]
    text = " ".join([*texts, *teaching.cues, teaching.watch, movement.name]).casefold()
    for place, need in enumerate(movement.kit):
        word = KIT_WORDS.get(need.item)
        if word is not None and not word.search(text):
            yield says(
                movement,
                ("kit", place, "item"),
                need.item.value,
                f"a set-up, step, cue or watch that says where the {need.item.value} is",
            )


def words_are_demands(movement: Movement) -> Found:
    """Require the demand that the words give away: lying, kneeling, jumping, overhead, standing."""
    on_bench = any(
        need.item is not KitKind.MAT and need.use is KitUse.LIE_OR_SIT for need in movement.kit
    )
    for demand, word in DEMAND_WORDS.items():
        if movement.demand(demand) or (demand is Demand.FLOOR_RISE and on_bench):
            continue
        if demand is Demand.NEEDS_STANDING and movement.demand(Demand.FLOOR_RISE):
            continue  # somebody stands before they go down; getting up is the demand
        for path, sentence in _sentences(movement):
            if word.search(sentence.casefold()):
                yield says(
                    movement,
                    ("teaching", *path),
                    sentence,
                    f"{demand.value} 1 or more, or other words",
                )
                break


def whoever_sits_is_told_to_stand(movement: Movement) -> Found:
    """Require words for standing up where somebody sits and standing is a demand."""
    sits = any(
        need.item is KitKind.CHAIR and need.use is KitUse.LIE_OR_SIT for need in movement.kit
    )
    text = " ".join(sentence for _, sentence in _sentences(movement)).casefold()
    if sits and movement.demand(Demand.NEEDS_STANDING) and not STANDS.search(text):
        yield says(
            movement,
            ("demands", Demand.NEEDS_STANDING.value),
            movement.demand(Demand.NEEDS_STANDING),
            "no needs_standing, because it is done sitting, or a step that says to stand",
        )


def teaching_names_another(movement: Movement, shown_names: dict[str, str]) -> Found:
    """Require words about this movement only; faults and watch may name what to do instead."""
    own = movement.name.casefold()
    others = [
        name
        for slug, name in shown_names.items()
        if slug != movement.slug and name.casefold() not in own
    ]
    cues = [(("cues", place), cue) for place, cue in enumerate(movement.teaching.cues)]
    feel = [(("feel",), movement.teaching.feel)]
    for path, sentence in [*_sentences(movement), *cues, *feel]:
        folded = sentence.casefold()
        for name in others:
            word = name.casefold()
            if word in folded and re.search(rf"\b{re.escape(word)}\b", folded):
                yield says(
                    movement,
                    ("teaching", *path),
                    sentence,
                    f"words about this movement, not about '{name}'",
                )


RULES: tuple[Callable[[Movement], Found], ...] = (
    kit_in_the_words_is_kit,
    kit_is_in_the_words,
    words_are_demands,
    whoever_sits_is_told_to_stand,
)

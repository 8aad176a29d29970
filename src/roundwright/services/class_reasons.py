"""Why this class: its line-up, its balance and its chance on time, in a coach's words."""

from collections import Counter
from collections.abc import Iterable

from roundwright.foundation import shown
from roundwright.foundation.words import one_or_more, say
from roundwright.goals.class_wish import ClassFormat
from roundwright.library.catalogue import Catalogue
from roundwright.library.vocabulary import HIP, KNEE, PULL, PUSH, Pattern
from roundwright.plan.document import ChanceOnTime, PlanDocument
from roundwright.plan.menu_table import TRUNK

_KINDS = (("knee", KNEE), ("hip", HIP), ("push", PUSH), ("pull", PULL), ("trunk", TRUNK))


def room_words(room: str) -> str:
    """Say whom a chosen pair of work and rest is for."""
    return {
        "newcomers": say("for a room of newcomers"),
        "mixed": say("for a mixed room"),
        "trained": say("for a trained room"),
        "heavier": say("for heavier loads"),
    }[room]


def reason_lines(document: PlanDocument) -> tuple[str, ...]:
    """Give the line-up, the balance, chosen lengths and the chance on time, a sentence each.

    Parameters
    ----------
    document : PlanDocument
        A judged plan; the chance is said only when it was played through.
    """
    lines = [line_up_words(document), balance_words(document), length_words(document)]
    if document.facts.chance_on_time is not None:
        lines.append(chance_words(document.facts.chance_on_time))
    return tuple(line for line in lines if line)


def line_up_words(document: PlanDocument) -> str:
    """Say what kind of movement each place is, in order: 'Line-up: knee, push, hip.'."""
    library = document.problem.library
    exercises = sorted(document.core.exercises, key=lambda e: e.position)
    kinds = [say(kind_of(library, e.exercise_id)) for e in exercises]
    return say("Line-up: {kinds}.", kinds=", ".join(kinds))


def length_words(document: PlanDocument) -> str:
    """Say what the tool chose of rounds, work and rest; nothing where the coach said it.

    'Chosen: 3 rounds, 40 s of work, 20 s to rest and change, for a mixed room.'
    """
    spec = document.problem.spec
    if spec.length_by != "tool":
        return ""
    rounds = one_or_more(spec.rounds, "1 round", "{n} rounds")
    return say("Chosen: {what}.", what=f"{rounds}{work_rest_words(document)}")


def work_rest_words(document: PlanDocument) -> str:
    """Give the chosen pair as the end of a sentence; nothing where there is none."""
    spec, pair = document.problem.spec, document.problem.spec.work_rest
    if pair is None:
        return ""
    in_pairs = document.core.class_.format is ClassFormat.PAIRS and len(document.core.people) > 1
    figures = {"work_s": pair.work_s, "change_s": spec.change_s, "room": room_words(pair.room)}
    if in_pairs:
        return say(
            ", {work_s} s of work, then the partner, {change_s} s to change, {room}", **figures
        )
    return say(", {work_s} s of work, {change_s} s to rest and change, {room}", **figures)


def balance_words(document: PlanDocument) -> str:
    """Say how push stands to pull and knee to hip, with the recent classes where there are any."""
    library = document.problem.library
    here = [kind_of(library, e.exercise_id) for e in document.core.exercises]
    lately = [
        kind_of(library, e.exercise_id)
        for e in document.problem.recent.exercises
        if library.has_exercise(e.exercise_id)
    ]
    if not lately:
        return say("Balance: {here}.", here=_ratio(here))
    return say(
        "Balance: {here}; with the last two weeks {both}.",
        here=_ratio(here),
        both=_ratio(here + lately),
    )


def chance_words(chance: ChanceOnTime) -> str:
    """Say how often the class ends within its slot: 'On time 9 times in 10.'."""
    return say("On time {often}.", often=shown.times_in_ten(chance.chance_bp))


def kind_of(library: Catalogue, exercise_id: str) -> str:
    """Give the kind of an exercise by its main pattern: knee, hip, push, pull, trunk or its own.

    In English, as a key; `say` gives it in the language that is spoken.
    """
    pattern = main_pattern(library, exercise_id)
    if pattern is None:
        return "unknown"
    return next((word for word, patterns in _KINDS if pattern in patterns), pattern.value).replace(
        "_", " "
    )


def main_pattern(library: Catalogue, exercise_id: str) -> Pattern | None:
    """Give the pattern of the first version of the first line, None when it is not there."""
    if not library.has_exercise(exercise_id):
        return None
    line = library.lines_of_exercise(exercise_id)[0]
    return library.versions(line)[0].pattern if line in library.lines else None


def _ratio(kinds: Iterable[str]) -> str:
    count = Counter(kinds)
    return say(
        "push {push} to pull {pull}, knee {knee} to hip {hip}",
        **{kind: count[kind] for kind in ("push", "pull", "knee", "hip")},
    )

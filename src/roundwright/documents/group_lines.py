"""Page one: in which form the class is held, who is grouped with whom, who begins where."""

from roundwright.documents.plan_view import PlanView
from roundwright.documents.sheet_parts import GroupLine, IntervalRow
from roundwright.documents.spoken import length_words
from roundwright.foundation.words import one_or_more, say
from roundwright.goals.class_wish import ClassFormat
from roundwright.plan.core import WindowKind
from roundwright.services.class_reasons import room_words

MARKS = "ABCDEFGHIJKLMNOPQRST"
"""A group's mark; there are at most as many groups that move on as places in a round (20)."""
HOW = {
    ClassFormat.TOGETHER: "all together",
    ClassFormat.PAIRS: "in pairs: one works, one rests, swap",
    ClassFormat.STATIONS: "stations: each group moves on to the next number",
    ClassFormat.STAGGERED: "staggered groups: each goes on to the next number",
}


def form_words(view: PlanView) -> str:
    """Say how many people and rounds, in which form, and how long a change lasts."""
    spec = view.problem.spec
    told = {
        "people": one_or_more(len(view.order), "1 person", "{n} people"),
        "rounds": _rounds_words(view),
        "how": say(HOW[view.core.class_.format]),
        "change": length_words(spec.change_s),
    }
    if spec.work_rest is None:
        return say("{people}, {rounds}, {how}; {change} to change after each", **told)
    return say(
        "{people}, {rounds}, {how}; {work} of work, {change} to rest and change, {for_whom}",
        work=length_words(spec.work_rest.work_s),
        for_whom=room_words(spec.work_rest.room),
        **told,
    )


def _rounds_words(view: PlanView) -> str:
    """Say how many rounds there are, and where nobody does all of them, how many are done."""
    number = view.core.class_.rounds
    done = max((max(d.rounds, default=0) for d in view.doses.values()), default=0)
    if done < number:
        return say("{done} of {n} rounds (nobody does more today)", done=done, n=number)
    return one_or_more(number, "1 round", "{n} rounds")


def group_lines(view: PlanView) -> tuple[GroupLine, ...]:
    """Give pairs, or groups with the place at which each begins; none where all are together."""
    if view.in_pairs:
        return tuple(
            GroupLine(mark="", people=tuple(view.name(p) for p in group))
            for group in view.core.class_.groups
        )
    if not view.rotates:
        return ()
    lines = [
        GroupLine(mark=mark, people=tuple(view.name(p) for p in group), begins_at=position)
        for mark, group, position in zip(
            MARKS, view.core.class_.groups, view.begins_at, strict=False
        )
    ]
    return tuple(lines)


def interval_rows(view: PlanView) -> tuple[IntervalRow, ...]:
    """Give the clock times of each stretch of work by round, where groups move on.

    Where everybody works the same place at a time, the exercises carry the times.
    """
    if not view.rotates:
        return ()
    by_round: dict[int, list[tuple[int, int]]] = {}
    for window in view.windows(WindowKind.WORK):
        by_round.setdefault(window.round, []).append((window.at_s, window.length_s))
    longest = max((len(found) for found in by_round.values()), default=0)
    return tuple(
        IntervalRow(
            number=k + 1,
            length=length_words(max(found[k][1] for found in by_round.values() if k < len(found))),
            starts=tuple(
                view.clock(by_round[r][k][0]) if k < len(by_round.get(r, ())) else ""
                for r in range(1, view.core.class_.rounds + 1)
            ),
        )
        for k in range(longest)
    )

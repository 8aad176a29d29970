"""Late and short: what ends a class by a given time, each choice mended, judged and played through.

Implements section C8. Warm-up, cool-down, rests and changes never fall below their floors.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from roundwright.foundation.errors import NoPlanError, UnsafePlanError
from roundwright.plan.changing.change import (
    BurstCut,
    Cut,
    RepsCut,
    RestsCut,
    RoundDropped,
    SeveralCuts,
)
from roundwright.plan.changing.revisions import Revisions
from roundwright.plan.core import Core, WindowKind
from roundwright.plan.document import PlanDocument
from roundwright.plan.gate.rules.slot import OVERRUN
from roundwright.plan.problem import Problem
from roundwright.plan.verdict import Finding, Grade
from roundwright.services.changing.change_plan import ChangedPlan, Changing, change_plan

SHARES_BP = (7500, 5000)
"""Of each count (C8)."""
LEAST_BURST_S = 10
"""A shorter burst is none; our choice."""
WORK = (WindowKind.WORK, WindowKind.BURST)


@dataclass(frozen=True, slots=True)
class LateChoice:
    """One way to end by a given time.

    `ends_s` is the planned end, `late_s` the one that one class in ten exceeds (None where
    nothing is played through), both s from the start of the class. `work_lost_s` are seconds
    of work and burst windows that fall away.
    """

    changed: ChangedPlan
    ends_s: int
    late_s: int | None
    work_lost_s: int

    @property
    def kindness(self) -> tuple[int, int, int, int]:
        """Give what choices are ordered by: least work lost, then fewest disturbed."""
        harm = self.changed.harm
        return self.work_lost_s, len(self.changed.disturbed), harm.cells, self.ends_s


@dataclass(frozen=True, slots=True)
class FinishBy:
    """What ends a class by a time, kindest first; where nothing does, what comes nearest.

    `ends_now_s` is the planned end without a change.
    """

    by_s: int
    ends_now_s: int
    choices: tuple[LateChoice, ...]
    nearest: LateChoice | None = None


def finish_by(
    document: PlanDocument,
    revisions: Revisions,
    by_s: int,
    base_revision: int,
    *,
    using: Changing,
) -> FinishBy:
    """Give the choices by which a class ends by a given second.

    A pair of cuts is tried only where neither of the two is enough. A choice that brings
    anything that the gate stops, other than the slot, is not offered.

    Parameters
    ----------
    by_s : int
        When the class is to have ended, s from its start.
    document, revisions, base_revision, using
        As for `change_plan`.

    Raises
    ------
    ChangedMeanwhileError
        The plan is at another revision.
    """
    revisions.require_current(base_revision)
    ends_now_s = document.facts.total_s
    if ends_now_s <= by_s:
        return FinishBy(by_s, ends_now_s, ())
    work_s = _work_s(document.core)
    found: list[LateChoice] = []

    def tried(cut: Cut | SeveralCuts) -> LateChoice | None:
        try:
            changed = change_plan(document, revisions, cut, base_revision, using=using)
        except (UnsafePlanError, NoPlanError):
            return None
        if _is_stopped(changed.new):
            return None
        facts = changed.document.facts
        late_s = None if facts.chance_on_time is None else facts.chance_on_time.late_s
        lost_s = max(0, work_s - _work_s(changed.document.core))
        choice = LateChoice(changed, facts.total_s, late_s, lost_s)
        found.append(choice)
        return choice

    kinds = _cuts(document.problem)
    ends = {cut: tried(cut) for kind in kinds for cut in kind}
    enough = {cut for cut, choice in ends.items() if choice and choice.ends_s <= by_s}
    for one, other in _pairs(kinds):
        if one not in enough and other not in enough:
            tried(SeveralCuts(cuts=(one, other)))
    in_time = sorted((c for c in found if c.ends_s <= by_s), key=lambda c: c.kindness)
    nearest = None if in_time else min(found, key=lambda c: (c.ends_s, c.kindness), default=None)
    return FinishBy(by_s, ends_now_s, tuple(in_time), nearest)


def _cuts(problem: Problem) -> list[list[Cut]]:
    """Give what can be cut, by kind; nothing that would not shorten the class."""
    spec, rules = problem.spec, problem.rules
    kinds: list[list[Cut]] = [[RoundDropped()] if spec.rounds > 1 else []]
    rest_s = min(spec.rest_s, max(rules.rest_floor_s, rules.walk_after_burst_s))
    floor_s = spec.change_s if spec.work_rest is not None else rules.change_floor_s
    change_s = min(spec.change_s, floor_s)
    shorter = (rest_s, change_s) != (spec.rest_s, spec.change_s)
    kinds.append([RestsCut(rest_s=rest_s, change_s=change_s)] if shorter else [])
    kinds.append([RepsCut(share_bp=share) for share in SHARES_BP])
    bursts: list[Cut] = []
    if spec.burst is not None:
        half_s = spec.burst.length_s // 2
        bursts += [BurstCut(length_s=half_s)] if half_s >= LEAST_BURST_S else []
        bursts.append(BurstCut())
    kinds.append(bursts)
    return kinds


def _pairs(kinds: list[list[Cut]]) -> Iterator[tuple[Cut, Cut]]:
    for one, other in combinations(kinds, 2):
        yield from ((a, b) for a in one for b in other)


def _is_stopped(new: tuple[Finding, ...]) -> bool:
    return any(f.grade is not Grade.ADVISE and f.rule != OVERRUN for f in new)


def _work_s(core: Core) -> int:
    return sum(window.length_s for window in core.timeline if window.kind in WORK)

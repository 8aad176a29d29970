"""Change a plan: restated, mended, judged by the gate, and told with what it does to whom."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace

from roundwright.foundation.errors import (
    ChangedMeanwhileError,
    RoundwrightError,
    UnsafePlanError,
)
from roundwright.foundation.seeds import DEFAULT_SEED
from roundwright.foundation.words import ENGLISH, spoken_to
from roundwright.library.catalogue import Catalogue
from roundwright.plan.changing.answer import Answer, Mender, StillSought, still_sought
from roundwright.plan.changing.change import Change, Harm
from roundwright.plan.changing.disturbed import disturbance
from roundwright.plan.changing.restate import Restated, restate
from roundwright.plan.changing.revisions import Revisions
from roundwright.plan.core import CellState, Core
from roundwright.plan.document import PlanDocument
from roundwright.plan.outcome import Budget, Status, StoppedBy
from roundwright.plan.problem import Problem
from roundwright.plan.verdict import Finding
from roundwright.services.changing.effects import Effects, effects_of
from roundwright.services.changing.findings_compared import compared
from roundwright.services.changing.said import Said, said_of
from roundwright.services.changing.said_words import sentence_of
from roundwright.services.judged_plan import judged_plan
from roundwright.services.ports import Rehearse

Places = Mapping[str, tuple[int, ...]]
"""Positions by person."""


@dataclass(frozen=True, slots=True)
class Changing:
    """Whom and what a change is answered with: the library, who mends, who plays through."""

    library: Catalogue
    mender: Mender
    rehearse: Rehearse | None = None
    seed: int = DEFAULT_SEED
    budget: Budget = Budget.NORMAL
    units: str = "kg"


@dataclass(frozen=True, slots=True)
class ChangedPlan:
    """A judged answer to a change.

    Attributes
    ----------
    document : PlanDocument
        The plan after the change, one revision on; it may be a draft that the gate stops.
    revisions : Revisions
        With the new revision as the current one.
    harm, least : Harm
        What it takes from people, and what no answer of the tiers gone through can be below,
        in the order of harm; `still_sought` is the first figure in which they differ.
    tier : int
        0 to 2: at once, same exercises, or one of them swapped.
    disturbed : mapping
        Positions changed by person, without those that the change names; 0 is the burst.
    left_out : mapping
        Positions at which somebody newly has nothing to do, by person.
    unheld : mapping
        Positions whose lock today's limits forbid, by person: they rest there.
    new, gone : tuple of Finding
        What the gate finds now and did not before, and the other way round.
    said : Said
        The answer as key, figures and ids; `sentence` is the same in words, people as ids.
    ended : str
        What broke the search before its end, in words; then this is the best so far.
    """

    document: PlanDocument
    revisions: Revisions
    change: Change
    harm: Harm
    least: Harm
    tier: int
    disturbed: Places
    left_out: Places
    unheld: Places
    new: tuple[Finding, ...]
    gone: tuple[Finding, ...]
    before: Effects
    after: Effects
    said: Said
    sentence: str
    ended: str = ""

    @property
    def still_sought(self) -> StillSought | None:
        """What a better answer would have; None: nothing is better."""
        return still_sought(self.harm, self.least)


def change_plan(
    document: PlanDocument,
    revisions: Revisions,
    change: Change,
    base_revision: int,
    *,
    using: Changing,
    on_better: Callable[[ChangedPlan], bool] | None = None,
) -> ChangedPlan:
    """Answer a change of a plan.

    Parameters
    ----------
    document : PlanDocument
        The plan as it is now: the current revision.
    revisions : Revisions
        Its revisions.
    change : Change
        What is asked.
    base_revision : int
        The revision that whoever asks has before them.
    using : Changing
        Library, mender, rehearsal, seed and budget; equal ones give an equal answer.
    on_better : callable, optional
        Told of each better answer as it is found, each of them judged; gives whether to go
        on. Answers that the gate refuses are not told. Whatever ends the search, an interrupt
        of this process and a planner that breaks included, the best so far is the answer.

    Raises
    ------
    ChangedMeanwhileError
        The plan is at another revision: nothing is done, and what happened is said.
    BadInputError
        What is asked can't be: somebody or something that is not there, a floor broken.
    UnsafePlanError
        The gate says never of the answer: a fault of ours, never shown as a plan.
    """
    revisions.require_current(base_revision)
    if revisions.at(base_revision).digest != document.core.digest:
        raise ChangedMeanwhileError("The plan is not the one that was kept at this revision.")
    asked = restate(document.problem, document.core, change, using.library)

    def made(answer: Answer) -> ChangedPlan:
        return _judged(document, revisions, change, base_revision, asked, answer, using)

    hearing = _Hearing(made, on_better)
    try:
        answer = using.mender.mend(
            document,
            asked,
            using.library,
            seed=using.seed,
            budget=using.budget,
            on_better=hearing,
        )
    except (RoundwrightError, KeyboardInterrupt) as error:
        if hearing.best is None or hearing.is_telling:
            raise
        return replace(made(_as_it_ended(hearing.best, error)), ended=_words_of(error))
    told = hearing.told
    if told is not None and told[0].core == answer.core and told[0].problem == answer.problem:
        document = told[1].document.model_copy(update={"outcome": answer.outcome})
        return replace(
            told[1], document=document, harm=answer.harm, least=answer.least, tier=answer.tier
        )
    return made(answer)


class _Hearing:
    """Remembers the best so far, and hands it on only after the gate has judged it.

    `told` is the last answer that was handed on, with what the gate made of it;
    `is_telling`: whoever was told has raised something itself.
    """

    def __init__(
        self,
        made: Callable[[Answer], ChangedPlan],
        on_better: Callable[[ChangedPlan], bool] | None,
    ) -> None:
        self.best: Answer | None = None
        self.told: tuple[Answer, ChangedPlan] | None = None
        self.is_telling = False
        self._made = made
        self._on_better = on_better

    def __call__(self, answer: Answer) -> bool:
        self.best = answer
        if self._on_better is None:
            return True
        try:
            changed = self._made(answer)
        except UnsafePlanError:
            return True  # never shown; the last answer is judged by the caller, who is told
        self.told = answer, changed
        self.is_telling = True
        goes_on = self._on_better(changed)
        self.is_telling = False
        return goes_on


def _as_it_ended(best: Answer, error: RoundwrightError | KeyboardInterrupt) -> Answer:
    by = StoppedBy.GUARD if isinstance(error, RoundwrightError) else StoppedBy.CALLER
    outcome = best.outcome.model_copy(
        update={"status": Status.FOUND, "stopped_by": by, "repeatable": False}
    )
    return replace(best, outcome=outcome)


def _words_of(error: RoundwrightError | KeyboardInterrupt) -> str:
    return error.detail if isinstance(error, RoundwrightError) else ""


def _judged(
    document: PlanDocument,
    revisions: Revisions,
    change: Change,
    base_revision: int,
    asked: Restated,
    answer: Answer,
    using: Changing,
) -> ChangedPlan:
    core = answer.core.model_copy(
        update={
            "plan_id": document.core.plan_id,
            "revision": revisions.next_number,
            "parent_revision": base_revision,
            "made_by": "coach",
        }
    )
    asked = as_answered(asked, answer.problem)
    now = judged_plan(core, answer.problem, answer.outcome, using.seed, using.rehearse)
    said = said_of(change, asked, document.core, now.core)
    with spoken_to(ENGLISH):  # what is kept depends on nobody who reads it
        sentence = sentence_of(said, answer.problem, using.units)
    new, gone = compared(document.verdict.findings, now.verdict.findings, asked.came_from)
    disturbed = disturbance(document.core, now.core, asked)
    return ChangedPlan(
        document=now,
        revisions=revisions.with_change(base_revision, now.core.digest, change, sentence),
        change=change,
        harm=answer.harm,
        least=answer.least,
        tier=answer.tier,
        disturbed={p: tuple(sorted(disturbed.cells[p])) for p in disturbed.people},
        left_out=_by_person(disturbed.left_out),
        unheld=unheld_locks(answer.problem, now.core),
        new=new,
        gone=gone,
        before=effects_of(document),
        after=effects_of(now),
        said=said,
        sentence=sentence,
    )


def as_answered(asked: Restated, problem: Problem) -> Restated:
    """Name the places at which the tool put another exercise than what was asked for (C4)."""
    stands = {e.position: e.exercise_id for e in problem.spec.exercises}
    swapped = frozenset(
        e.position
        for e in asked.problem.spec.exercises
        if e.position in asked.came_from and stands[e.position] != e.exercise_id
    )
    came_from = {new: old for new, old in asked.came_from.items() if new not in swapped}
    return replace(asked, came_from=came_from, positions=asked.positions | swapped)


def unheld_locks(problem: Problem, core: Core) -> Places:
    """Give the locks that are not held: a version, load or exercise is fixed, and they rest."""
    resting = {(c.person_id, c.position) for c in core.cells if c.state is CellState.SIT_OUT}
    return _by_person(
        (k.person, k.position)
        for k in problem.spec.keep
        if not k.rests and (k.person, k.position) in resting
    )


def _by_person(places: Iterable[tuple[str, int]]) -> Places:
    found: dict[str, list[int]] = defaultdict(list)
    for person, position in sorted(places):
        found[person].append(position)
    return {person: tuple(positions) for person, positions in found.items()}

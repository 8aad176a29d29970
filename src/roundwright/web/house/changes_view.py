"""What the class page shows of changes: the last answer in words, undo and redo, what is sought."""

from collections.abc import Mapping
from dataclasses import dataclass

from roundwright.documents.plan_view import PlanView, joined_names
from roundwright.foundation.words import shown_units
from roundwright.hall.hall import Hall
from roundwright.plan.gate.words import words_of
from roundwright.plan.verdict import Finding
from roundwright.services.changing.change_plan import ChangedPlan
from roundwright.services.changing.said_words import (
    effect_lines,
    left_out_words,
    people_changed_words,
    sentence_of,
    unheld_words,
    with_names,
)
from roundwright.services.keeping.shelves import KeptPlan
from roundwright.services.names import everyone_of, names_of
from roundwright.web.house.change_desk import DeskView


@dataclass(frozen=True, slots=True)
class AnswerWords:
    """One answer to a change: its sentence, what it does to the class, what the gate finds now."""

    sentence: str
    lines: tuple[str, ...]
    effects: tuple[str, ...]
    new: tuple[str, ...]
    gone: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ChangesView:
    """Beside the class: which revision it is, who stands where in the lists, and the last answer.

    `people` are ids in the order of the sheet's numbers; `better` says what a better answer
    would do, empty for none.
    """

    plan_id: str
    revision: int
    can_undo: bool
    can_redo: bool
    people: tuple[str, ...]
    answer: AnswerWords | None
    better: str
    is_looking: bool


def changes_view(kept: KeptPlan, hall: Hall, desk: DeskView) -> ChangesView:
    """Give what the page shows; an answer to a change of another revision is not told."""
    core = kept.document.core
    names = everyone_of(kept.document, kept.revisions, hall)
    view = PlanView(
        document=kept.document,
        names=joined_names({p.person_id: p.shown_name for p in hall.people}),
        units=shown_units(hall.settings.units.value),
    )
    answer = desk.answer
    is_now = answer is not None and answer.document.core.parent_revision == core.parent_revision
    told = answer_words(answer, hall, names) if answer is not None and is_now else None
    better = ""
    if desk.better is not None and told is not None:
        people = people_changed_words(len(desk.better.disturbed))
        problem, units = desk.better.document.problem, shown_units(hall.settings.units.value)
        words = sentence_of(desk.better.said, problem, units)
        better = f"{with_names(words, names)} ({people}.)"
    return ChangesView(
        plan_id=core.plan_id,
        revision=core.revision,
        can_undo=kept.revisions.can_undo,
        can_redo=kept.revisions.can_redo,
        people=view.order,
        answer=told,
        better=better,
        is_looking=desk.is_looking and told is not None,
    )


def answer_words(changed: ChangedPlan, hall: Hall, names: Mapping[str, str]) -> AnswerWords:
    """Tell an answer with names."""
    problem, units = changed.document.problem, shown_units(hall.settings.units.value)
    exercises = names_of(problem, hall).exercises
    left_out = {p: k for p, k in changed.left_out.items() if p not in changed.unheld}
    lines = (*unheld_words(changed.unheld, problem), *left_out_words(left_out, problem))
    effects = effect_lines(changed.before, changed.after, only_changed=True)

    def found(findings: tuple[Finding, ...]) -> tuple[str, ...]:
        return tuple(words_of(one, names, exercises) for one in findings)

    return AnswerWords(
        sentence=with_names(sentence_of(changed.said, problem, units), names),
        lines=tuple(with_names(line, names) for line in lines),
        effects=effects,
        new=found(changed.new),
        gone=found(changed.gone),
    )

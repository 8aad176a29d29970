"""Each person's line: actions without reasons, and what they do at every place."""

from collections import Counter
from collections.abc import Sequence

from roundwright.body.anatomy import Side
from roundwright.documents.plan_view import PlanView
from roundwright.documents.sheet_parts import PersonCell, PersonLine
from roundwright.documents.spoken import count_words, rounds_words
from roundwright.documents.version_names import full_name
from roundwright.foundation.words import say
from roundwright.people.person import Clearance
from roundwright.plan.core import CellState, PersonDose

ASK_FIRST = "ask the three questions first"
BRIEF = "first class: brief beforehand"


def usual_effort(view: PlanView) -> tuple[int, int]:
    """Give the effort ceiling and the reps left that most people share."""
    votes = Counter((d.effort_ceiling, d.rir) for d in view.core.people)
    return min(votes, key=lambda pair: (-votes[pair], pair), default=(0, 0))


def effort_words(effort: int, left: int) -> str:
    """Say an effort ceiling and how many reps are left in hand."""
    return say("effort to {effort} of 10, leave {left}", effort=effort, left=left)


def only_words(rounds: Sequence[int]) -> str:
    """Say that somebody does some rounds and no other."""
    return say("{rounds} only", rounds=rounds_words(rounds))


def people_lines(view: PlanView) -> tuple[PersonLine, ...]:
    """Give everyone who takes part, numbered as on the floor plan."""
    usual = usual_effort(view)
    return tuple(
        PersonLine(
            number=number,
            name=view.name(person_id),
            partners=_partners(view, person_id),
            actions=tuple(said_action(one) for one in actions_of(view, person_id))
            + _doses(view, view.doses[person_id], usual),
            burst=_burst(view, view.doses[person_id]),
            cells=_cells(view, person_id),
        )
        for number, person_id in enumerate(view.order, start=1)
    )


def _partners(view: PlanView, person_id: str) -> tuple[str, ...]:
    if not view.in_pairs:
        return ()
    group = next((g for g in view.core.class_.groups if person_id in g), ())
    return tuple(view.name(p) for p in group if p != person_id)


def _burst(view: PlanView, dose: PersonDose) -> str:
    if not view.problem.spec.burst:
        return ""
    return view.library.movements[dose.burst].name if dose.burst else say("Walk and recover")


def actions_of(view: PlanView, person_id: str) -> tuple[str, ...]:
    """Give what to do with a person, in the source's words; `said_action` says one."""
    person = view.problem.people[person_id]
    actions = []
    if person.clearance is Clearance.UNKNOWN:
        actions.append(ASK_FIRST)
    if person.classes_done == 0:
        actions.append(BRIEF)
    return tuple(dict.fromkeys([*actions, *person.actions]))


def said_action(action: str) -> str:
    """Say one action in the language that is spoken."""
    return say(action)


def _doses(view: PlanView, dose: PersonDose, usual: tuple[int, int]) -> tuple[str, ...]:
    person = view.problem.people[dose.person_id]
    actions = []
    if len(dose.rounds) < view.core.class_.rounds:
        actions.append(only_words(dose.rounds))
    if (dose.effort_ceiling, dose.rir) != usual:
        actions.append(effort_words(dose.effort_ceiling, dose.rir))
    if person.effort_only:
        actions.append(say("go by effort, not by heart rate"))
    if person.first_side is Side.RIGHT:
        actions.append(say("right side first"))
    return tuple(dict.fromkeys(actions))


def _cells(view: PlanView, person_id: str) -> tuple[PersonCell, ...]:
    found = []
    for exercise in sorted(view.core.exercises, key=lambda e: e.position):
        by_round = view.cells_by_round(person_id, exercise.position)
        by_kind: dict[tuple[str, str, str], list[int]] = {}
        for number, cell in sorted(by_round.items()):
            out = cell.state is CellState.SIT_OUT
            key = (
                full_name(cell, view.library),
                "" if out else view.load(cell),
                count_words(cell.count) if cell.count and not out else "",
            )
            by_kind.setdefault(key, []).append(number)
        for (version, load, count), rounds in by_kind.items():
            note = f" ({rounds_words(rounds)})" if len(by_kind) > 1 else ""
            found.append(
                PersonCell(
                    position=exercise.position,
                    exercise=view.library.exercise_name(exercise.exercise_id),
                    version=version + note,
                    load=load,
                    count=count,
                )
            )
    return tuple(found)

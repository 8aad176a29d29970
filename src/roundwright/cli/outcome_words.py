"""How a search ended, in words: what clashes, what would help, and whom to speak to first."""

from roundwright.foundation.errors import NoPlanError, RoundwrightError, UndecidedError
from roundwright.plan.document import PlanDocument
from roundwright.plan.outcome import Outcome, Status
from roundwright.plan.problem import Problem
from roundwright.services.clash_words import clash_lines, way_lines
from roundwright.services.late_class import overruns
from roundwright.services.names import Names


def no_plan_error(
    outcome: Outcome, problem: Problem, names: Names, mass_unit: str
) -> RoundwrightError:
    """Give the error of a search without a plan: impossible, or undecided."""
    lines = "\n".join(outcome_words(outcome, problem, names, mass_unit))
    kind = NoPlanError if outcome.status is Status.IMPOSSIBLE else UndecidedError
    return kind(lines)


def outcome_words(outcome: Outcome, problem: Problem, names: Names, mass_unit: str) -> list[str]:
    """Say how a search without a plan ended, line by line.

    Parameters
    ----------
    outcome : Outcome
        Impossible or undecided.
    problem : Problem
        What was asked.
    names : Names
        How people and places are called.
    mass_unit : str
        'kg' or 'lb', for dumbbells.
    """
    lines = not_today_words(outcome, names)
    if outcome.status is Status.IMPOSSIBLE:
        lines.append("These cannot all hold:")
        lines += [f"- {w}" for w in clash_lines(outcome.clash, problem, names.people, mass_unit)]
        ways = way_lines(outcome.ways_out, problem, names.people, mass_unit)
        if ways:
            lines.append("What would help:")
            lines += [f"- {words}" for words in ways]
    else:
        lines.append("The search ended before it found a plan or proved that there is none.")
    return lines


def on_time_words(document: PlanDocument, names: Names, mass_unit: str) -> list[str]:
    """Say what would make a class that overruns end on time; nothing of any other class."""
    if not overruns(document):
        return []
    ways = way_lines(document.outcome.ways_out, document.problem, names.people, mass_unit)
    if not ways:
        return ["No single change to rests, reps, bursts or rounds was found to end it on time."]
    return ["Each of these would end it on time:", *(f"- {words}" for words in ways)]


def not_today_words(outcome: Outcome, names: Names) -> list[str]:
    """Name the people who should speak to the coach first, without any reason."""
    if not outcome.not_today:
        return []
    people = ", ".join(names.person(one.person_id) for one in outcome.not_today)
    return [f"Speak to {people} first: not in this class today."]

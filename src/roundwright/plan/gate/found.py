"""How a rule writes down what it found, so that every finding looks alike."""

from roundwright.plan.gate.reading import BurstWork, Work
from roundwright.plan.verdict import Finding, Grade

Figures = dict[str, int | str]


def at_work(rule: str, grade: Grade, work: Work, **figures: int | str) -> Finding:
    """Give a finding about what one person does at one place."""
    return Finding(
        rule=rule,
        grade=grade,
        persons=(work.person_id,),
        positions=(work.position,),
        round=work.shown_round,
        figures=dict(figures),
    )


def at_burst(rule: str, grade: Grade, burst: BurstWork, **figures: int | str) -> Finding:
    """Give a finding about one person's burst."""
    return Finding(rule=rule, grade=grade, persons=(burst.person_id,), figures=dict(figures))


def of_person(rule: str, grade: Grade, person_id: str, **figures: int | str) -> Finding:
    """Give a finding about one person's part in the class."""
    return Finding(rule=rule, grade=grade, persons=(person_id,), figures=dict(figures))


def of_class(rule: str, grade: Grade, **figures: int | str) -> Finding:
    """Give a finding about the class as a whole."""
    return Finding(rule=rule, grade=grade, figures=dict(figures))

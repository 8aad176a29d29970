"""How a rule writes down what it found, so that every finding looks alike."""

from collections.abc import Iterable

from roundwright.plan.gate.reading import BurstWork, Work
from roundwright.plan.verdict import Finding, Grade

Figures = dict[str, int | str]
_ORDER = {Grade.NEVER: 0, Grade.STOP: 1, Grade.ADVISE: 2}


def in_order(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Give findings once each: by grade, rule, persons, positions, round and figures."""
    unique: dict[tuple[object, ...], Finding] = {}
    for finding in findings:
        unique.setdefault(_key(finding), finding)
    return tuple(unique[key] for key in sorted(unique))


def _key(finding: Finding) -> tuple[object, ...]:
    figures = tuple(sorted((k, str(v)) for k, v in finding.figures.items()))
    return (
        _ORDER[finding.grade],
        finding.rule,
        finding.persons,
        finding.positions,
        finding.round,
        figures,
    )


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

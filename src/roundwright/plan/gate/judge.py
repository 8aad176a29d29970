"""The gate's judgement: one function of core and problem, sharing no code with the maker.

It works out doses, counts, seconds, landings, chances, kit, timeline and price again
and believes nothing that the core says of them. Broken input gives findings, never an error.
"""

from roundwright.plan.core import Core
from roundwright.plan.gate.price import cost_lines
from roundwright.plan.gate.read_core import read
from roundwright.plan.gate.registry import FINDERS
from roundwright.plan.gate.times import total_s
from roundwright.plan.problem import Problem
from roundwright.plan.verdict import Finding, Grade, Verdict

_ORDER = {Grade.NEVER: 0, Grade.STOP: 1, Grade.ADVISE: 2}


def judge(core: Core, problem: Problem) -> Verdict:
    """Judge a plan.

    Parameters
    ----------
    core : Core
        The plan.
    problem : Problem
        What it must answer to: people, limits, kit and rules.

    Returns
    -------
    Verdict
        All findings in a fixed order (grade, rule, persons, positions, round, figures),
        with price and length as the gate counts them.
    """
    reading = read(core, problem)
    unique: dict[tuple[object, ...], Finding] = {}
    for find in FINDERS:
        for finding in find(reading):
            unique.setdefault(_key(finding), finding)
    lines = cost_lines(reading)
    return Verdict(
        findings=tuple(unique[key] for key in sorted(unique)),
        cost=sum(line.points for line in lines),
        cost_lines=lines,
        total_s=total_s(reading),
    )


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

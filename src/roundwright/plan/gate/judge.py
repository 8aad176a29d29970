"""The gate's judgement: one function of core and problem, sharing no code with the maker.

It works out doses, counts, seconds, landings, chances, kit, timeline and price again
and believes nothing that the core says of them. Broken input gives findings, never an error.
"""

from roundwright.plan.core import Core
from roundwright.plan.gate.found import in_order
from roundwright.plan.gate.price import cost_lines
from roundwright.plan.gate.read_core import read
from roundwright.plan.gate.registry import FINDERS
from roundwright.plan.gate.times import total_s
from roundwright.plan.problem import Problem
from roundwright.plan.verdict import Verdict


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
    findings = in_order(finding for find in FINDERS for finding in find(reading))
    lines = cost_lines(reading)
    return Verdict(
        findings=findings,
        cost=sum(line.points for line in lines),
        cost_lines=lines,
        total_s=total_s(reading),
    )

"""Classes that the tool chooses whole, for drawn halls: is any unsafe, or impossible to run?

``python -m benchmarks.proposed_halls [--halls N] [--first I] [--label NAME]`` plans N drawn wishes
in the four formats in turn, as the service does with the quick budget (`drawn_wishes.py`), lets the
gate judge each plan with its warm-up and cool-down, and plays it event by event on a finite rack.
Where there is no plan the smallest clash is asked for. The exit status is 1 when a plan holds
anything that is never allowed, is stopped by a rule that another choice could keep, is priced
otherwise by the gate, finds the rack empty, or when 'impossible' names no clash. Seconds are CPU
seconds of one thread. The file is written anew after every tenth hall.
"""

import argparse
import json
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from importlib.metadata import version
from pathlib import Path
from statistics import median
from time import process_time
from uuid import UUID

from tests.rehearsal.kit_simulation import blocked, most_used, stock_of

from benchmarks.drawn_wishes import a_drawn_wish
from benchmarks.machine import machine
from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.class_search import ClassSearch
from roundwright.plan.core import Core
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Budget, Status
from roundwright.plan.pieces import with_pieces
from roundwright.plan.planning_problem import PlanningProblem
from roundwright.plan.problem import Problem
from roundwright.plan.verdict import Grade

RESULTS = Path(__file__).parent / "results"
FORMS = (ClassFormat.TOGETHER, ClassFormat.PAIRS, ClassFormat.STATIONS, ClassFormat.STAGGERED)
HALLS = 200
SEED = 1
TOO_LONG = "slot.overrun"
"""The one stop that no choice can mend, where every class is longer than the slot."""
WRITE_EVERY = 10
Row = dict[str, object]


def one_hall(number: int) -> Row:
    """Plan one drawn wish, judge the plan and play it on its rack."""
    form = FORMS[number % len(FORMS)]
    planning = a_drawn_wish(number, form)
    base = planning.base
    row: Row = {
        "hall": number,
        "format": form.value,
        "people": len(base.people),
        "taking_part": len(base.taking_part),
        "places": planning.places,
        "rounds": base.spec.rounds,
        "candidates": len(planning.candidates),
        "kept": len(planning.kept),
    }
    search = ClassSearch()
    start = process_time()
    plan_id = str(UUID(int=number, version=4))
    found = search.plan(planning, seed=SEED, budget=Budget.QUICK, plan_id=plan_id)
    outcome = found.outcome
    row |= {
        "cpu_s": round(process_time() - start, 2),
        "status": outcome.status.value,
        "stopped_by": outcome.stopped_by.value,
        "price": outcome.cost,
        "bound": outcome.bound,
        "overrun_s": outcome.overrun_s,
    }
    if found.core is not None and found.problem is not None:
        return row | _judged(found.core, found.problem, outcome.cost)
    if outcome.status is Status.IMPOSSIBLE:
        row["clash"] = _clash(search, planning)
    return row


def _judged(core: Core, problem: Problem, price: int | None) -> Row:
    verdict = judge(with_pieces(core, problem), problem)
    rules = {g: Counter(f.rule for f in verdict.of_grade(g)) for g in Grade}
    stock = stock_of(problem)
    most = most_used(core)
    return {
        "exercises": [e.exercise_id for e in core.exercises],
        "findings": {g.value: dict(sorted(rules[g].items())) for g in Grade},
        "gate_price": verdict.cost,
        "prices_agree": verdict.cost == price,
        "blocked": blocked(core, stock),
        "kinds_of_kit": len(most),
        "controls_not_blocked": sum(
            blocked(core, stock | {key: units - 1}) == 0 for key, units in most.items()
        ),
    }


def _clash(search: ClassSearch, planning: PlanningProblem) -> list[str]:
    start = process_time()
    members = search.why_not(planning, SEED, Budget.QUICK)
    seconds = round(process_time() - start, 2)
    return [*(" ".join((m.kind, m.item, *m.persons)).strip() for m in members), f"{seconds} s"]


def faults_of(row: Row) -> list[str]:
    """Say what is wrong with one answer; an honest 'no' with its reason is nothing wrong."""
    found: list[str] = []
    findings = row.get("findings")
    if isinstance(findings, dict):
        found += [f"never: {rule}" for rule in findings["never"]]
        found += [f"stop: {rule}" for rule in findings["stop"] if rule != TOO_LONG]
        if TOO_LONG in findings["stop"] and not row["overrun_s"]:
            found.append(f"stop: {TOO_LONG} that the planner does not know of")
    if row.get("prices_agree") is False:
        found.append(f"price {row['price']}, by the gate {row['gate_price']}")
    found += [f"{row[k]} {k}" for k in ("blocked", "controls_not_blocked") if row.get(k)]
    if row["status"] == Status.IMPOSSIBLE and len(_named(row)) < 1:
        found.append("impossible without a clash")
    return found


def _named(row: Row) -> list[str]:
    clash = row.get("clash")
    return [str(c) for c in clash[:-1]] if isinstance(clash, list) else []


def summary_of(rows: Sequence[Row]) -> Row:
    """Count answers, findings and seconds over some halls."""
    planned = [row for row in rows if "findings" in row]
    counts = {g.value: _rules(planned, g) for g in Grade}
    gaps = [
        (int(str(r["price"])) - int(str(r["bound"]))) / max(1, int(str(r["price"])))
        for r in planned
        if r["status"] == Status.FOUND and r["price"] is not None and r["bound"] is not None
    ]
    seconds = sorted(float(str(row["cpu_s"])) for row in rows)
    return {
        "halls": len(rows),
        "plans": len(planned),
        "status": dict(sorted(Counter(str(row["status"]) for row in rows).items())),
        "too_long": sum(bool(row["overrun_s"]) for row in planned),
        "findings": counts,
        "clash_members": dict(
            Counter(member.split()[0] for row in rows for member in _named(row)).most_common()
        ),
        "blocked": sum(int(str(row["blocked"])) for row in planned),
        "controls": sum(int(str(row["kinds_of_kit"])) for row in planned),
        "controls_not_blocked": sum(int(str(row["controls_not_blocked"])) for row in planned),
        "prices_differ": sum(not row["prices_agree"] for row in planned),
        "median_gap_of_found": round(median(gaps), 4) if gaps else None,
        "cpu_s": {"median": median(seconds), "largest": seconds[-1], "sum": round(sum(seconds))},
        "faults": {str(row["hall"]): told for row in rows if (told := faults_of(row))},
    }


def _rules(rows: Sequence[Row], grade: Grade) -> dict[str, int]:
    """Count the halls in which each rule of a grade found something."""
    seen = Counter(
        rule for row in rows if isinstance(f := row["findings"], dict) for rule in f[grade.value]
    )
    return dict(seen.most_common())


def run(first: int, halls: int) -> Iterator[Row]:
    """Run everything, one line a hall."""
    for number in range(first, first + halls):
        row = one_hall(number)
        told = {k: row[k] for k in ("hall", "format", "people", "places", "status", "cpu_s")}
        print(json.dumps(told | {"faults": faults_of(row)}), flush=True)
        yield row


def main() -> int:
    """Run, print, write; exit status 1 when any answer has a fault."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--halls", type=int, default=HALLS, help="how many halls")
    parser.add_argument("--first", type=int, default=0, help="number of the first hall")
    parser.add_argument("--label", default=version("roundwright"), help="name of the results file")
    given = parser.parse_args()
    RESULTS.mkdir(exist_ok=True)
    path = RESULTS / f"{given.label}.proposed_halls.json"
    rows: list[Row] = []
    for row in run(given.first, given.halls):
        rows.append(row)
        if len(rows) % WRITE_EVERY == 0 or len(rows) == given.halls:
            written = {"machine": machine(), "all": summary_of(rows), "halls": rows}
            path.write_text(json.dumps(written, indent=1, sort_keys=True) + "\n", encoding="utf-8")
    overall = summary_of(rows)
    print(json.dumps(overall, indent=1))
    print(f"written to {path.name}")
    return int(bool(overall["faults"]))


if __name__ == "__main__":
    sys.exit(main())

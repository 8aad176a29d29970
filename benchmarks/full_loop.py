"""The whole loop at size: sets, orders, fits, and the gate on what comes out.

``python -m benchmarks.full_loop [--label NAME] [--only SIZE:SEEDS:FORM ...]``. Seconds are CPU
seconds of one thread, making the tables of the form included. Each new class and the bound
known then are written down; *gap* is how far a class stands above the bound of the same
moment. A class that the gate refuses makes the exit status 1.
"""

import argparse
import json
import sys
from collections.abc import Sequence
from dataclasses import dataclass, field
from importlib.metadata import version
from pathlib import Path
from statistics import median
from time import process_time
from uuid import UUID

from benchmarks.generator import SIZES, Size
from benchmarks.large_halls import a_large_planning
from benchmarks.machine import machine
from benchmarks.planning import Row
from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.planning.form_search import FormSearch, Stage
from roundwright.optimise.planning.form_table import Form
from roundwright.optimise.planning.search import Search
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Budget
from roundwright.plan.verdict import Grade

RESULTS = Path(__file__).parent / "results"
MOMENTS_S = (1.0, 10.0)
Part = tuple[Size, int, ClassFormat]


@dataclass
class Watched(Search):
    """The planner's search, writing down when it found what."""

    marks: list[tuple[float, int, int, int]] = field(default_factory=list)
    fit_s: float = 0.0
    start_s: float = 0.0

    def _fit(self, form: Form, search: FormSearch, order: Sequence[int], stage: Stage) -> None:
        before = process_time()
        super()._fit(form, search, order, stage)
        now = process_time()
        self.fit_s += now - before
        if self.best is not None:
            mark = (self.best.rank[0], self.best.rank[1], self._bound() or 0)
            self.marks.append((now - self.start_s, *mark))


def one_class(size: Size, seed: int, form: ClassFormat, budget: Budget) -> Row:
    """Plan one drawn class, and let the gate judge it."""
    planning = a_large_planning(size, seed, (form,))
    start = process_time()
    search = Watched(planning, 1, budget, str(UUID(int=seed, version=4)), start_s=start)
    tables_s = process_time() - start
    proven, bound = search.run()
    seconds = process_time() - start
    best = search.best
    row: Row = {
        "size": list(size),
        "seed": seed,
        "form": form.value,
        "tables_s": round(tables_s, 2),
        "first_plan_s": round(search.marks[0][0], 2) if search.marks else None,
        "fit_s": round(search.fit_s, 2),
        "whole_s": round(seconds, 2),
        "fits": search.fits,
        "masters": search.masters,
        "proven": proven,
        "overrun_s": best.rank[0] if best else None,
        "price": best.rank[1] if best else None,
        "bound": bound,
        "gap_pct": _gap(best.rank[1], bound) if best and bound else None,
    }
    for moment in MOMENTS_S:
        known = [mark for mark in search.marks if mark[0] <= moment]
        row[f"gap_at_{moment:g}s_pct"] = _gap(known[-1][2], known[-1][3]) if known else None
    refused = None
    if best is not None and best.fitted.core is not None:
        found = judge(best.fitted.core, best.problem).findings
        refused = sorted({f.rule for f in found if f.grade is not Grade.ADVISE})
    return row | {"gate_refuses": refused}


def _gap(price: int, bound: int) -> float:
    return round((price / max(1, bound) - 1) * 100, 1)


def run(parts: Sequence[Part], budget: Budget, path: Path) -> bool:
    """Run, print and write as it goes; say whether the gate lets every class through."""
    rows: list[Row] = []
    for size, seeds, form in parts:
        for seed in range(seeds):
            row = one_class(size, seed, form, budget)
            rows.append(row)
            print(row, flush=True)
            found = {"machine": machine(), "budget": budget.value, "classes": rows}
            path.write_text(json.dumps(found, indent=1, sort_keys=True) + "\n", encoding="utf-8")
        mine = [r for r in rows if r["size"] == list(size) and r["form"] == form.value]
        firsts = [float(str(r["first_plan_s"])) for r in mine if r["first_plan_s"] is not None]
        shown = round(median(firsts), 2) if firsts else None
        print(f"{size} {form.value}: a plan in {len(firsts)} of {len(mine)}, after {shown} s")
    return not any(r["gate_refuses"] for r in rows)


def _part(text: str) -> Part:
    """Read SIZE:SEEDS:FORM, such as 150x24x6:3:together."""
    size, seeds, form = text.split(":")
    exercises, people, places = (int(n) for n in size.split("x"))
    return (exercises, people, places), int(seeds), ClassFormat(form)


def main() -> int:
    """Run alone and write the results."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--label", default=version("roundwright"), help="name of the results file")
    parser.add_argument("--budget", type=Budget, default=Budget.QUICK)
    parser.add_argument("--only", type=_part, nargs="+", help="these parts alone")
    given = parser.parse_args()
    parts = given.only or [(size, 3, ClassFormat.TOGETHER) for size in SIZES]
    RESULTS.mkdir(exist_ok=True)
    return 0 if run(parts, given.budget, RESULTS / f"{given.label}.loop.json") else 1


if __name__ == "__main__":
    sys.exit(main())

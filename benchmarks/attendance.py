"""Who comes is uncertain: plans chosen for it beside usual plans, over sampled attendances.

``python -m benchmarks.attendance [--label NAME] [--rosters N] [--budget quick|normal]``.
Each class of the demo hall is planned as usual and with ``--whoever-comes``; both plans then meet
the same sampled rosters, none of which chose anything. Told are: for how many each still holds
(section C9 of *How a plan is changed*), why not, the price of each plan, and what choosing took.
Chances of coming are those of the demo hall's people, which are invented; walk-ins are our choice.
Each class is held twice: in the hall as it is, and with kit drawn scarce from `SCARCE_SEED`.
"""

import argparse
import json
from collections.abc import Sequence
from datetime import date
from itertools import product
from pathlib import Path
from time import process_time

from benchmarks.machine import machine
from roundwright.bootstrap.mending import mending_process
from roundwright.bootstrap.planning import class_search
from roundwright.bootstrap.wiring import wired
from roundwright.demo.tern_quay import demo_hall_folder
from roundwright.foundation.seeds import generator
from roundwright.hall.hall import Hall
from roundwright.library.vocabulary import KitKind
from roundwright.plan.attendance.attendance_table import AttendanceTable
from roundwright.plan.attendance.holding import Holding, head_counts
from roundwright.plan.build_planning import PlanWishes
from roundwright.plan.changing.answer import Mender
from roundwright.plan.outcome import Budget
from roundwright.services.plan_class import PlanRequest, plan_class
from roundwright.services.steady_class import attendance_of, steady_plan

RESULTS = Path(__file__).parent / "results"
CLASSES = ("tuesday_circuit", "wednesday_pairs", "saturday_staggered", "thursday_stations")
DAY = date(2026, 3, 2)
SCARCE_SEED = 1
SCARCE = (0.25, 0.6)
"""Of each kind of kit a share between these is left, drawn evenly; our choice."""
KEPT_WHOLE = (KitKind.MAT, KitKind.WALL)
Row = dict[str, object]


def scarce(hall: Hall, seed: int = SCARCE_SEED) -> Hall:
    """Give a hall that is short of kit: pairs of dumbbells and single items, one at least."""
    draws = generator(seed, "scarce kit")

    def left(count: int) -> int:
        return max(1, round(count * float(draws.uniform(*SCARCE)))) if count else 0

    dumbbells = tuple(
        d.model_copy(update={"count": 2 * left(d.count // 2)}) for d in hall.kit.dumbbells
    )
    items = tuple(
        i if i.kind in KEPT_WHOLE else i.model_copy(update={"count": left(i.count)})
        for i in hall.kit.items
    )
    kit = hall.kit.model_copy(update={"dumbbells": dumbbells, "items": items})
    return hall.model_copy(update={"kit": kit})


def _told(holding: Holding, price: int | None, table: AttendanceTable) -> Row:
    return {
        "held": holding.held,
        "of": len(holding.endings),
        "why_not": {ending.value: n for ending, n in holding.why_not().items()},
        "head_counts": head_counts(holding, table),
        "price": price,
    }


def one_class(
    class_id: str, rosters: int, budget: Budget, mender: Mender, *, is_scarce: bool = False
) -> Row:
    """Plan one class both ways and try both plans with the same rosters."""
    adapters, search = wired(), class_search()
    hall = adapters.hall(demo_hall_folder())
    hall = scarce(hall) if is_scarce else hall
    place = {"class": class_id, "kit": f"scarce, seed {SCARCE_SEED}" if is_scarce else "the hall's"}
    request = PlanRequest(class_id, DAY, PlanWishes(anew=True), budget=budget)
    table = AttendanceTable(telling=rosters, least_rosters=max(2, rosters // 20))
    begun = process_time()
    planned = plan_class(hall, request, planner=search, clock=adapters.clock, ids=adapters.ids)
    usual_s = process_time() - begun
    if planned.document is None:
        return place | {"planned": False, "outcome": planned.outcome.status.value}
    attendance = attendance_of(hall, planned.planning, mender, request.seed, table)
    steady = steady_plan(planned, attendance, request, planner=search)
    chosen = steady.chosen
    return place | {
        "planned": True,
        "booked": len(attendance.chances),
        "usual": _told(steady.usual_holding, steady.usual.document.outcome.cost, table),
        "steady": _told(steady.holding, chosen.document.outcome.cost, table)
        | {"reserved": chosen.reserved, "passed_over": chosen.passed_over},
        "pool": [
            {
                "reserved": plan.reserved,
                "passed_over": plan.passed_over,
                "held": holding.held,
                "of": len(holding.endings),
                "price": plan.document.outcome.cost,
            }
            for plan, holding in steady.pool
        ],
        "usual_s": round(usual_s, 1),
        "steady_s": round(process_time() - begun - usual_s, 1),
    }


def main(arguments: Sequence[str] | None = None) -> int:
    """Run and keep the results."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--label", default="0.1.0")
    parser.add_argument("--rosters", type=int, default=50)
    parser.add_argument("--budget", type=Budget, default=Budget.QUICK)
    parser.add_argument("--class", dest="classes", action="append")
    asked = parser.parse_args(arguments)
    rows: list[Row] = []
    with mending_process() as mender:
        chosen = asked.classes or CLASSES
        for class_id, is_scarce in product(chosen, (False, True)):
            rows.append(
                one_class(class_id, asked.rosters, asked.budget, mender, is_scarce=is_scarce)
            )
            print(json.dumps(rows[-1]), flush=True)
            found = {"budget": asked.budget.value, "classes": rows, "machine": machine()}
            text = json.dumps(found, indent=2) + "\n"
            (RESULTS / f"{asked.label}.attendance.json").write_text(text, encoding="utf-8")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())

"""How quick a fit is, and the choice of a set, beside plain models in the same run.

``python -m benchmarks.run [--full] [--label 2026-03-01]`` prints one line a class and
writes ``benchmarks/results/<label>.json``. Both answers are compared: a difference in
overrun or price is printed and makes the exit status 1.
"""

import argparse
import json
import sys
from collections.abc import Callable
from importlib.metadata import version
from pathlib import Path
from statistics import median
from time import perf_counter  # noqa: TID251 -- a benchmark measures real time
from typing import TypeVar
from uuid import UUID

from tests.support.random_halls import a_hall_of

from benchmarks import planning
from benchmarks.joint_yardstick import list_options, solve_jointly
from benchmarks.machine import machine
from roundwright.optimise.fit import fit

T = TypeVar("T")

SIZES = ((14, 5), (24, 6), (40, 7))
SEEDS_USUALLY, SEEDS_IN_FULL = 4, 20
RESULTS = Path(__file__).parent / "results"


def timed(work: Callable[[], T]) -> tuple[T, float]:
    """Give what some work gives, and its seconds."""
    start = perf_counter()
    answer = work()
    return answer, perf_counter() - start


def one_class(people: int, places: int, seed: int) -> dict[str, object]:
    """Fit one drawn class both ways."""
    problem = a_hall_of(seed, people, places)
    plan_id = str(UUID(int=seed, version=4))
    result, fit_s = timed(lambda: fit(problem, seed=1, plan_id=plan_id))
    listed, list_s = timed(lambda: list_options(problem))
    joint, solve_s = timed(lambda: solve_jointly(problem, listed))
    ours: tuple[int | None, int | None] = (None, None)
    if result.core is not None:
        ours = (result.outcome.overrun_s, result.outcome.cost)
    return {
        "people": people,
        "places": places,
        "seed": seed,
        "status": result.outcome.status.value,
        "overrun_s": ours[0],
        "price": ours[1],
        "bound": result.outcome.bound,
        "yardstick_overrun_s": joint.overrun_s,
        "yardstick_price": joint.price,
        "agrees": ours == (joint.overrun_s, joint.price),
        "fit_s": round(fit_s, 4),
        "yardstick_options_s": round(list_s, 4),
        "yardstick_solve_s": round(solve_s, 4),
        "columns": joint.columns,
        "rows": joint.rows,
    }


def main() -> int:
    """Run, print, write."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--full", action="store_true", help="twenty classes of each size")
    parser.add_argument("--label", default=version("roundwright"), help="name of the results file")
    chosen = parser.parse_args()
    rows: list[dict[str, object]] = []
    print("people places seed  status      price  fit s  options s  solve s  fit/solve  agrees")
    for people, places in SIZES:
        ratios = []
        for seed in range(SEEDS_IN_FULL if chosen.full else SEEDS_USUALLY):
            row = one_class(people, places, seed)
            rows.append(row)
            ratio = float(str(row["fit_s"])) / max(1e-4, float(str(row["yardstick_solve_s"])))
            ratios.append(ratio)
            print(
                f"{people:6} {places:6} {seed:4}  {row['status']:<10} {row['price']!s:>6} "
                f"{row['fit_s']:>6} {row['yardstick_options_s']:>10} "
                f"{row['yardstick_solve_s']:>8} {ratio:>10.2f}  {row['agrees']}"
            )
        print(f"{people} people x {places} places: median fit/solve {median(ratios):.2f}")
    sets = planning.run(chosen.full)
    RESULTS.mkdir(exist_ok=True)
    written = {"machine": machine(), "full": chosen.full, "classes": rows, "planning": sets}
    path = RESULTS / f"{chosen.label}.json"
    path.write_text(json.dumps(written, indent=1, sort_keys=True) + "\n", encoding="utf-8")
    differing = [row for row in rows if not row["agrees"]]
    print(f"{len(rows)} classes, {len(differing)} with another answer; written to {path.name}")
    return 0 if not differing and sets["agrees"] else 1


if __name__ == "__main__":
    sys.exit(main())

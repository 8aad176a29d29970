"""Which set of exercises: our decomposition beside single models, at the level of set tables.

``python -m benchmarks.planning [--full] [--label NAME]``. Seconds are CPU seconds of one
thread, so that other work on the machine weighs less; each single model may run 120 s
of wall time, and an unproven one counts as what it took. *ours* is the planner's own
master with its prices and cuts; *light* the same with `light_master`. Equal prices
wherever two prove are asked for: a difference makes the exit status 1.
"""

import argparse
import json
import sys
from collections.abc import Callable
from importlib.metadata import version
from pathlib import Path
from statistics import median
from time import process_time

from benchmarks.decomposition import Trace, solve_by_decomposition
from benchmarks.generator import SIZES, Size, a_set_table
from benchmarks.light_master import cheapest_set
from benchmarks.machine import machine
from benchmarks.yardstick_cpsat import solve_with_cpsat
from benchmarks.yardstick_highs import SetAnswer, solve_with_highs
from benchmarks.yardstick_slots import solve_by_slots
from roundwright.optimise.planning.set_table import SetTable

RESULTS = Path(__file__).parent / "results"
LIMIT_S = 120.0
SEEDS_USUALLY, SEEDS_IN_FULL = 3, 7
SMALL: Size = (24, 5, 4)
SMALL_SEEDS = 5
NAMES = ("ours", "light", "highs", "cpsat")
Row = dict[str, object]


def _timed(
    name: str, solve: Callable[[], SetAnswer | tuple[SetAnswer, Trace]]
) -> tuple[SetAnswer, Row]:
    start = process_time()
    given = solve()
    seconds = process_time() - start
    answer, trace = given if isinstance(given, tuple) else (given, None)
    row: Row = {
        f"{name}_price": answer.price,
        f"{name}_proven": answer.is_proven,
        f"{name}_bound": None if answer.bound == float("inf") else round(answer.bound, 3),
        f"{name}_s": round(seconds, 3),
    }
    if trace is not None:
        mark = trace.at(1.0)
        row |= {
            f"{name}_masters": trace.masters,
            f"{name}_cuts": trace.cuts,
            f"{name}_price_at_1s": mark.price,
            f"{name}_bound_at_1s": mark.bound,
        }
    return answer, row


def one_table(table: SetTable) -> Row:
    """Solve one table in every way; say whether all that prove agree and whether cuts matter."""
    row: Row = {"ways": sum(len(ways) for people in table.alternatives for ways in people)}
    solvers: dict[str, Callable[[], SetAnswer | tuple[SetAnswer, Trace]]] = {
        "ours": lambda: solve_by_decomposition(table, limit_s=LIMIT_S),
        "light": lambda: solve_by_decomposition(table, cheapest_set, LIMIT_S),
        "highs": lambda: solve_with_highs(table, LIMIT_S),
        "cpsat": lambda: solve_with_cpsat(table, LIMIT_S),
        "uncoupled": lambda: solve_with_highs(table, LIMIT_S, coupled=False),
    }
    answers: dict[str, SetAnswer] = {}
    for name, solve in solvers.items():
        answers[name], more = _timed(name, solve)
        row |= more
    proven = {answers[n].price for n in NAMES if answers[n].is_proven}
    prices = [p for n in NAMES if (p := answers[n].price) is not None]
    row["agrees"] = len(proven) <= 1
    row["best_known"] = min(prices, default=None)
    apart = answers["uncoupled"]
    row["needs_cuts"] = (
        None if len(proven) != 1 or not apart.is_proven else apart.price not in proven
    )
    return row


def _number(row: Row, key: str) -> float:
    return float(str(row[key]))


def summary_of(size: Size, rows: list[Row]) -> Row:
    """Give medians over the seeds of one size."""
    found: Row = {"size": list(size), "seeds": len(rows)}
    for name in NAMES:
        found[f"{name}_median_s"] = round(median(_number(r, f"{name}_s") for r in rows), 3)
        found[f"{name}_proven"] = sum(bool(r[f"{name}_proven"]) for r in rows)
    for name in ("ours", "light"):
        ratios = [_number(r, "highs_s") / max(1e-3, _number(r, f"{name}_s")) for r in rows]
        found[f"highs_over_{name}"] = round(median(ratios), 2)
        above = [
            (_number(r, f"{name}_price_at_1s") / _number(r, "best_known") - 1) * 100
            for r in rows
            if r[f"{name}_price_at_1s"] is not None
        ]
        found[f"{name}_without_plan_at_1s"] = len(rows) - len(above)
        found[f"{name}_above_best_at_1s_pct"] = round(median(above), 2) if above else None
    cuts = [r["needs_cuts"] for r in rows if r["needs_cuts"] is not None]
    found["needs_cuts"] = f"{sum(map(bool, cuts))} of {len(cuts)}"
    found["agrees"] = all(r["agrees"] for r in rows)
    return found


def check_small() -> list[Row]:
    """Hold all models to each other and to the slot-indexed one, on small tables."""
    rows: list[Row] = []
    for seed in range(SMALL_SEEDS):
        table = a_set_table(SMALL, seed)
        answers = {
            "ours": solve_by_decomposition(table)[0],
            "light": solve_by_decomposition(table, cheapest_set)[0],
            "highs": solve_with_highs(table),
            "cpsat": solve_with_cpsat(table),
            "slots": solve_by_slots(table),
        }
        prices: Row = {name: answer.price for name, answer in answers.items()}
        agrees = len(set(prices.values())) == 1 and all(a.is_proven for a in answers.values())
        rows.append({"seed": seed, **prices, "agrees": agrees})
    return rows


def run(full: bool) -> Row:
    """Run, print as it goes, and give everything for the results file."""
    small = check_small()
    print(f"{sum(bool(r['agrees']) for r in small)} of {len(small)} small tables agree in all")
    rows, summaries = [], []
    for size in SIZES if full else SIZES[:1]:
        of_size = []
        for seed in range(SEEDS_IN_FULL if full else SEEDS_USUALLY):
            row = {"size": list(size), "seed": seed} | one_table(a_set_table(size, seed))
            of_size.append(row)
            shown = "  ".join(
                f"{n} {row[f'{n}_price']} {row[f'{n}_s']} s"
                + ("" if row[f"{n}_proven"] else " (unproven)")
                for n in NAMES
            )
            print(f"{size} seed {seed}: {shown}", flush=True)
        rows += of_size
        summaries.append(summary_of(size, of_size))
        print(json.dumps(summaries[-1]), flush=True)
    agrees = all(r["agrees"] for r in [*rows, *small])
    return {"small": small, "tables": rows, "summaries": summaries, "agrees": agrees}


def main() -> int:
    """Run alone and write the results."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--full", action="store_true", help="all sizes, seven seeds each")
    parser.add_argument("--label", default=version("roundwright"), help="name of the results file")
    chosen = parser.parse_args()
    found = run(chosen.full)
    RESULTS.mkdir(exist_ok=True)
    path = RESULTS / f"{chosen.label}.planning.json"
    written = {"machine": machine(), "full": chosen.full, "planning": found}
    path.write_text(json.dumps(written, indent=1, sort_keys=True) + "\n", encoding="utf-8")
    print(f"written to {path.name}")
    return 0 if found["agrees"] else 1


if __name__ == "__main__":
    sys.exit(main())

"""Which set of exercises: our decomposition beside single models, at the level of set tables.

``python -m benchmarks.planning [--full] [--label NAME] [--only SIZE:SEEDS:SOLVERS ...]``.
Seconds are CPU seconds of one thread, so that other work on the machine weighs less; each
single model may run 120 s of wall time, and an unproven one counts as what it took. *ours*
is the planner's own master with its prices and cuts; *light* the same with `light_master`.
Equal prices wherever two prove are asked for: a difference makes the exit status 1. The
file is written anew after every table, so that a run that is ended keeps what it has.
"""

import argparse
import json
import sys
from collections.abc import Callable, Sequence
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
DECOMPOSED = ("ours", "light")
UNCOUPLED = "uncoupled"
Row = dict[str, object]
Part = tuple[Size, int, tuple[str, ...]]
"""A size, how many seeds of it, and who solves them."""


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


def one_table(table: SetTable, names: Sequence[str]) -> Row:
    """Solve one table in each way named; say whether all that prove agree, and needs of cuts."""
    row: Row = {"ways": sum(len(ways) for people in table.alternatives for ways in people)}
    solvers: dict[str, Callable[[], SetAnswer | tuple[SetAnswer, Trace]]] = {
        "ours": lambda: solve_by_decomposition(table, limit_s=LIMIT_S),
        "light": lambda: solve_by_decomposition(table, cheapest_set, LIMIT_S),
        "highs": lambda: solve_with_highs(table, LIMIT_S),
        "cpsat": lambda: solve_with_cpsat(table, LIMIT_S),
        UNCOUPLED: lambda: solve_with_highs(table, LIMIT_S, coupled=False),
    }
    answers: dict[str, SetAnswer] = {}
    for name in names:
        answers[name], more = _timed(name, solvers[name])
        row |= more
    whole = [answers[n] for n in names if n != UNCOUPLED]
    proven = {answer.price for answer in whole if answer.is_proven}
    row["agrees"] = len(proven) <= 1
    row["best_known"] = min((a.price for a in whole if a.price is not None), default=None)
    apart = answers.get(UNCOUPLED)
    row["needs_cuts"] = (
        apart.price not in proven
        if len(proven) == 1 and apart is not None and apart.is_proven
        else None
    )
    return row


def _number(row: Row, key: str) -> float:
    return float(str(row[key]))


def summary_of(size: Size, names: Sequence[str], rows: list[Row]) -> Row:
    """Give medians over the seeds of one size."""
    found: Row = {"size": list(size), "seeds": [r["seed"] for r in rows], "solvers": list(names)}
    for name in names:
        found[f"{name}_median_s"] = round(median(_number(r, f"{name}_s") for r in rows), 3)
        found[f"{name}_proven"] = sum(bool(r[f"{name}_proven"]) for r in rows)
    for name in [n for n in DECOMPOSED if n in names]:
        if "highs" in names:
            ratios = [_number(r, "highs_s") / max(1e-3, _number(r, f"{name}_s")) for r in rows]
            found[f"highs_over_{name}"] = round(median(ratios), 2)
        above = [
            (_number(r, f"{name}_price_at_1s") / _number(r, "best_known") - 1) * 100
            for r in rows
            if r[f"{name}_price_at_1s"] is not None
        ]
        found[f"{name}_without_plan_at_1s"] = len(rows) - len(above)
        found[f"{name}_above_best_at_1s_pct"] = round(median(above), 2) if above else None
        found[f"{name}_most_above_best_at_1s_pct"] = round(max(above), 2) if above else None
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


def usual(full: bool) -> list[Part]:
    """Give the parts of a run that names none."""
    names = (*NAMES, UNCOUPLED)
    if full:
        return [(size, SEEDS_IN_FULL, names) for size in SIZES]
    return [(SIZES[0], SEEDS_USUALLY, names)]


def run(
    full: bool,
    parts: Sequence[Part] | None = None,
    keep: Callable[[Row], None] = lambda found: None,
) -> Row:
    """Run, print as it goes, hand on what there is after every table, and give everything."""
    small = check_small()
    print(f"{sum(bool(r['agrees']) for r in small)} of {len(small)} small tables agree in all")
    rows: list[Row] = []
    summaries: list[Row] = []
    found: Row = {"small": small, "tables": rows, "summaries": summaries}
    for size, seeds, names in parts or usual(full):
        of_size: list[Row] = []
        summaries.append({})
        for seed in range(seeds):
            row = {"size": list(size), "seed": seed} | one_table(a_set_table(size, seed), names)
            of_size.append(row)
            rows.append(row)
            shown = "  ".join(
                f"{n} {row[f'{n}_price']} {row[f'{n}_s']} s"
                + ("" if row[f"{n}_proven"] else " (unproven)")
                for n in names
            )
            print(f"{size} seed {seed}: {shown}", flush=True)
            summaries[-1] = summary_of(size, names, of_size)
            found["agrees"] = all(r["agrees"] for r in [*rows, *small])
            keep(found)
        print(json.dumps(summaries[-1]), flush=True)
    return found


def _part(text: str) -> Part:
    """Read SIZE:SEEDS:SOLVERS, such as 150x24x6:7:ours,highs."""
    size, seeds, names = text.split(":")
    exercises, people, places = (int(n) for n in size.split("x"))
    some = tuple(names.split(","))
    if not set(some) <= {*NAMES, UNCOUPLED}:
        raise argparse.ArgumentTypeError(f"solvers are {', '.join((*NAMES, UNCOUPLED))}")
    return (exercises, people, places), int(seeds), some


def main() -> int:
    """Run alone and write the results."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--full", action="store_true", help="all sizes, seven seeds each")
    parser.add_argument("--label", default=version("roundwright"), help="name of the results file")
    parser.add_argument(
        "--only", type=_part, nargs="+", metavar="SIZE:SEEDS:SOLVERS", help="these parts alone"
    )
    given = parser.parse_args()
    RESULTS.mkdir(exist_ok=True)
    path = RESULTS / f"{given.label}.planning.json"

    def keep(found: Row) -> None:
        written = {"machine": machine(), "full": given.full, "planning": found}
        path.write_text(json.dumps(written, indent=1, sort_keys=True) + "\n", encoding="utf-8")

    found = run(given.full, given.only, keep)
    print(f"written to {path.name}")
    return 0 if found["agrees"] else 1


if __name__ == "__main__":
    sys.exit(main())

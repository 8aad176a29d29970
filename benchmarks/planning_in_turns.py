"""Staggered groups and stations on set tables, beside one single model in the same run.

``python -m benchmarks.planning_in_turns [--label NAME] [--only SIZE:SEEDS:FORM[:highs] ...]``.
Seconds are CPU seconds of one thread. *ours* solves every kind of offsets, the yardstick one
(every group one place ahead), for at most 120 s of wall time. Equal prices wherever both prove:
a difference makes the exit status 1. The file is written anew after every table.
"""

import argparse
import json
import sys
from collections.abc import Sequence
from dataclasses import replace
from importlib.metadata import version
from pathlib import Path
from statistics import median
from time import process_time

from benchmarks.generator import SIZES, Size, a_set_table
from benchmarks.machine import machine
from benchmarks.planning import LIMIT_S, Row
from benchmarks.turns import dealt, kinds_of_offsets, solve_in_turns
from benchmarks.yardstick_turns import solve_turns_with_highs
from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.planning.set_table import SetTable

RESULTS = Path(__file__).parent / "results"
STATIONS_LIMIT_S = 10.0
SEEDS = 7
SMALL: Size = (14, 6, 4)
SMALL_SEEDS = 12
SCARCE = 2
"""Units of everything in the small tables, so that groups meet in the kit."""
Part = tuple[Size, int, ClassFormat, bool]


def groups_of(form: ClassFormat, places: int) -> int:
    """Give how many groups take turns: two staggered ones, or one at each station."""
    return places if form is ClassFormat.STATIONS else 2


def one_table(table: SetTable, form: ClassFormat, limit_s: float, with_highs: bool) -> Row:
    """Solve one table for every kind of offsets, and the yardstick for one."""
    places = table.rules.places
    group_of = dealt(table, groups_of(form, places))
    kinds = kinds_of_offsets(form, places)
    start = process_time()
    found = solve_in_turns(table, group_of, kinds, limit_s)
    seconds = process_time() - start
    first = found.by_offsets[kinds[0]]
    row: Row = {
        "form": form.value,
        "ours_s": round(seconds, 3),
        "ours_price": found.best.price,
        "ours_bound": found.best.bound if found.best.price is not None else None,
        "ours_proven": found.best.is_proven,
        "apart_price": found.alone.price,
        "kinds": [list(k) for k in kinds],
        "meets": any(a.price != found.alone.price for a in found.by_offsets.values()),
        "masters": found.trace.masters,
        "cuts": found.trace.cuts,
        "agrees": True,
    }
    if with_highs:
        start = process_time()
        answer = solve_turns_with_highs(table, group_of, kinds[0], LIMIT_S)
        row |= {
            "highs_s": round(process_time() - start, 3),
            "highs_price": answer.price,
            "highs_proven": answer.is_proven,
            "highs_bound": None if answer.bound == float("inf") else round(answer.bound, 3),
            "agrees": not (answer.is_proven and first.is_proven) or answer.price == first.price,
        }
    return row


def check_small() -> list[Row]:
    """Hold both to each other on small tables with a rack that is far too small."""
    rows: list[Row] = []
    for seed in range(SMALL_SEEDS):
        table = a_set_table(SMALL, seed)
        table = replace(table, kit_counts=tuple(min(n, SCARCE) for n in table.kit_counts))
        for form in (ClassFormat.STAGGERED, ClassFormat.STATIONS):
            row = {"seed": seed} | one_table(table, form, LIMIT_S, with_highs=True)
            row["agrees"] = row["agrees"] and row["ours_proven"] and row["highs_proven"]
            rows.append(row)
    return rows


def summary_of(size: Size, form: ClassFormat, rows: list[Row]) -> Row:
    """Give medians over the seeds of one size and form."""
    seconds = [float(str(r["ours_s"])) for r in rows]
    gaps = [
        (float(str(r["ours_price"])) / max(1.0, float(str(r["ours_bound"]))) - 1) * 100
        for r in rows
        if r["ours_price"] is not None and not r["ours_proven"]
    ]
    found: Row = {
        "size": list(size),
        "form": form.value,
        "seeds": len(rows),
        "ours_median_s": round(median(seconds), 3),
        "ours_most_s": round(max(seconds), 3),
        "ours_proven": sum(bool(r["ours_proven"]) for r in rows),
        "ours_without_plan": sum(r["ours_price"] is None for r in rows),
        "gap_of_unproven_pct": [round(g, 1) for g in gaps],
        "meets": sum(bool(r["meets"]) for r in rows),
        "agrees": all(r["agrees"] for r in rows),
    }
    beside = [r for r in rows if "highs_s" in r]
    if beside:
        ratios = [float(str(r["highs_s"])) / max(1e-3, float(str(r["ours_s"]))) for r in beside]
        found["highs_median_s"] = round(median(float(str(r["highs_s"])) for r in beside), 3)
        found["highs_proven"] = sum(bool(r["highs_proven"]) for r in beside)
        found["highs_over_ours"] = round(median(ratios), 2)
    return found


def run(parts: Sequence[Part], path: Path) -> bool:
    """Run, print and write as it goes; say whether all that prove agree."""
    small = check_small()
    agreeing = sum(bool(r["agrees"]) for r in small)
    meeting = sum(bool(r["meets"]) for r in small)
    print(f"{agreeing} of {len(small)} small tables agree; groups meet in {meeting}", flush=True)
    rows: list[Row] = []
    summaries: list[Row] = []
    for size, seeds, form, with_highs in parts:
        of_part: list[Row] = []
        summaries.append({})
        limit_s = STATIONS_LIMIT_S if form is ClassFormat.STATIONS else LIMIT_S
        for seed in range(seeds):
            table = a_set_table(size, seed)
            row = {"size": list(size), "seed": seed} | one_table(table, form, limit_s, with_highs)
            of_part.append(row)
            rows.append(row)
            summaries[-1] = summary_of(size, form, of_part)
            print({k: v for k, v in row.items() if k != "kinds"}, flush=True)
            found = {"machine": machine(), "small": small, "tables": rows, "summaries": summaries}
            path.write_text(json.dumps(found, indent=1, sort_keys=True) + "\n", encoding="utf-8")
        print(json.dumps(summaries[-1]), flush=True)
    return all(r["agrees"] for r in [*small, *rows])


def usual() -> list[Part]:
    """Give the parts of a run that names none."""
    staggered = [(size, SEEDS, ClassFormat.STAGGERED, True) for size in SIZES]
    return staggered + [(size, SEEDS, ClassFormat.STATIONS, False) for size in SIZES[1:]]


def _part(text: str) -> Part:
    """Read SIZE:SEEDS:FORM or SIZE:SEEDS:FORM:highs, such as 400x60x8:7:staggered."""
    size, seeds, form, *more = text.split(":")
    exercises, people, places = (int(n) for n in size.split("x"))
    return (exercises, people, places), int(seeds), ClassFormat(form), more == ["highs"]


def main() -> int:
    """Run alone and write the results."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--label", default=version("roundwright"), help="name of the results file")
    parser.add_argument("--only", type=_part, nargs="+", help="these parts alone")
    given = parser.parse_args()
    RESULTS.mkdir(exist_ok=True)
    return 0 if run(given.only or usual(), RESULTS / f"{given.label}.turns.json") else 1


if __name__ == "__main__":
    sys.exit(main())

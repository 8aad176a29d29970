"""How long the body model takes: a row of the table, pictures, moving figures, many people.

``python -m benchmarks.bodies [--every N] [--label NAME]`` solves every N-th posture of
the shipped library and writes ``benchmarks/results/<label>.bodies.json``. Seconds are CPU
seconds of one process, so that other work on the machine weighs less.
"""

import argparse
import json
import sys
from collections.abc import Callable
from importlib.metadata import version
from pathlib import Path
from statistics import median
from time import process_time

import numpy as np

from benchmarks.machine import machine
from roundwright.body.body_table import make_body_table
from roundwright.body.drawing.picture import strip
from roundwright.body.moving_sequence import sequence_of
from roundwright.body.people_figures import Builds, moments_nm_per_kg
from roundwright.bootstrap.shipped_bodies import (
    Bodies,
    shipped_bodies,
    shipped_postures,
    shipped_table,
)
from roundwright.foundation.seeds import generator

RESULTS = Path(__file__).parent / "results"
PEOPLE = 1000


def seconds(work: Callable[[], object]) -> float:
    """Give the CPU seconds of some work."""
    start = process_time()
    work()
    return process_time() - start


def spread(values: list[float]) -> dict[str, float]:
    """Give median and ends, s."""
    ends = {"least": min(values), "median": median(values), "most": max(values)}
    return {name: round(value, 4) for name, value in ends.items()}


def demands_of_people(bodies: Bodies) -> float:
    """Give the seconds for all joints, keys and movements of the library for 1,000 people."""
    draw = generator(1, "bodies benchmark", 0)
    builds = Builds(draw.normal(1.70, 0.10, PEOPLE), draw.choice([0.0, 0.5, 1.0], PEOPLE))
    loads = draw.uniform(0.0, 0.30, PEOPLE)

    def all_of_them() -> None:
        for slug in bodies.table.movements:
            found = moments_nm_per_kg(bodies.table, slug, builds, loads)
            assert all(np.shape(each)[1] == PEOPLE for each in found.values())

    return seconds(all_of_them)


def main() -> int:
    """Run, print, write."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--every", type=int, default=8, help="solve every so many postures")
    parser.add_argument("--label", default=version("roundwright"), help="name of the results file")
    chosen = parser.parse_args()
    read_s = {"postures": seconds(shipped_postures), "table": seconds(shipped_table)}
    bodies = shipped_bodies()
    slugs = sorted(bodies.postures)
    some = slugs[:: chosen.every]
    solved = [seconds(lambda s=s: make_body_table([bodies.postures[s]])) for s in some]
    drawn = [seconds(lambda s=s: strip(bodies.solved(s))) for s in slugs]
    moved = [seconds(lambda s=s: sequence_of([(s, bodies.solved(s))])) for s in some]
    people_s = demands_of_people(bodies)
    figures = {
        "postures": len(slugs),
        "solved": len(some),
        "table_row_s": spread(solved),
        "whole_table_s_estimated": round(sum(solved) / len(solved) * len(slugs), 1),
        "pictures_of_a_movement_s": spread(drawn),
        "moving_figure_s": spread(moved),
        "people": PEOPLE,
        "all_demands_of_all_people_s": round(people_s, 3),
        "read_s": {name: round(value, 3) for name, value in read_s.items()},
    }
    path = RESULTS / f"{chosen.label}.bodies.json"
    text = json.dumps({"machine": machine(), "figures": figures}, indent=1)
    path.write_text(text + "\n", encoding="utf-8")
    print(json.dumps(figures, indent=1))
    return 0


if __name__ == "__main__":
    sys.exit(main())

"""How quick a rehearsal is beside an event simulation of the same class, in the same run.

``python -m benchmarks.rehearsal_against_events [--label 2026-03-01]`` prints one line a class and
writes ``benchmarks/results/<label>.rehearsal.json``. The event simulation is lean on purpose: who
works, for how long and who walks to the rack is worked out before its clock starts, so that it
does nothing but move events. Both must give the same length of every window.
"""

import argparse
import json
import os
import platform
import sys
from collections.abc import Iterator
from importlib.metadata import version
from pathlib import Path
from statistics import median
from time import perf_counter  # noqa: TID251 -- a benchmark measures real time

import numpy as np
import simpy
from tests.support.random_halls import a_hall_of

from roundwright.optimise.fit import fit
from roundwright.rehearsal.pace import factors_of
from roundwright.rehearsal.play import RACK_S, USUAL_PLAYS, play
from roundwright.rehearsal.played_class import PlayedClass, played_class

RESULTS = Path(__file__).parent / "results"
SIZES = ((14, 5), (24, 6), (60, 8))
SEEDS = range(7)
EVENT_PLAYS = 20
BAR = 30
NEAR_S = 1e-9
PLAN_ID = "00000000-0000-4000-8000-000000000001"


def simulated(played: PlayedClass, factors: list[float]) -> list[float]:
    """Play a class once, event by event, and give the length of each window."""
    env = simpy.Environment()
    rack = simpy.PriorityResource(env, capacity=1)
    lengths: list[float] = []

    def one_set(seconds: float, person: int, ended: dict[int, float]) -> Iterator[simpy.Event]:
        yield env.timeout(seconds)
        ended[person] = env.now

    def trip(priority: tuple[float, int], seconds: float) -> Iterator[simpy.Event]:
        with rack.request(priority=priority) as turn:
            yield turn
            back = env.timeout(seconds)
            yield env.timeout(RACK_S)
        yield back

    def coach() -> Iterator[simpy.Event]:
        ended: dict[int, float] = {}
        for window in played.windows:
            start = env.now
            if window.sets is not None:
                ended = {}
                sets = window.sets
                yield env.all_of(
                    [
                        env.process(one_set(s * factors[c] if counted else s, int(p), ended))
                        for p, c, s, counted in zip(
                            sets.people.tolist(),
                            sets.columns.tolist(),
                            sets.seconds.tolist(),
                            sets.counted.tolist(),
                            strict=True,
                        )
                    ]
                )
            elif window.moves is not None:
                with rack.request(priority=(-1.0, -1)) as door:
                    yield door
                    moves = window.moves
                    trips = [
                        env.process(trip((ended.get(p, start), p), walk_s))
                        for p, walk_s in zip(
                            moves.walkers.tolist(), moves.walk_s.tolist(), strict=True
                        )
                    ]
                    yield env.timeout(0)
                yield env.all_of([*trips, env.timeout(moves.stays_s)])
            else:
                yield env.timeout(window.planned_s)
            lengths.append(env.now - start)

    env.process(coach())
    env.run()
    return lengths


def one_class(people: int, places: int, seed: int) -> dict[str, object]:
    """Play one drawn class both ways."""
    problem = a_hall_of(seed, people, places)
    core = fit(problem, seed=1, plan_id=PLAN_ID).core
    if core is None:
        return {"people": people, "places": places, "seed": seed, "fitted": False}
    start = perf_counter()
    ours = play(core, problem, seed=seed, plays=USUAL_PLAYS)
    ours_s = perf_counter() - start
    played = played_class(core, problem)
    shape = (played.rounds, played.positions, len(played.people))
    drawn = factors_of(problem.rules, shape, seed=seed, block=0, plays=EVENT_PLAYS).tolist()
    start = perf_counter()
    lengths = [simulated(played, row) for row in drawn]
    events_s = (perf_counter() - start) * USUAL_PLAYS / EVENT_PLAYS
    return {
        "people": people,
        "places": places,
        "seed": seed,
        "fitted": True,
        "walks": sum(len(w.moves.walkers) for w in played.windows if w.moves),
        "chance_bp": ours.chance_on_time.chance_bp,
        "play_s": round(ours_s, 4),
        "events_s": round(events_s, 2),
        "ratio": round(events_s / ours_s, 1),
        "largest_difference_s": float(np.abs(ours.lengths_s[:EVENT_PLAYS] - lengths).max()),
    }


def main() -> int:
    """Run, print, write; exit status 1 when a length differs or a median is below the bar."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--label", default=version("roundwright"), help="name of the results file")
    chosen = parser.parse_args()
    rows: list[dict[str, object]] = []
    failed = False
    print(f"{USUAL_PLAYS} plays; events timed over {EVENT_PLAYS} of them and scaled")
    for people, places in SIZES:
        mine = [one_class(people, places, seed) for seed in SEEDS]
        rows += mine
        fitted = [row for row in mine if row["fitted"]]
        ratio = median(float(str(row["ratio"])) for row in fitted)
        largest = max(float(str(row["largest_difference_s"])) for row in fitted)
        failed = failed or ratio < BAR or largest > NEAR_S
        print(
            f"{people:3} people x {places}: {len(fitted)} of {len(mine)} fitted, play"
            f" {median(float(str(row['play_s'])) for row in fitted):.3f} s, events"
            f" {median(float(str(row['events_s'])) for row in fitted):.1f} s, median ratio"
            f" {ratio:.0f} (bar {BAR}), largest difference {largest:.1e} s"
        )
    machine = {
        "system": platform.system(),
        "machine": platform.machine(),
        "cores": os.cpu_count(),
        "python": platform.python_version(),
        "versions": {name: version(name) for name in ("roundwright", "numpy", "simpy")},
    }
    RESULTS.mkdir(exist_ok=True)
    path = RESULTS / f"{chosen.label}.rehearsal.json"
    written = {"machine": machine, "plays": USUAL_PLAYS, "classes": rows}
    path.write_text(json.dumps(written, indent=1, sort_keys=True) + "\n", encoding="utf-8")
    print(f"written to {path.name}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())

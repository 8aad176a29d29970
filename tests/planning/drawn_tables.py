"""Small set tables drawn from a seed, and the best set by trying every one."""

from itertools import combinations

import numpy as np

from roundwright.foundation.seeds import generator
from roundwright.optimise.planning.joint_price import joint_price
from roundwright.optimise.planning.set_table import SetRules, SetTable, Way
from roundwright.optimise.solver import Work


def a_drawn_table(seed: int, exercises: int = 8, people: int = 4, places: int = 3) -> SetTable:
    """Draw a table in which kit, masses and landings all couple."""
    draws = generator(seed, "small set table")

    def some(high: int) -> tuple[int, ...]:
        return tuple(int(n) for n in draws.integers(0, high, exercises))

    masses = (4000, 6000, 8000, 10_000)

    def ways(e: int) -> tuple[Way, ...]:
        made = []
        for k in range(int(draws.integers(2, 5))):
            mass = int(draws.integers(0, 4))
            held = e % 3 > 0
            made.append(
                Way(
                    price=int(draws.integers(0, 30)),
                    mass_g=masses[mass] if held else 0,
                    contacts=int(draws.integers(0, 25)) if e % 4 == 0 else 0,
                    kit=((mass, 2),) if held else (),
                    versions=(k % 3,),
                )
            )
        return tuple(made)

    return SetTable(
        people=tuple(f"p{p}" for p in range(people)),
        exercises=tuple(f"e{e}" for e in range(exercises)),
        alternatives=tuple(tuple(ways(e) for _ in range(people)) for e in range(exercises)),
        kit_counts=(4, 4, 4, 4),
        contact_limits=(30,) * people,
        low_hop_limits=(100,) * people,
        pattern=some(4),
        line=tuple(range(exercises)),
        jumping=tuple(e % 4 == 0 for e in range(exercises)),
        loaded=tuple(e % 3 > 0 for e in range(exercises)),
        combination=tuple(bool(n) for n in np.array(some(5)) == 0),
        push_pull=tuple(n - 1 for n in some(3)),
        knee_hip=tuple(n - 1 for n in some(3)),
        own_price=some(9),
        rules=SetRules(places=places, least_loaded=2, besides=(frozenset({1, 2, 4}),)),
        push_pull_before=1,
    )


def best_by_trying(table: SetTable) -> int | None:
    """Give the least price over every set that holds, each priced whole."""
    found = []
    for some in combinations(range(len(table.exercises)), table.rules.places):
        if table.holds(frozenset(some)):
            work = Work(100_000, 0, 0)
            together = joint_price([table.alternatives[e] for e in some], table, work, 1)
            if together.price is not None:
                found.append(together.price + table.set_price(frozenset(some)))
    return min(found, default=None)

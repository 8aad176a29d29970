"""A second yardstick: the same set model, native to CP-SAT, one worker.

Choices are exactly-one constraints that include 'the exercise is not chosen', kit and
contacts are linear, masses in hand and versions in the room are implied by the ways.
"""

from collections import defaultdict
from typing import Any

from ortools.sat.python import cp_model

from benchmarks.yardstick_highs import SetAnswer, worth_listing
from roundwright.optimise.planning.set_table import SetTable


def solve_with_cpsat(table: SetTable, limit_s: float = 120.0, seed: int = 1) -> SetAnswer:
    """Solve the single model."""
    model: Any = cp_model.CpModel()
    picks = [model.new_bool_var("") for _ in table.exercises]
    objective: list[Any] = [
        s * price for s, price in zip(picks, table.own_price, strict=True) if price
    ]
    for e, s in enumerate(picks):
        if not all(table.alternatives[e]):
            model.add(s == 0)
    objective += _set_rules(table, model, picks)
    objective += _people(table, model, picks)
    model.minimize(sum(objective) + table.fixed_price)
    solver: Any = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = seed
    solver.parameters.max_time_in_seconds = limit_s
    status = solver.solve(model)
    size = (len(model.proto.variables), len(model.proto.constraints))
    if status == cp_model.INFEASIBLE:
        return SetAnswer(None, float("inf"), True, frozenset(), *size)
    if status == cp_model.UNKNOWN:
        return SetAnswer(None, solver.best_objective_bound, False, frozenset(), *size)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        raise RuntimeError(f"CP-SAT ended with {solver.status_name(status)}")
    return SetAnswer(
        round(solver.objective_value),
        solver.best_objective_bound,
        status == cp_model.OPTIMAL,
        frozenset(e for e, s in enumerate(picks) if solver.value(s)),
        *size,
    )


def _set_rules(table: SetTable, model: Any, picks: list[Any]) -> list[Any]:
    rules, most = table.rules, table.most_held_against
    model.add(sum(picks) == rules.places)
    for e in rules.kept:
        model.add(picks[e] == 1)
    for line in set(table.line):
        model.add_at_most_one(s for e, s in enumerate(picks) if table.line[e] == line)
    for k in set(table.pattern):
        of_pattern = [s for e, s in enumerate(picks) if table.pattern[e] == k]
        model.add(sum(of_pattern) <= most["pattern", k])
    for name, marks in (("jumping", table.jumping), ("combination", table.combination)):
        marked = [s for s, mark in zip(picks, marks, strict=True) if mark]
        model.add(sum(marked) <= most[name, 0])
    loaded = [s for s, mark in zip(picks, table.loaded, strict=True) if mark]
    model.add(sum(loaded) >= most["loaded", 0])
    for need in rules.needs:
        model.add_bool_or(picks[e] for e in need)
    for shown in rules.besides:
        model.add_bool_or(~picks[e] for e in shown)
    prices = []
    for signs, before, price in (
        (table.push_pull, table.push_pull_before, table.prices.push_pull),
        (table.knee_hip, table.knee_hip_before, table.prices.knee_hip),
    ):
        balance = before + sum(sign * s for s, sign in zip(picks, signs, strict=True) if sign)
        apart = model.new_int_var(0, rules.places + abs(before), "")
        model.add(apart >= balance)
        model.add(apart >= -balance)
        prices.append(price * apart)
    if table.seconds_left is not None:
        seconds = sum(s * n for s, n in zip(picks, table.least_seconds, strict=True))
        model.add(seconds <= table.seconds_left)
    return prices


def _people(table: SetTable, model: Any, picks: list[Any]) -> list[Any]:
    prices, crowd = table.prices, range(len(table.people))
    objective: list[Any] = []
    contacts: list[list[Any]] = [[] for _ in crowd]
    hops: list[list[Any]] = [[] for _ in crowd]
    masses: list[dict[int, Any]] = [{} for _ in crowd]

    def take(p: int, way: Any, kit: dict[int, list[Any]]) -> Any:
        x = model.new_bool_var("")
        objective.append(way.price * x)
        if way.contacts:
            contacts[p].append(way.contacts * x)
        if way.low_hops:
            hops[p].append(way.low_hops * x)
        for item, units in way.kit:
            kit[item].append(units * x)
        return x

    for e, s in enumerate(picks):
        kit: dict[int, list[Any]] = defaultdict(list)
        shown: dict[int, Any] = {}
        for p in crowd:
            chosen = []
            for way in worth_listing(table.alternatives[e][p]):
                x = take(p, way, kit)
                chosen.append(x)
                for version in way.versions:
                    if version not in shown:
                        shown[version] = model.new_bool_var("")
                    model.add_implication(x, shown[version])
                if way.mass_g:
                    if way.mass_g not in masses[p]:
                        masses[p][way.mass_g] = model.new_bool_var("")
                    model.add_implication(x, masses[p][way.mass_g])
            model.add_exactly_one([*chosen, ~s])
        for item, terms in kit.items():
            model.add(sum(terms) <= table.kit_counts[item] * table.kit_factor)
        for free, price in (
            (1, prices.further_version),
            (prices.most_versions, prices.crowded_version),
        ):
            if len(shown) > free:
                beyond = model.new_int_var(0, len(shown) - free, "")
                model.add(beyond >= sum(shown.values()) - free)
                objective.append(price * beyond)
    in_burst: dict[int, list[Any]] = defaultdict(list)
    for p, ways in enumerate(table.burst):
        model.add_exactly_one(take(p, way, in_burst) for way in ways)
    for item, terms in in_burst.items():
        model.add(sum(terms) <= table.kit_counts[item])
    for p in crowd:
        if contacts[p]:
            model.add(sum(contacts[p]) <= table.contact_limits[p])
        if hops[p]:
            model.add(sum(hops[p]) <= table.low_hop_limits[p])
        if len(masses[p]) > 2:
            third = model.new_int_var(0, len(masses[p]) - 2, "")
            model.add(third >= sum(masses[p].values()) - 2)
            objective.append(prices.third_mass * third)
    return objective

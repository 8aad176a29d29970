"""Every rule of the gate in one place: which module holds it, and how grave it is."""

from collections.abc import Callable, Iterable

from roundwright.plan.gate import late
from roundwright.plan.gate.reading import Reading
from roundwright.plan.gate.rules import (
    bans,
    children,
    choice_of_exercises,
    clearance,
    company,
    coverage,
    demands,
    first_classes,
    floor_space,
    kit_fitness,
    kit_supply,
    landing_limits,
    levels,
    load_hints,
    load_safety,
    moderate_only,
    neighbours,
    order_in_class,
    pieces_of_class,
    readable,
    sides,
    slot,
    stand_ins,
    teaching_load,
    time_floors,
    true_handovers,
    true_timeline,
    work_and_rest,
)
from roundwright.plan.verdict import Finding, Grade

MODULES = (
    readable,
    demands,
    levels,
    clearance,
    moderate_only,
    first_classes,
    children,
    order_in_class,
    kit_fitness,
    load_safety,
    bans,
    sides,
    kit_supply,
    slot,
    floor_space,
    landing_limits,
    time_floors,
    true_timeline,
    pieces_of_class,
    true_handovers,
    load_hints,
    stand_ins,
    teaching_load,
    neighbours,
    choice_of_exercises,
    coverage,
    company,
    work_and_rest,
)

FINDERS: tuple[Callable[[Reading], Iterable[Finding]], ...] = tuple(m.find for m in MODULES)

GRADES: dict[str, Grade] = {
    rule: grade for m in (*MODULES, late) for rule, grade in m.GRADES.items()
}
"""Each rule and its grade; `slot.chance` is found from the facts stored with a plan."""

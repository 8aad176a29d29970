"""What a planning problem demands, as members that can be let go one at a time.

A member is a rule of the class's choice (P2), something the coach wants kept or banned,
a kind of kit, a limit over the class, or a person. `without` gives the question in which
some members are no longer demanded; the rules of choice are left to `class_rules`.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field

from roundwright.kit.inventory import Inventory
from roundwright.library.vocabulary import HIP, KNEE, PULL, PUSH, KitKind, Pattern
from roundwright.optimise.planning.exercise_facts import TRUNK, facts_of_exercise
from roundwright.plan.planning_problem import Candidate, PlanningProblem
from roundwright.plan.problem import Problem
from roundwright.plan.rule_table import Limit

NEEDS = {"knee": KNEE, "hip": HIP, "push": PUSH, "pull": PULL, "trunk": TRUNK}
"""What a class must hold, by the coach's word for it."""
PLENTY = 400
"""More units of any kit than a class can use (the most that a rack may be said to hold)."""
NO_LIMIT = 100_000
"""More landings or low hops than any class holds."""
PAIR = 2
"""Dumbbells of one mass that a person may hold: with so many, more only eases sharing."""

PEOPLE = ("persons",)
HALL = ("kit", "contacts", "low_hops", "burst", "kept")
CHOICE = (
    "besides",
    "beside_burst",
    "neighbours",
    "loaded_least",
    "combinations_cap",
    "accessories_cap",
    "line_cap",
    "jumping_cap",
    "same_line",
    "pattern_cap",
    "coverage",
    "places",
)
COACH = ("ban", "kept_exercise")
KINDS = (*PEOPLE, *HALL, *CHOICE, *COACH)
"""All kinds of members, those that are let go first being named least."""


@dataclass(frozen=True, slots=True, order=True)
class Member:
    """One thing that is demanded. `item` is an exercise, a pattern, a mass in g or an item id.

    `widens`: letting it go may give somebody options that they do not have now.
    """

    kind: str
    item: str = ""
    person: str = ""
    positions: tuple[int, ...] = ()
    figure: int = 0
    widens: bool = field(default=False, compare=False)


def members_of(planning: PlanningProblem) -> tuple[Member, ...]:
    """Give everything that a planning problem demands, in the order of `KINDS`."""
    made = [*_hall_members(planning.base), *_choice_members(planning)]
    made += [Member("ban", item=name, widens=True) for name in banned_names(planning.base)]
    made += [
        Member("kept_exercise", k.exercise_id, positions=(k.position,) if k.position else ())
        for k in planning.kept
    ]
    return tuple(sorted(made, key=lambda m: (KINDS.index(m.kind), m)))


def _hall_members(base: Problem) -> Iterator[Member]:
    yield from (Member("persons", person=p) for p in base.taking_part)
    masses: dict[int, int] = {}
    for d in base.kit.dumbbells:
        if d.in_use:
            masses[d.unit_mass_g] = masses.get(d.unit_mass_g, 0) + d.count
    for mass_g, count in masses.items():
        yield Member("kit", str(mass_g), figure=count, widens=count < PAIR)
    most = Counter[KitKind]()
    for need in (n for m in base.library.movements.values() for n in m.kit):
        most[need.item] = max(most[need.item], need.units)
    for item in base.kit.items:
        if item.in_use and item.room in (None, base.room.id) and item.kind is not KitKind.WALL:
            few = item.count < most[item.kind]
            yield Member("kit", item.id, figure=item.count, widens=few)
    yield from (Member(kind, widens=True) for kind in ("contacts", "low_hops"))
    if base.spec.burst is not None:
        yield Member("burst", base.spec.burst.line, widens=True)
    for keep in base.spec.keep:
        yield Member("kept", person=keep.person, positions=(keep.position,), widens=True)


def _choice_members(planning: PlanningProblem) -> Iterator[Member]:
    """Give the rules of choice that some set of these exercises could break."""
    rules, places = planning.base.rules, planning.places
    yield Member("places", figure=places)
    for name in NEEDS:
        least = rules.least_places_for_trunk if name == "trunk" else rules.least_places_for_four
        if places >= least:
            yield Member("coverage", name)
    names = {c.exercise_id for c in planning.candidates} | {k.exercise_id for k in planning.kept}
    facts = [facts_of_exercise(name, planning.base.library) for name in sorted(names)]
    patterns = Counter(f.pattern for f in facts)
    for pattern in Pattern:
        if patterns[pattern] > rules.most_of_a_pattern:
            yield Member("pattern_cap", pattern.value, figure=rules.most_of_a_pattern)
    if sum(f.jumping for f in facts) > rules.most_jumping:
        yield Member("jumping_cap", figure=rules.most_jumping)
    if sum(f.combination for f in facts) > rules.most_new_combinations:
        yield Member("combinations_cap", figure=rules.most_new_combinations)
    if sum(f.accessory for f in facts) > rules.most_accessories:
        yield Member("accessories_cap", figure=rules.most_accessories)
    held = Counter(line for f in facts for line in f.lines)
    if max(held.values(), default=0) > rules.most_of_a_line:
        yield Member("line_cap", figure=rules.most_of_a_line)
    if max(Counter(v for f in facts for v in f.versions).values(), default=0) > 1:
        yield Member("same_line")
    yield Member("loaded_least", figure=-(-places // 2))
    yield Member("neighbours")
    if planning.base.spec.burst is not None:
        yield Member("beside_burst", planning.base.spec.burst.line)
    if planning.besides:
        yield Member("besides", figure=len(planning.besides))


def banned_names(base: Problem) -> tuple[str, ...]:
    """Give what is banned by name: a banned line stands for its versions."""
    ban = base.spec.ban
    lines = [name for name in ban if name in base.library.lines]
    covered = {slug for name in lines for slug in base.library.lines[name].versions}
    return tuple(dict.fromkeys(n for n in ban if n in lines or n not in covered))


def without(planning: PlanningProblem, dropped: frozenset[Member]) -> PlanningProblem:
    """Give the question without some members; rules of choice among them stay as they are."""
    if not dropped:
        return planning
    gone: dict[str, set[str]] = {}
    for m in dropped:
        gone.setdefault(m.kind, set()).add(m.person if m.kind == "persons" else m.item)
    base = planning.base
    spec = base.spec.model_copy(
        update={
            "keep": tuple(
                k
                for k in base.spec.keep
                if Member("kept", person=k.person, positions=(k.position,)) not in dropped
            ),
            "ban": _still_banned(base, frozenset(gone.get("ban", ()))),
            "burst": None if "burst" in gone else base.spec.burst,
        }
    )
    changes: dict[str, object] = {
        "spec": spec,
        "people": {p: v for p, v in base.people.items() if p not in gone.get("persons", ())},
        "kit": with_plenty(base.kit, frozenset(gone.get("kit", ()))),
    }
    limits: dict[str, object] = {
        kind: tuple(_lifted(row) for row in getattr(base.rules, kind))
        for kind in ("contacts", "low_hops")
        if kind in gone
    }
    if limits:
        changes["rules"] = base.rules.model_copy(update=limits)
    freed = [k for k in planning.kept if k.exercise_id in gone.get("kept_exercise", ())]
    return planning.model_copy(
        update={
            "base": base.model_copy(update=changes),
            "kept": tuple(k for k in planning.kept if k not in freed),
            "candidates": planning.candidates
            + tuple(Candidate(exercise_id=k.exercise_id, count=k.count) for k in freed),
        }
    )


def _still_banned(base: Problem, freed: frozenset[str]) -> tuple[str, ...]:
    names = [n for n in banned_names(base) if n not in freed]
    left: dict[str, None] = {}
    for name in names:
        left[name] = None
        if name in base.library.lines:
            left |= dict.fromkeys(base.library.lines[name].versions)
    return tuple(left)


def _lifted(row: Limit) -> Limit:
    """Lift a limit over the class; nobody who may do none gets any."""
    return row if row.limit == 0 else row.model_copy(update={"limit": NO_LIMIT})


def with_plenty(kit: Inventory, names: frozenset[str]) -> Inventory:
    """Give the kit with more than enough of some masses (g, as text) and items."""
    return with_more(kit, dict.fromkeys(names, PLENTY))


def with_more(kit: Inventory, more: dict[str, int]) -> Inventory:
    """Give the kit with more units of some masses (g, as text) and items, at most `PLENTY`."""
    added: set[str] = set()

    def raised(name: str, count: int, in_use: bool) -> int:
        if name not in more or name in added or not in_use:
            return count
        added.add(name)
        return min(PLENTY, count + more[name])

    return Inventory(
        dumbbells=tuple(
            d.model_copy(update={"count": raised(str(d.unit_mass_g), d.count, d.in_use)})
            for d in kit.dumbbells
        ),
        items=tuple(
            i.model_copy(update={"count": raised(i.id, i.count, i.in_use)}) for i in kit.items
        ),
    )

"""Tries every class of a small question: all sets in all orders, fitted one by one.

Written from the pages of definition alone. `held` names what is still demanded, as a
clash names it; it is the judge of whether a clash is a smallest one.
"""

from collections import Counter
from collections.abc import Sequence
from itertools import permutations

from roundwright.body.anatomy import Muscle
from roundwright.library.catalogue import Catalogue
from roundwright.library.vocabulary import HIP, KNEE, PULL, PUSH, Pattern
from roundwright.optimise.fit import fit
from roundwright.plan.outcome import Clash, Status
from roundwright.plan.planning_problem import Candidate, PlanningProblem
from roundwright.plan.problem import Problem
from roundwright.plan.rule_table import Limit

PLAN_ID = "6a2c3a0e-8b1f-4c60-9d4e-2f50b0c7a111"
WANTED = {"knee": KNEE, "hip": HIP, "push": PUSH, "pull": PULL}


def pattern_of(library: Catalogue, exercise: str) -> Pattern:
    return library.versions(library.lines_of_exercise(exercise)[0])[0].pattern


def muscle_of(library: Catalogue, exercise: str) -> Muscle:
    combination = library.combinations.get(exercise)
    if combination and combination.main_muscle:
        return combination.main_muscle
    parts = combination.parts if combination else ()
    works: Counter[Muscle] = Counter()
    for line, times in [(p.line, p.times) for p in parts] or [(exercise, 1)]:
        for muscle, share in library.versions(line)[0].muscles.items():
            works[muscle] += round(share.share * 10_000) * times
    return min(works, key=lambda m: (-works[m], list(Muscle).index(m)))


def _jumps(library: Catalogue, exercise: str) -> bool:
    lines = library.lines_of_exercise(exercise)
    return any(m.contacts_a_rep for line in lines for m in library.versions(line))


def _lifts(library: Catalogue, exercise: str) -> bool:
    lines = library.lines_of_exercise(exercise)
    held = exercise not in library.combinations or library.combinations[exercise].load == "held"
    return held and any(m.dumbbells_lifted for line in lines for m in library.versions(line))


def _is_accessory(library: Catalogue, exercise: str) -> bool:
    if exercise in library.combinations or pattern_of(library, exercise).value.startswith("trunk"):
        return False
    versions = library.versions(exercise)
    usual = [m for m in versions if m.level <= 3][-1:] or versions[:1]
    return any(len(m.prime_movers) < 2 or m.pattern.value.startswith("elbow") for m in usual)


def _first(library: Catalogue, exercise: str) -> str:
    return library.lines_of_exercise(exercise)[0]


def _names(held: Sequence[Clash] | None, kind: str) -> set[str] | None:
    """Give the items of a kind that are held; None when everything is."""
    if held is None:
        return None
    return {str(c.figures.get("unit_mass_g", c.item)) for c in held if c.kind == kind}


def _may_stand(
    planning: PlanningProblem, order: tuple[str, ...], held: Sequence[Clash] | None
) -> bool:
    """Say whether an order of exercises holds what is demanded of a tool's choice."""
    base, places = planning.base, planning.places
    library, rules = base.library, base.rules
    kept = {k.exercise_id for k in planning.kept}
    new = [e for e in order if e not in kept]

    def demanded(kind: str, item: str = "") -> bool:
        return held is None or any(c.kind == kind and c.item == item for c in held)

    if not kept <= set(order):
        return False
    if any(k.position and order.index(k.exercise_id) + 1 != k.position for k in planning.kept):
        return False
    patterns = {e: pattern_of(library, e) for e in order}
    versions = {e: set(library.lines[library.lines_of_exercise(e)[0]].versions) for e in order}
    for e in new:
        if e in base.spec.ban or patterns[e] in (Pattern.CARDIO, Pattern.MOBILITY):
            return False
        if demanded("same_line") and any(versions[e] & versions[o] for o in order if o != e):
            return False
        lines = set(library.lines_of_exercise(e))
        for line in lines if demanded("line_cap") else ():
            if sum(line in library.lines_of_exercise(o) for o in order) > rules.most_of_a_line:
                return False
        alike = sum(patterns[o] is patterns[e] for o in order)
        if demanded("pattern_cap", patterns[e].value) and alike > rules.most_of_a_pattern:
            return False
    jumping = sum(_jumps(library, e) for e in order)
    crowded = jumping > rules.most_jumping and demanded("jumping_cap")
    if crowded and any(_jumps(library, e) for e in new):
        return False
    combined = sum(e in library.combinations for e in order)
    crowded = combined > rules.most_new_combinations and demanded("combinations_cap")
    if crowded and any(e in library.combinations for e in new):
        return False
    small = {e for e in order if _is_accessory(library, e)}
    crowded = len(small) > rules.most_accessories and demanded("accessories_cap")
    if crowded and small & set(new):
        return False
    wanted = {n: w for n, w in WANTED.items() if places >= rules.least_places_for_four}
    if places >= rules.least_places_for_trunk:
        wanted["trunk"] = frozenset(p for p in Pattern if p.value.startswith("trunk"))
    for name, some in wanted.items():
        covering = [
            p for e, p in patterns.items() if not _is_accessory(library, _first(library, e))
        ]
        missing = not any(p in some for p in covering)
        if missing and new and demanded("coverage", name):
            return False
    unloaded = [e for e in new if not _lifts(library, e)]
    few = sum(_lifts(library, e) for e in order) < (places + 1) // 2
    if few and unloaded and demanded("loaded_least"):
        return False
    if demanded("besides") and any(set(s) == set(order) for s in planning.besides):
        return False
    muscles = [muscle_of(library, e) for e in order]
    if demanded("neighbours"):
        for k in range(len(order) - 1):
            both_kept = order[k] in kept and order[k + 1] in kept
            if muscles[k] is muscles[k + 1] and not both_kept:
                return False
    if base.spec.burst is not None and demanded("beside_burst", base.spec.burst.line):
        burst = muscle_of(library, base.spec.burst.line)
        for end in (0, -1):
            if muscles[end] is burst and order[end] not in kept:
                return False
    return True


def _eased(planning: PlanningProblem, held: Sequence[Clash]) -> PlanningProblem:
    """Change the hall and the wish so that only what is held is demanded."""
    base, spec = planning.base, planning.base.spec
    people = {p for c in held if c.kind == "persons" for p in c.persons}
    kit, named = base.kit, _names(held, "kit") or set()
    masses = [
        d if str(d.unit_mass_g) in named else d.model_copy(update={"count": 300})
        for d in kit.dumbbells
    ]
    items = [i if i.id in named else i.model_copy(update={"count": 300}) for i in kit.items]
    many = (Limit(from_classes=0, limit=5000),)
    limits = {n: many for n in ("contacts", "low_hops") if n not in {c.kind for c in held}}
    cells = {(c.persons[0], c.positions[0]) for c in held if c.kind == "kept"}
    bans = _names(held, "ban") or set()
    banned = {b for n in bans for b in (n, *_own(base, n))}
    kept = _names(held, "kept_exercise") or set()
    freed = [k for k in planning.kept if k.exercise_id not in kept]
    spec = spec.model_copy(
        update={
            "burst": spec.burst if _names(held, "burst") else None,
            "keep": tuple(k for k in spec.keep if (k.person, k.position) in cells),
            "ban": tuple(b for b in spec.ban if b in banned),
        }
    )
    base = base.model_copy(
        update={
            "spec": spec,
            "people": {p: v for p, v in base.people.items() if p in people},
            "kit": kit.model_copy(update={"dumbbells": tuple(masses), "items": tuple(items)}),
            "rules": base.rules.model_copy(update=limits),
        }
    )
    more = tuple(Candidate(exercise_id=k.exercise_id, count=k.count) for k in freed)
    return planning.model_copy(
        update={
            "base": base,
            "kept": tuple(k for k in planning.kept if k.exercise_id in kept),
            "candidates": planning.candidates + more,
        }
    )


def _own(base: Problem, name: str) -> tuple[str, ...]:
    return base.library.lines[name].versions if name in base.library.lines else ()


def some_class(planning: PlanningProblem, held: Sequence[Clash] | None = None) -> bool:
    """Say whether some class holds what is held; None: everything that is asked."""
    asked = planning if held is None else _eased(planning, held)
    counts = {c.exercise_id: c for c in asked.candidates}
    counts |= {
        k.exercise_id: Candidate(exercise_id=k.exercise_id, count=k.count) for k in asked.kept
    }
    numbers: Sequence[int] = (planning.places,)
    if held is not None and all(c.kind != "places" for c in held):
        numbers = range(1, len(counts) + 1)
    for number in numbers:
        one = asked if number == planning.places else _demanding_as(asked, number)
        for order in permutations(sorted(counts), number):
            if _may_stand(one, order, held) and _can_be_fitted(one, [counts[e] for e in order]):
                return True
    return False


def _can_be_fitted(planning: PlanningProblem, order: Sequence[Candidate]) -> bool:
    if not planning.base.taking_part:
        return True
    for form in planning.formats:
        problem = planning.concrete(tuple(order), form, planning.base.spec.rounds)
        status = fit(problem, plan_id=PLAN_ID).outcome.status
        assert status is not Status.UNDECIDED
        if status is not Status.IMPOSSIBLE:
            return True
    return False


def _demanding_as(planning: PlanningProblem, number: int) -> PlanningProblem:
    """Give the question with another number of places, and coverage as it was asked."""
    rules = planning.base.rules
    names = ("least_places_for_four", "least_places_for_trunk")
    demanded = {n: 1 if planning.places >= getattr(rules, n) else 99 for n in names}
    base = planning.base.model_copy(update={"rules": rules.model_copy(update=demanded)})
    return planning.model_copy(update={"base": base, "places": number})

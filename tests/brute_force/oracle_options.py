"""Every option of one person at one place, and in the burst (sections 3 to 8)."""

from dataclasses import dataclass, replace

from roundwright.body.anatomy import Side
from roundwright.goals.class_wish import Count
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import HIP, KNEE, PULL, PUSH
from roundwright.plan.core import CellState
from roundwright.plan.problem import Problem
from tests.brute_force.oracle_allowed import (
    breaks_after_burst,
    breaks_last_place,
    bursts_of,
    movement_is_allowed,
)
from tests.brute_force.oracle_kit import Items, item_choices, lifts, masses_on_rack, units_held
from tests.brute_force.oracle_loads import (
    aim_bp,
    chance_if_allowed,
    held_back_price,
    load_price,
)
from tests.brute_force.oracle_people import (
    dosage,
    eased_row,
    general_level,
    level_of,
    own_counts,
    parts_of,
)
from tests.brute_force.oracle_versions import OneStep, Version, milli, total_count, versions_of


@dataclass(frozen=True)
class Doing:
    """A version with its mass and items, as done in some of the rounds."""

    version: Version
    mass_g: int
    items: Items

    @property
    def uses(self) -> dict[str, int]:
        """Units by item id, dumbbells as '@' and their mass in g."""
        used = dict(self.items)
        units = units_held(self.version.steps)
        if units:
            used[f"@{self.mass_g}"] = units
        return used


@dataclass(frozen=True)
class Option:
    """One way to do one place: the main version, perhaps a tail in the last round."""

    state: CellState
    main: Doing | None
    tail: Doing | None
    price: int
    could_lift: bool = False

    def in_round(self, round_number: int, all_rounds: int) -> Doing | None:
        if self.tail is not None and round_number == all_rounds:
            return self.tail
        return self.main


@dataclass(frozen=True)
class Burst:
    """A person's burst: version, items, and what it adds over the class."""

    movement_id: str | None
    items: Items
    contacts: int
    low_hops: int
    price: int


def equals_price(problem: Problem, exercise_id: str, version: Version) -> int:
    """Price of a line's version that has later ones of the same level."""
    if exercise_id not in problem.library.lines:
        return 0
    mine = version.steps[0].movement
    versions = problem.library.versions(exercise_id)
    later = versions[[m.slug for m in versions].index(mine.slug) + 1 :]
    return problem.costs.easier_of_equals * sum(m.level == mine.level for m in later)


def levels_above(problem: Problem, person_id: str, version: Version) -> int:
    person = problem.people[person_id]
    return max(s.movement.level - level_of(problem, person, s.movement) for s in version.steps)


def version_price(problem: Problem, person_id: str, version: Version) -> int:
    above = levels_above(problem, person_id, version)
    if above > 0:
        return problem.costs.version_above * above
    return problem.costs.version_below * -above


def _movements(version: Version) -> tuple[Movement, ...]:
    return tuple(s.movement for s in version.steps)


def _tails(
    problem: Problem, person_id: str, position: int, versions: list[Version], main: Doing
) -> list[Doing]:
    """The hardest lower version that may stand at the last place; by item ids."""
    person = problem.people[person_id]
    lower = [v for v in versions if v.hardness < main.version.hardness]
    for version in sorted(lower, key=lambda v: -v.hardness):
        mass = main.mass_g if units_held(version.steps) else 0
        if mass not in masses_on_rack(problem, version.steps):
            continue
        if chance_if_allowed(problem, person_id, version, mass) is None:
            continue
        if breaks_last_place(problem, person_id, position, _movements(version), mass):
            continue
        if breaks_after_burst(problem, person_id, position, _movements(version), mass):
            continue
        items = item_choices(problem, person, version.steps, mass)
        if items:
            return [Doing(version, mass, chosen) for chosen in items]
    return []


def _lands_within_limits(problem: Problem, person_id: str, main: Doing, tail: Doing | None) -> bool:
    """Whether the option alone keeps to the person's contacts and low hops over the class."""
    dose = dosage(problem, person_id)
    each = [main] * dose.rounds if tail is None else [*[main] * (dose.rounds - 1), tail]
    return (
        sum(d.version.contacts for d in each) <= dose.contact_limit
        and sum(d.version.low_hops for d in each) <= dose.low_hop_limit
    )


def options_of_exercise(
    problem: Problem,
    person_id: str,
    position: int,
    exercise_id: str,
    wish: Count,
    substitute: bool = False,
) -> list[Option]:
    """Options by sections 3, 4 and 7; a substitute has no tails."""
    person, rounds = problem.people[person_id], dosage(problem, person_id).rounds
    versions = versions_of(problem, person_id, exercise_id, wish)
    options = []
    could_lift = False
    for version in versions:
        allowed: list[tuple[Doing, Doing | None, int]] = []
        for mass in masses_on_rack(problem, version.steps):
            chance = chance_if_allowed(problem, person_id, version, mass)
            movements = _movements(version)
            if chance is None:
                continue
            if breaks_after_burst(problem, person_id, position, movements, mass):
                continue
            needs_tail = breaks_last_place(problem, person_id, position, movements, mass)
            if needs_tail and (substitute or rounds < 2):
                continue
            for items in item_choices(problem, person, version.steps, mass):
                main = Doing(version, mass, items)
                tails: list[Doing | None] = [None]
                if needs_tail:
                    tails = list(_tails(problem, person_id, position, versions, main))
                allowed += [
                    (main, tail, chance)
                    for tail in tails
                    if _lands_within_limits(problem, person_id, main, tail)
                ]
        aim = aim_bp(problem, person_id)
        target = max((main.mass_g for main, _, chance in allowed if chance >= aim), default=0)
        if lifts(version.steps) and any(chance >= aim for _, _, chance in allowed):
            on_the_ground = all(
                m.contacts_a_rep == m.low_hops_a_rep == 0 for m in _movements(version)
            )
            at_level = levels_above(problem, person_id, version) <= 0
            could_lift = could_lift or (on_the_ground and at_level)
        for main, tail, chance in allowed:
            price = load_price(problem, person_id, version, main.mass_g, chance, target)
            if substitute:
                price += problem.costs.substitute
            else:
                price += version_price(problem, person_id, version)
                price += equals_price(problem, exercise_id, version)
            if exercise_id in problem.library.combinations:
                price += held_back_price(problem, person_id, version, main.mass_g)
            state = CellState.SUBSTITUTE if substitute else CellState.DO
            options.append(Option(state, main, tail, price))
    if substitute or not could_lift or not _is_lifted_usually(problem, exercise_id):
        return options
    return [o if _lifts_something(o) else _of_nothing(o, problem.costs.unloaded) for o in options]


def _lifts_something(option: Option) -> bool:
    return option.main is None or lifts(option.main.version.steps)


def _of_nothing(option: Option, points: int) -> Option:
    return replace(option, price=option.price + points, could_lift=True)


def _is_lifted_usually(problem: Problem, exercise_id: str) -> bool:
    """Whether the main pattern is for knees, hips, a push or a pull."""
    main_line = parts_of(problem, exercise_id)[0].line
    return problem.library.versions(main_line)[0].pattern in KNEE | HIP | PUSH | PULL


def _substitutes(problem: Problem, person_id: str, position: int, wish: Count) -> list[Option]:
    exercise_id = problem.spec.exercises[position - 1].exercise_id
    own_lines = [part.line for part in parts_of(problem, exercise_id)]
    pattern = problem.library.versions(own_lines[0])[0].pattern
    others = [line for line in problem.substitutes if line not in own_lines]
    alike = [line for line in others if problem.library.versions(line)[0].pattern is pattern]
    for lines in (alike, others):
        found = [
            option
            for line in lines
            for option in options_of_exercise(
                problem, person_id, position, line, total_count(wish), substitute=True
            )
        ]
        if found:
            return found
    return [Option(CellState.SIT_OUT, None, None, problem.costs.sit_out)]


def _is_kept(option: Option, version: str | None, mass_g: int | None) -> bool:
    if option.main is None:
        return False
    holds = version is None or version in option.main.version.signature
    return holds and mass_g in (None, option.main.mass_g)


def _can_be_counted_whole(problem: Problem, exercise_id: str) -> bool:
    """Whether left and right of each line come to the same: then a whole count can stand for it."""
    parts = parts_of(problem, exercise_id)
    for line in {p.line for p in parts}:
        left, right = (
            sum(p.times for p in parts if p.line == line and p.side is side)
            for side in (Side.LEFT, Side.RIGHT)
        )
        if left != right:
            return False
    return True


def place_options(problem: Problem, person_id: str, position: int) -> list[Option]:
    """All options of a person at a place, substitutes and sitting out included, kept ones alone."""
    wish = own_counts(problem, person_id)[position - 1]
    exercise_id = problem.spec.exercises[position - 1].exercise_id
    keeps = [k for k in problem.spec.keep if (k.person, k.position) == (person_id, position)]
    if any(k.rests for k in keeps):
        return [Option(CellState.SIT_OUT, None, None, problem.costs.sit_out)]
    given = [k.instead for k in keeps if k.instead is not None]
    if given:
        options = []
        if _can_be_counted_whole(problem, given[0]):
            total = total_count(wish)
            options = options_of_exercise(
                problem, person_id, position, given[0], total, substitute=True
            )
    else:
        options = options_of_exercise(problem, person_id, position, exercise_id, wish)
        if not options:
            options = _substitutes(problem, person_id, position, wish)
    for keep in keeps:
        options = [o for o in options if _is_kept(o, keep.version, keep.mass_g)]
    harder = [
        o
        for o in options
        if o.main is not None and levels_above(problem, person_id, o.main.version) > 0
    ]
    if len(harder) < len(options):
        options = [o for o in options if o not in harder]
    whole = [o for o in options if o.main is None or not o.main.version.cut_short]
    return whole or options


def burst_options(problem: Problem, person_id: str) -> list[Burst]:
    """Every burst that the person may do; one empty burst where there is none."""
    wish, person = problem.spec.burst, problem.people[person_id]
    nothing = Burst(None, (), 0, 0, 0)
    row, bursts = eased_row(problem, person), bursts_of(problem, person_id)
    if wish is None or bursts == 0:
        return [nothing]
    dose = dosage(problem, person_id)
    easiest = person.is_moderate_only or (row is not None and row.easiest_burst)
    found: list[Burst] = []
    for movement in problem.library.versions(wish.line):
        if not movement_is_allowed(problem, person_id, wish.line, movement):
            continue
        if movement.level > level_of(problem, person, movement):
            continue
        if easiest and (movement.contacts_a_rep or movement.low_hops_a_rep):
            continue
        rate = movement.rate_a_min
        if movement.low_hops_a_rep > 0 and wish.rate_a_min is not None:
            rate = wish.rate_a_min
        if rate is None:
            reps = wish.length_s * 1000 // milli(movement.seconds_a_rep)
        else:
            reps = wish.length_s * rate // 60
        price = problem.costs.burst_below * (general_level(problem, person) - movement.level)
        steps = (OneStep(movement, Side.BOTH, 1),)
        ways = [
            Burst(
                movement.slug,
                items,
                bursts * reps * movement.contacts_a_rep,
                bursts * reps * movement.low_hops_a_rep,
                price,
            )
            for items in item_choices(problem, person, steps, 0)
        ]
        ways = [
            way
            for way in ways
            if way.contacts <= dose.contact_limit and way.low_hops <= dose.low_hop_limit
        ]
        found += ways
        if easiest and ways:
            break
    return found or [nothing]


def lifted_masses(options: tuple[Option, ...]) -> set[int]:
    """The distinct dumbbell masses that a person uses over the class."""
    return {
        doing.mass_g
        for option in options
        for doing in (option.main, option.tail)
        if doing is not None and doing.mass_g > 0
    }

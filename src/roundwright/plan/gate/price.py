"""What a plan costs in points: the gate's own sum over the named terms of the definition."""

from collections import Counter
from fractions import Fraction

from roundwright.foundation.quantities import BP
from roundwright.plan.core import CellState
from roundwright.plan.cost_table import CostLine
from roundwright.plan.gate.class_price import class_points
from roundwright.plan.gate.could_lift import lifts_needlessly_nothing
from roundwright.plan.gate.loads import (
    Demanded,
    aim_bp,
    assumed_mass_g,
    chance,
    lacking_shares,
    lifts,
    target_g,
)
from roundwright.plan.gate.people_limits import general_level, is_first_timer, level_for
from roundwright.plan.gate.reading import Reading, Work
from roundwright.plan.gate.recount import known_versions
from roundwright.plan.gate.tails import place_allows


def half_even(numerator: int, denominator: int) -> int:
    """Give a ratio of integers, denominator > 0, rounded half to even."""
    whole, rest = divmod(numerator, denominator)
    return whole + int(2 * rest > denominator or (2 * rest == denominator and whole % 2 == 1))


def asked_of(reading: Reading, work: Work) -> Demanded:
    """Give what a cell asks of the person's strength; worked out once a reading."""
    found = reading.asked.get(id(work))
    if found is None or found[0] is not work:
        asked = Demanded(reading.problem, work.person, work.listing, work.passes, work.last_round)
        found = reading.asked[id(work)] = (work, asked)
    return found[1]


def target_of(reading: Reading, work: Work) -> int | None:
    """Give the target mass of a person at a place, g; worked out once a reading."""
    found = reading.targets.get(id(work))
    if found is None or found[0] is not work:
        found = reading.targets[id(work)] = (work, _target_of(reading, work))
    return found[1]


def _target_of(reading: Reading, work: Work) -> int | None:
    wish = None
    if work.cell.state is CellState.DO:
        dose = reading.doses[work.person_id]
        counts = reading.own_counts(work.person_id, dose.dose_bp, work.rounds_done)
        wish = counts.get(work.position)
    return target_g(
        asked_of(reading, work), lambda mass: place_allows(reading.problem, work, wish, mass)
    )


def main_works(reading: Reading) -> list[Work]:
    """Give one cell for each person and place: the one of the earliest round."""
    first: dict[tuple[str, int], Work] = {}
    for work in reading.works:
        key = (work.person_id, work.position)
        if key not in first or work.rounds[0] < first[key].rounds[0]:
            first[key] = work
    return list(first.values())


def cost_lines(reading: Reading) -> tuple[CostLine, ...]:
    """Give every term of the price that is not zero, in order of name."""
    points: Counter[str] = Counter()
    for work in main_works(reading):
        _price_version(reading, work, points)
        _price_load(reading, work, points)
        if lifts_needlessly_nothing(reading, work):
            points["unloaded"] += reading.problem.costs.unloaded
        _price_held_back(reading, work, points)
    places = {(cell.person_id, cell.position) for cell in reading.sit_outs}
    places -= {(work.person_id, work.position) for work in reading.works}
    points["sit_out"] += reading.problem.costs.sit_out * len(places)
    _price_bursts(reading, points)
    _price_variety(reading, points)
    points.update(class_points(reading))
    return tuple(CostLine(term=t, points=points[t]) for t in sorted(points) if points[t])


def _price_version(reading: Reading, work: Work, points: Counter[str]) -> None:
    costs, rules = reading.problem.costs, reading.problem.rules
    if work.cell.state is CellState.SUBSTITUTE:
        points["substitute"] += costs.substitute
        return
    above = max(m.level - level_for(work.person, m, rules) for m in work.listing.movements)
    if work.listing.combination is None:
        points["easier_of_equals"] += costs.easier_of_equals * _later_equals(reading, work)
    if above > 0:
        points["version_above"] += costs.version_above * above
    else:
        points["version_below"] += costs.version_below * -above


def _later_equals(reading: Reading, work: Work) -> int:
    """Count the later versions of a line at the level of the one that is done."""
    done = work.listing.movements[0]
    versions = known_versions(reading.problem.library, work.exercise_id)
    at = next((i for i, m in enumerate(versions) if m.slug == done.slug), len(versions))
    return sum(m.level == done.level for m in versions[at + 1 :])


def _price_load(reading: Reading, work: Work, points: Counter[str]) -> None:
    costs, mass = reading.problem.costs, work.cell.unit_mass_g
    asked = asked_of(reading, work)
    aim, reached = aim_bp(work.person, reading.problem), chance(asked, mass)
    if reached < aim:
        points["load_over_base"] += costs.load_over_base
        points["load_over"] += half_even(costs.load_over * (aim - reached), BP)
        return
    lifted = lifts(work.listing)
    if not lifted or not mass:
        return
    if all(m.strength_family is None for m in lifted):
        authored = [assumed_mass_g(work.person, m, reading.problem) for m in lifted]
        target = min((a for a in authored if a is not None), default=None)
    else:
        target = target_of(reading, work)
    if target is not None and target > mass:
        points["load_short"] += half_even(costs.load_short * (target - mass), target)


def _price_held_back(reading: Reading, work: Work, points: Counter[str]) -> None:
    if work.listing.combination is None or work.cell.state is not CellState.DO:
        return
    shares = lacking_shares(asked_of(reading, work), work.cell.unit_mass_g)
    if shares:
        total = sum(shares, Fraction(0)) * reading.problem.costs.held_back / len(shares)
        points["held_back"] += half_even(total.numerator, total.denominator)


def _price_bursts(reading: Reading, points: Counter[str]) -> None:
    costs, rules = reading.problem.costs, reading.problem.rules
    for burst in reading.bursts:
        below = general_level(burst.person, rules) - burst.movement.level
        points["burst_below"] += costs.burst_below * max(0, below)


def _price_variety(reading: Reading, points: Counter[str]) -> None:
    costs, rules = reading.problem.costs, reading.problem.rules
    for position in reading.positions():
        count = versions_at(reading, position)
        points["further_version"] += costs.further_version * max(0, count - 1)
        points["crowded_version"] += costs.crowded_version * max(0, count - rules.most_versions)
    for person_id in reading.people:
        mine = {w.cell.unit_mass_g for w in reading.works if w.person_id == person_id} - {0}
        points["third_mass"] += costs.third_mass * max(0, len(mine) - 2)
    if reading.in_pairs:
        people = reading.people
        for group in reading.groups:
            new = [p for p in group if p in people and is_first_timer(people[p])]
            points["first_timer_pair"] += costs.first_timer_pair * (len(new) > 1)


def versions_at(reading: Reading, position: int) -> int:
    """Give how many different versions the room shows at a place; substitutes do not count."""
    return len(
        {
            w.listing.signature
            for w in reading.works
            if w.position == position and w.cell.state is CellState.DO
        }
    )

"""How a hall and one of its classes become the frozen question that a plan answers.

Dates, ages and limits are all judged on the class's date. What kit is usable
where is left to the maker and the gate: the problem holds all of it.
"""

from collections.abc import Mapping
from datetime import date, timedelta

from roundwright.foundation.errors import BadInputError, NotFoundError
from roundwright.foundation.faults import Fault
from roundwright.foundation.identifiers import nearest_names
from roundwright.foundation.instants import ages_on, instant_of
from roundwright.goals.class_wish import ClassWish, Count, CountUnit, Pace
from roundwright.hall.hall import Hall
from roundwright.kit.care import usable_kit
from roundwright.library.catalogue import Catalogue
from roundwright.library.vocabulary import Demand, Pattern
from roundwright.people.age_limits import age_concerns, likely_ages, with_age_limits
from roundwright.people.demand_caps import effective_limits
from roundwright.people.effective_clearance import effective_clearance, with_screen_limits
from roundwright.people.person import Person
from roundwright.people.strength_prior import body_mass_g, prior_capacities
from roundwright.plan.cost_table import CostTable
from roundwright.plan.piece_table import PIECE_LINES
from roundwright.plan.problem import ClassSpec, PlannedExercise, Problem, ProblemPerson
from roundwright.plan.rule_table import RuleTable

WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")


def build_problem(
    hall: Hall,
    class_id: str,
    on: date | None = None,
    rules: RuleTable | None = None,
    costs: CostTable | None = None,
) -> Problem:
    """Give the problem of one class of a hall.

    Parameters
    ----------
    hall : Hall
        A hall as read and checked.
    class_id : str
        The class's slug, which is its file's name.
    on : date, optional
        For a class that has a weekday: the earliest date it may be held on.
    rules, costs : optional
        Other figures than the shipped ones.

    Raises
    ------
    NotFoundError
        No such class in the hall; the nearest names are said.
    BadInputError
        A weekday without `on`, a room that is not there, or a local time that
        does not exist or is double on the class's date.
    """
    wish = hall.classes.get(class_id)
    if wish is None:
        raise NotFoundError(_no_class(hall, class_id))
    starts_on = class_date(wish, class_id, on)
    room = hall.room(wish.room)
    if room is None:
        known = tuple(r.id for r in hall.rooms)
        raise _bad(class_id, "name.unknown", "room", wish.room, nearest_names(wish.room, known))
    try:
        instant_of(starts_on, wish.start, hall.settings.time_zone)
    except ValueError as error:
        raise _bad(class_id, "field.time", "start", str(error)) from error
    rules = rules or RuleTable()
    substitutes = standing_in(hall.catalogue)
    used = {e.exercise for e in wish.exercise} | set(substitutes)
    used |= hall.catalogue.lines.keys() & set(PIECE_LINES)
    if wish.burst is not None:
        used.add(wish.burst.line)
    return Problem(
        spec=_spec(hall, wish, class_id, starts_on),
        people={
            p.person_id: problem_person(hall, p, starts_on, rules) for p in hall.people_of(wish)
        },
        kit=usable_kit(hall.kit, hall.inspections, starts_on),
        room=room,
        library=hall.catalogue.only(frozenset(used)),
        substitutes=substitutes,
        rules=rules,
        costs=costs or CostTable(),
    )


def class_date(wish: ClassWish, class_id: str, on: date | None) -> date:
    """Give the class's date: its own, else its weekday on or next after `on`."""
    if wish.on is not None:
        return wish.on
    if on is None or wish.weekday is None:
        raise _bad(
            class_id,
            "field.missing",
            "on",
            remedy=f"This class is held every {wish.weekday}: say on or after which date.",
        )
    return on + timedelta(days=(WEEKDAYS.index(wish.weekday) - on.weekday()) % 7)


def standing_in(catalogue: Catalogue) -> tuple[str, ...]:
    """Give the lines that may stand in for another exercise: all but cardio and mobility."""
    return tuple(
        line
        for line in sorted(catalogue.lines)
        if catalogue.versions(line)[0].pattern not in (Pattern.CARDIO, Pattern.MOBILITY)
    )


def problem_person(hall: Hall, person: Person, on: date, rules: RuleTable) -> ProblemPerson:
    """Give what planning may know of one person on a date: limits without their reasons."""
    screen, record = hall.screen_of(person.person_id), hall.clearance_of(person.person_id)
    given = effective_clearance(person, screen, record, on)
    rows = with_screen_limits(hall.limitations_of(person.person_id), screen, on)
    ages = ages_on(person.birth_year, on) if person.birth_year else None
    youngest, oldest = likely_ages(ages, rows, rules.child_age, rules.old_age, on)
    concerns = age_concerns(ages, rules.child_age, rules.old_age)
    limits = effective_limits(with_age_limits(rows, person.person_id, concerns, on), on)
    is_child = youngest is not None and youngest < rules.child_age
    mass_g, assumed = body_mass_g(person)
    away = (on - person.last_class_on).days if person.last_class_on else None
    return ProblemPerson(
        level=person.level or 1,
        level_by_family=dict(person.level_by_family),
        classes_done=person.classes_done,
        days_since_last=away if away is None or away >= 0 else None,
        youngest_age=youngest,
        oldest_age=oldest,
        body_mass_g=mass_g,
        body_mass_assumed=assumed,
        clearance=given.clearance,
        effort_only=given.effort_only,
        caps=_least_caps(limits.caps, given.caps),
        effort_cap=min((e for e in (limits.effort_cap, given.effort_cap) if e), default=None),
        first_side=limits.first_side,
        unused=limits.unused,
        capacities=() if is_child else prior_capacities(person, on),
        actions=tuple(dict.fromkeys((*limits.actions, *given.actions))),
    )


def _least_caps(one: Mapping[Demand, int], other: Mapping[Demand, int]) -> dict[Demand, int]:
    found = dict(one)
    for demand, degree in other.items():
        found[demand] = min(degree, found.get(demand, degree))
    return dict(sorted(found.items()))


def _spec(hall: Hall, wish: ClassWish, class_id: str, starts_on: date) -> ClassSpec:
    return ClassSpec(
        class_id=class_id,
        name=wish.name,
        starts_on=starts_on,
        starts_at_local=wish.start,
        time_zone=hall.settings.time_zone,
        slot_s=wish.slot_s,
        room_id=wish.room,
        format=wish.format,
        groups=wish.groups,
        coaches=wish.coaches,
        rounds=wish.rounds,
        pace=wish.pace,
        change_s=wish.change_s,
        side_change_s=wish.side_change_s,
        partner_swap_s=wish.partner_swap_s,
        rest_s=wish.rest_s,
        burst=wish.burst,
        after_last_round=wish.after_last_round,
        warm_up_s=wish.warm_up_s,
        demonstration_s=wish.demonstration_s,
        cool_down_s=wish.cool_down_s,
        exercises=tuple(
            PlannedExercise(
                position=position,
                exercise_id=entry.exercise,
                count=entry.count or _default_count(wish, class_id, position),
            )
            for position, entry in enumerate(wish.exercise, start=1)
        ),
        keep=wish.keep,
        ban=_banned_versions(hall.catalogue, wish.ban),
        chance_on_time_bp=wish.chance_on_time_pct * 100,
        reps_left=wish.reps_left,
    )


def _default_count(wish: ClassWish, class_id: str, position: int) -> Count:
    if wish.pace is Pace.TIMED and wish.work_s is not None:
        return Count(value=wish.work_s, unit=CountUnit.SECONDS)
    raise _bad(class_id, "field.missing", f"exercise {position}: count")


def _banned_versions(catalogue: Catalogue, ban: tuple[str, ...]) -> tuple[str, ...]:
    """Give the versions that are banned; a banned line bans all of its versions."""
    names: dict[str, None] = {}
    for name in ban:
        versions = catalogue.lines[name].versions if name in catalogue.lines else ()
        names |= dict.fromkeys((name,) if name in catalogue.movements else versions)
        names |= dict.fromkeys(versions)
    return tuple(names)


def _no_class(hall: Hall, class_id: str) -> str:
    known = tuple(hall.classes)
    near = nearest_names(class_id, known) or tuple(sorted(known))
    listed = f" Nearest: {', '.join(near)}." if near else " The hall has no classes."
    return f"There is no class '{class_id}' in this hall.{listed}"


def _bad(
    class_id: str,
    code: str,
    field: str,
    value: str = "",
    nearest: tuple[str, ...] = (),
    remedy: str = "",
) -> BadInputError:
    fault = Fault(
        code=code,
        file=f"classes/{class_id}.toml",
        field=field,
        value=value,
        nearest=nearest,
        remedy=remedy,
    )
    return BadInputError([fault])

"""What the tests of quick entry share: Tern Quay Hall's rooms and people, and drawn wishes."""

from datetime import date, time
from functools import cache

from hypothesis import strategies as st

from roundwright.body.anatomy import Side
from roundwright.bootstrap.shipped_library import shipped_catalogue
from roundwright.goals.class_wish import (
    AfterLastRound,
    BurstWish,
    ClassFormat,
    ClassWish,
    Count,
    CountUnit,
    ExerciseWish,
    KeptCell,
    Pace,
    WorkRestWish,
)
from roundwright.goals.quick_entry.names import Around
from roundwright.library.vocabulary import Laterality

IN_GROUPS = (ClassFormat.STATIONS, ClassFormat.STAGGERED)
DAYS = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"]
ROOMS = {"main_hall": "Main hall", "quay_room": "Quay room, upstairs"}
PEOPLE = {
    "p1": "Ann",
    "p2": "Bo Reed",
    "p3": "Cid",
    "p4": "Cid",
    "p5": "Joan-Marie",
    "p6": "And at",
}


@cache
def around() -> Around:
    """Give what may be named: the shipped library and a small hall."""
    return Around(shipped_catalogue(), ROOMS, PEOPLE)


def entered(*lines: str) -> str:
    """Give a whole class in which some lines stand."""
    return "\n".join(("Tuesday 18:30, 45 minutes, main hall", "3 rounds", *lines))


@st.composite
def counts(draw: st.DrawFn, exercise: str, *, timed: bool) -> Count:
    """Draw a count that makes sense for an exercise."""
    units = _units(exercise, timed)
    unit = draw(st.sampled_from(units))
    value = draw(st.integers(1, 600))
    even = unit is CountUnit.REPS_ALTERNATING
    return Count(value=max(2, value - value % 2) if even else value, unit=unit)


def _units(exercise: str, timed: bool) -> list[CountUnit]:
    catalogue = around().catalogue
    combination = catalogue.combinations.get(exercise)
    whole, a_side = (
        (CountUnit.SECONDS, CountUnit.SECONDS_PER_SIDE)
        if timed
        else (CountUnit.REPS, CountUnit.REPS_PER_SIDE)
    )
    if combination is None:
        versions = catalogue.versions(exercise)
        if all(v.laterality is Laterality.BILATERAL for v in versions):
            return [whole]
        return [whole, a_side] if timed else [whole, a_side, CountUnit.REPS_ALTERNATING]
    sides = [part.side for part in combination.parts]
    is_even = sides.count(Side.LEFT) == sides.count(Side.RIGHT)
    return [whole] * is_even + [a_side] * (set(sides) != {Side.BOTH})


@st.composite
def wishes(draw: st.DrawFn) -> ClassWish:
    """Draw a class as a coach may want it, of everything that the words can say."""
    catalogue, timed = around().catalogue, draw(st.booleans())
    every = sorted({*catalogue.lines, *catalogue.combinations})
    names = draw(st.lists(st.sampled_from(every), min_size=1, max_size=6, unique=True))
    is_open, free = draw(st.booleans()), draw(st.booleans())
    places = len(names) + draw(st.integers(1, 3)) if is_open else None
    exercise = []
    for n, name in enumerate(names):
        counted = draw(st.booleans()) if timed or is_open else True
        exercise.append(
            ExerciseWish(
                exercise=name,
                count=draw(counts(name, timed=timed or draw(st.booleans()))) if counted else None,
                position=n + 1 if is_open and not free and draw(st.booleans()) else None,
            )
        )
    standing = {e.position if is_open else n: e.exercise for n, e in enumerate(exercise, start=1)}
    standing.pop(None, None)
    people = draw(
        st.just("all") | st.lists(st.sampled_from(sorted(PEOPLE)), min_size=1, unique=True)
    )
    kept = draw(_kept(standing, people)) if standing else ()
    on = draw(st.none() | st.dates(date(2020, 1, 1), date(2035, 12, 31)))
    rounds = draw(st.lists(st.integers(1, 10), min_size=1, max_size=4, unique=True))
    chosen = (
        [WorkRestWish.OWN, WorkRestWish.ANY, WorkRestWish.HEAVIER] if timed else [WorkRestWish.OWN]
    )
    seconds = st.integers(0, 60)
    form = draw(st.sampled_from(ClassFormat))
    return ClassWish.model_validate(
        {
            "name": draw(st.sampled_from(["Tuesday circuit", "Legs, then 3 rounds", "no jumps"])),
            "on": on,
            "weekday": draw(st.sampled_from(DAYS)) if on is None else None,
            "start": draw(st.builds(time, st.integers(0, 23), st.integers(0, 59))),
            "slot": draw(st.integers(60, 4 * 3600)),
            "room": draw(st.sampled_from(sorted(ROOMS))),
            "people": people if people == "all" else tuple(people),
            "goal": draw(st.sampled_from(["", "Whole body, all levels; easy"])),
            "format": form,
            "groups": draw(st.none() | st.integers(2, 4)) if form in IN_GROUPS else None,
            "coaches": draw(st.integers(1, 10)),
            "rounds": rounds[0],
            "rounds_choice": tuple(rounds[1:]),
            "places": places,
            "pace": Pace.TIMED if timed else Pace.COUNTED,
            "work": draw(st.integers(1, 600)) if timed else None,
            "work_rest": draw(st.sampled_from(chosen)),
            "change": draw(st.integers(0, 600)),
            "side_change": draw(seconds),
            "partner_swap": draw(seconds),
            "rest": draw(st.integers(0, 900)),
            "burst": draw(st.none() | _bursts()),
            "after_last_round": draw(st.sampled_from(AfterLastRound)),
            "warm_up": draw(st.integers(0, 3600)),
            "demonstration": draw(st.integers(0, 3600)),
            "cool_down": draw(st.integers(0, 3600)),
            "order": "free" if is_open and free else "as_given",
            "exercise": tuple(exercise),
            "keep": kept,
            "ban": tuple(sorted(draw(_bans()))),
            "reps_left": draw(st.none() | st.integers(0, 6)),
            "chance_on_time_pct": draw(st.integers(1, 99)),
        }
    )


def _bursts() -> st.SearchStrategy[BurstWish]:
    lines = st.sampled_from(sorted(around().catalogue.lines))
    rate = st.none() | st.integers(1, 300)
    made = st.fixed_dictionaries({"line": lines, "length": st.integers(1, 600), "rate_a_min": rate})
    return made.map(BurstWish.model_validate)


def _bans() -> st.SearchStrategy[set[str]]:
    catalogue = around().catalogue
    return st.sets(st.sampled_from(sorted({*catalogue.lines, *catalogue.movements})), max_size=4)


@st.composite
def _kept(
    draw: st.DrawFn, standing: dict[int, str], people: str | list[str]
) -> tuple[KeptCell, ...]:
    catalogue, cells = around().catalogue, []
    for position in draw(st.lists(st.sampled_from(sorted(standing)), max_size=2, unique=True)):
        lines = catalogue.lines_of_exercise(standing[position])
        versions = sorted({v for line in lines for v in catalogue.lines[line].versions})
        mass = st.integers(1, 60_000)
        said = draw(
            st.one_of(
                st.just({"rests": True}),
                st.fixed_dictionaries({"instead": st.sampled_from(sorted(catalogue.lines))}),
                st.fixed_dictionaries(
                    {"version": st.sampled_from(versions)}, optional={"mass": mass}
                ),
                st.fixed_dictionaries({"mass": mass}),
            )
        )
        person = draw(st.sampled_from(sorted(PEOPLE) if people == "all" else people))
        cells.append(KeptCell.model_validate({"person": person, "position": position, **said}))
    return tuple(cells)

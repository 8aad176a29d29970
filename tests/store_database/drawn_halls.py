"""Whole halls that are drawn: settings, rooms, kit, people, limitations, classes, own texts."""

from datetime import date, time, timedelta

from hypothesis import strategies as st

from roundwright.goals.class_wish import ClassWish, Count, CountUnit, ExerciseWish, KeptCell
from roundwright.hall.hall import Hall, HallSettings, Paper, Units
from roundwright.hall.hall_text import read_hall_texts
from roundwright.hall.written_hall import written_hall
from roundwright.kit.inventory import Dumbbells, Inventory, KitItem, Room
from roundwright.library.vocabulary import KitKind, StrengthFamily
from roundwright.people.limitation import (
    WITH_WEEKS,
    Amount,
    Concern,
    Limitation,
    LimitedSide,
    SetBy,
)
from roundwright.people.person import Clearance, Person, Sex
from tests.store_database.a_kept_hall import LIBRARY
from tests.support.random_halls import Dice

SEEDS = st.integers(min_value=0, max_value=100_000)
NAMES = ("Maren T", "Sunny, L", 'Ivo "K"', "Zoë Ångström", "O'Hara", "=1+1", "Ли", "a;b")
DAY = date(2026, 1, 5)


def a_drawn_hall(seed: int) -> Hall:
    """Draw a hall as its folder would be read: in the one form that is written."""
    dice = Dice(seed, "whole hall")
    ids = [f"p{n:03d}" for n in sorted(dice.some_of(range(1, 60), dice.between(1, 7)))]
    rooms = tuple(_room(dice, name) for name in dice.some_of(("main_floor", "annexe"), 2))
    kit = Inventory(
        dumbbells=tuple(
            Dumbbells(unit_mass_g=mass, count=dice.between(1, 8), flat_sided=dice.one_of((0, 1)))
            for mass in dice.some_of((2500, 4000, 8000, 9072, 12_000), dice.between(1, 4))
        ),
        items=tuple(
            KitItem(id=name, kind=kind, count=dice.between(0, 9), label=dice.one_of(("", "red")))
            for name, kind in dice.some_of(
                (("rope", KitKind.ROPE), ("mat", KitKind.MAT), ("band", KitKind.BAND)), 2
            )
        ),
    )
    slugs = dice.some_of(("tuesday", "friday", "sunday_early"), dice.between(0, 3))
    hall = Hall(
        settings=HallSettings(
            name=dice.one_of(NAMES),
            time_zone=dice.one_of(("Europe/London", "Asia/Tokyo")),
            units=dice.one_of(tuple(Units)),
            paper=dice.one_of(tuple(Paper)),
        ),
        rooms=rooms,
        kit=kit,
        people=tuple(_person(dice, one) for one in ids),
        limitations=_limitations(dice, ids),
        classes={slug: _class(dice, ids, rooms[0].id, kit) for slug in slugs},
        catalogue=LIBRARY,
    )
    return read_hall_texts(written_hall(hall), LIBRARY)


def _room(dice: Dice, name: str) -> Room:
    return Room(
        id=name,
        name=dice.one_of(NAMES),
        length=dice.between(4000, 30_000),
        width=dice.between(4000, 20_000),
        height=dice.one_of((None, 3100)),
        space_a_person=dice.one_of((4.65, 5.0, 3.25)),
        emergency=tuple(dice.some_of(("12 Quay Road", "North door", "Desk"), dice.between(0, 3))),
    )


def _person(dice: Dice, person_id: str) -> Person:
    return Person(
        person_id=person_id,
        shown_name=dice.one_of(NAMES),
        birth_year=dice.one_of((None, 1950, 1999)),
        sex=dice.one_of(tuple(Sex)),
        body_mass_g=dice.one_of((None, 62_500, 81_000)),
        height_mm=dice.one_of((None, 1655)),
        level=dice.one_of((None, 1, 4)),
        level_by_family={dice.one_of(tuple(StrengthFamily)): 2} if dice.between(0, 1) else {},
        classes_done=dice.one_of((None, 0, 12)),
        last_class_on=dice.one_of((None, DAY)),
        clearance=dice.one_of(tuple(Clearance)),
        effort_only=bool(dice.between(0, 1)),
        usual_chance_pct=dice.one_of((None, 70)),
        own_kit=dice.one_of(("", "band, mat")),
    )


def _limitations(dice: Dice, ids: list[str]) -> tuple[Limitation, ...]:
    rows: list[Limitation] = []
    for _ in range(dice.between(0, 6)):
        concern = dice.one_of(tuple(Concern))
        row = Limitation(
            person_id=dice.one_of(ids),
            concern=concern,
            side=dice.one_of(tuple(LimitedSide)),
            amount=dice.one_of(tuple(Amount)),
            from_on=DAY + timedelta(days=dice.between(0, 60)),
            until_on=dice.one_of((None, DAY + timedelta(days=90))),
            weeks=dice.between(1, 30) if concern in WITH_WEEKS else None,
            set_by=dice.one_of(tuple(SetBy)),
        )
        rows += [] if row in rows else [row]
    return tuple(rows)


def _class(dice: Dice, ids: list[str], room: str, kit: Inventory) -> ClassWish:
    who = dice.some_of(ids, dice.between(1, len(ids)))
    line = dice.one_of(tuple(LIBRARY.lines))
    cell = KeptCell(person=who[0], position=1, mass_g=kit.dumbbells[0].unit_mass_g)
    return ClassWish(
        name=dice.one_of(NAMES),
        weekday=dice.one_of(("tuesday", "sunday")),
        start=time(18, dice.between(0, 59)),
        slot_s=60 * dice.between(20, 60),
        room=room,
        people=dice.one_of(("all", tuple(who))),
        rounds=dice.between(1, 3),
        rounds_choice=dice.one_of(((), (2, 3))),
        exercise=(ExerciseWish(exercise=line, count=Count(value=8, unit=CountUnit.REPS)),),
        keep=dice.one_of(((), (cell,))),
        chance_on_time_pct=dice.between(50, 99),
    )

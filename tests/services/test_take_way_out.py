"""A way out taken gives a class that can be planned, for each kind that can be pressed."""

import pytest

from roundwright.goals.class_wish import ClassWish
from roundwright.plan.outcome import WayOut
from roundwright.services.take_way_out import may_be_taken, wish_after


def _wish(**more: object) -> ClassWish:
    values = {
        "name": "Quay",
        "weekday": "monday",
        "start": "18:00",
        "slot": 2700,
        "room": "main_floor",
        "rounds": 3,
        "rest": 90,
        "change": 20,
        "burst": {"line": "bursts", "length": 40},
        "ban": ["planks"],
        "exercise": [{"exercise": "squats", "position": 1}, {"exercise": "rows", "position": 2}],
        "keep": [{"person": "p001", "position": 2, "version": "bent_over_row"}],
    }
    return ClassWish.model_validate(values | more)


@pytest.mark.parametrize(
    ("way", "changed"),
    [
        (WayOut(kind="longer_slot", figures={"minutes": 5}), {"slot_s": 3000}),
        (WayOut(kind="round_less", figures={"rounds": 2}), {"rounds": 2}),
        (WayOut(kind="shorter_rest", figures={"rest_s": 60}), {"rest_s": 60}),
        (WayOut(kind="faster_change", figures={"change_s": 12}), {"change_s": 12}),
        (WayOut(kind="no_burst"), {"burst": None}),
        (WayOut(kind="drop_ban", item="planks"), {"ban": ()}),
        (WayOut(kind="fewer_places", figures={"places": 1}), {"places": 1}),
        (WayOut(kind="let_go_cell", persons=("p001",), positions=(2,)), {"keep": ()}),
    ],
)
def test_one_change_changes_what_it_says_and_nothing_else(
    way: WayOut, changed: dict[str, object]
) -> None:
    was, now = _wish(), wish_after(_wish(), way)
    assert now is not None
    assert may_be_taken(way)
    assert now == was.model_copy(update=changed)


def test_exercises_are_let_go_moved_and_left_out() -> None:
    gone = wish_after(_wish(), WayOut(kind="let_go_kept", item="squats"))
    assert gone is not None
    assert ([e.exercise for e in gone.exercise], gone.places) == (["rows"], 2)
    free = wish_after(_wish(), WayOut(kind="free_place", item="squats", positions=(1,)))
    assert free is not None
    assert [e.position for e in free.exercise] == [None, 2]
    out = wish_after(
        _wish(exercise=[{"exercise": "squats"}, {"exercise": "rows"}]),
        WayOut(kind="leave_out", item="squats", positions=(1,)),
    )
    assert out is not None
    assert [(k.person, k.position) for k in out.keep] == [("p001", 1)]


def test_several_are_taken_together_or_not_at_all() -> None:
    both = WayOut(
        kind="several",
        parts=(WayOut(kind="no_burst"), WayOut(kind="round_less", figures={"rounds": 2})),
    )
    now = wish_after(_wish(), both)
    assert now is not None
    assert (now.burst, now.rounds) == (None, 2)
    bought = both.model_copy(update={"parts": (*both.parts, WayOut(kind="more_kit", item="x"))})
    assert not may_be_taken(bought)
    assert wish_after(_wish(), bought) is None
    assert wish_after(_wish(), WayOut(kind="let_go_kept", item="lunges")) is None

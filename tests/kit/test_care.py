"""What is quarantined is out of use until it is signed back: whole entries, pieces, dumbbells."""

from collections import Counter
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from roundwright.demo.tern_quay import demo_hall_folder
from roundwright.hall.hall import Hall
from roundwright.interface import fit, read_hall
from roundwright.kit.care import (
    KitInspection,
    KitKey,
    KitState,
    OutOfUse,
    inspections_due,
    out_of_use,
    usable_kit,
)
from roundwright.kit.inventory import Inventory
from roundwright.plan.build_problem import build_problem
from roundwright.plan.core import Core
from roundwright.plan.gate.judge import judge
from roundwright.plan.verdict import Grade

DAY = date(2026, 3, 2)
QUARANTINED, OK = KitState.QUARANTINED, KitState.OK
KIT = Inventory.model_validate(
    {
        "dumbbells": [{"mass": 8000, "count": 6}, {"mass": 4000, "count": 0}],
        "items": [
            {"id": "band", "kind": "band", "count": 8},
            {"id": "old_box", "kind": "box", "count": 2, "in_use": False},
        ],
    }
)
ENTRIES: tuple[KitKey, ...] = (8000, 4000, 12_000, "band", "old_box", "gone")


def row(entry: KitKey, day: int, state: KitState, units: int | None = None) -> KitInspection:
    which = {"mass_g": entry} if isinstance(entry, int) else {"item": entry}
    on = DAY + timedelta(days=day)
    return KitInspection(**which, on=on, by="A name", state=state, units=units)  # type: ignore[arg-type]


def left(kit: Inventory) -> dict[KitKey, int]:
    found: dict[KitKey, int] = {d.unit_mass_g: d.count if d.in_use else 0 for d in kit.dumbbells}
    return found | {i.id: i.count if i.in_use else 0 for i in kit.items}


rows = st.lists(
    st.builds(
        row,
        st.sampled_from(ENTRIES),
        st.integers(-3, 3),
        st.sampled_from(KitState),
        st.none() | st.integers(1, 9),
    ),
    max_size=8,
)
a_quarantine = st.builds(
    row,
    st.sampled_from(ENTRIES),
    st.integers(-3, 3),
    st.just(QUARANTINED),
    st.none() | st.integers(1, 9),
)


def test_a_whole_item_is_out_until_it_is_signed_back() -> None:
    out, ok = row("band", 0, QUARANTINED), row("band", 3, OK)
    assert out_of_use(KIT, [ok, out], DAY + timedelta(days=2)) == {"band": OutOfUse(8, DAY)}
    assert out_of_use(KIT, [ok, out], DAY + timedelta(days=3)) == {}
    assert left(usable_kit(KIT, [out], DAY))["band"] == 0
    again = row("band", 3, QUARANTINED)
    since = DAY + timedelta(days=3)
    assert out_of_use(KIT, [again, ok], DAY + timedelta(days=9)) == {"band": OutOfUse(8, since)}


def test_pieces_add_up_and_come_back_one_by_one() -> None:
    said = [row(8000, 0, QUARANTINED, 2), row(8000, 1, QUARANTINED), row(8000, 2, OK, 5)]
    assert [
        left(usable_kit(KIT, said[:number], DAY + timedelta(days=9)))[8000] for number in range(4)
    ] == [6, 4, 0, 5]
    assert out_of_use(KIT, said, DAY + timedelta(days=9)) == {8000: OutOfUse(1, DAY)}
    assert left(usable_kit(KIT, [*said, row(8000, 3, OK)], DAY + timedelta(days=9))) == left(KIT)


def test_bought_since_pieces_stay_in_use_only_where_pieces_were_named() -> None:
    more = KIT.model_copy(
        update={"items": (KIT.items[0].model_copy(update={"count": 12}), KIT.items[1])}
    )
    assert left(usable_kit(more, [row("band", 0, QUARANTINED, 8)], DAY))["band"] == 4
    assert left(usable_kit(more, [row("band", 0, QUARANTINED)], DAY))["band"] == 0


@given(rows, st.integers(-3, 3))
def test_never_more_than_owned_and_nothing_else_is_changed(
    said: list[KitInspection], day: int
) -> None:
    usable = usable_kit(KIT, said, DAY + timedelta(days=day))
    owned = left(KIT)
    assert all(0 <= number <= owned[entry] for entry, number in left(usable).items())
    untouched = set(left(usable)) - {one.entry for one in said if one.state is QUARANTINED}
    assert all(left(usable)[entry] == owned[entry] for entry in untouched)


@given(rows, a_quarantine, st.integers(0, 8), st.integers(-3, 3))
def test_never_more_after_a_quarantine(
    said: list[KitInspection], more: KitInspection, place: int, day: int
) -> None:
    on = DAY + timedelta(days=day)
    before = left(usable_kit(KIT, said, on))
    after = left(usable_kit(KIT, [*said[:place], more, *said[place:]], on))
    assert all(after[entry] <= before[entry] for entry in before)


@given(rows, st.sampled_from(ENTRIES), st.integers(1, 9))
def test_a_sign_back_gives_back_at_most_what_it_names(
    said: list[KitInspection], entry: KitKey, units: int
) -> None:
    on = DAY + timedelta(days=9)
    before = left(usable_kit(KIT, said, on))
    after = left(usable_kit(KIT, [*said, row(entry, 9, OK, units)], on))
    for key, number in after.items():
        assert before[key] <= number <= before[key] + (units if key == entry else 0)


def test_the_next_look_is_due_by_its_day() -> None:
    due = [
        row("band", 0, OK).model_copy(update={"next_on": DAY + timedelta(days=30)}),
        row(8000, 0, OK).model_copy(update={"next_on": DAY + timedelta(days=30)}),
    ]
    assert inspections_due(due, DAY + timedelta(days=29)) == ()
    assert inspections_due(due, DAY + timedelta(days=30)) == (8000, "band")


@pytest.mark.parametrize("which", [{}, {"item": "band", "mass_g": 8000}])
def test_an_inspection_is_about_one_entry(which: dict[str, object]) -> None:
    with pytest.raises(ValidationError, match="an item or a mass"):
        KitInspection(**which, on=DAY, by="A name", state=OK)  # type: ignore[arg-type]


def _most_held(core: Core) -> Counter[int]:
    """Give the most dumbbells of each mass that are held at once, all together."""
    most: Counter[int] = Counter()
    rounds = range(1, core.class_.rounds + 1)
    for position, number in {(cell.position, n) for cell in core.cells for n in rounds}:
        held: Counter[int] = Counter()
        for cell in core.cells:
            here = cell.position == position and cell.round in (0, number)
            if here and cell.unit_mass_g:
                held[cell.unit_mass_g] += cell.units
        most |= held
    return most


def test_a_plan_is_not_given_quarantined_dumbbells_and_the_gate_stops_the_old_one() -> None:
    hall: Hall = read_hall(demo_hall_folder())
    before = fit(hall, "monday_seated", on=DAY)
    assert before.document is not None
    mass, held = max(_most_held(before.document.core).items(), key=lambda each: each[1])
    owned = next(d.count for d in hall.kit.dumbbells if d.unit_mass_g == mass)
    gone = row(mass, -9, QUARANTINED, owned - held + 1)
    fewer = hall.model_copy(update={"inspections": (gone,)})
    problem = build_problem(fewer, "monday_seated", DAY)
    assert left(problem.kit)[mass] == held - 1
    stopped = judge(before.document.core, problem).of_grade(Grade.STOP)
    assert "kit.short" in {finding.rule for finding in stopped}
    after = fit(fewer, "monday_seated", on=DAY)
    assert after.document is not None
    assert _most_held(after.document.core)[mass] <= held - 1

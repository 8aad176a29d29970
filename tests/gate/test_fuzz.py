"""Whatever is done to a plan, the gate answers with findings and never with an exception."""

import json
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from roundwright.plan.core import Core, PieceKind
from roundwright.plan.gate.judge import judge
from roundwright.plan.gate.words import words_of
from tests.gate.cases_class import in_pairs
from tests.gate.cases_pieces_and_handovers import handed, passed_on, with_piece
from tests.gate.rotating_class import staggered, stations
from tests.gate.small_class import Made, a_plan

ROTATING = (
    with_piece(with_piece(staggered(), why="walk", kind=PieceKind.COOL_DOWN)),
    handed(with_piece(stations(), line_id="squat_line", versions={"p001": "air_squat"})),
)
PLANS = (a_plan(), in_pairs(), handed(passed_on()), *ROTATING)
INTEGERS = st.one_of(st.integers(-3, 12), st.sampled_from([600, 7999, 9000, 10**6, 10**18]))
ANYTHING = st.one_of(st.none(), INTEGERS, st.just(2.5), st.just(""), st.just([]))
WORDS = ["p001", "p009", "row", "cartwheel", "burst_line", "left", "both", "reps", "seconds"]


def _another(value: Any, dump: Any) -> st.SearchStrategy[Any]:
    """Give something of the same kind as a value, most of it readable; now and then anything."""
    if isinstance(value, bool):
        return st.booleans()
    if isinstance(value, int):
        return st.one_of(INTEGERS, INTEGERS, ANYTHING)
    if isinstance(value, str):
        found = sorted({str(v) for path in _paths(dump) if isinstance(v := _at(dump, path), str)})
        return st.one_of(st.sampled_from(WORDS), st.sampled_from(found), ANYTHING)
    if isinstance(value, list):
        lists = [v for path in _paths(dump) if isinstance(v := _at(dump, path), list)]
        return st.one_of(st.just([]), st.just(value[1:]), st.sampled_from(lists))
    return st.one_of(st.none(), INTEGERS)


def _at(dump: Any, path: tuple[Any, ...]) -> Any:
    for key in path:
        dump = dump[key]
    return dump


def _paths(value: Any, here: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    found = [here] if here else []
    items = (
        value.items()
        if isinstance(value, dict)
        else enumerate(value)
        if isinstance(value, list)
        else ()
    )
    for key, inner in items:
        found += _paths(inner, (*here, key))
    return found


def _changed(dump: Any, path: tuple[Any, ...], how: str, value: Any) -> None:
    holder = dump
    for key in path[:-1]:
        holder = holder[key]
    if how == "remove":
        del holder[path[-1]]
    elif how == "double" and isinstance(holder, list):
        holder.append(holder[path[-1]])
    else:
        holder[path[-1]] = value


DUMPS = tuple(json.dumps(made.core.model_dump(mode="json", by_alias=True)) for made in PLANS)


@st.composite
def mutated(draw: st.DrawFn) -> tuple[Made, Any]:
    which = draw(st.integers(0, len(PLANS) - 1))
    dump = json.loads(DUMPS[which])
    for _ in range(draw(st.integers(1, 3))):
        path = draw(st.sampled_from(_paths(dump)))
        how = draw(st.sampled_from(["set", "set", "remove", "double"]))
        value = json.loads(json.dumps(draw(_another(_at(dump, path), dump))))
        _changed(dump, path, how, value)
    return PLANS[which], dump


def _read(dump: Any) -> Core | None:
    try:
        return Core.model_validate(dump)
    except ValueError:
        return None


@settings(max_examples=400, deadline=None, derandomize=True)
@given(mutated())
def test_a_mutated_plan_gives_findings_and_words_but_no_exception(
    case: tuple[Made, Any],
) -> None:
    made, dump = case
    core = _read(dump)
    if core is None:
        return
    verdict = judge(core, made.problem)
    for finding in verdict.findings:
        assert words_of(finding, {}, {})
    if verdict.is_clear:
        # what passes is the plan itself but for what the class does not rest on
        assert {c.signature for c in core.cells} == {c.signature for c in made.core.cells}
        assert {w.length_s for w in core.timeline} == {w.length_s for w in made.core.timeline}


@settings(max_examples=80, deadline=None, derandomize=True)
@given(st.data())
def test_unvalidated_numbers_in_a_cell_give_findings(data: st.DataObject) -> None:
    made = a_plan()
    cell = made.core.cells[0]
    field = data.draw(st.sampled_from(["unit_mass_g", "units", "position", "round", "chance_bp"]))
    number = data.draw(st.sampled_from([-(10**9), -8000, -2, -1, 3, 77, 10**7, 10**15]))
    cells = (cell.model_copy(update={field: number}), *made.core.cells[1:])
    core = made.core.model_copy(update={"cells": cells})
    verdict = judge(core, made.problem)
    assert verdict.is_refused


def test_the_problem_of_another_class_gives_findings() -> None:
    made = a_plan()
    problem = made.problem.model_copy(update={"people": {}})
    assert judge(made.core, problem).is_refused
    library = problem.library.model_copy(update={"lines": {}, "movements": {}})
    assert judge(made.core, made.problem.model_copy(update={"library": library})).is_refused

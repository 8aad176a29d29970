"""The clash is the one worked out by hand, cannot hold, and is a smallest one."""

import pytest

from roundwright.optimise.planning.why_not import explain
from roundwright.people.person import Clearance
from roundwright.plan.outcome import Budget, Clash
from tests.support.builders import a_kit
from tests.why_not.every_class import some_class
from tests.why_not.impossible import CASES, Impossible
from tests.why_not.small_menu import a_base, asking, people


def members(told: tuple[Clash, ...]) -> frozenset[tuple[str, str]]:
    return frozenset(
        (c.kind, str(c.figures.get("unit_mass_g", c.item))) for c in told if c.kind != "persons"
    )


def one_at_a_time(told: tuple[Clash, ...]) -> list[Clash]:
    """Give every member, each person apart."""
    apart = [
        Clash(kind="persons", persons=(p,)) for c in told if c.kind == "persons" for p in c.persons
    ]
    return [c for c in told if c.kind != "persons"] + apart


@pytest.mark.parametrize("case", CASES, ids=lambda c: c.name)
def test_the_clash_is_the_one_worked_out_by_hand(case: Impossible) -> None:
    told = explain(case.planning)
    assert members(told) == case.clash
    assert sum(len(c.persons) for c in told if c.kind == "persons") == case.people


@pytest.mark.parametrize("case", CASES, ids=lambda c: c.name)
def test_the_clash_alone_cannot_hold_until_any_one_member_is_let_go(case: Impossible) -> None:
    assert not some_class(case.planning)
    clash = one_at_a_time(explain(case.planning))
    assert not some_class(case.planning, clash)
    for k, member in enumerate(clash):
        assert some_class(case.planning, clash[:k] + clash[k + 1 :]), member


def test_there_are_at_least_twenty_cases_of_every_kind() -> None:
    kinds = {kind for case in CASES for kind, _ in case.clash}
    assert len(CASES) >= 20
    assert kinds >= {
        "places",
        "coverage",
        "pattern_cap",
        "jumping_cap",
        "loaded_least",
        "same_line",
        "combinations_cap",
        "accessories_cap",
        "line_cap",
        "neighbours",
        "beside_burst",
        "besides",
        "kept_exercise",
        "ban",
        "kit",
        "contacts",
        "low_hops",
        "burst",
        "kept",
    }


def test_what_is_possible_has_no_clash() -> None:
    assert explain(asking(a_base(), 2, "lifted_squat", "lifted_hinge")) == ()


def test_without_anybody_only_the_people_are_named() -> None:
    base = a_base(people(2, clearance=Clearance.NOT_CLEARED))
    assert explain(asking(base, 1, "lifted_squat")) == (Clash(kind="persons"),)


def test_rounds_and_the_slot_never_clash() -> None:
    base = a_base(people(2), rounds=9, slot_s=60)
    assert explain(asking(base, 2, "lifted_squat", "lifted_hinge")) == ()


def test_equal_questions_give_equal_clashes() -> None:
    planning = asking(a_base(people(6), a_kit({8000: 5})), 1, "lifted_squat")
    assert explain(planning, seed=4) == explain(planning, seed=4) != ()


def test_a_spent_budget_says_nothing_rather_than_something_untrue(monkeypatch) -> None:
    planning = asking(a_base(people(6), a_kit({8000: 5})), 1, "lifted_squat")
    monkeypatch.setitem(explain.__globals__["CHECKS"], Budget.QUICK, 1)
    assert explain(planning, budget=Budget.QUICK) == ()


@pytest.mark.parametrize("case", CASES[::5], ids=lambda c: c.name)
def test_what_is_proven_elsewhere_is_told_whole_when_the_budget_is_spent(
    case: Impossible, monkeypatch
) -> None:
    monkeypatch.setitem(explain.__globals__["CHECKS"], Budget.QUICK, 0)
    told = explain(case.planning, budget=Budget.QUICK, proven=True)
    named = {kind for kind, _ in members(told)}
    rules = {(kind, item) for kind, item in case.clash if kind not in named}
    assert case.clash - rules <= members(told)
    assert not rules or "choice" in named
    assert sum(len(c.persons) for c in told if c.kind == "persons") >= case.people


def test_kit_is_named_with_what_is_there_and_what_is_needed() -> None:
    (kit,) = [
        c
        for c in explain(asking(a_base(people(4), a_kit({8000: 3})), 1, "lifted_squat"))
        if c.kind == "kit"
    ]
    assert kit.figures == {"there": 3, "needed": 4, "unit_mass_g": 8000}

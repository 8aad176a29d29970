"""Versions in the room, landings, the slot and the last place, worked by hand."""

import pytest

from roundwright.foundation.errors import BadInputError
from roundwright.goals.class_wish import BurstWish, ClassFormat, Count, CountUnit, KeptCell
from roundwright.library.catalogue import Catalogue
from roundwright.library.vocabulary import Demand
from roundwright.people.person import Clearance
from roundwright.plan.core import CellState
from roundwright.plan.outcome import Status
from roundwright.plan.problem import Problem
from roundwright.plan.rule_table import RuleTable
from tests.optimise.small_classes import cell, core_of, fitted, moves
from tests.support.builders import (
    a_catalogue,
    a_combination,
    a_line,
    a_movement,
    a_person,
    a_problem,
    a_side,
    a_spec,
    reps,
)


def _two_versions(**harder: object) -> Catalogue:
    low, high = a_movement("low", level=2), a_movement("high", **{"level": 3, **harder})
    sit = a_movement("sit", level=3)
    return a_catalogue(
        [low, high, sit], [a_line("any_line", "low", "high"), a_line("sit_line", "sit")]
    )


def _problem(library: Catalogue, *levels: int, **changes: object) -> Problem:
    people = {f"p00{n}": a_person(f"p00{n}", level=v) for n, v in enumerate(levels, start=1)}
    return a_problem(a_spec(("any_line", reps(8)), **changes), library, people)


def test_a_second_version_is_shown_only_where_it_is_worth_its_price() -> None:
    # two people: a second version 10, both on the easier one 8
    two = fitted(_problem(_two_versions(), 3, 2))
    assert (two.outcome.cost, set(moves(two).values())) == (8, {"low"})
    # three people: a second version 10, all on the easier one 16
    three = fitted(_problem(_two_versions(), 3, 3, 2))
    assert three.outcome.cost == 10
    assert moves(three) == {"p001": "high", "p002": "high", "p003": "low"}


def test_a_slot_is_kept_before_prices_and_overrun_is_least_where_it_cannot_be() -> None:
    library = _two_versions(seconds_a_rep=6.0)
    # 300 + 240 + work + 15 + 300: 48 s with the harder version, 24 s with the easier one
    assert fitted(_problem(library, 3, slot_s=903)).outcome.cost == 0
    tight = fitted(_problem(library, 3, slot_s=902))
    assert (tight.outcome.cost, tight.outcome.overrun_s, tight.outcome.status) == (
        8,
        0,
        Status.PROVEN,
    )
    short = fitted(_problem(library, 3, slot_s=870))
    assert (short.outcome.cost, short.outcome.overrun_s, short.outcome.status) == (
        8,
        9,
        Status.PROVEN,
    )


def test_in_pairs_the_slow_work_in_the_same_half() -> None:
    library = a_catalogue([a_movement("sit", level=3)], [a_line("sit_line", "sit")])
    ages = {"p001": 70, "p002": 70, "p003": 40, "p004": 40}
    people = {p: a_person(p, oldest_age=age) for p, age in ages.items()}
    # 10 reps: 30 s, from 65 on 42 s; 300 + 240 + (42 + 30 + 6) + 15 + 300 = 933
    spec = a_spec(("sit_line", reps(10)), format=ClassFormat.PAIRS, slot_s=933)
    result = fitted(a_problem(spec, library, people))
    assert (result.outcome.overrun_s, result.outcome.status) == (0, Status.PROVEN)
    halves = [{g[n] for g in core_of(result).class_.groups} for n in (0, 1)]
    assert {"p001", "p002"} in halves


def test_landings_over_the_class_decide_who_jumps_where() -> None:
    movements = [
        a_movement("step", level=2),
        a_movement("jump", level=3, contacts_a_rep=1),
        a_movement("heel_raise", level=1),
        a_movement("hop", level=3, contacts_a_rep=1),
        a_movement("sit", level=3),
    ]
    lines = [
        a_line("jump_line", "step", "jump"),
        a_line("hop_line", "heel_raise", "hop"),
        a_line("sit_line", "sit"),
    ]
    spec = a_spec(("jump_line", reps(12)), ("hop_line", reps(12)), ("sit_line", reps(8)))
    library = a_catalogue(movements, lines)
    # five classes: 20 landings; 12 + 12 are too many. Stepping costs 8, heel raises 16.
    rules = RuleTable(most_landings_a_set=12)
    five_classes = {"p001": a_person(classes_done=5)}
    result = fitted(a_problem(spec, library, five_classes, rules=rules))
    assert result.outcome.cost == 8
    assert (moves(result, 1)["p001"], moves(result, 2)["p001"]) == ("step", "hop")


def test_one_set_holds_eight_landings_whatever_the_count_says() -> None:
    library = _two_versions(level=3, contacts_a_rep=2)
    for count, done in ((a_side(4), 4), (reps(3), 3)):
        spec = a_spec(("any_line", count), ("any_line", count))
        result = fitted(a_problem(spec, library, {"p001": a_person()}))
        assert cell(result, "p001", 1).signature == ("high",)
        assert cell(result, "p001", 1).count == reps(done)


def test_a_jump_cut_to_a_few_reps_gives_way_to_a_version_that_is_kept_whole() -> None:
    # two landings a rep: 4 of 13 reps are three tenths of the count and stay, 4 of 14 are too few
    library = _two_versions(contacts_a_rep=2)
    sit = ("sit_line", reps(8))  # last, for nobody ends with a jump

    def class_of(count: int, **more: object) -> Problem:
        people = {"p001": a_person("p001", level=3)}
        spec = a_spec(("any_line", reps(count)), sit, **more)
        return a_problem(spec, library, people)

    whole = fitted(class_of(13))
    assert (moves(whole), whole.outcome.cost) == ({"p001": "high"}, 0)
    cut = fitted(class_of(14))
    assert (moves(cut), cut.outcome.cost) == ({"p001": "low"}, 8)
    assert cell(cut, "p001", 1).count == reps(14)
    kept = fitted(class_of(14, keep=(KeptCell(person="p001", position=1, version="high"),)))
    assert cell(kept, "p001", 1).count == reps(4)
    alone = fitted(class_of(14, ban=("low",)))
    assert (moves(alone), cell(alone, "p001", 1).count) == ({"p001": "high"}, reps(4))


def test_a_timed_set_with_more_landings_is_not_a_version() -> None:
    # 3 s a rep, one landing each: 24 s hold 8, 27 s hold 9
    library = _two_versions(level=3, contacts_a_rep=1)
    done = {}
    for seconds in (24, 27):
        count = Count(value=seconds, unit=CountUnit.SECONDS)
        spec = a_spec(("any_line", count), ("any_line", count))
        done[seconds] = moves(fitted(a_problem(spec, library, {"p001": a_person()})))["p001"]
    assert done == {24: "high", 27: "low"}


def test_of_two_versions_of_one_level_the_fuller_one_is_done() -> None:
    movements = [a_movement(name, level=2) for name in ("short", "middle", "full")]
    library = a_catalogue(movements, [a_line("any_line", "short", "middle", "full")])
    regular = {"p001": a_person(level=2)}
    spec = a_spec(("any_line", reps(8)))
    result = fitted(a_problem(spec, library, regular))
    assert (moves(result)["p001"], result.outcome.cost) == ("full", 0)
    banned = a_spec(("any_line", reps(8)), ban=("full",))
    result = fitted(a_problem(banned, library, regular))
    assert (moves(result)["p001"], result.outcome.cost) == ("middle", 6)


def test_a_jump_at_the_last_place_is_stepped_in_the_last_round() -> None:
    library = _two_versions(level=4, contacts_a_rep=1)
    regular = {"p001": a_person(level=4, classes_done=50)}
    spec = a_spec(("any_line", reps(8)), rounds=2)
    # jump, then step: a second version 10; steps throughout: 2 levels below = 16
    result = fitted(a_problem(spec, library, regular))
    assert result.outcome.cost == 10
    assert cell(result, "p001", 1, 1).signature == ("high",)
    assert cell(result, "p001", 1, 2).signature == ("low",)
    once = fitted(a_problem(a_spec(("any_line", reps(8))), library, regular))
    assert (once.outcome.cost, moves(once)["p001"]) == (16, "low")


def test_nothing_lying_first_after_a_burst_without_thirty_seconds_of_walking() -> None:
    library = _two_versions(demands={Demand.ON_BACK: 1})
    march = a_movement("march", level=1)
    library = a_catalogue(
        [*library.movements.values(), march],
        [*library.lines.values(), a_line("burst_line", "march")],
    )
    burst = BurstWish(line="burst_line", length_s=60)

    def first(rest_s: int) -> str:
        spec = a_spec(
            ("any_line", reps(8)), ("sit_line", reps(8)), rounds=2, burst=burst, rest_s=rest_s
        )
        return moves(fitted(a_problem(spec, library, {"p001": a_person()})))["p001"]

    assert (first(29), first(30)) == ("low", "high")


def test_a_burst_is_priced_below_the_level_and_eased_where_nothing_is_known() -> None:
    movements = [
        a_movement("sit", level=1),
        a_movement("rope", level=2, low_hops_a_rep=1, rate_a_min=120),
        a_movement("march", level=1),
        a_movement("fast_march", level=2),
    ]
    lines = [a_line("sit_line", "sit"), a_line("burst_line", "march", "rope", "fast_march")]
    spec = a_spec(("sit_line", reps(8)), burst=BurstWish(line="burst_line", length_s=60))
    people = {
        "p001": a_person("p001", level=2, clearance=Clearance.UNKNOWN),
        "p002": a_person("p002", level=2, classes_done=0),
        "p003": a_person("p003", level=2),
    }
    result = fitted(a_problem(spec, a_catalogue(movements, lines), people))
    bursts = {p.person_id: p.burst for p in core_of(result).people}
    assert bursts["p001"] == bursts["p002"] == "march"
    assert bursts["p003"] in ("rope", "fast_march")
    # three times a version one level below 8, two bursts one level below 4
    assert result.outcome.cost == 3 * 8 + 2 * 4


def test_who_can_do_no_version_gets_a_substitute_and_else_sits_out() -> None:
    movements = [
        a_movement("deep", level=3, demands={Demand.KNEE: 2}),
        a_movement("bridge", level=3, demands={Demand.LOW_BACK: 2}),
    ]
    library = a_catalogue(movements, [a_line("deep_line", "deep"), a_line("bridge_line", "bridge")])
    people = {
        "p001": a_person("p001"),
        "p002": a_person("p002", caps={Demand.KNEE: 1}),
        "p003": a_person("p003", caps={Demand.KNEE: 1, Demand.LOW_BACK: 1}),
        "p004": a_person("p004", clearance=Clearance.NOT_CLEARED),
    }
    spec = a_spec(("deep_line", Count(value=6, unit=CountUnit.REPS_PER_SIDE)))
    result = fitted(a_problem(spec, library, people, substitutes=("bridge_line",)))
    states = {c.person_id: c.state for c in core_of(result).cells}
    assert states == {
        "p001": CellState.DO,
        "p002": CellState.SUBSTITUTE,
        "p003": CellState.SIT_OUT,
    }
    assert cell(result, "p002", 1).count == reps(12)
    assert result.outcome.cost == 120 + 1000
    assert [n.person_id for n in result.outcome.not_today] == ["p004"]


def test_an_alternating_combination_is_refused_in_words() -> None:
    library = _two_versions()
    both = a_combination("two", ("any_line", "both"), ("sit_line", "both"))
    library = library.model_copy(update={"combinations": {"two": both}})
    spec = a_spec(("two", Count(value=8, unit=CountUnit.REPS_ALTERNATING)))
    with pytest.raises(BadInputError, match="reps, or reps a side"):
        fitted(a_problem(spec, library, {"p001": a_person()}))

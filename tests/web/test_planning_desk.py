"""The desk: what is asked of the planner, and which class is shown meanwhile and after."""

from dataclasses import replace

import pytest

from roundwright.foundation.errors import (
    BadInputError,
    ChangedMeanwhileError,
    NotFoundError,
    RoundwrightError,
    UnsafePlanError,
)
from roundwright.plan.build_planning import KeptWish
from roundwright.plan.outcome import Status
from roundwright.web.length_choices import Lengths
from tests.web.a_desk import a_desk, another_class, no_class
from tests.web.page_states import a_ready_state


def exercises(desk):
    return [e.exercise_id for e in desk.state.core.exercises]


def test_another_class_asks_for_a_set_that_was_not_shown():
    desk, chooser = a_desk(another_class("one"), another_class("two"))
    names = exercises(desk)
    desk.another(desk.view().token)
    assert desk.wait(20)
    desk.another(desk.view().token)
    assert desk.wait(20)
    first, second = chooser.asked
    assert first.besides == (tuple(sorted(names)),)
    assert len(second.besides) == 2
    assert (first.anew, first.keep, first.places) == (True, (), len(names))


def test_what_is_kept_stays_at_its_place_and_can_be_let_go():
    desk, chooser = a_desk(another_class())
    desk.keep(desk.view().token, 2)
    desk.keep(desk.view().token, 3)
    desk.keep(desk.view().token, 3)
    assert desk.view().kept == {2}
    desk.another(desk.view().token)
    assert desk.wait(20)
    assert chooser.asked[0].keep == (KeptWish(exercises(desk)[1], 2),)
    assert desk.view().kept == {2}


def test_not_this_one_leaves_the_others_where_they_are():
    desk, chooser = a_desk(another_class(), another_class("later"))
    names = exercises(desk)
    desk.instead(desk.view().token, 1)
    assert desk.wait(20)
    asked = chooser.asked[0]
    assert asked.leave_out == {names[0]}
    assert asked.keep == tuple(KeptWish(n, k) for k, n in enumerate(names, start=1) if k > 1)
    desk.another(desk.view().token)
    assert desk.wait(20)
    assert chooser.asked[1].leave_out == {names[0]}


def test_the_class_stays_until_another_is_there_and_can_be_brought_back():
    desk, chooser = a_desk(another_class("new"), held=True)
    before = desk.view().token
    assert not desk.view().may_go_back
    desk.another(before)
    assert desk.view().is_planning
    assert desk.view().token == before
    chooser.let_go.set()
    assert desk.wait(20)
    assert desk.state.core.plan_id == "new"
    desk.back(desk.view().token)
    assert desk.view().token == before
    assert not desk.view().may_go_back


def test_back_brings_back_what_was_kept_and_wanted_then():
    desk, chooser = a_desk(another_class("one"), another_class("two"))
    desk.keep(desk.view().token, 1)
    desk.instead(desk.view().token, 1)
    assert desk.wait(20)
    assert desk.view().kept == frozenset()
    desk.back(desk.view().token)
    assert desk.view().kept == {1}
    desk.another(desk.view().token)
    assert desk.wait(20)
    assert chooser.asked[1].leave_out == frozenset()


def test_a_second_press_while_one_is_planned_starts_nothing():
    desk, chooser = a_desk(another_class(), held=True)
    token = desk.view().token
    desk.another(token)
    desk.another(token)
    desk.instead(token, 1)
    chooser.let_go.set()
    assert desk.wait(20)
    assert len(chooser.asked) == 1


def test_stopped_the_class_is_as_it_was():
    desk, chooser = a_desk(held=True)
    token = desk.view().token
    desk.another(token)
    desk.stop()
    assert desk.wait(20)
    assert (chooser.stops, desk.view().token) == (1, token)
    assert desk.view().notice.title.startswith("Stopped.")
    desk.stop()
    assert chooser.stops == 1


def test_impossible_is_told_with_clash_and_ways():
    desk, _ = a_desk(no_class())
    token = desk.view().token
    desk.another(token)
    assert desk.wait(20)
    notice = desk.view().notice
    assert notice.lines == ("Another class than those already shown.",)
    assert notice.ways == ("Do not insist on Step-up.",)
    assert desk.view().token == token


def test_undecided_is_told():
    desk, _ = a_desk(no_class(Status.UNDECIDED))
    desk.another(desk.view().token)
    assert desk.wait(20)
    assert desk.view().notice.title.startswith("No other class was found")


@pytest.mark.parametrize(
    ("error", "words"),
    [
        (RoundwrightError("The planner ended in the middle of it."), "ended in the middle"),
        (UnsafePlanError("The plan breaks person.demand. It was thrown away."), "thrown away"),
        (ValueError("canary"), "ValueError"),
    ],
)
def test_what_goes_wrong_is_told_and_the_class_stays(error, words):
    desk, _ = a_desk(error, another_class("next"))
    token = desk.view().token
    desk.another(token)
    assert desk.wait(20)
    notice = desk.view().notice
    assert words in notice.title
    assert "canary" not in notice.title
    assert desk.view().token == token
    desk.another(token)
    assert desk.wait(20)
    assert desk.view().notice is None
    assert desk.state.core.plan_id == "next"


def test_a_button_of_an_earlier_class_does_nothing():
    desk, _ = a_desk(another_class())
    old = desk.view().token
    desk.another(old)
    assert desk.wait(20)
    for press in (
        lambda: desk.another(old),
        lambda: desk.keep(old, 1),
        lambda: desk.instead(old, 1),
        lambda: desk.back(old),
    ):
        with pytest.raises(ChangedMeanwhileError):
            press()


def test_a_place_that_is_not_there_is_not_found():
    desk, _ = a_desk()
    with pytest.raises(NotFoundError):
        desk.keep(desk.view().token, 9)


def test_lengths_taken_from_the_lists_are_asked_for_and_stay_taken():
    desk, chooser = a_desk(another_class("one"), another_class("two"), another_class("three"))
    desk.another(desk.view().token, Lengths(rounds="any", work_rest="40:20"))
    assert desk.wait(20)
    assert (chooser.asked[0].rounds, chooser.asked[0].work_rest) == ((3, 2, 4), (40, 20))
    assert [e.value for e in desk.view().rounds if e.is_taken] == ["any"]
    desk.instead(desk.view().token, 1)
    assert desk.wait(20)
    assert chooser.asked[1].rounds == (3, 2, 4)
    desk.another(desk.view().token, Lengths())
    assert desk.wait(20)
    assert (chooser.asked[2].rounds, chooser.asked[2].work_rest) == ((), None)
    desk.back(desk.view().token)
    assert [e.value for e in desk.view().rounds if e.is_taken] == ["any"]


def test_everything_kept_comes_again_only_at_other_lengths():
    desk, chooser = a_desk(another_class("one"), another_class("two"))
    for position in range(1, len(exercises(desk)) + 1):
        desk.keep(desk.view().token, position)
    desk.another(desk.view().token, Lengths(rounds="4"))
    assert desk.wait(20)
    assert chooser.asked[0].besides == ()
    desk.another(desk.view().token, Lengths(rounds="4"))
    assert desk.wait(20)
    assert chooser.asked[1].besides != ()


def test_only_a_timed_class_has_a_list_of_work_and_rest():
    desk, _ = a_desk()
    assert desk.view().work_rest == ()
    timed, _ = a_desk(first=replace(a_ready_state(), is_timed=True))
    assert [e.words for e in timed.view().work_rest][:3] == [
        "as the class says",
        "what fits who is there",
        "what fits heavier loads",
    ]
    assert "40:20" in [e.value for e in timed.view().work_rest]


@pytest.mark.parametrize("lengths", [Lengths(rounds="lots"), Lengths(work_rest="40-20")])
def test_lengths_that_are_on_no_list_are_refused_and_nothing_is_planned(lengths):
    desk, chooser = a_desk(another_class())
    with pytest.raises(BadInputError):
        desk.another(desk.view().token, lengths)
    assert chooser.asked == []
    assert not desk.view().is_planning

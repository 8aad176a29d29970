"""The page of a class that overruns says each way that would end it on time."""

from roundwright.optimise.class_search import ClassSearch
from roundwright.services.fit_class import FitRequest, fit_class
from roundwright.services.late_class import with_ways_on_time
from roundwright.web.page_state import Standing, state_of_plan
from tests.services.a_hall import RealPlanner, a_hall, adapters
from tests.web.page_states import PORT
from tests.web.test_pages import a_client

HEADING = "Each of these would end it on time"


def _page(slot_s):
    wish = a_hall().classes["tuesday"].model_copy(update={"slot_s": slot_s})
    hall = a_hall(classes={"tuesday": wish})
    document = fit_class(hall, FitRequest("tuesday"), **adapters(RealPlanner())).document
    told = with_ways_on_time(document, 1, ClassSearch())
    state = state_of_plan(told, hall, "2 March 2026", PORT)
    with a_client(state) as client:
        return state, client.get("/").text


def test_a_late_draft_says_what_would_end_it_on_time():
    state, text = _page(900)
    assert state.standing is Standing.DRAFT
    assert HEADING in text
    assert state.ways_out[-1].startswith("Book ")
    assert all(words in text for words in state.ways_out)
    minutes = state.core.timeline[-1]
    needed = minutes.at_s + minutes.length_s - 900
    assert f"Book {_number(-(-needed // 60))} more minute" in state.ways_out[-1]


def test_a_class_that_ends_on_time_says_nothing_of_it():
    state, text = _page(7200)
    assert state.ways_out == ()
    assert HEADING not in text


def _number(value):
    words = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
    return words[value] if value < len(words) else str(value)

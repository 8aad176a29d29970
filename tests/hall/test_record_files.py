"""The optional files of a hall: they come back as they were, hide what they hold, and count."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roundwright.foundation.errors import BadInputError
from roundwright.hall.hall_text import read_hall_texts
from roundwright.hall.written_hall import written_hall
from roundwright.kit.care import KitInspection, KitState
from roundwright.library.vocabulary import Demand
from roundwright.people.clearance_record import ClearanceRecord, GivenBy
from roundwright.people.consents import Consent, Consents, EmergencyContact, Guardian
from roundwright.people.health_screen import AnsweredBy, HealthScreen
from roundwright.people.person import Clearance
from roundwright.people.screen_questions import QUESTIONS, Answer
from roundwright.plan.build_problem import build_problem
from tests.hall.hall_files import hall_files, read
from tests.hall.test_privacy import MARK
from tests.hall.test_written_hall import LIBRARY, QUICK, a_hall, dates, words

WELL = "".join(f'answers.{q} = "{"yes" if q == "active" else "no"}"\n' for q in QUESTIONS)
SCREEN = f"""schema = "roundwright.screens/1"

[[screen]]
person = "p001"
answered_on = 2026-01-05
by = "person"
{WELL}"""
ids = st.sampled_from(["p001", "p002"])
screens = st.builds(
    HealthScreen,
    person=ids,
    answered_on=dates,
    by=st.sampled_from(AnsweredBy),
    changed_on=st.none() | dates,
    answers=st.dictionaries(st.sampled_from(list(QUESTIONS)), st.sampled_from(Answer)),
)
records = st.builds(
    ClearanceRecord,
    person=ids,
    clearance=st.sampled_from([c for c in Clearance if c is not Clearance.UNKNOWN]),
    given_by=st.sampled_from(GivenBy),
    given_by_name=words,
    on=dates,
    until_on=st.none() | dates,
    caps=st.dictionaries(st.sampled_from(Demand), st.integers(0, 3), max_size=3),
    effort_ceiling=st.none() | st.integers(1, 10),
    words=st.lists(words, max_size=2).map(tuple),
)
agreed = st.none() | st.builds(
    Consent, on=dates, words_version=words, withdrawn_on=st.none() | dates
)
consents = st.builds(
    Consents,
    person=ids,
    data=agreed,
    health_data=agreed,
    training=agreed,
    guardian=st.none()
    | st.builds(Guardian, name=words, relation=words, phone=st.just("020 000"), consent_on=dates),
    emergency_contact=st.none() | st.builds(EmergencyContact, name=words, phone=st.just("020 000")),
    review_on=st.none() | dates,
)
looked = {
    "on": dates,
    "by": words,
    "units": st.none() | st.integers(1, 400),
    "state": st.sampled_from(KitState),
    "next_on": st.none() | dates,
}
inspections = st.builds(KitInspection, item=st.just("rope"), **looked) | st.builds(
    KitInspection, mass_g=st.just(8000), **looked
)


def once(one):
    return st.lists(one, max_size=2, unique_by=lambda r: r.person_id).map(tuple)


@QUICK
@given(once(screens), once(records), once(consents), st.lists(inspections, max_size=3).map(tuple))
def test_records_come_back_and_give_equal_bytes(screened, cleared, consented, inspected):
    hall = a_hall(screens=screened, clearances=cleared, consents=consented, inspections=inspected)
    files = written_hall(hall)
    again = read_hall_texts(files, LIBRARY)
    assert again == hall
    assert written_hall(again) == files
    assert ("screens.toml" in files) == bool(screened or cleared)
    assert ("consents.toml" in files) == bool(consented)


def with_screens(text):
    return hall_files() | {"screens.toml": text.encode()}


def test_the_plan_sees_the_screen_and_an_expired_one_is_unknown():
    problem = build_problem(read(with_screens(SCREEN)), "tuesday")
    assert problem.people["p001"].clearance is Clearance.CLEARED
    old = SCREEN.replace("2026-01-05", "2025-01-05")
    old_problem = build_problem(read(with_screens(old)), "tuesday")
    assert old_problem.people["p001"].clearance is Clearance.UNKNOWN
    assert old_problem.people["p001"].is_moderate_only
    faint = SCREEN.replace('dizzy_or_faint = "no"', 'dizzy_or_faint = "yes"')
    held = build_problem(read(with_screens(faint)), "tuesday")
    assert held.people["p001"].clearance is Clearance.NOT_CLEARED
    assert "p001" not in held.taking_part


def test_conditions_of_a_clearance_become_caps_effort_and_words():
    text = """schema = "roundwright.screens/1"

[[clearance]]
person = "p001"
clearance = "moderate_only"
given_by = "clinician"
given_by_name = "A name"
on = 2026-02-01
caps.head_low = 0
effort_ceiling = 3
words = ["rise slowly"]
"""
    who = build_problem(read(with_screens(text)), "tuesday").people["p001"]
    assert who.clearance is Clearance.MODERATE_ONLY
    assert (who.caps[Demand.HEAD_LOW], who.effort_cap) == (0, 3)
    assert "rise slowly" in who.actions


CARE = """schema = "roundwright.care/1"

[[inspection]]
mass = "8 kg"
units = 2
on = 2026-02-01
by = "Rhona C"
state = "quarantined"
"""


def test_dumbbells_are_named_by_the_mass_of_one():
    hall = read(hall_files() | {"care.toml": CARE.encode()})
    assert (hall.inspections[0].entry, hall.inspections[0].units) == (8000, 2)
    counts = {d.unit_mass_g: d.count for d in hall.kit.dumbbells}
    usable = {d.unit_mass_g: d.count for d in build_problem(hall, "tuesday").kit.dumbbells}
    assert usable == counts | {8000: counts[8000] - 2}


@pytest.mark.parametrize(
    ("written", "field"),
    [
        (CARE.replace("8 kg", "9 kg"), "mass"),
        (CARE.replace("units = 2", "units = 0"), "units"),
        (CARE.replace("units = 2", "units = 401"), "units"),
        (CARE.replace('mass = "8 kg"\n', ""), "item or a mass"),
        (CARE.replace("units", 'item = "rope"\nunits'), "item or a mass"),
    ],
)
def test_an_inspection_is_about_one_entry_that_is_there(written, field):
    with pytest.raises(BadInputError) as caught:
        read(hall_files() | {"care.toml": written.encode()})
    assert any(field in f"{f.field} {f.expected}" for f in caught.value.faults)


@pytest.mark.parametrize(
    "spoiled",
    [
        SCREEN.replace('kidneys = "no"', f'kidneys = "{MARK}"'),
        SCREEN.replace("answers.kidneys", f"answers.{MARK}"),
        SCREEN.replace("answers.kidneys", MARK),
        SCREEN.replace('"p001"', f'"{MARK}"'),
        SCREEN.replace("2026-01-05", f'"{MARK}"'),
        SCREEN + f"{MARK} = {MARK}\n",
        SCREEN + f"[{MARK}]\na = 1\n",
        SCREEN + f'[[clearance]]\nperson = "p001"\nclearance = "{MARK}"\n',
        SCREEN + f"[[clearance]]\ncaps.{MARK} = 9\n",
    ],
)
def test_a_marked_word_in_the_screens_is_hidden(spoiled):
    with pytest.raises(BadInputError) as caught:
        read(with_screens(spoiled))
    said = str(caught.value) + str(caught.value.as_problem())
    assert MARK not in said
    assert "screens.toml" in said

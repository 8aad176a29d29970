"""People and Person: what each role sees, unknown is not healthy, stale edits, the way out."""

import re

from roundwright.accounts.account import Role
from roundwright.people.person import Clearance
from roundwright.people.screen_questions import Question
from roundwright.services.keeping.records import RecordKey, RecordKind
from tests.house.a_house import HALL

AT = f"/at/{HALL}/people"


def _hall(opened):
    return opened.keeping.halls.opened(HALL).hall


def _limited(opened):
    return _hall(opened).limitations[0].person_id


def test_an_assistant_sees_names_and_actions_but_no_why(opened):
    assistant, coach = opened.as_(Role.ASSISTANT), opened.as_(Role.COACH)
    concerns = {row.concern.value.replace("_", " ") for row in _hall(opened).limitations}
    someone = _limited(opened)
    pages = (f"/at/{HALL}/week", AT, f"{AT}/{someone}", f"/at/{HALL}/room")
    for page in pages:
        text = assistant.get(page).text.lower()
        found = {c for c in concerns if re.search(rf"\b{c}\b", text)} - {"balance"}
        assert found == set(), page
    why = coach.get(f"{AT}/{someone}").text
    mine = _hall(opened).limitations_of(someone)[0].concern.value.replace("_", " ")
    assert mine in why
    for path in (f"{AT}/{someone}/screen", f"{AT}/{someone}/limits"):
        method = assistant.get if path.endswith("screen") else assistant.post
        assert method(path).status_code == 403


def test_who_looks_at_health_is_in_the_trail_without_what_was_there(opened):
    opened.as_(Role.COACH).get(f"{AT}/{_limited(opened)}")
    lines = opened.keeping.trail.entries(hall_id=HALL)
    seen = [e for e in lines if e.what == "health.seen"]
    assert [e.person_id for e in seen] == [_limited(opened)]
    assert all(e.about in ("", "people") for e in seen)


def test_faults_stand_beside_their_fields_and_nothing_typed_is_lost(opened):
    coach = opened.as_(Role.COACH)
    sent = {"shown_name": "", "body_mass": "heavy", "birth_year": "19.5", "height": "12"}
    answer = coach.post(AT, data=sent)
    assert answer.status_code == 422
    for field in ("shown_name", "body_mass", "birth_year", "height"):
        assert f'href="#f-{field}"' in answer.text
        assert f'id="w-{field}"' in answer.text
    assert 'value="heavy"' in answer.text


def test_pounds_are_pounds_for_who_reads_pounds(opened):
    coach = opened.as_(Role.COACH)
    coach.post(f"/at/{HALL}/settings/looks", data={"units": "lb", "language": "en-GB"})
    at = coach.post(AT, data={"shown_name": "Una", "body_mass": "154.3"}).headers["location"]
    person = _hall(opened).person(at.rsplit("/", 1)[1])
    assert person.body_mass_g == 69_989
    assert 'value="154.3"' in coach.get(at).text


def test_of_two_who_change_one_person_the_second_is_told(opened):
    one, other = opened.as_(Role.COACH), opened.as_(Role.OWNER)
    version = re.search(r'name="version" value="(\d+)"', one.get(f"{AT}/p001").text)[1]
    sent = {"shown_name": "Maren T", "level": "3", "version": version}
    assert one.post(f"{AT}/p001", data=sent | {"own_kit": "a band"}).status_code == 303
    late = other.post(f"{AT}/p001", data=sent | {"own_kit": "a box"})
    assert late.status_code == 409
    assert 'value="a box"' in late.text
    assert _hall(opened).person("p001").own_kit == "a band"


def test_a_screen_with_a_symptom_says_not_today_kindly_and_stays(opened):
    coach = opened.as_(Role.COACH)
    at = coach.post(AT, data={"shown_name": "Una"}).headers["location"]
    una = at.rsplit("/", 1)[1]
    sent = {q.value: "no" for q in Question} | {"active": "yes", "chest_pain": "yes"}
    assert coach.post(f"{at}/screen", data=sent).status_code == 303
    text = coach.get(at).text
    assert "Clearance first: not today" in text
    assert "Thank you for telling us" in text
    again = {q.value: "no" for q in Question} | {"active": "yes"}
    assert coach.post(f"{at}/screen", data=again).status_code == 303
    assert _hall(opened).person(una).clearance is Clearance.NOT_CLEARED
    assert "Clearance first: not today" in coach.get(at).text


def test_blank_answers_are_unknown(opened):
    coach = opened.as_(Role.COACH)
    at = coach.post(AT, data={"shown_name": "Una"}).headers["location"]
    assert "Unknown: light to moderate work" in coach.get(at).text
    coach.post(f"{at}/screen", data={"active": "yes"})
    assert "Unknown: light to moderate work" in coach.get(at).text
    healthy = {q.value: "no" for q in Question} | {"active": "yes"}
    coach.post(f"{at}/screen", data=healthy)
    assert "Cleared." in coach.get(at).text


def test_a_limit_is_written_down_and_a_clinicians_ends_by_a_clinicians_word(opened):
    coach = opened.as_(Role.COACH)
    at = coach.post(AT, data={"shown_name": "Una"}).headers["location"]
    una = at.rsplit("/", 1)[1]
    sent = {"concern": "knee", "side": "left", "amount": "avoid", "set_by": "clinician"}
    wrong = coach.post(f"{at}/limits", data=sent | {"until_on": "soon"})
    assert wrong.status_code == 422
    assert coach.post(f"{at}/limits", data=sent).status_code == 303
    (row,) = _hall(opened).limitations_of(una)
    assert (row.concern.value, row.side.value, row.set_by.value) == ("knee", "left", "clinician")
    assert coach.post(f"{at}/limits/0/ended").status_code == 422
    assert len(_hall(opened).limitations_of(una)) == 1
    assert coach.post(f"{at}/limits/0/ended", data={"clinician": "yes"}).status_code == 303
    assert _hall(opened).limitations_of(una) == ()
    assert coach.post(f"{at}/limits/0/ended").status_code == 404


def test_a_person_leaves_for_good_when_their_name_is_typed(opened):
    owner, someone = opened.as_(Role.OWNER), _limited(opened)
    name = _hall(opened).person(someone).shown_name
    assert opened.as_(Role.COACH).post(f"{AT}/{someone}/forget").status_code == 403
    wrong = owner.post(f"{AT}/{someone}/forget", data={"typed_name": "x"})
    assert wrong.status_code == 422
    assert owner.post(f"{AT}/{someone}/forget", data={"typed_name": name}).status_code == 303
    assert _hall(opened).person(someone) is None
    assert name not in owner.get(AT).text
    assert owner.get(f"{AT}/{someone}").status_code == 404
    kept = opened.keeping.halls.opened(HALL).versions
    assert RecordKey(RecordKind.LIMITATIONS, someone) not in kept


def test_the_list_is_narrowed_by_name_and_need(opened):
    coach = opened.as_(Role.COACH)
    assert coach.get(AT + "?find=maren").text.count('class="as-link"') == 1
    new = coach.get(AT + "?only=new").text
    assert 0 < new.count('class="as-link"') < 40
    assert "Nobody is like that." in coach.get(AT + "?find=zzz").text

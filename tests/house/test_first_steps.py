"""What a newcomer does first: people one after the other, a whole rack, a list put right."""

import re

from roundwright.accounts.account import Role
from roundwright.people.due import DueKind
from roundwright.web.house.pages import person
from tests.house.a_house import HALL, TUESDAY, kit_of

AT = f"/at/{HALL}"
ROOM = f"{AT}/room"


def _form_of(page, item_id):
    found = re.search(
        rf'<form[^>]*>\s*<input[^>]*name="item_id" value="{item_id}".*?</form>', page, re.S
    )
    assert found
    sent = {}
    for field in re.findall(r"<input[^>]*>", found[0]):
        name, value = (
            re.search(r'name="([^"]*)"', field)[1],
            re.search(r'value="([^"]*)"', field)[1],
        )
        if 'type="checkbox"' not in field or " checked" in field:
            sent[name] = value
    return sent


def test_one_person_after_the_other_without_leaving_the_page(opened):
    coach = opened.as_(Role.COACH)
    sent = {"shown_name": "Quill <b>", "level": "3", "classes_done": "12", "another": "yes"}
    went = coach.post(f"{AT}/people", data=sent)
    at = went.headers["location"]
    assert re.fullmatch(rf"{AT}/people\?added=p\d+#new", at)
    page = coach.get(at).text
    assert "Quill &lt;b&gt; is in the hall." in page
    people = opened.keeping.halls.opened(HALL).hall.people
    assert [p.classes_done for p in people if p.shown_name == "Quill <b>"] == [12]
    assert "is in the hall." not in coach.get(f"{AT}/people?added=p999").text


def test_a_whole_rack_in_one_go(opened):
    coach = opened.as_(Role.COACH)
    coach.post(ROOM + "/dumbbells", data={"mass": "2,5 17 kg, 19; 21", "count": "2"})
    counts = {d.unit_mass_g: d.count for d in kit_of(opened).dumbbells}
    assert [counts[g] for g in (2500, 17000, 19000, 21000)] == [2, 2, 2, 2]
    coach.post(ROOM + "/dumbbells", data={"mass": "17 19", "count": "0"})
    assert not {17000, 19000} & {d.unit_mass_g for d in kit_of(opened).dumbbells}
    before = kit_of(opened)
    for wrong in ("4 x", "4 300", "4,6,8", ""):
        assert (
            coach.post(ROOM + "/dumbbells", data={"mass": wrong, "count": "2"}).status_code == 422
        )
    assert kit_of(opened) == before


def test_an_item_is_changed_where_it_stands_and_taken_off(opened):
    coach = opened.as_(Role.COACH)
    item = next(i for i in kit_of(opened).items if i.strength and i.height)
    sent = _form_of(coach.get(ROOM).text, item.id)
    coach.post(ROOM + "/items", data=sent)
    assert next(i for i in kit_of(opened).items if i.id == item.id) == item
    more = sent | {"count": str(item.count + 2)}
    assert coach.post(ROOM + "/items", data=more).status_code == 303
    assert next(i for i in kit_of(opened).items if i.id == item.id).count == item.count + 2
    stale = coach.post(ROOM + "/items", data=sent)
    assert stale.status_code == 409, "somebody else had it changed meanwhile"
    assert next(i for i in kit_of(opened).items if i.id == item.id).count == item.count + 2
    off = _form_of(coach.get(ROOM).text, item.id) | {"count": "0"}
    coach.post(ROOM + "/items", data=off)
    assert item.id not in {i.id for i in kit_of(opened).items}


def test_an_assistant_is_offered_no_change_of_an_item(opened):
    page = opened.as_(Role.ASSISTANT).get(ROOM).text
    assert 'name="item_id"' not in page


def test_everything_that_is_due_leads_to_where_it_is_answered(opened):
    kinds = person.ABOUT_SCREEN + person.ABOUT_CLEARANCE + person.ABOUT_LIMITS
    kinds += person.ABOUT_AGREEMENTS
    assert sorted(kinds) == sorted(DueKind)
    coach = opened.as_(Role.COACH)
    at = coach.post(f"{AT}/people", data={"shown_name": "Quill"}).headers["location"]
    due = re.search(r'<ul class="know">(.*?)</ul>', coach.get(at).text, re.S)[1]
    links = re.findall(r'href="([^"]*)"', due)
    assert len(links) == due.count("<li>") == 5
    assert {link.removeprefix(at) for link in links} == {"/screen", "/agreements"}
    for link in links:
        assert coach.get(link).status_code == 200


def test_what_a_class_needs_leads_to_the_class(opened):
    week = opened.as_(Role.COACH).get(f"{AT}/week?begins={TUESDAY}").text
    link = re.search(r'<a href="([^"]*tuesday_circuit/[^"]*)">Not planned yet', week)
    assert link
    assert opened.as_(Role.COACH).get(link[1]).status_code == 200


def test_the_room_leads_to_where_it_is_said_what_is_worth_buying(opened):
    page = opened.as_(Role.COACH).get(ROOM).text
    listed = page.split("What is worth buying")[1].split("</ul>")[0]
    links = re.findall(r'href="([^"]*)"', listed)
    assert f"{AT}/class/tuesday_circuit/{TUESDAY}/" in links
    assert len(links) == len(opened.keeping.halls.opened(HALL).hall.classes)
    assert "What is worth buying" not in opened.as_(Role.ASSISTANT).get(ROOM).text

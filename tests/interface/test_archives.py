"""A whole hall taken out and in by a program: whole, with its rights, and no word lost."""

from base64 import b64decode, b64encode

from roundwright.accounts.account import Role
from roundwright.web.interface.application import AT
from tests.house.a_house import HALL, a_house


def test_a_hall_goes_out_is_looked_at_and_comes_in() -> None:
    with a_house() as house:
        owner = house.as_(Role.OWNER)
        taken = owner.get(f"{AT}/halls/{HALL}/archive").json()
        assert b64decode(taken["archive"]).startswith(b"PK")
        sent = {"archive": taken["archive"]}
        looked = owner.post(f"{AT}/halls/{HALL}/archive/look", json=sent).json()
        assert looked["name"] == "Tern Quay Hall"
        assert looked["lost"] == []
        assert {k["changed"] + k["new"] + k["gone"] for k in looked["compared"]} == {0}
        new = owner.post(f"{AT}/archives", json=sent)
        assert new.status_code == 201
        again = owner.get(f"{AT}/halls/{new.json()['hall_id']}/archive").json()
        assert again["archive"] == taken["archive"]
        late = sent | {"base_version": taken["version"] + 1}
        assert owner.put(f"{AT}/halls/{HALL}/archive", json=late).status_code == 409
        kept = owner.put(f"{AT}/halls/{HALL}/archive", json=sent | {"base_version": 1})
        assert kept.status_code == 200, kept.text
        assert house.as_(Role.COACH).get(f"{AT}/halls/{HALL}/archive").status_code == 403


def test_what_is_no_archive_is_refused_in_words() -> None:
    with a_house() as house:
        owner = house.as_(Role.OWNER)
        for packed in ("%%%", b64encode(b"nothing packed").decode()):
            answer = owner.post(f"{AT}/archives", json={"archive": packed})
            assert answer.status_code == 422
            assert answer.headers["content-type"] == "application/problem+json"

"""A whole hall saved and taken in on a page: looked at first, whole or not at all, no word lost."""

import io
import zipfile
from datetime import date

import pytest

from roundwright.accounts.account import Role
from roundwright.bootstrap.hall_archive import archive_of, look_at_archive
from roundwright.people.clearance_record import ClearanceRecord, GivenBy
from roundwright.people.limitation import SetBy
from roundwright.people.person import Clearance
from roundwright.services.keeping.lost_words import lost_words
from roundwright.services.keeping.records import RecordKind
from tests.house.a_house import HALL, TOOL, AHouse, a_house

AT = f"/at/{HALL}/whole-hall"


@pytest.fixture
def house():
    with a_house() as opened:
        yield opened


@pytest.fixture(scope="module")
def unchanged():
    """Give a house that no test changes."""
    with a_house() as opened:
        yield opened


def saved(house: AHouse) -> bytes:
    answer = house.as_(Role.OWNER).post(AT + "/save")
    assert answer.status_code == 200
    assert answer.headers["content-type"] == "application/zip"
    return answer.content


def looked_at(client, packed: bytes) -> tuple[int, str]:
    answer = client.post(AT + "/look", files={"archive": ("hall.zip", packed)})
    return answer.status_code, answer.text


def other(packed: bytes, name: str, change) -> bytes:
    """Give an archive with one file changed; None leaves it out."""
    made = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(packed)) as old, zipfile.ZipFile(made, "w") as new:
        for one in old.infolist():
            text = old.read(one)
            content = change(text) if one.filename == name else text
            if content is not None:
                new.writestr(one.filename, content)
    return made.getvalue()


def archive(*files: tuple[str, bytes]) -> bytes:
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w") as new:
        for name, content in files:
            new.writestr(name, content)
    return made.getvalue()


def test_a_hall_comes_out_and_in_and_out_with_equal_bytes(house: AHouse) -> None:
    client, packed = house.as_(Role.OWNER), saved(house)
    assert packed == saved(house)
    status, page = looked_at(client, packed)
    assert status == 200
    assert "Tern Quay Hall" in page
    answer = client.post(AT + "/take-in", data={"place": "another"})
    assert answer.status_code == 303
    assert answer.headers["location"] == "/at/tern_quay_hall/week"
    assert archive_of(house.keeping, "tern_quay_hall", TOOL) == packed
    assert client.get("/at/tern_quay_hall/week").status_code == 200


def test_what_would_be_other_is_counted_and_nothing_is_kept_before(house: AHouse) -> None:
    packed = saved(house)
    fewer = other(packed, "classes/friday_heavy.toml", lambda _: None)
    look = look_at_archive(house.keeping, fewer, HALL)
    counts = {k.kind: (k.new, k.changed, k.gone) for k in look.compared}
    assert counts[RecordKind.CLASS] == (0, 0, 1)
    assert counts[RecordKind.PERSON] == (0, 0, 0)
    client = house.as_(Role.OWNER)
    assert "Take it in, in the place of" in looked_at(client, fewer)[1]
    assert "friday_heavy" in house.keeping.halls.opened(HALL).hall.classes
    assert client.post(AT + "/take-in", data={"place": "this"}).status_code == 303
    assert "friday_heavy" not in house.keeping.halls.opened(HALL).hall.classes
    again = client.post(AT + "/take-in", data={"place": "this"})
    assert again.status_code == 409


def test_a_hall_that_was_changed_since_is_not_replaced(house: AHouse) -> None:
    client, packed = house.as_(Role.OWNER), saved(house)
    looked_at(client, packed)
    hall = house.keeping.halls.opened(HALL)
    house.keeping.halls.replace(HALL, hall.hall, hall.version, TOOL)
    assert client.post(AT + "/take-in", data={"place": "this"}).status_code == 409


@pytest.mark.parametrize(
    ("packed", "told"),
    [
        (b"no archive", "an archive of a hall"),
        (archive(("../hall.toml", b"")), "../hall.toml"),
        (archive(("/etc/hall.toml", b"")), "/etc/hall.toml"),
        (archive(("a/b/c/hall.toml", b""), ("x.toml", b"")), "a/b/c/hall.toml"),
        (archive(("hall.exe", b""), ("hall.toml", b"")), "hall.exe"),
        (
            archive(
                ("hall.toml", b"schema = 3"),
            ),
            "hall.toml",
        ),
        (b"", "Choose a file."),
    ],
)
def test_what_is_no_hall_is_refused_in_words(unchanged: AHouse, packed: bytes, told: str) -> None:
    status, page = looked_at(unchanged.as_(Role.OWNER), packed)
    assert status == 422
    assert "Nothing was taken in" in page
    if packed and packed != b"no archive":
        assert told in page


def test_a_folder_packed_as_such_is_understood(unchanged: AHouse) -> None:
    packed = saved(unchanged)
    with zipfile.ZipFile(io.BytesIO(packed)) as old:
        inside = archive(*((f"tern/{one}", old.read(one)) for one in old.namelist()))
    assert look_at_archive(unchanged.keeping, inside, HALL).lost == ()


def test_only_an_owner_may(unchanged: AHouse) -> None:
    for role in (Role.COACH, Role.ASSISTANT):
        client = unchanged.as_(role)
        assert client.get(AT).status_code == 403
        assert client.post(AT + "/save").status_code == 403
        assert client.post(AT + "/take-in").status_code == 403


def test_faults_never_tell_a_health_value(unchanged: AHouse) -> None:
    broken = other(
        saved(unchanged), "limitations.csv", lambda text: text.replace(b",avoid,", b",gravely,")
    )
    status, page = looked_at(unchanged.as_(Role.OWNER), broken)
    assert status == 422
    assert "limitations.csv" in page
    assert "gravely" not in page


def hall_with(house: AHouse, **changes):
    return house.keeping.halls.opened(HALL).hall.model_copy(update=changes)


def record(on: int, given_by: GivenBy = GivenBy.CLINICIAN) -> ClearanceRecord:
    return ClearanceRecord(
        person="p003",
        clearance=Clearance.MODERATE_ONLY,
        given_by=given_by,
        given_by_name="Dr. Sorrel",
        on=date(2026, 2, on),
    )


def test_a_clinicians_word_is_lost_by_its_absence_by_an_older_and_by_anothers(unchanged) -> None:
    was = hall_with(unchanged, clearances=(record(10),))
    assert lost_words(was, hall_with(unchanged, clearances=())) == ("p003",)
    assert lost_words(was, hall_with(unchanged, clearances=(record(9),))) == ("p003",)
    assert lost_words(was, hall_with(unchanged, clearances=(record(11, GivenBy.COACH),))) == (
        "p003",
    )
    assert lost_words(was, hall_with(unchanged, clearances=(record(11),))) == ()
    assert lost_words(was, was) == ()
    assert lost_words(was, hall_with(unchanged, clearances=(), people=())) == ()


def test_a_clinicians_limit_and_not_today_do_not_fall_away(unchanged: AHouse) -> None:
    hall = unchanged.keeping.halls.opened(HALL).hall
    row = hall.limitations[0].model_copy(update={"set_by": SetBy.CLINICIAN})
    was = hall_with(unchanged, limitations=(row, *hall.limitations[1:]))
    assert lost_words(was, hall) == (row.person_id,)
    back = hall.people[0].model_copy(update={"clearance": Clearance.NOT_CLEARED})
    held = hall_with(unchanged, people=(back, *hall.people[1:]))
    assert lost_words(held, hall) == (back.person_id,)
    answered = record(12).model_copy(update={"person_id": back.person_id})
    assert lost_words(held, hall_with(unchanged, clearances=(answered,))) == ()


def test_the_page_and_the_shelf_refuse_to_lose_a_word(house: AHouse) -> None:
    packed = saved(house)
    kept = house.keeping.halls.opened(HALL)
    held = kept.hall.model_copy(update={"clearances": (record(10),)})
    house.keeping.halls.replace(HALL, held, kept.version, TOOL)
    client = house.as_(Role.OWNER)
    page = looked_at(client, packed)[1]
    assert "fall away of p003" in page
    assert "Take it in, in the place of" not in page
    answer = client.post(AT + "/take-in", data={"place": "this"})
    assert answer.status_code == 422
    assert "p003" in answer.text
    assert house.keeping.halls.opened(HALL).hall.clearances == (record(10),)

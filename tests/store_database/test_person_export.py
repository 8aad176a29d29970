"""A person gets everything that is kept of them, and nothing of anybody else."""

import csv
import io
import json

import pytest

from roundwright.foundation.errors import NotFoundError, StoreError
from roundwright.services.keeping.person_export import person_document, person_files
from tests.hall.hall_files import CLASS
from tests.store.test_plan_files import PLAN_ID, a_document
from tests.store_database.a_kept_hall import HALL_ID, a_hall, begun, by
from tests.support.plans import a_fitted_plan, the_demo_hall


@pytest.fixture(autouse=True)
def gate_that_allows(monkeypatch):
    monkeypatch.setattr("roundwright.store.database.kept_plans.judged", lambda document: document)


@pytest.fixture
def house(kept):
    cell = '\n[[keep]]\nperson = "p001"\nposition = 1\nmass = "8 kg"\n'
    begun(kept, a_hall(tuesday=CLASS + cell))
    return kept


def test_a_document_holds_all_of_one_person(house):
    house.plans.keep(HALL_ID, a_document(), by())
    told = house.people.document(HALL_ID, "p001", by("owner", 5))
    assert told["schema"] == "roundwright.person/1"
    assert told["made_at"] == "2026-03-01T09:05:00.000Z"
    records = told["records"]
    assert set(records) == {"person", "clearance", "limitations"}
    assert records["person"]["body_mass_g"] == 62_500
    assert records["clearance"]["clearance"] == "cleared"
    assert [row["concern"] for row in records["limitations"]["limitations"]] == ["knee", "neck"]
    (stands,) = told["classes"]
    assert (stands["class_id"], stands["by_name"]) == ("tuesday", False)
    assert stands["kept"][0]["person"] == "p001"
    (plan,) = told["plans"]
    assert (plan["plan_id"], plan["revision"]) == (PLAN_ID, 1)
    assert plan["known"]["body_mass_g"] == a_document().problem.people["p001"].body_mass_g
    assert [one["what"] for one in told["trail"]] == ["person.exported"]


def test_of_a_plan_it_holds_cells_dose_and_totals_of_that_person_alone():
    document, demo = a_fitted_plan(), the_demo_hall()
    who = document.core.people[0].person_id
    told = person_document(demo, who, [document], [], by().at)
    (plan,) = told["plans"]
    cells = [one for one in document.core.cells if one.person_id == who]
    assert len(cells) >= 1
    assert plan["cells"] == [one.model_dump(mode="json") for one in cells]
    assert len(plan["dose"]) == len(plan["totals"]) == 1
    others = {p.person_id for p in demo.people} - {who}
    text = json.dumps(told)
    assert [one for one in others if f'"{one}"' in text] == []
    assert [p.shown_name for p in demo.people if p.person_id != who and p.shown_name in text] == []
    files = person_files(told)
    rows = list(csv.DictReader(io.StringIO(files["plan_cells.csv"].decode())))
    assert [int(row["position"]) for row in rows] == [one.position for one in cells]
    assert json.loads(files["person.json"]) == told


def test_it_is_written_to_a_folder_of_its_own(house, tmp_path):
    house.people.take_out(HALL_ID, "p003", tmp_path / "for_ivo", by())
    names = sorted(path.name for path in (tmp_path / "for_ivo").iterdir())
    assert names == [
        *("classes.csv", "person.json", "plan_cells.csv", "records.csv", "trail.csv"),
    ]
    text = (tmp_path / "for_ivo" / "records.csv").read_text()
    assert "person,shown_name,Ivo K" in text
    assert "asthma" in text
    assert "Maren" not in "".join(p.read_text() for p in (tmp_path / "for_ivo").iterdir())
    assert (tmp_path / "for_ivo").stat().st_mode & 0o077 == 0
    with pytest.raises(StoreError, match="already"):
        house.people.take_out(HALL_ID, "p003", tmp_path / "for_ivo", by())


def test_somebody_who_is_not_there_is_not_found(house, tmp_path):
    with pytest.raises(NotFoundError, match="p077"):
        house.people.take_out(HALL_ID, "p077", tmp_path / "x", by())
    assert not (tmp_path / "x").exists()
    assert house.trail.entries(HALL_ID, "p077") == ()

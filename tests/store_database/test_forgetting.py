"""A person leaves for good: nothing of them stays in any table, in the file, or in a plan."""

from datetime import date

import pytest
from sqlalchemy import MetaData, select

from roundwright.foundation.errors import BadInputError, NotFoundError
from roundwright.library.vocabulary import Demand
from roundwright.plan.changing.change import PersonCame, PersonLimited
from roundwright.services.keeping.forgetting import nobody_in_particular
from roundwright.services.keeping.records import RecordEdit, RecordKind
from tests.hall.hall_files import CLASS
from tests.store.test_plan_files import PLAN_ID, a_document
from tests.store_database.a_kept_hall import HALL_ID, PEOPLE, a_hall, begun, by, key, person_edit

NAME = "Canaria Xq"
MASS_G = 98_765
MASS_WORDS = "98.765"
REASON = "canary said so 4711"
PEOPLE_WITH = f"{PEOPLE}p004,{NAME},f,{MASS_WORDS},moderate_only,canary kit\n"
LIMITS = f"""person_id,region_or_condition,side,amount,from_on,until_on,weeks,set_by,\
override_demand,override_reason,override_by,override_until_on
p004,knee,right,avoid,2026-01-05,,,person,impact,{REASON},coach,2026-09-01
p001,knee,right,avoid,2026-01-05,,,person,,,,
"""
CANARIES = (NAME, str(MASS_G), MASS_WORDS, REASON, "canary kit", "77123")


@pytest.fixture(autouse=True)
def gate_that_allows(monkeypatch):
    monkeypatch.setattr("roundwright.store.database.kept_plans.judged", lambda document: document)


@pytest.fixture
def hall():
    named = CLASS.replace("rounds = 2\n", 'rounds = 2\npeople = ["p001", "p004"]\n')
    kept_cell = '\n[[keep]]\nperson = "p004"\nposition = 1\nmass = "8 kg"\n'
    return a_hall(people=PEOPLE_WITH, limitations=LIMITS, tuesday=named + kept_cell)


def a_plan_with_p004(plan_id=PLAN_ID, revision=1, limited=False):
    document = a_document()
    problem = document.problem
    person = problem.people["p001"].model_copy(
        update={"body_mass_g": MASS_G, "caps": {Demand.IMPACT: 0} if limited else {}, "level": 3}
    )
    worked = problem.recent.model_copy(update={"worked": {"p004": (), "p001": ()}})
    problem = problem.model_copy(
        update={"people": problem.people | {"p004": person}, "recent": worked}
    )
    core = document.core.model_copy(update={"plan_id": plan_id, "revision": revision})
    return document.model_copy(update={"problem": problem, "core": core})


def with_changes(kept):
    """Keep a plan to which p004 came and in which they were limited then."""
    first = kept.plans.keep(HALL_ID, a_plan_with_p004(), by())
    before = first.revisions
    known = first.document.problem.people["p004"].model_copy(update={"effort_cap": 7})
    came = PersonCame(person="p004", known=known.model_copy(update={"body_mass_g": 77_123}))
    changes = (came, PersonLimited(person="p004", caps={Demand.IMPACT: 0}))
    for number, change in enumerate(changes, start=2):
        plan = a_plan_with_p004(revision=number, limited=True)
        grown = before.with_change(number - 1, plan.core.digest, change, "{p004} came.")
        before = kept.plans.keep_change(HALL_ID, plan, grown, before, by()).revisions
    return before


def everything_in(kept):
    """Give every value of every row of every table as one text."""
    told = []
    tables = MetaData()
    with kept.database.reading() as connection:
        tables.reflect(connection)
        for table in tables.sorted_tables:
            told += [str(tuple(row)) for row in connection.execute(select(table))]
    return "\n".join(told)


def test_nothing_of_a_person_stays_in_any_table_or_file(kept, hall):
    begun(kept, hall)
    with_changes(kept)
    before = everything_in(kept)
    assert all(one in before for one in (NAME, str(MASS_G), REASON, "canary kit", "77123"))
    assert kept.halls.forget_person(HALL_ID, "p004", by("owner", 9)) == 1
    after = everything_in(kept)
    assert [one for one in CANARIES if one in after] == []
    assert "Maren T" in after
    opened = kept.halls.opened(HALL_ID)
    assert [p.person_id for p in opened.hall.people] == ["p001", "p002", "p003"]
    assert opened.hall.classes["tuesday"].people == ("p001",)
    assert opened.hall.classes["tuesday"].keep == ()
    if kept.database.file is not None:
        files = [path for path in kept.database.file.parent.iterdir() if path.is_file()]
        content = b"".join(path.read_bytes() for path in files)
        assert b"Maren T" in content
        assert [one for one in CANARIES if one.encode() in content] == []


def test_kept_plans_stay_with_core_and_digest_but_empty_of_the_person(kept, hall):
    begun(kept, hall)
    with_changes(kept)
    was = [kept.plans.opened(HALL_ID, PLAN_ID, number) for number in (1, 2, 3)]
    kept.halls.forget_person(HALL_ID, "p004", by())
    for number, before in enumerate(was, start=1):
        now = kept.plans.opened(HALL_ID, PLAN_ID, number)
        assert now.document.core == before.document.core
        assert now.revisions.at(number).digest == before.document.core.digest
        assert now.document.verdict == before.document.verdict
        assert now.document.problem.people["p004"] == nobody_in_particular("p004")
        assert now.document.problem.people["p001"] == before.document.problem.people["p001"]
        assert list(now.document.problem.recent.worked) == ["p001"]
        assert now.revisions.at(number).change is None
        assert now.revisions.at(number).sentence == before.revisions.at(number).sentence


def test_the_trail_keeps_that_it_was_done(kept, hall):
    begun(kept, hall)
    kept.plans.keep(HALL_ID, a_plan_with_p004(), by())
    kept.halls.forget_person(HALL_ID, "p004", by("owner", 9, "a1"))
    told = kept.trail.entries(HALL_ID, "p004")
    assert [(one.what, one.account_id, one.about) for one in told if "deleted" in one.what] == [
        ("person.deleted", "a1", "1 plan emptied")
    ]


def test_an_id_is_never_given_again(kept, hall):
    begun(kept, hall)
    kept.halls.forget_person(HALL_ID, "p004", by())
    assert kept.halls.person_ids(HALL_ID) == {"p001", "p002", "p003", "p004"}


def test_a_plan_read_before_cannot_bring_the_person_back(kept, hall):
    begun(kept, hall)
    before = with_changes(kept)
    kept.halls.forget_person(HALL_ID, "p004", by())
    plan = a_plan_with_p004(revision=4)
    grown = before.with_change(3, plan.core.digest, PersonLimited(person="p001"), "")
    kept.plans.keep_change(HALL_ID, plan, grown, before, by())
    kept.plans.keep(HALL_ID, a_plan_with_p004("8b6d3f6e-0c2f-4e57-9f0a-3c8f5f1f2a99"), by())
    assert [one for one in CANARIES if one in everything_in(kept)] == []


def test_plans_without_the_person_are_left_alone(kept, hall):
    begun(kept, hall)
    document = a_document()
    kept.plans.keep(HALL_ID, document, by())
    assert kept.halls.forget_person(HALL_ID, "p004", by()) == 0
    assert kept.plans.opened(HALL_ID, PLAN_ID).document == document
    assert kept.plans.plans(HALL_ID, {date(2020, 1, 1)}) == ()


def test_somebody_who_is_not_there_is_not_found(kept, hall):
    begun(kept, hall)
    with pytest.raises(NotFoundError, match="p077"):
        kept.halls.forget_person(HALL_ID, "p077", by())


def test_a_class_that_nobody_would_be_left_in_stops_it_and_is_named(kept):
    alone = CLASS.replace("rounds = 2\n", 'rounds = 2\npeople = ["p002"]\n')
    begun(kept, a_hall(tuesday=alone))
    with pytest.raises(BadInputError) as caught:
        kept.halls.forget_person(HALL_ID, "p002", by())
    assert [(f.code, f.file) for f in caught.value.faults] == [
        ("people.none", "classes/tuesday.toml")
    ]
    assert kept.halls.opened(HALL_ID).hall.person("p002") is not None


def test_a_person_removed_by_an_edit_takes_their_records_along_or_is_refused(kept):
    begun(kept)
    alone = RecordEdit(key(RecordKind.PERSON, "p003"), None, 1)
    with pytest.raises(BadInputError, match="person of this hall"):
        kept.halls.edit(HALL_ID, [alone], by())
    kinds = (RecordKind.CLEARANCE, RecordKind.LIMITATIONS)
    every = [alone, *(RecordEdit(key(kind, "p003"), None, 1) for kind in kinds)]
    changed = kept.halls.edit(HALL_ID, [*every, person_edit(1)], by())
    assert [p.person_id for p in changed.hall.people] == ["p001", "p002"]

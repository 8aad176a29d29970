import json
from pathlib import Path

import pytest

from roundwright.foundation.errors import (
    BadInputError,
    ChangedMeanwhileError,
    NotFoundError,
    StoreError,
)
from roundwright.plan.core import Core, CoreClass, CoreExercise
from roundwright.plan.document import Facts, PlanDocument
from roundwright.plan.outcome import Outcome, Status, StoppedBy
from roundwright.plan.verdict import Verdict
from roundwright.store.plan_files import plan_bytes, read_plan, write_plan
from tests.support import worked_count

PLAN_ID = "8b6d3f6e-0c2f-4e57-9f0a-3c8f5f1f2a10"


def a_document(name_of_class: str = "tuesday", wall_ms: int = 5) -> PlanDocument:
    problem = worked_count.problem()
    spec = problem.spec
    core = Core(
        plan_id=PLAN_ID,
        revision=1,
        class_=CoreClass(
            class_id=name_of_class,
            starts_on=spec.starts_on,
            starts_at_local=spec.starts_at_local,
            slot_s=spec.slot_s,
            room_id=spec.room_id,
            format=spec.format,
            groups=(("p001",), ("p002",)),
            rounds=spec.rounds,
            positions=spec.positions,
            after_last_round=spec.after_last_round,
        ),
        exercises=tuple(
            CoreExercise(position=e.position, exercise_id=e.exercise_id, count=e.count)
            for e in spec.exercises
        ),
        people=(),
        cells=(),
        timeline=(),
    )
    outcome = Outcome(status=Status.FOUND, stopped_by=StoppedBy.BUDGET, wall_ms=wall_ms)
    return PlanDocument(
        core=core, problem=problem, outcome=outcome, verdict=Verdict(), facts=Facts()
    )


def test_a_plan_comes_back_as_it_was(tmp_path):
    document = a_document()
    path = write_plan(document, tmp_path / "plans")
    assert path.name == f"{PLAN_ID}.r1.json"
    again = read_plan(path)
    assert again == document
    assert again.core.digest == document.core.digest


def test_the_file_is_the_same_every_time_and_names_its_schema(tmp_path):
    path = write_plan(a_document(), tmp_path)
    assert path.read_bytes() == plan_bytes(a_document()) == plan_bytes(read_plan(path))
    assert json.loads(path.read_text())["schema"] == "roundwright.plan/1"


def test_fields_of_a_newer_program_survive(tmp_path):
    values = json.loads(plan_bytes(a_document()))
    values["weather"] = {"wbgt": 21.5}
    values["core"]["class"]["mood"] = "calm"
    path = tmp_path / "newer.json"
    path.write_text(json.dumps(values))
    written = json.loads(write_plan(read_plan(path), tmp_path / "out").read_text())
    assert written["weather"] == {"wbgt": 21.5}
    assert written["core"]["class"]["mood"] == "calm"


def test_verdict_and_outcome_of_the_same_core_may_be_written_anew(tmp_path):
    write_plan(a_document(wall_ms=5), tmp_path)
    path = write_plan(a_document(wall_ms=9), tmp_path)
    assert read_plan(path).outcome.wall_ms == 9
    assert [p.name for p in tmp_path.iterdir()] == [path.name]


def test_another_core_never_replaces_a_revision(tmp_path):
    path = write_plan(a_document(), tmp_path)
    before = path.read_bytes()
    with pytest.raises(ChangedMeanwhileError, match="another plan"):
        write_plan(a_document("wednesday"), tmp_path)
    assert path.read_bytes() == before


def test_a_missing_plan_is_not_found(tmp_path):
    with pytest.raises(NotFoundError, match=r"one\.r1\.json"):
        read_plan(tmp_path / "one.r1.json")


@pytest.mark.parametrize(
    ("content", "code", "line"),
    [
        (b"\xff\xfe", "file.not_text", None),
        (b'{\n "schema": ', "file.syntax", 2),
        (b"[]", "file.syntax", None),
        (b"[" * 100_000, "file.syntax", None),
        (b"{}", "file.schema", None),
        (b'{"schema": "roundwright.plan/0"}', "file.schema", None),
        (b'{"schema": "roundwright.class/1"}', "file.schema", None),
        (b'{"schema": 1}', "file.schema", None),
    ],
)
def test_what_is_no_plan_is_refused(tmp_path, content, code, line):
    path = tmp_path / "odd.json"
    path.write_bytes(content)
    with pytest.raises(BadInputError) as caught:
        read_plan(path)
    assert [(f.code, f.line) for f in caught.value.faults] == [(code, line)]


def test_a_later_schema_is_refused_in_words(tmp_path):
    path = tmp_path / "later.json"
    path.write_text('{"schema": "roundwright.plan/2"}')
    with pytest.raises(BadInputError, match="newer version"):
        read_plan(path)


def test_wrong_values_are_named_by_field_and_never_shown(tmp_path):
    values = json.loads(plan_bytes(a_document()))
    del values["verdict"]
    values["problem"]["people"]["p001"]["actions"] = {"zzmarked": "zzmarked"}
    path = tmp_path / "wrong.json"
    path.write_text(json.dumps(values))
    with pytest.raises(BadInputError) as caught:
        read_plan(path)
    fields = {(f.code, f.field) for f in caught.value.faults}
    assert ("field.missing", "verdict") in fields
    assert ("field.value", "problem.people.p001.actions") in fields
    assert "zzmarked" not in repr(caught.value) + str(caught.value.as_problem())
    assert caught.value.__cause__ is None
    assert caught.value.__context__ is None


def test_a_write_that_fails_leaves_nothing(tmp_path, monkeypatch):
    def full(self, target):
        raise OSError("no space left")

    monkeypatch.setattr(Path, "replace", full)
    with pytest.raises(StoreError):
        write_plan(a_document(), tmp_path)
    assert list(tmp_path.iterdir()) == []

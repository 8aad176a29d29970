"""Reading all plans of a folder: in the order kept, bad files named, other days left out."""

import os
from datetime import date

import pytest

from roundwright.store import plan_files
from roundwright.store.plan_files import read_plans, write_plan
from tests.store.test_plan_files import a_document

OTHER = "00000000-0000-4000-8000-00000000000{}"
DAY = a_document().core.class_.starts_on


def kept(folder, number, name="tuesday", revision=1, at=0):
    document = a_document(name)
    core = document.core.model_copy(update={"plan_id": OTHER.format(number), "revision": revision})
    path = write_plan(document.model_copy(update={"core": core}), folder)
    os.utime(path, ns=(at, at))
    return path


def names(found):
    return [plan.core.class_.class_id for plan in found.plans]


def test_a_folder_that_is_not_there_holds_no_plans(tmp_path):
    assert read_plans(tmp_path / "plans").plans == ()


def test_plans_come_in_the_order_in_which_they_were_kept(tmp_path):
    kept(tmp_path, 1, "second", at=2000)
    kept(tmp_path, 2, "first", at=1000)
    kept(tmp_path, 3, "third", at=2000)
    assert names(read_plans(tmp_path)) == ["first", "second", "third"]


def test_all_revisions_are_given(tmp_path):
    kept(tmp_path, 1, revision=2)
    kept(tmp_path, 1, revision=10)
    assert {p.core.revision for p in read_plans(tmp_path).plans} == {2, 10}


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (b"{", "file.syntax"),
        (b"\xff\xfe", "file.not_text"),
        (b"[]", "file.syntax"),
        (b'{"schema": "roundwright.plan/99"}', "file.schema"),
        (b'{"schema": "roundwright.plan/1"}', "field.missing"),
    ],
)
def test_a_bad_file_is_named_and_the_others_are_given(tmp_path, content, code):
    kept(tmp_path, 1)
    bad = kept(tmp_path, 2)
    bad.write_bytes(content)
    for days in (None, {DAY}):
        found = read_plans(tmp_path, days)
        assert names(found) == ["tuesday"]
        assert {f.file for f in found.faults} == {bad.name}
        assert code in {f.code for f in found.faults}


def test_other_files_are_not_plans(tmp_path):
    kept(tmp_path, 1)
    for name in ("notes.json", ".hidden.r1.json", "sheet.pdf"):
        (tmp_path / name).write_text("{", encoding="utf-8")
    found = read_plans(tmp_path)
    assert (len(found.plans), found.faults) == (1, ())


def test_plans_of_other_days_are_left_out(tmp_path):
    kept(tmp_path, 1)
    assert len(read_plans(tmp_path, {DAY}).plans) == 1
    assert read_plans(tmp_path, {date(2020, 1, 1)}).plans == ()


def test_a_file_that_is_too_large_is_named(tmp_path, monkeypatch):
    path = kept(tmp_path, 1)
    monkeypatch.setattr(plan_files, "LARGEST_PLAN", 10)
    found = read_plans(tmp_path, {DAY})
    assert [(f.code, f.file) for f in found.faults] == [("file.too_large", path.name)]

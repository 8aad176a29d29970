"""``roundwright change``: every command, what it says, its exit codes, and what it never says."""

import json
import multiprocessing
import shutil
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

import pytest

from roundwright.cli import change_desk
from roundwright.cli.change_commands import change
from roundwright.cli.main import main
from tests.changing_plans.some_plans import demo_using
from tests.cli.a_hall_folder import write_hall

SECOND = """
[[exercise]]
exercise = "hinges"
count = { value = 8, unit = "reps" }

[burst]
line = "bursts"
length = "30 s"
"""
MORE_PEOPLE = """p003,Ines V,1985,f,70,170,2,20,cleared
p004,Wim A,1985,m,70,170,2,20,not_cleared
"""


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    folder = write_hall(tmp_path_factory.mktemp("made") / "hall")
    wish = folder / "classes" / "tuesday.toml"
    text = wish.read_text(encoding="utf-8") + SECOND
    wish.write_text(
        text.replace("rounds = 2", 'rounds = 2\npeople = ["p001", "p002"]'), encoding="utf-8"
    )
    with (folder / "people.csv").open("a", encoding="utf-8") as file:
        file.write(MORE_PEOPLE)
    assert main(["fit", str(folder), "tuesday", "--on", "2026-03-03", "--budget", "quick"]) == 0
    return folder


@pytest.fixture
def own_process():
    """Ask for this to have the command start its own warm process, as it does for a coach."""


@pytest.fixture(autouse=True)
def _one_process_for_all(request, monkeypatch):
    if "own_process" in request.fixturenames:
        return

    @contextmanager
    def shared(adapters, hall, *, seed, budget):
        yield replace(
            demo_using(),
            library=hall.catalogue,
            rehearse=adapters.rehearse,
            seed=seed,
            budget=budget,
            units=hall.settings.units.value,
        )

    monkeypatch.setattr(change_desk, "changing", shared)


@pytest.fixture
def plan(made, tmp_path, capsys):
    folder = tmp_path / "hall"
    shutil.copytree(made, folder)
    capsys.readouterr()
    return next((folder / "plans").glob("*.r1.json"))


def _current(plan):
    return plan.with_name(plan.name.replace(".r1.json", ".revisions.json"))


def _change(*arguments):
    return main(["change", *(str(a) for a in arguments)])


COMMANDS = (
    (("leaves", "p002"), "Olu T is out of the class"),
    (("leaves", "olu t"), "Olu T is out of the class"),
    (("joins", "p003"), "Ines V joins"),
    (("walk-in", "--first", "no", "--second", "no", "--third", "yes"), "walk-in 1 joins"),
    (("hurts", "p001", "elbow"), "Ines R goes easier from here on"),
    (("kit-lost", "4 kg", "--units", "2"), "Without two dumbbells of 4 kg"),
    (("kit-lost", "chair"), "Without 1 × chair"),
    (("kit-back", "2 kg", "--units", "4"), "With four dumbbells of 2 kg more"),
    (("slot", "50 min"), "The slot is 50:00"),
    (("swap", "1"), "Place 1 is"),
    (("swap", "1", "push_ups", "--count", "6 reps"), "Place 1 is push-up now"),
    (("order", "2", "1"), "The order is hinge and squat"),
    (("leave-out", "squats"), "Nobody is given squat"),
    (("set", "p001", "1", "--load", "2 kg"), "What Ines R does at squat (place 1) is fixed"),
    (("unset", "p001", "1"), "What Ines R does at squat (place 1) is free again"),
    (("instead", "p001", "1", "push_ups"), "Ines R does push-up at squat (place 1) instead"),
    (("sit-out", "p001", "1"), "Ines R has nothing to do at squat (place 1)"),
    (("drop-round",), "One round less: one round"),
    (("shorter-rests", "--rest", "40 s"), "Rests take 40 s and changes 15 s"),
    (("fewer-reps", "75"), "75 % of each count"),
    (("shorter-burst", "20 s"), "The burst takes 20 s"),
    (("shorter-burst",), "There is no burst"),
)


@pytest.mark.parametrize(("arguments", "said"), COMMANDS, ids=lambda x: "-".join(x)[:40])
def test_each_command_keeps_a_revision_and_says_it(plan, capsys, arguments, said):
    name, *more = arguments
    assert _change(name, plan, *more) in (0, 4)
    told = capsys.readouterr()
    assert told.out.startswith(said)
    for label in ("Length", "Kit in use at once", "Push to pull", "Versions to teach", "On time"):
        assert f"  {label}: " in told.out
    kept = plan.with_name(plan.name.replace(".r1.", ".r2."))
    assert str(kept) in told.out
    core = json.loads(kept.read_text(encoding="utf-8"))["core"]
    assert (core["revision"], core["parent_revision"], core["made_by"]) == (2, 1, "coach")
    assert main(["check", str(kept)]) in (0, 4)


def test_every_command_is_tried():
    tried = {arguments[0] for arguments, _ in COMMANDS}
    known = {c.name or c.callback.__name__ for c in change.registered_commands}
    assert known - tried == {"undo", "redo", "history", "finish-by"}


def test_nothing_is_kept_where_it_is_only_shown(plan, capsys):
    assert _change("leaves", plan, "p002", "--show-only") == 0
    assert "Nothing was kept." in capsys.readouterr().out
    assert [p.name for p in plan.parent.iterdir()] == [plan.name]


def test_undo_redo_and_history(plan, capsys):
    old = plan.read_bytes()
    assert _change("undo", plan) == 7
    assert _change("leaves", plan, "p002") == 0
    capsys.readouterr()
    assert _change("undo", _current(plan)) == 0
    told = capsys.readouterr().out
    assert told.startswith("Undone: Olu T is out of the class; nobody else changes.")
    assert str(plan) in told
    assert plan.read_bytes() == old
    assert _change("history", plan) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == "* 1  The first plan."
    assert lines[1].startswith("- 2 (on 1)  Olu T is out of the class")
    assert _change("redo", plan) == 0
    assert capsys.readouterr().out.startswith("Done again: Olu T is out")
    assert _change("redo", _current(plan)) == 7
    assert "nothing to redo" in capsys.readouterr().err


def test_moves_and_history_as_json(plan, capsys):
    assert _change("leaves", plan, "p002", "--json") == 0
    changed = json.loads(capsys.readouterr().out)
    assert (changed["schema"], changed["revision"], changed["parent_revision"]) == (
        "roundwright.changed/1",
        2,
        1,
    )
    assert changed["said"]["person"] == "p002"
    assert changed["sentence"].startswith("{p002} is out of the class")
    assert _change("undo", _current(plan), "--json") == 0
    moved = json.loads(capsys.readouterr().out)
    assert (moved["schema"], moved["revision"]) == ("roundwright.moved/1", 1)
    assert (moved["can_undo"], moved["can_redo"]) == (False, True)
    assert _change("history", plan, "--json") == 0
    told = json.loads(capsys.readouterr().out)
    assert told["schema"] == "roundwright.history/1"
    assert [r["is_current"] for r in told["revisions"]] == [True, False]
    assert told["revisions"][1]["digest"] == changed["digest"]


def test_an_edit_of_an_older_revision_is_told_what_happened(plan, capsys):
    assert _change("leaves", plan, "p002") == 0
    capsys.readouterr()
    for arguments in (("drop-round",), ("undo",), ("finish-by", "18:20")):
        name, *more = arguments
        assert _change(name, plan, *more) == 8
        told = capsys.readouterr()
        assert "Olu T is out of the class" in told.err
        assert "p002" not in told.err
    assert _change("drop-round", plan, "--json") == 8
    problem = json.loads(capsys.readouterr().out)
    assert problem["status"] == 409
    assert not plan.with_name(plan.name.replace(".r1.", ".r3.")).exists()


FAULTS = (
    (("leaves", "Nemo"), 7, "Nobody is called 'Nemo'"),
    (("leaves", "p003"), 3, "somebody who is in the class"),
    (("joins", "p001"), 3, "not in the class yet"),
    (("joins", "p004"), 5, "Speak to Wim A first: not in this class today."),
    (
        ("walk-in", "--first", "unsure", "--second", "no", "--third", "no"),
        5,
        "Speak to them first: not in this class today.",
    ),
    (("hurts", "p001", "zzmarkedword"), 3, "one of knee"),
    (("kit-lost", "9 kg"), 3, "one of the rack"),
    (("kit-lost", "trampoline"), 3, "an item of the hall"),
    (("slot", "soon"), 2, "as '40 min'"),
    (("slot", "1 s"), 2, "from 60"),
    (("swap", "1", "no_such_line"), 3, "a line or combination"),
    (("swap", "9"), 3, "1 to 2"),
    (("swap", "1", "--count", "8 reps"), 2, "needs the exercise"),
    (("swap", "1", "push_ups", "--count", "lots"), 2, "12 a side"),
    (("swap", "1", "push_ups", "--count", "7 alternating"), 2, "alternating even"),
    (("order", "2", "2"), 3, "each of 1 to 2 once"),
    (("set", "p001", "1"), 2, "--version"),
    (("set", "p001", "1", "--load", "heavy"), 2, "6 kg"),
    (("shorter-rests",), 2, "--rest"),
    (("shorter-rests", "--rest", "5 s"), 3, "at least 30 s"),
    (("shorter-burst", "10 min"), 3, "less than 30 s"),
    (("finish-by", "18:59", "--take", "9"), 2, "choices"),
)


@pytest.mark.parametrize(("arguments", "code", "said"), FAULTS, ids=lambda x: str(x)[:40])
def test_what_cannot_be_is_said_and_nothing_changes(plan, capsys, arguments, code, said):
    name, *more = arguments
    assert _change(name, plan, *more) == code
    told = capsys.readouterr()
    assert said in " ".join((told.err + told.out).replace("│", " ").split())
    assert "zzmarkedword" not in told.err + told.out
    assert [p.name for p in plan.parent.iterdir()] == [plan.name]


def test_two_people_of_one_name_are_asked_by_id(plan, capsys):
    people = plan.parent.parent / "people.csv"
    people.write_text(people.read_text(encoding="utf-8").replace("Ines V", "Ines R"), "utf-8")
    assert _change("leaves", plan, "Ines R") == 7
    assert "2 people are called 'Ines R'" in capsys.readouterr().err


def test_a_plan_outside_of_a_hall_needs_it_named(plan, tmp_path, capsys):
    away = tmp_path / "elsewhere"
    away.mkdir()
    other = Path(shutil.copy(plan, away / plan.name))
    assert _change("leaves", other, "p002") == 2
    assert "no hall's folder" in " ".join(capsys.readouterr().err.replace("│", " ").split())
    assert _change("leaves", other, "p002", "--hall", plan.parent.parent) == 0


def test_finish_by_lists_the_kindest_first_and_takes_one(plan, capsys):
    assert _change("finish-by", plan, "18:15") == 0
    told = capsys.readouterr().out
    assert "1. " in told
    assert "in one class of ten" in told
    assert "Keep one with --take N." in told
    assert [p.name for p in plan.parent.iterdir()] == [plan.name]
    assert _change("finish-by", plan, "18:15", "--json") == 0
    found = json.loads(capsys.readouterr().out)
    assert found["by_s"] == 15 * 60
    assert all(c["ends_s"] <= 900 < found["ends_now_s"] for c in found["choices"])
    assert _change("finish-by", plan, "18:15", "--take", "1", "--json") in (0, 4)
    told = json.loads(capsys.readouterr().out)
    kept = told.get("changed", told)
    assert kept["digest"] == found["choices"][0]["digest"]


def test_finish_by_says_where_nothing_is_to_be_done_or_nothing_helps(plan, capsys):
    assert _change("finish-by", plan, "18:59") == 0
    assert "Nothing needs to be cut." in capsys.readouterr().out
    assert _change("finish-by", plan, "18:10") == 5
    told = capsys.readouterr()
    assert "The nearest: " in told.out
    assert "Nothing ends the class by then" in told.err
    assert _change("finish-by", plan, "18:10", "--json") == 5
    problem = json.loads(capsys.readouterr().out)
    assert problem["finish_by"]["choices"] == []


@pytest.mark.parametrize("options", [(), ("--json",)], ids=["words", "json"])
def test_no_output_speaks_of_health_or_of_replies(plan, capsys, caplog, options):
    assert _change("hurts", plan, "p001", "elbow", *options) in (0, 4)
    replies = ("--first", "no", "--second", "unsure", "--third", "yes")
    assert _change("walk-in", _current(plan), *replies, *options) in (0, 4)
    assert _change("history", plan, *options) == 0
    assert _change("undo", _current(plan), *options) == 0
    told = capsys.readouterr()
    text = (told.out + told.err + caplog.text).lower()
    for word in ("elbow", "caps", "clearance", "unsure", "effort_cap", "region", "body_mass"):
        assert word not in text
    if options:
        assert "ines r" not in text
        assert "olu t" not in text
    pointer = _current(plan).read_text(encoding="utf-8").lower()
    for word in ("unsure", "ines r", "olu t", "doctor_first", "within_a_year"):
        assert word not in pointer


@pytest.mark.usefixtures("own_process")
def test_a_command_starts_and_ends_a_process_of_its_own(plan):
    before = {process.pid for process in multiprocessing.active_children()}
    assert _change("kit-lost", plan, "4 kg") in (0, 4)
    assert {process.pid for process in multiprocessing.active_children()} <= before


def test_a_changed_plan_is_checked_by_the_hall_of_today(plan, capsys):
    hall = plan.parent.parent
    assert _change("joins", plan, "p003") == 0
    pointer = next(plan.parent.glob("*.revisions.json"))
    capsys.readouterr()
    assert main(["check", str(pointer), "--hall", str(hall)]) == 0
    assert "The gate lets it through." in capsys.readouterr().out
    people = hall / "people.csv"
    text = people.read_text(encoding="utf-8").replace(
        "p003,Ines V,1985,f,70,170,2,20,cleared", "p003,Ines V,1985,f,70,170,2,20,not_cleared"
    )
    people.write_text(text, encoding="utf-8")
    assert main(["check", str(pointer), "--hall", str(hall)]) == 4
    assert "Ines V" in capsys.readouterr().out
    assert main(["check", str(pointer), "--hall", str(hall), "--json"]) == 4
    told = json.loads(capsys.readouterr().out)["check"]
    assert len(told["not_replayed"]) == 1
    assert "Ines" not in told["not_replayed"][0]
    assert main(["check", str(pointer)]) == 0

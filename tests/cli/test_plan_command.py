"""Planning by command: a class, another one, the week, and each way in which it can fail."""

import json
from dataclasses import dataclass

import pytest

from roundwright.bootstrap.shipped_library import shipped_catalogue
from roundwright.cli import plan_command
from roundwright.cli.main import main
from roundwright.optimise.class_search import ClassSearch
from roundwright.plan.outcome import Clash, Outcome, Status, StoppedBy, WayOut
from tests.cli.a_hall_folder import CLASS, write_hall

DAY = ("--on", "2026-03-03", "--budget", "quick")
OPEN = """schema = "roundwright.class/1"
name = "{name}"
weekday = "{weekday}"
start = "18:00"
slot = "45 min"
room = "main"
rounds = 2
places = 2
warm_up = "5 min"
demonstration = "2 min"
cool_down = "4 min"
"""


@pytest.fixture
def hall(tmp_path):
    folder = write_hall(tmp_path / "hall")
    _write(folder, "open", "Open circuit", "tuesday")
    return folder


def _write(folder, slug, name, weekday):
    text = OPEN.format(name=name, weekday=weekday)
    (folder / "classes" / f"{slug}.toml").write_text(text, encoding="utf-8")


def _plan(folder, *more):
    return main(["plan", str(folder), *more, *DAY])


def _told(capsys):
    return json.loads(capsys.readouterr().out)


def _exercises(told):
    return [
        e["exercise_id"] for e in sorted(told["core"]["exercises"], key=lambda e: e["position"])
    ]


@dataclass(frozen=True)
class _None:
    outcome: Outcome
    problem: None = None
    core: None = None


class _FindsNothing(ClassSearch):
    def __init__(self, status):
        self.status = status

    def plan(self, planning, *, seed, budget, plan_id):
        return _None(Outcome(status=self.status, stopped_by=StoppedBy.PROOF))

    def why_not(self, planning, seed, budget):
        return (Clash(kind="same_line"),)

    def ways_out(self, planning, clash, seed, budget):
        return (WayOut(kind="round_less", figures={"rounds": 1}),)


def test_a_class_is_planned_kept_told_and_can_be_checked(hall, capsys):
    assert _plan(hall, "open") == 0
    told = capsys.readouterr()
    assert told.err == ""
    assert "Line-up: " in told.out
    assert "Balance: push " in told.out
    assert "On time " in told.out
    (path,) = (hall / "plans").glob("*.json")
    assert main(["check", str(path)]) == 0
    assert main(["check", str(path), "--hall", str(hall)]) == 0
    assert main(["rehearse", str(path), "--plays", "50"]) == 0


def test_the_same_request_again_is_the_same_plan(hall, capsys):
    told = []
    for _ in range(2):
        assert _plan(hall, "open", "--json") == 0
        told.append(_told(capsys))
    assert told[0]["digest"] == told[1]["digest"]
    assert told[0]["schema"] == "roundwright.planned/1"
    assert "problem" not in told[0]
    assert told[0]["why"][0].startswith("Line-up: ")


def test_another_class_is_another_set(hall, capsys):
    sets = []
    for number in ("0", "1", "2"):
        assert _plan(hall, "open", "--another", number, "--json") == 0
        sets.append(tuple(sorted(_exercises(_told(capsys)))))
    assert len(set(sets)) == 3


def test_keep_ban_places_format_and_rounds_are_held(hall, capsys):
    more = ("--keep", "planks@2", "--ban", "hinges", "--places", "3", "--rounds", "1")
    assert _plan(hall, "open", *more, "--format", "pairs", "--json") == 0
    told = _told(capsys)
    exercises = _exercises(told)
    assert exercises[1] == "planks"
    assert len(exercises) == 3
    assert (told["core"]["class"]["rounds"], told["core"]["class"]["format"]) == (1, "pairs")
    catalogue = shipped_catalogue()
    assert "hinges" not in {line for e in exercises for line in catalogue.lines_of_exercise(e)}


def test_a_complete_class_stays_as_it_is_and_anew_lets_it_go(hall, capsys):
    more = ("--places", "1", "--json")
    assert _plan(hall, "tuesday", *more) == 0
    assert _exercises(_told(capsys)) == ["squats"]
    assert _plan(hall, "tuesday", "--anew", "--ban", "squats", *more) == 0
    assert _exercises(_told(capsys)) != ["squats"]


def test_the_week_is_planned_in_order_and_each_class_knows_those_before(hall, capsys):
    (hall / "classes" / "tuesday.toml").unlink()
    _write(hall, "next_day", "Next day", "wednesday")
    assert _plan(hall, "--all", "--json") == 0
    told = _told(capsys)
    assert told["schema"] == "roundwright.planned_week/1"
    assert [c["class"] for c in told["classes"]] == ["open", "next_day"]
    first, second = (set(_exercises(c)) for c in told["classes"])
    assert first != second
    assert len(list((hall / "plans").glob("*.json"))) == 2


def test_a_plan_file_that_cannot_be_read_is_named_and_not_counted(hall, capsys):
    (hall / "plans").mkdir()
    name = "00000000-0000-4000-8000-000000000001.r1.json"
    (hall / "plans" / name).write_text("{", encoding="utf-8")
    assert _plan(hall, "open") == 0
    assert f"Not counted as recent work. {name}" in capsys.readouterr().err


def test_a_sheet_of_a_planned_class_is_written(hall, tmp_path):
    sheet = tmp_path / "sheet.html"
    assert _plan(hall, "open", "--sheet", str(sheet)) == 0
    assert "Open circuit" in sheet.read_text(encoding="utf-8")


def test_4_a_class_longer_than_its_slot_is_a_draft(hall, capsys):
    text = CLASS.format(slot="12 min", exercise="squats")
    (hall / "classes" / "tuesday.toml").write_text(text, encoding="utf-8")
    assert _plan(hall, "tuesday", "--places", "1") == 4
    told = capsys.readouterr()
    assert "draft" in told.err
    assert "Each of these would end it on time:\n- " in told.out
    assert _plan(hall, "tuesday", "--places", "1", "--json") == 4
    assert _told(capsys)["plan"]["outcome"]["ways_out"][-1]["kind"] == "longer_slot"


def test_5_an_impossible_class_is_told_with_clash_and_ways_out(hall, capsys, monkeypatch):
    monkeypatch.setattr(plan_command, "class_search", lambda: _FindsNothing(Status.IMPOSSIBLE))
    assert _plan(hall, "open") == 5
    told = capsys.readouterr()
    assert told.out == ""
    assert "No two exercises of one progression line, or with a version in common." in told.err
    assert "What would help:\n- Do one round." in told.err
    assert not (hall / "plans").exists()
    assert _plan(hall, "open", "--json") == 5
    problem = _told(capsys)
    assert problem["type"] == "urn:roundwright:plan.impossible"
    assert problem["outcome"]["ways_out"][0]["kind"] == "round_less"


def test_5_really_impossible_when_everything_has_been_shown(hall, capsys):
    (hall / "classes" / "tuesday.toml").unlink()
    assert _plan(hall, "open", "--keep", "squats", "--keep", "push_ups", "--another", "1") == 5
    told = capsys.readouterr()
    assert "These cannot all hold:" in told.err


def test_5_is_the_code_of_a_week_with_an_impossible_class(hall, capsys, monkeypatch):
    monkeypatch.setattr(plan_command, "class_search", lambda: _FindsNothing(Status.IMPOSSIBLE))
    assert _plan(hall, "--all", "--json") == 5
    assert {c["title"] for c in _told(capsys)["classes"]} == {"No plan is possible"}


def test_6_undecided_is_told(hall, capsys, monkeypatch):
    monkeypatch.setattr(plan_command, "class_search", lambda: _FindsNothing(Status.UNDECIDED))
    assert _plan(hall, "open") == 6
    assert "before it found a plan" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (("open", "--keep", "sqats"), "nearest: squats"),
        (("open", "--keep", "squats@7"), "a place from 1 to 2"),
        (("open", "--ban", "burpes"), "a name of the library"),
    ],
)
def test_3_wishes_that_cannot_be_are_faults(hall, capsys, more, words):
    assert _plan(hall, *more) == 3
    assert words in capsys.readouterr().err


@pytest.mark.parametrize(
    "more",
    [
        (),
        ("open", "--all"),
        ("open", "--keep", "squats@two"),
        ("open", "--sheet", "sheet.doc"),
        ("--all", "--sheet", "sheet.pdf"),
        ("open", "--places", "0"),
        ("open", "--rounds", "11"),
    ],
)
def test_2_a_command_that_makes_no_sense_is_not_done(hall, more):
    assert _plan(hall, *more) == 2
    assert not (hall / "plans").exists()


def test_7_no_such_class_and_no_class_in_the_week(hall, capsys):
    assert _plan(hall, "opne") == 7
    assert "open" in capsys.readouterr().err
    for path in (hall / "classes").glob("*.toml"):
        path.unlink()
    assert _plan(hall, "--all") == 7
    assert "no class in the seven days" in capsys.readouterr().err


def _timed(folder, **more):
    lines = "".join(f"{k} = {v}\n" for k, v in more.items())
    text = OPEN.format(name="Clock circuit", weekday="tuesday") + 'pace = "timed"\nwork = "40 s"\n'
    (folder / "classes" / "clock.toml").write_text(text + lines, encoding="utf-8")


def test_the_tool_chooses_work_and_rest_says_so_and_the_plan_can_be_checked(hall, capsys, tmp_path):
    _timed(hall, work_rest='"any"')
    page = tmp_path / "sheet.html"
    assert _plan(hall, "clock", "--sheet", str(page)) == 0
    words = "45 s of work, 15 s to rest and change, for a trained room"
    assert f"Chosen: 2 rounds, {words}." in capsys.readouterr().out
    assert words in page.read_text("utf-8")
    (path,) = (hall / "plans").glob("*.json")
    assert main(["check", str(path)]) == 0
    assert main(["check", str(path), "--hall", str(hall)]) == 0
    told = capsys.readouterr().out
    assert "work_rest" not in told
    people = (hall / "people.csv").read_text("utf-8").replace(",60,cleared", ",1,unknown")
    (hall / "people.csv").write_text(people, encoding="utf-8")
    assert main(["check", str(path), "--hall", str(hall)]) == 4


def test_work_and_rest_and_rounds_are_said_on_the_command_line(hall, capsys):
    _timed(hall)
    assert _plan(hall, "clock", "--work-rest", "30:25", "--json") == 0
    told = _told(capsys)
    assert {w["length_s"] for w in told["core"]["timeline"] if w["kind"] == "change"} == {25}
    assert {w["length_s"] for w in told["core"]["timeline"] if w["kind"] == "work"} <= {30, 34}
    assert not any(line.startswith("Chosen: ") for line in told["why"])
    (path,) = (hall / "plans").glob("*.json")
    assert main(["check", str(path), "--hall", str(hall)]) == 0
    capsys.readouterr()
    assert _plan(hall, "clock", "--work-rest", "heavier", "--rounds", "any", "--json") == 0
    told = _told(capsys)
    assert told["core"]["class"]["rounds"] in (2, 3, 4)
    assert any("30 s of work, 60 s to rest and change, for heavier loads" in w for w in told["why"])


@pytest.mark.parametrize(
    ("more", "code"),
    [
        (("--rounds", "0"), 2),
        (("--rounds", "11"), 2),
        (("--rounds", "some"), 2),
        (("--work-rest", "hard"), 2),
        (("--work-rest", "40:20"), 3),
        (("--work-rest", "any"), 3),
    ],
)
def test_rounds_and_work_that_cannot_be_are_refused(hall, more, code, capsys):
    assert _plan(hall, "open", *more) == code
    assert capsys.readouterr().err

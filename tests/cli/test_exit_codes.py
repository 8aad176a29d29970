"""One way to each exit code, in words and as one JSON document."""

import json
from dataclasses import replace

import pytest

from roundwright.bootstrap.wiring import wired
from roundwright.cli import fit_command
from roundwright.cli.main import main
from roundwright.plan.outcome import Status
from tests.cli.a_hall_folder import write_hall
from tests.services.a_hall import PlannerThatSays

FIT_DAY = ("--on", "2026-03-03", "--budget", "quick")


@pytest.fixture
def hall(tmp_path):
    return write_hall(tmp_path / "hall")


def _fit(folder, *more, class_id="tuesday"):
    return main(["fit", str(folder), class_id, *FIT_DAY, *more])


def _plan_of(folder):
    (path,) = (folder / "plans").glob("*.json")
    return path


def _tampered(path, **changes):
    document = json.loads(path.read_text(encoding="utf-8"))
    for cell in document["core"]["cells"]:
        cell.update(changes)
    path.write_text(json.dumps(document), encoding="utf-8")
    return path


def test_0_a_class_is_fitted_kept_checked_and_counted(hall, capsys):
    assert _fit(hall) == 0
    told = capsys.readouterr()
    assert told.err == ""
    assert "Ines R" in told.out
    assert "slot ends 18:45" in told.out
    path = _plan_of(hall)
    assert path.name.endswith(".r1.json")
    assert str(path) in told.out
    assert main(["check", str(path)]) == 0
    assert main(["check", str(path), "--hall", str(hall)]) == 0
    assert main(["count", str(path), "--hall", str(hall)]) == 0
    told = capsys.readouterr()
    assert told.err == ""
    assert told.out.count("The gate lets it through.") == 2
    assert "Ines R" in told.out


def test_0_the_same_fit_again_is_the_same_plan(hall, capsys):
    told = []
    for _ in range(2):
        assert _fit(hall, "--json") == 0
        told.append(json.loads(capsys.readouterr().out))
    assert told[0]["digest"] == told[1]["digest"]
    assert told[0]["path"] == told[1]["path"]
    assert "problem" not in told[0]


@pytest.mark.parametrize("name", ["sheet.pdf", "sheet.html"])
def test_0_a_sheet_is_written_beside_the_plan(hall, tmp_path, name):
    assert _fit(hall, "--sheet", str(tmp_path / name), "--paper", "letter") == 0
    content = (tmp_path / name).read_bytes()
    assert content.startswith(b"%PDF" if name.endswith("pdf") else b"<!doctype html>"[:5])


def test_1_a_fault_of_ours_is_told_without_traceback_or_what_was_typed(hall, monkeypatch, capsys):
    def broken():
        raise RuntimeError("Ines R has a sore knee")

    monkeypatch.setattr(fit_command, "wired", broken)
    assert _fit(hall) == 1
    told = capsys.readouterr()
    assert "Traceback" not in told.err
    assert "Ines" not in told.err + told.out
    assert "report" in told.err
    assert _fit(hall, "--json") == 1
    assert json.loads(capsys.readouterr().out)["type"] == "urn:roundwright:inside.fault"
    assert main(["--debug", "fit", str(hall), "tuesday"]) == 1
    assert "Traceback" in capsys.readouterr().err


@pytest.mark.parametrize(
    "arguments",
    [
        [],
        ["dance"],
        ["fit"],
        ["fit", "hall", "tuesday", "--budget", "endless"],
        ["fit", "hall", "tuesday", "--on", "Tuesday"],
        ["fit", "hall", "tuesday", "--sheet", "sheet.docx"],
        ["fit", "hall", "tuesday", "--seed", "-1"],
        ["serve"],
        ["serve", "hall", "--demo"],
        ["library", "show"],
    ],
    ids=" ".join,
)
def test_2_a_command_that_is_not_understood(arguments, capsys):
    assert main(arguments) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err != ""
    assert main([*arguments, "--json"]) == 2
    assert json.loads(capsys.readouterr().out)["type"] == "urn:roundwright:usage.wrong"


def test_3_every_fault_of_the_folder_comes_at_once(hall, capsys):
    kit = (hall / "kit.toml").read_text(encoding="utf-8").replace('"4 kg"', '"-4 kg"')
    (hall / "kit.toml").write_text(kit, encoding="utf-8")
    (hall / "limitations.csv").write_text(
        "person_id,region_or_condition,side,amount,from_on\np001,moon,left,avoid,2026-01-01\n",
        encoding="utf-8",
    )
    assert _fit(hall) == 3
    told = capsys.readouterr()
    assert told.out == ""
    assert "kit.toml" in told.err
    assert "limitations.csv" in told.err
    assert "moon" not in told.err
    assert _fit(hall, "--json") == 3
    told = capsys.readouterr()
    problem = json.loads(told.out)
    assert told.err == ""
    assert {f["file"] for f in problem["faults"]} == {"kit.toml", "limitations.csv"}
    assert "moon" not in told.out


def test_4_a_class_that_overruns_is_kept_as_a_draft_without_a_sheet(tmp_path, capsys):
    hall = write_hall(tmp_path / "hall", slot="12 min")
    sheet = tmp_path / "sheet.pdf"
    assert _fit(hall, "--sheet", str(sheet)) == 4
    told = capsys.readouterr()
    assert "Stops it:" in told.out
    assert "Each of these would end it on time:\n- " in told.out
    assert "Book two more minutes.\n" in told.out
    assert "draft" in told.err
    assert not sheet.exists()
    assert main(["check", str(_plan_of(hall))]) == 4
    assert "The safety check refuses this plan" in capsys.readouterr().err
    assert _fit(hall, "--json") == 4
    problem = json.loads(capsys.readouterr().out)
    assert problem["type"] == "urn:roundwright:plan.refused"
    assert problem["plan"]["is_draft"] is True
    ways = problem["plan"]["outcome"]["ways_out"]
    assert "longer_slot" in {way["kind"] for way in ways}
    assert {way["overrun_s"] for way in ways} == {0}


def test_4_a_plan_changed_by_hand_is_refused_whatever_it_says_of_itself(hall, capsys):
    assert _fit(hall) == 0
    path = _tampered(_plan_of(hall), unit_mass_g=60_000, units=2)
    capsys.readouterr()
    assert main(["check", str(path), "--json"]) == 4
    problem = json.loads(capsys.readouterr().out)
    grades = {f["grade"] for f in problem["check"]["verdict"]["findings"]}
    assert "never" in grades
    assert len(problem["check"]["words"]) == len(problem["check"]["verdict"]["findings"])


def test_5_two_people_and_one_bench_clash(tmp_path, capsys):
    hall = write_hall(tmp_path / "hall", benches=1, chairs=0, exercise="one_arm_rows")
    assert _fit(hall) == 5
    told = capsys.readouterr()
    assert told.out == ""
    assert "bench" in told.err.lower()
    assert "Ines R" in told.err
    assert not (hall / "plans").exists()
    assert _fit(hall, "--json") == 5
    problem = json.loads(capsys.readouterr().out)
    assert problem["outcome"]["status"] == "impossible"
    assert problem["outcome"]["clash"]


def test_6_a_search_that_ends_without_an_answer(hall, monkeypatch, capsys):
    undecided = replace(wired(), planner=PlannerThatSays(None, Status.UNDECIDED))
    monkeypatch.setattr(fit_command, "wired", lambda: undecided)
    assert _fit(hall) == 6
    told = capsys.readouterr()
    assert told.out == ""
    assert "search longer" in told.err
    assert not (hall / "plans").exists()


def test_7_what_is_not_there_is_not_found(hall, capsys):
    assert _fit(hall, class_id="tuesdy") == 7
    assert "tuesday" in capsys.readouterr().err
    assert _fit(hall / "nowhere") == 7
    assert main(["check", str(hall / "nothing.json")]) == 7
    assert main(["count", str(hall / "nothing.json")]) == 7
    assert main(["library", "show", "moon_walk"]) == 7
    assert main(["library", "check", str(hall / "nothing.toml")]) == 7


def test_8_a_kept_plan_is_never_written_over_by_another(hall, capsys):
    assert _fit(hall) == 0
    _tampered(_plan_of(hall), kept=True)
    assert _fit(hall) == 8
    assert "holds another plan" in capsys.readouterr().err


def test_9_a_folder_that_cannot_be_written(hall, tmp_path, capsys):
    (tmp_path / "taken").write_text("a file", encoding="utf-8")
    assert _fit(hall, "--out", str(tmp_path / "taken")) == 9
    assert _fit(hall, "--sheet", str(tmp_path / "none" / "sheet.html")) == 9
    assert "could not be written" in capsys.readouterr().err


def test_a_file_that_is_no_plan_is_bad_input(hall, capsys):
    assert main(["count", str(hall / "hall.toml")]) == 3
    told = capsys.readouterr()
    assert told.out == ""
    assert "hall.toml" in told.err

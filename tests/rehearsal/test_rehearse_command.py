"""``rehearse PLAN`` prints words or one JSON document; equal seeds give equal output."""

import json

import pytest
import typer
from typer.testing import CliRunner

from roundwright.bootstrap.wiring import wired
from roundwright.cli.rehearse_command import rehearse
from roundwright.demo.tern_quay import demo_hall_folder
from roundwright.foundation.errors import StoreError
from roundwright.rehearsal.report import RehearsalReport
from tests.support.plans import a_fitted_plan


@pytest.fixture(scope="module")
def plan_file(tmp_path_factory):
    return wired().keep(a_fitted_plan(), tmp_path_factory.mktemp("plans"))


def _run(*arguments) -> str:
    app = typer.Typer()
    app.command()(rehearse)
    told = CliRunner().invoke(app, [str(a) for a in arguments])
    assert told.exit_code == 0, told.output
    return told.stdout


def test_it_prints_ending_and_waits_with_names_from_the_hall(plan_file):
    told = _run(plan_file, "--hall", demo_hall_folder(), "--plays", "200")
    assert "times in 10" in told
    assert "of 200 plays, seed 1" in told
    assert "before the others at" in told
    assert not any(person in told for person in a_fitted_plan().problem.people)
    assert any(
        person in _run(plan_file, "--plays", "200") for person in a_fitted_plan().problem.people
    )


def test_json_is_one_document_that_the_model_reads(plan_file):
    told = _run(plan_file, "--json", "--plays", "50", "--seed", "7")
    report = RehearsalReport.model_validate(json.loads(told))
    assert (report.on_time.plays, report.on_time.seed) == (50, 7)
    assert report.digest == a_fitted_plan().core.digest
    assert len(report.windows) == len(a_fitted_plan().core.timeline)
    assert told == _run(plan_file, "--json", "--plays", "50", "--seed", "7")
    assert told != _run(plan_file, "--json", "--plays", "50", "--seed", "8")


def test_neither_words_nor_json_hold_a_limit_or_its_reason(plan_file):
    told = _run(plan_file, "--plays", "50") + _run(plan_file, "--json", "--plays", "50")
    for word in ("caps", "clearance", "limitation", "moderate", "knee", "pregnan"):
        assert word not in told


def test_one_moment_says_of_everybody_where_they_are_and_with_what(plan_file):
    told = _run(plan_file, "--hall", demo_hall_folder(), "--plays", "20", "--at", "13:00")
    moment = told.split("At 13:00 of a typical class:")[1].splitlines()[1:]
    assert len(moment) == len(a_fitted_plan().core.people)
    assert any("works at 1 " in line for line in moment)
    assert any(" kg." in line for line in moment)
    late = _run(plan_file, "--plays", "20", "--at", "90:00")
    assert "At 90:00 a typical class is over" in late


@pytest.mark.parametrize("moment", ["13", "13:60", "-1:00", "13:00:00", ""])
def test_a_moment_is_minutes_and_seconds(plan_file, moment):
    app = typer.Typer()
    app.command()(rehearse)
    told = CliRunner().invoke(app, [str(plan_file), f"--at={moment}"])
    assert told.exit_code == 2


@pytest.mark.parametrize("by_group", [(), ("--by-group",)])
def test_pictures_are_written_and_written_again(plan_file, tmp_path, by_group):
    folder = tmp_path / "pictures"
    for _ in range(2):
        told = _run(plan_file, "--plays", "20", "--pictures", folder, *by_group)
        assert told.count("Drawn: ") == 3
    names = {path.name for path in folder.iterdir()}
    assert names == {"timeline.svg", "finishing-times.svg", "rehearsal.html"}
    page = (folder / "rehearsal.html").read_text(encoding="utf-8")
    assert page.count("<svg ") == 2
    assert page.count("<table>") == 3
    for word in ("caps", "clearance", "limitation", "moderate", "pregnan"):
        assert word not in page


def test_pictures_that_cannot_be_written_are_a_fault_of_storage(plan_file, tmp_path):
    (tmp_path / "taken").write_text("here", encoding="utf-8")
    app = typer.Typer()
    app.command()(rehearse)
    told = CliRunner().invoke(app, [str(plan_file), "--pictures", str(tmp_path / "taken")])
    assert isinstance(told.exception, StoreError)

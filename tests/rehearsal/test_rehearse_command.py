"""``rehearse PLAN`` prints words or one JSON document; equal seeds give equal output."""

import json

import pytest
import typer
from typer.testing import CliRunner

from roundwright.bootstrap.wiring import wired
from roundwright.cli.rehearse_command import rehearse
from roundwright.demo.tern_quay import demo_hall_folder
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

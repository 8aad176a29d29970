"""The commands as they are typed: exit code, both streams, no colour, no traceback."""

import json
import os
import subprocess
import sys
import tempfile
from importlib.metadata import version

from roundwright.demo.tern_quay import DEMO_CLASS, demo_hall_folder
from tests.cli.a_hall_folder import write_hall


def _run(*arguments, **environment):
    return subprocess.run(
        [sys.executable, "-m", "roundwright", *arguments],
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=120,
        check=False,
        env=os.environ | {"PYTHONIOENCODING": "utf-8"} | environment,
    )


def test_a_fit_in_words(tmp_path):
    hall = write_hall(tmp_path / "hall")
    done = _run("fit", str(hall), "tuesday", "--on", "2026-03-03")
    assert (done.returncode, done.stderr) == (0, "")
    assert "\x1b" not in done.stdout
    assert "Olu T" in done.stdout


def test_a_fit_as_json_is_one_document_and_nothing_else(tmp_path):
    # scarce benches, so that the search goes all the way to the solver
    hall = write_hall(tmp_path / "hall", benches=1, chairs=1, exercise="one_arm_rows")
    done = _run("fit", str(hall), "tuesday", "--on", "2026-03-03", "--json")
    assert (done.returncode, done.stderr) == (0, "")
    assert json.loads(done.stdout)["schema"] == "roundwright.fit/1"


def test_the_demonstration_class_fits_as_one_document():
    with tempfile.TemporaryDirectory() as out:
        arguments = ("fit", str(demo_hall_folder()), DEMO_CLASS, "--on", "2026-03-03")
        done = _run(*arguments, "--out", out, "--json")
    assert (done.returncode, done.stderr) == (0, "")
    told = json.loads(done.stdout)
    assert len(told["core"]["people"]) == 13
    assert [n["person_id"] for n in told["outcome"]["not_today"]] == ["p012"]


def test_a_broken_hall_as_json(tmp_path):
    hall = write_hall(tmp_path / "hall")
    (hall / "hall.toml").write_bytes(b"\xff\xfe\x00broken")
    done = _run("fit", str(hall), "tuesday", "--on", "2026-03-03", "--json")
    assert (done.returncode, done.stderr) == (3, "")
    assert json.loads(done.stdout)["type"] == "urn:roundwright:input.faults"


def test_version_and_usage():
    told = _run("--version")
    assert (told.returncode, told.stdout) == (0, f"roundwright {version('roundwright')}\n")
    wrong = _run("fit", "--moon")
    assert (wrong.returncode, wrong.stdout) == (2, "")
    assert "Traceback" not in wrong.stderr

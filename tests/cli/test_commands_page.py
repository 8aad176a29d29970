"""The page on commands shows each command's own help, word for word."""

import re
from pathlib import Path

import pytest

from roundwright.bootstrap.settings import Settings
from roundwright.cli.main import main

PAGE = (Path(__file__).parents[2] / "docs" / "reference" / "commands.md").read_text(
    encoding="utf-8"
)
COMMANDS = (
    (),
    ("fit",),
    ("plan",),
    ("check",),
    ("count",),
    ("rehearse",),
    ("write-class",),
    ("print",),
    ("change",),
    ("change", "leaves"),
    ("change", "joins"),
    ("change", "walk-in"),
    ("change", "hurts"),
    ("change", "kit-lost"),
    ("change", "kit-back"),
    ("change", "slot"),
    ("change", "swap"),
    ("change", "order"),
    ("change", "leave-out"),
    ("change", "set"),
    ("change", "unset"),
    ("change", "instead"),
    ("change", "sit-out"),
    ("change", "drop-round"),
    ("change", "shorter-rests"),
    ("change", "fewer-reps"),
    ("change", "shorter-burst"),
    ("change", "finish-by"),
    ("change", "undo"),
    ("change", "redo"),
    ("change", "history"),
    ("library",),
    ("library", "list"),
    ("library", "show"),
    ("library", "check"),
    ("library", "template"),
    ("library", "draw"),
    ("library", "sheet"),
    ("library", "watch"),
    ("library", "compare"),
    ("library", "differences"),
    ("library", "accuracy"),
    ("keep",),
    ("keep", "list"),
    ("keep", "bring-in"),
    ("keep", "take-out"),
    ("keep", "people"),
    ("keep", "person"),
    ("keep", "forget"),
    ("keep", "new-password"),
    ("keep", "backup"),
    ("keep", "restore"),
    ("keep", "check"),
    ("serve",),
    ("house",),
)


@pytest.mark.parametrize("command", COMMANDS, ids=lambda c: " ".join(c) or "roundwright")
def test_the_page_shows_the_help_as_it_is(command, capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setenv("TERMINAL_WIDTH", "80")
    assert main([*command, "--help"]) == 0
    told = capsys.readouterr()
    heading = " ".join(("roundwright", *command))
    shown = re.search(rf"^#+ `{heading}`\n.*?```text\n(.*?)```", PAGE, re.M | re.S)
    assert shown is not None, heading
    lines = [line.rstrip() for line in told.out.strip().splitlines()]
    assert shown[1].strip().splitlines() == lines


def test_the_page_has_no_command_that_is_not_there():
    headings = set(re.findall(r"^#+ `(roundwright[a-z -]*)`$", PAGE, re.M))
    assert headings == {" ".join(("roundwright", *command)) for command in COMMANDS}


def test_every_exit_code_is_on_the_page():
    assert set(re.findall(r"^\| (\d) \|", PAGE, re.M)) == {str(code) for code in range(10)}


def test_every_setting_is_on_the_page_with_its_variable():
    table = PAGE.split("## Settings", 1)[1]
    shown = set(re.findall(r"`([a-z_]+)`", "".join(re.findall(r"^\| (`.*?`) \|", table, re.M))))
    variables = set(re.findall(r"`ROUNDWRIGHT_([A-Z_]+)`", table))
    assert shown == set(Settings.model_fields)
    assert variables == {name.upper() for name in Settings.model_fields}

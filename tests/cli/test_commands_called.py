"""A command is loaded when it is called, and every name leads to one."""

import subprocess
import sys

import pytest

from roundwright.cli.commands import PLACES, Commands
from roundwright.cli.main import main

LOADED = """
import sys
from roundwright.cli.main import main
code = main(sys.argv[1:])
print("\\n".join(sorted(sys.modules)), file=sys.stderr)
sys.exit(code)
"""


def modules_after(*arguments: str) -> set[str]:
    done = subprocess.run(
        [sys.executable, "-c", LOADED, *arguments], capture_output=True, text=True, check=False
    )
    return set(done.stderr.split())


def test_the_version_is_told_without_loading_any_command():
    loaded = modules_after("--version")
    assert "roundwright.cli.main" in loaded
    assert {name for name in loaded if name.endswith("_command")} == set()
    assert not loaded & {"ortools", "scipy", "sqlalchemy", "fastapi"}


def test_counting_loads_neither_pages_nor_database():
    loaded = modules_after("count", "nowhere.json")
    assert "roundwright.cli.count_command" in loaded
    assert not loaded & {"sqlalchemy", "fastapi", "roundwright.cli.house_command"}


@pytest.mark.parametrize("name", PLACES)
def test_every_name_leads_to_a_command_of_that_name(name):
    assert Commands()[name].name == name


def test_what_is_near_a_name_is_offered(capsys):
    assert main(["hose"]) == 2
    assert "'house'" in capsys.readouterr().err

"""The contracts page's worked count, from a hall folder, as `roundwright count` prints it."""

import json
from pathlib import Path

from roundwright.cli.main import main

HALL = Path(__file__).parents[1] / "halls" / "worked_count"


def test_the_command_prints_the_worked_count(tmp_path, capsys):
    assert main(["fit", str(HALL), "counted", "--out", str(tmp_path), "--json"]) == 0
    path = json.loads(capsys.readouterr().out)["path"]
    assert main(["count", path]) == 0
    lines = [line.strip() for line in capsys.readouterr().out.splitlines()]
    text = "\n".join(lines)
    for name, figure in (
        ("hinge", "24"),
        ("row", "24"),
        ("squat", "42"),
        ("press", "48"),
        ("split squat", "48     24 left, 24 right"),
        ("push up", "18"),
        ("plank row", "36     18 left, 18 right"),
        ("one arm row", "72     36 left, 36 right"),
        ("step up", "60     30 left, 30 right"),
    ):
        assert any(line.split(f"Count {name} ")[-1].strip() == figure for line in lines), name
    assert "Count box jump 60" in text
    assert "foot contacts 60, low hops 360" in text
    for number in (1, 2, 3):
        assert f"Round {number}: 9:15 (work 96, 72, 72, 60, 60 s)" in lines
    assert "Class: 41:45 of 60:00" in lines

"""``roundwright write-class``: read back, asked, kept as a new class of the hall."""

import io
import json

from roundwright.bootstrap.wiring import wired
from roundwright.cli.main import main
from tests.cli.a_hall_folder import write_hall

PLAIN = "Tuesday 18:30, 45 minutes, annexe\n2 rounds\n8 x hinge then row\n10 squats\nleave 2\n"


def written(folder, text):
    """Write a text file and give its path."""
    path = folder / "class.txt"
    path.write_text(text, encoding="utf-8")
    return str(path)


def test_a_plain_class_is_read_back_and_kept(tmp_path, capsys):
    hall = write_hall(tmp_path / "hall")
    file = written(tmp_path, PLAIN)
    assert main(["write-class", str(hall), file, "--keep-as", "evening"]) == 0
    told = capsys.readouterr().out
    assert "8 times Hinge then Row" in told
    assert "change 15 s" in told
    assert "leave 2" in told
    kept = wired().hall(hall).classes["evening"]
    assert kept.reps_left == 2
    assert [e.exercise for e in kept.exercise][1] == "squats"
    assert (hall / "library" / "evening.toml").is_file()
    before = (hall / "classes" / "evening.toml").read_bytes()
    assert main(["write-class", str(hall), file, "--keep-as", "evening"]) == 9
    assert (hall / "classes" / "evening.toml").read_bytes() == before


def test_what_is_asked_is_told_and_nothing_is_kept(tmp_path, capsys):
    hall = write_hall(tmp_path / "hall")
    file = written(tmp_path, PLAIN + "8 x sqaut\nturquoise elephants\n")
    assert main(["write-class", str(hall), file, "--keep-as", "evening"]) == 3
    told = capsys.readouterr()
    assert "nearest: 8 times Squat" in told.err
    assert "turquoise elephants" in told.err
    assert not (hall / "classes" / "evening.toml").exists()
    assert not (hall / "library").exists()


def test_words_about_a_person_are_in_no_error(tmp_path, capsys):
    hall = write_hall(tmp_path / "hall")
    file = written(tmp_path, PLAIN + "no jumps for Ines, bad knee of Ines\n")
    assert main(["write-class", str(hall), file, "--json"]) == 3
    told = capsys.readouterr()
    assert "Ines" not in told.out + told.err
    assert "knee" not in told.out + told.err
    problem = json.loads(told.out)
    assert [fault["value"] for fault in problem["faults"]] == ["(hidden)", "(hidden)"]
    assert "belongs to that person" in problem["faults"][0]["expected"]
    assert [fault["nearest"] for fault in problem["faults"]] == [[], []]


def test_a_class_may_be_typed_in(tmp_path, capsys, monkeypatch):
    hall = write_hall(tmp_path / "hall")
    monkeypatch.setattr("sys.stdin", io.StringIO(PLAIN))
    assert main(["write-class", str(hall), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["wish"]["rounds"] == 2
    assert told["files"] == []


def test_a_name_that_no_file_can_have_is_said(tmp_path, capsys):
    hall = write_hall(tmp_path / "hall")
    assert main(["write-class", str(hall), "--keep-as", "../x"]) == 2
    assert "expected 2 to 41" in capsys.readouterr().err

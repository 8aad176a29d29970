"""``roundwright library template``: prints, writes a new file, never writes over one."""

import json

from roundwright.cli.main import main
from roundwright.services.library_template import library_template


def test_without_a_name_it_is_printed(capsys):
    assert main(["library", "template"]) == 0
    assert capsys.readouterr().out == library_template()


def test_what_is_written_passes_the_check(tmp_path, capsys):
    path = tmp_path / "mine.toml"
    assert main(["library", "template", str(path)]) == 0
    assert main(["library", "check", str(path)]) == 0
    assert "No faults" in capsys.readouterr().out


def test_a_file_that_is_there_is_never_written_over(tmp_path, capsys):
    path = tmp_path / "mine.toml"
    path.write_text("my own work", encoding="utf-8")
    assert main(["library", "template", str(path)]) == 9
    assert path.read_text(encoding="utf-8") == "my own work"
    assert "is there already" in capsys.readouterr().err


def test_a_folder_that_is_not_there_is_said(tmp_path, capsys):
    assert main(["library", "template", str(tmp_path / "no" / "mine.toml")]) == 9
    assert "could not be written" in capsys.readouterr().err


def test_as_json_it_is_one_document(capsys):
    assert main(["library", "template", "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == {"file": None, "text": library_template()}

"""Where a setting comes from, and what is refused in plain words."""

import pytest

from roundwright.bootstrap.settings import Settings, read_settings
from roundwright.cli.main import main
from roundwright.foundation.errors import BadInputError


@pytest.fixture
def folder(tmp_path, monkeypatch):
    for name in Settings.model_fields:
        monkeypatch.delenv(f"ROUNDWRIGHT_{name.upper()}", raising=False)
    monkeypatch.setenv("ROUNDWRIGHT_DATA_DIR", str(tmp_path))
    return tmp_path


def test_defaults_stay_on_this_machine(folder):
    settings = read_settings({})
    assert (settings.host, settings.port, settings.solver_workers) == ("127.0.0.1", 8737, 1)
    assert settings.address == "http://127.0.0.1:8737/"
    assert settings.data_dir == folder


def test_flag_beats_environment_beats_file_beats_default(folder, monkeypatch):
    (folder / "settings.toml").write_text('port = 9001\nlog_level = "error"\n', encoding="utf-8")
    assert read_settings({}).port == 9001
    monkeypatch.setenv("ROUNDWRIGHT_PORT", "9002")
    assert read_settings({}).port == 9002
    assert read_settings({"port": 9003}).port == 9003
    assert read_settings({"port": None}).port == 9002
    assert read_settings({}).log_level == "error"


@pytest.mark.parametrize("host", ["127.0.0.1", "127.0.0.2", "::1", "localhost"])
def test_loopback_is_allowed(folder, host):
    assert read_settings({"host": host}).host == host


@pytest.mark.parametrize("host", ["0.0.0.0", "::", "192.168.1.10", "hall.example"])
@pytest.mark.parametrize("command", [["serve", "--demo"], ["house"], ["house", "--demo"]])
def test_another_host_is_refused_without_an_owner_and_says_why(folder, command, host, capsys):
    assert main([*command, "--no-open", "--host", host]) == 3
    told = capsys.readouterr().err
    assert "host" in told
    assert "a loopback address" in told


def test_each_wrong_setting_names_its_source(folder, monkeypatch):
    (folder / "settings.toml").write_text('colour = "red"\n', encoding="utf-8")
    monkeypatch.setenv("ROUNDWRIGHT_PORT", "none")
    with pytest.raises(BadInputError) as caught:
        read_settings({"solver_workers": 4})
    told = {(f.file, f.field, f.code) for f in caught.value.faults}
    assert told == {
        ("settings.toml", "colour", "field.unknown"),
        ("ROUNDWRIGHT_PORT", "port", "field.value"),
        ("flag", "solver_workers", "field.value"),
    }


def test_a_file_that_is_no_toml_is_bad_input(folder):
    (folder / "settings.toml").write_text("port =", encoding="utf-8")
    with pytest.raises(BadInputError) as caught:
        read_settings({})
    assert caught.value.faults[0].code == "file.syntax"


def test_the_address_printed_can_be_another_one(folder):
    assert read_settings({"public_url": "https://hall.example/"}).address == "https://hall.example/"
    assert read_settings({"host": "::1", "port": 9000}).address == "http://[::1]:9000/"

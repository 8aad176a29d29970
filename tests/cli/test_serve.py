"""Serving: on this machine alone, one class, until it is stopped."""

import json
import re
import signal
import socket
import subprocess
import sys
import urllib.request

import pytest

from roundwright.cli.main import main
from tests.cli.a_hall_folder import write_hall


@pytest.fixture
def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


@pytest.fixture
def hall(tmp_path):
    return write_hall(tmp_path / "hall")


@pytest.mark.parametrize("host", ["0.0.0.0", "192.168.1.5", "hall.example"])
def test_another_host_than_this_machine_is_refused_with_the_reason(hall, host, capsys):
    assert main(["serve", str(hall), "--host", host, "--no-open"]) == 3
    told = capsys.readouterr()
    assert told.out == ""
    assert "owner account" in told.err


def test_a_port_that_is_taken_is_told(hall, capsys):
    with socket.socket() as holder:
        holder.bind(("127.0.0.1", 0))
        holder.listen()
        port = str(holder.getsockname()[1])
        assert main(["serve", str(hall), "--port", port, "--no-open"]) == 3
    assert "--port" in capsys.readouterr().err


def test_with_several_classes_one_has_to_be_named(hall, capsys):
    text = (hall / "classes" / "tuesday.toml").read_text(encoding="utf-8")
    (hall / "classes" / "friday.toml").write_text(text, encoding="utf-8")
    assert main(["serve", str(hall), "--no-open"]) == 2
    assert "friday, tuesday" in capsys.readouterr().err


def test_a_class_is_served_and_stopped(hall, free_port):
    command = (
        *(sys.executable, "-u", "-m", "roundwright", "serve", str(hall)),
        *("--on", "2026-03-03", "--port", str(free_port), "--no-open"),
    )
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, encoding="utf-8"
    ) as process:
        try:
            told = process.stdout.readline()
            assert told == f"Tern Quay Annexe: http://127.0.0.1:{free_port}/\n"
            address = f"http://127.0.0.1:{free_port}/"
            with urllib.request.urlopen(address, timeout=30) as answer:
                page = answer.read().decode()
            assert answer.status == 200
            assert "Tuesday circuit" in page
            assert "Ines R" in page
        finally:
            process.send_signal(signal.SIGINT)
            _, errors = process.communicate(timeout=30)
    assert process.returncode == 0
    assert errors == ""
    assert not (hall / "plans").exists()


OPEN = """schema = "roundwright.class/1"
name = "Open circuit"
weekday = "tuesday"
start = "18:00"
slot = "45 min"
room = "main"
rounds = 2
places = 2
warm_up = "5 min"
demonstration = "2 min"
cool_down = "4 min"
"""


def _exercises(address):
    with urllib.request.urlopen(f"{address}core.json", timeout=30) as answer:
        core = json.load(answer)
    return {e["exercise_id"] for e in core["exercises"]}


def test_a_class_is_planned_and_another_one_chosen_in_the_warm_process(hall, free_port):
    (hall / "classes" / "open.toml").write_text(OPEN, encoding="utf-8")
    command = (
        *(sys.executable, "-u", "-m", "roundwright", "serve", str(hall), "--class", "open"),
        *("--plan", "--on", "2026-03-03", "--port", str(free_port), "--no-open"),
    )
    address = f"http://127.0.0.1:{free_port}/"
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, encoding="utf-8"
    ) as process:
        try:
            assert process.stdout.readline() == f"Tern Quay Annexe: {address}\n"
            first = _exercises(address)
            with urllib.request.urlopen(address, timeout=30) as answer:
                page = answer.read().decode()
            path = re.search(r'action="/(class/[0-9a-f]+/another)"', page)[1]
            pressed = urllib.request.Request(
                address + path, method="POST", headers={"Origin": address.rstrip("/")}
            )
            with urllib.request.urlopen(pressed, timeout=60) as answer:
                page = answer.read().decode()
            tries = 0
            while "Planning…" in page and tries < 100_000:
                tries += 1
                with urllib.request.urlopen(f"{address}planning", timeout=60) as answer:
                    page = answer.read().decode()
            assert "Back to the one before" in page
            assert _exercises(address) != first
            path = re.search(r'action="/(class/[0-9a-f]+/worth-buying)"', page)[1]
            pressed = urllib.request.Request(
                address + path, method="POST", headers={"Origin": address.rstrip("/")}
            )
            with urllib.request.urlopen(pressed, timeout=60) as answer:
                page = answer.read().decode()
            while "Trying more kit…" in page and tries < 100_000:
                tries += 1
                with urllib.request.urlopen(f"{address}planning", timeout=60) as answer:
                    page = answer.read().decode()
            assert re.search("Worth buying for this class:|Nothing that could be bought", page)
        finally:
            process.send_signal(signal.SIGINT)
            _, errors = process.communicate(timeout=30)
    assert process.returncode == 0
    assert errors == ""
    assert not (hall / "plans").exists()


def test_an_open_class_is_not_served_without_planning_it(hall, capsys):
    (hall / "classes" / "open.toml").write_text(OPEN, encoding="utf-8")
    assert main(["serve", str(hall), "--class", "open", "--on", "2026-03-03", "--no-open"]) == 3
    assert "plan it, do not fit it" in capsys.readouterr().err

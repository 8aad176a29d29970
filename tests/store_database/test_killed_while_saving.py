"""A process that is killed in the middle of a save leaves the hall as it was, or changed."""

import os
import signal
import subprocess
import sys
from contextlib import contextmanager

import pytest

from tests.store_database.a_kept_hall import HALL_ID, begun
from tests.support.random_halls import Dice

STEPS = 21
"""So many steps of a save can be seen from outside; the last one is just before it is kept."""


@pytest.fixture
def url(tmp_path):
    return f"sqlite:///{tmp_path / 'house.db'}"


@contextmanager
def saving(url):
    """Give the program that saves, and what asks it and reads what it says."""
    command = [sys.executable, "-m", "tests.store_database.saving_process", url]
    with subprocess.Popen(
        command,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
    ) as program:

        def ask(words=""):
            if words:
                program.stdin.write(f"{words}\n")
                program.stdin.flush()
            return program.stdout.readline().strip()

        assert ask() == "ready"
        yield ask
        program.stdin.close()
        assert program.wait(30) == 0


def test_killed_at_a_drawn_step_it_is_old_or_new(url, opening):
    kept = opening(url)
    begun(kept)
    dice = Dice(1, "killed while saving")
    old = new = 0
    with saving(url) as ask:
        for moment in (*(dice.between(1, STEPS) for _ in range(15)), 10 * STEPS):
            before = kept.halls.opened(HALL_ID)
            assert ask(f"moment {moment}") == "gone"
            after = kept.halls.opened(HALL_ID)
            if after.version == before.version:
                old += 1
                kept.halls._known.clear()
                assert kept.halls.opened(HALL_ID) == before
            else:
                new += 1
                assert_whole(after, before.version + 1)
            assert kept.upkeep.faults() == ()
    assert (old >= 5, new >= 1) == (True, True), (old, new)


def test_killed_while_it_saves_on_and_on_nothing_that_was_said_is_lost(url, opening):
    kept = opening(url)
    begun(kept)
    dice = Dice(1, "killed while saving on")
    with saving(url) as ask:
        for _ in range(12):
            child = int(ask("loop"))
            for _ in range(dice.between(1, 5)):
                said = int(ask())
            os.kill(child, signal.SIGKILL)
            while (words := ask()) != "gone":
                said = int(words)
            after = kept.halls.opened(HALL_ID)
            assert said <= after.version <= said + 1
            assert_whole(after, after.version)
            assert kept.upkeep.faults() == ()


def assert_whole(kept_hall, version):
    """Hold that all three records are of one save."""
    assert kept_hall.version == version
    names = {person.shown_name for person in kept_hall.hall.people}
    assert names == {f"Version {version}"}

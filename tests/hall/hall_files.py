"""A small hall as files, on the tiny library of the worked count; each test spoils one thing."""

import pytest

from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import Fault
from roundwright.hall.hall import Hall
from roundwright.hall.hall_text import read_hall_texts
from tests.support import worked_count

HALL = """schema = "roundwright.hall/1"
name = "Tern Quay Hall"
time_zone = "Europe/London"

[[room]]
id = "main_floor"
name = "Main floor"
length = "18 m"
width = "12 m"
"""
KIT = """schema = "roundwright.kit/1"

[[dumbbell]]
mass = "8 kg"
count = 8

[[dumbbell]]
mass = "20 lb"
count = 4
flat_sided = true

[[item]]
id = "rope"
kind = "rope"
count = 6
room = "main_floor"
"""
PEOPLE = """person_id,shown_name,sex,body_mass_kg,clearance
p001,Maren T,f,62,cleared
p002,Sunny L,,,
"""
LIMITATIONS = """person_id,region_or_condition,side,amount,from_on
p001,knee,right,avoid,2026-01-05
"""
CLASS = """schema = "roundwright.class/1"
name = "Tuesday circuit"
on = 2026-03-03
start = "18:30"
slot = "45 min"
room = "main_floor"
rounds = 2

[burst]
line = "skip_line"
length = "45 s"

[[exercise]]
exercise = "squat_line"
count = { value = 8, unit = "reps" }

[[exercise]]
exercise = "split_squats_press"
count = { value = 6, unit = "reps_per_side" }
"""
CLASS_FILE = "classes/tuesday.toml"


def hall_files(**texts: str | bytes | None) -> dict[str, bytes]:
    """Give the files, with some replaced: names as hall, kit, people, limitations, tuesday."""
    names = {
        "hall": "hall.toml",
        "kit": "kit.toml",
        "people": "people.csv",
        "limitations": "limitations.csv",
        "tuesday": CLASS_FILE,
    }
    own: dict[str, str | bytes | None] = {
        "hall": HALL,
        "kit": KIT,
        "people": PEOPLE,
        "limitations": LIMITATIONS,
        "tuesday": CLASS,
    }
    return {
        names[key]: text.encode() if isinstance(text, str) else text
        for key, text in (own | texts).items()
        if text is not None
    }


def read(files: dict[str, bytes]) -> Hall:
    """Read on the tiny library."""
    return read_hall_texts(files, worked_count.library())


def faults_of(files: dict[str, bytes]) -> list[Fault]:
    """Give the faults of files that must not be accepted."""
    with pytest.raises(BadInputError) as caught:
        read(files)
    return caught.value.faults


def only_fault(files: dict[str, bytes]) -> Fault:
    """Give the one fault of files that have one."""
    faults = faults_of(files)
    assert len(faults) == 1, [fault.in_words() for fault in faults]
    return faults[0]

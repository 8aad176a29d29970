"""Postures in a hall's own library files: judged as the shipped ones, drawn through the port."""

import pytest

from roundwright.body.anatomy import Side
from roundwright.bootstrap.hall_pictures import HallPictures
from roundwright.bootstrap.shipped_bodies import shipped_bodies
from roundwright.bootstrap.shipped_library import shipped_catalogue, shipped_texts
from roundwright.bootstrap.shipped_pictures import ShippedPictures
from roundwright.bootstrap.wiring import wired
from roundwright.cli.main import main
from roundwright.foundation.errors import BadInputError
from roundwright.library.own_postures import has_postures
from roundwright.services.check_library import check_library, movements_without_posture
from roundwright.services.draw_movements import own_drawings
from roundwright.services.write_movement import write_movement
from tests.cli.a_hall_folder import write_hall

POSTURE = '[posture.slow_split_squat]\nlike = "split_squat"\n'
BEYOND_A_BODY = """[posture.slow_split_squat]
path = "hold"
touch = { foot = "floor" }
knee_left = 5
[[posture.slow_split_squat.key]]
name = "tall"
height = { knee_left = 0.9 }
"""
FORM = {
    "like": "Split squat",
    "name": "Slow split squat",
    "easier": "Supported split squat",
    "up": "Ten a side.",
    "down": "Pain of three of ten or more.",
}


def shipped():
    """Give the shipped postures."""
    return shipped_bodies().postures


def text_with(posture):
    """Write the slow split squat with some posture, sound or not."""
    written = write_movement(FORM, shipped_catalogue(), shipped)
    assert written.faults == ()
    return f"{written.text}\n{posture}"


def hall_with(folder, posture):
    """Read a hall that has the slow split squat."""
    hall = write_hall(folder / "hall")
    (hall / "library").mkdir()
    (hall / "library" / "own.toml").write_text(text_with(posture), encoding="utf-8")
    return wired().hall(hall)


def faults_with(posture):
    """Give the faults of a library file."""
    with pytest.raises(BadInputError) as caught:
        check_library({"own.toml": text_with(posture)}, shipped_catalogue(), shipped)
    return caught.value.faults


def test_a_movement_with_a_posture_is_drawn(tmp_path):
    hall = hall_with(tmp_path, POSTURE)
    pictures = wired().pictures_of(hall)
    keys = pictures.key_pictures("slow_split_squat")
    assert len(keys) == len(ShippedPictures().key_pictures("split_squat")) >= 2
    left = pictures.small("slow_split_squat")
    right = pictures.small("slow_split_squat", Side.RIGHT)
    assert left is not None
    assert left.startswith("<svg")
    assert right not in (None, left)
    steps = [("slow_split_squat", Side.LEFT), ("dumbbell_squat", Side.BOTH)]
    assert pictures.moving(steps) is not None
    assert pictures.moving([*steps, ("no_such_movement", Side.LEFT)]) is None


def test_without_a_posture_there_is_no_picture_and_it_is_said(tmp_path, capsys):
    hall = hall_with(tmp_path, "")
    pictures = wired().pictures_of(hall)
    assert pictures.small("slow_split_squat") is None
    assert pictures.key_pictures("slow_split_squat") == ()
    assert pictures.moving([("slow_split_squat", Side.LEFT)]) is None
    assert pictures.small("split_squat") == ShippedPictures().small("split_squat")
    base = shipped_catalogue()
    assert movements_without_posture({"own.toml": text_with("")}, base) == ("Slow split squat",)
    assert movements_without_posture({"own.toml": text_with(POSTURE)}, base) == ()
    assert main(["library", "check", str(tmp_path / "hall" / "library" / "own.toml")]) == 0
    assert "without pictures: Slow split squat." in capsys.readouterr().out


def test_a_posture_that_disagrees_with_its_movement_is_a_fault_of_the_hall(tmp_path):
    with pytest.raises(BadInputError) as caught:
        hall_with(tmp_path, POSTURE + 'hold = "each"\n')
    fault = caught.value.faults[0]
    assert (fault.file, fault.field) == (
        "library/own.toml",
        "movement.slow_split_squat.posture.hold",
    )
    assert fault.line is not None


@pytest.mark.parametrize(
    ("posture", "code", "field"),
    [
        (POSTURE + "kneee = 90\n", "field.unknown", "posture.slow_split_squat.kneee"),
        (POSTURE.replace("slow_", "sloow_"), "name.unknown", "posture.sloow_split_squat"),
        (POSTURE.replace("slow_", ""), "name.unknown", "posture.split_squat.like"),
        ('[posture.goblet_squat]\nlike = "split_squat"\n', "name.duplicate",
         "posture.goblet_squat"),
    ],
)  # fmt: skip
def test_every_fault_of_a_posture_has_its_file_and_line(posture, code, field):
    faults = faults_with(posture)
    assert [(f.code, f.file, f.field) for f in faults] == [(code, "own.toml", field)]
    assert faults[0].line is not None


def test_positions_that_no_body_can_take_are_faults_and_have_no_picture(tmp_path):
    faults = faults_with(BEYOND_A_BODY)
    assert {f.code for f in faults} == {"library.consistency"}
    assert all(f.field.startswith("posture.slow_split_squat.") for f in faults)
    hall = hall_with(tmp_path, BEYOND_A_BODY)
    pictures = HallPictures(hall, ShippedPictures())
    assert pictures.small("slow_split_squat") is None
    assert pictures.key_pictures("slow_split_squat") == ()


def test_a_broken_movement_does_not_hide_a_broken_posture():
    text = text_with(POSTURE + "kneee = 90\n").replace("level = 2", "level = 9")
    with pytest.raises(BadInputError) as caught:
        check_library({"own.toml": text}, shipped_catalogue(), shipped)
    codes = {f.code for f in caught.value.faults}
    assert {"field.range", "field.unknown"} <= codes


def test_a_library_file_is_drawn_as_it_is_written():
    files, faults = own_drawings({"own.toml": text_with(POSTURE)}, shipped())
    assert faults == ()
    assert "slow_split_squat.svg" in files


def test_the_shipped_library_keeps_its_postures_apart():
    assert not has_postures(shipped_texts())

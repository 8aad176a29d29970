"""The how-to page: its file is sound, and it names every word that there is."""

import re
from pathlib import Path

import pytest

from roundwright.body import posture_words as words
from roundwright.body.build import bodies_of
from roundwright.body.joints import SPOKEN
from roundwright.body.pose_faults import pose_faults
from roundwright.body.posture import Key, Posture, Props, Touch
from roundwright.body.posture_text import read_postures
from roundwright.body.solved import solve_posture
from tests.body.examples import MAN

PAGE = Path(__file__).parents[2] / "docs" / "how-to" / "describe-a-posture.md"
TEXT = PAGE.read_text(encoding="utf-8")
PROSE = re.sub(r"```.*?```", "", TEXT, flags=re.S)
NAMES = set(re.findall(r"[a-z_]+", " ".join(re.findall(r"`([^`]+)`", PROSE))))


def test_the_files_on_the_page_are_sound_and_can_be_stood_in():
    blocks = re.findall(r"```toml\n(.*?)```", TEXT, re.S)
    assert len(blocks) == 2
    seen = set()
    for block in blocks:
        postures, faults = read_postures({"page.toml": block})
        assert faults == ()
        seen |= set(postures)
        for posture in postures.values():
            assert pose_faults(solve_posture(posture, bodies_of([MAN]))) == ()
    assert seen == {
        "dumbbell_squat",
        "goblet_squat",
        "floor_push_up",
        "split_squat",
        "bench_one_arm_row",
    }


@pytest.mark.parametrize(
    "known",
    [
        [n for n in Posture.model_fields if n not in ("slug", "angles", "key")],
        [n for n in Key.model_fields if n != "angles"],
        list(Touch.model_fields),
        list(Props.model_fields),
        list(SPOKEN),
        [*words.TOUCH_POINTS, *words.TOUCH_MIDDLE],
        [*words.AIM_FRAMES, *words.AIM_MIDDLE],
        [*words.DIRECTIONS, words.LEVEL, words.FREE],
        list(words.PLACES),
        list(words.PUT_POINTS),
        [*words.POINTS_MIDDLE, *words.POINTS_SIDED],
        [each.value for each in words.Base],
        [each.value for each in words.Surface],
        [each.value for each in words.Hold],
        [each.value for each in words.Path],
        [each.value for each in words.RopePlace],
    ],
    ids=lambda known: known[0],
)
def test_every_word_is_on_the_page(known):
    assert [name for name in known if name not in NAMES] == []

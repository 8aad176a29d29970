"""The worked examples, solved once for all tests."""

from functools import cache
from pathlib import Path

from roundwright.body.build import BodySex, bodies_of
from roundwright.body.posture import Posture
from roundwright.body.posture_text import read_postures
from roundwright.body.solved import SolvedPosture, solve_posture
from roundwright.bootstrap.shipped_bodies import checked_texts

FOLDER = Path(__file__).parent / "postures"
MAN = (BodySex.MALE, 1.75)
WOMAN = (BodySex.FEMALE, 1.65)


@cache
def example_postures() -> dict[str, Posture]:
    texts = {path.name: path.read_text(encoding="utf-8") for path in FOLDER.glob("*.toml")}
    texts |= checked_texts()
    postures, faults = read_postures(texts)
    assert [fault.in_words() for fault in faults] == []
    return postures


@cache
def solved(slug: str, person: tuple[BodySex, float] = MAN) -> SolvedPosture:
    return solve_posture(example_postures()[slug], bodies_of([person]))


def read_one(text: str, slug: str = "probe") -> Posture:
    """Read one posture written without its schema line."""
    postures, faults = read_postures({"probe.toml": f'schema = "roundwright.posture/1"\n{text}'})
    assert [fault.in_words() for fault in faults] == []
    return postures[slug]


def solved_text(text: str, person: tuple[BodySex, float] = MAN) -> SolvedPosture:
    return solve_posture(read_one(text), bodies_of([person]))

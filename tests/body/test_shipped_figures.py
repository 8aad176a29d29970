"""Shipped figures and pictures of the whole library; a part is solved anew in every run.

Which part: a movement belongs to one of twenty by the digest of its name, and the part that is
solved goes by the digest of all posture files together. So a run can be repeated, and the part
goes on whenever anybody changes a posture.
"""

import hashlib

import numpy as np
import pytest

from roundwright.body.body_table import PostureRow, make_body_table
from roundwright.body.drawing.picture import LARGEST_BYTES, chief_place, draw_key, strip
from roundwright.body.kept_positions import solved_as_kept
from roundwright.body.moving_sequence import rep_points
from roundwright.body.pose_faults import pose_faults
from roundwright.body.solved import SolvedPosture
from roundwright.bootstrap.shipped_bodies import posture_texts, shipped_bodies

PARTS = 20
SLUGS = sorted(shipped_bodies().postures)
NEAR = {"moment": 40, "bp": 30, "mm": 3}
"""How far off on another machine: 1/100,000 of body weight × stature; 1/10,000; mm."""


def part_of(text: str) -> int:
    return int(hashlib.sha256(text.encode()).hexdigest(), 16) % PARTS


def chosen() -> list[str]:
    texts = posture_texts()
    wanted = part_of("".join(texts[name] for name in sorted(texts)))
    return [slug for slug in SLUGS if part_of(slug) == wanted]


def solved(slug: str) -> SolvedPosture:
    return shipped_bodies().solved(slug)


def flat(value: object) -> np.ndarray:
    return np.array(value, dtype=float).ravel()


def off(one: PostureRow, other: PostureRow) -> dict[str, float]:
    """Give how far two rows are apart at most, by kind of figure."""
    pairs: dict[str, list[tuple[object, object]]] = {
        "moment": [],
        "bp": [(one.lifted_share_bp or (), other.lifted_share_bp or ())],
        "mm": [
            (one.body_rise_mm, other.body_rise_mm),
            (one.load_rise_mm, other.load_rise_mm),
            (one.footprint_mm, other.footprint_mm),
        ],
    }
    for a, b in zip(one.keys, other.keys, strict=True):
        pairs["moment"] += [(a.bend, b.bend), (a.total, b.total)]
        pairs["bp"] += [(a.hands_bp, b.hands_bp), (a.feet_left_bp, b.feet_left_bp)]
    return {
        kind: max((float(np.abs(flat(a) - flat(b)).max(initial=0)) for a, b in rows), default=0)
        for kind, rows in pairs.items()
    }


def test_every_movement_belongs_to_a_part_and_parts_are_of_use() -> None:
    sizes = [sum(part_of(slug) == part for slug in SLUGS) for part in range(PARTS)]
    assert sum(sizes) == len(SLUGS)
    assert min(sizes) > 0


def test_a_part_of_the_figures_is_what_solving_gives_now() -> None:
    bodies = shipped_bodies()
    anew, faults = make_body_table(bodies.postures[slug] for slug in chosen())
    assert faults == ()
    for slug, row in anew.movements.items():
        kept = bodies.table.movements[slug]
        assert row.joints == kept.joints
        found = off(row, kept)
        assert all(found[kind] <= most for kind, most in NEAR.items()), (slug, found)


def test_a_figure_that_is_off_is_noticed() -> None:
    row = shipped_bodies().table.movements["goblet_squat"]
    rise = tuple(tuple(value + 9 for value in each) for each in row.body_rise_mm)
    assert off(row, row.model_copy(update={"body_rise_mm": rise}))["mm"] == 9


def test_kept_positions_pass_every_gate_for_the_reference_body() -> None:
    failing = {s: [f.in_words() for f in pose_faults(solved(s))] for s in SLUGS}
    assert {slug: faults for slug, faults in failing.items() if faults} == {}


def test_no_picture_of_the_library_is_larger_than_it_may_be() -> None:
    sizes = {(s, i): len(svg.encode()) for s in SLUGS for i, svg in enumerate(strip(solved(s)))}
    assert len(sizes) > 2 * len(SLUGS)
    assert {place: size for place, size in sizes.items() if size > LARGEST_BYTES} == {}


def test_positions_of_another_posture_are_refused() -> None:
    bodies = shipped_bodies()
    with pytest.raises(ValueError, match="another posture"):
        solved_as_kept(bodies.postures["goblet_squat"], bodies.table.movements["dumbbell_squat"])


@pytest.mark.parametrize(
    ("slug", "key"), [("goblet_squat", "low"), ("standing_dumbbell_press", "overhead")]
)
def test_the_small_picture_is_the_position_that_shows_the_movement(slug: str, key: str) -> None:
    shown = solved(slug)
    assert shown.keys[chief_place(shown)].pose.name == key
    assert f"<title>{key}</title>" in draw_key(shown, chief_place(shown))


@pytest.mark.parametrize("slug", chosen())
def test_a_part_of_the_moving_figures_begins_and_ends_in_the_first_position(slug: str) -> None:
    points, keys = rep_points(solved(slug))
    assert keys[0] == 0
    assert keys[-1] == len(points) - 1
    if solved(slug).posture.path.value != "hold":
        assert np.allclose(points[0], points[-1])

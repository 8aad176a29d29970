"""The table of body figures: every posture for both sexes and several statures, as integers.

It is made once by a command and read at run time. Moments are stored as
hundred-thousandths of (body weight × stature), because that ratio hardly
depends on stature; people are found between the rows by interpolation.
"""

from collections.abc import Iterable, Mapping
from dataclasses import asdict
from typing import Any

import numpy as np
from pydantic import Field

from roundwright.body.build import Bodies, BodySex, bodies_of
from roundwright.body.figures import BodyFigures, figures_of, has_unweighed_band
from roundwright.body.joints import ANGLES
from roundwright.body.pose_faults import WORDS_DISAGREE, pose_faults
from roundwright.body.posture import Posture
from roundwright.body.segment_table import MEN, STRENGTH_NM_PER_KG, WOMEN
from roundwright.body.solved import REFERENCE, SolvedPosture, solve_posture
from roundwright.body.statics import JOINTS, load_at_hands
from roundwright.body.tolerances import REST_DEG, TOLERANCE_M, TOLERANCE_RAD
from roundwright.foundation.canonical import digest_of_json
from roundwright.foundation.faults import Fault
from roundwright.foundation.model import Stored
from roundwright.foundation.quantities import BP, stored

SCHEMA = "roundwright.bodies/1"
STATURES_MM = (1500, 1600, 1700, 1800, 1900)
SEXES = (BodySex.FEMALE, BodySex.MALE)
LOAD_SHARES_BP = (0, 1000, 2500)
"""Mass of one dumbbell as a share of body mass; beyond the last the line is carried on."""
MOMENT_UNIT = 1e-5
POSITION_UNIT = 1e-5
MODEL_NUMBER = 2
"""Raised by hand when the way of solving changes in a manner that its figures do not show."""
Grid = tuple[tuple[tuple[tuple[int, ...], ...], ...], ...]
"""By sex, stature, load and joint."""


class KeyRow(Stored):
    """One key position: moments by sex, stature, load and joint; empty where none is published.

    Loads with which the position would fall over are left out at the end.
    """

    name: str
    bend: Grid = ()
    total: Grid = ()
    hands_bp: tuple[tuple[int, ...], ...] = ()
    """Share of the body's weight on hands and forearms, without load, by sex and stature."""
    feet_left_bp: tuple[tuple[int, ...], ...] = ()
    """The same on the left foot or knee."""
    slips: bool = False
    """Whether a support pushes sideways by more than 0.6 of its pressure in any of the bodies."""


class PostureRow(Stored):
    """All figures of one movement's posture."""

    posture: str
    """Digest of the posture that was solved."""
    band_pulls_unweighed: bool = False
    """Whether a band pulls with a force that the model does not know: no moments and no shares on
    supports are stored then."""
    joints: tuple[str, ...]
    load_shares_bp: tuple[int, ...]
    keys: tuple[KeyRow, ...]
    lifted_share_bp: tuple[tuple[int, ...], ...] | None
    body_rise_mm: tuple[tuple[int, ...], ...]
    load_rise_mm: tuple[tuple[int, ...], ...]
    footprint_mm: tuple[int, int]
    """Length and width of the floor under the largest body."""
    decided_by_author: bool
    """Whether a split of the weight is the author's decision."""
    positions: tuple[tuple[int, ...], ...] = ()
    """All freedoms of the reference body in each key position, in 1/100,000 m or rad: pictures
    are drawn from them without solving anew."""


class BodyTable(Stored):
    """The table as stored."""

    schema_: str = Field(default=SCHEMA, alias="schema")
    statures_mm: tuple[int, ...] = STATURES_MM
    model: str = ""
    """Digest of the body model's own figures and of its number: see `model_digest`."""
    sexes: tuple[str, ...] = tuple(sex.value for sex in SEXES)
    movements: dict[str, PostureRow] = Field(default_factory=dict)

    def stale(self, postures: Mapping[str, Posture]) -> tuple[str, ...]:
        """Give movements whose posture or body model is not the one that was solved."""
        other_model = self.model != model_digest()
        return tuple(
            slug
            for slug, posture in postures.items()
            if other_model
            or slug not in self.movements
            or self.movements[slug].posture != posture.digest
        )


def make_body_table(
    postures: Iterable[Posture], file: str = "", kept: BodyTable | None = None
) -> tuple[BodyTable, tuple[Fault, ...]]:
    """Solve postures for all bodies of the table.

    Parameters
    ----------
    postures : iterable of Posture
        What to solve.
    file : str
        Name shown in faults.
    kept : BodyTable, optional
        An earlier table: rows whose posture is unchanged are taken over.

    Returns
    -------
    table : BodyTable
        Rows of all postures that pass every gate.
    faults : tuple of Fault
        One for each gate that a posture fails; such a posture has no row.
    """
    rows: dict[str, PostureRow] = {}
    faults: list[Fault] = []
    for posture in postures:
        usable = kept is not None and kept.model == model_digest()
        old = kept.movements.get(posture.slug) if kept is not None and usable else None
        if old is not None and old.posture == posture.digest:
            rows[posture.slug] = old
            continue
        row, bad = _row(posture, file)
        faults += bad
        if row is not None:
            rows[posture.slug] = row
    return BodyTable(movements=rows, model=model_digest()), tuple(faults)


def model_digest() -> str:
    """Give a digest of what all figures rest on besides the postures: lengths, ranges, gates."""
    return digest_of_json(
        {
            "number": MODEL_NUMBER,
            "segments": [asdict(MEN), asdict(WOMEN)],
            "strength": STRENGTH_NM_PER_KG,
            "ranges": [asdict(freedom) for freedom in ANGLES],
            "tolerances": [TOLERANCE_M, TOLERANCE_RAD, REST_DEG],
            "grid": [STATURES_MM, LOAD_SHARES_BP],
        }
    )


def table_bodies() -> Bodies:
    """Give all bodies of the table, by sex, then stature."""
    return bodies_of([(sex, mm / 1000) for sex in SEXES for mm in STATURES_MM])


def gate_faults(posture: Posture, solved: SolvedPosture, file: str, words: bool) -> list[Fault]:
    """Give the gates that a solved posture fails; `words` says whether the author's are judged."""
    told: dict[tuple[str, str, str], Fault] = {}
    for each in pose_faults(solved):
        if words or each.gate not in WORDS_DISAGREE:
            told.setdefault(
                (each.key, each.gate, each.part),
                Fault(
                    code="library.consistency",
                    file=file,
                    field=f"posture.{posture.slug}.{each.key}",
                    value=each.in_words(),
                    remedy="Take away or mend one of the words that it is told by.",
                ),
            )
    return list(told.values())


def _row(posture: Posture, file: str) -> tuple[PostureRow | None, list[Fault]]:
    reference = solve_posture(posture, bodies_of([REFERENCE]))
    faults = gate_faults(posture, reference, file, words=True)
    if faults:
        return None, faults
    solved = solve_posture(posture, table_bodies(), like=reference)
    faults = gate_faults(posture, solved, file, words=False)
    if faults:
        return None, faults
    alike = all(key.pose.is_symmetric for key in solved.keys)
    joints = tuple(j for j in JOINTS if not (alike and j.endswith("_right")))
    loads = LOAD_SHARES_BP if any(any(load_at_hands(key)) for key in solved.keys) else (0,)
    shares = tuple(share / BP for share in loads)
    every = [figures_of(solved, body, shares) for body in range(solved.bodies.count)]
    row = _as_row(posture, solved, every, joints, loads)
    positions = tuple(
        tuple(stored(float(value) / POSITION_UNIT) for value in key.q[0]) for key in reference.keys
    )
    return row.model_copy(update={"positions": positions}), []


def _as_row(
    posture: Posture,
    solved: SolvedPosture,
    every: list[BodyFigures],
    joints: tuple[str, ...],
    loads: tuple[int, ...],
) -> PostureRow:
    statures = solved.bodies.stature_m
    keys = []
    for place, key in enumerate(solved.keys):
        loads_held = min(len(each.keys[place].helds) for each in every)
        if loads_held == 0 or has_unweighed_band(posture):
            keys.append(KeyRow(name=key.pose.name))
            continue
        bend, total, hands, left = [], [], [], []
        slips = False
        for body, each in enumerate(every):
            helds = each.keys[place].helds[:loads_held]
            unit = MOMENT_UNIT * float(statures[body])
            bend.append(tuple(tuple(stored(h.bend[j] / unit) for j in joints) for h in helds))
            total.append(tuple(tuple(stored(h.total[j] / unit) for j in joints) for h in helds))
            first = helds[0]
            slips = slips or first.slips
            hands.append(stored(BP * sum(first.share(n) for n in _HANDS)))
            left.append(stored(BP * sum(first.share(n) for n in _LEFT)))
        keys.append(
            KeyRow(
                name=key.pose.name, bend=_by_sex(bend), total=_by_sex(total),
                hands_bp=_by_sex(hands), feet_left_bp=_by_sex(left), slips=slips,
            )
        )  # fmt: skip
    shares = [each.work.lifted_share for each in every]
    known = [share for share in shares if share is not None]
    sizes = np.array([each.footprint_m for each in every]).max(axis=0)
    return PostureRow(
        posture=posture.digest,
        joints=joints,
        load_shares_bp=loads,
        keys=tuple(keys),
        lifted_share_bp=(
            _by_sex([stored(BP * share) for share in known]) if len(known) == len(every) else None
        ),
        body_rise_mm=_by_sex([stored(1000 * each.work.body_rise_m) for each in every]),
        load_rise_mm=_by_sex([stored(1000 * each.work.load_rise_m) for each in every]),
        footprint_mm=(stored(1000 * float(sizes[0])), stored(1000 * float(sizes[1]))),
        decided_by_author=any(key.pose.weight for key in solved.keys),
        band_pulls_unweighed=has_unweighed_band(posture),
    )


_HANDS = ("palm", "fist", "fingers", "forearm", "elbow")
_LEFT = tuple(
    f"{n}_left" for n in ("foot", "ball", "heel", "toes", "foot_top", "foot_side", "knee", "shin")
)


def _by_sex(values: list[Any]) -> tuple[tuple[Any, ...], ...]:
    n = len(STATURES_MM)
    return tuple(tuple(values[i * n : (i + 1) * n]) for i in range(len(SEXES)))

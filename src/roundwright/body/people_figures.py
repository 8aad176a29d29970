"""Figures of the table for real people: many at once, between the solved statures and loads."""

from dataclasses import dataclass

import numpy as np

from roundwright.body.body_table import MOMENT_UNIT, STATURES_MM, BodyTable, PostureRow
from roundwright.body.build import Floats
from roundwright.body.demand_bands import JOINT_NAMES, Demand
from roundwright.body.segment_table import GRAVITY_M_S2
from roundwright.foundation.quantities import BP, stored


@dataclass(frozen=True)
class Builds:
    """Some people: arrays of one length."""

    stature_m: Floats
    male_part: Floats
    """1 for men, 0 for women, 0.5 where it is not stated."""


def _weights(row: Floats, at: Floats, beyond: bool) -> tuple[np.ndarray, Floats]:
    """Give the lower place in a row of values and the part towards the next one.

    Beyond its ends a row is held, or carried on as a line where `beyond` says so.
    """
    if len(row) == 1:
        return np.zeros(len(at), dtype=int), np.zeros(len(at))
    low = np.clip(np.searchsorted(row, at) - 1, 0, len(row) - 2)
    part = (at - row[low]) / (row[low + 1] - row[low])
    return low, np.maximum(part, 0.0) if beyond else np.clip(part, 0.0, 1.0)


def moments_nm_per_kg(
    table: BodyTable, slug: str, builds: Builds, load_share: Floats, *, bend: bool = False
) -> dict[str, Floats]:
    """Give the moments of a movement's key positions for some people.

    Parameters
    ----------
    table : BodyTable
        The stored table.
    slug : str
        Which movement.
    builds : Builds
        The people.
    load_share : array
        Mass of one dumbbell by body mass, for each person.
    bend : bool
        The bending part (signed) instead of the whole moment.

    Returns
    -------
    dict
        By joint, shape (key positions, people), N·m per kg of body mass; NaN where a
        key position publishes none.
    """
    row = table.movements[slug]
    grids = [np.array(key.bend if bend else key.total, dtype=float) for key in row.keys]
    statures = np.array(table.statures_mm) / 1000
    s, ps = _weights(statures, builds.stature_m, beyond=False)
    loads = np.array(row.load_shares_bp) / BP
    k, pk = _weights(loads, load_share, beyond=True)
    people = len(builds.stature_m)
    out = {joint: np.full((len(grids), people), np.nan) for joint in row.joints}
    sex = np.stack([1 - builds.male_part, builds.male_part])
    scale = MOMENT_UNIT * GRAVITY_M_S2 * builds.stature_m
    for place, grid in enumerate(grids):
        if not grid.size:
            continue
        value = np.zeros((people, len(row.joints)))
        for ds, ws in ((0, 1 - ps), (1, ps)):
            for dk, wk in ((0, 1 - pk), (1, pk)):
                at_s = np.minimum(s + ds, grid.shape[1] - 1)
                at_k = np.minimum(k + dk, grid.shape[2] - 1)
                here = np.einsum("xp,xpj->pj", sex, grid[:, at_s, at_k])
                value += (ws * wk)[:, None] * here
        for j, joint in enumerate(row.joints):
            out[joint][place] = value[:, j] * scale
    return out


def demand_of(
    table: BodyTable, slug: str, stature_m: float, male_part: float, load_share: float
) -> dict[str, Demand]:
    """Give what each joint is asked at most, for one person with a load.

    Where nothing is published (in flight, with a band) a demand names no key and has no band.
    """
    builds = Builds(np.array([stature_m]), np.array([male_part]))
    load = np.array([load_share])
    totals = moments_nm_per_kg(table, slug, builds, load)
    bends = moments_nm_per_kg(table, slug, builds, load, bend=True)
    row = table.movements[slug]
    worst = {name: Demand(name, 0.0, 0.0, "") for name in JOINT_NAMES}
    for joint, values in totals.items():
        name = joint.removesuffix("_left").removesuffix("_right")
        for place, key in enumerate(row.keys):
            value = float(values[place, 0])
            if value > worst[name].nm_per_kg:
                worst[name] = Demand(name, value, float(bends[joint][place, 0]), key.name)
    return worst


def lifted_share_bp(row: PostureRow, stature_m: float, male_part: float) -> int | None:
    """Give the share of body mass lifted, between the table's statures; None where none is."""
    if row.lifted_share_bp is None:
        return None
    grid = np.array(row.lifted_share_bp, dtype=float)
    return stored(_between(grid, stature_m, male_part))


def hands_share_bp(row: PostureRow, stature_m: float, male_part: float) -> int | None:
    """Give the share of the weight on hands and forearms in the first key position.

    None where nothing is published of it.
    """
    if not row.keys[0].hands_bp:
        return None
    grid = np.array(row.keys[0].hands_bp, dtype=float)
    return stored(_between(grid, stature_m, male_part))


def rep_joules(
    row: PostureRow, stature_m: float, male_part: float, mass_kg: float, dumbbell_kg: float
) -> float:
    """Give the work against gravity of one rep, J, with dumbbells of one mass in kg."""
    rises = [
        _between(np.array(each, dtype=float), stature_m, male_part) / 1000
        for each in (row.body_rise_mm, row.load_rise_mm)
    ]
    return GRAVITY_M_S2 * (mass_kg * rises[0] + dumbbell_kg * rises[1])


def _between(grid: Floats, stature_m: float, male_part: float) -> float:
    at = [float(np.interp(stature_m * 1000, STATURES_MM, each)) for each in grid]
    return (1 - male_part) * at[0] + male_part * at[1]

"""What the body model says of one movement, for whoever looks it up: words and round figures."""

from collections.abc import Mapping
from typing import Any

from roundwright.body.body_table import BodyTable
from roundwright.body.demand_bands import JOINT_NAMES, LABEL
from roundwright.body.people_figures import (
    demand_of,
    hands_share_bp,
    lifted_share_bp,
    rep_joules,
)
from roundwright.body.posture import Posture
from roundwright.foundation.quantities import BP
from roundwright.library.catalogue import Catalogue
from roundwright.library.model_demands import (
    USUAL_MALE_PART,
    USUAL_MASS_G,
    USUAL_STATURE_M,
    usual_load_share,
)


def model_figures(
    catalogue: Catalogue, postures: Mapping[str, Posture], table: BodyTable, slug: str
) -> dict[str, Any]:
    """Give the model's figures of a movement; empty for what has no posture.

    Returns
    -------
    dict
        Bands by joint, share of body weight lifted and on the hands, work of a rep in J, the
        floor in m under somebody of 1.90 m, key positions without figures, and the demands that
        are the model's.
    """
    if slug not in postures or slug not in catalogue.movements:
        return {}
    row, movement = table.movements[slug], catalogue.movements[slug]
    load = usual_load_share(movement, postures[slug])
    demands = demand_of(table, slug, USUAL_STATURE_M, USUAL_MALE_PART, load)
    lifted = lifted_share_bp(row, USUAL_STATURE_M, USUAL_MALE_PART)
    on_hands = hands_share_bp(row, USUAL_STATURE_M, USUAL_MALE_PART)
    mass_kg = USUAL_MASS_G / 1000
    joules = rep_joules(row, USUAL_STATURE_M, USUAL_MALE_PART, mass_kg, load * mass_kg)
    raised = catalogue.raised_by_model.get(slug, {})
    return {
        "label": LABEL,
        "for": f"{USUAL_STATURE_M:.2f} m, {mass_kg:g} kg, {load * mass_kg:.0f} kg in a hand",
        "bands": {
            ("low back" if joint == "lumbar" else joint): demands[joint].band
            for joint in JOINT_NAMES
        },
        "lifted_share": None if lifted is None else round(lifted / BP, 2),
        "share_on_hands": round(on_hands / BP, 2) if on_hands else None,
        "work_of_a_rep_j": float(f"{joules:.2g}"),
        "floor_m": [round(each / 1000, 1) for each in row.footprint_mm],
        "weight_split_decided_by_author": row.decided_by_author,
        "key_positions_without_figures": [key.name for key in row.keys if not key.total],
        "degrees_by_model": {
            demand.value: f"{movement.demand(demand)}, the author gave {was}"
            for demand, was in raised.items()
        },
    }

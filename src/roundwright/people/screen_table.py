"""The published table that says who should see a doctor before training, row by row.

Riebe D and others 2015, Med Sci Sports Exerc 47:2473-2479, figure (id
`screen-acsm-2015`, read on secondary pages). Adults; disease means of heart and
vessels, metabolism or kidneys.
"""

from dataclasses import dataclass
from enum import StrEnum


class Referral(StrEnum):
    """Whether a clinician's word is needed, and before what."""

    NONE = "none"
    BEFORE_VIGOROUS = "before_vigorous"
    BEFORE_ANY = "before_any"


@dataclass(frozen=True, slots=True)
class TableRow:
    """One row: `disease` None stands for either; `starts_light` for 'light to moderate first'."""

    active: bool
    disease: bool | None
    symptoms: bool
    referral: Referral
    starts_light: bool


TABLE: tuple[TableRow, ...] = (
    TableRow(False, False, False, Referral.NONE, True),
    TableRow(False, True, False, Referral.BEFORE_ANY, True),
    TableRow(False, None, True, Referral.BEFORE_ANY, True),
    TableRow(True, False, False, Referral.NONE, False),
    TableRow(True, True, False, Referral.BEFORE_VIGOROUS, False),
    TableRow(True, None, True, Referral.BEFORE_ANY, False),
)


def row_of(active: bool, disease: bool, symptoms: bool) -> TableRow:
    """Give the one row of the table that holds."""
    return next(
        row
        for row in TABLE
        if (row.active, row.symptoms) == (active, symptoms) and row.disease in (None, disease)
    )

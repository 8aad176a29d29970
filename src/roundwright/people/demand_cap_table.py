"""What each limitation asks of the demands: one row a concern and amount, some by week.

Degrees are the library's: 0 none, 1 low, 2 clear, 3 high. None of it is medical
advice: the person's clinician goes first. Every row is data with its tag: CP is
common practice without a source; an id names a published reference.
"""

from collections.abc import Iterable

from roundwright.library.vocabulary import HIGHEST_DEMAND, Demand
from roundwright.people.ability_caps import ABILITIES
from roundwright.people.cap_row import ASK_NEWS, ASK_STILL, Action, CapRow, Half
from roundwright.people.condition_caps import CONDITIONS
from roundwright.people.limitation import Amount, Concern
from roundwright.people.region_caps import REGIONS
from roundwright.people.stage_caps import AGES, BY_WEEK, LAST_WEEK


def _row(half: Half, source: str) -> CapRow:
    return CapRow(caps=half[0], actions=half[1], effort_cap=half[2], source=source)


STAGES: dict[tuple[Concern, Amount], tuple[tuple[int, CapRow], ...]] = {
    (concern, amount): tuple(
        (from_week, _row(avoid if amount is Amount.AVOID else ease, source))
        for from_week, avoid, ease in stages
    )
    for concern, (stages, source) in BY_WEEK.items()
    for amount in Amount
}
"""Rows by the week from which they hold, of the concerns that have weeks."""


def _least(rows: Iterable[CapRow], *more: Action) -> CapRow:
    """Give the row that is as strict as each of several, its words once each."""
    rows = tuple(rows)
    demands = {demand for row in rows for demand in row.caps}
    efforts = [row.effort_cap for row in rows if row.effort_cap is not None]
    words = dict.fromkeys([*more, *(action for row in rows for action in row.actions)])
    return CapRow(
        caps={
            demand: min(row.caps.get(demand, HIGHEST_DEMAND) for row in rows)
            for demand in Demand
            if demand in demands
        },
        actions=tuple(words),
        effort_cap=min(efforts, default=None),
        source=rows[0].source,
    )


TABLE: dict[tuple[Concern, Amount], CapRow] = {
    (concern, amount): _row(half, source)
    for concern, (avoid, ease, source) in (REGIONS | CONDITIONS | ABILITIES | AGES).items()
    for amount, half in ((Amount.AVOID, avoid), (Amount.EASE, ease))
} | {key: _least((row for _, row in stages), ASK_NEWS) for key, stages in STAGES.items()}
"""Every concern with both amounts; of those with weeks the row for an unknown week."""


def row_for(concern: Concern, amount: Amount, week: int | None) -> CapRow:
    """Give what a concern asks in a certain week.

    Parameters
    ----------
    concern, amount
        As in limitations.csv.
    week : int or None
        Whole weeks of pregnancy or since the birth on the class's date; None
        where nobody said. Other concerns have no weeks.

    Returns
    -------
    CapRow
        The row of the stage; the least of all stages where the week is not
        known or past the last one, with a question to ask.
    """
    stages = STAGES.get((concern, amount))
    if stages is None or week is None or week < 0:
        return TABLE[concern, amount]
    if week > LAST_WEEK.get(concern, week):
        return _least((row for _, row in stages), ASK_STILL)
    return next(row for from_week, row in reversed(stages) if from_week <= week)

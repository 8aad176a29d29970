"""The page that lists what each limitation asks: made from the table, row by row."""

from roundwright.people.cap_row import CapRow
from roundwright.people.demand_cap_table import STAGES, TABLE
from roundwright.people.limitation import Amount, Concern
from roundwright.people.stage_caps import CLINICIAN_LIFTS, LAST_WEEK

_INTRO = """# What each limitation asks

Made from the tables in `people`. A cap is the highest degree of a demand that is left: 0 none,
1 low, 2 clear, 3 high; a demand that is not named is free. *Effort* is the highest of 10. *Say*
is what stands on the sheet, and all that an assistant sees. None of it is medical advice: the
person's clinician goes first.

Several limitations together take the least of each. Caps are judged on the class's date. A row
past its `until_on` still holds, and the sheet says to ask. Concerns with weeks take the stage
of the week that is reached on the class's date; where nobody said the week, or it is past the
last one, the least of all stages holds, and the sheet says to ask. Somebody who may be 65 or
may be under 16 on that date has the *ease* row of that age without a row being written; a row
of one's own takes its place.
"""


def _cells(amount: str, row: CapRow) -> str:
    caps = ", ".join(f"{demand.value} {degree}" for demand, degree in sorted(row.caps.items()))
    words = " · ".join(action.words for action in row.actions)
    effort = "" if row.effort_cap is None else str(row.effort_cap)
    return f"| {amount} | {caps} | {effort} | {words} |"


def _of_concern(concern: Concern) -> list[str]:
    lines = [f"## {concern.value}", "", f"Tag: {TABLE[concern, Amount.AVOID].source}.", ""]
    lines += ["| row | caps | effort | say |", "|---|---|---|---|"]
    for amount in Amount:
        stages = STAGES.get((concern, amount))
        if stages is None:
            lines.append(_cells(amount.value, TABLE[concern, amount]))
            continue
        lines += [_cells(f"{amount.value}, from week {week}", row) for week, row in stages]
        lines.append(_cells(f"{amount.value}, week unknown", TABLE[concern, amount]))
    if concern in LAST_WEEK:
        lines += ["", f"After week {LAST_WEEK[concern]}: as if unknown."]
    for demand, week in CLINICIAN_LIFTS.get(concern, {}).items():
        until = "" if week is None else f" before week {week}, or while the week is unknown"
        lines += ["", f"`{demand.value}` is lifted by a clinician only{until}."]
    return [*lines, ""]


def limits_page() -> str:
    """Give the whole page."""
    lines = [_INTRO]
    for concern in Concern:
        lines += _of_concern(concern)
    return "\n".join(lines)

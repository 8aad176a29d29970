"""Limits that follow from age alone, on the day of a class.

Somebody who may be 65, or may be under 16, has the *ease* row of that age
without anybody writing it down. A row of their own for that age, begun by the
class's date, takes its place: that is how a coach lifts one demand of it, with
reason, role and end.
"""

from collections.abc import Sequence
from datetime import date

from roundwright.people.limitation import Amount, Concern, Limitation


def with_age_limits(
    limitations: Sequence[Limitation],
    person_id: str,
    concerns: Sequence[Concern],
    on: date,
) -> tuple[Limitation, ...]:
    """Give a person's limitations and those of their age that have no row of their own.

    Parameters
    ----------
    limitations : sequence of Limitation
        The person's rows.
    person_id : str
        Whose they are.
    concerns : sequence of Concern
        What `age_concerns` gives for the person.
    on : date
        The class's date.
    """
    own = {row.concern for row in limitations if row.from_on <= on}
    more = (
        Limitation(person_id=person_id, concern=concern, amount=Amount.EASE, from_on=on)
        for concern in concerns
        if concern not in own
    )
    return (*limitations, *more)


def age_concerns(ages: tuple[int, int] | None, child_age: int, old_age: int) -> tuple[Concern, ...]:
    """Give which ages a person may have that limit what they do.

    Parameters
    ----------
    ages : tuple of int, optional
        Youngest and oldest possible age on the class's date; None if unknown,
        which counts as neither.
    child_age, old_age : int
        Years below which, and from which on, an age limits.
    """
    if ages is None:
        return ()
    youngest, oldest = ages
    child = (Concern.UNDER_16,) if youngest < child_age else ()
    old = (Concern.AGE_65_UP,) if oldest >= old_age else ()
    return child + old


def likely_ages(
    ages: tuple[int, int] | None,
    limitations: Sequence[Limitation],
    child_age: int,
    old_age: int,
    on: date,
) -> tuple[int | None, int | None]:
    """Give the youngest and oldest age that rules should read.

    A birth year goes first. Where there is none, a row for an age says enough:
    a year below the child's age, or the old age itself.
    """
    if ages is not None:
        return ages
    said = {row.concern for row in limitations if row.from_on <= on}
    youngest = child_age - 1 if Concern.UNDER_16 in said else None
    oldest = old_age if Concern.AGE_65_UP in said else youngest
    return youngest, oldest

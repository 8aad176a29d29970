"""All pictures of a plan, in the order in which a page shows them."""

from collections.abc import Mapping, Sequence

from roundwright.documents.pictures.balance import Balance, balance
from roundwright.documents.pictures.ink import Picture
from roundwright.documents.pictures.kit_over_time import kit_over_time
from roundwright.documents.pictures.landing_bars import landing_bars
from roundwright.documents.pictures.region_sets import region_sets
from roundwright.plan.document import PlanDocument


def plan_pictures(
    document: PlanDocument,
    names: Mapping[str, str],
    units: str,
    earlier: Sequence[Balance] = (),
) -> tuple[Picture, ...]:
    """Draw kit over time, hard sets by region, balance, and landings.

    Each has its title, what it shows in words (to be read out instead of it), and tables with
    its figures. Hard sets and landings name people: they stay on the coach's side.

    Parameters
    ----------
    document : PlanDocument
        The plan.
    names : mapping
        Shown names by person id.
    units : {'kg', 'lb'}
        How dumbbells are named.
    earlier : sequence of Balance
        Of other classes of the hall.
    """
    return (
        kit_over_time(document, names, units),
        region_sets(document, names, units),
        balance(document, earlier),
        landing_bars(document, names, units),
    )

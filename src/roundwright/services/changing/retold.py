"""What a kept revision did, said in the language that is spoken now.

The sentence that is kept with a revision is English, in the units of the hall. For others the
change is restated from the plan before it and told anew; where that cannot be, it stands as kept.
"""

from collections.abc import Callable

from roundwright.foundation.errors import RoundwrightError
from roundwright.foundation.words import shown_units, speech
from roundwright.library.catalogue import Catalogue
from roundwright.plan.changing.restate import restate
from roundwright.plan.changing.revisions import Revision
from roundwright.plan.document import PlanDocument
from roundwright.services.changing.said import said_of
from roundwright.services.changing.said_words import sentence_of


def retold(
    one: Revision, document: Callable[[int], PlanDocument], library: Catalogue, units: str
) -> str:
    """Give the sentence of a revision, with people as `{p001}`.

    Parameters
    ----------
    one : Revision
        Which.
    document : callable
        Gives the plan at a revision.
    library : Catalogue
        The hall's library, from which a change may take exercises.
    units : str
        kg or lb of the hall, where whoever listens chose none.
    """
    as_kept = not speech().texts and shown_units(units) == units
    if as_kept or one.change is None or one.parent is None:
        return one.sentence
    before, after = document(one.parent), document(one.revision)
    try:
        asked = restate(before.problem, before.core, one.change, library)
    except RoundwrightError:  # the library no longer has what was asked for
        return one.sentence
    said = said_of(one.change, asked, before.core, after.core)
    return sentence_of(said, after.problem, shown_units(units))

"""Who stands where with what, window by window of a typical class: the table of the timeline."""

from collections.abc import Mapping

from roundwright.documents.pictures.ink import Table
from roundwright.documents.plan_view import PlanView
from roundwright.documents.spoken import item_words
from roundwright.documents.version_names import full_name
from roundwright.foundation import shown
from roundwright.foundation.words import say
from roundwright.plan.core import Cell
from roundwright.plan.document import PlanDocument
from roundwright.rehearsal.one_play import Doing, OnePlay, Stretch

HEADS = ("From", "Round", "Who", "Place", "Version")


def who_is_where(
    document: PlanDocument, play: OnePlay, names: Mapping[str, str], units: str
) -> Table:
    """List every set of a class in order of time.

    Parameters
    ----------
    document : PlanDocument
        The plan that was played.
    play : OnePlay
        One play of it.
    names : mapping
        Shown names by person id.
    units : {'kg', 'lb'}
        How loads are shown.
    """
    view = PlanView(document, names, units)
    sets = [
        (stretch, person.person_id)
        for person in play.people
        for stretch in person.stretches
        if stretch.doing is Doing.WORK
    ]
    sets.sort(key=lambda pair: (pair[0].from_s, pair[0].position, view.name(pair[1]), pair[1]))
    rows = [_row(view, stretch, person_id) for stretch, person_id in sets]
    heads = (*map(say, HEADS), say("Load, {unit}", unit=units), say("Kit"))
    return Table(say("Who stands where with what, in a typical class"), heads, tuple(rows))


def cell_of(view: PlanView, stretch: Stretch, person_id: str) -> Cell | None:
    """Give what a person does in a stretch of work."""
    return view.cells_by_round(person_id, stretch.position).get(stretch.round)


def _row(view: PlanView, stretch: Stretch, person_id: str) -> tuple[str, ...]:
    cell = cell_of(view, stretch, person_id)
    return (
        shown.clock(stretch.from_s),
        str(stretch.round),
        view.name(person_id),
        str(stretch.position),
        full_name(cell, view.library) if cell else "",
        view.load(cell) if cell else "",
        _kit(view, cell) if cell else "",
    )


def _kit(view: PlanView, cell: Cell) -> str:
    """Name the pieces that stand at somebody's place."""
    items = {item.id: item_words(item) for item in view.problem.kit.items}
    return ", ".join(items.get(k.item_id, k.item_id) for k in cell.kit) or "–"

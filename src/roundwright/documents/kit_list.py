"""Page two: what to set out, how many, and who hands what to whom."""

from collections import Counter
from collections.abc import Iterable

from roundwright.documents.plan_view import PlanView
from roundwright.documents.sheet_parts import KitRow
from roundwright.documents.spoken import item_words, rounds_words
from roundwright.foundation.words import say
from roundwright.goals.class_wish import ClassFormat
from roundwright.plan.core import Cell, Handover, KitUnits, Window, WindowKind

Piece = tuple[str, int | str]
"""('dumbbell', mass in g) or ('item', item id)."""


def kit_rows(view: PlanView) -> tuple[KitRow, ...]:
    """Give each kind of piece with the most that are used at once, dumbbells first."""
    users: dict[Piece, set[str]] = {}
    most = most_at_once(view, users)
    return tuple(
        KitRow(
            what=piece_words(view, piece),
            how_many=most[piece],
            people=tuple(view.name(p) for p in view.order if p in users[piece]),
        )
        for piece in in_order(most)
    )


def most_at_once(view: PlanView, users: dict[Piece, set[str]] | None = None) -> Counter[Piece]:
    """Give how many of each piece are used at once at most; fills in who uses them."""
    most: Counter[Piece] = Counter()
    for window in (*view.windows(WindowKind.WORK), *view.windows(WindowKind.BURST)):
        most |= used_in(view, window, users)
    return most


def in_order(pieces: Iterable[Piece]) -> list[Piece]:
    """Give pieces as a list names them: dumbbells from light to heavy, then items."""
    found = list(pieces)
    dumbbells = sorted((p for p in found if p[0] == "dumbbell"), key=lambda p: int(p[1]))
    items = sorted((p for p in found if p[0] == "item"), key=lambda p: str(p[1]))
    return [*dumbbells, *items]


def handover_lines(view: PlanView) -> tuple[str, ...]:
    """Say who hands what to whom, the rounds of one hand-over joined in one line."""
    rounds: dict[tuple[int, int, str, str, str], list[int]] = {}
    at_stations = view.core.class_.format is ClassFormat.STATIONS
    for handover in view.core.handovers:
        if at_stations and handover.from_position == handover.to_position:
            continue  # the kit of a station stays where it is
        key = (
            handover.from_position,
            handover.to_position,
            view.name(handover.from_person),
            view.name(handover.to_person),
            _handed(view, handover),
        )
        rounds.setdefault(key, []).append(handover.round)
    return tuple(
        say(
            "After {start}, before {end}: {giver} hands {what} to {taker}",
            start=start,
            end=end,
            giver=giver,
            what=what,
            taker=taker,
        )
        + ("" if len(set(when)) == view.core.class_.rounds else f" ({rounds_words(sorted(when))})")
        for (start, end, giver, taker, what), when in sorted(rounds.items())
    )


def items_of(
    view: PlanView, person_id: str | None = None, position: int | None = None
) -> tuple[str, ...]:
    """Give the kinds of benches, boxes, chairs and mats of a person or a place of the round."""
    kinds = {item.id: item.kind.value for item in view.problem.kit.items}
    used = {
        kinds[k.item_id]
        for cell in view.core.cells
        if person_id in (None, cell.person_id) and position in (None, cell.position)
        for k in cell.kit
        if k.item_id in kinds
    }
    return tuple(sorted(used & {"bench", "box", "chair", "mat"}))


def used_in(
    view: PlanView, window: Window, users: dict[Piece, set[str]] | None = None
) -> Counter[Piece]:
    """Give what all use in one window of work or burst; fills in who uses each piece.

    In pairs partners share a set: the greater of the two halves is needed.
    """
    users = {} if users is None else users
    total: Counter[Piece] = Counter()
    if window.kind is WindowKind.BURST:
        for person_id, dose in view.doses.items():
            if window.round in dose.rounds:
                total += _noted(_items(dose.burst_kit), person_id, users)
        return total
    if window.kind is not WindowKind.WORK:
        return total
    for group, position in zip(view.core.class_.groups, window.positions, strict=True):
        halves: tuple[Counter[Piece], Counter[Piece]] = (Counter(), Counter())
        for index, person_id in enumerate(group):
            cell = view.cell(person_id, window.round, position)
            used = _noted(pieces_of(cell), person_id, users) if cell else Counter()
            halves[index % 2 if view.in_pairs else 0].update(used)
        total += halves[0] | halves[1]
    return total


def _noted(used: Counter[Piece], person_id: str, users: dict[Piece, set[str]]) -> Counter[Piece]:
    for piece in used:
        users.setdefault(piece, set()).add(person_id)
    return used


def pieces_of(cell: Cell) -> Counter[Piece]:
    """Give the pieces that one person uses at one place, dumbbells singly."""
    used = _items(cell.kit)
    if cell.units and cell.unit_mass_g:
        used["dumbbell", cell.unit_mass_g] += cell.units
    return used


def _items(kit: tuple[KitUnits, ...]) -> Counter[Piece]:
    used: Counter[Piece] = Counter()
    for entry in kit:
        used["item", entry.item_id] += entry.units
    return used


def piece_words(view: PlanView, piece: Piece) -> str:
    """Name a piece: its mass or its label."""
    kind, key = piece
    if kind == "dumbbell":
        return say("dumbbell {mass}", mass=view.mass(int(key)))
    found = {item.id: item for item in view.problem.kit.items}
    return item_words(found[str(key)]) if key in found else str(key)


def _handed(view: PlanView, handover: Handover) -> str:
    if handover.item_id is not None:
        what = piece_words(view, ("item", handover.item_id))
        return say("the {what}", what=what) if handover.units == 1 else f"{handover.units} × {what}"
    mass = view.mass(handover.unit_mass_g)
    if handover.units == 2:
        return say("the pair of {mass}", mass=mass)
    return f"{handover.units} × {mass}"

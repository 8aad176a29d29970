"""Page two: what to set out, how many, and who hands what to whom."""

from collections import Counter

from roundwright.documents.plan_view import PlanView
from roundwright.documents.sheet_parts import KitRow
from roundwright.documents.spoken import item_words, rounds_words
from roundwright.plan.core import Cell, Handover, KitUnits

Piece = tuple[str, int | str]
"""('dumbbell', mass in g) or ('item', item id)."""


def kit_rows(view: PlanView) -> tuple[KitRow, ...]:
    """Give each kind of piece with the most that are used at once, dumbbells first."""
    most: Counter[Piece] = Counter()
    users: dict[Piece, set[str]] = {}
    for round_number in range(1, view.core.class_.rounds + 1):
        for position in range(1, view.core.class_.positions + 1):
            most |= _used_at(view, round_number, position, users)
    burst: Counter[Piece] = Counter()
    for person_id, dose in view.doses.items():
        pieces = _items(dose.burst_kit)
        burst += pieces
        for piece in pieces:
            users.setdefault(piece, set()).add(person_id)
    most |= burst
    dumbbells = sorted((p for p in most if p[0] == "dumbbell"), key=lambda p: int(p[1]))
    items = sorted((p for p in most if p[0] == "item"), key=lambda p: str(p[1]))
    return tuple(
        KitRow(
            what=_piece_words(view, piece),
            how_many=most[piece],
            people=tuple(view.name(p) for p in view.order if p in users[piece]),
        )
        for piece in [*dumbbells, *items]
    )


def handover_lines(view: PlanView) -> tuple[str, ...]:
    """Say who hands what to whom, the rounds of one hand-over joined in one line."""
    rounds: dict[tuple[int, int, str, str, str], list[int]] = {}
    for handover in view.core.handovers:
        key = (
            handover.from_position,
            handover.to_position,
            view.name(handover.from_person),
            view.name(handover.to_person),
            _handed(view, handover),
        )
        rounds.setdefault(key, []).append(handover.round)
    return tuple(
        f"After {start}, before {end}: {giver} hands {what} to {taker}"
        + ("" if len(set(when)) == view.core.class_.rounds else f" ({rounds_words(sorted(when))})")
        for (start, end, giver, taker, what), when in sorted(rounds.items())
    )


def items_of(view: PlanView, person_id: str) -> tuple[str, ...]:
    """Give the kinds of benches and boxes that a person uses, for the floor plan."""
    kinds = {item.id: item.kind.value for item in view.problem.kit.items}
    used = {
        kinds[k.item_id]
        for cell in view.core.cells
        if cell.person_id == person_id
        for k in cell.kit
        if k.item_id in kinds
    }
    return tuple(sorted(used & {"bench", "box", "chair", "mat"}))


def _used_at(
    view: PlanView, round_number: int, position: int, users: dict[Piece, set[str]]
) -> Counter[Piece]:
    def pieces(person_id: str) -> Counter[Piece]:
        cell = view.cell(person_id, round_number, position)
        used = _of_cell(cell) if cell else Counter()
        for piece in used:
            users.setdefault(piece, set()).add(person_id)
        return used

    total: Counter[Piece] = Counter()
    if not view.in_pairs:
        for person_id in view.order:
            total += pieces(person_id)
        return total
    for group in view.core.class_.groups:
        halves: tuple[Counter[Piece], Counter[Piece]] = (Counter(), Counter())
        for index, person_id in enumerate(group):
            halves[index % 2].update(pieces(person_id))
        total += halves[0] | halves[1]
    return total


def _of_cell(cell: Cell) -> Counter[Piece]:
    used = _items(cell.kit)
    if cell.units and cell.unit_mass_g:
        used["dumbbell", cell.unit_mass_g] += cell.units
    return used


def _items(kit: tuple[KitUnits, ...]) -> Counter[Piece]:
    used: Counter[Piece] = Counter()
    for entry in kit:
        used["item", entry.item_id] += entry.units
    return used


def _piece_words(view: PlanView, piece: Piece) -> str:
    kind, key = piece
    if kind == "dumbbell":
        return f"dumbbell {view.mass(int(key))}"
    found = {item.id: item for item in view.problem.kit.items}
    return item_words(found[str(key)]) if key in found else str(key)


def _handed(view: PlanView, handover: Handover) -> str:
    if handover.item_id is not None:
        what = _piece_words(view, ("item", handover.item_id))
        return f"the {what}" if handover.units == 1 else f"{handover.units} × {what}"
    held = "the pair of" if handover.units == 2 else f"{handover.units} ×"
    return f"{held} {view.mass(handover.unit_mass_g)}"

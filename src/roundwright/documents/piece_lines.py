"""Warm-up and cool-down, one short line a piece: what, how long, the cue, who does what else."""

from collections import Counter

from roundwright.documents.plan_view import PlanView
from roundwright.documents.sheet_parts import KitRow, PieceLine
from roundwright.documents.spoken import length_words
from roundwright.documents.version_names import hardness
from roundwright.foundation.words import say
from roundwright.library.movement import Movement
from roundwright.library.vocabulary import KitKind
from roundwright.plan.core import Piece, PieceKind
from roundwright.plan.piece_table import LANDINGS, PATTERN_REPS


def piece_lines(view: PlanView, kind: PieceKind) -> tuple[PieceLine, ...]:
    """Give the pieces of one kind in order; none where the coach fills that time."""
    return tuple(_line(view, piece) for piece in view.core.pieces if piece.kind is kind)


def piece_kit_rows(view: PlanView) -> tuple[KitRow, ...]:
    """Give what warm-up and cool-down need at once, by kind, with everybody who uses it."""
    users: dict[KitKind, set[str]] = {}
    most = piece_kit(view, users)
    return tuple(
        KitRow(
            what=say("{kind}, in warm-up or cool-down", kind=say(kind.value)),
            how_many=most[kind],
            people=tuple(view.name(p) for p in view.order if p in users[kind]),
        )
        for kind in sorted(most)
    )


def piece_kit(view: PlanView, users: dict[KitKind, set[str]] | None = None) -> Counter[KitKind]:
    """Give how many of each kind warm-up and cool-down use at once; fills in who uses them."""
    users = {} if users is None else users
    most: Counter[KitKind] = Counter()
    for piece in view.core.pieces:
        used: Counter[KitKind] = Counter()
        for person_id, movement_id in piece.versions.items():
            for need in view.library.movements[movement_id].other_kit:
                if need.item is not KitKind.WALL:
                    used[need.item] += need.units
                    users.setdefault(need.item, set()).add(person_id)
        most |= used
    return most


def _line(view: PlanView, piece: Piece) -> PieceLine:
    done: dict[str, list[str]] = {}
    resting = []
    for person_id in view.order:
        if person_id in piece.versions:
            done.setdefault(piece.versions[person_id], []).append(view.name(person_id))
        else:
            resting.append(view.name(person_id))
    main = _main(view, {slug: len(people) for slug, people in done.items()})
    others = sorted((s for s in done if s != main.slug), key=lambda s: hardness((s,), view.library))
    return PieceLine(
        name=main.name,
        length=length_words(piece.length_s),
        how=_how(piece, main),
        set_up=main.teaching.set_up,
        steps=main.teaching.steps,
        cue=main.teaching.cues[0],
        others=tuple((_named(view, piece, s), tuple(done[s])) for s in others),
        landings=tuple(
            (movement.name, " ".join((*movement.teaching.steps, movement.teaching.cues[0])))
            for movement in (view.library.movements[s] for s in others)
            if movement.contacts_a_rep
        ),
        resting=tuple(resting),
    )


def _main(view: PlanView, votes: dict[str, int]) -> Movement:
    """Give the version that is said first: most people's, but who lands is always named."""
    movements = view.library.movements
    quiet = [s for s in votes if not movements[s].contacts_a_rep] or list(votes)
    return movements[min(quiet, key=lambda s: (-votes[s], hardness((s,), view.library)))]


def _named(view: PlanView, piece: Piece, movement_id: str) -> str:
    movement = view.library.movements[movement_id]
    how = _how(piece, movement) if movement.contacts_a_rep else ""
    return f"{movement.name}, {how}" if how else movement.name


def _how(piece: Piece, movement: Movement) -> str:
    if movement.contacts_a_rep:
        return say("{n} landings", n=LANDINGS)
    if piece.why == "pattern":
        if movement.is_one_sided:
            return say("{n} slow a side", n=PATTERN_REPS)
        return say("{n} slow", n=PATTERN_REPS)
    return ""

"""Pictures and moving figures of the class on the page."""

from collections.abc import Callable
from typing import Any

from fastapi import FastAPI
from starlette.responses import JSONResponse, Response

from roundwright.body.anatomy import Side
from roundwright.body.moving_sequence import MovingSequence
from roundwright.documents.sheet_parts import ExerciseBlock, Move
from roundwright.foundation.errors import NotFoundError
from roundwright.web.page_state import PageState

LASTING = {"cache-control": "public, max-age=86400"}
LINK_S = 0.7
"""Seconds from one movement to the next; common practice, no source."""


def add_moving_routes(app: FastAPI, shown: Callable[[], PageState]) -> None:
    """Add the pictures of movements, the moving figure of a place, and the script that runs it."""

    @app.get("/pictures/{movement_id}/{number}.svg")
    def picture(movement_id: str, number: int) -> Response:
        """Give one key position of a movement, counted from 1."""
        pictures = shown().pictures
        drawn = () if pictures is None else pictures.key_pictures(movement_id)
        if not 1 <= number <= len(drawn):
            raise NotFoundError(f"There is no picture {number} of '{movement_id}'.")
        return Response(drawn[number - 1], media_type="image/svg+xml", headers=LASTING)

    @app.get("/moving/{position}.json")
    def moving(position: int) -> JSONResponse:
        """Give one rep of what most people do at a place, as frames."""
        state = shown()
        block = _block(state, position)
        steps = [(m.movement_id, _side(m)) for m in block.moves]
        sequence = state.pictures.moving(steps) if state.pictures is not None else None
        if sequence is None:
            raise NotFoundError(f"There is no moving figure of place {position}.")
        return JSONResponse(moving_json(sequence, block.moves))


def strips_of(state: PageState) -> dict[int, tuple[tuple[Move, int], ...]]:
    """Give, for each place, the different movements with how many key positions are drawn."""
    if state.pictures is None or state.sheet is None:
        return {}
    out = {}
    for block in state.sheet.exercises:
        drawn = {m.movement_id: m for m in reversed(block.moves)}
        rows = [(m, len(state.pictures.key_pictures(slug))) for slug, m in reversed(drawn.items())]
        if rows and all(count for _, count in rows):
            out[block.position] = tuple(rows)
    return out


def moving_json(sequence: MovingSequence, moves: tuple[Move, ...]) -> dict[str, Any]:
    """Put a sequence into the form that the script reads, each stretch with its seconds."""
    named = iter(moves)
    stretches = []
    for each in sequence.stretches:
        move = next(named) if each.name else None
        side = f", {move.side}" if move is not None and move.side in ("left", "right") else ""
        stretches.append(
            {
                "name": "" if move is None else move.name + side,
                "seconds": LINK_S if move is None else move.seconds,
                "first": each.first,
                "last": each.last,
                "hands": each.hands,
                "kit": each.kit,
                "keys": each.keys,
                "band": each.band,
            }
        )
    return {
        "box": sequence.box,
        "points": sequence.points,
        "frames": sequence.frames,
        "stretches": stretches,
    }


def _side(move: Move) -> Side:
    return Side.RIGHT if move.side == Side.RIGHT.value else Side.LEFT


def _block(state: PageState, position: int) -> ExerciseBlock:
    blocks = () if state.sheet is None else state.sheet.exercises
    found = next((b for b in blocks if b.position == position), None)
    if found is None:
        raise NotFoundError(f"There is no exercise at place {position}.")
    return found

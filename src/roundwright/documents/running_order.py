"""Page one: the exercises in order, each with clock times, versions and the people under each."""

from collections import Counter
from dataclasses import replace
from itertools import groupby

from roundwright.body.anatomy import Side
from roundwright.documents.plan_view import PlanView
from roundwright.documents.sheet_parts import (
    BurstBlock,
    ExerciseBlock,
    LoadGroup,
    Move,
    PersonAt,
    StretchRow,
    VersionRow,
)
from roundwright.documents.spoken import (
    count_words,
    length_words,
    rounds_words,
)
from roundwright.documents.version_names import (
    full_name,
    hardness,
    once,
    shared_parts,
    version_name,
)
from roundwright.foundation.words import in_sentence, listed, say
from roundwright.goals.class_wish import Count
from roundwright.library.movement import Movement
from roundwright.plan.core import Cell, CellState, CoreExercise, WindowKind
from roundwright.services.ports import Pictures

MOST_NAMED = 4
STRETCH_NAMES = {
    WindowKind.WARM_UP: "Warm-up",
    WindowKind.DEMONSTRATION: "Demonstration",
    WindowKind.REST: "Rest",
    WindowKind.COOL_DOWN: "Cool-down",
}


def stretch(view: PlanView, kind: WindowKind) -> StretchRow | None:
    """Give one kind of stretch with its starts by round, None when the class has none."""
    windows = view.windows(kind)
    if not windows:
        return None
    return StretchRow(
        name=say(STRETCH_NAMES[kind]),
        length=length_words(windows[0].length_s),
        starts=tuple(view.clock(w.at_s) for w in windows),
    )


def burst_block(view: PlanView) -> BurstBlock | None:
    """Give the burst with who does which version of it, easy to hard."""
    windows = view.windows(WindowKind.BURST)
    if not windows:
        return None
    chosen: dict[str | None, list[str]] = {}
    for person_id in view.order:
        chosen.setdefault(view.doses[person_id].burst, []).append(view.name(person_id))
    known = sorted((b for b in chosen if b), key=lambda b: hardness((b,), view.library))
    groups = [(view.library.movements[b].name, tuple(chosen[b])) for b in known]
    if None in chosen:
        groups.append((say("Walk and recover"), tuple(chosen[None])))
    return BurstBlock(
        length=length_words(windows[0].length_s),
        starts=tuple(view.clock(w.at_s) for w in windows),
        groups=tuple(groups),
    )


def exercise_blocks(view: PlanView, pictures: Pictures | None = None) -> tuple[ExerciseBlock, ...]:
    """Give every place of the round, in order; with pictures when somebody draws them."""
    ordered = sorted(view.core.exercises, key=lambda e: e.position)
    return tuple(
        replace(_block(view, exercise), moves=shown_moves(view, exercise.position, pictures))
        for exercise in ordered
    )


def shown_moves(view: PlanView, position: int, pictures: Pictures | None) -> tuple[Move, ...]:
    """Give what one rep of the version that most people do is made of, in order.

    A movement that comes again (the other side) has no picture of its own.
    """
    done = cells_most_done(view, position)
    if pictures is None or not done:
        return ()
    moves: list[Move] = []
    for step in done[0].steps:
        movement = view.library.movements[step.movement_id]
        side = Side.RIGHT if step.side is Side.RIGHT else Side.LEFT
        is_new = all(move.movement_id != step.movement_id for move in moves)
        moves.append(
            Move(
                movement_id=step.movement_id,
                name=movement.name,
                side=step.side.value,
                picture=(pictures.small(step.movement_id, side) or "") if is_new else "",
                seconds=movement.seconds_a_rep,
            )
        )
    return tuple(moves)


def spoken_movement(view: PlanView, position: int) -> Movement | None:
    """Give the movement that the coach speaks of first at a place.

    It belongs to the version that most people do; of a combination it is the
    part that decides most loads, else the first.
    """
    done = cells_most_done(view, position)
    if not done:
        return None
    signature = done[0].signature
    deciders = Counter(c.limited_by for c in done if c.limited_by in signature)
    movement_id = signature[0]
    if len(once(signature)) > 1 and deciders:
        movement_id = min(deciders, key=lambda m: (-deciders[m], m or "")) or movement_id
    return view.library.movements[movement_id]


def cells_most_done(view: PlanView, position: int) -> tuple[Cell, ...]:
    """Give the cells of the version that most people do at a place (ties: the easier)."""
    done = [
        cell
        for person_id in view.order
        if (cell := _main_cell(view, person_id, position)) and cell.state is CellState.DO
    ]
    if not done:
        return ()
    votes = Counter(c.signature for c in done)
    signature = min(votes, key=lambda s: (-votes[s], hardness(s, view.library)))
    return tuple(c for c in done if c.signature == signature)


def _main_cell(view: PlanView, person_id: str, position: int) -> Cell | None:
    by_round = view.cells_by_round(person_id, position)
    return by_round[min(by_round)] if by_round else None


def _block(view: PlanView, exercise: CoreExercise) -> ExerciseBlock:
    position = exercise.position
    windows = view.windows(WindowKind.WORK, position)
    signatures = view.signatures(position)
    shared = shared_parts(signatures, exercise.exercise_id, view.library)
    names = [view.library.movements[m].name for m in shared]
    spoken = spoken_movement(view, position)
    return ExerciseBlock(
        position=position,
        name=view.library.exercise_name(exercise.exercise_id),
        parts=", ".join(name if not i else in_sentence(name) for i, name in enumerate(names)),
        count=count_words(exercise.count),
        window=length_words(windows[0].length_s) if windows and not view.rotates else "",
        starts=() if view.rotates else tuple(view.clock(w.at_s) for w in windows),
        versions=_versions(view, exercise, shared),
        sitting_out=tuple(
            view.name(p)
            for p in view.order
            if (cell := _main_cell(view, p, position)) and cell.state is CellState.SIT_OUT
        ),
        cue=spoken.teaching.cues[0] if spoken else "",
        limiter=_limiter(view, exercise),
    )


def _versions(
    view: PlanView, exercise: CoreExercise, shared: tuple[str, ...]
) -> tuple[VersionRow, ...]:
    mine = {
        p: cell
        for p in view.order
        if (cell := _main_cell(view, p, exercise.position)) and cell.state is not CellState.SIT_OUT
    }
    groups: dict[tuple[bool, tuple[str, ...]], list[str]] = {}
    for person_id, cell in mine.items():
        key = (cell.state is CellState.SUBSTITUTE, cell.signature)
        groups.setdefault(key, []).append(person_id)
    ordered = sorted(groups, key=lambda k: (k[0], hardness(k[1], view.library)))
    rows = []
    for is_substitute, signature in ordered:
        people = groups[is_substitute, signature]
        counts = [c for p in people if (c := mine[p].count) is not None]
        full = max(counts, key=lambda c: c.value, default=None)
        own = "" if full is None or full == exercise.count else count_words(full)
        name = version_name(signature, () if is_substitute else shared, view.library)
        rows.append(
            VersionRow(
                name=name,
                count=own,
                loads=_loads(view, {p: mine[p] for p in people}, full),
                is_substitute=is_substitute,
            )
        )
    return tuple(rows)


def _loads(view: PlanView, mine: dict[str, Cell], full: Count | None) -> tuple[LoadGroup, ...]:
    def by_load(person_id: str) -> tuple[int, int]:
        return (mine[person_id].units, mine[person_id].unit_mass_g)

    people = sorted(mine, key=by_load)
    return tuple(
        LoadGroup(
            load=view.load(mine[members[0]]),
            people=tuple(PersonAt(view.name(p), _note(view, p, mine[p], full), p) for p in members),
        )
        for _, group in groupby(people, key=by_load)
        for members in [list(group)]
    )


def _note(view: PlanView, person_id: str, main: Cell, full: Count | None) -> str:
    notes = []
    if main.count is not None and main.count != full:
        notes.append(count_words(main.count, short=True))
    by_round = view.cells_by_round(person_id, main.position)
    if len(by_round) < view.core.class_.rounds:
        notes.append(rounds_words(sorted(by_round)))
    for number, cell in sorted(by_round.items()):
        if _differs(cell, main):
            load = f", {view.load(cell)}" if cell.units else ""
            own = cell.count if cell.count != main.count else None
            count = f" {count_words(own, short=True)}" if own else ""
            what = f"{in_sentence(full_name(cell, view.library))}{count}{load}"
            notes.append(say("round {n}: {what}", n=number, what=what))
    return ", ".join(notes)


def _differs(cell: Cell, main: Cell) -> bool:
    return (cell.signature, cell.unit_mass_g, cell.units, cell.count, cell.state) != (
        main.signature,
        main.unit_mass_g,
        main.units,
        main.count,
        main.state,
    )


def _limiter(view: PlanView, exercise: CoreExercise) -> str:
    if exercise.exercise_id not in view.library.combinations:
        return ""
    line_of = {
        movement: line
        for line in view.library.lines_of_exercise(exercise.exercise_id)
        for movement in view.library.lines[line].versions
    }
    deciders: dict[str, list[str]] = {}
    for person_id in view.order:
        cell = _main_cell(view, person_id, exercise.position)
        if cell and cell.limited_by in line_of and cell.unit_mass_g:
            deciders.setdefault(line_of[cell.limited_by], []).append(view.name(person_id))
    if not deciders:
        return ""
    ordered = sorted(deciders, key=lambda line: (-len(deciders[line]), line))
    spoken = [in_sentence(view.library.lines[line].name) for line in ordered]
    if len(ordered) == 1:
        return say("The {part} decides the load.", part=spoken[0])
    others = "; ".join(
        say("for {people} the {part}", people=_few(deciders[line]), part=name)
        for line, name in zip(ordered[1:], spoken[1:], strict=True)
    )
    return say("The {part} decides the load; {others}.", part=spoken[0], others=others)


def _few(names: list[str]) -> str:
    return listed(names) if len(names) <= MOST_NAMED else say("{n} people", n=len(names))

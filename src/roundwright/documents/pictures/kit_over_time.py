"""Kit in use over the planned class: a row for each kind of piece, how many of how many, when."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

from roundwright.documents.kit_list import Piece, in_order, piece_words, used_in
from roundwright.documents.pictures.ink import (
    HAIR,
    INK,
    SLANTED,
    SMALL,
    SOFT,
    Picture,
    Table,
    drawing,
    fitted,
    line,
    rect,
    words_at,
)
from roundwright.documents.plan_view import PlanView
from roundwright.foundation import shown
from roundwright.foundation.words import one_or_more, say
from roundwright.plan.core import Window, WindowKind
from roundwright.plan.document import PlanDocument

NAME = "kit"
WIDTH, LEFT, RIGHT, TOP, ROW, BAR = 1400, 210, 110, 118, 34, 24
PARTS = {
    WindowKind.WARM_UP: "warm-up",
    WindowKind.DEMONSTRATION: "shown",
    WindowKind.COOL_DOWN: "cool-down",
}
WORDS = (
    "The planned class from left to right. The height of a bar is how many pieces are in use;"
    " solid: none is left, slanted: some are left. Warm-up and cool-down are not drawn."
)


HEADS = ("Piece", "The hall has", "Most in use", "In use", "None left")


@dataclass(frozen=True, slots=True)
class _Row:
    piece: Piece
    words: str
    there: int
    used: tuple[tuple[Window, int], ...]

    @property
    def most(self) -> int:
        return max((n for _, n in self.used), default=0)


def kit_over_time(document: PlanDocument, names: Mapping[str, str], units: str) -> Picture:
    """Draw which pieces are in use when, against how many the hall has.

    Parameters
    ----------
    document : PlanDocument
        The plan; its planned timeline is drawn.
    names : mapping
        Shown names by person id; none of them is in the picture.
    units : {'kg', 'lb'}
        How dumbbells are named.

    Returns
    -------
    Picture
        Rows of bars; its table says for each piece the most in use, and how long none is left.
    """
    view = PlanView(document, names, units)
    rows = _rows(view)
    title = _title(rows)
    bottom = TOP + ROW * max(1, len(rows))
    scale = (WIDTH - LEFT - RIGHT) / max(1, view.total_s)
    parts = [
        words_at(24, 34, title, size=22, weight=600),
        words_at(24, 58, say(WORDS), fill=SOFT),
        *_stretches(view, scale),
        *_minutes(view, scale, bottom),
        *(part for n, row in enumerate(rows) for part in _drawn(row, TOP + ROW * n, scale)),
    ]
    if not rows:
        parts.append(words_at(LEFT, TOP + 22, say("No kit is used.")))
    svg = drawing(NAME, WIDTH, bottom + 24, title, say(WORDS), parts)
    return Picture(NAME, title, say(WORDS), svg, (_table(rows),))


def _rows(view: PlanView) -> list[_Row]:
    windows = [w for w in view.core.timeline if w.kind in (WindowKind.WORK, WindowKind.BURST)]
    used = [(window, used_in(view, window)) for window in windows]
    pieces: Counter[Piece] = Counter()
    for _, pieces_now in used:
        pieces |= pieces_now
    return [
        _Row(
            piece=piece,
            words=piece_words(view, piece),
            there=_there(view, piece),
            used=tuple((window, now[piece]) for window, now in used if now[piece]),
        )
        for piece in in_order(pieces)
    ]


def _there(view: PlanView, piece: Piece) -> int:
    kind, key = piece
    if kind == "dumbbell":
        return sum(d.count for d in view.problem.kit.dumbbells if d.unit_mass_g == key and d.in_use)
    return sum(i.count for i in view.problem.kit.items if i.id == key and i.in_use)


def _title(rows: list[_Row]) -> str:
    scarce = [row.words for row in rows if row.most >= row.there]
    if not rows:
        return say("Kit in use: none")
    if not scarce:
        return say("Kit in use: of every kind some is left all the time")
    return one_or_more(
        len(scarce),
        "Kit in use: of {kinds} kinds 1 is all in use at some time",
        "Kit in use: of {kinds} kinds {n} are all in use at some time",
        kinds=len(rows),
    )


def _stretches(view: PlanView, scale: float) -> list[str]:
    """Write above the rows what part of the class it is."""
    spans: list[tuple[str, int, int]] = []
    for window in view.core.timeline:
        part = PARTS.get(window.kind)
        words = say(part) if part else say("round {n}", n=window.round)
        end = window.at_s + window.length_s
        if spans and spans[-1][0] == words:
            spans[-1] = (words, spans[-1][1], end)
        else:
            spans.append((words, window.at_s, end))
    found = []
    for words, start, end in spans:
        left, right = LEFT + start * scale, LEFT + end * scale
        found.append(line(left + 1.5, TOP - 34, right - 1.5, TOP - 34, width=2))
        said = fitted(words, right - left, SMALL)
        middle = (left + right) / 2
        found.append(words_at(middle, TOP - 41, said, size=SMALL, anchor="middle", weight=500))
    return found


def _minutes(view: PlanView, scale: float, bottom: float) -> list[str]:
    found = []
    for minute in range(0, view.total_s // 60 + 1, 5):
        x = LEFT + minute * 60 * scale
        found.append(rect(x - 0.5, TOP - 12, 1, bottom - TOP + 12, fill=HAIR))
        found.append(words_at(x, TOP - 17, f"{minute}:00", size=SMALL, anchor="middle"))
    return found


def _drawn(row: _Row, top: float, scale: float) -> list[str]:
    name = fitted(row.words, LEFT - 34)
    base = top + BAR + 4
    found = [
        words_at(LEFT - 10, base - 7, name, anchor="end", weight=500),
        line(LEFT, base, WIDTH - RIGHT, base, width=0.6),
        words_at(
            WIDTH - RIGHT + 10, base - 7, say("{n} of {all}", n=row.most, all=row.there), weight=500
        ),
    ]
    for window, number in row.used:
        height = BAR * min(1.0, number / max(1, row.there))
        all_gone = number >= row.there
        said = say(
            "{piece}: {n} of {all}, {start} to {end}",
            piece=row.words,
            n=number,
            all=row.there,
            start=shown.clock(window.at_s),
            end=shown.clock(window.at_s + window.length_s),
        )
        found.append(
            rect(
                LEFT + window.at_s * scale,
                base - height,
                window.length_s * scale,
                height,
                fill=INK if all_gone else SLANTED.fill,
                line=0.8,
                more=said,
            )
        )
    return found


def _table(rows: list[_Row]) -> Table:
    heads = tuple(map(say, HEADS))
    return Table(
        say("Kit in use over the planned class"),
        heads,
        tuple(
            (
                row.words,
                str(row.there),
                str(row.most),
                shown.clock(sum(w.length_s for w, _ in row.used)),
                shown.clock(sum(w.length_s for w, n in row.used if n >= row.there)),
            )
            for row in rows
        ),
    )

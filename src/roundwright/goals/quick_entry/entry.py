"""Quick entry: a class in plain words becomes a class wish, is read back, and doubts are asked."""

from roundwright.goals.quick_entry.combination_phrases import library_text
from roundwright.goals.quick_entry.draft import Draft
from roundwright.goals.quick_entry.names import Around
from roundwright.goals.quick_entry.pieces import Piece, as_not_understood, cut_and_heard
from roundwright.goals.quick_entry.results import (
    Ask,
    Fact,
    LineOutcome,
    Outcome,
    Question,
    QuickEntry,
    Reading,
)
from roundwright.goals.quick_entry.written_words import class_in_words


def quick_entry(text: str, around: Around) -> QuickEntry:
    """Read a class in plain words.

    Parameters
    ----------
    text : str
        Any text, one thing a line or parted by commas: '3 rounds', '12 a side split squat'.
    around : Around
        The library, rooms and people that may be named.

    Returns
    -------
    QuickEntry
        With a wish only when every piece was understood and nothing is asked. It is never an
        error: what cannot be read is in `asked` or `not_understood`.
    """
    pieces = cut_and_heard(text, around)
    draft = Draft(around, pieces)
    draft.gather()
    wish = draft.wish()
    readings = tuple(_reading(place, piece, draft) for place, piece in enumerate(pieces))
    asked = [Question(0, "", ask.missing, ask.nearest) for ask in draft.whole]
    asked += [
        Question(pieces[place].line, pieces[place].words, ask.missing, ask.nearest)
        for place, ask in sorted(draft.asks.items())
    ]
    if wish is not None:
        read_back = class_in_words(wish, around, draft.made, draft.usual())
    else:
        plain = (r for r in readings if r.outcome is Outcome.UNDERSTOOD)
        read_back = tuple(r.says.partition(" (")[0] for r in plain)
    made = tuple(draft.made.values())
    return QuickEntry(
        wish=wish,
        new_library_text=library_text(made) if wish is not None and made else None,
        read_back=read_back,
        readings=readings,
        lines=_lines(text, readings),
        asked=tuple(asked),
        not_understood=tuple(as_not_understood(piece) for piece in pieces if piece.heard is None),
    )


def _reading(place: int, piece: Piece, draft: Draft) -> Reading:
    if place in draft.asks:
        ask: Ask = draft.asks[place]
        return Reading(piece.line, piece.words, Outcome.ASKED, ask.missing)
    if isinstance(piece.heard, Fact):
        return Reading(piece.line, piece.words, Outcome.UNDERSTOOD, piece.heard.says)
    return Reading(piece.line, piece.words, Outcome.NOT_UNDERSTOOD, "")


def _lines(text: str, readings: tuple[Reading, ...]) -> tuple[LineOutcome, ...]:
    """Give each line that is not blank its outcome, the worst of its pieces."""
    by_line: dict[int, list[Outcome]] = {}
    for reading in readings:
        by_line.setdefault(reading.line, []).append(reading.outcome)
    order = tuple(Outcome)
    return tuple(
        LineOutcome(number, line.strip(), max(by_line[number], key=order.index))
        for number, line in enumerate(text.splitlines(), start=1)
        if line.strip()
    )

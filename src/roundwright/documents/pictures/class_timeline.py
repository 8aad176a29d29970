"""The class as it is played: a line for each person or group, who works, waits, changes when."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from roundwright.documents.pictures.ink import (
    CROSSED,
    DOTTED,
    HAIR,
    INK,
    LEVEL,
    SLANTED,
    SMALL,
    SOFT,
    Hatch,
    Picture,
    Table,
    drawing,
    fitted,
    line,
    rect,
    room_for,
    words_at,
)
from roundwright.foundation import shown
from roundwright.foundation.words import capital, say
from roundwright.plan.core import Core, Window, WindowKind
from roundwright.rehearsal.one_play import Doing, OnePlay, PersonPlayed, Stretch
from roundwright.rehearsal.report import RehearsalReport

NAME = "timeline"
WIDTH = 1400
LEFT, RIGHT, TOP = 170, 24, 128
ROW, BAR, BETWEEN_GROUPS = 30, 22, 8
FILLS: dict[Doing, Hatch | str] = {
    Doing.WORK: INK,
    Doing.WAIT: SLANTED,
    Doing.CHANGE: DOTTED,
    Doing.PARTNER: LEVEL,
    Doing.BURST: CROSSED,
}
"""What is drawn as a bar; anything else is quiet and drawn as a thin line."""
SAID = {
    Doing.WARM_UP: "warm-up",
    Doing.DEMONSTRATION: "demonstration",
    Doing.WORK: "works",
    Doing.WAIT: "waits",
    Doing.PARTNER: "rests, partner works",
    Doing.CHANGE: "changes",
    Doing.BURST: "burst",
    Doing.REST: "rests",
    Doing.NOTHING: "nothing planned",
    Doing.COOL_DOWN: "cool-down",
}
PARTS = {
    WindowKind.WARM_UP: "warm-up",
    WindowKind.DEMONSTRATION: "shown",
    WindowKind.COOL_DOWN: "cool-down",
}
LEGEND = (Doing.WORK, Doing.WAIT, Doing.CHANGE, Doing.PARTNER, Doing.BURST)
QUIET = "rests, or nothing planned"


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the picture."""

    words: str
    group: int
    stretches: tuple[Stretch, ...]


def class_timeline(
    report: RehearsalReport,
    core: Core,
    person: Callable[[str], str],
    place: Callable[[int], str],
    *,
    by_group: bool = False,
) -> Picture:
    """Draw the play of median length, from the first second to the last.

    Parameters
    ----------
    report : RehearsalReport
        With its middle play.
    core : Core
        The plan that was played.
    person, place : callable
        Give the shown name of a person's id, and of the exercise at a position.
    by_group : bool
        A line for each group instead of each person: it works while anybody of it works.

    Raises
    ------
    ValueError
        When the report holds no play.
    """
    if report.middle is None:
        raise ValueError("the rehearsal holds no play to draw")
    play = report.middle
    rows = _group_rows(play, person) if by_group else _person_rows(play, person)
    scale = _Scale(report, play, rows)
    title = say(
        "The class as it is played: {length}, slot {slot}",
        length=shown.clock(play.class_s),
        slot=shown.clock(report.slot_s),
    )
    words = say(
        "A typical class, from left to right. Figures on the black bars are the places of the"
        " round; slanted lines are waiting."
    )
    parts = [
        words_at(24, 34, title, size=22, weight=600),
        words_at(24, 58, words, fill=SOFT),
        *scale.rounds(core),
        *scale.minutes(),
        *(part for n, row in enumerate(rows) for part in scale.row(n, row)),
        *scale.slot_end(report.slot_s),
        *scale.legend(core, place),
    ]
    svg = drawing(NAME, WIDTH, scale.height, title, words, parts)
    return Picture(NAME, title, words, svg, (_table(rows, by_group),))


def _person_rows(play: OnePlay, person: Callable[[str], str]) -> list[Row]:
    return [Row(person(p.person_id), p.group, p.stretches) for p in play.people]


def _group_rows(play: OnePlay, person: Callable[[str], str]) -> list[Row]:
    """Give a row a group: at each moment what the busiest of it does."""
    found = []
    for group in sorted({p.group for p in play.people}):
        members = [p for p in play.people if p.group == group]
        words = ", ".join(person(p.person_id) for p in members)
        found.append(Row(words, group, tuple(_busiest(members))))
    return found


BUSIEST = (Doing.WORK, Doing.BURST, Doing.CHANGE, Doing.WAIT, Doing.PARTNER)


def _busiest(members: Sequence[PersonPlayed]) -> Iterator[Stretch]:
    moments = sorted({m for p in members for s in p.stretches for m in (s.from_s, s.to_s)})
    last: Stretch | None = None
    for start, end in pairwise(moments):
        here = [s for p in members if (s := p.at(start)) is not None]
        most = min(
            here, key=lambda s: BUSIEST.index(s.doing) if s.doing in BUSIEST else len(BUSIEST)
        )
        now = most.model_copy(update={"from_s": start, "to_s": end})
        if now.doing is Doing.PARTNER:  # nobody of the group works: the two change over
            now = now.model_copy(update={"doing": Doing.CHANGE})
        same = last is not None and (last.doing, last.round, last.position) == (
            now.doing,
            now.round,
            now.position,
        )
        if last is not None and same:
            last = last.model_copy(update={"to_s": end})
            continue
        if last is not None:
            yield last
        last = now
    if last is not None:
        yield last


class _Scale:
    """Seconds from left to right, rows downwards with a gap between groups."""

    def __init__(self, report: RehearsalReport, play: OnePlay, rows: Sequence[Row]) -> None:
        self.play = play
        self.end_s = max(report.slot_s, play.class_s) + 30
        several = len({row.group for row in rows}) not in (1, len(rows))
        self.tops: list[float] = []
        y = float(TOP)
        for n, row in enumerate(rows):
            if n and several and row.group != rows[n - 1].group:
                y += BETWEEN_GROUPS
            self.tops.append(y)
            y += ROW
        self.bottom = y
        self.height = int(y) + 118

    def x(self, second: float) -> float:
        return LEFT + second / self.end_s * (WIDTH - LEFT - RIGHT)

    def rounds(self, core: Core) -> list[str]:
        """Write above the lines what part of the class it is."""
        spans: list[tuple[str, int, int]] = []
        ends = (*self.play.window_at_s[1:], self.play.class_s)
        for window, start, end in zip(core.timeline, self.play.window_at_s, ends, strict=True):
            words = _part_words(window)
            if spans and spans[-1][0] == words:
                spans[-1] = (words, spans[-1][1], end)
            else:
                spans.append((words, start, end))
        found = []
        for words, start, end in spans:
            left, right = self.x(start), self.x(end)
            found.append(line(left + 1.5, TOP - 34, right - 1.5, TOP - 34, width=2))
            middle = (left + right) / 2
            said = fitted(words, right - left, SMALL)
            found.append(words_at(middle, TOP - 41, said, size=SMALL, anchor="middle", weight=500))
        return found

    def minutes(self) -> list[str]:
        """Draw a hair line each five minutes."""
        found = []
        for minute in range(0, self.end_s // 60 + 1, 5):
            x = self.x(minute * 60)
            found.append(rect(x - 0.5, TOP - 12, 1, self.bottom - TOP + 12, fill=HAIR))
            found.append(words_at(x, TOP - 17, f"{minute}:00", size=SMALL, anchor="middle"))
        return found

    def row(self, n: int, row: Row) -> list[str]:
        """Draw one line: its name and its stretches."""
        top = self.tops[n]
        middle = top + BAR / 2
        name = fitted(row.words, LEFT - 34)
        found = [words_at(LEFT - 10, middle + 5, name, anchor="end", weight=500)]
        for stretch in row.stretches:
            x, width = self.x(stretch.from_s), self.x(stretch.to_s) - self.x(stretch.from_s)
            fill = FILLS.get(stretch.doing)
            if fill is None:
                found.append(line(x, middle, x + width, middle, width=1))
                continue
            colour = fill.fill if isinstance(fill, Hatch) else fill
            said = f"{row.words}: {_stretch_words(stretch)}"
            found.append(rect(x, top, width, BAR, fill=colour, line=0.6, more=said))
            label = str(stretch.position)
            if stretch.doing is Doing.WORK and width >= room_for(label, SMALL) + 1:
                found.append(
                    words_at(
                        x + width / 2,
                        middle + 5,
                        label,
                        size=SMALL,
                        anchor="middle",
                        weight=600,
                        fill="#ffffff",
                    )
                )
        return found

    def slot_end(self, slot_s: int) -> list[str]:
        """Draw the end of the slot through all lines."""
        x = self.x(slot_s)
        said = words_at(
            x - 6, self.bottom + 16, say("slot ends"), size=SMALL, anchor="end", weight=600
        )
        return [line(x, TOP - 12, x, self.bottom + 20, width=3), said]

    def legend(self, core: Core, place: Callable[[int], str]) -> list[str]:
        """Draw what each filling means, and name the places."""
        found, x, y = [], float(LEFT), self.bottom + 40
        used = {s.doing for p in self.play.people for s in p.stretches}
        for doing in LEGEND:
            if doing not in used:
                continue
            fill = FILLS[doing]
            colour = fill.fill if isinstance(fill, Hatch) else fill
            found.append(rect(x, y - 13, 30, 16, fill=colour, line=0.8))
            found.append(words_at(x + 38, y, say(SAID[doing])))
            x += 38 + room_for(say(SAID[doing])) + 34
        found.append(line(x, y - 5, x + 30, y - 5))
        found.append(words_at(x + 38, y, say(QUIET)))
        places = [
            f"{e.position} {place(e.position)}"
            for e in sorted(core.exercises, key=lambda e: e.position)
        ]
        for n, words in enumerate(_lines(places, WIDTH - LEFT - RIGHT)):
            found.append(words_at(LEFT, y + 28 + n * 20, words, fill=SOFT))
        return found


def _part_words(window: Window) -> str:
    part = PARTS.get(window.kind)
    return say(part) if part else say("round {n}", n=window.round)


def _lines(words: Sequence[str], width: float) -> list[str]:
    """Set words in lines of a width, with a wide gap between them."""
    found: list[str] = []
    for word in words:
        if found and room_for(f"{found[-1]} · {word}") <= width:
            found[-1] += f" · {word}"
        else:
            found.append(word)
    return found


def _stretch_words(stretch: Stretch) -> str:
    told = {
        "start": shown.clock(stretch.from_s),
        "end": shown.clock(stretch.to_s),
        "doing": say(SAID[stretch.doing]),
    }
    if not stretch.position:
        return say("{start} to {end} {doing}", **told)
    return say("{start} to {end} {doing}, place {n}", n=stretch.position, **told)


def _table(rows: Sequence[Row], by_group: bool) -> Table:
    shown_doings = (*LEGEND, Doing.REST, Doing.NOTHING)
    who = say("Group") if by_group else say("Person")
    heads = (who, *(_head(d) for d in shown_doings), say("Longest wait"))
    return Table(
        say("Minutes and seconds of a typical class, from the first round on"),
        heads,
        tuple(
            (row.words, *(_sum(row, doing) for doing in shown_doings), _longest(row))
            for row in rows
        ),
    )


def _head(doing: Doing) -> str:
    return capital(say(SAID[doing]))


def _sum(row: Row, doing: Doing) -> str:
    return shown.clock(sum(s.to_s - s.from_s for s in row.stretches if s.doing is doing))


def _longest(row: Row) -> str:
    waits = [s for s in row.stretches if s.doing is Doing.WAIT]
    if not waits:
        return say("none")
    most = max(waits, key=lambda s: (s.to_s - s.from_s, -s.from_s))
    told = {"length": shown.clock(most.to_s - most.from_s), "start": shown.clock(most.from_s)}
    if not most.position:
        return say("{length}, from {start}", **told)
    return say("{length}, from {start} at place {n}", n=most.position, **told)

"""Push to pull and knee to hip, of this class and of two weeks: sets of everybody, by kind."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from roundwright.documents.pictures.ink import (
    CROSSED,
    SLANTED,
    SMALL,
    SOFT,
    Picture,
    Table,
    drawing,
    line,
    rect,
    words_at,
)
from roundwright.foundation.words import capital, say
from roundwright.library.vocabulary import HIP, KNEE, PULL, PUSH
from roundwright.plan.document import PlanDocument

NAME = "balance"
WIDTH, LEFT, RIGHT, TOP, ROW, BAR = 900, 190, 40, 104, 62, 30
KINDS = {"push": PUSH, "pull": PULL, "knee": KNEE, "hip": HIP}
PAIRS = (("push", "pull"), ("knee", "hip"))
WORDS = (
    "Sets of everybody together, by the kind of movement in them; the line in the middle is even."
)


@dataclass(frozen=True, slots=True)
class Balance:
    """Sets of everybody in one class by kind, and the day of the class.

    A set of a combination counts once for each kind that is in it.
    """

    on: date
    push: int
    pull: int
    knee: int
    hip: int

    def of(self, kind: str) -> int:
        """Give the sets of one kind: push, pull, knee or hip."""
        return {"push": self.push, "pull": self.pull, "knee": self.knee, "hip": self.hip}[kind]


def balance_of(document: PlanDocument) -> Balance:
    """Count the sets of a plan by kind.

    Notes
    -----
    A set is one person at one place in one round. Kinds follow the patterns of the movements
    that the person really does, also of substitutes.
    """
    core, movements = document.core, document.problem.library.movements
    count = dict.fromkeys(KINDS, 0)
    for dose in core.people:
        for number in dose.rounds:
            for cell in core.cells_of(dose.person_id, number):
                patterns = {movements[m].pattern for m in cell.signature}
                for kind, members in KINDS.items():
                    count[kind] += bool(patterns & members)
    return Balance(core.class_.starts_on, **count)


def within_days(earlier: Iterable[Balance], last: date, days: int) -> tuple[Balance, ...]:
    """Give the classes of some days up to a day, that day itself included."""
    return tuple(b for b in earlier if 0 <= (last - b.on).days < days)


def balance(document: PlanDocument, earlier: Sequence[Balance] = ()) -> Picture:
    """Draw push against pull and knee against hip.

    Parameters
    ----------
    document : PlanDocument
        The plan.
    earlier : sequence of Balance
        Of other classes of the hall; those of the days over which balance is judged count.

    Returns
    -------
    Picture
        Two bars for this class, and two with the earlier ones where there are any.
    """
    here = balance_of(document)
    days = document.problem.rules.balance_days
    before = within_days(earlier, here.on, days)
    rows: list[tuple[str, tuple[Balance, ...]]] = [(say("This class"), (here,))]
    if before:
        rows.append((say("{n} days", n=days), (here, *before)))
    lines = [(words, pair, classes) for pair in PAIRS for words, classes in rows]
    title = _title(lines[-1][2])
    bottom = TOP + ROW * len(lines)
    middle = LEFT + (WIDTH - LEFT - RIGHT) / 2
    parts = [
        words_at(24, 34, title, size=22, weight=600),
        words_at(24, 58, say(WORDS), fill=SOFT),
        *(part for n, one in enumerate(lines) for part in _drawn(n, *one)),
        line(middle, TOP - 14, middle, bottom - 12, width=2),
    ]
    svg = drawing(NAME, WIDTH, bottom + 16, title, say(WORDS), parts)
    return Picture(NAME, title, say(WORDS), svg, (_table(rows),))


def _sum(classes: Sequence[Balance], kind: str) -> int:
    return sum(one.of(kind) for one in classes)


def _ratio(classes: Sequence[Balance], pair: tuple[str, str]) -> str:
    one, other = (_sum(classes, kind) for kind in pair)
    kinds = {"kind": say(pair[0]), "opposite": say(pair[1])}
    return say("{kind} {one} to {opposite} {other}", one=one, other=other, **kinds)


def _title(classes: Sequence[Balance]) -> str:
    over = say("This class") if len(classes) == 1 else say("{n} classes", n=len(classes))
    return f"{over}: {'; '.join(_ratio(classes, pair) for pair in PAIRS)}"


def _drawn(n: int, words: str, pair: tuple[str, str], classes: Sequence[Balance]) -> list[str]:
    top = TOP + ROW * n
    one, other = (_sum(classes, kind) for kind in pair)
    wide = WIDTH - LEFT - RIGHT
    left = wide * (one / (one + other)) if one + other else wide / 2
    found = [
        words_at(LEFT - 12, top + 20, words, anchor="end", weight=500),
        words_at(LEFT, top - 5, f"{say(pair[0])} {one}", size=SMALL, weight=600),
        words_at(
            WIDTH - RIGHT, top - 5, f"{say(pair[1])} {other}", size=SMALL, weight=600, anchor="end"
        ),
    ]
    if one:
        found.append(rect(LEFT, top, left, BAR, fill=SLANTED.fill, line=1.2, more=say(pair[0])))
    if other:
        found.append(
            rect(LEFT + left, top, wide - left, BAR, fill=CROSSED.fill, line=1.2, more=say(pair[1]))
        )
    if not one + other:
        found.append(words_at(LEFT, top + 20, say("neither"), fill=SOFT))
    return found


def _table(rows: Sequence[tuple[str, Sequence[Balance]]]) -> Table:
    heads = (say("Over"), say("Classes"), *(capital(say(kind)) for kind in KINDS))
    return Table(
        say("Sets of everybody by kind of movement"),
        heads,
        tuple(
            (words, str(len(classes)), *(str(_sum(classes, kind)) for kind in KINDS))
            for words, classes in rows
        ),
    )

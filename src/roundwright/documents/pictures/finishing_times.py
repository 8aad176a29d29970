"""When the class ends, over many plays: how often it takes how long, with the slot's end."""

from collections.abc import Sequence

from roundwright.documents.pictures.ink import (
    INK,
    PAPER,
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
from roundwright.foundation import shown
from roundwright.foundation.quantities import BP
from roundwright.foundation.words import say, say_number
from roundwright.rehearsal.report import Finishes, RehearsalReport

NAME = "finishing-times"
WIDTH, HEIGHT = 900, 400
LEFT, RIGHT, TOP, BOTTOM = 96, 24, 118, 336
MOST_LABELS = 9


def finishing_times(report: RehearsalReport) -> Picture:
    """Draw the spread of a class's length.

    Parameters
    ----------
    report : RehearsalReport
        Of a plan.

    Returns
    -------
    Picture
        Bars, of 100 classes; what ends within the slot is solid, what does not is hatched.
    """
    on_time = report.on_time
    title = say(
        "Ends within {slot} {often}",
        slot=shown.clock(report.slot_s),
        often=shown.times_in_ten(on_time.chance_bp),
    )
    words = say(
        "Planned {planned}, typically {typical}; one class in ten takes longer than {late}.",
        planned=shown.clock(report.planned_s),
        typical=shown.clock(on_time.typical_s),
        late=shown.clock(on_time.late_s),
    )
    scale = _Scale(report)
    parts = [
        words_at(LEFT, 34, title, size=22, weight=600),
        words_at(LEFT, 58, words, fill=SOFT),
        *scale.bars(),
        *scale.axes(),
        *scale.marks(),
    ]
    return Picture(
        NAME,
        title,
        words,
        drawing(NAME, WIDTH, HEIGHT, title, words, parts),
        (_table(report),),
    )


class _Scale:
    """Seconds across, classes of 100 upwards."""

    def __init__(self, report: RehearsalReport) -> None:
        self.report = report
        steps = report.finishes
        self.step_s = steps[0].to_s - steps[0].from_s
        moments = [report.slot_s, report.planned_s, report.on_time.typical_s, report.on_time.late_s]
        first = min(steps[0].from_s, *moments) - self.step_s
        last = max(steps[-1].to_s, *moments) + self.step_s
        self.first_s, self.last_s = first, last
        most = max(f.plays for f in steps) / report.on_time.plays * 100
        self.top = next((t for t in (5, 10, 20, 30, 40, 60, 80, 100) if t >= most), 100)

    def x(self, second: float) -> float:
        share = (second - self.first_s) / (self.last_s - self.first_s)
        return LEFT + share * (WIDTH - LEFT - RIGHT)

    def y(self, of_100: float) -> float:
        return BOTTOM - of_100 / self.top * (BOTTOM - TOP)

    def bars(self) -> list[str]:
        """Draw a bar a step, with its figures as its title."""
        found = []
        for step in self.report.finishes:
            of_100 = step.plays / self.report.on_time.plays * 100
            if not step.plays:
                continue
            x, width = self.x(step.from_s), self.x(step.to_s) - self.x(step.from_s)
            fill = INK if step.to_s <= self.report.slot_s else SLANTED.fill
            top = self.y(of_100)
            said = say(
                "{length}: {n} of 100",
                length=_between(step),
                n=_of_100(step.plays, self.report.on_time.plays),
            )
            found.append(rect(x + 1, top, width - 2, BOTTOM - top, fill=fill, line=1.2, more=said))
        return found

    def axes(self) -> list[str]:
        """Draw the ground line with times, and heights of classes of 100."""
        found = [line(LEFT, BOTTOM, WIDTH - RIGHT, BOTTOM, width=1.5)]
        for height in (self.top // 2, self.top):
            y = self.y(height)
            found.append(line(LEFT - 5, y, LEFT, y))
            said = say("{n} of 100", n=height)
            found.append(words_at(LEFT - 9, y + 5, said, size=SMALL, anchor="end"))
        for second in _ticks(self.first_s, self.last_s):
            x = self.x(second)
            found.append(line(x, BOTTOM, x, BOTTOM + 6))
            found.append(words_at(x, BOTTOM + 23, shown.clock(second), size=SMALL, anchor="middle"))
        middle, y = (LEFT + WIDTH - RIGHT) / 2, BOTTOM + 48
        said = say("length of the class, minutes and seconds")
        found.append(words_at(middle, y, said, size=SMALL, anchor="middle", fill=SOFT))
        return found

    def marks(self) -> list[str]:
        """Draw the slot's end, the plan's length, the middle and the late one, each with words."""
        report = self.report
        moments = (
            (report.slot_s, say("slot ends"), 3.0, ""),
            (report.planned_s, say("planned"), 1.5, ' stroke-dasharray="6 4"'),
            (report.on_time.typical_s, say("typical"), 1.5, ' stroke-dasharray="2 3"'),
            (report.on_time.late_s, say("one in ten later"), 1.5, ' stroke-dasharray="9 3 2 3"'),
        )
        found = []
        rows: list[list[tuple[float, float]]] = [[], [], [], []]
        for second, words, width, dashes in sorted(moments, key=lambda m: m[0]):
            x, half = self.x(second), len(words) * SMALL * 0.27
            middle = min(max(x, LEFT + half), WIDTH - RIGHT - half)
            span = (middle - half - 6, middle + half + 6)
            row = next(
                n
                for n, taken in enumerate(rows)
                if all(b <= span[0] or span[1] <= a for a, b in taken)
            )
            rows[row].append(span)
            y = TOP - 14 + row * 17
            found.append(line(x, y + 5, x, BOTTOM, width=width, more=dashes))
            found.append(_on_paper(middle, y, words))
        return found


def _on_paper(x: float, y: float, words: str) -> str:
    half = len(words) * SMALL * 0.27
    ground = rect(x - half - 2, y - 12, 2 * half + 4, 16, fill=PAPER)
    return ground + words_at(x, y, words, size=SMALL, anchor="middle", weight=500)


def _ticks(first_s: int, last_s: int) -> Sequence[int]:
    span = last_s - first_s
    step = next((s for s in (15, 30, 60, 120, 300, 600) if span / s <= MOST_LABELS), 1200)
    return range(-(-first_s // step) * step, last_s + 1, step)


def _between(step: Finishes) -> str:
    start, end = shown.clock(step.from_s), shown.clock(step.to_s)
    return say("{start} to {end}", start=start, end=end)


def _of_100(plays: int, of: int) -> str:
    """Say a share of plays as classes of 100, to a tenth."""
    return say_number(f"{plays / of * 100:.1f}")


def _table(report: RehearsalReport) -> Table:
    plays, so_far, rows = report.on_time.plays, 0, []
    for step in report.finishes:
        so_far += step.plays
        rows.append(
            (_between(step), _of_100(step.plays, plays), shown.per_cent(so_far * BP // plays))
        )
    caption = say(
        "How long the class takes, in {plays} plays (seed {seed})",
        plays=plays,
        seed=report.on_time.seed,
    )
    heads = (say("Longer than, and at most"), say("Of 100 classes"), say("Done by then"))
    return Table(caption, heads, tuple(rows))

"""The coach's script: five lines an exercise, the hardest skill first, and how long it takes.

The easier version is shown first, one cue an exercise is said, counts are told again at the end.
"""

from dataclasses import dataclass

from roundwright.documents.page_heading import Heading, heading_of, view_of
from roundwright.documents.piece_lines import piece_lines
from roundwright.documents.plan_view import PlanView
from roundwright.documents.running_order import spoken_movement
from roundwright.documents.script_lines import then_words
from roundwright.documents.sheet_parts import PieceLine
from roundwright.documents.speaking_time import (
    FIRST_TIMER_BRIEF_S,
    WORDS_A_MINUTE,
    showing_s,
    spoken_s,
)
from roundwright.documents.spoken import count_words, length_words
from roundwright.documents.standing_words import CAUTIONS
from roundwright.documents.station_cards import version_words
from roundwright.documents.version_names import Signature, hardness, once
from roundwright.foundation.words import in_sentence, listed, one_or_more, say
from roundwright.goals.class_wish import ClassFormat
from roundwright.hall.hall import Hall
from roundwright.library.movement import Teaching
from roundwright.plan.core import CoreExercise, PieceKind, WindowKind
from roundwright.plan.gate.checked_plan import CheckedPlan

TIME_SOURCE = (
    "Speaking at {words} words a minute, and seconds of showing: common practice, "
    "no source. An exercise takes the longer of the two."
)


@dataclass(frozen=True, slots=True)
class ScriptLine:
    """One line: what it is for, the words, whether they are said aloud, and are the cue."""

    label: str
    words: str
    is_said: bool = True
    is_cue: bool = False


@dataclass(frozen=True, slots=True)
class Paragraph:
    """What is said and shown of one exercise; seconds of saying, of showing, and needed."""

    position: int
    name: str
    count: str
    lines: tuple[ScriptLine, ...]
    said_s: int
    shown_s: int
    is_known: bool

    @property
    def needs_s(self) -> int:
        """Seconds until it is said and shown."""
        return max(self.said_s, self.shown_s)


@dataclass(frozen=True, slots=True)
class ScriptTime:
    """How the script stands to the demonstration; all in seconds, and in words."""

    said_s: int
    needs_s: int
    planned_s: int
    words: str
    way_out: str

    @property
    def fits(self) -> bool:
        """Whether everything is said and shown within the demonstration."""
        return self.needs_s <= self.planned_s


@dataclass(frozen=True, slots=True)
class ScriptContent:
    """Everything that the script says; `times` stand beside the paragraphs, in words."""

    heading: Heading
    paragraphs: tuple[Paragraph, ...]
    times: tuple[str, ...]
    recap: str
    time: ScriptTime
    first_timers: str
    burst: tuple[str, ...]
    warm_up: tuple[PieceLine, ...]
    cool_down: tuple[PieceLine, ...]
    cautions: tuple[str, ...]
    source: str


def script_of(checked: CheckedPlan, hall: Hall, printed_at: str) -> ScriptContent:
    """Put the coach's script of a class together.

    Parameters
    ----------
    checked : CheckedPlan
        A plan that the gate passed in this process; nothing else is printed.
    hall : Hall
        Its name and units.
    printed_at : str
        When, in words.

    Raises
    ------
    UnsafePlanError
        When given anything that the gate did not seal in this process.
    ChangedMeanwhileError
        When the plan is no longer what it was when the gate passed it.
    """
    view = view_of(checked, hall)
    paragraphs = tuple(_paragraph(view, e) for e in teaching_order(view))
    recap = _recap(view)
    return ScriptContent(
        heading=heading_of(view, hall, printed_at),
        paragraphs=paragraphs,
        times=tuple(map(_time_words, paragraphs)),
        recap=recap,
        time=_time(view, paragraphs, recap),
        first_timers=_first_timers(view),
        burst=_burst(view),
        warm_up=piece_lines(view, PieceKind.WARM_UP),
        cool_down=piece_lines(view, PieceKind.COOL_DOWN),
        cautions=tuple(say(one) for one in CAUTIONS),
        source=say(TIME_SOURCE, words=WORDS_A_MINUTE),
    )


def teaching_order(view: PlanView) -> list[CoreExercise]:
    """Give the exercises that somebody does, the hardest skill first, else in class order."""
    done = [e for e in view.core.exercises if view.signatures(e.position)]

    def skill(exercise: CoreExercise) -> tuple[int, int, int]:
        keys = [hardness(s, view.library) for s in view.signatures(exercise.position)]
        total, highest, _ = max(keys)
        return -total, -highest, exercise.position

    return sorted(done, key=skill)


def _paragraph(view: PlanView, exercise: CoreExercise) -> Paragraph:
    different = {once(s) for s in view.signatures(exercise.position)}
    versions = sorted(different, key=lambda s: hardness(s, view.library))
    parts = [view.library.movements[m].teaching for m in versions[0]]
    spoken = spoken_movement(view, exercise.position)
    lines = [
        ScriptLine(say("Show"), f"{version_words(view, versions[0])}. {parts[0].set_up}"),
        ScriptLine(say("Do"), _steps(view, versions[0], parts)),
        ScriptLine(say("Say"), (spoken.teaching if spoken else parts[0]).cues[0], is_cue=True),
    ]
    if len(versions) > 1:
        first, *more = [version_words(view, s) for s in versions[1:]]
        harder = say("; then ").join([first, *map(in_sentence, more)])
        lines.append(ScriptLine(say("Harder"), f"{harder}."))
    fault = _stop_fault(spoken.teaching if spoken else parts[0])
    lines.append(ScriptLine(say("Stop at"), fault, is_said=False))
    name = view.library.exercise_name(exercise.exercise_id)
    count = count_words(exercise.count)
    said = [name, count, *(line.words for line in lines if line.is_said)]
    known = any(r.exercise_id == exercise.exercise_id for r in view.problem.recent.exercises)
    return Paragraph(
        position=exercise.position,
        name=name,
        count=count,
        lines=tuple(lines),
        said_s=spoken_s(said),
        shown_s=showing_s(
            parts=max(len(s) for s in versions),
            versions=len(versions),
            is_known=known,
            is_station=view.core.class_.format is ClassFormat.STATIONS,
        ),
        is_known=known,
    )


def _steps(view: PlanView, signature: Signature, parts: list[Teaching]) -> str:
    """Say the steps of a movement, or of a combination each part with its cue."""
    if len(parts) == 1:
        return " ".join(parts[0].steps)
    named = zip(signature, parts, strict=True)
    return " ".join(f"{view.library.movements[m].name}: {part.cues[0]}" for m, part in named)


def _stop_fault(teaching: Teaching) -> str:
    fault = next((f for f in teaching.faults if f.urgency == "stop"), teaching.faults[0])
    return then_words(fault)


def _recap(view: PlanView) -> str:
    ordered = sorted(view.core.exercises, key=lambda e: e.position)
    told = [
        f"{e.position} {view.library.exercise_name(e.exercise_id)}, {count_words(e.count)}"
        for e in ordered
    ]
    rounds = view.core.class_.rounds
    return f"{'; '.join(told)}. {one_or_more(rounds, '1 round', '{n} rounds')}."


def _time_words(paragraph: Paragraph) -> str:
    return say(
        "{needs} s ({known}; said {said}, shown {shown})",
        needs=paragraph.needs_s,
        known=say("known") if paragraph.is_known else say("new"),
        said=paragraph.said_s,
        shown=paragraph.shown_s,
    )


def _time(view: PlanView, paragraphs: tuple[Paragraph, ...], recap: str) -> ScriptTime:
    recap_s = spoken_s([recap])
    needs = sum(p.needs_s for p in paragraphs) + recap_s
    said = sum(p.said_s for p in paragraphs) + recap_s
    planned = sum(w.length_s for w in view.windows(WindowKind.DEMONSTRATION))
    told = {
        "all": say(
            "All needs {needs} ({said} of it said, recap {recap_s} s)",
            needs=length_words(needs),
            said=length_words(said),
            recap_s=recap_s,
        ),
        "planned": length_words(planned),
    }
    if not planned:
        words = say("{all}; the class has no demonstration.", **told)
    elif needs <= planned:
        words = say("{all}: fits the {planned} of demonstration.", **told)
    else:
        over = length_words(needs - planned)
        words = say("{all}: {over} too long for the {planned} of demonstration.", over=over, **told)
    return ScriptTime(said, needs, planned, words, _way_out(paragraphs, needs - planned))


def _way_out(paragraphs: tuple[Paragraph, ...], over_s: int) -> str:
    """Say which exercises may be shown later so that the rest fits: the easiest skills."""
    if over_s <= 0:
        return ""
    later: list[Paragraph] = []
    for paragraph in reversed(paragraphs[1:]):
        if over_s <= 0:
            break
        later.append(paragraph)
        over_s -= paragraph.needs_s
    names = listed(f"{p.position} {p.name}" for p in sorted(later, key=lambda p: p.position))
    if over_s > 0 or not later:
        return say("Plan a longer demonstration, or fewer versions.")
    return one_or_more(
        len(later),
        "Show {names} just before its turn in round 1, or plan a longer demonstration.",
        "Show {names} each just before its turn in round 1, or plan a longer demonstration.",
        names=names,
    )


def _first_timers(view: PlanView) -> str:
    new = [view.name(p) for p in view.order if view.problem.people[p].classes_done == 0]
    if not new:
        return ""
    return say(
        "Before the class: brief {people}, {s} s each (common practice, no source).",
        people=listed(new),
        s=FIRST_TIMER_BRIEF_S,
    )


def _burst(view: PlanView) -> tuple[str, ...]:
    windows = view.windows(WindowKind.BURST)
    if not windows:
        return ()
    kinds = {dose.burst for dose in view.doses.values() if dose.burst}
    ordered = sorted(kinds, key=lambda b: hardness((b,), view.library))
    movements = [view.library.movements[b] for b in ordered]
    return (
        say("{length}: your own pace.", length=length_words(windows[0].length_s)),
        *(f"{m.name}: {m.teaching.cues[0]}" for m in movements),
    )

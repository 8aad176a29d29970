"""Who stands where with what at one moment of a class that was played through."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from roundwright.documents.pictures.who_is_where import cell_of
from roundwright.documents.plan_view import PlanView
from roundwright.documents.version_names import full_name
from roundwright.foundation.words import say
from roundwright.rehearsal.one_play import Doing, OnePlay, Stretch

SAID: Mapping[Doing, str] = {
    Doing.WARM_UP: "warms up",
    Doing.DEMONSTRATION: "is shown the exercises",
    Doing.WAIT: "waits",
    Doing.PARTNER: "rests while the partner works",
    Doing.CHANGE: "changes",
    Doing.REST: "rests",
    Doing.NOTHING: "has nothing to do",
    Doing.COOL_DOWN: "cools down",
}
"""What somebody does who does not work."""


@dataclass(frozen=True, slots=True)
class MomentLine:
    """One stretch of one person: from when to when, s, where, and what they do with what."""

    person_id: str
    name: str
    from_s: int
    to_s: int
    place: str
    doing: str


def moments(view: PlanView, play: OnePlay) -> Iterator[MomentLine]:
    """Give everybody's stretches in order of person and time.

    Parameters
    ----------
    view : PlanView
        The plan that was played, with names.
    play : OnePlay
        One play of it.
    """
    exercises = {e.position: e.exercise_id for e in view.core.exercises}
    for person in play.people:
        for stretch in person.stretches:
            place = ""
            if stretch.position:
                name = view.library.exercise_name(exercises[stretch.position])
                place = f"{stretch.position} {name}"
            yield MomentLine(
                person_id=person.person_id,
                name=view.name(person.person_id),
                from_s=stretch.from_s,
                to_s=stretch.to_s,
                place=place,
                doing=_doing(view, person.person_id, stretch),
            )


def _doing(view: PlanView, person_id: str, stretch: Stretch) -> str:
    if stretch.doing is Doing.BURST:
        burst = view.doses[person_id].burst
        return view.library.movements[burst].name if burst else say(SAID[Doing.REST])
    if stretch.doing is not Doing.WORK:
        return say(SAID[stretch.doing])
    cell = cell_of(view, stretch, person_id)
    if cell is None:
        return say(SAID[Doing.NOTHING])
    load = f", {view.load(cell)} {view.units}" if cell.units else ""
    return f"{full_name(cell, view.library)}{load}"

"""Who stands where with what at one moment of a typical class, as lines."""

from collections.abc import Iterator

from roundwright.cli.plan_words import NOTHING, load_words, version_words
from roundwright.documents.class_moment import SAID
from roundwright.foundation import shown
from roundwright.plan.core import Core
from roundwright.rehearsal.one_play import Doing, OnePlay, Stretch
from roundwright.services.names import Names


def moment_lines(core: Core, play: OnePlay, second: int, names: Names, units: str) -> Iterator[str]:
    """Give one line a person.

    Parameters
    ----------
    core : Core
        The plan that was played.
    play : OnePlay
        One play of it.
    second : int
        From the start of the class.
    names : Names
        Joined here.
    units : str
        How loads are shown, kg or lb.
    """
    if second >= play.class_s:
        length = shown.clock(play.class_s)
        yield f"At {shown.clock(second)} a typical class is over: it takes {length}."
        return
    yield f"At {shown.clock(second)} of a typical class:"
    for person in play.people:
        stretch = person.at(second)
        if stretch is not None:
            did = _did(core, person.person_id, stretch, names, units)
            yield f"  {names.person(person.person_id)} {did}"


def _did(core: Core, person_id: str, stretch: Stretch, names: Names, units: str) -> str:
    where = f" at {stretch.position} {names.exercise(stretch.position)}" if stretch.position else ""
    if stretch.doing is Doing.BURST:
        dose = next(d for d in core.people if d.person_id == person_id)
        return f"in the burst: {names.movement(dose.burst).lower()}." if dose.burst else "rests."
    if stretch.doing is not Doing.WORK:
        goes = " to" if stretch.doing is Doing.CHANGE and where else ""
        return f"{SAID[stretch.doing]}{where.replace(' at', goes, 1) if goes else where}."
    cell = next(
        c for c in core.cells_of(person_id, stretch.round) if c.position == stretch.position
    )
    load = load_words(cell.units, cell.unit_mass_g, units)
    held = "" if load == NOTHING else f", {load}"
    return f"works{where}: {version_words(cell, names).lower()}{held}."

"""Members that cannot all hold, written as a clash."""

from collections.abc import Iterable, Sequence

from roundwright.optimise.planning.clash_members import CHOICE, KINDS, Member
from roundwright.optimise.planning.exercise_facts import facts_of_exercise
from roundwright.plan.outcome import Clash
from roundwright.plan.planning_problem import PlanningProblem


def told_clash(
    planning: PlanningProblem,
    held: Sequence[Member],
    needs: Iterable[tuple[str, int]],
    *,
    spent: bool,
) -> tuple[Clash, ...]:
    """Write the members as a clash: the coach's own wishes first, people together at the end.

    Parameters
    ----------
    needs : iterable of (str, int)
        Kit by name, and how much of it the people need at least.
    spent : bool
        Whether the work ran out: the rules of choice are then one member.
    """
    needed: dict[str, int] = {}
    for item, units in needs:
        needed[item] = max(units, needed.get(item, 1))
    told = [
        _clash(planning, m, needed)
        for m in sorted(held, key=lambda m: -KINDS.index(m.kind))
        if m.kind != "persons" and not (spent and m.kind in CHOICE)
    ]
    if spent and any(m.kind in CHOICE for m in held):
        told.append(Clash(kind="choice"))
    people = tuple(m.person for m in held if m.kind == "persons")
    return (*told, Clash(kind="persons", persons=people)) if people else tuple(told)


def item_of(c: Clash) -> str:
    """Give what names the member that a clash was written from: item, mass in g, or person."""
    if c.kind == "kept":
        return c.persons[0]
    return str(c.figures["unit_mass_g"]) if "unit_mass_g" in c.figures else c.item


def _clash(planning: PlanningProblem, m: Member, needed: dict[str, int]) -> Clash:
    figures: dict[str, int] = {}
    item = m.item
    if m.kind == "kit":
        figures = {"there": m.figure}
        if needed.get(m.item, 0) > m.figure:
            figures["needed"] = needed[m.item]
        if m.item.isdigit():
            item, figures = "dumbbell", figures | {"unit_mass_g": int(m.item)}
    elif m.kind == "places":
        library, banned = planning.base.library, set(planning.base.spec.ban)
        names = {c.exercise_id for c in planning.candidates} - banned
        names |= {k.exercise_id for k in planning.kept}
        lines = {facts_of_exercise(name, library).line for name in names}
        figures = {"places": m.figure, "exercises": len(names), "lines": len(lines)}
    elif m.figure:
        figures = {"figure": m.figure}
    return Clash(
        kind=m.kind,
        item=item,
        positions=m.positions,
        persons=(m.person,) if m.person else (),
        figures=figures,
    )

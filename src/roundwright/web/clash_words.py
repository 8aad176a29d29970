"""Why there is no plan, in a coach's words."""

from collections.abc import Mapping

from roundwright.documents.spoken import item_words, listed, mass_label
from roundwright.plan.outcome import Clash
from roundwright.plan.problem import Problem


def clash_lines(
    clashes: tuple[Clash, ...], problem: Problem, names: Mapping[str, str], units: str
) -> tuple[str, ...]:
    """Say each member of the smallest set of things that cannot all hold."""
    return tuple(_line(clash, problem, names, units) for clash in clashes)


def _line(clash: Clash, problem: Problem, names: Mapping[str, str], units: str) -> str:
    exercises = {
        e.position: problem.library.exercise_name(e.exercise_id) for e in problem.spec.exercises
    }
    places = [f"{k} ({exercises.get(k, 'unknown exercise')})" for k in clash.positions]
    where = f" at {listed(places)}" if places else ""
    who = listed(names.get(p, f"someone ({p})") for p in clash.persons)
    what = _thing(clash, problem, units)
    figures = _figures(clash)
    subject = f"{what}{where}" if what or where else clash.kind.replace("_", " ")
    return f"{subject.strip().capitalize() if not what else subject}{figures}" + (
        f": {who}." if who else "."
    )


def _thing(clash: Clash, problem: Problem, units: str) -> str:
    if not clash.item:
        return clash.kind.replace("_", " ").capitalize()
    if clash.item.isdigit():
        return f"Dumbbells of {mass_label(int(clash.item), problem.kit, units)}"
    found = next((i for i in problem.kit.items if i.id == clash.item), None)
    words = item_words(found) if found else clash.item.replace("_", " ")
    return words[:1].upper() + words[1:]


def _figures(clash: Clash) -> str:
    figures = clash.figures
    if {"needed", "there"} <= figures.keys():
        return f", {figures['needed']} needed and {figures['there']} there"
    return "".join(f", {name.replace('_', ' ')} {value}" for name, value in figures.items())

"""All the wording of a changed plan. People stand as `{p001}`; names are joined at display only.

Nothing here gives a reason: no limit, no clearance, no pain.
"""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from roundwright.foundation import shown
from roundwright.plan.problem import Problem
from roundwright.services.changing.effects import Effects
from roundwright.services.changing.said import MOST_NAMED, PersonSaid, Said

_PERSON = re.compile(r"\{([a-z][a-z0-9_]{1,40})\}")
MOST_PLACES = 2
"""So many places of one person are named in a sentence, then a number; our choice."""
_FEW = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


@dataclass(frozen=True, slots=True)
class _Told:
    """What words are joined with: the class as it is now, kg or lb."""

    problem: Problem
    units: str

    def exercise(self, slug: str) -> str:
        library = self.problem.library
        if library.has_exercise(slug):
            return library.exercise_name(slug)
        movement = library.movements.get(slug)
        return movement.name if movement else slug.replace("_", " ")

    def place(self, position: int) -> str:
        if position == 0:
            return "the burst"
        stands = {e.position: e.exercise_id for e in self.problem.spec.exercises}
        if position not in stands:
            return f"place {position}"
        return f"{_lower(self.exercise(stands[position]))} (place {position})"

    def movements(self, person: PersonSaid) -> str:
        return _listed([_lower(self.exercise(m)) for m in person.movements])

    def load(self, person: PersonSaid) -> str:
        if not person.units or not person.unit_mass_g:
            return "no dumbbells"
        mass = shown.mass(person.unit_mass_g, self.units)
        return f"a pair of {mass}" if person.units == 2 else f"one of {mass}"

    def kit(self, said: Said) -> str:
        units, mass_g = said.figures["units"], said.figures["unit_mass_g"]
        if mass_g:
            thing = f"of {shown.mass(mass_g, self.units)}"
            return f"{_number(units)} dumbbell{'s' * (units != 1)} {thing}"
        found = next((i for i in self.problem.kit.items if i.id == said.item), None)
        label = (found.label if found else "") or said.item.replace("_", " ")
        return f"{units} × {label}"


def sentence_of(said: Said, problem: Problem, units: str) -> str:
    """Say an answer in one sentence: what was asked, then who changes what.

    Parameters
    ----------
    problem : Problem
        Of the plan after the change: its exercises, kit and library give the names.
    units : str
        'kg' or 'lb'.

    Returns
    -------
    str
        With people as `{p001}`; see `with_names`.

    Raises
    ------
    KeyError
        For a kind of change without words: a fault of ours.
    """
    told = _Told(problem, units)
    words = _ASKED[said.key](said, told)
    if said.own is not None:
        words = f"{words}: {_does(said.own, told)}"
    for swap in said.swapped:
        words += f"; place {swap.position} is {_lower(told.exercise(swap.exercise_id))} now"
    others = "else " if said.person is not None else ""
    return f"{words[:1].upper()}{words[1:]}; {_who(said, told) or f'nobody {others}changes'}."


def with_names(text: str, names: Mapping[str, str]) -> str:
    """Put names in the place of ids; somebody who is not known any more stays nameless."""
    return _PERSON.sub(lambda match: names.get(match[1], f"someone ({match[1]})"), text)


def effect_lines(before: Effects, after: Effects) -> tuple[str, ...]:
    """Say each effect with before and after, also those that did not change."""

    def both(label: str, was: str, now: str) -> str:
        return f"{label}: {now}" + (f" (was {was})" if was != now else "")

    lines = [
        both("Length", shown.clock(before.length_s), shown.clock(after.length_s)),
        both("Kit in use at once", str(before.kit_in_use), str(after.kit_in_use)),
        both("Push to pull", f"{before.push}:{before.pull}", f"{after.push}:{after.pull}"),
        both("Knee to hip", f"{before.knee}:{before.hip}", f"{after.knee}:{after.hip}"),
        both("Landings in all", str(before.contacts), str(after.contacts)),
        both("Versions to teach", str(before.versions), str(after.versions)),
    ]
    if after.chance_on_time_bp is not None:
        was = before.chance_on_time_bp
        now = shown.times_in_ten(after.chance_on_time_bp)
        lines.append(both("On time", now if was is None else shown.times_in_ten(was), now))
    return tuple(lines)


def cut_words(said: Said, problem: Problem, units: str) -> str:
    """Say only what is cut, without who changes."""
    return _ASKED[said.key](said, _Told(problem, units))


def people_changed_words(number: int) -> str:
    """Say how many people change."""
    if number == 0:
        return "nobody changes"
    return f"{_number(number)} {'person changes' if number == 1 else 'people change'}"


def unheld_words(persons: Mapping[str, tuple[int, ...]], problem: Problem) -> tuple[str, ...]:
    """Say which of the coach's locks could not be held, by person; they rest there."""
    told = _Told(problem, "kg")
    return tuple(
        f"What was fixed for {{{person}}} at {_listed([told.place(k) for k in places])} can't be "
        f"kept today: {{{person}}} has nothing to do there."
        for person, places in persons.items()
    )


def left_out_words(persons: Mapping[str, tuple[int, ...]], problem: Problem) -> tuple[str, ...]:
    """Say who newly has nothing to do where."""
    told = _Told(problem, "kg")
    return tuple(
        f"{{{person}}} has nothing to do at {_listed([told.place(k) for k in places])}."
        for person, places in persons.items()
    )


NOT_TODAY = "Speak to {person} first: not in this class today."
"""What is said of somebody who is not to join, and of a walk-in: kind, and without a reason."""


def not_today_words(person: str) -> str:
    """Say that somebody does not take part today; the person as `{p001}`."""
    return NOT_TODAY.replace("{person}", f"{{{person}}}")


def _does(person: PersonSaid, told: _Told) -> str:
    who, places = f"{{{person.person}}}", [told.place(k) for k in person.positions]
    many = len(places) > MOST_PLACES
    where = f"{_number(len(places))} places" if many else _listed(places)
    match person.doing:
        case None:
            return f"{who} changes at {where}"
        case "rest":
            return f"{who} rests at {where}"
        case "burst":
            return f"{who} does {told.movements(person) or 'something else'} for the burst"
        case "load":
            return f"{who} takes {told.load(person)} at {where}"
        case "count":
            return f"{who} has another count at {where}"
        case "kit":
            return f"{who} uses other kit at {where}"
        case "exercise" | "version" | "works":
            load = f" with {told.load(person)}" if person.units else ""
            return f"{who} does {told.movements(person)}{load} at {where}"


def _who(said: Said, told: _Told) -> str:
    """Say who else changes: at most three by name and what, then a number."""
    named = [_does(person, told) for person in said.people[:MOST_NAMED]]
    more = len(said.people) - len(named)
    if more:
        named.append(f"{_number(more)} more {'people change' if more > 1 else 'person changes'}")
    return "; ".join(named)


def _one(said: Said) -> str:
    return f"{{{said.person}}}"


def _at(said: Said, told: _Told) -> str:
    return told.place(said.position or 0)


def _rests(said: Said, told: _Told) -> str:
    figures = said.figures
    return f"rests take {figures['rest_s']} s and changes {figures['change_s']} s"


def _burst(said: Said, told: _Told) -> str:
    return f"the burst takes {said.figures['length_s']} s" if said.figures else "there is no burst"


_ASKED: Mapping[str, Callable[[Said, _Told], str]] = {
    "person_left": lambda s, t: f"{_one(s)} is out of the class",
    "person_came": lambda s, t: f"{_one(s)} joins",
    "person_limited": lambda s, t: f"{_one(s)} goes easier from here on",
    "kit_lost": lambda s, t: f"without {t.kit(s)}",
    "kit_back": lambda s, t: f"with {t.kit(s)} more",
    "slot_changed": lambda s, t: f"the slot is {shown.clock(s.figures['slot_s'])}",
    "exercise_swapped": lambda s, t: f"place {s.position} is {_lower(t.exercise(s.item))} now",
    "exercises_reordered": lambda s, t: (
        f"the order is {_listed([_lower(t.exercise(e)) for e in s.order])}"
    ),
    "banned": lambda s, t: f"nobody is given {_lower(t.exercise(s.item))}",
    "cell_set": lambda s, t: f"what {_one(s)} does at {_at(s, t)} is fixed",
    "cell_freed": lambda s, t: f"what {_one(s)} does at {_at(s, t)} is free again",
    "substitute_set": lambda s, t: (
        f"{_one(s)} does {_lower(t.exercise(s.item))} at {_at(s, t)} instead"
    ),
    "sat_out": lambda s, t: f"{_one(s)} has nothing to do at {_at(s, t)}",
    "round_dropped": lambda s, t: (
        f"one round less: {_number(s.figures['rounds'])} round{'s' * (s.figures['rounds'] != 1)}"
    ),
    "rests_cut": _rests,
    "reps_cut": lambda s, t: f"{shown.per_cent(s.figures['share_bp'])} of each count",
    "burst_cut": _burst,
    "several_cuts": lambda s, t: _listed([_ASKED[part.key](part, t) for part in s.parts]),
}
"""Words of every kind of change."""


def _number(value: int) -> str:
    return _FEW[value] if 0 <= value < len(_FEW) else str(value)


def _lower(words: str) -> str:
    return f"{words[:1].lower()}{words[1:]}"


def _listed(words: list[str]) -> str:
    *most, last = words or [""]
    return f"{', '.join(most)} and {last}" if most else last

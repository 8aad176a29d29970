"""All the wording of a changed plan. People stand as `{p001}`; names are joined at display only.

Nothing here gives a reason: no limit, no clearance, no pain.
"""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from roundwright.foundation import shown
from roundwright.foundation.words import capital, in_sentence, listed, number_word, one_or_more, say
from roundwright.library.spoken_library import spoken
from roundwright.plan.problem import Problem
from roundwright.services.changing.effects import Effects
from roundwright.services.changing.said import MOST_NAMED, PersonSaid, Said

_PERSON = re.compile(r"\{([a-z][a-z0-9_]{1,40})\}")
MOST_PLACES = 2
"""So many places of one person are named in a sentence, then a number; our choice."""


@dataclass(frozen=True, slots=True)
class _Told:
    """What words are joined with: the class as it is now, kg or lb."""

    problem: Problem
    units: str

    def exercise(self, slug: str) -> str:
        library = spoken(self.problem.library)
        if library.has_exercise(slug):
            return in_sentence(library.exercise_name(slug))
        movement = library.movements.get(slug)
        return in_sentence(movement.name if movement else slug.replace("_", " "))

    def place(self, position: int) -> str:
        if position == 0:
            return say("the burst")
        stands = {e.position: e.exercise_id for e in self.problem.spec.exercises}
        if position not in stands:
            return say("place {n}", n=position)
        return say("{exercise} (place {n})", exercise=self.exercise(stands[position]), n=position)

    def places(self, positions: Iterable[int]) -> str:
        return listed(self.place(k) for k in positions)

    def movements(self, person: PersonSaid) -> str:
        return listed(self.exercise(m) for m in person.movements)

    def load(self, person: PersonSaid) -> str:
        if not person.units or not person.unit_mass_g:
            return say("no dumbbells")
        mass = shown.mass(person.unit_mass_g, self.units)
        if person.units == 2:
            return say("a pair of {mass}", mass=mass)
        return say("one of {mass}", mass=mass)

    def kit(self, said: Said) -> str:
        units, mass_g = said.figures["units"], said.figures["unit_mass_g"]
        if mass_g:
            return one_or_more(
                units,
                "one dumbbell of {mass}",
                "{number} dumbbells of {mass}",
                mass=shown.mass(mass_g, self.units),
            )
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
        words += "; " + _stands_now(swap.position, told.exercise(swap.exercise_id))
    nobody = (
        say("nobody else changes")
        if said.person is not None
        else say("it stays the same for everybody")
    )
    return f"{capital(words)}; {_who(said, told) or nobody}."


def with_names(text: str, names: Mapping[str, str]) -> str:
    """Put names in the place of ids; somebody who is not known any more stays nameless."""
    return _PERSON.sub(lambda match: names.get(match[1], f"someone ({match[1]})"), text)


def effect_lines(before: Effects, after: Effects, *, only_changed: bool = False) -> tuple[str, ...]:
    """Say each effect with before and after; those that did not change too, unless only others."""
    found = [
        (say("Length"), shown.clock(before.length_s), shown.clock(after.length_s)),
        (say("Kit in use at once"), str(before.kit_in_use), str(after.kit_in_use)),
        (say("Push to pull"), f"{before.push}:{before.pull}", f"{after.push}:{after.pull}"),
        (say("Knee to hip"), f"{before.knee}:{before.hip}", f"{after.knee}:{after.hip}"),
        (say("Landings in all"), str(before.contacts), str(after.contacts)),
        (say("Versions to teach"), str(before.versions), str(after.versions)),
    ]
    if after.chance_on_time_bp is not None:
        was = before.chance_on_time_bp
        now = shown.times_in_ten(after.chance_on_time_bp)
        found.append((say("On time"), now if was is None else shown.times_in_ten(was), now))
    return tuple(
        say("{label}: {now} (was {was})", label=label, now=now, was=was)
        if was != now
        else f"{label}: {now}"
        for label, was, now in found
        if was != now or not only_changed
    )


def cut_words(said: Said, problem: Problem, units: str) -> str:
    """Say only what is cut, without who changes."""
    return _ASKED[said.key](said, _Told(problem, units))


def people_changed_words(number: int) -> str:
    """Say how many people change."""
    if number == 0:
        return say("it stays the same for everybody")
    return one_or_more(
        number, "one person does something else", "{number} people do something else"
    )


def unheld_words(persons: Mapping[str, tuple[int, ...]], problem: Problem) -> tuple[str, ...]:
    """Say which of the coach's locks could not be held, by person; they rest there."""
    told = _Told(problem, "kg")
    return tuple(
        say(
            "What was fixed for {who} at {where} can't be kept today: {who} has nothing to do "
            "there.",
            who=f"{{{person}}}",
            where=told.places(places),
        )
        for person, places in persons.items()
    )


def left_out_words(persons: Mapping[str, tuple[int, ...]], problem: Problem) -> tuple[str, ...]:
    """Say who newly has nothing to do where."""
    told = _Told(problem, "kg")
    return tuple(
        say("{who} has nothing to do at {where}.", who=f"{{{person}}}", where=told.places(places))
        for person, places in persons.items()
    )


NOT_TODAY = "Speak to {person} first: not in this class today."
"""What is said of somebody who is not to join, and of a walk-in: kind, and without a reason."""


def not_today_words(person: str) -> str:
    """Say that somebody does not take part today; the person as `{p001}`."""
    return say(NOT_TODAY, person=f"{{{person}}}")


def _does(person: PersonSaid, told: _Told) -> str:
    who, many = f"{{{person.person}}}", len(person.positions) > MOST_PLACES
    where = (
        say("{number} places", number=number_word(len(person.positions)))
        if many
        else told.places(person.positions)
    )
    match person.doing:
        case None:
            return say("{who} does something else at {where}", who=who, where=where)
        case "rest":
            return say("{who} rests at {where}", who=who, where=where)
        case "burst":
            what = told.movements(person) or say("something else")
            return say("{who} does {what} for the burst", who=who, what=what)
        case "load":
            load = told.load(person)
            return say("{who} takes {load} at {where}", who=who, load=load, where=where)
        case "count":
            return say("{who} has another count at {where}", who=who, where=where)
        case "kit":
            return say("{who} uses other kit at {where}", who=who, where=where)
        case "exercise" | "version" | "works":
            what = told.movements(person)
            if person.units:
                load = told.load(person)
                what = say("{what} with {load}", what=what, load=load)
            return say("{who} does {what} at {where}", who=who, what=what, where=where)


def _who(said: Said, told: _Told) -> str:
    """Say who else changes: at most three by name and what, then a number."""
    named = [_does(person, told) for person in said.people[:MOST_NAMED]]
    more = len(said.people) - len(named)
    if more:
        named.append(
            one_or_more(
                more,
                "one more person does something else",
                "{number} more people do something else",
            )
        )
    return "; ".join(named)


def _one(said: Said) -> str:
    return f"{{{said.person}}}"


def _at(said: Said, told: _Told) -> str:
    return told.place(said.position or 0)


def _stands_now(position: int | None, exercise: str) -> str:
    return say("place {n} is {exercise} now", n=position, exercise=exercise)


def _rests(said: Said, told: _Told) -> str:
    figures = said.figures
    return say(
        "rests take {rest_s} s and changes {change_s} s",
        rest_s=figures["rest_s"],
        change_s=figures["change_s"],
    )


def _burst(said: Said, told: _Told) -> str:
    if not said.figures:
        return say("there is no burst")
    return say("the burst takes {length_s} s", length_s=said.figures["length_s"])


def _rounds(said: Said, told: _Told) -> str:
    rounds = said.figures["rounds"]
    return one_or_more(
        rounds,
        "one round less: one round",
        "one round less: {number} rounds",
    )


_ASKED: Mapping[str, Callable[[Said, _Told], str]] = {
    "person_left": lambda s, t: say("{who} is out of the class", who=_one(s)),
    "person_came": lambda s, t: say("{who} joins", who=_one(s)),
    "person_limited": lambda s, t: say("{who} goes easier from here on", who=_one(s)),
    "kit_lost": lambda s, t: say("without {kit}", kit=t.kit(s)),
    "kit_back": lambda s, t: say("with {kit} more", kit=t.kit(s)),
    "slot_changed": lambda s, t: say("the slot is {slot}", slot=shown.clock(s.figures["slot_s"])),
    "exercise_swapped": lambda s, t: _stands_now(s.position, t.exercise(s.item)),
    "exercises_reordered": lambda s, t: say(
        "the order is {order}", order=listed(t.exercise(e) for e in s.order)
    ),
    "banned": lambda s, t: say("nobody is given {exercise}", exercise=t.exercise(s.item)),
    "cell_set": lambda s, t: say(
        "what {who} does at {where} is fixed", who=_one(s), where=_at(s, t)
    ),
    "cell_freed": lambda s, t: say(
        "what {who} does at {where} is free again", who=_one(s), where=_at(s, t)
    ),
    "substitute_set": lambda s, t: say(
        "{who} does {what} at {where} instead",
        who=_one(s),
        what=t.exercise(s.item),
        where=_at(s, t),
    ),
    "sat_out": lambda s, t: say("{who} has nothing to do at {where}", who=_one(s), where=_at(s, t)),
    "round_dropped": _rounds,
    "rests_cut": _rests,
    "reps_cut": lambda s, t: say(
        "{share} of each count", share=shown.per_cent(s.figures["share_bp"])
    ),
    "burst_cut": _burst,
    "several_cuts": lambda s, t: listed(_ASKED[part.key](part, t) for part in s.parts),
}
"""Words of every kind of change."""

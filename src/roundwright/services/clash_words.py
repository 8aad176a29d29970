"""Why there is no class, what would help, and what is worth buying, in a coach's words.

Persons are named by whoever shows the words; no limit is given a reason.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from roundwright.foundation import shown
from roundwright.foundation.words import capital, in_sentence, listed, number_word, one_or_more, say
from roundwright.library.spoken_library import spoken
from roundwright.plan.outcome import Clash, WayOut
from roundwright.plan.problem import Problem
from roundwright.services.clash_numbers import ALLOW, AT_MOST

MOST_TOLD = 3
"""So many things worth buying are said in one line; our choice."""
FORMATS = {
    "together": "hold it all together",
    "pairs": "hold it in pairs",
    "staggered": "hold it in staggered groups",
    "stations": "hold it at stations",
}
NEEDED = {
    "knee": "something for the knees, a squat, lunge or step",
    "hip": "something for the hips, a hinge",
    "push": "a push",
    "pull": "a pull",
    "trunk": "something for the trunk",
}


@dataclass(frozen=True, slots=True)
class _Told:
    """What words are joined with: the class, people's names, kg or lb."""

    problem: Problem
    names: Mapping[str, str]
    units: str

    def people(self, persons: Iterable[str]) -> str:
        """Name people."""
        return listed(self.names.get(p) or say("someone ({id})", id=p) for p in persons)

    def exercise(self, name: str) -> str:
        """Name an exercise or a version."""
        library = spoken(self.problem.library)
        if library.has_exercise(name):
            return library.exercise_name(name)
        movement = library.movements.get(name)
        return movement.name if movement else _plain(name)

    def places(self, positions: Iterable[int]) -> str:
        """Name places of the round with what stands there, where that is known."""
        stands = {e.position: self.exercise(e.exercise_id) for e in self.problem.spec.exercises}
        return listed(f"{k} ({stands[k]})" if k in stands else str(k) for k in positions)

    def kit(self, item: str, unit_mass_g: int = 0) -> str:
        """Name a mass of dumbbells or an item, as it is labelled."""
        if unit_mass_g or item.isdigit():
            return say("dumbbells of {mass}", mass=self.mass(unit_mass_g or int(item)))
        found = next((i for i in self.problem.kit.items if i.id == item), None)
        if found is None:
            return _plain(item)
        height = f" {found.height // 10} cm" if found.height else ""
        return found.label or f"{say(found.kind.value)}{height}"

    def mass(self, unit_mass_g: int) -> str:
        """Say the mass of one dumbbell."""
        labels = {d.unit_mass_g: d.label for d in self.problem.kit.dumbbells if d.label}
        return labels.get(unit_mass_g) or shown.mass(unit_mass_g, self.units)

    def more_kit(self, way: WayOut) -> str:
        """Say how much more of something."""
        units, mass_g = way.figures["units"], way.figures.get("unit_mass_g", 0)
        if mass_g:
            return one_or_more(
                units // 2,
                "one more pair of {mass}",
                "{number} more pairs of {mass}",
                mass=self.mass(mass_g),
            )
        return one_or_more(
            units,
            "one more {label}",
            "{number} more of this: {label}",
            label=in_sentence(self.kit(way.item)),
        )


def clash_lines(
    clashes: Iterable[Clash], problem: Problem, names: Mapping[str, str], units: str
) -> tuple[str, ...]:
    """Say each member of the smallest set of things that cannot all hold.

    Parameters
    ----------
    problem : Problem
        The class, or the base of one that was to be chosen.
    names : mapping of str to str
        Shown names by person id.
    units : str
        'kg' or 'lb'.

    Raises
    ------
    KeyError
        For a kind without words: a fault of ours.
    """
    told = _Told(problem, names, units)
    return tuple(_sentence(CLASH_WORDS[c.kind](c, told)) for c in clashes)


def way_lines(
    ways: Iterable[WayOut],
    problem: Problem,
    names: Mapping[str, str],
    units: str,
    *,
    with_price: bool = False,
) -> tuple[str, ...]:
    """Say each way out, and each thing worth buying; minutes over the slot are always said.

    Parameters
    ----------
    with_price : bool
        Whether the price of the plan that it gives is said too.

    Raises
    ------
    KeyError
        For a kind without words: a fault of ours.
    """
    told = _Told(problem, names, units)
    lines = []
    for way in ways:
        words = WAY_WORDS[way.kind](way, told)
        resting = way.figures.get("sit_out", 0)
        if resting:
            words += one_or_more(
                resting,
                ", where one person sits out somewhere",
                ", where {number} people sit out somewhere",
            )
        if way.overrun_s:
            words += say(", {over} over the slot", over=shown.clock(way.overrun_s))
        if with_price:
            words += say(" (penalty {price})", price=way.cost)
        lines.append(_sentence(words))
    return tuple(lines)


def shopping_line(wishes: Iterable[WayOut], problem: Problem, units: str) -> str:
    """Say what is worth buying in one line, the best first; empty when nothing is."""
    told = _Told(problem, {}, units)
    best = [_one_more(w, told) for w in tuple(wishes)[:MOST_TOLD]]
    return _sentence("; ".join(best)) if best else ""


def _kit_clash(c: Clash, told: _Told) -> str:
    words = told.kit(c.item, c.figures.get("unit_mass_g", 0))
    if c.positions:
        words = say("{what} at {places}", what=words, places=told.places(c.positions))
    if "there" in c.figures:
        needed, there = c.figures.get("needed", 0), c.figures["there"]
        words += (
            say(", {needed} needed and {there} there", needed=needed, there=there)
            if needed > there
            else say(", {there} there", there=there)
        )
    return words + (f": {told.people(c.persons)}" if c.persons else "")


def _places(c: Clash, told: _Told) -> str:
    return one_or_more(
        c.figures["places"],
        "one exercise a round, with {open} to choose from",
        "{number} exercises a round, with {open} to choose from",
        open=number_word(c.figures["exercises"]),
    )


def _kept(c: Clash, told: _Told) -> str:
    people = told.people(c.persons)
    if not c.positions:
        return say("the version or load that is kept: {people}", people=people)
    places = told.places(c.positions)
    return say(
        "the version or load that is kept at {places}: {people}", places=places, people=people
    )


def _kept_exercise(c: Clash, told: _Told) -> str:
    exercise = told.exercise(c.item)
    if not c.positions:
        return say("{exercise} is kept", exercise=exercise)
    return say("{exercise} is kept at place {n}", exercise=exercise, n=c.positions[0])


def _persons(c: Clash, told: _Told) -> str:
    if not c.persons:
        return say("nobody takes part")
    return say("these people: {people}", people=told.people(c.persons))


def _burst(c: Clash, told: _Told) -> str:
    return say("the burst, {name}", name=told.exercise(c.item)) if c.item else say("the burst")


def _groups(c: Clash, told: _Told) -> str:
    people = one_or_more(c.figures["people"], "one person", "{number} people")
    exercises = one_or_more(c.figures["positions"], "one exercise", "{number} exercises")
    if "groups" in c.figures:
        return say(
            "{number} groups that take turns do not fit {people} and {exercises}",
            number=number_word(c.figures["groups"]),
            people=people,
            exercises=exercises,
        )
    return say(
        "groups that take turns need more than {people} and {exercises}",
        people=people,
        exercises=exercises,
    )


def _at_most(one: str, more: str) -> Callable[[Clash, _Told], str]:
    """Give the words of a limit on a number of exercises."""

    def words(c: Clash, told: _Told) -> str:
        number = c.figures.get("figure", 0)
        return one_or_more(number, one, more, kind=say(_plain(c.item)))

    return words


CLASH_WORDS: Mapping[str, Callable[[Clash, _Told], str]] = {
    "kit": _kit_clash,
    "contacts": lambda c, t: say("the most landings a person may have in a class"),
    "low_hops": lambda c, t: say("the most skips a person may have in a class"),
    "position": lambda c, t: say("what is done at {places}", places=t.places(c.positions)),
    "burst": _burst,
    "kept": _kept,
    "persons": _persons,
    "groups": _groups,
    "places": _places,
    "coverage": lambda c, t: say("each class has {what}", what=say(NEEDED[c.item])),
    "pattern_cap": _at_most(*AT_MOST["pattern_cap"]),
    "jumping_cap": _at_most(*AT_MOST["jumping_cap"]),
    "loaded_least": _at_most(*AT_MOST["loaded_least"]),
    "choice": lambda c, t: say(
        "the rules for a class that is chosen: what it covers, and in what order"
    ),
    "same_line": lambda c, t: say(
        "no two exercises of one progression line, or with a version in common"
    ),
    "combinations_cap": _at_most(*AT_MOST["combinations_cap"]),
    "accessories_cap": _at_most(*AT_MOST["accessories_cap"]),
    "line_cap": _at_most(*AT_MOST["line_cap"]),
    "neighbours": lambda c, t: say("no two in a row that tire the same muscle first"),
    "beside_burst": lambda c, t: say(
        "nothing next to the burst that tires the same muscle first as {name}",
        name=t.exercise(c.item),
    ),
    "besides": lambda c, t: say("another class than those already shown"),
    "kept_exercise": _kept_exercise,
    "ban": lambda c, t: say("not wanted: {name}", name=t.exercise(c.item)),
}
"""Words of every kind of clash."""


def _sit_out(w: WayOut, told: _Told) -> str:
    people, places = told.people(w.persons), told.places(w.positions)
    return say("let {people} sit out at {places}", people=people, places=places)


def _several(w: WayOut, told: _Told) -> str:
    """Say changes that only help together; what a class then lacks is not known by its parts."""
    parts = "; ".join(
        say("do without what is not covered, this once")
        if part.kind == "without_coverage" and not part.item
        else WAY_WORDS[part.kind](part, told)
        for part in w.parts
    )
    return say("together: {parts}", parts=parts)


def _one_more(w: WayOut, told: _Told) -> str:
    gain, worse, words = len(w.persons), w.figures["worse"], told.more_kit(w)
    if gain:
        words = one_or_more(
            gain,
            "{what} and one person gets a better fit",
            "{what} and {number} people get a better fit",
            what=words,
        )
    elif w.overrun_s < w.figures["overrun_before_s"]:
        words = say("{what} and the class is shorter", what=words)
    else:
        words = say("{what} and fewer versions are needed in the room", what=words)
    if not worse:
        return words
    return words + one_or_more(worse, ", one gets a worse fit", ", {number} get a worse fit")


def _allow(one: str, more: str, figure: str = "number") -> Callable[[WayOut, _Told], str]:
    """Give the words of a way out that has a number of exercises or rounds."""

    def words(w: WayOut, told: _Told) -> str:
        number = w.figures[figure]
        return one_or_more(number, one, more, kind=say(_plain(w.item)))

    return words


def _without(w: WayOut, told: _Told) -> str:
    what = listed(say(NEEDED[item]) for item in w.item.split("+"))
    return say("do without {what}, this once", what=what)


WAY_WORDS: Mapping[str, Callable[[WayOut, _Told], str]] = {
    "free_place": lambda w, t: say("let {name} stand at another place", name=t.exercise(w.item)),
    "any_groups": lambda w, t: say("leave the number of groups to the tool"),
    "format": lambda w, t: say(FORMATS[w.item]),
    "drop_ban": lambda w, t: say("allow {name} after all", name=t.exercise(w.item)),
    "show_again": lambda w, t: say("take a class that was shown before"),
    "let_go_cell": lambda w, t: say(
        "choose anew for {people} at {places}",
        people=t.people(w.persons),
        places=t.places(w.positions),
    ),
    "fewer_reps": lambda w, t: say("do {n} % of the reps", n=w.figures["per_cent"]),
    "no_last_burst": lambda w, t: say("no burst after the last round"),
    "no_last_rest": lambda w, t: say("no rest after the last round"),
    "shorter_burst": lambda w, t: say("a burst of {s} s", s=w.figures["seconds"]),
    "no_burst": lambda w, t: say("no burst"),
    "more_jumping": _allow(*ALLOW["more_jumping"]),
    "more_of_a_pattern": _allow(*ALLOW["more_of_a_pattern"]),
    "more_combinations": _allow(*ALLOW["more_combinations"]),
    "more_accessories": _allow(*ALLOW["more_accessories"]),
    "more_of_a_line": _allow(*ALLOW["more_of_a_line"]),
    "let_go_kept": lambda w, t: say("do not insist on {name}", name=t.exercise(w.item)),
    "fewer_places": _allow(*ALLOW["places"], "places"),
    "more_places": _allow(*ALLOW["places"], "places"),
    "without_coverage": _without,
    "leave_out": lambda w, t: say("leave out {name}", name=t.exercise(w.item)),
    "round_less": _allow(*ALLOW["round_less"], "rounds"),
    "sit_out": _sit_out,
    "more_kit": lambda w, t: t.more_kit(w),
    "faster_change": lambda w, t: say("change in {s} s", s=w.figures["change_s"]),
    "shorter_rest": lambda w, t: say("rest {s} s between rounds", s=w.figures["rest_s"]),
    "shorter_rest_and_change": lambda w, t: say(
        "rest {rest_s} s between rounds and change in {change_s} s",
        rest_s=w.figures["rest_s"],
        change_s=w.figures["change_s"],
    ),
    "longer_slot": _allow(*ALLOW["longer_slot"], "minutes"),
    "one_more": _one_more,
    "several": _several,
}
"""Words of every kind of way out, and of what is worth buying."""


def _plain(slug: str) -> str:
    return slug.replace("_", " ")


def _sentence(words: str) -> str:
    return f"{capital(words)}."

"""Why there is no class, what would help, and what is worth buying, in a coach's words.

Persons are named by whoever shows the words; no limit is given a reason.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from roundwright.foundation import shown
from roundwright.plan.outcome import Clash, WayOut
from roundwright.plan.problem import Problem

_NUMBERS = (
    *("no", "one", "two", "three", "four", "five", "six"),
    *("seven", "eight", "nine", "ten", "eleven", "twelve"),
)
MOST_TOLD = 3
"""So many things worth buying are said in one line; our choice."""
_FORMATS = {
    "together": "all together",
    "pairs": "in pairs",
    "staggered": "in staggered groups",
    "stations": "at stations",
}
_NEEDED = {
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
        return _listed(self.names.get(p, f"someone ({p})") for p in persons)

    def exercise(self, name: str) -> str:
        """Name an exercise or a version."""
        library = self.problem.library
        if library.has_exercise(name):
            return library.exercise_name(name)
        movement = library.movements.get(name)
        return movement.name if movement else _plain(name)

    def places(self, positions: Iterable[int]) -> str:
        """Name places of the round with what stands there, where that is known."""
        stands = {e.position: self.exercise(e.exercise_id) for e in self.problem.spec.exercises}
        return _listed(f"{k} ({stands[k]})" if k in stands else str(k) for k in positions)

    def kit(self, item: str, unit_mass_g: int = 0) -> str:
        """Name a mass of dumbbells or an item, as it is labelled."""
        if unit_mass_g or item.isdigit():
            return f"dumbbells of {self.mass(unit_mass_g or int(item))}"
        found = next((i for i in self.problem.kit.items if i.id == item), None)
        if found is None:
            return _plain(item)
        height = f" {found.height // 10} cm" if found.height else ""
        return found.label or f"{found.kind.value}{height}"

    def mass(self, unit_mass_g: int) -> str:
        """Say the mass of one dumbbell."""
        labels = {d.unit_mass_g: d.label for d in self.problem.kit.dumbbells if d.label}
        return labels.get(unit_mass_g) or shown.mass(unit_mass_g, self.units)

    def more_kit(self, way: WayOut) -> str:
        """Say how much more of something."""
        units, mass_g = way.figures["units"], way.figures.get("unit_mass_g", 0)
        if mass_g:
            return f"{_counted(units // 2, 'more pair')} of {self.mass(mass_g)}"
        label = self.kit(way.item)
        label = label[:1].lower() + label[1:]
        return f"one more {label}" if units == 1 else f"{_number(units)} more of this: {label}"


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
            words += (
                f", where {_counted(resting, 'person')} sit{'s' * (resting == 1)} out somewhere"
            )
        if way.overrun_s:
            words += f", {shown.clock(way.overrun_s)} over the slot"
        if with_price:
            words += f" (price {way.cost})"
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
        words += f" at {told.places(c.positions)}"
    if "there" in c.figures:
        there = f"{c.figures['there']} there"
        needed = c.figures.get("needed", 0)
        short = needed > c.figures["there"]
        words += f", {needed} needed and {there}" if short else f", {there}"
    return words + (f": {told.people(c.persons)}" if c.persons else "")


def _places(c: Clash, told: _Told) -> str:
    places, exercises = c.figures["places"], c.figures["exercises"]
    return f"{_counted(places, 'exercise')} a round, with {_number(exercises)} to choose from"


def _kept(c: Clash, told: _Told) -> str:
    where = f" at {told.places(c.positions)}" if c.positions else ""
    return f"the version or load that is kept{where}: {told.people(c.persons)}"


def _kept_exercise(c: Clash, told: _Told) -> str:
    where = f" at place {c.positions[0]}" if c.positions else ""
    return f"{told.exercise(c.item)} is kept{where}"


def _persons(c: Clash, told: _Told) -> str:
    if not c.persons:
        return "nobody takes part"
    return f"these people: {told.people(c.persons)}"


def _groups(c: Clash, told: _Told) -> str:
    figures = c.figures
    return (
        f"groups that take turns need more than {_counted(figures['people'], 'person')}"
        f" and {_counted(figures['positions'], 'exercise')}"
    )


CLASH_WORDS: Mapping[str, Callable[[Clash, _Told], str]] = {
    "kit": _kit_clash,
    "contacts": lambda c, t: "the most landings a person may have in a class",
    "low_hops": lambda c, t: "the most skips a person may have in a class",
    "position": lambda c, t: f"what is done at {t.places(c.positions)}",
    "burst": lambda c, t: f"the burst, {t.exercise(c.item)}" if c.item else "the burst",
    "kept": _kept,
    "persons": _persons,
    "groups": _groups,
    "places": _places,
    "coverage": lambda c, t: f"each class has {_NEEDED[c.item]}",
    "pattern_cap": lambda c, t: (
        f"at most {_counted(_figure(c), 'exercise')} of one kind, here {_plain(c.item)}"
    ),
    "jumping_cap": lambda c, t: f"at most {_counted(_figure(c), 'exercise')} with jumps",
    "loaded_least": lambda c, t: f"at least {_counted(_figure(c), 'exercise')} with dumbbells",
    "choice": lambda c, t: (
        "the rules for a class that is chosen: what it covers, and in what order"
    ),
    "same_line": lambda c, t: (
        "no two exercises of one progression line, or with a version in common"
    ),
    "combinations_cap": lambda c, t: f"at most {_counted(_figure(c), 'combination')}",
    "accessories_cap": lambda c, t: (
        f"at most {_counted(_figure(c), 'exercise')} for one muscle or one elbow alone"
    ),
    "line_cap": lambda c, t: (
        f"at most {_counted(_figure(c), 'exercise')} with a part of one progression line"
    ),
    "neighbours": lambda c, t: "no two in a row that tire the same muscle first",
    "beside_burst": lambda c, t: (
        f"nothing next to the burst that tires the same muscle first as {t.exercise(c.item)}"
    ),
    "besides": lambda c, t: "another class than those already shown",
    "kept_exercise": _kept_exercise,
    "ban": lambda c, t: f"not wanted: {t.exercise(c.item)}",
}
"""Words of every kind of clash."""


def _sit_out(w: WayOut, told: _Told) -> str:
    return f"let {told.people(w.persons)} sit out at {told.places(w.positions)}"


def _several(w: WayOut, told: _Told) -> str:
    """Say changes that only help together; what a class then lacks is not known by its parts."""
    return "together: " + "; ".join(
        "do without what is not covered, this once"
        if part.kind == "without_coverage" and not part.item
        else WAY_WORDS[part.kind](part, told)
        for part in w.parts
    )


def _one_more(w: WayOut, told: _Told) -> str:
    gain = len(w.persons)
    words = told.more_kit(w)
    if gain:
        words += (
            f" and {_number(gain)} {'people stop' if gain > 1 else 'person stops'} compromising"
        )
    elif w.overrun_s < w.figures["overrun_before_s"]:
        words += " and the class is shorter"
    else:
        words += " and fewer versions are needed in the room"
    worse = w.figures["worse"]
    return words + (f", {_number(worse)} give{'s' * (worse == 1)} way for it" if worse else "")


WAY_WORDS: Mapping[str, Callable[[WayOut, _Told], str]] = {
    "free_place": lambda w, t: f"let {t.exercise(w.item)} stand at another place",
    "format": lambda w, t: f"hold it {_FORMATS[w.item]}",
    "drop_ban": lambda w, t: f"allow {t.exercise(w.item)} after all",
    "show_again": lambda w, t: "take a class that was shown before",
    "let_go_cell": lambda w, t: f"choose anew for {t.people(w.persons)} at {t.places(w.positions)}",
    "fewer_reps": lambda w, t: f"do {w.figures['per_cent']} % of the reps",
    "no_last_burst": lambda w, t: "no burst after the last round",
    "no_last_rest": lambda w, t: "no rest after the last round",
    "shorter_burst": lambda w, t: f"a burst of {w.figures['seconds']} s",
    "no_burst": lambda w, t: "no burst",
    "more_jumping": lambda w, t: f"allow {_counted(w.figures['number'], 'exercise')} with jumps",
    "more_of_a_pattern": lambda w, t: (
        f"allow {_counted(w.figures['number'], 'exercise')} of one kind, here {_plain(w.item)}"
    ),
    "more_combinations": lambda w, t: f"allow {_counted(w.figures['number'], 'combination')}",
    "more_accessories": lambda w, t: (
        f"allow {_counted(w.figures['number'], 'exercise')} for one muscle or one elbow alone"
    ),
    "more_of_a_line": lambda w, t: (
        f"allow {_counted(w.figures['number'], 'exercise')} with a part of one progression line"
    ),
    "let_go_kept": lambda w, t: f"do not insist on {t.exercise(w.item)}",
    "fewer_places": lambda w, t: f"plan {_counted(w.figures['places'], 'exercise')} a round",
    "more_places": lambda w, t: f"plan {_counted(w.figures['places'], 'exercise')} a round",
    "without_coverage": lambda w, t: (
        f"do without {_listed(_NEEDED[item] for item in w.item.split('+'))}, this once"
    ),
    "leave_out": lambda w, t: f"leave out {t.exercise(w.item)}",
    "round_less": lambda w, t: f"do {_counted(w.figures['rounds'], 'round')}",
    "sit_out": _sit_out,
    "more_kit": lambda w, t: t.more_kit(w),
    "faster_change": lambda w, t: f"change in {w.figures['change_s']} s",
    "shorter_rest": lambda w, t: f"rest {w.figures['rest_s']} s between rounds",
    "shorter_rest_and_change": lambda w, t: (
        f"rest {w.figures['rest_s']} s between rounds and change in {w.figures['change_s']} s"
    ),
    "longer_slot": lambda w, t: f"book {_counted(w.figures['minutes'], 'more minute')}",
    "one_more": _one_more,
    "several": _several,
}
"""Words of every kind of way out, and of what is worth buying."""


def _number(value: int) -> str:
    return _NUMBERS[value] if 0 <= value < len(_NUMBERS) else str(value)


def _counted(value: int, thing: str) -> str:
    """Say a number of things; several persons are people."""
    if value == 1:
        return f"one {thing}"
    return f"{_number(value)} {'people' if thing == 'person' else thing + 's'}"


def _figure(c: Clash) -> int:
    return c.figures.get("figure", 0)


def _plain(slug: str) -> str:
    return slug.replace("_", " ")


def _listed(words: Iterable[str]) -> str:
    *most, last = list(words) or [""]
    return f"{', '.join(most)} and {last}" if most else last


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}."

"""A change of a plan from the fields of a form; what cannot be is told beside its field."""

from collections.abc import Callable, Collection

from pydantic import TypeAdapter, ValidationError

from roundwright.foundation.errors import BadInputError, NoPlanError
from roundwright.foundation.faults import Fault, shortened
from roundwright.hall.hall import Hall
from roundwright.people.walk_in import Reply, ThreeReplies
from roundwright.plan.changing import change as c
from roundwright.plan.outcome import NotToday
from roundwright.plan.problem import Problem
from roundwright.services.changing.people_today import hurts_now, somebody_joins, walk_in
from roundwright.services.changing.said_words import not_today_words, with_names
from roundwright.web.house.visit import Sent

MOST_MINUTES = 240
_CUT: TypeAdapter[c.Cut | c.SeveralCuts] = TypeAdapter(c.Cut | c.SeveralCuts)


def change_of_form(sent: Sent, hall: Hall, problem: Problem, taken: Collection[str]) -> c.Change:
    """Read what is asked; the field `change` says which kind.

    Parameters
    ----------
    taken : collection of str
        Ids of people of other revisions, which no walk-in gets.

    Raises
    ------
    BadInputError
        With what cannot be, by field.
    NoPlanError
        Somebody is not to join today, in kind words.
    """
    make = _KINDS.get(sent.text("change"))
    if make is None:
        raise BadInputError([_fault("change", sent.text("change"), "one of the list")])
    return make(_Asked(sent, hall, problem, taken))


class _Asked:
    """The fields of one form with what they are read against."""

    def __init__(self, sent: Sent, hall: Hall, problem: Problem, taken: Collection[str]) -> None:
        self.sent, self.hall, self.problem, self.taken = sent, hall, problem, taken

    def whole(self, name: str, least: int, most: int) -> int:
        text = self.sent.text(name)
        if text.isascii() and text.isdigit() and len(text) < 9 and least <= int(text) <= most:
            return int(text)
        raise BadInputError([_fault(name, text, f"{least} to {most}")])

    def one_of(self, name: str, known: Collection[str]) -> str:
        text = self.sent.text(name)
        if text not in known:
            raise BadInputError([_fault(name, text, "one of the list")])
        return text

    @property
    def person(self) -> str:
        return self.one_of("person", self.problem.people)

    @property
    def place(self) -> int:
        return self.whole("place", 1, self.problem.spec.positions)

    @property
    def exercise(self) -> str:
        known = {*self.hall.catalogue.lines, *self.hall.catalogue.combinations}
        return self.one_of("exercise", known)


def _cell(asked: _Asked) -> c.Change:
    sent = asked.sent
    mass = asked.whole("mass", 1, 200_000) if sent.text("mass") else None
    version = None
    if sent.text("version"):
        version = asked.one_of("version", asked.problem.library.movements)
    if mass is None and version is None:
        raise BadInputError([_fault("version", "", "a version, a load or both")])
    return c.CellSet(person=asked.person, position=asked.place, version=version, mass_g=mass)


def _order(asked: _Asked) -> c.Change:
    texts = asked.sent.text("order").split()[:20]
    places = tuple(int(t) for t in texts if t.isascii() and t.isdigit() and len(t) < 3)
    if sorted(places) != list(range(1, asked.problem.spec.positions + 1)):
        raise BadInputError([_fault("order", asked.sent.text("order"), "every place once")])
    return c.ExercisesReordered(order=places)


def _moved(step: int) -> Callable[[_Asked], c.Change]:
    def make(asked: _Asked) -> c.Change:
        last, place = asked.problem.spec.positions, asked.place
        if not 1 <= place + step <= last:
            raise BadInputError([_fault("place", str(place), "a place with one beside it")])
        order = list(range(1, last + 1))
        order[place - 1], order[place - 1 + step] = order[place - 1 + step], order[place - 1]
        return c.ExercisesReordered(order=tuple(order))

    return make


def _swap(asked: _Asked) -> c.Change:
    exercise = asked.exercise if asked.sent.text("exercise") else None
    return c.ExerciseSwapped(position=asked.place, exercise_id=exercise)


def _came(asked: _Asked) -> c.Change:
    who = asked.one_of("newcomer", {p.person_id for p in asked.hall.people})
    return _joining(asked, somebody_joins(asked.hall, who, asked.problem))


def _walk_in(asked: _Asked) -> c.Change:
    replies = [Reply(asked.one_of(name, list(Reply))) for name in ("first", "second", "third")]
    joining = walk_in(asked.hall, asked.problem, ThreeReplies(*replies), asked.taken)
    return _joining(asked, joining)


def _joining(asked: _Asked, joining: c.PersonCame | NotToday) -> c.Change:
    if isinstance(joining, NotToday):
        names = {joining.person_id: "them"}
        names |= {p.person_id: p.shown_name for p in asked.hall.people}
        words = with_names(not_today_words(joining.person_id), names)
        raise NoPlanError(words, "The plan stays as it is.")
    return joining


def _kit(kind: type[c.KitLost] | type[c.KitBack]) -> Callable[[_Asked], c.Change]:
    def make(asked: _Asked) -> c.Change:
        kit = asked.hall.kit
        known = {f"m{d.unit_mass_g}" for d in kit.dumbbells} | {f"i{i.id}" for i in kit.items}
        what, units = asked.one_of("kit", known), asked.whole("units", 1, 400)
        if what.startswith("m"):
            return kind(unit_mass_g=int(what[1:]), units=units)
        return kind(item_id=what[1:], units=units)

    return make


def _slot(asked: _Asked) -> c.Change:
    return c.SlotChanged(slot_s=60 * asked.whole("minutes", 1, MOST_MINUTES))


def _cut(asked: _Asked) -> c.Change:
    text = asked.sent.text("cut")
    try:
        return _CUT.validate_json(text[:2_000])
    except ValidationError as error:
        raise BadInputError([_fault("cut", text, "one of the choices offered")]) from error


_KINDS: dict[str, Callable[[_Asked], c.Change]] = {
    "cell": _cell,
    "free": lambda a: c.CellFreed(person=a.person, position=a.place),
    "rest": lambda a: c.SatOut(person=a.person, position=a.place),
    "instead": lambda a: c.SubstituteSet(person=a.person, position=a.place, exercise_id=a.exercise),
    "left": lambda a: c.PersonLeft(person=a.person),
    "came": _came,
    "walk-in": _walk_in,
    "hurts": lambda a: hurts_now(a.person, a.sent.text("region")),
    "swap": _swap,
    "earlier": _moved(-1),
    "later": _moved(1),
    "order": _order,
    "drop-round": lambda _: c.RoundDropped(),
    "kit-lost": _kit(c.KitLost),
    "kit-back": _kit(c.KitBack),
    "slot": _slot,
    "cut": _cut,
}


def _fault(name: str, value: str, expected: str) -> Fault:
    return Fault(
        code="field.value", file="form", field=name, value=shortened(value), expected=expected
    )

"""What all pieces say together: one class wish, or what must still be said for there to be one."""

from dataclasses import dataclass, field
from typing import Any

from pydantic import ValidationError

from roundwright.foundation.model_faults import described
from roundwright.goals.class_wish import (
    ClassFormat,
    ClassWish,
    ExerciseWish,
    KeptCell,
    Pace,
    WorkRestWish,
)
from roundwright.goals.quick_entry.class_phrases import day_names
from roundwright.goals.quick_entry.exercise_phrases import exercise_words
from roundwright.goals.quick_entry.names import Around
from roundwright.goals.quick_entry.pieces import Piece
from roundwright.goals.quick_entry.plain_numbers import DAYS
from roundwright.goals.quick_entry.results import Ask, Fact
from roundwright.library.combination import Combination

MOST_EXERCISES = 20

_NEEDED = {
    "start": ("a time, such as 18:30", ("18:30",)),
    "slot_s": ("how long the class lasts", ("lasts 45 min",)),
    "rounds": ("how many rounds", ("3 rounds",)),
}


@dataclass
class Draft:
    """A class while it is put together; `asks` belong to pieces, `whole` to the class."""

    around: Around
    pieces: tuple[Piece, ...]
    said: dict[str, object] = field(default_factory=dict)
    said_in: dict[str, int] = field(default_factory=dict)
    exercises: list[tuple[int, ExerciseWish]] = field(default_factory=list)
    keeps: list[tuple[int, KeptCell]] = field(default_factory=list)
    bans: set[str] = field(default_factory=set)
    made: dict[str, Combination] = field(default_factory=dict)
    asks: dict[int, Ask] = field(default_factory=dict)
    whole: list[Ask] = field(default_factory=list)

    def gather(self) -> None:
        """Lay the facts of all pieces together; what is said in two ways is asked."""
        for place, piece in enumerate(self.pieces):
            if isinstance(piece.heard, Fact):
                self._add(place, piece.heard)
            elif isinstance(piece.heard, Ask):
                self.asks[place] = piece.heard
        self._day()
        self._exercises()
        self._keeps()

    def _add(self, place: int, fact: Fact) -> None:
        for name, value in fact.sets:
            if name in self.said and self.said[name] != value:
                before = self.pieces[self.said_in[name]]
                self.asks[place] = Ask(f"which holds; line {before.line} says: {before.words}")
                return
        for name, value in fact.sets:
            self.said[name] = value
            self.said_in.setdefault(name, place)
        if fact.exercise is not None:
            self.exercises.append((place, fact.exercise))
        if fact.combination is not None:
            self.made[fact.combination.slug] = fact.combination
        if fact.keep is not None:
            self.keeps.append((place, fact.keep))
        self.bans |= set(fact.ban)

    def _day(self) -> None:
        on, weekday = self.said.get("on"), self.said.get("weekday")
        if on is None and weekday is None:
            self.whole.append(Ask("a day, such as Tuesday or 31 March 2026"))
        elif on is not None and weekday is not None:
            is_on = DAYS[on.weekday()]  # type: ignore[attr-defined]
            if is_on != weekday:
                self.asks[self.said_in["on"]] = Ask(f"which day; that date is a {is_on.title()}")
            del self.said["weekday"]
        for name, (missing, nearest) in _NEEDED.items():
            if name not in self.said:
                self.whole.append(Ask(missing, nearest))
        if "room" not in self.said:
            rooms = self.around.rooms
            if len(rooms) == 1:
                self.said["room"] = next(iter(rooms))
            else:
                names = tuple(f"in {name}" for name in rooms.values())
                self.whole.append(Ask("which room", names[:6]))

    def _exercises(self) -> None:
        """Ask what a class file would refuse: counts that its pace needs, and places."""
        timed = "work_s" in self.said
        places = self.said.get("places")
        if "work_rest" in self.said and not timed:
            self.asks[self.said_in["work_rest"]] = Ask("the seconds of work", ("work 40 s",))
        if not self.exercises and not places:
            self.whole.append(Ask("the exercises, one a line", ("12 a side Split squat",)))
        if len(self.exercises) > MOST_EXERCISES:
            self.whole.append(Ask(f"at most {MOST_EXERCISES} exercises"))
        seen: set[str] = set()
        taken: set[int] = set()
        for place, wish in self.exercises:
            asked = self._count(wish, timed) or self._placed(wish, taken)
            if asked is None and self._is_completed() and wish.exercise in seen:
                asked = Ask("another exercise; each stands once where the tool completes a class")
            seen.add(wish.exercise)
            if wish.position is not None:
                taken.add(wish.position)
            if asked is not None:
                self.asks.setdefault(place, asked)
        if isinstance(places, int) and places < len(self.exercises):
            at_least = f"at least {len(self.exercises)}, as so many exercises are given"
            self.asks[self.said_in["places"]] = Ask(at_least)

    def _is_completed(self) -> bool:
        places = self.said.get("places")
        positions = any(wish.position is not None for _, wish in self.exercises)
        return positions or (places is not None and places != len(self.exercises))

    def _count(self, wish: ExerciseWish, timed: bool) -> Ask | None:
        bare = wish.model_copy(update={"count": None, "position": None})
        name = exercise_words(bare, self.around.catalogue, self.made.get(wish.exercise))
        if wish.count is None:
            needed = not timed and not self._is_completed()
            return (
                Ask("how often, or for how many seconds", (f"8 times {name}",)) if needed else None
            )
        if timed and not wish.count.is_timed:
            return Ask("seconds, as the clock ends each exercise", (name,))
        return None

    def _placed(self, wish: ExerciseWish, taken: set[int]) -> Ask | None:
        if wish.position is None:
            return None
        places = self.said.get("places")
        if not isinstance(places, int):
            return Ask("how many exercises a round has, as one has its place")
        if self.said.get("order") == "free":
            return Ask("no place, as any order is good")
        if wish.position > places:
            return Ask(f"a place from 1 to {places}")
        return Ask("another place; this one is taken") if wish.position in taken else None

    def _keeps(self) -> None:
        catalogue, people = self.around.catalogue, self.said.get("people", "all")
        standing = dict(enumerate((wish.exercise for _, wish in self.exercises), start=1))
        if self._is_completed():
            standing = {w.position: w.exercise for _, w in self.exercises if w.position is not None}
        for place, cell in self.keeps:
            exercise = standing.get(cell.position)
            if isinstance(people, tuple) and cell.person not in people:
                self.asks[place] = Ask("a person of this class")
            elif exercise is None:
                self.asks[place] = Ask("a place where an exercise stands for certain")
            elif cell.version is not None:
                lines = (
                    tuple(part.line for part in self.made[exercise].parts)
                    if exercise in self.made
                    else catalogue.lines_of_exercise(exercise)
                )
                versions = [slug for line in lines for slug in catalogue.lines[line].versions]
                if cell.version not in versions:
                    near = tuple(catalogue.movements[slug].name for slug in versions)
                    self.asks[place] = Ask("a version of the exercise at that place", near[:6])

    def usual(self) -> frozenset[str]:
        """Give the fields of which nothing was said."""
        return frozenset(ClassWish.model_fields) - set(self.said_in)

    def wish(self) -> ClassWish | None:
        """Give the class where nothing is asked; what its model refuses is asked."""
        if self.asks or self.whole or any(piece.heard is None for piece in self.pieces):
            return None
        values: dict[str, Any] = dict(self.said)
        values["exercise"] = tuple(wish for _, wish in self.exercises)
        values["keep"] = tuple(cell for _, cell in self.keeps)
        values["ban"] = tuple(sorted(self.bans))
        values.setdefault("work_rest", WorkRestWish.OWN)
        if "name" not in values:
            day = day_names(values.get("on"), values.get("weekday"))
            values["name"] = f"{day} {values['start']:%H:%M}"
        if "groups" in values:
            values.setdefault("format", ClassFormat.STAGGERED)
        if "work_s" in values:
            values["pace"] = Pace.TIMED
        try:
            return ClassWish.model_validate(values)
        except ValidationError as error:
            for detail in error.errors(include_url=False):
                told = described(ClassWish, detail)
                name = str(told.loc[0]).removesuffix("_s") if told.loc else "class"
                at = next((f for f in (f"{name}_s", name) if f in self.said_in), None)
                asked = Ask(f"{name.replace('_', ' ')}: {told.expected or 'another value'}")
                if at is None:
                    self.whole.append(asked)
                else:
                    self.asks[self.said_in[at]] = asked
            return None

"""The exact models of every format, asked for the least harm, one figure after the other (C3).

What an earlier figure came to is held while the next one is made as small as it can be. Points
are never summed with people, so no weight can be too small or too large; people and cells
share one sum, in which a person weighs more than all cells together.
"""

from dataclasses import dataclass
from enum import Enum

from roundwright.optimise.changing.old_plan import changed_of, left_out_of
from roundwright.optimise.choice_model import FormatModel, JointAnswer
from roundwright.optimise.choice_value import Groups, work_rows
from roundwright.optimise.instance import Alternative
from roundwright.optimise.joint_model import JointModel
from roundwright.optimise.loose_rotation import LooseModel
from roundwright.optimise.rotation_model import RotationModel
from roundwright.optimise.solver import Work
from roundwright.plan.timeline import make_timeline, total_s


class Aim(Enum):
    """Which figure of the harm is made as small as it can be."""

    LEFT_OUT = "left out"
    OVERRUN = "overrun"
    DISTURBED = "people and cells"
    PRICE = "price"


@dataclass(frozen=True, slots=True)
class Held:
    """The most that other figures may come to; None: not looked at.

    `overrun_s` is of the slot, that of the plan before included; `disturbed` is people times the
    weight of a person (people times places, and one more) plus cells.
    """

    left_out: int | None = None
    overrun_s: int | None = None
    disturbed: int | None = None


class HarmModel(FormatModel):
    """What a model of a format needs to answer for harm."""

    def least(self, aim: Aim, held: Held, work: Work, seed: int) -> JointAnswer:
        """Make one figure as small as it can be while others are held."""
        self._alternatives(priced=aim is Aim.PRICE)
        self._limits()
        if aim is Aim.PRICE:
            self._versions()
            self._masses()
        self._harm_rows(aim, held)
        if aim is Aim.OVERRUN:
            self._time(None)
        elif held.overrun_s is not None:
            self._time(held.overrun_s)
        return self._answer(work, seed)

    def _harm_rows(self, aim: Aim, held: Held) -> None:
        model = self._model
        offers = [o for row in self._offers for options in row for o in options]
        left = [n for n, a in offers if left_out_of(a)]
        if aim is Aim.LEFT_OUT:
            for n in left:
                model.costs[n] = 1.0
        elif held.left_out is not None and left:
            model.row([(n, 1.0) for n in left], high=held.left_out)
        if aim is Aim.DISTURBED or held.disturbed is not None:
            self._disturbed(aim is Aim.DISTURBED, held.disturbed)

    def _disturbed(self, minimised: bool, most: int | None) -> None:
        model = self._model
        places = self._problem.spec.positions + 1
        weight = float(len(self._doses) * places + 1)
        terms: list[tuple[int, float]] = []
        for p in range(len(self._doses)):
            person: int | None = None
            for place in range(places):
                changed = [n for n, a in self.options(p, place) if changed_of(a)]
                if not changed:
                    continue
                if person is None:
                    person = model.add(cost=weight if minimised else 0.0, upper=1)
                    terms.append((person, weight))
                model.row([(person, 1.0), *((n, -1.0) for n in changed)], low=0)
                terms += [(n, 1.0) for n in changed]
                if minimised:
                    for n in changed:
                        model.costs[n] = 1.0
        if most is not None and terms:
            model.row(terms, high=most)


class HarmTogether(HarmModel, JointModel):
    """Together and in pairs, for given groups; a window in which everybody rests falls away."""

    def _time(self, overrun_at_most: int | None) -> None:
        instance, model = self._instance, self._model
        spec = instance.problem.spec
        alike: dict[tuple[int, bool, tuple[int, ...]], int] = {}
        for round_number, interval, people in work_rows(instance):
            key = (interval, instance.is_last(interval, round_number), people)
            alike[key] = alike.get(key, 0) + 1
        flips = self._flips()
        around_s = spec.change_s + (spec.partner_swap_s if self._groups.in_pairs else 0)
        lengths: list[tuple[int, float]] = []
        for (interval, last, people), times in alike.items():
            halves = [model.add() for _ in range(2 if self._groups.in_pairs else 1)]
            held = model.add(upper=1)
            lengths += [(half, float(times)) for half in halves]
            lengths.append((held, float(times * around_s)))
            for p in people:
                place = instance.place_in(p, interval)
                self._length_at_least(halves, p, place, last, flips)
                working = [(n, -1.0) for n, a in self.options(p, place) if a.works]
                model.row([(held, 1.0), *working], low=0)
        empty = total_s(make_timeline(spec, self._groups.format, spec.rounds, {}))
        allowed = spec.slot_s - empty
        if overrun_at_most is None:
            over = model.add(cost=1)
            model.row([(over, 1.0), *((n, -t) for n, t in lengths)], low=-float(allowed))
        else:
            model.row(lengths, high=allowed + overrun_at_most)


class HarmRotating(HarmModel, RotationModel):
    """Stations and staggered groups of one arrangement, over every way to group the people."""


class HarmLoose(HarmModel, LooseModel):
    """A relaxation that every arrangement obeys: a bound for all but the length."""

    def _alternatives(self, *, priced: bool) -> None:
        for p in range(len(self._doses)):
            offers = [
                self._offer(self._of_any_start(p, k), priced=priced)
                for k in range(self._rotating.positions + 1)
            ]
            for options in offers:
                self._model.row([(n, 1.0) for n, _ in options], low=1, high=1)
            self._offers.append(offers)

    def _of_any_start(self, person: int, place: int) -> tuple[Alternative, ...]:
        tables = self._rotating.by_role.values()
        return tuple(dict.fromkeys(a for table in tables for a in table[person][place]))

    def _limits(self) -> None:
        self._limits_of_people()
        self._kit()

    def _time(self, overrun_at_most: int | None) -> None:
        """Leave the length out: nobody is in a group here."""

    def _answer(self, work: Work, seed: int) -> JointAnswer:
        nobody = Groups((), in_pairs=False)
        solved = self._model.solve(work, seed)
        if not solved.values:
            return JointAnswer(solved.ended, None, nobody, solved.bound)
        return JointAnswer(solved.ended, (), nobody, solved.bound)

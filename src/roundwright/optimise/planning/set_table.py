"""The choice of a set of exercises as arrays: what each asks of people, kit and rules.

A `SetTable` holds no library and no people, only integers, so that it can be made
from a planning problem (`set_table_of.py`) or drawn by a generator. The order of the
exercises is not in it (`order.py`).
"""

from dataclasses import dataclass
from functools import cached_property


@dataclass(frozen=True, slots=True)
class Way:
    """One way for one person to do one exercise: an option without its wording.

    Parameters
    ----------
    price : int
        Points of the person's own (version and load), versions in the room apart.
    mass_g : int
        Mass of one dumbbell, 0 when none is held.
    contacts, low_hops : int
        Landings and low hops over the whole class.
    kit : tuple of (kit number, units)
        What is in use while the exercise is done; kit numbers index `SetTable.kit_counts`.
    versions : tuple of int
        Which versions the room sees, numbered within the exercise; empty for a
        substitute and for sitting out.
    seconds, last_seconds : int
        Length of the work in one round, and in the last round of the class.
    """

    price: int
    mass_g: int = 0
    contacts: int = 0
    low_hops: int = 0
    kit: tuple[tuple[int, int], ...] = ()
    versions: tuple[int, ...] = (0,)
    seconds: int = 0
    last_seconds: int = 0


Ways = tuple[Way, ...]
NOTHING = Way(price=0, versions=())
"""What someone without a burst does in the burst."""


@dataclass(frozen=True, slots=True)
class SetRules:
    """What a set must hold; exercises are numbers.

    Parameters
    ----------
    places : int
        How many exercises are chosen, the kept ones included.
    kept : frozenset of int
        Exercises that are in every set.
    most_of_a_pattern, most_of_a_line, most_jumping, most_combinations, most_accessories,
    least_loaded : int
        Counts over the set. What the kept exercises break alone is
        lifted (`SetTable.most_held_against`).
    needs : tuple of frozenset of int
        From each of these at least one exercise is chosen; where the kept ones leave too few
        places for that, from as many as there are places.
    besides : tuple of frozenset of int
        Sets already shown, of as many exercises as there are places; what is not in the
        table is left out of them.
    others : int
        In so many exercises a set differs from each of them.
    """

    places: int
    most_of_a_pattern: int = 2
    most_jumping: int = 2
    most_combinations: int = 2
    most_accessories: int = 1
    most_of_a_line: int = 2
    least_loaded: int = 0
    needs: tuple[frozenset[int], ...] = ()
    besides: tuple[frozenset[int], ...] = ()
    others: int = 1
    kept: frozenset[int] = frozenset()

    @property
    def most_shown_again(self) -> int:
        """How many exercises of a set already shown another may hold."""
        return max(0, self.places - self.others)


@dataclass(frozen=True, slots=True)
class SetPrices:
    """The prices that a set or a person's whole class decides."""

    push_pull: int = 6
    knee_hip: int = 6
    third_mass: int = 15
    further_version: int = 10
    crowded_version: int = 30
    most_versions: int = 3


@dataclass(frozen=True, slots=True)
class Minutes:
    """What the minutes cost that a set leaves of the slot, or takes from clearing up (P8).

    Parameters
    ----------
    seconds : tuple of int
        By exercise: what it usually takes of the class, all rounds together.
    free_s : int
        What there is for that.
    spare_s : int
        What may be left for nothing.
    unused, hurried : int
        Points of a whole minute left above that, and of a begun minute missing.
    """

    seconds: tuple[int, ...]
    free_s: int
    spare_s: int
    unused: int
    hurried: int

    def price(self, chosen: frozenset[int]) -> int:
        """Give the points of a set."""
        left_s = self.free_s - sum(self.seconds[e] for e in chosen)
        whole = max(0, left_s - self.spare_s) // 60
        return self.unused * whole + self.hurried * -(min(0, left_s) // 60)

    def rows(self) -> tuple[tuple[tuple[int, ...], int, int], ...]:
        """Give (values, least, price): 60 × minutes + Σ values ≥ least, for each price."""
        return (
            (self.seconds, self.free_s - self.spare_s - 59, self.unused),
            (tuple(-s for s in self.seconds), -self.free_s, self.hurried),
        )


@dataclass(frozen=True)
class SetTable:
    """Everything that decides which set of exercises is best, order apart.

    Price of a set = `fixed_price` + Σ over its exercises of `own_price` and of the
    versions in the room, + Σ of the chosen ways (burst included), + `third_mass` for each
    mass beyond two a person uses, + `push_pull` × |balance|, + `knee_hip` × |balance|.
    Each chosen way's kit, summed over the people of one exercise, stays within
    `kit_counts` × `kit_factor`; in the burst within `kit_counts`.

    Parameters
    ----------
    people, exercises : tuple of str
        Names, for reports only; everything else goes by number.
    alternatives : tuple
        `alternatives[e][p]`: the ways of person p to do exercise e; empty: e is impossible.
    kit_counts : tuple of int
        Units of each kit number.
    contact_limits, low_hop_limits : tuple of int
        By person, over the class with the burst.
    pattern, line : tuple of int
        Main pattern and main line of each exercise, numbered: lines of a set are all different.
    versions : tuple of frozenset of int
        Versions of each exercise's main line, numbered: none is in a set twice. Empty: the
        lines have none in common.
    parts : tuple of frozenset of int
        Every line that an exercise has parts of, numbered. Empty: none comes twice.
    accessory : tuple of bool
        By exercise; empty: none is one.
    jumping, loaded, combination : tuple of bool
        By exercise.
    push_pull, knee_hip : tuple of int
        By exercise: 1 for push (knee), -1 for pull (hip), else 0.
    own_price : tuple of int
        By exercise: recent use, muscles not fresh, a combination.
    burst : tuple
        `burst[p]`: the ways of person p to do the burst.
    push_pull_before, knee_hip_before : int
        Balance of the classes before.
    kit_factor : int
        How often the kit counts at one exercise over the windows of a round: 1 all
        together, 2 in pairs, the number of groups where groups take turns.
    fixed_price : int
        What every set costs besides.
    minutes : Minutes or None
        What the minutes left cost; None: nothing.
    least_seconds : tuple of int
        By exercise: what it takes of the class at least, all rounds together, s.
    seconds_left : int or None
        What there is for that, s; None: time does not matter.
    """

    people: tuple[str, ...]
    exercises: tuple[str, ...]
    alternatives: tuple[tuple[Ways, ...], ...]
    kit_counts: tuple[int, ...]
    contact_limits: tuple[int, ...]
    low_hop_limits: tuple[int, ...]
    pattern: tuple[int, ...]
    line: tuple[int, ...]
    jumping: tuple[bool, ...]
    loaded: tuple[bool, ...]
    combination: tuple[bool, ...]
    push_pull: tuple[int, ...]
    knee_hip: tuple[int, ...]
    own_price: tuple[int, ...]
    rules: SetRules
    versions: tuple[frozenset[int], ...] = ()
    parts: tuple[frozenset[int], ...] = ()
    accessory: tuple[bool, ...] = ()
    prices: SetPrices = SetPrices()
    burst: tuple[Ways, ...] = ()
    push_pull_before: int = 0
    knee_hip_before: int = 0
    kit_factor: int = 1
    fixed_price: int = 0
    minutes: Minutes | None = None
    least_seconds: tuple[int, ...] = ()
    seconds_left: int | None = None

    @cached_property
    def bursts(self) -> tuple[Ways, ...]:
        """Each person's ways to do the burst: nothing where the table has none."""
        return self.burst or tuple((NOTHING,) for _ in self.people)

    @cached_property
    def usable(self) -> tuple[int, ...]:
        """Exercises for which everyone has a way."""
        return tuple(
            e for e in range(len(self.exercises)) if all(ways for ways in self.alternatives[e])
        )

    def set_price(self, chosen: frozenset[int]) -> int:
        """Give what a set costs as a set: balance and the exercises' own prices."""
        push_pull = self.push_pull_before + sum(self.push_pull[e] for e in chosen)
        knee_hip = self.knee_hip_before + sum(self.knee_hip[e] for e in chosen)
        return (
            self.fixed_price
            + self.prices.push_pull * abs(push_pull)
            + self.prices.knee_hip * abs(knee_hip)
            + sum(self.own_price[e] for e in chosen)
            + (self.minutes.price(chosen) if self.minutes else 0)
        )

    def versions_price(self, versions: int) -> int:
        """Give the price of so many versions of one exercise in the room."""
        prices = self.prices
        return prices.further_version * max(0, versions - 1) + prices.crowded_version * max(
            0, versions - prices.most_versions
        )

    def holds(self, chosen: frozenset[int]) -> bool:
        """Say whether a set holds every rule."""
        rules, most = self.rules, self.most_held_against
        patterns = [self.pattern[e] for e in chosen]
        return (
            len(chosen) == rules.places
            and rules.kept <= chosen
            and all(len(chosen & some) < 2 or chosen & some <= rules.kept for some in self.apart)
            and all(patterns.count(k) <= most["pattern", k] for k in set(patterns))
            and sum(self.jumping[e] for e in chosen) <= most["jumping", 0]
            and sum(self.combination[e] for e in chosen) <= most["combination", 0]
            and all(
                len(chosen & some) <= most["line", line] for line, some in self.of_a_line.items()
            )
            and len(chosen & self.accessories) <= most["accessory", 0]
            and sum(self.loaded[e] for e in chosen) >= most["loaded", 0]
            and sum(not need & chosen for need in rules.needs) <= self.may_miss
            and all(len(chosen & shown) <= rules.most_shown_again for shown in rules.besides)
        )

    @cached_property
    def apart(self) -> tuple[frozenset[int], ...]:
        """Give the exercises of which a set has one at most: of one line, with a common version."""
        held: dict[tuple[bool, int], set[int]] = {}
        for e, line in enumerate(self.line):
            held.setdefault((False, line), set()).add(e)
        for e, versions in enumerate(self.versions):
            for version in versions:
                held.setdefault((True, version), set()).add(e)
        groups = {frozenset(some) for some in held.values() if len(some) > 1}
        widest = [some for some in groups if not any(some < other for other in groups)]
        return tuple(sorted(widest, key=sorted))

    @cached_property
    def of_a_line(self) -> dict[int, frozenset[int]]:
        """Give the exercises that hold a line, for each line that too many could hold."""
        held: dict[int, set[int]] = {}
        for e, lines in enumerate(self.parts):
            for line in lines:
                held.setdefault(line, set()).add(e)
        most = self.rules.most_of_a_line
        return {line: frozenset(held[line]) for line in sorted(held) if len(held[line]) > most}

    @cached_property
    def accessories(self) -> frozenset[int]:
        """Give the exercises that are accessories."""
        return frozenset(e for e, accessory in enumerate(self.accessory) if accessory)

    @cached_property
    def may_miss(self) -> int:
        """How many of the needs the kept exercises leave no place for."""
        rules = self.rules
        missing = sum(not need & rules.kept for need in rules.needs)
        return max(0, missing - (rules.places - len(rules.kept)))

    @cached_property
    def most_held_against(self) -> dict[tuple[str, int], int]:
        """Give the limits after lifting what the kept exercises alone break."""
        rules, kept = self.rules, self.rules.kept
        limits = {
            ("jumping", 0): max(rules.most_jumping, sum(self.jumping[e] for e in kept)),
            ("combination", 0): max(
                rules.most_combinations, sum(self.combination[e] for e in kept)
            ),
            ("accessory", 0): max(rules.most_accessories, len(kept & self.accessories)),
            ("loaded", 0): min(
                rules.least_loaded,
                sum(self.loaded[e] for e in kept) + rules.places - len(kept),
            ),
        }
        for line, some in self.of_a_line.items():
            limits["line", line] = max(rules.most_of_a_line, len(kept & some))
        for k in set(self.pattern):
            mine = sum(self.pattern[e] == k for e in kept)
            limits["pattern", k] = max(rules.most_of_a_pattern, mine)
        return limits

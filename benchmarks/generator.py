"""Seeded set tables of any size: what a large library asks of a large group.

Everything comes from (seed, size). The shape follows the definition pages: versions with
prices above and below a person's level, loads short of a target, several versions in a
room, a third mass, contacts. The rates are our choice and stand in `RATES`; they are
chosen so that the rack is short, everybody differs, and many tables need cuts.
"""

from dataclasses import dataclass

import numpy as np

from roundwright.foundation.seeds import generator
from roundwright.optimise.planning.set_table import SetPrices, SetRules, SetTable, Way

Size = tuple[int, int, int]
SIZES: tuple[Size, ...] = ((150, 24, 6), (250, 40, 7), (400, 60, 8))
"""Exercises, people, places."""

RATES = {
    "loaded exercise": 0.6,
    "jumping version at the end of a line": 0.12,
    "combination": 0.15,
    "two units of a mass": 0.65,
    "bench or box": 0.25,
    "person with a limitation": 0.4,
    "version against a limitation": 0.35,
    "newcomer (no landings)": 0.2,
    "exercise used lately": 0.12,
    "person in a class of the last two days": 0.35,
    "main muscle worked in that class": 0.33,
    "dumbbell places a person": 0.75,
    "other items a person": 0.5,
}
MASSES_G = (2000, 3000, 4000, 5000, 6000, 8000, 10_000, 12_000, 14_000, 16_000)
MASS_SHARES = (0.12, 0.12, 0.14, 0.14, 0.14, 0.12, 0.1, 0.06, 0.04, 0.02)
ITEMS = ("bench", "box", "mat", "band")
PATTERN_SHARES = (0.05,) * 10 + (0.1,) + (0.05,) * 5 + (0.075, 0.075)
"""By pattern; the one of the hip is twice as frequent as others, since a set needs one."""
PUSH, PULL, KNEE, HIP, TRUNK = (0, 1, 2), (3, 4, 5), (6, 7, 8, 9), (10,), (11, 12, 13, 14, 15)
MUSCLES = 19
SUBSTITUTE = 120
"""Price of a stand-in exercise, as in the cost table."""


@dataclass(frozen=True)
class _Person:
    level: int
    strength: float
    is_limited: bool
    contact_limit: int


@dataclass(frozen=True)
class _Version:
    level: int
    units: int
    item: int | None
    contacts: int
    forbidden: frozenset[int]


def _people(rng: np.random.Generator, number: int) -> list[_Person]:
    people = []
    for _ in range(number):
        newcomer = rng.random() < RATES["newcomer (no landings)"]
        people.append(
            _Person(
                level=1 if newcomer else int(rng.choice((2, 2, 3, 3, 4))),
                strength=float(np.exp(rng.normal(0.0, 0.35))) * (0.7 if newcomer else 1.0),
                is_limited=bool(rng.random() < RATES["person with a limitation"]),
                contact_limit=0 if newcomer else int(rng.choice((20, 40, 60))),
            )
        )
    return people


def _versions(rng: np.random.Generator, loaded: bool, limited: list[int]) -> list[_Version]:
    number = int(rng.integers(2, 5))
    first = int(rng.choice((1, 1, 2)))
    steps = rng.choice((0, 1, 1), size=number - 1)
    levels = [min(4, first + int(sum(steps[:i]))) for i in range(number)]
    first_loaded = int(rng.integers(0, 2)) if loaded else number
    units = 2 if rng.random() < RATES["two units of a mass"] else 1
    jumps = rng.random() < RATES["jumping version at the end of a line"]
    made = []
    for i, level in enumerate(levels):
        against = rng.random(len(limited)) < RATES["version against a limitation"] * (i + 1) / 2
        last = i == number - 1
        made.append(
            _Version(
                level=level,
                units=units if i >= first_loaded else 0,
                item=int(rng.integers(len(ITEMS)))
                if rng.random() < RATES["bench or box"]
                else None,
                contacts=8 if jumps and last else 0,
                forbidden=frozenset(p for p, hit in zip(limited, against, strict=True) if hit),
            )
        )
    return made


def _ways(
    person: _Person, number: int, versions: list[_Version], heavy: float, rounds: int
) -> tuple[Way, ...]:
    """Make a person's ways: each allowed version with each mass up to the target."""
    ways: list[Way] = []
    for v, version in enumerate(versions):
        contacts = version.contacts * rounds
        if version.level > person.level + 1 or number in version.forbidden:
            continue
        if contacts > person.contact_limit:
            continue
        step = version.level - person.level
        price = 20 * step if step > 0 else -8 * step
        item = () if version.item is None else ((len(MASSES_G) + version.item, 1),)
        if version.units == 0:
            ways.append(Way(price=price, contacts=contacts, kit=item, versions=(v,), seconds=30))
            continue
        aim_g = 1000 * 7.0 * heavy * person.strength * (2 if version.units == 1 else 1)
        masses = [m for m in MASSES_G if m <= aim_g] or [MASSES_G[0]]
        target = masses[-1]
        for mass in masses:
            ways.append(
                Way(
                    price=price + round(40 * (target - mass) / target),
                    mass_g=mass,
                    contacts=contacts,
                    kit=((MASSES_G.index(mass), version.units), *item),
                    versions=(v,),
                    seconds=30,
                )
            )
    if not ways:
        ways.append(Way(price=SUBSTITUTE, versions=(), seconds=30))
    return tuple(ways)


def _kit(people: int) -> tuple[int, ...]:
    """Count the rack (whole pairs) and the items by the number of people."""
    pairs = RATES["dumbbell places a person"] * people
    rack = [2 * max(1, round(share * pairs)) for share in MASS_SHARES]
    items = [max(1, round(RATES["other items a person"] * people))] * len(ITEMS)
    return tuple(rack + items)


def a_set_table(size: Size, seed: int, rounds: int = 2) -> SetTable:
    """Draw a table of (exercises, people, places)."""
    number, crowd, places = size
    rng = generator(seed, f"set table {number} {crowd} {places}")
    people = _people(rng, crowd)
    limited = [p for p, person in enumerate(people) if person.is_limited]
    patterns = [int(k) for k in rng.choice(len(PATTERN_SHARES), number, p=PATTERN_SHARES)]
    is_loaded = [bool(x) for x in rng.random(number) < RATES["loaded exercise"]]
    exercises = [_versions(rng, loaded, limited) for loaded in is_loaded]
    heavy = np.exp(rng.normal(0.0, 0.4, size=number))
    combination = [bool(x) for x in rng.random(number) < RATES["combination"]]
    tired = int(rng.binomial(crowd, RATES["person in a class of the last two days"]))
    worked = rng.random(MUSCLES) < RATES["main muscle worked in that class"]
    lately = [tired * bool(worked[k]) for k in rng.integers(MUSCLES, size=number)]
    used = [bool(x) for x in rng.random(number) < RATES["exercise used lately"]]
    needs = [
        frozenset(e for e in range(number) if patterns[e] in group)
        for group in (KNEE, HIP, PUSH, PULL, *((TRUNK,) if places >= 5 else ()))
    ]
    return SetTable(
        people=tuple(f"p{p + 1:03d}" for p in range(crowd)),
        exercises=tuple(f"e{e + 1:03d}" for e in range(number)),
        alternatives=tuple(
            tuple(
                _ways(person, p, exercises[e], float(heavy[e]), rounds)
                for p, person in enumerate(people)
            )
            for e in range(number)
        ),
        kit_counts=_kit(crowd),
        contact_limits=tuple(person.contact_limit for person in people),
        low_hop_limits=(0,) * crowd,
        pattern=tuple(patterns),
        line=tuple(int(k) for k in rng.integers(round(0.6 * number), size=number)),
        jumping=tuple(any(v.contacts for v in exercises[e]) for e in range(number)),
        loaded=tuple(any(v.units for v in exercises[e]) for e in range(number)),
        combination=tuple(combination),
        push_pull=tuple((k in PUSH) - (k in PULL) for k in patterns),
        knee_hip=tuple((k in KNEE) - (k in HIP) for k in patterns),
        own_price=tuple(3 * lately[e] + 8 * used[e] + 4 * combination[e] for e in range(number)),
        rules=SetRules(places=places, least_loaded=-(-places // 2), needs=tuple(needs)),
        prices=SetPrices(),
    )

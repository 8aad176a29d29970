"""How counts, loads, times and lists are said on a sheet."""

from collections.abc import Mapping, Sequence
from datetime import date, time

from roundwright.foundation import shown
from roundwright.foundation.words import listed, say
from roundwright.goals.class_wish import Count, CountUnit
from roundwright.kit.inventory import Inventory, KitItem

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
COUNT_WORDS = {
    CountUnit.REPS: "{n} reps",
    CountUnit.REPS_PER_SIDE: "{n} a side",
    CountUnit.REPS_ALTERNATING: "{n} alternating",
    CountUnit.SECONDS: "{n} s",
    CountUnit.SECONDS_PER_SIDE: "{n} s a side",
}
"""How each count is said."""


def day_words(on: date) -> str:
    """Say a date with its weekday.

    Examples
    --------
    >>> day_words(date(2026, 3, 3))
    'Tuesday 3 March 2026'
    """
    return say(
        "{weekday} {day} {month} {year}",
        weekday=say(WEEKDAYS[on.weekday()]),
        day=on.day,
        month=say(MONTHS[on.month - 1]),
        year=on.year,
    )


def wall_clock(start: time, at_s: int, *, with_seconds: bool = True) -> str:
    """Give the wall clock at some seconds after a local start; without seconds it rounds up.

    Examples
    --------
    >>> wall_clock(time(18, 0), 2505), wall_clock(time(18, 0), 2505, with_seconds=False)
    ('18:41:45', '18:42')
    """
    total = start.hour * 3600 + start.minute * 60 + start.second + at_s
    if not with_seconds:
        total = -(-total // 60) * 60
    hours, rest = divmod(total % 86_400, 3600)
    minutes, seconds = divmod(rest, 60)
    return f"{hours:02d}:{minutes:02d}" + (f":{seconds:02d}" if with_seconds else "")


def length_words(seconds: int) -> str:
    """Say a planned length: whole minutes as minutes, else seconds or m:ss.

    Examples
    --------
    >>> length_words(300), length_words(45), length_words(96)
    ('5 min', '45 s', '1:36')
    """
    if seconds and seconds % 60 == 0:
        return f"{seconds // 60} min"
    return f"{seconds} s" if seconds < 60 else shown.clock(seconds)


def count_words(count: Count, *, short: bool = False) -> str:
    """Say a count; `short` leaves out the word reps.

    Examples
    --------
    >>> count_words(Count(value=12, unit=CountUnit.REPS_PER_SIDE))
    '12 a side'
    """
    if short and count.unit is CountUnit.REPS:
        return str(count.value)
    return say(COUNT_WORDS[count.unit], n=count.value)


def rounds_words(rounds: Sequence[int]) -> str:
    """Say which rounds.

    Examples
    --------
    >>> rounds_words([1]), rounds_words([1, 2]), rounds_words([1, 2, 3])
    ('round 1', 'rounds 1 and 2', 'rounds 1 to 3')
    """
    if len(rounds) == 1:
        return say("round {n}", n=rounds[0])
    if len(rounds) > 2 and list(rounds) == list(range(rounds[0], rounds[-1] + 1)):
        return say("rounds {first} to {last}", first=rounds[0], last=rounds[-1])
    return say("rounds {numbers}", numbers=listed(str(r) for r in rounds))


def mass_label(unit_mass_g: int, kit: Inventory, units: str) -> str:
    """Say one dumbbell's mass, in the coach's own wording where there is one."""
    labels = {d.unit_mass_g: d.label for d in kit.dumbbells if d.label}
    return labels.get(unit_mass_g) or shown.mass(unit_mass_g, units)


def load_words(held: int, unit_mass_g: int, labels: Mapping[int, str], unit: str) -> str:
    """Say a load as 'pair 8', 'one 8' or 'no load'; the sheet names the unit once.

    Parameters
    ----------
    held : int
        How many dumbbells: 0, 1 or 2.
    unit_mass_g : int
        Mass of one of them, g.
    labels : mapping of int to str
        Mass to its wording, as `mass_label` gives it.
    unit : str
        The unit that the sheet names once; it is left out here.
    """
    if not held or not unit_mass_g:
        return no_load()
    mass = labels[unit_mass_g].removesuffix(unit).strip()
    return say("one {mass}", mass=mass) if held == 1 else say("pair {mass}", mass=mass)


def no_load() -> str:
    """Say that nothing is held."""
    return say("no load")


def item_words(item: KitItem) -> str:
    """Say a kit item: its label, said where it is the kind's own word, else kind and height."""
    if item.label:
        return say(item.label) if item.label == item.kind.value else item.label
    kind = say(item.kind.value)
    return f"{kind} {item.height // 10} cm" if item.height else kind

"""Phrases about the class as a whole: day, time, rounds, work and rest, format, how hard."""

import re
from collections.abc import Callable
from datetime import date

from roundwright.goals.class_wish import (
    MOST_GROUPS,
    MOST_REPS_LEFT,
    AfterLastRound,
    ClassFormat,
    Pace,
    WorkRestWish,
)
from roundwright.goals.quick_entry.names import Around
from roundwright.goals.quick_entry.plain_numbers import (
    DATE,
    DAYS,
    DURATION,
    NUMBER,
    TIME,
    date_of,
    date_words,
    duration_words,
    number_of,
    seconds_of,
    time_of,
)
from roundwright.goals.quick_entry.results import Ask, Fact, Heard

SHORTEST_SLOT_S = 600
"""A bare duration from here on is the slot; a shorter one is asked about (our choice)."""
ANY_ROUNDS = (3, 2, 4)
"""What 'any number of rounds' stands for; common practice, no source."""

_LENGTH = rf"(?:{DURATION}|{NUMBER})"
_BARE = re.compile(NUMBER)


def _fact(says: str, **sets: object) -> Fact:
    return Fact(says=says, sets=tuple(sets.items()))


def _day(found: re.Match[str], _: Around) -> Heard:
    day, start = found["day"], found["time"]
    sets: dict[str, object] = {} if day is None else {"weekday": day}
    words = [] if day is None else [day.capitalize()]
    if found["date"] is not None:
        on = date_of(found["date"])
        if on is None:
            return Ask(f"a day that there is; {found['date']} is none")
        if day is not None and DAYS[on.weekday()] != day:
            is_on = DAYS[on.weekday()].capitalize()
            return Ask(
                f"which day: {date_words(on)} is a {is_on}", (date_words(on), day.capitalize())
            )
        sets, words = {"on": on}, [date_words(on)]
    if start is not None:
        at = time_of(start)
        if at is None:
            return Ask("a time of day that there is, such as 18:30")
        sets["start"] = at
        words.append(f"{at:%H:%M}")
    return _fact(", ".join(words), **sets)


def _slot(found: re.Match[str], _: Around) -> Heard:
    seconds = seconds_of(found["d"])
    if found["said"] is None and seconds < SHORTEST_SLOT_S:
        words = duration_words(seconds)
        return Ask("what lasts so long", (f"rest {words}", f"work {words}", f"lasts {words}"))
    return _fact(f"lasts {duration_words(seconds)}", slot_s=seconds)


def _rounds(found: re.Match[str], _: Around) -> Heard:
    said = found["n"]
    if said.startswith("any"):
        return _fact(rounds_words(ANY_ROUNDS), rounds=ANY_ROUNDS[0], rounds_choice=ANY_ROUNDS[1:])
    ends = [number_of(n) for n in re.findall(NUMBER, said)]
    if " to " in said:
        ends = list(range(ends[0], ends[1] + 1)) if ends[1] - ends[0] < 7 else []
    if not ends or len(set(ends)) < len(ends):
        return Ask("how many rounds, such as '3 rounds' or '2 to 4 rounds'")
    return _fact(rounds_words(tuple(ends)), rounds=ends[0], rounds_choice=tuple(ends[1:]))


def _work_rest(found: re.Match[str], _: Around) -> Heard:
    work, rest = _seconds(found["w"]), None if found["r"] is None else _seconds(found["r"])
    says = f"work {duration_words(work)}"
    if rest is None:
        return _fact(says, pace=Pace.TIMED, work_s=work)
    says += f" change {duration_words(rest)}"
    return _fact(says, pace=Pace.TIMED, work_s=work, change_s=rest)


def _seconds(text: str) -> int:
    """Read a duration; a bare number is seconds."""
    return number_of(text) if _BARE.fullmatch(text) else seconds_of(text)


def _length(field: str, words: str, *, in_seconds: bool) -> Callable[..., Heard]:
    def heard(found: re.Match[str], _: Around) -> Heard:
        said = next(d for d in (found["d"], found["e"]) if d is not None)
        if _BARE.fullmatch(said) and not in_seconds:
            n = number_of(said)
            return Ask("minutes or seconds", (f"{words} {n} min", f"{words} {n} s"))
        seconds = _seconds(said)
        return _fact(f"{words} {duration_words(seconds)}", **{field: seconds})

    return heard


def _named_length(names: str, *, tail: str = "") -> str:
    """Give a pattern for 'rest 60 s' as well as '60 s rest'."""
    return (
        rf"(?:(?:{names})(?: of| for| takes)?:? (?P<d>{_LENGTH})"
        rf"|(?P<e>{DURATION}) (?:of |for |to )?(?:the )?(?:{names})){tail}"
    )


def _said(says: str, **sets: object) -> Callable[..., Heard]:
    def heard(_: re.Match[str], __: Around) -> Heard:
        return _fact(says, **sets)

    return heard


def _groups(found: re.Match[str], _: Around) -> Heard:
    number = number_of(found["n"])
    if not 2 <= number <= MOST_GROUPS:
        return Ask(f"how many groups, 2 to {MOST_GROUPS}")
    staggered = {} if found["kind"] is None else {"format": ClassFormat.STAGGERED}
    return _fact(f"{number} groups", groups=number, **staggered)


def _coaches(found: re.Match[str], _: Around) -> Heard:
    number = number_of(found["n"])
    return _fact("1 coach" if number == 1 else f"{number} coaches", coaches=number)


def _places(found: re.Match[str], _: Around) -> Heard:
    number = number_of(found["n"])
    return _fact(f"{number} exercises a round", places=number)


def _chance(found: re.Match[str], _: Around) -> Heard:
    number = number_of(found["n"])
    if number < 1 or number > 99:
        return Ask("a chance from 1 to 99 in 100")
    return _fact(f"{number} times in 100 on time", chance_on_time_pct=number)


def _chance_tenths(found: re.Match[str], _: Around) -> Heard:
    number = 10 * number_of(found["n"])
    if number < 1 or number > 99:
        return Ask("a chance from 1 to 9 in 10")
    return _fact(f"{number} times in 100 on time", chance_on_time_pct=number)


def _left(found: re.Match[str], _: Around) -> Heard:
    number = number_of(found["n"])
    if number > MOST_REPS_LEFT:
        return Ask(f"how many reps are left at the end of a set, 0 to {MOST_REPS_LEFT}")
    return _fact(f"leave {number}", reps_left=number)


def _room(found: re.Match[str], around: Around) -> Heard:
    said = found["x"]
    room = around.room_named(said) or around.room_named(said.removesuffix(" room"))
    if room is None:
        is_marked = found["mark"] is not None and found["mark"].startswith("room")
        names = tuple(around.rooms.values())
        return Ask("which room", names[:6]) if is_marked else None
    return _fact(f"in {around.rooms[room]}", room=room)


_IN_ORDER = r"(?:in )?(?:the |this )?(?:given )?order(?: (?:as )?given)?"
_AFTER_LAST = {
    "nothing": AfterLastRound.NOTHING,
    "burst": AfterLastRound.BURST,
    "the burst": AfterLastRound.BURST,
    "burst and rest": AfterLastRound.BURST_AND_REST,
}
_ROUND_END = r"(?: (?:after|between)(?: each| every| the)? rounds?)?"

_PHRASES: tuple[tuple[str, Callable[..., Heard]], ...] = (
    (
        rf"(?:on |every )?(?:(?P<day>{'|'.join(DAYS)})s?)?(?:(?: the|^the|^)? ?(?P<date>{DATE}))?"
        rf"(?:(?:^| )(?:at |starts? at |starting at |starts |from )?(?P<time>{TIME}))?",
        _day,
    ),
    (rf"(?P<said>slot|lasts|length|class of|a class of|in all)?:? ?(?P<d>{DURATION})", _slot),
    (
        rf"(?P<n>{NUMBER}(?: or {NUMBER}){{0,6}}|{NUMBER} to {NUMBER}|any number of|any) rounds?",
        _rounds,
    ),
    (
        rf"work(?: for)?:? (?P<w>{_LENGTH})"
        rf"(?:(?: and)? (?:rest|change)(?: for)?:? (?P<r>{_LENGTH}))?",
        _work_rest,
    ),
    (rf"(?P<w>{_LENGTH}) on(?: and)? (?P<r>{_LENGTH}) off", _work_rest),
    (rf"(?P<w>{_LENGTH}) work(?:(?: and)? (?P<r>{_LENGTH}) (?:rest|change))?", _work_rest),
    (
        _named_length("side change|change sides|change of sides|changing sides"),
        _length("side_change_s", "side change", in_seconds=True),
    ),
    (
        _named_length("partner swap|partner change|swap partners"),
        _length("partner_swap_s", "partner swap", in_seconds=True),
    ),
    (
        _named_length("change(?: ?over)?", tail="(?: after (?:each|every) exercise)?"),
        _length("change_s", "change", in_seconds=True),
    ),
    (
        _named_length("rest(?:s)?(?: between rounds| after each round)?", tail=_ROUND_END),
        _length("rest_s", "rest", in_seconds=True),
    ),
    (_named_length("warm ?up"), _length("warm_up_s", "warm-up", in_seconds=False)),
    (
        _named_length("demonstrations?|demo"),
        _length("demonstration_s", "demonstration", in_seconds=False),
    ),
    (_named_length("cool ?down"), _length("cool_down_s", "cool-down", in_seconds=False)),
    (r"(?:in |as )?pairs|you go i go", _said("in pairs", format=ClassFormat.PAIRS)),
    (r"(?:all |everybody |everyone )together", _said("all together", format=ClassFormat.TOGETHER)),
    (r"(?:at |in |as )?stations", _said("stations", format=ClassFormat.STATIONS)),
    (
        r"(?:in )?staggered(?: groups)?|(?:in )?groups",
        _said("staggered groups", format=ClassFormat.STAGGERED),
    ),
    (rf"(?:in )?(?P<n>{NUMBER}) (?P<kind>staggered )?groups", _groups),
    (r"any format|in any format", _said("any format", format=ClassFormat.ANY)),
    (rf"(?:with )?(?P<n>{NUMBER}|a) coach(?:es)?", _coaches),
    (rf"(?P<n>{NUMBER}) (?:exercises|places)(?: (?:a|each|per) round)?", _places),
    (r"(?:in )?any order", _said("any order", order="free")),
    (_IN_ORDER, _said("in this order", order="as_given")),
    (
        r"(?:the )?work and rest as (?:it )?fits",
        _said("work and rest as fits", work_rest=WorkRestWish.ANY),
    ),
    (
        r"(?:the )?work and rest for heavier loads",
        _said("work and rest for heavier loads", work_rest=WorkRestWish.HEAVIER),
    ),
    (
        rf"after (?:the )?last round:? (?P<x>{'|'.join(_AFTER_LAST)})",
        lambda f, _: _after_last(f["x"]),
    ),
    (rf"(?P<n>{NUMBER}) (?:times )?(?:in|of|out of) (?:100|a hundred) on time", _chance),
    (rf"(?P<n>{NUMBER}) ?(?:%|per cent|percent) on time", _chance),
    (rf"(?P<n>{NUMBER}) (?:times )?(?:in|of|out of) (?:10|ten) on time", _chance_tenths),
    (
        rf"(?:leave|leaving|stop with)(?: about)? (?P<n>{NUMBER})"
        r"(?: (?:reps? )?(?:left|in reserve|or more left))?",
        _left,
    ),
    (rf"(?:with )?(?P<n>{NUMBER}) (?:reps? )?(?:left|in reserve)", _left),
    (r"no burst|without (?:a )?burst", _said("no burst", burst=None)),
    (r"(?P<mark>in the |in |room:? |the )?(?P<x>.{1,80})", _room),
)
_COMPILED = tuple((re.compile(pattern), heard) for pattern, heard in _PHRASES)


def _after_last(said: str) -> Heard:
    after = _AFTER_LAST[said]
    return _fact(f"after the last round {said.removeprefix('the ')}", after_last_round=after)


def class_phrase(text: str, around: Around) -> Heard:
    """Hear a phrase about the class as a whole.

    Parameters
    ----------
    text : str
        One piece, in small letters, hyphens as blanks.
    around : Around
        Rooms that may be named.
    """
    if not text:
        return None
    for pattern, heard in _COMPILED:
        found = pattern.fullmatch(text)
        said = None if found is None else heard(found, around)
        if said is not None:
            return said
    return None


def day_names(on: date | None, weekday: str | None) -> str:
    """Give the day of a class in words that are heard again."""
    return date_words(on) if on is not None else (weekday or "").capitalize()


def rounds_words(rounds: tuple[int, ...]) -> str:
    """Write how many rounds, the asked number first.

    Examples
    --------
    >>> rounds_words((1,)), rounds_words((3, 2))
    ('1 round', '3 or 2 rounds')
    """
    return " or ".join(map(str, rounds)) + (" round" if rounds == (1,) else " rounds")

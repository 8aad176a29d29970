"""A class wish in plain words, which `quick_entry` reads back as the same wish."""

from collections.abc import Mapping

from roundwright.goals.class_wish import AfterLastRound, ClassFormat, ClassWish, Pace, WorkRestWish
from roundwright.goals.quick_entry.burst_phrase import burst_words
from roundwright.goals.quick_entry.class_phrases import day_names, rounds_words
from roundwright.goals.quick_entry.exercise_phrases import exercise_words
from roundwright.goals.quick_entry.names import Around
from roundwright.goals.quick_entry.people_phrases import ban_words, keep_words, people_words
from roundwright.goals.quick_entry.pieces import USUAL
from roundwright.goals.quick_entry.plain_numbers import duration_words
from roundwright.library.combination import Combination

_FORMATS = {
    ClassFormat.TOGETHER: "all together",
    ClassFormat.PAIRS: "in pairs",
    ClassFormat.STATIONS: "stations",
    ClassFormat.STAGGERED: "staggered groups",
    ClassFormat.ANY: "any format",
}
_AFTER_LAST = {
    AfterLastRound.NOTHING: "nothing",
    AfterLastRound.BURST: "burst",
    AfterLastRound.BURST_AND_REST: "burst and rest",
}
_CHOSEN = {
    WorkRestWish.ANY: "work and rest as fits",
    WorkRestWish.HEAVIER: "work and rest for heavier loads",
}


def class_in_words(
    wish: ClassWish,
    around: Around,
    made: Mapping[str, Combination] | None = None,
    usual: frozenset[str] = frozenset(),
) -> tuple[str, ...]:
    """Write a class in plain words, one line a thing.

    Parameters
    ----------
    wish : ClassWish
        What is wanted.
    around : Around
        The library, rooms and people that it names.
    made : mapping, optional
        Combinations that the library does not have yet, by short name.
    usual : frozenset of str
        Fields of which nothing was said: they are told last, with 'as usual'.
    """
    start = f"{day_names(wish.on, wish.weekday)} {wish.start:%H:%M}"
    told = {
        "name": f"called {' '.join(wish.name.split())}",
        "goal": f"goal: {' '.join(wish.goal.split())}" if wish.goal else "",
        "start": f"{start}, lasts {duration_words(wish.slot_s)}",
        "room": _room(wish.room, around),
        "people": "everyone" if wish.people == "all" else people_words(wish.people, around),
        "format": _FORMATS[wish.format],
        "groups": "" if wish.groups is None else f"{wish.groups} groups",
        "coaches": "1 coach" if wish.coaches == 1 else f"{wish.coaches} coaches",
        "rounds": rounds_words((wish.rounds, *wish.rounds_choice)),
        "places": "" if wish.places is None else f"{wish.places} exercises a round",
        "order": "any order" if wish.order == "free" else "in this order",
        "work_s": f"work {duration_words(wish.work_s)}" if wish.work_s is not None else "",
        "work_rest": _CHOSEN.get(wish.work_rest, ""),
        "change_s": f"change {duration_words(wish.change_s)}",
        "side_change_s": f"side change {duration_words(wish.side_change_s)}",
        "partner_swap_s": f"partner swap {duration_words(wish.partner_swap_s)}",
        "rest_s": f"rest {duration_words(wish.rest_s)} after each round",
        "burst": burst_words(wish.burst, around.catalogue) if wish.burst else "no burst",
        "after_last_round": f"after the last round {_AFTER_LAST[wish.after_last_round]}",
        "warm_up_s": f"warm-up {duration_words(wish.warm_up_s)}",
        "demonstration_s": f"demonstration {duration_words(wish.demonstration_s)}",
        "cool_down_s": f"cool-down {duration_words(wish.cool_down_s)}",
        "reps_left": "" if wish.reps_left is None else f"leave {wish.reps_left}",
        "chance_on_time_pct": f"{wish.chance_on_time_pct} times in 100 on time",
    }
    if wish.pace is not Pace.TIMED:
        told["work_s"] = ""
    never_parted = ("name", "room", "goal")
    own = [words for name, words in told.items() if words and name not in usual]
    as_usual = [
        words
        for name, words in told.items()
        if words and name in usual and name not in never_parted
    ]
    lines = [f"{told[name]}" for name in never_parted if told[name] and name in usual]
    lines = [*own[:1], *lines, *own[1:]] if "name" not in usual else [*lines, *own]
    new = made or {}
    lines += [exercise_words(e, around.catalogue, new.get(e.exercise)) for e in wish.exercise]
    lines += ban_words(wish.ban, around.catalogue)
    lines += [keep_words(cell, around) for cell in wish.keep]
    if as_usual:
        lines.append(f"{', '.join(as_usual)}, {USUAL}")
    return tuple(lines)


def _room(room: str, around: Around) -> str:
    name = around.rooms.get(room, "")
    plain = name and not any(c in name for c in ",;:.!\n") and around.room_named(name) == room
    return f"room {name if plain else room}"

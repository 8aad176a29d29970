"""A way out taken: the class as it would be asked for, where the way is a change of the class.

Kit to buy, people to sit out and what is let go once only are told in words; nobody presses them.
"""

from collections.abc import Callable, Mapping

from pydantic import ValidationError

from roundwright.goals.class_wish import AfterLastRound, ClassFormat, ClassWish
from roundwright.plan.outcome import WayOut


def may_be_taken(way: WayOut) -> bool:
    """Say whether a way out is a change of the class that can be made by one press."""
    return all(part.kind in _WAYS for part in way.parts or (way,))


def wish_after(wish: ClassWish, way: WayOut) -> ClassWish | None:
    """Give the class after a way out; None where the way is no change of the class.

    Parameters
    ----------
    wish : ClassWish
        The class as it is asked for.
    way : WayOut
        One that was verified for it.
    """
    parts = way.parts or (way,)
    for part in parts:
        make = _WAYS.get(part.kind)
        changed = None if make is None else make(wish, part)
        if changed is None:
            return None
        try:
            values = wish.model_dump(mode="json", by_alias=True)
            values |= changed
            wish = ClassWish.model_validate(values)
        except ValidationError:
            return None
    return wish


Changed = dict[str, object] | None


def _burst(wish: ClassWish, way: WayOut) -> Changed:
    if wish.burst is None:
        return None
    values = wish.burst.model_dump(mode="json", by_alias=True)
    return {"burst": values | {"length": way.figures["seconds"]}}


def _let_go(wish: ClassWish, way: WayOut) -> Changed:
    """Take an exercise off the class; the place stays and is filled by the tool."""
    left = [one for one in wish.exercise if one.exercise != way.item]
    if len(left) == len(wish.exercise):
        return None
    return {
        "exercise": [one.model_dump(mode="json") for one in left],
        "places": wish.places or len(wish.exercise),
    }


def _freed(wish: ClassWish, way: WayOut) -> Changed:
    rows = [one.model_dump(mode="json") for one in wish.exercise]
    for row in rows:
        if row["exercise"] == way.item:
            row["position"] = None
    return {"exercise": rows, "places": wish.places or len(rows)}


def _left_out(wish: ClassWish, way: WayOut) -> Changed:
    left = [one for one in wish.exercise if one.exercise != way.item]
    if len(left) == len(wish.exercise) or not left:
        return None
    (gone,) = way.positions
    keep = [
        k.model_copy(update={"position": k.position - (k.position > gone)})
        for k in wish.keep
        if k.position != gone
    ]
    return {
        "exercise": [one.model_dump(mode="json") for one in left],
        "keep": [k.model_dump(mode="json", by_alias=True) for k in keep],
        "places": None if wish.places is None else max(1, wish.places - 1),
    }


def _cell_let_go(wish: ClassWish, way: WayOut) -> Changed:
    keep = [k for k in wish.keep if not (k.person in way.persons and k.position in way.positions)]
    return {"keep": [k.model_dump(mode="json", by_alias=True) for k in keep]}


def _figures(**names: str) -> Callable[[ClassWish, WayOut], Changed]:
    """Take figures of the way as fields of the class."""
    return lambda _, way: {field: way.figures[name] for field, name in names.items()}


_WAYS: Mapping[str, Callable[[ClassWish, WayOut], Changed]] = {
    "longer_slot": lambda wish, way: {"slot": wish.slot_s + 60 * way.figures["minutes"]},
    "round_less": lambda _, way: {"rounds": way.figures["rounds"], "rounds_choice": []},
    "shorter_rest": _figures(rest="rest_s"),
    "faster_change": _figures(change="change_s"),
    "shorter_rest_and_change": _figures(rest="rest_s", change="change_s"),
    "no_burst": lambda *_: {"burst": None},
    "shorter_burst": _burst,
    "no_last_burst": lambda *_: {"after_last_round": AfterLastRound.NOTHING.value},
    "no_last_rest": lambda *_: {"after_last_round": AfterLastRound.BURST.value},
    "any_groups": lambda *_: {"groups": None},
    "format": lambda _, way: {"format": ClassFormat(way.item).value, "groups": None},
    "drop_ban": lambda wish, way: {"ban": [slug for slug in wish.ban if slug != way.item]},
    "fewer_places": _figures(places="places"),
    "more_places": _figures(places="places"),
    "let_go_kept": _let_go,
    "free_place": _freed,
    "leave_out": _left_out,
    "let_go_cell": _cell_let_go,
}

"""The other side: left and right changed over, in words and in solved positions."""

from typing import Any

import numpy as np

from roundwright.body.joints import MIRROR_INDEX, MIRROR_SIGN, SIDES
from roundwright.body.pose_merge import full_pose
from roundwright.body.posture import Posture
from roundwright.body.posture_words import AIM_MIDDLE, DIRECTIONS, POINTS_MIDDLE, split_side
from roundwright.body.solved import SolvedKey, SolvedPosture, solving_order, what_is_asked

_TURNED = ("back_side", "back_turn", "head_turn")
_WORDS = {
    "left": "right",
    "right": "left",
    "side_left": "side_right",
    "side_right": "side_left",
    "hand_left": "hand_right",
    "hand_right": "hand_left",
}


def mirrored(posture: Posture) -> Posture:
    """Give a posture for the other side.

    One-sided movements are described with the left side at work; this makes the right.
    The camera goes to the other side too, so that the picture is turned over.
    """
    table = posture.model_dump(mode="json", exclude_unset=True)
    out = _pose(table) | {"slug": posture.slug, "view": 180 - posture.view}
    for name in ("path", "first"):
        if name in table:
            out[name] = table[name]
    if "lift" in table and table["lift"] is not None:
        out["lift"] = _other(table["lift"])
    if "props" in table:
        out["props"] = {n: _prop(n, p) for n, p in table["props"].items() if p is not None}
    out["key"] = [_key(key) for key in table["key"]]
    return Posture.model_validate(out)


def mirrored_solution(solved: SolvedPosture) -> SolvedPosture:
    """Give the solved posture for the other side: the same positions, turned over.

    It is not searched for again, so that both sides have the same figures.
    """
    posture = mirrored(solved.posture)
    keys: dict[int, SolvedKey] = {}
    for place, before in solving_order(posture):
        pose = full_pose(posture, posture.key[place])
        goals, asked = what_is_asked(posture, solved.bodies, pose, keys.get(before))
        here = solved.keys[place]
        q = here.q[:, list(MIRROR_INDEX)] * np.array(MIRROR_SIGN)
        keys[place] = SolvedKey(pose, goals, asked, q, asked.skeleton.place(q), here.cost)
    return SolvedPosture(posture, solved.bodies, tuple(keys[i] for i in range(len(keys))))


def _other(name: str) -> str:
    stem, side = split_side(name)
    return name if side is None else f"{stem}_{SIDES[1] if side == SIDES[0] else SIDES[0]}"


def _word(value: Any) -> Any:
    return _WORDS.get(value, value) if isinstance(value, str) else value


def _key(table: dict[str, Any]) -> dict[str, Any]:
    out = _pose(table) | {"name": table["name"]}
    arrow = table.get("arrow")
    if isinstance(arrow, dict):
        out["arrow"] = {"at": _other(arrow["at"]), "towards": _push(**arrow)}
    elif arrow is not None:
        out["arrow"] = _other(arrow)
    return out


def _push(at: str, towards: Any) -> Any:
    """Ways are told outwards at points with a side; at those of the middle they are turned over."""
    return towards if split_side(at)[0] not in POINTS_MIDDLE else _turned_over(towards)


def _pose(table: dict[str, Any]) -> dict[str, Any]:
    out: dict[str, Any] = {
        name: table[name] for name in ("lean", "dynamic", "rope") if table.get(name) is not None
    }
    for name in ("base", "hold"):
        if table.get(name) is not None:
            out[name] = _word(table[name])
    out["angles"] = {
        _other(n): (-v if n in _TURNED and not isinstance(v, str) else v)
        for n, v in table.get("angles", {}).items()
    }
    for name in ("touch", "height", "weight"):
        if name in table:
            out[name] = {_other(n): v for n, v in table[name].items()}
    if "aim" in table:
        out["aim"] = {_other(n): _aim(n, v) for n, v in table["aim"].items()}
    if "put" in table:
        out["put"] = {
            _other(n): v if isinstance(v, str) else v | {"by": _other(v["by"])}
            for n, v in table["put"].items()
        }
    return out


def _aim(name: str, value: Any) -> Any:
    """Directions of sided parts are told outwards; those of the middle are turned over."""
    return value if name not in AIM_MIDDLE else _turned_over(value)


def _turned_over(value: Any) -> Any:
    vector = DIRECTIONS.get(value) if isinstance(value, str) else value
    if vector is None or not vector[1]:
        return value
    return [vector[0], -vector[1], vector[2]]


def _prop(name: str, prop: dict[str, Any]) -> dict[str, Any]:
    out = {field: _word(value) for field, value in prop.items()}
    if "shift" in out:
        out["shift"] = [out["shift"][0], -out["shift"][1]]
    if name == "band" and isinstance(out.get("anchor"), list | tuple):
        forward, left, up = out["anchor"]
        out["anchor"] = [forward, -left, up]
    return out

"""How posture files become typed postures: every fault of every file at once, in a coach's words.

A file begins with ``schema = "roundwright.posture/1"`` and holds tables
``[posture.<short name>]`` with ``[[posture.<short name>.key]]``. A posture may
say ``like = "<other>"``: it then has all that the other says, overlaid by its
own words; keys of the same name are overlaid, new ones come after.
"""

import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from roundwright.body import posture_words as words
from roundwright.body.joints import SIDES
from roundwright.body.posture import KEY_NAMES, SCHEMA, Key, Pose, Posture, Push
from roundwright.foundation.faults import Fault, shortened
from roundwright.foundation.identifiers import is_slug, nearest_names
from roundwright.foundation.model_faults import described
from roundwright.foundation.toml_lines import Path, line_of, lines_of

_PLACE = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)\s*$")
_FIELDS = [n for n in Posture.model_fields if n not in ("slug", "angles")] + ["like", "without"]
_KEY_FIELDS = [n for n in Key.model_fields if n != "angles"]
_TABLES = ("touch", "aim", "put", "height", "weight", "props")


@dataclass(frozen=True)
class _Entry:
    slug: str
    table: Mapping[str, Any]
    file: str
    places: Mapping[Path, int]

    def fault(self, code: str, path: Path = (), **rest: Any) -> Fault:
        line = line_of(dict(self.places), ("posture", self.slug, *path))
        shown = [str(step + 1 if isinstance(step, int) else step) for step in path]
        field = ".".join(["posture", self.slug, *shown])
        return Fault(code=code, file=self.file, line=line, field=field, **rest)


def read_postures(
    texts: Mapping[str, str],
    base: Mapping[str, Posture] | None = None,
    *,
    among_others: bool = False,
) -> tuple[dict[str, Posture], tuple[Fault, ...]]:
    """Read posture files.

    Parameters
    ----------
    texts : mapping
        File name to TOML text.
    base : mapping, optional
        Postures read before, by short name: `like` may name them.
    among_others : bool
        Whether the files are library files, in which postures stand beside movements: what is
        no posture is then left to whoever reads the rest.

    Returns
    -------
    postures : dict
        Every sound posture by short name.
    faults : tuple of Fault
        Every fault of every file, ordered by file and line.
    """
    faults: list[Fault] = []
    entries: dict[str, _Entry] = {}
    for file, text in sorted(texts.items()):
        found, bad = _entries(file, text, among_others)
        faults += bad
        for entry in found:
            if entry.slug in entries:
                faults.append(entry.fault("name.duplicate", value=entry.slug))
            entries.setdefault(entry.slug, entry)
    known = dict(base or {})
    postures: dict[str, Posture] = {}
    for entry in entries.values():
        table, odd = _resolved(entry, entries, known, ())
        faults += odd
        if table is None:
            continue
        posture, bad = _typed(entry, table)
        faults += bad
        if posture is not None and not odd:
            postures[entry.slug] = posture
    faults.sort(key=lambda f: (f.file, f.line or 0, f.field))
    return postures, tuple(faults)


def _entries(file: str, text: str, among_others: bool) -> tuple[list[_Entry], list[Fault]]:
    text = text.removeprefix("\ufeff").replace("\r\n", "\n")
    try:
        document = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        deep = "Lists nested too deeply (at end of document)"
        message = str(error) if isinstance(error, tomllib.TOMLDecodeError) else deep
        return [], [] if among_others else [_syntax(file, text, message)]
    places = lines_of(text)
    faults: list[Fault] = []
    wanted = f'schema = "{SCHEMA}"'
    if among_others:
        document = {"posture": document.get("posture", {})}
    elif document.pop("schema", None) != SCHEMA:
        faults.append(
            Fault(code="file.schema", file=file, line=places.get(("schema",), 1), field="schema",
                  expected=wanted, remedy=f"Write {wanted} as the first line.")
        )  # fmt: skip
        return [], faults
    for kind in document:
        if kind != "posture":
            faults.append(
                Fault(code="field.unknown", file=file, line=line_of(places, (kind,)), field=kind,
                      expected="tables [posture.<short name>]",
                      nearest=nearest_names(kind, ["posture"]))
            )  # fmt: skip
    tables = document.get("posture", {})
    if not isinstance(tables, dict):
        return [], [*faults, Fault(code="field.value", file=file, field="posture",
                                   expected="tables [posture.<short name>]")]  # fmt: skip
    found = []
    for slug, table in tables.items():
        entry = _Entry(slug, table, file, places)
        if not isinstance(table, dict):
            faults.append(entry.fault("field.value", expected="a table"))
        elif not is_slug(slug):
            faults.append(entry.fault("field.slug", value=slug, expected="a short name"))
        else:
            found.append(entry)
    return found, faults


def _syntax(file: str, text: str, message: str) -> Fault:
    place = _PLACE.search(message)
    lines = text.split("\n")
    number = int(place[1]) if place and place[1] else len(lines)
    return Fault(
        code="file.syntax",
        file=file,
        line=number,
        column=int(place[2]) if place and place[2] else None,
        value=shortened(lines[number - 1]),
        expected=f"TOML ({_PLACE.sub('', message).lower()})",
    )


def _resolved(
    entry: _Entry,
    entries: Mapping[str, _Entry],
    known: Mapping[str, Posture],
    seen: tuple[str, ...],
) -> tuple[dict[str, Any] | None, list[Fault]]:
    """Give an entry's table with what it is like laid under it."""
    own = {k: v for k, v in entry.table.items() if k not in ("like", "without")}
    like = entry.table.get("like")
    if like is None:
        return own, []
    near = nearest_names(str(like), [*entries, *known])
    if not isinstance(like, str):
        return None, [entry.fault("field.value", ("like",), value=shortened(like),
                                  expected="the short name of another posture")]  # fmt: skip
    if like in (*seen, entry.slug):
        return None, [entry.fault("name.unknown", ("like",), value=str(like),
                                  remedy="They are like each other; write one out.")]  # fmt: skip
    if like in entries:
        under, bad = _resolved(entries[like], entries, known, (*seen, entry.slug))
        if under is None:
            return None, bad if not seen else []
    elif like in known:
        under = _as_table(known[like])
    else:
        return None, [entry.fault("name.unknown", ("like",), value=shortened(like), nearest=near)]
    without = entry.table.get("without", [])
    if not isinstance(without, list):
        without = [without]
    if not _has_sound_keys(under):
        return None, []  # the other posture is told for itself
    names = [key["name"] for key in under.get("key", [])]
    faults = [
        entry.fault("name.unknown", ("without",), value=shortened(name),
                    expected="one of " + ", ".join(names),
                    nearest=nearest_names(str(name), names))
        for name in without
        if name not in names
    ]  # fmt: skip
    if not _has_sound_keys(own):
        return own, faults
    return _overlaid(under, own, tuple(without)), faults


def _has_sound_keys(table: Mapping[str, Any]) -> bool:
    """Say whether the keys of a table are tables with names, so that they can be overlaid."""
    keys = table.get("key", [])
    return isinstance(keys, list) and all(
        isinstance(key, dict) and isinstance(key.get("name"), str) for key in keys
    )


def _as_table(posture: Posture) -> dict[str, Any]:
    """Give a typed posture in the form in which it is written."""
    table = posture.model_dump(mode="json", exclude={"slug"}, exclude_unset=True)
    for each in (table, *table.get("key", [])):
        each.update(each.pop("angles", {}))
    return table


def _overlaid(
    under: Mapping[str, Any], own: Mapping[str, Any], without: tuple[str, ...]
) -> dict[str, Any]:
    out = _pose_over(under, own, ("key",))
    mine = own.get("key", [])
    theirs = [k for k in under.get("key", []) if k["name"] not in without]
    by_name = {k["name"]: k for k in mine}
    keys = [_pose_over(k, by_name.pop(k["name"], {}), ()) for k in theirs]
    out["key"] = [*keys, *by_name.values()]
    return out


def _pose_over(
    under: Mapping[str, Any], own: Mapping[str, Any], leave: tuple[str, ...]
) -> dict[str, Any]:
    """Lay own words over others; a name without a side replaces both sided ones."""
    out = {k: v for k, v in under.items() if k not in leave}
    for name, value in own.items():
        if name in leave:
            continue
        if name in _TABLES and isinstance(value, dict) and isinstance(out.get(name), dict):
            out[name] = _without_sides(out[name], value) | value
        else:
            out = _without_sides(out, {name: value}) | {name: value}
    return out


def _without_sides(under: Mapping[str, Any], own: Mapping[str, Any]) -> dict[str, Any]:
    gone = {f"{name}_{side}" for name in own for side in SIDES}
    return {k: v for k, v in under.items() if k not in gone}


def _typed(entry: _Entry, table: Mapping[str, Any]) -> tuple[Posture | None, list[Fault]]:
    try:
        posture = Posture.model_validate({**table, "slug": entry.slug})
    except ValidationError as error:
        told: dict[str, Fault] = {}
        for each in error.errors(include_url=False):
            fault = _told(entry, each)
            told.setdefault(fault.field, fault)
        return None, [told[field] for field in told if not _is_told_closer(field, told)]
    faults = list(_further(entry, posture))
    return (None if faults else posture), faults


def _is_told_closer(field: str, told: Mapping[str, Fault]) -> bool:
    """Say whether a part of a field has a fault of its own: that one tells more."""
    return any(other.startswith(f"{field}.") for other in told)


def _told(entry: _Entry, details: ErrorDetails) -> Fault:
    """Say one complaint: names of tables are looked up, so that a near one can be offered."""
    told = described(Posture, details, leave_out=("slug", "angles"))
    loc = tuple(step for step in told.loc if step not in ("angles", "constrained-str"))
    table = next((step for step in told.loc if step in KEY_NAMES), None)
    in_key = bool(loc) and loc[0] == "key"
    if table is not None and "[key]" in details["loc"]:
        name = str(details["input"])
        known = list(KEY_NAMES[str(table)])
        if table == "angles":
            known += _KEY_FIELDS if in_key else _FIELDS
            if name in (_FIELDS if in_key else _KEY_FIELDS):
                where = "only above the keys" if in_key else "only in a key"
                return entry.fault("field.unknown", _known_part(entry, loc), value=name,
                                   expected=where)  # fmt: skip
        return entry.fault(
            "field.unknown", _known_part(entry, loc), value=name,
            expected="a name of the how-to page", nearest=nearest_names(name, known),
        )  # fmt: skip
    return entry.fault(
        told.code, _known_part(entry, loc), value=told.value,
        expected=told.expected, nearest=told.nearest or _near_word(details),
    )  # fmt: skip


def _near_word(details: ErrorDetails) -> tuple[str, ...]:
    value = details["input"]
    if not isinstance(value, str):
        return ()
    lists = {"aim": [*words.DIRECTIONS, words.LEVEL], "put": list(words.PLACES)}
    for step, known in lists.items():
        if step in details["loc"]:
            return nearest_names(value, known)
    if "towards" in details["loc"]:
        return nearest_names(value, words.DIRECTIONS)
    if any(step in ("by", "lift", "arrow", "at") for step in details["loc"]):
        return nearest_names(value, words.POINT_NAMES)
    return ()


def _known_part(entry: _Entry, loc: tuple[str | int, ...]) -> Path:
    """Cut what the typed model adds to a place (names of alternatives)."""
    kept: list[str | int] = []
    for step in loc:
        if step == Push.__name__:
            continue
        if isinstance(step, str) and not re.fullmatch(r"[a-z][a-z0-9_]*", step):
            break
        if step in ("float", "tuple", "str"):
            break
        kept.append(step)
    return tuple(kept)


def _further(entry: _Entry, posture: Posture) -> Iterator[Fault]:
    """Find what no single field shows: names and number of keys, ranges of angles, weights."""
    names = [key.name for key in posture.key]
    for place, name in enumerate(names):
        if names.index(name) != place:
            yield entry.fault("name.duplicate", ("key", place, "name"), value=name)
    if posture.first is not None and posture.first not in names:
        yield entry.fault("name.unknown", ("first",), value=posture.first,
                          expected="one of " + ", ".join(names),
                          nearest=nearest_names(posture.first, names))  # fmt: skip
    if len(names) < 2 and posture.path is not words.Path.HOLD:
        yield entry.fault("field.range", ("key",), value=str(len(names)),
                          expected='at least 2 of them, or path = "hold"')  # fmt: skip
    layers: list[tuple[Path, Pose]] = [((), posture)]
    layers += [(("key", i), key) for i, key in enumerate(posture.key)]
    for path, pose in layers:
        for name, degrees in pose.angles.items():
            if isinstance(degrees, str):
                continue
            least, most = words.angle_range(name)
            if not least <= degrees <= most:
                yield entry.fault("field.range", (*path, name), value=str(degrees),
                                  expected=f"{least:g} to {most:g} degrees")  # fmt: skip
        total = sum(
            w * (2 if words.split_side(name)[1] is None and name in words.TOUCH_POINTS else 1)
            for name, w in pose.weight.items()
            if not isinstance(w, str)
        )
        if total > 1.0001:
            yield entry.fault("field.range", (*path, "weight"), value=f"{total:g}",
                              expected="shares of the weight that sum to at most 1")  # fmt: skip

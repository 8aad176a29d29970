"""A movement of one's own from plain fields: its library text, and every fault at once."""

import re
import tomllib
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from roundwright.foundation.faults import Fault, shortened
from roundwright.foundation.identifiers import is_slug, nearest_names
from roundwright.foundation.toml_words import Plain, toml_value
from roundwright.library.catalogue import Catalogue
from roundwright.library.catalogue_text import read_catalogue
from roundwright.library.movement import Movement, Teaching
from roundwright.library.own_postures import has_postures
from roundwright.services.check_library import Postures, posture_faults
from roundwright.services.movement_text import library_text_of, steps_of, table_of

FORM = "the form"
"""What faults name as their file."""
WHOLE_NUMBERS = (
    "level",
    "contacts_a_rep",
    "low_hops_a_rep",
    "rate_a_min",
    "limb_factor_bp",
    "min_classes",
)
FRACTIONS = ("seconds_a_rep", "lifted_share")
TEACHING = tuple(Teaching.model_fields)
SENTENCES = ("steps", "cues", "up", "down", "seen", "easier", "harder")
"""Fields that are lists: text counts as one entry a line."""
MOVEMENT = tuple(
    name
    for name in Movement.model_fields
    if name not in ("slug", "teaching", "posture", "was", "lifted_share_by")
)
OTHERS = ("like", "posture", "line_name", "easier", "harder", "up", "down", "min_classes", "seen")
FIELDS = (*MOVEMENT, *TEACHING, *OTHERS)
"""Every field that a form may have."""


@dataclass(frozen=True, slots=True)
class WrittenMovement:
    """The text of a library file with one movement and its line, or what stands in its way.

    `text` is given with its faults, too, so that it can be shown; it is fit to be kept only
    where there are none. `said` is what the coach should know of a sound one.
    """

    slug: str
    line_slug: str
    text: str
    faults: tuple[Fault, ...]
    said: tuple[str, ...]


def write_movement(
    form: Mapping[str, object], known: Catalogue, shipped: Postures
) -> WrittenMovement:
    """Write a movement of one's own from plain fields.

    Parameters
    ----------
    form : mapping
        Fields by name, see `FIELDS`: those of a movement and of its teaching; `like`, a movement
        to start from, whose words hold where the form has none; `easier` and `harder`, its
        neighbours in its line from easy to hard; `line_name`, `up` and `down` of the line;
        `min_classes` and `seen` where it has landings; `posture`, TOML text as in
        `docs/how-to/describe-a-posture.md`. Numbers may be text, lists may be text with a line
        for each entry, and an empty field counts as left out.
    known : Catalogue
        The library with everything of the hall's own.
    shipped : callable
        Gives the shipped postures.

    Returns
    -------
    WrittenMovement
        With every fault at once, in the words of the fields.
    """
    given = {name: value for name, value in form.items() if value not in ("", None)}
    faults = [_unknown(name) for name in given if name not in FIELDS]
    like, bad = _movement_named("like", given.get("like"), known)
    faults += bad
    movement: dict[str, Plain] = {} if like is None else table_of(like)
    for name in MOVEMENT:
        if name in given:
            _put(movement, name, given[name], faults)
    _put_teaching(movement, given, faults)
    slug = _free_slug(str(given.get("name", "")), known)
    line_slug, line = _line(slug, given, movement, known, faults)
    posture = given.get("posture", "")
    if not isinstance(posture, str) or (posture and not _is_posture_of(slug, posture)):
        expected = f"tables [posture.{slug}] as TOML text"
        faults.append(Fault(code="field.value", file=FORM, field="posture", expected=expected))
        posture = ""
    text = library_text_of(slug, movement, line_slug, line, posture)
    faults += _faults_of(text, known, shipped)
    said = () if faults else _said(movement, like, posture)
    return WrittenMovement(slug, line_slug, text, tuple(dict.fromkeys(faults)), said)


def _unknown(name: str) -> Fault:
    near = nearest_names(name, FIELDS)
    return Fault(code="field.unknown", file=FORM, field=shortened(name), nearest=near)


def _put(table: dict[str, Plain], name: str, value: object, faults: list[Fault]) -> None:
    """Lay one value of the form into a table; demands are laid over those that stand there."""
    plain = _plain(name, value)
    try:
        toml_value(plain)
    except (TypeError, ValueError, RecursionError):
        expected = "text, a number, or a list or table of them"
        faults.append(Fault(code="field.value", file=FORM, field=name, expected=expected))
        return
    before = table.get(name)
    if name == "demands" and isinstance(before, Mapping) and isinstance(plain, Mapping):
        plain = {**before, **plain}
    table[name] = plain


def _plain(name: str, value: object) -> Plain:
    """Give a form's value as what is written: numbers out of text, lists out of lines."""
    if isinstance(value, str):
        if name in WHOLE_NUMBERS or name in FRACTIONS:
            return _number(value)
        if name in SENTENCES:
            return [line.strip() for line in value.splitlines() if line.strip()]
        return value
    if name == "demands" and isinstance(value, Mapping):
        return {str(k): _number(v) if isinstance(v, str) else v for k, v in value.items()}
    if name == "muscles" and isinstance(value, Mapping):
        return {str(k): _share(v) for k, v in value.items()}
    return value  # type: ignore[return-value]


def _share(row: object) -> Plain:
    if not isinstance(row, Mapping):
        return row  # type: ignore[return-value]
    return {k: _number(v) if k == "share" and isinstance(v, str) else v for k, v in row.items()}


def _number(text: str) -> Plain:
    """Read a number as people write it; what is none stays text, and is then a fault."""
    said = text.strip().replace(",", ".")
    if re.fullmatch(r"-?[0-9]{1,9}", said, re.ASCII):
        return int(said)
    return float(said) if re.fullmatch(r"-?[0-9]{1,9}\.[0-9]{1,9}", said, re.ASCII) else text


def _put_teaching(
    movement: dict[str, Plain], given: Mapping[str, object], faults: list[Fault]
) -> None:
    under = movement.get("teaching")
    teaching: dict[str, Plain] = dict(under) if isinstance(under, Mapping) else {}
    for name in TEACHING:
        if name in given:
            _put(teaching, name, given[name], faults)
    movement["teaching"] = teaching


def _movement_named(
    field: str, said: object, known: Catalogue
) -> tuple[Movement | None, list[Fault]]:
    """Give the movement of that short or shown name."""
    if said is None:
        return None, []
    wanted = " ".join(str(said).split()).casefold()
    by_name = {m.name.casefold(): m for m in known.movements.values()}
    found = known.movements.get(wanted) or by_name.get(wanted)
    if found is not None:
        return found, []
    near = tuple(by_name[name].name for name in nearest_names(wanted[:80], by_name))
    expected = "a movement of the library"
    return None, [
        Fault(
            code="name.unknown", file=FORM, field=field, value=shortened(said), expected=expected,
            nearest=near,
        )
    ]  # fmt: skip


def _line(
    slug: str,
    given: Mapping[str, object],
    movement: Mapping[str, Plain],
    known: Catalogue,
    faults: list[Fault],
) -> tuple[str, dict[str, Plain]]:
    versions: list[str] = [slug]
    for field in ("easier", "harder"):
        named = _plain(field, given.get(field, ()))
        names = named if isinstance(named, Sequence) and not isinstance(named, str) else [named]
        found = [_movement_named(field, name, known) for name in names]
        faults += [fault for _, bad in found for fault in bad]
        slugs = [one.slug for one, _ in found if one is not None]
        versions = [*slugs, *versions] if field == "easier" else [*versions, *slugs]
    steps = steps_of(versions, known)
    if "min_classes" in given or "seen" in given:
        own: dict[str, Plain] = {"to": slug}
        for field in ("min_classes", "seen"):
            if field in given:
                _put(own, field, given[field], faults)
        place = sum(versions.index(str(s["to"])) < versions.index(slug) for s in _rows(steps))
        steps = [*steps[:place], own, *steps[place:]]
    line: dict[str, Plain] = {"name": movement.get("name"), "versions": versions}
    if "line_name" in given:
        line["name"] = str(given["line_name"])
    for field in ("up", "down"):
        if field in given:
            _put(line, field, given[field], faults)
    line["steps"] = steps
    line_slug = _free(f"{slug[:35]}_line", (*known.lines, *known.combinations))
    return line_slug, line


def _rows(steps: Sequence[Plain]) -> list[Mapping[str, Plain]]:
    return [step for step in steps if isinstance(step, Mapping)]


def _free_slug(name: str, known: Catalogue) -> str:
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().casefold()
    slug = re.sub(r"[^a-z0-9]+", "_", plain).strip("_")[:38].strip("_")
    slug = slug if is_slug(slug) else f"own_{slug or 'movement'}"[:38]
    return _free(slug, known.movements)


def _free(slug: str, taken: Sequence[str] | Mapping[str, object]) -> str:
    """Give a short name that nothing else bears."""
    if slug not in taken:
        return slug
    return next(s for n in range(2, 10_000) if (s := f"{slug[:36]}_{n}") not in taken)


def _is_posture_of(slug: str, text: str) -> bool:
    """Say whether a text holds this movement's posture and nothing else."""
    try:
        document = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError):
        return False
    tables = document.get("posture")
    alone = document.keys() - {"schema"} == {"posture"}
    return alone and isinstance(tables, dict) and tables.keys() == {slug}


def _faults_of(text: str, known: Catalogue, shipped: Postures) -> list[Fault]:
    """Give the faults of the text, without its lines: the coach has the fields before them."""
    grown, found = read_catalogue({FORM: text}, known)
    movements = None if grown is None else grown.movements
    every = [*found, *posture_faults({FORM: text}, movements, shipped)]
    return [fault.model_copy(update={"line": None, "column": None}) for fault in every]


def _said(movement: Mapping[str, Plain], like: Movement | None, posture: str) -> tuple[str, ...]:
    """Say what a sound movement still lacks, and where it asks less than what it began from."""
    said = []
    if not posture or not has_postures({FORM: posture}):
        said.append("It has no posture, and so no pictures.")
    demands = movement.get("demands")
    if like is not None and isinstance(demands, Mapping):
        for demand, before in like.demands.items():
            now = demands.get(demand.value, 0)
            if isinstance(now, int) and now < before:
                what = demand.value.replace("_", " ")
                said.append(f"It asks less than {like.name}: {what} {now}, there {before}.")
    return tuple(said)

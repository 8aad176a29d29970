"""How a hall becomes records and records a hall; the reader of hall folders checks the whole."""

import json
from collections.abc import Iterable, Mapping
from typing import Any

from pydantic import BaseModel, ValidationError

from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import HIDDEN, Fault, shortened
from roundwright.foundation.model_faults import described
from roundwright.hall.file_text import path_in_words
from roundwright.hall.hall import Hall
from roundwright.hall.hall_text import read_hall_texts
from roundwright.hall.written_hall import written_hall
from roundwright.library.catalogue import Catalogue
from roundwright.services.keeping.record_forms import FORMS, HALL_FIELDS, PRIVACY, Given, RecordForm
from roundwright.services.keeping.records import Plain, Privacy, Record, RecordKey, RecordKind

Records = Mapping[RecordKey, Record]


def records_of(hall: Hall) -> dict[RecordKey, Record]:
    """Give every record of a hall, by its key."""
    found: dict[RecordKey, Record] = {}
    for one in HALL_FIELDS:
        for form in one.forms:
            for taken in one.out[form.kind](hall):
                where = RecordKey(form.kind, taken.key)
                found[where] = Record(
                    where=where,
                    place=taken.place,
                    privacy=form.privacy,
                    person_id=person_of(where),
                    values=_values(taken.model, form),
                )
    return found


def hall_of(records: Iterable[Record], base: Catalogue) -> Hall:
    """Put a hall together from its records and check it as a hall folder is checked.

    Parameters
    ----------
    records : iterable of Record
        All of them.
    base : Catalogue
        The shipped library, to which the hall's own entries are added.

    Raises
    ------
    BadInputError
        With every fault of the records, or, where each is sound, of the whole. Health values
        never stand in a fault.
    """
    faults: list[Fault] = []
    by_kind: dict[RecordKind, list[Given]] = {kind: [] for kind in FORMS}
    every = sorted(records, key=lambda one: (one.place, one.where.key))
    for record in every:
        model, found = checked_values(record.where, record.values)
        faults += found
        if model is not None:
            by_kind[record.where.kind].append(Given(record.where.key, record.place, model))
    faults += _without_person(every)
    if not by_kind[RecordKind.SETTINGS] and not faults:
        faults.append(Fault(code="field.missing", file="settings", expected="the hall's settings"))
    if faults:
        raise BadInputError(faults)
    fields: dict[str, Any] = {one.field: one.back(by_kind) for one in HALL_FIELDS}
    unchecked = Hall.model_construct(**fields, catalogue=base)
    return read_hall_texts(written_hall(unchecked), base)


def checked_values(where: RecordKey, values: Plain) -> tuple[BaseModel | None, tuple[Fault, ...]]:
    """Check one record on its own, and give its model or its faults."""
    form = FORMS.get(where.kind)
    if form is None:
        return None, (Fault(code="name.unknown", file=named(where), expected="a kind of record"),)
    too_much = [name for name in values if name in form.without]
    if too_much:
        expected = f"a record of its own for {' and '.join(sorted(form.without))}"
        return None, tuple(
            Fault(code="field.unknown", file=named(where), field=name, expected=expected)
            for name in too_much
        )
    try:
        model = form.model.model_validate_json(
            json.dumps(values), strict=True, by_alias=True, by_name=False
        )
    except ValidationError as error:
        found = error.errors(include_url=False)
        return None, tuple(_fault(form, where, detail) for detail in found)
    except (TypeError, ValueError):
        return None, (Fault(code="field.value", file=named(where), expected="values of JSON"),)
    if form.key_of is not None and form.key_of(model) != where.key:
        expected = "the same name within the record as outside"
        return None, (Fault(code="field.value", file=named(where), expected=expected),)
    return model, ()


def says_the_same(one: Record, other: Record) -> bool:
    """Say whether two states of a record differ at most in where something stands in its file."""
    layout = FORMS[one.where.kind].layout
    if not layout:
        return one.values == other.values
    told = [{k: v for k, v in each.values.items() if k not in layout} for each in (one, other)]
    return told[0] == told[1]


def person_of(where: RecordKey) -> str | None:
    """Say whose record it is; None where it is the hall's own."""
    return None if privacy_of(where.kind) is Privacy.HALL else where.key


def privacy_of(kind: RecordKind) -> Privacy:
    """Say how private a kind of record is."""
    return PRIVACY[kind]


def named(where: RecordKey) -> str:
    """Name a record in words: 'room main_floor', 'limitations p003'."""
    return f"{where.kind.value.replace('_', ' ')} {where.key}".strip()


def _values(model: BaseModel, form: RecordForm) -> Plain:
    return model.model_dump(mode="json", by_alias=True, exclude=set(form.without) or None)


def _without_person(records: Iterable[Record]) -> list[Fault]:
    """Find records of people who are not there."""
    every = [one.where for one in records]
    known = {where.key for where in every if where.kind is RecordKind.PERSON}
    return [
        Fault(code="name.unknown", file=named(where), expected="a person of this hall")
        for where in every
        if PRIVACY[where.kind] is not Privacy.HALL and where.key not in known
    ]


def _fault(form: RecordForm, where: RecordKey, detail: object) -> Fault:
    told = described(form.model, detail)  # type: ignore[arg-type]
    value = shortened(told.value) if told.loc else ""
    return Fault(
        code=told.code,
        file=named(where),
        field=path_in_words(told.loc),
        value=HIDDEN if value and form.privacy is Privacy.HEALTH else value,
        expected=told.expected,
        nearest=() if form.privacy is Privacy.HEALTH else told.nearest,
    )

"""A person from a form: text fields into a checked row, with every fault beside its field."""

from collections.abc import Mapping
from decimal import Decimal, InvalidOperation

from pydantic import ValidationError

from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import Fault
from roundwright.foundation.quantities import GRAMS_PER_LB, mass_g
from roundwright.people.person import Person, Sex

EXPERIENCE = (
    ("1", "First classes"),
    ("2", "A few weeks"),
    ("3", "Regular"),
    ("4", "Well trained"),
    ("5", "Many years of training"),
)
"""What a coach says of somebody's training, and the level that stands for it."""
EXPECTED = {
    "shown_name": "1 to 40 characters",
    "birth_year": "a year such as 1980",
    "body_mass": "20 to 300 kg, 45 to 660 lb",
    "height": "80 to 250 cm",
    "sex": "one of the list",
    "level": "one of the list",
    "classes_done": "a number",
    "own_kit": "up to 200 characters",
}


def person_of_form(
    sent: Mapping[str, str], person_id: str, units: str, was: Person | None
) -> Person:
    """Make a person of what a form says; an empty field is unknown.

    Parameters
    ----------
    sent : mapping
        Text by field.
    units : str
        `kg` or `lb`: how the body mass was typed where it doesn't say so ('62 kg').
    was : Person, optional
        The person as they are; what the form does not hold stays.

    Raises
    ------
    BadInputError
        With every field that cannot be.
    """
    faults: list[Fault] = []
    typed_g = _typed_mass_g(sent.get("body_mass", ""), units, was, faults)
    height = _number(sent.get("height", ""), "height", faults)
    values: dict[str, object] = {} if was is None else was.model_dump()
    values |= {
        "person_id": person_id,
        "shown_name": sent.get("shown_name", ""),
        "birth_year": _whole(sent.get("birth_year", ""), "birth_year", faults),
        "sex": sent.get("sex") or Sex.UNSTATED.value,
        "body_mass_g": typed_g,
        "height_mm": None if height is None else int(height * 10),
        "level": _whole(sent.get("level", ""), "level", faults),
        "own_kit": sent.get("own_kit", ""),
    }
    if "classes_done" in sent:
        values["classes_done"] = _whole(sent["classes_done"], "classes_done", faults)
    try:
        made = Person.model_validate(values)
    except ValidationError as error:
        names = {"body_mass_g": "body_mass", "height_mm": "height"}
        told = {names.get(str(e["loc"][0]), str(e["loc"][0])) for e in error.errors()}
        faults += [_fault(name) for name in sorted(told - {f.field for f in faults})]
        raise BadInputError(faults) from error
    if faults:
        raise BadInputError(faults)
    return made


def mass_typed(person: Person, units: str) -> str:
    """Give the body mass as it stands in a form; empty where it is not known.

    Examples
    --------
    >>> someone = Person(person_id="p001", shown_name="Ann", body_mass_g=62_000)
    >>> mass_typed(someone, "kg"), mass_typed(someone, "lb")
    ('62', '136.7')
    """
    if person.body_mass_g is None:
        return ""
    grams = Decimal(person.body_mass_g)
    return f"{grams / GRAMS_PER_LB:.1f}" if units == "lb" else f"{(grams / 1000).normalize():f}"


def _typed_mass_g(text: str, units: str, was: Person | None, faults: list[Fault]) -> int | None:
    """Read a body mass; what stands there as it was shown stays to the gram."""
    if was is not None and text and text == mass_typed(was, units):
        return was.body_mass_g
    try:
        return mass_g(text, units) if text else None
    except ValueError:
        faults.append(_fault("body_mass"))
        return None


def _number(text: str, field: str, faults: list[Fault]) -> Decimal | None:
    if not text:
        return None
    try:
        value = Decimal(text.replace(",", "."))
        if value.is_finite() and abs(value) < 1_000_000:
            return value
    except InvalidOperation:
        pass
    faults.append(_fault(field))
    return None


def _whole(text: str, field: str, faults: list[Fault]) -> int | None:
    value = _number(text, field, faults)
    if value is not None and value != value.to_integral_value():
        faults.append(_fault(field))
        return None
    return None if value is None else int(value)


def _fault(field: str) -> Fault:
    return Fault(code="field.value", file="form", field=field, expected=EXPECTED[field])

"""What people.csv and limitations.csv hold, row by row.

Health values never show in a fault: the words that are allowed are said instead.
"""

from roundwright.foundation.faults import Fault
from roundwright.foundation.identifiers import is_slug, nearest_names
from roundwright.foundation.quantities import stored
from roundwright.hall.table_text import TableForm, TableRow, rows_of
from roundwright.library.vocabulary import Demand, StrengthFamily
from roundwright.people.demand_caps import never_by_coach
from roundwright.people.limitation import (
    MOST_WEEKS,
    WITH_WEEKS,
    Amount,
    Concern,
    Limitation,
    LimitedSide,
    OverrideRole,
    SetBy,
)
from roundwright.people.person import Clearance, Person, Sex

PEOPLE_COLUMNS = (
    "person_id",
    "shown_name",
    "birth_year",
    "sex",
    "body_mass_kg",
    "height_cm",
    "level",
    *(f"level_{family.value}" for family in StrengthFamily),
    "classes_done",
    "last_class_on",
    "clearance",
    "effort_only",
    "usual_chance_pct",
    "own_kit",
)
PEOPLE = TableForm(
    columns=PEOPLE_COLUMNS,
    required=frozenset({"person_id", "shown_name"}),
    hidden=frozenset({"clearance", "effort_only"}),
)
LIMITATION_COLUMNS = (
    "person_id",
    "region_or_condition",
    "side",
    "amount",
    "from_on",
    "until_on",
    "weeks",
    "set_by",
    "override_demand",
    "override_reason",
    "override_by",
    "override_until_on",
)
LIMITATIONS = TableForm(
    columns=LIMITATION_COLUMNS,
    required=frozenset({"person_id", "region_or_condition", "amount", "from_on"}),
    hidden=frozenset(LIMITATION_COLUMNS),
)
OVERRIDE = ("override_demand", "override_reason", "override_by", "override_until_on")
LONGEST = {"shown_name": 40, "own_kit": 200, "override_reason": 200}


def read_people(file: str, text: str) -> tuple[tuple[Person, ...], frozenset[str], list[Fault]]:
    """Read people.csv.

    Returns
    -------
    tuple
        The people without faults; every id that was given, also of people with
        faults, so that one fault does not make ten; the faults.
    """
    rows, faults = rows_of(file, text, PEOPLE)
    people: list[Person] = []
    ids: set[str] = set()
    for row in rows:
        person = _person(row)
        person_id = row.cells.get("person_id", "")
        if person_id in ids:
            row.fault("table.duplicate", "person_id", "each person once")
        ids.add(person_id)
        if person is not None and not row.faults:
            people.append(person)
        faults += row.faults
    return tuple(people), frozenset(ids), faults


def read_limitations(
    file: str, text: str, known: frozenset[str] | None
) -> tuple[tuple[Limitation, ...], list[Fault]]:
    """Read limitations.csv; `known` are the people, None when they could not be read."""
    rows, faults = rows_of(file, text, LIMITATIONS)
    found: list[Limitation] = []
    for row in rows:
        limitation = _limitation(row, known)
        if limitation is not None and not row.faults:
            if limitation in found:
                row.fault("table.duplicate", "person_id", "each limitation once")
            found.append(limitation)
        faults += row.faults
    return tuple(found), faults


def _slug(row: TableRow, column: str) -> str | None:
    cell = row.needed(column)
    if cell is not None and not is_slug(cell):
        row.fault("field.slug", column)
        return None
    return cell


def _limited(row: TableRow, column: str) -> str | None:
    cell = row.text(column)
    if cell is not None and len(cell) > LONGEST[column]:
        row.fault("field.range", column, f"at most {LONGEST[column]} characters")
        return None
    return cell


def _person(row: TableRow) -> Person | None:
    person_id = _slug(row, "person_id")
    shown_name = _limited(row, "shown_name") if row.needed("shown_name") else None
    mass = row.number("body_mass_kg", 20, 300)
    height = row.number("height_cm", 80, 250)
    by_family = {f: row.whole(f"level_{f.value}", 1, 5) for f in StrengthFamily}
    values = {
        "birth_year": row.whole("birth_year", 1900, 2100),
        "sex": Sex(row.one_of("sex", tuple(Sex)) or Sex.UNSTATED),
        "body_mass_g": None if mass is None else stored(mass * 1000),
        "height_mm": None if height is None else stored(height * 10),
        "level": row.whole("level", 1, 5),
        "level_by_family": {f: level for f, level in by_family.items() if level is not None},
        "classes_done": row.whole("classes_done", 0, 100_000),
        "last_class_on": row.day("last_class_on"),
        "clearance": Clearance(row.one_of("clearance", tuple(Clearance)) or Clearance.UNKNOWN),
        "effort_only": row.one_of("effort_only", ("yes", "no")) == "yes",
        "usual_chance_pct": row.whole("usual_chance_pct", 0, 100),
        "own_kit": _limited(row, "own_kit") or "",
    }
    if person_id is None or shown_name is None or row.faults:
        return None
    return Person.model_validate({"person_id": person_id, "shown_name": shown_name} | values)


def _limitation(row: TableRow, known: frozenset[str] | None) -> Limitation | None:
    person_id = _slug(row, "person_id")
    if person_id is not None and known is not None and person_id not in known:
        near = nearest_names(person_id, known)
        row.fault("name.unknown", "person_id", "a person_id of people.csv", near)
    for column in ("region_or_condition", "amount", "from_on"):
        if not row.cells.get(column):
            row.fault("field.missing", column)
    concern = row.one_of("region_or_condition", tuple(Concern))
    amount = row.one_of("amount", tuple(Amount))
    from_on = row.day("from_on")
    until_on = row.day("until_on")
    if from_on and until_on and until_on < from_on:
        row.fault("field.value", "until_on", "a date on or after from_on")
    weeks = row.whole("weeks", 0, MOST_WEEKS)
    if weeks is not None and concern is not None and concern not in WITH_WEEKS:
        row.fault("field.value", "weeks", f"empty, except for {' or '.join(WITH_WEEKS)}")
    demand = row.one_of("override_demand", tuple(Demand))
    override_by = row.one_of("override_by", tuple(OverrideRole))
    set_by = SetBy(row.one_of("set_by", tuple(SetBy)) or SetBy.PERSON)
    values = {
        "side": LimitedSide(row.one_of("side", tuple(LimitedSide)) or LimitedSide.NONE),
        "until_on": until_on,
        "weeks": weeks,
        "set_by": set_by,
        "override_demand": demand,
        "override_reason": _limited(row, "override_reason"),
        "override_by": override_by,
        "override_until_on": row.day("override_until_on"),
    }
    given = [column for column in OVERRIDE if row.cells.get(column)]
    absent = [column for column in OVERRIDE if not row.cells.get(column)]
    if given and absent:
        row.fault("limitation.override", absent[0], f"also {', '.join(absent)}")
    by_others = override_by is not None and override_by != OverrideRole.CLINICIAN
    kept_by_clinician = set_by is SetBy.CLINICIAN or (
        concern and demand and never_by_coach(Concern(concern), Demand(demand))
    )
    if by_others and kept_by_clinician:
        row.fault("limitation.clinician", "override_by", OverrideRole.CLINICIAN.value)
    if row.faults:
        return None
    return Limitation.model_validate(
        {"person_id": person_id, "concern": concern, "amount": amount, "from_on": from_on} | values
    )

"""Write the reference pages and schemas that follow from the typed models.

Run it after a model has changed; a test compares what it would write with what
is there, so that page, model and files cannot drift apart.
"""

import json
from collections.abc import Mapping
from enum import Enum
from pathlib import Path
from typing import Any

from pydantic import BaseModel

from roundwright.body.anatomy import Limb, Muscle, MuscleRole, Side
from roundwright.goals.class_wish import (
    AfterLastRound,
    ClassFormat,
    ClassWish,
    CountUnit,
    Pace,
    WorkRestWish,
)
from roundwright.hall.hall import HallSettings
from roundwright.kit.care import KitInspection, KitState
from roundwright.kit.inventory import Dumbbells, Fixture, KitItem, Room
from roundwright.kit.room_care import RoomCare
from roundwright.library import vocabulary
from roundwright.library.combination import Combination
from roundwright.library.line import ProgressionLine
from roundwright.library.movement import Movement
from roundwright.people.capacity import CapacitySource
from roundwright.people.clearance_record import ClearanceRecord, GivenBy
from roundwright.people.consents import Consent, Consents, EmergencyContact, Guardian
from roundwright.people.due import DueGrade, DueKind, MayAnswer
from roundwright.people.health_screen import AnsweredBy, HealthScreen
from roundwright.people.limitation import Amount, Concern, LimitedSide, OverrideRole
from roundwright.people.person import Clearance, Sex
from roundwright.people.screen_questions import Answer, Question
from roundwright.people.staff import Certificate, CertificateKind, StaffMember, Teaches
from roundwright.plan.attendance.attendance_table import AttendanceTable
from roundwright.plan.core import CellState, WindowKind
from roundwright.plan.cost_table import CostTable
from roundwright.plan.document import PlanDocument
from roundwright.plan.outcome import Budget, Status, StoppedBy
from roundwright.plan.rule_table import RuleTable
from roundwright.plan.verdict import Grade
from tools.differences_page import differences_page
from tools.interface_reference import interface_page
from tools.limits_page import limits_page
from tools.rights_page import rights_page

REFERENCE = Path(__file__).parents[1] / "docs" / "reference"
Schema = dict[str, Any]

VOCABULARIES: tuple[type[Enum], ...] = (
    vocabulary.Pattern,
    vocabulary.StrengthFamily,
    Muscle,
    MuscleRole,
    Side,
    Limb,
    vocabulary.Laterality,
    vocabulary.Demand,
    vocabulary.KitKind,
    vocabulary.KitUse,
    vocabulary.DoneAs,
    vocabulary.FigureSource,
    CountUnit,
    ClassFormat,
    Pace,
    WorkRestWish,
    AfterLastRound,
    Sex,
    Clearance,
    Concern,
    LimitedSide,
    Amount,
    OverrideRole,
    Question,
    Answer,
    AnsweredBy,
    GivenBy,
    DueKind,
    MayAnswer,
    DueGrade,
    KitState,
    CertificateKind,
    Teaches,
    CapacitySource,
    CellState,
    WindowKind,
    Grade,
    Status,
    StoppedBy,
    Budget,
)


def _model(model: type[BaseModel], without: tuple[str, ...] = ()) -> Schema:
    schema = model.model_json_schema(by_alias=True)
    for name in without:
        schema["properties"].pop(name)
        schema["required"] = [n for n in schema.get("required", []) if n != name]
    return schema


def _lifted(schema: Schema, definitions: Schema) -> Schema:
    definitions.update(schema.pop("$defs", {}))
    return schema


def _file(kind: str, number: int, parts: Mapping[str, Schema], closed: bool = True) -> Schema:
    definitions: Schema = {}
    properties: Schema = {"schema": {"const": f"roundwright.{kind}/{number}"}}
    for name, part in parts.items():
        properties[name] = part
    for part in parts.values():
        inner = part.get("additionalProperties") or part.get("items") or part
        if isinstance(inner, dict):
            _lifted(inner, definitions)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"roundwright.{kind}/{number}",
        "type": "object",
        "required": ["schema"],
        "additionalProperties": not closed,
        "properties": properties,
        "$defs": dict(sorted(definitions.items())),
    }


def _named(model: type[BaseModel]) -> Schema:
    return {"type": "object", "additionalProperties": _model(model, ("slug",))}


def _listed(model: type[BaseModel]) -> Schema:
    return {"type": "array", "items": _model(model)}


def _opened(model: type[BaseModel]) -> dict[str, Schema]:
    schema = _model(model)
    definitions = schema.get("$defs", {})
    parts = {name: dict(part) for name, part in schema["properties"].items()}
    first = next(iter(parts.values()))
    first["$defs"] = definitions
    return parts


def schemas() -> dict[str, Schema]:
    """Give the schema of each kind of file, by file name."""
    plan = PlanDocument.model_json_schema(by_alias=True)
    plan["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    plan["title"] = "roundwright.plan/1"
    return {
        "library.schema.json": _file(
            "library",
            1,
            {
                "movement": _named(Movement),
                "line": _named(ProgressionLine),
                "combination": _named(Combination),
            },
        ),
        "hall.schema.json": _file("hall", 1, _opened(HallSettings) | {"room": _listed(Room)}),
        "kit.schema.json": _file(
            "kit", 1, {"dumbbell": _listed(Dumbbells), "item": _listed(KitItem)}
        ),
        "class.schema.json": _file("class", 1, _opened(ClassWish)),
        "plan.schema.json": plan,
    }


def _words() -> str:
    lines = ["# Words of the files", "", "Closed lists, made from the code: one meaning each.", ""]
    for enum in VOCABULARIES:
        about = " ".join((enum.__doc__ or "").split())
        lines += [f"## {enum.__name__}", "", about, ""]
        lines += [", ".join(f"`{member.value}`" for member in enum), ""]
    return "\n".join(lines)


def _kind(part: Schema) -> str:
    if "$ref" in part:
        return str(part["$ref"]).rpartition("/")[2]
    if "anyOf" in part:
        return " or ".join(_kind(p) for p in part["anyOf"] if p.get("type") != "null")
    if "enum" in part:
        return " or ".join(str(v) for v in part["enum"])
    if part.get("type") == "array":
        return f"list of {_kind(part.get('items', {})) or 'values'}"
    if isinstance(part.get("type"), list):
        return f"text with unit ({part['examples'][0]})"
    if part.get("type") == "object" and isinstance(part.get("additionalProperties"), dict):
        return f"table of {_kind(part['additionalProperties'])}"
    return str(part.get("const") or part.get("type") or "")


def _range(part: Schema) -> str:
    names = {"minimum": "≥", "maximum": "≤", "exclusiveMinimum": ">", "exclusiveMaximum": "<"}
    found = [f"{sign} {part[key]}" for key, sign in names.items() if key in part]
    for inner in part.get("anyOf", []):
        found += [f"{sign} {inner[key]}" for key, sign in names.items() if key in inner]
    if "minItems" in part or "maxItems" in part:
        found.append(f"{part.get('minItems', 0)} to {part.get('maxItems', 'any')} of them")
    return ", ".join(found)


def _shown(value: object) -> str:
    if isinstance(value, dict):
        return ", ".join(f"{k} {v}" for k, v in value.items() if v not in (None, False))
    if isinstance(value, list):
        return " · ".join(_shown(item) for item in value)
    return str(value)


def _table(model: type[BaseModel], title: str) -> list[str]:
    schema = model.model_json_schema(by_alias=True)
    about = " ".join((model.__doc__ or "").split())
    lines = [f"## {title}", "", about, "", "| field | kind | needed | notes |", "|---|---|---|---|"]
    needed = set(schema.get("required", []))
    for name, part in schema["properties"].items():
        notes = [_range(part), part.get("description", "")]
        if "default" in part and part["default"] not in (None, "", [], {}):
            notes.append(f"default {_shown(part['default'])}")
        mark = "yes" if name in needed else ""
        lines.append(f"| `{name}` | {_kind(part)} | {mark} | {'; '.join(n for n in notes if n)} |")
    return [*lines, ""]


def _files() -> str:
    lines = [
        "# Fields of the files",
        "",
        "Made from the typed models; the JSON schemas beside this page are the same models.",
        "How to write each file by hand: the pages under how-to.",
        "",
    ]
    for model, title in (
        (HallSettings, "hall.toml: settings"),
        (Room, "hall.toml: [[room]]"),
        (Fixture, "hall.toml: fixture of a [[room]]"),
        (Dumbbells, "kit.toml: [[dumbbell]]"),
        (KitItem, "kit.toml: [[item]]"),
        (HealthScreen, "screens.toml: [[screen]]"),
        (ClearanceRecord, "screens.toml: [[clearance]]"),
        (Consents, "consents.toml: [[consent]]"),
        (Consent, "consents.toml: data, health_data and training"),
        (Guardian, "consents.toml: guardian"),
        (EmergencyContact, "consents.toml: emergency_contact"),
        (KitInspection, "care.toml: [[inspection]]"),
        (RoomCare, "care.toml: [[room]]"),
        (StaffMember, "staff.toml: [[member]]"),
        (Certificate, "staff.toml: certificate"),
        (ClassWish, "classes/<slug>.toml"),
        (Movement, "library: [movement.<slug>]"),
        (ProgressionLine, "library: [line.<slug>]"),
        (Combination, "library: [combination.<slug>]"),
    ):
        lines += _table(model, title)
    return "\n".join(lines)


def _figures() -> str:
    lines = [
        "# Figures that can be changed",
        "",
        "Every figure that the maker of plans and the gate obey, with its default and its tag",
        "(CP: common practice, no source). They travel inside each plan's problem.",
        "",
    ]
    lines += _table(RuleTable, "Rules") + _table(CostTable, "Prices, in points")
    lines += _table(AttendanceTable, "Who comes (these are not in a plan's problem)")
    return "\n".join(lines)


def pages() -> dict[Path, str]:
    """Give everything this program would write, by path."""
    made = {
        REFERENCE / "words.md": _words(),
        REFERENCE / "files.md": _files(),
        REFERENCE / "figures.md": _figures(),
        REFERENCE / "interface.md": interface_page(),
        REFERENCE / "limits.md": limits_page(),
        REFERENCE / "rights.md": rights_page(),
        REFERENCE / "model-differences.md": differences_page(),
    }
    for name, schema in schemas().items():
        text = json.dumps(schema, indent=1, ensure_ascii=False, sort_keys=True)
        made[REFERENCE / "schemas" / name] = text + "\n"
    return {path: text.rstrip("\n") + "\n" for path, text in made.items()}


def main() -> None:
    """Write the pages."""
    (REFERENCE / "schemas").mkdir(parents=True, exist_ok=True)
    for path, text in pages().items():
        path.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()

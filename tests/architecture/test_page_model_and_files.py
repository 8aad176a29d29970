"""Page, model and files say the same: schemas are made from models and hold for real files."""

import json
import tomllib
from functools import cache
from importlib.resources import files
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from tests.support.plans import a_fitted_plan
from tools import write_reference
from tools.write_reference import VOCABULARIES, pages

from roundwright.demo.tern_quay import demo_hall_folder

MOVEMENTS = sorted(
    (Path(str(path)) for path in files("roundwright.library.movements").iterdir()),
    key=lambda path: path.name,
)


schemas = cache(write_reference.schemas)


def test_what_is_written_is_what_the_models_say():
    made = pages()
    assert len(made) >= 11
    differ = [path.name for path, text in made.items() if path.read_text(encoding="utf-8") != text]
    assert differ == [], "run tools/write_reference.py"


def _holds(name: str, document: object) -> list[str]:
    validator = Draft202012Validator(schemas()[name])
    return [f"{list(e.absolute_path)}: {e.message}" for e in validator.iter_errors(document)]


def _toml(path: Path) -> dict[str, object]:
    return json.loads(json.dumps(tomllib.loads(path.read_text(encoding="utf-8")), default=str))


@pytest.mark.parametrize(
    "path", [p for p in MOVEMENTS if p.suffix == ".toml"], ids=lambda p: p.stem
)
def test_the_shipped_library_holds_the_schema(path):
    assert _holds("library.schema.json", _toml(path)) == []


def test_the_demo_hall_holds_the_schemas():
    hall = demo_hall_folder()
    assert _holds("hall.schema.json", _toml(hall / "hall.toml")) == []
    assert _holds("kit.schema.json", _toml(hall / "kit.toml")) == []
    for path in (hall / "classes").glob("*.toml"):
        assert _holds("class.schema.json", _toml(path)) == []


def test_a_fitted_plan_holds_the_schema():
    plan = a_fitted_plan().model_dump(mode="json", by_alias=True)
    assert _holds("plan.schema.json", plan) == []


def test_the_schemas_refuse_what_the_models_refuse():
    assert _holds(
        "kit.schema.json", {"schema": "roundwright.kit/1", "dumbbell": [{"mass": "8 kg"}]}
    )
    assert _holds("library.schema.json", {"schema": "roundwright.library/2"})
    assert _holds("class.schema.json", {"schema": "roundwright.class/1", "moves": []})


def test_every_closed_list_is_on_the_page_of_words():
    text = (Path(__file__).parents[2] / "docs" / "reference" / "words.md").read_text("utf-8")
    assert len(VOCABULARIES) > 20
    for enum in VOCABULARIES:
        for member in enum:
            assert f"`{member.value}`" in text

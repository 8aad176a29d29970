"""``roundwright print``: the demo class on paper, judged by today, without a word of health."""

import json
from io import BytesIO
from pathlib import Path
from typing import NamedTuple

import pytest
from pypdf import PdfReader

from roundwright.cli.main import main
from roundwright.demo.tern_quay import DEMO_CLASS
from roundwright.store.plan_files import read_plan
from tests.shows.test_privacy_canary import HEADER, ROWS, marked_hall

CANARIES = ("zzmarkedword", "osteoporosis", "epilep", "asthma", "hypertens", "pregnan", "diabet")
ALLOWED = ("pregnancy or a birth within a year", "pregnancy or birth within a year")
"""The walk-in's second question, the same on every class sheet."""
FILES = {
    "class_sheet": 2,
    "station_cards": 3,
    "personal_sheets": 13,
    "kit_and_floor": 1,
    "script": 3,
}


class Fitted(NamedTuple):
    hall: Path
    plan: Path
    folder: Path


@pytest.fixture(scope="module")
def fitted(tmp_path_factory) -> Fitted:
    folder = tmp_path_factory.mktemp("print")
    more = "p006,pregnancy,none,avoid,2025-12-02,,,,,\np007,asthma,none,ease,2025-12-02,,,,,\n"
    hall = marked_hall(folder, ROWS + more + "p008,diabetes,none,ease,2025-09-01,,,,,\n")
    plans = folder / "plans"
    made = ["fit", str(hall), DEMO_CLASS, "--on", "2026-03-03", "--budget", "quick"]
    assert main([*made, "--out", str(plans)]) == 0
    return Fitted(hall, next(plans.glob("*.json")), folder)


@pytest.fixture(scope="module")
def printed(fitted) -> dict[str, str]:
    """Print everything both ways, and give the text of each file."""
    texts = {}
    for form in ("pdf", "html"):
        out = fitted.folder / form
        more = ["--html"] if form == "html" else ["--names"]
        assert main([*_print(fitted), "--out", str(out), *more]) == 0
        for path in out.iterdir():
            texts[path.name] = _text(path)
    return texts


def _print(fitted: Fitted) -> list[str]:
    return ["print", str(fitted.plan), "--hall", str(fitted.hall)]


def _text(path: Path) -> str:
    if path.suffix != ".pdf":
        return path.read_text(encoding="utf-8")
    reader = PdfReader(BytesIO(path.read_bytes()))
    meta = " ".join(str(value) for value in (reader.metadata or {}).values())
    return meta + " ".join(" ".join(page.extract_text().split()) for page in reader.pages)


def test_everything_is_printed_when_nothing_is_said(printed):
    names = {f"{name}.{form}" for name in FILES for form in ("pdf", "html")}
    assert set(printed) == names | {"class.ics"}


def test_no_word_of_health_stands_on_any_of_it(printed):
    assert "no sit-ups: trunk stays long" in printed["personal_sheets.pdf"].lower()
    for name, text in printed.items():
        told = text.lower()
        for words in ALLOWED:
            told = told.replace(words, "")
        for word in CANARIES:
            assert word not in told, (name, word)


def test_nobody_stands_on_cards_and_everybody_has_a_sheet(fitted, printed):
    rows = (fitted.hall / "people.csv").read_text(encoding="utf-8").splitlines()[1:]
    names = dict(row.split(",")[:2] for row in rows)
    taking_part = [p.person_id for p in read_plan(fitted.plan).core.people]
    assert len(taking_part) == FILES["personal_sheets"]
    for person_id in taking_part:
        for form in ("pdf", "html"):
            assert names[person_id] in printed[f"personal_sheets.{form}"]
            assert names[person_id] not in printed[f"station_cards.{form}"]


@pytest.mark.parametrize("name", FILES)
def test_the_demo_class_keeps_to_its_pages(fitted, printed, name):
    assert f"{name}.pdf" in printed
    made = PdfReader(BytesIO((fitted.folder / "pdf" / f"{name}.pdf").read_bytes()))
    assert len(made.pages) == FILES[name]


def test_only_what_is_asked_for_is_printed_and_told_as_one_document(fitted, tmp_path, capsys):
    what = ["--what", "script", "--what", "calendar", "--what", "script"]
    assert main([*_print(fitted), "--out", str(tmp_path), *what, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["schema"] == "roundwright.print/1"
    assert [Path(f).name for f in told["files"]] == ["script.pdf", "class.ics"]
    assert sorted(path.name for path in tmp_path.iterdir()) == ["class.ics", "script.pdf"]


def test_a_plan_that_today_stops_is_not_printed(fitted, tmp_path, capsys):
    people = fitted.hall / "people.csv"
    before = people.read_text(encoding="utf-8")
    head, *rows = before.splitlines()
    place = head.split(",").index("clearance")
    cells = rows[0].split(",")
    cells[place] = "not_cleared"
    try:
        people.write_text("\n".join([head, ",".join(cells), *rows[1:]]) + "\n", encoding="utf-8")
        assert main([*_print(fitted), "--out", str(tmp_path / "out")]) == 4
    finally:
        people.write_text(before, encoding="utf-8")
    told = capsys.readouterr()
    assert "clear" in told.err
    assert not (tmp_path / "out").exists()


def test_a_limitation_said_since_reaches_a_plan_that_was_changed(fitted, tmp_path, capsys):
    """Something that a change said stays, and what the hall learned meanwhile holds too."""
    document = read_plan(fitted.plan)
    core = document.core.model_copy(update={"revision": 2, "parent_revision": 1})
    changed = tmp_path / "changed.json"
    kept = document.model_copy(update={"core": core})
    changed.write_text(kept.model_dump_json(by_alias=True), encoding="utf-8")
    rows = fitted.hall / "limitations.csv"
    before = rows.read_text(encoding="utf-8")
    args = ["print", str(changed), "--hall", str(fitted.hall), "--what", "calendar"]
    assert main([*args, "--out", str(tmp_path / "same")]) == 0
    try:
        more = "p011,knee,both,avoid,2026-03-03,,,,,\np009,shoulder,both,avoid,2026-03-03,,,,,\n"
        rows.write_text(before + more, encoding="utf-8")
        assert main([*args, "--out", str(tmp_path / "other")]) == 4
    finally:
        rows.write_text(before, encoding="utf-8")
    assert before.startswith(HEADER)
    assert not (tmp_path / "other").exists()
    assert "knee" not in capsys.readouterr().out


def test_without_a_hall_it_says_how_it_is_used(fitted, tmp_path):
    assert main(["print", str(fitted.plan), "--out", str(tmp_path)]) == 2


def test_a_folder_that_cannot_be_written_is_told(fitted, tmp_path, capsys):
    file = tmp_path / "a_file"
    file.write_text("", encoding="utf-8")
    what = ["--what", "calendar"]
    assert main([*_print(fitted), "--out", str(file), *what]) == 9
    assert "could not be written" in capsys.readouterr().err

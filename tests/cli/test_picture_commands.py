"""Commands that draw, compare, and lay the body model beside authors and publications."""

import json
import xml.etree.ElementTree as ET
from pathlib import Path
from threading import Timer

import pytest

from roundwright.bootstrap import shipped_bodies as module
from roundwright.bootstrap.file_watch import saves_of
from roundwright.cli.main import main
from roundwright.foundation.words import in_sentence

GOOD = """schema = "roundwright.posture/1"
[posture.my_squat]
like = "dumbbell_squat"
hold = "none"
"""
BAD = """schema = "roundwright.posture/1"
[posture.my_squat]
like = "dumbbell_squat"
[[posture.my_squat.key]]
name = "low"
knee = 20
height = { hips = 0.30 }
"""


def told(capsys: pytest.CaptureFixture[str], *words: str) -> dict:
    assert main([*words, "--json"]) == 0
    return json.loads(capsys.readouterr().out)


def test_a_movement_is_drawn_key_by_key_and_as_a_strip(tmp_path: Path, capsys) -> None:
    files = told(capsys, "library", "draw", "burpee", "--out", str(tmp_path / "new"))["files"]
    assert len(files) == 6
    for file in files:
        root = ET.parse(file).getroot()
        assert root.tag.endswith("svg")
    strip = ET.parse(tmp_path / "new" / "burpee.svg").getroot()
    assert len([each for each in strip if each.tag.endswith("svg")]) == 5


def test_a_combination_is_drawn_as_one_strip(tmp_path: Path, capsys) -> None:
    (file,) = told(capsys, "library", "draw", "squat_press", "--out", str(tmp_path))["files"]
    root = ET.parse(file).getroot()
    inside = [each for each in root if each.tag.endswith("svg")]
    assert len(inside) >= 4
    right = [float(each.attrib["x"]) + float(each.attrib["width"]) for each in inside]
    assert right[-1] <= float(root.attrib["viewBox"].split()[2]) + 0.2
    starts = [float(each.attrib["x"]) for each in inside]
    assert all(b > a for a, b in zip(right, starts[1:], strict=False))


def test_an_unknown_name_is_told_with_the_nearest(capsys) -> None:
    assert main(["library", "draw", "burpees_x"]) == 7
    assert "burpee" in capsys.readouterr().err


def test_the_sheet_has_every_movement_and_writes_over_nothing(tmp_path: Path, capsys) -> None:
    page = tmp_path / "all.html"
    assert main(["library", "sheet", str(page)]) == 0
    text = page.read_text(encoding="utf-8")
    assert text.count("<section>") == 243
    assert "Goblet squat (squat)" in text
    assert main(["library", "sheet", str(page)]) == 9


def test_ones_own_postures_are_drawn_and_their_faults_told(tmp_path: Path, capsys) -> None:
    file = tmp_path / "mine.toml"
    file.write_text(GOOD, encoding="utf-8")
    out = tmp_path / "pictures"
    assert main(["library", "watch", str(file), "--once", "--out", str(out)]) == 0
    assert (out / "my_squat-2-low.svg").is_file()
    file.write_text(BAD, encoding="utf-8")
    assert main(["library", "watch", str(file), "--once", "--out", str(out)]) == 3
    assert "misses" in capsys.readouterr().err
    assert main(["library", "watch", str(tmp_path / "none.toml"), "--once"]) == 7


def test_two_versions_are_compared_in_words_with_label_and_sensitivity(
    tmp_path: Path, capsys
) -> None:
    page = tmp_path / "pair.html"
    words = ("library", "compare", "wall_sit", "dumbbell_squat", "--page", str(page))
    found = told(capsys, *words)
    assert found["label"] == "estimate for holding still"
    assert "8 degrees" in found["sensitivity"]
    assert "not what a joint can stand" in found["caution"]
    assert len(found["one"]["bands"]) == len(found["joints"]) == 7
    text = page.read_text(encoding="utf-8")
    assert text.count("<svg") == 2 + 2
    assert "Estimate for holding still" in text
    for forbidden in ("spare", "safe for", "injury"):
        assert forbidden not in text.casefold()


def test_only_what_is_a_fifth_apart_is_said(capsys) -> None:
    same = told(capsys, "library", "compare", "goblet_squat", "goblet_squat")
    assert same["said"] == ["When held, neither asks clearly less of any joint."]
    apart = told(capsys, "library", "compare", "wall_push_up", "floor_push_up")
    assert f"Wall push-up {in_sentence('asks less of the shoulder when held.')}" in apart["said"]
    unknown = told(capsys, "library", "compare", "seated_band_row", "seated_lean_row")
    assert [words.split(":")[0] for words in unknown["said"]] == ["They cannot be compared"]
    assert set(unknown["one"]["bands"]) == {"not known"}
    assert main(["library", "compare", "wall_push_up", "nothing_such"]) == 7


def test_what_the_model_says_of_a_movement_stands_with_its_entry(capsys) -> None:
    push_up = told(capsys, "library", "show", "floor_push_up")["body_model"]
    assert push_up["label"] == "estimate for holding still"
    assert push_up["share_on_hands"] == pytest.approx(0.66, abs=0.03)
    assert push_up["bands"]["knee"] in ("little", "some")
    row = told(capsys, "library", "show", "seated_lean_row")["body_model"]
    assert row["degrees_by_model"] == {"hip": "1, the author gave 0"}
    burpee = told(capsys, "library", "show", "burpee")["body_model"]
    assert "jump" in burpee["key_positions_without_figures"]
    assert told(capsys, "library", "show", "presses")["body_model"] == {}
    assert main(["library", "show", "goblet_squat"]) == 0
    assert "body model:" in capsys.readouterr().out


def test_differences_are_listed_with_who_holds(capsys) -> None:
    found = told(capsys, "library", "differences")
    holds = {(d["movement"], d["what"]): d["holds"] for d in found["differences"]}
    assert holds["seated_lean_row", "hip"] == "model"
    assert all(
        holder == "author"
        for (_, what), holder in holds.items()
        if what in ("floor", "lifted_share")
    )
    total = {a["same"] + a["author_higher"] + a["model_higher"] for a in found["agreement"]}
    assert total == {243}


def test_accuracy_prints_errors_beside_published_figures(capsys) -> None:
    found = told(capsys, "library", "accuracy")
    assert len(found) == 11
    for each in found:
        assert each["error"] == pytest.approx(each["model"] - each["value"])
        assert each["source"]
    assert main(["library", "accuracy"]) == 0
    out = " ".join(capsys.readouterr().out.split())
    assert "not fitted" in out
    assert "pushup-load-suprak" in out


def test_checking_the_shipped_library_checks_its_postures_too(capsys, monkeypatch) -> None:
    kept = module.shipped_degrees()
    module.shipped_bodies.cache_clear()
    monkeypatch.setattr(
        module, "shipped_degrees", lambda: kept.model_copy(update={"bands": "0" * 64})
    )
    assert main(["library", "check"]) == 3
    assert "anew" in capsys.readouterr().err
    module.shipped_bodies.cache_clear()


def test_a_save_is_noticed(tmp_path: Path) -> None:
    file = tmp_path / "mine.toml"
    file.write_text(GOOD, encoding="utf-8")
    saves = saves_of(file)
    next(saves)
    later = Timer(0.5, file.write_text, (BAD,), {"encoding": "utf-8"})
    later.start()
    next(saves)
    later.join()
    assert file.read_text(encoding="utf-8") == BAD

"""What holds for every file: size, words, one gate, one clock, codes that are used."""

import re
from pathlib import Path

import pytest

from roundwright.foundation.fault_codes import CODES

ROOT = Path(__file__).parents[2]
SOURCE = sorted((ROOT / "src").rglob("*.py"))
TESTS = sorted((ROOT / "tests").rglob("*.py"))


def test_there_is_something_to_look_at():
    assert len(SOURCE) > 40
    assert len(TESTS) > 10


@pytest.mark.parametrize("path", SOURCE + TESTS, ids=lambda p: str(p.relative_to(ROOT)))
def test_files_stay_under_400_lines_and_leave_nothing_open(path):
    text = path.read_text(encoding="utf-8")
    assert text.count("\n") <= 400
    if path != Path(__file__):
        assert not re.search(r"\b(TODO|FIXME|XXX)\b|pytest\.(skip|mark\.xfail)", text)


def test_only_the_gate_makes_a_checked_plan():
    makers = [
        str(path.relative_to(ROOT))
        for path in SOURCE
        if re.search(r"(?<!class )\bCheckedPlan\(", path.read_text(encoding="utf-8"))
    ]
    assert makers == ["src/roundwright/plan/gate/checked_plan.py"]


def test_only_the_clock_reads_the_time():
    readers = [
        str(path.relative_to(ROOT))
        for path in SOURCE
        if re.search(
            r"\b(perf_counter|monotonic|time_ns|utcnow|(datetime|date)\.(now|today))\(", _code(path)
        )
    ]
    assert set(readers) <= {"src/roundwright/bootstrap/system_clock.py"}


def test_every_code_of_the_table_is_used():
    text = "\n".join(path.read_text(encoding="utf-8") for path in SOURCE)
    unused = [code for code in CODES if text.count(f'"{code}"') < 2]
    assert unused == []


def test_every_package_says_what_it_is_for():
    for path in (ROOT / "src").rglob("__init__.py"):
        assert path.read_text(encoding="utf-8").startswith('"""'), path


def _code(path: Path) -> str:
    return re.sub(r'""".*?"""', "", path.read_text(encoding="utf-8"), flags=re.S)

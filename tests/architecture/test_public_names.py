"""The public interface is an explicit list, typed, lazily loaded, and it does the job."""

import subprocess
import sys
from datetime import date

import pytest

import roundwright
from roundwright.demo.tern_quay import DEMO_CLASS, demo_hall_folder


def test_the_public_names_are_these():
    assert roundwright.__all__ == sorted(roundwright.__all__)
    assert all(callable(getattr(roundwright, name)) for name in roundwright.__all__)
    with pytest.raises(AttributeError, match="no 'manage'"):
        roundwright.manage  # noqa: B018


def test_the_domain_loads_no_solver_printer_or_server():
    code = (
        "import sys, roundwright.plan.gate.judge, roundwright.hall.hall_text\n"
        "heavy = {'highspy', 'scipy', 'typst', 'fastapi', 'typer'} & set(sys.modules)\n"
        "sys.exit(str(heavy) if heavy else 0)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_from_a_hall_to_a_printed_sheet_in_plain_functions(tmp_path):
    hall = roundwright.read_hall(demo_hall_folder())
    fitted = roundwright.fit(hall, DEMO_CLASS, on=date(2026, 3, 3))
    assert fitted.document is not None
    path = roundwright.keep_plan(fitted.document, tmp_path)
    again = roundwright.read_plan(path)
    assert again.core.digest == fitted.document.core.digest
    assert roundwright.check(again, hall).refusal is None
    assert roundwright.count(again).total_s == again.verdict.total_s
    assert roundwright.class_sheet(again, hall).startswith(b"%PDF-")
    assert len(roundwright.shipped_library().movements) >= 20

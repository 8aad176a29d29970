"""Where the demonstration hall is: Tern Quay Hall, invented from door to rack."""

from importlib.resources import files
from pathlib import Path

DEMO_CLASS = "tuesday_circuit"
"""The class of the demonstration hall that everything is shown with."""


def demo_hall_folder() -> Path:
    """Give the folder of Tern Quay Hall as it was installed. Copy it before changing it."""
    return Path(str(files("roundwright.demo") / "tern_quay_hall"))

"""What the figures were taken on."""

import os
import platform
from importlib.metadata import version

PACKAGES = ("roundwright", "highspy", "ortools", "scipy", "numpy")


def machine() -> dict[str, object]:
    """Say system, cores and versions."""
    return {
        "system": platform.system(),
        "machine": platform.machine(),
        "cores": os.cpu_count(),
        "python": platform.python_version(),
        "versions": {name: version(name) for name in PACKAGES},
    }

"""Solve the postures of the shipped library and write their figures into the package.

One file of figures for each file of postures, one movement a line. Rows whose
posture and model are unchanged are kept, so that after a change only what
changed is solved (about 0.6 s of one core a posture; all of them some minutes).
A test solves a part of them anew; a stale row is a fault.
Run: python -m tools.write_body_table
"""

import sys
import tomllib
from pathlib import Path

from roundwright.body.body_table import BodyTable, make_body_table
from roundwright.body.posture_text import read_postures
from roundwright.body.table_text import read_table_text, table_text
from roundwright.bootstrap.shipped_bodies import DEGREES, shipped_table
from roundwright.bootstrap.shipped_library import authored_catalogue
from roundwright.library.degree_file import degree_text, degrees_of

LIBRARY = Path(__file__).parents[1] / "src" / "roundwright" / "library"
POSTURES, FIGURES = LIBRARY / "postures", LIBRARY / "body_figures"


def kept_rows(path: Path) -> BodyTable | None:
    """Read a table made before; None when there is none that can be read."""
    if not path.is_file():
        return None
    return read_table_text(path.name, path.read_text(encoding="utf-8"))[0]


def main() -> int:
    """Write all files that changed and tell every posture that fails a gate."""
    texts = {
        path.name: path.read_text(encoding="utf-8") for path in sorted(POSTURES.glob("*.toml"))
    }
    postures, faults = read_postures(texts)
    wanted = set()
    for file, text in () if faults else texts.items():
        path = FIGURES / file.replace(".toml", ".json")
        wanted.add(path)
        own = [postures[slug] for slug in tomllib.loads(text)["posture"]]
        table, failed = make_body_table(own, file, kept_rows(path))
        path.write_text(table_text(table), encoding="utf-8")
        faults += failed
        sys.stdout.write(f"{path.name}: {len(table.movements)}\n")
        sys.stdout.flush()
    if not faults:
        for path in set(FIGURES.glob("*.json")) - wanted:
            path.unlink()
        degrees = degrees_of(authored_catalogue().movements, postures, shipped_table())
        (FIGURES / DEGREES).write_text(degree_text(degrees), encoding="utf-8")
    for fault in faults:
        sys.stderr.write(f"{fault.file} {fault.field}: {fault.value}\n")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())

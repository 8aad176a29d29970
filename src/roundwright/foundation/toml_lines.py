"""At which line of a TOML text each table and key stands.

The standard reader gives values without places; a fault without its line is
no help. This scanner only locates: it never interprets values.
"""

import re

_TABLE = re.compile(r"^\s*(\[\[?)\s*([^\]]+?)\s*\]\]?\s*(?:#.*)?$")
_KEY = re.compile(r"^\s*([A-Za-z0-9_.\-\"]+)\s*=\s*(.*)$")

Path = tuple[str | int, ...]


def lines_of(text: str) -> dict[Path, int]:
    r"""Map each path (table names, list places, key) to its 1-based line.

    Examples
    --------
    >>> lines_of("a = 1\n[[room]]\nid = 'x'\n")
    {('a',): 1, ('room', 0): 2, ('room', 0, 'id'): 3}
    """
    places: dict[Path, int] = {}
    counts: dict[Path, int] = {}
    here: Path = ()
    closing = ""
    depth = 0
    for number, line in enumerate(text.splitlines(), start=1):
        if closing:
            if closing in line:
                closing = ""
            continue
        if depth > 0:
            depth += _brackets(line)
            continue
        if table := _TABLE.match(line):
            here = _table_path(table[2], table[1] == "[[", counts)
            places.setdefault(here, number)
        elif key := _KEY.match(line):
            path = here + tuple(part.strip('"') for part in key[1].split("."))
            places.setdefault(path, number)
            value = key[2]
            for quotes in ('"""', "'''"):
                if value.count(quotes) % 2 == 1:
                    closing = quotes
            if not closing:
                depth = max(0, _brackets(value))
    return places


def line_of(places: dict[Path, int], path: Path) -> int | None:
    """Give the line of a path, or of the nearest table around it."""
    for length in range(len(path), 0, -1):
        if path[:length] in places:
            return places[path[:length]]
    return None


def _table_path(name: str, is_list: bool, counts: dict[Path, int]) -> Path:
    path: Path = ()
    parts = [part.strip().strip('"') for part in name.split(".")]
    for index, part in enumerate(parts):
        path = (*path, part)
        last = index == len(parts) - 1
        if last and is_list:
            counts[path] = counts.get(path, -1) + 1
        if path in counts:
            path = (*path, counts[path])
    return path


def _brackets(line: str) -> int:
    bare = re.sub(r'"(?:[^"\\]|\\.)*"|\'[^\']*\'|#.*$', "", line)
    return bare.count("[") + bare.count("{") - bare.count("]") - bare.count("}")

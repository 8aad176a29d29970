"""``roundwright library``: look into the library; start and check a file of one's own."""

from pathlib import Path
from typing import Annotated, Any

import typer

from roundwright.bootstrap.shipped_bodies import shipped_bodies
from roundwright.bootstrap.wiring import wired
from roundwright.cli import picture_commands
from roundwright.cli.faults_shown import print_json
from roundwright.cli.fit_command import AsJson
from roundwright.cli.tables_shown import print_table, say
from roundwright.services.check_library import check_library, movements_without_posture
from roundwright.services.library_template import library_template
from roundwright.services.list_library import list_library, show_entry
from roundwright.services.model_figures import model_figures

library = typer.Typer(
    name="library",
    help="Look into the library, or write and check a file of your own.",
    no_args_is_help=True,
    rich_markup_mode=None,
)


@library.command("list")
def list_entries(as_json: AsJson = False) -> None:
    """List movements, progression lines and combinations."""
    listed = list_library(wired().catalogue())
    if as_json:
        print_json(listed)
        return
    for kind, entries in listed.items():
        rows = [[e["slug"], e["name"], _what(e)] for e in entries]
        say(f"{kind.capitalize()} ({len(rows)})")
        print_table(("Short name", "Name", "What it is"), [rows])


@library.command("show")
def show(
    slug: Annotated[str, typer.Argument(metavar="SLUG", help="The entry's short name.")],
    as_json: AsJson = False,
) -> None:
    """Show all that is known of one entry."""
    adapters = wired()
    entry = show_entry(adapters.catalogue(), slug)
    bodies = shipped_bodies()
    entry["body_model"] = model_figures(adapters.catalogue(), bodies.postures, bodies.table, slug)
    if as_json:
        print_json(entry)
        return
    say(f"{entry['name']} ({entry['kind']})")
    for line in _lines({k: v for k, v in entry.items() if k not in ("name", "kind")}, 0):
        say(line)


@library.command("check")
def check(
    files: Annotated[
        list[Path] | None,
        typer.Argument(metavar="[FILE]...", help="Your own files; none: the shipped library."),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Check library files: every fault at once, with its line."""
    adapters = wired()
    texts = {str(path): adapters.text(path) for path in files or ()}
    if not files:
        adapters.check_bodies()
    counts = check_library(texts, adapters.catalogue(), adapters.postures)
    bare = movements_without_posture(texts, adapters.catalogue()) if texts else ()
    if as_json:
        print_json(counts)
        return
    words = ", ".join(f"{number} {kind}" for kind, number in counts.items())
    say(f"No faults: {words}, the shipped ones included.")
    if bare:
        say(f"Without a posture, and so without pictures: {', '.join(bare)}.")


@library.command("template")
def template(
    file: Annotated[
        Path | None,
        typer.Argument(metavar="[FILE]", help="A new file; none: it is printed."),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Write a library file to start from: an example of each kind, with notes."""
    text = library_template()
    if file is not None:
        wired().write_new_text(file, text)
    if as_json:
        print_json({"file": None if file is None else str(file), "text": text})
    elif file is None:
        typer.echo(text, nl=False)
    else:
        say(f"Written: {file}. Change what is yours, then: roundwright library check {file}")


def _what(entry: dict[str, Any]) -> str:
    if "versions" in entry:
        return ", ".join(entry["versions"])
    if "parts" in entry:
        return ", ".join(part["line"] for part in entry["parts"])
    return str(entry["pattern"]).replace("_", " ")


def _lines(value: Any, depth: int) -> list[str]:
    """Give a nested entry as indented lines, empty fields left out."""
    pad = "  " * depth
    lines: list[str] = []
    if isinstance(value, dict):
        for key, inner in value.items():
            if inner is None or inner in ("", [], {}):
                continue
            word = str(key).replace("_", " ")
            if isinstance(inner, dict | list):
                lines.append(f"{pad}{word}:")
                lines += _lines(inner, depth + 1)
            else:
                lines.append(f"{pad}{word}: {inner}")
    elif isinstance(value, list):
        for inner in value:
            if isinstance(inner, dict):
                flat = ", ".join(f"{k.replace('_', ' ')} {v}" for k, v in inner.items())
                lines.append(f"{pad}- {flat}")
            else:
                lines.append(f"{pad}- {inner}")
    return lines


picture_commands.add_to(library)

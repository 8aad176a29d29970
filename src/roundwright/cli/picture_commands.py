"""``roundwright library``: draw movements, compare two, see where model and author differ."""

from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path
from typing import Annotated

import typer

from roundwright.body.published import checked_figures
from roundwright.bootstrap.shipped_bodies import checked_postures, shipped_bodies
from roundwright.bootstrap.shipped_library import authored_catalogue
from roundwright.bootstrap.wiring import wired
from roundwright.cli.faults_shown import print_json
from roundwright.cli.fit_command import AsJson
from roundwright.cli.tables_shown import plain, print_table, say
from roundwright.documents.comparison_html import comparison_html
from roundwright.foundation.errors import BadInputError
from roundwright.foundation.faults import Fault
from roundwright.services.compare_versions import compare_versions
from roundwright.services.draw_movements import drawings, own_drawings, whole_sheet
from roundwright.services.model_differences import agreement, differences

Out = Annotated[
    Path, typer.Option("--out", metavar="FOLDER", help="Where the pictures go; made if missing.")
]
Movement = Annotated[str, typer.Argument(metavar="SLUG", help="A movement's short name.")]


def add_to(library: typer.Typer) -> None:
    """Add these commands to those of the library."""
    library.command("draw")(draw)
    library.command("sheet")(sheet)
    library.command("watch")(watch)
    library.command("compare")(compare)
    library.command("differences")(show_differences)
    library.command("accuracy")(accuracy)


def draw(
    slug: Annotated[
        str, typer.Argument(metavar="SLUG", help="A movement's or combination's short name.")
    ],
    out: Out = Path("pictures"),
    as_json: AsJson = False,
) -> None:
    """Draw a movement or combination as SVG files; files of those names are written over."""
    bodies, adapters = shipped_bodies(), wired()
    made = drawings(adapters.catalogue(), bodies.postures, bodies.solved, slug)
    _told(_written(made, out), as_json)


def sheet(
    file: Annotated[
        Path, typer.Argument(metavar="[FILE]", help="A new file; movements.html if left out.")
    ] = Path("movements.html"),
    as_json: AsJson = False,
) -> None:
    """Draw every movement on one page, large and as small as it must still be named."""
    bodies, adapters = shipped_bodies(), wired()
    page = whole_sheet(adapters.catalogue(), bodies.postures, bodies.solved)
    adapters.write_new_text(file, page)
    _told([file], as_json)


def watch(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="Your own file of postures.")],
    out: Out = Path("pictures"),
    once: Annotated[bool, typer.Option("--once", help="Draw once and end.")] = False,
) -> None:
    """Draw your own postures each time you save their file, and say what is wrong with them."""
    adapters = wired()
    for _ in adapters.saves_of(file):
        files, faults = own_drawings({str(file): adapters.text(file)}, shipped_bodies().postures)
        written = _written(files, out)
        _say_faults(faults)
        say(f"{len(written)} pictures in {out}, {len(faults)} faults. Waiting for the next save.")
        if once:
            if faults:
                raise BadInputError(faults)
            return


def compare(
    one: Movement,
    other: Movement,
    page: Annotated[
        Path | None, typer.Option("--page", metavar="FILE", help="Also as a page with pictures.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Compare what two versions ask of each joint when held."""
    bodies, adapters = shipped_bodies(), wired()
    both = compare_versions(adapters.catalogue(), bodies.postures, bodies.table, one, other)
    if page is not None:
        adapters.write_new_text(page, comparison_html(both, adapters.pictures))
    if as_json:
        print_json(asdict(both))
        return
    say(f"{both.label}. {both.for_whom}")
    rows = [[joint, both.one.bands[i], both.other.bands[i]] for i, joint in enumerate(both.joints)]
    rows += [["load", both.one.load, both.other.load], ["work", both.one.work, both.other.work]]
    print_table(("Joint", both.one.name, both.other.name), [rows])
    for words in (*both.said, both.sensitivity, both.caution):
        say(words)


def show_differences(as_json: AsJson = False) -> None:
    """List where the body model and the authors differ; the model may only ask for more."""
    bodies, authored = shipped_bodies(), authored_catalogue().movements
    found = differences(authored, bodies.postures, bodies.table)
    counted = agreement(authored, bodies.postures, bodies.table)
    if as_json:
        print_json({"differences": [asdict(d) for d in found],
                    "agreement": [asdict(a) for a in counted]})  # fmt: skip
        return
    print_table(
        ("Movement", "Figure", "Author", "Model", "Holds", "Why"),
        [[[d.movement, plain(d.what), d.author, d.model, d.holds, d.reason] for d in found]],
    )
    print_table(
        ("Demand", "Same degree", "Author higher", "Model higher"),
        [
            [
                [plain(a.demand), *map(str, (a.same, a.author_higher, a.model_higher))]
                for a in counted
            ]
        ],
    )


def accuracy(as_json: AsJson = False) -> None:
    """Compute the body model anew beside published measurements, and show each error."""
    found = checked_figures(checked_postures())
    if as_json:
        print_json(
            [asdict(c.published) | {"key": c.key, "model": c.model, "error": c.error}
             for c in found]
        )  # fmt: skip
        return
    rows = [
        [plain(c.published.posture), c.key, plain(c.published.what), f"{c.published.value:.2f}",
         f"{c.model:.2f}", f"{c.error:+.2f}", c.published.fitted, c.published.source]
        for c in found
    ]  # fmt: skip
    print_table(
        ("Position", "Key", "Figure", "Published", "Model", "Error", "Fitted?", "Source"), [rows]
    )


def _written(files: dict[str, str], folder: Path) -> list[Path]:
    return [wired().write_text(folder / name, text) for name, text in files.items()]


def _told(paths: Sequence[Path], as_json: bool) -> None:
    if as_json:
        print_json({"files": [str(path) for path in paths]})
        return
    for path in paths:
        say(f"Written: {path}")


def _say_faults(faults: Sequence[Fault]) -> None:
    for fault in faults:
        typer.echo(fault.in_words(), err=True)

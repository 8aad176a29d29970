"""A whole hall as one archive (ZIP of its folder): given, looked at, and taken in.

An archive comes from outside: names that leave the folder, files that are too many or too large,
and anything that is no file of a hall are refused before a byte is written.
"""

import io
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path, PurePosixPath
from tempfile import TemporaryDirectory

from roundwright.bootstrap.keeping import Keeping
from roundwright.foundation.errors import BadInputError, StoreError
from roundwright.foundation.faults import Fault, shortened
from roundwright.services.keeping.halls_compared import KindCompared, halls_compared
from roundwright.services.keeping.lost_words import lost_words
from roundwright.services.keeping.shelves import Actor
from roundwright.store.database.hall_folders import BroughtIn

MOST_FILES = 20_000
MOST_BYTES = 200_000_000
MOST_PACKED = 40_000_000
"""Files of an archive, bytes of them all unpacked, and bytes of the archive; our choice."""
FIRST_DAY = (1980, 1, 1, 0, 0, 0)
"""The day that every file of an archive bears, so that equal halls give equal bytes."""
ENDINGS = (".toml", ".csv", ".json")


@dataclass(frozen=True, slots=True)
class ArchiveLook:
    """What an archive holds: the hall's name, its plans, what would be other, who loses a word."""

    name: str
    plans: int
    refused: tuple[str, ...]
    compared: tuple[KindCompared, ...]
    lost: tuple[str, ...]


def archive_of(keeping: Keeping, hall_id: str, by: Actor) -> bytes:
    """Give a hall with all its plans as an archive; the same hall gives the same bytes.

    Raises
    ------
    NotFoundError
        No such hall.
    StoreError
        It could not be read or written.
    """
    with _room() as room:
        folder = room / "hall"
        keeping.folders.take_out(hall_id, folder, by)
        files = sorted(path for path in folder.rglob("*") if path.is_file())
        packed = io.BytesIO()
        with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
            for path in files:
                named = zipfile.ZipInfo(path.relative_to(folder).as_posix(), FIRST_DAY)
                named.compress_type = zipfile.ZIP_DEFLATED
                named.external_attr = 0o600 << 16
                archive.writestr(named, path.read_bytes())
    return packed.getvalue()


def look_at_archive(keeping: Keeping, packed: bytes, hall_id: str | None) -> ArchiveLook:
    """Say what an archive holds and what it would change of a hall; nothing is kept.

    Parameters
    ----------
    hall_id : str or None
        The hall that it would take the place of; None: it would be a new one.

    Raises
    ------
    BadInputError
        With every fault of the archive, or of every file in it; health values are hidden.
    """
    before = None if hall_id is None else keeping.halls.opened(hall_id).hall
    with _unpacked(packed) as folder:
        read = keeping.folders.look_at(folder)
    return ArchiveLook(
        name=read.hall.settings.name,
        plans=read.plans,
        refused=read.refused,
        compared=halls_compared(before, read.hall),
        lost=() if before is None else lost_words(before, read.hall),
    )


def take_archive_in(
    keeping: Keeping,
    packed: bytes,
    hall_id: str,
    by: Actor,
    base_version: int | None,
    backup: Path | None,
) -> BroughtIn:
    """Keep the hall of an archive, whole or not at all.

    Parameters
    ----------
    base_version : int or None
        The version of the hall that it takes the place of; None: a new one.
    backup : Path or None
        Where the database is copied before; None: nowhere.

    Raises
    ------
    RoundwrightError
        As `HallFolders.bring_in`; nothing was changed then.
    """
    with _unpacked(packed) as folder:
        if backup is not None:
            keeping.upkeep.backup(backup)
        return keeping.folders.bring_in(folder, hall_id, by, base_version)


def backup_before(keeping: Keeping, now: datetime) -> Path | None:
    """Give where a copy is made before a hall is replaced; None where the database is no file."""
    file = keeping.database.file
    return None if file is None else file.with_name(f"{file.stem}-before-{now:%Y%m%d-%H%M%S-%f}.db")


@contextmanager
def _room() -> Iterator[Path]:
    try:
        with TemporaryDirectory(prefix="roundwright-") as room:
            yield Path(room)
    except OSError:
        raise StoreError("There is no room to pack or unpack a hall.") from None


@contextmanager
def _unpacked(packed: bytes) -> Iterator[Path]:
    """Unpack an archive into a folder that is gone afterwards."""
    if len(packed) > MOST_PACKED:
        raise _fault("file.too_large", "", f"at most {MOST_PACKED // 1_000_000} MB")
    with _room() as room:
        folder = room / "hall"
        folder.mkdir()
        try:
            with zipfile.ZipFile(io.BytesIO(packed)) as archive:
                for one, name in _sound(archive.infolist()):
                    target = folder / name
                    target.parent.mkdir(parents=True, exist_ok=True)
                    with archive.open(one) as content:
                        target.write_bytes(content.read(one.file_size))
        except (zipfile.BadZipFile, NotImplementedError, RuntimeError, EOFError) as error:
            raise _fault("file.syntax", "", "an archive of a hall, as it was taken out") from error
        yield folder


def _sound(files: list[zipfile.ZipInfo]) -> list[tuple[zipfile.ZipInfo, str]]:
    """Give the files of an archive with their names in the hall, every one of them a hall's.

    Somebody may have packed the folder itself and not what is in it.

    Raises
    ------
    BadInputError
        With every file that is none, or because they are too many or too large.
    """
    found = [one for one in files if not one.is_dir()]
    if len(found) > MOST_FILES or sum(one.file_size for one in found) > MOST_BYTES:
        most = f"at most {MOST_FILES} files and {MOST_BYTES // 1_000_000} MB"
        raise _fault("file.too_large", "", most)
    named = [(one, one.filename.removeprefix(_folder_of(found))) for one in found]
    faults = [
        Fault(
            code="field.value",
            file="archive",
            value=shortened(one.filename),
            expected="a file of a hall's folder",
        )
        for one, name in named
        if not _is_of_a_hall(name)
    ]
    if faults:
        raise BadInputError(faults)
    return named


def _folder_of(files: list[zipfile.ZipInfo]) -> str:
    """Give the one folder in which all files lie, as 'hall/'; empty where there is none."""
    names = [one.filename for one in files]
    top = next((name.partition("/")[0] for name in names if name.endswith("/hall.toml")), "")
    is_plain = top not in ("", ".", "..")
    return f"{top}/" if is_plain and all(name.startswith(f"{top}/") for name in names) else ""


def _is_of_a_hall(name: str) -> bool:
    path = PurePosixPath(name)
    plain = "\\" not in name and "\0" not in name and ":" not in name
    inside = not path.is_absolute() and ".." not in path.parts and 1 <= len(path.parts) <= 2
    return plain and inside and path.suffix in ENDINGS and path.as_posix() == name


def _fault(code: str, value: str, expected: str) -> BadInputError:
    return BadInputError([Fault(code=code, file="archive", value=value, expected=expected)])

"""How a hall folder is read from a disk and written to it: old or new, never half.

Plans and logs in the folder are not part of the hall and stay untouched.
"""

import os
import shutil
import tempfile
from pathlib import Path

from roundwright.foundation.errors import BadInputError, NotFoundError, StoreError
from roundwright.foundation.faults import Fault
from roundwright.hall.file_text import LARGEST_FILE, too_large
from roundwright.hall.hall import Hall
from roundwright.hall.hall_text import CLASSES, LIBRARY, is_hall_file, read_hall_texts
from roundwright.hall.written_hall import written_hall
from roundwright.library.catalogue import Catalogue

FOLDERS = (CLASSES, LIBRARY)


def read_hall(folder: Path, base: Catalogue) -> Hall:
    """Read a hall folder.

    Raises
    ------
    NotFoundError
        There is no such folder.
    StoreError
        A file or folder cannot be read.
    BadInputError
        With every fault of every file, also of files too large to be read.
    """
    _bring_back(folder)
    if not folder.is_dir():
        raise NotFoundError(
            f"There is no hall folder '{folder.name}'.", "Check the name of the folder."
        )
    try:
        files, large = _files_in(folder)
    except OSError as error:
        raise StoreError(f"The hall folder '{folder.name}' cannot be read.") from error
    if not large:
        return read_hall_texts(files, base)
    found: list[Fault] = list(large)
    try:
        read_hall_texts(files, base)
    except BadInputError as error:
        known = {fault.file for fault in large}
        found += [f for f in error.faults if f.file not in known]
    raise BadInputError(found)


def write_hall(hall: Hall, folder: Path) -> None:
    """Write a hall: all files into a temporary folder beside it, synced, then renamed.

    What else stands in the folder (plans, logs) is carried along.

    Raises
    ------
    StoreError
        Nothing was changed.
    """
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        fresh = Path(tempfile.mkdtemp(prefix=f".{folder.name}.new.", dir=folder.parent))
    except OSError as error:
        raise StoreError(f"The hall folder '{folder.name}' cannot be written.") from error
    try:
        if folder.is_dir():
            _copy_the_rest(folder, fresh)
        for name, content in written_hall(hall).items():
            target = fresh / name
            target.parent.mkdir(exist_ok=True)
            write_synced(target, content)
        for inner in (fresh, *(p for p in fresh.rglob("*") if p.is_dir())):
            sync_folder(inner)
        _put_in_place(fresh, folder)
    except OSError as error:
        raise StoreError(f"The hall folder '{folder.name}' cannot be written.") from error
    finally:
        shutil.rmtree(fresh, ignore_errors=True)


def write_synced(path: Path, content: bytes) -> None:
    """Write bytes to a new file and wait until the disk has them."""
    with path.open("wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def sync_folder(folder: Path) -> None:
    """Wait until the disk has the names in a folder."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _files_in(folder: Path) -> tuple[dict[str, bytes], list[Fault]]:
    paths = [path for path in folder.iterdir() if path.is_file()]
    for inner in FOLDERS:
        if (folder / inner).is_dir():
            paths += [path for path in (folder / inner).iterdir() if path.is_file()]
    files: dict[str, bytes] = {}
    large: list[Fault] = []
    for path in sorted(paths):
        name = path.relative_to(folder).as_posix()
        if not is_hall_file(name):
            continue
        size = path.stat().st_size
        if size > LARGEST_FILE:
            large.append(too_large(name, size))
        else:
            files[name] = path.read_bytes()
    return files, large


def _copy_the_rest(folder: Path, fresh: Path) -> None:
    """Carry along everything that the hall itself does not hold."""
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder).as_posix()
        if path.is_dir():
            (fresh / name).mkdir(exist_ok=True)
        elif not is_hall_file(name):
            shutil.copy2(path, fresh / name)


def _bring_back(folder: Path) -> None:
    """Bring the old folder back if a writer was stopped between its two renames."""
    if folder.exists() or not folder.parent.is_dir():
        return
    try:
        kept = [
            beside / "hall"
            for beside in sorted(folder.parent.iterdir())
            if beside.name.startswith(_old_prefix(folder)) and (beside / "hall").is_dir()
        ]
        for old in kept[:1]:
            old.rename(folder)
            old.parent.rmdir()
    except OSError as error:
        raise StoreError(f"The hall folder '{folder.name}' cannot be read.") from error


def _old_prefix(folder: Path) -> str:
    return f".{folder.name}.old."


def _put_in_place(fresh: Path, folder: Path) -> None:
    """Swap the fresh folder in; if the second rename fails the old one comes back."""
    fresh.chmod(0o755)
    if not folder.exists():
        fresh.rename(folder)
        sync_folder(folder.parent)
        return
    old = Path(tempfile.mkdtemp(prefix=_old_prefix(folder), dir=folder.parent))
    folder.rename(old / "hall")
    try:
        fresh.rename(folder)
    except OSError:
        (old / "hall").rename(folder)
        raise
    sync_folder(folder.parent)
    shutil.rmtree(old, ignore_errors=True)

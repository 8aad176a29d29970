import os
from pathlib import Path

import pytest

from roundwright.foundation.errors import BadInputError, NotFoundError, StoreError
from roundwright.hall.file_text import LARGEST_FILE
from roundwright.store import hall_folder
from roundwright.store.hall_folder import read_hall, write_hall
from tests.hall.hall_files import PEOPLE, hall_files, read
from tests.support import worked_count

LIBRARY = worked_count.library()


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    folder = tmp_path / "tern quay [1]"
    for name, content in hall_files().items():
        target = folder / name
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)
    return folder


def everything_in(folder: Path) -> dict[str, bytes]:
    files = sorted(path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}


def test_a_folder_reads_as_its_files_do(folder):
    assert read_hall(folder, LIBRARY) == read(hall_files())


def test_plans_logs_and_other_files_are_not_read(folder):
    (folder / "plans").mkdir()
    (folder / "plans" / "broken.json").write_text("{")
    (folder / "notes.txt").write_text("bring chalk")
    assert read_hall(folder, LIBRARY) == read(hall_files())


def test_a_folder_that_is_not_there_is_not_found(tmp_path):
    with pytest.raises(NotFoundError, match="nowhere"):
        read_hall(tmp_path / "nowhere", LIBRARY)


def test_an_empty_folder_has_four_missing_files(tmp_path):
    with pytest.raises(BadInputError) as caught:
        read_hall(tmp_path, LIBRARY)
    assert len(caught.value.faults) == 4


def test_a_huge_file_is_refused_before_it_is_read_with_the_other_faults(folder, monkeypatch):
    with (folder / "people.csv").open("wb") as file:
        os.truncate(file.fileno(), 10 * LARGEST_FILE)
    (folder / "kit.toml").write_text("schema = 1\n")
    was_read = []
    real = Path.read_bytes
    monkeypatch.setattr(Path, "read_bytes", lambda p: was_read.append(p.name) or real(p))
    with pytest.raises(BadInputError) as caught:
        read_hall(folder, LIBRARY)
    found = [(f.file, f.code) for f in caught.value.faults]
    assert ("people.csv", "file.too_large") in found
    assert ("kit.toml", "file.schema") in found
    assert ("people.csv", "file.missing") not in found
    assert "people.csv" not in was_read


def test_a_folder_that_cannot_be_read_is_a_store_error(folder, monkeypatch):
    def denied(self):
        raise PermissionError(self)

    monkeypatch.setattr(Path, "read_bytes", denied)
    with pytest.raises(StoreError, match="tern quay"):
        read_hall(folder, LIBRARY)


def test_what_is_written_reads_as_it_was_and_writes_alike(tmp_path):
    hall = read(hall_files())
    write_hall(hall, tmp_path / "first")
    assert read_hall(tmp_path / "first", LIBRARY) == hall
    write_hall(read_hall(tmp_path / "first", LIBRARY), tmp_path / "second")
    assert everything_in(tmp_path / "first") == everything_in(tmp_path / "second")


def test_writing_replaces_the_hall_and_carries_plans_along(folder):
    (folder / "plans").mkdir()
    (folder / "plans" / "one.r1.json").write_text("{}")
    fewer = read(hall_files(people=PEOPLE.replace("p002,Sunny L,,,\n", ""), tuesday=None))
    write_hall(fewer, folder)
    assert read_hall(folder, LIBRARY) == fewer
    assert (folder / "plans" / "one.r1.json").read_text() == "{}"
    assert not (folder / "classes" / "tuesday.toml").exists()
    assert [path.name for path in folder.parent.iterdir()] == [folder.name]


@pytest.mark.parametrize("step", ["write_synced", "sync_folder", "_put_in_place"])
def test_a_write_that_fails_leaves_the_old_hall_whole(folder, monkeypatch, step):
    before = everything_in(folder)

    def full(*_):
        raise OSError("no space left")

    monkeypatch.setattr(hall_folder, step, full)
    with pytest.raises(StoreError):
        write_hall(read(hall_files(people=PEOPLE.replace("Maren", "Marit"))), folder)
    assert everything_in(folder) == before
    assert [path.name for path in folder.parent.iterdir()] == [folder.name]


def test_a_rename_that_fails_brings_the_old_hall_back(folder, monkeypatch):
    before = everything_in(folder)
    real = Path.rename

    def rename(self, target):
        if ".new." in self.name:
            raise OSError("busy")
        return real(self, target)

    monkeypatch.setattr(Path, "rename", rename)
    with pytest.raises(StoreError):
        write_hall(read(hall_files(people=PEOPLE.replace("Maren", "Marit"))), folder)
    assert everything_in(folder) == before


def test_a_writer_stopped_between_its_renames_loses_nothing(folder):
    kept = folder.parent / f".{folder.name}.old.abc" / "hall"
    kept.parent.mkdir()
    folder.rename(kept)
    assert read_hall(folder, LIBRARY) == read(hall_files())
    assert not kept.parent.exists()

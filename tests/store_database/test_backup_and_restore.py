"""A backup is whole while the house is in use; a restore never loses what was there."""

import sqlite3
from concurrent.futures import ThreadPoolExecutor
from threading import Event

import pytest

from roundwright.foundation.errors import NotFoundError, StoreError
from roundwright.store.database import sqlite_files
from roundwright.store.database.restoring import restore
from tests.store_database.a_kept_hall import HALL_ID, begun, by, person_edit


@pytest.fixture
def file(tmp_path):
    return tmp_path / "house.db"


@pytest.fixture
def house(file, opening):
    kept = opening(f"sqlite:///{file}")
    begun(kept)
    return kept


def names_in(folder):
    return sorted(path.name for path in folder.iterdir())


def version_in(file, opening):
    kept = opening(f"sqlite:///{file}")
    version = kept.halls.version(HALL_ID)
    kept.close()
    return version


def test_a_backup_is_a_whole_house(tmp_path, kept, url, opening):
    begun(kept)
    to = tmp_path / "copies" / "monday.db"
    if url.startswith("postgresql"):
        with pytest.raises(StoreError, match="PostgreSQL") as caught:
            kept.upkeep.backup(to)
        assert "pg_dump" in caught.value.next_step
        assert not to.exists()
        return
    kept.upkeep.backup(to)
    assert names_in(to.parent) == ["monday.db"]
    again = opening(f"sqlite:///{to}")
    assert again.halls.opened(HALL_ID).hall == kept.halls.opened(HALL_ID).hall
    assert again.upkeep.faults() == ()


def test_a_backup_while_others_write_is_of_one_moment(tmp_path, house, file, opening):
    writer, stop = opening(f"sqlite:///{file}"), Event()

    def write_on():
        version = 1
        while not stop.is_set():
            both = [
                person_edit(version, one, shown_name=f"Name {version}") for one in ("p001", "p002")
            ]
            version = writer.halls.edit(HALL_ID, both, by()).version
        return version

    with ThreadPoolExecutor(1) as pool:
        writing = pool.submit(write_on)
        for turn in range(8):
            house.upkeep.backup(tmp_path / f"{turn}.db")
        stop.set()
        assert writing.result(60) > 1
    for turn in range(8):
        copy = opening(f"sqlite:///{tmp_path / f'{turn}.db'}").halls.opened(HALL_ID)
        shown = {copy.hall.person(one).shown_name for one in ("p001", "p002")}
        assert shown == (
            {f"Name {copy.version - 1}"} if copy.version > 1 else {"Maren T", "Sunny L"}
        )


def test_a_backup_takes_the_place_of_an_older_one_or_leaves_it(tmp_path, house, monkeypatch):
    to = tmp_path / "backup.db"
    house.upkeep.backup(to)
    house.halls.edit(HALL_ID, [person_edit(1)], by())
    older = to.read_bytes()

    def full(*_):
        raise OSError("no space left")

    with monkeypatch.context() as patched:
        patched.setattr(sqlite_files.os, "fsync", full)
        with pytest.raises(StoreError, match=r"backup\.db"):
            house.upkeep.backup(to)
    assert to.read_bytes() == older
    assert [name for name in names_in(tmp_path) if "backup" in name] == ["backup.db"]
    house.upkeep.backup(to)
    assert to.read_bytes() != older


def test_a_restore_brings_the_day_back_and_keeps_the_other_file(house, file, tmp_path, opening):
    house.upkeep.backup(tmp_path / "backup.db")
    house.halls.edit(HALL_ID, [person_edit(1)], by())
    house.close()
    aside = restore(tmp_path / "backup.db", file)
    assert version_in(file, opening) == 1
    assert version_in(aside, opening) == 2
    again = restore(aside, file)
    assert again != aside
    assert version_in(file, opening) == 2


def test_a_restore_to_nowhere_makes_the_file(house, tmp_path, opening):
    house.upkeep.backup(tmp_path / "backup.db")
    assert restore(tmp_path / "backup.db", tmp_path / "new" / "house.db") is None
    assert version_in(tmp_path / "new" / "house.db", opening) == 1


def test_a_damaged_house_is_replaced_by_its_backup(house, file, tmp_path, opening):
    house.upkeep.backup(tmp_path / "backup.db")
    house.close()
    file.write_bytes(b"burnt " * 5000)
    aside = restore(tmp_path / "backup.db", file)
    assert aside.read_bytes() == b"burnt " * 5000
    assert version_in(file, opening) == 1


def test_a_house_that_is_in_use_is_not_replaced(house, file, tmp_path):
    house.upkeep.backup(tmp_path / "backup.db")
    house.halls.edit(HALL_ID, [person_edit(1)], by())
    with pytest.raises(StoreError, match="in use"):
        restore(tmp_path / "backup.db", file)
    assert house.halls.version(HALL_ID) == 2
    assert house.upkeep.faults() == ()


@pytest.mark.parametrize("which", ["not there", "text", "another program", "newer", "damaged"])
def test_a_backup_that_cannot_be_used_changes_nothing(house, file, tmp_path, opening, which):
    backup = tmp_path / "backup.db"
    house.upkeep.backup(backup)
    house.close()
    words, error = "no database of this program", StoreError
    if which == "not there":
        backup.unlink()
        words, error = "no backup", NotFoundError
    elif which == "text":
        backup.write_text("Dear diary, " * 500)
        words = "damaged"
    elif which == "damaged":
        _spoil(backup)
        words = "damaged"
    else:
        with sqlite3.connect(backup) as other:
            if which == "newer":
                other.execute("UPDATE alembic_version SET version_num = '0099'")
                words = "newer version"
            else:
                other.execute("PRAGMA application_id = 7")
        other.close()
    before = file.read_bytes()
    with pytest.raises(error, match=words):
        restore(backup, file)
    assert file.read_bytes() == before
    assert {n for n in names_in(tmp_path) if n.startswith((".", "house"))} == {"house.db"}
    assert version_in(file, opening) == 1


def test_a_restore_that_cannot_be_written_leaves_the_house(
    house, file, tmp_path, monkeypatch, opening
):
    house.upkeep.backup(tmp_path / "backup.db")
    house.halls.edit(HALL_ID, [person_edit(1)], by())
    house.close()

    def full(*_):
        raise StoreError("The file cannot be written.")

    monkeypatch.setattr("roundwright.store.database.restoring.put_in_place", full)
    with pytest.raises(StoreError, match="cannot be written"):
        restore(tmp_path / "backup.db", file)
    assert version_in(file, opening) == 2
    assert {n for n in names_in(tmp_path) if n.startswith((".", "house"))} == {"house.db"}


def test_damage_is_found(house, file, tmp_path, opening):
    assert house.upkeep.faults() == ()
    copy = tmp_path / "copy.db"
    house.upkeep.backup(copy)
    _spoil(copy)
    spoilt = opening(f"sqlite:///{copy}")
    assert any("damaged" in one for one in spoilt.upkeep.faults())


def test_rows_that_belong_to_nothing_are_found(tmp_path, house, opening):
    copy = tmp_path / "copy.db"
    house.upkeep.backup(copy)
    loose = sqlite3.connect(copy, isolation_level=None)
    loose.execute("DELETE FROM hall")
    loose.close()
    found = opening(f"sqlite:///{copy}").upkeep.faults()
    assert found == (
        "Rows that belong to nothing stand in: hall_record, health_record, person_record.",
    )


def _spoil(file):
    """Say that an index is over another column, so that its entries are wrong."""
    connection = sqlite3.connect(file, isolation_level=None)
    connection.execute("PRAGMA writable_schema=ON")
    connection.execute(
        "UPDATE sqlite_master SET sql = 'CREATE INDEX trail_by_person ON trail (what)'"
        " WHERE name = 'trail_by_person'"
    )
    connection.close()

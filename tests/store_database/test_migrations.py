"""Databases of every earlier form come to today's with their rows; other ones are refused."""

import re
import sqlite3
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import inspect, text

from roundwright.bootstrap.keeping import keeping_at
from roundwright.foundation.errors import StoreError
from roundwright.services.keeping.hall_records import records_of
from roundwright.services.keeping.records import RecordEdit, RecordKind
from roundwright.services.keeping.shelves import TrailEntry
from roundwright.store.database.connection import OURS, Database
from roundwright.store.database.hall_rows import begin_rows
from roundwright.store.database.migrating import NEWEST, migrate, scripts, upgrade_to
from roundwright.store.database.record_rows import Stamp, write_records
from roundwright.store.database.tables import METADATA
from roundwright.store.database.trail_rows import add_lines
from tests.store_database.a_kept_hall import BEGUN, HALL_ID, LIBRARY, a_hall, by, key


@pytest.fixture(params=["file", "memory", "postgresql"])
def database(request, tmp_path):
    url = {"file": f"sqlite:///{tmp_path / 'house.db'}", "memory": "sqlite://"}.get(request.param)
    if url is None:
        cluster = request.getfixturevalue("cluster")
        url = cluster.url(cluster.fresh())
    made = Database(url)
    yield made
    made.close()


def of_the_first_form(database):
    """Make a database of the first form with rows in it."""
    with database.writing() as connection:
        upgrade_to(connection, "0001")
        begin_rows(connection, HALL_ID, "stamp", a_hall(), by())
        write_records(connection, Stamp(HALL_ID, 1, by()), records_of(a_hall()), {}, {})
        connection.execute(text("UPDATE hall SET version = 1"))
        add_lines(connection, [TrailEntry(BEGUN, None, "coach", "hall.begun", HALL_ID, "p001")])


def test_an_empty_database_becomes_todays_and_stays_so(database):
    assert migrate(database) == "0000"
    assert migrate(database) is None
    with database.reading() as connection:
        context = MigrationContext.configure(connection)
        assert compare_metadata(context, METADATA) == []
        if database.is_sqlite:
            assert connection.execute(text("PRAGMA application_id")).scalar() == OURS


def test_a_database_of_the_first_form_keeps_its_rows(database, monkeypatch):
    of_the_first_form(database)
    with database.reading() as connection:
        assert "removed_record" not in inspect(connection).get_table_names()
    assert migrate(database) == "0001"
    monkeypatch.setattr("roundwright.bootstrap.keeping.Database", lambda _: database)
    kept = keeping_at("sqlite://", lambda: LIBRARY)
    opened = kept.halls.opened(HALL_ID)
    assert opened.hall == a_hall()
    assert [one.what for one in kept.trail.entries(HALL_ID, "p001")] == ["hall.begun"]
    where = key(RecordKind.LIMITATIONS, "p003")
    assert kept.halls.edit(HALL_ID, [RecordEdit(where, None, 1)], by()).version == 2


def test_a_migration_that_fails_leaves_the_database_as_it_was(database, monkeypatch):
    of_the_first_form(database)
    with database.writing() as connection:
        connection.execute(text("CREATE INDEX trail_by_person ON trail (what)"))
    with pytest.raises(StoreError):
        migrate(database)
    with database.reading() as connection:
        assert "removed_record" not in inspect(connection).get_table_names()
        assert (
            connection.execute(text("SELECT version_num FROM alembic_version")).scalar() == "0001"
        )


def test_a_database_of_a_newer_program_is_refused(database):
    migrate(database)
    with database.writing() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '0099'"))
    with pytest.raises(StoreError, match="newer version of this program"):
        migrate(database)


@pytest.mark.parametrize("state", ["other tables", "other versions", "no version"])
def test_a_database_of_something_else_is_refused(database, state):
    with database.writing() as connection:
        if state == "other tables":
            connection.execute(text("CREATE TABLE songs (name TEXT)"))
        else:
            connection.execute(text("CREATE TABLE alembic_version (version_num TEXT)"))
        if state == "other versions":
            connection.execute(text("INSERT INTO alembic_version VALUES ('ab12')"))
    with pytest.raises(StoreError, match="holds something else"):
        migrate(database)


def test_there_is_no_way_back(database):
    from alembic import command
    from alembic.config import Config

    migrate(database)
    config = Config()
    config.set_main_option("script_location", scripts())
    with database.writing() as connection:
        config.attributes["connection"] = connection
        with pytest.raises(StoreError, match="does not go back"):
            command.downgrade(config, "0001")
    assert migrate(database) is None


def test_the_scripts_are_one_row_up_to_the_newest():
    files = sorted((Path(scripts()) / "versions").glob("r*.py"))
    numbers = [re.search(r'^revision = "(\d+)"', f.read_text(), re.M)[1] for f in files]
    before = [re.search(r"^down_revision = (.*)$", f.read_text(), re.M)[1] for f in files]
    assert numbers == [f"{n:04d}" for n in range(1, len(files) + 1)]
    assert before == ["None", *(f'"{n}"' for n in numbers[:-1])]
    assert numbers[-1] == NEWEST
    assert len(numbers) >= 2


def test_a_file_that_is_open_elsewhere_can_be_migrated_once(tmp_path):
    file = tmp_path / "house.db"
    sqlite3.connect(file).close()
    first, second = Database(f"sqlite:///{file}"), Database(f"sqlite:///{file}")
    assert (migrate(first), migrate(second)) == ("0000", None)
    first.close()
    second.close()

"""A PostgreSQL of the tests' own: a temporary cluster on a unix socket, one database a test."""

import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import LiteralString

import psycopg
from psycopg import sql

INSTALLED = Path("/usr/lib/postgresql")
SETTINGS = ("fsync=off", "full_page_writes=off", "listen_addresses=")


class Cluster:
    """A running cluster; databases are copies of one that was prepared once."""

    def __init__(self, programs: Path, folder: Path) -> None:
        self.programs, self.folder = programs, folder
        self._made = 0

    def url(self, database: str) -> str:
        """Give the address of a database."""
        return f"postgresql://postgres@/{database}?host={self.folder}"

    def fresh(self, template: str = "template1") -> str:
        """Make a database and give its name."""
        self._made += 1
        name = f"t{self._made}"
        made = sql.SQL("CREATE DATABASE {} TEMPLATE {}")
        with psycopg.connect(self.url("postgres"), autocommit=True) as connection:
            connection.execute(made.format(sql.Identifier(name), sql.Identifier(template)))
        return name

    def emptied(self, database: str) -> str:
        """Empty every table but the one of the migrations, and give the database's name."""
        with psycopg.connect(self.url(database), autocommit=True) as connection:
            names = connection.execute(
                "SELECT tablename FROM pg_tables WHERE schemaname = 'public'"
                " AND tablename <> 'alembic_version'"
            ).fetchall()
            tables = sql.SQL(", ").join(sql.Identifier(name) for (name,) in names)
            connection.execute(sql.SQL("TRUNCATE {} RESTART IDENTITY").format(tables))
        return database

    def run(self, statement: LiteralString) -> None:
        """Run one statement as the cluster's owner."""
        with psycopg.connect(self.url("postgres"), autocommit=True) as connection:
            connection.execute(statement)

    def restart(self) -> None:
        """Stop at once, as a crash does, and start again."""
        self.stop()
        self.start()

    def start(self) -> None:
        """Start and wait until it answers."""
        options = " ".join(
            f"-c {one}" for one in (*SETTINGS, f"unix_socket_directories={self.folder}")
        )
        log = str(self.folder / "log")
        self._control("start", "-w", "-l", log, "-o", options)

    def stop(self) -> None:
        """Stop at once."""
        self._control("stop", "-m", "immediate")

    def _control(self, *words: str) -> None:
        _run_as_owner(self.programs / "pg_ctl", "-D", str(self.folder / "data"), *words)


@contextmanager
def a_cluster() -> Iterator[Cluster]:
    """Give a running cluster; it is gone afterwards. Without PostgreSQL this fails."""
    found = sorted(INSTALLED.glob("*/bin/initdb"))
    if not found:
        raise RuntimeError("PostgreSQL is missing. Run: sh tools/system_packages.sh postgresql")
    programs = found[-1].parent
    folder = Path(tempfile.mkdtemp(prefix="rw"))
    cluster = Cluster(programs, folder)
    try:
        if os.geteuid() == 0:
            shutil.chown(folder, "postgres")
        data = str(folder / "data")
        _run_as_owner(
            programs / "initdb", "-D", data, "-U", "postgres", "-A", "trust", "-E", "UTF8",
            "--locale=C", "--no-sync", "--no-instructions",
        )  # fmt: skip
        cluster.start()
        try:
            yield cluster
        finally:
            cluster.stop()
    finally:
        shutil.rmtree(folder)


def _run_as_owner(program: Path, *words: str) -> None:
    """Run a program of PostgreSQL, which root may not do itself."""
    before = ("runuser", "-u", "postgres", "--") if os.geteuid() == 0 else ()
    done = subprocess.run(
        (*before, str(program), *words),
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        text=True,
        cwd="/",
        check=False,
    )
    if done.returncode:
        raise RuntimeError(f"{program.name} {words[0]}: {done.stderr}")

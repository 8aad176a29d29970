"""The shelf of accounts and of who is signed in, in a database."""

from datetime import datetime
from typing import Any

from sqlalchemy import delete, insert, select, update
from sqlalchemy.exc import IntegrityError

from roundwright.accounts.account import Account
from roundwright.foundation.errors import ChangedMeanwhileError
from roundwright.services.keeping.shelves import Actor, Session
from roundwright.store.database.connection import Database
from roundwright.store.database.record_rows import instant_text
from roundwright.store.database.tables import ACCOUNT, SESSION
from roundwright.store.database.trail_rows import add_lines, line

_NEXT = "Look at it as it is now, then make the change again."


class KeptAccounts:
    """Accounts and sessions in a database."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def accounts(self) -> tuple[Account, ...]:
        """List accounts by sign-in name, closed ones too."""
        wanted = select(ACCOUNT.c["values"]).order_by(ACCOUNT.c.sign_in_name)
        with self._database.reading() as connection:
            return tuple(map(_account, connection.execute(wanted).scalars()))

    def by_sign_in_name(self, name: str) -> Account | None:
        """Give the account of a sign-in name."""
        return self._one(ACCOUNT.c.sign_in_name == name)

    def account(self, account_id: str) -> Account | None:
        """Give an account."""
        return self._one(ACCOUNT.c.account_id == account_id)

    def keep_account(self, account: Account, by: Actor) -> Account:
        """Write a new account (version 1) or a changed one (the version seen, plus one).

        Raises
        ------
        ChangedMeanwhileError
            It was changed meanwhile, or the sign-in name is taken.
        """
        columns = {
            "sign_in_name": account.sign_in_name,
            "version": account.version,
            "values": account.model_dump_json(),
        }
        taken = False
        with self._database.writing() as connection:
            try:
                if account.version == 1:
                    connection.execute(
                        insert(ACCOUNT).values(account_id=account.account_id, **columns)
                    )
                    rows = 1
                else:
                    seen = account.version - 1
                    is_it = (
                        ACCOUNT.c.account_id == account.account_id,
                        ACCOUNT.c.version == seen,
                    )
                    done = connection.execute(update(ACCOUNT).where(*is_it).values(**columns))
                    rows = done.rowcount
            except IntegrityError:
                taken, rows = True, 0
            if taken:
                raise ChangedMeanwhileError(
                    "This sign-in name, or this account, is there already.", "Choose another name."
                )
            if rows != 1:
                raise ChangedMeanwhileError("This account was changed meanwhile.", _NEXT)
            what = "account.begun" if account.version == 1 else "account.changed"
            add_lines(connection, [line(by, what, None, about=account.account_id)])
        return account

    def begin_session(self, session: Session) -> None:
        """Keep a session."""
        with self._database.writing() as connection:
            connection.execute(
                insert(SESSION).values(
                    token_hash=session.token_hash,
                    account_id=session.account_id,
                    begun_at=instant_text(session.begun_at),
                    ends_at=instant_text(session.ends_at),
                )
            )

    def session(self, token_hash: str) -> Session | None:
        """Give a session, also one whose time is over; one that was ended is not there."""
        wanted = select(SESSION).where(SESSION.c.token_hash == token_hash)
        with self._database.reading() as connection:
            row = connection.execute(wanted).mappings().first()
        if row is None:
            return None
        return Session(
            token_hash=row["token_hash"],
            account_id=row["account_id"],
            begun_at=datetime.fromisoformat(row["begun_at"]),
            ends_at=datetime.fromisoformat(row["ends_at"]),
        )

    def end_sessions(self, account_id: str, but: str | None = None) -> int:
        """End an account's sessions, but for one token's, and give how many."""
        ended = delete(SESSION).where(SESSION.c.account_id == account_id)
        if but is not None:
            ended = ended.where(SESSION.c.token_hash != but)
        with self._database.writing() as connection:
            return connection.execute(ended).rowcount

    def _one(self, which: Any) -> Account | None:
        with self._database.reading() as connection:
            found = connection.execute(select(ACCOUNT.c["values"]).where(which)).scalar()
        return None if found is None else _account(found)


def _account(text: str) -> Account:
    return Account.model_validate_json(text)

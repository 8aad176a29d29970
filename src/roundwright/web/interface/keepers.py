"""Who calls, who may sign in, and who saw and changed what."""

from datetime import datetime
from typing import Annotated, Literal

from fastapi import APIRouter, Query
from pydantic import BaseModel, Field

from roundwright.accounts.account import Account, Role
from roundwright.services.accounts.signing_in import NewAccount
from roundwright.web.house.visit import Visit
from roundwright.web.interface.problems import answers
from roundwright.web.interface.visits import AccountsVisit, Identifier, SeeVisit, Sent, TrailVisit

router = APIRouter(tags=["accounts"])


class AccountShown(BaseModel):
    """An account, without its password."""

    account_id: str
    sign_in_name: str
    shown_name: str
    role: Role
    units: str
    language: str
    is_closed: bool


class AccountWished(Sent):
    """A new account."""

    sign_in_name: str = Field(max_length=40)
    shown_name: str = Field(max_length=40)
    role: Role
    password: str = Field(max_length=200)
    units: Literal["kg", "lb"] | None = Field(
        default=None, description="how masses are shown to them; none: as the first hall's"
    )


class TrailLine(BaseModel):
    """Who did or saw what of whom; never a health value."""

    at: datetime
    account_id: str | None
    role: str
    what: str
    hall_id: str | None
    person_id: str | None
    about: str


@router.get("/me", responses=answers(), operation_id="who_am_i")
def who_am_i(visit: SeeVisit) -> AccountShown:
    """Say who calls."""
    return _shown(visit.account)


@router.get("/accounts", responses=answers(), operation_id="list_accounts")
def list_accounts(visit: AccountsVisit) -> list[AccountShown]:
    """List accounts, closed ones too."""
    return [_shown(one) for one in visit.house.keeping.accounts.accounts()]


@router.post("/accounts", status_code=201, responses=answers(409), operation_id="make_account")
def make_account(visit: AccountsVisit, wished: AccountWished) -> AccountShown:
    """Make an account for somebody."""
    values = wished.model_dump()
    wanted = NewAccount(**values | {"units": wished.units or _usual_units(visit)})
    return _shown(visit.house.door.make_account(visit.account, wanted, visit.now))


@router.delete(
    "/accounts/{account_id}", status_code=204, responses=answers(409), operation_id="close_account"
)
def close_account(visit: AccountsVisit, account_id: Identifier) -> None:
    """Close an account and end its sessions."""
    visit.house.door.close_account(visit.account, account_id, visit.now)


@router.get("/trail", responses=answers(), operation_id="list_trail")
def list_trail(
    visit: TrailVisit,
    hall_id: Annotated[str | None, Query(max_length=80)] = None,
    person_id: Annotated[str | None, Query(max_length=80)] = None,
    most: Annotated[int, Query(ge=1, le=1_000)] = 200,
) -> list[TrailLine]:
    """List who saw and changed what, the newest first."""
    entries = visit.house.keeping.trail.entries(hall_id, person_id, most)
    return [
        TrailLine(
            at=e.at,
            account_id=e.account_id,
            role=e.role,
            what=e.what,
            hall_id=e.hall_id,
            person_id=e.person_id,
            about=e.about,
        )
        for e in entries
    ]


def _usual_units(visit: Visit) -> str:
    """Give the units of the house's first hall; kg where there is none."""
    shelf = visit.house.keeping.halls
    first = next(iter(shelf.halls()), None)
    return "kg" if first is None else shelf.opened(first.hall_id).hall.settings.units.value


def _shown(account: Account) -> AccountShown:
    return AccountShown(
        account_id=account.account_id,
        sign_in_name=account.sign_in_name,
        shown_name=account.shown_name,
        role=account.role,
        units=account.units,
        language=account.language,
        is_closed=account.closed_at is not None,
    )

"""Settings: units and language of who asks, password, accounts, the trail, a backup."""

from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Annotated

from fastapi import APIRouter, Depends
from starlette.responses import HTMLResponse, Response

from roundwright.accounts.account import May, Role
from roundwright.foundation.errors import BadInputError, ChangedMeanwhileError, StoreError
from roundwright.services.accounts.signing_in import NewAccount
from roundwright.web.house.answers import see
from roundwright.web.house.pages.sign_in import give_cookie
from roundwright.web.house.visit import FormSent, Needs, Sent, Visit
from roundwright.web.texts import told

router = APIRouter()
AnyVisit = Annotated[Visit, Depends(Needs(May.SEE_PLANS))]
AccountsVisit = Annotated[Visit, Depends(Needs(May.MANAGE_ACCOUNTS))]
BackupVisit = Annotated[Visit, Depends(Needs(May.MANAGE_BACKUPS))]
LANGUAGES = (("en-GB", "English"), ("de-DE", "Deutsch"))
AT = "/at/{hall_id}/settings"
MOST_LINES = 100
"""Lines of the trail that are shown; our choice."""
MOST_DAYS = 366
"""How long a program's token holds at most; our choice."""


@router.get(AT)
def settings(visit: AnyVisit) -> HTMLResponse:
    """Show what can be set."""
    return _page(visit, Sent(), {})


@router.post(AT + "/looks")
def looks(visit: AnyVisit, sent: FormSent) -> Response:
    """Change units and language of who asks."""
    try:
        visit.house.door.change_looks(
            visit.account, sent.text("units"), sent.text("language"), visit.now
        )
    except ValueError:
        return _page(visit, sent, {"units": visit.say("Choose one of the list.")}, 422)
    return see(f"{visit.at}/settings")


@router.post(AT + "/password")
def password(visit: AnyVisit, sent: FormSent) -> Response:
    """Change one's own password; every other session ends."""
    try:
        token = visit.house.door.change_password(
            visit.account, sent.text("old_password"), sent.text("password"), visit.now
        )
    except BadInputError as error:
        return _page(visit, sent, told(visit.say, error), 422)
    answer = see(f"{visit.at}/settings")
    give_cookie(answer, token, is_secure=visit.house.is_secure)
    return answer


@router.post(AT + "/token")
def token(visit: AnyVisit, sent: FormSent) -> Response:
    """Make a token for a program; it is shown this once."""
    days = sent.whole("days")
    if days is None or not 1 <= days <= MOST_DAYS:
        words = visit.say("Expected: {what}.", what=visit.say("1 to 366"))
        return _page(visit, sent, {"days": words}, 422)
    made = visit.house.door.make_token(visit.account, days, visit.now)
    return _page(visit, Sent(), {}, made=made)


@router.post(AT + "/accounts")
def new_account(visit: AccountsVisit, sent: FormSent) -> Response:
    """Make an account for somebody."""
    try:
        wanted = NewAccount(
            sign_in_name=sent.text("sign_in_name").lower(),
            shown_name=sent.text("shown_name"),
            role=Role(sent.text("role")),
            password=sent.text("new_password"),
            units=visit.kept_hall().hall.settings.units.value,
        )
        visit.house.door.make_account(visit.account, wanted, visit.now)
    except BadInputError as error:
        faults = {
            "new_password" if k == "password" else k: v for k, v in told(visit.say, error).items()
        }
        return _page(visit, sent, faults, 422)
    except ValueError:
        return _page(visit, sent, {"role": visit.say("Choose one of the list.")}, 422)
    except ChangedMeanwhileError:
        return _page(visit, sent, {"sign_in_name": visit.say("This name is taken.")}, 409)
    return see(f"{visit.at}/settings")


@router.post(AT + "/accounts/{account_id}/close")
def close_account(visit: AccountsVisit, account_id: str) -> Response:
    """Close an account: it can't sign in any more."""
    visit.house.door.close_account(visit.account, account_id, visit.now)
    return see(f"{visit.at}/settings")


@router.post(AT + "/backup")
def backup(visit: BackupVisit) -> Response:
    """Give a whole copy of the database, made by the database itself."""
    with TemporaryDirectory(prefix="roundwright-") as folder:
        file = Path(folder) / "backup.db"
        visit.house.keeping.upkeep.backup(file)
        try:
            content = file.read_bytes()
        except OSError as error:
            raise StoreError("The backup could not be read again.") from error
    visit.note("backup.taken")
    name = f"roundwright-{visit.today.isoformat()}.db"
    return Response(
        content,
        media_type="application/vnd.sqlite3",
        headers={"content-disposition": f'attachment; filename="{name}"'},
    )


def _page(
    visit: Visit, sent: Sent, faults: dict[str, str], status: int = 200, made: str = ""
) -> HTMLResponse:
    keeping = visit.house.keeping
    names = {a.account_id: a.shown_name for a in keeping.accounts.accounts()}
    trail = keeping.trail.entries(most=MOST_LINES) if visit.may(May.SEE_TRAIL) else ()
    return visit.page(
        "settings.html",
        status,
        here="settings",
        sent=sent,
        faults=faults,
        made=made,
        languages=LANGUAGES,
        accounts=keeping.accounts.accounts() if visit.may(May.MANAGE_ACCOUNTS) else (),
        trail=[(f"{e.at:%Y-%m-%d %H:%M}", names.get(e.account_id or "", e.role), e) for e in trail],
    )

"""The reference of the JSON interface as a page, made from its own description."""

from typing import Annotated

from fastapi import APIRouter, Depends
from starlette.responses import HTMLResponse

from roundwright.accounts.account import May
from roundwright.web.house.visit import Needs, Visit
from roundwright.web.interface.application import AT, make_interface
from roundwright.web.interface.reference import operations_of

router = APIRouter()
AnyVisit = Annotated[Visit, Depends(Needs(May.SEE_PLANS))]


@router.get("/api")
def interface(visit: AnyVisit) -> HTMLResponse:
    """Show every operation: what it takes and gives."""
    operations = operations_of(make_interface("1").openapi())
    subjects = dict.fromkeys(one.subject for one in operations)
    return visit.page(
        "interface.html",
        here="",
        at=AT,
        subjects=[(s, [one for one in operations if one.subject == s]) for s in subjects],
    )

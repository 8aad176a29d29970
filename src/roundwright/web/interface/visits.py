"""Who calls, with which right: the same rights as on the pages, stated by each operation."""

from typing import Annotated

from fastapi import Depends, Path
from pydantic import BaseModel, ConfigDict

from roundwright.accounts.account import May
from roundwright.web.house.visit import Needs, Visit

Identifier = Annotated[str, Path(pattern=r"^[A-Za-z0-9_-]{1,80}$")]
"""A part of an address that names something."""
SeeVisit = Annotated[Visit, Depends(Needs(May.SEE_PLANS))]
PeopleVisit = Annotated[Visit, Depends(Needs(May.SEE_PEOPLE))]
HealthVisit = Annotated[Visit, Depends(Needs(May.CHANGE_HEALTH))]
ChangePeopleVisit = Annotated[Visit, Depends(Needs(May.CHANGE_PEOPLE))]
PlanVisit = Annotated[Visit, Depends(Needs(May.PLAN))]
HallVisit = Annotated[Visit, Depends(Needs(May.CHANGE_HALL))]
BackupVisit = Annotated[Visit, Depends(Needs(May.MANAGE_BACKUPS))]
TakeOutVisit = Annotated[Visit, Depends(Needs(May.TAKE_OUT))]
DeleteVisit = Annotated[Visit, Depends(Needs(May.DELETE_PEOPLE))]
AccountsVisit = Annotated[Visit, Depends(Needs(May.MANAGE_ACCOUNTS))]
TrailVisit = Annotated[Visit, Depends(Needs(May.SEE_TRAIL))]


class Sent(BaseModel):
    """Base of what a program sends: nothing but what is asked for."""

    model_config = ConfigDict(extra="forbid")

"""Who answers changes with the safe answer alone: for questions asked many times at once."""

from dataclasses import dataclass
from typing import Protocol

from roundwright.library.catalogue import Catalogue
from roundwright.plan.changing.answer import Answer, Better
from roundwright.plan.changing.restate import Restated
from roundwright.plan.document import PlanDocument
from roundwright.plan.outcome import Budget


class AnswersAtOnce(Protocol):
    """Who gives the safe answer."""

    def at_once(self, before: PlanDocument, asked: Restated, library: Catalogue) -> Answer:
        """Give the safe answer."""


@dataclass(frozen=True, slots=True)
class AtOnceOnly:
    """Another mender's safe answers, without any search."""

    mender: AnswersAtOnce

    def at_once(self, before: PlanDocument, asked: Restated, library: Catalogue) -> Answer:
        """Give the safe answer."""
        return self.mender.at_once(before, asked, library)

    def mend(
        self,
        before: PlanDocument,
        asked: Restated,
        library: Catalogue,
        *,
        seed: int,
        budget: Budget,
        on_better: Better | None = None,
        most_tier: int = 2,
    ) -> Answer:
        """Give the safe answer, whatever is allowed."""
        answer = self.at_once(before, asked, library)
        if on_better is not None:
            on_better(answer)
        return answer

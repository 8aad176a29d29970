"""The one reader of real time; everything else is told the day."""

import time
from datetime import UTC, date, datetime


class SystemClock:
    """The machine's own clock."""

    def today(self) -> date:
        """Give the machine's local date."""
        return date.today()  # noqa: DTZ011, TID251 - the local day is what a hall means by today

    def instant(self) -> datetime:
        """Give this instant in UTC, for what is kept and for files that say when they were made."""
        return datetime.now(UTC)  # noqa: TID251 - the one place that asks

    def monotonic_ms(self) -> int:
        """Give milliseconds of the monotonic clock, for durations only."""
        return time.monotonic_ns() // 1_000_000

    def stamp(self) -> str:
        """Give the local day and minute, as printed on paper."""
        return time.strftime("%Y-%m-%d %H:%M")

"""A program that saves in children which are killed: by themselves at a moment, or by the test.

Each line that it reads asks for one child: `moment N` kills itself at the N-th step of a save,
`loop` saves on and on and says each version that was kept. `gone` is said when a child is over.
"""

import os
import signal
import sys

from sqlalchemy import event

from roundwright.bootstrap.keeping import Keeping, keeping_at
from roundwright.services.keeping.records import RecordKind
from tests.store_database.a_kept_hall import HALL_ID, LIBRARY, by, key, person_edit

PEOPLE = ("p001", "p002", "p003")


def save(kept: Keeping) -> int:
    """Change three records at once and give the new version; all are called after it."""
    now = kept.halls.opened(HALL_ID)
    edits = [
        person_edit(
            now.versions[key(RecordKind.PERSON, one)], one, shown_name=f"Version {now.version + 1}"
        )
        for one in PEOPLE
    ]
    return kept.halls.edit(HALL_ID, edits, by()).version


def die_at(kept: Keeping, moment: int) -> None:
    done = 0

    def step(*_: object) -> None:
        nonlocal done
        done += 1
        if done == moment:
            os.kill(os.getpid(), signal.SIGKILL)

    for name in ("before_cursor_execute", "after_cursor_execute", "commit"):
        event.listen(kept.database.engine, name, step)


def say(words: object) -> None:
    sys.stdout.write(f"{words}\n")
    sys.stdout.flush()


def main(url: str) -> None:
    say("ready")
    for line in sys.stdin:
        if os.fork():
            os.wait()
            say("gone")
            continue
        kept = keeping_at(url, lambda: LIBRARY)
        kept.halls.opened(HALL_ID)
        if line.startswith("moment"):
            die_at(kept, int(line.split()[1]))
            save(kept)
            os._exit(0)
        say(os.getpid())
        while True:
            say(save(kept))


if __name__ == "__main__":
    main(sys.argv[1])

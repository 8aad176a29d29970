"""Changes of plans: answer times by tier, and how many people are disturbed against the least.

``python -m benchmarks.changes [--each N] [--label NAME]``. Drawn classes of three sizes in four
formats are planned, then disrupted; every answer is judged by the gate. Seconds are CPU seconds
of one thread, so that other work on the machine weighs less; tiers 1 and 2 are timed with
their JSON, as the warm process does them, which has the library already. A forbidden version or
no answer makes the exit status 1. The file is written anew after every class.
"""

import argparse
import json
import sys
from collections.abc import Iterator, Sequence
from hashlib import sha256
from importlib.metadata import version
from pathlib import Path
from time import process_time

from tests.support.random_changes import a_plan_of, drawn_changes
from tests.support.random_halls import Dice, a_drawn_person, a_hall_of

from benchmarks.machine import machine
from roundwright.foundation.errors import BadInputError, NoPlanError
from roundwright.foundation.seeds import generator
from roundwright.goals.class_wish import ClassFormat
from roundwright.optimise.changing.asked import Asked
from roundwright.optimise.changing.at_once import answer_at_once, held_as
from roundwright.optimise.changing.makers import Makers
from roundwright.optimise.changing.old_plan import overrun_before
from roundwright.optimise.changing.wire import answer_of_values, as_bytes, asked_as_values
from roundwright.optimise.worker_tasks import mend, mend_by_swap
from roundwright.plan.changing.answer import Answer
from roundwright.plan.changing.change import Change, ExerciseSwapped
from roundwright.plan.changing.disturbed import disturbance
from roundwright.plan.changing.restate import Restated, restate
from roundwright.plan.document import PlanDocument
from roundwright.plan.gate.judge import judge
from roundwright.plan.outcome import Budget, Status

RESULTS = Path(__file__).parent / "results"
Size = tuple[int, int]
SIZES: tuple[Size, ...] = ((10, 5), (24, 6), (40, 7))
"""People, places."""
FORMS = (ClassFormat.TOGETHER, ClassFormat.PAIRS, ClassFormat.STAGGERED, ClassFormat.STATIONS)
EACH = 25
"""Changes of each size and format."""
OF_THE_WISH = {"slot.overrun", "space.floor", "time.below_floor"}
"""Stops that no answer can mend: the slot (C3), the room, and times that the class wishes."""
Row = dict[str, object]


def plans_of(size: Size, form: ClassFormat) -> Iterator[PlanDocument]:
    """Give drawn classes of one size and format that can be planned."""
    people, places = size
    for seed in range(1, 100):
        problem = a_hall_of(seed, people, places)
        spec = problem.spec.model_copy(update={"format": form, "slot_s": problem.spec.slot_s + 900})
        plan = a_plan_of(problem.model_copy(update={"spec": spec}), seed)
        if plan is not None:
            yield plan


def disruptions(
    size: Size, form: ClassFormat, number: int
) -> Iterator[tuple[PlanDocument, Change, Restated]]:
    """Give so many changes, of as many plans as it takes; every kind comes about equally often."""
    made = 0
    for plan in plans_of(size, form):
        seed = made
        dice = Dice(seed, f"disruptions {size} {form}")
        changes = drawn_changes(plan, seed, a_drawn_person(dice, "p999"))
        changes.append(ExerciseSwapped(position=dice.between(1, size[1])))
        for k in generator(seed, "order of disruptions").permutation(len(changes)):
            if made == number:
                return
            try:
                asked = restate(plan.problem, plan.core, changes[k], plan.problem.library)
            except BadInputError:
                continue
            made += 1
            yield plan, changes[k], asked


def one_change(plan: PlanDocument, change: Change, asked: Restated, makers: Makers) -> Row:
    """Answer one change tier by tier, timed, and judge every answer."""
    row: Row = {"kind": change.kind}
    start = process_time()
    safe = answer_at_once(plan, asked, makers)
    row["tier_0_ms"] = _ms(start)
    row |= _told(plan, asked, safe, "tier_0")
    overrun_s = overrun_before(plan.core, plan.problem.spec.slot_s)
    question = asked_as_values(Asked(plan.core, overrun_s, asked, 1, Budget.QUICK))
    payload = as_bytes(question)
    start = process_time()
    heard: list[bytes] = []
    told = json.loads(mend(payload, heard.append))
    row["tier_1_ms"] = _ms(start)
    row["tier_1_told"] = len(heard)
    found = answer_of_values(told["answer"], held_as(asked, plan.core).problem)
    row |= _told(plan, asked, found, "tier_1")
    row["tier_1_proven"] = found.outcome.status is Status.PROVEN
    row["tier_1_least"] = list(found.least.order)
    if not told["swap_at"]:
        return row
    is_open = bool(asked.open_positions)
    library = plan.problem.library.model_dump(mode="json")
    more = {
        "library_digest": sha256(as_bytes(library)).hexdigest(),
        "swap_at": told["swap_at"],
        "left_out": None if is_open else found.harm.left_out,
    }
    with_library = as_bytes(question | more | {"library": library})
    payload = as_bytes(question | more)
    row["tier_2_bytes"] = [len(with_library), len(payload)]
    mend_by_swap(as_bytes(question | more | {"library": library, "swap_at": []}), heard.append)
    heard.clear()
    start = process_time()
    answer = json.loads(mend_by_swap(payload, heard.append))["answer"]
    row["tier_2_ms"] = _ms(start)
    row["tier_2_told"] = len(heard)
    row["tier_2_places"] = len(told["swap_at"])
    row["tier_2_found"] = answer is not None
    if answer is not None:
        swap = answer_of_values(answer, plan.problem)
        row["tier_2_proven"] = swap.outcome.status is Status.PROVEN
        row["tier_2_harm"] = list(swap.harm.order)
        row["tier_2_forbidden"] = _forbidden(swap)
    return row


def _told(plan: PlanDocument, asked: Restated, answer: Answer, name: str) -> Row:
    seen = disturbance(plan.core, answer.core, asked)
    if (len(seen.people), seen.cell_count) != (answer.harm.people, answer.harm.cells):
        raise ValueError(f"{name} states {answer.harm}, the comparison of plans {seen}")
    return {f"{name}_harm": list(answer.harm.order), f"{name}_forbidden": _forbidden(answer)}


def _forbidden(answer: Answer) -> int:
    """Count findings that say never or stop, but for those that no answer can mend."""
    findings = judge(answer.core, answer.problem).findings
    return sum(f.grade != "advise" and f.rule not in OF_THE_WISH for f in findings)


def _ms(start: float) -> float:
    return round((process_time() - start) * 1000, 2)


def _quantile(values: Sequence[float], share: float) -> float | None:
    ordered = sorted(values)
    return ordered[min(len(ordered) - 1, int(share * len(ordered)))] if ordered else None


def _people(rows: Sequence[Row], name: str) -> int:
    """Count the people disturbed; with tier 1 proven its figure is the least there is."""
    harms = [h for r in rows if isinstance(h := r.get(f"{name}_harm"), list)]
    return sum(h[2] for h in harms)


def summary_of(rows: Sequence[Row]) -> Row:
    """Give times and harm over some rows."""
    found: Row = {"changes": len(rows)}
    for name in ("tier_0", "tier_1", "tier_2"):
        times = [float(str(r[f"{name}_ms"])) for r in rows if f"{name}_ms" in r]
        found[f"{name}_median_ms"] = _quantile(times, 0.5)
        found[f"{name}_95th_ms"] = _quantile(times, 0.95)
        found[f"{name}_timed"] = len(times)
        found[f"{name}_forbidden"] = sum(int(str(r.get(f"{name}_forbidden", 0))) for r in rows)
        harms = [h for r in rows if isinstance(h := r.get(f"{name}_harm"), list)]
        found[f"{name}_people"] = sum(h[2] for h in harms)
        found[f"{name}_left_out"] = sum(h[0] for h in harms)
    found["tier_1_proven"] = sum(bool(r.get("tier_1_proven")) for r in rows)
    found["tier_2_found"] = sum(bool(r.get("tier_2_found")) for r in rows)
    proven = [r for r in rows if r.get("tier_1_proven")]
    for name in ("tier_0", "tier_1"):
        found[f"{name}_people_where_proven"] = _people(proven, name)
    found["unanswered"] = sum(bool(r.get("unanswered")) for r in rows)
    found["tier_0_least"] = sum(r["tier_0_harm"] == r["tier_1_harm"] for r in proven)
    found["tier_0_least_but_points"] = sum(
        h[:4] == g[:4]
        for r in proven
        if isinstance(h := r["tier_0_harm"], list) and isinstance(g := r["tier_1_harm"], list)
    )
    return found


def run(each: int) -> Iterator[Row]:
    """Run everything; gives what there is after every size and format."""
    rows: list[Row] = []
    summaries: list[Row] = []
    for size in SIZES:
        for form in FORMS:
            makers, of_class = Makers(), []
            for plan, change, asked in disruptions(size, form, each):
                row: Row = {"size": list(size), "format": form.value}
                try:
                    row |= one_change(plan, change, asked, makers)
                except NoPlanError:
                    row |= {"kind": change.kind, "unanswered": True}
                of_class.append(row)
            rows += of_class
            told: Row = {"size": list(size), "format": form.value, **summary_of(of_class)}
            summaries.append(told)
            print(json.dumps(told), flush=True)
            yield {"changes": rows, "by_class": summaries, "all": summary_of(rows)}


def main() -> int:
    """Run alone and write the results."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--each", type=int, default=EACH, help="changes of each size and format")
    parser.add_argument("--label", default=version("roundwright"), help="name of the results file")
    given = parser.parse_args()
    RESULTS.mkdir(exist_ok=True)
    path = RESULTS / f"{given.label}.changes.json"
    found: Row = {}
    for found in run(given.each):
        written = {"machine": machine(), **found}
        path.write_text(json.dumps(written, indent=1, sort_keys=True) + "\n", encoding="utf-8")
    overall = found["all"]
    print(json.dumps(overall))
    print(f"written to {path.name}")
    if not isinstance(overall, dict):
        return 1
    bad = ("tier_0_forbidden", "tier_1_forbidden", "tier_2_forbidden", "unanswered")
    return int(any(overall[name] for name in bad))


if __name__ == "__main__":
    sys.exit(main())

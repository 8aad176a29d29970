"""The reference page of the JSON interface, made from its own description."""

from roundwright.web.interface.application import AT, make_interface
from roundwright.web.interface.reference import Operation, operations_of

HEAD = f"""# The JSON interface

Made from the interface's own description (`{AT}/openapi.json`, OpenAPI 3.1) by `python -m
tools.write_reference`; the same stands at `/api` in a house.

* *Who calls*: the cookie of a signed-in browser, or `Authorization: Bearer TOKEN` with a token
  made in Settings. Rights are those of the account; an assistant never gets health.
  Tokens end after their days, and earlier when the account changes its password, signs out or
  is closed.
* *Versions*: a write names the version or revision that it was made on; who is late gets 409
  with what was done since, and nothing is done.
* *Faults*: problem details (RFC 9457), `application/problem+json`, with `type`
  (`urn:roundwright:` and the [code](errors.md)), `detail`, `next_step` and `faults`, all at
  once. Values are
  never repeated.
* *Long work*: ask `do_planning`, then ask `see_planning` again or follow `follow_planning`
  (server-sent events); `stop` ends it.
* *Times of the day* are local to the hall, without an offset. Lengths end in `_s` (seconds),
  masses in `_g` (grams).
"""


def interface_page() -> str:
    """Give the page as Markdown."""
    operations = operations_of(make_interface("1").openapi())
    lines = [HEAD]
    subject = ""
    for one in operations:
        if one.subject != subject:
            subject = one.subject
            lines.append(f"## {subject[:1].upper()}{subject[1:]}\n")
        lines += _told(one)
    return "\n".join(lines)


def _told(one: Operation) -> list[str]:
    lines = [f"### `{one.operation_id}`", "", f"`{one.method} {AT}{one.path}`", "", one.words, ""]
    if one.takes:
        lines += ["| takes | where | kind | what |", "| --- | --- | --- | --- |"]
        for taken in one.takes:
            name = f"`{taken.name}`" + (" *" if taken.is_needed else "")
            lines.append(f"| {name} | {taken.where} | {taken.kind} | {taken.words} |")
        lines.append("")
    lines += [f"Gives: {one.gives}. Answers: {', '.join(one.statuses)}.", ""]
    return lines

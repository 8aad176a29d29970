"""A class on all its papers and in all its pictures, to be told in any language."""

import re
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from io import BytesIO
from typing import Any

from pypdf import PdfReader

from roundwright.bootstrap.shipped_bodies import shipped_bodies
from roundwright.bootstrap.shipped_pictures import ShippedPictures
from roundwright.documents.class_sheet_html import class_sheet_html
from roundwright.documents.class_sheet_pdf import class_sheet_pdf
from roundwright.documents.coach_script import script_of
from roundwright.documents.comparison_html import comparison_html
from roundwright.documents.personal_sheets import personal_of
from roundwright.documents.pictures.class_timeline import class_timeline
from roundwright.documents.pictures.finishing_times import finishing_times
from roundwright.documents.pictures.ink import Picture
from roundwright.documents.pictures.plan_pictures import plan_pictures
from roundwright.documents.pictures.strength_bars import strength_bars
from roundwright.documents.pictures.who_is_where import who_is_where
from roundwright.documents.plan_pages_html import plan_page_html
from roundwright.documents.plan_pages_pdf import plan_page_pdf
from roundwright.documents.plan_view import PlanView
from roundwright.documents.room_page import room_of
from roundwright.documents.sheet_content import SheetContent, sheet_of
from roundwright.documents.station_cards import cards_of
from roundwright.goals.class_wish import ClassFormat
from roundwright.hall.hall import Hall
from roundwright.library.catalogue import Catalogue
from roundwright.library.spoken_library import spoken
from roundwright.people.capacity import Capacity
from roundwright.plan.document import PlanDocument
from roundwright.plan.gate.judge import judge
from roundwright.plan.pieces import with_piece_lines, with_pieces
from roundwright.rehearsal.report import rehearse
from roundwright.services.compare_versions import compare_versions
from roundwright.services.names import names_of
from tests.documents.hand_plans import document, names
from tests.documents.hand_sheet import a_hall, sealed
from tests.documents.test_groups_and_floor import DOOR, EXIT, HELP, RACK, _rotating
from tests.support.plans import a_fitted_plan, the_demo_hall

PRINTED_AT = "2026-03-02 09:00"
MAKERS: dict[str, Callable[..., Any]] = {
    "sheet": sheet_of,
    "cards": cards_of,
    "personal": personal_of,
    "room": room_of,
    "script": script_of,
}
DRAWN = ("sheet", "cards", "personal")
COMPARED = ("wall_sit", "goblet_squat")
Made = tuple[PlanDocument, Hall]


class Asked(dict[str, str]):
    """A language that writes down what it was asked for; without texts each letter is an ö."""

    def __init__(self, texts: Mapping[str, str] | None = None) -> None:
        super().__init__(texts or {})
        self.is_masked = texts is None
        self.asked: set[str] = set()

    def __bool__(self) -> bool:
        return True

    def get(self, text: str, default: Any = None) -> Any:
        """Give the text of a language, or its English with every letter outside places hidden."""
        self.asked.add(text)
        return masked(text) if self.is_masked else super().get(text, default)


def masked(text: str) -> str:
    """Hide each letter but those of places."""
    parts = re.split(r"(\{\w+\})", text)
    return "".join(p if p.startswith("{") else re.sub(r"[A-Za-z]", "ö", p) for p in parts)


@cache
def demo() -> Made:
    """Give the class of the demo hall with warm-up and cool-down."""
    plan, hall = a_fitted_plan(), the_demo_hall()
    problem = with_piece_lines(plan.problem, hall.catalogue)
    core = with_pieces(plan.core, problem)
    update = {"problem": problem, "core": core, "verdict": judge(core, problem)}
    return plan.model_copy(update=update), hall


def by_hand(people: int = 10, **how: Any) -> Made:
    """Give the class written by hand, in a room with doors."""
    return _in_a_room(document(people, **how), people)


def moving_on(form: ClassFormat) -> Made:
    """Give the class written by hand with groups that move on."""
    return _in_a_room(_rotating(10, form, (0, 1, 2, 3, 4)), 10)


def _in_a_room(plan: PlanDocument, people: int) -> Made:
    room = plan.problem.room.model_copy(update={"fixture": (RACK, EXIT, DOOR, HELP)})
    problem = plan.problem.model_copy(update={"room": room})
    return plan.model_copy(update={"problem": problem}), a_hall(names(people))


CLASSES: dict[str, Callable[[], Made]] = {
    "demo": demo,
    "in pairs": lambda: by_hand(in_pairs=True),
    "many": lambda: by_hand(40),
    "stations": lambda: moving_on(ClassFormat.STATIONS),
    "staggered": lambda: moving_on(ClassFormat.STAGGERED),
}


def content_of(made: Made, kind: str) -> Any:
    """Put one paper of a class together."""
    plan, hall = made
    drawn = (ShippedPictures(),) if kind in DRAWN and plan is demo()[0] else ()
    return MAKERS[kind](sealed(plan), hall, PRINTED_AT, *drawn)


def on_paper(content: Any, paper: Any = "a4") -> PdfReader:
    """Set a paper as a PDF and read it."""
    is_sheet = isinstance(content, SheetContent)
    data = class_sheet_pdf(content, paper) if is_sheet else plan_page_pdf(content, paper)
    return PdfReader(BytesIO(data))


def words_on_paper(content: Any) -> str:
    """Give everything that can be read on a paper, and its title."""
    pdf = on_paper(content)
    return "\n".join([str(pdf.metadata.title), *(page.extract_text() for page in pdf.pages)])


def words_of_page(page: str) -> str:
    """Give everything that can be read or is read out on a page of HTML or a drawing."""
    page = re.sub(r"<style.*?</style>|<defs.*?</defs>", " ", page, flags=re.S)
    read_out = re.findall(r'(?:aria-label|alt|title)="([^"]*)"', page)
    return "\n".join([re.sub(r"<[^>]*>", "\n", page), *read_out])


def plain_page(content: Any) -> str:
    """Write a paper as a plain page."""
    is_sheet = isinstance(content, SheetContent)
    return class_sheet_html(content) if is_sheet else plan_page_html(content)


def pictures_of(made: Made) -> Iterator[Picture]:
    """Draw every picture of a class, and the strength of somebody in it."""
    plan, hall = made
    view = PlanView(plan, {p.person_id: p.shown_name for p in hall.people}, "kg")
    yield from plan_pictures(plan, view.names, "kg")
    told = names_of(plan.problem, hall)
    report = rehearse(plan.core, plan.problem, plays=20)
    for by_group in (False, True):
        yield class_timeline(report, plan.core, view.name, told.exercise, by_group=by_group)
    yield finishing_times(report)
    assert report.middle is not None
    where = who_is_where(plan, report.middle, view.names, "kg")
    strong = strength_bars(_strengths(plan), "kg")
    yield Picture(strong.name, strong.title, strong.words, strong.svg, (*strong.tables, where))


def _strengths(plan: PlanDocument) -> tuple[Capacity, ...]:
    return next((p.capacities for p in plan.problem.people.values() if p.capacities), ())


def words_of_picture(picture: Picture) -> str:
    """Give a picture's words and those of its tables."""
    cells = [
        words
        for table in picture.tables
        for words in (table.caption, *table.heads, *(w for row in table.rows for w in row))
    ]
    return "\n".join([words_of_page(picture.svg), picture.title, picture.words, *cells])


def compared() -> str:
    """Write the page that compares two versions."""
    hall, bodies = the_demo_hall(), shipped_bodies()
    both = compare_versions(spoken(hall.catalogue), bodies.postures, bodies.table, *COMPARED)
    return comparison_html(both, ShippedPictures())


def names_of_positions() -> set[str]:
    """Give the words in the names of key positions: the library's own, written in English."""
    drawn = [svg for one in COMPARED for svg in ShippedPictures().key_pictures(one)]
    return set(re.findall(r"[A-Za-z]+", " ".join(re.findall(r"<title>(.*?)</title>", str(drawn)))))


def own_words(made: Made) -> set[str]:
    """Give the words that somebody of the hall wrote: they stand on papers as they are."""
    plan, hall = made
    shown = [person.shown_name for person in hall.people]
    room, kit = plan.problem.room, plan.problem.kit
    labels = [i.label or i.id for i in kit.items] + [d.label or "" for d in kit.dumbbells]
    texts = [hall.settings.name, plan.problem.spec.name, room.name, *room.emergency, *labels]
    return set(re.findall(r"[A-Za-z]+", " ".join([*shown, *texts])))


def library_texts(library: Catalogue) -> set[str]:
    """Give what the library says of its movements: said where a catalogue has it."""
    found = {c.name for c in library.combinations.values()}
    for line in library.lines.values():
        found |= {line.name, *line.up, *line.down}
    for movement in library.movements.values():
        told = movement.teaching
        found |= {movement.name, told.set_up, told.start, told.end, told.feel, told.breathing}
        found |= {told.watch, *told.steps, *told.cues}
        found |= {words for each in told.faults for words in (each.fault, each.fix)}
    return found

"""Papers and pictures in a reader's language: every word is looked up, and German fits."""

import re
from datetime import UTC, datetime
from functools import cache
from xml.etree import ElementTree

import pytest

from roundwright.documents.class_calendar import MADE_BY, class_calendar
from roundwright.documents.pictures.ink import Picture
from roundwright.documents.pictures.picture_page import picture_page
from roundwright.documents.plan_view import PlanView
from roundwright.documents.spoken import day_words
from roundwright.foundation.words import Speech, spoken_to
from roundwright.web.texts import CATALOGUES, catalogue, speech_of
from tests.documents import said_papers as papers
from tests.documents.hand_plans import document, names
from tests.documents.hand_sheet import a_hall, a_sheet, sealed

SIGNS = {"min", "kg", "cm"}
"""Signs of units, the same in every language."""
WIDTH_A_LETTER = 0.47
"""Mean width of a letter in pictures as a share of its height, as measured and a little more."""
GERMAN = speech_of("de-DE")


def masked(asked: papers.Asked) -> Speech:
    return Speech("de", asked, ",", nouns_are_capital=True)


@cache
def told_masked(which: str, kind: str) -> tuple[str, str, set[str]]:
    """Give a paper's words in print and its plain page, all masked, and what was looked up."""
    asked = papers.Asked()
    with spoken_to(masked(asked)):
        content = papers.content_of(papers.CLASSES[which](), kind)
        return papers.words_on_paper(content), papers.plain_page(content), asked.asked


@cache
def drawn_masked(which: str) -> tuple[list[Picture], str, set[str]]:
    """Give the pictures of a class and their page, all masked, and what was looked up."""
    asked = papers.Asked()
    with spoken_to(masked(asked)):
        drawn = list(papers.pictures_of(papers.CLASSES[which]()))
        return drawn, picture_page("", [], drawn), asked.asked


@cache
def compared_masked() -> tuple[str, set[str]]:
    """Give the page that compares two versions, masked, and what was looked up."""
    asked = papers.Asked()
    with spoken_to(masked(asked)):
        return papers.compared(), asked.asked


def english_in(told: str, made: papers.Made) -> set[str]:
    """Give each word that was not looked up and is nobody's own."""
    bare = re.sub(r"\S+…|\bp\d+\b", " ", told)
    found = set(re.findall(r"(?<![0-9A-Za-zö])[A-Za-z]{2,}(?![0-9A-Za-z])", bare))
    return found - SIGNS - papers.own_words(made)


@pytest.mark.parametrize("kind", papers.MAKERS)
@pytest.mark.parametrize("which", papers.CLASSES)
def test_every_word_of_a_paper_is_looked_up(which, kind):
    made = papers.CLASSES[which]()
    printed, page, _ = told_masked(which, kind)
    assert "ö" in printed
    assert english_in(printed, made) == set()
    assert english_in(papers.words_of_page(page), made) == set()
    assert '<html lang="de">' in page


@pytest.mark.parametrize("which", papers.CLASSES)
def test_every_word_of_a_picture_is_looked_up(which):
    made = papers.CLASSES[which]()
    drawn, page, _ = drawn_masked(which)
    for picture in drawn:
        assert english_in(papers.words_of_picture(picture), made) == set(), picture.name
    assert english_in(papers.words_of_page(page), made) == set()
    assert '<html lang="de">' in page


def test_every_word_of_a_comparison_is_looked_up():
    found = english_in(papers.words_of_page(compared_masked()[0]), papers.demo())
    assert found == papers.names_of_positions()


@pytest.mark.parametrize("language", CATALOGUES)
@pytest.mark.parametrize("which", papers.CLASSES)
def test_whatever_is_looked_up_is_in_the_catalogue(which, language):
    plan, hall = papers.CLASSES[which]()
    asked = set().union(*(told_masked(which, kind)[2] for kind in papers.MAKERS))
    asked |= drawn_masked(which)[2] | compared_masked()[1]
    assert len(asked) > 100
    libraries = plan.problem.library, hall.catalogue, papers.the_demo_hall().catalogue
    taught = {text for each in libraries for text in papers.library_texts(each)}
    assert asked - taught - set(catalogue(language)) == set()


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_german_papers_have_as_many_pages_as_english_ones(paper):
    def pages() -> dict[str, int]:
        contents = {kind: papers.content_of(papers.demo(), kind) for kind in papers.MAKERS}
        return {kind: len(papers.on_paper(each, paper).pages) for kind, each in contents.items()}

    english = pages()
    with spoken_to(GERMAN):
        assert pages() == english
    assert (english["sheet"], english["room"]) == (2, 1)
    assert english["personal"] == len(papers.demo()[0].core.people)


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("how", [{}, {"in_pairs": True}, {"long_names": True}])
def test_a_full_german_sheet_keeps_two_pages(how, paper):
    with spoken_to(GERMAN):
        assert len(papers.on_paper(a_sheet(16, 5, **how), paper).pages) == 2


def ends_of(text: ElementTree.Element) -> tuple[float, float]:
    """Give about where words of a picture begin and end."""
    width = len(text.text or "") * float(text.attrib["font-size"]) * WIDTH_A_LETTER
    x, before = float(text.attrib["x"]), {"start": 0.0, "middle": 0.5, "end": 1.0}
    left = x - before[text.attrib["text-anchor"]] * width
    return left, left + width


@pytest.mark.parametrize("which", ["demo", "in pairs", "stations"])
def test_german_words_stay_within_their_picture(which):
    with spoken_to(GERMAN):
        for picture in papers.pictures_of(papers.CLASSES[which]()):
            root = ElementTree.fromstring(picture.svg)
            wide = float(root.attrib["viewBox"].split()[2])
            for text in root.iter("{http://www.w3.org/2000/svg}text"):
                left, right = ends_of(text)
                assert left >= 0, text.text
                assert right <= wide, text.text


def test_words_that_mean_two_things_are_said_as_the_right_one():
    with spoken_to(GERMAN):
        drawn = {picture.name: picture for picture in papers.pictures_of(papers.demo())}
    regions = [row[0] for row in drawn["regions"].tables[0].rows]
    assert "Rücken" in regions
    assert drawn["balance"].tables[0].heads[0] == "Zeitraum"
    assert "Kniebeuge" in drawn["strength"].svg


def test_figures_days_and_pieces_are_written_as_germans_do():
    plan = document()
    with spoken_to(GERMAN):
        assert day_words(plan.core.class_.starts_on) == "Dienstag, 3. März 2026"
        sheet = papers.content_of(papers.demo(), "sheet")
        page = papers.plain_page(sheet)
    assert "Dienstag, 3. März 2026, 18:30 bis 19:08 Uhr" in page
    assert "Plätze von 2 × 2,5 m" in page
    assert "9 × Stuhl" in page
    assert "5 langsam je Seite" in page


def test_a_calendar_file_speaks_the_reader_s_language_and_its_maker_stays():
    plan = document()
    with spoken_to(GERMAN):
        stamped = datetime(2026, 3, 1, tzinfo=UTC)
        made = class_calendar(sealed(plan), a_hall(names(10)), stamped, with_names=True).decode()
    told = made.replace("\r\n ", "")
    assert "10 Leute\\, 3 Runden\\, alle gemeinsam" in told
    assert "Es machen mit: Ana R\\, Ben O" in told
    assert f"PRODID:{MADE_BY}" in told
    assert "SUMMARY:Tuesday circuit" in told


def test_two_readers_of_one_plan_each_see_their_own_language():
    plan, hall = papers.demo()
    shown = {p.person_id: p.shown_name for p in hall.people}

    def first_load() -> str:
        view = PlanView(plan, shown, "kg")
        return next(view.load(cell) for cell in plan.core.cells if cell.units == 2)

    with spoken_to(GERMAN):
        german = first_load(), papers.content_of(papers.demo(), "cards").cards[0].name
    english = first_load(), papers.content_of(papers.demo(), "cards").cards[0].name
    assert german[0].startswith("Paar ")
    assert english[0].startswith("pair ")
    assert german[1] != english[1]

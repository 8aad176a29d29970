"""Reading what was written gives an equal hall, and writing that gives equal bytes."""

from datetime import date, time

from hypothesis import given, settings
from hypothesis import strategies as st

from roundwright.goals.class_wish import (
    AfterLastRound,
    BurstWish,
    ClassFormat,
    ClassWish,
    Count,
    CountUnit,
    ExerciseWish,
    KeptCell,
    Pace,
    WorkRestWish,
)
from roundwright.hall.hall import Hall, HallSettings, Paper, Units
from roundwright.hall.hall_text import read_hall_texts
from roundwright.hall.written_hall import written_hall
from roundwright.kit.inventory import Dumbbells, Inventory, KitItem, Room
from roundwright.library.vocabulary import Demand, KitKind, StrengthFamily
from roundwright.people.demand_caps import never_by_coach
from roundwright.people.limitation import (
    WITH_WEEKS,
    Amount,
    Concern,
    Limitation,
    LimitedSide,
    OverrideRole,
    SetBy,
)
from roundwright.people.person import Clearance, Person, Sex
from tests.hall.hall_files import hall_files, read
from tests.support import worked_count

LIBRARY = worked_count.library()
QUICK = settings(max_examples=60, deadline=None)

plain = st.characters(exclude_categories=("Cs", "Cc", "Zl", "Zp"))
words = st.text(plain, min_size=1, max_size=20).map(str.strip).filter(bool)
any_text = st.text(st.characters(exclude_categories=("Cs",), exclude_characters="\0"), max_size=19)
some_text = any_text.filter(lambda t: not any(c.isdigit() for c in t)).filter(bool)
slugs = st.from_regex(r"[a-z][a-z0-9_]{1,6}", fullmatch=True)
dates = st.dates(date(2020, 1, 1), date(2030, 12, 31))
maybe = st.none()
IN_GROUPS = (ClassFormat.STATIONS, ClassFormat.STAGGERED)

rooms = st.builds(
    Room,
    id=slugs,
    name=some_text,
    length=st.integers(1, 200_000),
    width=st.integers(1, 200_000),
    height=maybe | st.integers(1, 20_000),
    space_a_person=st.floats(0.1, 50),
    emergency=st.lists(some_text, max_size=2).map(tuple),
)
hall_settings = st.builds(
    HallSettings,
    name=some_text,
    time_zone=st.sampled_from(["Europe/London", "Asia/Kathmandu", "UTC"]),
    units=st.sampled_from(Units),
    locale=st.sampled_from(["en-GB", "de", "fil-PH"]),
    paper=st.sampled_from(Paper),
)
dumbbells = st.builds(
    Dumbbells,
    mass=st.integers(1, 100_000),
    count=st.integers(0, 400),
    flat_sided=st.booleans(),
    in_use=st.booleans(),
    label=st.sampled_from(["", "8 kg", "20 lb", 'odd "one"', "9.072 kg"]),
)
items = st.builds(
    KitItem,
    id=slugs,
    kind=st.sampled_from([kind for kind in KitKind if kind is not KitKind.DUMBBELL]),
    count=st.integers(0, 400),
    height=maybe | st.integers(1, 3000),
    strength=maybe | st.integers(1, 500_000),
    stable=st.booleans(),
    in_use=st.booleans(),
    label=any_text.filter(lambda t: not any(c.isdigit() for c in t)),
)
kits = st.builds(
    Inventory,
    dumbbells=st.lists(dumbbells, max_size=4, unique_by=lambda d: d.unit_mass_g).map(tuple),
    items=st.lists(items, max_size=4, unique_by=lambda i: i.id).map(tuple),
).filter(lambda kit: not kit.is_empty)
people = st.builds(
    Person,
    person_id=slugs,
    shown_name=words,
    birth_year=maybe | st.integers(1900, 2100),
    sex=st.sampled_from(Sex),
    body_mass_g=maybe | st.integers(20_000, 300_000),
    height_mm=maybe | st.integers(800, 2500),
    level=maybe | st.integers(1, 5),
    level_by_family=st.dictionaries(st.sampled_from(StrengthFamily), st.integers(1, 5)),
    classes_done=maybe | st.integers(0, 100_000),
    last_class_on=maybe | dates,
    clearance=st.sampled_from(Clearance),
    effort_only=st.booleans(),
    usual_chance_pct=maybe | st.integers(0, 100),
    own_kit=st.just("") | words,
)
NOT_BOUND = (SetBy.PERSON, SetBy.COACH)
"""What anybody with a role may lift; a clinician's item is lifted by a clinician alone."""
overrides = st.none() | st.tuples(
    st.sampled_from(Demand), words, st.sampled_from(OverrideRole), dates
)


@st.composite
def limitations(draw, person_id):
    demand, reason, role, end = draw(overrides) or (None, None, None, None)
    from_on = draw(st.dates(date(2020, 1, 1), date(2024, 1, 1)))
    concern = draw(st.sampled_from(Concern))
    if demand and never_by_coach(concern, demand):
        role = OverrideRole.CLINICIAN
    return Limitation(
        person_id=person_id,
        concern=concern,
        side=draw(st.sampled_from(LimitedSide)),
        amount=draw(st.sampled_from(Amount)),
        from_on=from_on,
        until_on=draw(maybe | st.dates(from_on, date(2030, 1, 1))),
        weeks=draw(maybe | st.integers(0, 42)) if concern in WITH_WEEKS else None,
        set_by=draw(
            st.sampled_from(SetBy if role in (None, OverrideRole.CLINICIAN) else NOT_BOUND)
        ),
        override_demand=demand,
        override_reason=reason,
        override_by=role,
        override_until_on=end,
    )


@st.composite
def classes(draw):
    line = st.sampled_from(sorted(LIBRARY.lines))
    counts = st.builds(
        Count, value=st.integers(1, 300).map(lambda n: 2 * n), unit=st.sampled_from(CountUnit)
    )
    seconds = st.builds(Count, value=st.integers(1, 600), unit=st.just(CountUnit.SECONDS))
    timed = draw(st.booleans())
    form = draw(st.sampled_from(ClassFormat))
    wanted = (maybe | seconds) if timed else counts
    entries = draw(
        st.lists(st.builds(ExerciseWish, exercise=line, count=wanted), min_size=1, max_size=4)
    )
    day = draw(st.sampled_from([{"on": date(2026, 3, 3)}, {"weekday": "friday"}]))
    version = LIBRARY.lines[entries[0].exercise].versions[0]
    kept = KeptCell(person="p001", position=1, version=draw(maybe | st.just(version)), mass_g=8000)
    return ClassWish(
        **day,
        name=draw(some_text),
        start=draw(st.times(time(4, 0), time(22, 0))),
        slot_s=draw(st.integers(60, 4 * 3600)),
        room="main_floor",
        people=draw(st.sampled_from(["all", ("p001",), ("p002", "p001")])),
        goal=draw(any_text.filter(lambda t: not any(c.isdigit() for c in t))),
        format=form,
        groups=draw(maybe | st.integers(2, 4)) if form in IN_GROUPS else None,
        coaches=draw(st.integers(1, 10)),
        rounds=draw(st.integers(1, 10)),
        rounds_choice=draw(st.sampled_from([(), (2, 3)])),
        work_rest=draw(st.sampled_from(WorkRestWish)) if timed else WorkRestWish.OWN,
        pace=Pace.TIMED if timed else Pace.COUNTED,
        work_s=40 if timed else draw(maybe | st.integers(1, 600)),
        change_s=draw(st.integers(0, 600)),
        rest_s=draw(st.integers(0, 900)),
        burst=draw(maybe | st.just(BurstWish(line="skip_line", length_s=45, rate_a_min=120))),
        after_last_round=draw(st.sampled_from(AfterLastRound)),
        warm_up_s=draw(st.integers(0, 3600)),
        reps_left=draw(maybe | st.integers(0, 6)),
        exercise=tuple(entries),
        keep=draw(st.sampled_from([(), (kept,)])),
        ban=draw(st.sampled_from([(), ("box_jump", "squat_line")])),
        order=draw(st.sampled_from(["as_given", "free"])),
        chance_on_time_pct=draw(st.integers(1, 99)),
    )


def a_hall(**changes: object) -> Hall:
    base = read(hall_files())
    return base.model_copy(update=changes)


def stays_the_same(hall: Hall) -> None:
    files = written_hall(hall)
    again = read_hall_texts(files, LIBRARY)
    assert again == hall
    assert written_hall(again) == files


@QUICK
@given(hall_settings, st.lists(rooms, max_size=2, unique_by=lambda r: r.id))
def test_settings_and_rooms_come_back(chosen, more):
    first = Room(id="main_floor", name="Main floor", length=18_000, width=12_000)
    others = [room for room in more if room.id != first.id]
    stays_the_same(a_hall(settings=chosen, rooms=(first, *others)))


@QUICK
@given(kits)
def test_kit_comes_back(kit):
    stays_the_same(a_hall(kit=kit))


@QUICK
@given(st.lists(people, min_size=1, max_size=4, unique_by=lambda p: p.person_id))
def test_people_come_back(found):
    stays_the_same(a_hall(people=tuple(found), limitations=()))


@QUICK
@given(st.lists(limitations("p001"), max_size=3, unique_by=str))
def test_limitations_come_back(rows):
    unlike = tuple(row for n, row in enumerate(rows) if row not in rows[:n])
    stays_the_same(a_hall(limitations=unlike))


@QUICK
@given(st.dictionaries(slugs, classes(), max_size=2))
def test_classes_come_back(found):
    stays_the_same(a_hall(classes=found))


def test_a_files_own_wording_of_a_mass_comes_back():
    hall = read(hall_files())
    assert b'mass = "9.072 kg"\n' in written_hall(hall)["kit.toml"]
    assert b'label = "20 lb"\n' in written_hall(hall)["kit.toml"]
    stays_the_same(hall)


def test_own_library_texts_come_back_as_they_were():
    text = """# ours
schema = "roundwright.library/1"

[combination.squat_and_press]
name = "Squat and press"
parts = [{ line = "squat_line" }, { line = "press_line" }]
"""
    stays_the_same(read(hall_files() | {"library/own.toml": text.encode()}))

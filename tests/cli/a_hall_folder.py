"""A small hall folder as text, changed by what a test is about."""

HALL = """schema = "roundwright.hall/1"
name = "Tern Quay Annexe"
time_zone = "Europe/London"

[[room]]
id = "main"
name = "Annexe"
length = "12 m"
width = "10 m"
"""
KIT = """schema = "roundwright.kit/1"

[[dumbbell]]
mass = "2 kg"
count = 8

[[dumbbell]]
mass = "4 kg"
count = 8

[[item]]
id = "bench"
kind = "bench"
count = {benches}
height = "45 cm"
strength = "300 kg"

[[item]]
id = "chair"
kind = "chair"
count = {chairs}
height = "45 cm"
strength = "200 kg"
"""
PEOPLE = """person_id,shown_name,birth_year,sex,body_mass_kg,height_cm,level,classes_done,clearance
p001,Ines R,1990,f,66,170,3,40,cleared
p002,Olu T,1988,m,80,180,3,60,cleared
"""
LIMITATIONS = "person_id,region_or_condition,side,amount,from_on,until_on\n"
CLASS = """schema = "roundwright.class/1"
name = "Tuesday circuit"
weekday = "tuesday"
start = "18:00"
slot = "{slot}"
room = "main"
rounds = 2
warm_up = "5 min"
demonstration = "2 min"
cool_down = "4 min"

[[exercise]]
exercise = "{exercise}"
count = {{ value = 8, unit = "reps" }}
"""


def write_hall(folder, benches=4, chairs=4, slot="45 min", exercise="squats", kit=KIT):
    """Write the folder and give it."""
    (folder / "classes").mkdir(parents=True)
    files = {
        "hall.toml": HALL,
        "kit.toml": kit.format(benches=benches, chairs=chairs),
        "people.csv": PEOPLE,
        "limitations.csv": LIMITATIONS,
        "classes/tuesday.toml": CLASS.format(slot=slot, exercise=exercise),
    }
    for name, text in files.items():
        (folder / name).write_text(text, encoding="utf-8")
    return folder

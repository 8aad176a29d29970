"""The smallest library file that is valid, and ways to break it."""

from roundwright.foundation.faults import Fault
from roundwright.library.catalogue_text import read_catalogue

SCHEMA = 'schema = "roundwright.library/1"\n'


def movement(slug: str, name: str = "", level: int = 1, laterality: str = "bilateral") -> str:
    return f"""
[movement.{slug}]
name = "{name or slug.replace("_", " ")}"
pattern = "squat"
laterality = "{laterality}"
level = {level}
seconds_a_rep = 3.0
contacts_a_rep = 0
low_hops_a_rep = 0
kit = [{{ item = "bench", min_height = "30 cm", use = "support" }}]
floor = {{ length = "2 m", width = 2 }}
tempo = "2-0-1"

[movement.{slug}.muscles]
quads = {{ role = "prime_mover", share = 0.6 }}
glutes = {{ role = "helper", share = 0.4 }}

[movement.{slug}.demands]
knee = 1
hip = 1
needs_standing = 1

[movement.{slug}.teaching]
set_up = "Stand tall before a bench."
steps = ["Bend.", "Straighten."]
start = "Tall."
end = "Tall."
feel = "Thighs."
breathing = "Out on the way up."
cues = ["Slow down.", "Stay tall."]
faults = [
  {{ fault = "Rushing.", fix = "Count two." }},
]
watch = "Balance."
"""


def line(slug: str, *versions: str) -> str:
    names = ", ".join(f'"{version}"' for version in versions)
    return f"""
[line.{slug}]
name = "Line {slug}"
versions = [{names}]
up = ["Two good classes."]
down = ["Two faulty reps."]
"""


def combination(slug: str, *parts: tuple[str, str]) -> str:
    listed = ", ".join(f'{{ line = "{name}", side = "{side}" }}' for name, side in parts)
    return f"""
[combination.{slug}]
name = "Combination {slug}"
parts = [{listed}]
load = "none"
"""


def small() -> str:
    return (
        SCHEMA
        + movement("easy_sit")
        + movement("deep_sit", level=3)
        + line("sits", "easy_sit", "deep_sit")
        + combination("double_sit", ("sits", "both"), ("sits", "both"))
    )


def broken(old: str, new: str) -> str:
    text = small()
    assert old in text
    return text.replace(old, new, 1)


def faults_of(*texts: str) -> tuple[Fault, ...]:
    catalogue, faults = read_catalogue({f"f{n}.toml": text for n, text in enumerate(texts)})
    assert (catalogue is None) == bool(faults)
    return faults


def only_fault(*texts: str) -> Fault:
    faults = faults_of(*texts)
    assert len(faults) == 1, [fault.in_words() for fault in faults]
    return faults[0]


def line_with(text: str, words: str) -> int:
    return next(n for n, row in enumerate(text.splitlines(), start=1) if words in row)

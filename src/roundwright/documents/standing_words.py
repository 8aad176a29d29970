"""What stands on every class sheet: stop signs, cautions and the walk-in's questions."""

# ref: stop-signs (general indications for stopping; from memory)
STOP_SIGNS = (
    "chest pain or pressure",
    "fainting or nearly",
    "confusion, loss of coordination",
    "severe or unusual breathlessness",
    "sudden severe headache",
    "fast or uneven heartbeat",
    "pale, cold or clammy skin",
    "new joint pain or swelling",
    "the person asks to stop",
)
STOP_SIGNS_SOURCE = "From memory, general indications."

CAUTIONS = (
    "This is not medical advice. It defers to the person's clinician, to local law and to the "
    "coach's licence.",
    "A painful movement is stopped, not pushed.",
    "Jumps need a dry, level surface and a box that can neither slide nor tip.",
    "Ease new members in: fewer reps, fewer rounds, no jumps.",
)

# Common practice, no source.
WALK_IN_QUESTIONS = (
    "Heart, chest, fainting, breath, or a limit set by a doctor? Yes: not today.",
    "Pain, an operation, pregnancy or a birth within a year? Yes or unsure: light only.",
    "Active 30 minutes, 3 times a week, for 3 months? No: a newcomer's share.",
)

NO_EMERGENCY_LINE = "Ask where the defibrillator, the door and the address are BEFORE the class."

"""How closely the solver keeps what is said, and what a finished position may miss. Our choice."""

TOLERANCE_M = {
    "contact": 0.0006,
    "lock": 0.0015,
    "place": 0.004,
    "height": 0.003,
    "put": 0.008,
    "balance": 0.004,
    "share": 0.010,
    "floor": 0.0015,
    "apart": 0.006,
    "origin": 0.30,
}
TOLERANCE_RAD = {
    "said": 0.026,
    "aim": 0.035,
    "flat": 0.05,
    "turn": 0.05,
    "loose": 0.45,
    "faces": 0.35,
    "facing": 0.30,
    "flight": 0.15,
    "range": 0.010,
    "before": 1.2,
}
REST_DEG = {
    "back": 18, "back_side": 14, "back_turn": 14, "head": 22, "head_turn": 20,
    "shrug": 8, "reach": 10, "toes": 25, "foot_edge": 9,
    "wrist": 40, "wrist_side": 15, "forearm": 45, "shoulder_turn": 40, "hip_turn": 30, "ankle": 35,
}  # fmt: skip
REST_DEG_ELSE = 50
"""How far a joint goes from rest as readily as it misses any other goal by its tolerance."""

GATE_CONTACT_M = 0.005
GATE_FLOOR_M = 0.005
GATE_IMBALANCE_M = 0.010
GATE_RANGE_DEG = 2.0
GATE_SAID_DEG = 8.0
GATE_AIM_DEG = 12.0
GATE_PUT_M = 0.035
GATE_LEVEL_M = 0.080
"""A position is refused beyond these; the last four are about the author's words: they do not
agree, or they leave shoulders or hips out of level, measured over the width of the shoulders."""

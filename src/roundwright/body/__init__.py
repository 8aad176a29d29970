"""The body: muscles, roles, sides; and its model: postures, pictures, loads, work, joint demand.

Words of an author: `posture_text` reads, `posture` holds. Solving: `solved.solve_posture`, judged
by `pose_faults`. Figures: `figures.figures_of`, `figures.demand_bands`; stored for all bodies by
`body_table` and read for people by `people_figures`. Pictures: `drawing.picture`, `moving`.
"""

"""Quantities of the work itself: no case holds them; lessons, plans and the audit of a job read their limits."""

from training.rulebook.measures.registry import MEASURES, Measure

for _name, _dimension, _job_words, _meaning in (
    ("job.liner_cleaning", "count", (), "How often the liner is cleaned and scraped."),
    ("job.cutter_speed", "speed", (), "Speed of the drill with the carbide cutter."),
    ("job.cutter_direction", "", ("clockwise", "counterclockwise"), "Turning direction of the cutter."),
    ("job.cutter_start", "", ("inside", "outside"), "Side the cutter goes in first."),
    ("job.passes_each_way", "count", (), "Passes of the cutter from each side."),
    ("job.channel_turns", "count", (), "How often fluid is worked into the channel with the spiral tool."),
    ("job.stem_stands", "length", (), "How far the stem stands above the liner."),
    ("job.outline_margin", "length", (), "How far the outline lies beyond the unit, on each side."),
    ("job.buffer_speed", "speed", (), "Speed of the buffer."),
    ("job.buff_texture", "", ("No. 1", "No. 2", "No. 3", "No. 4", "No. 5", "No. 6"), "Texture of the buffed liner."),
    ("job.brush_times", "count", (), "How often the buffed area is brushed."),
    ("job.dust_removal", "", ("vacuum", "compressed-air", "brush"), "How the buffing dust is taken away."),
    ("job.drying", "time", (), "Drying time of the vulcanizing fluid."),
    ("job.drying_heat", "", ("no heat", "forced heat"), "Whether heat is used to dry the fluid."),
    ("job.arrows", "", ("to the beads", "around the tire"), "Where the arrows of a radial unit point."),
    ("job.stitching", "", ("from the center outward", "from the edge inward"), "How the unit is stitched."),
    ("job.seating_pressure", "pressure", (), "Pressure at which the beads are seated."),
    ("job.torque_recheck", "distance", (), "Driving distance after which the wheel torque is checked again."),
    ("job.torque_threads", "", ("clean and dry", "oiled", "dirty or rusty"), "Threads at tightening."),
    ("job.rejected_tire", "", ("marked and made unusable", "put aside unmarked", "given back unmarked"),
     "What becomes of a rejected tire."),
    ("job.refusal", "", ("written down, not mounted", "mounted as asked"),
     "What is done when a customer refuses the decision."),
    ("job.pressure_warning", "percent", (), "Drop below the recommended pressure at which the monitor must warn."),
    ("job.pressure_warning_time", "time", (), "Time within which the monitor must warn."),
):  # fmt: skip
    MEASURES[_name] = Measure(_name, "job", _dimension, tuple(_job_words), _meaning, None)

"""Quantities of the work itself: no case holds them; lessons, plans and the audit of a job read their limits."""

from training.rulebook.measures.registry import MEASURES, Measure
from training.trade.speech import saying

for _name, _dimension, _job_words, _meaning in (
    ("job.liner_cleaning", "count", (), saying("How often the liner is cleaned and scraped.")),
    ("job.cutter_speed", "speed", (), saying("Speed of the drill with the carbide cutter.")),
    (
        "job.cutter_direction",
        "",
        (saying("clockwise"), saying("counterclockwise")),
        saying("Turning direction of the cutter."),
    ),
    ("job.cutter_start", "", (saying("inside"), saying("outside")), saying("Side the cutter goes in first.")),
    ("job.passes_each_way", "count", (), saying("Passes of the cutter from each side.")),
    ("job.channel_turns", "count", (), saying("How often fluid is worked into the channel with the spiral tool.")),
    ("job.stem_stands", "length", (), saying("How far the stem stands above the liner.")),
    ("job.outline_margin", "length", (), saying("How far the outline lies beyond the unit, on each side.")),
    ("job.buffer_speed", "speed", (), saying("Speed of the buffer.")),
    (
        "job.buff_texture",
        "",
        ("No. 1", "No. 2", "No. 3", "No. 4", "No. 5", "No. 6"),
        saying("Texture of the buffed liner."),
    ),
    ("job.brush_times", "count", (), saying("How often the buffed area is brushed.")),
    (
        "job.dust_removal",
        "",
        (saying("vacuum"), "compressed-air", saying("brush")),
        saying("How the buffing dust is taken away."),
    ),
    ("job.drying", "time", (), saying("Drying time of the vulcanizing fluid.")),
    (
        "job.drying_heat",
        "",
        (saying("no heat"), saying("forced heat")),
        saying("Whether heat is used to dry the fluid."),
    ),
    (
        "job.arrows",
        "",
        (saying("to the beads"), saying("around the tire")),
        saying("Where the arrows of a radial unit point."),
    ),
    (
        "job.stitching",
        "",
        (saying("from the center outward"), saying("from the edge inward")),
        saying("How the unit is stitched."),
    ),
    ("job.seating_pressure", "pressure", (), saying("Pressure at which the beads are seated.")),
    ("job.torque_recheck", "distance", (), saying("Driving distance after which the wheel torque is checked again.")),
    (
        "job.torque_threads",
        "",
        (saying("clean and dry"), saying("oiled"), saying("dirty or rusty")),
        saying("Threads at tightening."),
    ),
    (
        "job.rejected_tire",
        "",
        (saying("marked and made unusable"), saying("put aside unmarked"), saying("given back unmarked")),
        saying("What becomes of a rejected tire."),
    ),
    (
        "job.refusal",
        "",
        (saying("written down, not mounted"), saying("mounted as asked")),
        saying("What is done when a customer refuses the decision."),
    ),
    (
        "job.pressure_warning",
        "percent",
        (),
        saying("Drop below the recommended pressure at which the monitor must warn."),
    ),
    ("job.pressure_warning_time", "time", (), saying("Time within which the monitor must warn.")),
):
    MEASURES[_name] = Measure(_name, "job", _dimension, tuple(_job_words), _meaning, None)

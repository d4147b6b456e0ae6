"""Quantities of the work that only a log states: tools, results, and the air the fluid dries in."""

from training.rulebook.measures.registry import MEASURES, Measure

_TURNS = ("clockwise", "counterclockwise")

for _name, _dimension, _log_words, _meaning in (
    ("job.method", "", ("one-piece", "two-piece", "surface-fill"), "How the injury is repaired."),
    ("job.injury_kind", "", ("puncture", "cut", "surface"), "Kind of the injury under repair."),
    ("job.valve_core", "", ("out", "in"), "Where the valve core is while the air is let out."),
    ("job.inspected", "", ("outside and inside", "outside only", "inside only"), "Which sides were inspected."),
    ("job.object", "", ("there", "gone"), "Whether the object is still in the tire."),
    ("job.size_found", "length", (), "Size of the injury before the cutter."),
    ("job.angle_found", "angle", (), "Angle of the channel from the perpendicular, as probed."),
    ("job.size_prepared", "length", (), "Size of the injury after the last pass."),
    ("job.scraped", "", ("moist", "dry"), "State of the liner while it is scraped."),
    ("job.cutter_tool", "", ("carbide cutter", "twist drill", "rasp", "awl", "knife"), "Tool that cuts the damage."),
    ("job.channel", "", ("clean", "split", "loose material"), "What the probe feels in the channel."),
    ("job.cement_tool", "", ("spiral tool", "brush", "awl"), "Tool that takes the fluid into the channel."),
    ("job.cement_direction", "", _TURNS, "Turning direction of the spiral tool."),
    ("job.stem_fluid", "", ("tapered lead-in", "cushion gum", "whole stem"), "Where fluid is put on the stem."),
    ("job.buff_first", "", ("stem", "liner"), "What is buffed first."),
    ("job.brush_tool", "", ("soft wire brush", "hard wire brush", "rag"), "Tool that lifts the loose rubber."),
    ("job.coat", "", ("thin and even", "thick"), "The coat of fluid on the buffed area."),
    ("job.temperature", "temperature", (), "Temperature where the fluid dries."),
    ("job.humidity", "percent", (), "Relative humidity where the fluid dries."),
    ("job.dry_state", "", ("completely dry", "tacky", "wet"), "The fluid when the unit is set."),
    ("job.beads", "", ("relaxed", "spread"), "The beads while the unit is set."),
    ("job.repair_state", "", ("sound", "edge lifted", "bubble"), "What the finished repair looks like."),
    ("job.standing", "", ("clear", "over the wheel"), "Where the technician stands while the beads seat."),
    ("job.restraint", "", ("restraining device", "none"), "What holds the wheel while it is inflated."),
    ("job.chuck", "", ("clip-on", "hand-held"), "How the air hose is held to the valve."),
    ("job.pressure_set", "pressure", (), "Pressure set for the road."),
    ("job.inflation", "percent", (), "Pressure set over the recommended pressure."),
    ("job.leak", "", ("no leak", "leak"), "What the leak test shows."),
    ("job.torque_tool", "", ("torque wrench", "impact wrench", "hand wrench"), "Tool of the last tightening."),
    ("job.torque_pattern", "", ("star", "around the circle"), "Order in which the nuts are tightened."),
    ("job.stud", "", ("M22 hub-piloted", "other"), "Stud and how the wheel is centered."),
    ("job.torque", "torque", (), "Torque of the wheel nuts."),
    ("job.pressure_monitor", "", ("fitted", "not fitted"), "Whether the vehicle has a pressure monitor."),
):  # fmt: skip
    MEASURES[_name] = Measure(_name, "job", _dimension, tuple(_log_words), _meaning, None)

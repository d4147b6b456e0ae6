"""Quantities of the work that only a log states: tools, results, and the air the fluid dries in."""

from training.rulebook.measures.registry import MEASURES, Measure
from training.trade.speech import saying

_TURNS = ("clockwise", "counterclockwise")

for _name, _dimension, _log_words, _meaning in (
    ("job.method", "", ("one-piece", "two-piece", "surface-fill"), saying("How the injury is repaired.")),
    ("job.injury_kind", "", ("puncture", "cut", "surface"), saying("Kind of the injury under repair.")),
    ("job.valve_core", "", ("out", "in"), saying("Where the valve core is while the air is let out.")),
    ("job.soaped", "", (saying("valve, beads and "
                               "tread"), saying("tread only"), saying("not soaped"), saying("no air left")),
     saying("Soapy water, before the air is out.")),
    ("job.inspected", "", (saying("outside and "
                                  "inside"), saying("outside only"), saying("inside only")), saying("Which sides "
                                                                                          "were inspected.")),
    ("job.object", "", ("there", "gone"), saying("Whether the object is still in the tire.")),
    ("job.size_found", "length", (), saying("Size of the injury before the cutter.")),
    ("job.angle_found", "angle", (), saying("Angle of the channel from the perpendicular, as probed.")),
    ("job.size_prepared", "length", (), saying("Size of the injury after the last pass.")),
    ("job.scraped", "", ("moist", "dry"), saying("State of the liner while it is scraped.")),
    ("job.cutter_tool", "", (saying("carbide "
                                    "cutter"), saying("twist drill"), "rasp", "awl", "knife"), saying("Tool that "
                                                                                         "cuts the damage.")),
    ("job.channel", "", ("clean", "split", saying("loose material")), saying("What the probe feels in the channel.")),
    ("job.cement_tool", "", (saying("spiral tool"), "brush", "awl"), saying("Tool that takes the fluid into "
                                                                            "the channel.")),
    ("job.cement_direction", "", _TURNS, saying("Turning direction of the spiral tool.")),
    ("job.stem_fluid", "", (saying("tapered "
                                   "lead-in"), saying("cushion gum"), saying("whole stem")), saying("Where fluid is "
                                                                                         "put on the stem.")),
    ("job.buff_first", "", ("stem", "liner"), saying("What is buffed first.")),
    ("job.brush_tool", "", (saying("soft wire brush"), saying("hard wire brush"), "rag"), saying("Tool that "
                                                                                  "lifts the loose rubber.")),
    ("job.coat", "", (saying("thin and even"), "thick"), saying("The coat of fluid on the buffed area.")),
    ("job.materials_date", "", (saying("in date"), saying("past its date"), saying("no date to be "
                                                                                   "read")), saying("Date on "
                                                                                            "the packages.")),
    ("job.materials_makers", "", (saying("one maker"), saying("several makers")), saying("Cleaner, fluid and unit.")),
    ("job.temperature", "temperature", (), saying("Temperature where the fluid dries.")),
    ("job.humidity", "percent", (), saying("Relative humidity where the fluid dries.")),
    ("job.dry_state", "", (saying("completely dry"), "tacky", "wet"), saying("The fluid when the unit is set.")),
    ("job.beads", "", ("relaxed", "spread"), saying("The beads while the unit is set.")),
    ("job.sealed", "", (saying("edge and all buffed "
                               "rubber"), saying("edge only"), saying("not sealed")), saying("What is sealed.")),
    ("job.stem_cut", "", (saying("level with the "
                                 "tread"), saying("standing out"), saying("below the tread")), saying("The stem "
                                                                                           "after the cut.")),
    ("job.repair_state", "", ("sound", saying("edge lifted"), "bubble"), saying("What the finished repair "
                                                                                "looks like.")),
    ("job.valve", "", (saying("new valve"), saying("new core and "
                                                   "seal"), saying("left as it was")), saying("What was done "
                                                                                         "about the valve.")),
    ("job.sensor", "", ("sound", saying("not fitted"), "cracked", "loose", "corroded"), saying("The pressure sensor.")),
    ("job.wheel", "", ("sound", "cracked", "bent", saying("corroded bead "
                                                          "seat"), saying("worn bolt holes")), saying("State of "
                                                                                               "the wheel.")),
    ("job.bead_seats", "", ("clean", saying("dirty or rusty")), saying("The wheel's bead seats.")),
    ("job.size_match", "", ("matching", saying("not checked"), saying("not matching")), saying("Sizes of tire "
                                                                                               "and wheel.")),
    ("job.standing", "", ("clear", saying("over the wheel")), saying("Where the technician stands while the "
                                                                     "beads seat.")),
    ("job.restraint", "", (
        saying("restraining device"), "barrier", saying("bolted on the vehicle, all lug nuts tight"),
        saying("bolted on the vehicle, lug nuts not all tight"), "none",
    ), saying("What holds the wheel while it is inflated, or stands between it and people.")),
    ("job.restraint_capacity", "percent", (), saying("What the restraining device withstands, of the maximum "
                                                     "pressure.")),
    ("job.gauge", "", ("in-line", "hand-held", "none"), saying("Gauge or regulator while the tire is inflated.")),
    ("job.hose", "", (saying("outside the trajectory"), saying("within the trajectory")), saying("Where the "
                                                                                     "hose lets one stand.")),
    ("job.chuck", "", ("clip-on", "hand-held"), saying("How the air hose is held to the valve.")),
    ("job.pressure_set", "pressure", (), saying("Pressure set for the road.")),
    ("job.inflation", "percent", (), saying("Pressure set over the recommended pressure.")),
    ("job.sidewall_max", "pressure", (), saying("Maximum pressure molded on the sidewall.")),
    ("job.sidewall_share", "percent", (), saying("Pressure set over the maximum on the sidewall.")),
    ("job.seating_share", "percent", (), saying("Seating pressure over the maximum on the sidewall.")),
    ("job.leak", "", (saying("no leak"), "leak"), saying("What the leak test shows.")),
    ("job.torque_tool", "", (saying("torque "
                                    "wrench"), saying("impact wrench"), saying("hand wrench")), saying("Tool of the "
                                                                                         "last tightening.")),
    ("job.torque_pattern", "", ("star", saying("around the circle")), saying("Order in which the nuts are tightened.")),
    ("job.stud", "", ("M22 hub-piloted", "M20 hub-piloted", "stud-piloted", "other"), saying("Stud and wheel center.")),
    ("job.torque_from", "", (saying("vehicle maker"), saying("general table"), saying("by feel")), saying("Where the "
                                                                                    "torque value is from.")),
    ("job.torque", "torque", (), saying("Torque of the wheel nuts.")),
    ("job.torque_specified", "torque", (), saying("The torque that the vehicle maker gives.")),
    ("job.torque_share", "percent", (), saying("Torque over the vehicle maker's value.")),
    ("job.torque_known", "", ("stated", saying("not stated")), saying("Whether the vehicle maker's torque is "
                                                                      "written down.")),
    ("job.pressure_monitor", "", ("fitted", saying("not fitted")), saying("Whether the vehicle has a pressure "
                                                                          "monitor.")),
):  # fmt: skip
    MEASURES[_name] = Measure(_name, "job", _dimension, tuple(_log_words), _meaning, None)

"""What Check a tire can ask: every field with its place in a case, its words and its hint."""

from dataclasses import dataclass

INJURY_ROWS = ("A", "B", "C")
REPAIR_ROWS = ("R1", "R2")
LOOKED = (("", "Not looked"), ("no", "Not found"), ("yes", "Found"), ("doubt", "In doubt"))
SOUND = (("", "Not looked"), ("yes", "Sound"), ("no", "Not sound"), ("doubt", "In doubt"))
FIRST = ("casing", "purpose", "on_wheel")  # known before the rest can be asked
NONE_SEEN = (("", "As given here, or not looked"), ("none", "Looked all over: none"))
ANSWERS: dict[str, bool | str] = {"no": False, "yes": True, "doubt": "doubt"}
# where an inspector looks, in the order of the work; a finding that is not named here comes under "Further"
PLACES = (
    ("Inside", ("run-flat-damage", "liner-separation", "liner-blistered", "liner-cracked", "casing-separation",
                "sealant-residue", "contamination", "tube-inside")),
    ("Outside and beads", ("bead-damage", "exposed-cord", "tread-separation", "bulge", "impact-damage",
                           "ozone-cracking", "weather-checking", "audible-leak")),
    ("Tread", ("excessive-wear", "wear-indicators-flush", "uneven-wear-separation", "chunking", "regrooved",
               "base-rubber-exposed")),
    ("Wheel, valve and sensor", ("wheel-damaged", "valve-damaged", "sensor-damaged")),
    ("Markings", ("tin-unreadable", "size-unreadable", "restricted-use", "recalled", "temporary-spare", "trailer-only",
                  "not-for-steering")),
    ("Other tires on the vehicle", ("mixed-on-axle", "bias-behind-radial")),
)  # fmt: skip


@dataclass(frozen=True)
class Part:
    """One field: `path` is its place inside its group of the case, `words` the vocabulary's field for a choice.

    `flags` are the words for yes and no of a field that the case holds as true or false. `of` names the
    dimensions of a measured field, of which "tread" takes several readings.
    """

    name: str
    path: str
    label: str
    hint: str = ""
    words: str = ""
    length: int = 40
    flags: tuple[tuple[str, str], ...] = ()
    of: str = ""
    is_signed: bool = False


TIRE = (
    Part("casing", "tire.casing", "Casing", "By the ply material on the sidewall, not by load range.", "tire.casing"),
    Part("purpose", "purpose", "What it is wanted for", "", "purpose"),
    Part("on_wheel", "on_wheel", "Where it is now", flags=(("yes", "On the wheel"), ("no", "Off the wheel"))),
    Part("build", "tire.build", "Build", "", "tire.build"),
    Part("designation", "tire.designation", "Size", 'As molded, for example 205/55R16 91V, or "unreadable".'),
    Part("date_code", "tire.date_code", "Date code", 'Week and year, for example 3219, or "unreadable".'),
    Part("retreaded", "tire.retreaded", "Retread", flags=(("yes", "A retread"), ("no", "Not a retread"))),
    Part("retreaded_on", "tire.retreaded_on", "When it was retreaded", "Week and year, for example 1022, or a day."),
    Part("outer_groove", "tire.outer_groove", "Centerline to outer groove",
         "To the inner edge of the outermost groove.", of="length"),
    Part("tread_width", "tire.tread_width", "Tread width", of="length"),
    Part("crown_thickness", "tire.crown_thickness", "Crown thickness", "Tread to liner.", of="length"),
    Part("regroovable", "tire.regroovable", "Regroovable",
         "Whether the sidewall says so.", flags=(("yes", "Marked regroovable"), ("no", "Not marked"))),
    Part("max_load", "tire.max_load", "Load on the sidewall, single", "As molded.", of="mass"),
    Part("max_load_dual", "tire.max_load_dual", "Load on the sidewall, dual", "As molded.", of="mass"),
    Part("ran_without_air", "tire.ran_without_air", "Driven without air",
         "Or driven on with the pressure warning lit.", flags=(("yes", "Driven without air"), ("no", "Never"))),
    Part("approval_mark", "tire.approval_mark", "Approval mark",
         "E in a circle; on a retread its own.", flags=(("yes", "There"), ("no", "Not there"))),
    Part("part_worn_mark", "tire.part_worn_mark", "Marked PART-WORN",
         "Capitals at least 4 mm high beside the approval mark.", flags=(("yes", "Marked"), ("no", "Not marked"))),
    Part("jurisdiction", "jurisdiction", "State whose code applies", "For example US-UT."),
)  # fmt: skip
POSITION = (
    Part("vehicle", "position.vehicle", "Vehicle", "", "position.vehicle"),
    Part("axle", "position.axle", "Axle", "", "position.axle"),
    Part("gross_mass", "position.gross_mass", "Gross mass of the vehicle", of="mass"),
    Part("dual", "position.dual", "Dual or single", flags=(("yes", "One of a dual pair"), ("no", "Single"))),
    Part("wheel", "position.wheel", "Wheel", "", "position.wheel"),
    Part("recommended", "pressure.recommended", "Recommended pressure", of="pressure"),
    Part("found", "pressure.found", "Pressure as found", of="pressure"),
    Part("sidewall_max", "pressure.sidewall_max", "Maximum pressure on the sidewall", of="pressure"),
    Part("for_load", "pressure.for_load", "Pressure for the load on it", "By its maker's table.", of="pressure"),
    Part("asked_size", "position.asked_size", "Size on the placard", "As it stands there, for example 205/55R16 91V."),
    Part("asked_load_index", "position.asked_load_index", "Load index the placard asks for", "For example 91."),
    Part("asked_load", "position.asked_load", "Load the placard asks of this tire", of="mass"),
    Part("asked_speed", "position.asked_speed", "Speed symbol the placard asks for", "For example V."),
    Part("carried", "position.carried", "Load on this tire", "As weighed.", of="mass"),
    Part("roadside", "roadside.means", "Mended at the roadside with", "", "roadside.means"),
    Part("roadside_driven", "roadside.driven", "Driven since that repair", of="distance"),
    Part("own_diameter", "dual_mate.own_diameter", "Outer diameter of this tire", of="length"),
    Part("mate_diameter", "dual_mate.diameter", "Outer diameter of its dual mate", of="length"),
)  # fmt: skip
INJURY = (
    Part("kind", "kind", "Kind", "", "injury.kind"),
    Part("diameter", "diameter", "Diameter, prepared", "After damage removal.", of="length"),
    Part("before_removal", "before_removal", "Diameter before removal", "As found.", of="length"),
    Part("angle", "angle", "Angle", "From the perpendicular.", of="angle"),
    Part("lateral", "lateral", "Distance from the centerline", "With a minus on the other side.", of="length",
         is_signed=True),
    Part("azimuth", "azimuth", "Where the channel runs",
         "On its way in: 0° toward plus, 180° toward minus, 90° along the tread.", of="angle"),
    Part("station", "station", "Place around the tire",
         "From the identification number.", of="angle length"),
    Part("zone", "zone", "Zone, if not measured", "", "injury.zone"),
    Part("length", "length", "Length of a cut", of="length"),
    Part("reaches", "reaches", "A cut reaches", "", "injury.reaches"),
)  # fmt: skip
REPAIR = (
    Part("kind", "kind", "Kind", "", "earlier_repair.kind"),
    Part("zone", "zone", "Zone", "", "earlier_repair.zone"),
    Part("sound", "sound", "Sound"),
    Part("injury", "injury", "Injury it closed", of="length"),
    Part(
        "lateral",
        "lateral",
        "Distance from the centerline",
        "With a minus on the other side.",
        of="length",
        is_signed=True,
    ),
    Part("station", "station", "Place around the tire", of="angle length"),
    Part("unit_length", "unit.length", "Unit, toward the beads", of="length"),
    Part("unit_width", "unit.width", "Unit, around the tire", of="length"),
)
DEPTHS = (
    Part("depths_1", "", "Tread depths in one groove",
         "At three places around the tire, with commas between: 5, 6, 5.", of="tread"),
    Part("depths_2", "", "In the groove next to it", "At the same places.", of="tread"),
)  # fmt: skip
PROPOSED = Part("proposed", "", "A repair somebody proposes", "", "proposed")


def section_name(title: str) -> str:
    """The section of a group of findings, by the first word of its title."""
    return f"find-{title.split()[0].strip(',').lower()}"


def pressed_name(section: str) -> str:
    """The field that remembers which findings of a section were answered by one press for the whole of it."""
    return section.replace("find-", "pressed_")


def finding_name(slug: str) -> str:
    """The form field of a finding."""
    return f"find_{slug}"

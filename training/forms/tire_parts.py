"""What Check a tire can ask: every field with its place in a case, its words and its hint."""

from dataclasses import dataclass

from training.trade.speech import saying

INJURY_ROWS = ("A", "B", "C")
REPAIR_ROWS = ("R1", "R2")
LOOKED = (
    ("", saying("Not looked")),
    ("no", saying("Not found")),
    ("yes", saying("Found")),
    ("doubt", saying("In doubt")),
)
SOUND = (
    ("", saying("Not looked")),
    ("yes", saying("Sound")),
    ("no", saying("Not sound")),
    ("doubt", saying("In doubt")),
)
FIRST = ("casing", "purpose", "on_wheel", "designation", "build")  # known before the rest can be asked
NONE_SEEN = (("none", saying("Looked all over: none")),)
LEANS = (("in", saying("Inward")), ("out", saying("Outward")))
# a form on a phone: the tire first, then three parts, each a screen of its own
TIRE_PART, HOLE, INSIDE, OUTSIDE = PARTS = ("tire", "hole", "inside", "outside")
ANSWERS: dict[str, bool | str] = {"no": False, "yes": True, "doubt": "doubt"}
# where an inspector looks, in the order of the work; a finding that is not named here comes under "Further"
PLACES = (
    (
        saying("Inside"),
        (
            "run-flat-damage",
            "liner-separation",
            "liner-blistered",
            "liner-cracked",
            "casing-separation",
            "sealant-residue",
            "contamination",
            "tube-inside",
        ),
    ),
    (
        saying("Outside and beads"),
        (
            "bead-damage",
            "exposed-cord",
            "tread-separation",
            "bulge",
            "impact-damage",
            "ozone-cracking",
            "weather-checking",
            "audible-leak",
        ),
    ),
    (
        saying("Tread"),
        (
            "excessive-wear",
            "wear-indicators-flush",
            "uneven-wear-separation",
            "chunking",
            "regrooved",
            "base-rubber-exposed",
        ),
    ),
    (saying("Wheel, valve and sensor"), ("wheel-damaged", "valve-damaged", "sensor-damaged")),
    (
        saying("Markings"),
        (
            "tin-unreadable",
            "size-unreadable",
            "restricted-use",
            "recalled",
            "temporary-spare",
            "trailer-only",
            "not-for-steering",
        ),
    ),
    (saying("Other tires on the vehicle"), ("mixed-on-axle", "bias-behind-radial")),
)


# what one looks for, in few words beside the name, where the name does not say it
LOOKS = {
    "run-flat-damage": saying("gray ring, crumbs"),
    "casing-separation": saying("plies or belts apart"),
    "sealant-residue": saying("from a can"),
    "contamination": saying("oil, fuel, solvent"),
    "bead-damage": saying("wire, kink, tear"),
    "weather-checking": saying("fine cracks, no cord"),
    "ozone-cracking": saying("deep cracks"),
    "tread-separation": saying("or sidewall, loose"),
    "impact-damage": saying("break, cut, pinch"),
    "chunking": saying("pieces torn out"),
    "regrooved": saying("cut deeper"),
    "wheel-damaged": saying("crack, bend, rust"),
    "valve-damaged": saying("crack, leak, core"),
    "sensor-damaged": saying("loose, corroded"),
    "restricted-use": saying("not for highway"),
    "recalled": saying("not carried out"),
}


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


def _either(yes: str, no: str) -> tuple[tuple[str, str], ...]:
    """The words for yes and no."""
    return (("yes", yes), ("no", no))


_LATERAL = Part(
    "lateral",
    "lateral",
    saying("Distance from the centerline"),
    saying("Other side: minus."),
    of="length",
    is_signed=True,
)
TIRE = (
    Part(
        "casing",
        "tire.casing",
        saying("Casing"),
        saying("By the ply material, not the load range."),
        "tire.casing",
    ),
    Part("purpose", "purpose", saying("What it is wanted for"), "", "purpose"),
    Part(
        "on_wheel",
        "on_wheel",
        saying("Where it is now"),
        flags=_either(saying("On the wheel"), saying("Off the wheel")),
    ),
    Part("build", "tire.build", saying("Build"), "", "tire.build"),
    Part(
        "designation",
        "tire.designation",
        saying("Size"),
        saying('As molded, or "unreadable".'),
    ),
    Part(
        "date_code", "tire.date_code", saying("Date code"), saying('Week and year, for example 3219, or "unreadable".')
    ),
    Part(
        "retreaded",
        "tire.retreaded",
        saying("Retread"),
        flags=_either(saying("A retread"), saying("Not a retread")),
    ),
    Part(
        "retreaded_on",
        "tire.retreaded_on",
        saying("When it was retreaded"),
        saying("Week and year, for example 1022, or a day."),
    ),
    Part(
        "outer_groove",
        "tire.outer_groove",
        saying("Centerline to outer groove"),
        saying("To its inner edge."),
        of="length",
    ),
    Part("tread_width", "tire.tread_width", saying("Tread width"), of="length"),
    Part("crown_thickness", "tire.crown_thickness", saying("Crown thickness"), saying("Tread to liner."), of="length"),
    Part(
        "regroovable",
        "tire.regroovable",
        saying("Regroovable"),
        saying("Whether the sidewall says so."),
        flags=_either(saying("Marked regroovable"), saying("Not marked")),
    ),
    Part("max_load", "tire.max_load", saying("Load on the sidewall, single"), saying("As molded."), of="mass"),
    Part("max_load_dual", "tire.max_load_dual", saying("Load on the sidewall, dual"), saying("As molded."), of="mass"),
    Part(
        "ran_without_air",
        "tire.ran_without_air",
        saying("Driven without air"),
        saying("Or driven on with the pressure warning lit."),
        flags=_either(saying("Driven without air"), saying("Never")),
    ),
    Part(
        "approval_mark",
        "tire.approval_mark",
        saying("Approval mark"),
        saying("E in a circle; on a retread its own."),
        flags=_either(saying("There"), saying("Not there")),
    ),
    Part(
        "part_worn_mark",
        "tire.part_worn_mark",
        saying("Marked PART-WORN"),
        saying("Capitals at least 4 mm high beside the approval mark."),
        flags=_either(saying("Marked"), saying("Not marked")),
    ),
    Part("jurisdiction", "jurisdiction", saying("State whose code applies"), saying("For example US-UT.")),
)
POSITION = (
    Part("vehicle", "position.vehicle", saying("Vehicle"), "", "position.vehicle"),
    Part("axle", "position.axle", saying("Axle"), "", "position.axle"),
    Part("gross_mass", "position.gross_mass", saying("Gross mass of the vehicle"), of="mass"),
    Part(
        "dual",
        "position.dual",
        saying("Dual or single"),
        flags=_either(saying("One of a dual pair"), saying("Single")),
    ),
    Part("wheel", "position.wheel", saying("Wheel"), "", "position.wheel"),
    Part("recommended", "pressure.recommended", saying("Recommended pressure"), of="pressure"),
    Part("found", "pressure.found", saying("Pressure as found"), of="pressure"),
    Part("sidewall_max", "pressure.sidewall_max", saying("Maximum pressure on the sidewall"), of="pressure"),
    Part(
        "for_load",
        "pressure.for_load",
        saying("Pressure for the load on it"),
        saying("By its maker's table."),
        of="pressure",
    ),
    Part(
        "asked_size",
        "position.asked_size",
        saying("Size on the placard"),
        saying("As printed there, for example 205/55R16 91V."),
    ),
    Part(
        "asked_load_index",
        "position.asked_load_index",
        saying("Load index the placard asks for"),
        saying("For example 91."),
    ),
    Part("asked_load", "position.asked_load", saying("Load the placard asks of this tire"), of="mass"),
    Part("asked_speed", "position.asked_speed", saying("Speed symbol the placard asks for"), saying("For example V.")),
    Part("carried", "position.carried", saying("Load on this tire"), saying("As weighed."), of="mass"),
    Part("roadside", "roadside.means", saying("Mended at the roadside with"), "", "roadside.means"),
    Part("roadside_driven", "roadside.driven", saying("Driven since that repair"), of="distance"),
    Part("own_diameter", "dual_mate.own_diameter", saying("Outer diameter of this tire"), of="length"),
    Part("mate_diameter", "dual_mate.diameter", saying("Outer diameter of its dual mate"), of="length"),
)
# what a gauge for holes shows, by the unit that a shop puts first; it goes past every limit, so that none is suggested
GAUGE = {
    "in": ("1/8", "3/16", "7/32", "1/4", "9/32", "5/16", "3/8", "1/2"),
    "mm": ("3", "4", "5", "6", "7", "8", "10", "12"),
}
GAUGED = "diameter"
# of the hole itself, and what few holes need
OF_THE_HOLE = ("kind", "diameter", "lateral", "angle")
OF_THE_CROWN = ("outer_groove", "tread_width", "crown_thickness")
INJURY = (
    Part("kind", "kind", saying("Kind"), saying("A puncture is through, or may be."), "injury.kind"),
    Part("diameter", "diameter", saying("Diameter, prepared"), saying("After removal, rounded up."), of="length"),
    Part("before_removal", "before_removal", saying("Diameter before removal"), saying("As found."), of="length"),
    Part("angle", "angle", saying("Angle"), saying("From the perpendicular."), of="angle"),
    _LATERAL,
    Part(
        "azimuth",
        "azimuth",
        saying("Where the channel runs"),
        saying("On its way in: 0° toward plus, 180° toward minus, 90° along the tread."),
        of="angle",
    ),
    Part(
        "station",
        "station",
        saying("Place around the tire"),
        saying("From the identification number."),
        of="angle length",
    ),
    Part("zone", "zone", saying("Zone, if not measured"), "", "injury.zone"),
    Part("length", "length", saying("Length of a cut"), of="length"),
    Part("reaches", "reaches", saying("A cut reaches"), "", "injury.reaches"),
)
REPAIR = (
    Part("kind", "kind", saying("Kind"), "", "earlier_repair.kind"),
    Part("zone", "zone", saying("Zone"), "", "earlier_repair.zone"),
    Part("sound", "sound", saying("Sound")),
    Part("injury", "injury", saying("Injury it closed"), of="length"),
    _LATERAL,
    Part("station", "station", saying("Place around the tire"), of="angle length"),
    Part("unit_length", "unit.length", saying("Unit, toward the beads"), of="length"),
    Part("unit_width", "unit.width", saying("Unit, around the tire"), of="length"),
)
DEPTHS = (
    Part(
        "depths_1",
        "",
        saying("Tread depths in one groove"),
        saying("Three places: 5, 6, 5."),
        of="tread",
    ),
    Part("depths_2", "", saying("In the groove next to it"), saying("At the same places."), of="tread"),
)
PROPOSED = Part("proposed", "", saying("A repair somebody proposes"), "", "proposed")


def section_name(title: str) -> str:
    """The section of a group of findings, by the first word of its title as it is written here."""
    return f"find-{str.__str__(title).split()[0].strip(',').lower()}"


def pressed_name(section: str) -> str:
    """The field that remembers which findings of a section were answered by one press for the whole of it."""
    return section.replace("find-", "pressed_")


def lean_name(row: str) -> str:
    """The field that says which way an injury leans, where nobody measured it around."""
    return f"injury_{row}_lean"


def finding_name(slug: str) -> str:
    """The form field of a finding."""
    return f"find_{slug}"

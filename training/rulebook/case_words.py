"""Every word a case may use, each with a line of meaning; the editions name themselves."""

from training.trade.speech import saying
from training.trade.words import CASING_WORDS, PURPOSE_WORDS, VERDICTS

DOUBT = "doubt"
UNREADABLE = "unreadable"
_SEVERITY = {verdict: place for place, verdict in enumerate(VERDICTS)}

WORDS: dict[str, dict[str, str]] = {
    "purpose": dict(PURPOSE_WORDS),
    "tire.casing": {casing: words.meaning for casing, words in CASING_WORDS.items()},
    "tire.build": {
        "radial": saying("radial body, the ordinary tubeless tire"),
        "bias": saying("bias-ply body"),
        "self-supporting": saying("runs without air on its own sidewalls"),
        "self-sealing": saying("a sealant layer from the factory on the liner"),
        "foam-lined": saying("foam on the liner against noise"),
        "tubed": saying("runs with an inner tube"),
    },
    "position.vehicle": {
        "car": saying("passenger car"),
        "light-truck": saying("light truck, van or sport utility vehicle"),
        "truck": saying("medium or heavy truck or tractor"),
        "bus": saying("bus or coach"),
        "minibus": saying("minibus"),
        "trailer": saying("trailer or semitrailer"),
        "motorcycle": saying("motorcycle"),
    },
    "position.axle": {
        "front": saying("front or steer axle"),
        "drive": saying("driven axle behind the front"),
        "rear": saying("rear axle of a car, light truck or motorcycle"),
        "trailer": saying("axle of a trailer"),
    },
    "position.wheel": {
        "single-piece": saying("wheel of one piece"),
        "multi-piece": saying("wheel with a side or lock ring"),
    },
    "injury.kind": {
        "puncture": saying("goes through the tire, or may"),
        "cut": saying("a cut in the rubber; say its length and what it reaches"),
        "surface": saying("rubber damage that does not go through"),
    },
    "injury.zone": {
        "crown": saying("repairable crown: between the outer grooves, in the United Kingdom in area T"),
        "shoulder": saying("shoulder or belt edge, outside the repairable crown"),
        "sidewall": saying("sidewall"),
        "bead": saying("bead area"),
        "doubt": saying("cannot be told; decided as outside the crown"),
    },
    "injury.reaches": {
        "rubber": saying("no ply or belt cord to be seen, even when the edges are lifted"),
        "cord": saying("ply or belt cord is reached or seen"),
    },
    "findings": {
        "run-flat-damage": saying("run flat or run under-inflated: scuffed, wrinkled or discolored inside, loose dust"),
        "liner-separation": saying("the liner has come loose from the body"),
        "liner-blistered": saying("blisters in the liner"),
        "liner-cracked": saying("cracks or open splices in the liner"),
        "casing-separation": saying("plies or belts have come apart"),
        "tread-separation": saying("tread or sidewall rubber has come loose from the body"),
        "exposed-cord": saying("body ply or belt cord, fabric or steel, is exposed"),
        "bead-damage": saying("bead torn, deformed or chafed, or bead wire broken, kinked or exposed"),
        "ozone-cracking": saying("deep cracking of the rubber by ozone or age"),
        "weather-checking": saying("fine surface cracks without cord showing"),
        "impact-damage": saying("damage or break from an impact"),
        "bulge": saying("bulge, bump or knot in tread or sidewall"),
        "excessive-wear": saying("worn out"),
        "uneven-wear-separation": saying("local irregular wear that shows a separation"),
        "wear-indicators-flush": saying("wear bars level with the tread"),
        "audible-leak": saying("flat, or a leak that can be heard"),
        "sealant-residue": saying("liquid sealant inside, other than a factory layer"),
        "contamination": saying("rubber swollen or softened by oil, fuel or chemicals"),
        "chunking": saying("pieces of tread torn out"),
        "regrooved": saying("grooves cut deeper than they were molded"),
        "restricted-use": saying("marked not for the highway, such as for farm, racing or off-highway use only"),
        "recalled": saying("under a safety recall that was not carried out"),
        "wheel-damaged": saying("wheel cracked, bent, corroded at the bead seat, or its bolt holes worn"),
        "valve-damaged": saying("valve cracked, bent or leaking, or its core or cap damaged"),
        "sensor-damaged": saying("pressure sensor cracked, loose, corroded or not sending"),
        "tin-unreadable": saying("tire identification number missing or defaced"),
        "size-unreadable": saying("size or load marking missing or defaced"),
        "temporary-spare": saying("marked as a spare for temporary use"),
        "trailer-only": saying("marked for trailers only"),
        "not-for-steering": saying("marked not for steer axles"),
        "tube-inside": saying("a tube or flap in a tire that is built to run without"),
        "mixed-on-axle": saying("another size or another construction on the same axle"),
        "bias-behind-radial": saying("bias-ply or bias-belted tires on the rear axle, radial tires on the front axle"),
        "base-rubber-exposed": saying("the layer of rubber under the tread shows"),
    },
    "findings.value": {
        "true": saying("looked for and found"),
        "false": saying("looked for and not found"),
        "doubt": saying("looked for, cannot tell: out of service"),
    },
    "earlier_repair.kind": {
        "one-piece": saying("stem and patch in one unit"),
        "two-piece": saying("stem filled, then a patch over it"),
        "stem-only": saying("a plug or stem without a patch"),
        "patch-only": saying("a patch without a filled channel"),
        "string": saying("a cord or string plug pushed in from outside"),
        "ply-repair": saying("a temporary ply repair or boot"),
        "section": saying("a section repair by a full-service plant"),
    },
    "earlier_repair.zone": {
        "crown": saying("repairable crown"),
        "shoulder": saying("shoulder or belt edge"),
        "sidewall": saying("sidewall"),
        "bead": saying("bead area"),
        "doubt": saying("cannot be told; decided as outside the crown"),
    },
    "proposed": {
        "one-piece": saying("stem and patch in one unit, tire off the wheel"),
        "two-piece": saying("stem filled, then a patch over it, tire off the wheel"),
        "stem-only": saying("a stem alone"),
        "patch-only": saying("a patch alone"),
        "string": saying("a cord or string plug from outside"),
        "tube": saying("an inner tube instead of a repair"),
    },
    "tire.date_code": {
        "WWYY": saying("week and year of manufacture, four digits, since 2000"),
        "WWY": saying("week and year of manufacture, three digits, before 2000"),
        "unreadable": saying("looked for and cannot be read"),
    },
    "tire.designation": {
        "unreadable": saying("looked for and cannot be read"),
    },
    "tire.max_load": {
        "MASS": saying("the greatest load molded on the sidewall, single fitting, such as 1356 lb"),
    },
    "tire.max_load_dual": {
        "MASS": saying("the greatest load molded on the sidewall, in a dual pair"),
    },
    "tire.approval_mark": {
        "true": saying("approval mark on the sidewall; on a retread that of ECE 108 or 109, or BS AU 144 before 2004"),
        "false": saying("looked for and not there"),
    },
    "tire.part_worn_mark": {
        "true": saying(
            "marked PART-WORN beside the approval mark, in capital letters at least 4 mm high, not burnt or cut in"
        ),
        "false": saying("not marked"),
    },
    "tire.ran_without_air": {
        "true": saying("it was driven with no air in it, or the pressure warning came on and it was driven on"),
        "false": saying("it never was"),
    },
    "position.asked_size": {
        "SIZE": saying("the size on the vehicle's placard, with load index and speed symbol as far as they are there"),
    },
    "position.asked_load_index": {
        "INDEX": saying("the load index that the vehicle's placard asks for, such as 91"),
    },
    "position.asked_speed": {
        "SYMBOL": saying("the speed symbol that the vehicle's placard asks for, such as V"),
    },
    "position.asked_load": {
        "MASS": saying("the load each tire of the axle must be good for: the rating of the axle divided by its tires"),
    },
    "position.carried": {
        "MASS": saying("the load on this tire: that of the axle, divided by its tires"),
    },
    "pressure.sidewall_max": {
        "PRESSURE": saying("the maximum pressure molded on the sidewall, such as 44 psi"),
    },
    "pressure.for_load": {
        "PRESSURE": saying("the pressure that the tire maker's table asks for the load that lies on the tire"),
    },
    "roadside.means": {
        "sealant": saying("sealant or foam put in through the valve"),
        "plug": saying("a plug or string pushed in from outside, the tire not taken off"),
    },
    "roadside.driven": {
        "DISTANCE": saying("how far it ran since the roadside repair, such as 30 mi"),
    },
}
FINDINGS = tuple(WORDS["findings"])


def severity(verdict: str) -> int:
    """Place of a verdict from the mildest, 0, to the hardest.

    >>> severity("reject") > severity("refer") > severity("repair")
    True
    """
    return _SEVERITY[verdict]

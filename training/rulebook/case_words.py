"""Every word a case may use, each with a line of meaning; the editions name themselves."""

from training.trade.words import CASING_WORDS, PURPOSE_WORDS, VERDICTS

DOUBT = "doubt"
UNREADABLE = "unreadable"
_SEVERITY = {verdict: place for place, verdict in enumerate(VERDICTS)}

WORDS: dict[str, dict[str, str]] = {
    "purpose": dict(PURPOSE_WORDS),
    "tire.casing": {casing: words.meaning for casing, words in CASING_WORDS.items()},
    "tire.build": {
        "radial": "radial body, the ordinary tubeless tire",
        "bias": "bias-ply body",
        "self-supporting": "runs without air on its own sidewalls",
        "self-sealing": "a sealant layer from the factory on the liner",
        "foam-lined": "foam on the liner against noise",
        "tubed": "runs with an inner tube",
    },
    "position.vehicle": {
        "car": "passenger car",
        "light-truck": "light truck, van or sport utility vehicle",
        "truck": "medium or heavy truck or tractor",
        "bus": "bus or coach",
        "minibus": "minibus",
        "trailer": "trailer or semitrailer",
        "motorcycle": "motorcycle",
    },
    "position.axle": {
        "front": "front or steer axle",
        "drive": "driven axle behind the front",
        "rear": "rear axle of a car, light truck or motorcycle",
        "trailer": "axle of a trailer",
    },
    "position.wheel": {
        "single-piece": "wheel of one piece",
        "multi-piece": "wheel with a side or lock ring",
    },
    "injury.kind": {
        "puncture": "goes through the tire, or may",
        "cut": "a cut in the rubber; say its length and what it reaches",
        "surface": "rubber damage that does not go through",
    },
    "injury.zone": {
        "crown": "repairable crown: between the outer grooves, in the United Kingdom in area T",
        "shoulder": "shoulder or belt edge, outside the repairable crown",
        "sidewall": "sidewall",
        "bead": "bead area",
        "doubt": "cannot be told; decided as outside the crown",
    },
    "injury.reaches": {
        "rubber": "no ply or belt cord to be seen, even when the edges are lifted",
        "cord": "ply or belt cord is reached or seen",
    },
    "findings": {
        "run-flat-damage": "run flat or run under-inflated: scuffed, wrinkled or discolored inside, loose dust",
        "liner-separation": "the liner has come loose from the body",
        "liner-blistered": "blisters in the liner",
        "liner-cracked": "cracks or open splices in the liner",
        "casing-separation": "plies or belts have come apart",
        "tread-separation": "tread or sidewall rubber has come loose from the body",
        "exposed-cord": "body ply or belt cord, fabric or steel, is exposed",
        "bead-damage": "bead torn, deformed or chafed, or bead wire broken, kinked or exposed",
        "ozone-cracking": "deep cracking of the rubber by ozone or age",
        "weather-checking": "fine surface cracks without cord showing",
        "impact-damage": "damage or break from an impact",
        "bulge": "bulge, bump or knot in tread or sidewall",
        "excessive-wear": "worn out",
        "uneven-wear-separation": "local irregular wear that shows a separation",
        "wear-indicators-flush": "wear bars level with the tread",
        "audible-leak": "flat, or a leak that can be heard",
        "sealant-residue": "liquid sealant inside, other than a factory layer",
        "contamination": "rubber swollen or softened by oil, fuel or chemicals",
        "chunking": "pieces of tread torn out",
        "regrooved": "grooves cut deeper than they were molded",
        "restricted-use": "marked not for the highway, such as for farm, racing or off-highway use only",
        "recalled": "under a safety recall that was not carried out",
        "wheel-damaged": "wheel cracked, bent, corroded at the bead seat, or its bolt holes worn",
        "valve-damaged": "valve cracked, bent or leaking, or its core or cap damaged",
        "sensor-damaged": "pressure sensor cracked, loose, corroded or not sending",
        "tin-unreadable": "tire identification number missing or defaced",
        "size-unreadable": "size or load marking missing or defaced",
        "temporary-spare": "marked as a spare for temporary use",
        "trailer-only": "marked for trailers only",
        "not-for-steering": "marked not for steer axles",
        "tube-inside": "a tube or flap in a tire that is built to run without",
        "mixed-on-axle": "another size or another construction on the same axle",
        "bias-behind-radial": "bias-ply or bias-belted tires on the rear axle, radial tires on the front axle",
        "base-rubber-exposed": "the layer of rubber under the tread shows",
    },
    "findings.value": {
        "true": "looked for and found",
        "false": "looked for and not found",
        "doubt": "looked for, cannot tell: out of service",
    },
    "earlier_repair.kind": {
        "one-piece": "stem and patch in one unit",
        "two-piece": "stem filled, then a patch over it",
        "stem-only": "a plug or stem without a patch",
        "patch-only": "a patch without a filled channel",
        "string": "a cord or string plug pushed in from outside",
        "ply-repair": "a temporary ply repair or boot",
        "section": "a section repair by a full-service plant",
    },
    "earlier_repair.zone": {
        "crown": "repairable crown",
        "shoulder": "shoulder or belt edge",
        "sidewall": "sidewall",
        "bead": "bead area",
        "doubt": "cannot be told; decided as outside the crown",
    },
    "proposed": {
        "one-piece": "stem and patch in one unit, tire off the wheel",
        "two-piece": "stem filled, then a patch over it, tire off the wheel",
        "stem-only": "a stem alone",
        "patch-only": "a patch alone",
        "string": "a cord or string plug from outside",
        "tube": "an inner tube instead of a repair",
    },
    "tire.date_code": {
        "WWYY": "week and year of manufacture, four digits, since 2000",
        "WWY": "week and year of manufacture, three digits, before 2000",
        "unreadable": "looked for and cannot be read",
    },
    "tire.designation": {
        "unreadable": "looked for and cannot be read",
    },
    "tire.max_load": {
        "MASS": "the greatest load molded on the sidewall, single fitting, such as 1356 lb",
    },
    "tire.max_load_dual": {
        "MASS": "the greatest load molded on the sidewall, in a dual pair",
    },
    "tire.approval_mark": {
        "true": "approval mark on the sidewall; on a retread that of ECE 108 or 109, or BS AU 144 before 2004",
        "false": "looked for and not there",
    },
    "tire.part_worn_mark": {
        "true": "marked PART-WORN beside the approval mark, in capital letters at least 4 mm high, not burnt or cut in",
        "false": "not marked",
    },
    "tire.ran_without_air": {
        "true": "it was driven with no air in it, or the pressure warning came on and it was driven on",
        "false": "it never was",
    },
    "position.asked_size": {
        "SIZE": "the size on the vehicle's placard, with load index and speed symbol as far as they are there",
    },
    "position.asked_load_index": {
        "INDEX": "the load index that the vehicle's placard asks for, such as 91",
    },
    "position.asked_speed": {
        "SYMBOL": "the speed symbol that the vehicle's placard asks for, such as V",
    },
    "position.asked_load": {
        "MASS": "the load each tire of the axle must be good for: the rating of the axle divided by its tires",
    },
    "position.carried": {
        "MASS": "the load that lies on this tire: that of the axle divided by its tires",
    },
    "pressure.sidewall_max": {
        "PRESSURE": "the maximum pressure molded on the sidewall, such as 44 psi",
    },
    "pressure.for_load": {
        "PRESSURE": "the pressure that the tire maker's table asks for the load that lies on the tire",
    },
    "roadside.means": {
        "sealant": "sealant or foam put in through the valve",
        "plug": "a plug or string pushed in from outside, the tire not taken off",
    },
    "roadside.driven": {
        "DISTANCE": "how far it ran since the roadside repair, such as 30 mi",
    },
}
FINDINGS = tuple(WORDS["findings"])


def severity(verdict: str) -> int:
    """Place of a verdict from the mildest, 0, to the hardest.

    >>> severity("reject") > severity("refer") > severity("repair")
    True
    """
    return _SEVERITY[verdict]

"""The words of the trade as people read them: casings, verdicts, purposes, skills, findings, kinds of source, repairs.

One table each; everything that names one of these takes its words from here.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from training.trade.lists import all_of
from training.trade.speech import say, saying


@dataclass(frozen=True, slots=True)
class CasingWords:
    """One casing in the forms that sentences need; `meaning` tells a typist what the word stands for."""

    one: str  # "A ... is off the wheel."
    many: str  # "For ..."
    short: str  # before "tires", or beside a size
    label: str  # at the head of a column
    meaning: str


CASING_WORDS: Mapping[str, CasingWords] = {
    "passenger": CasingWords(
        saying("passenger tire"),
        saying("passenger tires"),
        saying("passenger"),
        saying("Passenger"),
        saying("passenger car tire"),
    ),
    "light-truck-fabric": CasingWords(
        saying("light truck tire with a fabric body"),
        saying("light truck tires with a fabric body"),
        saying("fabric-body light truck"),
        saying("Light truck, fabric body"),
        saying("light truck tire with a fabric body, as molded on the sidewall"),
    ),
    "light-truck-steel": CasingWords(
        saying("light truck tire with a steel body"),
        saying("light truck tires with a steel body"),
        saying("steel-body light truck"),
        saying("Light truck, steel body"),
        saying("light truck tire with a steel body, as molded on the sidewall"),
    ),
    "light-truck": CasingWords(
        saying("light truck tire whose ply material was not read"),
        saying("light truck tires whose ply material was not read"),
        saying("light truck"),
        saying("Light truck, body not read"),
        saying("light truck tire whose ply material was not read"),
    ),
    "truck": CasingWords(
        saying("truck tire"),
        saying("truck and bus tires"),
        saying("truck"),
        saying("Truck"),
        saying("medium or heavy truck or bus tire"),
    ),
    "motorcycle": CasingWords(
        saying("motorcycle tire"),
        saying("motorcycle tires"),
        saying("motorcycle"),
        saying("Motorcycle"),
        saying("motorcycle tire"),
    ),
}
CASINGS = tuple(CASING_WORDS)
# by what their bodies are made of: those that are repaired as light ones, and those with a steel body
LIGHT = ("passenger", "light-truck-fabric")
STEEL = ("light-truck-steel", "truck")


@dataclass(frozen=True, slots=True)
class VerdictWords:
    """One verdict: its name, what to do by it, and how a printed decision opens with it."""

    name: str
    todo: str
    opening: str


# mildest first: the place in this table is the severity
VERDICT_WORDS: Mapping[str, VerdictWords] = {
    "accept": VerdictWords(saying("Accept"), saying("Run it."), saying("ACCEPT: the tire may run")),
    "advise": VerdictWords(
        saying("Advise"),
        saying("Run it, and tell the customer what you found."),
        saying("ADVISE: the tire may run; tell the customer"),
    ),
    "repair": VerdictWords(saying("Repair"), saying("Repair it by the job card."), saying("REPAIR: by the plan below")),
    "inspect": VerdictWords(
        saying("Inspect"),
        saying("Off the wheel, and look inside before you decide."),
        saying("INSPECT: take the tire off the wheel and look inside before you decide"),
    ),
    "refer": VerdictWords(
        saying("Refer"),
        saying("Not ours to decide: ask a full-service repair plant or the tire maker."),
        saying("REFER: not a job for this shop; ask the tire maker or a full-service repair plant"),
    ),
    "reject": VerdictWords(
        saying("Reject"),
        saying("Out of service. Do not repair it, do not run it."),
        saying("REJECT: the tire is out of service"),
    ),
}
VERDICTS = tuple(VERDICT_WORDS)

PURPOSE_WORDS: Mapping[str, str] = {
    "repair": saying("may this puncture be repaired"),
    "service": saying("may this tire stay in service"),
    "fit-used": saying("may this tire be sold or fitted as a used tire"),
}
PURPOSES = tuple(PURPOSE_WORDS)
PURPOSE_TITLES: Mapping[str, str] = {
    "repair": saying("before a repair"),
    "service": saying("in service"),
    "fit-used": saying("sold or fitted as used"),
}

# where a person looks, the place that costs the least first
LOOK_WORDS: Mapping[str, str] = {
    "outside": saying("outside"),
    "markings": saying("markings"),
    "vehicle": saying("the vehicle"),
    "wheel": saying("at the wheel"),
    "inside": saying("inside"),
    "injury": saying("at the injury"),
}
LOOK_FIRST_WORDS: Mapping[str, str] = {
    "outside": saying("Look outside first"),
    "markings": saying("Read the sidewall first"),
    "vehicle": saying("Ask about the vehicle first"),
    "wheel": saying("Look at the wheel first"),
    "inside": saying("Look inside first"),
    "injury": saying("Measure the hole first"),
}
PLACES_TO_LOOK = tuple(LOOK_WORDS)

SKILLS: Mapping[str, str] = {
    "rejecting-conditions": saying("Rejecting conditions"),
    "size-limits": saying("Size limits"),
    "position": saying("Position"),
    "angle-and-method": saying("Angle and method"),
    "measuring": saying("Measuring"),
    "preparation": saying("Preparation"),
    "installation": saying("Installation"),
    "return-to-service": saying("Return to service"),
    "markings": saying("Markings"),
    "safety": saying("Safety"),
}

# the short name of a finding for a field or a list; what it means stands in the rulebook's vocabulary
FINDING_WORDS: Mapping[str, str] = {
    "run-flat-damage": saying("Run-flat damage"),
    "liner-separation": saying("Liner separation"),
    "liner-blistered": saying("Blisters in the liner"),
    "liner-cracked": saying("Cracks in the liner"),
    "casing-separation": saying("Casing separation"),
    "tread-separation": saying("Tread separation"),
    "exposed-cord": saying("Exposed cord"),
    "bead-damage": saying("Bead damage"),
    "ozone-cracking": saying("Ozone cracking"),
    "weather-checking": saying("Weather checking"),
    "impact-damage": saying("Impact damage"),
    "bulge": saying("Bulge"),
    "excessive-wear": saying("Excessive wear"),
    "uneven-wear-separation": saying("Uneven wear with separation"),
    "wear-indicators-flush": saying("Wear bars level with the tread"),
    "audible-leak": saying("Audible leak"),
    "sealant-residue": saying("Sealant residue"),
    "contamination": saying("Contamination"),
    "chunking": saying("Chunking"),
    "regrooved": saying("Regrooved tread"),
    "restricted-use": saying("Restricted use"),
    "recalled": saying("Safety recall"),
    "wheel-damaged": saying("Damage to the wheel"),
    "valve-damaged": saying("Damage to the valve"),
    "sensor-damaged": saying("Damage to the pressure sensor"),
    "tin-unreadable": saying("Unreadable identification number"),
    "size-unreadable": saying("Unreadable size"),
    "temporary-spare": saying("Temporary spare"),
    "trailer-only": saying("Marking for trailers only"),
    "not-for-steering": saying("Marking against steer axles"),
    "tube-inside": saying("Tube or flap inside"),
    "mixed-on-axle": saying("Mixed sizes or builds on the axle"),
    "bias-behind-radial": saying("Bias behind radial"),
    "base-rubber-exposed": saying("Exposed base rubber"),
}

# what a clause rests on
KIND_WORDS: Mapping[str, str] = {
    "law": saying("Law"),
    "standard": saying("Standard"),
    "guidance": saying("Guidance"),
    "common-practice": saying("Common practice"),
    "from-memory": saying("From memory"),
    "house-rule": saying("House rule"),
}
# the same where a reader is about to rely on it
KIND_CAUTIONS: Mapping[str, str] = {
    **KIND_WORDS,
    "from-memory": saying("From memory, so check it before you quote it"),
}

METHOD_WORDS: Mapping[str, str] = {
    "one-piece": saying("one-piece unit"),
    "two-piece": saying("two-piece repair"),
    "surface-fill": saying("surface fill"),
}
METHODS = tuple(METHOD_WORDS)
# one of them, as a sentence names it
A_METHOD: Mapping[str, str] = {
    "one-piece": saying("a one-piece unit"),
    "two-piece": saying("a two-piece repair"),
    "surface-fill": saying("a surface fill"),
}
# a repair that is in a tire, or that somebody means to do
REPAIR_WORDS: Mapping[str, str] = {
    "one-piece": METHOD_WORDS["one-piece"],
    "two-piece": METHOD_WORDS["two-piece"],
    "stem-only": saying("stem without a patch"),
    "patch-only": saying("patch without a stem"),
    "string": saying("string plug"),
    "tube": saying("inner tube instead of a repair"),
    "ply-repair": saying("temporary ply repair"),
    "section": saying("section repair"),
}
INJURY_WORDS: Mapping[str, str] = {
    "puncture": saying("puncture"),
    "cut": saying("cut"),
    "surface": saying("surface damage"),
}
BUILD_WORDS: Mapping[str, str] = {"tubed": saying("with an inner tube")}
COUNTRY_WORDS: Mapping[str, str] = {
    "US": saying("United States"),
    "CA": saying("Canada"),
    "GB": saying("United Kingdom"),
}
VEHICLE_WORDS: Mapping[str, str] = {"light-truck": saying("light truck")}
# words of a case that people read as they stand
READ_AS_THEY_STAND: Mapping[str, str] = {
    word: word
    for word in (
        saying("radial"),
        saying("bias"),
        saying("self-supporting"),
        saying("self-sealing"),
        saying("foam-lined"),
        saying("car"),
        saying("truck"),
        saying("bus"),
        saying("minibus"),
        saying("trailer"),
        saying("motorcycle"),
        saying("front"),
        saying("drive"),
        saying("rear"),
        saying("single-piece"),
        saying("multi-piece"),
        saying("crown"),
        saying("shoulder"),
        saying("sidewall"),
        saying("bead"),
        saying("rubber"),
        saying("cord"),
        saying("sealant"),
        saying("plug"),
    )
}
# words of a case that people write otherwise
_WRITTEN: Mapping[str, str] = {
    **{kind: words for kind, words in REPAIR_WORDS.items() if kind not in METHODS},
    **{casing: words.short for casing, words in CASING_WORDS.items()},
    **VEHICLE_WORDS,
    "compressed-air": saying("compressed air"),
}
UNIT_WORDS: Mapping[str, str] = {
    "patch": saying("patch"),
    "one-piece": saying("one-piece unit"),
    "stem": saying("stem"),
}


def uncapital(text: str) -> str:
    """The text as it stands inside a sentence; a word in capitals stays.

    >>> uncapital("Damage to the wheel"), uncapital("PART-WORN mark")
    ('damage to the wheel', 'PART-WORN mark')
    """
    return text if text[1:2].isupper() else text[:1].lower() + text[1:]


def finding_in_words(name: str) -> str:
    """A finding as it stands inside a sentence; any other name, such as the letter of an injury, stays.

    >>> finding_in_words("A")
    'A'
    """
    return uncapital(FINDING_WORDS[name]) if name in FINDING_WORDS else name


def capital(text: str) -> str:
    """The text as the beginning of a sentence; what follows its first letter stays.

    >>> capital("by the Department")
    'By the Department'
    """
    return text[:1].upper() + text[1:]


def written(word: str) -> str:
    """A word of a case as people write it.

    >>> written("compressed-air"), written("clockwise")
    ('compressed air', 'clockwise')
    """
    return _WRITTEN.get(word) or saying(word)


def casings_in_words(casings: Iterable[str]) -> str:
    """Kinds of tires in a sentence; empty for none.

    >>> casings_in_words(["passenger", "motorcycle"])
    'passenger tires and motorcycle tires'
    """
    return all_of(CASING_WORDS[casing].many for casing in casings)


def tires_in_words(casings: Iterable[str]) -> str:
    """The tires of some casings as a short heading.

    >>> tires_in_words(["light-truck-steel", "truck"])
    'Steel-body light truck and truck tires'
    """
    return say("{casings} tires", casings=capital(all_of(CASING_WORDS[casing].short for casing in casings)))

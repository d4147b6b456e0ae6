"""Pictures of conditions as questions use them: how each and what is taken for it is called, what either means for a
case, and who takes the one for the other."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from assessments.questions.drafts.draft import Draft
from assessments.questions.items.figures import Photo, Picture, Sight
from training.pictures import CONDITIONS, FOUND_TOO, NAMED, Degree, found_in
from training.rulebook import Decision, Ruling
from training.trade.speech import say


@dataclass(frozen=True, slots=True)
class Pair:
    """A condition and what is taken for it, by their names; `beliefs` take the condition for the other, and back.

    `quantity`: by which the rulebook rules on the condition.
    """

    condition: str
    shown: str
    look_alike: str
    beliefs: tuple[str, str]
    quantity: str

    @property
    def surface(self) -> str:
        """Where it is seen: "sidewall", "bead", "tread" or "liner"."""
        return CONDITIONS[self.condition].surface

    @property
    def side(self) -> str:
        """Where somebody stands who looks at it: "outside", "running" or "inside"."""
        return {"sidewall": "outside", "bead": "outside", "tread": "running", "liner": "inside"}[self.surface]

    def words(self, look_alike: bool) -> str:
        """What the picture shows, by its name."""
        return self.look_alike if look_alike else self.shown

    def belief(self, look_alike: bool) -> str:
        """Who takes what is shown for the other of the pair."""
        return self.beliefs[look_alike]

    def case(self, look_alike: bool) -> dict[str, Any]:
        """What it means for a case, as a patch: the finding, or that it is not there."""
        return {"findings": found_in(self.condition, look_alike)}


_MOLD = ("damage-taken-for-mold-mark", "mold-mark-taken-for-damage")
_DIRT = ("damage-taken-for-dirt", "dirt-taken-for-damage")
_SKIN = ("damage-taken-for-skin-deep", "skin-mark-taken-for-damage")
_WEAR = ("worn-out-taken-for-worn", "wear-bar-taken-for-its-end")
_UNIT = ("loose-unit-taken-for-bonded", "bonded-unit-taken-for-loose")
_BUFF = ("burnt-buffing-taken-for-even", "even-buffing-taken-for-burnt")
# Of these two pairs the harmless pictures are of the same thing.
_ALIKE = ({"excessive-wear", "wear-indicators-flush"}, {"lifted-repair-edge", "bubble-under-unit"})


def _pair(condition: str, beliefs: tuple[str, str]) -> Pair:
    named = NAMED[condition]
    return Pair(condition, named.shown, named.look_alike, beliefs, named.quantity)


PAIRS: tuple[Pair, ...] = (
    _pair("ozone-cracking", _SKIN),
    _pair("bulge", _MOLD),
    _pair("impact-damage", _SKIN),
    _pair("exposed-cord", _SKIN),
    _pair("contamination", _DIRT),
    _pair("bead-damage", _MOLD),
    _pair("excessive-wear", _WEAR),
    _pair("wear-indicators-flush", _WEAR),
    _pair("chunking", _SKIN),
    _pair("tread-separation", _MOLD),
    _pair("uneven-wear-separation", _DIRT),
    _pair("run-flat-damage", _DIRT),
    _pair("liner-cracked", _MOLD),
    _pair("liner-separation", _MOLD),
    _pair("liner-blistered", _DIRT),
    _pair("lifted-repair-edge", _UNIT),
    _pair("bubble-under-unit", _UNIT),
    _pair("string-without-unit", _MOLD),
    _pair("poor-buffing", _BUFF),
)
# Those of which a verdict is asked: findings of a tire, but for the bar, which goes by the depth of the tread.
JUDGED = tuple(one for one in PAIRS if one.quantity.startswith("finding.") and one.condition != "wear-indicators-flush")


def beside(pair: Pair, among: tuple[Pair, ...] = PAIRS) -> list[Pair]:
    """The other pairs that are seen from where this one is, and mean something else."""
    return [
        one for one in among if one.side == pair.side and one != pair and {one.condition, pair.condition} not in _ALIKE
    ]


def asked_pair(draft: Draft, among: tuple[Pair, ...] = PAIRS, *, casing: str = "") -> tuple[Pair, tuple[Photo, ...]]:
    """A pair to ask about, and the shop's photographs to ask about it with; none where a picture is to be computed.

    With even odds it is one of which the shop has photographs of both, all on this casing where one is given: were
    there some of one alone, that it is a photograph would tell which it is.
    """
    rng, there = draft.rng, [one for one in draft.photographs if casing in ("", one.casing)]
    kinds = {(one.name, one.look_alike) for one in there}
    both = [pair for pair in among if {(pair.condition, False), (pair.condition, True)} <= kinds]
    if both and rng.random() < 0.5:
        pair = rng.choice(both)
        return pair, tuple(one for one in there if one.name == pair.condition)
    return rng.choice(among), ()


def seen_in(draft: Draft, pair: Pair, look_alike: bool, photographs: tuple[Photo, ...]) -> Sight | Photo:
    """One of the photographs, or where there are none a picture in some degree."""
    if photographs:
        return draft.rng.choice([one for one in photographs if one.look_alike == look_alike])
    return sight(draft, pair, look_alike)


def features_of(pair: Pair, seen: Sight | Photo, look_alike: bool) -> dict[str, object]:
    """What an item notes of its picture."""
    kind = {"photograph": True} if isinstance(seen, Photo) else {"degree": seen.degree}
    return {"condition": pair.condition, **kind, "look_alike": look_alike}


def photographed(pair: Pair, photo: Photo) -> Picture:
    """A photograph as a figure: what it says is the same for the condition and for what is taken for it."""
    told = {
        "sidewall": say("A photograph of a sidewall, taken by your shop."),
        "bead": say("A photograph of a bead, taken by your shop."),
        "tread": say("A photograph of a tread, taken by your shop."),
        "liner": say("A photograph of a liner, taken by your shop."),
    }
    return Picture("", told[pair.surface], photo=photo)


def sight(draft: Draft, pair: Pair, look_alike: bool) -> Sight:
    """A picture of it in some degree, from a seed of its own."""
    degree = draft.rng.choice(list(Degree))
    return Sight(pair.condition, degree.value, look_alike, f"{draft.rng.getrandbits(64):x}")


def figure(pair: Pair, *sights: Sight | Photo) -> Picture:
    """These pictures as a figure, or a photograph alone: what it says is the same for the condition and for what is
    taken for it."""
    for one in sights:
        if isinstance(one, Photo):
            return photographed(pair, one)
    drawn = tuple(one for one in sights if isinstance(one, Sight))
    if len(drawn) == 1:
        told = {
            "sidewall": say("A computed picture of a sidewall, lit from one side."),
            "bead": say("A computed picture of a bead, lit from one side."),
            "tread": say("A computed picture of a tread, lit from one side."),
            "liner": say("A computed picture of a liner, lit from one side."),
        }
    else:
        told = {
            "sidewall": say("Computed pictures of several sidewalls, each lit from one side."),
            "bead": say("Computed pictures of several beads, each lit from one side."),
            "tread": say("Computed pictures of several treads, each lit from one side."),
            "liner": say("Computed pictures of several liners, each lit from one side."),
        }
    return Picture("", told[pair.surface], drawn)


def clauses_on(draft: Draft, pair: Pair) -> list[str]:
    """The first clause of the edition that rules on the condition, if any does."""
    every = draft.edition.clauses.values()
    return [one.id for one in every if one.quantity == pair.quantity and "passenger" in one.casings][:1]


def rulings_on(draft: Draft, pair: Pair, decision: Decision) -> list[Ruling]:
    """What a decision says of the condition, found or not, and of what is taken for it."""
    spoken = {pair.quantity, f"finding.{FOUND_TOO.get(pair.condition, '')}"}
    return [one for one in decision.rulings if one.clause in draft.edition.clauses
            and draft.edition.clause(one.clause).quantity in spoken]  # fmt: skip

"""A photograph on the shop's own page: what it shows, who says so, what the rulebook says of it, and whether it is
asked."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.utils.timezone import localtime

from training.models import Photograph
from training.pictures import NAMED, found_in
from training.rulebook import Edition, decide, parse_case
from training.trade.days import written_day
from training.trade.speech import say
from training.trade.verdict_words import PURPOSE_VERDICT_WORDS
from training.trade.words import CASING_WORDS, VERDICT_WORDS

PURPOSE = "service"
MANY = 2  # trainers of whom one could confirm what another says


@dataclass(frozen=True)
class Row:
    """One photograph in words; `alt` says what it is of, without a name for what it shows."""

    photograph: Photograph
    shows: str
    tires: str
    alt: str
    says: str
    ruled: str
    asked: str


def alt_text(surface: str) -> str:
    """What a photograph is of, without a name for what is to be seen in it."""
    return {
        "sidewall": say("A photograph of a sidewall, taken by your shop."),
        "bead": say("A photograph of a bead, taken by your shop."),
        "tread": say("A photograph of a tread, taken by your shop."),
        "liner": say("A photograph of a liner, taken by your shop."),
    }[surface]


def rows(
    photographs: Iterable[Photograph], *, edition: Edition, standing: Iterable[Photograph], trainers: int
) -> list[Row]:
    """The photographs in words; `standing` are those that questions can show, `trainers` how many could confirm one."""
    there = {(one.condition, one.look_alike) for one in standing}
    ruled: dict[tuple[str, bool, str], str] = {}
    found = []
    for one in photographs:
        kind = (one.condition, one.look_alike, one.casing)
        if kind not in ruled:
            ruled[kind] = ruling(edition, condition=one.condition, look_alike=one.look_alike, casing=one.casing)
        found.append(
            Row(
                photograph=one,
                shows=one.shows,
                tires=str(CASING_WORDS[one.casing].one),
                alt=alt_text(one.surface),
                says=who_says(one, trainers=trainers),
                ruled=ruled[kind],
                asked=_asked(one, is_beside=(one.condition, not one.look_alike) in there),
            )
        )
    return found


def ruling(edition: Edition, *, condition: str, look_alike: bool, casing: str) -> str:
    """What follows from it by the rulebook for a tire of this casing on which all else is in order, in a sentence."""
    findings = found_in(condition, look_alike)
    if not findings:
        return say("The rulebook judges the repair by it, not the tire: it is asked by name alone.")
    case = parse_case({"edition": edition.name, "purpose": PURPOSE, "tire": {"casing": casing}, "findings": findings})
    verdict = decide(case, edition=edition, rest_in_order=True).verdict
    words = PURPOSE_VERDICT_WORDS.get((PURPOSE, verdict)) or VERDICT_WORDS[verdict]
    return say("By your rulebook, with all else in order: {verdict}. {todo}", verdict=words.name, todo=words.todo)


def who_says(one: Photograph, *, trainers: int) -> str:
    """Who says what it shows. Loads nobody: ask with `select_related`."""
    if one.confirmed_by is not None and one.confirmed_at is not None:
        return say("{person} says so; {second} confirmed it.", person=one.added_by.name, second=one.confirmed_by.name)
    if trainers >= MANY:
        return say("One trainer says so, {person}; a second has not confirmed it.", person=one.added_by.name)
    return say("One trainer says so, {person}; your shop has no second to confirm it.", person=one.added_by.name)


def taken_back(one: Photograph) -> str:
    """Since when and why it is not asked any more, empty while it stands."""
    if one.taken_back_at is None or one.taken_back_by is None:
        return ""
    return say(
        "Taken back by {person} on {day}: {reason}",
        person=one.taken_back_by.name,
        day=written_day(localtime(one.taken_back_at).date()),
        reason=one.reason,
    )


def _asked(one: Photograph, *, is_beside: bool) -> str:
    if one.taken_back_at is not None:
        return taken_back(one)
    other = NAMED[one.condition].words(not one.look_alike)
    if is_beside:
        return say("Asked in practice.")
    return say(
        'Not asked yet: it waits for a photograph of what it can be taken for, "{other}", or that it is a photograph '
        "would give the answer away.",
        other=other,
    )

"""The one thing to do next: what is open, then what was asked, then the way to a certificate. No query."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from assessments.models import Attempt, Purpose
from assessments.queries import State, Theory
from certificates.queries.ways import Way
from training.queries import ModuleProgress, NextLesson, next_lesson_in
from training.trade.speech import say


@dataclass(frozen=True)
class Step:
    """What to do next: a title, why, and where; `page` and `args` name the address, the view reverses it."""

    title: str
    why: str
    button: str
    page: str
    args: tuple[str, ...] = ()
    query: str = ""


def next_step(shop: str, modules: tuple[ModuleProgress, ...], own: Sequence[Way], at: datetime) -> Step | None:
    """The step for somebody of the shop with this slug; None when what they have set out on is certified for long
    enough and nothing is due."""
    unfinished = _unfinished(way.theory for way in own)
    if unfinished is not None:
        return _unfinished_step(shop, unfinished, own, at)
    asked = next_lesson_in(modules)
    if asked is not None and asked.due_date is not None:
        return _lesson_step(shop, asked)
    way = _way_to_go(own, modules)
    if way is None and own:
        return None
    state = way.state if way else None
    lesson = next_lesson_in(modules, way.scope.casings if way else None)
    if lesson is not None and state is not State.PASSED:
        return _lesson_step(shop, lesson)
    tires = way.scope.tires if way and len(own) > 1 else ""
    if way is not None and state is State.READY:
        return Step(
            say("Take the assessment"),
            _of_tires(
                tires,
                say(
                    "You have read the course. {minutes} minutes; the clock starts when you do.",
                    minutes=way.theory.terms.minutes,
                ),
            ),
            say("See what it asks"),
            "assessments:assessment",
            (shop, way.scope.slug),
        )
    if way is not None and state is State.PASSED and not way.is_seen:
        return Step(
            say("Show the work to your trainer"),
            _of_tires(tires, say("Theory is passed. Your trainer watches you repair a tire and records the hands-on.")),
            say("Read the order of work"),
            "training:module",
            (shop, "prepare-install-return"),
        )
    return Step(
        say("Practice"),
        _of_tires(
            tires,
            say("Eight fresh questions over all skills, each explained.")
            if state is not State.PASSED
            else say("All is passed; your certificate is being made out. Keep your hand in."),
        ),
        say("Practice"),
        "assessments:practice",
        (shop,),
        f"?scope={way.scope.slug}" if tires and way else "",
    )


def _of_tires(tires: str, why: str) -> str:
    """Why, with the tires named first where a shop works on several kinds."""
    return say("{tires}. {why}", tires=tires, why=why) if tires else why


def _way_to_go(own: Sequence[Way], modules: Iterable[ModuleProgress]) -> Way | None:
    """The way to go on with: one that was set out on, what the person can do themself first; else the shop's first.

    None when all that was set out on is settled: nobody has to certify for everything the shop does.
    """
    asked = {casing for module in modules if module.assignment for casing in module.module.casings}
    begun = [way for way in own if way.is_begun or not asked.isdisjoint(way.scope.casings)]
    ahead = [way for way in begun if not way.is_settled] if begun else list(own[:1])
    return min(ahead, key=_order, default=None)


def _order(way: Way) -> int:
    if way.state is State.PASSED:
        return 3 if way.is_seen else 0
    return 1 if way.state is State.READY else 2


def _unfinished(theories: Iterable[Theory]) -> Attempt | None:
    """The assessment that is open, in whatever scope: one of a scope that was turned off is handed in too."""
    return next((open_one for theory in theories if (open_one := theory.open or theory.elsewhere)), None)


def _unfinished_step(shop: str, attempt: Attempt, own: Sequence[Way], at: datetime) -> Step:
    reference = str(attempt.form.reference)
    if attempt.form.purpose == Purpose.PAPER:
        slugs = [way.scope.slug for way in own if way.theory.open == attempt]
        return Step(
            say("Sit your paper"),
            say("Your trainer has printed your assessment and types your answers in."),
            say("See what it asks"),
            "assessments:assessment" if slugs else "assessments:assessments",
            (shop, *slugs),
        )
    if attempt.is_open(at):
        return Step(
            say("Go on with your assessment"),
            say("The clock is running. Every answer you gave is saved."),
            say("Go on"),
            "assessments:review",
            (shop, reference),
        )
    return Step(
        say("Hand in your assessment"),
        say("The time is up. The answers saved until then count."),
        say("Hand in"),
        "assessments:review",
        (shop, reference),
    )


def _lesson_step(shop: str, lesson: NextLesson) -> Step:
    return Step(
        str(lesson.lesson.title),
        say("A lesson of {minutes} minutes in {title}.", minutes=lesson.lesson.minutes, title=lesson.module.title),
        say("Read the lesson"),
        "training:lesson",
        (shop, lesson.module.slug, lesson.lesson.slug),
    )

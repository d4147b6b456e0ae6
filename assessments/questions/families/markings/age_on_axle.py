"""Date codes on several axles and today's date: which of these tires are too old to run where they are?"""

from datetime import date, timedelta
from typing import Any

from assessments.questions.cases.on_the_road import PLACES, OnVehicle, ask_where, on_the_road
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Decided
from assessments.questions.items.item import Item
from training.rulebook import Ruling, production_week, whole_years
from training.trade.days import long_day
from training.trade.speech import say, saying
from training.trade.words import STEEL

_OFFERED, _MARGIN, _NEVER, _BIRTHDAY = 5, timedelta(weeks=3), ("age-never-ends",), ("retread-keeps-its-birthday",)


@item_family(
    "age-on-axle",
    title=saying("Too old for this axle"),
    skill="markings",
    formats=("several",),
    casings=("light-truck-fabric", *STEEL),
    lesson="inspect-and-reject/read-the-sidewall",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    ends = draft.stated(ask_where(draft, "tire.age", "position.vehicle")).value
    today = draft.edition.in_force_from + timedelta(days=rng.randint(0, 700))
    offered: dict[object, tuple[Choice, bool]] = {}
    rulings: list[Ruling] = []
    case = None
    # any number of them is right as often as any other
    wanted = [True] * (count := rng.randint(1, _OFFERED - 1)) + [False] * (_OFFERED - count)
    ends_there: dict[OnVehicle, bool] = {}  # where a tire runs: does its age end there?
    while wanted:
        model = draft.pick_model()
        # the last of those that may run is old, where none of them is taken to be too old so far
        is_told_apart = len(wanted) > 1 or any(choice.why for choice, too_old in offered.values() if not too_old)
        years = rng.randint(10 if wanted[0] or not is_told_apart else 4, 14)
        place, code = rng.choice(PLACES[model.casing]), _code(draft, today, years)
        if wanted[0] and not ends_there.get(place, True):
            continue
        words, since, tire = f"{place.words}: {code}", code, {"date_code": code}
        if model.casing == "truck" and rng.random() < 0.35:
            since = _code(draft, today, rng.randint(2, 11))
            if (since[2:], since[:2]) <= (code[2:], code[:2]):
                continue
            words = say("{place}: {code}, retreaded {retreaded}", place=place.words, code=code, retreaded=since)
            tire = {**tire, "retreaded_on": since}
        age = whole_years(production_week(since)[0], today)
        if place in ends_there and age != ends and (ends_there[place] and age > ends) != wanted[0]:
            continue
        on_day: dict[str, Any] = {"tire": {**tire, "retreaded": since != code}, "on": today.isoformat()}
        data, decision = on_the_road(draft, model, place, **on_day)
        too_old = decision.verdict == "reject"
        if age > ends:
            ends_there[place] = too_old
        if too_old != wanted[0] or (place, code, since) in offered:
            continue
        del wanted[0]
        # Without a limit of age no tire is too old, and one that was not retreaded has one birthday only.
        told, held_here = draft.case(data), (*_NEVER * too_old, *_BIRTHDAY * (since != code))
        believed = {held: draft.decide(told, held).verdict for held in held_here}
        why = tuple(held for held, verdict in believed.items() if (verdict == "reject") != too_old)
        why += ("age-ends-every-tire",) if not too_old and age >= ends else ()
        told_tire = {"casing": model.casing, "retreaded_on": None, **on_day["tire"]}
        patch = {"tire": told_tire, "position": place.to_json()}
        offered[place, code, since] = (Choice(words, why, claim=Decided(("reject",), case=patch)), too_old)
        case = case or told
        rulings += [one for one in decision.rulings if one.clause.startswith("age-") and "unknown" not in one.clause]
    right = [choice for choice, too_old in offered.values() if too_old]
    wrong = [choice for choice, too_old in offered.values() if not too_old]
    if not right or not any(choice.why for choice in wrong):
        raise Redraw("none is too old, or none of the others looks it")
    return draft.several(
        stem=[
            say("Today is {day}. Five tires with the vehicle and axle they run on, the gross mass of the vehicle, and "
                "the date code on the sidewall.",
                day=long_day(today)),
            rng.choice((say("Which of them may not run there any more, by their age? Choose all."),
                        say("Which of these tires are too old for where they run? Choose all."))),
        ],
        right=right,
        wrong=wrong,
        is_listed=True,
        rulings=rulings,
        case=case,
        features={"too_old": len(right)},
    )  # fmt: skip


def _code(draft: Draft, today: date, years: int) -> str:
    """A date code of about this age, three weeks and more from a full year."""
    while True:
        code = f"{draft.rng.randint(1, 51):02d}{today.year % 100 - years:02d}"
        first, last = production_week(code)
        if last < today and whole_years(first - _MARGIN, today) == whole_years(last + _MARGIN, today):
            return code

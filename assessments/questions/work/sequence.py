"""The order of the procedure: what comes next, and steps to put in order; asked only where sources agree."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.formats import in_order
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Done, Next
from assessments.questions.items.item import Item
from assessments.questions.work.facts import step_line
from training.rulebook import Case, Edition, Step, procedure
from training.trade.speech import say, saying

METHODS = {"two-piece": saying("stem and separate patch"), "one-piece": saying("a one-piece unit")}
_REACH = 6
_ASKED = 5
_FREE_PAIRS = 1  # so many pairs of the steps asked may stand either way around
# Steps that some do earlier, or that have an earlier part: offered as the key, never as a step that is not due yet.
_ALSO_EARLIER = ("mark", "measure-prepared", "outline", "remove-film")
# In an order these have no place of their own: a channel is probed before cutting too, film comes off in two parts.
_NO_ONE_PLACE = ("mark", "probe", "outline", "remove-film", "check-valve", "trim-stem", "balance")


def next_step(draft: Draft, after: dict[str, tuple[str, ...]]) -> Item:
    """An item `one`: the steps up to some step are done, what comes next? `after`: by method, the steps it may be.

    Rivals are steps of the same repair: the next but one and later ones, and steps that come before.
    """
    rng = draft.rng
    method = rng.choice(sorted(after))
    steps = procedure(draft.edition, method=method)
    places = {step.id: place for place, step in enumerate(steps)}
    done = places[rng.choice(after[method])]
    last, following = steps[done], steps[done + 1]
    later = [step for step in steps[done + 2 : done + 2 + _REACH] if step.id not in _ALSO_EARLIER]
    earlier = steps[max(0, done - _REACH) : done]

    def follows(step: Step, *why: str) -> Choice:
        return Choice(step.title, why, claim=Next(step.id, last.id, method))

    return draft.one(
        stem=[
            say(
                'A repair with {method}. "{step}" has just been done.',
                method=METHODS[method],
                step=last.title,
            ),
            rng.choice([say("What comes next?"), say("Which step follows?"), say("What do you do next?")]),
        ],
        key=follows(following),
        wrong=[
            *(follows(step, "step-skipped") for step in later),
            *(follows(step, "step-too-late") for step in earlier),
        ],
        explanation=[step_line(last), step_line(following)],
        features={"method": method, "after": last.id},
    )


# Who does the second of two steps first, and what they believe.
_MISTAKES: dict[tuple[str, str], str] = {
    ("deflate", "demount"): "air-left-in",
    ("deflate", "remove-object"): "object-out-first",
    ("demount", "remove-object"): "object-out-first",
    ("inspect", "remove-object"): "object-out-first",
    ("mark", "remove-object"): "object-out-first",
    ("clean-liner", "buff"): "wash-after-buffing",
    ("clean-liner", "brush"): "wash-after-buffing",
    ("measure-prepared", "outline"): "measured-before-removal",
    ("remove-damage", "measure-prepared"): "measured-before-removal",
    ("dry", "apply-unit"): "tacky-is-ready",
    ("dry", "pull-through"): "tacky-is-ready",
    ("pull-stem", "buff"): "cut-flush",
    ("leak-test", "install"): "only-the-hole",
}
_orders: dict[tuple[int, str], tuple[Edition, frozenset[tuple[str, str]]]] = {}


def precedences(edition: Edition, method: str) -> frozenset[tuple[str, str]]:
    """All pairs of steps of which the first must come before the second, directly or through others.

    Raises NoSuchLimit where the edition has no rules of the work.
    """
    kept = _orders.get((id(edition), method))
    if kept is None or kept[0] is not edition:
        if edition.work is None or method not in edition.orders:
            raise NoSuchLimit(f"edition {edition.name} {edition.version} has no order of a {method} repair")
        pairs = frozenset(edition.work.order(method, edition.orders[method]).rules)
        if len(_orders) > 64:
            _orders.clear()
        kept = _orders[id(edition), method] = (edition, pairs)
    return kept[1]


def put_in_order(
    draft: Draft,
    among: Sequence[str],
    *,
    methods: Sequence[str] = tuple(METHODS),
    situation: str = "",
    asked: int = _ASKED,
    case: Case | None = None,
) -> Item:
    """An item `order`: some of the steps `among`, as far as the drawn method has them.

    Any order that keeps what the rulebook says of them is right; sets that leave more than one pair free are not asked.
    """
    rng = draft.rng
    method = rng.choice(list(methods))
    steps = procedure(draft.edition, method=method)
    chosen = rng.sample([step for step in steps if step.id in among and step.id not in _NO_ONE_PLACE], asked)
    places = {name: place for place, name in enumerate(draft.edition.orders.get(method, ()))}
    chosen.sort(key=lambda step: places[step.id])
    known = precedences(draft.edition, method)
    before = [
        (first, then) for first, then in combinations(range(asked), 2) if (chosen[first].id, chosen[then].id) in known
    ]
    if asked * (asked - 1) // 2 - len(before) > _FREE_PAIRS:
        raise Redraw("too many of these steps may change places")
    return in_order(
        draft,
        stem=[
            *([situation] if situation else []),
            say(
                "A repair with {method}. Here are {count} of its steps, not all of them.",
                method=METHODS[method],
                count=asked,
            ),
            rng.choice(
                [
                    say("Put the steps in the order in which they are done."),
                    say("In what order are these steps done?"),
                    say("Which step is done first, which next, and so on?"),
                ]
            ),
        ],
        steps=[Choice(step.title, claim=Done(step.id, method)) for step in chosen],
        before=before,
        why={(first, then): _believed(chosen[first], chosen[then]) for first, then in before},
        explanation=[step_line(step) for step in chosen],
        case=case,
        features={"method": method, "steps": asked, "free_pairs": asked * (asked - 1) // 2 - len(before)},
    )


def _believed(first: Step, then: Step) -> tuple[str, ...]:
    """The misconceptions by which `then` is done before `first`."""
    named = _MISTAKES.get((first.id, then.id))
    return ("step-too-late",) if named is None else (named, "step-too-late")

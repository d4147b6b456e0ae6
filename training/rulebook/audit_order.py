"""Steps that are missing, out of order, set twice, or of another method than the repair."""

from collections.abc import Iterator, Mapping, Sequence

from training.rulebook.audit_fault import Fault, by_rule
from training.rulebook.audit_job import LoggedStep
from training.rulebook.audit_rules import Order, WorkRules, waives
from training.rulebook.edition import Edition
from training.trade.lists import one_of
from training.trade.speech import say, saying

NOT_LOGGED = saying("not in the log")
_ONLY_STEPS = {
    "one-piece": saying("only the steps of a one-piece repair"),
    "two-piece": saying("only the steps of a two-piece repair"),
    "surface-fill": saying("only the steps of a surface-fill repair"),
}


def order_faults(
    steps: Sequence[LoggedStep],
    *,
    edition: Edition,
    rules: WorkRules,
    method: str,
    said: Mapping[str, str],
    repairs: int = 1,
) -> list[Fault]:
    """All faults of one repair by a method that lie in which steps there are, and in what order.

    `said` holds the words the log states for quantities that may make a step needless, or leave it free; `repairs` is
    how many injuries the same lines may be for.
    """
    canonical = edition.orders[method]
    ranked = rules.order(method, canonical, said)
    return [
        *_foreign(steps, edition, rules, method),
        *_missing(steps, edition, rules, canonical, said),
        *_misplaced(steps, ranked, rules, method),
        *_not_repeated(steps, ranked),
        *_twice(steps, rules, repairs),
        *_uncured(steps, rules),
    ]


def _foreign(steps: Sequence[LoggedStep], edition: Edition, rules: WorkRules, method: str) -> Iterator[Fault]:
    if method not in rules.mixed.methods:
        return
    own = edition.orders[method]
    others = {name for other in rules.mixed.methods for name in edition.orders.get(other, ())}
    for step in steps:
        if step.name in others and step.name not in own:
            limit = str(_ONLY_STEPS[method])
            yield by_rule(step.number, step.name, "method", rules.mixed.reason, found=step.name, limit=limit)


def _missing(
    steps: Sequence[LoggedStep], edition: Edition, rules: WorkRules, canonical: Sequence[str], said: Mapping[str, str]
) -> Iterator[Fault]:
    logged = {step.name for step in steps}
    titles = {step.id: step.title for step in edition.procedure}
    for name in canonical:
        need = rules.needs.get(name)
        if need is None or name in logged or waives(need.unless, said):
            continue
        yield by_rule(
            None,
            name,
            "missing",
            need.reason,
            found=NOT_LOGGED,
            limit=say("the step: {step}", step=titles[name].lower()),
        )


def _misplaced(steps: Sequence[LoggedStep], order: Order, rules: WorkRules, method: str) -> Iterator[Fault]:
    """One fault for each step that must move so that the rest is in order, not one for each pair it stands wrong to.

    Of several pairs the fault names the gravest, and of those the nearest.
    """
    at: dict[str, int] = {}
    for step in steps:
        at.setdefault(step.name, step.number)
    wrong = {pair for pair in order.rules if pair[0] in at and pair[1] in at and at[pair[0]] > at[pair[1]]}
    while wrong:
        count = {name: sum(name in pair for pair in wrong) for pair in wrong for name in pair}
        moved = min(count, key=lambda name: (-count[name], at[name]))
        pairs = [pair for pair in wrong if moved in pair]
        worst = {pair: rules.worst_of(*pair, method) for pair in pairs}
        first, then = min(
            pairs, key=lambda pair: (worst[pair] is None, pair not in order.direct, _apart(order, pair), pair)
        )
        direct = order.direct.get((first, then))
        reason = worst[first, then] if direct is None else direct.reason
        reason = reason or order.rules[first, then].reason
        yield by_rule(
            at[moved],
            moved,
            "order",
            reason,
            found=say("{then} before {first}", then=then, first=first),
            limit=say("{first} before {then}", first=first, then=then),
        )
        wrong.difference_update(pairs)


def _apart(order: Order, pair: tuple[str, str]) -> int:
    return order.steps.index(pair[1]) - order.steps.index(pair[0])


def _not_repeated(steps: Sequence[LoggedStep], order: Order) -> Iterator[Fault]:
    """A step done again whose follower was not: buffed again, but not brushed again."""
    first_at: dict[str, int] = {}
    last_at: dict[str, int] = {}
    for step in steps:
        first_at.setdefault(step.name, step.number)
        last_at[step.name] = step.number
    for (first, then), rule in order.direct.items():
        if not rule.again or first not in last_at or then not in last_at:
            continue
        if first_at[first] < first_at[then] <= last_at[then] < last_at[first]:
            yield by_rule(
                last_at[first], first, "order", rule.reason,
                found=say("{first} again, and no {then} after "
                          "it", first=first, then=then), limit=say("{then} after {first}", then=then, first=first),
            )  # fmt: skip


def _twice(steps: Sequence[LoggedStep], rules: WorkRules, repairs: int) -> Iterator[Fault]:
    for rule in rules.once:
        done, fresh = 0, False
        for step in steps:
            if step.name == rule.after:
                fresh = True
            elif step.name == rule.step:
                if done >= repairs and not fresh:
                    limit = say("once, or again after {step}", step=rule.after)
                    yield by_rule(step.number, step.name, "order", rule.reason, found=say("set again"), limit=limit)
                done, fresh = (1 if fresh else done + 1), False


def _uncured(steps: Sequence[LoggedStep], rules: WorkRules) -> Iterator[Fault]:
    """A result that was bad, and then good without anything having been done about it."""
    for rule in rules.cured:
        bad: LoggedStep | None = None
        for step in steps:
            if step.name in rule.by:
                bad = None
            elif step.name == rule.step and rule.quantity in step.stated:
                is_bad = step.stated[rule.quantity].word in rule.words
                if bad is not None and not is_bad:
                    found = say(
                        "{before}, then {after}",
                        before=bad.stated[rule.quantity].text,
                        after=step.stated[rule.quantity].text,
                    )
                    limit = say("{steps} in between", steps=one_of(rule.by))
                    yield by_rule(step.number, step.name, "order", rule.reason, found=found, limit=limit)
                bad = step if is_bad else None

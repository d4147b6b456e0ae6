"""What passes an assessment in words, which condition was missed, what to learn from it, and the curve as a table."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from assessments.measurement.passing import Condition, Judgment, PassRule
from assessments.pages.explained import known_beliefs, lesson_of
from assessments.questions import Misconception
from training import course
from training.trade.speech import say, say_many


def rule_lines(rule: PassRule, *, asked: int, safety_asked: int) -> list[str]:
    """The conditions one by one, each a sentence; all of them have to hold."""
    lines = [
        say(
            "{needed} of {asked} questions right ({percent} percent).",
            needed=rule.needed(asked),
            asked=asked,
            percent=rule.percent,
        )
    ]
    if needed := rule.needed_of_safety(safety_asked):
        lines.append(
            say("Of the {asked} questions on safety, {needed} right.", asked=safety_asked, needed=needed),
        )
    return [*lines, *_unsafe_lines(rule)]


def _unsafe_lines(rule: PassRule) -> list[str]:
    lines = [
        say_many("At most {count} unsafe release.", "At most {count} unsafe releases.", rule.unsafe_allowed)
        if rule.unsafe_allowed
        else say("No unsafe release.")
    ]
    if rule.alike_allowed == 1:
        lines.append(say("No two unsafe releases from the same mistaken idea."))
    elif rule.alike_allowed:
        lines.append(
            say_many(
                "At most {count} unsafe release from the same mistaken idea.",
                "At most {count} unsafe releases from the same mistaken idea.",
                rule.alike_allowed,
            )
        )
    return lines


def rule_in_short(rule: PassRule, *, asked: int, safety_asked: int) -> str:
    """The same in one paragraph, for a printed line."""
    return " ".join(rule_lines(rule, asked=asked, safety_asked=safety_asked))


@dataclass(frozen=True)
class Missed:
    """One condition that was missed, in a sentence; the misconceptions behind it, each with its lesson."""

    words: str
    beliefs: tuple[tuple[Misconception, course.Lesson | None], ...] = ()


def missed(judgment: Judgment, rule: PassRule) -> list[Missed]:
    """Every condition that an attempt missed; none where it passed."""
    return [_missed(condition, judgment, rule) for condition in judgment.failed]


def _missed(condition: Condition, judgment: Judgment, rule: PassRule) -> Missed:
    match condition:
        case Condition.SHARE:
            return Missed(
                say(
                    "Too few right answers: {right} of {asked}, and {needed} are needed.",
                    right=judgment.right,
                    asked=judgment.asked,
                    needed=rule.needed(judgment.asked),
                )
            )
        case Condition.FLOOR:
            return Missed(
                say(
                    "Too few right answers on safety: {right} of {asked}, and {needed} are needed.",
                    right=judgment.safety_right,
                    asked=judgment.safety_asked,
                    needed=rule.needed_of_safety(judgment.safety_asked),
                )
            )
        case Condition.UNSAFE:
            return Missed(
                say(
                    "Too many unsafe releases: {count}, and at most {allowed} may be.",
                    count=judgment.unsafe,
                    allowed=rule.unsafe_allowed,
                )
            )
    return Missed(
        say_many(
            "{count} unsafe release from the same mistaken idea.",
            "{count} unsafe releases from the same mistaken idea.",
            max(judgment.alike.values(), default=0),
        ),
        tuple((one, lesson_of(one.lesson)) for one in known_beliefs(judgment.alike)),
    )


@dataclass(frozen=True)
class CurveTable:
    """How many in a hundred pass in one sitting, as rows of words and a number with one decimal; `people` for each."""

    ability: Sequence[tuple[str, float]]
    held: Sequence[tuple[str, float]]
    people: int
    forms: int


def curve_table(curve: Mapping[str, object]) -> CurveTable | None:
    """A stored curve (Curve.to_json()) as a table; None where none is stored."""
    if not curve:
        return None
    ability, held = curve["ability"], curve["held"]
    people, forms = curve["people"], curve["forms"]
    if not (isinstance(ability, list) and isinstance(held, list)):
        raise TypeError(f"curve: {curve!r} is not accepted; give what Curve.to_json wrote")
    titles = {one.id: one.title for one in known_beliefs([name for name, _ in held])}
    return CurveTable(
        ability=[(say("{percent} percent", percent=right), passes / 10) for right, passes in ability],
        held=[(titles[name], passes / 10) for name, passes in held if name in titles],
        people=int(str(people)),
        forms=int(str(forms)),
    )


def mark_row(right: int, asked: int, needed: int) -> list[str]:
    """A block for each question, "done" where it is right, sorted so that none is given away; the mark before one."""
    blocks = ["done"] * right + ["open"] * (asked - right)
    if needed < asked:
        blocks[needed] += " is-mark"
    return blocks

"""What one person does next in practice and assessment, for their start page."""

from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse
from django.utils.timezone import localtime

from assessments.queries.answers import lessons_on
from assessments.queries.attempts import unfinished_practice
from assessments.queries.skills import SkillResult, skill_results
from assessments.queries.theory import State, Theory, theory_of
from assessments.scenarios import SKILLS
from training.models import Shop, User


@dataclass(frozen=True)
class NextStep:
    """One thing to do: what, why in a sentence, and the page that does it (none when there is only waiting).

    `kind` is one of hand-in, go-on, read, practice, assessment, wait, ask, hands-on.
    """

    kind: str
    title: str
    text: str
    url: str = ""
    button: str = ""


def next_steps(shop: Shop, learner: User, at: datetime) -> tuple[NextStep, ...]:
    """The steps in the order of their urgency, never none; four queries."""
    try:
        theory = theory_of(shop, learner)
    except LookupError:
        theory = None
    steps = [] if theory is None else list(_assessment_first(shop, theory, at))
    if steps:  # the clock runs: nothing else matters now
        return tuple(steps)
    results = skill_results(shop, learner)
    if theory is not None:
        steps += _read_again(shop, theory)
    for skill, attempt in unfinished_practice(shop, learner).items():
        title = SKILLS.get(skill, "all skills mixed")
        steps.append(
            NextStep(
                "go-on",
                f"Go on practicing: {title[0].lower()}{title[1:]}",
                f"{attempt.answered_count} of {attempt.form.size} questions answered.",
                reverse("assessments:practice_end", args=[shop.slug, attempt.form.reference]),
                "Go on",
            )
        )
    if theory is not None:
        steps += _then(shop, theory, results, at)
    return tuple(steps)


def _assessment_first(shop: Shop, theory: Theory, at: datetime) -> list[NextStep]:
    if theory.open is None:
        return []
    url = reverse("assessments:review", args=[shop.slug, theory.open.form.reference])
    until = f"{localtime(theory.open.closes_at):%H:%M}"
    if theory.state(at) is State.TIME_UP:
        text = f"The clock ran out at {until}. The answers saved until then count."
        return [NextStep("hand-in", "Hand in your assessment", text, url, "Hand in")]
    return [NextStep("go-on", "Your assessment is open", f"The clock runs until {until}.", url, "Go on")]


def _read_again(shop: Shop, theory: Theory) -> list[NextStep]:
    if theory.passed_this_round or not theory.failed_skills:
        return []
    weak = ", ".join(SKILLS[skill].lower() for skill in theory.failed_skills if skill in SKILLS)
    return [
        NextStep(
            "read",
            f"Read again: {lesson.title}",
            f"Below the pass mark in your last assessment: {weak}.",
            reverse("training:lesson", args=[shop.slug, lesson.module, lesson.slug]),
            "Read the lesson",
        )
        for lesson in lessons_on(theory.failed_skills)[:2]
    ]


def _then(shop: Shop, theory: Theory, results: tuple[SkillResult, ...], at: datetime) -> list[NextStep]:
    practice = NextStep(
        "practice",
        "Practice",
        "Each question is explained as soon as you answer it.",
        reverse("assessments:practice", args=[shop.slug]),
        "Practice",
    )
    page = reverse("assessments:assessment", args=[shop.slug])
    match theory.state(at):
        case State.PASSED:
            return [NextStep("hands-on", "Hands-on with your trainer", "You have passed the assessment.")]
        case State.USED_UP:
            text = f"All {theory.terms.attempts} attempts of this round are used."
            return [practice, NextStep("ask", "Ask your trainer for a new round", text, page, "See the result")]
        case State.WAIT:
            text = f"You may start again from {localtime(theory.waits_until):%b %d, %H:%M}."
            return [practice, NextStep("wait", "Assessment", text, page, "See the terms")]
    assessment = NextStep(
        "assessment",
        theory.terms.title,
        f"{theory.terms.minutes} minutes on the clock, {theory.left} attempts left.",
        page,
        "Go to the assessment",
    )
    is_fresh = not any(result.asked for result in results)
    return [practice, assessment] if is_fresh or theory.failed_skills else [assessment, practice]

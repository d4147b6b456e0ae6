"""What people can do so far: right of asked in each skill, with how sure that makes us."""

from dataclasses import dataclass

from assessments.measurement.intervals import wilson
from assessments.models import Attempt
from training.models import Shop, User
from training.trade.speech import say
from training.trade.words import SKILLS

ENOUGH = 20  # answers: older ones say little about today
FEW = 5


@dataclass(frozen=True)
class SkillResult:
    """The latest answers of one skill, at least ENOUGH of them where there are as many.

    `lo`, `at` and `hi` are percents for the ruler: the ends of the 90 % score interval and the share right.
    """

    skill: str
    title: str
    right: int
    asked: int

    @property
    def _ends(self) -> tuple[float, float]:
        return wilson(self.right, self.asked)

    @property
    def lo(self) -> float | None:
        """The lower end in percent; None while nothing was asked."""
        return round(100 * self._ends[0], 1) if self.asked else None

    @property
    def hi(self) -> float | None:
        """The upper end in percent; None while nothing was asked."""
        return round(100 * self._ends[1], 1) if self.asked else None

    @property
    def at(self) -> float | None:
        """The share right in percent; None while nothing was asked."""
        return round(100 * self.right / self.asked, 1) if self.asked else None

    def holds(self, pass_percent: int = 80) -> bool:
        """Whether even the lower end reaches the pass mark."""
        return self.asked >= FEW and 100 * self._ends[0] >= pass_percent

    def words(self, pass_percent: int = 80) -> str:
        """What the ruler says, in words, against the pass mark."""
        if not self.asked:
            return say("No answers yet")
        if self.asked < FEW:
            return say("Too few answers to say")
        lower, upper = self._ends
        if 100 * lower >= pass_percent:
            return say("Solid")
        if 100 * self.right >= pass_percent * self.asked:
            return say("Good so far; a few more answers will confirm it")
        return say("Nearly") if 100 * upper >= pass_percent else say("Not yet")


def skill_results(shop: Shop, learner: User) -> tuple[SkillResult, ...]:
    """A person's results in every skill, in the order of the skills; one query.

    An assessment says nothing here before it is handed in.
    """
    tallies = (
        Attempt.objects.filter(form__shop=shop, form__learner=learner)
        .exclude(by_skill={})
        .order_by("-started_at", "-pk")
        .values_list("by_skill", flat=True)
    )
    sums = {skill: [0, 0] for skill in SKILLS}
    for by_skill in tallies:
        for skill, (right, asked) in by_skill.items():
            total = sums.get(skill)
            if total is not None and total[1] < ENOUGH:
                total[0] += right
                total[1] += asked
    return tuple(SkillResult(skill, SKILLS[skill], right, asked) for skill, (right, asked) in sums.items())

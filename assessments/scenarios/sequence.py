"""What comes next: questions on the order of the procedure, only where no source allows another order."""

from __future__ import annotations

from training.rulebook import procedure

from .draft import Choice, Draft
from .facts import step_line
from .model import Item

_METHODS = {"two-piece": "stem and separate patch", "one-piece": "one-piece unit"}
_REACH = 6
# Steps that some do earlier, or that have an earlier part: offered as the key, never as a step that is not due yet.
_ALSO_EARLIER = ("mark", "measure-prepared", "outline", "remove-film")


def next_step(draft: Draft, after: dict[str, tuple[str, ...]]) -> Item:
    """An item `one`: the steps up to some step are done, what comes next? `after`: by method, the steps it may be.

    Rivals are steps of the same repair: the next but one and later ones, and steps that are already done.
    """
    rng = draft.rng
    method = rng.choice(sorted(after))
    steps = procedure(draft.edition, method=method)
    places = {step.id: place for place, step in enumerate(steps)}
    done = places[rng.choice(after[method])]
    last, following = steps[done], steps[done + 1]
    later = [step for step in steps[done + 2 : done + 2 + _REACH] if step.id not in _ALSO_EARLIER]
    earlier = steps[max(0, done - _REACH) : done]
    wrong = [
        *(Choice(step.title, ("step-skipped",)) for step in later),
        *(Choice(step.title, ("step-too-late",)) for step in earlier),
    ]
    return draft.one(
        stem=[
            f'A repair with {_METHODS[method]}. "{last.title}" is done, and so is everything before it.',
            rng.choice(["What comes next?", "Which step follows?", "What do you do next?"]),
        ],
        key=Choice(following.title),
        wrong=wrong,
        explanation=[step_line(last), step_line(following)],
        features={"method": method, "after": last.id},
    )

"""An answer in words, beside another that was given to the same question; nothing of what is right."""

from assessments.questions import Answer, OpenItem, place_in_words, ruler_unit
from training.trade.lists import all_of
from training.trade.measures import as_read
from training.trade.speech import say


def answer_in_words(item: OpenItem, answer: Answer) -> str:
    """What was answered, as one reads it; a word for none."""
    if not answer:
        return say("no answer")
    texts = {option.id: option.text for option in (*item.options, *item.reasons)}
    if isinstance(answer, str):
        return texts[answer]
    if not isinstance(answer, dict):
        return all_of(texts[one] for one in answer)
    if item.format == "number":
        return as_read(f"{answer['value']} {answer['unit']}")
    if item.format == "place":
        return place_in_words(answer, ruler_unit(item.units))
    return all_of(texts[answer[part]] for part in ("step", "reason") if answer.get(part))

"""How large may the injury be in this tire? The sidewall says which casing it is; the clause says the limit."""

from ..casebook import edge_mm, looked_at
from ..draft import Choice, Draft, altered
from ..model import Item
from ..registry import item_family
from ..sidewall import ply_words

_MISTAKES = ("truck-limit-for-all", "stricter-size", "halfway-limit")


@item_family(
    "limit-for-casing",
    title="Largest injury for this casing",
    skill="size-limits",
    formats=("one",),
    lesson="measure-and-choose/measure-the-injury",
)
def build(draft: Draft) -> Item:
    model = draft.pick_model()
    clause = draft.limit("injury.diameter", model.casing)
    case = draft.case(looked_at(model, draft.edition))
    wrong = []
    for mistake in _MISTAKES:
        other = altered(draft.edition, mistake).clause(clause.id)
        if edge_mm(other) != edge_mm(clause):
            wrong.append(
                Choice(other.limit_text(), (mistake,), edge_mm(other)[1] > edge_mm(clause)[1], edge_mm(other)[1])
            )
    load_range = draft.rng.choice("CDE") if model.casing.startswith("light") else draft.rng.choice(("SL", "XL"))
    stem = [
        f"The sidewall reads {model.size}, load range {load_range}. {ply_words(draft.rng, steel_body=False)}",
        draft.rng.choice(
            [
                "How large may a nail hole in its crown be after damage removal, if it is to be repaired?",
                "What is the limit for the size of a nail hole in this tire, measured after damage removal?",
                "Up to which size, after damage removal, may a nail hole in this tire be repaired?",
            ]
        ),
    ]
    key = Choice(clause.limit_text(), value=edge_mm(clause)[1])
    return draft.one(stem=stem, key=key, wrong=wrong, case=case, clauses=[clause.id], features={"findings": 0})

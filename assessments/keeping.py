"""The guards on tables of this app, for migrations that have to lift them while they change a guarded table."""

from importlib import import_module

from training.keeping import Refuse

MESSAGE = "kept: a flag, a family switched off and a paper are settled, never rewritten or deleted"
# what stands from the first moment; the rest is filled once, when the matter is settled
_FIRST = {
    "assessments_drawflag": [
        "reference",
        "shop_id",
        "family",
        "seed",
        "edition",
        "edition_version",
        "units",
        "stem",
        "comment",
        "by_id",
        "at",
    ],
    "assessments_familyoff": ["shop_id", "family", "reason", "since_at", "by_id"],
}
_PAPER_IS_DONE = (
    "EXISTS (SELECT 1 FROM assessments_attempt a WHERE a.handed_in_at IS NOT NULL AND a.form_id = OLD.form_id)"
)

HANDED_IN: list[Refuse] = import_module("assessments.migrations.0002_keep_what_was_handed_in").Migration.operations
BENCH_AND_PAPERS = [
    *(Refuse("DELETE", table, message=MESSAGE) for table in (*_FIRST, "assessments_paper")),
    *(Refuse("UPDATE", table, columns=columns, message=MESSAGE) for table, columns in _FIRST.items()),
    Refuse("UPDATE", "assessments_paper", when=_PAPER_IS_DONE, message=MESSAGE),
]

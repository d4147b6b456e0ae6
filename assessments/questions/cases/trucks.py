"""Truck tires in service: a position on the vehicle, tread and the partner of a dual pair, everything else in order."""

from __future__ import annotations

from typing import Any

from assessments.questions.cases.casebook import edge_mm, looked_at
from assessments.questions.drafts.draft import Draft
from training.rulebook import FINDINGS, Clause, Decision, Model
from training.trade.speech import saying

AXLES = {"front": saying("steer axle"), "drive": saying("drive axle"), "trailer": saying("trailer axle")}
WHEELS = {"single-piece": saying("single-piece wheel"), "multi-piece": saying("multi-piece wheel")}
GROSS_MASS = "12000 kg"  # a heavy vehicle wherever the law asks
SIZES = ("11R22.5", "295/75R22.5", "275/80R22.5", "285/75R24.5")


def in_service(
    draft: Draft, *, size: str, axle: str, depth: str, dual: bool = False, mate: dict[str, str] | None = None
) -> tuple[dict[str, Any], Decision]:
    """The case of one truck tire that was looked over with nothing found, and the decision on leaving it in service."""
    data = looked_over(draft, size=size, axle=axle, depth=depth, dual=dual, mate=mate)
    return data, draft.decide(draft.case(data))


def looked_over(
    draft: Draft, *, size: str, axle: str, depth: str, dual: bool = False, mate: dict[str, str] | None = None
) -> dict[str, Any]:
    """The case of one truck tire in service that was looked over with nothing found."""
    data: dict[str, Any] = {
        "edition": draft.edition.name,
        "on": draft.edition.in_force_from.isoformat(),
        "purpose": "service",
        "tire": {"designation": size, "casing": "truck"},
        "position": {"vehicle": "truck", "axle": axle, "dual": dual, "wheel": "single-piece"},
        "on_wheel": False,
        "tread_depths": [depth],
        "injuries": [],
        "findings": dict.fromkeys(FINDINGS, False),
        "earlier_repairs": [],
    }
    if mate is not None:
        data["dual_mate"] = mate
    return data


def tread_clause(draft: Draft, model: Model, where: dict[str, Any]) -> Clause:
    """Of the clauses on tread that count for a tire in its place on the vehicle, the strictest."""
    bare = draft.case(looked_at(model, draft.edition, depth="0 mm", purpose="service", **where))
    failed = (draft.edition.clauses.get(ruling.clause) for ruling in draft.decide(bare).rulings if not ruling.holds)
    counted = [clause for clause in failed if clause is not None and clause.quantity.startswith("tread.")]
    return max(counted, key=lambda clause: (edge_mm(clause)[1], clause.id))

"""A case out of what the form holds, and the field that each place of it came from."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from training.forms.tire_fields import meanings
from training.forms.tire_parts import (
    ANSWERS,
    DEPTHS,
    INJURY,
    INJURY_ROWS,
    POSITION,
    REPAIR,
    REPAIR_ROWS,
    TIRE,
    Part,
    finding_name,
    lean_name,
)
from training.trade.speech import say


@dataclass
class CaseTyped:
    """A case as data: `where` tells the field of each place of it, `contradictions` what was said both ways, by field.

    `labels` are the labels of the fields that say that none is there.
    """

    edition: str
    today: date
    labels: Mapping[str, str]
    case: dict[str, Any] = field(default_factory=dict)
    where: dict[str, str] = field(default_factory=dict)
    contradictions: dict[str, str] = field(default_factory=dict)

    def read(self, data: Mapping[str, Any]) -> None:
        """Take what the form has cleaned; empty fields were not examined."""
        self.case = {"edition": self.edition, "on": (data.get("on") or self.today).isoformat()}
        self.where = {"on": "on", "tire": "casing"} | {part.path: part.name for part in (*TIRE, *POSITION)}
        for part in (*TIRE, *POSITION):
            value = data.get(part.name)
            self._put(self.case, part.path, ANSWERS[value] if part.flags and value else value, part.name)
        for name, key, rows, parts, prefix in (
            ("injuries", "injuries", INJURY_ROWS, INJURY, "injury"),
            ("repairs", "earlier_repairs", REPAIR_ROWS, REPAIR, "repair"),
        ):
            case_rows = self._rows(data, key, rows, parts, prefix)
            if case_rows and data.get(name) == "none":
                self.contradictions[name] = say(
                    "{label}: you say that there is none, and give one below; empty one of the two.",
                    label=self.labels[name],
                )
            if case_rows or data.get(name) == "none":
                self.case[key] = case_rows
        findings = {}
        for slug in meanings()["findings"]:
            if answer := data.get(finding_name(slug)):
                findings[slug] = ANSWERS[answer]
                self.where[f"findings.{slug}"] = finding_name(slug)
        if findings:
            self.case["findings"] = findings
        if depths := self._depths(data):
            self.case["tread_depths"] = depths
        self._put(self.case, "proposed", data.get("proposed"), "proposed")

    def field_at(self, path: str) -> str | None:
        """The field from which a place of the case came, or the place above it; None where no field did."""
        while path:
            if path in self.where:
                return self.where[path]
            cut = max(path.rfind("."), path.rfind("["))
            path = path[:cut] if cut > 0 else ""
        return None

    def _rows(
        self, data: Mapping[str, Any], key: str, rows: tuple[str, ...], parts: tuple[Part, ...], prefix: str
    ) -> list[dict[str, Any]]:
        found: list[dict[str, Any]] = []
        for row in rows:
            entry: dict[str, Any] = {}
            where = f"{key}[{len(found)}]"
            for part in parts:
                name = f"{prefix}_{row}_{part.name}"
                self._put(entry, part.path, data.get(name), name, at=f"{where}.")
            if prefix == "injury":
                self._lean(entry, data, row, where)
            if not entry:
                continue
            if "sound" in entry:
                entry["sound"] = ANSWERS[entry["sound"]]
            self.where[where] = f"{prefix}_{row}_kind"
            for side in ("length", "width"):  # a unit with one side only: the problem belongs to the other
                self.where.setdefault(f"{where}.unit.{side}", f"{prefix}_{row}_unit_{side}")
            found.append({"id": row, **entry})
        return found

    def _lean(self, entry: dict[str, Any], data: Mapping[str, Any], row: str, where: str) -> None:
        """Toward which side the channel runs, from the words inward and outward and the side it lies on."""
        leans, name = data.get(lean_name(row)), lean_name(row)
        if not leans:
            return
        if "azimuth" in entry:
            self.contradictions[name] = say("Lean: a side and a direction in degrees are given; give one of them.")
        elif "lateral" in entry:
            is_toward_plus = (leans == "out") != str(entry["lateral"]).startswith("-")
            self._put(entry, "azimuth", "0 deg" if is_toward_plus else "180 deg", name, at=f"{where}.")

    def _depths(self, data: Mapping[str, Any]) -> list[Any]:
        grooves = [data.get(part.name) or [] for part in DEPTHS]
        readings: list[Any] = []
        for groove, texts in enumerate(grooves, 1):
            for place, depth in enumerate(texts):
                self.where[f"tread_depths[{len(readings)}]"] = f"depths_{groove}"
                if grooves[1]:
                    station = f"{360 * place // len(texts)} deg"  # equally spaced, as the codes measure
                    readings.append({"groove": groove, "station": station, "depth": depth})
                else:
                    readings.append(depth)
        return readings

    def _put(self, case: dict[str, Any], path: str, value: Any, name: str, *, at: str = "") -> None:
        if value is None or value == "":
            return
        *groups, last = path.split(".")
        target = case
        for group in groups:
            target = target.setdefault(group, {})
        target[last] = value
        self.where[at + path] = name

"""The published tables of loads and speeds, as they stand in the files beside this one."""

import csv
from fractions import Fraction
from pathlib import Path

PUBLISHED = Path(__file__).parent
# UN Regulation No. 30 / No. 54: load-capacity index table and speed category table.
LOADS = {
    int(row["load_index"]): Fraction(row["max_load_kg"])
    for row in csv.DictReader((PUBLISHED / "load_index.csv").open(encoding="utf-8"))
}
SPEEDS = {
    row["symbol"]: int(row["km_h"])
    for row in csv.DictReader((PUBLISHED / "speed_symbols.csv").open(encoding="utf-8"))
    if row["km_h"].isdigit()
}

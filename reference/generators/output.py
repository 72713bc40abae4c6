"""Writes the tables that the generators make."""

import csv
import sys
from pathlib import Path

ROW_COLUMNS = ("id", "quantity", "inputs", "role", "value", "unit", "tolerance", "tag", "seen")


def folder():
    """The folder named as the first argument, else `reference/`."""
    if len(sys.argv) > 1:
        return Path(sys.argv[1])
    return Path(__file__).resolve().parent.parent


def write_table(name, columns, rows):
    """Writes `name`.csv; every row has one cell for each column."""
    path = folder() / f"{name}.csv"
    with path.open("w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(columns)
        for row in rows:
            assert len(row) == len(columns), (name, row)
            writer.writerow(row)


def digits(value, count):
    """`value` with `count` significant digits, trailing zeros dropped."""
    return f"{value:.{count}g}"

"""Compares freshly generated tables with the committed ones.

Text has to be the same. Numbers may differ by one unit in the last digit printed, because
libraries of linear algebra differ between machines.
"""

import re
import sys
from decimal import Decimal
from pathlib import Path

NUMBER = re.compile(r"(?<![\w.])-?\d+(?:\.\d+)?(?:[eE][+-]?\d+)?(?![\w.])")


def unit(text):
    """One unit in the last digit of a number as printed."""
    return Decimal(1).scaleb(Decimal(text).as_tuple().exponent)


def line_differs(old, new):
    if NUMBER.sub("#", old) != NUMBER.sub("#", new):
        return True
    for a, b in zip(NUMBER.findall(old), NUMBER.findall(new), strict=True):
        if abs(Decimal(a) - Decimal(b)) > max(unit(a), unit(b)):
            return True
    return False


def file_differences(committed, fresh):
    old = committed.read_text(encoding="utf-8").splitlines()
    new = fresh.read_text(encoding="utf-8").splitlines()
    if len(old) != len(new):
        yield f"{committed.name}: {len(old)} lines committed, {len(new)} generated"
    for number, (a, b) in enumerate(zip(old, new), start=1):
        if line_differs(a, b):
            yield f"{committed.name} line {number}:\n  committed {a}\n  generated {b}"


def main():
    committed, fresh = Path(sys.argv[1]), Path(sys.argv[2])
    found = []
    files = sorted(fresh.iterdir())
    for path in files:
        target = committed / path.name
        if target.exists():
            found += file_differences(target, path)
        else:
            found.append(f"{path.name}: generated but not committed")
    for line in found:
        print(line)
    print(f"{len(files)} files compared, {len(found)} differences")
    return 1 if found or not files else 0


if __name__ == "__main__":
    sys.exit(main())

"""``python -m tests.forms``: the share of forms read, by section, and the list of those that are not."""

from __future__ import annotations

import argparse
from collections import Counter

from .gaps import known_gaps, write_gaps
from .reading import outcome
from .table import all_forms


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.forms", description=__doc__)
    parser.add_argument("--only", default="", help="a section or number: H, H215")
    parser.add_argument("--keep", action="store_true", help="write gaps.tsv anew, with the reasons that stand in it")
    arguments = parser.parse_args()
    outcomes = [outcome(form) for form in all_forms() if form.number.startswith(arguments.only)]
    total = Counter(one.form.section for one in outcomes)
    read = Counter(one.form.section for one in outcomes if one.read)
    gaps = known_gaps()
    for one in outcomes:
        if not one.read:
            reason = gaps.get(one.form.name, "NEW")
            print(f"{one.form.name}\n    {'; '.join(one.wrong)}\n    ({reason})")
    print()
    for section in total:
        print(f"{section}  {read[section]:4} of {total[section]:4}  {read[section] / total[section]:7.1%}")
    print(f"   {read.total():4} of {total.total():4}  {read.total() / total.total():7.1%}")
    if arguments.keep:
        write_gaps([one for one in outcomes if not one.read])


if __name__ == "__main__":
    main()

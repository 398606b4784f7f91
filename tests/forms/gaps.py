"""The known gaps: forms that are not read as the table says, each with the reason. They may only become fewer."""

from __future__ import annotations

from .reading import Outcome
from .table import FOLDER

PATH = FOLDER / "gaps.txt"
WITHOUT_REASON = "not yet read"


def known_gaps() -> dict[str, str]:
    """The reason of every known gap, by the name of its form."""
    if not PATH.exists():
        return {}
    lines = PATH.read_text(encoding="utf-8").splitlines()
    pairs = [line.split("\t") for line in lines if line and not line.startswith("//")]
    return {name: reason for name, reason in pairs}


def write_gaps(outcomes: list[Outcome]) -> None:
    """Write the list anew. A reason that stands is kept."""
    reasons = known_gaps()
    head = ["// Forms that are not read as their table says, and why. `python -m tests.forms --keep` writes it anew."]
    rows = [f"{one.form.name}\t{reasons.get(one.form.name, WITHOUT_REASON)}" for one in outcomes]
    PATH.write_text("\n".join([*head, *rows]) + "\n", encoding="utf-8")

"""What kind of line a written line is, and what can be said of it without counting."""

from __future__ import annotations

from .. import late_re as re
from ..language import syntax
from .numbered import covered
from .places import consumes

_WORD = re.compile(r"[a-z]+")


def is_counted(line: syntax.RoundLine) -> bool:
    if line.kind in ("round", "foundation"):
        return True
    return any(consumes(step) and not isinstance(step, syntax.Trust) for step in line.steps or ())


def kind_of(line: syntax.RoundLine) -> str:
    if line.label is not None:
        return line.label.kind
    return line.kind if line.kind in ("foundation", "step") else "round"


def states_count(line: syntax.RoundLine) -> bool:
    stated = line.stated
    return bool(stated) and (stated[0].form != "unknown" or len(stated) > 1)


def highest_number(line: syntax.RoundLine) -> int:
    label = line.label
    return max((max(stretch) for stretch in label.numbers), default=0) if label is not None else 0


def stated_total(line: syntax.RoundLine, size: int) -> int | None:
    """The stated count of stitches as written, without looking at the instruction."""
    if not line.stated:
        return None
    stated = line.stated[-1]
    numbers = [stated.number] if stated.number is not None else []
    if stated.form == "sum" and len(stated.parts) > 1:
        numbers = [part.number for part in stated.parts]
    if not numbers and stated.form in ("kinds", "sum"):
        numbers = [part.number for part in stated.parts if not (part.kind in ("chain", "group") or part.kind.startswith("space"))]
    if not numbers or stated.form in ("about", "unknown", "change"):
        return None
    total = 0
    for number in numbers:
        value = number.values[size if size < len(number.values) else 0]
        if value is None:
            return None
        total += value
    return total


def not_in_this_size(line: syntax.RoundLine, size: int) -> bool:
    """A dash for the count or the last of the rounds, or words that name other sizes: not worked in this size."""
    if line.only is not None and size not in line.only or not covered(line, size):
        return True
    for stated in line.stated:
        number = stated.number
        if number is not None and len(number.values) > size and number.values[size] is None:
            return True
    return False


def only_makes_chains(line: syntax.RoundLine) -> bool:
    """Chains or a ring, and nothing worked into them."""
    steps = line.steps or ()
    for step in steps:
        if type(step) is syntax.Chain or type(step) is syntax.Ring:
            break
    else:
        return False
    return not any(consumes(step) and not _closes(step, line) for step in steps) and (line.kind == "foundation" or any(isinstance(step, syntax.Ring) for step in steps) or line.label is not None)


def _closes(step: syntax.Step, line: syntax.RoundLine) -> bool:
    """A slip stitch that may close a ring of chains; "Row 3: ch 1, sl st across" works a whole row of them."""
    if not (isinstance(step, syntax.Work) and step.stitch.kind == "slip"):
        return False
    return line.label is None or not line.label.numbers or step.place is None or step.place.kind not in ("rest", "to_last")


def starts_anew(line: syntax.RoundLine) -> bool:
    """A line with a ring, a chain or foundation stitches of its own."""
    for step in line.steps or ():
        if isinstance(step, syntax.Ring):
            return True
        if isinstance(step, syntax.Work):
            place = step.place
            return step.stitch.kind == "foundation" or place is not None and place.kind in ("ring", "piece")
        if isinstance(step, syntax.Chain) and line.kind == "foundation":
            return True
        if isinstance(step, (syntax.Group, syntax.Repeat)):
            return False
    return False


def bridges(line: syntax.RoundLine) -> bool:
    """"Ch 3 from the second leg and join with a sc.": chains to another piece, a line before the round that works them."""
    steps = line.steps or ()
    return any(isinstance(step, syntax.Chain) for step in steps) and any(
        isinstance(step, (syntax.Join, syntax.Aside)) and step.reference is not None and not step.reference.rounds for step in steps
    )


def joined_loops(line: syntax.RoundLine) -> syntax.Place | None:
    """"Join yarn in the free front loops of Rnd 2": the stitches that follow go into those loops."""
    for step in line.steps or ():
        if type(step) is syntax.Work:
            return None
        if isinstance(step, syntax.Join) and step.reference is not None and step.reference.rounds:
            words = set(_WORD.findall(line.statement.text[step.start : step.end].lower()))
            if not words & {"loop", "loops", "lp", "lps", "flo", "blo", "fl", "bl"}:
                return None
            reference = step.reference
            if not reference.side:
                front, back = words & {"front", "flo", "fl"}, words & {"back", "blo", "bl"}
                reference.side = "front" if front else "back" if back else ""
            return syntax.Place(step.start, step.end, "loops", reference=reference)
        if consumes(step):
            return None
    return None

"""What a maker is told: one or two plain sentences for each slip of counting."""

from __future__ import annotations

from ..language import syntax
from .judge import Outcome
from .working import Working

_WORDS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"]
_NOUNS = {"round": ("round", "rounds"), "row": ("row", "rows")}


def number_word(number: int) -> str:
    """Small numbers in words."""
    return _WORDS[number] if 0 <= number < len(_WORDS) else str(number)


def stitches(number: int, noun: str = "stitch") -> str:
    """"1 stitch", "12 stitches", "3 chain spaces"."""
    if number == 1:
        return f"1 {noun}"
    return f"{number} {noun}{'es' if noun.endswith('ch') else 's'}"


def name_of(line: syntax.RoundLine) -> str:
    """What a line is called."""
    if line.label is not None:
        return line.label.text.rstrip(" :.")
    return "The foundation" if line.kind == "foundation" else "This step"


def plural(line: syntax.RoundLine) -> bool:
    """Whether the line's name is a plural: "Rnds 5-7"."""
    label = line.label
    return label is not None and bool(label.numbers) and (
        len(label.numbers) > 1 or label.numbers[0][0] + (line.unwritten is not None) != label.numbers[0][1]
    )


def verb(line: syntax.RoundLine, one: str, many: str) -> str:
    return many if plural(line) else one


def round_noun(line: syntax.RoundLine, number: int) -> str:
    """"round" or "row", in the singular or plural."""
    singular, several = _NOUNS.get(line.label.kind if line.label is not None else "round", _NOUNS["round"])
    return singular if number == 1 else several


def nth_name(line: syntax.RoundLine, offset: int) -> str:
    """The name of the *offset*-th round (from 0) of a line: "Rnd 6" of "Rnds 5-7"."""
    label = line.label
    if label is None or not label.numbers:
        return name_of(line)
    number = label.numbers[0][0]
    rest = offset
    for first, last in label.numbers:
        if rest <= abs(last - first):
            number = min(first, last) + rest
            break
        rest -= abs(last - first) + 1
    word = "Row" if label.kind == "row" else "Rnd"
    written = label.text.split()[0] if label.text.split() else word
    singular = written.rstrip("s.:") if written.rstrip("s.:").isalpha() else word
    return f"{singular} {number}"


def does_not_fit(line: syntax.RoundLine, outcome: Outcome) -> tuple[str, str]:
    """The rule and the message for a round that does not use up what there is."""
    w, at = outcome.last, outcome.stuck or 0
    name = nth_name(line, at) if outcome.rounds > 1 and at else name_of(line)
    many = not at and plural(line)
    edge = outcome.stuck_edge
    noun = "chain" if edge is not None and edge.kind == "chain" else "stitch"
    if w.mismatch is not None:
        _, number, there = w.mismatch
        return "join-mismatch", f"{name} joins over {stitches(number)}, but the other piece has {there}."
    if w.astray is not None:
        came, lies = w.astray
        rule = "stitches-left-over" if came < lies else "stitches-run-out"
        return rule, f"{name} comes to the opening after {stitches(came)}, but it lies behind the first {lies}."
    if w.own_off is not None:
        used, there = w.own_off
        if used > there:
            return "stitches-run-out", f"{name} {'need' if many else 'needs'} {used} of the {there} places along the chain that it makes: {_are(used - there)} missing."
        return "stitches-left-over", f"{name} {'work' if many else 'works'} {used} of the {there} places along the chain that it makes: {_are(there - used)} left over."
    if w.remainder is not None:
        return "repeat-does-not-fit", _remainder(name, many, w, noun)
    rule_noun, left, used = noun, w.left, w.tally.used
    if not left:
        rule_noun, left, used = "chain space", w.spaces, w.tally.used_spaces
    available = left + used
    if w.joined:
        rule = "join-mismatch"
        if left > 0:
            return rule, f"{name} works into {used} of {stitches(available)} of the pieces joined: {_are(left)} left over."
        return rule, f"{name} needs {stitches(used)}, but the pieces joined have {available}."
    if left > 0:
        works = "work" if many else "works"
        return "stitches-left-over", f"{name} {works} into {used} of {stitches(available, rule_noun)}: {_are(left)} left over."
    needs = "need" if many else "needs"
    return "stitches-run-out", f"{name} {needs} {used} of {stitches(available, rule_noun)}: {_are(-left)} missing."


def _are(number: int) -> str:
    return f"{number} {'is' if number == 1 else 'are'}"


def _remainder(name: str, many: bool, w: Working, noun: str) -> str:
    remainder = w.remainder
    assert remainder is not None
    works = "work" if many else "works"
    noun = "chain space" if remainder.spaces else noun
    there = remainder.available
    kept = f" before the last {remainder.last}" if remainder.last else ""
    filled = max(there - remainder.last, 0)
    remain = f"{remainder.over} {'remains' if remainder.over == 1 else 'remain'}"
    if not remainder.each:
        return f"{name} repeats something that uses no {noun}, so {remain} of {stitches(filled, noun)}."
    return f"{name} {works} in groups of {remainder.each}, which do not fill {stitches(filled, noun)}{kept}: {remain}."


def uses_and_makes(outcome: Outcome) -> str:
    """What stands under the marks of the instruction."""
    w = outcome.last
    noun = "chain" if outcome.before is not None and outcome.before.kind == "chain" else "stitch"
    if w.in_ring or not w.tally.used:
        return f"makes {w.tally.made}"
    return f"works into {stitches(w.tally.used, noun)} and makes {w.tally.made}"


def wrong_count(line: syntax.RoundLine, outcome: Outcome) -> str:
    """The message for a count that the instruction does not make."""
    verdict = outcome.verdict
    name, makes = name_of(line), verb(line, "makes", "make")
    if verdict.part is not None and verdict.part.size is not None and verdict.number is verdict.part.size:
        return f"{name} {makes} groups of {stitches(verdict.actual)}; you wrote groups of {_written(verdict.number)}."
    if verdict.part is not None:
        return f"{name} {makes} {_kind(verdict.part, verdict.actual)}; you wrote {_written(verdict.number)}."
    if outcome.wrong_each is not None:
        at = nth_name(line, outcome.wrong_each)
        return f"{at} makes {stitches(_made_at(outcome))}; you wrote {verdict.total}."
    made = stitches(outcome.makes)
    if verdict.change is not None and outcome.before is not None:
        return f"{name} {makes} {made}, a change of {outcome.makes - outcome.before.stitches:+d}; you wrote {verdict.change:+d}."
    if outcome.rounds > 1 and not outcome.each and line.unwritten is None:
        rounds = f"in each of the {number_word(outcome.rounds)} {round_noun(line, outcome.rounds)}"
        return f"{name} {makes} {made} {rounds}; you wrote {verdict.total}."
    if outcome.rounds > 1 and line.unwritten is None:
        return f"{name} {makes} {made} at the end; you wrote {verdict.total}."
    edge = outcome.before
    if edge is not None and edge.kind == "chain" and outcome.last.side == 1:
        return f"{name} {makes} {made}; you wrote {verdict.total}. A chain of {edge.stitches} gives {outcome.makes}."
    return f"{name} {makes} {made}; you wrote {verdict.total}."


def _made_at(outcome: Outcome) -> int:
    at = outcome.wrong_each or 0
    return outcome.each[at][1] if at < len(outcome.each) else outcome.makes


def _kind(part: syntax.KindCount, number: int) -> str:
    kind = part.kind
    if kind in ("", "stitch"):
        return stitches(number)
    if kind in ("chain", "ch"):
        return stitches(number, "chain")
    if kind.startswith("space"):
        length = kind[5:].strip(" -")
        return stitches(number, f"ch-{length} space" if length else "chain space")
    return f"{number} {kind}" if kind in ("sc", "hdc", "dc", "tr") else stitches(number, kind)


def _written(number: syntax.Number | None) -> str:
    return str(number.value) if number is not None else "another number"


def range_changes(line: syntax.RoundLine, outcome: Outcome) -> str:
    """The message for a shaping round given as a range."""
    first = nth_name(line, 0)
    made = outcome.first.tally.made
    at = outcome.stuck
    shaping = "increase" if made > outcome.first.tally.used else "decrease"
    if at is None:
        return (
            f"{first} makes {made}, as the count says, but the count goes on changing: {nth_name(line, outcome.rounds - 1)} "
            f"makes {outcome.makes}."
        )
    later = _later(line, at, outcome.rounds)
    w = outcome.last
    if w.remainder is not None:
        rest = f"leave {w.remainder.over} over"
    else:
        rest = f"leave {w.left} over" if w.left > 0 else f"need {-w.left} more"
    return f"{first} makes {made}; {later} would then {rest}. This {shaping} is for one {round_noun(line, 1)} only."


def _later(line: syntax.RoundLine, at: int, rounds: int) -> str:
    names = [nth_name(line, offset) for offset in range(at, min(rounds, at + 3))]
    if rounds - at == 1:
        return names[0]
    word, first = names[0].rsplit(" ", 1)
    if rounds - at == 2:
        return f"{word}s {first} and {names[1].split()[-1]}"
    return f"{word}s {first} to {nth_name(line, rounds - 1).split()[-1]}"

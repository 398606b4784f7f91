"""Pages made to take long or to break something: each is a page of one slip blown up beyond all measure.

``python -m tests.bombs`` runs every command and renderer on all of them, with bounds on time and memory, and prints the slow ones.
"""

from __future__ import annotations

import argparse
import os
import resource
import sys
import time

RING = "Rnd 1: 6 sc in magic ring (6)\n"


def block(body: str) -> str:
    """A body in a pattern block."""
    return f"```crochet\n{body}\n```\n"


def _rounds(number: int, words: str = "sc around (6)") -> str:
    return "\n".join(f"Rnd {n}: {words}" for n in range(2, number + 2))


def _nested(depth: int) -> str:
    return block(f"{RING}Rnd 2: {'(' * depth}sc{')' * depth} (6)\nRnd 3: sc around (6)")


def _sizes(number: int) -> str:
    names = ", ".join(f"S{n}" for n in range(1, number))
    counts = ", ".join(str(6 + n) for n in range(1, number))
    return block(f"Sizes: S0 ({names})\nRnd 1: 6 ({counts}) sc in magic ring\nRnd 2: sc around (6 ({counts}))")


def _at_depth(mark: str, depth: int) -> str:
    return mark * depth + "```crochet\n" + "".join(f"{mark * depth}{line}\n" for line in (RING.strip(), "Rnd 2: inc x 6 (13)", "```"))


def bombs(size: float = 1.0) -> dict[str, str]:
    """All of them; with a *size* below 1 those that are long are so much shorter."""

    def n(number: int) -> int:
        return max(1, int(number * size))

    return {
        "a number of 10^18": block(f"{RING}Rnd 2: sc {10**18} ({10**18})\nRnd 3: (sc, inc) x {10**18} (9)\nRnds 4-{10**18}: sc around"),
        "sizes of 10^18": block(f"Gauge: {10**18} sc x {10**18} rnds = {10**18} cm\nYarn: light (3), {10**18} g = {10**18} m\nHook: {10**18} mm\n{RING}"),
        "nested 100,000 deep": _nested(n(100_000)),
        "nested 4,000 deep": _nested(n(4_000)),
        "nested 60 deep": _nested(60),
        "curly and square, nested": block(f"{RING}Rnd 2: {'[(' * 30}sc{')]' * 30} (6)\n" * 20),
        "nested repeats": block(f"{RING}Rnd 2: {'(' * 50}sc{') x 9' * 50} (6)\nRnd 3: sc around"),
        "doubling 60 times": block(RING + "\n".join(f"Rnd {at}: inc around" for at in range(2, 62))),
        "a million rounds": block(f"{RING}Rnds 2-1000000: sc around (6)"),
        "a million rounds that change": block(f"{RING}Rnds 2-1000000: inc, sc to end"),
        "a million rounds said by reference": block(f"{RING}Rnd 2: sc around (6)\nRep Rnds 1-2 500000 times"),
        "references upon references": block(RING + "".join(f"Rnds {3 ** at + 1}-{3 ** (at + 1)}: Rep Rnds 1-{3 ** at} twice\n" for at in range(1, 13))),
        "10,000 rounds written out": block(RING + _rounds(n(10_000))),
        "3,000 wrong rounds": block(RING + _rounds(n(3_000), "(sc, inc) x 3 (7)")),
        "a list of 10,000 sizes": _sizes(n(10_000)),
        "a list of 60 sizes": _sizes(60),
        "10,000 findings": block(RING + "\n".join(f"Rnd {at}: sc, qxz in next st (6)" for at in range(2, n(10_002)))),
        "10,000 lines that are nothing": block(RING + "\n".join(f"Xqz {at} blorp" for at in range(n(10_000)))),
        "a header line of 1 MB": block("Notes: " + "word " * n(200_000) + "\n" + RING),
        "a header of 1 MB": block("\n".join(f"Color C{at}: red, shown as #ff0000, {at} g" for at in range(n(25_000))) + "\n" + RING),
        "a header of unknown lines": block("\n".join(f"Zork{chr(97 + at % 26)}: {at}" for at in range(n(20_000))) + "\n" + RING),
        "a title of 1 MB": block("Title: " + "seal " * n(200_000) + "\n" + RING),
        "a piece's name of 1 MB": block(f"# {'Body ' * n(200_000)}\n{RING}"),
        "a note of 1 MB": block(f"{RING}> {'word ' * n(200_000)}\n>> {'word ' * n(200_000)}"),
        "100,000 fences": "```\n" * n(100_000),
        "100,000 pattern fences": "```crochet\n" * n(100_000),
        "5,000 pattern blocks": "".join(block(f"# Part {at}\n{RING}") + "\n" for at in range(n(5_000))),
        "10,000 pieces": block("\n".join(f"# Part {at}\n{RING}" for at in range(n(10_000)))),
        "quotes around a fence": _at_depth("> ", n(20_000)),
        "lists around a fence": _at_depth("- ", n(20_000)),
        "indented around a fence": _at_depth("    ", n(20_000)),
        "quotes and lists around a fence": _at_depth("> - ", n(10_000)),
        "a fence of 1 MB of marks": "`" * n(1_000_000) + "crochet\n" + RING + "`" * n(1_000_000),
        "fence attributes of 1 MB": "```crochet " + 'a="b" ' * n(160_000) + "\n" + RING + "```\n",
        "fence attributes in braces of 1 MB": "``` {.crochet " + "." * n(500_000) + "}\n" + RING + "```\n",
        "an HTML comment without end": "<!-- " * n(100_000) + block(RING),
        "tags without end": "<div " * n(100_000) + "\n" + block(RING),
        "backticks without end": "`" * n(99_999) + " x\n" + "` " * n(50_000) + block(RING),
        "a step of 5,000 words": block(f"{RING}Sew the ears {'and the eyes ' * n(5_000)}on."),
        "special stitches that define each other": block(
        "\n".join(f"Special stitch: st{chr(97 + at % 26)}{chr(97 + at // 26)} = st{chr(97 + (at + 1) % 26)}{chr(97 + (at + 1) // 26)}; uses 1, makes 1" for at in range(600)) + "\n" + RING
    ),
        "1,000 abbreviations": block("Abbreviations: " + "; ".join(f"q{chr(97 + at % 26)}{chr(97 + at // 26)} = word{at}" for at in range(600)) + "\n" + RING),
        "stars without end": block(f"{RING}Rnd 2: {'*sc, ' * n(2_000)}rep from * around (6)\nRnd 3: sc around"),
        "combining marks": block(f"# Body {'e' + chr(0x301) * n(200_000)}\n{RING}"),
        "plain rounds in prose": "".join(f"Rnd {at}: sc around (6)\n\n" for at in range(n(5_000))),
        "plain rounds in one paragraph": "Rnd 1: 6 sc in magic ring (6) " + " ".join(f"Rnd {at}: sc around (6)" for at in range(2, n(5_000))),
        "loose chains": block("Ch 1000000.\nRow 1: sc in 2nd ch from hook and in each ch across (999999)\nRow 2: ch 1, turn, (dc, ch 5, sk 1) across"),
        "a large lace": block("Rnd 1: ch 4, join, 12 dc in ring (12)\n" + "\n".join(f"Rnd {at}: (dc, ch {at}) in each st around" for at in range(2, 300))),
        "films of ages": block(RING + "\n".join(f"Rnd {at}: sc around (6) @ {at}:00:00" for at in range(2, n(3_000)))),
    }  # fmt: skip


def main() -> int:
    """Print what takes more than two seconds, 400 MB, or ends otherwise than it should. Returns 1 where one does not end."""
    from .everything import WAYS

    options = argparse.ArgumentParser(prog="python -m tests.bombs", description=__doc__)
    options.add_argument("names", nargs="*", help="some of them")
    options.add_argument("--seconds", type=int, default=60, help="of CPU time for each")
    chosen = options.parse_args()
    failed = 0
    for name, text in bombs().items():
        if chosen.names and name not in chosen.names:
            continue
        for way, work in WAYS.items():
            child = os.fork()
            if child == 0:
                resource.setrlimit(resource.RLIMIT_CPU, (chosen.seconds, chosen.seconds + 2))
                resource.setrlimit(resource.RLIMIT_AS, (3 << 30, 3 << 30))
                started, said = time.process_time(), ""
                try:
                    work(text, "page.md")
                except BaseException as error:  # noqa: BLE001 - whatever it is, it is told
                    said = f"{type(error).__name__} {str(error)[:100]}"
                took, most = time.process_time() - started, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
                if said or took > 2 or most > 400:
                    print(f"{name} | {way}: {took:.1f} s, {most} MB, {len(text):,} characters {said}", flush=True)
                os._exit(bool(said))
            ended = os.waitpid(child, 0)[1]
            failed += ended != 0
            if os.WIFSIGNALED(ended):
                print(f"{name} | {way}: does not end", flush=True)
    print(f"{failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())

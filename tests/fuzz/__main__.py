"""``python -m tests.fuzz --minutes 10 check``: fuzz targets, guided by the branches that a text reaches.

It needs atheris, which is not among the tests' packages: ``pip install atheris``. It goes on after a failure; each kind
is told once, and its text kept in the folder. ``--file`` runs such a text again. What fails becomes a case or a test by hand.
"""

from __future__ import annotations

import argparse
import re
import subprocess
import sys
import tempfile
import traceback
from pathlib import Path

from .seeds import seeds, words

MOST_BYTES = 4000


def main() -> int:
    """Fuzz one target after the other. Returns 1 where anything failed."""
    options = argparse.ArgumentParser(prog="python -m tests.fuzz", description=__doc__)
    options.add_argument("targets", nargs="+", help="tokens, header, fences, rounds, check, everything")
    options.add_argument("--minutes", type=float, default=10, help="for each target")
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--folder", help="where texts that reach further and those that fail are kept")
    options.add_argument("--file", help="run the target on this file only")
    options.add_argument("--alone", action="store_true", help=argparse.SUPPRESS)  # one target, in this process
    chosen = options.parse_args()
    if chosen.file:
        from .targets import TARGETS

        TARGETS[chosen.targets[0]](_text(Path(chosen.file).read_bytes()))
        return 0
    folder = Path(chosen.folder or tempfile.mkdtemp(prefix="fuzz-"))
    if chosen.alone:
        _fuzz(chosen.targets[0], chosen.minutes, chosen.seed, folder)
    failed = 0
    for target in chosen.targets:
        command = [sys.executable, "-m", "tests.fuzz", target, "--minutes", str(chosen.minutes), "--seed", str(chosen.seed)]
        ended = subprocess.run([*command, "--folder", str(folder), "--alone"], check=False).returncode
        kinds = ("failed-{}-*", "{}-crash-*", "{}-timeout-*", "{}-oom-*")
        found = [path for kind in kinds for path in sorted(folder.glob(kind.format(target)))]
        print(f"{target}: {len(found)} failures" + "".join(f"\n  {path}" for path in found))
        failed += bool(found or ended)
    return 1 if failed else 0


def _text(data: bytes) -> str:
    return data.decode("utf-8", "replace")


def _fuzz(target: str, minutes: float, seed: int, folder: Path) -> None:
    """Fuzz *target* and end the process. What libFuzzer itself stops at (a hang, memory) lies beside its corpus."""
    import atheris

    corpus = folder / "corpus" / target
    corpus.mkdir(parents=True, exist_ok=True)
    for number, text in enumerate(seeds(target, seed)):
        (corpus / f"seed-{seed}-{number}").write_text(text, encoding="utf-8")
    dictionary = folder / "words.txt"
    dictionary.write_text("".join(f'"{_escaped(word)}"\n' for word in words()), encoding="ascii")
    for name in [name for name in sys.modules if name.startswith("mkdocs_stitchcheck")]:
        del sys.modules[name]  # what is read again is read with its branches watched
    with atheris.instrument_imports(include=["mkdocs_stitchcheck"]):
        from .targets import TARGETS
    known: set[str] = set()

    def one(data: bytes) -> None:
        try:
            TARGETS[target](_text(data))
        except Exception as error:  # noqa: BLE001 - whatever it is, it is a failure to keep
            last = traceback.extract_tb(error.__traceback__)[-1]
            kind = re.sub(r"\d+", "0", f"{type(error).__name__} {Path(last.filename).name} {last.name} {str(error)[:80]}")
            if kind not in known:
                known.add(kind)
                (folder / f"failed-{target}-{seed}-{len(known)}").write_bytes(data)
                print(f"FAILED {kind}", flush=True)
                traceback.print_exception(error)

    atheris.Setup(
        [
            "fuzz", f"-max_total_time={int(minutes * 60)}", f"-max_len={MOST_BYTES}", f"-seed={seed}", f"-dict={dictionary}",
            f"-artifact_prefix={folder}/{target}-", "-timeout=60", "-rss_limit_mb=2000", "-print_final_stats=1", str(corpus),
        ],
        one,
    )  # fmt: skip
    atheris.Fuzz()


def _escaped(word: str) -> str:
    return "".join(f"\\x{byte:02x}" for byte in word.encode())


if __name__ == "__main__":
    sys.exit(main())

"""The commands and options of the command line as data: help, completion and parser are made from it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from ..report import FORMATS

Option = tuple[tuple[str, ...], dict[str, Any]]


@dataclass(frozen=True, slots=True)
class Command:
    """A command: its line in the list, what its own help says first and last, and its options."""

    help: str
    options: tuple[Option, ...]
    about: str = ""
    more: str = ""


_CONFIG_FILE: Option = (
    ("--config-file",),
    {
        "metavar": "FILE",
        "help": "read the settings from this mkdocs.yml or pyproject.toml, not from the nearest pyproject.toml",
    },
)
_COLOR: Option = (
    ("--color",),
    {
        "choices": ("auto", "always", "never"),
        "default": "auto",
        "help": "colours (auto: on a terminal; NO_COLOR is heeded)",
    },
)

_FORMAT_LIST = "\n".join(f"  {name:<7} {about}" for name, about in FORMATS.items())

COMMANDS: dict[str, Command] = {
    "check": Command(
        "check pages and patterns",
        (
            (
                ("paths",),
                {
                    "metavar": "PATH",
                    "nargs": "*",
                    "default": ["."],
                    "help": "Markdown pages, .txt patterns, folders, - for the pipe (none: the folder you are in)",
                },
            ),
            (("--strict",), {"action": "store_true", "help": "warnings fail too"}),
            (("--quiet",), {"action": "store_true", "help": "show only what fails"}),
            (("--totals",), {"action": "store_true", "help": "also show rounds and stitches by piece"}),
            (
                ("--format",),
                {
                    "metavar": "FORMAT[=FILE]",
                    "action": "append",
                    "default": [],
                    "help": "how to report, see below; several times for several reports",
                },
            ),
            (("--output",), {"metavar": "FILE", "help": "write the report to a file"}),
            (
                ("--jobs",),
                {"metavar": "N", "type": int, "default": 1, "help": "check in N processes at once, 0: one a core (1)"},
            ),
            (("--watch",), {"action": "store_true", "help": "check again whenever a file changes, until Ctrl-C"}),
            _COLOR,
            _CONFIG_FILE,
            (("--stdin-name",), {"metavar": "PATH", "default": "", "help": "the name for what comes in by a pipe"}),
        ),
        about="Works every round of every pattern and says where a number is wrong.",
        more=f"formats:\n{_FORMAT_LIST}",
    ),
    "fix": Command(
        "show the edits that mend what is wrong, or make them",
        (
            (("paths",), {"metavar": "FILE", "nargs": "+", "help": "Markdown pages, .txt patterns, folders"}),
            (("--save",), {"action": "store_true", "help": "write the sure edits into the files"}),
            (("--even-unsure",), {"action": "store_true", "help": "with --save: the likely edits too"}),
            _COLOR,
            _CONFIG_FILE,
        ),
        about="Shows the edits that mend what is wrong, as a diff: lines with - are as they are, lines\n"
        "with + as they would be. Only with --save is anything written, and never what would make\n"
        "a page worse.",
        more="Sure is an edit where the rounds before and after both speak for it. Likely is one\n"
        "that only one of them speaks for: read it before you save it.",
    ),
    "tidy": Command(
        "write the rounds in one style, without changing what is made",
        (
            (("paths",), {"metavar": "FILE", "nargs": "+", "help": "Markdown pages, .txt patterns, folders"}),
            (("--save",), {"action": "store_true", "help": "write it into the files"}),
            _COLOR,
            _CONFIG_FILE,
        ),
        about="Shows the rounds of every pattern in one style, as a diff: labels, brackets, repeats, counts,\n"
        "commas and spaces. Every round works into and makes the same as before, or it is left as\n"
        "written and named. Notes, steps and header lines stay as they are. Only with --save is\n"
        "anything written.",
        more="The style is the one that most rounds of the pattern have. house_style in your settings\n"
        "says otherwise: labels (Rnd, Round, R), brackets (round, square), order (number first,\n"
        "stitch first), counts (brackets, square brackets, equals sign, dash), repeats (x, times).",
    ),
    "explain": Command(
        "what it looks for, and why",
        ((("rule",), {"metavar": "RULE", "nargs": "?", "help": "the name in brackets in a message (none: the list)"}),),
        about="Says what a rule is about, why it matters, an example, what to write instead, and how to switch it off.",
    ),
    "adopt": Command(
        "put the rounds of old posts into pattern blocks",
        (
            (("paths",), {"metavar": "FOLDER", "nargs": "+", "help": "folders, Markdown pages"}),
            (("--save",), {"action": "store_true", "help": "write it into the files"}),
            _COLOR,
            _CONFIG_FILE,
        ),
        about="Finds pages whose prose or plain lists hold rounds outside pattern blocks, and shows as a diff how they\n"
        "would stand in blocks. Every word stays; marks of lists and of bold letters go. Only with --save is\n"
        "anything written. Look the diff through: what belongs to a pattern is told by its looks alone.",
    ),
    "proofread": Command(
        "the report that a technical editor would send",
        (
            (("paths",), {"metavar": "FILE", "nargs": "+", "help": "Markdown pages, .txt patterns, folders"}),
            (
                ("--format",),
                {"choices": ("text", "markdown", "html"), "default": "text", "help": "text, markdown or html (text)"},
            ),
            (("--output",), {"metavar": "FILE", "help": "write the report to a file"}),
            _CONFIG_FILE,
        ),
        about="Writes what a technical editor would send about a pattern: what was found, by topic; what is\n"
        "right, with its numbers; what was taken on trust; your excuses; and what is left for your own eye.",
        more="It ends with 0, 1 and 2 as check does.",
    ),
    "points": Command(
        "the technical editor's hundred points, and what becomes of each",
        (
            (
                ("kind",),
                {
                    "metavar": "KIND",
                    "nargs": "?",
                    "choices": ("checked", "helped", "yours"),
                    "help": "checked, helped or yours (none: all)",
                },
            ),
            (("--markdown",), {"action": "store_true", "help": "as a Markdown table"}),
        ),
        about="Shows what a technical editor goes through: checked (by the rules named), helped (what is\n"
        "computed or shown), yours (a question to you).",
    ),
    "yarn": Command(
        "yarn, size, stuffing and time, also in another yarn",
        (
            (("paths",), {"metavar": "FILE", "nargs": "+", "help": "Markdown pages, .txt patterns, folders"}),
            (("--yarn",), {"metavar": "TEXT", "default": "", "help": 'another yarn, as "50 g = 125 m"'}),
            (("--gauge",), {"metavar": "TEXT", "default": "", "help": 'its gauge, as "22 sc x 24 rnds = 10 cm"'}),
            (("--made",), {"metavar": "NUMBER", "type": int, "default": 1, "help": "how many you make (1)"}),
            (
                ("--pace",),
                {"metavar": "NUMBER", "type": float, "help": "your single crochet a minute (none: 5 to 20)"},
            ),
            _CONFIG_FILE,
        ),
        about="Reckons from the stitches of every round how much yarn and stuffing a pattern takes, how large\n"
        "its pieces come out and how long they take; with --yarn or --gauge in another yarn, too.",
        more="A weighed piece (Weighed:) is surer than a swatch (Swatch:), and that is surer than the gauge\n"
        "or the yarn's category alone. What each figure rests on stands beside it.",
    ),
    "corrections": Command(
        "what changed in the making since another state of a pattern",
        (
            (("old",), {"metavar": "OLD", "help": "a page or .txt pattern, or one of Git's: v1.2:docs/seal.md"}),
            (("new",), {"metavar": "NEW", "help": "the same pattern as it is now"}),
            _CONFIG_FILE,
        ),
        about="Compares two states of a pattern round by round and prints a paragraph for the post: which rounds,\n"
        "counts, steps, yarn and sizes changed. What is only said in other words is counted and not listed;\n"
        "that holds across US and UK terms and other languages, too.",
    ),
    "film": Command(
        "what belongs under the film of a pattern",
        (
            (("paths",), {"metavar": "FILE", "nargs": "+", "help": "Markdown pages, .txt patterns, folders"}),
            (("--shots",), {"action": "store_true", "help": "list the >> Photograph: notes instead, by piece and round"}),
            (("--address",), {"metavar": "ADDRESS", "default": "", "help": "where the post is published"}),
            _CONFIG_FILE,
        ),
        about="Prints materials, abbreviations, chapters and the post's address, to be put under a film.\n"
        "Chapters come from marks such as @ 12:30 behind a heading or a round's count.",
        more="The address is worked out from the site_url of a mkdocs.yml above the page, where it can be.",
    ),
    "pdf": Command(
        "a pattern as PDF, in any edition (needs the extra pdf)",
        (
            (("paths",), {"metavar": "FILE", "nargs": "+", "help": "Markdown pages, .txt patterns"}),
            (
                ("--edition",),
                {
                    "metavar": "WORDS",
                    "action": "append",
                    "default": [],
                    "help": 'as "US A4", "UK Letter", "UK large print"; several times for several (none: as written, A4)',
                },
            ),
            (("--to",), {"metavar": "FOLDER", "default": ".", "help": "where the PDFs go (none: the folder you are in)"}),
            (("--test",), {"metavar": "NUMBER", "type": int, "default": 0, "help": "for testers, with room to write"}),
            (("--address",), {"metavar": "ADDRESS", "default": "", "help": "where the post is published"}),
            (("--limit",), {"metavar": "MB", "type": float, "default": 0.0, "help": "the largest file, in megabytes"}),
            (("--no-photographs",), {"action": "store_true", "help": "leave the photographs out"}),
            _CONFIG_FILE,
        ),
        about="Makes PDFs of patterns: cover, contents, materials, every piece with boxes to tick, photographs,\n"
        "live links, bookmarks, fonts within. A pattern in which something is wrong, and a draft, get none,\n"
        "unless it is for testers.",
        more="The names say what each is: harbour-seal-pup-US-A4-v2.pdf. In the other terms every round is\n"
        "worked again; where one can't be told in them, there is no such edition.",
    ),
    "stitches": Command(
        "the stitches it knows, in US and UK terms",
        ((("word",), {"metavar": "WORD", "nargs": "*", "help": "an abbreviation or a name (none: the table)"}),),
        about="Shows the stitches it knows, in US and UK terms: how many stitches each is worked into,\n"
        "and how many it gives.",
    ),
    "editor": Command(
        "findings, counts and completion in your editor while you type",
        (_CONFIG_FILE,),
        about="A language server on standard input and output, for any editor that speaks the Language Server\n"
        "Protocol. Your editor starts it; the README shows the lines for three.",
    ),
    "css": Command(
        "the stylesheet of the pages, for sites without the plugin",
        (),
        about="Prints the stylesheet. Save it among your site's files and name it there:\n"
        "  stitchcheck css > docs/assets/stitchcheck.css",
    ),
    "js": Command(
        "the script of the pages, for sites without the plugin",
        (),
        about="Prints the script: ticks that stay, US and UK terms, a reader's own yarn. Save it among your site's\n"
        "files and name it there:\n"
        "  stitchcheck js > docs/assets/stitchcheck.js",
    ),
    "completion": Command(
        "let your shell complete what you type",
        ((("shell",), {"choices": ("bash", "zsh", "fish"), "help": "your shell"}),),
        about="Prints a script for your shell. Put the line for it into your shell's own start file:\n"
        '  bash  eval "$(stitchcheck completion bash)"\n'
        '  zsh   eval "$(stitchcheck completion zsh)"\n'
        "  fish  stitchcheck completion fish | source",
    ),
}

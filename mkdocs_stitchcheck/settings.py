"""What a site or a writer may set, read from one mapping wherever it stands. A wrong key or value is an error."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, fields, replace
from functools import cached_property

from . import late_re as re
from .findings import Severity
from .rules import DEFAULT_SEVERITIES

TERMS = ("US", "UK", "both")

# Options of the site plugin that say nothing about checking; the command line reads over them in a mkdocs.yml.
SITE_KEYS = (
    "enabled", "sheet", "paper", "caution", "charts", "index", "tags",
    "pdf", "pdf_folder", "pdf_editions", "pdf_photographs", "pdf_limit",
)  # fmt: skip

# What may stand in house_style; the first word of each is the default.
HOUSE_STYLES: dict[str, tuple[str, ...]] = {
    "labels": ("Rnd", "Round", "R"),
    "brackets": ("round", "square"),
    "order": ("number first", "stitch first"),
    "counts": ("brackets", "square brackets", "equals sign", "dash"),
    "repeats": ("x", "times"),
}


class SettingsError(Exception):
    """Settings that can't be used. ``problems`` holds one plain sentence each; all of them are found in one go."""

    def __init__(self, problems: Iterable[str]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(self.problems))


@dataclass(frozen=True, slots=True)
class HouseStyle:
    """How a writer's rounds look where the tool writes or compares them; see :data:`HOUSE_STYLES` for the words.

    ``chosen`` are the parts that the writer set; for the others a pattern's own habit goes before the default.
    """

    labels: str = "Rnd"
    brackets: str = "round"
    order: str = "number first"
    counts: str = "brackets"
    repeats: str = "x"
    chosen: frozenset[str] = field(default=frozenset(), compare=False)


@dataclass(frozen=True)
class Settings:
    """How a check is done. Hashable, so that results can be kept by text and settings.

    ``severities`` holds (rule, severity) pairs in the order of rule names. ``not_yet`` are path patterns (``*`` within
    a folder, ``**`` over folders, a folder's name for all in it) of pages not yet cleared, seen from the folder
    ``root``.
    ``terms`` ("US", "UK" or "") holds for patterns that don't declare theirs; "both" for none, and shows pages in both. ``yarn_margin`` is in percent and added
    to computed amounts.
    """

    severities: tuple[tuple[str, Severity], ...] = ()
    strict: bool = False
    not_yet: tuple[str, ...] = ()
    terms: str = ""
    yarn_margin: float = 10.0
    house_style: HouseStyle = field(default_factory=HouseStyle)
    root: str = ""

    @cached_property
    def _set(self) -> dict[str, Severity]:
        return dict(self.severities)

    def severity(self, rule: str, own: Severity) -> Severity:
        """The severity of a finding of *rule* whose own severity is *own*."""
        return self._set.get(rule, own)

    def listed_not_yet(self, path: str) -> str | None:
        """The entry of ``not_yet`` that *path* comes under, or None."""
        if not self.not_yet:
            return None
        seen = _from_root(path, self.root)
        return next((entry for entry in self.not_yet if path_matches(entry, seen)), None)

    def with_(self, **changes: object) -> Settings:
        """A copy with some settings changed."""
        return replace(self, **changes)  # type: ignore[arg-type]


def _from_root(path: str, root: str) -> str:
    import os.path

    if not root:
        return path.replace("\\", "/").removeprefix("./")
    try:
        return os.path.relpath(path, root).replace("\\", "/")
    except ValueError:  # another drive on Windows
        return path.replace("\\", "/")


def path_matches(pattern: str, path: str) -> bool:
    """Whether *path* (with ``/``) comes under *pattern*: the whole path, or a folder that holds it."""
    pattern = pattern.replace("\\", "/").removeprefix("./").rstrip("/")
    wanted = ""
    for piece in re.split(r"(\*\*/|\*\*|\*|\?)", pattern):
        wanted += {"**/": "(?:[^/]+/)*", "**": ".*", "*": "[^/]*", "?": "[^/]"}.get(piece) or re.escape(piece)
    return bool(pattern) and re.fullmatch(f"{wanted}(?:/.*)?", path, re.DOTALL) is not None


# --- reading ------------------------------------------------------------------------------------------------------


def near(word: str, known: Iterable[str], listed: str = "`stitchcheck explain` lists them.") -> str:
    """A phrase that names the nearest of *known*; where none is near all of a few, or where many are *listed*."""
    from difflib import get_close_matches

    names = list(known)
    close = get_close_matches(word.lower(), [name.lower() for name in names], 1, 0.6)
    if close:
        return f"; did you mean {next(name for name in names if name.lower() == close[0])}?"
    return f"; there is: {', '.join(names)}." if len(names) <= 12 else f"; {listed}"


class _Reader:
    """Reads values one by one and keeps what is wrong with them."""

    def __init__(self, where: str) -> None:
        self.where = where
        self.problems: list[str] = []

    def wrong(self, text: str) -> None:
        self.problems.append(f"{self.where}: {text}")

    def yes_or_no(self, key: str, value: object) -> bool | None:
        if isinstance(value, bool):
            return value
        self.wrong(f"{key} is true or false, not {value!r}.")
        return None

    def choice(self, key: str, value: object, known: tuple[str, ...]) -> str | None:
        for name in known:
            if isinstance(value, str) and value.strip().lower() == name.lower():
                return name
        self.wrong(f"{key} can't be {value!r}{near(str(value), known)}")
        return None

    def percent(self, key: str, value: object) -> float | None:
        if isinstance(value, str):
            value = value.strip().removesuffix("%").strip()
            value = float(value) if re.fullmatch(r"\d{1,3}(\.\d{1,3})?", value) else value
        if isinstance(value, int | float) and not isinstance(value, bool) and 0 <= value <= 100:
            return float(value)
        self.wrong(f"{key} is a number of percent from 0 to 100, not {value!r}.")
        return None

    def paths(self, key: str, value: object) -> tuple[str, ...] | None:
        if isinstance(value, list | tuple) and all(isinstance(entry, str) and entry.strip() for entry in value):
            return tuple(entry.strip() for entry in value)
        self.wrong(f"{key} is a list of page paths, not {value!r}.")
        return None

    def table(self, key: str, value: object, known: Iterable[str], noun: str) -> dict[str, object]:
        """The entries of *value* whose names are known; the others are reported."""
        if not isinstance(value, Mapping):
            self.wrong(f"{key} is a table of names and values, not {value!r}.")
            return {}
        names = {name.replace("_", "-"): name for name in known}
        found: dict[str, object] = {}
        for name, entry in value.items():
            own = names.get(str(name).replace("_", "-"))
            if own is None:
                self.wrong(f"there is no {noun} {name!r}{near(str(name), names.values())}")
            else:
                found[own] = entry
        return found

    def severities(self, key: str, value: object) -> tuple[tuple[str, Severity], ...]:
        weights = tuple(str(severity) for severity in Severity)
        found = []
        for rule, weight in self.table(key, value, DEFAULT_SEVERITIES, "rule").items():
            weight = "off" if weight is False else weight  # YAML reads a bare off as false
            name = self.choice(f"{key}.{rule}", weight, weights)
            if name == "off" and rule == "checker-fault":
                self.wrong("checker-fault can't be switched off: it says that a block was not checked.")
            elif name is not None:
                found.append((rule, Severity(name)))
        return tuple(sorted(found))

    def house_style(self, key: str, value: object) -> HouseStyle:
        entries = self.table(key, value, HOUSE_STYLES, "part of house_style").items()
        chosen = {part: self.choice(f"{key}.{part}", entry, HOUSE_STYLES[part]) for part, entry in entries}
        set_by_writer = {part: word for part, word in chosen.items() if word is not None}
        return replace(HouseStyle(**set_by_writer), chosen=frozenset(set_by_writer))  # type: ignore[arg-type]


_READ: dict[str, Callable[[_Reader, str, object], object]] = {
    "severities": _Reader.severities,
    "strict": _Reader.yes_or_no,
    "not_yet": _Reader.paths,
    "terms": lambda reader, key, value: reader.choice(key, value, TERMS),
    "yarn_margin": _Reader.percent,
    "house_style": _Reader.house_style,
}


def read_settings(mapping: object, where: str, root: str = "", also: Iterable[str] = ()) -> Settings:
    """The settings that *mapping* holds.

    ``where`` names the place in messages ("pyproject.toml, [tool.stitchcheck]"), ``root`` is the folder that paths are
    seen from, ``also`` are keys that belong to the host. Keys may be written with ``-`` or ``_``.
    Raises :class:`SettingsError` with every unknown key and unusable value, each with the nearest known one.
    """
    reader = _Reader(where)
    also = tuple(also)
    entries = reader.table("the configuration", mapping, (*_READ, *also), "setting")
    read = {key: _READ[key](reader, key, value) for key, value in entries.items() if key not in also}
    if reader.problems:
        raise SettingsError(reader.problems)
    return Settings(root=root, **read)  # type: ignore[arg-type]


SETTING_NAMES = tuple(_READ)
assert set(SETTING_NAMES) | {"root"} == {entry.name for entry in fields(Settings)}

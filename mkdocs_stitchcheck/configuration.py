"""Where the command line finds its settings: the nearest pyproject.toml, or the site's mkdocs.yml."""

from __future__ import annotations

import os
from functools import cache
from typing import Any

from .settings import SITE_KEYS, Settings, SettingsError, read_settings

Way = str | os.PathLike[str]  # os.path does all that is needed here: pathlib takes longer to import than a page to check


def find_configuration(path: Way) -> Settings:
    """The settings for the file or folder *path*: of the nearest pyproject.toml with a ``[tool.stitchcheck]`` table
    in its folder or one above, else the defaults. Raises :class:`SettingsError`."""
    start = os.path.abspath(path)
    return _of_folder(start if os.path.isdir(start) else os.path.dirname(start))


def forget_configurations() -> None:
    """Read the files again next time: they may have changed since."""
    _of_folder.cache_clear()


@cache
def _of_folder(folder: str) -> Settings:
    project = os.path.join(folder, "pyproject.toml")
    if os.path.isfile(project):
        table = _tool_table(project)
        if table is not None:
            return read_settings(table, f"{_shown(project)}, [tool.stitchcheck]", folder)
    above = os.path.dirname(folder)
    return Settings() if above == folder else _of_folder(above)


def read_configuration(path: Way) -> Settings:
    """The settings of the configuration file *path* that somebody named: a mkdocs.yml (or another .yml), or a TOML file
    with ``[tool.stitchcheck]``. Raises :class:`SettingsError`, also where the file can't be read or has none."""
    path = os.fspath(path)
    if path.lower().endswith((".yml", ".yaml")):
        return _of_site(path)
    table = _tool_table(path)
    if table is None:
        raise SettingsError([f"{_shown(path)}: there is no [tool.stitchcheck] in it."])
    return read_settings(table, f"{_shown(path)}, [tool.stitchcheck]", os.path.dirname(os.path.abspath(path)))


def _shown(path: str) -> str:
    near = os.path.relpath(path)
    return path if near.startswith("..") else near


def _text(path: str) -> str:
    try:
        with open(path, encoding="utf-8-sig") as file:
            return file.read()
    except OSError as error:
        raise SettingsError([f"{_shown(path)} can't be read: {error.strerror or error}."]) from error
    except UnicodeDecodeError as error:
        raise SettingsError([f"{_shown(path)} is not UTF-8 text; save it as UTF-8."]) from error


def _tool_table(path: str) -> object | None:
    text = _text(path)
    if "stitchcheck" not in text:  # saves reading the TOML of every project that doesn't use this
        return None
    import tomllib

    try:
        tool = tomllib.loads(text).get("tool", {})
    except tomllib.TOMLDecodeError as error:
        raise SettingsError([f"{_shown(path)} is not right TOML: {error}."]) from error
    return tool.get("stitchcheck") if isinstance(tool, dict) else None


# --- mkdocs.yml ---------------------------------------------------------------------------------------------------


def _of_site(path: str) -> Settings:
    site = _yaml(path)
    options = _plugin_options(site)
    docs = site.get("docs_dir") or "docs"
    folder = os.path.dirname(os.path.abspath(path))
    root = os.path.join(folder, docs if isinstance(docs, str) else "docs")
    if options is None:
        raise SettingsError([f"{_shown(path)}: the plugin stitchcheck is not among its plugins."])
    return read_settings(options, f"{_shown(path)}, plugin stitchcheck", root, also=SITE_KEYS)


def _plugin_options(site: dict[str, Any]) -> object | None:
    plugins = site.get("plugins") or []
    entries = list(plugins.items()) if isinstance(plugins, dict) else []
    for entry in plugins if isinstance(plugins, list) else []:
        entries.extend(entry.items() if isinstance(entry, dict) else [(entry, None)])
    return next((options or {} for name, options in entries if name == "stitchcheck"), None)


def _yaml(path: str, depth: int = 0) -> dict[str, Any]:
    """A mkdocs.yml as plain data. ``!ENV`` takes the variable or its default, other tags become None: they concern
    the site and not the check. ``INHERIT`` is followed."""
    text = _text(path)
    try:
        import yaml
    except ImportError as error:
        raise SettingsError([f"{_shown(path)}: reading it needs PyYAML, which comes with mkdocs."]) from error

    class Loader(yaml.SafeLoader):
        pass

    Loader.add_constructor("!ENV", _from_environment)
    Loader.add_multi_constructor("", lambda loader, suffix, node: None)
    try:
        site = yaml.load(text, Loader)
    except yaml.YAMLError as error:
        raise SettingsError([f"{_shown(path)} is not right YAML: {error}"]) from error
    if not isinstance(site, dict):
        raise SettingsError([f"{_shown(path)} holds no settings."])
    parent = site.get("INHERIT")
    if not isinstance(parent, str):
        return site
    if depth > 20:
        raise SettingsError([f"{_shown(path)}: INHERIT goes round in a circle."])
    return {**_yaml(os.path.join(os.path.dirname(path), parent), depth + 1), **site}


def _from_environment(loader: Any, node: Any) -> object:
    """``!ENV NAME``, or ``!ENV [NAME, OTHER, default]``: as mkdocs reads it."""
    if node.id == "scalar":
        return _plain(os.environ.get(loader.construct_scalar(node)))
    if node.id != "sequence":
        return None
    *names, default = loader.construct_sequence(node) or [None]
    if not names:
        return _plain(os.environ.get(str(default)))
    for name in names:
        if name in os.environ:
            return _plain(os.environ[name])
    return default


def _plain(value: str | None) -> object:
    words: dict[str, object] = {"true": True, "yes": True, "on": True, "false": False, "no": False, "off": False}
    return words.get(value.lower(), value) if value is not None else None

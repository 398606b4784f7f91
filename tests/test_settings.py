"""Settings: everything that may be set is read, and nothing wrong is swallowed."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from mkdocs_stitchcheck.configuration import find_configuration, forget_configurations, read_configuration
from mkdocs_stitchcheck.findings import Severity
from mkdocs_stitchcheck.settings import SITE_KEYS, HouseStyle, Settings, SettingsError, path_matches, read_settings


@pytest.fixture(autouse=True)
def fresh() -> None:
    forget_configurations()


def test_everything_that_may_be_set() -> None:
    settings = read_settings(
        {
            "severities": {"unused-color": "off", "count_missing": "Error", "style": False},
            "strict": True,
            "not-yet": ["blog/*.md", "old/"],
            "terms": "uk",
            "yarn_margin": "15 %",
            "house_style": {"labels": "Round", "repeats": "times"},
        },
        "here",
    )
    assert settings == Settings(
        severities=(("count-missing", Severity.ERROR), ("style", Severity.OFF), ("unused-color", Severity.OFF)),
        strict=True,
        not_yet=("blog/*.md", "old/"),
        terms="UK",
        yarn_margin=15.0,
        house_style=HouseStyle(labels="Round", repeats="times"),
    )
    assert hash(settings) == hash(settings.with_())
    assert settings.severity("style", Severity.INFO) is Severity.OFF
    assert settings.severity("count-mismatch", Severity.ERROR) is Severity.ERROR


@pytest.mark.parametrize(
    ("mapping", "said"),
    [
        ({"sevrities": {}}, "there is no setting 'sevrities'; did you mean severities?"),
        (
            {"zzz": 1},
            "there is no setting 'zzz'; there is: severities, strict, not_yet, terms, yarn_margin, house_style.",
        ),
        ({"severities": {"cuont-mismatch": "off"}}, "there is no rule 'cuont-mismatch'; did you mean count-mismatch?"),
        ({"severities": {"style": "warn"}}, "severities.style can't be 'warn'; did you mean warning?"),
        ({"severities": {"style": True}}, "severities.style can't be True"),
        ({"severities": {"checker-fault": "off"}}, "checker-fault can't be switched off"),
        ({"severities": ["style"]}, "severities is a table of names and values"),
        ({"strict": "yes"}, "strict is true or false, not 'yes'."),
        ({"not_yet": "a.md"}, "not_yet is a list of page paths, not 'a.md'."),
        ({"not_yet": ["a.md", ""]}, "not_yet is a list of page paths"),
        ({"terms": "USA"}, "terms can't be 'USA'; did you mean US?"),
        ({"yarn_margin": 101}, "yarn_margin is a number of percent from 0 to 100, not 101."),
        ({"yarn_margin": True}, "yarn_margin is a number of percent"),
        ({"yarn_margin": "much"}, "yarn_margin is a number of percent"),
        ({"house_style": {"label": "Rnd"}}, "there is no part of house_style 'label'; did you mean labels?"),
        ({"house_style": {"brackets": "curly"}}, "house_style.brackets can't be 'curly'; there is: round, square."),
        ("strict", "the configuration is a table of names and values"),
        ({3: 4}, "there is no setting 3"),
    ],
)
def test_what_is_wrong_is_said_with_the_nearest_known(mapping: object, said: str) -> None:
    with pytest.raises(SettingsError) as raised:
        read_settings(mapping, "site.toml")
    assert raised.value.problems[0].startswith("site.toml: ")
    assert said in raised.value.problems[0]


def test_all_that_is_wrong_is_said_at_once() -> None:
    with pytest.raises(SettingsError) as raised:
        read_settings({"strikt": 1, "terms": 2, "severities": {"no": "off", "style": 3}}, "x")
    assert len(raised.value.problems) == 4


def test_keys_of_the_host_are_left_to_it() -> None:
    assert read_settings({"enabled": False, "strict": True}, "x", also=SITE_KEYS) == Settings(strict=True)


@pytest.mark.parametrize(
    ("pattern", "path", "matches"),
    [
        ("a.md", "a.md", True),
        ("a.md", "b/a.md", False),
        ("b/", "b/a.md", True),
        ("b", "b/c/a.md", True),
        ("b", "bc/a.md", False),
        ("*.md", "a.md", True),
        ("*.md", "b/a.md", False),
        ("**/*.md", "a.md", True),
        ("**/*.md", "b/c/a.md", True),
        ("b/**", "b/c/a.md", True),
        ("?.md", "a.md", True),
        ("?.md", "ab.md", False),
        ("./a.md", "a.md", True),
        ("b\\a.md", "b/a.md", True),
        ("a+b (1).md", "a+b (1).md", True),
        ("", "a.md", False),
    ],
)
def test_path_patterns(pattern: str, path: str, matches: bool) -> None:
    assert path_matches(pattern, path) is matches


def test_pages_are_seen_from_the_configuration(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    settings = Settings(not_yet=("docs/old/*.md",), root=str(tmp_path))
    assert settings.listed_not_yet(str(tmp_path / "docs/old/a.md")) == "docs/old/*.md"
    assert settings.listed_not_yet(str(tmp_path / "docs/a.md")) is None
    (tmp_path / "docs").mkdir()
    monkeypatch.chdir(tmp_path / "docs")
    assert settings.listed_not_yet("old/a.md") == "docs/old/*.md"
    assert Settings(not_yet=("a.md",)).listed_not_yet("./a.md") == "a.md"


# --- where they are found -----------------------------------------------------------------------------------------


def write(path: Path, text: str) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


def test_the_nearest_table_counts(tmp_path: Path) -> None:
    write(tmp_path / "pyproject.toml", '[tool.stitchcheck]\nterms = "UK"\nnot_yet = ["docs/a.md"]\n')
    write(tmp_path / "docs/pyproject.toml", "[tool.other]\n")
    page = write(tmp_path / "docs/deep/a.md", "")
    assert find_configuration(page) == Settings(terms="UK", not_yet=("docs/a.md",), root=str(tmp_path))
    write(tmp_path / "docs/deep/pyproject.toml", "[tool.stitchcheck]\nstrict = true\n")
    forget_configurations()
    assert find_configuration(page) == Settings(strict=True, root=str(page.parent))
    assert find_configuration(page.parent).strict


def test_no_configuration_is_the_default(tmp_path: Path) -> None:
    assert find_configuration(tmp_path / "a.md") == Settings()


@pytest.mark.parametrize(
    ("name", "text", "said"),
    [
        ("pyproject.toml", "[tool.stitchcheck\n", "is not right TOML"),
        ("pyproject.toml", "[tool.stitchcheck]\nstrikt = true\n", "[tool.stitchcheck]: there is no setting 'strikt'"),
        ("pyproject.toml", "[tool]\nstitchcheck = 3\n", "the configuration is a table"),
        ("pyproject.toml", "[project]\n", "there is no [tool.stitchcheck] in it"),
        ("mkdocs.yml", "plugins: [search]\n", "the plugin stitchcheck is not among its plugins"),
        ("mkdocs.yml", "plugins: [\n", "is not right YAML"),
        ("mkdocs.yml", "", "holds no settings"),
        ("mkdocs.yml", "INHERIT: mkdocs.yml\n", "INHERIT goes round in a circle"),
        ("mkdocs.yml", "plugins:\n  - stitchcheck:\n      stric: true\n", "did you mean strict?"),
    ],
)
def test_a_configuration_that_cannot_be_used(tmp_path: Path, name: str, text: str, said: str) -> None:
    with pytest.raises(SettingsError, match=None) as raised:
        read_configuration(write(tmp_path / name, text))
    assert said in str(raised.value)


def test_a_configuration_that_is_not_there_or_no_text(tmp_path: Path) -> None:
    with pytest.raises(SettingsError, match="can't be read"):
        read_configuration(tmp_path / "mkdocs.yml")
    (tmp_path / "pyproject.toml").write_bytes(b"\xff\xfe[tool.stitchcheck]")
    with pytest.raises(SettingsError, match="is not UTF-8 text"):
        find_configuration(tmp_path / "a.md")


SITE = """\
INHERIT: base.yml
site_name: !ENV [NAME, Wool]
markdown_extensions:
  - pymdownx.emoji:
      emoji_index: !!python/name:material.extensions.emoji.twemoji
      options: !relative $config_dir
plugins:
  - search
  - stitchcheck:
      enabled: !ENV [STITCHCHECK, true]
      strict: !ENV [STRICT, false]
      not_yet: [posts/a.md]
      severities:
        style: off
"""


def test_the_settings_of_a_site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write(tmp_path / "base.yml", "docs_dir: pages\n")
    site = write(tmp_path / "mkdocs.yml", SITE)
    monkeypatch.delenv("STRICT", raising=False)
    settings = Settings(severities=(("style", Severity.OFF),), not_yet=("posts/a.md",), root=str(tmp_path / "pages"))
    assert read_configuration(site) == settings
    monkeypatch.setenv("STRICT", "true")
    assert read_configuration(site) == settings.with_(strict=True)


@pytest.mark.parametrize("plugins", ["[stitchcheck]", "{stitchcheck: {}}", "[stitchcheck: {}]"])
def test_a_site_with_no_options(tmp_path: Path, plugins: str) -> None:
    site = write(tmp_path / "mkdocs.yml", f"plugins: {plugins}\n")
    assert read_configuration(site) == Settings(root=str(tmp_path / "docs"))


def test_reading_a_site_imports_no_host(tmp_path: Path) -> None:
    site = write(tmp_path / "mkdocs.yml", SITE.replace("INHERIT: base.yml\n", ""))
    code = (
        "import sys; from pathlib import Path; from mkdocs_stitchcheck.configuration import read_configuration as r;"
        f"assert 'yaml' not in sys.modules; r(Path({str(site)!r}));"
        "print(sorted({'mkdocs', 'markdown', 'pymdownx', 'click'} & set(sys.modules)))"
    )
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stdout == "[]\n"


def test_options_of_the_plugin_are_known_here() -> None:
    """Else a mkdocs.yml that the site takes would be refused by the command line."""
    from mkdocs_stitchcheck.hosts.plugin_options import StitchcheckConfig
    from mkdocs_stitchcheck.settings import SETTING_NAMES

    options = {name for name, _option in StitchcheckConfig._schema}
    assert options == {*SITE_KEYS, *SETTING_NAMES}

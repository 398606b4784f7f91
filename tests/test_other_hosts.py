"""Sites of Pelican, Nikola and Django, built by the real programs: a right pattern is shown, a slip stops the build.

They ask for other versions of Pygments than Zensical, so they have an environment of their own.
"""

from __future__ import annotations

import re
import sys
import textwrap
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import markdown
import pytest
from host_environment import ROOT, Ended, Environment, make_environment
from site_kit import HEADER, RIGHT, SLIP, WRONG, fence, line_of, page

from mkdocs_stitchcheck.hosts import pages as checked_pages

README = (ROOT / "README.md").read_text(encoding="utf-8")
SECRET = "the neighbour's yarn"
GOOD = page(fence(HEADER, RIGHT, f">> {SECRET}\n"))
BAD = page(fence(HEADER, WRONG))


@pytest.fixture(scope="session")
def env(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Environment:
    return make_environment(request, tmp_path_factory)


def from_readme(beginning: str) -> str:
    """What the README says to put into a host's own file: the tests use nothing else."""
    [block] = re.findall(rf"^```python\n({re.escape(beginning)}.*?)^```$", README, re.DOTALL | re.MULTILINE)
    assert isinstance(block, str)
    return block


def put(path: Path, text: str) -> str:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return text


def shows_the_rounds(html: str) -> None:
    assert re.findall(r'<tr[^>]* id="pebble-body-rnd-(\d+)"', html) == ["1", "2", "3", "4"]
    assert "```" not in html


def pages(folder: Path) -> Iterator[str]:
    for path in folder.rglob("*.html"):
        yield path.read_text(encoding="utf-8")


def assert_told(built: Ended, place: str) -> None:
    assert f"{place}:" in built.said and SLIP in built.said, built.said
    assert "<text>" not in built.said


# --- Pelican ------------------------------------------------------------------------------------------------------


def pelican(env: Environment, folder: Path, on_slip: str, *options: str) -> Ended:
    put(folder / "pelicanconf.py", f"""\
SITENAME, AUTHOR, PATH, TIMEZONE, DEFAULT_LANG, SITEURL = "Pockets", "Una Sedge", "content", "UTC", "en", ""
FEED_ALL_ATOM = CATEGORY_FEED_ATOM = TRANSLATION_FEED_ATOM = AUTHOR_FEED_ATOM = AUTHOR_FEED_RSS = None
{from_readme("MARKDOWN = ").replace('"stop"', f'"{on_slip}"')}
""")  # fmt: skip
    return env.run("pelican", "-s", "pelicanconf.py", "-o", "output", *options, cwd=folder)


def article(name: str, body: str) -> str:
    return f"Title: {name}\nDate: 2026-03-01\nCategory: Stones\nSlug: {name}\n\n{body}"


def test_pelican_builds_a_right_site(env: Environment, tmp_path: Path) -> None:
    put(tmp_path / "content/right.md", article("right", GOOD))
    built = pelican(env, tmp_path, "stop", "--fatal", "warnings")
    assert built.code == 0, built.said
    shows_the_rounds((tmp_path / "output/right.html").read_text(encoding="utf-8"))
    assert not any(SECRET in html for html in pages(tmp_path / "output"))


@pytest.mark.parametrize("on_slip", ["stop", "show"])
def test_pelican_stops_at_a_slip(env: Environment, tmp_path: Path, on_slip: str) -> None:
    text = put(tmp_path / "content/wrong.md", article("wrong", BAD))
    built = pelican(env, tmp_path, on_slip, "--fatal", "errors")
    assert built.code == 1
    assert_told(built, f"content/wrong.md:{line_of(text, '(7)')}")
    assert not list(pages(tmp_path / "output"))


def test_pelican_without_fatal_errors(env: Environment, tmp_path: Path) -> None:
    """As the README says: ``stop`` leaves the page out, ``show`` publishes it with its findings; the build goes on."""
    put(tmp_path / "content/wrong.md", article("wrong", BAD))
    put(tmp_path / "content/right.md", article("right", GOOD))
    built = pelican(env, tmp_path, "stop")
    assert built.code == 0 and "Could not process ./wrong.md" in built.said
    assert (tmp_path / "output/right.html").is_file() and not (tmp_path / "output/wrong.html").exists()
    shown = pelican(env, tmp_path, "show")
    assert shown.code == 0 and "sc-error" in (tmp_path / "output/wrong.html").read_text(encoding="utf-8")
    assert_told(shown, f"content/wrong.md:{line_of(article('wrong', BAD), '(7)')}")


# --- Nikola -------------------------------------------------------------------------------------------------------


def nikola_site(env: Environment, folder: Path, on_slip: str, **posts: str) -> Path:
    assert env.run("nikola", "init", "-q", "blog", cwd=folder).code == 0
    blog = folder / "blog"
    conf = (blog / "conf.py").read_text(encoding="utf-8")
    own = from_readme("MARKDOWN_EXTENSIONS = ").replace('"stop"', f'"{on_slip}"')
    put(blog / "conf.py", f"{conf}\n{own}")
    for name, body in posts.items():
        put(blog / f"posts/{name}.md", nikola_post(name, body))
    return blog


def nikola_post(name: str, body: str) -> str:
    return f"<!--\n.. title: {name}\n.. slug: {name}\n.. date: 2026-03-01 10:00:00 UTC\n-->\n\n{body}"


def test_nikola_builds_a_right_site_and_stops_at_a_slip_each_time(env: Environment, tmp_path: Path) -> None:
    blog = nikola_site(env, tmp_path, "stop", right=GOOD)
    built = env.run("nikola", "build", cwd=blog)
    assert built.code == 0, built.said
    shows_the_rounds((blog / "output/posts/right/index.html").read_text(encoding="utf-8"))
    published = [path for path in (blog / "output").rglob("*") if path.suffix in (".html", ".md", ".xml")]
    assert published and not any(SECRET in path.read_text(encoding="utf-8") for path in published)
    text = put(blog / "posts/wrong.md", nikola_post("wrong", BAD))
    for _ in range(2):
        stopped = env.run("nikola", "build", cwd=blog)
        assert stopped.code == 2, stopped.said
        assert_told(stopped, f"posts/wrong.md:{line_of(text, '(7)')}")
        assert not (blog / "output/posts/wrong/index.html").exists()
    put(blog / "posts/wrong.md", nikola_post("wrong", GOOD))
    assert env.run("nikola", "build", cwd=blog).code == 0
    shows_the_rounds((blog / "output/posts/wrong/index.html").read_text(encoding="utf-8"))


def test_nikola_tells_a_page_that_it_shows_once(env: Environment, tmp_path: Path) -> None:
    """As the README says: an unchanged post is not read again, so what was found there is told in the first build only."""
    blog = nikola_site(env, tmp_path, "show", wrong=BAD)
    built = env.run("nikola", "build", cwd=blog)
    assert built.code == 0
    assert_told(built, f"posts/wrong.md:{line_of(nikola_post('wrong', BAD), '(7)')}")
    assert "sc-error" in (blog / "output/posts/wrong/index.html").read_text(encoding="utf-8")
    assert SLIP not in env.run("nikola", "build", cwd=blog).said


# --- Django, and whatever else calls Python-Markdown ----------------------------------------------------------------

DJANGO = '''\
"""A form that takes no wrong pattern, and a page that shows a right one."""
import sys
from concurrent.futures import ThreadPoolExecutor
import django
import markdown
from django import forms
from django.conf import settings
from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.template import engines
from django.test import Client
from django.urls import path
from mkdocs_stitchcheck import check_text

settings.configure(ROOT_URLCONF=__name__, ALLOWED_HOSTS=["testserver"],
                   TEMPLATES=[{"BACKEND": "django.template.backends.django.DjangoTemplates"}])

class PostForm(forms.Form):
    body = forms.CharField(widget=forms.Textarea, strip=False)

    # clean_body comes here

def show(request):
    form = PostForm(request.POST)
    if not form.is_valid():
        return HttpResponse("\\n".join(form.errors["body"]), status=422)
    html = markdown.markdown(form.cleaned_data["body"], extensions=["extra", "stitchcheck"])
    return HttpResponse(engines["django"].from_string("<main>{{ body|safe }}</main>").render({"body": html}))

urlpatterns = [path("show/", show)]
django.setup()
body = open(sys.argv[1], encoding="utf-8").read()
with ThreadPoolExecutor(8) as threads:
    answers = list(threads.map(lambda _: Client().post("/show/", {"body": body}), range(40)))
assert len({answer.content for answer in answers}) == 1
print(answers[0].content.decode())
sys.exit(answers[0].status_code != 200)
'''


def test_a_django_form_takes_right_patterns_only(env: Environment, tmp_path: Path) -> None:
    own = textwrap.indent(from_readme("def clean_body"), "    ")
    put(tmp_path / "blog.py", DJANGO.replace("    # clean_body comes here\n", own))
    put(tmp_path / "right.md", GOOD)
    text = put(tmp_path / "wrong.md", BAD)
    built = env.run("python", "blog.py", "right.md", cwd=tmp_path)
    assert built.code == 0, built.said
    shows_the_rounds(built.said)
    assert SECRET not in built.said
    refused = env.run("python", "blog.py", "wrong.md", cwd=tmp_path)
    assert refused.code == 1 and f"line {line_of(text, '(7)')}: Rnd 1 makes 6 stitches; you wrote 7." in refused.said


def test_a_script_of_ones_own_stops_at_a_slip(env: Environment, tmp_path: Path) -> None:
    text = put(tmp_path / "drafts/wrong.md", BAD)
    put(tmp_path / "publish.py", """\
import sys
import markdown
source = sys.argv[1]
options = {"stitchcheck": {"on_slip": "stop", "path": source}}
print(markdown.markdown(open(source, encoding="utf-8").read(), extensions=["stitchcheck"], extension_configs=options))
""")  # fmt: skip
    built = env.run("python", "publish.py", "drafts/wrong.md", cwd=tmp_path)
    assert built.code == 1
    assert_told(built, f"drafts/wrong.md:{line_of(text, '(7)')}")
    put(tmp_path / "drafts/right.md", GOOD)
    right = env.run("python", "publish.py", "drafts/right.md", cwd=tmp_path)
    assert right.code == 0
    shows_the_rounds(right.said)


def test_many_threads_of_one_server(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is kept of checks is shared by the threads of a web server; here it is small, so entries go while others look."""
    texts = [page(fence(HEADER, RIGHT), title=f"Stone {number}") for number in range(3)]
    alone = [markdown.markdown(text, extensions=["stitchcheck"]) for text in texts]
    monkeypatch.setattr(checked_pages, "_KEPT_CHECKS", 2)
    before = sys.getswitchinterval()
    sys.setswitchinterval(1e-6)
    try:
        with ThreadPoolExecutor(8) as threads:
            assert list(threads.map(lambda text: markdown.markdown(text, extensions=["stitchcheck"]), texts * 40)) == alone * 40
            # Looking alone, with nothing to check between, comes into each other's way far more often.
            made = checked_pages.check_page(texts[0], "p", None, checked_pages.Settings())
            monkeypatch.setattr(checked_pages, "_guarded_check", lambda *given: made)
            looks = threads.map(lambda text: checked_pages.check_page(text, "p", None, checked_pages.Settings()), texts * 20_000)
            assert sum(check is made for check in looks) == 60_000
    finally:
        sys.setswitchinterval(before)
        checked_pages.forget_checks()

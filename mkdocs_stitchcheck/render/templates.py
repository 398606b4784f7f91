"""Templates that the page's script brings out: the tools for following, the form for a reader's own yarn.

Without the script nothing of them is seen, since nothing of them would work.
"""

from __future__ import annotations

import json

from ..estimates.carried import carried
from ..results import PatternResult
from .html import Html, el
from .switching import switched_words


def tools(pattern: PatternResult) -> Html:
    """The buttons at a pattern's head; the script says at the switch in which terms it shows the page."""
    buttons = [
        _button("Large print", pref="large"), _button("Hide finished rounds", pref="hide"), _button("Keep the screen on", do="wake"),
        _button("Terms", do="terms") if switched_words(pattern) else None, _button("Clear all ticks", do="clear"),
    ]
    return el("template", el("div", buttons, class_="sc-tools", role="group", translate="no", aria_label="Following this pattern"))


def _button(words: str, do: str | None = None, pref: str | None = None) -> Html:
    pressed = "false" if do in (None, "wake") else None
    return el("button", words, type="button", data_do=do, data_pref=pref, aria_pressed=pressed)


def own_yarn(pattern: PatternResult) -> Html | None:
    """The form with the numbers that the script needs; None where no stitches are known."""
    figures = carried(pattern)
    if figures is None:
        return None
    first = pattern.syntax.header.sizes[:1]
    title = el("p", el("strong", "In your own yarn", [", size ", el("bdi", first)] if first else None), class_="sc-part-title")
    grams, metres = figures.pop("yarn") or (None, None)
    stitches, rows, width = figures.pop("gauge") or (None, None, 10)
    ball = (_field("grams", "Weight", grams, "weight", ("g", "oz")), _field("metres", "Length", metres, "length", ("m", "yd")))
    gauge = (_field("stitches", "Stitches", stitches), _field("rows", "Rounds or rows", rows), _field("over", "over", width, "unit", ("cm", "in")))
    form = el("form", _set("One ball of your yarn", ball), _set("Your gauge", gauge), el("button", "Work it out"))
    data = json.dumps(figures, ensure_ascii=False, separators=(",", ":"))
    off = el("p", f"Yarn with its tails; it may be off by {100 * figures['colors'][0][3]:.0f} % either way.")
    hidden = el("template", form, el("div", class_="sc-said", role="status"), off)
    return el("div", title, hidden, class_="sc-another", hidden=True, data_yarn=data)


def _set(legend: str, fields: tuple[Html, ...]) -> Html:
    return el("fieldset", el("legend", legend), fields)


def _field(name: str, words: str, value: float | None, unit: str = "", units: tuple[str, ...] = ()) -> Html:
    """A number with its words, and the unit behind it where there is a choice of units."""
    shown = "" if value is None else f"{value:.10g}"
    label = el("label", words, " ", el("input", name=name, inputmode="decimal", value=shown, autocomplete="off"))
    choice = el("select", [el("option", one) for one in units], name=unit, aria_label=f"{words}, unit") if units else None
    return el("span", label, choice)

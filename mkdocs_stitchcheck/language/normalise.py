"""Forgives what Markdown, a telephone or a translation did to the text, without moving a character.

Every change keeps the length, so that a place in the normalised text is a place in the file.
"""

from __future__ import annotations

from functools import lru_cache

from .. import late_re as re

_LOOKALIKES = str.maketrans(
    # Cyrillic, then Greek letters that stand in for Latin ones on translated pages.
    "асеорухіѕјвкмнтАСЕОРУХІЅЈВКМНТΑΒΕΖΗΙΚΜΝΟΡΤΥΧο",
    "aceopyxisjbkmhtACEOPYXISJBKMHTABEZHIKMNOPTYXo",
)
_SIGNS = str.maketrans(
    {
        **dict.fromkeys("‐‑‒–—―−﹘﹣⸺", "-"),
        **dict.fromkeys("×✕✖⨯╳", "x"),
        **dict.fromkeys("‘’‚‛ʼ´`", "'"),
        **dict.fromkeys("“”„‟«»", '"'),
        **dict.fromkeys("∗⁎✱✲﹡⁕★☆", "*"),
        **dict.fromkeys("～〜∼˜", "~"),
        **dict.fromkeys("→⇒➔➜", "="),
        **dict.fromkeys("↙↗↖↘←↑↓⇐⇑⇓⬅⬆⬇", " "),
        **dict.fromkeys("\t\v\f\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a", " "),
        **dict.fromkeys("\u200b\u200c\u200d\u200e\u200f\u2028\u2029\u202f\u205f\u2060\u3000\ufeff\u00ad", " "),
        **dict.fromkeys("_", " "),
        "ı": "i",
        "İ": "I",
        "…": ".",
        "،": ",",
        "、": ",",
        "。": ".",
        "【": "[",
        "】": "]",
        **{chr(code): chr(code - 0xFEE0) for code in range(0xFF01, 0xFF5E)},
    }
)
_ENTITIES = {
    "&times;": "x", "&#215;": "x", "&nbsp;": " ", "&#160;": " ", "&amp;": "&", "&lt;": "<", "&gt;": ">",
    "&ndash;": "-", "&mdash;": "-", "&minus;": "-", "&quot;": '"', "&#39;": "'", "&ast;": "*", "&#42;": "*",
    "&lsqb;": "[", "&rsqb;": "]",
}  # fmt: skip
# "-> 18", "--> (18)", "=> 18": what the round comes to.
_ARROW = re.compile(r"(?:-{1,3}|={1,2})>(?=\s*[\d(\[])")
# Ticks, hearts and faces: signs of joy, and no marks of a pattern.
_PICTURE = re.compile("[\u2600-\u27bf\ufe0f\U0001f300-\U0001faff]")
_ENTITY = re.compile("|".join(map(re.escape, _ENTITIES)))
_ESCAPE = re.compile(r"\\([*\[\]()#>~+.!<\-{}|])")
_TAG = re.compile(r"</?(?:b|i|u|em|strong|br|p|span|sub|sup|small|mark|del|ins|font)(?:\s[^<>]{0,200})?/?>", re.IGNORECASE)
_BOLD_START = re.compile(r"^(\s*(?:[-*•]\s+)?)(\*\*)([^*]{1,80}?)(\*\*)")
# "**10 sc, 2 sc in next st** x 2": a list with a number of times behind it is no label.
_BOLD_REPEAT = re.compile(r"\s*\d+ ?x? ?[a-z][^:*]*,[^:*]*\*\*\s*(?:x\s?\d|\d+\s?(?:x|times)\b)", re.IGNORECASE)
# Bold in mid-round: "6 sc, **4 sc**, 8 sc"; doubled stars that repeat have a list between them or "rep" behind.
_BOLD_INSIDE = re.compile(r"(?<=[,(] )\*\*([^*,;]{1,40}?)\*\*(?=\s*[,;)])")
_BOLD_LABEL = re.compile(
    r"\s*(?:(?:r(?:oun)?n?ds?|rows?|r|foundation|next|set-?up|base|final|last)\b|\d|r\d|[a-z][a-z ]{1,30}:\s*$|[a-z ]{1,30}$)",
    re.IGNORECASE,
)
_EMPHASISED_COUNT = re.compile(r"(?<=\s)(\*{1,3}|_{1,2})([(\[]?\s*=?\s*\d[\d\s,+a-z.\-]{0,60}[)\]]?\.?)(\1)(\s*\.?\s*)$", re.IGNORECASE)


def _blank(match: re.Match[str]) -> str:
    return " " * len(match[0])


def _unbold(match: re.Match[str]) -> str:
    if not _BOLD_LABEL.match(match[3]) or _BOLD_REPEAT.match(match.string, match.start(3)):
        return match[0]
    return f"{match[1]}  {match[3]}  "


# A label with nothing worked behind it yet: "Rnd 3 (RS): ", "5. ", "Rnd 13 - [12] ", "Row 7: turn, ch 1, ".
_UNWORKED = re.compile(
    r"(?:[^:]*+:|[\s*]*+(?:(?:rnd|round|row|rd|r|st|nd|th|s|and|to|thru|through)\b|[\d\s.,&~|>)-])*+)\s*+(?:[(\[]\d+[)\]])?(?:[\s.,;]|and\b|turn\b|ch(?:ain)?\s?\d\b)*+", re.IGNORECASE
)


def _bracketed(match: re.Match[str]) -> str:
    """"*24 sts*" and "**24**" as a count in brackets; "**(24)**" has its own; "*4 sc, inc*" is a repeat."""
    marks, inner, end = match[1], match[2], match[4]
    if re.search(r"[,+]\s*[^\W\d]", inner) or marks == "*" and re.search(r"\d\s*[,+]|[a-z]", inner) and _UNWORKED.fullmatch(match.string, 0, match.start()):
        return match[0]
    if inner.lstrip()[:1] in "([":
        return f"{' ' * len(marks)}{inner}{' ' * len(marks)}{end}"
    return f"{'(':>{len(marks)}}{inner}{')':<{len(marks)}}{end}"


@lru_cache(maxsize=1024)
def normalise(text: str) -> str:
    """*text* with look-alikes, typographic signs, escapes, entities and emphasis made plain; same length.

    >>> normalise("**Rnd 4:** (2 sc, inc) × 6 – 24 sc")
    '  Rnd 4:   (2 sc, inc) x 6 - 24 sc'
    """
    if text.rstrip(" .").endswith("_"):
        text = _EMPHASISED_COUNT.sub(_bracketed, text)
    if not text.isascii():
        text = _PICTURE.sub(_blank, text.translate(_SIGNS).translate(_LOOKALIKES))
    elif "_" in text or "\t" in text or "`" in text:
        text = text.translate(_SIGNS)
    if "&" in text:
        text = _ENTITY.sub(lambda match: _ENTITIES[match[0]].ljust(len(match[0])), text)
    if "\\" in text:
        text = _ESCAPE.sub(r" \1", text)
    if "<" in text:
        text = _TAG.sub(_blank, text)
    if ">" in text:
        text = _ARROW.sub(lambda match: f"{'=':>{len(match[0])}}", text)
    if "**" in text:
        text = _BOLD_INSIDE.sub(lambda match: f"  {match[1]}  ", text)
        text = _BOLD_START.sub(_unbold, text, count=1)
    if text.rstrip(" .").endswith("*"):
        text = _EMPHASISED_COUNT.sub(_bracketed, text)
    return text

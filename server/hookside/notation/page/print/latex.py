r"""A page as it is written for a typesetter: "\subsection{Mantle}", "\item (sc, inc) $\times$ 5 \hfill (15)".

Commands become what they print: headings their sign, items of a numbered list their numbers, the rest blanks.
The length stays.
"""

from __future__ import annotations

import re

_HINTS = ("\\item", "\\section", "\\subsection", "\\hfill", "\\begin{")
_COMMENT = re.compile(r"(?<!\\)%[^\n]*")
_HEADING = re.compile(
    r"^(?P<lead>[ ]{0,8})\\(?:sub){0,2}(?:section|paragraph|chapter|part)\*?[ ]?\{(?P<name>[^\n]{1,120}?)\}[ ]*$", re.M
)
_RUN_IN = re.compile(r"\\(?:sub)?paragraph\*?[ ]?\{(?P<name>[^{}\n]{1,80})\}")  # with its text behind it
_DRESS = re.compile(r"\\(?:text(?:bf|it|sc|tt|sl|rm)|emph|underline|mbox)[ ]?\{(?P<told>[^{}\n]{0,200})\}")
_TIMES = re.compile(r"\$[ ]?\\(?:times|cdot)[ ]?\$|\\(?:times|cdot)(?![a-zA-Z])|\\texttimes(?:\{\})?")
_LIST = re.compile(
    r"\\(?P<end>begin|end)[ ]?\{(?P<kind>enumerate|itemize|description)\}(?P<more>\[[^\]\n]{0,60}\])?|"
    r"\\setcounter\{enumi\}\{(?P<set>\d{1,3})\}|\\item(?:\[(?P<own>[^\]\n]{1,30})\])?"
)
_OWN_LABEL = re.compile(r"[ ]*(?:(?:rounds?|rnds?|rows?|rds?|r)\.?[ ]?)?\d{1,3}(?:[ ]?-[ ]?\d{1,3})?[ ]?[:.)]", re.I)
_SPACE = re.compile(
    r"\\(?:hfill|quad|qquad|dotfill|newline|noindent|bigskip|medskip|smallskip|par)(?![a-zA-Z])|"
    r"\\[,;! \\]"
)
_ENVIRONMENT = re.compile(r"\\(?:begin|end|documentclass|usepackage|title|author|date|maketitle|label)\b[^\n]*")
_SIGN = re.compile(r"\\(?P<sign>[&%#$_])")


def printed(text: str) -> str:
    """The page as such commands print it."""
    if not any(hint in text for hint in _HINTS):
        return text
    text = _COMMENT.sub(lambda m: " " * len(m[0]), text)
    for _ in range(2):  # one dress within the other
        text = _DRESS.sub(lambda m: m["told"].ljust(len(m[0])), text)
    text = _HEADING.sub(lambda m: f"{m['lead']}# {m['name']}".ljust(len(m[0])), text)
    text = _RUN_IN.sub(lambda m: f"{m['name']}:".ljust(len(m[0])), text)
    text = _TIMES.sub(lambda m: "x".center(len(m[0])), text)
    text = _itemized(text)
    text = _SPACE.sub(lambda m: " " * len(m[0]), text)
    text = _ENVIRONMENT.sub(lambda m: " " * len(m[0]), text)
    return _SIGN.sub(lambda m: m["sign"].rjust(2), text)


def _itemized(text: str) -> str:
    parts: list[str] = []
    at = count = 0
    kinds: list[str] = []
    for match in _LIST.finditer(text):
        put = ""
        if match["set"]:
            count = int(match["set"])
        elif match["end"]:
            if match["end"] == "begin":
                kinds.append(match["kind"])
                start = re.search(r"start[ ]?=[ ]?(\d{1,3})", match["more"] or "")
                resumed = "resume" in (match["more"] or "")
                count = int(start[1]) - 1 if start else count if resumed else 0
            elif kinds:
                kinds.pop()
        elif match["own"]:
            put = f"{match['own'].rstrip(' .:)')}:"
        elif kinds and kinds[-1] == "enumerate" and not _OWN_LABEL.match(text, match.end()):
            count += 1
            put = f"{count}:"
        parts += [text[at : match.start()], put.ljust(len(match[0]))[: len(match[0])]]
        at = match.end()
    return "".join([*parts, text[at:]])

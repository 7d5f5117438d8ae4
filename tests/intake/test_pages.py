"""Web pages, Markdown and plain text as files. Demo patterns."""

from __future__ import annotations

import pytest

from hookside.compile import read
from hookside.intake import take

PAGE = """<!doctype html><html><head><title>Grey Gull</title><style>p { color: red }</style>
<script>var rnd = "Rnd 99: 6 sc (6)";</script></head>
<body><nav><a>Home</a> <a>Rnd 98: shop</a></nav>
<article><h1>Grey Gull</h1><p>US terms. Hook: 3&nbsp;mm</p>
<h2>Body</h2>
<p>Rnd 1: 6 sc in magic ring (6)<br>Rnd 2: inc &times; 6 (12)<br/>Rnd 3: (sc, <b>inc</b>) x 6 (18)</p>
<table><tr><th>Rnd</th><th>Work</th><th>Count</th></tr><tr><td>4</td><td>sc around</td><td>18</td></tr></table>
<p>Stuff &amp; fasten off.</p>
<h2>Beak</h2><ol><li>4 sc in magic ring (4)</li><li>sc around (4)</li></ol>
</article><aside>Rnd 97: newsletter</aside></body></html>
"""


def test_a_web_page_gives_its_article_alone() -> None:
    found = take(PAGE.encode(), "gull.html")
    assert found.kind == "html"
    for gone in ("Rnd 99", "Rnd 98", "Rnd 97", "color: red", "<p>"):
        assert gone not in found.text
    pattern = read(found.text)
    assert pattern.title == "Grey Gull"
    assert [[c.makes for c in p.courses] for p in pattern.pieces if p.courses] == [[6, 12, 18, 18], [4, 4]]
    assert [p.name for p in pattern.pieces if p.courses] == ["Body", "Beak"]


def test_markdown_is_text_as_it_is() -> None:
    text = "# Gull\n\n## Body\n\n1. 6 sc in magic ring (6)\n2. inc x 6 (12)\n"
    assert take(text.encode(), "gull.md").text == text


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_text_in_whatever_letters(encoding: str) -> None:
    text = "Rnd 1: 6 sc \u2013 \u201cmagic ring\u201d (6)\n"
    found = take(text.encode(encoding), "gull.txt")
    assert (found.kind, found.text) == ("text", text)


def test_tags_that_are_never_closed() -> None:
    found = take(b"<html><body><p>Rnd 1: 6 sc<p>Rnd 2: inc<ul><li>Stuff<b>", "open.html")
    assert [line for line in found.text.splitlines() if line] == ["Rnd 1: 6 sc", "Rnd 2: inc", "- Stuff"]


def test_a_piece_of_a_page_with_struck_and_hidden_words() -> None:
    source = (
        "<p>Rnd 1: 6 sc in magic ring (6)</p>\n<p>Rnd 2: <del>sc around</del> inc x 6 (12)</p>\n"
        '<div hidden><p>Rnd 96: 3 sc</p></div>'
        '<p style="display: none">Rnd 95: 3 sc</p>\n'
        "<p>Rnd 3: sc around (12)</p>\n"
    )
    found = take(source.encode(), "gull.html")
    assert found.kind == "html"
    assert found.said == ["This page hides some of its words from its readers; those are left out."]
    assert not any(gone in found.text for gone in ("<p>", "Rnd 96", "Rnd 95"))
    pattern = read(found.text)
    assert [c.makes for c in pattern.pieces[0].courses] == [6, 12, 12]
    assert [f.code for f in pattern.findings] == ["struck"]

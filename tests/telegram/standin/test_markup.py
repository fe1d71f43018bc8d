"""HTML as the stand-in reads it: what https://core.telegram.org/bots/api#html-style allows, and nothing else.

The wording of refusals is that of TDLib, value from memory.
"""

from __future__ import annotations

import pytest

from .markup import read_html
from .refusals import Refusal
from .rig import ANN, Rig, bad

HTML = "HTML"
TAGS = ["b", "strong", "i", "em", "u", "ins", "s", "strike", "del", "code", "pre", "tg-spoiler", "blockquote"]


@pytest.mark.parametrize(
    ("html", "fault"),
    [
        ("<b>x", 'Can\'t find end tag corresponding to start tag "b"'),
        ("x</b>", "Unexpected end tag at byte offset 1"),
        ("<b><i>x</b></i>", 'Unmatched end tag at byte offset 7, expected "</i>", found "</b>"'),
        ("ü<p>x</p>", 'Unsupported start tag "p" at byte offset 2'),
        ("x<br/>y", 'Unsupported start tag "br/" at byte offset 1'),
        ("1 < 2", 'Unsupported start tag "" at byte offset 2'),
        ("<b x", 'Unclosed start tag "b" at byte offset 0'),
        ("<b>x</b", "Unclosed end tag at byte offset 4"),
        ("1 > 2", "Unescaped '>' at byte offset 2"),
        ("nuts & bolts", "Unsupported HTML entity or unescaped '&' at byte offset 5"),
        ("a&nbsp;b", "Unsupported HTML entity or unescaped '&' at byte offset 1"),
        ("&#xD800;", "Invalid numeric HTML entity at byte offset 0"),
        ("<span>x</span>", 'Tag "span" must have class "tg-spoiler" at byte offset 0'),
        ("<b class='x'>y</b>", 'Attribute "class" in the tag "b" at byte offset 0'),
        ("<code><b>x</b></code>", 'Tag "b" inside of "code" at byte offset 6'),
        ("<blockquote><blockquote>x</blockquote></blockquote>", "Blockquotes can't be nested at byte offset 12"),
        ("<tg-emoji>x</tg-emoji>", "Invalid custom emoji identifier specified at byte offset 0"),
    ],
)
def test_html_with_a_fault_is_refused(rig: Rig, html: str, fault: str) -> None:
    refused = rig.refusal(rig.bot.send_message(ANN, html, parse_mode=HTML))
    assert refused == bad(f"can't parse entities: {fault}")


def test_html_is_read_into_entities_of_utf16_units(rig: Rig) -> None:
    html = '\U0001f527 <b>a <i>b</i></b> &amp;&#39; <a href="https://x.example/?a=1&amp;b=2">c</a> <s>d</s>'
    html += (
        '<pre><code class="language-py">e</code></pre><tg-spoiler>f</tg-spoiler><blockquote expandable>g</blockquote>'
    )
    sent = rig.run(rig.bot.send_message(ANN, html, parse_mode=HTML))
    assert sent.text == "\U0001f527 a b &' c defg"
    found = [(one.type.value, one.offset, one.length) for one in sent.entities]
    assert found == [
        ("bold", 3, 3),
        ("italic", 5, 1),
        ("text_link", 10, 1),
        ("strikethrough", 12, 1),
        ("pre", 13, 1),
        ("spoiler", 14, 1),
        ("blockquote", 15, 1),
    ]
    assert sent.entities[2].url == "https://x.example/?a=1&b=2"
    assert sent.entities[4].language == "py"
    assert rig.server.last(ANN).html == html


@pytest.mark.parametrize(
    "tag", ["b", "strong", "i", "em", "u", "ins", "s", "strike", "del", "code", "pre", "tg-spoiler", "blockquote"]
)
def test_every_tag_that_may_be_used_is_taken(tag: str) -> None:
    read = read_html(f"<{tag}>x</{tag}>")
    assert (read.plain, len(read.entities)) == ("x", 1)


def test_html_of_an_attribute_that_is_cut_short_is_refused() -> None:
    with pytest.raises(Refusal, match='Unclosed start tag "a"'):
        read_html('<a href="x>y</a>')

"""Pages as browsers and other readers see them: valid, silent, legible, as written."""

from __future__ import annotations

import http.server
import re
import subprocess
import threading
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest

from logbook.publish.html import to_html
from tests.needs import needs
from tests.publish.hostile import hostile
from tests.publish.parsed import fragment, pages_of, tree
from tests.publish.stand import Stand

pytestmark = pytest.mark.xdist_group("publish")


def test_every_page_parses_without_an_error_and_says_its_language(
    stand: Stand,
) -> None:
    pages = pages_of(stand)
    assert len(pages) == 5
    for html in pages.values():
        root = tree(html)
        assert root.get("lang") == "en"
        assert root.findtext("head/title")
        levels = [int(e.tag[1]) for e in root.iter() if re.fullmatch("h[1-6]", e.tag)]
        assert levels.count(1) == 1
        assert all(below - above <= 1 for above, below in pairwise(levels))
        assert all(e.get("alt") for e in root.iter("img"))
        assert all(e.get("scope") == "col" for e in root.iter("th"))


def test_no_page_holds_a_script_or_names_anything_to_be_fetched(
    stand: Stand,
) -> None:
    for html in pages_of(stand).values():
        root = tree(html)
        tags = {element.tag for element in root.iter()}
        assert not tags & {"script", "iframe", "object", "embed", "base", "form"}
        for element in root.iter():
            loaded = [element.get(name) for name in ("src", "srcset", "poster")]
            loaded += [element.get("href")] if element.tag == "link" else []
            assert all(one.startswith("data:") for one in loaded if one)
            assert not [name for name in element.attrib if name.startswith("on")]
        assert "url(" not in html
        assert "@import" not in html


def test_links_within_a_page_lead_somewhere(stand: Stand) -> None:
    for html in pages_of(stand).values():
        root = tree(html)
        ids = [e.get("id") for e in root.iter() if e.get("id")]
        assert len(ids) == len(set(ids))
        inner = [e.get("href", "")[1:] for e in root.iter("a")]
        marks = [e.get("href", "") for e in root.iter("a")]
        assert any(mark.startswith("#") for mark in marks)
        for mark, name in zip(marks, inner, strict=True):
            assert not mark.startswith("#") or name in ids


QUIET = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
)  # fmt: skip


class Listener:
    """A web server that only writes down who asked for what."""

    def __init__(self) -> None:
        asked: list[str] = []

        class Handler(http.server.BaseHTTPRequestHandler):
            def do_GET(self) -> None:
                asked.append(self.path)
                self.send_error(404)

            def log_message(self, *_: object) -> None:
                pass

        self.asked = asked
        self.server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Handler)
        self.address = f"http://127.0.0.1:{self.server.server_address[1]}"
        threading.Thread(target=self.server.serve_forever, daemon=True).start()


@pytest.fixture
def listener() -> Iterator[Listener]:
    made = Listener()
    yield made
    made.server.shutdown()
    made.server.server_close()


def browse(place: Path, profile: Path) -> tuple[str, str]:
    """Open a page in the browser; give its DOM and what the console said."""
    done = subprocess.run(
        ["chromium", *QUIET, f"--user-data-dir={profile}", "--enable-logging=stderr",
         "--virtual-time-budget=3000", "--dump-dom", place.as_uri()],
        capture_output=True, text=True, timeout=300, check=True,
    )  # fmt: skip
    console = [line for line in done.stderr.splitlines() if ":CONSOLE" in line]
    return done.stdout, "\n".join(console)


@needs("chromium")
def test_the_browser_finds_no_error_and_asks_nobody_for_anything(
    stand: Stand, tmp_path: Path, listener: Listener
) -> None:
    hostile(stand, f"![x]({listener.address}/p.png) <img src={listener.address}/i>")
    pages_of(stand)
    folder = stand.bench.top / "as-built/published"
    for name in ("1.0/guide.html", "errata.html"):
        dom, console = browse(folder / name, tmp_path / "profile")
        assert "<h1" in dom
        assert console == ""
    assert listener.asked == []


@needs("chromium")
def test_the_check_above_would_hear_a_request_and_a_console_error(
    tmp_path: Path, listener: Listener
) -> None:
    place = tmp_path / "loud.html"
    place.write_text(
        f"<!DOCTYPE html><title>x</title><img src={listener.address}/p.png>"
        "<script>console.error('loud')</script>"
    )
    _, console = browse(place, tmp_path / "profile")
    assert "loud" in console
    assert "/p.png" in listener.asked


def test_each_cell_of_a_wide_table_names_its_column_for_a_narrow_screen() -> None:
    said = "**affected**: way round available"
    rows = f"| fault | release 1.0 | so? |\n|---|---|---|\n| crack | {said} | – |\n"
    table = fragment(to_html(rows)).find(".//table")
    assert table is not None
    assert (table.get("class"), table.get("role")) == ("stack", "table")
    cells = [cell.get("data-label") for cell in table.iter("td")]
    assert cells == [None, "release 1.0:", "so?"]
    # A cell with nothing to say is not laid out as a line of its own.
    assert [cell.get("class") for cell in table.iter("td")] == [None, None, "nothing"]
    times = "| step | meant | took in build 1 |\n|---|---|---|\n| fold it | 1 h | – |\n"
    short = fragment(to_html(times)).find(".//table")
    assert short is not None
    assert short.get("class") is None, "three columns of short words fit side by side"
    two = fragment(to_html("| tool | in step |\n|---|---|\n| saw | 1 |\n"))
    found = two.find(".//table")
    assert found is not None
    assert found.get("class") is None


def test_a_size_is_not_broken_from_its_unit_or_between_its_sides() -> None:
    html = to_html("sheet 60.0 × 50.0 × 14.0 mm, 2.0 mm thick, at 58 °C, bar 20 × 10")
    for size in ("60.0 × 50.0 × 14.0 mm", "2.0 mm", "58 °C", "20 × 10"):
        assert f'<span class="size">{size}</span>' in html
    assert to_html("4 × M3 screw in 2 places") == "<p>4 × M3 screw in 2 places</p>\n"
    assert to_html("`bar 20 × 10`") == "<p><code>bar 20 × 10</code></p>\n"

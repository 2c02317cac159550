"""The reading room in a real browser: read, search, listen, check by keyboard alone; nothing from outside."""

import re
from collections.abc import Callable, Iterator
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from rooms import FINAL, MARKUP, PLAIN, WHOLE

from hikite.evaluate.golds import read_gold

sync_api = pytest.importorskip("playwright.sync_api", reason="Playwright is not installed")
axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason="axe-playwright-python is missing")

SAMPLES = Path(__file__).parents[2] / "samples"
CHROMIUM = Path("/usr/bin/chromium")
pytestmark = pytest.mark.skipif(
    not CHROMIUM.exists(), reason="no /usr/bin/chromium: apt-get install chromium"
)


@pytest.fixture(scope="module")
def browser() -> Iterator[sync_api.Browser]:
    with sync_api.sync_playwright() as play:
        # Without its sandbox, which cannot be had inside most containers; only our own pages are opened.
        opened = play.chromium.launch(executable_path=str(CHROMIUM), args=["--no-sandbox"])
        yield opened
        opened.close()


class Visit:
    """One reader at one room, with all that went over the network and all that went wrong."""

    def __init__(self, browser: sync_api.Browser, at: str, **given: object) -> None:
        self.at, self.faults, self.asked = at, [], []
        self.context = browser.new_context(base_url=at, **given)
        self.page = self.context.new_page()
        self.page.set_default_timeout(20_000)
        self.page.on("console", self._told)
        self.page.on("pageerror", lambda error: self.faults.append(str(error)))
        self.page.on("dialog", lambda dialog: (self.faults.append(dialog.message), dialog.dismiss()))
        self.context.on("request", lambda one: self.asked.append(one.url))

    def _told(self, message: sync_api.ConsoleMessage) -> None:
        # A search that cannot be understood is answered with 400, which browsers note.
        if message.type == "error" and "status of 400" not in message.text:
            self.faults.append(message.text)

    def sign(self, name: str) -> None:
        self.page.goto("/")
        self.page.get_by_label("Reviewer").fill(name)
        self.page.keyboard.press("Enter")
        self.page.get_by_text(f"Reading as {name}").wait_for()

    def answered(self) -> None:
        """The page that tells what was done is here whole; before its script ran no key is heard."""
        self.page.get_by_role("status").wait_for()
        self.page.wait_for_load_state()

    def final(self, recording: int = PLAIN) -> str:
        self.page.goto(f"/recordings/{recording}")
        return self.page.locator("b.final").first.inner_text()

    def close(self) -> None:
        self.context.close()
        assert self.faults == []
        assert {urlsplit(url).netloc for url in self.asked} == {urlsplit(self.at).netloc}


def until(page: sync_api.Page, holds: str) -> None:
    """Wait for it; the page's own policy forbids Playwright's way, which evaluates text in the page."""
    for _ in range(200):
        if page.evaluate(holds):
            return
        page.wait_for_timeout(50)
    pytest.fail(f"never came true: {holds}")


@pytest.fixture
def visit(browser: sync_api.Browser, serve: Callable[..., str]) -> Iterator[Callable[..., Visit]]:
    """Opens visits to one room; each must end without a fault and without any request to elsewhere."""
    at = serve()
    visits: list[Visit] = []

    def open_(**given: object) -> Visit:
        visits.append(Visit(browser, at, **given))
        return visits[-1]

    yield open_
    for one in visits:
        one.close()


def test_from_the_shelf_to_the_talk_by_keyboard(visit: Callable[..., Visit]) -> None:
    page = visit().page
    page.goto("/")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "To the text"
    page.get_by_role("link", name="Three Lighthouses Cup, Marrowick: final, 79 kg").focus()
    page.keyboard.press("Enter")
    page.get_by_role("heading", name="Ilmar Destrow against Rafe Pennaluk").wait_for()
    page.wait_for_load_state()
    assert page.locator(".standing").count() == 3
    page.keyboard.press("n")
    first = page.evaluate("document.activeElement.closest('.note').id")
    page.keyboard.press("n")
    page.keyboard.press("b")
    assert page.evaluate("document.activeElement.closest('.note').id") == first
    # The running head follows what is read.
    page.locator(".verse").last.scroll_into_view_if_needed()
    until(page, "/4–[23]/.test(document.querySelector('.running').textContent)")


def test_search_and_narrow(visit: Callable[..., Visit]) -> None:
    page = visit().page
    page.goto("/")
    page.keyboard.press("/")
    page.wait_for_url("**/search")
    page.get_by_label("Find").fill("inner thigh throw")
    page.keyboard.press("Enter")
    page.locator(".hits li").first.wait_for()
    page.wait_for_load_state()
    before = page.locator(".hits ol > li").count()
    page.get_by_role("link", name="completed", exact=True).click()
    page.locator("a[aria-current]").wait_for()
    page.wait_for_load_state()
    after = page.locator(".hits ol > li").count()
    assert 0 < after <= before
    assert all("completed" in text for text in page.locator(".hits .what").all_inner_texts())
    page.locator(".hits .what a").first.click()
    page.wait_for_url("**/recordings/**")
    assert page.locator(".note:target").count() == 1


def test_a_search_is_kept_and_taken_away(visit: Callable[..., Visit]) -> None:
    reader = visit()
    reader.sign("Odrun")
    page = reader.page
    page.goto("/search?q=hip+throw")
    page.get_by_label("Keep this one as").fill("my throws")
    page.keyboard.press("Enter")
    page.get_by_role("link", name="my throws").click()
    page.wait_for_load_state()
    assert page.get_by_label("Find").input_value() == "hip throw"
    with page.expect_download() as download:
        page.get_by_role("link", name="csv").click()
    assert download.value.suggested_filename == "found.csv"
    assert "hip throw" in Path(download.value.path()).read_text("utf-8").lower()
    page.get_by_role("button", name="drop my throws").click()
    page.get_by_role("link", name="my throws").wait_for(state="detached")


def test_it_plays_from_the_word(visit: Callable[..., Visit]) -> None:
    page = visit().page
    page.goto(f"/recordings/{FINAL}")
    word = page.locator("#v14 [data-at], .verse [data-at='81000']").first
    at = int(word.get_attribute("data-at") or 0)
    word.click()
    until(page, "!document.getElementById('player').paused && player.currentTime > 0")
    heard = page.evaluate("player.currentTime") * 1000
    assert at - 50 <= heard <= at + 5_000
    page.keyboard.press("l")
    assert page.evaluate("player.paused")


def test_a_talk_without_its_recording_reads_as_well(visit: Callable[..., Visit]) -> None:
    page = visit().page
    page.goto(f"/recordings/{PLAIN}")
    assert page.locator("#player").count() == 0
    page.get_by_text("collar grip").first.click()


# The whole of checking without a mouse: correct three notes, see the ledger change, take one back, reload.
def test_three_notes_corrected_by_keyboard(visit: Callable[..., Visit]) -> None:
    reader = visit()
    reader.sign("Odrun")
    page = reader.page
    before = reader.final()
    red, blue = (int(part) for part in before.split("–"))

    def look(words: str) -> None:
        """Step with `n` to the note that says this, and look closer."""
        page.goto(f"/recordings/{PLAIN}")
        for _ in range(40):
            page.keyboard.press("n")
            if words in (page.evaluate("document.activeElement.closest('.note')?.textContent") or ""):
                break
        page.keyboard.press("Enter")
        page.wait_for_url("**/check/**")

    # One: a line of the score.
    look("double leg, not heard called" if page.get_by_text("double leg, not heard").count() else "1 point")
    page.keyboard.press("c")
    assert page.evaluate("document.activeElement.id") == "points"
    page.keyboard.type("3")
    page.keyboard.press("Enter")
    reader.answered()
    assert f"{before}" in page.get_by_role("status").inner_text()
    assert reader.final() == f"{red}–{blue + 2}"
    # Two: a name, with the suggestions that come while typing.
    look("foot-sweep" if page.get_by_text("foot-sweep").count() else "foot sweep")
    page.keyboard.press("c")
    page.keyboard.type("o soto ga")
    until(page, "document.querySelectorAll('#concepts option').length > 0")
    offered = page.evaluate("[...document.querySelectorAll('#concepts option')].map(one => one.value)")
    assert any("o-soto-gari" in one for one in offered)
    page.keyboard.press("ControlOrMeta+a")
    page.keyboard.type("o-soto-gari")
    page.keyboard.press("Enter")
    reader.answered()
    # Three: struck out.
    look("grip")
    page.keyboard.press("x")
    reader.answered()
    assert "grip" in page.get_by_role("status").inner_text()
    # All three stand after a reload, each told with the reviewer's name.
    page.goto(f"/recordings/{PLAIN}")
    page.reload()
    told = page.locator("ol.talk").inner_text()
    assert "o-soto-gari" in told
    assert "corrected by Odrun" in told
    assert "struck out by Odrun" in told
    # Take the last back with one key, then the score's from the list of decisions.
    page.keyboard.press("z")
    reader.answered()
    assert "struck out" not in page.locator("ol.talk").inner_text()
    page.get_by_role("link", name="decisions").focus()
    page.keyboard.press("Enter")
    page.get_by_role("row", name=re.compile("3 points")).get_by_role("button").focus()
    page.keyboard.press("Enter")
    page.get_by_text("taken back").nth(1).wait_for()
    assert reader.final() == before


# A whole sample, garbled by a recogniser, checked without a mouse until its score is the labelled one.
def test_a_bout_by_keys_alone(visit: Callable[..., Visit]) -> None:
    reader = visit()
    reader.sign("Odrun")
    page, keys = reader.page, reader.page.keyboard

    def look_at(note: str) -> None:
        page.goto(f"/recordings/{WHOLE}")
        for _ in range(80):
            keys.press("n")
            told = page.evaluate("document.activeElement.closest('.note')?.textContent ?? ''")
            if re.search(note, " ".join(told.split())):
                break
        keys.press("Enter")
        page.wait_for_url("**/check/**")

    # Two lines that were not there, one that was, one throw that came off after all.
    look_at("Dosta .*passivity, 1 point")
    keys.press("x")
    reader.answered()
    look_at("Runeborg .*body lock, .*2 points")
    keys.press("x")
    reader.answered()
    look_at("Dosta .*ura-nage .*5 points")
    keys.press("a")
    reader.answered()
    look_at("Runeborg .*gut wrench, failed")
    for key in ("c", "Tab", "Tab"):
        keys.press(key)
    keys.type("comp")
    keys.press("Enter")
    reader.answered()
    at = page.evaluate("document.querySelector('.verse.here').id")
    keys.press("k")
    page.wait_for_url(f"**/recordings/{WHOLE}#{at}")
    gold = read_gold(SAMPLES / "quarter-final-87kg.gold.json")
    red, blue, standings = 0, 0, []
    for row in gold.rows:
        red, blue = (
            red + (row.points or 0) * (row.side == "red"),
            blue + (row.points or 0) * (row.side == "blue"),
        )
        standings.append(f"{red}–{blue}")
    shown = page.locator(".standing").all_inner_texts()
    assert [one.removeprefix("score now").strip() for one in shown] == standings


def test_from_statement_to_statement_by_keys(visit: Callable[..., Visit]) -> None:
    reader = visit()
    reader.sign("Odrun")
    page = reader.page
    page.goto(f"/recordings/{PLAIN}")
    for key in ("d", "d", "u"):
        page.keyboard.press(key)
    assert page.evaluate("document.activeElement.closest('.verse').id") == "v0"
    page.keyboard.press("d")
    page.keyboard.press("m")
    page.wait_for_url(f"**/recordings/{PLAIN}/verse/1")


def test_what_was_missed_with_the_words_selected(visit: Callable[..., Visit]) -> None:
    reader = visit()
    reader.sign("Odrun")
    page = reader.page
    page.goto(f"/recordings/{PLAIN}")
    page.get_by_text("nothing comes of it").first.evaluate(
        "one => { const range = document.createRange(); range.selectNodeContents(one);"
        " getSelection().removeAllRanges(); getSelection().addRange(range); }"
    )
    page.keyboard.press("m")
    page.wait_for_url("**/verse/**")
    assert "nothing comes of it" in page.get_by_label("Words that say so").input_value()
    page.get_by_label("Kind").select_option("technique")
    page.get_by_label("It was").fill("ankle pick")
    page.keyboard.press("Enter")
    page.wait_for_url(f"**/recordings/{PLAIN}?after=*")
    assert "added by Odrun" in page.locator("ol.talk").inner_text()


def test_a_second_reviewer_has_a_reading_of_their_own(visit: Callable[..., Visit]) -> None:
    one, two = visit(), visit()
    one.sign("Odrun")
    two.sign("Teshka")
    before = one.final()
    one.page.get_by_role("link", name=re.compile("look closer at note")).first.click()
    one.page.wait_for_url("**/check/**")
    one.page.keyboard.press("x")
    one.answered()
    assert two.final() == before
    assert "struck out" not in two.page.locator("ol.talk").inner_text()
    two.page.get_by_role("link", name="Odrun").click()
    two.page.get_by_text("struck out by Odrun").wait_for()


def test_markup_in_captions_does_nothing(visit: Callable[..., Visit]) -> None:
    reader = visit()
    reader.sign("Odrun")
    page = reader.page
    for path in (f"/recordings/{MARKUP}?all=1", "/search?q=said+script", f"/recordings/{MARKUP}/verse/0"):
        page.goto(path)
        assert "broken" not in page.title()
        assert page.evaluate("document.querySelectorAll('main img, main script, main svg').length") == 0
    page.goto(f"/recordings/{MARKUP}")
    assert "<script>" in page.locator("ol.talk").inner_text()


def test_without_its_script_everything_still_goes(
    browser: sync_api.Browser, serve: Callable[..., str]
) -> None:
    reader = Visit(browser, serve(), java_script_enabled=False)
    reader.sign("Odrun")
    page = reader.page
    page.goto(f"/recordings/{PLAIN}/check")
    page.get_by_role("button", name="Accept").click()
    reader.answered()
    reader.close()


# axe-core (Deque, MPL-2.0; in tests alone), its rules for WCAG A and AA: nothing serious on any page.
@pytest.mark.parametrize("wide", [1280, 390])
def test_axe_finds_nothing_serious(visit: Callable[..., Visit], wide: int) -> None:
    reader = visit(viewport={"width": wide, "height": 800}, bypass_csp=True)
    reader.sign("Odrun")
    page = reader.page
    found = []
    for path in (
        "/", f"/recordings/{FINAL}", f"/recordings/{MARKUP}?all=1", f"/recordings/{PLAIN}/check",
        f"/recordings/{PLAIN}/verse/2", "/search?q=hip+throw", "/search?q=within", "/numbers", "/signs",
        f"/recordings/{PLAIN}/decisions",
    ):  # fmt: skip
        page.goto(path)
        # Nothing hangs over the edge of a phone's screen.
        assert page.evaluate("document.documentElement.scrollWidth") <= wide, path
        if wide < 1000 and path not in (f"/recordings/{PLAIN}/check", "/search?q=hip+throw"):
            continue
        results = axe.Axe().run(page).response
        assert results["passes"], path
        found += [
            (path, one["id"], [node["html"][:120] for node in one["nodes"][:3]])
            for one in results["violations"]
            if one["impact"] in ("serious", "critical")
        ]
    assert found == []

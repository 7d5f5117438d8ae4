"""Work by voice in a real browser: the real worklet, the real line, the real engine; only the sound card is ours."""

from __future__ import annotations

import contextlib
import os
import re
import shutil
import signal
import wave
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hands_free import MICROPHONE, SOUNDS, VOICE, at, moved_from, say, say_until, sign, start_hands_free
from pages import PHONE, at_bench, heading, opened, touch
from playwright.sync_api import expect
from test_bench import SEAL, begin
from test_link import waits_for
from tests.conftest import CHROMIUM

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser, Page
    from tests.conftest import LiveServer

# Demo: a fishing float of few rounds, with a pause, a stop, and an ending.
BOB = """LITTLE BOB
US terms

BOB
Rnd 1: 6 sc in a magic ring. (6)
Rnd 2: inc x 6 (12)
Change to white.
Rnd 3: (sc, dec) x 4 (8)
Stuff the bob.
Rnd 4: dec x 4 (4)
Fasten off, leaving a 20 cm tail.
"""


@pytest.fixture
def bench(server: LiveServer, chromium: Browser) -> Iterator[Page]:
    """The bench of a small piece, with a microphone that plays what the test says."""
    making = begin(server, BOB)
    with opened(chromium, f"{server.url}/#/bench/{making}", PHONE, away=True) as page:
        page.add_init_script(MICROPHONE)
        page.reload()
        at_bench(page)
        yield page


def finished(server: LiveServer) -> bool:
    _, shelf = server.api("GET", "/api/shelf")
    return bool(shelf["makings"][0]["finished"])


def test_a_whole_piece_by_voice_alone(server: LiveServer, bench: Page) -> None:
    page = bench
    start_hands_free(page)
    halted: list[str] = []
    for _ in range(30):
        before = at(page)
        if before.startswith("Finished"):  # what the screen shows then is fetched on the way
            break
        if page.locator(".halt.waits").count():
            halted.append(heading(page).inner_text())
            # The foot tells which words it waits for, once what was heard last has gone.
            expect(page.locator(".ear-heard")).to_contain_text("say “", timeout=20_000)
            page.wait_for_timeout(600)  # hands do it; what is said at once was said for the round before
            say_until(page, "job-complete", moved_from(page, before))
        else:
            page.wait_for_timeout(600)
            say_until(page, "round-finished", moved_from(page, before))
    assert any("tuff" in title for title in halted), halted
    assert any("asten" in title for title in halted), halted
    expect(heading(page)).to_have_text(re.compile("All is worked"))
    page.wait_for_timeout(300)
    assert finished(server)
    # The page was not touched after its start, and what it was told stands as moves of this one device.
    _, snapshot = server.api("GET", "/api/makings/1")
    (run,) = snapshot["state"]["runs"].values()
    assert run["at"] == snapshot["strands"][run["strand"]]["length"]


NUMBERS = ["one", "two", "three", "four", "five", "six"]
# As a maker counts this piece within the repeat: six, six increases, four times one and a decrease, four decreases.
COUNTED = [*NUMBERS, *NUMBERS, *NUMBERS[:2] * 4, *NUMBERS[:4]]


def test_a_whole_piece_by_counting_aloud(server: LiveServer, bench: Page) -> None:
    page = bench
    start_hands_free(page, "within the repeat")
    page.keyboard.press("s")  # the ring is no stitch: nobody counts it
    for number in COUNTED:
        stop = page.locator(".halt.waits")
        while stop.count():
            page.wait_for_timeout(600)
            say_until(page, "job-complete", moved_from(page, at(page)))
        # A number that was not understood is made good by the next one.
        with contextlib.suppress(AssertionError):
            say_until(page, number, moved_from(page, at(page)), times=1, patience=3000)
    while page.locator(".halt.waits").count():
        page.wait_for_timeout(600)
        say_until(page, "job-complete", moved_from(page, at(page)))
    expect(heading(page)).to_have_text(re.compile("All is worked"))


def test_what_is_heard_is_a_move_like_any_other(bench: Page) -> None:
    page = bench
    start_hands_free(page)
    say_until(page, "round-finished", lambda ms: expect(heading(page)).to_contain_text("Round 2", timeout=ms))
    expect(page.locator(".ear-heard")).to_contain_text("round finished")
    expect(page.locator(".last p")).to_have_text("Round 1 done")
    # The same undo as for a touch; and going on by touch in between.
    page.get_by_role("button", name="take it back").click()
    expect(heading(page)).to_contain_text("Round 1")
    touch(page)
    touch(page)
    expect(heading(page)).to_contain_text("Round 2")
    say_until(page, "take-that-back", lambda ms: expect(heading(page)).to_contain_text("Round 1", timeout=ms))
    expect(page.locator(":focus")).to_have_count(1)
    where = page.get_by_role("status").filter(has_text=re.compile("^Round 1"))
    say_until(page, "where-now", lambda ms: expect(where.first).to_be_visible(timeout=ms))


def test_holding_hears_only_the_words_that_end_it(bench: Page) -> None:
    page = bench
    start_hands_free(page)
    say_until(page, "stop-listening", lambda ms: expect(sign(page)).to_have_text("Holding", timeout=ms))
    expect(page.get_by_role("status").filter(has_text="wake up please")).to_be_visible()
    before = at(page)
    say(page, "round-finished")
    page.wait_for_timeout(1500)
    assert at(page) == before
    say_until(page, "wake-up-please", lambda ms: expect(sign(page)).to_have_text("Listening", timeout=ms))
    say_until(page, "round-finished", moved_from(page, before))
    # A page out of sight holds, and says so when it is looked at again. By key it listens again.
    page.evaluate(
        """() => {
            Object.defineProperty(document, "visibilityState", { value: "hidden", configurable: true });
            document.dispatchEvent(new Event("visibilitychange"));
            delete document.visibilityState;
            document.dispatchEvent(new Event("visibilitychange"));
        }"""
    )
    expect(sign(page)).to_have_text("Holding")
    expect(page.get_by_role("status").filter(has_text="out of sight")).to_be_visible()
    page.keyboard.press("m")
    expect(sign(page)).to_have_text("Listening")


def test_a_round_in_words_takes_its_count_by_voice(server: LiveServer, chromium: Browser) -> None:
    making = begin(server, SEAL)
    with opened(chromium, f"{server.url}/#/bench/{making}", PHONE) as page:
        page.add_init_script(MICROPHONE)
        page.reload()
        at_bench(page)
        page.keyboard.press("r")
        expect(heading(page)).to_contain_text("Round 2")
        page.wait_for_timeout(100)  # or it would be a bounce of the same key
        page.keyboard.press("r")
        expect(page.locator(".in-words")).to_be_visible()
        start_hands_free(page)
        asked = page.get_by_role("group", name="12 stitches?")
        say_until(page, "i-counted-twelve", lambda ms: expect(asked).to_be_visible(timeout=ms))
        # What is asked back is answered by a word, or by one touch.
        say_until(page, "yes-please", lambda ms: expect(asked).to_have_count(0, timeout=ms))
        expect(heading(page)).to_contain_text("Round 4")
        page.keyboard.press("u")
        expect(page.locator(".in-words")).to_be_visible()


def test_an_unplugged_microphone_is_told_and_comes_back(bench: Page) -> None:
    page = bench
    start_hands_free(page)
    page.evaluate("window.unplug()")
    expect(sign(page)).to_have_text("Not listening")
    expect(page.get_by_role("alert")).to_contain_text("The microphone is gone")
    touch(page)
    touch(page)
    expect(heading(page)).to_contain_text("Round 2")
    before = at(page)
    page.evaluate("navigator.mediaDevices.dispatchEvent(new Event('devicechange'))")
    expect(sign(page)).to_have_text("Listening")
    say_until(page, "round-finished", moved_from(page, before))


def test_a_server_that_restarts_is_told_and_heard_again(server: LiveServer, bench: Page) -> None:
    page = bench
    start_hands_free(page)
    server.stop()
    expect(sign(page)).to_have_text("Not listening", timeout=15_000)
    expect(page.get_by_role("alert")).to_contain_text("No connection, so nothing is heard")
    touch(page)
    touch(page)
    expect(heading(page)).to_contain_text("Round 2")
    before = at(page)
    server.start()
    expect(sign(page)).to_have_text("Listening", timeout=30_000)
    say_until(page, "round-finished", moved_from(page, before))


def hearing_process(server: LiveServer) -> int:
    """The process that hears, a child of the server."""
    assert server.process is not None
    for status in Path("/proc").glob("[0-9]*/status"):
        try:
            told = status.read_text()
            words = (status.parent / "cmdline").read_bytes()
        except OSError:
            continue
        if f"\nPPid:\t{server.process.pid}\n" in told and b"hearing" in words:
            return int(status.parent.name)
    raise AssertionError("nobody hears")


def test_an_engine_that_is_lost_is_told_and_touch_goes_on(server: LiveServer, bench: Page) -> None:
    page = bench
    start_hands_free(page)
    os.kill(hearing_process(server), signal.SIGKILL)
    expect(sign(page)).to_have_text("Not listening", timeout=15_000)
    expect(page.get_by_role("alert")).to_contain_text(re.compile("[Tt]ouch and keys go on"))
    touch(page)
    touch(page)
    expect(heading(page)).to_contain_text("Round 2")
    before = at(page)
    page.get_by_role("button", name="try again").click()
    expect(sign(page)).to_have_text("Listening", timeout=30_000)
    say_until(page, "round-finished", moved_from(page, before))


def test_another_device_takes_the_ear(server: LiveServer, chromium: Browser, bench: Page) -> None:
    page = bench
    start_hands_free(page)
    with opened(chromium, page.url, PHONE) as other:
        other.add_init_script(MICROPHONE)
        other.reload()
        at_bench(other)
        start_hands_free(other, None)
        expect(other.get_by_role("group", name="Counting aloud")).to_have_count(0)
        expect(sign(page)).to_have_text("Not listening")
        expect(page.get_by_role("alert")).to_contain_text("The ear was taken by the")
        page.get_by_role("button", name="listen here").click()
        expect(sign(page)).to_have_text("Listening")
        expect(sign(other)).to_have_text("Not listening")


def test_it_speaks_and_is_deaf_meanwhile(server: LiveServer, chromium: Browser) -> None:
    making = begin(server, BOB)
    with opened(chromium, f"{server.url}/#/bench/{making}", PHONE) as page:
        page.add_init_script(MICROPHONE + VOICE)
        page.reload()
        at_bench(page)
        page.get_by_role("button", name="Start hands-free").click()
        expect(sign(page)).to_have_text("Speaking", timeout=30_000)
        assert "Round 1: make a magic ring" in page.evaluate("spoken.at(-1)")
        page.get_by_role("button", name="no", exact=True).click()
        before = at(page)
        say(page, "round-finished")
        page.wait_for_timeout(1500)
        assert at(page) == before
        expect(sign(page)).to_have_text("Speaking")
        page.evaluate("finishSpeaking()")
        expect(sign(page)).to_have_text("Listening")
        say_until(page, "round-finished", moved_from(page, before))
        expect(sign(page)).to_have_text("Speaking")
        # The sentence of the pattern, in the maker's terms, no figures and no short forms in it.
        assert "two single crochet in each of the next six" in page.evaluate("spoken.at(-1)")
        # A touch does not wait until it has finished.
        touch(page)
        expect(page.locator(".pause-title")).to_contain_text("white")
        waits_for(page, lambda: "white" in page.evaluate("spoken.at(-1)"))
        page.evaluate("finishSpeaking()")
        expect(sign(page)).to_have_text("Listening")


def test_the_screen_is_kept_on_and_asked_for_again(server: LiveServer, chromium: Browser) -> None:
    making = begin(server, BOB)
    lock = """
        window.locks = [];
        const wakeLock = { request: async () => {
            if (window.refuse) throw new DOMException("", "NotAllowedError");
            const lock = new EventTarget();
            lock.release = async () => lock.dispatchEvent(new Event("release"));
            locks.push(lock);
            return lock;
        } };
        Object.defineProperty(navigator, "wakeLock", { value: wakeLock });"""
    with opened(chromium, f"{server.url}/#/bench/{making}", PHONE) as page:
        page.add_init_script(MICROPHONE + lock)
        page.reload()
        at_bench(page)
        start_hands_free(page)
        dark = page.get_by_text("the screen may go dark")
        expect(dark).to_have_count(0)
        assert page.evaluate("locks.length") == 1
        page.evaluate("window.refuse = true; locks[0].release()")
        expect(dark).to_be_visible()
        page.evaluate("window.refuse = false")
        touch(page)
        expect(dark).to_have_count(0)
        assert page.evaluate("locks.length") == 2


def test_what_can_be_said_is_printed_from_the_table_that_listens(server: LiveServer, bench: Page) -> None:
    page = bench
    _, voice = server.api("GET", "/api/voice")
    start_hands_free(page)
    page.locator(".ear-state").click()
    sheet = page.get_by_role("dialog")
    expect(sheet).to_contain_text("in a quiet room")
    page.get_by_role("button", name="What you can say").click()
    for row in voice["phrases"]["en"]:
        expect(sheet.locator("dd", has_text=row["says"]).first).to_be_attached()
        for phrase in row["phrases"]:
            expect(sheet.locator("dt", has_text=f"“{phrase}”").first).to_be_attached()


@pytest.fixture
def no_network(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever the server fetches, it fetches in vain, and at once."""
    for name in ("https_proxy", "HTTPS_PROXY"):
        monkeypatch.setenv(name, "http://127.0.0.1:9")  # the discard port: nobody is there


def test_a_model_is_asked_for_from_the_page_and_what_came_of_it_is_told(
    no_network: None, server: LiveServer, bench: Page
) -> None:
    page = bench
    start_hands_free(page)
    page.locator(".ear-state").click()
    page.get_by_role("button", name="Add the English model").click()
    told = page.get_by_role("dialog").get_by_role("status").last
    expect(told).to_contain_text(re.compile("network|reached|could not", re.IGNORECASE), timeout=20_000)
    page.keyboard.press("Escape")
    expect(sign(page)).to_have_text("Listening")


def test_a_recording_through_the_browsers_own_microphone(server: LiveServer, chromium: Browser, tmp_path: Path) -> None:
    """Nothing of the page is replaced: Chromium plays a file as its microphone, from the moment it is opened."""
    making = begin(server, BOB)
    rate, noise = 16_000, 7
    still = b"".join(((i * 7919) % noise - noise // 2).to_bytes(2, "little", signed=True) for i in range(4 * rate))
    with wave.open(str(SOUNDS / "slt-round-finished.wav")) as file:
        said = file.readframes(file.getnframes())
    recording = tmp_path / "round-finished.wav"
    with wave.open(str(recording), "wb") as out:
        out.setnchannels(1)
        out.setsampwidth(2)
        out.setframerate(rate)
        out.writeframes(still + said + still + said + still)
    path = os.environ.get("HOOKSIDE_CHROMIUM") or shutil.which("chromium") or shutil.which("google-chrome")
    own = chromium.browser_type.launch(
        executable_path=path,
        args=[
            *CHROMIUM, "--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream",
            f"--use-file-for-fake-audio-capture={recording}%noloop",
        ],
    )  # fmt: skip
    try:
        with opened(own, f"{server.url}/#/bench/{making}", PHONE) as page:
            at_bench(page)
            page.get_by_role("button", name="Start hands-free").click()
            # The second round ends with another colour: it halts before the stitch that is finished with it.
            expect(page.locator(".last p")).to_contain_text("11 stitches done", timeout=30_000)
            expect(page.locator(".ear-heard")).to_contain_text("round finished")
    finally:
        own.close()

"""What the hands-free tests share: a microphone that plays what the test says, into the page's real worklet."""

from __future__ import annotations

import base64
import re
from pathlib import Path
from typing import TYPE_CHECKING

from playwright.sync_api import expect

if TYPE_CHECKING:
    from collections.abc import Callable

    from playwright.sync_api import Locator, Page

SOUNDS = Path(__file__).resolve().parent.parent / "voice" / "sounds"

# In place of the sound card: a stream with the faint noise of a room, into which `say` plays what was recorded.
MICROPHONE = """
(() => {
  let context, out, opened = [];
  navigator.mediaDevices.getUserMedia = async () => {
    if (window.noMicrophone) throw new DOMException("", window.noMicrophone);
    context ??= new AudioContext();
    await context.resume();
    if (!out) {
      out = context.createGain();
      const room = context.createBuffer(1, 2 * context.sampleRate, context.sampleRate);
      const noise = room.getChannelData(0);
      for (let i = 0; i < noise.length; i++) noise[i] = (Math.random() - 0.5) * 0.0012;
      const loop = context.createBufferSource();
      loop.buffer = room;
      loop.loop = true;
      loop.connect(out);
      loop.start();
    }
    const stream = context.createMediaStreamDestination();
    out.connect(stream);
    opened.push(stream.stream.getAudioTracks()[0]);
    return stream.stream;
  };
  window.say = async sound => {
    const bytes = Uint8Array.from(atob(sound), c => c.charCodeAt(0));
    const source = context.createBufferSource();
    source.buffer = await context.decodeAudioData(bytes.buffer);
    source.connect(out);
    const ended = new Promise(done => source.onended = done);
    source.start();
    await ended;
  };
  window.unplug = () => opened.splice(0).forEach(track => { track.stop(); track.dispatchEvent(new Event("ended")); });
})();
"""

# A voice of the device that takes its time, and keeps what it was told to say.
VOICE = """
(() => {
  const told = (window.spoken = []);
  class Words { constructor(text) { this.text = text; } }
  const voice = { name: "Harbour", lang: "en-US", localService: true, default: true, voiceURI: "harbour" };
  const synth = new EventTarget();
  let now = null;
  Object.assign(synth, { speaking: false, pending: false, getVoices: () => [voice],
    speak(words) {
      told.push(words.text);
      if (words.volume === 0) return;
      now = words;
      this.speaking = true;
    },
    cancel() { this.speaking = false; now = null; } });
  window.finishSpeaking = () => { const words = now; synth.cancel(); words?.onend(); };
  Object.defineProperty(window, "speechSynthesis", { value: synth });
  window.SpeechSynthesisUtterance = Words;
})();
"""

# In place of the system's buttons: what a page would do for each. One of them this browser does not know.
HEADSET = """
window.buttons = {};
navigator.mediaSession.setActionHandler = (name, act) => {
  if (name === "play") throw new TypeError("no such button here");
  window.buttons[name] = act;
};
"""


def say(page: Page, name: str) -> None:
    """Play one utterance into the microphone, to its end."""
    sound = base64.b64encode((SOUNDS / f"slt-{name}.wav").read_bytes()).decode()
    page.evaluate("sound => window.say(sound)", sound)


def say_until(page: Page, name: str, landed: Callable[[float], None], times: int = 4, patience: float = 7000) -> None:
    """Say it, and again where it was not understood, as people do, until what it was said for has come about.

    `landed` waits up to so many milliseconds and raises AssertionError. The patience is far longer than an answer
    takes, so that nothing is said twice that was understood.
    """
    for left in range(times - 1, -1, -1):
        say(page, name)
        try:
            landed(patience)
            return
        except AssertionError:
            if not left:
                raise


def sign(page: Page) -> Locator:
    """What the ear does, in a word."""
    return page.locator(".ear-state b")


def start_hands_free(page: Page, counting: str | None = "no") -> None:
    """One touch; then the question that a maker is asked once. `counting` None: she was asked before."""
    page.get_by_role("button", name="Start hands-free").click()
    expect(sign(page)).to_have_text("Listening", timeout=30_000)
    if counting is not None:
        page.get_by_role("button", name=counting, exact=True).click()
    page.wait_for_timeout(700)  # the room is heard before the first word, as it always is


def at(page: Page) -> str:
    """The place as ears have it: all there is to tell two places apart."""
    return str(page.evaluate("[...document.querySelectorAll('.bench > .said[role=status]')].at(-1).textContent"))


def moved_from(page: Page, before: str) -> Callable[[float], None]:
    """Waits until the bench stands elsewhere."""
    place = page.locator(".bench > .said[role=status]").last

    def landed(patience: float) -> None:
        expect(place).not_to_have_text(re.compile(rf"^{re.escape(before)}$"), timeout=patience)

    return landed

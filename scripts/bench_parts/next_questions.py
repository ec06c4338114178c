"""A question to the next in a real browser, as a person's tap has it: run with the packages of the tests.

`python -m scripts.bench_parts.next_questions FOLDER` prints a list of samples as JSON. Everything waits within bounds.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

from playwright.sync_api import expect, sync_playwright

from tests.browser.conftest import FLAGS, HOW, PHONE, chromium
from tests.web.serving import Server

QUESTIONS: Final = 30
SLOWED: Final = 4  # times, as an old phone is
PATIENCE: Final = 20_000  # milliseconds
# What is measured ends with the task behind the frame that the next question is painted in. `loop` is a fixed piece of
# work done beside it: what else the machine does slows both.
_SAMPLE: Final = """async (patience) => {
  const place = document.getElementById('study');
  const until = async (true_) => {
    for (let at = 0; at < 20 && !true_(); at += 1) await null; // what is known follows without a timer
    for (const end = performance.now() + patience; !true_(); await new Promise((go) => setTimeout(go, 5))) {
      if (performance.now() > end) throw new Error('the page stands still');
    }
  };
  const painted = () => new Promise((go) => requestAnimationFrame(() => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = go;
    port2.postMessage('');
  }));
  const worked = () => {
    const begun = performance.now();
    let sum = 1;
    for (let at = 0; at < 4e6; at += 1) sum = (sum * 31 + at) | 0;
    return performance.now() - begun + (sum === 0 ? 1 : 0);
  };
  const timed = async (act) => {
    const begun = performance.now();
    await act();
    await painted();
    return performance.now() - begun;
  };

  await until(() => place.querySelector('.sure button'));
  const number = place.querySelector('#number');
  if (number) number.value = '2.43';
  for (const step of place.querySelectorAll('button.option')) step.click();
  place.querySelector('input[type=radio]')?.click();
  place.querySelector('.sure button').click();
  await until(() => place.querySelector('#verdict'));
  await new Promise((go) => setTimeout(go, 200));
  const loop = worked();
  const next = await timed(async () => {
    place.querySelector('#verdict button.go').click();
    await until(() => !place.querySelector('#verdict'));
  });
  await painted();
  const same = [...place.childNodes].map((one) => one.cloneNode(true));
  const bare = await timed(() => { place.replaceChildren(...same); place.querySelector('h1').focus(); });
  return { next, bare, loop, pictures: place.querySelectorAll('figure svg').length };
}"""


def samples(server: Server) -> Iterator[dict[str, float]]:
    """One question after the other: milliseconds to the next, of painting it bare, and of the fixed work."""
    path = chromium()
    if path is None:
        sys.exit(HOW)
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=path, args=[*FLAGS], timeout=PATIENCE)
        page = browser.new_context(viewport=PHONE, base_url=server.address).new_page()
        page.set_default_timeout(PATIENCE)
        page.goto(server.link)
        page.goto("/study?minutes=240")  # one session, as long as a pack
        expect(page.locator(".beside")).to_contain_text(" of ", timeout=PATIENCE)
        session: Any = page.context.new_cdp_session(page)
        session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
        for _ in range(QUESTIONS):
            yield page.evaluate(_SAMPLE, PATIENCE)
        browser.close()


def main(folder: Path) -> None:
    """Print the samples of one run, with a store of its own in the folder."""
    server = Server(folder / "next.db").start()
    try:
        print(json.dumps([*samples(server)]))
    finally:
        server.kill()


if __name__ == "__main__":
    main(Path(sys.argv[1]))

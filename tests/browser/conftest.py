"""A headless Chromium, steered over a pipe, and pages made from shipped and hostile cases."""

import json
import os
import shutil
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from recommender.account.page import page
from recommender.account.page_matter import Matter
from recommender.asking.nearest import lost_remedies
from recommender.bench.load import LoadedCase
from recommender.deciding.answer import Advice
from recommender.reading.shipped import shipped_cases
from recommender.rulebook.book import Rulebook

FLAGS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync", "--remote-debugging-pipe",
)  # fmt: skip
CASES = (
    "proceed/mill-2027", "proceed/orchard-2052", "proceed/lane-2041", "refuse/kiln-2014", "refuse/gate-2021",
    "measure_again/tower-2042",
)  # fmt: skip
WITH_CHANGES = "refuse/kiln-2014"


class Browser:
    """One Chromium with one tab; commands go through a pipe, events are kept until asked for."""

    def __init__(self, profile: Path) -> None:
        to_browser, self._out = os.pipe()
        self._in, from_browser = os.pipe()
        self._process = _start(profile, to_browser, from_browser)
        self._count, self._left, self.events = 0, b"", list[dict[str, Any]]()
        target = self.ask("Target.createTarget", url="about:blank")["targetId"]
        self._session = self.ask("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Log", "Network"):
            self.ask(f"{domain}.enable")

    def ask(self, method: str, **parameters: Any) -> dict[str, Any]:
        """Send a command and return its result."""
        self._count += 1
        message: dict[str, Any] = {"id": self._count, "method": method, "params": parameters}
        if hasattr(self, "_session"):
            message["sessionId"] = self._session
        os.write(self._out, json.dumps(message).encode() + b"\0")
        while True:
            answer = self._read()
            if answer.get("id") == self._count:
                assert "error" not in answer, (method, answer["error"])
                return dict(answer["result"])
            self.events.append(answer)

    def open(self, path: Path, width: int = 1200, height: int = 900) -> list[dict[str, Any]]:
        """Open a file at a width in CSS pixels, wait until it is loaded, and return what happened meanwhile."""
        self.ask(
            "Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=width < 500
        )
        self.events.clear()
        self.ask("Page.navigate", url=path.resolve().as_uri())
        while not any(each.get("method") == "Page.loadEventFired" for each in self.events):
            self.events.append(self._read())
        self.run("document.fonts.ready.then(() => 1)")
        return list(self.events)

    def run(self, script: str) -> Any:
        """Return the value of a script run in the page."""
        found = self.ask("Runtime.evaluate", expression=script, returnByValue=True, awaitPromise=True)
        assert "exceptionDetails" not in found, found
        return found["result"].get("value")

    def close(self) -> None:
        """End this browser, and only this one."""
        os.close(self._out)
        try:
            self._process.wait(10)
        except subprocess.TimeoutExpired:
            self._process.kill()
            self._process.wait(10)
        os.close(self._in)

    def _read(self) -> dict[str, Any]:
        while b"\0" not in self._left:
            got = os.read(self._in, 1 << 20)
            assert got, "the browser has ended"
            self._left += got
        message, _, self._left = self._left.partition(b"\0")
        return dict(json.loads(message))


def _start(profile: Path, to_browser: int, from_browser: int) -> "subprocess.Popen[bytes]":
    """Start Chromium with the pipe at descriptors 3 and 4, where it looks for it."""
    command = [str(shutil.which("chromium")), *FLAGS, f"--user-data-dir={profile}", "about:blank"]
    wired = ["bash", "-c", f'exec 3<&{to_browser} 4>&{from_browser} "$@"', "wired", *command]
    process = subprocess.Popen(
        wired, pass_fds=(to_browser, from_browser), stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )  # fmt: skip
    os.close(to_browser)
    os.close(from_browser)
    return process


@pytest.fixture(scope="session")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    if shutil.which("chromium") is None:
        pytest.skip("chromium is not installed; .ci/run installs it")
    made = Browser(tmp_path_factory.mktemp("profile"))
    yield made
    made.close()


@pytest.fixture(scope="session")
def pages(
    tmp_path_factory: pytest.TempPathFactory, book: Rulebook, shipped: Callable[[str], LoadedCase],
    advised: Callable[[str], Advice],
) -> dict[str, Path]:
    """Pages of some shipped cases, by the name of the case, with the nearest changes of one of them."""
    folder = tmp_path_factory.mktemp("pages")
    made = {}
    for name in CASES:
        loaded, advice = shipped(name), advised(name)
        lost = lost_remedies(loaded, advice, book) if name == WITH_CHANGES else ()
        made[name] = folder / f"{Path(name).name}.html"
        made[name].write_text(page(Matter(advice, loaded, book, shipped_cases(), lost)), "utf-8")
    return made


AXE = "axe-core@4.10.3"


@pytest.fixture(scope="session")
def axe(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The text of an accessibility checker, fetched from its registry; skipped where that cannot be reached."""
    folder = tmp_path_factory.mktemp("axe")
    npm = shutil.which("npm")
    if npm is None:
        pytest.skip("npm is not installed; own checks stand for it")
    command = [npm, "install", "--silent", "--no-audit", "--no-fund", "--ignore-scripts", "--prefix", str(folder), AXE]
    got = subprocess.run(command, capture_output=True, check=False, timeout=180)
    if got.returncode != 0:
        pytest.skip("the checker could not be fetched; own checks stand for it")
    return (folder / "node_modules/axe-core/axe.min.js").read_text("utf-8")
